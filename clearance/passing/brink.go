package passing

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
)

// A brink is the edge of a swept space on one side, between two heights, as a
// run of chords; at the ends of the range it turns along the section there, to
// the other side.
type brink struct {
	side   curve.Hand
	p      []r2.Vec
	c      []float64 // chainage of each, counted on over the start of a circuit
	edge   [2]int    // first and last point of the edge itself; the others are of the ends' sections
	closed bool      // a whole circuit: the last point is the first again
	tree   []box     // of the chords, leaves last: node i over 2i+1 and 2i+2
	leaves int
}

// leafChords is how many chords a leaf of the tree holds.
const leafChords = 4

type box struct{ x0, y0, x1, y1 float64 }

// newBrink makes the brink of an edge whose other side is far; nil when nothing
// is there.
func newBrink(e *clearance.Envelope, side curve.Hand, edge, far []clearance.EdgePoint) *brink {
	b := &brink{side: side}
	lap, last := 0.0, math.Inf(-1)
	length := float64(e.Line().Length())
	var ends [2]r2.Vec
	for i, q := range edge {
		if q.None {
			continue
		}
		c := float64(q.Chainage) + lap
		if e.Line().Closed() && c < last-length/2 {
			lap += length
			c += length
		}
		last = c
		b.p = append(b.p, q.Place)
		b.c = append(b.c, c)
		if len(b.p) == 1 {
			ends[0] = far[i].Place
		}
		ends[1] = far[i].Place
	}
	if len(b.p) < 2 {
		return nil
	}
	set := e.Settings()
	b.closed = e.Line().Closed() && float64(set.To-set.From) > length-1e-9 && !edge[0].None && !edge[len(edge)-1].None
	if b.closed { // the first and the last differ by what the sweep's tolerance lets them
		b.p[len(b.p)-1] = b.p[0]
	}
	b.edge = [2]int{0, len(b.p) - 1}
	if !b.closed {
		b.p = append(append([]r2.Vec{ends[0]}, b.p...), ends[1])
		b.c = append(append([]float64{b.c[0]}, b.c...), last)
		b.edge = [2]int{1, len(b.p) - 2}
	}
	b.grow()
	return b
}

// grow builds the tree.
func (b *brink) grow() {
	chords := len(b.p) - 1
	b.leaves = 1
	for b.leaves*leafChords < chords {
		b.leaves *= 2
	}
	none := box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	b.tree = make([]box, 2*b.leaves-1)
	for i := range b.leaves {
		x := none
		for j := i * leafChords; j <= (i+1)*leafChords && j <= chords && i*leafChords < chords; j++ {
			q := b.p[j]
			x = box{min(x.x0, q.X), min(x.y0, q.Y), max(x.x1, q.X), max(x.y1, q.Y)}
		}
		b.tree[b.leaves-1+i] = x
	}
	for i := b.leaves - 2; i >= 0; i-- {
		u, v := b.tree[2*i+1], b.tree[2*i+2]
		b.tree[i] = box{min(u.x0, v.x0), min(u.y0, v.y0), max(u.x1, v.x1), max(u.y1, v.y1)}
	}
}

// dist2 returns the square of the distance from q to the box.
func (b *box) dist2(q r2.Vec) float64 {
	dx, dy := max(b.x0-q.X, q.X-b.x1, 0), max(b.y0-q.Y, q.Y-b.y1, 0)
	return dx*dx + dy*dy
}

// A spot is a place on a brink: part t of chord i.
type spot struct {
	i int
	t float64
}

// nearest returns the place on the brink that is nearest to q, and the square
// of its distance; guess is a chord that may be near.
func (b *brink) nearest(q r2.Vec, guess int) (spot, float64) {
	at := spot{i: guess}
	var d float64
	at.t, d = b.chord(guess, q)
	var stack [64]int32
	n := 1 // the root
	for n > 0 {
		n--
		k := int(stack[n])
		if b.tree[k].dist2(q) >= d {
			continue
		}
		if k < b.leaves-1 {
			l, r := 2*k+1, 2*k+2
			if b.tree[l].dist2(q) < b.tree[r].dist2(q) {
				l, r = r, l
			}
			stack[n], stack[n+1] = int32(l), int32(r)
			n += 2
			continue
		}
		first := (k - b.leaves + 1) * leafChords
		for j := first; j < first+leafChords && j < len(b.p)-1; j++ {
			if t, e := b.chord(j, q); e < d {
				at, d = spot{j, t}, e
			}
		}
	}
	return at, d
}

// chord returns the part of chord i that is nearest to q, and the square of
// the distance.
func (b *brink) chord(i int, q r2.Vec) (t, d float64) {
	a := b.p[i]
	dx, dy := b.p[i+1].X-a.X, b.p[i+1].Y-a.Y
	x, y := q.X-a.X, q.Y-a.Y
	if l := dx*dx + dy*dy; l > 0 {
		t = max(0, min(1, (x*dx+y*dy)/l))
	}
	x, y = x-t*dx, y-t*dy
	return t, x*x + y*y
}

// gap returns how far q is outside the edge, negative inside, and the nearest
// place of the edge.
func (b *brink) gap(q r2.Vec, guess int) (float64, spot) {
	at, d2 := b.nearest(q, guess)
	// The outside is to the left of the left edge, to the right of the right
	// edge; at a corner the two chords' normals together say which side it is.
	dir := b.direction(at.i)
	if at.t <= 0 {
		if i, ok := b.before(at.i); ok {
			dir = r2.Add(dir, b.direction(i))
		}
	} else if at.t >= 1 {
		if i, ok := b.after(at.i); ok {
			dir = r2.Add(dir, b.direction(i))
		}
	}
	d := math.Sqrt(d2)
	if r2.Cross(dir, r2.Sub(q, b.at(at)))*float64(b.side) < 0 {
		d = -d
	}
	return d, at
}

func (b *brink) direction(i int) r2.Vec {
	d := r2.Sub(b.p[i+1], b.p[i])
	if l := r2.Norm(d); l > 0 {
		return r2.Scale(1/l, d)
	}
	return r2.Vec{}
}

func (b *brink) before(i int) (int, bool) {
	switch {
	case i > 0:
		return i - 1, true
	case b.closed:
		return len(b.p) - 2, true
	}
	return 0, false
}

func (b *brink) after(i int) (int, bool) {
	switch {
	case i < len(b.p)-2:
		return i + 1, true
	case b.closed:
		return 0, true
	}
	return 0, false
}

func (b *brink) at(s spot) r2.Vec {
	return r2.Add(b.p[s.i], r2.Scale(s.t, r2.Sub(b.p[s.i+1], b.p[s.i])))
}

func (b *brink) chainage(s spot) float64 { return b.c[s.i] + s.t*(b.c[s.i+1]-b.c[s.i]) }

// onEnd reports whether the spot is at an end of the range: on the section
// there or on its corner with the edge.
func (b *brink) onEnd(s spot) bool {
	return !b.closed && (s.i < b.edge[0] || s.i >= b.edge[1] || s.i == b.edge[0] && s.t <= 0 || s.i == b.edge[1]-1 && s.t >= 1)
}

// spot returns the place of the edge at a chainage within it.
func (b *brink) spot(c float64) spot {
	lo, hi := b.edge[0], b.edge[1]
	for hi-lo > 1 {
		m := (lo + hi) / 2
		if b.c[m] <= c {
			lo = m
		} else {
			hi = m
		}
	}
	s := spot{i: lo}
	if d := b.c[lo+1] - b.c[lo]; d > 0 {
		s.t = max(0, min(1, (c-b.c[lo])/d))
	}
	return s
}
