package measure_test

import (
	"errors"
	"strings"
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func TestParseHeading(t *testing.T) {
	tests := []struct{ text, name, unit string }{
		{"length [mm]", "length", "mm"},
		{"gap (in)", "gap", "in"},
		{"gap(in)", "gap", "in"},
		{"  gap\u00a0[ in ] ", "gap", "in"},
		{"speed / km/h", "speed", "km/h"},
		{"speed / (km/h)", "speed", "km/h"},
		{"rail temperature, °C", "rail temperature", "°C"},
		{"length in mm", "length", "mm"},
		{"gap, in", "gap", "in"},
		{"radius_mm", "radius", "mm"},
		{"lay_temp_c", "lay_temp", "c"},
		{"angle_deg", "angle", "deg"},
		{"weight_g", "weight", "g"},
		{"ballast [cu ft]", "ballast", "cu ft"},
		{"expansion [10⁻⁶/K]", "expansion", "10⁻⁶/K"},
		{"grade [1 in]", "grade", "1 in"},
		{"grade (%)", "grade", "%"},
		{"grade [1 in N]", "grade", "1 in N"},
		{"grade 1 in N", "grade", "1 in"},
		{"grade, 1 in", "grade", "1 in"},
		{"1 in N", "", "1 in"},
		{"radius_min", "radius_min", ""},
		{"gap (min)", "gap (min)", ""},
		{"turn [min]", "turn", "min"},
		{"rail (L)", "rail (L)", ""},
		{"type_k", "type_k", ""},
		{"point_l", "point_l", ""},
		{"name", "name", ""},
		{"gap (cold)", "gap (cold)", ""},
		{"note, remarks", "note, remarks", ""},
		{"seq_no", "seq_no", ""},
		{"left / right", "left / right", ""},
	}
	for _, tt := range tests {
		got, err := measure.ParseHeading(tt.text)
		if want := (measure.Heading{Name: tt.name, Unit: tt.unit}); err != nil || got != want {
			t.Errorf("ParseHeading(%q) = %+v, %v, want %+v", tt.text, got, err, want)
		}
	}
	for _, tt := range []struct{ text, why string }{
		{"", "is empty"},
		{" \u00a0", "is empty"},
		{"length [mmm]", "in its brackets, which is not a unit"},
		{"length []", "in its brackets, which is not a unit"},
		{"length mm]", "bracket that is not open"},
	} {
		_, err := measure.ParseHeading(tt.text)
		if !errors.Is(err, measure.ErrInput) || !strings.Contains(err.Error(), tt.why) || !strings.Contains(err.Error(), "; write for example ") {
			t.Errorf("ParseHeading(%q): error %v, want %q", tt.text, err, tt.why)
		}
	}
	if _, err := measure.ParseHeading(strings.Repeat("x", measure.MaxText+1)); !errors.Is(err, measure.ErrLimit) {
		t.Errorf("a heading over the limit: %v", err)
	}
}

func TestHeadingNotation(t *testing.T) {
	h, err := measure.ParseHeading("gap [1e-6/K]")
	if err != nil {
		t.Fatal(err)
	}
	n := h.Notation(measure.CommaSign)
	if a, err := n.ParseExpansion("18,7"); err != nil || a != 18.7e-6 {
		t.Errorf("18,7 under %+v = %v, %v", h, float64(a), err)
	}
	if _, err := n.ParseLength("18,7"); err == nil {
		t.Errorf("a length under %+v was taken", h)
	}
}
