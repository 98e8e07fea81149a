package design_test

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/design"
	"example.org/fourfoot/gauge/measure"
)

// The two shapes that go by their abscissa.
var (
	levers    = []curve.Shape{curve.CubicParabola, curve.Lath}
	allShapes = append(append([]curve.Shape(nil), shapes...), levers...)
)

// The cubic parabola y = x³/6RX, in closed form: it turns τ = atan(X/2R) and
// has y = X²/6R at its end.
func TestParabolaTangentsInClosedForm(t *testing.T) {
	const r, x, turn = 3000.0, 800.0, 1.0
	b, err := corner(t, turn, 1e4, 1e4).ByRadius(r, design.Ease(curve.CubicParabola, x))
	if err != nil {
		t.Fatal(err)
	}
	tau := math.Atan(x / (2 * r))
	shift := x*x/(6*r) - r*(1-math.Cos(tau))
	near(t, "turn of easement", float64(b.TurnIn), tau, 1e-13)
	near(t, "shift", float64(b.ShiftIn), shift, 1e-9)
	near(t, "tangent", float64(b.TangentIn), x-r*math.Sin(tau)+(r+shift)*math.Tan(turn/2), 1e-9)
	checkBend(t, b)
}

func TestLeverBuilders(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 31))
	ctx := context.Background()
	for i := range 60 {
		shape := levers[i%2]
		turn := (0.4 + 2.2*rng.Float64()) * sign(rng)
		r := 1000 + 3000*rng.Float64()
		ease := design.Easing{In: measure.Length(0.4 * r * rng.Float64()), Out: measure.Length(0.35 * r * rng.Float64()), Shape: shape}
		c := corner(t, turn, 1e6, 1e6)
		b, err := c.ByRadius(measure.Length(r), ease)
		if err != nil {
			if !errors.Is(err, measure.ErrNoAnswer) || math.Abs(turn) > 0.8 {
				t.Errorf("turn %v radius %v %+v: %v", turn, r, ease, err)
			}
			continue
		}
		checkBend(t, b)
		if again, err := c.ByApex(b.Apex, ease); err != nil {
			t.Errorf("by apex: %v", err)
		} else {
			near(t, "apex", float64(again.Apex), float64(b.Apex), 1e-6)
		}
		a, err := curve.New(b.Start, b.Elements()...)
		if err != nil {
			t.Fatal(err)
		}
		if again, err := c.Through(a.Point(a.Length()*0.3), ease); err != nil {
			t.Errorf("through: %v", err)
		} else {
			checkBend(t, again)
		}
		small := corner(t, turn, 3000, 3500)
		if b, err := small.Largest(design.Ease(shape, 200)); err != nil {
			t.Errorf("largest: %v", err)
		} else {
			near(t, "room", min(3000-float64(b.TangentIn), 3500-float64(b.TangentOut)), 0, 1e-8)
		}
		l, err := design.Reverse{To: curve.Pose{Point: r2.Vec{Y: 400}}, Radius1: measure.Length(r), Ease1: design.Ease(shape, 200), Ease2: design.Ease(shape, 150), Straight: 50}.Line()
		if err != nil {
			t.Errorf("reverse: %v", err)
		} else {
			near(t, "shift", aligned(t, l).End().Point.Y, 400, 1e-8)
		}
		e, err := design.InsertEasements(oval(t, 3000, 1500), design.KeepCrown, shape, 400)
		if err != nil {
			t.Errorf("insert: %v", err)
		} else {
			near(t, "r + p", float64(e.Arcs[0].Radius+e.Arcs[0].Shift), 1500, 1e-8)
			aligned(t, e.Line)
		}
		if i > 6 {
			continue
		}
		j := design.Join{To: curve.Pose{Point: r2.Vec{X: 5000, Y: 1500}, Heading: measure.Angle(rng.Float64() - 0.5)}, Family: design.ArcStraightArc, Ease: 300, Shape: shape}
		got, err := j.Line(ctx)
		if err != nil {
			t.Errorf("join: %v", err)
			continue
		}
		meets(t, "end of join", aligned(t, got.Line).End(), j.To, 1e-6)
		j.Family = design.TwoArcs
		if _, err := j.Line(ctx); !errors.Is(err, measure.ErrInput) {
			t.Errorf("two arcs with %v between: error %v", shape, err)
		}
		if _, err := c.Compound(design.Compound{Radius1: 1000, Radius2: 2000, Turn1: 0.1, Between: 50, Shape: shape}); !errors.Is(err, measure.ErrInput) {
			t.Errorf("compound with %v between: error %v", shape, err)
		}
		if _, err := c.Compound(design.Compound{Radius1: 1000, Radius2: 2000, Turn1: 0.1, EaseIn: 50, EaseOut: 90, Shape: shape}); err != nil {
			t.Errorf("compound with %v at its ends: error %v", shape, err)
		}
		f := design.Fit{Obstacles: garden(rng, small)}
		if got, err := f.Bend(ctx, small, design.Ease(shape, 200)); err == nil {
			if !gridClear(aligned(t, got.Line), f.Obstacles, 0.1) {
				t.Errorf("the fitted bend fouls")
			}
		} else if !errors.Is(err, measure.ErrNoAnswer) {
			t.Errorf("fit: %v", err)
		}
	}
}

// Easements that do not exist at a radius are refused with the radius at which
// they do.
func TestLeverLimits(t *testing.T) {
	c := corner(t, 2.5, 1e5, 1e5)
	for _, shape := range levers {
		_, err := c.ByRadius(300, design.Ease(shape, 700))
		if !errors.Is(err, measure.ErrNoAnswer) {
			t.Errorf("%v too long: error %v", shape, err)
		}
		b, err := c.Largest(design.Ease(shape, 700))
		if err != nil {
			t.Errorf("%v: %v", shape, err)
			continue
		}
		checkBend(t, b)
	}
}
