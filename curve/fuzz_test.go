package curve_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/check"
	"example.org/fourfoot/gauge/measure"
)

// sound checks what every line promises.
func sound(t *testing.T, a *curve.Alignment, points ...r2.Vec) {
	t.Helper()
	l := a.Length()
	if !(l > 0) || math.IsInf(float64(l), 0) {
		t.Fatalf("length %v", l)
	}
	big := float64(l) + r2.Norm(a.Start().Point)
	b := a.Bounds()
	for i := range 9 {
		s := l * measure.Length(i) / 8
		st := a.At(s)
		if n := r2.Norm(st.Tangent); math.Abs(n-1) > 1e-12 {
			t.Fatalf("At(%v): tangent %v of length %v", s, st.Tangent, n)
		}
		if x := st.Point.X + st.Point.Y + float64(st.Heading) + float64(st.Curvature); math.IsNaN(x) || math.IsInf(x, 0) {
			t.Fatalf("At(%v) = %+v", s, st)
		}
		if d := r2.Norm(r2.Sub(st.Point, a.Point(s))); d != 0 {
			t.Fatalf("At and Point at %v are %v apart", s, d)
		}
		if slack := 1e-11 * big; st.Point.X < b.Min.X-slack || st.Point.X > b.Max.X+slack || st.Point.Y < b.Min.Y-slack || st.Point.Y > b.Max.Y+slack {
			t.Fatalf("At(%v).Point = %v is outside %v", s, st.Point, b)
		}
		for _, p := range points {
			f := a.Nearest(p)
			d := math.Abs(float64(f.Offset))
			to := math.Hypot(p.X-st.Point.X, p.Y-st.Point.Y)
			if math.IsNaN(d) || math.IsNaN(float64(f.Chainage)) || d > to*(1+1e-9)+1e-9*big {
				t.Fatalf("Nearest(%v) = %+v, but %v is %v away", p, f, s, to)
			}
			if g := a.NearestFrom(p, s); math.IsNaN(float64(g.Offset) + float64(g.Chainage)) {
				t.Fatalf("NearestFrom(%v, %v) = %+v", p, s, g)
			}
		}
	}
	if turn := a.Turn(0, l); math.Abs(float64(turn-(a.End().Heading-a.At(0).Heading))) > 1e-9*(1+math.Abs(float64(turn))) {
		t.Fatalf("turns %v, but heads from %v to %v", turn, a.At(0).Heading, a.End().Heading)
	}
}

func FuzzElement(f *testing.F) {
	f.Add(byte(0), 1000., 0., 0.)
	f.Add(byte(1), 600., 1.5, -1.)
	f.Add(byte(2), 500., 0., 0.002)
	f.Add(byte(5), 900., -0.01, 0.01)
	f.Add(byte(7), 500., 900., 1.)
	f.Add(byte(8), 900., 500., -1.)
	f.Add(byte(1), 1e-3, 4000., 1.)
	f.Add(byte(3), 700., 1e-3, 1.000000001e-3)
	f.Fuzz(func(t *testing.T, kind byte, p, q, r float64) {
		var e curve.Element
		var err error
		hand := curve.Hand(0)
		if r == 1 || r == -1 {
			hand = curve.Hand(r)
		}
		switch shape := curve.Shape(kind % 10); shape {
		case curve.StraightLine:
			e, err = curve.NewStraight(measure.Length(p))
		case curve.CircularArc:
			e, err = curve.NewArc(measure.Length(p), measure.Angle(q), hand)
		case curve.CubicParabola:
			e, err = curve.NewCubicParabola(measure.Length(p), measure.Length(q), hand)
		case curve.Lath:
			e, err = curve.NewLath(measure.Length(p), measure.Length(q), hand)
		default:
			e, err = curve.NewEasement(shape, measure.Length(p), measure.Curvature(q), measure.Curvature(r))
		}
		if err != nil {
			return
		}
		if !(e.Length() >= curve.MinLength && e.Length() <= 3*curve.MaxLength) {
			t.Fatalf("%v: length %v", e, e.Length())
		}
		a, err := curve.New(curve.Pose{Heading: 1}, e)
		if err != nil {
			t.Fatal(err)
		}
		far := 2 * float64(e.Length())
		sound(t, a, r2.Vec{}, r2.Vec{X: far, Y: -far / 3}, r2.Vec{X: p, Y: q}, a.Offset(e.Length()/3, e.Length()/7))
		back, err := curve.New(curve.Pose{Point: a.End().Point, Heading: a.End().Heading + math.Pi}, e.Reverse())
		if err != nil {
			t.Fatal(err)
		}
		// A heading of many turns is known to its last place only.
		turned := 1 + math.Abs(float64(e.Turn()))
		if d := r2.Norm(back.End().Point); d > 1e-12*turned*float64(e.Length()) {
			t.Fatalf("%+v there and back is %v off", e, d)
		}
		if third := e.Length() / 3; third > 2*curve.MinLength {
			part, err := e.Part(third, 2*third)
			if err != nil {
				t.Fatal(err)
			}
			st := a.At(third)
			b, err := curve.New(curve.Pose{Point: st.Point, Heading: st.Heading}, part)
			if err != nil {
				t.Fatal(err)
			}
			if d := r2.Norm(r2.Sub(b.End().Point, a.Point(2*third))); d > 1e-12*turned*float64(e.Length()) {
				t.Fatalf("%+v: the middle third ends %v off", e, d)
			}
		}
	})
}

