package profile

import (
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Datum says which rail keeps the level of the line where the track is
// canted. It is never assumed: a constructor refuses the zero Datum.
type Datum uint8

// The datums. NEM 114 (2007) keeps the inner rail level.
const (
	InnerRail  Datum = iota + 1 // the outer rail is raised by the whole cant
	Centreline                  // the outer rail is raised and the inner lowered by half of it
	OuterRail                   // the inner rail is lowered by the whole cant
)

// String returns "inner rail", "centreline" or "outer rail".
func (d Datum) String() string {
	switch d {
	case InnerRail:
		return "inner rail"
	case Centreline:
		return "centreline"
	case OuterRail:
		return "outer rail"
	}
	return "no datum"
}

// A Cant is the height of one rail head over the other as a function of
// chainage. Positive cant has the right rail higher, so that the vehicle leans
// to the left: a bend's cant has the sign of its curvature.
//
// It is immutable and safe for concurrent use. The zero Cant is 0 everywhere.
// An open one keeps its first and last values past its ends.
type Cant struct {
	chain chain[ramp]
	datum Datum
}

// At returns the cant at chainage s, for every finite s.
func (c Cant) At(s measure.Length) measure.Length {
	if len(c.chain.pieces) == 0 {
		return 0
	}
	i, x := c.chain.find(float64(s))
	return measure.Length(c.chain.pieces[i].value(x))
}

// Ramp returns the ramp gradient at chainage s, the change of cant per plan
// distance, for every finite s: 1 in 300 twists the track by 1 mm in 300 mm.
// Positive where the right rail rises against the left.
func (c Cant) Ramp(s measure.Length) measure.Gradient {
	if len(c.chain.pieces) == 0 {
		return 0
	}
	i, x := c.chain.find(float64(s))
	return measure.Gradient(c.chain.pieces[i].rate(x))
}

// Datum returns which rail keeps the level; zero for the zero Cant.
func (c Cant) Datum() Datum { return c.datum }

// Rails returns how high the left and the right rail head are at chainage s
// over the level of the line.
func (c Cant) Rails(s measure.Length) (left, right measure.Length) {
	u := c.At(s)
	switch {
	case c.datum == Centreline:
		return -u / 2, u / 2
	case (u > 0) == (c.datum == OuterRail): // the left rail takes it
		return 0 - u, 0 // never -0
	}
	return 0, u
}

// Circuit returns the length after which the cant repeats, and whether it
// does.
func (c Cant) Circuit() (measure.Length, bool) {
	return measure.Length(c.chain.circuit), c.chain.circuit > 0
}

// Boundaries returns the chainages where a ramp begins or ends, in order.
func (c Cant) Boundaries() []measure.Length { return c.chain.boundaries() }

// StartAt returns the cant with chainage 0 put where s was: its value at x is
// the old one at x + s. It refuses an s that is not finite.
func (c Cant) StartAt(s measure.Length) (Cant, error) {
	f := fault.In("profile")
	if !within(f, "new start", s) {
		return Cant{}, f.Err()
	}
	return Cant{c.chain.moved(-float64(s)), c.datum}, nil
}

// Reverse returns the cant met by running a line of the given length from its
// other end: its value at x is minus the old one at length - x, because left
// becomes right.
func (c Cant) Reverse(length measure.Length) (Cant, error) {
	f := fault.In("profile")
	if !within(f, "length of the line", length) {
		return Cant{}, f.Err()
	}
	return Cant{c.chain.reversed(float64(length)), c.datum}, nil
}

// Mirror returns the cant of the mirrored line: left and right exchanged.
func (c Cant) Mirror() Cant {
	turn := func(r ramp) ramp {
		r.v0, r.v1 = -r.v0, -r.v1
		return r
	}
	return Cant{c.chain.each(turn, func(s float64) float64 { return s }), c.datum}
}

// Scaled returns the cant with chainages and cants multiplied by factor, from
// a millionth to a million; ramp gradients stay.
func (c Cant) Scaled(factor float64) (Cant, error) {
	if err := checkFactor(factor); err != nil {
		return Cant{}, err
	}
	return Cant{c.chain.scaled(factor), c.datum}, nil
}

// Part returns the open cant of a range, its chainage 0 at from. On a circuit
// `to` may lie below `from`: the range then runs over the start.
func (c Cant) Part(from, to measure.Length) (Cant, error) {
	d, err := c.chain.span(from, to)
	if err != nil || len(c.chain.pieces) == 0 {
		return Cant{datum: c.datum}, err
	}
	return Cant{c.chain.part(float64(from), d), c.datum}, nil
}

// law returns the shape that a ramp follows; a shape that is not of the form
// f(u) counts as linear.
func law(s curve.Shape) curve.Shape {
	if s >= curve.Clothoid && s <= curve.Helmert {
		return s
	}
	return curve.Clothoid
}
