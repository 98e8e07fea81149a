package main

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/export"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/svg"
)

// The paper that a drawing may take on the page.
const (
	paperWidth  = 250 * measure.Millimetre
	paperHeight = 190 * measure.Millimetre
)

// places returns points along a range of the line, close enough to draw.
func places(line *curve.Alignment, r export.Range) ([]r2.Vec, error) {
	stations, err := export.Points(line, r, measure.Millimetre/10)
	if err != nil {
		return nil, err
	}
	var points []r2.Vec
	for _, st := range stations {
		points = append(points, st.Point)
	}
	return points, nil
}

// drawPlan draws the line in plan with what stands beside it.
func (s *site) drawPlan() (string, error) {
	points, err := places(s.line, export.Range{})
	if err != nil {
		return "", err
	}
	room := points
	for _, m := range s.beside {
		room = append(room, m.outline...)
	}
	for _, l := range s.loops {
		p, err := places(l.line, export.Range{})
		if err != nil {
			return "", err
		}
		room = append(room, p...)
	}
	page, err := svg.Fit(paperWidth, paperHeight, 12, room...)
	if err != nil {
		return "", err
	}
	page.Name, page.Title, page.Inches = "plan", s.plan.Name+": plan of the line", s.units.Inches
	d, err := svg.New(page)
	if err != nil {
		return "", err
	}
	d.Layer("structures")
	for _, m := range s.beside {
		d.Figure(svg.Pen{Weight: svg.Medium, Hatch: svg.Rising}, m.outline...)
	}
	d.Layer("track")
	for _, l := range s.loops {
		if err := drawTrack(d, l.line, svg.Pen{Weight: svg.Medium}); err != nil {
			return "", err
		}
	}
	if err := drawTrack(d, s.line, svg.Pen{Weight: svg.Broad}); err != nil {
		return "", err
	}
	d.Layer("elements")
	bounds := s.line.Boundaries()
	if s.line.Closed() {
		bounds = bounds[:len(bounds)-1]
	}
	for _, b := range bounds {
		d.Lines(svg.Pen{Weight: svg.Fine}, s.aside(d, b, 1.2), s.aside(d, b, -1.2))
	}
	d.Layer("words")
	for _, a := range s.arcs() {
		at := s.aside(d, a.middle, 9*measure.Length(a.hand))
		d.Text(at, svg.Font{Place: beyondLine(s.line.Point(a.middle), at), Halo: true, Raised: -1}, "R "+s.units.say(a.radius, 0))
	}
	for _, m := range s.beside {
		if m.number != "" {
			away := m.outside + measure.Length(math.Copysign(2.5, float64(m.outside)))*measure.Length(page.Scale)
			d.Text(s.line.Offset(m.middle, away), svg.Font{Place: svg.Middle, Halo: true, Bold: true, Raised: -1}, m.number)
		}
	}
	for i, l := range s.loops {
		away := 3 * measure.Length(page.Scale)
		d.Text(l.line.Offset(l.line.Length()/2, away*measure.Length(l.plan.Side.Hand)), svg.Font{Place: svg.Middle, Halo: true, Bold: true, Raised: -1}, fmt.Sprint(len(s.plan.Structures)+i+1))
	}
	start := s.line.Start()
	word := "start"
	if s.line.Closed() {
		word = "start and end"
	} else {
		d.Text(s.aside(d, s.line.Length(), -4), svg.Font{Place: svg.Middle, Halo: true, Bold: true}, "end")
	}
	d.Dot(svg.Pen{Hatch: svg.Solid}, start.Point, 0.9)
	d.Text(s.aside(d, 0, -7), svg.Font{Place: svg.Middle, Halo: true, Bold: true}, word)
	d.ScaleBar(6, 4)
	d.North(page.Width-8, 4)
	return drawn(d)
}

// An arc is a piece of one radius, or the sharpest place of a bend that has none.
type arc struct {
	middle measure.Length
	radius measure.Length
	hand   curve.Hand
}

