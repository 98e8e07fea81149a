package measure_test

import (
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func TestParseGradient(t *testing.T) {
	testParse(t, measure.ParseGradient, []accepted{
		{"1 in 50", 0.02},
		{"1in50", 0.02},
		{"1 IN 50", 0.02},
		{"1:50", 0.02},
		{"-1 in 50", -0.02},
		{"1 in 50 down", -0.02},
		{"1 in 50 falling", -0.02},
		{"1 in 50 up", 0.02},
		{"1 in 37.5", 1 / 37.5},
		{"2 %", 0.02},
		{"2%", 0.02},
		{"−2 %", -0.02},
		{"2 % down", -0.02},
		{"2,5 %", 0.025},
		{"20 ‰", 0.02},
		{"20 permille", 0.02},
		{"20 per mille", 0.02},
		{"20 mm/m", 0.02},
		{"1/4 in per ft", 1. / 48},
		{"¼in/ft", 1. / 48},
		{"level", 0},
		{"LEVEL", 0},
		{"2 per cent", 0.02},
		{"1/4 inch per foot", 1. / 48},
		{"1in50down", -0.02},
		{"2% Down", -0.02},
		{"1 in 1", 1},
		{"2.5 in 100", 0.025},
	}, []refused{
		{"50:1", "may be the wrong way round"},
		{"1 in 1/2", "may be the wrong way round"},
		{"down", "has no number"},
		{"0.02", "no unit"},
		{"50", "no unit"},
		{"1 in 0", "rise in no distance"},
		{"-1 in 50 down", "has a sign and down"},
		{"1 in", "not a unit of gradient"},
		{"1 in 50 mm", "after the ratio"},
		{"1 in -50", "not a unit of gradient"},
		{"2 %%", "not a unit of gradient"},
		{"level up", "where a number should stand"},
	})
}

func FuzzParseGradient(f *testing.F) {
	fuzzParse(f, measure.ParseGradient)
}
