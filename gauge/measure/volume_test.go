package measure_test

import (
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func TestParseVolume(t *testing.T) {
	testParse(t, measure.ParseVolume, []accepted{
		{"25 l", 25e6},
		{"25 litres", 25e6},
		{"25 L", 25e6},
		{"500 ml", 5e5},
		{"5 cc", 5000},
		{"5 cm³", 5000},
		{"0.5 m³", 5e8},
		{"0.5 m3", 5e8},
		{"1 cu in", 16387.064},
		{"11 cu ft", 311485312.512},
		{"11 cu. ft.", 311485312.512},
		{"11 ft³", 311485312.512},
		{"1/2 cu yd", 382277428.992},
		{"9 mm³", 9},
		{"11 cubic feet", 311485312.512},
		{"0.5 cubic metres", 5e8},
		{"0.5 cu m", 5e8},
	}, []refused{
		{"1 m3 500 l", "not a unit of volume"},
		{"5", "no unit"},
		{"5 gal", "not a unit of volume"},
		{"5 m²", "not a unit of volume"},
		{"5 m", "not a unit of volume"},
	})
}

func FuzzParseVolume(f *testing.F) {
	fuzzParse(f, measure.ParseVolume)
}
