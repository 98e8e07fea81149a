package curve_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// Every element, whole or in part, either way about, comes back from its form.
func TestLeversAreMadeAgainBitForBit(t *testing.T) {
	for i, row := range []struct{ x, r measure.Length }{{800, 3000}, {799.3, 1234.5}, {1000.0 / 3, 777.7}, {870, 1000}, {889, 1000}, {1990, 1000}} {
		cubic, err1 := curve.NewCubicParabola(row.x, row.r, curve.Right)
		lath, err2 := curve.NewLath(row.x, row.r, curve.Left)
		if err2 != nil || err1 != nil && row.x < 893 {
			t.Fatal(err1, err2)
		}
		for _, e := range []curve.Element{cubic, lath} {
			if e == (curve.Element{}) {
				continue
			}
			part, err := e.Part(e.Length()/7, e.Length()/3)
			if err != nil {
				t.Fatal(err)
			}
			for _, x := range []curve.Element{e, part, e.Reverse(), part.Reverse(), e.Mirror()} {
				again, err := x.Form().Element()
				if err != nil || again != x {
					t.Errorf("row %d: %+v comes back as %+v, %v", i, x, again, err)
				}
			}
		}
	}
}

func TestLathsBetweenPosesAreMadeAgainBitForBit(t *testing.T) {
	r := rand.New(rand.NewPCG(61, 62))
	made := 0
	for i := range 60 {
		end := curve.Pose{Point: r2.Vec{X: 500 + 1000*r.Float64(), Y: 300 * r.NormFloat64()}, Heading: measure.Angle(0.8 * r.NormFloat64())}
		e, err := curve.NewLathBetween(curve.Pose{}, end, measure.Length(r2.Norm(end.Point)*(1.01+0.2*r.Float64())))
		if err != nil {
			continue
		}
		made++
		part, err := e.Part(e.Length()/7, e.Length()/3)
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range []curve.Element{e, part, e.Reverse(), part.Reverse(), e.Mirror()} {
			again, err := x.Form().Element()
			if err != nil || again != x {
				t.Errorf("%d: %+v comes back as %+v, %v", i, x, again, err)
			}
		}
		v := e.Form()
		for j, change := range []func(*curve.Form){
			func(v *curve.Form) { v.Shape = curve.CubicParabola },
			func(v *curve.Form) { v.Start *= 1000 },
			func(v *curve.Form) { v.Across = 1e300 },
			func(v *curve.Form) { v.Across = math.NaN() },
			func(v *curve.Form) { v.Start = measure.Curvature(4 / e.Length()); v.Rate, v.Across = 0, 0 },
			// A wave of 0.8 of the length changes hand twice and more.
			func(v *curve.Form) {
				v.Start, v.Rate, v.Across = measure.Curvature(0.5/e.Length()), 0, -60/float64(e.Length()*e.Length())
			},
		} {
			bad := v
			change(&bad)
			if _, err := bad.Element(); !errors.Is(err, measure.ErrInput) {
				t.Errorf("%d, change %d: %+v.Element() gives %v, want ErrInput", i, j, bad, err)
			}
		}
	}
	if made < 12 {
		t.Errorf("only %d laths made", made)
	}
}

func TestFormRefusesLevers(t *testing.T) {
	e, err := curve.NewLath(500, 1000, curve.Left)
	if err != nil {
		t.Fatal(err)
	}
	good := e.Form()
	for i, change := range []func(*curve.Form){
		func(v *curve.Form) { v.Shape = curve.Bloss },
		func(v *curve.Form) { v.Rate = 0 },
		func(v *curve.Form) { v.Rate = math.NaN() },
		func(v *curve.Form) { v.Rate = 1e300 },
		func(v *curve.Form) { v.Rate = 1.4e-5 },
		func(v *curve.Form) { v.Shape, v.Rate = curve.CubicParabola, 3.8e-6 },
		func(v *curve.Form) { v.From = 1 },
		func(v *curve.Form) { v.Back = true },
		func(v *curve.Form) { v.Length = -1 },
		func(v *curve.Form) { v.Whole = measure.Length(math.Inf(1)) },
	} {
		v := good
		change(&v)
		if _, err := v.Element(); !errors.Is(err, measure.ErrInput) {
			t.Errorf("case %d: %+v.Element() gives %v, want ErrInput", i, v, err)
		}
	}
}
