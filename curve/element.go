package curve

import (
	"errors"
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
)

// ErrInput is the kind of error about a value given to this package.
var ErrInput = measure.ErrInput

// An Element is one piece of a line: a straight, an arc or an easement. It is
// an immutable value; the zero Element is not valid in an [Alignment].
type Element struct {
	shape  Shape
	length float64
	k0, k1 float64 // curvature at start and end
	kink   float64 // turn of the heading just before the element
}

func finite(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }

func checkLength(name string, l measure.Length) error {
	if !finite(float64(l)) || l <= 0 {
		return fmt.Errorf("curve: %s of %v mm: must be more than 0 mm: %w", name, float64(l), ErrInput)
	}
	return nil
}

// NewStraight returns a straight of the given length.
func NewStraight(length measure.Length) (Element, error) {
	if err := checkLength("straight", length); err != nil {
		return Element{}, err
	}
	return Element{shape: StraightLine, length: float64(length)}, nil
}

// NewArc returns an arc of the given radius, turn (positive) and hand.
func NewArc(radius measure.Length, turn measure.Angle, hand Hand) (Element, error) {
	err := checkLength("radius", radius)
	if !finite(float64(turn)) || turn <= 0 {
		err = errors.Join(err, fmt.Errorf("curve: turn of %v°: must be more than 0°, the hand is separate: %w", turn.Degrees(), ErrInput))
	}
	if hand != Left && hand != Right {
		err = errors.Join(err, fmt.Errorf("curve: hand of arc must be left or right: %w", ErrInput))
	}
	if err != nil {
		return Element{}, err
	}
	k := float64(hand) / float64(radius)
	return Element{shape: CircularArc, length: float64(radius) * float64(turn), k0: k, k1: k}, nil
}

// NewEasement returns an easement of the given shape and length whose
// curvature goes from start to end.
func NewEasement(shape Shape, length measure.Length, start, end measure.Curvature) (Element, error) {
	err := checkLength("easement", length)
	if !shape.Easement() {
		err = errors.Join(err, fmt.Errorf("curve: shape %v is not an easement: %w", shape, ErrInput))
	}
	if !finite(float64(start)) || !finite(float64(end)) {
		err = errors.Join(err, fmt.Errorf("curve: curvature of easement must be finite: %w", ErrInput))
	}
	if err != nil {
		return Element{}, err
	}
	return Element{shape: shape, length: float64(length), k0: float64(start), k1: float64(end)}, nil
}

// WithKink returns the element with a sudden turn of the heading just before
// it, left positive: track as laid from sectional pieces.
func (e Element) WithKink(kink measure.Angle) Element {
	e.kink = float64(kink)
	return e
}

// Shape returns the form of the element.
func (e Element) Shape() Shape { return e.shape }

// Length returns the length along the centreline.
func (e Element) Length() measure.Length { return measure.Length(e.length) }

// StartCurvature returns the curvature at the start.
func (e Element) StartCurvature() measure.Curvature { return measure.Curvature(e.k0) }

// EndCurvature returns the curvature at the end.
func (e Element) EndCurvature() measure.Curvature { return measure.Curvature(e.k1) }

// Kink returns the turn of the heading just before the element.
func (e Element) Kink() measure.Angle { return measure.Angle(e.kink) }

// Turn returns the turn of the heading over the element, its kink not counted.
func (e Element) Turn() measure.Angle { return measure.Angle(e.heading(e.length)) }

func (e Element) heading(s float64) float64 {
	return e.k0*s + (e.k1-e.k0)*e.length*e.shape.rampIntegral(s/e.length)
}

func (e Element) curvature(s float64) float64 {
	return e.k0 + (e.k1-e.k0)*e.shape.Ramp(s/e.length)
}
