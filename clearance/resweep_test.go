package clearance_test

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// An edited line's envelope is that of sweeping it anew.
func TestResweep(t *testing.T) {
	const tol = 0.01
	set := clearance.Settings{Tolerance: tol}
	long := func(rng *rand.Rand, least float64) []part {
		var p []part
		for len(p) < 25 {
			l := randomLine(t, rng, least)
			if !l.closed {
				p = append(p, l.parts...)
				p = append(p, part{length: 300})
			}
		}
		return p
	}
	for seed := range 12 {
		rng := rand.New(rand.NewPCG(uint64(seed), 21))
		v, least := randomVehicle(rng)
		parts := long(rng, least)
		// Join ends of unlike curvature are sudden changes: as good as any.
		before := build(t, parts, curve.Pose{}, false).line
		e := sweep(t, before, []clearance.Vehicle{v}, set)
		for _, at := range []int{0, len(parts) / 2, len(parts) - 1} {
			edited := slices.Clone(parts)
			edited[at].length *= 0.9
			if edited[at].shape == curve.CircularArc {
				edited[at].k0 *= 0.95
				edited[at].k1 = edited[at].k0
			}
			if rng.IntN(2) == 0 { // one element more
				edited = slices.Insert(edited, at, part{length: 111})
			}
			pose := curve.Pose{Point: r2.Vec{X: 500 * rng.Float64()}, Heading: measure.Angle(rng.Float64())}
			after := build(t, edited, pose, false).line
			got, err := e.Resweep(context.Background(), after)
			if err != nil {
				t.Fatal(err)
			}
			want := sweep(t, after, []clearance.Vehicle{v}, set)
			agree(t, "edited", 2*tol, after.Length(), func(c measure.Length, side curve.Hand) float64 { return reachAt(t, got, c, side) }, func(c measure.Length, side curve.Hand) float64 { return reachAt(t, want, c, side) })
			st := got.Stations()
			if !slices.IsSorted(st) || st[0] != 0 || st[len(st)-1] != after.Length() {
				t.Errorf("seed %d: stations from %v to %v of %v, sorted %v", seed, st[0], st[len(st)-1], after.Length(), slices.IsSorted(st))
			}
			// In plan the same place, away from the edit: the station's own.
			c := after.Length() * 0.97
			r, w := reach(t, got, c, curve.Left), reach(t, want, c, curve.Left)
			if d := float64(r.By.RearAxle - w.By.RearAxle); d > 20 || d < -20 {
				t.Errorf("seed %d: governor stands at %v, want %v", seed, r.By.RearAxle, w.By.RearAxle)
			}
			p := after.Offset(c, r.Reach+9)
			post := clearance.Structure{Figures: []clearance.Figure{{Points: []r2.Vec{p}}}}
			if g, h := audit(t, got, 5, post)[0].Gap, audit(t, want, 5, post)[0].Gap; g-h > 2*tol || h-g > 2*tol {
				t.Errorf("seed %d: gap %v, want %v", seed, g, h)
			}
		}
	}
}

func reachAt(t *testing.T, e *clearance.Envelope, c measure.Length, side curve.Hand) float64 {
	return float64(reach(t, e, c, side).Reach)
}

// A circuit with both straights made longer, so that it still closes, and with
// the change at its start.
func TestResweepCircuit(t *testing.T) {
	const tol = 0.01
	set := clearance.Settings{Tolerance: tol}
	v := rounded()
	ring := func(long, ease float64) lot {
		k := 1 / 1200.0
		arc := 3.141592653589793/k - ease
		half := []part{
			{curve.StraightLine, long, 0, 0, 0},
			{curve.Bloss, ease, 0, k, 0},
			{curve.CircularArc, arc, k, k, 0},
			{curve.Bloss, ease, k, 0, 0},
		}
		return build(t, append(slices.Clone(half), half...), curve.Pose{}, true)
	}
	before := ring(4000, 700)
	e := sweep(t, before.line, []clearance.Vehicle{v}, set)
	longer := slices.Clone(before.parts)
	longer[0].length, longer[4].length = 4500, 4500 // everything changes from the first element to the fifth
	// The first straight laid as a low gable: a kink at the circuit's start.
	const delta = 0.02
	gable := append([]part{
		{curve.StraightLine, 2000 / math.Cos(delta), 0, 0, delta},
		{curve.StraightLine, 2000 / math.Cos(delta), 0, 0, -2 * delta},
	}, before.parts[1:]...)
	gable[2].kink = delta
	for name, parts := range map[string][]part{"longer": longer, "gable": gable} {
		after := build(t, parts, curve.Pose{}, true)
		got, err := e.Resweep(context.Background(), after.line)
		if err != nil {
			t.Fatal(err)
		}
		want := sweep(t, after.line, []clearance.Vehicle{v}, set)
		agree(t, name, 2*tol, after.line.Length(), func(c measure.Length, side curve.Hand) float64 { return reachAt(t, got, c, side) }, func(c measure.Length, side curve.Hand) float64 { return reachAt(t, want, c, side) })
		for c := measure.Length(10); c < 400; c += 13 { // just before and after the start
			for _, at := range []measure.Length{c, after.line.Length() - c} {
				for _, side := range sides {
					if a, b := reachAt(t, got, at, side), reachAt(t, want, at, side); math.Abs(a-b) > 2*tol {
						t.Errorf("%s at %v %v: %v, want %v", name, float64(at), side, a, b)
					}
				}
			}
		}
	}
}

