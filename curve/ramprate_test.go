package curve_test

import (
	"math"
	"testing"

	"example.org/fourfoot/curve"
)

func TestRampRateIsTheDerivativeOfRamp(t *testing.T) {
	peak := map[curve.Shape]float64{curve.Clothoid: 1, curve.Bloss: 1.5, curve.Cosine: math.Pi / 2, curve.Sine: 2, curve.Helmert: 2}
	for shape, want := range peak {
		for u := 0.01; u < 1; u += 0.0175 {
			const h = 1e-6
			d := (shape.Ramp(u+h) - shape.Ramp(u-h)) / (2 * h)
			if got := shape.RampRate(u); math.Abs(got-d) > 1e-5 {
				t.Errorf("%v.RampRate(%v) = %v, difference quotient of Ramp %v", shape, u, got, d)
			}
		}
		if got := shape.RampRate(0.5); math.Abs(got-want) > 1e-15 {
			t.Errorf("%v.RampRate(½) = %v, want %v", shape, got, want)
		}
	}
	if got := curve.CircularArc.RampRate(0.5); got != 0 {
		t.Errorf("RampRate of an arc = %v, want 0", got)
	}
}
