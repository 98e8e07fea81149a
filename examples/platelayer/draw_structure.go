package main

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/export"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/svg"
)

// drawStructure draws the line past a structure in plan: track, the space that
// the stock needs, the faces, and the vehicle where the gap is least.
func (s *site) drawStructure(e *clearance.Envelope, x clearance.Structure, f clearance.Finding, number int) (string, error) {
	spaces := make([]space, 1, 2)
	var err error
	if spaces[0], err = s.space(e, around(s.line, x, f.Chainage)); err != nil {
		return "", err
	}
	if x.Neighbour != nil {
		other := x.Neighbour.Line()
		from := other.Nearest(f.Place).Chainage
		set := x.Neighbour.Settings()
		r := around(other, clearance.Structure{}, from)
		sp, err := s.space(x.Neighbour, export.Range{From: max(r.From, set.From), To: min(r.To, set.To)})
		if err != nil {
			return "", err
		}
		spaces = append(spaces, sp)
	}
	stance, err := clearance.Stand(s.line, s.stock[f.By.Stock], f.By.RearAxle)
	if err != nil {
		return "", err
	}
	masses, err := s.masses(x, number)
	if err != nil {
		return "", err
	}
	// The sheet is turned so that the line runs to the right where the gap is
	// least: left of the line is then up.
	here := s.line.At(f.Chainage)
	turned := func(points []r2.Vec) []r2.Vec {
		out := make([]r2.Vec, len(points))
		for i, p := range points {
			out[i] = r2.Rotate(p, -here.Heading.Radians(), here.Point)
		}
		return out
	}
	var room []r2.Vec
	for _, sp := range spaces {
		room = append(append(room, turned(sp.left)...), turned(sp.right)...)
	}
	for i := range masses {
		masses[i].outline = turned(masses[i].outline)
		room = append(room, masses[i].outline...)
	}
	var vehicle [][]r2.Vec
	for i, b := range s.stock[f.By.Stock].Bodies {
		for _, band := range b.Bands {
			var outline []r2.Vec
			for _, p := range band.Outline {
				outline = append(outline, stance.Bodies[i].Plan(p))
			}
			vehicle = append(vehicle, turned(outline))
			room = append(room, turned(outline)...)
		}
	}
	page, err := svg.Fit(paperWidth, paperHeight, 14, room...)
	if err != nil {
		return "", err
	}
	page.Name, page.Title, page.Inches = fmt.Sprintf("structure%d", number), f.Structure, s.units.Inches
	d, err := svg.New(page)
	if err != nil {
		return "", err
	}
	for _, m := range masses {
		d.Figure(svg.Pen{Weight: svg.Heavy, Hatch: svg.Rising}, m.outline...)
	}
	for _, outline := range vehicle {
		d.Figure(svg.Pen{Weight: svg.Medium, Hatch: svg.Tint}, outline...)
	}
	for _, sp := range spaces {
		for _, rail := range sp.rails {
			d.Lines(svg.Pen{Weight: svg.Fine}, turned(rail)...)
		}
		d.Lines(svg.Pen{Weight: svg.Fine, Dash: svg.Chain}, turned(sp.centre)...)
		d.Lines(svg.Pen{Weight: svg.Heavy, Dash: svg.Wide}, turned(sp.left)...)
		d.Lines(svg.Pen{Weight: svg.Heavy, Dash: svg.Wide}, turned(sp.right)...)
	}
	place := turned([]r2.Vec{f.Place})[0]
	words := f.Verdict.String() + ", " + s.units.say(f.Gap, 1)
	if f.Upright {
		words += " upright"
	}
	d.Dot(svg.Pen{Hatch: svg.Solid}, place, 0.8)
	d.Label(place, words)
	d.ScaleBar(6, 3)
	return drawn(d)
}

// around returns the stretch of line that a structure's drawing shows: all of
// its faces, or the place of the least gap, and something on either side.
func around(line *curve.Alignment, x clearance.Structure, at measure.Length) export.Range {
	const beyond = 300 * measure.Millimetre
	from, to := at, at
	for _, p := range x.Faces {
		from, to = p.From, p.To
	}
	if line.Closed() {
		return export.Range{From: onLap(line, from-beyond), To: onLap(line, to+beyond)}
	}
	return export.Range{From: max(from-beyond, 0), To: min(to+beyond, line.Length())}
}

// A space is a stretch of track and the space that the stock needs on it.
type space struct {
	centre, left, right []r2.Vec
	rails               [2][]r2.Vec
}

func (s *site) space(e *clearance.Envelope, r export.Range) (space, error) {
	var out space
	line := e.Line()
	stations, err := export.Points(line, r, measure.Millimetre/10)
	if err != nil {
		return out, err
	}
	for _, st := range stations {
		left, err := e.At(st.Chainage, curve.Left, clearance.Heights{})
		if err != nil {
			return out, err
		}
		right, err := e.At(st.Chainage, curve.Right, clearance.Heights{})
		if err != nil {
			return out, err
		}
		out.centre = append(out.centre, st.Point)
		out.left = append(out.left, line.Offset(st.Chainage, left.Reach))
		out.right = append(out.right, line.Offset(st.Chainage, -right.Reach))
		out.rails[0] = append(out.rails[0], line.Offset(st.Chainage, s.plan.Gauge/2))
		out.rails[1] = append(out.rails[1], line.Offset(st.Chainage, -s.plan.Gauge/2))
	}
	return out, nil
}
