package curve

import "math"

// A Shape is the form of an element: how its curvature goes from its start to
// its end.
type Shape uint8

// The shapes. An easement's curvature is k0 + (k1-k0)·f(u) with u = s/L; f is
// named at each (ISO 16739-1, IfcAlignmentHorizontalSegmentTypeEnum).
const (
	StraightLine Shape = iota // no curvature
	CircularArc               // one curvature
	Clothoid                  // f = u
	Bloss                     // f = 3u² - 2u³
	Cosine                    // f = (1 - cos πu)/2
	Sine                      // f = u - sin(2πu)/2π (Klein)
	Helmert                   // f = 2u² to the middle, then 1 - 2(1-u)² (biquadratic)
)

var shapeNames = [...]string{"straight", "arc", "clothoid", "bloss", "cosine", "sine", "helmert"}

// String returns the shape's name in lower case.
func (s Shape) String() string {
	if int(s) < len(shapeNames) {
		return shapeNames[s]
	}
	return "unknown shape"
}

// Easement reports whether the shape is one whose curvature varies.
func (s Shape) Easement() bool { return s >= Clothoid && s <= Helmert }

// Ramp returns f(u), the part of the change of curvature (or of cant) that
// has happened at the part u of the length, 0 ≤ u ≤ 1.
func (s Shape) Ramp(u float64) float64 {
	switch s {
	case Clothoid:
		return u
	case Bloss:
		return u * u * (3 - 2*u)
	case Cosine:
		return (1 - math.Cos(math.Pi*u)) / 2
	case Sine:
		return u - math.Sin(2*math.Pi*u)/(2*math.Pi)
	case Helmert:
		if u <= 0.5 {
			return 2 * u * u
		}
		return 1 - 2*(1-u)*(1-u)
	}
	return 0
}

// rampIntegral returns ∫₀ᵘ f.
func (s Shape) rampIntegral(u float64) float64 {
	switch s {
	case Clothoid:
		return u * u / 2
	case Bloss:
		return u * u * u * (1 - u/2)
	case Cosine:
		return u/2 - math.Sin(math.Pi*u)/(2*math.Pi)
	case Sine:
		return u*u/2 - (1-math.Cos(2*math.Pi*u))/(4*math.Pi*math.Pi)
	case Helmert:
		if u <= 0.5 {
			return 2 * u * u * u / 3
		}
		v := 1 - u
		return u - 0.5 + 2*v*v*v/3
	}
	return 0
}
