package curve_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/reference"
	"example.org/fourfoot/internal/solve"
)

// trials are the points asked of a line: around it, on its ends, at centres
// of its curves, far off.
func trials(r *rand.Rand, a *curve.Alignment) []r2.Vec {
	var out []r2.Vec
	l := a.Length()
	for range 6 {
		s := measure.Length(r.Float64()) * l
		out = append(out, a.Offset(s, measure.Length(300*r.NormFloat64())))
	}
	for range 2 {
		st := a.At(measure.Length(r.Float64()) * l)
		if st.Curvature != 0 {
			c := a.Offset(st.Chainage, measure.Length(1/st.Curvature))
			out = append(out, c, r2.Add(c, r2.Vec{X: r.NormFloat64() * 1e-3, Y: r.NormFloat64() * 1e-3}))
		}
	}
	end := a.End().Point
	out = append(
		out, a.Start().Point, end,
		r2.Add(end, r2.Vec{X: 100 * r.NormFloat64(), Y: 100 * r.NormFloat64()}),
		r2.Add(end, r2.Vec{X: 5000 * r.NormFloat64(), Y: 5000 * r.NormFloat64()}),
	)
	return out
}

func TestNearest(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	lines, asked, crossing, looping, worst := 500, 0, 0, 0, 0.0
	for line := range lines {
		start := curve.Pose{Point: r2.Vec{X: 100 * r.NormFloat64(), Y: 100 * r.NormFloat64()}, Heading: measure.Angle(7 * r.NormFloat64())}
		plan := randomLine(r, 1+r.IntN(6))
		a, w := build(start, plan), walked(start, plan, 25)
		if d := r2.Norm(r2.Sub(a.End().Point, w.marks[len(w.marks)-1].at)); d > 1e-9 {
			t.Fatalf("line %d ends %v mm off the walked one", line, d)
		}
		if w.crossesItself() {
			crossing++
		}
		for _, e := range plan {
			if math.Abs(e.heading(e.length)) > 2*math.Pi {
				looping++
				break
			}
		}
		for _, p := range trials(r, a) {
			asked++
			got := a.Nearest(p)
			d, s := w.distance(p)
			off := math.Abs(math.Abs(float64(got.Offset)) - d)
			worst = max(worst, off/(1+1e-7*d))
			if off > 1e-8+1e-15*d {
				t.Errorf("line %d: Nearest(%v) = %v at %v, walked %v at %v of %v\n%+v", line, p, got.Offset, got.Chainage, d, s, w.length, plan)
			}
			if back := r2.Norm(r2.Sub(a.Point(got.Chainage), p)); math.Abs(back-d) > 1e-8+1e-15*d {
				t.Errorf("line %d: Nearest(%v) names chainage %v, which is %v away, not %v", line, p, got.Chainage, back, d)
			}
			if !got.End && math.Abs(float64(got.Offset)) > 1e-6 {
				q := a.Offset(got.Chainage, got.Offset)
				kink := false
				for i, b := range a.Boundaries() {
					kink = kink || i < len(plan) && plan[i].kink != 0 && math.Abs(float64(b-got.Chainage)) < 1e-9
				}
				// Near the centre of a curve the distance hardly tells one
				// foot from the next.
				sharp := true
				for _, s := range []measure.Length{got.Chainage - 1e-6, got.Chainage, got.Chainage + 1e-6} {
					sharp = sharp && math.Abs(1-float64(a.At(s).Curvature)*float64(got.Offset)) > 1e-3
				}
				if d := r2.Norm(r2.Sub(p, q)); d > 1e-8 && sharp && !kink {
					t.Errorf("line %d: Nearest(%v) = %+v, but the point there is %v off", line, p, got, d)
				}
			}
		}
	}
	t.Logf("%d lines, %d of them crossing themselves, %d with a loop, %d points: distances within %.2g mm", lines, crossing, looping, asked, worst)
	if crossing < 50 || looping < 20 || asked < 5000 {
		t.Errorf("too few: %d lines cross themselves, %d hold a loop, %d points", crossing, looping, asked)
	}
}

// A foot followed from a guess nearby is the foot of the chainage the point
// was set off from, and goes on straight past the ends.
func TestNearestFrom(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	for line := range 200 {
		plan := randomLine(r, 1+r.IntN(6))
		for i := range plan {
			plan[i].kink = 0
		}
		a := build(curve.Pose{Heading: 1}, plan)
		for range 20 {
			s := measure.Length(r.Float64()*1.2-0.1) * a.Length()
			st := a.At(s)
			off := measure.Length(80 * r.NormFloat64())
			if math.Abs(float64(st.Curvature)*float64(off)) > 0.7 {
				continue
			}
			got := a.NearestFrom(a.Offset(s, off), s+measure.Length(3*r.NormFloat64()))
			if math.Abs(float64(got.Chainage-s)) > 1e-7 || math.Abs(float64(got.Offset-off)) > 1e-8 {
				t.Errorf("line %d: NearestFrom = %+v, want %v, %v", line, got, s, off)
			}
			if want := s < 0 || s > a.Length(); got.End != want {
				t.Errorf("line %d: NearestFrom at %v of %v: End = %v", line, s, a.Length(), got.End)
			}
		}
	}
}

