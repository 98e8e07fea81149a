package measure

// A DecimalSign says which character parts a number's units from its tenths.
type DecimalSign byte

// Decimal signs.
const (
	// AnySign takes a point or a comma, refuses a comma before exactly three
	// digits, which may have been meant to group thousands, and refuses any
	// grouping.
	AnySign DecimalSign = iota
	// PointSign takes the point; commas may group thousands when a point
	// follows them: 1,234.5.
	PointSign
	// CommaSign takes the comma; points may group thousands when a comma
	// follows them: 1.234,5.
	CommaSign
)

// A Notation declares what text leaves unsaid: the decimal sign, and for each
// quantity the unit of a number written without one. Use it for a file that
// declares them or, by [Heading.Notation], for a column of a table. A number
// with a unit keeps its own. The zero Notation declares nothing; it is what
// [ParseLength] and its kin use.
type Notation struct {
	Decimal DecimalSign

	// The units of numbers without one, "mm" or "°F"; empty: refused.
	Length, Area, Volume, Mass, Density, LinearMass string
	Speed, Force, Stress                            string
	Angle, Curvature, Gradient                      string
	Temperature, TemperatureDifference, Expansion   string
}
