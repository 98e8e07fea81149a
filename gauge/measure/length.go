package measure

import "math"

// A Length is a distance, a radius, a chainage or an offset, in millimetres.
// Its sign is the caller's: see the conventions of the package that gives it.
type Length float64

// Units of length. 1 in = 25.4 mm and what follows from it are exact
// (International yard and pound agreement, 1959); the chain of 66 ft and the
// mile of 80 chains are the railway's own.
const (
	Millimetre Length = 1
	Centimetre        = 10 * Millimetre
	Metre             = 1000 * Millimetre
	Kilometre         = 1000 * Metre
	Inch              = 25.4 * Millimetre
	Foot              = 304.8 * Millimetre // written out: 12 * Inch would round
	Yard              = 914.4 * Millimetre
	Chain             = 20116.8 * Millimetre
	Mile              = 1609344 * Millimetre
)

// Millimetres returns the length as a number of millimetres.
func (l Length) Millimetres() float64 { return float64(l) }

// Metres returns the length as a number of metres.
func (l Length) Metres() float64 { return float64(l / Metre) }

// Inches returns the length as a number of inches.
func (l Length) Inches() float64 { return float64(l / Inch) }

// Feet returns the length as a number of feet.
func (l Length) Feet() float64 { return float64(l / Foot) }

// By returns the area of a rectangle of sides l and w.
func (l Length) By(w Length) Area { return Area(l * w) }

var lengths = kind{
	name:     "length",
	forms:    `4ft 8 1/2in, 4' 8½", 3/8 in, 45mm or 1.2 m`,
	compound: true,
	units: []unit{
		tens(0, "mm MM"),
		tens(1, "cm CM"),
		tens(3, "m"),
		tens(6, "km KM Km"),
		tens(-3, "um"),
		per(127, 5, "in \"").printed(),
		per(1524, 5, "ft '"),
		per(4572, 5, "yd"),
		per(100584, 5, "chain ch"),
		per(1609344, 1, "mile mi"),
		per(127, 5000, "thou"),
	},
}

// ParseLength reads a length in text such as 4ft 8 1/2in, 4' 8½", 3/8 in,
// 45mm or 1.2 m. Units: mm, cm, m, km, µm, in or ", ft or ', yd, chain, mile
// and thou (1/1000 in).
func ParseLength(text string) (Length, error) { return Notation{}.ParseLength(text) }

// MustParseLength is [ParseLength] for text known to be good; it panics on
// other text.
func MustParseLength(text string) Length { return must(ParseLength(text)) }

// ParseLength reads a length written in the notation.
func (n Notation) ParseLength(text string) (Length, error) {
	v, err := n.parse(&lengths, n.Length, text)
	return Length(v), err
}

// String returns the length to six significant digits, in millimetres, from 10 m in metres.
func (l Length) String() string { return string(l.appendShown(nil)) }

func (l Length) appendShown(b []byte) []byte {
	if x := math.Abs(float64(l)); x < 1e4 || !finite(x) {
		return appendShown(b, float64(l), 0, "mm")
	}
	return appendShown(b, float64(l), 3, "m")
}

// AppendText appends text that reads back to the same bits.
func (l Length) AppendText(b []byte) ([]byte, error) {
	return lengths.appendText(b, float64(l))
}

// MarshalText returns text that reads back to the same bits; what is not
// finite is refused.
func (l Length) MarshalText() ([]byte, error) { return l.AppendText(nil) }

// UnmarshalText reads what [ParseLength] reads.
func (l *Length) UnmarshalText(text []byte) error {
	x, err := ParseLength(string(text))
	if err == nil {
		*l = x
	}
	return err
}
