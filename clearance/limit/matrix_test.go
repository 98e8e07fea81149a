package limit_test

import (
	"errors"
	"strings"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/limit"
	"example.org/fourfoot/gauge/measure"
)

// The matrix says of each vehicle what an audit of it alone says.
func TestMatrix(t *testing.T) {
	r := route(t)
	long := box(700, 96, 500)
	long.Name = ""
	stock := []clearance.Vehicle{wagon(), coach(), long}
	e := must[*clearance.Envelope](t)(clearance.Sweep(t.Context(), r.Line, stock, clearance.Settings{}))
	m := must[limit.Matrix](t)(limit.NewMatrix(t.Context(), e, r.Structures, 5))
	if len(m.Cells) != 3 || len(m.Cells[0]) != 2 || m.Stock[2] != "vehicle 3" || m.Structures[0] != "rockery" {
		t.Fatalf("%d rows, stock %v, structures %v", len(m.Cells), m.Stock, m.Structures)
	}
	for i, v := range stock {
		alone := must[*clearance.Envelope](t)(clearance.Sweep(t.Context(), r.Line, []clearance.Vehicle{v}, clearance.Settings{}))
		runs := true
		for j, f := range must[[]clearance.Finding](t)(alone.Audit(t.Context(), r.Structures, 5)) {
			got := m.Cells[i][j]
			if got.Verdict != f.Verdict || float64(got.Gap-f.Gap) > 0.1 || float64(f.Gap-got.Gap) > 0.1 {
				t.Errorf("%s at %s: %v %v, alone %v %v", m.Stock[i], m.Structures[j], got.Verdict, got.Gap, f.Verdict, f.Gap)
			}
			runs = runs && f.Verdict == clearance.Pass
		}
		if m.Runs(i) != runs {
			t.Errorf("%s runs: %v, want %v", m.Stock[i], m.Runs(i), runs)
		}
	}
	nos := m.Nos()
	if len(nos) == 0 {
		t.Fatal("nothing fails: not what this test is about")
	}
	for _, n := range nos {
		if n.Finding.Verdict == clearance.Pass || !strings.Contains(n.Text, m.Stock[n.Stock]) || !strings.Contains(n.Text, m.Structures[n.Structure]) || !strings.Contains(n.Text, "chainage") {
			t.Errorf("%+v", n)
		}
	}
	if _, err := limit.NewMatrix(t.Context(), nil, nil, 5); !errors.Is(err, measure.ErrInput) {
		t.Errorf("no envelope: %v", err)
	}
	if _, err := limit.NewMatrix(t.Context(), e, r.Structures, -5); !errors.Is(err, measure.ErrInput) {
		t.Errorf("margin: %v", err)
	}
}
