package measure_test

import (
	"strings"
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func TestNotation(t *testing.T) {
	const no = -1
	tests := []struct {
		text            string
		any, point, com float64 // mm with "mm" as the unit of bare numbers; no: refused
	}{
		{"12", 12, 12, 12},
		{"12 in", 304.8, 304.8, 304.8},
		{"12.5", 12.5, 12.5, no},
		{"12,5", 12.5, no, 12.5},
		{"1.234", 1.234, 1.234, no},
		{"1,234", no, no, 1.234},
		{"0,125", no, no, 0.125},
		{"1234,567", no, no, 1234.567},
		{"1.234,5", no, no, 1234.5},
		{"1,234.5", no, 1234.5, no},
		{"1.234.567,25", no, no, 1234567.25},
		{"1,234,567.25", no, 1234567.25, no},
		{"1.234.567", no, no, no},
		{"1,234,567", no, no, no},
		{"12.34,5", no, no, no},
		{"1234.567,8", no, no, no},
		{"1.2345,6", no, no, no},
		{"1,2,3", no, no, no},
		{"1,2.3", no, no, no},
		{"1.2,3.4", no, no, no},
		{"1 234", no, no, no},
		{"1'234", no, no, no},
		{".5", 0.5, 0.5, no},
		{",5", 0.5, no, 0.5},
		{"5.", no, no, no},
		{"5,", no, no, no},
		{"1,234 m", no, no, 1234},
		{"1.234 m", 1234, 1234, no},
		{"-12,5 mm", no, no, no}, // see below
	}
	for _, tt := range tests {
		for _, c := range []struct {
			sign measure.DecimalSign
			want float64
		}{{measure.AnySign, tt.any}, {measure.PointSign, tt.point}, {measure.CommaSign, tt.com}} {
			if tt.text[0] == '-' {
				continue
			}
			n := measure.Notation{Decimal: c.sign, Length: "mm"}
			got, err := n.ParseLength(tt.text)
			if c.want == no && err == nil || c.want != no && (err != nil || float64(got) != c.want) {
				t.Errorf("%+v.ParseLength(%q) = %v, %v, want %v", n, tt.text, float64(got), err, c.want)
			}
		}
	}
	de := measure.Notation{Decimal: measure.CommaSign, Length: "in", Temperature: "°F", Gradient: "1 in", Curvature: "/m"}
	if got, err := de.ParseLength("-12,5"); err != nil || got != -317.5 {
		t.Errorf("-12,5 in = %v, %v", got, err)
	}
	if got, err := de.ParseTemperature("212"); err != nil || got != 100 {
		t.Errorf("212 °F = %v, %v", got, err)
	}
	if got, err := de.ParseGradient("-50"); err != nil || got != -0.02 {
		t.Errorf("1 in -50 = %v, %v", got, err)
	}
	if got, err := de.ParseCurvature("R 10 left"); err != nil || got != 1./254 {
		t.Errorf("R 10 in left = %v, %v", got, err)
	}
	for _, tt := range []struct{ got, want string }{
		{errText(de.ParseGradient("0")), "rise in no distance"},
		{errText(de.ParseMass("5")), "has no unit"},
		{errText(measure.Notation{Length: "kg"}.ParseLength("5")), `the declared "kg" is not a unit of length`},
		{errText(measure.Notation{Length: "mmm"}.ParseLength("5")), `the declared "mmm" is not a unit of length`},
		{errText(de.ParseLength("4' 8")), "has no unit after"},
		{errText(measure.Notation{Decimal: 9, Length: "mm"}.ParseLength("1,5")), "two decimal signs"},
		{errText(measure.Notation{Decimal: measure.CommaSign}.ParseLength("1.5 m")), "has a point, and the decimal sign is declared to be the comma"},
	} {
		if !strings.Contains(tt.got, tt.want) {
			t.Errorf("error %q, want %q", tt.got, tt.want)
		}
	}
}

func errText[Q any](_ Q, err error) string {
	if err == nil {
		return "no error"
	}
	return err.Error()
}
