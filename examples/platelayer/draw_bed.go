package main

import (
	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/svg"
)

// drawBed draws the section of the bed as seen in the running direction, the
// left on the left.
func (s *site) drawBed() (string, error) {
	var cant measure.Length
	for _, b := range s.bends {
		if c := s.cant.At(b.From + s.line.Span(b.From, b.To)/2); max(c, -c) > max(cant, -cant) {
			cant = c
		}
	}
	o, err := s.section().Outline(cant, s.railCentres, profile.InnerRail)
	if err != nil {
		return "", err
	}
	sleepers, err := s.section().SleeperOutlines(cant, s.railCentres, profile.InnerRail)
	if err != nil {
		return "", err
	}
	rail, err := s.plan.Rail.section()
	if err != nil {
		return "", err
	}
	// Each rail as a plain block of its height and head, on the sleeper.
	var rails [][]r2.Vec
	top := s.plan.Rail.Sleeper.Height.Millimetres()
	for _, side := range []float64{1, -1} {
		middle, half := side*s.railCentres.Millimetres()/2, rail.Head.Millimetres()/2
		block := []r2.Vec{{X: middle - half, Y: top}, {X: middle + half, Y: top}, {X: middle + half, Y: top + rail.Height.Millimetres()}, {X: middle - half, Y: top + rail.Height.Millimetres()}}
		laid, err := s.section().OnTracks(block, cant, s.railCentres, profile.InnerRail)
		if err != nil {
			return "", err
		}
		rails = append(rails, laid...)
	}
	facing := func(points []r2.Vec) []r2.Vec {
		var out []r2.Vec
		for _, p := range points {
			out = append(out, r2.Vec{X: -p.X, Y: p.Y})
		}
		return out
	}
	bed := facing(append(append([]r2.Vec{}, o.Top...), o.Bottom...))
	p := s.plan.Bed
	form := p.Formation
	ground := []r2.Vec{{X: -max(form.Millimetres()/2, o.Left.Millimetres()+20)}, {X: max(form.Millimetres()/2, -o.Right.Millimetres()+20)}}
	room := append(ground, bed...)
	for _, r := range rails {
		room = append(room, facing(r)...)
	}
	page, err := svg.Fit(paperWidth, 80, 14, room...)
	if err != nil {
		return "", err
	}
	page.Name, page.Title, page.Inches = "bed", "Section of the bed", s.units.Inches
	d, err := svg.New(page)
	if err != nil {
		return "", err
	}
	d.Lines(svg.Pen{Weight: svg.Heavy}, ground...)
	d.Figure(svg.Pen{Weight: svg.Medium, Hatch: svg.Stipple}, bed...)
	for _, x := range sleepers {
		d.Figure(svg.Pen{Weight: svg.Medium, Hatch: svg.Paper}, facing(x)...)
	}
	for _, x := range rails {
		d.Figure(svg.Pen{Weight: svg.Fine, Hatch: svg.Solid}, facing(x)...)
	}
	d.Text(d.Paper(page.Width/4, page.Height-5), svg.Font{Place: svg.Middle}, "left")
	d.Text(d.Paper(page.Width*3/4, page.Height-5), svg.Font{Place: svg.Middle}, "right")
	d.Dimension(r2.Vec{X: -o.Left.Millimetres()}, r2.Vec{X: -o.Right.Millimetres()}, -6, s.units.say(o.Left-o.Right, 0))
	d.ScaleBar(6, 4)
	return drawn(d)
}
