package curve

import (
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Hand says to which side a curve turns, or which of the two running rails is
// meant, seen in the running direction.
// The zero value is neither.
type Hand int8

// The two hands.
const (
	Left  Hand = 1
	Right Hand = -1
)

// Opposite returns the other hand.
func (h Hand) Opposite() Hand { return -h }

// Curvature returns the curvature of a radius to this hand, left positive. It
// refuses a radius that is not above zero and a hand that is neither.
func (h Hand) Curvature(radius measure.Length) (measure.Curvature, error) {
	l := fault.In("curve")
	fault.Positive(l, "radius", radius)
	if h != Left && h != Right {
		l.Add("hand", h, "must be left or right")
	}
	if !l.OK() {
		return 0, l.Err()
	}
	return measure.Curvature(float64(h) / float64(radius)), nil
}

// RadiusOf returns the radius, always positive, and the hand of a curvature;
// ok is false where it is straight, and has neither.
func RadiusOf(k measure.Curvature) (radius measure.Length, hand Hand, ok bool) {
	radius = measure.Length(1 / math.Abs(float64(k)))
	if math.IsInf(float64(radius), 0) || math.IsNaN(float64(radius)) {
		return 0, 0, false
	}
	if k < 0 {
		return radius, Right, true
	}
	return radius, Left, true
}

// String returns "left", "right" or "neither".
func (h Hand) String() string {
	switch h {
	case Left:
		return "left"
	case Right:
		return "right"
	}
	return "neither"
}