// arcs returns what the drawings say the radius of.
func (s *site) arcs() []arc {
	var out []arc
	elements, bounds := s.line.Elements(), s.line.Boundaries()
	for i, e := range elements {
		if r, hand, ok := curve.RadiusOf(e.StartCurvature()); ok && e.Shape() == curve.CircularArc {
			out = append(out, arc{bounds[i] + e.Length()/2, r, hand})
		}
	}
	for _, b := range s.bends {
		if !slices.ContainsFunc(out, func(a arc) bool {
			return s.line.Span(b.From, a.middle) <= s.line.Span(b.From, b.To) && (s.line.Closed() || a.middle >= b.From)
		}) {
			out = append(out, arc{b.From + s.line.Span(b.From, b.To)/2, b.Sharpest, b.Hand})
		}
	}
	return out
}

// beyondLine returns how text at a point must lie to keep clear of a place of
// the line.
func beyondLine(line, at r2.Vec) svg.Place {
	if at.X < line.X {
		return svg.End
	}
	return svg.Begin
}

func drawTrack(d *svg.Drawing, line *curve.Alignment, pen svg.Pen) error {
	path, err := export.Path(line, export.Range{}, d.View(), measure.Millimetre/10)
	if err != nil {
		return err
	}
	d.Path(pen, path)
	return nil
}

// aside returns the point that lies on the drawing so many millimetres of
// paper to the left of the line.
func (s *site) aside(d *svg.Drawing, chainage, left measure.Length) r2.Vec {
	return s.line.Offset(chainage, left*measure.Length(d.Page().Scale))
}

func drawn(d *svg.Drawing) (string, error) {
	out, err := d.SVG()
	return string(out), err
}

// perKilometre is how the curvature diagram counts: in 1/km, so that the
// numbers have a size to draw.
const perKilometre = 1e6

// drawCurvature draws curvature against chainage.
func (s *site) drawCurvature() (string, error) {
	stations, err := export.Points(s.line, export.Range{}, measure.Millimetre/10)
	if err != nil {
		return "", err
	}
	var diagram []r2.Vec
	at := func(c measure.Length, k measure.Curvature) r2.Vec {
		return r2.Vec{X: c.Millimetres(), Y: float64(k) * perKilometre}
	}
	bounds, elements := s.line.Boundaries(), s.line.Elements()
	for i, e := range elements {
		diagram = append(diagram, at(bounds[i], e.StartCurvature()))
		for _, st := range stations {
			if e.Shape().Easement() && st.Chainage > bounds[i] && st.Chainage < bounds[i+1] {
				diagram = append(diagram, at(st.Chainage, st.Curvature))
			}
		}
		diagram = append(diagram, at(bounds[i+1], e.EndCurvature()))
	}
	room := diagram
	if s.plan.Limits.Radius > 0 {
		for _, b := range s.bends {
			k, err := b.Hand.Curvature(s.plan.Limits.Radius)
			if err != nil {
				return "", err
			}
			room = append(room, at(0, k))
		}
	}
	page, err := s.chainagePage("curvature", "Curvature along the line", room)
	if err != nil {
		return "", err
	}
	d, err := svg.New(page)
	if err != nil {
		return "", err
	}
	end := s.line.Length()
	d.Lines(svg.Pen{Weight: svg.Fine}, at(0, 0), at(end, 0))
	if s.plan.Limits.Radius > 0 {
		for _, h := range []curve.Hand{curve.Left, curve.Right} {
			if !slices.ContainsFunc(s.bends, func(b profile.Bend) bool { return b.Hand == h }) {
				continue
			}
			k, err := h.Curvature(s.plan.Limits.Radius)
			if err != nil {
				return "", err
			}
			d.Lines(svg.Pen{Weight: svg.Fine, Dash: svg.Dotted}, at(0, k), at(end, k))
			d.Text(at(end, k), svg.Font{Place: svg.End, Raised: 0.8, Halo: true}, "limit R "+s.units.say(s.plan.Limits.Radius, 0))
		}
	}
	d.Lines(svg.Pen{Weight: svg.Heavy}, diagram...)
	for _, a := range s.arcs() {
		k, err := a.hand.Curvature(a.radius)
		if err != nil {
			return "", err
		}
		raised := 1.0
		if k < 0 {
			raised = -3.2
		}
		d.Text(at(a.middle, k), svg.Font{Place: svg.Middle, Raised: raised, Halo: true}, fmt.Sprintf("R %s %s", s.units.say(a.radius, 0), a.hand))
	}
	s.chainageMarks(d)
	return drawn(d)
}

