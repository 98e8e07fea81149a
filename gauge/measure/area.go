package measure

import "math"

// An Area is in square millimetres.
type Area float64

// Units of area.
const (
	SquareMillimetre Area = 1
	SquareCentimetre      = 100 * SquareMillimetre
	SquareMetre           = 1e6 * SquareMillimetre
	SquareInch            = 25.4 * 25.4 * SquareMillimetre
	SquareFoot            = 144 * SquareInch
)

// SquareMillimetres returns the area as a number of square millimetres.
func (a Area) SquareMillimetres() float64 { return float64(a) }

// SquareMetres returns the area as a number of square metres.
func (a Area) SquareMetres() float64 { return float64(a / SquareMetre) }

// By returns the volume of a prism of base a and length l.
func (a Area) By(l Length) Volume { return Volume(float64(a) * float64(l)) }

var areas = kind{
	name:  "area",
	forms: `1200 mm², 0.5 m2 or 2 sq ft`,
	units: []unit{
		tens(0, "mm² mm2 sqmm MM2"),
		tens(2, "cm² cm2 sqcm CM2"),
		tens(6, "m² m2 sqm"),
		per(16129, 25, "in² in2 sqin"),
		per(2322576, 25, "sq~ft sqft ft2").printed(),
		per(20903184, 25, "sq~yd sqyd yd2"),
	},
}

// ParseArea reads an area in text such as 1200 mm², 0.5 m2 or 2 sq ft. Units:
// mm², cm², m², sq in, sq ft and sq yd.
func ParseArea(text string) (Area, error) { return Notation{}.ParseArea(text) }

// MustParseArea is [ParseArea] for text known to be good; it panics on
// other text.
func MustParseArea(text string) Area { return must(ParseArea(text)) }

// ParseArea reads an area written in the notation.
func (n Notation) ParseArea(text string) (Area, error) {
	v, err := n.parse(&areas, n.Area, text)
	return Area(v), err
}

// String returns the area to six significant digits, in square millimetres,
// from 0.1 m² in square metres.
func (a Area) String() string { return string(a.appendShown(nil)) }

func (a Area) appendShown(b []byte) []byte {
	if x := math.Abs(float64(a)); x < 1e5 || !finite(x) {
		return appendShown(b, float64(a), 0, "mm²")
	}
	return appendShown(b, float64(a), 6, "m²")
}

// AppendText appends text that reads back to the same bits.
func (a Area) AppendText(b []byte) ([]byte, error) {
	return areas.appendText(b, float64(a))
}

// MarshalText returns text that reads back to the same bits; what is not
// finite is refused.
func (a Area) MarshalText() ([]byte, error) { return a.AppendText(nil) }

// UnmarshalText reads what [ParseArea] reads.
func (a *Area) UnmarshalText(text []byte) error {
	x, err := ParseArea(string(text))
	if err == nil {
		*a = x
	}
	return err
}
