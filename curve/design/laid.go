package design

import (
	"fmt"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Piece is one piece of track as laid: a straight or a sectional curve.
type Piece struct {
	Length measure.Length // along its centreline
	Radius measure.Length // 0 for a straight
	Hand   curve.Hand     // of a curve
	Kink   measure.Angle  // turn of the heading at the joint before it, left positive
}

// A Joint is a joint between pieces where the line is not smooth.
type Joint struct {
	Piece    int            // index of the piece that begins there
	Chainage measure.Length // of the joint
	Kink     measure.Angle  // sudden turn of the heading, left positive
}

// MaxPieces is the most pieces that a laid line may have.
const MaxPieces = 10000

// Laid returns the line of the pieces laid one after another from start, and
// the joints that kink, in running order.
func Laid(start curve.Pose, pieces ...Piece) (Line, []Joint, error) {
	l := fault.In("design")
	checkPose(l, "start", start)
	if len(pieces) == 0 {
		l.Add("pieces", nil, "must be at least one")
	}
	if len(pieces) > MaxPieces {
		l.Over("pieces", len(pieces), fmt.Sprintf("at most %d", MaxPieces))
		return Line{}, nil, l.Err()
	}
	line := Line{Start: start}
	var joints []Joint
	var s measure.Length
	for i, p := range pieces {
		e, ok := p.element(l, fmt.Sprintf("piece %d", i+1))
		if !ok {
			continue
		}
		if p.Kink != 0 {
			e = e.WithKink(p.Kink)
			joints = append(joints, Joint{i, s, p.Kink})
		}
		line.Elements = append(line.Elements, e)
		s += p.Length
	}
	if !l.OK() {
		return Line{}, nil, l.Err()
	}
	return line, joints, nil
}

func (p Piece) element(l *fault.List, name string) (curve.Element, bool) {
	ok := fault.Positive(l, name+" length", p.Length)
	if !fault.Between(l, name+" kink", p.Kink, -90*measure.Degree, 90*measure.Degree) {
		ok = false
	}
	if p.Radius == 0 && p.Hand == 0 {
		if !ok {
			return curve.Element{}, false
		}
		e, err := curve.NewStraight(p.Length)
		l.JoinAs(name, err)
		return e, err == nil
	}
	ok = checkRadius(l, name+" radius", p.Radius) && ok
	ok = checkHand(l, name+" hand", p.Hand) && ok
	if !ok {
		return curve.Element{}, false
	}
	e, err := curve.NewArc(p.Radius, measure.Angle(float64(p.Length)/float64(p.Radius)), p.Hand)
	l.JoinAs(name, err)
	return e, err == nil
}
