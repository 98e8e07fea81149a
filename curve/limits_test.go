package curve_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// Easements whose curvature hardly changes lose nothing against the arc, or the
// straight, that they tend to: 1e-3 to 1e-12 of the change, and none.
func TestEasementTendsToArc(t *testing.T) {
	const L, R = 700., 1100.
	for _, shape := range easements {
		for _, d := range []float64{0, 1e-12, 1e-9, 1e-6, 1e-3} {
			for _, k := range []float64{0, 1 / R, -1 / R} {
				k1 := k + d/R
				pose := curve.Pose{Heading: 0.3}
				a := must(curve.New(pose, must(curve.NewEasement(shape, L, measure.Curvature(k), measure.Curvature(k1)))))
				w := walked(pose, []plain{{shape: shape, length: L, k0: k, k1: k1}}, 10)
				for _, m := range w.marks {
					// Quadrature in steps of 10 mm rounds a little each step.
					if e := r2.Norm(r2.Sub(a.Point(measure.Length(m.s)), m.at)); e > 5e-15*L {
						t.Errorf("%v, k %v, change %v of it: at %v off by %v of the length", shape, k, d, m.s, e/L)
					}
				}
				// The arc or straight itself, turned by what the change turns.
				if d == 0 {
					e := must(curve.NewStraight(L))
					if k != 0 {
						e = must(curve.NewArcOfLength(L, measure.Curvature(k)))
					}
					b := must(curve.New(pose, e))
					for s := measure.Length(0); s <= L; s += L / 7 {
						if e := r2.Norm(r2.Sub(a.Point(s), b.Point(s))); e > 5e-15*L {
							t.Errorf("%v of no change, k %v: at %v off by %v", shape, k, s, e)
						}
					}
				}
			}
		}
	}
}

// Turns of a millionth, and easements through an inflection whose whole turn
// is nothing.
func TestSmallAndNoTurn(t *testing.T) {
	for _, shape := range easements {
		for _, c := range []struct{ L, k0, k1 float64 }{
			{1000, 0, 2e-9},
			{1000, 1e-9, 1e-9 * (1 + 1e-6)},
			{400, -1e-12, 1e-12},
			{500, -1. / 300, 1. / 300},
			{900, 1. / 200, -1. / 200},
			{1800, -1. / 250, 1. / 250},
		} {
			pose := curve.Pose{Heading: -2}
			a := must(curve.New(pose, must(curve.NewEasement(shape, measure.Length(c.L), measure.Curvature(c.k0), measure.Curvature(c.k1)))))
			w := walked(pose, []plain{{shape: shape, length: c.L, k0: c.k0, k1: c.k1}}, 25)
			for _, m := range w.marks {
				if e := r2.Norm(r2.Sub(a.Point(measure.Length(m.s)), m.at)); e > 5e-15*c.L {
					t.Errorf("%v, L %v, %v to %v: at %v off by %v of the length", shape, c.L, c.k0, c.k1, m.s, e/c.L)
				}
			}
			if turn := float64(a.Turn(0, a.Length())); c.k0 == -c.k1 && math.Abs(turn) > 1e-15*c.L*c.k1 && math.Abs(turn) > 1e-15 {
				t.Errorf("%v, %v to %v turns by %v", shape, c.k0, c.k1, turn)
			}
		}
	}
}

func TestEasementTurnsAtMost4Pi(t *testing.T) {
	const L = 1000
	for _, shape := range easements {
		k := 8 * math.Pi / L
		if _, err := curve.NewEasement(shape, L, 0, measure.Curvature(k*(1-1e-12))); err != nil {
			t.Errorf("%v: %v", shape, err)
		}
		_, err := curve.NewEasement(shape, L, 0, measure.Curvature(k*1.001))
		if !errors.Is(err, measure.ErrInput) || !strings.Contains(err.Error(), "at most 720°") {
			t.Errorf("%v turning more than 4π: %v", shape, err)
		}
		// Left and right add up.
		if _, err = curve.NewEasement(shape, L, measure.Curvature(-3*k), measure.Curvature(3*k)); err == nil {
			t.Errorf("%v turning to and fro by more than 4π is taken", shape)
		}
	}
	a := must(curve.New(curve.Pose{}, must(curve.NewArc(100, 2000*math.Pi, curve.Left))))
	if p := a.End().Point; r2.Norm(p) > 1e-9 {
		t.Errorf("an arc of a thousand turns ends at %v", p)
	}
}

