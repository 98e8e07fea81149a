package curve_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/check"
	"example.org/fourfoot/gauge/measure"
)

// randomCircuit returns a circuit: a line that turns by a whole number of
// halves, thirds or quarters of a turn, run that many times. Now and then a
// straight is a little longer and a kink a little larger than it should be.
func randomCircuit(r *rand.Rand) (*curve.Alignment, []plain) {
	for {
		n := 2 + r.IntN(3)
		plan := randomLine(r, 1+r.IntN(4))
		turn := 0.0
		for _, e := range plan {
			turn += e.kink + e.heading(e.length)
		}
		part := 1 // of n, with no common divisor: else the circuit runs over itself
		if r.IntN(2) == 0 {
			part = n - 1
		}
		rest := math.Mod(2*math.Pi/float64(n)*float64(part)-turn, 2*math.Pi)
		k := math.Copysign(1/(200+500*r.Float64()), rest)
		plan = append(plan, plain{shape: curve.CircularArc, length: rest / k, k0: k, k1: k})
		var lap []plain
		for range n {
			lap = append(lap, plan...)
		}
		tolerance, slack := 0.0, 0.0
		if r.IntN(2) == 0 {
			for i, e := range lap {
				if e.shape == curve.StraightLine {
					lap[i].length += 0.4
					tolerance = 1
					break
				}
			}
		}
		if r.IntN(3) == 0 {
			lap[0].kink += 1e-4
			tolerance, slack = tolerance+1, 2e-4
		}
		var all []curve.Element
		for _, e := range lap {
			all = append(all, e.element())
		}
		start := curve.Pose{Point: r2.Vec{X: 300 * r.NormFloat64(), Y: 300 * r.NormFloat64()}, Heading: measure.Angle(r.NormFloat64())}
		a, err := curve.NewClosed(start, measure.Length(tolerance), measure.Angle(slack), all...)
		if err == nil {
			return a, lap
		}
		if tolerance == 0 {
			panic(err)
		}
	}
}

func wrap(s, l measure.Length) measure.Length {
	x := math.Mod(float64(s), float64(l))
	if x < 0 {
		x += float64(l)
	}
	return measure.Length(x)
}

// apart is the distance of two chainages around the circuit.
func apart(a, b, l measure.Length) float64 {
	d := float64(wrap(a-b, l))
	return math.Min(d, float64(l)-d)
}

