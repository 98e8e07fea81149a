package drawing

import (
	"fmt"
	"unicode/utf8"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/opening"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
	"example.org/fourfoot/internal/svg"
)

// A Sheet is the paper of a drawing.
type Sheet struct {
	Name          string         // begins every id, so that several drawings fit on one page; letters, digits, - and _
	Title         string         // written on it
	Width, Height measure.Length // the most that it may take; 0 means 250 mm by 180 mm
	Inches        bool           // lengths are written in inches and feet
}

// The room that a sheet leaves round what it shows, for text and dimensions.
const edge = 16 * measure.Millimetre

func (s Sheet) size() (w, h measure.Length) {
	w, h = s.Width, s.Height
	if w == 0 {
		w = 250
	}
	if h == 0 {
		h = 180
	}
	return w, h
}

// open begins a drawing that shows all the points, with more room for text to
// their right.
func (s Sheet) open(points []r2.Vec, text measure.Length) (*svg.Drawing, error) {
	w, h := s.size()
	text = max(0, min(text, w/3))
	page, err := svg.Fit(w-text, h, edge, points...)
	if err != nil {
		return nil, err
	}
	page.Width += text
	// Room for a title and a scale bar even where little is shown.
	if least := 90 * measure.Millimetre; page.Width < least && least <= w {
		page.Corner.X -= float64(least-page.Width) / 2 * page.Scale
		page.Width = least
	}
	page.Name, page.Title, page.Inches = s.Name, s.Title, s.Inches
	return svg.New(page)
}

// close finishes a drawing: title and scale bar.
func (s Sheet) close(d *svg.Drawing) ([]byte, error) {
	d.EndLayer()
	if s.Title != "" {
		d.Text(d.Paper(5, d.Page().Height-6), svg.Font{Size: 3.5, Bold: true}, s.Title)
	}
	d.ScaleBar(6, 4)
	return d.SVG()
}

// A Section is a drawing of a cross-section.
type Section struct {
	Sheet
	Section     opening.Section
	Openings    []Face
	Gauge       measure.Length // between rail heads
	RailCentres measure.Length // between the middles of the rail heads
	Ground      measure.Length // height of the ground line
	LeftRail    measure.Length // height of the left rail head where the track is canted, as profile.Cant.Rails has it
	RightRail   measure.Length // height of the right one
}

// A Face is the face of an opening, as its Outline has it.
type Face struct {
	Name    string
	Outline []clearance.SectionPoint
}

// seen returns a point of a cross-section as it is drawn, seen in the running
// direction.
func seen(p clearance.SectionPoint) r2.Vec {
	return r2.Vec{X: -float64(p.Offset), Y: float64(p.Height)}
}

func seenAll(p []clearance.SectionPoint) []r2.Vec {
	out := make([]r2.Vec, len(p))
	for i := range p {
		out[i] = seen(p[i])
	}
	return out
}

func checkRails(l *fault.List, gauge, centres measure.Length) {
	if fault.Positive(l, "gauge", gauge) && fault.Finite(l, "rail centres", centres) && centres <= gauge {
		l.Add("rail centres", centres, fmt.Sprintf("must be more than the gauge of %v", gauge))
	}
}

