package measure

// A Density is mass per volume, in kilograms per cubic metre.
type Density float64

// Units of density.
const (
	KilogramPerCubicMetre Density = 1
	PoundPerCubicFoot     Density = 0.45359237 / (0.3048 * 0.3048 * 0.3048)
)

// KilogramsPerCubicMetre returns the density as a number of kg/m³.
func (d Density) KilogramsPerCubicMetre() float64 { return float64(d) }

// Of returns the mass of the volume v.
func (d Density) Of(v Volume) Mass { return Mass(float64(d) * v.CubicMetres()) }

var densities = kind{
	name:  "density",
	forms: `1500 kg/m³, 1.5 t/m3 or 95 lb/cu ft`,
	units: []unit{
		tens(0, "kg/m³ kg/m3 kg/cum kgm-3"),
		tens(3, "g/cm³ g/cm3 g/cc t/m3 t/cum kg/l kg/L kg/dm3"),
		per(45359237*125*10, 3539605824, "lb/cu~ft lb/cuft lb/ft3").printed(),
		per(45359237*125*10, 95569357248, "lb/cu~yd lb/cuyd lb/yd3").printed(),
	},
}

// ParseDensity reads a density in text such as 1500 kg/m³, 1.5 t/m3 or 95
// lb/cu ft. Units: kg/m³, g/cm³, kg/l, t/m³, lb/cu ft and lb/cu yd.
func ParseDensity(text string) (Density, error) { return Notation{}.ParseDensity(text) }

// MustParseDensity is [ParseDensity] for text known to be good; it panics on
// other text.
func MustParseDensity(text string) Density { return must(ParseDensity(text)) }

// ParseDensity reads a density written in the notation.
func (n Notation) ParseDensity(text string) (Density, error) {
	v, err := n.parse(&densities, n.Density, text)
	return Density(v), err
}

// String returns the density to six significant digits, in kg/m³.
func (d Density) String() string { return string(d.appendShown(nil)) }

func (d Density) appendShown(b []byte) []byte {
	return appendShown(b, float64(d), 0, "kg/m³")
}

// AppendText appends text that reads back to the same bits.
func (d Density) AppendText(b []byte) ([]byte, error) {
	return densities.appendText(b, float64(d))
}

// MarshalText returns text that reads back to the same bits; what is not
// finite is refused.
func (d Density) MarshalText() ([]byte, error) { return d.AppendText(nil) }

// UnmarshalText reads what [ParseDensity] reads.
func (d *Density) UnmarshalText(text []byte) error {
	x, err := ParseDensity(string(text))
	if err == nil {
		*d = x
	}
	return err
}
