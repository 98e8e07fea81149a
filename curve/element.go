package curve

import (
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// The sizes that this package takes. They are far outside what can be laid,
// and keep every result a finite number.
const (
	MinLength = 1e-9 * measure.Millimetre // of an element
	MaxLength = 1e12 * measure.Millimetre // of an element, and of a coordinate of the start
)

// maxEasementTurn is the most that an easement may turn, to the left and to
// the right added up.
const maxEasementTurn = 4 * math.Pi

// An Element is one piece of a line: a straight, an arc or an easement. It is
// an immutable value; the zero Element is not valid in an [Alignment].
type Element struct {
	shape  Shape
	length float64
	k0, k1 float64 // curvature at the start and end of the whole easement
	whole  float64 // length of the easement of which this is all or a part
	from   float64 // where in the whole this begins
	kink   float64 // turn of the heading just before the element

	// Of a cubic parabola or lath k0, k1 and b are the k, a and b of its lever,
	// and whole, from and length are as above, from its first end; back means
	// that the element runs towards that end.
	b    float64
	back bool
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

// checkLength records a length that no element can have.
func checkLength(l *fault.List, name string, v measure.Length) bool {
	if !fault.Positive(l, name, v) {
		return false
	}
	if v < MinLength {
		l.Add(name, mm(v), "must be at least "+mm(MinLength))
		return false
	}
	if v > MaxLength {
		l.Add(name, mm(v), "must be at most "+mm(MaxLength))
		return false
	}
	return true
}

// NewStraight returns a straight of the given length.
func NewStraight(length measure.Length) (Element, error) {
	l := fault.In("curve")
	if !checkLength(l, "length of straight", length) {
		return Element{}, l.Err()
	}
	return Element{shape: StraightLine, length: float64(length), whole: float64(length)}, nil
}

// NewArc returns an arc of the given radius, turn (positive) and hand. It may
// turn any number of times.
func NewArc(radius measure.Length, turn measure.Angle, hand Hand) (Element, error) {
	l := fault.In("curve")
	if checkLength(l, "radius of arc", radius) && fault.Positive(l, "turn of arc", turn) {
		checkLength(l, "length of arc", measure.Length(float64(radius)*float64(turn)))
	} else if l.OK() || !finite(float64(turn)) || turn <= 0 {
		fault.Positive(l, "turn of arc", turn)
	}
	if hand != Left && hand != Right {
		l.Add("hand of arc", hand, "must be left or right")
	}
	if !l.OK() {
		return Element{}, l.Err()
	}
	k := float64(hand) / float64(radius)
	length := float64(radius) * float64(turn)
	return Element{shape: CircularArc, length: length, whole: length, k0: k, k1: k}, nil
}

// NewEasement returns an easement of the given shape and length whose
// curvature goes from start to end. It may turn at most 4π, turns to the left
// and to the right added up.
func NewEasement(shape Shape, length measure.Length, start, end measure.Curvature) (Element, error) {
	l := fault.In("curve")
	if !shape.Easement() {
		l.Add("shape of easement", shape, "must be an easement's")
	}
	checkLength(l, "length of easement", length)
	fault.Finite(l, "curvature at the start of easement", start)
	fault.Finite(l, "curvature at the end of easement", end)
	if !l.OK() {
		return Element{}, l.Err()
	}
	e := Element{shape: shape, length: float64(length), whole: float64(length), k0: float64(start), k1: float64(end)}
	if t := e.absTurn(0, e.length); !(t <= maxEasementTurn) {
		l.Add("turn of easement", degrees(t), "must be at most "+degrees(maxEasementTurn)+", left and right added up; use arcs for more")
		return Element{}, l.Err()
	}
	return e, nil
}

// WithKink returns the element with a sudden turn of the heading just before
// it, left positive: track as laid from sectional pieces. [New] refuses a kink
// that is not between -180° and 180°.
func (e Element) WithKink(kink measure.Angle) Element {
	e.kink = float64(kink)
	return e
}

// Shape returns the form of the element.
func (e Element) Shape() Shape { return e.shape }

// Length returns the length along the centreline.
func (e Element) Length() measure.Length { return measure.Length(e.length) }

// StartCurvature returns the curvature at the start.
func (e Element) StartCurvature() measure.Curvature { return measure.Curvature(e.curvature(0)) }

// EndCurvature returns the curvature at the end.
func (e Element) EndCurvature() measure.Curvature { return measure.Curvature(e.curvature(e.length)) }

// Kink returns the turn of the heading just before the element.
func (e Element) Kink() measure.Angle { return measure.Angle(e.kink) }

// Turn returns the turn of the heading over the element, its kink not counted.
func (e Element) Turn() measure.Angle { return measure.Angle(e.heading(e.length)) }