// chainagePage returns a wide page for a diagram over chainage.
func (s *site) chainagePage(name, title string, diagram []r2.Vec) (svg.Page, error) {
	low, high := diagram[0].Y, diagram[0].Y
	for _, p := range diagram {
		low, high = min(low, p.Y), max(high, p.Y)
	}
	const tall, side, above, below = 34, 8, 10, 14
	page := svg.Page{Name: name, Title: title, Width: paperWidth, Height: tall + above + below, Inches: s.units.Inches}
	page.Scale = s.line.Length().Millimetres() / float64(paperWidth-2*side)
	page.Upright = max(high-low, 1) / tall
	page.Corner = r2.Vec{X: -side * page.Scale, Y: low - below*page.Upright}
	return page, nil
}

// chainageMarks writes the chainage below a diagram at round places.
func (s *site) chainageMarks(d *svg.Drawing) {
	unit, name := measure.Metre, "m"
	if s.units.Inches {
		unit, name = measure.Foot, "ft"
	}
	step := 1.0
	for _, x := range []float64{1, 2, 5, 10, 20, 50, 100, 200, 500, 1000} {
		if step = x; float64(s.line.Length()/unit)/x <= 14 {
			break
		}
	}
	for x := 0.0; measure.Length(x)*unit <= s.line.Length(); x += step {
		at := measure.Length(x) * unit
		foot := r2.Vec{X: at.Millimetres(), Y: d.Paper(0, 5.5).Y}
		d.Lines(svg.Pen{Weight: svg.Fine}, foot, r2.Vec{X: foot.X, Y: d.Paper(0, 7).Y})
		d.Text(r2.Vec{X: foot.X, Y: d.Paper(0, 2).Y}, svg.Font{Place: svg.Middle}, fixed(x, 0)+" "+name)
	}
}

// drawLevels draws the rail level against chainage, heights drawn larger than
// lengths.
func (s *site) drawLevels() (string, error) {
	const samples = 400
	var rail []r2.Vec
	at := func(c measure.Length) r2.Vec { return r2.Vec{X: c.Millimetres(), Y: s.level.At(c).Millimetres()} }
	for i := range samples + 1 {
		rail = append(rail, at(s.line.Length()*measure.Length(i)/samples))
	}
	page, err := s.chainagePage("levels", "Rail level along the line", rail)
	if err != nil {
		return "", err
	}
	d, err := svg.New(page)
	if err != nil {
		return "", err
	}
	d.Lines(svg.Pen{Weight: svg.Heavy}, rail...)
	chainages := []measure.Length{0}
	for _, p := range s.plan.Levels {
		if p.At > 0 && p.At < s.line.Length() {
			chainages = append(chainages, p.At)
		}
	}
	for i, c := range chainages {
		p := at(c)
		d.Lines(svg.Pen{Weight: svg.Fine}, p, r2.Vec{X: p.X, Y: d.Paper(0, 9).Y})
		place := svg.End
		if i == 0 {
			place = svg.Begin
		}
		d.Text(p, svg.Font{Place: place, Raised: 1.5, Halo: true}, s.units.say(s.level.At(c), 1))
		end := s.line.Length()
		if i+1 < len(chainages) {
			end = chainages[i+1]
		}
		if end-c < s.line.Length()/20 {
			continue // no room for words
		}
		middle := c + (end-c)/2
		d.Text(at(middle), svg.Font{Place: svg.Middle, Raised: -5, Halo: true}, s.level.Gradient(middle).String())
	}
	s.chainageMarks(d)
	return drawn(d)
}
