package measure_test

import (
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func TestParseExpansion(t *testing.T) {
	testParse(t, measure.ParseExpansion, []accepted{
		{"11.5e-6 /K", 11.5e-6},
		{"11.5e-6/K", 11.5e-6},
		{"11.5e-6 per K", 11.5e-6},
		{"11.5e-6 1/K", 11.5e-6},
		{"11.5e-6 K⁻¹", 11.5e-6},
		{"11.5×10⁻⁶/K", 11.5e-6},
		{"11.5 × 10⁻⁶ per °C", 11.5e-6},
		{"11.5x10^-6 /K", 11.5e-6},
		{"11.5 x 10-6 /K", 11.5e-6},
		{"11.5·10⁻⁶ K⁻¹", 11.5e-6},
		{"11.5 ppm/K", 11.5e-6},
		{"11.5 µm/m/K", 11.5e-6},
		{"11.5 um/(m·K)", 11.5e-6},
		{"0.0115 mm/(m K)", 11.5e-6},
		{"10e-6 /°F", 18e-6},
		{"10 ppm/°F", 18e-6},
		{"10×10⁻⁶ in/in/°F", 18e-6},
		{"11.5e-6 per kelvin", 11.5e-6},
		{"11.5e-6 per degree C", 11.5e-6},
		{"10e-6 per deg F", 18e-6},
	}, []refused{
		{"11.5e-6", "no unit"},
		{"11.5 K", "not a unit of expansion coefficient"},
		{"11.5 /m", "not a unit of expansion coefficient"},
		{"11.5 x106/K", "not a unit of expansion coefficient"},
	})
}

func FuzzParseExpansion(f *testing.F) {
	fuzzParse(f, measure.ParseExpansion)
}
