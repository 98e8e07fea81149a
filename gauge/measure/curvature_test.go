package measure_test

import (
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func TestParseCurvature(t *testing.T) {
	testParse(t, measure.ParseCurvature, []accepted{
		{"straight", 0},
		{"Straight", 0},
		{"R 1200 mm left", 1. / 1200},
		{"R1200mm left", 1. / 1200},
		{"R=1.2 m left", 1. / 1200},
		{"radius 1200 mm right", -1. / 1200},
		{"R 4ft right", -1 / 1219.2},
		{"r 4' L", 1 / 1219.2},
		{"R 4 ft 6 in R", -1 / 1371.6},
		{"0.8 /m", 0.0008},
		{"-0.8 /m", -0.0008},
		{"0.8 1/m", 0.0008},
		{"0.8 m⁻¹", 0.0008},
		{"0.0008 per mm", 0.0008},
		{"R ½ in right", -1. / 12.7},
		{"R: 1200 mm, left", 1. / 1200},
		{"Radius 1200 mm LEFT", 1. / 1200},
	}, []refused{
		{"1200 mm left", "not a unit of curvature"},
		{"R 1200 mm", "without a hand"},
		{"R 1200 left", "radius that cannot be read: has no unit"},
		{"R 0 mm left", "not more than nothing"},
		{"R -5 mm left", "not more than nothing"},
		{"0.8", "no unit"},
		{"R left", "where a number should stand"},
		{"R", "where a number should stand"},
		{"rubbish left", "where a number should stand"},
		{"R 1,200 mm left", "comma before three digits"},
		{"R 1e-309 mm left", "too large"},
	})
}

func FuzzParseCurvature(f *testing.F) {
	fuzzParse(f, measure.ParseCurvature)
}