// Nothing that a circuit answers changes when its start is put elsewhere.
func TestRestart(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	for line := range 300 {
		a, lap := randomCircuit(r)
		twice := false // over the same ground
		for _, e := range lap {
			twice = twice || math.Abs(e.heading(e.length)) > 6.28
		}
		l := a.Length()
		from := measure.Length(r.Float64()) * l
		switch r.IntN(4) {
		case 0:
			from = a.Boundaries()[r.IntN(len(a.Elements()))]
		case 1:
			from += 3 * l
		}
		b, err := a.Restart(from)
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(b.Length()-l)) > 1e-12*float64(l) {
			t.Errorf("line %d: length %v became %v", line, l, b.Length())
		}
		for range 10 {
			x := measure.Length(r.Float64()*3-1) * l
			p, q := a.At(from+x), b.At(x)
			if d := r2.Norm(r2.Sub(p.Point, q.Point)); d > 1e-9 {
				t.Fatalf("line %d: restarted at %v, the point at %v moves by %v", line, from, x, d)
			}
			if d := r2.Norm(r2.Sub(p.Tangent, q.Tangent)); d > 1e-11 {
				t.Errorf("line %d: the tangent at %v turns by %v", line, x, d)
			}
			if math.Abs(float64(p.Curvature-q.Curvature)) > 1e-13 {
				t.Errorf("line %d: the curvature at %v was %v, is %v", line, x, p.Curvature, q.Curvature)
			}
			y := measure.Length(r.Float64()*2-1) * l
			if d := float64(a.Turn(from+x, from+y) - b.Turn(x, y)); math.Abs(d) > 1e-11 {
				t.Errorf("line %d: the turn from %v to %v changes by %v", line, x, y, d)
			}
			if d := float64(a.Span(from+x, from+y) - b.Span(x, y)); math.Abs(d) > 1e-9 {
				t.Errorf("line %d: the span from %v to %v changes by %v", line, x, y, d)
			}
			left, err1 := a.RailLength(curve.Left, from+x, from+y, 34)
			left2, err2 := b.RailLength(curve.Left, x, y, 34)
			if err := errors.Join(err1, err2); err != nil || math.Abs(float64(left-left2)) > 1e-8 {
				t.Errorf("line %d: rail length from %v to %v was %v, is %v, %v", line, x, y, left, left2, err)
			}
			point := a.Offset(x, measure.Length(200*r.NormFloat64()))
			f, g := a.Nearest(point), b.Nearest(point)
			if math.Abs(math.Abs(float64(f.Offset))-math.Abs(float64(g.Offset))) > 1e-9 {
				t.Errorf("line %d: Nearest(%v) was %+v, is %+v", line, point, f, g)
			}
			if g.Chainage < 0 || g.Chainage >= b.Length() || g.End {
				t.Errorf("line %d: Nearest(%v) = %+v on a circuit of %v", line, point, g, b.Length())
			}
			if d := r2.Norm(r2.Sub(a.Point(f.Chainage), b.Point(g.Chainage))); d < 1e-3 && !twice && apart(f.Chainage, g.Chainage+from, l) > 1e-3 {
				t.Errorf("line %d: Nearest(%v) was at %v, is at %v of a start at %v", line, point, f.Chainage, g.Chainage, from)
			}
			n, m := 0, 0
			for f := range a.Feet(point, 150) {
				n++
				found := false
				for g := range b.Feet(point, 150) {
					found = found || apart(f.Chainage, g.Chainage+from, l) < 1e-2
				}
				if !found {
					t.Errorf("line %d: the foot of %v at %+v is gone", line, point, f)
				}
			}
			for range b.Feet(point, 150) {
				m++
			}
			if n != m {
				t.Errorf("line %d: %v had %d feet, has %d", line, point, n, m)
			}
		}
		p, q := a.Bounds(), b.Bounds()
		if d := max(r2.Norm(r2.Sub(p.Min, q.Min)), r2.Norm(r2.Sub(p.Max, q.Max))); d > 1e-8 {
			t.Errorf("line %d: the bounds change by %v", line, d)
		}
		limits := check.Limits{MinRadius: 400, MaxJump: 1. / 1000, MinEasement: 300, MinParameter: 450, MinStraight: 250}
		was, err1 := check.Line(a, limits)
		is, err2 := check.Line(b, limits)
		if err := errors.Join(err1, err2); err != nil {
			t.Fatal(err)
		}
		if len(was) != len(is) {
			t.Errorf("line %d: %d findings, restarted %d:\n%v\n%v", line, len(was), len(is), was, is)
			continue
		}
		for _, f := range was {
			found := false
			for _, g := range is {
				found = found || f.Defect == g.Defect && apart(f.Chainage, g.Chainage+from, l) < 1e-6 && f.Limit == g.Limit && f.Value.String() == g.Value.String()
			}
			if !found {
				t.Errorf("line %d: finding %v is gone; there are %v", line, f, is)
			}
		}
	}
}

