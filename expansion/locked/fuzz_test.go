package locked_test

import (
	"errors"
	"math"
	"testing"

	"example.org/fourfoot/expansion/locked"
	"example.org/fourfoot/gauge/measure"
)

// Whatever the numbers: no panic, no NaN, and movement to the right side.
func FuzzShift(f *testing.F) {
	f.Add(3000.0, 1.5, 19e-6, 40.0)
	f.Add(1e6, 1e-3, 1e-3, 200.0)
	f.Add(3000.0, 6.28, 19e-6, -40.0)
	f.Add(math.NaN(), 7.0, -1.0, math.Inf(1))
	f.Fuzz(func(t *testing.T, radius, turn, alpha, warming float64) {
		s, err := locked.NewShift(measure.Length(radius), measure.Angle(turn), measure.Expansion(alpha), measure.TemperatureDifference(warming))
		if err != nil {
			if !errors.Is(err, measure.ErrInput) && !errors.Is(err, measure.ErrNoAnswer) && !errors.Is(err, measure.ErrLimit) {
				t.Errorf("an error of no kind: %v", err)
			}
			return
		}
		for _, v := range []measure.Length{s.Arc, s.Small, s.Cosine, s.Allowance} {
			if math.IsNaN(float64(v)) || math.IsInf(float64(v), 0) {
				t.Errorf("%+v", s)
			}
			if v != 0 && (v > 0) != (warming > 0) {
				t.Errorf("warming by %v moves %+v", warming, s)
			}
		}
		if b, err := locked.NewBow(measure.Length(radius), measure.Expansion(alpha), measure.TemperatureDifference(warming)); err != nil || math.IsNaN(float64(b.Allowance)) || b.Allowance < 0 {
			t.Errorf("bow %+v, %v", b, err)
		}
	})
}