// Every chainage has an answer, and it is a number.
func TestAtIsTotal(t *testing.T) {
	arc := must(curve.NewArc(500, math.Pi, curve.Left))
	straight := must(curve.NewStraight(300))
	ease := must(curve.NewEasement(curve.Sine, 300, 0, 1./500))
	open := must(curve.New(curve.Pose{Point: r2.Vec{X: 5}}, straight, ease, arc))
	closed := must(curve.NewClosed(curve.Pose{}, 0, 0, straight, arc, straight, arc))
	for _, a := range []*curve.Alignment{open, closed} {
		for _, s := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, math.Copysign(0, -1), 1e300, -1e300, math.MaxFloat64, -math.MaxFloat64, 5e-324, -5e-324, float64(a.Length()), math.Nextafter(float64(a.Length()), 0), math.Nextafter(float64(a.Length()), 1e9)} {
			st := a.At(measure.Length(s))
			p := a.Point(measure.Length(s))
			sum := float64(st.Chainage) + st.Point.X + st.Point.Y + st.Tangent.X + st.Tangent.Y + float64(st.Heading) + float64(st.Curvature) + p.X + p.Y
			if math.IsNaN(sum) || math.IsInf(st.Tangent.X, 0) || math.IsInf(st.Point.X, 0) || math.IsInf(float64(st.Chainage), 0) {
				t.Errorf("At(%v) = %+v", s, st)
			}
			if p != st.Point {
				t.Errorf("Point(%v) = %v, At says %v", s, p, st.Point)
			}
			turn, span := a.Turn(measure.Length(s), 10), a.Span(20, measure.Length(s))
			if math.IsNaN(float64(turn)+float64(span)) || math.IsInf(float64(turn), 0) {
				t.Errorf("from %v: turn %v, span %v", s, turn, span)
			}
			if i, into := a.ElementAt(measure.Length(s)); i < 0 || i >= len(a.Elements()) || math.IsNaN(float64(into)) {
				t.Errorf("ElementAt(%v) = %v, %v", s, i, into)
			}
			_, err := a.Locate(measure.Length(s))
			if bad := math.IsNaN(s) || math.IsInf(s, 0) || !a.Closed() && (s < 0 || s > float64(a.Length())); bad != (err != nil) {
				t.Errorf("Locate(%v): %v", s, err)
			}
			if bad := math.IsNaN(s); bad && st != a.At(0) {
				t.Errorf("At(NaN) = %+v, want the start", st)
			}
			for _, q := range []r2.Vec{{X: s, Y: 1}, {X: s, Y: s}, {X: -3, Y: s}} {
				for _, f := range []curve.Foot{a.Nearest(q), a.NearestFrom(q, 10), a.NearestFrom(r2.Vec{X: 1}, measure.Length(s))} {
					if sum := float64(f.Chainage) + float64(f.Offset); math.IsNaN(sum) {
						t.Errorf("nearest of %v = %+v", q, f)
					}
				}
				for range a.Feet(q, 1000) {
				}
			}
		}
	}
	if got := open.At(math.MaxFloat64).Heading; got != open.End().Heading {
		t.Errorf("far past the end the heading is %v", got)
	}
}

