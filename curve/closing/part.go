package closing

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Keep says what a bend keeps when its radius is changed.
type Keep uint8

const (
	// KeepTurn keeps the turn: the arc grows with the radius.
	KeepTurn Keep = iota
	// KeepArc keeps the arc's length, as when a made piece is bent anew: the
	// turn becomes smaller as the radius grows.
	KeepArc
)

// A Part is a straight or a bend of a circuit, and what may be changed in it.
// A limit of 0 keeps the quantity as it is.
type Part struct {
	Straight measure.Length // length of a straight; 0 for a bend
	Bend     curve.Bend     // for a straight the zero Bend

	StraightBy measure.Length // most change of a straight's length, either way
	RadiusBy   measure.Length // most change of a bend's radius, either way
	TurnBy     measure.Angle  // most change of a bend's turn, besides what KeepArc does
	Keep       Keep           // what a change of radius keeps
}

func (p Part) isBend() bool { return p.Bend != curve.Bend{} }

func (p Part) check(l *fault.List, name string) {
	switch p.isBend() {
	case false:
		fault.Positive(l, name+" straight", p.Straight)
		if fault.NotNegative(l, name+" limit of the straight", p.StraightBy) && p.StraightBy > p.Straight && p.Straight > 0 {
			l.Add(name+" limit of the straight", p.StraightBy, fmt.Sprintf("must be at most its length, %.6g mm", float64(p.Straight)))
		}
		if p.RadiusBy != 0 || p.TurnBy != 0 {
			l.Add(name, nil, "is a straight: it has no radius and no turn to change")
		}
	case true:
		if p.Straight != 0 || p.StraightBy != 0 {
			l.Add(name, nil, "must be a straight or a bend, not both")
		}
		if _, err := p.Bend.Elements(); err != nil {
			l.JoinAs(name, err)
			return
		}
		ok := fault.NotNegative(l, name+" limit of the radius", p.RadiusBy)
		ok = fault.NotNegative(l, name+" limit of the turn", p.TurnBy) && ok
		if p.Keep > KeepArc {
			l.Add(name+" keep", uint8(p.Keep), "must be KeepTurn or KeepArc")
			ok = false
		}
		if !ok {
			return
		}
		if p.RadiusBy > 0.9*p.Bend.Radius {
			l.Add(name+" limit of the radius", p.RadiusBy, fmt.Sprintf("must be at most nine tenths of the radius, %.6g mm", 0.9*float64(p.Bend.Radius)))
			return
		}
		sharpest := p.Bend
		sharpest.Radius -= p.RadiusBy
		sharpest.Turn += measure.Angle(eased(p.Bend, float64(sharpest.Radius)))
		if _, err := sharpest.Elements(); err != nil {
			l.JoinAs(name+" at its smallest radius", err)
			return
		}
		if most := p.mostTurn(); float64(p.TurnBy) > most || most < 0 {
			l.Add(name+" limits", nil, fmt.Sprintf("could leave the bend less turn than its easements: the limit of the turn may be at most %.6g°; lower that of the radius if this is below 0", measure.Angle(most).Degrees()))
		}
	}
}

// mostTurn returns the largest change of turn that leaves the easements their
// turn at any radius within its limit.
func (p Part) mostTurn() float64 {
	r, by := float64(p.Bend.Radius), float64(p.RadiusBy)
	if p.Keep == KeepArc {
		return (float64(p.Bend.Turn) - eased(p.Bend, r)) * r / (r + by) * (1 - 1e-12)
	}
	return (float64(p.Bend.Turn) - eased(p.Bend, r-by)) * (1 - 1e-12)
}

// eased returns what the bend's easements turn at radius r: half their length
// by the radius, or as package curve says of the two shapes that go by their
// abscissa.
func eased(b curve.Bend, r float64) float64 {
	turn := func(x float64) float64 {
		switch b.Shape {
		case curve.CubicParabola:
			return math.Atan(x / (2 * r))
		case curve.Lath:
			return math.Asin(min(x/(2*r), 1))
		}
		return x / (2 * r)
	}
	return turn(float64(b.EaseIn)) + turn(float64(b.EaseOut))
}

// changed returns the part with its radius and turn, or its length, changed.
func (p Part) changed(length, radius, turn float64) Part {
	if !p.isBend() {
		p.Straight += measure.Length(length)
		return p
	}
	r := p.Bend.Radius + measure.Length(radius)
	if p.Keep == KeepArc {
		was, is := measure.Angle(eased(p.Bend, float64(p.Bend.Radius))), measure.Angle(eased(p.Bend, float64(r)))
		p.Bend.Turn = is + (p.Bend.Turn-was)*measure.Angle(p.Bend.Radius/r)
	}
	p.Bend.Turn += measure.Angle(turn)
	p.Bend.Radius = r
	return p
}

func (p Part) elements() ([]curve.Element, error) {
	if p.isBend() {
		return p.Bend.Elements()
	}
	if p.Straight < 1e-8 { // shortened to nothing
		return nil, nil
	}
	e, err := curve.NewStraight(p.Straight)
	return []curve.Element{e}, err
}

// end returns the part's end, seen from its start.
func (p Part) end() (r2.Vec, float64, error) {
	if !p.isBend() {
		return r2.Vec{X: float64(p.Straight)}, 0, nil
	}
	e, err := p.elements()
	if err != nil {
		return r2.Vec{}, 0, err
	}
	if len(e) == 0 {
		return r2.Vec{}, 0, errors.New("closing: a bend without elements")
	}
	a, err := curve.New(curve.Pose{}, e...)
	if err != nil {
		return r2.Vec{}, 0, err
	}
	return a.End().Point, float64(p.Bend.Hand) * float64(p.Bend.Turn), nil
}

func turned(v r2.Vec, h float64) r2.Vec {
	sin, cos := math.Sincos(h)
	return r2.Vec{X: v.X*cos - v.Y*sin, Y: v.X*sin + v.Y*cos}
}
