package measure

import "math"

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

var forces = kind{
	name:  "force",
	forms: `12 N, 1.2 kgf or 2 lbf`,
	units: []unit{
		tens(0, "N"),
		tens(3, "kN KN"),
		tens(-3, "mN"),
		per(980665, 100000, "kgf kp").printed(),
		per(980665, 100000000, "gf"),
		per(44482216152605, 10000000000000, "lbf").printed(),
		per(44482216152605, 160000000000000, "ozf"),
	},
}

// ParseForce reads a force in text such as 12 N, 1.2 kgf or 2 lbf. Units: mN,
// N, kN, gf, kgf, ozf and lbf.
func ParseForce(text string) (Force, error) { return Notation{}.ParseForce(text) }

// MustParseForce is [ParseForce] for text known to be good; it panics on
// other text.
func MustParseForce(text string) Force { return must(ParseForce(text)) }

// ParseForce reads a force written in the notation.
func (n Notation) ParseForce(text string) (Force, error) {
	v, err := n.parse(&forces, n.Force, text)
	return Force(v), err
}

// String returns the force to six significant digits, in newtons, from 10 kN in kilonewtons.
func (f Force) String() string { return string(f.appendShown(nil)) }

func (f Force) appendShown(b []byte) []byte {
	if x := math.Abs(float64(f)); x < 1e4 || !finite(x) {
		return appendShown(b, float64(f), 0, "N")
	}
	return appendShown(b, float64(f), 3, "kN")
}

// AppendText appends text that reads back to the same bits.
func (f Force) AppendText(b []byte) ([]byte, error) {
	return forces.appendText(b, float64(f))
}

// MarshalText returns text that reads back to the same bits; what is not
// finite is refused.
func (f Force) MarshalText() ([]byte, error) { return f.AppendText(nil) }

// UnmarshalText reads what [ParseForce] reads.
func (f *Force) UnmarshalText(text []byte) error {
	x, err := ParseForce(string(text))
	if err == nil {
		*f = x
	}
	return err
}
