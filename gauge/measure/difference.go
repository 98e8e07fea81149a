package measure

// A TemperatureDifference is in kelvins; a difference has no 32 in it.
type TemperatureDifference float64

// Units of temperature difference.
const (
	Kelvin           TemperatureDifference = 1
	FahrenheitDegree                       = Kelvin / 1.8
)

// Kelvins returns the difference as a number of kelvins.
func (d TemperatureDifference) Kelvins() float64 { return float64(d) }

var differences = kind{
	name:  "temperature difference",
	forms: `30 K, 30 °C or 54 °F`,
	units: []unit{
		tens(0, "K °C degC C c C° ℃"),
		per(5, 9, "°F degF F F° ℉").printed(),
	},
}

// ParseTemperatureDifference reads a temperature difference in text such as
// 30 K, 30 °C or 54 °F. Units: K or °C, and °F.
func ParseTemperatureDifference(text string) (TemperatureDifference, error) {
	return Notation{}.ParseTemperatureDifference(text)
}

// MustParseTemperatureDifference is [ParseTemperatureDifference] for text known to be good; it panics on
// other text.
func MustParseTemperatureDifference(text string) TemperatureDifference {
	return must(ParseTemperatureDifference(text))
}

// ParseTemperatureDifference reads a temperature difference written in the notation.
func (n Notation) ParseTemperatureDifference(text string) (TemperatureDifference, error) {
	v, err := n.parse(&differences, n.TemperatureDifference, text)
	return TemperatureDifference(v), err
}

// String returns the temperature difference to six significant digits, in kelvins.
func (d TemperatureDifference) String() string { return string(d.appendShown(nil)) }

func (d TemperatureDifference) appendShown(b []byte) []byte {
	return appendShown(b, float64(d), 0, "K")
}

// AppendText appends text that reads back to the same bits.
func (d TemperatureDifference) AppendText(b []byte) ([]byte, error) {
	return differences.appendText(b, float64(d))
}

// MarshalText returns text that reads back to the same bits; what is not
// finite is refused.
func (d TemperatureDifference) MarshalText() ([]byte, error) { return d.AppendText(nil) }

// UnmarshalText reads what [ParseTemperatureDifference] reads.
func (d *TemperatureDifference) UnmarshalText(text []byte) error {
	x, err := ParseTemperatureDifference(string(text))
	if err == nil {
		*d = x
	}
	return err
}
