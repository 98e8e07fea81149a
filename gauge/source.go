package gauge

// A Basis says how a figure in a table came to be there.
type Basis uint8

// The bases. The zero Basis says nothing.
const (
	Seen           Basis = iota + 1 // read in a stored copy or excerpt of the source named
	Secondary                       // read on a page that quotes the source named
	Worked                          // arithmetic on figures that were seen, repeatable
	FromMemory                      // recalled, not seen
	CommonPractice                  // usage of the trade, no source
)

// String returns "seen", "secondary", "worked", "from memory" or "common
// practice, no source".
func (b Basis) String() string {
	switch b {
	case Seen:
		return "seen"
	case Secondary:
		return "secondary"
	case Worked:
		return "worked"
	case FromMemory:
		return "from memory"
	case CommonPractice:
		return "common practice, no source"
	}
	return "basis not given"
}

// A Source is where the figures of a table's row come from.
type Source struct {
	Title string // with edition and clause where they are known; "" when there is none
	Basis Basis
}

// String returns "title (basis)".
func (s Source) String() string {
	if s.Title == "" {
		return s.Basis.String()
	}
	return s.Title + " (" + s.Basis.String() + ")"
}
