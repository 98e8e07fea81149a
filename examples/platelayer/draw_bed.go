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
	page, err := svg.Fit(paperWidth, 80, 14, append(ground, bed...)...)
	if err != nil {
		return "", err
	}
	page.Name, page.Title = "bed", "Section of the bed"
	d, err := svg.New(page)
	if err != nil {
		return "", err
	}
	d.Lines(svg.Pen{Weight: svg.Heavy}, ground...)
	d.Figure(svg.Pen{Weight: svg.Medium, Hatch: svg.Stipple}, bed...)
	d.Dimension(r2.Vec{X: -o.Left.Millimetres()}, r2.Vec{X: -o.Right.Millimetres()}, -6, s.units.say(o.Left-o.Right, 0))
	d.ScaleBar(6, 4)
	return drawn(d)
}
