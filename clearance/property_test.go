package clearance_test

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

var sides = [2]curve.Hand{curve.Left, curve.Right}

// agree compares two envelopes along the line.
func agree(t *testing.T, what string, tol float64, length measure.Length, a, b func(c measure.Length, side curve.Hand) float64) {
	t.Helper()
	for i := range 80 {
		c := length * (measure.Length(i) + 0.37) / 80
		for _, side := range sides {
			if x, y := a(c, side), b(c, side); !(math.Abs(x-y) <= tol) {
				t.Errorf("%s: at %.3f %v: %v and %v", what, float64(c), side, x, y)
				return
			}
		}
	}
}

func at(t *testing.T, e *clearance.Envelope) func(c measure.Length, side curve.Hand) float64 {
	return func(c measure.Length, side curve.Hand) float64 { return float64(reach(t, e, c, side).Reach) }
}

func mirrored(v clearance.Vehicle) clearance.Vehicle {
	m := v
	m.Bodies = slices.Clone(v.Bodies)
	for i, b := range m.Bodies {
		m.Bodies[i].Bands = slices.Clone(b.Bands)
		for j, band := range b.Bands {
			var o clearance.Outline
			for _, p := range band.Outline {
				o = append(o, clearance.Point{Along: p.Along, Across: -p.Across})
			}
			m.Bodies[i].Bands[j].Outline = o
		}
	}
	return m
}

func scaled(v clearance.Vehicle, f measure.Length) clearance.Vehicle {
	m := v.Turned().Turned()
	for i := range m.Bodies {
		b := &m.Bodies[i]
		b.Pivots *= f
		for j := range b.Bands {
			for k := range b.Bands[j].Outline {
				p := &b.Bands[j].Outline[k]
				p.Along *= f
				p.Across *= f
			}
		}
	}
	for i := range m.Carriers {
		c := &m.Carriers[i]
		c.Wheelbase *= f
		c.Pin *= f
		c.Apart *= f
	}
	return m
}

func TestSweepProperties(t *testing.T) {
	const tol = 0.01
	set := clearance.Settings{Tolerance: tol}
	for seed := range 40 {
		rng := rand.New(rand.NewPCG(uint64(seed), 9))
		v, least := randomVehicle(rng)
		l := randomLine(t, rng, least)
		L := l.line.Length()
		e := sweep(t, l.line, []clearance.Vehicle{v}, set)

		mirror := make([]part, len(l.parts))
		for i, p := range l.parts {
			mirror[i] = part{p.shape, p.length, -p.k0, -p.k1, 0}
		}
		m := sweep(t, build(t, mirror, curve.Pose{}, l.closed).line, []clearance.Vehicle{mirrored(v)}, set)
		agree(t, "mirrored", 2*tol, L, at(t, e), func(c measure.Length, side curve.Hand) float64 {
			return at(t, m)(c, side.Opposite())
		})

		var back []part
		for i := len(l.parts) - 1; i >= 0; i-- {
			p := l.parts[i]
			back = append(back, part{p.shape, p.length, -p.k1, -p.k0, 0})
		}
		r := sweep(t, build(t, back, curve.Pose{}, l.closed).line, []clearance.Vehicle{v.Turned()}, set)
		agree(t, "reversed", 2*tol, L, at(t, e), func(c measure.Length, side curve.Hand) float64 {
			return at(t, r)(L-c, side.Opposite())
		})

		const f = 22.5
		big := make([]part, len(l.parts))
		for i, p := range l.parts {
			big[i] = part{p.shape, p.length * f, p.k0 / f, p.k1 / f, 0}
		}
		if !l.closed { // the closing tolerance is a fixed length
			s := sweep(t, build(t, big, curve.Pose{}, false).line, []clearance.Vehicle{scaled(v, f)}, clearance.Settings{Tolerance: tol * f})
			agree(t, "scaled", 2*tol, L, at(t, e), func(c measure.Length, side curve.Hand) float64 {
				return at(t, s)(c*f, side) / f
			})
		} else {
			k := 1 + rng.IntN(len(l.parts)-1)
			shift := 0.0
			for _, p := range l.parts[:k] {
				shift += p.length
			}
			turned := append(slices.Clone(l.parts[k:]), l.parts[:k]...)
			s := sweep(t, build(t, turned, curve.Pose{}, true).line, []clearance.Vehicle{v}, set)
			agree(t, "circuit started elsewhere", 2*tol, L, at(t, e), func(c measure.Length, side curve.Hand) float64 {
				d := math.Mod(float64(c)-shift+float64(L), float64(L))
				return at(t, s)(measure.Length(d), side)
			})
		}

		// The envelope of a list is the union of its vehicles'.
		w, least2 := randomVehicle(rng)
		if least2 <= least {
			both := sweep(t, l.line, []clearance.Vehicle{v, w}, set)
			second := sweep(t, l.line, []clearance.Vehicle{w}, set)
			agree(t, "union", 2*tol, L, at(t, both), func(c measure.Length, side curve.Hand) float64 {
				return max(at(t, e)(c, side), at(t, second)(c, side))
			})
			of, err := both.Of(1, L/2, curve.Left, clearance.Heights{})
			if err != nil || of.By.Stock != 1 || math.Abs(float64(of.Reach)-at(t, second)(L/2, curve.Left)) > 2*tol {
				t.Errorf("seed %d: Of(1) = %+v, %v", seed, of, err)
			}
		}

		// A range alone, on a circuit over the start.
		from, to := L*0.3, L*0.6
		if l.closed {
			from, to = L*0.8, L*0.2
		}
		part := sweep(t, l.line, []clearance.Vehicle{v}, clearance.Settings{Tolerance: tol, From: from, To: to})
		agree(t, "range", 2*tol, l.line.Span(from, to), func(c measure.Length, side curve.Hand) float64 {
			return at(t, part)(measure.Length(math.Mod(float64(c+from), float64(L))), side)
		}, func(c measure.Length, side curve.Hand) float64 {
			return at(t, e)(measure.Length(math.Mod(float64(c+from), float64(L))), side)
		})
		if _, err := part.At(L*0.7, curve.Left, clearance.Heights{}); !errors.Is(err, measure.ErrInput) {
			t.Errorf("seed %d: outside the range: %v", seed, err)
		}
	}
}