// Every foot that a walk along the line finds, and no other.
func TestFeet(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 16))
	total := 0
	for line := range 200 {
		plan := randomLine(r, 2+r.IntN(5))
		start := curve.Pose{Heading: measure.Angle(r.NormFloat64())}
		a, w := build(start, plan), walked(start, plan, 1)
		for _, p := range trials(r, a)[:6] {
			within := 100 + 400*r.Float64()
			var want []float64
			d := func(i int) float64 { return r2.Norm(r2.Sub(w.marks[i].at, p)) }
			for i := range w.marks {
				j := i - 1
				for j >= 0 && w.marks[j].s == w.marks[i].s {
					j--
				}
				k := i + 1
				for k < len(w.marks) && w.marks[k].s == w.marks[i].s {
					k++
				}
				if (j < 0 || d(j) > d(i)) && (k == len(w.marks) || d(k) >= d(i)) && d(i) < within && (i == 0 || w.marks[i-1].s != w.marks[i].s) {
					want = append(want, w.marks[i].s)
				}
			}
			var got []curve.Foot
			for f := range a.Feet(p, measure.Length(within)) {
				got = append(got, f)
			}
			total += len(got)
			if len(got) != len(want) {
				// A foot may lie just within on one side only.
				edge := false
				for _, f := range got {
					edge = edge || math.Abs(math.Abs(float64(f.Offset))-within) < 1
				}
				for _, s := range want {
					edge = edge || math.Abs(r2.Norm(r2.Sub(p, a.Point(measure.Length(s))))-within) < 1
				}
				if !edge {
					t.Errorf("line %d: Feet(%v, %v) = %v, walked %v", line, p, within, got, want)
				}
				continue
			}
			for i, f := range got {
				if math.Abs(float64(f.Chainage)-want[i]) > 2 {
					t.Errorf("line %d: foot %d of %v at %v, walked %v", line, i, p, f.Chainage, want[i])
				}
			}
		}
	}
	if total < 800 {
		t.Errorf("only %d feet", total)
	}
}

// Around the centres of curvature, where one piece of an easement may hold
// several feet, against a plain search of many places.
func TestNearestNearEvolutes(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 18))
	for line := range 400 {
		shape := easements[r.IntN(len(easements))]
		k := 1 / (200 + 800*r.Float64())
		k0, k1 := k*(r.Float64()-0.3), k*(1+r.Float64())
		length := (0.2 + 1.5*r.Float64()) / k1
		a := must(curve.New(curve.Pose{Heading: 2}, must(curve.NewEasement(shape, measure.Length(length), measure.Curvature(k0), measure.Curvature(k1)))))
		for range 12 {
			st := a.At(measure.Length(r.Float64() * length))
			off := measure.Length(1 / float64(st.Curvature) * (1 + 0.2*r.NormFloat64()))
			if math.Abs(float64(off)) > 1e5 {
				continue
			}
			p := a.Offset(st.Chainage, off)
			best := math.Inf(1)
			const n = 4000
			for i := range n + 1 {
				best = min(best, r2.Norm(r2.Sub(p, a.Point(measure.Length(length)*measure.Length(i)/n))))
			}
			got := math.Abs(float64(a.Nearest(p).Offset))
			// Half a step beside a foot the distance is hardly more.
			if got > best+1e-9*(1+best) || got < best-length*length/n/n {
				t.Errorf("line %d, %v: Nearest(%v) is %v away, searched %v", line, shape, p, got, best)
			}
		}
	}
}

// What NearestFrom follows is nearer than what lies beside it, wherever it
// starts and however far the point is.
func TestNearestFromIsAFoot(t *testing.T) {
	r := rand.New(rand.NewPCG(19, 20))
	for line := range 200 {
		a := build(curve.Pose{Heading: 1}, randomLine(r, 1+r.IntN(6)))
		for range 20 {
			s := measure.Length(r.Float64()) * a.Length()
			p := a.Offset(s, measure.Length(700*r.NormFloat64()))
			f := a.NearestFrom(p, s+measure.Length(40*r.NormFloat64()))
			at := func(s measure.Length) float64 { return r2.Norm(r2.Sub(p, a.Point(s))) }
			if d := at(f.Chainage); at(f.Chainage-0.5) < d-1e-9 || at(f.Chainage+0.5) < d-1e-9 {
				t.Errorf("line %d: NearestFrom(%v) = %+v, %v away, is no foot: beside it %v, %v", line, p, f, d, at(f.Chainage-0.5), at(f.Chainage+0.5))
			}
		}
	}
}

