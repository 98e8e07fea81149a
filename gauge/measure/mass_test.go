package measure_test

import (
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func TestParseMass(t *testing.T) {
	testParse(t, measure.ParseMass, []accepted{
		{"25 kg", 25},
		{"450 g", 0.45},
		{"1.5 t", 1500},
		{"1 lb", 0.45359237},
		{"1 lb 8 oz", 0.680388555},
		{"1½ lb", 0.680388555},
		{"24 oz", 0.680388555},
		{"1 ton", 1016.0469088},
		{"1 ton 1 cwt", 1066.84925424},
		{"1 cwt 1 qr", 63.5029318},
		{"2 TONS", 2032.0938176},
		{"1 ton 14 cwt 1 qr 3 lb 5 oz", 3839.3125 * 0.45359237},
		{"1 pound 8 ounces", 0.680388555},
		{"25 Kilograms", 25},
	}, []refused{
		{"1 ton 1 t", "do not go together"},
		{"25", "no unit"},
		{"1 lb 16 oz", "more oz than make one lb"},
		{"8 oz 1 lb", "get smaller"},
		{"5 lbf", "not a unit of mass"},
		{"5 stone", "not a unit of mass"},
		{"5 Mg", "not a unit of mass"},
	})
}

func FuzzParseMass(f *testing.F) {
	fuzzParse(f, measure.ParseMass)
}
