package measure_test

import (
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func TestParseAngle(t *testing.T) {
	testParse(t, measure.ParseAngle, []accepted{
		{"12.5°", float64(12.5 * measure.Degree)},
		{"12,5 deg", float64(12.5 * measure.Degree)},
		{"90°", float64(90 * measure.Degree)},
		{"-90 degrees", float64(-90 * measure.Degree)},
		{"0°30'", float64(measure.Degree / 2)},
		{"4°45'36\"", float64(4.76 * measure.Degree)},
		{"4° 45′ 36″", float64(4.76 * measure.Degree)},
		{"4º 45' 36''", float64(4.76 * measure.Degree)},
		{"4 deg 45 min 36 sec", float64(4.76 * measure.Degree)},
		{"100 gon", float64(90 * measure.Degree)},
		{"1 turn", float64(360 * measure.Degree)},
		{"0.2 rad", 0.2},
		{"200 mrad", 0.2},
		{"90 Degrees", float64(90 * measure.Degree)},
	}, []refused{
		{"90 Grad", "not a unit of angle"}, // degrees in German, gons in English
		{"100 gon 30'", "do not go together"},
		{"1 rad 30'", "do not go together"},
		{"12.5", "no unit"},
		{"0°75'", "more ' than make one °"},
		{"0.5°30'", "broken number"},
		{"12 mm", "not a unit of angle"},
		{"1°2°", "get smaller"},
	})
}

func FuzzParseAngle(f *testing.F) {
	fuzzParse(f, measure.ParseAngle)
}
