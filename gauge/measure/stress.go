package measure

import "math"

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

var stresses = kind{
	name:  "stress",
	forms: `200 GPa, 250 N/mm² or 36000 psi`,
	units: []unit{
		tens(0, "MPa Mpa N/mm2 N/sqmm"),
		tens(3, "GPa Gpa kN/mm2"),
		tens(-3, "kPa kpa"),
		tens(-6, "Pa N/m2"),
		per(980665, 100000, "kgf/mm2"),
		per(980665, 10000000, "kgf/cm2"),
		per(44482216152605, 6451600000000000, "psi lbf/in2 lb/in2 lbf/sqin lb/sqin").printed(),
		per(44482216152605, 6451600000000, "ksi"),
	},
}

// ParseStress reads a stress in text such as 200 GPa, 250 N/mm² or 36000 psi.
// Units: Pa, kPa, MPa or N/mm², GPa, kgf/cm², kgf/mm², psi and ksi.
func ParseStress(text string) (Stress, error) { return Notation{}.ParseStress(text) }

// MustParseStress is [ParseStress] for text known to be good; it panics on
// other text.
func MustParseStress(text string) Stress { return must(ParseStress(text)) }

// ParseStress reads a stress written in the notation.
func (n Notation) ParseStress(text string) (Stress, error) {
	v, err := n.parse(&stresses, n.Stress, text)
	return Stress(v), err
}

// String returns the stress to six significant digits, in MPa, from 10 GPa in GPa.
func (s Stress) String() string { return string(s.appendShown(nil)) }

func (s Stress) appendShown(b []byte) []byte {
	if x := math.Abs(float64(s)); x < 1e4 || !finite(x) {
		return appendShown(b, float64(s), 0, "MPa")
	}
	return appendShown(b, float64(s), 3, "GPa")
}

// AppendText appends text that reads back to the same bits.
func (s Stress) AppendText(b []byte) ([]byte, error) {
	return stresses.appendText(b, float64(s))
}

// MarshalText returns text that reads back to the same bits; what is not
// finite is refused.
func (s Stress) MarshalText() ([]byte, error) { return s.AppendText(nil) }

// UnmarshalText reads what [ParseStress] reads.
func (s *Stress) UnmarshalText(text []byte) error {
	x, err := ParseStress(string(text))
	if err == nil {
		*s = x
	}
	return err
}
