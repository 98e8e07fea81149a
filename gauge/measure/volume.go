package measure

import "math"

// A Volume is in cubic millimetres.
type Volume float64

// Units of volume. The litre is the cubic decimetre exactly.
const (
	CubicMillimetre Volume = 1
	CubicCentimetre        = 1e3 * CubicMillimetre
	Litre                  = 1e6 * CubicMillimetre
	CubicMetre             = 1e9 * CubicMillimetre
	CubicInch              = 25.4 * 25.4 * 25.4 * CubicMillimetre
	CubicFoot              = 28316846.592 * CubicMillimetre
	CubicYard              = 764554857.984 * CubicMillimetre
)

// CubicMillimetres returns the volume as a number of cubic millimetres.
func (v Volume) CubicMillimetres() float64 { return float64(v) }

// CubicMetres returns the volume as a number of cubic metres.
func (v Volume) CubicMetres() float64 { return float64(v / CubicMetre) }

// Litres returns the volume as a number of litres.
func (v Volume) Litres() float64 { return float64(v / Litre) }

var volumes = kind{
	name:  "volume",
	forms: `25 l, 0.5 m³ or 11 cu ft`,
	units: []unit{
		tens(0, "mm³ mm3 cumm MM3"),
		tens(3, "cm³ cm3 cucm cc CM3 ml mL"),
		tens(6, "l L dm3 cudm"),
		tens(9, "m³ m3 cum"),
		per(2048383, 125, "cu~in cuin in3"),
		per(3539605824, 125, "cu~ft cuft ft3").printed(),
		per(95569357248, 125, "cu~yd cuyd yd3"),
	},
}

// ParseVolume reads a volume in text such as 25 l, 0.5 m³ or 11 cu ft. Units:
// mm³, cm³ or ml, l, m³, cu in, cu ft and cu yd.
func ParseVolume(text string) (Volume, error) { return Notation{}.ParseVolume(text) }

// MustParseVolume is [ParseVolume] for text known to be good; it panics on
// other text.
func MustParseVolume(text string) Volume { return must(ParseVolume(text)) }

// ParseVolume reads a volume written in the notation.
func (n Notation) ParseVolume(text string) (Volume, error) {
	v, err := n.parse(&volumes, n.Volume, text)
	return Volume(v), err
}

// String returns the volume to six significant digits, in cubic centimetres,
// from a litre in litres and from 1 m³ in cubic metres.
func (v Volume) String() string { return string(v.appendShown(nil)) }

func (v Volume) appendShown(b []byte) []byte {
	switch x := math.Abs(float64(v)); {
	case x < 1e6 || !finite(x):
		return appendShown(b, float64(v), 3, "cm³")
	case x < 1e9:
		return appendShown(b, float64(v), 6, "l")
	}
	return appendShown(b, float64(v), 9, "m³")
}

// AppendText appends text that reads back to the same bits.
func (v Volume) AppendText(b []byte) ([]byte, error) {
	return volumes.appendText(b, float64(v))
}

// MarshalText returns text that reads back to the same bits; what is not
// finite is refused.
func (v Volume) MarshalText() ([]byte, error) { return v.AppendText(nil) }

// UnmarshalText reads what [ParseVolume] reads.
func (v *Volume) UnmarshalText(text []byte) error {
	x, err := ParseVolume(string(text))
	if err == nil {
		*v = x
	}
	return err
}
