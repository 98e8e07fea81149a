package measure

// A Speed is in metres per second.
type Speed float64

// Units of speed.
const (
	MetrePerSecond   Speed = 1
	KilometrePerHour       = MetrePerSecond / 3.6
	MilePerHour            = 0.44704 * MetrePerSecond
	FootPerSecond          = 0.3048 * MetrePerSecond
)

// MetresPerSecond returns the speed as a number of m/s.
func (v Speed) MetresPerSecond() float64 { return float64(v) }

// A Force is in newtons.
type Force float64

// Units of force. Standard gravity is 9.80665 m/s² (CGPM 1901, exact by
// definition).
const (
	Newton        Force = 1
	Kilonewton          = 1000 * Newton
	KilogramForce       = 9.80665 * Newton
	PoundForce          = 0.45359237 * KilogramForce
)

// Newtons returns the force as a number of newtons.
func (f Force) Newtons() float64 { return float64(f) }

// A Stress is force per area, in newtons per square millimetre (megapascals);
// the modulus of elasticity of a material is one.
type Stress float64

// Units of stress.
const (
	Megapascal Stress = 1
	Gigapascal        = 1000 * Megapascal
)

// Megapascals returns the stress as a number of MPa.
func (s Stress) Megapascals() float64 { return float64(s) }

// On returns the force of the stress on the area a.
func (s Stress) On(a Area) Force { return Force(float64(s) * float64(a)) }
