package curve

import (
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Lever is what a cubic parabola or a lath is made of, whole or in part: its
// curvature grows by Rate for each millimetre along the tangent of its straight
// end, and it runs away from that end or, back, towards it. A lath between two
// poses has no straight end: its curvature is Curvature at its first end, and
// grows by Rate along the tangent there and by Across to the left of it.
type Lever struct {
	Shape     Shape             // CubicParabola or Lath
	Rate      float64           // 1/RX in 1/mm², positive to the left when it runs away from its straight end
	Whole     measure.Length    // of the whole easement
	From      measure.Length    // where on the whole the element begins, from the straight or first end
	Length    measure.Length    // of the element
	Back      bool              // it runs towards that end
	Curvature measure.Curvature // at the first end of a lath between two poses, else 0
	Across    float64           // in 1/mm², of a lath between two poses, else 0
}

// Lever returns what a cubic parabola or a lath is made of; ok is false for
// every other element.
func (e Element) Lever() (v Lever, ok bool) {
	if !e.shape.lever() {
		return Lever{}, false
	}
	return Lever{
		Shape: e.shape, Rate: e.k1, Whole: measure.Length(e.whole), From: measure.Length(e.from), Length: measure.Length(e.length),
		Back: e.back, Curvature: measure.Curvature(e.k0), Across: e.b,
	}, true
}

// between reports whether it has no straight end.
func (v Lever) between() bool { return v.Curvature != 0 || v.Across != 0 }

// NewLever makes the element that [Element.Lever] takes apart, bit for bit. It
// refuses what [NewCubicParabola] and [NewLath] refuse, and a lath between two
// poses that turns more than half a turn or changes hand more than once.
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
	fault.Finite(l, "curvature of lever", v.Curvature)
	fault.Finite(l, "rate across of lever", v.Across)
	if v.between() && v.Shape == CubicParabola {
		l.Add("curvature and rate across of lever", v.Curvature.String()+fmt.Sprintf(" and %v /mm²", v.Across), "must be zero for a cubic parabola")
	}
	if fault.Finite(l, "rate of lever", v.Rate) && v.Rate == 0 && !v.between() {
		l.Add("rate of lever", v.Rate, "must not be zero; take a straight")
	}
	if !l.OK() {
		return Element{}, l.Err()
	}
	e := Element{
		shape: v.Shape, length: float64(v.Length), whole: float64(v.Whole), from: float64(v.From), back: v.Back,
		k0: float64(v.Curvature), k1: v.Rate, b: v.Across,
	}
	if v.between() {
		L := e.whole
		law := lever{k: e.k0 * L, a: e.k1 * L * L, b: e.b * L * L}
		// The shooting looks no farther than 200 either.
		if !(math.Abs(law.k)+math.Abs(law.a)+math.Abs(law.b) < 200*(1+1e-12)) || !(math.Abs(law.at(1).heading) < math.Pi*(1+1e-12)) || law.inflections() > 1 {
			l.Add("curvature and rates of lever", fmt.Sprintf("%v, %v /mm² and %v /mm²", v.Curvature, v.Rate, v.Across),
				"must be smaller: over "+mm(v.Whole)+" it would turn more than 180° or change hand more than once")
			return Element{}, l.Err()
		}
		return e, nil
	}
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
