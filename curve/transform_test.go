package curve_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"sync"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// lathsBetween are laths between poses of many kinds; they take long to find.
var lathsBetween = sync.OnceValue(func() (all []curve.Element) {
	r := rand.New(rand.NewPCG(73, 74))
	for len(all) < 60 {
		// Off the chord at either end, and about as long as a cubic or longer.
		p, q := 0.7*r.NormFloat64(), 0.7*r.NormFloat64()
		sin, cos := math.Sincos(-p)
		away := 200 + 800*r.Float64()
		length := away * (1 + (2*p*p+2*q*q-p*q)/30*(0.95+0.6*r.Float64()))
		e, err := curve.NewLathBetween(curve.Pose{}, curve.Pose{Point: r2.Vec{X: away * cos, Y: away * sin}, Heading: measure.Angle(q - p)}, measure.Length(length))
		if err == nil {
			all = append(all, e)
		}
	}
	return all
})

// randomElement returns an element of any shape, often a part of one.
func randomElement(r *rand.Rand) curve.Element {
	var e curve.Element
	hand := curve.Left
	if r.IntN(2) == 0 {
		hand = curve.Right
	}
	switch r.IntN(11) {
	case 0:
		e = lathsBetween()[r.IntN(60)]
	case 1, 2:
		e = must(curve.NewCubicParabola(measure.Length(50+400*r.Float64()), measure.Length(600+2000*r.Float64()), hand))
	case 3, 4:
		e = must(curve.NewLath(measure.Length(50+900*r.Float64()), measure.Length(600+2000*r.Float64()), hand))
	default:
		e = randomLine(r, 1)[0].element().WithKink(0)
	}
	if r.IntN(2) == 0 {
		e = e.Reverse()
	}
	if r.IntN(2) == 0 {
		e = must(e.Part(e.Length()*measure.Length(0.4*r.Float64()), e.Length()*measure.Length(1-0.4*r.Float64())))
	}
	if r.IntN(2) == 0 {
		e = e.Reverse()
	}
	return e
}

func randomAlignment(r *rand.Rand) *curve.Alignment {
	var all []curve.Element
	for range 1 + r.IntN(6) {
		e := randomElement(r)
		if r.IntN(4) == 0 {
			e = e.WithKink(measure.Angle(0.3 * r.NormFloat64()))
		}
		all = append(all, e)
	}
	return must(curve.New(curve.Pose{Point: r2.Vec{X: 200 * r.NormFloat64(), Y: 200 * r.NormFloat64()}, Heading: measure.Angle(3 * r.NormFloat64())}, all...))
}

// A part of an element is the element there; reversed twice or mirrored twice
// it is itself.
func TestElementParts(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 32))
	for range 400 {
		e := randomElement(r)
		l := e.Length()
		a := must(curve.New(curve.Pose{}, e))
		from := l * measure.Length(r.Float64())
		to := from + (l-from)*measure.Length(r.Float64())
		if to-from < 1e-3 {
			continue
		}
		part := must(e.Part(from, to))
		st := a.At(from)
		b := must(curve.New(curve.Pose{Point: st.Point, Heading: st.Heading}, part))
		for i := range 5 {
			x := (to - from) * measure.Length(i) / 4
			p, q := a.At(from+x), b.At(min(x, b.Length()))
			if d := r2.Norm(r2.Sub(p.Point, q.Point)); d > 2e-14*float64(l) {
				t.Errorf("%v: part %v to %v of %v: at %v off by %v", e.Shape(), from, to, l, x, d)
			}
			// A lath's curvature is the place's moment, and as well known.
			f := e.Form()
			moment := math.Hypot(f.Rate, f.Across) * float64(l*l)
			if d := math.Abs(float64(p.Curvature - q.Curvature)); i < 4 && d > (1e-13+1e-14*moment)/float64(l) {
				t.Errorf("%v: part %v to %v of %v: curvature at %v off by %v", e.Shape(), from, to, l, x, d)
			}
		}
		if turn := e.Turn(); math.Abs(float64(e.Reverse().Turn()+turn)) > 1e-14 || math.Abs(float64(e.Mirror().Turn()+turn)) > 1e-15 {
			t.Errorf("%v turns %v, reversed %v, mirrored %v", e.Shape(), turn, e.Reverse().Turn(), e.Mirror().Turn())
		}
		if e.Mirror().Mirror() != e {
			t.Errorf("%v mirrored twice is %v", e, e.Mirror().Mirror())
		}
		again := e.Reverse().Reverse()
		c := must(curve.New(curve.Pose{}, again))
		if d := r2.Norm(r2.Sub(c.End().Point, a.End().Point)); d > 1e-14*float64(l) || again.Length() != l {
			t.Errorf("%v reversed twice ends %v off", e.Shape(), d)
		}
		k0, k1 := e.StartCurvature(), e.EndCurvature()
		if rev := e.Reverse(); math.Abs(float64(rev.StartCurvature()+k1)) > 1e-14/float64(l) || math.Abs(float64(rev.EndCurvature()+k0)) > 1e-14/float64(l) {
			t.Errorf("%v goes from %v to %v, reversed from %v to %v", e.Shape(), k0, k1, rev.StartCurvature(), rev.EndCurvature())
		}
	}
	whole := must(curve.NewEasement(curve.Bloss, 500, 0, 1./700))
	if got, want := whole.Reverse(), must(curve.NewEasement(curve.Bloss, 500, -1./700, 0)); got != want {
		t.Errorf("a whole easement reversed is %+v, want %+v", got, want)
	}
	for _, c := range [][2]measure.Length{{-1, 5}, {5, 501}, {5, 5}, {6, 5}, {measure.Length(math.NaN()), 5}} {
		if _, err := whole.Part(c[0], c[1]); !errors.Is(err, measure.ErrInput) {
			t.Errorf("Part(%v, %v): %v", c[0], c[1], err)
		}
	}
}