// All faults at once, each by its name.
func TestConstructorsRefuse(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	second := func(_ any, err error) error { return err }
	good := must(curve.NewStraight(100))
	var tooMany []curve.Element
	for range curve.MaxElements + 1 {
		tooMany = append(tooMany, good)
	}
	for _, c := range []struct {
		err  error
		kind error
		want []string
	}{
		{second(curve.NewStraight(0)), measure.ErrInput, []string{"length of straight 0 mm"}},
		{second(curve.NewStraight(-5)), measure.ErrInput, []string{"-5 mm", "more than 0 mm"}},
		{second(curve.NewStraight(measure.Length(nan))), measure.ErrInput, []string{"finite"}},
		{second(curve.NewStraight(1e-12)), measure.ErrInput, []string{"at least 1e-09 mm"}},
		{second(curve.NewStraight(2e12)), measure.ErrInput, []string{"at most 1e+12 mm"}},
		{second(curve.NewArc(-1, 0, 0)), measure.ErrInput, []string{"radius of arc", "turn of arc", "hand of arc"}},
		{second(curve.NewArc(1000, measure.Angle(inf), curve.Left)), measure.ErrInput, []string{"turn of arc"}},
		{second(curve.NewArc(measure.Length(nan), measure.Angle(nan), curve.Left)), measure.ErrInput, []string{"radius of arc", "turn of arc"}},
		{second(curve.NewArc(1e12, 5, curve.Left)), measure.ErrInput, []string{"length of arc"}},
		{second(curve.NewEasement(curve.CircularArc, 0, measure.Curvature(nan), measure.Curvature(inf))), measure.ErrInput, []string{"shape of easement arc", "length of easement", "at the start", "at the end"}},
		{second(curve.NewEasement(99, 5, 0, 0)), measure.ErrInput, []string{"shape of easement unknown shape"}},
		{second(curve.NewCubicParabola(900, 1000, 0)), measure.ErrInput, []string{"abscissa of cubic parabola 900 mm", "less than 894.427 mm", "hand of cubic parabola"}},
		{second(curve.NewCubicParabola(0, measure.Length(nan), curve.Left)), measure.ErrInput, []string{"abscissa", "radius"}},
		{second(curve.NewLath(2000, 1000, curve.Left)), measure.ErrInput, []string{"abscissa of lath", "less than 2000 mm"}},
		{second(curve.Bend{}.Elements()), measure.ErrInput, []string{"radius of bend", "turn of bend", "hand of bend"}},
		{second(curve.Bend{Radius: 100, Turn: 0.1, Hand: curve.Left, EaseIn: 30, EaseOut: -1, Shape: 77}.Elements()), measure.ErrInput, []string{"easement out of bend", "shape of bend's easements"}},
		{second(curve.Bend{Radius: 100, Turn: 0.1, Hand: curve.Left, EaseIn: 30}.Elements()), measure.ErrInput, []string{"turn of bend 5.72958°", "at least the 8.59437°"}},
		{second(curve.New(curve.Pose{Point: r2.Vec{X: nan, Y: 2e12}, Heading: measure.Angle(inf)})), measure.ErrInput, []string{"start x", "start y", "start heading", "elements 0"}},
		{second(curve.New(curve.Pose{}, good, curve.Element{}, good.WithKink(measure.Angle(nan)), good.WithKink(4))), measure.ErrInput, []string{"element 2", "element 3: kink", "element 4: kink 229.183°"}},
		{second(curve.New(curve.Pose{}, tooMany...)), measure.ErrLimit, []string{"elements 10001", "at most 10000"}},
	} {
		if c.err == nil {
			t.Errorf("no error, want %q", c.want)
			continue
		}
		if !errors.Is(c.err, c.kind) {
			t.Errorf("%v is not %v", c.err, c.kind)
		}
		for _, want := range c.want {
			if !strings.Contains(c.err.Error(), want) {
				t.Errorf("error %q does not say %q", c.err, want)
			}
		}
		var field *measure.FieldError
		if !errors.As(c.err, &field) || field.Package != "curve" {
			t.Errorf("%v names no field of curve", c.err)
		}
	}
	if _, err := curve.New(curve.Pose{}, tooMany[:curve.MaxElements]...); err != nil {
		t.Errorf("as many elements as allowed: %v", err)
	}
}

func ExampleNewArc_refused() {
	_, err := curve.NewArc(-500, 90*measure.Degree, 0)
	fmt.Println(err)
	// Output:
	// curve: radius of arc -500 mm: must be more than 0 mm
	// curve: hand of arc neither: must be left or right
}
