package gauge

import (
	"math"

	"example.org/fourfoot/gauge/measure"
)

// The linear conversions. A length goes with n, an area with n², a volume with
// n³, and a mass with n³ for a model of the same stuff throughout. Linear
// speed goes with n and time not at all: the model passes its own length in the
// time in which the full-size train passes its. Each is one multiplication or division by n, n²
// or n³, so there and back is the same number within 4 units in the last place.

// ModelLength returns the model's length for a full-size one.
func (s Scale) ModelLength(full measure.Length) measure.Length {
	return full / measure.Length(s.Ratio())
}

// FullLength returns the full-size length for a model's.
func (s Scale) FullLength(model measure.Length) measure.Length {
	// The conversion keeps the product from being fused into what follows, so
	// that a gauge that is met exactly is off by 0 on every machine.
	return measure.Length(float64(model) * s.Ratio())
}

// ModelArea returns the model's area for a full-size one, over n².
func (s Scale) ModelArea(full measure.Area) measure.Area {
	return full / measure.Area(s.power(2))
}

// FullArea returns the full-size area for a model's, by n².
func (s Scale) FullArea(model measure.Area) measure.Area {
	return model * measure.Area(s.power(2))
}

// ModelVolume returns the model's volume for a full-size one, over n³.
func (s Scale) ModelVolume(full measure.Volume) measure.Volume {
	return full / measure.Volume(s.power(3))
}

// FullVolume returns the full-size volume for a model's, by n³.
func (s Scale) FullVolume(model measure.Volume) measure.Volume {
	return model * measure.Volume(s.power(3))
}

// ModelMass returns the mass of a model of the same stuff throughout, over n³.
func (s Scale) ModelMass(full measure.Mass) measure.Mass {
	return full / measure.Mass(s.power(3))
}

// FullMass returns the full-size mass for a model of the same stuff, by n³.
func (s Scale) FullMass(model measure.Mass) measure.Mass {
	return model * measure.Mass(s.power(3))
}

// ModelSpeed returns the linear scale speed, over n.
func (s Scale) ModelSpeed(full measure.Speed) measure.Speed {
	return full / measure.Speed(s.Ratio())
}

// FullSpeed returns the full-size speed for a linear scale speed, by n.
func (s Scale) FullSpeed(model measure.Speed) measure.Speed {
	return model * measure.Speed(s.Ratio())
}

// Froude returns the scale's dynamic conversions.
func (s Scale) Froude() Froude { return Froude{s} }

// power returns n to the k, k at least 1.
func (s Scale) power(k int) float64 {
	n := s.Ratio()
	p := n
	for range k - 1 {
		p *= n
	}
	return p
}

// Froude converts what moves under gravity, which is the same in the model as
// at full size: swaying, tipping on a curve, the throw of water, a runaway.
// Models alike in Froude number v²/(g·l) have speed and time by √n, mass and
// force by n³, energy by n⁴ and power by n^3.5. For tipping and cant the speed
// to compare is this one; for a timetable it is the linear one.
//
// The zero Froude is that of full size.
type Froude struct{ s Scale }

// ModelSpeed returns the model's speed for a full-size one, over √n.
func (f Froude) ModelSpeed(full measure.Speed) measure.Speed {
	return full / measure.Speed(math.Sqrt(f.s.Ratio()))
}

// FullSpeed returns the full-size speed for the model's, by √n.
func (f Froude) FullSpeed(model measure.Speed) measure.Speed {
	return model * measure.Speed(math.Sqrt(f.s.Ratio()))
}

// ModelForce returns the model's force for a full-size one, over n³.
func (f Froude) ModelForce(full measure.Force) measure.Force {
	return full / measure.Force(f.s.power(3))
}

// FullForce returns the full-size force for the model's, by n³.
func (f Froude) FullForce(model measure.Force) measure.Force {
	return model * measure.Force(f.s.power(3))
}

// TimeFactor returns full-size time over the model's, √n: a model's pendulum
// swings faster by so much.
func (f Froude) TimeFactor() float64 { return math.Sqrt(f.s.Ratio()) }

// EnergyFactor returns full-size energy over the model's, n⁴.
func (f Froude) EnergyFactor() float64 { return f.s.power(4) }

// PowerFactor returns full-size power over the model's, n^3.5.
func (f Froude) PowerFactor() float64 { return f.s.power(3) * math.Sqrt(f.s.Ratio()) }
