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

// versine identity: v (2R - v) = (c/2)².
func TestThreePointsVersine(t *testing.T) {
	const c, v = 500.0, 10.0
	b, err := design.ThreePoints(r2.Vec{}, r2.Vec{X: c / 2, Y: -v}, r2.Vec{X: c})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "radius", float64(b.Radius), c*c/(8*v)+v/2, 1e-9)
	if b.Hand != curve.Left {
		t.Errorf("hand %v, want left", b.Hand)
	}
}

func TestThreePointsPassesThem(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 5))
	for range 500 {
		p := randomPose(rng)
		r := math.Exp(4 + 8*rng.Float64())
		turn := 0.01 + 6.2*rng.Float64()
		hand := curve.Hand(sign(rng))
		e, err := curve.NewArc(measure.Length(r), measure.Angle(turn), hand)
		if err != nil {
			t.Fatal(err)
		}
		a, err := curve.New(p, e)
		if err != nil {
			t.Fatal(err)
		}
		mid := a.Point(a.Length() * measure.Length(0.1+0.8*rng.Float64()))
		b, err := design.ThreePoints(p.Point, mid, a.End().Point)
		if err != nil {
			t.Fatal(err)
		}
		// Points carry 1e-12 of their coordinates; the radius magnifies that.
		loose := 1e-9 * (1 + 10/(turn*min(turn, 2*math.Pi-turn))) * (1 + 1e4/r)
		near(t, "radius", float64(b.Radius)/r, 1, loose)
		near(t, "turn", float64(b.Turn)/turn, 1, loose)
		if b.Hand != hand {
			t.Errorf("hand %v, want %v", b.Hand, hand)
		}
		got, err := curve.New(b.Start, b.Elements()...)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "second point", float64(got.Nearest(mid).Offset), 0, 1e-8*(1+r))
		near(t, "third point", r2.Norm(r2.Sub(got.End().Point, a.End().Point)), 0, 1e-8*(1+r))
	}
}

func TestThreePointsOnALine(t *testing.T) {
	_, err := design.ThreePoints(r2.Vec{}, r2.Vec{X: 1, Y: 1}, r2.Vec{X: 3, Y: 3})
	if !errors.Is(err, measure.ErrNoAnswer) {
		t.Errorf("points on a line: error %v, want no answer", err)
	}
	_, err = design.ThreePoints(r2.Vec{}, r2.Vec{X: 1, Y: 1}, r2.Vec{X: 1, Y: 1})
	if !errors.Is(err, measure.ErrInput) {
		t.Errorf("two equal points: error %v, want bad input", err)
	}
}

func FuzzThreePoints(f *testing.F) {
	f.Add(0.0, 0.0, 1.0, 2.0, 3.0, 1.0)
	f.Add(0.0, 0.0, 1.0, 1e-9, 2.0, 0.0)
	f.Fuzz(func(t *testing.T, ax, ay, bx, by, cx, cy float64) {
		a, b, c := r2.Vec{X: ax, Y: ay}, r2.Vec{X: bx, Y: by}, r2.Vec{X: cx, Y: cy}
		bend, err := design.ThreePoints(a, b, c)
		if err != nil {
			return
		}
		l, err := curve.New(bend.Start, bend.Elements()...)
		if err != nil {
			t.Fatal(err)
		}
		scale := math.Abs(ax) + math.Abs(ay) + math.Abs(bx) + math.Abs(by) + math.Abs(cx) + math.Abs(cy)
		if d := r2.Norm(r2.Sub(l.End().Point, c)); d > 1e-9*(scale+float64(bend.Radius)) {
			t.Errorf("ends %g from the last point, radius %v", d, bend.Radius)
		}
	})
}
