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

	// Two shapes are not given by a law over their length: see
	// [NewCubicParabola] and [NewLath].
	CubicParabola // y = x³/6RX
	Lath          // sin θ = x²/2RX, as a springy batten bends
)

var shapeNames = [...]string{"straight", "arc", "clothoid", "bloss", "cosine", "sine", "helmert", "cubic parabola", "lath"}

// String returns the shape's name in lower case.
func (s Shape) String() string {
	if int(s) < len(shapeNames) {
		return shapeNames[s]
	}
	return "unknown shape"
}

// Easement reports whether the shape is one of the five whose curvature has a
// law over its length, f above: those that [NewEasement] takes.
func (s Shape) Easement() bool { return s >= Clothoid && s <= Helmert }

// lever reports whether the shape is one of the two that have no such law.
func (s Shape) lever() bool { return s == CubicParabola || s == Lath }

// Ramp returns f(u), the part of the change of curvature (or of cant) that
// has happened at the part u of the length, 0 ≤ u ≤ 1. It is 0 for a shape
// without such a law.
func (s Shape) Ramp(u float64) float64 {
	f, _ := s.law(u)
	return f
}

// law returns f(u) and its integral from 0 to u.
func (s Shape) law(u float64) (f, sum float64) {
	switch s {
	case Clothoid:
		return u, u * u / 2
	case Bloss:
		return u * u * (3 - 2*u), u * u * u * (1 - u/2)
	case Cosine:
		// (1 - cos πu)/2 = sin²(πu/2); sin πu = 2 sin(πu/2) cos(πu/2).
		sin, cos := math.Sincos(math.Pi / 2 * u)
		return sin * sin, u/2 - sin*cos*(1/math.Pi)
	case Sine:
		// (1 - cos 2πu)/4π² = sin²(πu)/2π².
		sin, cos := quarter(u)
		sin, cos = 2*sin*cos, 1-2*sin*sin
		return u - sin*cos*(1/math.Pi), u*u/2 - sin*sin*(1/(2*math.Pi*math.Pi))
	case Helmert:
		if u <= 0.5 {
			return 2 * u * u, u * u * u * (2. / 3)
		}
		v := 1 - u
		return 1 - 2*v*v, u - 0.5 + v*v*v*(2./3)
	}
	return 0, 0
}

// quarter returns sine and cosine of πu/2, u from 0 to 1.
func quarter(u float64) (sin, cos float64) {
	s, c := sincos(math.Pi / 4 * u)
	return 2 * s * c, 1 - 2*s*s
}

// sincos returns sine and cosine of an angle from -π/4 to π/4 by their Taylor
// series, without the branches of math.Sincos: which octant a place taken at
// random falls in cannot be foreseen.
func sincos(w float64) (sin, cos float64) {
	z := w * w
	y := z * z
	sin = w - w*z*((1./6-z*(1./120))+y*((1./5040-z*(1./362880))+y*((1./39916800-z*(1./6227020800))+y*(1./1307674368000-z*(1./355687428096000)))))
	cos = 1 - z*((1./2-z*(1./24))+y*((1./720-z*(1./40320))+y*((1./3628800-z*(1./479001600))+y*(1./87178291200-z*(1./20922789888000)))))
	return sin, cos
}
