package approx_test

import (
	"math"
	"testing"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/approx"
)

func TestDiff(t *testing.T) {
	type row struct {
		L measure.Length
		F []float64
	}
	a := row{1, []float64{2, 3}}
	if d := approx.Diff(a, row{1.05, []float64{2, 3.05}}, 0.1); d != "" {
		t.Errorf("within the tolerance, but: %s", d)
	}
	if approx.Diff(a, row{1.2, []float64{2, 3}}, 0.1) == "" {
		t.Error("a named float outside the tolerance was not seen")
	}
	if approx.Diff(measure.Length(math.NaN()), measure.Length(math.NaN()), 1) == "" {
		t.Error("NaN was taken as equal")
	}
}
