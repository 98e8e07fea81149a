package measure_test

import (
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func TestParseTemperatureDifference(t *testing.T) {
	testParse(t, measure.ParseTemperatureDifference, []accepted{
		{"30 K", 30},
		{"30 °C", 30},
		{"30 C°", 30},
		{"54 °F", 30},
		{"9 F°", 5},
		{"-9 °F", -5},
		{"0 °F", 0},
	}, []refused{
		{"30", "no unit"},
		{"30 mm", "not a unit of temperature difference"},
	})
}

func FuzzParseTemperatureDifference(f *testing.F) {
	fuzzParse(f, measure.ParseTemperatureDifference)
}
