package curve

import (
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// NewArcOfLength returns the arc of a length and a curvature, which must not
// be zero: what [Element.Length] and [Element.StartCurvature] give of an arc
// gives the same arc again, bit for bit.
func NewArcOfLength(length measure.Length, curvature measure.Curvature) (Element, error) {
	l := fault.In("curve")
	checkLength(l, "length of arc", length)
	if fault.Finite(l, "curvature of arc", curvature) && curvature == 0 {
		l.Add("curvature of arc", curvature, "must not be zero; take a straight")
	}
	if !l.OK() {
		return Element{}, l.Err()
	}
	k := float64(curvature)
	return Element{shape: CircularArc, length: float64(length), whole: float64(length), k0: k, k1: k}, nil
}

// Whole returns the easement of which the element is all or a part, without a
// kink, and where in it the element begins. Of an element whose shape has no
// law over its length it returns the element itself; see [Element.Form].
func (e Element) Whole() (whole Element, from measure.Length) {
	e.kink = 0
	if e.shape.Easement() {
		from = measure.Length(e.from)
		e.from, e.length = 0, e.whole
	}
	return e, from
}

// CurvatureAt returns the curvature at s from the element's start, 0 to its
// length.
func (e Element) CurvatureAt(s measure.Length) measure.Curvature {
	return measure.Curvature(e.curvature(float64(s)))
}

// CurvatureRate returns the rate of change of the curvature at s from the
// element's start, in 1/mm².
func (e Element) CurvatureRate(s measure.Length) float64 {
	if e.shape.lever() {
		return e.leverRate(float64(s))
	}
	if e.k0 == e.k1 {
		return 0
	}
	return (e.k1 - e.k0) / e.whole * e.shape.RampRate(min(max((e.from+float64(s))/e.whole, 0), 1))
}
