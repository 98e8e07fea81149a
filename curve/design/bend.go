package design

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Bend is a curve between two straights as a builder wants to see it:
// easement, arc, easement, any of which may be missing.
type Bend struct {
	Hand   curve.Hand
	Radius measure.Length // of the arc
	Turn   measure.Angle  // of the whole bend, positive
	Ease   Easing

	TurnIn, TurnArc, TurnOut measure.Angle  // of the three parts, positive
	ShiftIn, ShiftOut        measure.Length // the arc's nearest approach to each straight, 0 without easement

	Start, End curve.Pose // the tangent points
	Centre     r2.Vec     // of the arc

	// What hangs on the intersection point of the two straights. A bend that
	// turns 180° or more has none: these are then zero, but for the crown,
	// which is then the place halfway round.
	Intersection          r2.Vec
	TangentIn, TangentOut measure.Length // from tangent point to intersection point
	Apex                  measure.Length // from the intersection point to the crown
	Crown                 r2.Vec         // the bend's nearest point to the intersection point

	elements []curve.Element
}

// Elements returns the bend's one to three elements.
func (b Bend) Elements() []curve.Element { return append([]curve.Element(nil), b.elements...) }

// make makes the bend's elements.
func (b *Bend) make() error {
	l := fault.In("design")
	r, shape := float64(b.Radius), b.Ease.shape()
	add := func(e curve.Element, err error) {
		l.Join(err)
		b.elements = append(b.elements, e)
	}
	if b.Ease.In > 0 {
		add(easement(shape, float64(b.Ease.In), r, b.Hand))
	}
	if b.TurnArc > 0 {
		add(curve.NewArc(b.Radius, b.TurnArc, b.Hand))
	}
	if b.Ease.Out > 0 {
		e, err := easement(shape, float64(b.Ease.Out), r, b.Hand.Opposite())
		add(e.Reverse(), err)
	}
	return l.Err()
}

// Length returns the length of the bend along its centreline.
func (b Bend) Length() measure.Length {
	var s measure.Length
	for _, e := range b.elements {
		s += e.Length()
	}
	return s
}

// tangents returns the tangent lengths of an eased bend of the given turn:
//
//	T1 = k1 + (R + p1) tan Δ/2 + (p2 - p1)/sin Δ
//
// and the same with 1 and 2 exchanged; k is half.along, p half.shift. With
// equal easements it is the textbooks' (R + p) tan Δ/2 + k.
func tangents(r, turn float64, in, out half) (t1, t2 float64) {
	tan, skew := math.Tan(turn/2), 0.0
	if in.shift != out.shift {
		skew = (out.shift - in.shift) / math.Sin(turn)
	}
	return in.along + (r+in.shift)*tan + skew, out.along + (r+out.shift)*tan - skew
}

// roundingTurn is the part of a turn that is taken as nothing: an arc left
// over by rounding when two easements make the whole bend.
const roundingTurn = 1e-12

// roundingLength is the length of a straight or an arc that is taken as
// nothing.
const roundingLength = 1e-8

// bendFrom returns the bend that starts at the pose. The caller has checked
// that the easements fit the turn.
func bendFrom(start curve.Pose, hand curve.Hand, r, turn float64, ease Easing) (Bend, error) {
	in, out := ease.halves(r)
	arc := turn - in.turn - out.turn
	if arc < roundingTurn || arc*r < roundingLength {
		arc = 0
	}
	b := Bend{
		Hand: hand, Radius: measure.Length(r), Turn: measure.Angle(in.turn + arc + out.turn), Ease: ease,
		TurnIn: measure.Angle(in.turn), TurnArc: measure.Angle(arc), TurnOut: measure.Angle(out.turn),
		ShiftIn: measure.Length(in.shift), ShiftOut: measure.Length(out.shift),
		Start: start,
	}
	if err := b.make(); err != nil {
		return Bend{}, err
	}
	h := float64(hand)
	a := float64(start.Heading)
	b.Centre = forward(start.Point, a, in.along, h*(r+in.shift))
	last := a + h*float64(b.Turn)
	b.End = curve.Pose{Point: forward(b.Centre, last, out.along, -h*(r+out.shift)), Heading: measure.Angle(last)}
	if turn >= math.Pi-1e-6 {
		b.Crown = forward(b.Centre, a+h*float64(b.Turn)/2, 0, -h*r)
		return b, nil
	}
	t1, t2 := tangents(r, turn, in, out)
	b.TangentIn, b.TangentOut = measure.Length(t1), measure.Length(t2)
	b.Intersection = forward(start.Point, a, t1, 0)
	return b, b.crown()
}

// crown finds the bend's nearest point to its intersection point.
func (b *Bend) crown() error {
	d := r2.Sub(b.Intersection, b.Centre)
	// The heading of the arc where it lies square to d, from its start.
	h := float64(b.Hand)
	at := h * math.Remainder(math.Atan2(d.Y, d.X)+h*math.Pi/2-float64(b.Start.Heading), 2*math.Pi)
	if at >= float64(b.TurnIn) && at <= float64(b.TurnIn+b.TurnArc) {
		n := r2.Norm(d)
		b.Apex = measure.Length(n - float64(b.Radius))
		b.Crown = r2.Add(b.Centre, r2.Scale(float64(b.Radius)/n, d))
		return nil
	}
	a, err := curve.New(b.Start, b.elements...)
	if err != nil {
		return err
	}
	f := a.Nearest(b.Intersection)
	b.Crown = a.Point(f.Chainage)
	b.Apex = measure.Length(r2.Norm(r2.Sub(b.Crown, b.Intersection)))
	return nil
}

// forward returns the point x ahead of p along the heading and y to its left.
func forward(p r2.Vec, heading, x, y float64) r2.Vec {
	sin, cos := math.Sincos(heading)
	return r2.Vec{X: p.X + x*cos - y*sin, Y: p.Y + x*sin + y*cos}
}
