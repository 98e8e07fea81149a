package drawing

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance/opening"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
	"example.org/fourfoot/internal/svg"
)

// Former returns a gauging former at full size, whatever paper that takes: its
// cutting line, the rail heads that it stands on and the gauge, and which side
// is which. It is seen in the running direction. Of the sheet neither the title
// nor the size counts.
func Former(s Sheet, f opening.Former) ([]byte, error) {
	l := fault.In("drawing")
	checkRails(l, f.Gauge, f.RailCentres)
	if len(f.Outline) < 3 {
		l.Add("former", fmt.Sprintf("of %d corners", len(f.Outline)), "must be one that opening.NewFormer made")
	}
	if err := l.Err(); err != nil {
		return nil, err
	}
	outline := seenAll(f.Outline)
	lo, hi := bounds(outline)
	const side, below, above = 12, 34, 10
	wide := max(hi.X-lo.X, 100)
	page := svg.Page{
		Name: s.Name, Title: "gauging former, full size", Inches: s.Inches,
		Width: measure.Length(wide) + 2*side, Height: measure.Length(hi.Y-lo.Y) + below + above,
		Corner: r2.Vec{X: (lo.X+hi.X)/2 - wide/2 - side, Y: lo.Y - below}, Scale: 1,
	}
	d, err := svg.New(page)
	if err != nil {
		return nil, err
	}
	d.Layer("card")
	d.Figure(svg.Pen{Weight: svg.Heavy, Hatch: svg.Paper}, outline...)
	d.Layer("track")
	rails(d, f.Gauge, f.RailCentres, 0, 0)
	// The centreline, broken for the text on the card.
	top := hi.Y
	d.Lines(svg.Pen{Weight: svg.Fine, Dash: svg.Chain}, r2.Vec{Y: hi.Y + 4}, r2.Vec{Y: top*0.62 + 4.5})
	d.Lines(svg.Pen{Weight: svg.Fine, Dash: svg.Chain}, r2.Vec{Y: top*0.62 - 15.5}, r2.Vec{Y: lo.Y - 5})
	d.Lines(svg.Pen{Weight: svg.Fine, Dash: svg.Dotted}, r2.Vec{X: lo.X - 3}, r2.Vec{X: hi.X + 3})
	d.Layer("dimensions")
	g, w := float64(f.Gauge)/2, float64(f.RailCentres-f.Gauge)
	y := min(lo.Y, -w)
	d.Dimension(r2.Vec{X: lo.X, Y: y}, r2.Vec{Y: y}, -6, "")
	d.Dimension(r2.Vec{Y: y}, r2.Vec{X: hi.X, Y: y}, -6, "")
	d.Dimension(r2.Vec{X: -g, Y: y}, r2.Vec{X: g, Y: y}, -12, "gauge "+page.Say(f.Gauge))
	d.EndLayer()
	mid := svg.Font{Place: svg.Middle, Halo: true}
	// Text on the card, in what height there is above the rails.
	line := func(k float64, font svg.Font, text string) { d.Text(r2.Vec{Y: top*0.62 - 4.5*k}, font, text) }
	big := svg.Font{Size: 3.5, Place: svg.Middle, Bold: true, Halo: true}
	line(0, big, "gauging former")
	at := func(l measure.Length) string {
		if s.Inches {
			return page.Say(l)
		}
		return fmt.Sprintf("%.0f mm", float64(l))
	}
	where := "chainage " + at(f.From)
	if f.To != f.From {
		where += " to " + at(f.To)
	}
	line(1, mid, where)
	line(2, mid, "margin in it: "+page.Say(f.Margin))
	if f.EitherWay {
		line(3, mid, "either way round")
	} else {
		line(3, mid, "seen in the running direction")
	}
	hand := svg.Font{Size: 5, Place: svg.Middle, Bold: true, Halo: true}
	if !f.EitherWay {
		d.Text(r2.Vec{X: lo.X * 0.6, Y: top * 0.3}, hand, "L")
		d.Text(r2.Vec{X: hi.X * 0.6, Y: top * 0.3}, hand, "R")
	}
	d.Text(d.Paper(5, 11), svg.Font{}, "print at 100 %, then measure the bar; stand it square on the rails")
	d.ScaleBar(6, 4)
	return d.SVG()
}
