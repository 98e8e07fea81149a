package main

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/check"
	"example.org/fourfoot/gauge/measure"
)

// lineChapter is the line in plan, its level and its cant.
func (s *site) lineChapter(context.Context) (Chapter, error) {
	u := s.units
	c := Chapter{Title: "The line"}
	kind := "an open line"
	if s.line.Closed() {
		kind = "a circuit"
	}
	c.Lines = append(c.Lines, fmt.Sprintf("%s is %s of %d elements, %s long along its centreline.", s.plan.Name, kind, len(s.line.Elements()), u.say(s.line.Length(), 0)))
	elements := s.elementTable()
	c.Tables = append(c.Tables, elements)
	if !s.line.Closed() {
		end := s.line.End()
		c.Lines = append(c.Lines, fmt.Sprintf("It ends at %s east, %s north, heading %s° from east.",
			u.say(measure.Length(end.Point.X), 0), u.say(measure.Length(end.Point.Y), 0), fixed(math.Mod(math.Mod(math.Round(end.Heading.Degrees()*100)/100, 360)+360, 360), 2)))
	}
	found, err := s.checks()
	if err != nil {
		return c, fmt.Errorf("limits: %w", err)
	}
	c.Lines = append(c.Lines, found...)
	if len(s.plan.Levels) > 0 {
		lines, table, err := s.levels()
		if err != nil {
			return c, err
		}
		c.Lines = append(c.Lines, lines...)
		c.Tables = append(c.Tables, table)
	}
	if len(s.cant.Boundaries()) > 0 {
		c.Tables = append(c.Tables, s.cants())
	}
	figures := []lineFigure{
		{"plan", "Plan of the line. The numbers are those of the clearance table.", s.drawPlan},
		{"curvature", "Curvature along the line: up is left, the higher the sharper.", s.drawCurvature},
	}
	if len(s.plan.Levels) > 0 {
		figures = append(figures, lineFigure{"levels", "Rail level along the line; heights are drawn larger than lengths.", s.drawLevels})
	}
	for _, f := range figures {
		drawing, err := f.draw()
		if err != nil {
			return c, err
		}
		c.Lead = append(c.Lead, Figure{f.name, f.caption, drawing})
	}
	return c, nil
}

// leastStep is the step of curvature from which one is told of: from a straight
// to an arc of 1 km.
const leastStep = measure.PerMillimetre / 1e6

// A lineFigure is one of the line's drawings.
type lineFigure struct {
	name, caption string
	draw          func() (string, error)
}

// checks holds the line to the builder's own standard.
func (s *site) checks() ([]string, error) {
	p := s.plan.Limits
	limits := check.Limits{MinRadius: p.Radius, MinEasement: p.Ease, MinStraight: p.Straight}
	if p.Plain != 0 {
		jump, err := curve.Left.Curvature(p.Plain)
		if err != nil {
			return nil, fmt.Errorf("plain_above: %w", err)
		}
		limits.MaxJump = jump
	}
	findings, err := check.Line(s.line, limits)
	if err != nil {
		return nil, err
	}
	var breaches []breach
	for _, f := range findings {
		breaches = append(breaches, breach{f.Chainage, s.breach(f)})
	}
	for i, l := range s.loops {
		if l.plan.Radius < p.Radius {
			breaches = append(breaches, breach{l.plan.From, fmt.Sprintf("loops[%d], %s, has a radius of %s; it must be at least %s", i+1, l.plan.Name, s.units.say(l.plan.Radius, 1), s.units.say(p.Radius, 1))})
		}
	}
	steepest, err := s.level.Steepest(0, s.line.Length())
	if err != nil {
		return nil, err
	}
	if p.Gradient != 0 && max(steepest.Gradient, -steepest.Gradient) > p.Gradient {
		breaches = append(breaches, breach{steepest.Chainage, fmt.Sprintf("the gradient is %s at chainage %s; the limit is %s", steepest.Gradient, s.units.say(steepest.Chainage, 0), p.Gradient)})
	}
	slices.SortStableFunc(breaches, func(a, b breach) int { return cmp.Compare(a.at, b.at) })
	var out []string
	for _, b := range breaches {
		out = append(out, "Against your standard: "+b.text+".")
	}
	if p.Plain == 0 {
		steps, err := check.Line(s.line, check.Limits{MaxJump: leastStep})
		if err != nil {
			return nil, err
		}
		for _, f := range steps {
			if f.Defect == check.CurvatureJumps {
				out = append(out, fmt.Sprintf("The curvature steps at chainage %s, by %s: an easement is wanted there, or from_radius, to_radius and hand do not fit their neighbours.", s.units.say(f.Chainage, 0), f.Value))
			}
		}
	}
	if p == (LimitsPlan{}) {
		out = append(out, "The plan states no limits of its own to hold the line to.")
	} else if len(out) == 0 {
		out = append(out, "It keeps to every limit of your standard.")
	}
	return out, nil
}

