package curve

import (
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Lever is what a cubic parabola or a lath is made of, whole or in part: its
// curvature grows by Rate for each millimetre along the tangent of its straight
// end, and it runs away from that end or, back, towards it.
type Lever struct {
	Shape  Shape          // CubicParabola or Lath
	Rate   float64        // 1/RX in 1/mm², positive to the left when it runs away from its straight end
	Whole  measure.Length // of the whole easement
	From   measure.Length // where on the whole the element begins, from the straight end
	Length measure.Length // of the element
	Back   bool
}

// Lever returns what a cubic parabola or a lath is made of; ok is false for
// every other element.
func (e Element) Lever() (v Lever, ok bool) {
	if !e.shape.lever() || e.k0 != 0 || e.b != 0 {
		return Lever{}, false
	}
	return Lever{e.shape, e.k1, measure.Length(e.whole), measure.Length(e.from), measure.Length(e.length), e.back}, true
}

// NewLever makes the element that [Element.Lever] takes apart, bit for bit. It
// refuses what [NewCubicParabola] and [NewLath] refuse.
func NewLever(v Lever) (Element, error) {
	l := fault.In("curve")
	if !v.Shape.lever() {
		l.Add("shape of lever", v.Shape, "must be a cubic parabola or a lath")
	}
	checkLength(l, "length of lever", v.Length)
	if checkLength(l, "whole length of lever", v.Whole) && fault.Between(l, "start of lever", v.From, 0, v.Whole) {
		far, slack := v.From+v.Length, v.Whole*1e-12
		if v.Back {
			far = v.From - v.Length
		}
		if far < -slack || far > v.Whole+slack {
			l.Add("end of lever", mm(far), "must be within the whole, from 0 mm to "+mm(v.Whole))
		}
	}
	if fault.Finite(l, "rate of lever", v.Rate) && v.Rate == 0 {
		l.Add("rate of lever", v.Rate, "must not be zero; take a straight")
	}
	if !l.OK() {
		return Element{}, l.Err()
	}
	e := Element{shape: v.Shape, length: float64(v.Length), whole: float64(v.Whole), from: float64(v.From), k1: v.Rate, back: v.Back}
	most, why := math.Atan(1/math.Sqrt(5)), "its curvature begins to fall"
	if v.Shape == Lath {
		most, why = math.Pi/2, "it would stand square to the straight"
	}
	// The slope of the cubic parabola and the sine of the lath's heading are
	// x²/2RX, x being less than the length: look first that it is near.
	turn := math.Inf(1)
	if math.Abs(v.Rate)*e.whole*e.whole < 4 {
		turn = math.Abs(e.lever().at(e.whole).heading)
	}
	if !(turn < most*(1+1e-12)) {
		l.Add("rate of lever", fmt.Sprintf("%v /mm²", v.Rate), "must be smaller: over "+mm(v.Whole)+" "+why)
		return Element{}, l.Err()
	}
	return e, nil
}
