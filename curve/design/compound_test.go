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

// A plain compound curve by the textbook triangle: the common tangent at the
// joint cuts the straights at IP1 and IP2, distances R1 tan Δ1/2 + R2 tan Δ2/2
// apart, and the sine rule gives the tangent lengths (the surveying
// textbooks' way, from memory; the numbers here are worked).
func TestPlainCompoundBySineRule(t *testing.T) {
	const r1, r2_, d1, d2 = 3000.0, 1800.0, 0.4, 0.7
	b, err := corner(t, d1+d2, 1e5, 1e5).Compound(design.Compound{Radius1: r1, Radius2: r2_, Turn1: d1})
	if err != nil {
		t.Fatal(err)
	}
	ta, tb := r1*math.Tan(d1/2), r2_*math.Tan(d2/2)
	near(t, "first tangent", float64(b.TangentIn), ta+(ta+tb)*math.Sin(d2)/math.Sin(d1+d2), 1e-9)
	near(t, "last tangent", float64(b.TangentOut), tb+(ta+tb)*math.Sin(d1)/math.Sin(d1+d2), 1e-9)
	near(t, "second turn", float64(b.Turn2), d2, 1e-12)
	near(t, "shift between", float64(b.Shift), 0, 1e-9)
}

func TestCompoundRandom(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 7))
	for range 300 {
		turn := (0.4 + 2.6*rng.Float64()) * sign(rng)
		r1, r2_ := 1000+4000*rng.Float64(), 1000+4000*rng.Float64()
		k := design.Compound{
			Radius1: measure.Length(r1), Radius2: measure.Length(r2_), Turn1: measure.Angle(0.5 * math.Abs(turn) * (0.1 + rng.Float64())),
			EaseIn: measure.Length(100 * rng.Float64()), Between: measure.Length(100 * rng.Float64()), EaseOut: measure.Length(100 * float64(rng.IntN(2))),
			Shape: shapes[rng.IntN(5)],
		}
		c := corner(t, turn, 1e6, 1e6)
		b, err := c.Compound(k)
		if err != nil {
			t.Errorf("%+v: %v", k, err)
			continue
		}
		a, err := curve.New(b.Start, b.Elements()...)
		if err != nil {
			t.Fatal(err)
		}
		meets(t, "end", a.End(), b.End, 1e-8)
		near(t, "start on the first straight", offTangent(b.Start.Point, curve.Pose{}), 0, 1e-9)
		near(t, "end on the second straight", offTangent(a.End().Point, curve.Pose{Heading: measure.Angle(turn)}), 0, 1e-8)
		s1 := k.EaseIn + measure.Length(float64(k.Radius1)*float64(b.Turn1)/2)
		s2 := a.Length() - k.EaseOut - measure.Length(float64(k.Radius2)*float64(b.Turn2)/2)
		near(t, "first centre", r2.Norm(r2.Sub(a.Point(s1), b.Centre1)), r1, 1e-8)
		near(t, "second centre", r2.Norm(r2.Sub(a.Point(s2), b.Centre2)), r2_, 1e-8)
		near(t, "shift between", float64(b.Shift), math.Abs(r1-r2_)-r2.Norm(r2.Sub(b.Centre1, b.Centre2)), 1e-8)
		if b.Shift < -1e-9 {
			t.Errorf("shift between the arcs is %v", b.Shift)
		}
		bounds := a.Boundaries()
		for i := 1; i+1 < len(bounds); i++ {
			before, after := a.Elements()[i-1].EndCurvature(), a.Elements()[i].StartCurvature()
			if k.Between > 0 && math.Abs(float64(before-after))*r1 > 1e-12 {
				t.Errorf("curvature jumps from %v to %v at element %d", before, after, i)
			}
		}
	}
}

// The leading shift between two arcs is that of a transition to the radius
// of the difference of curvatures: M²/24 (1/R2 - 1/R1) for a clothoid.
func TestCompoundShiftLeadingTerm(t *testing.T) {
	b, err := corner(t, 1, 1e6, 1e6).Compound(design.Compound{Radius1: 4000, Radius2: 2500, Turn1: 0.4, Between: 200})
	if err != nil {
		t.Fatal(err)
	}
	want := 200.0 * 200 / 24 * (1.0/2500 - 1.0/4000)
	near(t, "shift", float64(b.Shift), want, 1e-3*want)
}

func TestCompoundRefuses(t *testing.T) {
	c := corner(t, 1, 2000, 2000)
	for name, row := range map[string]struct {
		k    design.Compound
		kind error
	}{
		"no radius":      {design.Compound{Turn1: 0.1}, measure.ErrInput},
		"no turn":        {design.Compound{Radius1: 1, Radius2: 2}, measure.ErrInput},
		"turn too large": {design.Compound{Radius1: 1, Radius2: 2, Turn1: 1.1}, measure.ErrNoAnswer},
		"too large":      {design.Compound{Radius1: 9000, Radius2: 8000, Turn1: 0.5}, measure.ErrNoAnswer},
		"bad shape":      {design.Compound{Radius1: 100, Radius2: 200, Turn1: 0.1, Between: 1, Shape: 99}, measure.ErrInput},
		"NaN easement":   {design.Compound{Radius1: 100, Radius2: 200, Turn1: 0.1, Between: measure.Length(math.NaN())}, measure.ErrInput},
	} {
		if _, err := c.Compound(row.k); !errors.Is(err, row.kind) {
			t.Errorf("%s: error %v, want %v", name, err, row.kind)
		}
	}
}

func FuzzCompound(f *testing.F) {
	f.Add(1.0, 3000.0, 2000.0, 0.3, 100.0, 50.0, 20.0, uint8(3))
	f.Fuzz(func(t *testing.T, turn, ra, rb, turn1, in, mid, out float64, shape uint8) {
		s, c := math.Sincos(turn)
		k, err := design.CornerOf(r2.Vec{X: -1e5}, r2.Vec{}, r2.Vec{X: 1e5 * c, Y: 1e5 * s})
		if err != nil {
			return
		}
		b, err := k.Compound(design.Compound{
			Radius1: measure.Length(ra), Radius2: measure.Length(rb), Turn1: measure.Angle(turn1),
			EaseIn: measure.Length(in), Between: measure.Length(mid), EaseOut: measure.Length(out), Shape: curve.Shape(shape),
		})
		if err != nil {
			return
		}
		a, err := curve.New(b.Start, b.Elements()...)
		if err != nil {
			t.Fatal(err)
		}
		scale := float64(a.Length()) + 2e5
		meets(t, "end", a.End(), b.End, 1e-9*scale/math.Sin(math.Abs(wrap(turn))))
	})
}
