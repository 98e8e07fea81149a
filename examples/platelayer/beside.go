package main

import (
	"errors"
	"fmt"
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/passing"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/design"
	"example.org/fourfoot/curve/export"
	"example.org/fourfoot/expansion/joints"
	"example.org/fourfoot/gauge/measure"
)

// structure returns the structure that the plan describes.
func (p StructurePlan) structure(line *curve.Alignment) (clearance.Structure, error) {
	s := clearance.Structure{Name: p.Name, Kind: p.Kind.Kind}
	kind := p.Kind.Kind
	var faults []error
	wants := func(wanted bool, key string, given bool) {
		switch {
		case wanted && !given:
			faults = append(faults, fmt.Errorf("%s: missing for a %v", key, kind))
		case !wanted && given:
			faults = append(faults, fmt.Errorf("%s: not for a %v", key, kind))
		}
	}
	through := kind == clearance.Tunnel || kind == clearance.Portal || kind == clearance.Overbridge
	beside := !through
	wants(beside, "side", p.Side.Hand != 0)
	wants(beside, "offset", p.Offset != nil)
	if !beside || p.OffsetTo == nil {
		wants(false, "offset_to", p.OffsetTo != nil)
	}
	if kind != clearance.Overbridge || p.Left == nil {
		wants(through && kind != clearance.Overbridge, "left", p.Left != nil)
	}
	if kind != clearance.Overbridge || p.Right == nil {
		wants(through && kind != clearance.Overbridge, "right", p.Right != nil)
	}
	if kind == clearance.Overbridge || beside {
		wants(kind == clearance.Overbridge, "height", p.Height != nil)
	}
	from, to := p.From, p.To
	if p.At != nil {
		wants(false, "from beside at", from != nil)
		wants(false, "to beside at", to != nil)
		from, to = p.At, p.At
		wants(kind != clearance.Tunnel, "at (a tunnel has from and to)", true)
	} else if from == nil || to == nil {
		faults = append(faults, errors.New("from and to, or at: missing"))
	}
	if p.At != nil {
		faults = append(faults, onLine(line, p.At, nil, "at", "")...)
	} else {
		faults = append(faults, onLine(line, from, to, "from", "to")...)
	}
	if from != nil && to != nil && *to < *from && !line.Closed() {
		faults = append(faults, fmt.Errorf("to: %v lies before from, %v", *to, *from))
	}
	if p.Top != 0 && p.Top <= p.Bottom {
		faults = append(faults, fmt.Errorf("top: %v must be more than bottom, %v", p.Top, p.Bottom))
	}
	if len(faults) > 0 {
		return s, errors.Join(faults...)
	}
	face := func(side curve.Hand, offset, offsetTo *measure.Length) {
		if offset == nil {
			return
		}
		f := clearance.Face{Side: side, From: *from, To: *to, Offset: *offset, Bottom: p.Bottom, Top: p.Top}
		if offsetTo != nil {
			f.OffsetTo = *offsetTo
		}
		s.Faces = append(s.Faces, f)
	}
	if beside {
		face(p.Side.Hand, p.Offset, p.OffsetTo)
		return s, nil
	}
	face(curve.Left, p.Left, nil)
	face(curve.Right, p.Right, nil)
	if p.Height != nil {
		s.Roofs = append(s.Roofs, clearance.Roof{From: *from, To: *to, Height: *p.Height})
	}
	return s, nil
}

// A loop is a passing loop worked out.
type loop struct {
	plan LoopPlan
	line *curve.Alignment
	// The way over the loop, with some of the main line before and after it,
	// and the main line's chainages where that begins and ends.
	route      *curve.Alignment
	begin, end measure.Length
	fouling    []passing.Fouling // set by the clearance chapter
	joints     joints.Plan
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
	ends := main.Span(p.From, main.Nearest(shift.End().Point).Chainage) // chainage that each shift takes
	if main.Span(p.From, p.To) <= 2*ends {
		return l, fmt.Errorf("from %v to %v is too short: its two shifts alone take %v", p.From, p.To, 2*ends)
	}
	along, err := curve.NewStraight(main.Span(p.From, p.To) - 2*ends)
	if err != nil {
		return l, err
	}
	elements := append(append(out.Elements, along), back.Elements...)
	if l.line, err = curve.New(pose(from, 0), elements...); err != nil {
		return l, err
	}
	if miss := r2.Norm(r2.Sub(l.line.End().Point, to.Point)); miss > 0.01 {
		return l, fmt.Errorf("it must lie beside a straight of the main line: it would come back %.1f mm off it", miss)
	}
	return l, l.through(main)
}

// offset returns how far from the main line the loop is at a place along the
// main line, of so much between the loop's ends: on arcs R, of which two equal
// ones come out by the spacing d in √(4Rd - d²).
func (p LoopPlan) offset(into, long measure.Length) measure.Length {
	R, d := float64(p.Radius), float64(p.Spacing)
	x, shift := float64(min(into, long-into)), math.Sqrt(d*(4*R-d))
	versine := func(x float64) float64 { return R - math.Sqrt(R*R-x*x) }
	switch {
	case x < shift/2:
		return measure.Length(versine(x))
	case x < shift:
		return measure.Length(d - versine(shift-x))
	}
	return p.Spacing
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

	// Where its number goes: outside the face, at a chainage.
	middle  measure.Length
	outside measure.Length
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
		begin, end := f.From, f.To
		if f.To == f.From { // a post, shown with some length
			begin, end = max(begin-depth/2, 0), min(end+depth/2, s.line.Length())
		}
		stations, err := export.Points(s.line, export.Range{From: begin, To: end}, measure.Millimetre/5)
		if err != nil {
			return nil, err
		}
		var back []r2.Vec
		for _, st := range stations {
			offset := f.Offset
			if f.OffsetTo != 0 && f.To != f.From {
				offset += (f.OffsetTo - f.Offset) * s.line.Span(f.From, st.Chainage) / s.line.Span(f.From, f.To)
			}
			m.outline = append(m.outline, s.line.Offset(st.Chainage, side*offset))
			back = append(back, s.line.Offset(st.Chainage, side*(offset+depth)))
		}
		for j := range back {
			m.outline = append(m.outline, back[len(back)-1-j])
		}
		middle := f.From + s.line.Span(f.From, f.To)/2
		m.middle, m.outside = middle, side*(f.Offset+depth)
		out = append(out, m)
	}
	return out, nil
}

// onLine tells which of two chainages, where given, lie past the end of the
// line, by their keys.
func onLine(line *curve.Alignment, a, b *measure.Length, keyA, keyB string) (faults []error) {
	for i, at := range [2]*measure.Length{a, b} {
		if at != nil && *at > line.Length() {
			faults = append(faults, fmt.Errorf("%s: %v is past the end of the line at %v", [2]string{keyA, keyB}[i], *at, line.Length()))
		}
	}
	return faults
}
