package measure_test

import (
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func TestParseDensity(t *testing.T) {
	testParse(t, measure.ParseDensity, []accepted{
		{"1500 kg/m³", 1500},
		{"1500 kg/m3", 1500},
		{"1500 kg / m^3", 1500},
		{"1500 kg per m³", 1500},
		{"1500 kg·m⁻³", 1500},
		{"1.5 t/m³", 1500},
		{"1.5 g/cm³", 1500},
		{"1.5 kg/l", 1500},
		{"100 lb/cu ft", 1601.846337396014},
		{"100 lb per cu ft", 1601.846337396014},
		{"2700 lb/cu yd", 1601.846337396014},
		{"1500 kg per cubic metre", 1500},
		{"1.5 tonnes per m³", 1500},
		{"100 lbs per cubic foot", 1601.846337396014},
	}, []refused{
		{"1500", "no unit"},
		{"1500 kg", "not a unit of density"},
		{"1500 kg/m²", "not a unit of density"},
		{"1500 kg/m", "not a unit of density"},
	})
}

func FuzzParseDensity(f *testing.F) {
	fuzzParse(f, measure.ParseDensity)
}
