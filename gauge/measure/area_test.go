package measure_test

import (
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func TestParseArea(t *testing.T) {
	testParse(t, measure.ParseArea, []accepted{
		{"1200 mm²", 1200},
		{"1200 mm2", 1200},
		{"1200 mm^2", 1200},
		{"1200 sq mm", 1200},
		{"12 cm²", 1200},
		{"0.5 m2", 5e5},
		{"0,5 m²", 5e5},
		{"1 sq in", 645.16},
		{"1 in²", 645.16},
		{"2 sq ft", 185806.08},
		{"2 SQ FT", 185806.08},
		{"2 ft²", 185806.08},
		{"1 sq. ft.", 92903.04},
		{"1 sq yd", 836127.36},
		{"-1 m²", -1e6},
		{"2 square feet", 185806.08},
		{"2 sq. feet", 185806.08},
		{"0.5 square metres", 5e5},
	}, []refused{
		{"2 ft 2", "not a unit of area"},
		{"5", "no unit"},
		{"5 mm", "not a unit of area"},
		{"5 m²m", "not a unit of area"},
		{"", "empty"},
		{"5 m² 3", "not a unit of area"},
		{"1,500 m²", "comma before three digits"},
	})
}

func FuzzParseArea(f *testing.F) {
	fuzzParse(f, measure.ParseArea)
}
