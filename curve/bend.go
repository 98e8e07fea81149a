package curve

import (
	"fmt"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Bend is an eased curve between two straights: easement, arc, easement.
type Bend struct {
	Radius  measure.Length // of the arc
	Turn    measure.Angle  // of the whole bend, positive
	Hand    Hand
	EaseIn  measure.Length // length of the first easement, 0 for none
	EaseOut measure.Length // length of the last easement, 0 for none

	// Shape of the easements; the zero value means Clothoid. Of a cubic
	// parabola or lath EaseIn and EaseOut are the abscissas.
	Shape Shape
}

// Elements returns the bend's one to three elements. Each easement turns
// L/2R, whatever its shape (a cubic parabola of abscissa X turns atan(X/2R), a
// lath asin(X/2R)); the arc turns the rest, and is left out where it would be
// shorter than [MinLength].
func (b Bend) Elements() ([]Element, error) {
	l := fault.In("curve")
	good := checkLength(l, "radius of bend", b.Radius)
	if fault.Positive(l, "turn of bend", b.Turn) && good {
		fault.Between(l, "length of bend", b.Radius*measure.Length(b.Turn), 0, MaxLength)
	}
	good = fault.NotNegative(l, "easement into bend", b.EaseIn) && good
	good = fault.NotNegative(l, "easement out of bend", b.EaseOut) && good
	if b.Hand != Left && b.Hand != Right {
		l.Add("hand of bend", b.Hand, "must be left or right")
		good = false
	}
	if b.Shape != StraightLine && !b.Shape.Easement() && !b.Shape.lever() {
		l.Add("shape of bend's easements", b.Shape, "must be an easement's")
		good = false
	}
	var in, out Element
	if good {
		var err error
		if b.EaseIn > 0 {
			in, err = b.ease(b.EaseIn, b.Hand)
			l.JoinAs("easement into bend", err)
		}
		if b.EaseOut > 0 {
			out, err = b.ease(b.EaseOut, b.Hand.Opposite())
			out = out.Reverse()
			l.JoinAs("easement out of bend", err)
		}
	}
	if !l.OK() {
		return nil, l.Err()
	}
	eased := measure.Angle(b.Hand) * (in.Turn() + out.Turn())
	rest := b.Turn - eased
	if rest < -1e-12*eased {
		l.Add("turn of bend", degrees(float64(b.Turn)), fmt.Sprintf("must be at least the %s that easements of %s and %s turn at a radius of %s",
			degrees(float64(eased)), mm(b.EaseIn), mm(b.EaseOut), mm(b.Radius)))
		return nil, l.Err()
	}
	var all []Element
	if b.EaseIn > 0 {
		all = append(all, in)
	}
	if rest > 1e-12 && measure.Length(rest)*b.Radius >= MinLength {
		arc, err := NewArc(b.Radius, rest, b.Hand)
		if err != nil {
			return nil, err
		}
		all = append(all, arc)
	}
	if b.EaseOut > 0 {
		all = append(all, out)
	}
	if len(all) == 0 {
		l.Add("turn of bend", degrees(float64(b.Turn)), "must give an arc of at least "+mm(MinLength))
	}
	return all, l.Err()
}

// ease returns an easement of the bend's shape from a straight to the arc.
func (b Bend) ease(length measure.Length, hand Hand) (Element, error) {
	switch b.Shape {
	case CubicParabola:
		return NewCubicParabola(length, b.Radius, hand)
	case Lath:
		return NewLath(length, b.Radius, hand)
	case StraightLine:
		b.Shape = Clothoid
	}
	return NewEasement(b.Shape, length, 0, measure.Curvature(float64(hand)/float64(b.Radius)))
}
