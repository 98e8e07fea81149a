package measure_test

import (
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func TestParseLinearMass(t *testing.T) {
	testParse(t, measure.ParseLinearMass, []accepted{
		{"29.8 kg/m", 29.8},
		{"298 g/m", 0.298},
		{"60 lb/yd", 29.763278871391076},
		{"60 lb per yard", 29.763278871391076},
		{"60 lbs/yd", 29.763278871391076},
		{"20 lb/ft", 29.763278871391076},
	}, []refused{
		{"60", "no unit"},
		{"60 lb", "not a unit of mass per length"},
		{"60 kg/m³", "not a unit of mass per length"},
	})
}

func FuzzParseLinearMass(f *testing.F) {
	fuzzParse(f, measure.ParseLinearMass)
}