func same(t *testing.T, what string, p, q r2.Vec, limit float64) {
	t.Helper()
	if d := r2.Norm(r2.Sub(p, q)); d > limit {
		t.Errorf("%s: %v and %v are %v apart", what, p, q, d)
	}
}

func TestLineTransforms(t *testing.T) {
	r := rand.New(rand.NewPCG(33, 34))
	for range 200 {
		a := randomAlignment(r)
		l := a.Length()
		tol := 1e-13 * (float64(l) + 1000)
		cut := l * measure.Length(0.1+0.8*r.Float64())
		if r.IntN(3) == 0 && len(a.Elements()) > 1 {
			cut = a.Boundaries()[1]
		}
		head, tail := must(a.Part(0, cut)), must(a.Part(cut, l))
		joined := must(head.Join(tail))
		rev, mirror := a.Reverse(), a.Mirror()
		by := 0.01 + 3*r.Float64()
		scaled := must(a.Scaled(by))
		pose := curve.Pose{Point: r2.Vec{X: 70 * r.NormFloat64(), Y: 70 * r.NormFloat64()}, Heading: measure.Angle(r.NormFloat64())}
		moved := must(a.Moved(pose))
		h := float64(pose.Heading - a.Start().Heading)
		axis := float64(a.Start().Heading)
		for range 8 {
			s := l * measure.Length(r.Float64())
			st := a.At(s)
			p := st.Point
			off := measure.Length(30 * r.NormFloat64())
			q := a.Offset(s, off)
			same(t, "part", p, func() r2.Vec {
				if s < cut {
					return head.Point(s)
				}
				return tail.Point(s - cut)
			}(), tol)
			if a.Elements()[0].Kink() == 0 && func() bool { _, into := a.ElementAt(cut); return into > 1e-9 }() { // Part keeps the place, Join the heading
				same(t, "joined", p, joined.Point(s), tol)
			}
			same(t, "reversed", p, rev.Point(l-s), tol)
			same(t, "reversed, set off", q, rev.Offset(l-s, -off), tol)
			// Mirrored about the start's tangent.
			v := r2.Sub(q, a.Start().Point)
			sin, cos := math.Sincos(2 * axis)
			same(t, "mirrored", r2.Add(a.Start().Point, r2.Vec{X: cos*v.X + sin*v.Y, Y: sin*v.X - cos*v.Y}), mirror.Offset(s, -off), tol)
			same(t, "scaled", r2.Scale(by, q), scaled.Offset(s*measure.Length(by), off*measure.Length(by)), tol*(1+by))
			sin, cos = math.Sincos(h)
			same(t, "moved", r2.Add(pose.Point, r2.Vec{X: cos*v.X - sin*v.Y, Y: sin*v.X + cos*v.Y}), moved.Offset(s, off), tol)
			if k := moved.At(s).Curvature; math.Abs(float64(k-st.Curvature)) > 1e-15 {
				t.Errorf("moved, the curvature at %v changes from %v to %v", s, st.Curvature, k)
			}
		}
		if back := rev.Reverse(); math.Abs(float64(back.Length()-l)) > 1e-9 {
			t.Errorf("reversed twice, %v became %v", l, back.Length())
		}
	}
}

