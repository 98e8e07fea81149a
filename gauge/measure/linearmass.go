package measure

// A LinearMass is mass per length of rail, in kilograms per metre.
type LinearMass float64

// Units of mass per length. Full-size rail is called by its pounds per yard.
const (
	KilogramPerMetre LinearMass = 1
	PoundPerYard     LinearMass = 0.45359237 / 0.9144
)

// KilogramsPerMetre returns the mass per length as a number of kg/m.
func (m LinearMass) KilogramsPerMetre() float64 { return float64(m) }

// Of returns the mass of the length l.
func (m LinearMass) Of(l Length) Mass { return Mass(float64(m) * l.Metres()) }

var linearMasses = kind{
	name:  "mass per length",
	forms: `60 lb/yd or 29.8 kg/m`,
	units: []unit{
		tens(0, "kg/m KG/M g/mm kgm-1"),
		tens(-3, "g/m"),
		per(45359237, 91440000, "lb/yd").printed(),
		per(45359237, 30480000, "lb/ft"),
	},
}

// ParseLinearMass reads a mass per length in text such as 60 lb/yd or 29.8
// kg/m. Units: g/m, kg/m, lb/yd and lb/ft.
func ParseLinearMass(text string) (LinearMass, error) { return Notation{}.ParseLinearMass(text) }

// MustParseLinearMass is [ParseLinearMass] for text known to be good; it panics on
// other text.
func MustParseLinearMass(text string) LinearMass { return must(ParseLinearMass(text)) }

// ParseLinearMass reads a mass per length written in the notation.
func (n Notation) ParseLinearMass(text string) (LinearMass, error) {
	v, err := n.parse(&linearMasses, n.LinearMass, text)
	return LinearMass(v), err
}

// String returns the mass per length to six significant digits, in kg/m.
func (m LinearMass) String() string { return string(m.appendShown(nil)) }

func (m LinearMass) appendShown(b []byte) []byte {
	return appendShown(b, float64(m), 0, "kg/m")
}

// AppendText appends text that reads back to the same bits.
func (m LinearMass) AppendText(b []byte) ([]byte, error) {
	return linearMasses.appendText(b, float64(m))
}

// MarshalText returns text that reads back to the same bits; what is not
// finite is refused.
func (m LinearMass) MarshalText() ([]byte, error) { return m.AppendText(nil) }

// UnmarshalText reads what [ParseLinearMass] reads.
func (m *LinearMass) UnmarshalText(text []byte) error {
	x, err := ParseLinearMass(string(text))
	if err == nil {
		*m = x
	}
	return err
}
