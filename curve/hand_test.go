package curve_test

import (
	"errors"
	"math"
	"testing"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

func TestHandCurvature(t *testing.T) {
	for _, h := range []curve.Hand{curve.Left, curve.Right} {
		k, err := h.Curvature(4 * measure.Metre)
		if err != nil || k != measure.Curvature(h)/4000 {
			t.Errorf("%v.Curvature(4 m) = %v, %v", h, k, err)
		}
		r, back, ok := curve.RadiusOf(k)
		if r != 4000 || back != h || !ok {
			t.Errorf("RadiusOf(%v) = %v, %v, %v", k, r, back, ok)
		}
	}
	for _, r := range []measure.Length{0, -1, measure.Length(math.NaN()), measure.Length(math.Inf(1))} {
		if _, err := curve.Left.Curvature(r); !errors.Is(err, measure.ErrInput) {
			t.Errorf("Left.Curvature(%v) gave error %v", r, err)
		}
	}
	if _, err := curve.Hand(0).Curvature(1); !errors.Is(err, measure.ErrInput) {
		t.Errorf("a hand that is neither gave error %v", err)
	}
	for _, k := range []measure.Curvature{0, measure.Curvature(math.NaN()), 5e-324} {
		if _, _, ok := curve.RadiusOf(k); ok {
			t.Errorf("RadiusOf(%v) found a radius", k)
		}
	}
}
