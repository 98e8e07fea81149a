package reference_test

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"example.org/fourfoot/internal/reference"
)

// Abramowitz and Stegun 1964, table 7.7, as printed to 16 digits by later
// users of the table.
func TestFresnelTable(t *testing.T) {
	for _, r := range [][3]float64{
		{0.2, 0.1999210575944531, 0.004187609161656762},
		{0.6, 0.5810954469916523, 0.1105402073593870},
		{1.0, 0.7798934003768228, 0.4382591473903548},
		{1.6, 0.3654616834404877, 0.6388876835093809},
		{2.4, 0.5549614058564281, 0.6196899649456836},
		{3.0, 0.6057207892976856, 0.4963129989673750},
	} {
		c, s := reference.Fresnel(r[0])
		if math.Abs(c-r[1]) > 1e-12 || math.Abs(s-r[2]) > 1e-12 {
			t.Errorf("Fresnel(%v) = %v, %v, want %v, %v", r[0], c, s, r[1], r[2])
		}
	}
}

// The source is named in the file.
func TestFresnelVectors(t *testing.T) {
	text, err := os.ReadFile("testdata/fresnel.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct {
		Cases []struct{ X, C, S float64 }
	}
	if err := json.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	if len(file.Cases) != 285 {
		t.Fatalf("%d cases, want 285", len(file.Cases))
	}
	worst := 0.0
	for _, r := range file.Cases {
		c, s := reference.Fresnel(r.X)
		d := max(math.Abs(c-r.C), math.Abs(s-r.S))
		worst = max(worst, d)
		limit := 1e-15
		if r.X > 1.5 {
			limit = 1e-14
		}
		if d > limit {
			t.Errorf("Fresnel(%v) = %v, %v, want %v, %v", r.X, c, s, r.C, r.S)
		}
		mc, ms := reference.Fresnel(-r.X)
		if mc != -c || ms != -s {
			t.Errorf("Fresnel(%v) is not odd", r.X)
		}
	}
	t.Logf("worst %.2g", worst)
}

func TestIntegrate(t *testing.T) {
	for _, r := range []struct {
		name       string
		f          func(float64) float64
		a, b, want float64
	}{
		// A rule of twenty points is exact to degree 39.
		{"degree 39", func(x float64) float64 { return 40 * math.Pow(x, 39) }, 0, 1, 1},
		{"exp", math.Exp, 0, 1, math.E - 1},
		{"backwards", math.Sin, math.Pi, 0, -2},
	} {
		if got := reference.Integrate(r.f, r.a, r.b, 1); math.Abs(got-r.want) > 1e-14 {
			t.Errorf("%s: got %v, want %v", r.name, got, r.want)
		}
	}
}
