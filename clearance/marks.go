package clearance

import (
	"math"
	"sort"

	"example.org/fourfoot/gauge/measure"
)

// marks are chainages at which a profile changes its law, in order; those of a
// circuit on its first lap.
type marks struct {
	at  []float64
	lap float64 // 0 for an open profile
}

func newMarks(boundaries []measure.Length, lap measure.Length) marks {
	m := marks{lap: float64(lap)}
	for _, b := range boundaries {
		x := float64(b)
		if m.lap > 0 {
			if x = math.Mod(x, m.lap); x < 0 {
				x += m.lap
			}
		}
		m.at = append(m.at, x)
	}
	sort.Float64s(m.at)
	return m
}

// after returns the first mark past x.
func (m *marks) after(x float64) float64 {
	if len(m.at) == 0 {
		return math.Inf(1)
	}
	base := 0.0
	if m.lap > 0 {
		base = math.Floor(x/m.lap) * m.lap
	}
	i := sort.Search(len(m.at), func(i int) bool { return m.at[i]+base > x })
	switch {
	case i < len(m.at):
		return m.at[i] + base
	case m.lap > 0:
		return m.at[0] + base + m.lap
	}
	return math.Inf(1)
}

// extremes returns the least and the largest of f from a to b, where f follows
// the profile with these marks at two places, rear and front ahead of its
// argument. Between marks f is taken as a cubic, as it is over gradients,
// parabolas and straight ramps.
func (m *marks) extremes(a, b, rear, front float64, f func(float64) float64) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	take := func(x float64) float64 {
		v := f(x)
		lo, hi = min(lo, v), max(hi, v)
		return v
	}
	const near = 1e-9
	for {
		to := min(b, m.after(a+rear+near)-rear, m.after(a+front+near)-front)
		d := to - a
		f0, f1, f2, f3 := take(a), take(a+d/3), take(a+2*d/3), take(to)
		// f0 + t·(c1 + t·(c2 + t·c3)) with t from 0 to 1.
		c1 := (-11*f0 + 18*f1 - 9*f2 + 2*f3) / 2
		c2 := 4.5 * (2*f0 - 5*f1 + 4*f2 - f3)
		c3 := 4.5 * (3*f1 - f0 - 3*f2 + f3)
		if q := c2*c2 - 3*c1*c3; q >= 0 {
			h := -c2 - math.Copysign(math.Sqrt(q), c2)
			for _, t := range [2]float64{h / (3 * c3), c1 / h} {
				if t > 0 && t < 1 {
					take(a + t*d)
				}
			}
		}
		if !(to < b) {
			return lo, hi
		}
		a = to
	}
}
