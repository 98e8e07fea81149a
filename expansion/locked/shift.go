package locked

import (
	"fmt"
	"math"

	"example.org/fourfoot/expansion"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
	"example.org/fourfoot/internal/solve"
)

// A Shift is the sideways movement of the crown of a curve that warms between
// ends that hold, outwards positive. Whatever the shape, the rail's growth
// has to be found by moving out: α·ΔT·R on the average over the turn.
type Shift struct {
	Arc       measure.Length // bent to another arc through the same ends, exact
	Small     measure.Length // its limit for small movements, 1.5·R·α·ΔT
	Cosine    measure.Length // ends held in direction too, the movement as 1 - cos: 2·R·α·ΔT, for small movements
	Allowance measure.Length // the larger of Arc and Cosine in size, sideways room to keep
}

// NewShift returns the movement of the crown of a curve of the given radius
// and turn, both ends held in place.
//
// The arc keeps its chord c = 2R·sin(θ/2) while its length grows to
// R·θ·(1 + α·ΔT): the new half turn φ solves sin φ/φ = c/length, and the crown
// stands at c/2·tan(φ/2). A curve that cools moves inwards; cooled so far that
// the rail is shorter than its chord it is stretched straight, and the error
// is measure.ErrNoAnswer.
func NewShift(radius measure.Length, turn measure.Angle, alpha measure.Expansion, warming measure.TemperatureDifference) (Shift, error) {
	l := fault.In("locked")
	if fault.Positive(l, "radius", radius) && radius > expansion.MaxFree {
		l.Over("radius", radius, "at most 100 km")
	}
	if fault.Positive(l, "turn", turn) && turn >= 2*math.Pi {
		l.Add("turn", turn, "must be less than a whole circle, 360°; RingGrowth answers for that")
	}
	checkHeat(l, alpha, warming)
	if err := l.Err(); err != nil {
		return Shift{}, err
	}
	strain := float64(alpha) * float64(warming)
	s := Shift{Small: measure.Length(1.5 * strain * float64(radius)), Cosine: measure.Length(2 * strain * float64(radius))}
	arc, ok := crown(float64(turn)/2, strain)
	if !ok {
		straight := (math.Sin(float64(turn)/2)/(float64(turn)/2) - 1) / float64(alpha)
		l.NoAnswer("shift", fmt.Sprintf("at %.4g K", float64(warming)), fmt.Sprintf("the rail is shorter than its chord and pulled straight: down to %.3g K there is a curve", math.Ceil(straight*10)/10))
		return Shift{}, l.Err()
	}
	s.Arc = measure.Length(arc * float64(radius))
	s.Allowance = s.Arc
	if math.Abs(float64(s.Cosine)) > math.Abs(float64(s.Arc)) {
		s.Allowance = s.Cosine
	}
	return s, nil
}

// crown returns the movement of the crown of an arc of half turn h and radius
// 1 that is strained between held ends.
func crown(h, strain float64) (float64, bool) {
	if strain == 0 {
		return 0, true
	}
	// The new half turn is h + d, with (1+ε)·h·sin(h+d) = (h+d)·sin h; what is
	// large and equal on both sides is taken away, so that small strains and
	// flat arcs keep their digits.
	sin := math.Sin(h)
	f := func(d float64) float64 {
		grown := 2 * math.Sin(d/2) * math.Cos(h+d/2) // sin(h+d) - sin h
		return h*(1+strain)*grown + strain*h*sin - d*sin
	}
	end := math.Pi - h // a whole circle on no chord
	if strain < 0 {
		if h*(1+strain) <= sin {
			return 0, false
		}
		end = -h * (1 - 1e-9) // at -h the equation holds without any curve
	}
	d, ok := solve.Brent(f, 0, end, 1e-18)
	if !ok {
		return 0, false
	}
	// sagitta c/2·tan(φ/2), less that at h: sin h·(tan(φ/2) - tan(h/2)).
	return math.Sin(h) * math.Sin(d/2) / (math.Cos((h+d)/2) * math.Cos(h/2)), true
}