// FuzzForm makes an element of any form: what is taken is sound, and comes back
// from its own form.
func FuzzForm(f *testing.F) {
	f.Add(byte(0), 1000., 0., 0., 0., 0., 0., 0., 0., false)
	f.Add(byte(1), 600., 0.1, 1e-3, 0., 0., 0., 0., 0., false)
	f.Add(byte(3), 200., 0., 1e-3, -1e-3, 500., 123.4, 0., 0., false)
	f.Add(byte(7), 300., 0., 0., 0., 500., 400., 1e-6, 0., true)
	f.Add(byte(8), 300., -0.2, 0., 0., 900., 100., -7e-7, 0., false)
	f.Add(byte(8), 900., 0., 1e-3, 0., 0., 0., -2e-6, 1e-6, false)
	f.Fuzz(func(t *testing.T, shape byte, length, kink, k0, k1, whole, from, rate, across float64, back bool) {
		e, err := curve.Form{
			Kink: measure.Angle(kink), Shape: curve.Shape(shape), Length: measure.Length(length),
			Start: measure.Curvature(k0), End: measure.Curvature(k1), Whole: measure.Length(whole), From: measure.Length(from),
			Rate: rate, Across: across, Back: back,
		}.Element()
		if arc, err := curve.NewArcOfLength(measure.Length(length), measure.Curvature(k0)); err == nil && arc.Length() != measure.Length(length) {
			t.Fatalf("an arc of %v is %v long", length, arc.Length())
		}
		if err != nil {
			return
		}
		if again, err := e.Form().Element(); err != nil || again != e {
			t.Fatalf("%+v comes back as %+v, %v", e, again, err)
		}
		a, err := curve.New(curve.Pose{Heading: 1}, e.WithKink(0))
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(float64(e.Turn())) < 1e6 {
			sound(t, a, r2.Vec{X: length, Y: whole})
		}
		if s, k := e.Sharpest(); s < 0 || s > e.Length() || math.IsNaN(float64(k)) {
			t.Fatalf("%+v is sharpest at %v, %v", e, s, k)
		}
	})
}

func FuzzLathBetween(f *testing.F) {
	f.Add(1000., 200., 0.3, 1050.)
	f.Add(500., 0., 1.5, 700.)
	f.Fuzz(func(t *testing.T, x, y, turn, length float64) {
		end := curve.Pose{Point: r2.Vec{X: x, Y: y}, Heading: measure.Angle(turn)}
		e, err := curve.NewLathBetween(curve.Pose{}, end, measure.Length(length))
		if err != nil {
			return
		}
		a, err := curve.New(curve.Pose{}, e)
		if err != nil {
			t.Fatal(err)
		}
		if d := r2.Norm(r2.Sub(a.End().Point, end.Point)); d > 1e-12*length {
			t.Fatalf("ends %v off", d)
		}
		sound(t, a, end.Point, r2.Vec{X: y, Y: x})
	})
}