// A circuit closes to rounding, misclosed or not, and its tangent and
// curvature are those of its places.
func TestClosedIsSmooth(t *testing.T) {
	r := rand.New(rand.NewPCG(23, 24))
	spread := 0
	for line := range 200 {
		a, lap := randomCircuit(r)
		l := a.Length()
		if d := r2.Norm(r2.Sub(a.Point(l*(1-1e-13)), a.Point(0))); d > 1e-8 {
			t.Errorf("line %d: open by %v", line, d)
		}
		raw := walked(a.Start(), lap, 100)
		gap := r2.Norm(r2.Sub(raw.marks[len(raw.marks)-1].at, a.Start().Point))
		end := raw.marks[len(raw.marks)-1].h + lap[len(lap)-1].heading(lap[len(lap)-1].length)
		gap += math.Abs(math.Remainder(end-float64(a.Start().Heading), 2*math.Pi)) * float64(l)
		if gap > 1e-6 {
			spread++
		}
		for i, m := range raw.marks {
			// The shift is at most the gap of the elements as given.
			if d := r2.Norm(r2.Sub(m.at, a.Point(measure.Length(m.s)))); i < len(raw.marks)-1 && d > 3*gap+1e-8 {
				t.Errorf("line %d: at %v of %v the circuit is %v off, more than its misclosure of %v explains", line, m.s, l, d, gap)
			}
		}
		for range 20 {
			s := measure.Length(r.Float64()) * l
			const h = 1e-3
			i, into := a.ElementAt(s)
			if e := a.Elements()[i]; into < 2*h || into > e.Length()-2*h || e.Shape() == curve.Helmert && math.Abs(float64(into-e.Length()/2)) < 2*h {
				continue
			}
			st := a.At(s)
			v := r2.Scale(1/(2*h), r2.Sub(a.Point(s+h), a.Point(s-h)))
			if d := r2.Norm(r2.Sub(r2.Unit(v), st.Tangent)); d > 1e-8 {
				t.Errorf("line %d: tangent at %v is %v, places say %v", line, s, st.Tangent, v)
			}
			if d := math.Abs(r2.Norm(v) - 1); d > 2*gap/float64(l)+1e-8 {
				t.Errorf("line %d: a millimetre of chainage at %v is %v mm", line, s, r2.Norm(v))
			}
			k := float64(a.At(s+h).Heading-a.At(s-h).Heading) / (2 * h) / r2.Norm(v)
			if math.Abs(k-float64(st.Curvature)) > 1e-9 {
				t.Errorf("line %d: curvature at %v is %v, headings say %v", line, s, float64(st.Curvature), k)
			}
			sin, cos := math.Sincos(float64(st.Heading))
			if d := math.Hypot(st.Tangent.X-cos, st.Tangent.Y-sin); d > 1e-12 {
				t.Errorf("line %d: heading and tangent at %v differ by %v", line, s, d)
			}
			// The nearest station of a point set off from the line by a little.
			off := measure.Length(20 * r.NormFloat64())
			p := a.Offset(s, off)
			f := a.NearestFrom(p, s+0.5)
			if apart(f.Chainage, s, l) > 1e-7 || math.Abs(float64(f.Offset-off)) > 1e-8 {
				t.Errorf("line %d: NearestFrom = %+v, want %v, %v", line, f, s, off)
			}
			best := math.Inf(1)
			for i := range 400 {
				best = min(best, r2.Norm(r2.Sub(p, a.Point(l*measure.Length(i)/400))))
			}
			if g := a.Nearest(p); math.Abs(float64(g.Offset)) > math.Abs(float64(off))+1e-8 || math.Abs(float64(g.Offset)) > best+1e-9 {
				t.Errorf("line %d: Nearest = %+v, but there is one at %v, %v", line, g, s, off)
			}
		}
		want := math.Round(float64(a.End().Heading-a.Start().Heading)/(2*math.Pi)) * 2 * math.Pi
		if got := float64(a.Turn(0, l)); math.Abs(got-want) > 1e-10 {
			t.Errorf("line %d: turns %v in a lap, want %v", line, got, want)
		}
	}
	if spread < 50 {
		t.Errorf("only %d circuits had a misclosure", spread)
	}
}

// A walk by quadrature around circuits without misclosure.
func TestNearestOnCircuits(t *testing.T) {
	r := rand.New(rand.NewPCG(25, 26))
	for line := 0; line < 60; {
		a, lap := randomCircuit(r)
		w := walked(a.Start(), lap, 25)
		if lap[0].kink != lap[len(lap)/2].kink && lap[0].kink != lap[len(lap)/3].kink || r2.Norm(r2.Sub(w.marks[len(w.marks)-1].at, a.Start().Point)) > 1e-7 {
			continue
		}
		line++
		for _, p := range trials(r, a)[:8] {
			got := a.Nearest(p)
			if d, s := w.distance(p); math.Abs(math.Abs(float64(got.Offset))-d) > 1e-7 {
				t.Errorf("line %d: Nearest(%v) = %+v, walked %v at %v", line, p, got, d, s)
			}
			if got.End {
				t.Errorf("line %d: a circuit has no end: %+v", line, got)
			}
		}
	}
}