// Stock that is the same both ways needs the same on a line that is run from its
// other end, though the sweep goes along it the other way.
func TestSweepOfSymmetricStockReversed(t *testing.T) {
	const tol = 0.01
	for seed := range 12 {
		rng := rand.New(rand.NewPCG(uint64(seed), 10))
		l := randomLine(t, rng, 600)
		L := l.line.Length()
		v := []clearance.Vehicle{
			clearance.Rigid("wagon", 150, box(260, 90)),
			clearance.Bogie("coach", 400, 60, clearance.Band{Top: 100, Outline: clearance.Tapered(600, 88, 50, 50, 60)}),
		}
		e, r := sweep(t, l.line, v, clearance.Settings{Tolerance: tol}), sweep(t, l.line.Reverse(), v, clearance.Settings{Tolerance: tol})
		agree(t, "the other way", 2*tol, L, at(t, e), func(c measure.Length, side curve.Hand) float64 {
			return at(t, r)(L-c, side.Opposite())
		})
	}
}

// On an arc long enough the reach is the closed form; as the radius grows it
// falls to half the width.
func TestSweepOnArcs(t *testing.T) {
	for _, R := range []float64{450, 700, 1500, 1e4, 1e6, 1e9} {
		for _, hand := range sides {
			v := clearance.Bogie("coach", 400, 70, clearance.Band{Top: 1, Outline: clearance.Tapered(640, 90, 30, 60, 50)})
			v.Carriers[0].Pin, v.Carriers[1].Pin = -8, 15
			const L = 2500
			arc, err := curve.NewArc(measure.Length(R), measure.Angle(L/R), hand)
			if err != nil {
				t.Fatal(err)
			}
			line, err := curve.New(curve.Pose{}, arc)
			if err != nil {
				t.Fatal(err)
			}
			e := sweep(t, line, []clearance.Vehicle{v}, clearance.Settings{Tolerance: 1e-3})
			th := throwOf(t, v, measure.Length(R))
			for c := measure.Length(1100); c < 1400; c += 23 {
				in, out := reach(t, e, c, hand), reach(t, e, c, hand.Opposite())
				if math.Abs(float64(in.Reach-th.Inside)) > 1e-3 || math.Abs(float64(out.Reach-th.Outside)) > 1e-3 {
					t.Errorf("R %v %v: inside %v outside %v, want %v %v", R, hand, float64(in.Reach), float64(out.Reach), float64(th.Inside), float64(th.Outside))
					break
				}
				if R < 1e4 && (in.By.Corner || !out.By.Corner) {
					t.Errorf("R %v: inside by %+v, outside by %+v", R, in.By, out.By)
				}
				if in.By.BeyondEnd || out.By.BeyondEnd {
					t.Errorf("R %v: in mid-line, but beyond an end: %+v %+v", R, in.By, out.By)
				}
			}
		}
	}
}