// The far end of a long line edited: against BenchmarkSweep24Long.
func BenchmarkResweep24Long(b *testing.B) {
	line := garden(b, 10)
	e, err := clearance.Sweep(context.Background(), line, []clearance.Vehicle{rounded()}, clearance.Settings{})
	if err != nil {
		b.Fatal(err)
	}
	el := line.Elements()
	el[60], err = curve.NewStraight(el[60].Length() + 100)
	if err != nil {
		b.Fatal(err)
	}
	edited, err := curve.New(curve.Pose{}, el...)
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := e.Resweep(context.Background(), edited); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSweep24Long(b *testing.B) { benchmarkSweep(b, garden(b, 10), rounded(), 0.1) }

// With a cant and a level, which keep their chainages: an edit that leaves the
// line's length, and one that does not.
func TestResweepCantAndLevel(t *testing.T) {
	const tol = 0.01
	parts := []part{
		{curve.StraightLine, 1500, 0, 0, 0},
		{curve.Bloss, 700, 0, 1 / 1500.0, 0},
		{curve.CircularArc, 1600, 1 / 1500.0, 1 / 1500.0, 0},
		{curve.Bloss, 700, 1 / 1500.0, 0, 0},
		{curve.StraightLine, 2500, 0, 0, 0},
		{curve.Clothoid, 500, 0, -1 / 2500.0, 0},
		{curve.CircularArc, 1500, -1 / 2500.0, -1 / 2500.0, 0},
	}
	cant, err := profile.NewCant(profile.InnerRail, profile.CantPoint{Chainage: 1300}, profile.CantPoint{Chainage: 2100, Cant: 3}, profile.CantPoint{Chainage: 3900, Cant: 3}, profile.CantPoint{Chainage: 5200, Cant: -1}, profile.CantPoint{Chainage: 8000, Cant: 1})
	if err != nil {
		t.Fatal(err)
	}
	level, err := profile.NewLevel(profile.Point{}, profile.Point{Chainage: 2500, Level: 40, Radius: 9000}, profile.Point{Chainage: 6000, Level: 20, Radius: 9000}, profile.Point{Chainage: 9000, Level: 60})
	if err != nil {
		t.Fatal(err)
	}
	set := clearance.Settings{Tolerance: tol, Allowances: clearance.Allowances{Cant: cant, RailCentres: 47.5, Level: level}}
	e := sweep(t, build(t, parts, curve.Pose{}, false).line, []clearance.Vehicle{rounded()}, set)
	sharper, longer := slices.Clone(parts), slices.Clone(parts)
	sharper[2].k0, sharper[2].k1 = 1/1450.0, 1/1450.0
	longer[0].length = 1700
	for name, edited := range map[string][]part{"sharper": sharper, "longer": longer} {
		line := build(t, edited, curve.Pose{}, false).line
		got, err := e.Resweep(t.Context(), line)
		if err != nil {
			t.Fatal(err)
		}
		want := sweep(t, line, []clearance.Vehicle{rounded()}, set)
		for c := measure.Length(0); c <= line.Length(); c += 37 {
			a, err1 := got.Sections(c)
			b, err2 := want.Sections(c)
			if err1 != nil || err2 != nil {
				t.Fatal(err1, err2)
			}
			for k := range a[0].Corners {
				p, q := a[0].Corners[k], b[0].Corners[k]
				if math.Hypot(float64(p.Offset-q.Offset), float64(p.Height-q.Height)) > 3*tol {
					t.Errorf("%s at %v, corner %d: %v, want %v", name, float64(c), k, p, q)
				}
			}
		}
	}
}
