package drawing

import (
	"context"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/opening"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
	"example.org/fourfoot/internal/svg"
)

// A Plan is a drawing of a stretch of line with the space that the stock needs
// there, all allowances in it, and of what stands beside it. Heights are not
// shown: the space is that of all heights together.
type Plan struct {
	Sheet
	Envelope    *clearance.Envelope
	From, To    measure.Length // chainages; both 0 mean all that was swept
	Structures  []clearance.Structure
	Walls       [][]opening.Peg // of tunnels, as Layout gives them
	RailCentres measure.Length  // between the middles of the rail heads; 0 draws no rails
	Every       measure.Length  // between chainages that are marked; 0 means a usual distance
}

// places is at how many places the edges of the space are looked up.
const places = 400

// SVG returns the drawing.
func (p Plan) SVG(ctx context.Context) ([]byte, error) {
	l := fault.In("drawing")
	if p.Envelope == nil {
		l.Add("envelope", "none", "must be given")
		return nil, l.Err()
	}
	fault.NotNegative(l, "rail centres", p.RailCentres)
	fault.NotNegative(l, "interval of chainages", p.Every)
	okF, okT := fault.Finite(l, "from", p.From), fault.Finite(l, "to", p.To)
	line, set := p.Envelope.Line(), p.Envelope.Settings()
	from, to := p.From, p.To
	if from == 0 && to == 0 {
		from, to = set.From, set.To
	}
	if okF && okT && to < from && line.Closed() {
		to += line.Length()
	}
	if okF && okT && to <= from {
		l.Add("to", to, fmt.Sprintf("must be past the beginning of the drawing at %v", from))
	}
	if span := to - from; p.Every > 0 && span/p.Every > places {
		l.Over("interval of chainages", p.Every, fmt.Sprintf("must be at least %v", span/places))
	}
	if err := l.Err(); err != nil {
		return nil, err
	}
	at := func(c measure.Length) measure.Length {
		if line.Closed() && c > line.Length() {
			c -= line.Length()
		}
		return c
	}
	var centre, left, right []r2.Vec
	var rail [2][]r2.Vec
	for i := range places + 1 {
		if i%16 == 0 && ctx.Err() != nil {
			return nil, ctx.Err()
		}
		c := at(from + (to-from)*measure.Length(i)/places)
		s, err := opening.At(p.Envelope, c)
		if err != nil {
			return nil, err
		}
		n, _, err := s.Reach(curve.Left, clearance.Heights{})
		if err != nil {
			return nil, err
		}
		m, _, err := s.Reach(curve.Right, clearance.Heights{})
		if err != nil {
			return nil, err
		}
		centre = append(centre, line.Point(c))
		left, right = append(left, line.Offset(c, n)), append(right, line.Offset(c, -m))
		for k, side := range [2]measure.Length{1, -1} {
			rail[k] = append(rail[k], line.Offset(c, side*p.RailCentres/2))
		}
	}
	room := slices.Concat(left, right)
	beside := p.beside(line)
	for _, b := range beside {
		room = append(room, b.points...)
	}
	for _, w := range p.Walls {
		for _, q := range w {
			room = append(room, q.LeftPlace, q.RightPlace)
		}
	}
	d, err := p.open(room, 12)
	if err != nil {
		return nil, err
	}
	d.Layer("stock")
	back := slices.Clone(right)
	slices.Reverse(back)
	if line.Closed() && to-from > line.Length()-1e-6 {
		// A whole circuit is two rings.
		d.Lines(svg.Pen{Weight: svg.Heavy, Dash: svg.Wide}, left...)
		d.Lines(svg.Pen{Weight: svg.Heavy, Dash: svg.Wide}, right...)
	} else {
		d.Figure(svg.Pen{Dash: svg.NoLine, Hatch: svg.Tint}, append(slices.Clone(left), back...)...)
		d.Lines(svg.Pen{Weight: svg.Heavy, Dash: svg.Wide}, left...)
		d.Lines(svg.Pen{Weight: svg.Heavy, Dash: svg.Wide}, right...)
	}
	d.Layer("track")
	if p.RailCentres > 0 {
		d.Lines(svg.Pen{Weight: svg.Fine}, rail[0]...)
		d.Lines(svg.Pen{Weight: svg.Fine}, rail[1]...)
	}
	d.Lines(svg.Pen{Weight: svg.Fine, Dash: svg.Chain}, centre...)
	if err := p.marks(d, line, from, to, at); err != nil {
		return nil, err
	}
	d.Layer("structures")
	for _, w := range p.Walls {
		var a, b []r2.Vec
		for _, q := range w {
			a, b = append(a, q.LeftPlace), append(b, q.RightPlace)
		}
		d.Lines(svg.Pen{Weight: svg.Broad}, a...)
		d.Lines(svg.Pen{Weight: svg.Broad}, b...)
	}
	for _, b := range beside {
		switch {
		case len(b.points) == 1:
			d.Dot(svg.Pen{Hatch: svg.Solid, Dash: svg.NoLine}, b.points[0], 0.8)
		case b.closed:
			d.Figure(svg.Pen{Weight: svg.Heavy, Hatch: svg.Rising}, b.points...)
		default:
			d.Lines(svg.Pen{Weight: svg.Broad}, b.points...)
		}
	}
	for _, b := range beside {
		if b.name != "" {
			d.Label(b.points[len(b.points)/2], b.name)
		}
	}
	return p.close(d)
}

