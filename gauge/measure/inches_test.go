package measure_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func TestInchStyle(t *testing.T) {
	feet, eighths, tenths := measure.InchStyle{Feet: true}, measure.InchStyle{Parts: 8}, measure.InchStyle{Parts: 10}
	tests := []struct {
		style measure.InchStyle
		l     measure.Length
		want  string
	}{
		{measure.InchStyle{}, 1435.1, "56 1/2 in"},
		{feet, 1435.1, "4 ft 8 1/2 in"},
		{feet, -1435.1, "-4 ft 8 1/2 in"},
		{feet, 2139.95, "7 ft 0 1/4 in"},
		{feet, 609.6, "2 ft 0 in"},
		{feet, 304.5, "11 63/64 in"}, // 304.403
		{feet, 304.75, "1 ft 0 in"},  // rounds up to the foot
		{measure.InchStyle{}, 9.525, "3/8 in"},
		{measure.InchStyle{}, 45, "1 49/64 in"}, // 1.7717 in
		{eighths, 45, "1 3/4 in"},
		{measure.InchStyle{Parts: 16}, 45, "1 3/4 in"},
		{measure.InchStyle{Parts: 32}, 45, "1 25/32 in"},
		{measure.InchStyle{Parts: 1}, 45, "2 in"},
		{tenths, 45, "1 4/5 in"},
		{measure.InchStyle{}, 0, "0 in"},
		{measure.InchStyle{}, 0.19, "<1/128 in"},
		{measure.InchStyle{}, -0.19, ">-1/128 in"},
		{measure.InchStyle{}, 0.2, "1/64 in"},
		{eighths, 1.5, "<1/16 in"},
		{measure.InchStyle{}, 1e15, "39370100000000 in"},
		{measure.InchStyle{}, measure.Length(math.NaN()), "NaN in"},
		{measure.InchStyle{}, measure.Length(math.Inf(-1)), "-Inf in"},
		// AREA 1939 rail heights at 1:22.5, published .250 .267 .278 .300 .311
		// in: to the nearest 1/64.
		{measure.InchStyle{}, measure.MustParseLength("5 5/8 in") / 22.5, "1/4 in"},
		{measure.InchStyle{}, measure.MustParseLength("6 in") / 22.5, "17/64 in"},
		{measure.InchStyle{}, measure.MustParseLength("7 in") / 22.5, "5/16 in"},
	}
	for _, tt := range tests {
		if got := tt.style.Format(tt.l); got != tt.want {
			t.Errorf("%+v.Format(%v) = %q, want %q", tt.style, float64(tt.l), got, tt.want)
		}
	}
}

// What is written is what Round says, to the last bit, and never further off
// than half a part.
func TestInchStyleRound(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 6))
	for range 50000 {
		s := measure.InchStyle{Parts: []uint16{0, 8, 16, 32, 64, 7, 1000}[rnd.IntN(7)], Feet: rnd.IntN(2) == 0}
		parts := measure.Length(64)
		if s.Parts > 0 {
			parts = measure.Length(s.Parts)
		}
		l := measure.Length((rnd.Float64() - 0.5) * math.Pow(10, float64(rnd.IntN(9))))
		r := s.Round(l)
		if off := r - l; math.Abs(float64(off)) > float64(measure.Inch/(2*parts))+1e-9 {
			t.Errorf("%+v.Round(%v) = %v, off by %v", s, float64(l), float64(r), float64(off))
		}
		if again := s.Round(r); again != r {
			t.Errorf("%+v.Round(%v) = %v, not itself", s, float64(r), float64(again))
		}
		text := s.Format(r)
		if back, err := measure.ParseLength(text); err != nil || back != r {
			t.Errorf("%+v.Format(%v) = %q, reads back as %v, %v", s, float64(r), text, float64(back), err)
		}
		if r != 0 && s.Format(l) != text {
			t.Errorf("%+v: %v is %q, but its rounding %v is %q", s, float64(l), s.Format(l), float64(r), text)
		}
	}
	for _, v := range []float64{math.NaN(), math.Inf(1), 1e300} {
		if got := (measure.InchStyle{}).Round(measure.Length(v)); float64(got) != v && !math.IsNaN(v) {
			t.Errorf("Round(%v) = %v", v, float64(got))
		}
	}
}