func FuzzBend(f *testing.F) {
	f.Add(1000., 1.5, int8(1), 300., 200., byte(0))
	f.Add(800., 0.7, int8(-1), 0., 500., byte(7))
	f.Add(800., 0.7, int8(-1), 200., 100., byte(8))
	f.Fuzz(func(t *testing.T, radius, turn float64, hand int8, in, out float64, shape byte) {
		b := curve.Bend{Radius: measure.Length(radius), Turn: measure.Angle(turn), Hand: curve.Hand(hand), EaseIn: measure.Length(in), EaseOut: measure.Length(out), Shape: curve.Shape(shape)}
		all, err := b.Elements()
		if err != nil {
			return
		}
		a, err := curve.New(curve.Pose{}, all...)
		if err != nil {
			t.Fatal(err)
		}
		if d := float64(a.End().Heading) - turn*float64(hand); math.Abs(d) > 2e-12*(1+math.Abs(turn)) {
			t.Fatalf("%+v turns %v", b, a.End().Heading)
		}
		sound(t, a, r2.Vec{X: radius, Y: radius / 2})
	})
}

// FuzzLine builds a line, or a circuit, of whatever the bytes say.
func FuzzLine(f *testing.F) {
	f.Add([]byte{0, 10, 1, 90, 20, 0, 10, 1, 90, 20}, 0., 0., 0., 1., 0.01)
	f.Add([]byte{2, 40, 3, 50, 4, 60, 5, 70, 6, 80, 7, 30, 8, 20}, 5., -1., 2., 0., 0.)
	f.Add([]byte{1, 180, 40, 1, 180, 40}, 0., 0., 0., 100., 1.)
	f.Fuzz(func(t *testing.T, plan []byte, x, y, h, tolerance, slack float64) {
		var all []curve.Element
		k := 0.0
		next := func() float64 {
			if len(plan) == 0 {
				return 0
			}
			v := plan[0]
			plan = plan[1:]
			return float64(v)
		}
		for len(plan) > 0 && len(all) < 40 {
			var e curve.Element
			var err error
			switch shape := curve.Shape(int(next()) % 9); shape {
			case curve.StraightLine:
				e, err = curve.NewStraight(measure.Length(next() * 5))
			case curve.CircularArc:
				e, err = curve.NewArc(measure.Length(100+next()), measure.Angle(next()*measure.Degree.Radians()), curve.Left)
			case curve.CubicParabola:
				e, err = curve.NewCubicParabola(measure.Length(next()), 400, curve.Right)
			case curve.Lath:
				e, err = curve.NewLath(measure.Length(next()*2), 300, curve.Left)
			default:
				to := (next() - 128) * 1e-4
				e, err = curve.NewEasement(shape, measure.Length(next()*5), measure.Curvature(k), measure.Curvature(to))
				k = to
			}
			if err != nil {
				continue
			}
			if len(plan)%7 == 3 {
				e = e.WithKink(measure.Angle(next()-128) / 100)
			}
			all = append(all, e)
		}
		start := curve.Pose{Point: r2.Vec{X: x, Y: y}, Heading: measure.Angle(h)}
		a, err := curve.New(start, all...)
		if err != nil {
			return
		}
		if big := math.Abs(h); big < 1e3 {
			sound(t, a, r2.Vec{X: y, Y: x}, r2.Vec{X: x + 100, Y: y - 100})
		}
		limits := check.Limits{MinRadius: 300, MinEasement: 200, MinParameter: 300, MinStraight: 100, MaxJump: 1e-3}
		if _, err := check.Line(a, limits); err != nil {
			t.Fatal(err)
		}
		c, err := curve.NewClosed(start, measure.Length(tolerance), measure.Angle(slack), all...)
		if err != nil || math.Abs(h) > 1e3 || math.Abs(x)+math.Abs(y) > 1e6 {
			return
		}
		sound(t, c, r2.Vec{X: y, Y: x})
		d, err := c.Restart(c.Length() / 3)
		if err != nil {
			t.Fatal(err)
		}
		if off := r2.Norm(r2.Sub(c.Point(c.Length()*0.9), d.Point(c.Length()*(0.9-1./3)))); off > 1e-8*(1+float64(c.Length())) {
			t.Fatalf("restarted, a point moves by %v", off)
		}
	})
}