// A breach is a place at which the line breaks its builder's standard.
type breach struct {
	at   measure.Length
	text string
}

// breach says in the units of the book what a line breaks.
func (s *site) breach(f check.Finding) string {
	say := func(x fmt.Stringer) string {
		switch x := x.(type) {
		case measure.Length:
			return s.units.say(x, 1)
		case measure.Curvature:
			r, _, _ := curve.RadiusOf(x)
			return s.units.say(r, 1)
		case measure.Angle:
			return fixed(x.Degrees(), 3) + "°"
		}
		return x.String()
	}
	what, bound := f.Defect.String(), "at least"
	switch f.Defect {
	case check.CurvatureJumps:
		what = "radius to which the curvature steps" // the larger step is the smaller radius
	case check.Kinked:
		bound = "at most"
	}
	return fmt.Sprintf("element %d at chainage %s: the %s is %s; it must be %s %s", f.Element+1, s.units.say(f.Chainage, 0), what, say(f.Value), bound, say(f.Limit))
}

func (s *site) elementTable() Table {
	t := Table{Name: "line", Caption: "Elements in running order; left and right as seen in the running direction.", Columns: []Column{
		{"no.", Count, 0},
		{"form", Text, 0},
		{"hand", Text, 0},
		{"from", Length, 1},
		{"length", Length, 1},
		{"radius at start", Length, 0},
		{"radius at end", Length, 0},
		{"turn", Angle, 3},
	}}
	bounds := s.line.Boundaries()
	for i, e := range s.line.Elements() {
		start, hand := radius(e.StartCurvature())
		end, hand2 := radius(e.EndCurvature())
		if hand == "" {
			hand = hand2
		} else if hand2 != "" && hand2 != hand {
			hand += " to " + hand2
		}
		t.row(i+1, e.Shape().String(), hand, bounds[i], e.Length(), start, end, e.Turn())
	}
	return t
}

// radius returns a cell for the radius of a curvature, and the hand.
func radius(k measure.Curvature) (cell any, hand string) {
	r, h, ok := curve.RadiusOf(k)
	if !ok {
		return "straight", ""
	}
	return r, h.String()
}

func (s *site) levels() ([]string, Table, error) {
	t := Table{Name: "levels", Caption: "Rail level above your datum, at the points of the plan and at both ends.", Columns: []Column{
		{"chainage", Length, 0}, {"level", Length, 1}, {"gradient beyond", Percent, 2}, {"as", Text, 0},
	}}
	row := func(at, curve measure.Length) {
		g := s.level.Gradient(at + curve/2)
		t.row(at, s.level.At(at), g, g.String())
	}
	row(0, 0)
	for _, p := range s.plan.Levels {
		if p.At > 0 && p.At < s.line.Length() {
			row(p.At, p.Vertical)
		}
	}
	row(s.line.Length(), 0)
	steepest, err := s.level.Steepest(0, s.line.Length())
	if err != nil {
		return nil, t, err
	}
	if steepest.Gradient == 0 {
		return []string{"It is level throughout."}, t, nil
	}
	line := fmt.Sprintf("The steepest gradient is %s, at chainage %s.", steepest.Gradient, s.units.say(steepest.Chainage, 0))
	return []string{line}, t, nil
}

func (s *site) cants() Table {
	t := Table{Name: "cant", Caption: "Cant. The " + s.cant.Datum().String() + " stays level.", Columns: []Column{
		{"bend from", Length, 0}, {"to", Length, 0}, {"hand", Text, 0}, {"smallest radius", Length, 0}, {"cant", Length, 2}, {"raise", Text, 0},
	}}
	for _, b := range s.bends {
		cant := s.cant.At(b.From + s.line.Span(b.From, b.To)/2)
		side := b.Hand.Opposite().String() + " rail"
		if cant == 0 {
			side = "none"
		}
		t.row(b.From, b.To, b.Hand.String(), b.Sharpest, max(cant, -cant), side)
	}
	return t
}