// The governor is right: the vehicle stood again where it says has that point
// at that place.
func TestGovernorStandsThere(t *testing.T) {
	for seed := range 30 {
		rng := rand.New(rand.NewPCG(uint64(seed), 12))
		v, least := randomVehicle(rng)
		l := randomLine(t, rng, least)
		e := sweep(t, l.line, []clearance.Vehicle{v}, clearance.Settings{Tolerance: 0.01})
		st := e.Stations()
		for i := 3; i < len(st); i += 41 {
			for _, side := range sides {
				r := reach(t, e, st[i], side)
				stance, err := clearance.Stand(l.line, v, r.By.RearAxle)
				if err != nil {
					t.Fatal(err)
				}
				body := 0
				if r.By.Part == "body 2" {
					body = 1
				}
				got := stance.Bodies[body].Plan(r.By.Point)
				want := l.line.Offset(st[i], r.Reach*measure.Length(side))
				if d := r2.Norm(r2.Sub(got, want)); d > 3 { // along the line, a station's spacing
					t.Errorf("seed %d at %v %v: %+v is %v from the reach", seed, float64(st[i]), side, r.By, d)
				}
				foot := l.line.NearestFrom(got, st[i])
				if foot.Chainage < 0 || foot.Chainage > l.line.Length() {
					continue
				}
				if on := reach(t, e, foot.Chainage, side); math.Abs(float64(on.Reach-foot.Offset*measure.Length(side))) > 0.02 {
					t.Errorf("seed %d at %v %v: %+v stands %v out, the reach there is %v", seed, float64(st[i]), side, r.By, float64(foot.Offset), float64(on.Reach))
				}
			}
		}
	}
}

// Ends of an open line: the vehicle runs on straight, and results that only it
// gives are marked.
func TestSweepEnds(t *testing.T) {
	arc, err := curve.NewArc(1000, 2, curve.Left)
	if err != nil {
		t.Fatal(err)
	}
	line, err := curve.New(curve.Pose{}, arc)
	if err != nil {
		t.Fatal(err)
	}
	v := clearance.Rigid("wagon", 300, box(500, 80))
	e := sweep(t, line, []clearance.Vehicle{v}, clearance.Settings{})
	for _, c := range []measure.Length{0, line.Length()} {
		if r := reach(t, e, c, curve.Left); !r.By.BeyondEnd { // by the middle of a side
			t.Errorf("at %v: %+v", float64(c), r)
		}
		if r := reach(t, e, c, curve.Right); r.By.BeyondEnd { // by an overhang
			t.Errorf("at %v: %+v", float64(c), r)
		}
	}
	s := sweep(t, straight(t, 2000), []clearance.Vehicle{v}, clearance.Settings{})
	for _, c := range []measure.Length{0, 50} {
		if r := reach(t, s, c, curve.Right); math.Abs(float64(r.Reach)-40) > 1e-9 {
			t.Errorf("straight at %v: %v", float64(c), float64(r.Reach))
		}
	}
	if r := reach(t, s, 150, curve.Left); r.By.BeyondEnd {
		t.Errorf("straight at 150 is reached with the vehicle wholly on the line, but %+v", r)
	}
}

