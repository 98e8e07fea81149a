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

// A Notation declares what text leaves unsaid: the unit of a number written
// without one and the decimal sign. Use it for a table whose heading says so,
// see [ParseHeading], or for a file that declares its units. The zero Notation
// declares nothing; it is what ParseLength and its kin use.
type Notation struct {
	Decimal DecimalSign
	// Units are the units of numbers without one, at most one for each
	// quantity: "in", "°F". A number with a unit keeps its own.
	Units []string
}

// unit returns the declared unit of the quantity, nil when there is none.
func (n Notation) unit(k *kind) (*unit, string) {
	var found *unit
	for _, name := range n.Units {
		u := k.unit(clean(name))
		switch {
		case u == nil:
		case found != nil && found != u:
			return nil, "has no unit, and two are declared for a " + k.name
		default:
			found = u
		}
	}
	if found != nil {
		return found, ""
	}
	if len(n.Units) > 0 {
		return nil, "has no unit, and none of the declared units is for a " + k.name
	}
	return nil, "has no unit"
}
