package measure_test

import (
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func TestParseTemperature(t *testing.T) {
	testParse(t, measure.ParseTemperature, []accepted{
		// Fixed points: 0 °C = 32 °F = 273.15 K, 100 °C = 212 °F, -40 both.
		{"20 °C", 20},
		{"20°C", 20},
		{"20 deg C", 20},
		{"20C", 20},
		{"20 ℃", 20},
		{"-5 °C", -5},
		{"32 °F", 0},
		{"212 °F", 100},
		{"68°F", 20},
		{"-40 °F", -40},
		{"-4 °F", -20},
		{"0 °F", -160. / 9},
		{"273.15 K", 0},
		{"300 K", 26.85},
	}, []refused{
		{"20", "no unit"},
		{"20°", "not a unit of temperature"},
		{"20 mm", "not a unit of temperature"},
		{"cold", "where a number should stand"},
	})
}

func FuzzParseTemperature(f *testing.F) {
	fuzzParse(f, measure.ParseTemperature)
}
