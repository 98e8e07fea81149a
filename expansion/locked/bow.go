package locked

import (
	"math"

	"example.org/fourfoot/expansion"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Bow is what a straight rail or panel does that warms between ends that
// hold: it bows out to one side.
type Bow struct {
	Growth    measure.Length // ΔL = L·α·ΔT, that has nowhere to go
	Arc       measure.Length // at the middle, bowed as a flat arc or parabola
	HalfSine  measure.Length // at the middle, bowed as a half sine wave
	Allowance measure.Length // the larger, sideways room to keep
}

// NewBow returns the bow of a locked straight. The curve's length exceeds its
// chord by ∫ y'²/2 dx: 8y²/3L for the arc, π²y²/4L for the half sine, from
// which
//
//	arc       y = √(3·L·ΔL/8)
//	half sine y = (2/π)·√(L·ΔL)
//
// Terms left out are below ΔL/L of the result. A rail that cools does not bow.
func NewBow(length measure.Length, alpha measure.Expansion, warming measure.TemperatureDifference) (Bow, error) {
	l := fault.In("locked")
	if fault.NotNegative(l, "length", length) && length > expansion.MaxFree {
		l.Over("length", length, "at most 100 km")
	}
	checkHeat(l, alpha, warming)
	if err := l.Err(); err != nil {
		return Bow{}, err
	}
	b := Bow{Growth: alpha.Of(length, warming)}
	if b.Growth > 0 {
		ll := float64(length) * float64(b.Growth)
		b.Arc = measure.Length(math.Sqrt(3 * ll / 8))
		b.HalfSine = measure.Length(2 / math.Pi * math.Sqrt(ll))
		b.Allowance = max(b.Arc, b.HalfSine)
	}
	return b, nil
}

// BowRates returns the change of the allowance per unit of each input. At no
// warming a bow begins infinitely fast; the rates are then left out. Those of
// Arc and of HalfSine are to these as the bows are to each other.
func BowRates(length measure.Length, alpha measure.Expansion, warming measure.TemperatureDifference) ([]expansion.Rate[measure.Length], error) {
	b, err := NewBow(length, alpha, warming)
	if err != nil || b.Allowance == 0 {
		return nil, err
	}
	// y = c·L·√(α·ΔT)
	return []expansion.Rate[measure.Length]{
		{Input: "length", Per: "1 mm", By: b.Allowance / length},
		{Input: "expansion", Per: "1e-6 per K", By: b.Allowance / 2 * measure.Length(1e-6/float64(alpha))},
		{Input: "warming", Per: "1 K", By: b.Allowance / 2 / measure.Length(warming)},
	}, nil
}