func TestNewClosedRefuses(t *testing.T) {
	arc := must(curve.NewArc(1000, 179*measure.Degree, curve.Left))
	half := must(curve.NewArc(1000, 180*measure.Degree, curve.Left))
	straight := must(curve.NewStraight(100))
	longer := must(curve.NewStraight(101))
	for _, c := range []struct {
		name      string
		tolerance measure.Length
		slack     measure.Angle
		elements  []curve.Element
		want      string
	}{
		{"heading", 5000, 0, []curve.Element{arc, half}, "heading at the end of the circuit -1°"},
		{"gap", 0.5, 0, []curve.Element{half, straight, half, longer}, "end of the circuit 1"},
		{"more than a thousandth", 5000, 1, []curve.Element{half, straight}, "end of the circuit"},
		{"tolerance", -1, 0, []curve.Element{half, straight, half, straight}, "tolerance of misclosure"},
		{"slack", 1, measure.Angle(math.NaN()), []curve.Element{half, straight, half, straight}, "slack of heading"},
	} {
		a, err := curve.NewClosed(curve.Pose{}, c.tolerance, c.slack, c.elements...)
		if a != nil || !errors.Is(err, measure.ErrInput) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: NewClosed = %v, %v, want an error with %q", c.name, a, err, c.want)
		}
	}
	if _, err := must(curve.New(curve.Pose{}, half)).Restart(5); !errors.Is(err, measure.ErrInput) {
		t.Errorf("Restart of an open line: %v", err)
	}
}

// Cubic parabolas and laths close as other easements do: what closes the circuit
// is spread along them, and the place, its tangent and its curvature agree.
func TestCircuitOfLevers(t *testing.T) {
	for _, shape := range []curve.Shape{curve.CubicParabola, curve.Lath, curve.Bloss} {
		var all []curve.Element
		for i := range 4 {
			all = append(all, must(curve.NewStraight(500)))
			all = append(all, must(curve.Bend{Radius: 1000, Turn: math.Pi / 2, Hand: curve.Left, EaseIn: 600, EaseOut: 500, Shape: shape}.Elements())...)
			if i == 0 {
				all[0] = must(curve.NewStraight(500.3))
			}
		}
		all[6] = all[6].WithKink(2e-3)
		a := must(curve.NewClosed(curve.Pose{}, 20, 3e-3, all...))
		l := a.Length()
		if d := r2.Norm(a.End().Point); d > 1e-9 {
			t.Errorf("%v: ends %v off", shape, d)
		}
		if d := math.Remainder(float64(a.End().Heading), 2*math.Pi); math.Abs(d) > 1e-12 {
			t.Errorf("%v: heads %v off", shape, d)
		}
		b := must(a.Restart(1234.5))
		bounds := a.Boundaries()
		const h = 0.05
		for i := range 997 {
			s := l * measure.Length(i) / 997
			joint := false
			for _, x := range bounds {
				joint = joint || math.Abs(float64(x-s)) < 3*h
			}
			p, q, st := a.At(s-h), a.At(s+h), a.At(s)
			if d := r2.Norm(r2.Sub(st.Point, b.Point(s-1234.5))); d > 1e-9 {
				t.Errorf("%v: restarted, the point at %v moves by %v", shape, s, d)
			}
			if joint {
				continue
			}
			chord := r2.Scale(1/(2*h), r2.Sub(q.Point, p.Point))
			if d := math.Abs(st.Tangent.X*chord.Y - st.Tangent.Y*chord.X); d > 1e-8 {
				t.Errorf("%v: the tangent at %v is %v off the chord", shape, s, d)
			}
			if d := math.Abs(float64(q.Heading-p.Heading)/(2*h) - float64(st.Curvature)*r2.Norm(chord)); d > 1e-10 {
				t.Errorf("%v: the curvature at %v is %v off the heading's change", shape, s, d)
			}
			sin, cos := math.Sincos(float64(st.Heading))
			if d := math.Hypot(st.Tangent.X-cos, st.Tangent.Y-sin); d > 1e-12 {
				t.Errorf("%v: the tangent at %v is %v off the heading", shape, s, d)
			}
		}
	}
}
