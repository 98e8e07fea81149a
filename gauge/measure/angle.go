package measure

import "math"

// An Angle is in radians; a left turn, anticlockwise in plan, is positive.
type Angle float64

// Units of angle.
const (
	Radian Angle = 1
	Degree       = math.Pi / 180 * Radian
	Minute       = Degree / 60
	Second       = Minute / 60
)

// Radians returns the angle as a number of radians.
func (a Angle) Radians() float64 { return float64(a) }

// Degrees returns the angle as a number of degrees.
func (a Angle) Degrees() float64 { return float64(a / Degree) }

// A Curvature is one over a radius, in 1/mm; positive to the left of the
// running direction, zero on the straight.
type Curvature float64

// PerMillimetre is the curvature of a radius of one millimetre.
const PerMillimetre Curvature = 1

// PerMillimetres returns the curvature as a number of 1/mm.
func (k Curvature) PerMillimetres() float64 { return float64(k) }

// A Gradient is rise over plan distance, a pure number: 1 in 50 is 0.02.
// Positive climbs in the direction of running.
type Gradient float64

// Units of gradient.
const (
	Percent  Gradient = 0.01
	PerMille Gradient = 0.001
)

// OneIn returns the gradient of 1 in n.
func OneIn(n float64) Gradient { return Gradient(1 / n) }
