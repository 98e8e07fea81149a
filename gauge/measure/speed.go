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

var speeds = kind{
	name:  "speed",
	forms: `0.5 m/s, 60 km/h or 30 mph`,
	units: []unit{
		tens(0, "m/s"),
		tens(-3, "mm/s"),
		tens(-2, "cm/s"),
		per(5, 18, "km/h kmh kph km/hr").printed(),
		per(1397, 3125, "mph mi/h").printed(),
		per(381, 1250, "ft/s fps"),
		per(381, 75000, "ft/min fpm"),
		per(1, 60, "m/min"),
	},
}

// ParseSpeed reads a speed in text such as 0.5 m/s, 60 km/h or 30 mph. Units:
// mm/s, cm/s, m/s, m/min, km/h, ft/s, ft/min and mph.
func ParseSpeed(text string) (Speed, error) { return Notation{}.ParseSpeed(text) }

// MustParseSpeed is [ParseSpeed] for text known to be good; it panics on
// other text.
func MustParseSpeed(text string) Speed { return must(ParseSpeed(text)) }

// ParseSpeed reads a speed written in the notation.
func (n Notation) ParseSpeed(text string) (Speed, error) {
	v, err := n.parse(&speeds, n.Speed, text)
	return Speed(v), err
}

// String returns the speed to six significant digits, in m/s.
func (v Speed) String() string { return string(v.appendShown(nil)) }

func (v Speed) appendShown(b []byte) []byte {
	return appendShown(b, float64(v), 0, "m/s")
}

// AppendText appends text that reads back to the same bits.
func (v Speed) AppendText(b []byte) ([]byte, error) {
	return speeds.appendText(b, float64(v))
}

// MarshalText returns text that reads back to the same bits; what is not
// finite is refused.
func (v Speed) MarshalText() ([]byte, error) { return v.AppendText(nil) }

// UnmarshalText reads what [ParseSpeed] reads.
func (v *Speed) UnmarshalText(text []byte) error {
	x, err := ParseSpeed(string(text))
	if err == nil {
		*v = x
	}
	return err
}