// Cut anywhere and joined again, a line without kinks is the whole again.
func TestCutAndJoin(t *testing.T) {
	r := rand.New(rand.NewPCG(35, 36))
	for range 100 {
		var all []curve.Element
		for range 1 + r.IntN(6) {
			all = append(all, randomElement(r))
		}
		a := must(curve.New(curve.Pose{Heading: 1}, all...))
		l := a.Length()
		var line *curve.Alignment
		from := measure.Length(0)
		for from < l {
			to := from + 1 + l*measure.Length(0.4*r.Float64())
			if to > l-1 {
				to = l
			}
			part := must(a.Part(from, to))
			if line == nil {
				line = part
			} else {
				line = must(line.Join(part))
			}
			from = to
		}
		if math.Abs(float64(line.Length()-l)) > 1e-9 {
			t.Errorf("cut and joined, %v became %v", l, line.Length())
		}
		for i := range 20 {
			s := l * measure.Length(i) / 20
			same(t, "cut and joined", a.Point(s), line.Point(s), 1e-12*float64(l))
		}
	}
}

// A circuit keeps what closes it through every change.
func TestCircuitTransforms(t *testing.T) {
	r := rand.New(rand.NewPCG(37, 38))
	for range 60 {
		a, _ := randomCircuit(r)
		l := a.Length()
		rev, mirror := a.Reverse(), a.Mirror()
		scaled := must(a.Scaled(2))
		moved := must(a.Moved(curve.Pose{Heading: 2}))
		from := measure.Length(r.Float64()) * l
		to := measure.Length(r.Float64()) * l
		part := must(a.Part(from, to))
		for _, b := range []*curve.Alignment{rev, mirror, scaled, moved} {
			if !b.Closed() || r2.Norm(r2.Sub(b.Point(b.Length()*(1-1e-13)), b.Point(0))) > 1e-8 {
				t.Error("no circuit any more")
			}
		}
		if part.Closed() {
			t.Error("a part is a circuit")
		}
		for range 6 {
			s := measure.Length(r.Float64()) * l
			p := a.Offset(s, 7)
			same(t, "circuit reversed", p, rev.Offset(l-s, -7), 1e-8)
			same(t, "circuit scaled", r2.Scale(2, p), scaled.Offset(2*s, 14), 1e-8)
			v := r2.Sub(p, a.Start().Point)
			sin, cos := math.Sincos(2 - float64(a.Start().Heading))
			same(t, "circuit moved", r2.Vec{X: cos*v.X - sin*v.Y, Y: sin*v.X + cos*v.Y}, moved.Offset(s, 7), 1e-8)
			sin, cos = math.Sincos(2 * float64(a.Start().Heading))
			same(t, "circuit mirrored", r2.Add(a.Start().Point, r2.Vec{X: cos*v.X + sin*v.Y, Y: sin*v.X - cos*v.Y}), mirror.Offset(s, -7), 1e-8)
			if s < part.Length() {
				same(t, "part of a circuit", a.Offset(from+s, 7), part.Offset(s, 7), 1e-8)
			}
		}
	}
}

func TestTransformsRefuse(t *testing.T) {
	open := must(curve.New(curve.Pose{}, must(curve.NewStraight(100))))
	arc := must(curve.NewArc(100, 2*math.Pi, curve.Left))
	ring := must(curve.NewClosed(curve.Pose{}, 0, 0, arc))
	second := func(_ any, err error) error { return err }
	for _, c := range []struct {
		err  error
		want string
	}{
		{second(open.Part(-1, 50)), "chainage of -1 mm"},
		{second(open.Part(50, 20)), "length of the part -30 mm"},
		{second(open.Part(50, 50)), "length of the part 0 mm"},
		{second(ring.Part(0, 700)), "length of the part 700 mm"},
		{second(ring.Join(open)), "line closed"},
		{second(open.Join(ring)), "line closed"},
		{second(open.Scaled(-1)), "scale"},
		{second(open.Scaled(1e-13)), "element 1: length"},
		{second(open.Moved(curve.Pose{Heading: measure.Angle(math.NaN())})), "start heading"},
		{second(open.RailLength(curve.Left, 0, 500, 34)), "chainage of 500 mm"},
		{second(open.RailLength(0, 60, 50, -1)), "rail-head centres"},
		{second(open.Trim(0, 60, 50, 34)), "end of the range 50 mm"},
		{second(open.Points(60, 50, 0)), "tolerance"},
	} {
		if !errors.Is(c.err, measure.ErrInput) || !strings.Contains(c.err.Error(), c.want) {
			t.Errorf("error %v, want %q", c.err, c.want)
		}
	}
}
