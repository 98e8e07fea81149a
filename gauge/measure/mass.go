package measure

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
	Ton                = 20 * Hundredweight // the long ton of 2240 lb
)

// Kilograms returns the mass as a number of kilograms.
func (m Mass) Kilograms() float64 { return float64(m) }

// A Density is mass per volume, in kilograms per cubic metre.
type Density float64

// Units of density.
const (
	KilogramPerCubicMetre Density = 1
	PoundPerCubicFoot             = Density(Pound) / (0.3048 * 0.3048 * 0.3048)
)

// KilogramsPerCubicMetre returns the density as a number of kg/m³.
func (d Density) KilogramsPerCubicMetre() float64 { return float64(d) }

// Of returns the mass of the volume v.
func (d Density) Of(v Volume) Mass { return Mass(float64(d) * v.CubicMetres()) }

// A LinearMass is mass per length of rail, in kilograms per metre.
type LinearMass float64

// Units of mass per length. Full-size rail is called by its pounds per yard.
const (
	KilogramPerMetre LinearMass = 1
	PoundPerYard                = LinearMass(Pound) / 0.9144
)

// KilogramsPerMetre returns the mass per length as a number of kg/m.
func (m LinearMass) KilogramsPerMetre() float64 { return float64(m) }

// Of returns the mass of the length l.
func (m LinearMass) Of(l Length) Mass { return Mass(float64(m) * l.Metres()) }
