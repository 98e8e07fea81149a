package joints

import (
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// A Joint is a gap in one rail.
type Joint struct {
	Mark          string // "L3": the third joint of the left rail
	Rail          curve.Hand
	Chainage      measure.Length
	Gap           measure.Length // to leave today: the feeler, or the permitted one nearest to it
	Least, Most   measure.Length // permitted today; both zero without Heat or where Problem is said
	Before, After measure.Length // free rail on its two sides
	At            string         // the object it stands at, "" between two pieces
	PieceBefore   int            // index in the plan's Pieces, -1 where an object is
	PieceAfter    int            // likewise
	Run           int            // index in the plan's Runs
	Problem       string         // why no gap suits this joint, "" where one does
}

// A Piece is a length of rail to be cut.
type Piece struct {
	Mark     string // "L3": the third piece of the left rail
	Rail     curve.Hand
	From, To measure.Length // chainages of its joints
	Length   measure.Length // to cut
	Trim     measure.Length // what it is shorter than the panel
	Fixed    measure.Length // chainage where it is held: its anchor, or its middle
	Anchor   string         // the anchor's name, "" where it is held at its middle
	Back     measure.Length // free rail from Fixed to its beginning
	Ahead    measure.Length // free rail from Fixed to its end
	Bar      int            // index in the plan's Cutting.Bars
	Run      int            // index in the plan's Runs
	Turn     measure.Angle  // of the line between its joints, left positive

	lead, tail float64       // its shares of the gaps at its ends
	turnBack   measure.Angle // up to where it is held
	atAnchor   float64       // rail for each millimetre of chainage there; 0 without an anchor
}

// A Run is rail without a break, from an object or an end of the line to the
// next; a circuit without objects is one run that ends where it begins.
type Run struct {
	From, To   measure.Length
	Start, End string // the objects' names, "" at an end of the line
}

// A Total is one rail's account: Rail = Pieces + Gaps. Rail and Pieces change
// with a measured input by what all its pieces do together.
type Total struct {
	Rail   measure.Length // of the rail laid, in closed form
	Pieces measure.Length
	Gaps   measure.Length
}

// An Order is what to buy.
type Order struct {
	Bars     []Stock // the lengths used and how many of each
	Joiners  int
	Sleepers int
	Fixings  int
}

// A Plan is where every joint comes and how every piece is cut. Joints and
// pieces stand in order along the left rail, then along the right.
type Plan struct {
	Joints      []Joint
	Pieces      []Piece
	Left, Right Total
	Runs        []Run
	Cutting     Cutting
	Order       Order
	Warnings    []string
	sleepers    sleepers
}
