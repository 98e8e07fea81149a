package measure

// A Temperature is a point on the scale, in degrees Celsius. The difference
// of two is a [TemperatureDifference].
type Temperature float64

// Celsius returns the temperature of c degrees Celsius.
func Celsius(c float64) Temperature { return Temperature(c) }

// Fahrenheit returns the temperature of f degrees Fahrenheit.
func Fahrenheit(f float64) Temperature { return Temperature((f - 32) * 5 / 9) }

// Celsius returns the temperature as a number of degrees Celsius.
func (t Temperature) Celsius() float64 { return float64(t) }

// Fahrenheit returns the temperature as a number of degrees Fahrenheit.
func (t Temperature) Fahrenheit() float64 { return float64(float64(t)*9/5) + 32 }

// Kelvin returns the temperature as a number of kelvins above absolute zero.
func (t Temperature) Kelvin() float64 { return float64(t) + 273.15 }

// Sub returns the difference t - u.
func (t Temperature) Sub(u Temperature) TemperatureDifference {
	return TemperatureDifference(t - u)
}

// Add returns the temperature d above t.
func (t Temperature) Add(d TemperatureDifference) Temperature {
	return t + Temperature(d)
}

var temperatures = kind{
	name:  "temperature",
	forms: `20 °C, -5°C or 68 °F`,
	units: []unit{
		tens(0, "°C degC C degc c ℃ °c C°"),
		{names: "°F degF F ℉ F°", fold: true, shown: true, per: ratio{n: 5, d: 9}, off: ratio{n: 160, d: 9, neg: true}},
		{names: "K", fold: true, shown: true, per: ratio{n: 1, d: 1}, off: ratio{n: 27315, d: 100, neg: true}},
	},
}

// ParseTemperature reads a temperature in text such as 20 °C, -5°C or 68 °F.
// Units: °C, °F and K.
func ParseTemperature(text string) (Temperature, error) { return Notation{}.ParseTemperature(text) }

// MustParseTemperature is [ParseTemperature] for text known to be good; it panics on
// other text.
func MustParseTemperature(text string) Temperature { return must(ParseTemperature(text)) }

// ParseTemperature reads a temperature written in the notation.
func (n Notation) ParseTemperature(text string) (Temperature, error) {
	v, err := n.parse(&temperatures, n.Temperature, text)
	return Temperature(v), err
}

// String returns the temperature to six significant digits, in degrees Celsius.
func (t Temperature) String() string { return string(t.appendShown(nil)) }

func (t Temperature) appendShown(b []byte) []byte {
	return appendShown(b, float64(t), 0, "°C")
}

// AppendText appends text that reads back to the same bits.
func (t Temperature) AppendText(b []byte) ([]byte, error) {
	return temperatures.appendText(b, float64(t))
}

// MarshalText returns text that reads back to the same bits; what is not
// finite is refused.
func (t Temperature) MarshalText() ([]byte, error) { return t.AppendText(nil) }

// UnmarshalText reads what [ParseTemperature] reads.
func (t *Temperature) UnmarshalText(text []byte) error {
	x, err := ParseTemperature(string(text))
	if err == nil {
		*t = x
	}
	return err
}
