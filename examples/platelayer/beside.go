package main

import (
	"errors"
	"fmt"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/design"
	"example.org/fourfoot/curve/export"
	"example.org/fourfoot/gauge/measure"
)

// structure returns the structure that the plan describes.
func (p StructurePlan) structure() (clearance.Structure, error) {
	s := clearance.Structure{Name: p.Name, Kind: p.Kind.Kind}
	from, to := p.From, p.To
	if p.At != 0 {
		if p.From != 0 || p.To != 0 {
			return s, errors.New("has at as well as from or to")
		}
		from, to = p.At, p.At
	}
	face := func(side curve.Hand, offset, offsetTo measure.Length) {
		s.Faces = append(s.Faces, clearance.Face{Side: side, From: from, To: to, Offset: offset, OffsetTo: offsetTo, Bottom: p.Bottom, Top: p.Top})
	}
	switch p.Kind.Kind {
	case clearance.Tunnel, clearance.Portal, clearance.Overbridge:
		if p.Side.Hand != 0 || p.Offset != 0 {
			return s, fmt.Errorf("a %v has left and right, not side and offset", p.Kind.Kind)
		}
		if p.Left != 0 {
			face(curve.Left, p.Left, 0)
		}
		if p.Right != 0 {
			face(curve.Right, p.Right, 0)
		}
		if p.Height != 0 {
			s.Roofs = append(s.Roofs, clearance.Roof{From: from, To: to, Height: p.Height})
		}
	default:
		if p.Left != 0 || p.Right != 0 {
			return s, fmt.Errorf("a %v has side and offset, not left and right", p.Kind.Kind)
		}
		face(p.Side.Hand, p.Offset, p.OffsetTo)
	}
	return s, nil
}

// A loop is a passing loop worked out.
type loop struct {
	plan     LoopPlan
	line     *curve.Alignment
	from, to measure.Length // its own chainages between which it lies beside the main line

	// The way over the loop, with some of the main line before and after it,
	// and the main line's chainages where that begins and ends.
	route      *curve.Alignment
	begin, end measure.Length
}

// lay makes the line of the loop: out to the spacing, along, and back.
func (p LoopPlan) lay(main *curve.Alignment) (loop, error) {
	l := loop{plan: p}
	from, err1 := main.Locate(p.From)
	to, err2 := main.Locate(p.To)
	if err := errors.Join(err1, err2); err != nil {
		return l, err
	}
	if p.Side.Hand == 0 {
		return l, errors.New("side: must be left or right")
	}
	spacing := p.Spacing * measure.Length(p.Side.Hand)
	pose := func(s curve.Station, offset measure.Length) curve.Pose {
		return curve.Pose{Point: main.Offset(s.Chainage, offset), Heading: s.Heading}
	}
	out, err := design.Reverse{From: pose(from, 0), To: pose(to, spacing), Radius1: p.Radius}.Line()
	if err != nil {
		return l, err
	}
	back, err := design.Reverse{From: pose(from, spacing), To: pose(to, 0), Radius1: p.Radius}.Line()
	if err != nil {
		return l, err
	}
	shift, err := out.Alignment()
	if err != nil {
		return l, err
	}
	ends := main.Nearest(shift.End().Point).Chainage - p.From // chainage that each shift takes
	along, err := curve.NewStraight(main.Span(p.From, p.To) - 2*ends)
	if err != nil {
		return l, fmt.Errorf("the two shifts take %v each: %w", ends, err)
	}
	elements := append(append(out.Elements, along), back.Elements...)
	if l.line, err = curve.New(pose(from, 0), elements...); err != nil {
		return l, err
	}
	bounds := l.line.Boundaries()
	l.from, l.to = bounds[len(out.Elements)], bounds[len(out.Elements)+1]
	if miss := r2.Norm(r2.Sub(l.line.End().Point, to.Point)); miss > 0.01 {
		return l, fmt.Errorf("it must lie beside a straight of the main line: it would come back %.1f mm off it", miss)
	}
	return l, l.through(main)
}

// through sets the route over the loop.
func (l *loop) through(main *curve.Alignment) error {
	const lead = 2 * measure.Metre
	l.begin, l.end = l.plan.From-lead, l.plan.To+lead
	if main.Closed() {
		l.begin, l.end = onLap(main, l.begin), onLap(main, l.end)
	} else {
		l.begin, l.end = max(l.begin, 0), min(l.end, main.Length())
	}
	l.route = l.line
	if l.begin != l.plan.From {
		before, err := main.Part(l.begin, l.plan.From)
		if err == nil {
			l.route, err = before.Join(l.route)
		}
		if err != nil {
			return err
		}
	}
	if l.end != l.plan.To {
		after, err := main.Part(l.plan.To, l.end)
		if err == nil {
			l.route, err = l.route.Join(after)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// onLap returns a chainage of a circuit as it lies on the first lap.
func onLap(line *curve.Alignment, s measure.Length) measure.Length {
	i, into := line.ElementAt(s)
	return line.Boundaries()[i] + into
}

// A mass is a face beside the line as the plan shows it: a strip of some depth.
type mass struct {
	number  string // of the structure, at one of its faces
	outline []r2.Vec
	at      r2.Vec // for the number
}

// masses returns the faces of a structure for the plan.
func (s *site) masses(x clearance.Structure, number int) ([]mass, error) {
	const depth = 60 * measure.Millimetre
	var out []mass
	for i, f := range x.Faces {
		m := mass{}
		if i == 0 {
			m.number = strconv.Itoa(number)
		}
		side := measure.Length(f.Side)
		end := f.To
		if f.To == f.From {
			end += depth // a post, shown with some length
		}
		stations, err := export.Points(s.line, export.Range{From: f.From, To: min(end, s.line.Length())}, measure.Millimetre)
		if err != nil {
			return nil, err
		}
		var back []r2.Vec
		for _, st := range stations {
			m.outline = append(m.outline, s.line.Offset(st.Chainage, side*f.Offset))
			back = append(back, s.line.Offset(st.Chainage, side*(f.Offset+depth)))
		}
		for j := range back {
			m.outline = append(m.outline, back[len(back)-1-j])
		}
		middle := f.From + s.line.Span(f.From, f.To)/2
		m.at = s.line.Offset(middle, side*(f.Offset+2*depth))
		out = append(out, m)
	}
	return out, nil
}
