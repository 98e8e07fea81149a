package design

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

func TestRampAgreesWithLevers(t *testing.T) {
	for _, shape := range []curve.Shape{curve.CubicParabola, curve.Lath} {
		r, err := newRamp(shape)
		if err != nil {
			t.Fatal(err)
		}
		for _, radius := range []float64{1.2, 3, 50, 1e4} {
			h, want := r.half(1, 1/radius), newHalf(shape, 1, radius)
			for i, d := range []float64{h.length - want.length, h.along - want.along, h.shift - want.shift, h.turn - want.turn} {
				if !(math.Abs(d) <= 1e-11) {
					t.Errorf("%v to radius %v: half value %d off by %g", shape, radius, i, d)
				}
			}
		}
	}
}

// The searches' quadrature agrees with the elements' own ends.
func TestRampAgreesWithElements(t *testing.T) {
	for shape := curve.Clothoid; shape <= curve.Helmert; shape++ {
		r, err := newRamp(shape)
		if err != nil {
			t.Fatal(err)
		}
		for _, k := range [][2]float64{{0, 1e-3}, {0, -0.5}, {0, 6}, {3, -5}, {-6, -6.5}, {1e-9, -1e-9}} {
			const length = 2.0
			e, err := curve.NewEasement(shape, length, measure.Curvature(k[0]), measure.Curvature(k[1]))
			if err != nil {
				t.Fatal(err)
			}
			a, err := curve.New(curve.Pose{}, e)
			if err != nil {
				t.Fatal(err)
			}
			end, turn := r.end(length, k[0], k[1])
			tol := 1e-13
			if math.Abs(k[0]+k[1])*length/2 > 2*math.Pi {
				tol = 1e-9
			}
			if d := r2.Norm(r2.Sub(end, a.End().Point)) / length; !(d <= tol) {
				t.Errorf("%v from %v to %v: end off by %g of the length", shape, k[0], k[1], d)
			}
			if d := math.Abs(turn - float64(a.End().Heading)); !(d <= 1e-14*(1+math.Abs(turn))) {
				t.Errorf("%v from %v to %v: turn off by %g", shape, k[0], k[1], d)
			}
			if k[0] == 0 {
				h, want := r.half(length, math.Abs(k[1])), newHalf(shape, length, 1/math.Abs(k[1]))
				for i, d := range []float64{h.along - want.along, h.shift - want.shift, h.turn - want.turn} {
					if !(math.Abs(d) <= 1e-12) {
						t.Errorf("%v to %v: half value %d off by %g", shape, k[1], i, d)
					}
				}
			}
		}
	}
}