// marks draws the chainages: a tick across the track, and its figure on the left
// of the space of the stock.
func (p Plan) marks(d *svg.Drawing, line *curve.Alignment, from, to measure.Length, at func(measure.Length) measure.Length) error {
	every := p.Every
	if every == 0 {
		every = 100
		for (to-from)/every > 12 {
			every *= 2.5
			if (to-from)/every > 12 {
				every *= 2
			}
			if (to-from)/every > 12 {
				every *= 2
			}
		}
	}
	tick := measure.Length(2.5 * d.Page().Scale)
	for c := measure.Length(math.Ceil(float64(from/every))) * every; c <= to; c += every {
		st := line.At(at(c))
		d.Lines(svg.Pen{Weight: svg.Fine}, line.Offset(at(c), tick), line.Offset(at(c), -tick))
		section, err := opening.At(p.Envelope, at(c))
		if err != nil {
			return err
		}
		n, _, err := section.Reach(curve.Left, clearance.Heights{})
		if err != nil {
			return err
		}
		// Its foot is beyond the space, whichever way up it is read.
		f := svg.Font{Size: 2, Place: svg.Middle, Turn: upright(st.Heading), Halo: true, Raised: 1.2}
		if math.Cos(float64(f.Turn-st.Heading)) < 0 {
			f.Raised = -1.2 - 0.75*f.Size
		}
		d.Text(line.Offset(at(c), max(n, tick)), f, fmt.Sprintf("%.0f", float64(at(c))))
	}
	return nil
}

// upright turns text so that it can be read from below or from the right.
func upright(a measure.Angle) measure.Angle {
	x := math.Remainder(float64(a), 2*math.Pi)
	if x > math.Pi/2+1e-9 {
		x -= math.Pi
	} else if x <= -math.Pi/2 {
		x += math.Pi
	}
	return measure.Angle(x)
}

// A shape is a part of a structure in plan.
type shape struct {
	name   string // of the first part only
	points []r2.Vec
	closed bool
}

// beside returns the structures' faces and figures in plan.
func (p Plan) beside(line *curve.Alignment) (out []shape) {
	for _, s := range p.Structures {
		name := s.Name
		for _, f := range s.Faces {
			to := f.OffsetTo
			if to == 0 {
				to = f.Offset
			}
			span := line.Span(f.From, f.To)
			n := 1
			if span > 0 {
				n = 60
			}
			b := shape{name: name}
			for i := range n + 1 {
				if n == 1 && i == 1 {
					break
				}
				u := measure.Length(i) / measure.Length(n)
				c := f.From + u*span
				if line.Closed() && c > line.Length() {
					c -= line.Length()
				}
				b.points = append(b.points, line.Offset(c, measure.Length(f.Side)*(f.Offset+u*(to-f.Offset))))
			}
			out, name = append(out, b), ""
		}
		for _, f := range s.Figures {
			if len(f.Points) > 0 {
				out, name = append(out, shape{name, f.Points, f.Closed}), ""
			}
		}
	}
	return out
}