// SVG returns the drawing.
func (s Section) SVG() ([]byte, error) {
	l := fault.In("drawing")
	checkRails(l, s.Gauge, s.RailCentres)
	fault.Finite(l, "ground", s.Ground)
	fault.Finite(l, "left rail", s.LeftRail)
	fault.Finite(l, "right rail", s.RightRail)
	outline := seenAll(s.Section.Outline())
	if len(outline) == 0 {
		l.Add("section", "empty", "must hold something")
	}
	if err := l.Err(); err != nil {
		return nil, err
	}
	room := append([]r2.Vec{{Y: float64(s.Ground)}}, outline...)
	for _, f := range s.Openings {
		room = append(room, seenAll(f.Outline)...)
	}
	lo, hi := bounds(room)
	longest := 0
	for _, f := range s.Openings {
		longest = max(longest, utf8.RuneCountInString(f.Name))
	}
	d, err := s.open(append(room, lo, hi), measure.Length(1.5*float64(longest)))
	if err != nil {
		return nil, err
	}
	d.Layer("opening")
	for i, f := range s.Openings {
		p := seenAll(f.Outline)
		pen := svg.Pen{Weight: svg.Broad}
		if i > 0 {
			pen = svg.Pen{Weight: svg.Medium}
		}
		d.Figure(pen, p...)
	}
	d.Layer("stock")
	d.Figure(svg.Pen{Weight: svg.Heavy, Dash: svg.Wide, Hatch: svg.Tint}, outline...)
	d.Layer("track")
	d.Lines(svg.Pen{Weight: svg.Fine}, r2.Vec{X: lo.X, Y: float64(s.Ground)}, r2.Vec{X: hi.X, Y: float64(s.Ground)})
	rails(d, s.Gauge, s.RailCentres, s.LeftRail, s.RightRail)
	d.Lines(svg.Pen{Weight: svg.Fine, Dash: svg.Chain}, r2.Vec{Y: lo.Y - 3*d.Page().Scale}, r2.Vec{Y: hi.Y + 4*d.Page().Scale})
	d.Layer("dimensions")
	olo, ohi := bounds(outline)
	n := d.Page().Scale
	// Reaches of the stock below the ground, from the centreline to either side.
	y := min(lo.Y, float64(s.Ground))
	d.Dimension(r2.Vec{X: olo.X, Y: y}, r2.Vec{Y: y}, -5, "")
	d.Dimension(r2.Vec{Y: y}, r2.Vec{X: ohi.X, Y: y}, -5, "")
	d.Dimension(r2.Vec{X: hi.X + n}, r2.Vec{X: hi.X + n, Y: ohi.Y}, -4, "")
	if len(s.Openings) > 0 {
		a, b := bounds(seenAll(s.Openings[0].Outline))
		// Its width over everything, so that no other opening runs through it.
		for _, x := range [2]float64{a.X, b.X} {
			if b.Y < hi.Y {
				d.Lines(svg.Pen{Weight: svg.Fine}, r2.Vec{X: x, Y: b.Y + 0.8*n}, r2.Vec{X: x, Y: hi.Y})
			}
		}
		d.Dimension(r2.Vec{X: a.X, Y: hi.Y}, r2.Vec{X: b.X, Y: hi.Y}, 5, "")
		d.Dimension(r2.Vec{X: lo.X - n}, r2.Vec{X: lo.X - n, Y: b.Y}, 4, "")
	}
	for _, f := range s.Openings {
		p := seenAll(f.Outline)
		tip := p[0]
		for _, q := range p { // its upper right shoulder
			if q.X+q.Y > tip.X+tip.Y {
				tip = q
			}
		}
		d.Label(tip, f.Name)
	}
	// Beside the centreline, not on it.
	d.Text(r2.Vec{X: -2 * n, Y: float64(s.Section.Top()) * 0.6}, svg.Font{Place: svg.End, Halo: true}, "space of the stock")
	return s.close(d)
}

// rails draws both rail heads, as high as they are wide.
func rails(d *svg.Drawing, gauge, centres, left, right measure.Length) {
	w, g := float64(centres-gauge), float64(gauge)/2
	for i, side := range [2]float64{-1, 1} {
		a, b, z := side*g, side*(g+w), float64([2]measure.Length{left, right}[i])
		d.Figure(svg.Pen{Weight: svg.Fine, Hatch: svg.Solid}, r2.Vec{X: a, Y: z}, r2.Vec{X: b, Y: z}, r2.Vec{X: b, Y: z - w}, r2.Vec{X: a, Y: z - w})
	}
}

func bounds(p []r2.Vec) (lo, hi r2.Vec) {
	lo, hi = p[0], p[0]
	for _, q := range p {
		lo = r2.Vec{X: min(lo.X, q.X), Y: min(lo.Y, q.Y)}
		hi = r2.Vec{X: max(hi.X, q.X), Y: max(hi.Y, q.Y)}
	}
	return lo, hi
}
