package curve_test

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// A vector is a case of testdata/*.json: see the "source" line in each.
type vector struct {
	Name  string
	Start struct{ X, Y, Heading float64 }

	Length      float64
	StartRadius *float64 `json:"start_radius"`
	EndRadius   *float64 `json:"end_radius"`

	Stations, X, Y, Heading, Curvature []float64

	Shift         *float64
	ShiftAbscissa *float64 `json:"shift_abscissa"`
}

func bent(radius *float64) measure.Curvature {
	if radius == nil {
		return 0
	}
	return measure.Curvature(1 / *radius)
}

var easements = []curve.Shape{curve.Clothoid, curve.Bloss, curve.Cosine, curve.Sine, curve.Helmert}

func vectors(t testing.TB, shape string) []vector {
	t.Helper()
	text, err := os.ReadFile("testdata/" + shape + ".json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct{ Cases []vector }
	if err := json.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	if len(file.Cases) != 32 {
		t.Fatalf("testdata/%s.json has %d cases, want 32", shape, len(file.Cases))
	}
	return file.Cases
}

// The easements against points computed to 50 digits: within 5e-15 of the
// length and two units in the last place of the larger coordinate.
func TestVectors(t *testing.T) {
	for _, shape := range easements {
		worst, worstAtOrigin := 0.0, 0.0
		for _, c := range vectors(t, shape.String()) {
			e, err := curve.NewEasement(shape, measure.Length(c.Length), bent(c.StartRadius), bent(c.EndRadius))
			if err != nil {
				t.Fatal(shape, c.Name, err)
			}
			a, err := curve.New(curve.Pose{Point: r2.Vec{X: c.Start.X, Y: c.Start.Y}, Heading: measure.Angle(c.Start.Heading)}, e)
			if err != nil {
				t.Fatal(shape, c.Name, err)
			}
			home, err := curve.New(curve.Pose{Heading: measure.Angle(c.Start.Heading)}, e)
			if err != nil {
				t.Fatal(shape, c.Name, err)
			}
			far := max(math.Abs(c.Start.X), math.Abs(c.Start.Y)) > 1
			for i, s := range c.Stations {
				got := a.At(measure.Length(s))
				big := max(math.Abs(c.X[i]), math.Abs(c.Y[i]))
				limit := 5e-15*c.Length + 2*(math.Nextafter(big, math.Inf(1))-big)
				d := max(math.Abs(got.Point.X-c.X[i]), math.Abs(got.Point.Y-c.Y[i]))
				worst = max(worst, d/limit)
				if d > limit {
					t.Errorf("%v %s: At(%v).Point = %v, want %v %v: off by %.3g, %.3g allowed", shape, c.Name, s, got.Point, c.X[i], c.Y[i], d, limit)
				}
				if d := math.Abs(got.Heading.Radians() - c.Heading[i]); d > 1e-15 {
					t.Errorf("%v %s: At(%v).Heading is off by %.3g", shape, c.Name, s, d)
				}
				if d := math.Abs(got.Curvature.PerMillimetres()-c.Curvature[i]) * c.Length; d > 1e-15 {
					t.Errorf("%v %s: At(%v).Curvature is off by %.3g of 1/L", shape, c.Name, s, d)
				}
				sin, cos := math.Sincos(c.Heading[i])
				if d := r2.Norm(r2.Sub(got.Tangent, r2.Vec{X: cos, Y: sin})); d > 1e-15 {
					t.Errorf("%v %s: At(%v).Tangent is off by %.3g", shape, c.Name, s, d)
				}
				// At the origin the points themselves, not the differences of
				// rounded ones, are known only where the case starts there.
				if !far {
					h := home.Point(measure.Length(s))
					d := max(math.Abs(h.X-c.X[i]), math.Abs(h.Y-c.Y[i]))
					worstAtOrigin = max(worstAtOrigin, d/c.Length)
					if d > 5e-15*c.Length {
						t.Errorf("%v %s: from the origin, Point(%v) is off by %.3g of the length", shape, c.Name, s, d/c.Length)
					}
				}
			}
		}
		t.Logf("%v: worst error %.2f of what is allowed; from the origin %.2g of the length", shape, worst, worstAtOrigin)
	}
}
