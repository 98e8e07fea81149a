package measure_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/fourfoot/gauge/measure"
)

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
		{"4 ft-8½ in", 1435.1},
		{"56.5in", 1435.1},
		{"56 1/2 inches", 1435.1},
		{"4 Feet 8.5 Inches", 1435.1},
		{"1.4351 Metres", 1435.1},
		{"1435.1 millimeters", 1435.1},
		{"1 mile 1 chain 1 yd 1 ft 1 in 1 thou", 1630705.4254},
		{"1 mi 1759 yd 2 ft 11 1/2 in", 3218675.3},
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
		{"-0 mm", math.Copysign(0, -1)},
		{"-0.0000000000000000000000 in", math.Copysign(0, -1)},
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
		{"1'200 mm", "do not go together"},
		{"1'000 mm", "do not go together"},
		{"1m-5cm", "where a number should stand"},
		{"3ft -6in", "where a number should stand"},
		{"1 m 8 in", "do not go together"},
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
		{"1e304 miles", "too large"},
		{"1e-330 miles", "too close to nothing"},
		{"8 2/2 in", "fraction of one or more"},
		{"8 1/2 ft 3 in", "broken number of ft"},
		{"1e-400 mm", "too close to nothing"},
		{"1e999999999999 mm", "too large"},
		{"--3 mm", "where a number should stand"},
		{"5²mm", "not a unit of length"},
		{"2 x 10 in", "not a unit of length"},
	})
}

func TestVulgarFractions(t *testing.T) {
	for q, chars := range map[int]string{
		2: "½", 3: "⅓⅔", 4: "¼ ¾", 5: "⅕⅖⅗⅘", 6: "⅙   ⅚", 7: "⅐", 8: "⅛ ⅜ ⅝ ⅞", 9: "⅑", 10: "⅒",
	} {
		p := 0
		for _, c := range chars {
			p++
			if c == ' ' {
				continue
			}
			got, err := measure.ParseLength("3" + string(c) + "mm")
			if want := measure.Length(3*q+p) / measure.Length(q); err != nil || got != want {
				t.Errorf("ParseLength(3%cmm) = %v, %v, want %v", c, float64(got), err, float64(want))
			}
		}
	}
}

func TestTextLimit(t *testing.T) {
	text := strings.Repeat("0", measure.MaxText-3) + " mm"
	if l, err := measure.ParseLength(text); err != nil || l != 0 {
		t.Errorf("%d bytes: %v, %v", len(text), l, err)
	}
	_, err := measure.ParseLength("0" + text)
	if !errors.Is(err, measure.ErrLimit) || len(err.Error()) > 120 {
		t.Errorf("%d bytes: error %v", len(text)+1, err)
	}
}

func FuzzParseLength(f *testing.F) {
	fuzzParse(f, measure.ParseLength)
}
