package curve

import "math"

// A box holds a piece or a run of pieces.
type box struct{ x0, y0, x1, y1 float64 }

func (b *box) take(x, y float64) {
	b.x0, b.y0 = min(b.x0, x), min(b.y0, y)
	b.x1, b.y1 = max(b.x1, x), max(b.y1, y)
}

func (b *box) join(c *box) {
	b.take(c.x0, c.y0)
	b.take(c.x1, c.y1)
}

func (b *box) grow(d float64) {
	b.x0, b.y0, b.x1, b.y1 = b.x0-d, b.y0-d, b.x1+d, b.y1+d
}

func noBox() box { return box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)} }

// away2 returns the square of the distance of a point from the box, 0 inside.
func (b *box) away2(x, y float64) float64 {
	dx, dy := 0.0, 0.0
	if x < b.x0 {
		dx = b.x0 - x
	} else if x > b.x1 {
		dx = x - b.x1
	}
	if y < b.y0 {
		dy = b.y0 - y
	} else if y > b.y1 {
		dy = y - b.y1
	}
	return dx*dx + dy*dy
}

// A tree is the boxes of a binary tree over the pieces, a node before its
// left branch before its right: the node of pieces lo to hi at index i has its
// branches at i+1 and at i+2(mid-lo).
type tree []box

func newTree(pieces []piece) tree {
	t := make(tree, 2*len(pieces)-1)
	t.fill(pieces, 0, 0, len(pieces))
	return t
}

func (t tree) fill(pieces []piece, i, lo, hi int) {
	if hi-lo == 1 {
		t[i] = pieces[lo].box()
		return
	}
	mid := (lo + hi) / 2
	l, r := i+1, i+2*(mid-lo)
	t.fill(pieces, l, lo, mid)
	t.fill(pieces, r, mid, hi)
	t[i] = t[l]
	t[i].join(&t[r])
}

// box returns a box that the piece does not leave, a little larger than the
// least one.
func (p *piece) box() box {
	b := noBox()
	if p.form == formPoly {
		dx, dy := 0.0, 0.0
		for i := range degree {
			dx += math.Abs(p.q.x[i])
			dy += math.Abs(p.q.y[i])
		}
		b = box{p.x - dx, p.y - dy, p.x + dx, p.y + dy}
	} else {
		b.take(p.place(0))
		b.take(p.place(p.hi))
	}
	if p.form == formArc {
		p.crests(&b)
	}
	b.grow(4e-16 * (math.Abs(b.x0) + math.Abs(b.x1) + math.Abs(b.y0) + math.Abs(b.y1)))
	return b
}

// crests takes the places of the arc where it runs along an axis.
func (p *piece) crests(b *box) {
	const quarter = math.Pi / 2
	h := math.Atan2(p.s, p.c)
	cx, cy := p.x-p.s/p.k, p.y+p.c/p.k
	lo, hi := h, h+p.k*p.hi
	if p.k < 0 {
		lo, hi = hi, lo
	}
	if hi-lo > 2*math.Pi { // any one turn will do
		lo, hi = math.Mod(lo, 2*math.Pi), math.Mod(lo, 2*math.Pi)+2*math.Pi
	}
	r := 1 / p.k
	for n := math.Ceil(lo / quarter); n*quarter <= hi; n++ {
		switch int(math.Mod(n, 4)+4) % 4 {
		case 0:
			b.take(cx, cy-r)
		case 1:
			b.take(cx+r, cy)
		case 2:
			b.take(cx, cy+r)
		case 3:
			b.take(cx-r, cy)
		}
	}
}
