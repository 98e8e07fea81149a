package measure_test

import (
	"fmt"
	"math"
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
		{"20 degrees Celsius", 20},
		{"68 degrees Fahrenheit", 20},
	}, []refused{
		{"20", "no unit"},
		{"20°", "not a unit of temperature"},
		{"20 mm", "not a unit of temperature"},
		{"cold", "where a number should stand"},
	})
}

func TestFahrenheit(t *testing.T) {
	for f := -200; f <= 400; f++ {
		want := measure.MustParseTemperature(fmt.Sprint(f, "°F"))
		if got := measure.Fahrenheit(float64(f)); got != want {
			t.Errorf("Fahrenheit(%d) = %v, want %v", f, float64(got), float64(want))
		}
		if back := want.Fahrenheit(); math.Abs(back-float64(f)) > 1e-13*(32+math.Abs(float64(f))) {
			t.Errorf("%v in °F is %v, want %d", float64(want), back, f)
		}
	}
}

func FuzzParseTemperature(f *testing.F) {
	fuzzParse(f, measure.ParseTemperature)
}
