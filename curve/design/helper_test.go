package design_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/design"
	"example.org/fourfoot/gauge/measure"
)

var shapes = []curve.Shape{curve.Clothoid, curve.Bloss, curve.Cosine, curve.Sine, curve.Helmert}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.15g, want %.15g within %g", what, got, want, tol)
	}
}

func aligned(t *testing.T, l design.Line) *curve.Alignment {
	t.Helper()
	a, err := l.Alignment()
	if err != nil {
		t.Fatalf("Alignment: %v", err)
	}
	return a
}

func wrap(x float64) float64 { return math.Remainder(x, 2*math.Pi) }

// meets checks that a pose is at a place and a heading.
func meets(t *testing.T, what string, got, want curve.Pose, tol float64) {
	t.Helper()
	if d := r2.Norm(r2.Sub(got.Point, want.Point)); !(d <= tol) {
		t.Errorf("%s: at %v, want %v: %g mm off, allowed %g", what, got.Point, want.Point, d, tol)
	}
	if d := math.Abs(wrap(float64(got.Heading - want.Heading))); !(d <= 1e-11) {
		t.Errorf("%s: heading %v, want %v", what, got.Heading, want.Heading)
	}
}

// offTangent returns how far p is to the left of the pose's straight.
func offTangent(p r2.Vec, of curve.Pose) float64 {
	s, c := math.Sincos(float64(of.Heading))
	d := r2.Sub(p, of.Point)
	return c*d.Y - s*d.X
}

// checkBend checks a bend against its own evaluation.
func checkBend(t *testing.T, b design.Bend) {
	t.Helper()
	scale := float64(b.Length()+b.Radius) + r2.Norm(b.Start.Point)
	tol := 1e-11 * scale
	a, err := curve.New(b.Start, b.Elements()...)
	if err != nil {
		t.Fatalf("curve.New of bend %+v: %v", b, err)
	}
	meets(t, "end of bend", a.End(), b.End, tol)
	near(t, "length", float64(b.Length()), float64(a.Length()), tol)
	near(t, "turn", float64(b.Turn)*float64(b.Hand), float64(a.End().Heading-b.Start.Heading), 1e-12*(1+float64(b.Turn)))
	near(t, "parts' turn", float64(b.TurnIn+b.TurnArc+b.TurnOut), float64(b.Turn), 1e-12)
	if b.TurnArc > 0 {
		m := a.At(b.Ease.In + (b.Length()-b.Ease.In-b.Ease.Out)/2)
		near(t, "arc to centre", r2.Norm(r2.Sub(m.Point, b.Centre)), float64(b.Radius), tol)
		near(t, "curvature of arc", float64(m.Curvature)*float64(b.Hand)*float64(b.Radius), 1, 1e-12)
	}
	near(t, "centre to first straight", float64(b.Hand)*offTangent(b.Centre, b.Start), float64(b.Radius+b.ShiftIn), tol)
	near(t, "centre to last straight", float64(b.Hand)*offTangent(b.Centre, b.End), float64(b.Radius+b.ShiftOut), tol)
	if b.TangentIn != 0 {
		s, c := math.Sincos(float64(b.Start.Heading))
		near(t, "start to intersection", r2.Norm(r2.Sub(r2.Add(b.Start.Point, r2.Scale(float64(b.TangentIn), r2.Vec{X: c, Y: s})), b.Intersection)), 0, tol)
		s, c = math.Sincos(float64(b.End.Heading))
		near(t, "intersection to end", r2.Norm(r2.Sub(r2.Add(b.Intersection, r2.Scale(float64(b.TangentOut), r2.Vec{X: c, Y: s})), b.End.Point)), 0, tol*(1+1/math.Sin(float64(b.Turn))))
		best := math.Inf(1)
		for i := 0; i <= 2000; i++ {
			best = min(best, r2.Norm(r2.Sub(a.Point(a.Length()*length(i)/2000), b.Intersection)))
		}
		if float64(b.Apex) > best+tol {
			t.Errorf("apex distance %v, but a point of the bend is %v from the intersection point", b.Apex, best)
		}
		step := float64(a.Length()) / 2000
		near(t, "apex distance", float64(b.Apex), best, step+tol)
		near(t, "crown", r2.Norm(r2.Sub(b.Crown, b.Intersection)), float64(b.Apex), 1e-6+tol)
	}
}

type length = measure.Length
