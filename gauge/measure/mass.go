package measure

import "math"

// A Mass is in kilograms.
type Mass float64

// Units of mass. The avoirdupois pound is 0.45359237 kg exactly
// (International yard and pound agreement, 1959).
const (
	Kilogram      Mass = 1
	Gram               = 1e-3 * Kilogram
	Tonne              = 1000 * Kilogram
	Pound              = 0.45359237 * Kilogram
	Ounce              = Pound / 16
	Hundredweight      = 112 * Pound
	Ton                = 1016.0469088 * Kilogram // the long ton of 2240 lb
)

// Kilograms returns the mass as a number of kilograms.
func (m Mass) Kilograms() float64 { return float64(m) }

var masses = kind{
	name:     "mass",
	forms:    `450 g, 25 kg or 11 lb 3 oz`,
	compound: true,
	units: []unit{
		tens(0, "kg KG Kg"),
		tens(-3, "g"),
		tens(3, "t"),
		per(45359237, 100000000, "lb").printed(),
		per(45359237, 1600000000, "oz"),
		per(4535923700*28, 10000000000, "qr"),
		per(4535923700*112, 10000000000, "cwt"),
		per(4535923700*2240, 10000000000, "ton"),
	},
}

// ParseMass reads a mass in text such as 450 g, 25 kg or 11 lb 3 oz. Units:
// g, kg, t, oz, lb, qr (28 lb), cwt (112 lb) and ton (2240 lb).
func ParseMass(text string) (Mass, error) { return Notation{}.ParseMass(text) }

// MustParseMass is [ParseMass] for text known to be good; it panics on
// other text.
func MustParseMass(text string) Mass { return must(ParseMass(text)) }

// ParseMass reads a mass written in the notation.
func (n Notation) ParseMass(text string) (Mass, error) {
	v, err := n.parse(&masses, n.Mass, text)
	return Mass(v), err
}

// String returns the mass to six significant digits, in grams, from 1 kg in
// kilograms and from 10 t in tonnes.
func (m Mass) String() string { return string(m.appendShown(nil)) }

func (m Mass) appendShown(b []byte) []byte {
	switch x := math.Abs(float64(m)); {
	case x < 1 && x != 0:
		return appendShown(b, float64(m), -3, "g")
	case x < 1e4 || !finite(x):
		return appendShown(b, float64(m), 0, "kg")
	}
	return appendShown(b, float64(m), 3, "t")
}

// AppendText appends text that reads back to the same bits.
func (m Mass) AppendText(b []byte) ([]byte, error) {
	return masses.appendText(b, float64(m))
}

// MarshalText returns text that reads back to the same bits; what is not
// finite is refused.
func (m Mass) MarshalText() ([]byte, error) { return m.AppendText(nil) }

// UnmarshalText reads what [ParseMass] reads.
func (m *Mass) UnmarshalText(text []byte) error {
	x, err := ParseMass(string(text))
	if err == nil {
		*m = x
	}
	return err
}
