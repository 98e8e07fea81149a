package measure

// An Expansion is a coefficient of linear thermal expansion, per kelvin.
type Expansion float64

// Units of linear expansion.
const (
	PerKelvin           Expansion = 1
	PerFahrenheitDegree           = 1.8 * PerKelvin
	MicroPerKelvin                = 1e-6 * PerKelvin
)

// PerKelvins returns the coefficient as a number per kelvin.
func (a Expansion) PerKelvins() float64 { return float64(a) }

// Of returns what a length l grows by when it warms by d.
func (a Expansion) Of(l Length, d TemperatureDifference) Length {
	return Length(float64(a) * float64(l) * float64(d))
}

var expansions = kind{
	name:  "expansion coefficient",
	forms: `11.5e-6 /K, 18.7×10⁻⁶ per K or 6.8e-6 /°F`,
	units: []unit{
		tens(0, "/K 1/K K-1 /°C 1/°C °C-1 /degC /C m/m/K m/mK"),
		tens(-6, "ppm/K ppm/°C 1e-6/K 10-6/K x10-6/K ×10-6/K 1e-6/°C 10-6/°C um/m/K um/mK um/m°C um/m/°C"),
		tens(-3, "mm/m/K mm/mK mm/m/°C mm/m°C"),
		per(9, 5, "/°F 1/°F /degF /F in/in/°F in/in°F").printed(),
		per(9, 5000000, "ppm/°F 1e-6/°F 10-6/°F ×10-6/°F"),
	},
}

// ParseExpansion reads an expansion coefficient in text such as 11.5e-6 /K,
// 18.7×10⁻⁶ per K or 6.8e-6 /°F. Units: /K or per °C, ppm/K, µm/(m·K),
// mm/(m·K), /°F and ppm/°F.
func ParseExpansion(text string) (Expansion, error) { return Notation{}.ParseExpansion(text) }

// MustParseExpansion is [ParseExpansion] for text known to be good; it panics on
// other text.
func MustParseExpansion(text string) Expansion { return must(ParseExpansion(text)) }

// ParseExpansion reads an expansion coefficient written in the notation.
func (n Notation) ParseExpansion(text string) (Expansion, error) {
	v, err := n.parse(&expansions, n.Expansion, text)
	return Expansion(v), err
}

// MarshalText returns text that reads back to the same bits; what is not
// finite is refused.
func (a Expansion) MarshalText() ([]byte, error) { return a.AppendText(nil) }

// UnmarshalText reads what [ParseExpansion] reads.
func (a *Expansion) UnmarshalText(text []byte) error {
	x, err := ParseExpansion(string(text))
	if err == nil {
		*a = x
	}
	return err
}

// String returns the coefficient to six significant digits, as a number of
// millionths per kelvin: "11.5e-6 /K".
func (a Expansion) String() string {
	if !finite(float64(a)) || a == 0 {
		return string(appendShown(nil, float64(a), 0, "/K"))
	}
	d := newDecimal(float64(a), shownDigits)
	return string(appendMillionths(nil, &d))
}

func appendMillionths(b []byte, d *decimal) []byte {
	if d.n == 0 || d.exp < -11 || d.exp > 0 {
		return append(d.append(b, 0), " /K"...)
	}
	return append(d.append(b, 6), "e-6 /K"...)
}

// AppendText appends text that reads back to the same bits.
func (a Expansion) AppendText(b []byte) ([]byte, error) {
	v := float64(a)
	if !finite(v) {
		return b, marshalFault(&expansions, v)
	}
	d := newDecimal(v, -1)
	if d.n > plainDigits {
		if u, x, ok := expansions.shorter(v, d.n); ok {
			return appendUnit(x.append(b, 0), u.name()), nil
		}
	}
	return appendMillionths(b, &d), nil
}
