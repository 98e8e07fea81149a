package curve

import (
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Form is all that an element is made of, to be written down: what
// [Element.Form] gives, [Form.Element] makes the same element of again, bit for
// bit. Fields that a shape does not ask for are zero.
type Form struct {
	Kink   measure.Angle // just before the element
	Shape  Shape
	Length measure.Length

	// Curvature of an arc; of an easement at the start and the end of the whole;
	// Start of a lath between two poses at its first end.
	Start, End measure.Curvature

	// Length of the whole easement, 0 for Length, and where on it this begins.
	Whole, From measure.Length

	// A cubic parabola's or lath's curvature grows by Rate, in 1/mm², for each
	// millimetre along the tangent of its straight end: 1/RX, positive to the left
	// when it runs away from that end. That of a lath between two poses grows from
	// Start by Rate along the tangent of its first end, and by Across to the left
	// of it. From is measured from that end; Back, the element runs towards it.
	Rate, Across float64
	Back         bool
}

// Form returns what the element is made of.
func (e Element) Form() Form {
	f := Form{Kink: e.Kink(), Shape: e.shape, Length: e.Length()}
	f.Start = measure.Curvature(e.k0)
	switch {
	case e.shape.lever():
		f.Rate, f.Across, f.Back = e.k1, e.b, e.back
	case e.shape.Easement():
		f.End = measure.Curvature(e.k1)
	default:
		return f
	}
	f.Whole, f.From = measure.Length(e.whole), measure.Length(e.from)
	return f
}

// Element makes the element. It refuses what the constructor of the shape
// refuses, fields that the shape does not ask for, and a lath between two poses
// that turns more than half a turn or changes hand more than once.
func (f Form) Element() (Element, error) {
	l := fault.In("curve")
	fault.Finite(l, "kink of element", f.Kink)
	ease, lever := f.Shape.Easement(), f.Shape.lever()
	for _, c := range []struct {
		name string
		v    float64
		may  bool
	}{
		{"start curvature of ", float64(f.Start), f.Shape != StraightLine && f.Shape != CubicParabola},
		{"end curvature of ", float64(f.End), ease},
		{"whole length of ", float64(f.Whole), ease || lever},
		{"start of the part of ", float64(f.From), ease || lever},
		{"rate of ", f.Rate, lever},
		{"rate across of ", f.Across, f.Shape == Lath},
	} {
		if !c.may && c.v != 0 {
			l.Add(c.name+f.Shape.String(), c.v, "must be zero")
		}
	}
	if f.Back && !lever {
		l.Add("running back of "+f.Shape.String(), f.Back, "must be false")
	}
	if f.Whole == 0 {
		f.Whole = f.Length
	}
	var e Element
	var err error
	switch {
	case f.Shape == StraightLine:
		e, err = NewStraight(f.Length)
	case f.Shape == CircularArc:
		e, err = NewArcOfLength(f.Length, f.Start)
	case ease:
		e, err = f.easement()
	case lever:
		e, err = f.lever()
	default:
		l.Add("shape of element", f.Shape, "must be one of the shapes")
	}
	l.Join(err)
	if !l.OK() {
		return Element{}, l.Err()
	}
	e.kink = float64(f.Kink)
	return e, nil
}

// part records what no part of a whole can be; slack is what rounding may take
// its end out of the whole.
func (f Form) part(l *fault.List) {
	name := f.Shape.String()
	checkLength(l, "length of "+name, f.Length)
	if checkLength(l, "whole length of "+name, f.Whole) && fault.Between(l, "start of the part of "+name, f.From, 0, f.Whole) {
		far, slack := f.From+f.Length, f.Whole*1e-12
		if f.Back {
			far = f.From - f.Length
		}
		if far < -slack || far > f.Whole+slack {
			l.Add("end of the part of "+name, mm(far), "must be within the whole, from 0 mm to "+mm(f.Whole))
		}
	}
}

func (f Form) easement() (Element, error) {
	l := fault.In("curve")
	e, err := NewEasement(f.Shape, f.Whole, f.Start, f.End)
	l.Join(err)
	f.part(l)
	e.from, e.length = float64(f.From), float64(f.Length)
	return e, l.Err()
}

func (f Form) lever() (Element, error) {
	l := fault.In("curve")
	name := f.Shape.String()
	f.part(l)
	fault.Finite(l, "start curvature of "+name, f.Start)
	fault.Finite(l, "rate across of "+name, f.Across)
	between := f.Start != 0 || f.Across != 0
	if fault.Finite(l, "rate of "+name, f.Rate) && f.Rate == 0 && !between {
		l.Add("rate of "+name, f.Rate, "must not be zero; take a straight")
	}
	if !l.OK() {
		return Element{}, l.Err()
	}
	e := Element{
		shape: f.Shape, length: float64(f.Length), whole: float64(f.Whole), from: float64(f.From), back: f.Back,
		k0: float64(f.Start), k1: f.Rate, b: f.Across,
	}
	if between {
		L := e.whole
		law := lever{k: e.k0 * L, a: e.k1 * L * L, b: e.b * L * L}
		// The shooting looks no farther than 200 either.
		if !(math.Abs(law.k)+math.Abs(law.a)+math.Abs(law.b) < 200*(1+1e-12)) || !(math.Abs(law.at(1).heading) < math.Pi*(1+1e-12)) || law.inflections() > 1 {
			l.Add("curvature and rates of lath", fmt.Sprintf("%v, %v /mm² and %v /mm²", f.Start, f.Rate, f.Across),
				"must be smaller: over "+mm(f.Whole)+" it would turn more than 180° or change hand more than once")
			return Element{}, l.Err()
		}
		return e, nil
	}
	most, why := math.Atan(1/math.Sqrt(5)), "its curvature begins to fall"
	if f.Shape == Lath {
		most, why = math.Pi/2, "it would stand square to the straight"
	}
	// The slope of the cubic parabola and the sine of the lath's heading are
	// x²/2RX, x being less than the length: look first that it is near.
	turn := math.Inf(1)
	if math.Abs(f.Rate)*e.whole*e.whole < 4 {
		turn = math.Abs(e.lever().at(e.whole).heading)
	}
	if !(turn < most*(1+1e-12)) {
		l.Add("rate of "+name, fmt.Sprintf("%v /mm²", f.Rate), "must be smaller: over "+mm(f.Whole)+" "+why)
		return Element{}, l.Err()
	}
	return e, nil
}
