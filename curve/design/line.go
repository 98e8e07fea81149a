package design

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Line is a line that was found: ready for curve.New, with its bends as a
// builder wants to see them.
type Line struct {
	Start    curve.Pose
	Elements []curve.Element
	Bends    []Bend // in running order
	Closed   bool   // a circuit: it ends where it starts
}

// Alignment returns the line for evaluation.
func (l Line) Alignment() (*curve.Alignment, error) {
	if !l.Closed {
		return curve.New(l.Start, l.Elements...)
	}
	var length, far float64
	for _, e := range l.Elements {
		length += float64(e.Length())
	}
	far = max(math.Abs(l.Start.Point.X), math.Abs(l.Start.Point.Y))
	return curve.NewClosed(l.Start, measure.Length(1e-11*length+1e-12*far+1e-9), 1e-9*measure.Radian, l.Elements...)
}

// Length returns the length of the line along its centreline.
func (l Line) Length() measure.Length {
	var s measure.Length
	for _, e := range l.Elements {
		s += e.Length()
	}
	return s
}

// straight appends a straight unless it is no more than rounding of scale.
func (l *Line) straight(length, scale float64) {
	if length <= max(1e-12*scale, roundingLength) {
		return
	}
	if e, err := curve.NewStraight(measure.Length(length)); err == nil {
		l.Elements = append(l.Elements, e)
	}
}

func (l *Line) bend(b Bend) {
	l.Elements = append(l.Elements, b.elements...)
	l.Bends = append(l.Bends, b)
}

func checkPoint(l *fault.List, field string, p r2.Vec) bool {
	x := fault.Between(l, field+" x", measure.Length(p.X), -farthest, farthest)
	y := fault.Between(l, field+" y", measure.Length(p.Y), -farthest, farthest)
	return x && y
}

func checkPose(l *fault.List, field string, p curve.Pose) bool {
	ok := checkPoint(l, field+" point", p.Point)
	return fault.Finite(l, field+" heading", p.Heading) && ok
}

// farthest is the largest coordinate and radius taken, 1000 km: beyond it
// squares of lengths lose what the results promise.
const farthest = 1e9 * measure.Millimetre

func checkRadius(l *fault.List, field string, r measure.Length) bool {
	if !fault.Positive(l, field, r) {
		return false
	}
	if r > farthest {
		l.Add(field, r, "must be at most 1e9 mm")
		return false
	}
	return true
}

func checkHand(l *fault.List, field string, h curve.Hand) bool {
	if h != curve.Left && h != curve.Right {
		l.Add(field, h, "must be left or right")
		return false
	}
	return true
}
