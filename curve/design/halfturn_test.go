package design_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/design"
	"example.org/fourfoot/gauge/measure"
)

func TestHalfTurn(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 30))
	for range 200 {
		from := randomPose(rng)
		d := (1000 + 4000*rng.Float64()) * sign(rng)
		to := curve.Pose{Heading: from.Heading + measure.Angle(sign(rng)*math.Pi)}
		to.Point = r2.Add(from.Point, r2.Add(r2.Scale(d, unit(from.Heading+math.Pi/2)), r2.Scale(3000*rng.Float64(), unit(from.Heading))))
		ease := design.Easing{In: measure.Length(800 * rng.Float64()), Out: measure.Length(800 * rng.Float64()), Shape: allShapes[rng.IntN(len(allShapes))]}
		b, err := design.HalfTurn(from, to, ease)
		if err != nil {
			if !errors.Is(err, measure.ErrNoAnswer) || math.Abs(d) > 3000 {
				t.Errorf("distance %v, %+v: %v", d, ease, err)
			}
			continue
		}
		checkBend(t, b)
		near(t, "end on the second straight", offTangent(b.End.Point, to), 0, 1e-8)
		near(t, "heading", wrap(float64(b.End.Heading-to.Heading)), 0, 1e-12)
		if b.Start != from {
			t.Errorf("starts at %v, want %v", b.Start, from)
		}
	}
	b, err := design.HalfTurn(curve.Pose{}, curve.Pose{Point: r2.Vec{X: 5, Y: -3000}, Heading: math.Pi}, design.Easing{})
	if err != nil || b.Radius != 1500 || b.Hand != curve.Right {
		t.Errorf("plain half turn: radius %v %v, %v", b.Radius, b.Hand, err)
	}
	if _, err := design.HalfTurn(curve.Pose{}, curve.Pose{Point: r2.Vec{Y: 3000}, Heading: 3}, design.Easing{}); !errors.Is(err, measure.ErrInput) {
		t.Errorf("not parallel: %v", err)
	}
	if _, err := design.HalfTurn(curve.Pose{}, curve.Pose{Point: r2.Vec{X: 3000}, Heading: math.Pi}, design.Easing{}); !errors.Is(err, measure.ErrNoAnswer) {
		t.Errorf("no distance: %v", err)
	}
}

func FuzzHalfTurn(f *testing.F) {
	f.Add(0.0, 3000.0, 0.0, 300.0, 200.0, uint8(3))
	f.Add(50.0, -1e-3, 2.0, 0.0, 1e-3, uint8(7))
	f.Fuzz(func(t *testing.T, x, y, heading, in, out float64, shape uint8) {
		from := curve.Pose{Heading: measure.Angle(heading)}
		to := curve.Pose{Point: r2.Vec{X: x, Y: y}, Heading: measure.Angle(heading + math.Pi)}
		b, err := design.HalfTurn(from, to, design.Easing{In: measure.Length(in), Out: measure.Length(out), Shape: curve.Shape(shape)})
		if err != nil {
			if !errors.Is(err, measure.ErrInput) && !errors.Is(err, measure.ErrNoAnswer) {
				t.Fatalf("error of no kind: %v", err)
			}
			return
		}
		a, err := curve.New(b.Start, b.Elements()...)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "end on the second straight", offTangent(a.End().Point, to), 0, 1e-9*(float64(a.Length())+math.Abs(x)+math.Abs(y)))
	})
}
