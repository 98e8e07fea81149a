package measure_test

import (
	"testing"

	"example.org/fourfoot/gauge/measure"
)

// accepted are texts that mean the same: the value is in the base unit and
// must come out to the last bit.
type accepted struct {
	text string
	want float64
}

// refused are texts that must be refused with these words in the error.
type refused struct {
	text, why string
}

func TestParseLength(t *testing.T) {
	testParse(t, measure.ParseLength, []accepted{
		// 1 in = 25.4 mm, 1 ft = 0.3048 m, 1 yd = 0.9144 m, 1 mile = 1760 yd:
		// International yard and pound agreement, 1959; from memory.
		{"1 in", 25.4},
		{"1ft", 304.8},
		{"1 yd", 914.4},
		{"1 mile", 1609344},
		{"1 chain", 20116.8},
		// Full-size gauges: reference sizes, 4 ft 8½ in = 1435.1 and others.
		{"4ft 8 1/2in", 1435.1},
		{`4' 8½"`, 1435.1},
		{`4′ 8½″`, 1435.1},
		{`4'-8 1/2"`, 1435.1},
		{`4' 8-1/2"`, 1435.1},
		{"4 ft 8.5 in", 1435.1},
		{"4 ft. 8½ in.", 1435.1},
		{"56.5in", 1435.1},
		{"56 1/2 inches", 1435.1},
		{"15 in", 381},
		{"2 ft", 609.6},
		{"2ft6in", 762},
		{"3 FT", 914.4},
		{"3' 6''", 1066.8},
		{"5' 3”", 1600.2},
		{"5 ft 6 in", 1676.4},
		{"7 ft ¼ in", 2139.95},
		{"7ft 0 1/4in", 2139.95},
		{"3/8 in", 9.525},
		{"⅜in", 9.525},
		{"3⁄8 in", 9.525},
		{"1 3/4 in", 44.45},
		{"1 ¾ in", 44.45},
		{"1¾\u202fin", 44.45},
		{"1/64 in", 0.396875},
		{"5 thou", 0.127},
		{"1.2 m", 1200},
		{"1.2\u00a0m", 1200},
		{"1,2 m", 1200},
		{"1.005 m", 1005},
		{"45mm", 45},
		{"45 MM", 45},
		{"4.5 cm", 45},
		{".5 m", 500},
		{"2 km", 2e6},
		{"250 µm", 0.25},
		{"250 um", 0.25},
		{"+3 mm", 3},
		{"-3 mm", -3},
		{"\u22123 mm", -3},
		{"-1' 6\"", -457.2},
		{"1e3 mm", 1000},
		{"1.5×10² mm", 150},
		{"1.5x10^2 mm", 150},
		{"0 mm", 0},
		{"12345678901234567890 mm", 12345678901234567890},
		{"5e-324 mm", 5e-324},
	}, []refused{
		{"", "empty"},
		{"   ", "empty"},
		{"45", "no unit"},
		{"1,234 mm", "comma before three digits"},
		{"0,125 mm", "comma before three digits"},
		{"1.234,5 mm", "groups thousands"},
		{"1,234.5 mm", "groups thousands"},
		{"1,234,567 mm", "groups thousands"},
		{"1.234.567 mm", "groups thousands"},
		{"1 234 mm", "space inside the number"},
		{"1\u202f234 mm", "space inside the number"},
		{"4' 8", "no unit after"},
		{"1'234", "no unit after"},
		{"8in 4ft", "units must get smaller"},
		{"4ft 4ft", "units must get smaller"},
		{"4.5ft 2in", "broken number of ft"},
		{"4ft 12in", "more in than make one ft"},
		{"1 m 100 cm", "more cm than make one m"},
		{"1/0 in", "divides by nought"},
		{"8 3/2 in", "fraction of one or more"},
		{"8.5 1/2 in", "space inside the number"},
		{"3-5 mm", "where a unit should stand"},
		{"5 furlongs", "not a unit of length"},
		{"5 mm²", "not a unit of length"},
		{"5 kg", "not a unit of length"},
		{"mm", "where a number should stand"},
		{"NaN mm", "where a number should stand"},
		{"inf mm", "where a number should stand"},
		{"0x10 mm", "not a unit of length"},
		{"1e400 mm", "too large"},
		{"1e-400 mm", "too close to nothing"},
		{"1e999999999999 mm", "too large"},
		{"--3 mm", "where a number should stand"},
		{"5²mm", "not a unit of length"},
		{"2 x 10 in", "not a unit of length"},
	})
}

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
	}, []refused{
		{"12.5", "no unit"},
		{"0°75'", "more ' than make one °"},
		{"0.5°30'", "broken number"},
		{"12 mm", "not a unit of angle"},
		{"1°2°", "get smaller"},
	})
}

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
	}, []refused{
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
	}, []refused{
		{"20", "no unit"},
		{"20°", "not a unit of temperature"},
		{"20 mm", "not a unit of temperature"},
		{"cold", "where a number should stand"},
	})
}
