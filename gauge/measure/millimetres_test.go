package measure_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func TestMillimetreStyle(t *testing.T) {
	one, bare := measure.MillimetreStyle{Decimals: 1}, measure.MillimetreStyle{Decimals: 1, Bare: true}
	comma := measure.MillimetreStyle{Decimals: 2, Sign: measure.CommaSign}
	tests := []struct {
		style measure.MillimetreStyle
		l     measure.Length
		want  string
	}{
		{measure.MillimetreStyle{}, 1435.1, "1435 mm"},
		{one, 1435.1, "1435.1 mm"},
		{one, 45, "45.0 mm"},
		{bare, 45, "45.0"},
		{comma, 1435.125, "1435,12 mm"}, // exact half: to the even digit
		{comma, -0.001, ">-0,005 mm"},
		{one, 0.04, "<0.05 mm"},
		{one, 0.051, "0.1 mm"},
		{one, 0, "0.0 mm"},
		{one, measure.Length(math.Copysign(0, -1)), "0.0 mm"},
		{bare, 0.04, "0.0"},
		{bare, -0.04, "0.0"},
		{measure.MillimetreStyle{}, 0.3, "<0.5 mm"},
		{one, measure.Length(math.NaN()), "NaN mm"},
		{one, measure.Length(math.Inf(-1)), "-Inf mm"},
	}
	for _, tt := range tests {
		if got := tt.style.Format(tt.l); got != tt.want {
			t.Errorf("%+v.Format(%v) = %q, want %q", tt.style, float64(tt.l), got, tt.want)
		}
	}
}

func TestMillimetreStyleRound(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 8))
	for range 20000 {
		s := measure.MillimetreStyle{Decimals: uint8(rnd.IntN(6))}
		l := measure.Length((rnd.Float64() - 0.5) * math.Pow(10, float64(rnd.IntN(7))))
		r := s.Round(l)
		if off := math.Abs(float64(r - l)); off > 0.5000001*math.Pow10(-int(s.Decimals)) {
			t.Errorf("%+v.Round(%v) = %v", s, float64(l), float64(r))
		}
		if back, err := measure.ParseLength(s.Format(r)); err != nil || back != r {
			t.Errorf("%+v.Format(%v) = %q, reads back as %v, %v", s, float64(r), s.Format(r), float64(back), err)
		}
	}
}
