package locked

import (
	"fmt"
	"math"

	"example.org/fourfoot/expansion"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// Force returns the push of a rail that cannot grow, E·A·α·ΔT; negative, a
// pull, where it has cooled.
func Force(area measure.Area, modulus measure.Stress, alpha measure.Expansion, warming measure.TemperatureDifference) (measure.Force, error) {
	l := fault.In("locked")
	fault.Positive(l, "area", area)
	fault.Positive(l, "modulus", modulus)
	checkHeat(l, alpha, warming)
	if err := l.Err(); err != nil {
		return 0, err
	}
	return measure.Force(float64(modulus) * float64(area) * float64(alpha) * float64(warming)), nil
}

// ForceRates returns the change of the push per unit of each input.
func ForceRates(area measure.Area, modulus measure.Stress, alpha measure.Expansion, warming measure.TemperatureDifference) ([]expansion.Rate[measure.Force], error) {
	if _, err := Force(area, modulus, alpha, warming); err != nil {
		return nil, err
	}
	e, a, x, t := float64(modulus), float64(area), float64(alpha), float64(warming)
	return []expansion.Rate[measure.Force]{
		{Input: "area", Per: "1 mm²", By: measure.Force(e * x * t)},
		{Input: "modulus", Per: "1 GPa", By: measure.Force(1000 * a * x * t)},
		{Input: "expansion", Per: "1e-6 per K", By: measure.Force(1e-6 * e * a * t)},
		{Input: "warming", Per: "1 K", By: measure.Force(e * a * x)},
	}, nil
}

// warmest is the largest change of temperature that is taken.
const warmest = 240 * measure.Kelvin

func checkHeat(l *fault.List, alpha measure.Expansion, warming measure.TemperatureDifference) {
	if fault.NotNegative(l, "expansion", alpha) && alpha > expansion.Steepest {
		l.Add("expansion", fmt.Sprintf("%.4g per K", float64(alpha)), "must be at most 0.001 per K: was the 1e-6 forgotten?")
	}
	if fault.Finite(l, "warming", warming) && math.Abs(float64(warming)) > float64(warmest) {
		l.Add("warming", fmt.Sprintf("%.4g K", float64(warming)), "must be at most 240 K either way")
	}
}

// A Strut is rail between two fixings, seen as a column. It is an indication
// only: ends free to turn, straight and pushed in the middle of its section,
// elastic; a real rail is bent a little, which lowers the load, and is gripped
// by its fixings, which raises it up to fourfold.
type Strut struct {
	Critical measure.Force  // at which the column buckles, π²·E·I/L²
	Push     measure.Force  // of the locked rail
	Margin   float64        // Critical / Push; below 1 it may buckle between the fixings; 0 where it is not pushed
	Longest  measure.Length // spacing of the fixings at which Critical is Push; 0 where it is not pushed
}

// NewStrut returns the indication for rail held by fixings at the given
// spacing, which buckles the way it is weakest: sideways, as rails are.
func NewStrut(s Section, modulus measure.Stress, spacing measure.Length, alpha measure.Expansion, warming measure.TemperatureDifference) (Strut, error) {
	l := fault.In("locked")
	fault.Positive(l, "sideways second moment", s.Sideways)
	fault.Positive(l, "spacing of fixings", spacing)
	push, err := Force(s.Area, modulus, alpha, warming)
	l.Join(err)
	if err := l.Err(); err != nil {
		return Strut{}, err
	}
	ei := float64(modulus) * float64(s.weakest())
	t := Strut{Critical: measure.Force(math.Pi * math.Pi * ei / float64(spacing*spacing)), Push: push}
	if push > 0 {
		t.Margin = float64(t.Critical / push)
		t.Longest = measure.Length(math.Pi * math.Sqrt(ei/float64(push)))
	}
	return t, nil
}

// StrutRates returns the change per unit of each input of the critical push,
// of the margin and of the longest spacing; none of the two where the rail is
// not pushed. Those of the push are ForceRates.
func StrutRates(s Section, modulus measure.Stress, spacing measure.Length, alpha measure.Expansion, warming measure.TemperatureDifference) (critical []expansion.Rate[measure.Force], margin []expansion.Rate[float64], longest []expansion.Rate[measure.Length], err error) {
	t, err := NewStrut(s, modulus, spacing, alpha, warming)
	if err != nil {
		return nil, nil, nil, err
	}
	// Each is a product of powers: it changes by the power times itself over
	// the input.
	d, i := perUnit("spacing of fixings", "1 mm", spacing), perUnit("second moment", "1 mm⁴", s.weakest())
	e := perUnit("modulus", "1 GPa", modulus/measure.Gigapascal)
	critical = []expansion.Rate[measure.Force]{power(-2, t.Critical, d), power(1, t.Critical, e), power(1, t.Critical, i)}
	if t.Push <= 0 {
		return critical, nil, nil, nil
	}
	a, x, k := perUnit("area", "1 mm²", s.Area), perUnit("expansion", "1e-6 per K", alpha/measure.MicroPerKelvin), perUnit("warming", "1 K", warming)
	margin = []expansion.Rate[float64]{power(-2, t.Margin, d), power(1, t.Margin, i), power(-1, t.Margin, a), power(-1, t.Margin, x), power(-1, t.Margin, k)}
	longest = []expansion.Rate[measure.Length]{power(0.5, t.Longest, i), power(-0.5, t.Longest, a), power(-0.5, t.Longest, x), power(-0.5, t.Longest, k)}
	return critical, margin, longest, nil
}

// An input of a product of powers, its rate 1 over its value.
type input = expansion.Rate[float64]

func perUnit[T ~float64](name, per string, value T) input {
	return input{Input: name, Per: per, By: 1 / float64(value)}
}

func power[T ~float64](k float64, of T, by input) expansion.Rate[T] {
	return expansion.Rate[T]{Input: by.Input, Per: by.Per, By: of * T(k*by.By)}
}

// weakest is the second moment about the axis that buckles; an upright one
// that is not known does not count.
func (s Section) weakest() SecondMoment {
	if s.Upright > 0 {
		return min(s.Sideways, s.Upright)
	}
	return s.Sideways
}
