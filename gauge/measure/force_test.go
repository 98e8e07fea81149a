package measure_test

import (
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func TestParseForce(t *testing.T) {
	testParse(t, measure.ParseForce, []accepted{
		{"12 N", 12},
		{"1.2 kN", 1200},
		{"300 mN", 0.3},
		{"1 kgf", 9.80665},
		{"500 gf", 4.903325},
		{"1 lbf", 4.4482216152605},
		{"16 ozf", 4.4482216152605},
		{"12 Newtons", 12},
	}, []refused{
		{"12", "no unit"},
		{"12 kg", "not a unit of force"},
		{"12 MN", "not a unit of force"},
		{"12 n", "not a unit of force"},
	})
}

func FuzzParseForce(f *testing.F) {
	fuzzParse(f, measure.ParseForce)
}
