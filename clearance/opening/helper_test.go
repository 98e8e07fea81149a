package opening_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

func elements(t testing.TB, e ...any) []curve.Element {
	t.Helper()
	var out []curve.Element
	for _, x := range e {
		switch x := x.(type) {
		case curve.Element:
			out = append(out, x)
		case []curve.Element:
			out = append(out, x...)
		case error:
			t.Fatal(x)
		}
	}
	return out
}

func must[T any](t testing.TB) func(v T, err error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func straight(t testing.TB, l measure.Length) curve.Element {
	return must[curve.Element](t)(curve.NewStraight(l))
}

func arc(t testing.TB, radius measure.Length, turn measure.Angle, hand curve.Hand) curve.Element {
	return must[curve.Element](t)(curve.NewArc(radius, turn, hand))
}

func line(t testing.TB, e ...curve.Element) *curve.Alignment {
	return must[*curve.Alignment](t)(curve.New(curve.Pose{}, e...))
}

// garden is a straight, an eased bend of 1.5 m radius to the hand, a straight.
func garden(t testing.TB, hand curve.Hand) *curve.Alignment {
	b := must[[]curve.Element](t)(curve.Bend{Radius: 1500, Turn: 90 * measure.Degree, Hand: hand, EaseIn: 800, EaseOut: 800}.Elements())
	return line(t, elements(t, straight(t, 2000), b, straight(t, 2000))...)
}

func sweep(t testing.TB, l *curve.Alignment, set clearance.Settings, stock ...clearance.Vehicle) *clearance.Envelope {
	t.Helper()
	return must[*clearance.Envelope](t)(clearance.Sweep(t.Context(), l, stock, set))
}

func coach() clearance.Vehicle {
	return clearance.Bogie("coach", 443, 80,
		clearance.Band{Name: "frame", Bottom: 12, Top: 38, Outline: clearance.Box(600, 70)},
		clearance.Band{Name: "body", Bottom: 38, Top: 110, Outline: clearance.Box(614, 88)},
		clearance.Band{Name: "roof", Bottom: 110, Top: 130, Outline: clearance.Box(614, 60)})
}

func wagon() clearance.Vehicle {
	return clearance.Rigid("wagon", 110, clearance.Band{Name: "body", Bottom: 8, Top: 90, Outline: clearance.Box(190, 92)})
}

// blocks returns a section of random blocks, and the blocks.
func blocks(t testing.TB, rng *rand.Rand, n int) (s sectionOf, b [][4]float64) {
	for range n {
		y0, z0 := 100*rng.Float64()-50, 150*rng.Float64()-10
		y1, z1 := y0+5+60*rng.Float64(), z0+5+60*rng.Float64()
		var err error
		if s, err = s.With("block", measure.Length(y0), measure.Length(y1), measure.Length(z0), measure.Length(z1)); err != nil {
			t.Fatal(err)
		}
		b = append(b, [4]float64{y0, y1, z0, z1})
	}
	return s, b
}

func near(got, want measure.Length, tol float64) bool {
	return math.Abs(float64(got-want)) <= tol
}
