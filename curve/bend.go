package curve

import (
	"errors"
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
	Shape   Shape          // of the easements; the zero value means Clothoid
}

// Elements returns the bend's one to three elements. Each easement turns
// L/2R, whatever its shape; the arc turns the rest.
func (b Bend) Elements() ([]Element, error) {
	shape := b.Shape
	if shape == StraightLine {
		shape = Clothoid
	}
	var err error
	if b.EaseIn < 0 || b.EaseOut < 0 || !finite(float64(b.EaseIn+b.EaseOut)) {
		err = fmt.Errorf("curve: easements of %v mm and %v mm: must be 0 mm or more: %w", float64(b.EaseIn), float64(b.EaseOut), ErrInput)
	}
	if b.Hand != Left && b.Hand != Right {
		err = errors.Join(err, fmt.Errorf("curve: hand of bend must be left or right: %w", ErrInput))
	}
	l := fault.In("curve")
	checkLength(l, "radius of bend", b.Radius)
	if err = errors.Join(err, l.Err()); err != nil {
		return nil, err
	}
	k := measure.Curvature(float64(b.Hand) / float64(b.Radius))
	rest := b.Turn - measure.Angle(float64(b.EaseIn+b.EaseOut)/(2*float64(b.Radius)))
	if !(rest >= 0) || b.Turn <= 0 {
		return nil, fmt.Errorf("curve: turn of %.4g°: easements of %v mm and %v mm already turn %.4g°; together they may be at most %.4g mm long: %w",
			b.Turn.Degrees(), float64(b.EaseIn), float64(b.EaseOut), (b.Turn - rest).Degrees(), 2*float64(b.Radius)*float64(b.Turn), ErrInput)
	}
	var out []Element
	add := func(e Element, e2 error) { out, err = append(out, e), errors.Join(err, e2) }
	if b.EaseIn > 0 {
		add(NewEasement(shape, b.EaseIn, 0, k))
	}
	if rest > 1e-12 {
		add(NewArc(b.Radius, rest, b.Hand))
	}
	if b.EaseOut > 0 {
		add(NewEasement(shape, b.EaseOut, k, 0))
	}
	return out, err
}
