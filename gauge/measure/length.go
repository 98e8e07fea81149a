package measure

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
	Foot              = 12 * Inch
	Yard              = 3 * Foot
	Chain             = 22 * Yard
	Mile              = 80 * Chain
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
