package curve

import "math"

// RampRate returns df/du of [Shape.Ramp], a pure number, at the part u of the
// length, 0 ≤ u ≤ 1. Its greatest value says how much steeper the shape is
// than a linear ramp of the same length: clothoid 1, Bloss 3/2, cosine π/2,
// sine 2 and Helmert 2, all at the middle.
func (s Shape) RampRate(u float64) float64 {
	switch s {
	case Clothoid:
		return 1
	case Bloss:
		return 6 * u * (1 - u)
	case Cosine:
		return math.Pi / 2 * math.Sin(math.Pi*u)
	case Sine:
		return 1 - math.Cos(2*math.Pi*u)
	case Helmert:
		if u <= 0.5 {
			return 4 * u
		}
		return 4 * (1 - u)
	}
	return 0
}
