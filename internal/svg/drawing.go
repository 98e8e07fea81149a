package svg

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve/export"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Drawing collects what is drawn on one page.
type Drawing struct {
	page    Page
	body    bytes.Buffer
	hatches map[Hatch]bool
	open    int // layers
	on      drawn
	fault   error
}

// New returns an empty drawing on the page.
func New(p Page) (*Drawing, error) {
	l := fault.In("svg")
	fault.Positive(l, "width", p.Width)
	fault.Positive(l, "height", p.Height)
	fault.Positive(l, "scale", p.Scale)
	if p.Upright != 0 {
		fault.Positive(l, "upright scale", p.Upright)
	}
	if !finite(p.Corner.X, p.Corner.Y) {
		l.Add("corner", fmt.Sprint(p.Corner), "must be finite")
	}
	if strings.Trim(p.Name, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_") != "" {
		l.Add("name", strconv.Quote(p.Name), "must be letters, digits, - and _")
	}
	if !l.OK() {
		return nil, l.Err()
	}
	return &Drawing{page: p, hatches: map[Hatch]bool{}}, nil
}

// Page returns the page.
func (d *Drawing) Page() Page { return d.page }

// Paper returns the point of the plan that lies on the paper right and up from
// its lower left corner.
func (d *Drawing) Paper(right, up measure.Length) r2.Vec {
	return r2.Add(d.page.Corner, d.onPlan(r2.Vec{X: float64(right), Y: float64(up)}))
}

// onPlan returns what a distance on the paper, y upwards, is on the plan.
func (d *Drawing) onPlan(v r2.Vec) r2.Vec {
	return r2.Vec{X: v.X * d.page.Scale, Y: v.Y * d.page.upright()}
}

// paper returns where a point of the plan lies on the paper, y downwards.
func (d *Drawing) paper(p r2.Vec) r2.Vec {
	return r2.Vec{
		X: (p.X - d.page.Corner.X) / d.page.Scale,
		Y: float64(d.page.Height) - (p.Y-d.page.Corner.Y)/d.page.upright(),
	}
}

// View returns the view for path data that package export makes for this
// drawing, to be handed to Path; it has only one scale.
func (d *Drawing) View() export.View {
	return export.View{
		Origin: r2.Vec{X: d.page.Corner.X, Y: d.page.Corner.Y + float64(d.page.Height)*d.page.Scale},
		Scale:  1 / d.page.Scale,
	}
}

// number writes a length on the paper to a thousandth of a millimetre.
func number(x float64) string {
	x = math.Round(x*1000) / 1000
	if x == 0 {
		x = 0 // never -0
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

func escape(s string) string {
	var b bytes.Buffer
	_ = xml.EscapeText(&b, []byte(s)) // a buffer takes everything
	return b.String()
}

// at returns the paper's coordinates of a point of the plan, and remembers one
// that cannot be drawn.
func (d *Drawing) at(p r2.Vec) (x, y string) {
	q := d.paper(p)
	if !finite(q.X, q.Y) || math.Abs(q.X) > 1e7 || math.Abs(q.Y) > 1e7 {
		d.refuse("point", fmt.Sprint(p), "must be finite and near the sheet")
		return "0", "0"
	}
	return number(q.X), number(q.Y)
}

func (d *Drawing) refuse(field, value, limit string) {
	if d.fault == nil {
		l := fault.In("svg")
		l.Add(field, value, limit)
		d.fault = l.Err()
	}
}

// Layer begins a group with a name, which ends with the next Layer or the
// drawing.
func (d *Drawing) Layer(name string) {
	d.EndLayer()
	fmt.Fprintf(&d.body, "<g class=\"%s\">\n", escape(name))
	d.open++
}

// EndLayer ends the layer, if one is open.
func (d *Drawing) EndLayer() {
	for ; d.open > 0; d.open-- {
		d.body.WriteString("</g>\n")
	}
}

// Lines draws a line through points of the plan; of fewer than two nothing is
// to be seen.
func (d *Drawing) Lines(pen Pen, points ...r2.Vec) { d.lines(pen, false, points) }

// Figure draws a closed figure through points of the plan, with the pen's
// hatch.
func (d *Drawing) Figure(pen Pen, points ...r2.Vec) { d.lines(pen, true, points) }

func (d *Drawing) lines(pen Pen, closed bool, points []r2.Vec) {
	if len(points) < 2 {
		return
	}
	var b strings.Builder
	paper := make([]r2.Vec, len(points))
	for i, p := range points {
		x, y := d.at(p)
		paper[i] = d.paper(p)
		if i > 0 {
			b.WriteByte('L')
		}
		b.WriteString(x + " " + y)
	}
	d.note(pen, closed, paper)
	if closed {
		b.WriteByte('Z')
	}
	fmt.Fprintf(&d.body, "<path d=\"M%s\"%s/>\n", b.String(), d.attributes(pen, closed))
}

// Path draws path data made by export.Path with the drawing's View. A line is
// not filled.
func (d *Drawing) Path(pen Pen, data string) {
	if strings.Trim(data, "MLACZ0123456789-. ") != "" || d.page.Upright != 0 && d.page.Upright != d.page.Scale {
		d.refuse("path", strconv.Quote(data), "must be path data for a drawing of one scale")
		return
	}
	fmt.Fprintf(&d.body, "<path d=\"%s\"%s/>\n", data, d.attributes(pen, false))
}

// Circle draws a circle of a radius on the plan.
func (d *Drawing) Circle(pen Pen, centre r2.Vec, radius measure.Length) {
	d.ring(pen, centre, float64(radius)/d.page.Scale)
}

// Dot draws a circle of a radius on the paper.
func (d *Drawing) Dot(pen Pen, at r2.Vec, radius measure.Length) { d.ring(pen, at, float64(radius)) }

func (d *Drawing) ring(pen Pen, centre r2.Vec, r float64) {
	if !finite(r) || r < 0 {
		d.refuse("radius", fmt.Sprint(r), "must be finite and 0 or more")
		return
	}
	x, y := d.at(centre)
	fmt.Fprintf(&d.body, "<circle cx=\"%s\" cy=\"%s\" r=\"%s\"%s/>\n", x, y, number(r), d.attributes(pen, true))
}

// SVG returns the drawing, or the first thing that could not be drawn.
func (d *Drawing) SVG() ([]byte, error) {
	if d.fault != nil {
		return nil, d.fault
	}
	d.EndLayer()
	var b bytes.Buffer
	w, h := number(float64(d.page.Width)), number(float64(d.page.Height))
	fmt.Fprintf(&b, "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%smm\" height=\"%smm\" viewBox=\"0 0 %s %s\" role=\"img\" font-family=\"sans-serif\">\n", w, h, w, h)
	if d.page.Title != "" {
		fmt.Fprintf(&b, "<title>%s</title>\n", escape(d.page.Title))
	}
	if len(d.hatches) > 0 {
		b.WriteString("<defs>\n")
		used := slices.Sorted(maps.Keys(d.hatches))
		for _, h := range used {
			fmt.Fprintf(&b, "<pattern id=\"%s\" width=\"3\" height=\"3\" patternUnits=\"userSpaceOnUse\">%s</pattern>\n", d.hatchID(h), patterns[h])
		}
		b.WriteString("</defs>\n")
	}
	fmt.Fprintf(&b, "<rect width=\"%s\" height=\"%s\" fill=\"#fff\"/>\n", w, h)
	b.Write(d.body.Bytes())
	b.WriteString("</svg>\n")
	return b.Bytes(), nil
}