// On the cubic parabola and the lath, against their own equations: x³/6RX beside
// the straight at x, and with x²/2RX = sin²ψ a quadrature over ψ.
func TestNearestOnLevers(t *testing.T) {
	r := rand.New(rand.NewPCG(27, 28))
	for line := range 30 {
		R := 500 + 2000*r.Float64()
		X := R * (0.05 + 0.8*r.Float64())
		var a *curve.Alignment
		var at func(u float64) r2.Vec // u from 0 to 1
		if line%2 == 0 {
			a = must(curve.New(curve.Pose{}, must(curve.NewCubicParabola(measure.Length(X), measure.Length(R), curve.Left))))
			at = func(u float64) r2.Vec { return r2.Vec{X: u * X, Y: u * u * u * X * X / (6 * R)} }
		} else {
			X *= 2
			a = must(curve.New(curve.Pose{}, must(curve.NewLath(measure.Length(X), measure.Length(R), curve.Left))))
			scale, end := math.Sqrt(2*R*X), math.Asin(math.Sqrt(X/(2*R)))
			at = func(u float64) r2.Vec {
				y := reference.Integrate(func(w float64) float64 { return math.Sin(w) * math.Sin(w) / math.Sqrt(1+math.Sin(w)*math.Sin(w)) }, 0, u*end, 1)
				return r2.Vec{X: scale * math.Sin(u*end), Y: scale * y}
			}
		}
		const n = 60
		marks := make([]r2.Vec, n+1)
		for i := range marks {
			marks[i] = at(float64(i) / n)
		}
		for _, p := range trials(r, a) {
			d := math.Inf(1)
			for i := range n {
				// Within a sixtieth of it there is one least distance
				// but near centres of curvature, where all are alike.
				lo, hi := float64(i)/n, float64(i+1)/n
				near := min(r2.Norm(r2.Sub(marks[i], p)), r2.Norm(r2.Sub(marks[i+1], p)))
				if near-1.5*float64(a.Length())/n > d {
					continue
				}
				_, least := solve.Golden(func(u float64) float64 { return r2.Norm(r2.Sub(at(u), p)) }, lo, hi, 1e-9, -1)
				d = min(d, least, near)
			}
			got := a.Nearest(p)
			if off := math.Abs(math.Abs(float64(got.Offset)) - d); off > 1e-7 {
				t.Errorf("line %d, X %v R %v: Nearest(%v) = %+v, searched %v", line, X, R, p, got, d)
			}
			if back := r2.Norm(r2.Sub(a.Point(got.Chainage), p)); math.Abs(back-d) > 1e-7 {
				t.Errorf("line %d: Nearest(%v) names chainage %v, which is %v away, not %v", line, p, got.Chainage, back, d)
			}
		}
	}
}

// Feet on circuits against a walk around them, which has no ends.
func TestFeetOnCircuits(t *testing.T) {
	r := rand.New(rand.NewPCG(29, 30))
	total := 0
	for line := 0; line < 60; {
		a, lap := randomCircuit(r)
		w := walked(a.Start(), lap, 1)
		if lap[0].kink != lap[len(lap)/2].kink && lap[0].kink != lap[len(lap)/3].kink || r2.Norm(r2.Sub(w.marks[len(w.marks)-1].at, a.Start().Point)) > 1e-7 {
			continue
		}
		line++
		var around []mark
		for i, m := range w.marks[:len(w.marks)-1] {
			if i == 0 || m.s != w.marks[i-1].s {
				around = append(around, m)
			}
		}
		for _, p := range trials(r, a)[:6] {
			within := 100 + 400*r.Float64()
			d := func(i int) float64 { return r2.Norm(r2.Sub(around[(i+len(around))%len(around)].at, p)) }
			var want []float64
			edge := false
			for i := range around {
				if d(i-1) > d(i) && d(i+1) >= d(i) {
					edge = edge || math.Abs(d(i)-within) < 1
					if d(i) < within {
						want = append(want, around[i].s)
					}
				}
			}
			var got []float64
			for f := range a.Feet(p, measure.Length(within)) {
				got = append(got, float64(f.Chainage))
			}
			if edge {
				continue
			}
			total += len(got)
			if len(got) != len(want) {
				t.Errorf("line %d: Feet(%v, %v) = %v, walked %v", line, p, within, got, want)
				continue
			}
			for _, s := range want {
				if !slices.ContainsFunc(got, func(g float64) bool { return apart(measure.Length(g), measure.Length(s), a.Length()) < 2 }) {
					t.Errorf("line %d: Feet(%v, %v) = %v, walked %v", line, p, within, got, want)
				}
			}
		}
	}
	if total < 300 {
		t.Errorf("only %d feet", total)
	}
}
