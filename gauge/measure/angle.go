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

var angles = kind{
	name:     "angle",
	forms:    `12.5°, 0°32'15" or 0.2 rad`,
	compound: true,
	units: []unit{
		tens(0, "rad"),
		tens(-3, "mrad"),
		turn(1, 1, "° deg").printed(),
		turn(1, 60, "' min"),
		turn(1, 3600, "\" s"),
		turn(9, 10, "gon").single(),
		turn(360, 1, "turn").single(),
	},
}

// ParseAngle reads an angle in text such as 12.5°, 0°32'15" or 0.2 rad.
// Units: ° or deg, ' or min, " or sec, gon, turn, mrad and rad.
func ParseAngle(text string) (Angle, error) { return Notation{}.ParseAngle(text) }

// MustParseAngle is [ParseAngle] for text known to be good; it panics on
// other text.
func MustParseAngle(text string) Angle { return must(ParseAngle(text)) }

// ParseAngle reads an angle written in the notation.
func (n Notation) ParseAngle(text string) (Angle, error) {
	v, err := n.parse(&angles, n.Angle, text)
	return Angle(v), err
}

// String returns the angle to six significant digits, in degrees.
func (a Angle) String() string { return string(a.appendShown(nil)) }

func (a Angle) appendShown(b []byte) []byte {
	return appendShown(b, a.Degrees(), 0, "°")
}

// AppendText appends text that reads back to the same bits.
func (a Angle) AppendText(b []byte) ([]byte, error) {
	return angles.appendText(b, float64(a))
}

// MarshalText returns text that reads back to the same bits; what is not
// finite is refused.
func (a Angle) MarshalText() ([]byte, error) { return a.AppendText(nil) }

// UnmarshalText reads what [ParseAngle] reads.
func (a *Angle) UnmarshalText(text []byte) error {
	x, err := ParseAngle(string(text))
	if err == nil {
		*a = x
	}
	return err
}
