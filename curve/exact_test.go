package curve_test

import (
	"errors"
	"math"
	"testing"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

func TestElementsAreMadeAgainBitForBit(t *testing.T) {
	arc, err1 := curve.NewArc(1234.5678, 0.777, curve.Right)
	again, err2 := curve.NewArcOfLength(arc.Length(), arc.StartCurvature())
	whole, err3 := curve.NewEasement(curve.Bloss, 1000.0/3, 1.0/700, -1.0/900)
	part, err4 := curve.NewEasementPart(whole, 100.1, 99.7)
	back, from := part.WithKink(0.1).Whole()
	twice, err5 := curve.NewEasementPart(back, from, part.Length())
	if err := errors.Join(err1, err2, err3, err4, err5); err != nil {
		t.Fatal(err)
	}
	if again != arc || back != whole || twice != part {
		t.Errorf("%v, %v, %v are not %v, %v, %v", again, back, twice, arc, whole, part)
	}
	for s := measure.Length(0); s < 99; s += 7 {
		if a, b := part.CurvatureAt(s), whole.CurvatureAt(s+100.1); math.Abs(float64(a-b)) > 1e-17 {
			t.Errorf("curvature of the part at %v: %v, of the whole %v", s, a, b)
		}
		const h = 0.01
		d := float64(part.CurvatureAt(s+h)-part.CurvatureAt(s-h)) / (2 * h)
		if s > 0 && math.Abs(part.CurvatureRate(s)-d) > 1e-11 {
			t.Errorf("rate at %v: %v, difference quotient %v", s, part.CurvatureRate(s), d)
		}
	}
}

func TestExactConstructorsRefuse(t *testing.T) {
	whole, err := curve.NewEasement(curve.Sine, 500, 0, 1.0/700)
	if err != nil {
		t.Fatal(err)
	}
	nan := measure.Length(math.NaN())
	_, e1 := curve.NewArcOfLength(5, 0)
	_, e2 := curve.NewArcOfLength(nan, measure.Curvature(math.Inf(1)))
	_, e3 := curve.NewEasementPart(curve.Element{}, 0, 1)
	_, e4 := curve.NewEasementPart(whole, -1, 5)
	_, e5 := curve.NewEasementPart(whole, 499, 5)
	_, e6 := curve.NewEasementPart(whole, nan, nan)
	for i, err := range []error{e1, e2, e3, e4, e5, e6} {
		if !errors.Is(err, measure.ErrInput) {
			t.Errorf("case %d: error %v, want ErrInput", i+1, err)
		}
	}
}
