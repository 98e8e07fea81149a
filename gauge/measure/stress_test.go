package measure_test

import (
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func TestParseStress(t *testing.T) {
	testParse(t, measure.ParseStress, []accepted{
		{"250 MPa", 250},
		{"250 N/mm²", 250},
		{"200 GPa", 200000},
		{"250 kPa", 0.25},
		{"250000 Pa", 0.25},
		{"1 kgf/mm²", 9.80665},
		{"100 kgf/cm2", 9.80665},
		{"1000 psi", 6.894757293168361},
		{"1 ksi", 6.894757293168361},
		{"200 lb/sq in", 1.3789514586336722},
	}, []refused{
		{"250", "no unit"},
		{"250 mPa", "not a unit of stress"},
		{"250 mpa", "not a unit of stress"},
		{"250 N", "not a unit of stress"},
		{"250 bar", "not a unit of stress"},
	})
}

func FuzzParseStress(f *testing.F) {
	fuzzParse(f, measure.ParseStress)
}
