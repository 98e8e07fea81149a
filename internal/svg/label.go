package svg

import (
	"math"
	"unicode/utf8"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/plane"
)

// A box is an upright rectangle on the paper, y downwards.
type box struct{ lo, hi r2.Vec }

// drawn is what lies on the paper already, for a label to keep off.
type drawn struct {
	lines  [][2]r2.Vec
	masses [][]r2.Vec // hatched figures
	texts  []box
}

// note remembers a line or a figure on the paper.
func (d *Drawing) note(pen Pen, closed bool, points []r2.Vec) {
	n := len(points) - 1
	if closed {
		n++
	}
	if pen.Dash != NoLine {
		for i := range n {
			d.on.lines = append(d.on.lines, [2]r2.Vec{points[i], points[(i+1)%len(points)]})
		}
	}
	if closed && pen.Hatch >= Solid {
		d.on.masses = append(d.on.masses, points)
	}
}

// span returns about what a text covers: letters are on average 0.55 of the
// size wide, its ascenders 0.75 high and its descenders 0.2 deep.
func (f Font) span(at r2.Vec, text string) box {
	w, h := 0.55*f.size()*float64(utf8.RuneCountInString(text)), f.size()
	x := [...]float64{0, -w / 2, -w}[min(f.Place, End)]
	sin, cos := math.Sincos(float64(f.Turn))
	b := box{r2.Vec{X: math.Inf(1), Y: math.Inf(1)}, r2.Vec{X: math.Inf(-1), Y: math.Inf(-1)}}
	for _, c := range [4]r2.Vec{{X: x, Y: f.Raised - 0.2*h}, {X: x + w, Y: f.Raised - 0.2*h}, {X: x + w, Y: f.Raised + 0.75*h}, {X: x, Y: f.Raised + 0.75*h}} {
		p := r2.Vec{X: at.X + c.X*cos - c.Y*sin, Y: at.Y - c.X*sin - c.Y*cos}
		b.lo = r2.Vec{X: min(b.lo.X, p.X), Y: min(b.lo.Y, p.Y)}
		b.hi = r2.Vec{X: max(b.hi.X, p.X), Y: max(b.hi.Y, p.Y)}
	}
	return b
}

// within returns the length of a line in the box (Liang and Barsky's clipping).
func (b box) within(p, q r2.Vec) float64 {
	t0, t1 := 0.0, 1.0
	d := r2.Sub(q, p)
	for _, e := range [4][2]float64{{-d.X, p.X - b.lo.X}, {d.X, b.hi.X - p.X}, {-d.Y, p.Y - b.lo.Y}, {d.Y, b.hi.Y - p.Y}} {
		switch t := e[1] / e[0]; {
		case e[0] == 0 && e[1] < 0:
			return 0
		case e[0] < 0:
			t0 = max(t0, t)
		case e[0] > 0:
			t1 = min(t1, t)
		}
	}
	return max(0, t1-t0) * r2.Norm(d)
}

// covers weighs what a text in the box would cover of what is drawn: a line by
// its length, hatched figures, other texts and the sheet's edge by more.
func (d *Drawing) covers(b box) float64 {
	sum := 0.0
	for _, l := range d.on.lines {
		sum += 10 * b.within(l[0], l[1])
	}
	for _, m := range d.on.masses {
		for _, p := range [3]r2.Vec{b.lo, r2.Scale(0.5, r2.Add(b.lo, b.hi)), b.hi} {
			if plane.Contains(m, p) {
				sum += 50
			}
		}
	}
	for _, t := range d.on.texts {
		if b.lo.X < t.hi.X && t.lo.X < b.hi.X && b.lo.Y < t.hi.Y && t.lo.Y < b.hi.Y {
			sum += 500
		}
	}
	if b.lo.X < 1 || b.lo.Y < 1 || b.hi.X > float64(d.page.Width)-1 || b.hi.Y > float64(d.page.Height)-1 {
		sum += 5000
	}
	return sum
}

// Label is a Leader whose text stands where it covers least of what has been
// drawn before it, nearest to the place first.
func (d *Drawing) Label(tip r2.Vec, text string) {
	best := math.Inf(1)
	var right, up float64
	at := d.paper(tip)
	for _, x := range [...]float64{6, -6, 12, -12, 20, -20, 30, -30, 45, -45} {
		for _, y := range [...]float64{6, -6, 10, -10, 16, -16, 24, -24} {
			f, side := Font{}, math.Copysign(1, x)
			if x < 0 {
				f.Place = End
			}
			b := f.span(r2.Vec{X: at.X + x + 2.8*side, Y: at.Y - y + 0.9}, text)
			b.lo, b.hi = r2.Sub(b.lo, r2.Vec{X: 0.6, Y: 0.6}), r2.Add(b.hi, r2.Vec{X: 0.6, Y: 0.6})
			if cost := d.covers(b) + 0.1*math.Hypot(x, y); cost < best {
				best, right, up = cost, x, y
			}
		}
	}
	d.Leader(tip, measure.Length(right), measure.Length(up), text)
}
