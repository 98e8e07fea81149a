package design

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Compound is a curve of two arcs of one hand with an easement between them
// and, if wanted, at the ends.
type Compound struct {
	Radius1, Radius2         measure.Length
	Turn1                    measure.Angle  // of the first arc; the second takes what is left of the corner
	EaseIn, Between, EaseOut measure.Length // 0 for none
	Shape                    curve.Shape    // of the easements; the zero value means curve.Clothoid
}

// A CompoundBend is a compound curve placed in a corner.
type CompoundBend struct {
	Hand                       curve.Hand
	TurnIn, Turn1, TurnBetween measure.Angle // of the parts, positive
	Turn2, TurnOut             measure.Angle
	TangentIn, TangentOut      measure.Length // to the intersection point
	Start, End                 curve.Pose     // the tangent points
	Centre1, Centre2           r2.Vec
	ShiftIn, Shift, ShiftOut   measure.Length // of the arcs from the straights, and between the arcs
	Apex                       measure.Length // from the intersection point to the crown
	Crown                      r2.Vec         // the curve's nearest point to the intersection point
	elements                   []curve.Element
}

// Elements returns the curve's elements.
func (b CompoundBend) Elements() []curve.Element { return append([]curve.Element(nil), b.elements...) }

// Compound places the compound curve in the corner. The tangent lengths come
// from the curve's own end (x, y) seen from its start:
//
//	T2 = y / sin Δ,  T1 = x - y / tan Δ
//
// The shift between the arcs is R1 - R2 less the distance of their centres,
// taken positive: the room that the easement between them needs.
func (c Corner) Compound(k Compound) (CompoundBend, error) {
	l := fault.In("design")
	ease := Easing{In: k.EaseIn, Out: k.EaseOut, Shape: k.Shape}
	checkRadius(l, "first radius", k.Radius1)
	checkRadius(l, "second radius", k.Radius2)
	if fault.NotNegative(l, "easement between", k.Between); k.Between > 0 && lever(ease.shape()) {
		checkShape(l, "easement shape", ease.shape(), true)
	}
	fault.Positive(l, "turn of first arc", k.Turn1)
	if !c.check(l, ease) || !l.OK() {
		return CompoundBend{}, l.Err()
	}
	h := float64(c.hand)
	k1, k2 := 1/float64(k.Radius1), 1/float64(k.Radius2)
	b := CompoundBend{Hand: c.hand, Turn1: k.Turn1}
	in := newHalf(ease.shape(), float64(k.EaseIn), float64(k.Radius1))
	out := newHalf(ease.shape(), float64(k.EaseOut), float64(k.Radius2))
	between, gap := between(ease.shape(), float64(k.Between), k1, k2)
	b.TurnIn, b.TurnOut, b.TurnBetween = measure.Angle(in.turn), measure.Angle(out.turn), measure.Angle(between)
	rest := c.turn - in.turn - out.turn - between - float64(k.Turn1)
	if !(rest >= -roundingTurn) {
		l.NoAnswer("turn of first arc", fmt.Sprintf("%.6g°", k.Turn1.Degrees()),
			fmt.Sprintf("with the easements' %.6g° it is more than the corner's %.6g°: the first arc may turn at most %.6g°",
				measure.Angle(in.turn+out.turn+between).Degrees(), measure.Angle(c.turn).Degrees(), measure.Angle(c.turn-in.turn-out.turn-between).Degrees()))
		return CompoundBend{}, l.Err()
	}
	b.Turn2 = measure.Angle(max(rest, 0))
	add := func(e curve.Element, err error) {
		l.Join(err)
		b.elements = append(b.elements, e)
	}
	if k.EaseIn > 0 {
		add(easement(ease.shape(), float64(k.EaseIn), float64(k.Radius1), c.hand))
	}
	add(curve.NewArc(k.Radius1, k.Turn1, c.hand))
	if k.Between > 0 {
		add(curve.NewEasement(ease.shape(), k.Between, measure.Curvature(h*k1), measure.Curvature(h*k2)))
	}
	if rest > roundingTurn {
		add(curve.NewArc(k.Radius2, b.Turn2, c.hand))
	}
	if k.EaseOut > 0 {
		e, err := easement(ease.shape(), float64(k.EaseOut), float64(k.Radius2), c.hand.Opposite())
		add(e.Reverse(), err)
	}
	if !l.OK() {
		return CompoundBend{}, l.Err()
	}
	trial, err := curve.New(curve.Pose{}, b.elements...)
	if err != nil {
		return CompoundBend{}, err
	}
	end := trial.End().Point
	t2 := h * end.Y / math.Sin(c.turn)
	t1 := end.X - h*end.Y/math.Tan(c.turn)
	b.TangentIn, b.TangentOut = measure.Length(t1), measure.Length(t2)
	if !c.fits(t1, t2) {
		l.NoAnswer("tangent lengths", fmt.Sprintf("%.6g mm and %.6g mm", t1, t2),
			fmt.Sprintf("the straights are %.6g mm and %.6g mm long: take smaller radii or shorter easements", c.from, c.to))
		return CompoundBend{}, l.Err()
	}
	b.Start = curve.Pose{Point: forward(c.point, c.in, -t1, 0), Heading: measure.Angle(c.in)}
	b.End = curve.Pose{Point: forward(c.point, c.in+h*c.turn, t2, 0), Heading: measure.Angle(c.in + h*c.turn)}
	b.Centre1 = forward(b.Start.Point, c.in, in.along, h*(float64(k.Radius1)+in.shift))
	b.Centre2 = forward(b.End.Point, c.in+h*c.turn, -out.along, h*(float64(k.Radius2)+out.shift))
	b.ShiftIn, b.ShiftOut = measure.Length(in.shift), measure.Length(out.shift)
	b.Shift = measure.Length(math.Abs(float64(k.Radius1-k.Radius2)) - gap)
	a, err := curve.New(b.Start, b.elements...)
	if err != nil {
		return CompoundBend{}, err
	}
	f := a.Nearest(c.point)
	b.Crown = a.Point(f.Chainage)
	b.Apex = measure.Length(r2.Norm(r2.Sub(b.Crown, c.point)))
	return b, nil
}

// between returns the turn of an easement of length m from curvature k1 to k2
// and the distance between the centres of the arcs that it joins.
func between(shape curve.Shape, m, k1, k2 float64) (turn, gap float64) {
	if m == 0 {
		return 0, math.Abs(1/k1 - 1/k2)
	}
	e, err := curve.NewEasement(shape, measure.Length(m), measure.Curvature(k1), measure.Curvature(k2))
	if err != nil {
		return math.NaN(), math.NaN()
	}
	a, err := curve.New(curve.Pose{}, e)
	if err != nil {
		return math.NaN(), math.NaN()
	}
	end := a.End()
	c2 := forward(end.Point, float64(end.Heading), 0, 1/k2)
	return float64(end.Heading), math.Hypot(c2.X, c2.Y-1/k1)
}