// ShiftRates returns the change of the allowance per unit of each input, by
// central differences. Those of Small and Cosine are 1.5 and 2 times
// RingGrowthRates.
func ShiftRates(radius measure.Length, turn measure.Angle, alpha measure.Expansion, warming measure.TemperatureDifference) ([]expansion.Rate[measure.Length], error) {
	return shiftRates(radius, turn, alpha, warming, func(s Shift) measure.Length { return s.Allowance })
}

// ArcRates returns the change of Shift.Arc per unit of each input, as
// ShiftRates does.
func ArcRates(radius measure.Length, turn measure.Angle, alpha measure.Expansion, warming measure.TemperatureDifference) ([]expansion.Rate[measure.Length], error) {
	return shiftRates(radius, turn, alpha, warming, func(s Shift) measure.Length { return s.Arc })
}

func shiftRates(radius measure.Length, turn measure.Angle, alpha measure.Expansion, warming measure.TemperatureDifference, of func(Shift) measure.Length) ([]expansion.Rate[measure.Length], error) {
	if _, err := NewShift(radius, turn, alpha, warming); err != nil {
		return nil, err
	}
	slope := func(unit, step float64, f func(d float64) (Shift, error)) (measure.Length, error) {
		up, err1 := f(step)
		down, err2 := f(-step)
		if err1 != nil {
			return 0, err1
		}
		return (of(up) - of(down)) / measure.Length(2*step) * measure.Length(unit), err2
	}
	var out []expansion.Rate[measure.Length]
	for _, in := range []struct {
		name, per  string
		unit, step float64
		f          func(d float64) (Shift, error)
	}{
		{"radius", "1 mm", 1, float64(radius) * 1e-4, func(d float64) (Shift, error) { return NewShift(radius+measure.Length(d), turn, alpha, warming) }},
		{"turn", "1°", float64(measure.Degree), float64(turn) * 1e-4, func(d float64) (Shift, error) { return NewShift(radius, turn+measure.Angle(d), alpha, warming) }},
		{"expansion", "1e-6 per K", 1e-6, float64(alpha) * 1e-4, func(d float64) (Shift, error) { return NewShift(radius, turn, alpha+measure.Expansion(d), warming) }},
		{"warming", "1 K", 1, 1e-3, func(d float64) (Shift, error) {
			return NewShift(radius, turn, alpha, warming+measure.TemperatureDifference(d))
		}},
	} {
		if in.step == 0 {
			continue
		}
		by, err := slope(in.unit, in.step, in.f)
		if err != nil {
			continue // at the edge of what the formula takes
		}
		out = append(out, expansion.Rate[measure.Length]{Input: in.name, Per: in.per, By: by})
	}
	return out, nil
}

// RingGrowth returns by how much the radius of a whole circle of rail grows
// that is free to move out, R·α·ΔT.
func RingGrowth(radius measure.Length, alpha measure.Expansion, warming measure.TemperatureDifference) (measure.Length, error) {
	l := fault.In("locked")
	fault.Positive(l, "radius", radius)
	checkHeat(l, alpha, warming)
	if err := l.Err(); err != nil {
		return 0, err
	}
	return alpha.Of(radius, warming), nil
}

// RingGrowthRates returns the change of RingGrowth per unit of each input.
func RingGrowthRates(radius measure.Length, alpha measure.Expansion, warming measure.TemperatureDifference) ([]expansion.Rate[measure.Length], error) {
	if _, err := RingGrowth(radius, alpha, warming); err != nil {
		return nil, err
	}
	return []expansion.Rate[measure.Length]{
		{Input: "radius", Per: "1 mm", By: alpha.Of(1, warming)},
		{Input: "expansion", Per: "1e-6 per K", By: (1 * measure.MicroPerKelvin).Of(radius, warming)},
		{Input: "warming", Per: "1 K", By: alpha.Of(radius, 1)},
	}, nil
}