func TestSweepRefuses(t *testing.T) {
	good := clearance.Bogie("coach", 400, 60, box(600, 100))
	line := garden(t, 1)
	arc, err := curve.NewArc(1000, 4, curve.Left)
	if err != nil {
		t.Fatal(err)
	}
	hook, err := curve.New(curve.Pose{}, arc)
	if err != nil {
		t.Fatal(err)
	}
	long := clearance.Bogie("long", 1980, 60, box(2400, 100))
	for _, c := range []struct {
		name  string
		line  *curve.Alignment
		stock []clearance.Vehicle
		set   clearance.Settings
		kind  error
	}{
		{"no line", nil, []clearance.Vehicle{good}, clearance.Settings{}, measure.ErrInput},
		{"no stock", line, nil, clearance.Settings{}, measure.ErrInput},
		{"bad vehicle", line, []clearance.Vehicle{good, {}}, clearance.Settings{}, measure.ErrInput},
		{"much stock", line, make([]clearance.Vehicle, clearance.MaxStock+1), clearance.Settings{}, measure.ErrLimit},
		{"tolerance", line, []clearance.Vehicle{good}, clearance.Settings{Tolerance: measure.Length(math.NaN())}, measure.ErrInput},
		{"negative tolerance", line, []clearance.Vehicle{good}, clearance.Settings{Tolerance: -1}, measure.ErrInput},
		{"range", line, []clearance.Vehicle{good}, clearance.Settings{From: 900, To: 800}, measure.ErrInput},
		{"range past the end", line, []clearance.Vehicle{good}, clearance.Settings{To: 1e9}, measure.ErrInput},
		{"kept", line, []clearance.Vehicle{good}, clearance.Settings{MaxKept: 100}, measure.ErrLimit},
		{"too long for the curve", hook, []clearance.Vehicle{long}, clearance.Settings{}, measure.ErrNoAnswer},
		{"bar too short", hook, []clearance.Vehicle{func() clearance.Vehicle {
			v := clearance.Rigid("tank", 300, box(400, 80))
			v.Bodies[0].Trucks = []clearance.Truck{{Hinge: 0, Bar: 5, Bands: []clearance.Band{box(20, 50)}}}
			return v
		}()}, clearance.Settings{}, measure.ErrNoAnswer},
		{"too wide for the curve", line, []clearance.Vehicle{clearance.Bogie("wide", 400, 60, box(600, 2400))}, clearance.Settings{}, measure.ErrNoAnswer},
	} {
		if _, err := clearance.Sweep(context.Background(), c.line, c.stock, c.set); !errors.Is(err, c.kind) {
			t.Errorf("%s: %v, want %v", c.name, err, c.kind)
		} else if c.kind == measure.ErrNoAnswer {
			t.Log(err)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := clearance.Sweep(ctx, line, []clearance.Vehicle{good}, clearance.Settings{}); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
	if _, err := clearance.Stand(hook, long, 500); !errors.Is(err, measure.ErrNoAnswer) {
		t.Errorf("Stand: %v", err)
	}
}

// No allocation a pose: the count does not grow with the length.
func TestSweepAllocations(t *testing.T) {
	count := func(times int) float64 {
		line := garden(t, times)
		return testing.AllocsPerRun(2, func() {
			if _, err := clearance.Sweep(context.Background(), line, []clearance.Vehicle{rounded()}, clearance.Settings{}); err != nil {
				t.Fatal(err)
			}
		})
	}
	if a, b := count(1), count(4); b > a+40 { // the kept slices grow by doubling
		t.Errorf("%v allocations on 30 m, %v on 120 m", a, b)
	}
}

// The slope is the growth of the reach: against differences of the reach at
// places a twentieth of a millimetre apart, curvature jumps among them.
func TestReachSlope(t *testing.T) {
	jump := []part{
		{curve.StraightLine, 900, 0, 0, 0},
		{curve.CircularArc, 500, 1 / 500.0, 1 / 500.0, 0},
		{curve.CircularArc, 500, -1 / 500.0, -1 / 500.0, 0},
		{curve.StraightLine, 900, 0, 0, 0},
	}
	line := build(t, jump, curve.Pose{}, false).line
	v := clearance.Bogie("coach", 300, 50, box(480, 90))
	e := sweep(t, line, []clearance.Vehicle{v}, clearance.Settings{Tolerance: 1e-3})
	n := 0
	try := func(c measure.Length) {
		const d = 0.05
		for _, side := range sides {
			a, b, m := reach(t, e, c-d, side), reach(t, e, c+d, side), reach(t, e, c, side)
			if a.By.Point != b.By.Point || !m.By.Corner { // a convex corner of the reach between
				continue
			}
			n++
			if want := float64(b.Reach-a.Reach) / (2 * d); math.Abs(m.Slope-want) > 1e-3 {
				t.Errorf("at %v %v: slope %v, the reach grows by %v", float64(c), side, m.Slope, want)
			}
		}
	}
	for c := measure.Length(650); c < 2200; c += 3.1 {
		try(c)
	}
	for _, b := range line.Boundaries()[1:4] {
		try(b - 0.06)
		try(b + 0.06)
	}
	if n < 300 {
		t.Errorf("only %d slopes compared", n)
	}
}

// A ring so small that the vehicle's start is on its far side.
func TestSweepSmallRing(t *testing.T) {
	for _, R := range []measure.Length{220, 250, 300} {
		arc, err := curve.NewArc(R, 2*math.Pi, curve.Right)
		if err != nil {
			t.Fatal(err)
		}
		ring, err := curve.NewClosed(curve.Pose{}, 1e-6, 1e-9, arc)
		if err != nil {
			t.Fatal(err)
		}
		v := clearance.Bogie("coach", 250, 40, box(420, 70))
		e := sweep(t, ring, []clearance.Vehicle{v}, clearance.Settings{})
		th := throwOf(t, v, R)
		for c := measure.Length(0); c < ring.Length(); c += 40 {
			in, out := reach(t, e, c, curve.Right).Reach, reach(t, e, c, curve.Left).Reach
			if math.Abs(float64(in-th.Inside)) > 0.1 || math.Abs(float64(out-th.Outside)) > 0.1 {
				t.Errorf("R %v at %v: inside %v outside %v, want %v %v", float64(R), float64(c), float64(in), float64(out), float64(th.Inside), float64(th.Outside))
				break
			}
		}
	}
}
