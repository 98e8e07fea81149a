package curve

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/gauge/measure"
)

// A Foot is a point's nearest station on a line.
type Foot struct {
	Chainage measure.Length
	Offset   measure.Length // of the point from the line, left positive
	End      bool           // the foot is an end of an open line, the point lies beyond it
}

// A hit is the best foot so far.
type hit struct {
	d2    float64 // square of the distance
	s     float64 // from the element's start
	piece int
}

func (h *hit) offer(d2, s float64, piece int) {
	if d2 < h.d2 {
		*h = hit{d2, s, piece}
	}
}

// Nearest returns the station of the line that is nearest to p, and how far p
// is from it. It answers for every finite point, and says of one that is not
// finite that it is as far off as a number can be. Beyond an end of an open line
// the foot is the end itself, marked End, and the offset is the distance from
// it; in the corner outside a kink it is the kink, and the offset again the
// distance.
//
// Where several stations are equally near, to within rounding, it returns one
// of them, always the same for the same line and point: at the centre of an arc
// the arc's start.
func (a *Alignment) Nearest(p r2.Vec) Foot {
	if q, far := within(p); far {
		f := a.Nearest(q)
		d := r2.Sub(p, a.Point(f.Chainage))
		most := math.Hypot(d.X, d.Y)
		if !(most <= math.MaxFloat64) {
			most = math.MaxFloat64
		}
		f.Offset = measure.Length(math.Copysign(most, float64(f.Offset)))
		return f
	}
	best := hit{d2: math.Inf(1)}
	type node struct {
		d2        float64
		i, lo, hi int32
	}
	var stack [48]node
	stack[0] = node{0, 0, 0, int32(len(a.pieces))}
	for n := 1; n > 0; {
		n--
		v := stack[n]
		for v.d2 < best.d2 {
			if v.hi-v.lo == 1 {
				a.pieces[v.lo].nearest(int(v.lo), p.X, p.Y, &best)
				break
			}
			mid := (v.lo + v.hi) / 2
			l, r := v.i+1, v.i+2*(mid-v.lo)
			dl, dr := a.tree[l].away2(p.X, p.Y), a.tree[r].away2(p.X, p.Y)
			near, far := node{dl, l, v.lo, mid}, node{dr, r, mid, v.hi}
			if dr < dl {
				near, far = far, near
			}
			if far.d2 < best.d2 {
				stack[n] = far
				n++
			}
			v = near
		}
	}
	return a.settle(p, best)
}

// within brings a point whose distance would overflow nearer, on its ray from
// the origin: at that distance the foot depends on the direction only.
func within(p r2.Vec) (q r2.Vec, far bool) {
	const most = 1e100
	m := max(math.Abs(p.X), math.Abs(p.Y))
	if m <= most {
		return p, false
	}
	if math.IsNaN(m) {
		return r2.Vec{X: most}, true
	}
	part := func(x float64) float64 {
		if math.IsInf(x, 0) {
			return math.Copysign(most, x)
		}
		return x / m * most
	}
	if math.IsInf(m, 0) {
		m = math.MaxFloat64
	}
	return r2.Vec{X: part(p.X), Y: part(p.Y)}, true
}

// nearest offers the piece's nearest point to the hit.
func (p *piece) nearest(i int, x, y float64, best *hit) {
	switch p.form {
	case formStraight:
		rx, ry := x-p.x, y-p.y
		s := (rx*p.c + ry*p.s) / (p.c*p.c + p.s*p.s)
		if s < 0 {
			s = 0
		} else if s > p.hi {
			s = p.hi
		}
		rx, ry = rx-s*p.c, ry-s*p.s
		best.offer(rx*rx+ry*ry, s, i)
	case formArc:
		p.nearestOnArc(i, x, y, best)
	case formPoly:
		p.nearestOnPoly(i, x, y, best)
	}
}

// nearestOnArc offers the foot square to the arc, or else its ends.
func (p *piece) nearestOnArc(i int, x, y float64, best *hit) {
	r := math.Abs(p.r2 / 2)
	qx, qy := x-p.x+p.s*p.r2/2, y-p.y-p.c*p.r2/2 // from the centre
	d := math.Sqrt(qx*qx+qy*qy) - r
	if d*d >= best.d2 {
		return
	}
	// Turn from the start to the foot, in the arc's own hand.
	turn := math.Atan2(qx*p.c+qy*p.s, (qx*p.s-qy*p.c)*math.Copysign(1, p.k))
	if turn < 0 {
		turn += 2 * math.Pi
	}
	if s := turn * r; s <= p.hi {
		best.offer(d*d, s, i)
		return
	}
	p.offerAt(i, 0, x, y, best)
	p.offerAt(i, p.hi, x, y, best)
}

func (p *piece) offerAt(i int, s, x, y float64, best *hit) {
	px, py := p.place(s)
	px, py = x-px, y-py
	best.offer(px*px+py*py, s, i)
}

// An instant is a point seen from a place on a piece.
type instant struct {
	d2   float64 // square of the distance
	g    float64 // distance ahead, along the tangent
	side float64 // distance to the left
}

// see looks at (x, y) from t on the polynomial.
func (p *piece) see(t, x, y float64) instant {
	px, py, vx, vy := p.q.moving(p.x, p.y, t)
	vx, vy = vx*p.inv, vy*p.inv
	px, py = x-px, y-py
	return instant{px*px + py*py, px*vx + py*vy, py*vx - px*vy}
}

// span bounds what happens from m-d to m+d (t) on the piece: with f half the
// square of the distance and g = -f' the distance ahead, f” lies between lo
// and hi, and g changes by at most slack. k is the curvature in the middle,
// vary how much it can differ from it.
func (p *piece) span(in instant, d, k, vary float64) (lo, hi, slack float64) {
	d *= p.half
	most := math.Abs(k) + vary
	turn := most * d
	slack = math.Sqrt(in.d2)*turn + d
	// The distance to the left changes by -k·g.
	ds := min(slack, turn*(math.Abs(in.g)+slack))
	a, b := k-vary, k+vary
	u, v := in.side-ds, in.side+ds
	w0, w1, w2, w3 := a*u, a*v, b*u, b*v
	return 1 - max(max(w0, w1), max(w2, w3)), 1 - min(min(w0, w1), min(w2, w3)), slack
}

// nearestOnPoly divides the piece until the distance is plainly monotone,
// convex or concave along each part, or cannot come below the best.
func (p *piece) nearestOnPoly(i int, x, y float64, best *hit) {
	type part struct{ m, d float64 }
	var stack [64]part
	stack[0] = part{0, 1}
	for n := 1; n > 0; {
		n--
		m, d := stack[n].m, stack[n].d
		var in instant
		k, vary := p.k, p.spread
		if d == 1 {
			rx, ry := x-p.x, y-p.y
			in = instant{rx*rx + ry*ry, rx*p.c + ry*p.s, ry*p.c - rx*p.s}
		} else {
			in = p.see(m, x, y)
			k = p.curvature(m)
			vary = max(math.Abs(p.curvature(m-d)-k), math.Abs(p.curvature(m+d)-k))
		}
		best.offer(in.d2, p.mid+m*p.half, i)
		length := d * p.half
		if in.d2 > length*length {
			if r := math.Sqrt(in.d2) - length; r*r >= best.d2 {
				continue
			}
		}
		lo, hi, slack := p.span(in, d, k, vary)
		switch {
		case in.g > slack:
			p.offerT(i, m+d, x, y, best)
		case -in.g > slack:
			p.offerT(i, m-d, x, y, best)
		case lo > 0:
			t, in := p.root(in, m, m-d, m+d, x, y)
			best.offer(in.d2, p.mid+t*p.half, i)
		case hi < 0 || d < 1e-9:
			p.offerT(i, m-d, x, y, best)
			p.offerT(i, m+d, x, y, best)
		default:
			if in.d2-2*math.Abs(in.g)*length+lo*length*length >= best.d2*(1-1e-15) {
				continue
			}
			stack[n] = part{m + d/2, d / 2}
			stack[n+1] = part{m - d/2, d / 2}
			n += 2
		}
	}
}

func (p *piece) offerT(i int, t, x, y float64, best *hit) {
	px, py := p.q.at(p.x, p.y, t)
	px, py = x-px, y-py
	best.offer(px*px+py*py, p.mid+t*p.half, i)
}

// curvature is the curvature at t, apart from what closes a circuit.
func (p *piece) curvature(t float64) float64 {
	_, k := p.state(p.mid + t*p.half)
	return k + p.bent
}

// root returns where between lo and hi the distance is least, given that it is
// convex there; in is what is seen from t. Newton's method, halving the
// bracket where it would leave it.
func (p *piece) root(in instant, t, lo, hi, x, y float64) (float64, instant) {
	a, b := lo, hi
	for range 60 {
		k := p.k + (p.k1+p.k2*t)*t
		step := in.g / (1 - k*in.side) * p.inv
		if in.g > 0 {
			a = t
		} else {
			b = t
		}
		next := t + step
		switch {
		case next >= hi && in.g > 0:
			next = hi
		case next <= lo && in.g < 0:
			next = lo
		case !(a < next && next < b):
			next = (a + b) / 2
		}
		move := math.Abs(next - t)
		t = next
		if move < 1e-8 {
			return t, in
		}
		in = p.see(t, x, y)
	}
	return t, in
}

// look returns what is seen of (x, y) from s on any piece, the true
// tangent, the curvature for iterations and the speed along it.
func (p *piece) look(s, x, y float64) (in instant, vx, vy, k float64) {
	var px, py float64
	switch p.form {
	case formPoly:
		t := (s - p.mid) * p.inv
		px, py, vx, vy = p.q.moving(p.x, p.y, t)
		vx, vy = vx*p.inv, vy*p.inv
		k = p.k + (p.k1+p.k2*t)*t
	case formArc:
		k = p.k
		sin, cos := math.Sincos(k * s / 2)
		r := p.r2 * sin
		px, py = p.x+r*(p.c*cos-p.s*sin), p.y+r*(p.s*cos+p.c*sin)
		sin, cos = 2*sin*cos, 1-2*sin*sin
		vx, vy = p.c*cos-p.s*sin, p.s*cos+p.c*sin
	default:
		px, py, vx, vy = p.x+p.c*s, p.y+p.s*s, p.c, p.s
	}
	px, py = x-px, y-py
	return instant{px*px + py*py, px*vx + py*vy, py*vx - px*vy}, vx, vy, k
}

// settle makes the last correction to a hit and says on which side the point
// lies.
func (a *Alignment) settle(q r2.Vec, h hit) Foot {
	p := &a.pieces[h.piece]
	s := h.s
	if snap := 1e-15 * p.hi; s < p.lo+snap {
		s = p.lo
	} else if s > p.hi-snap {
		s = p.hi
	}
	in, vx, vy, k := p.look(s, q.X, q.Y)
	for range 8 {
		if bend := 1 - k*in.side; math.Abs(bend) < 0.1 && p.form == formPoly {
			k = p.curvature((s - p.mid) * p.inv)
		}
		step := in.g / (1 - k*in.side)
		if !(math.Abs(step) < 1e-3*p.half) {
			break
		}
		next := s + step
		if i := a.beside(h.piece, next); i != h.piece {
			// Over a joint: the two pieces hold the foot equally well.
			next += p.at
			h.piece = i
			p = &a.pieces[i]
			if next -= p.at; next < p.lo-p.half || next > p.hi+p.half {
				next = p.lo // over the start of a circuit
				if step < 0 {
					next = p.hi
				}
			}
		}
		next = min(max(next, p.lo), p.hi)
		now, ux, uy, k1 := p.look(next, q.X, q.Y)
		better := math.Abs(now.g) < math.Abs(in.g)
		in, vx, vy, k, s = now, ux, uy, k1, next
		if !better || math.Abs(step) < 1e-7*p.half {
			break
		}
	}
	f := Foot{Chainage: measure.Length(p.at + s)}
	d := math.Sqrt(in.d2)
	if tol := 1e-12 * (d + a.length + math.Abs(q.X) + math.Abs(q.Y)); math.Abs(in.g) > tol {
		switch {
		case s <= 0 && h.piece == 0 && !a.closed || s >= p.hi && h.piece == len(a.pieces)-1 && !a.closed:
			f.End = true
		case s <= p.lo || s >= p.hi:
			// A kink: the side is that of the two tangents' bisector.
			o := h.piece + 1
			if s <= p.lo {
				o = h.piece - 1
			}
			o = (o + len(a.pieces)) % len(a.pieces)
			r := &a.pieces[o]
			at := r.lo
			if s <= p.lo {
				at = r.hi
			}
			_, ux, uy, _ := r.look(at, q.X, q.Y)
			px, py := p.place(s)
			in.side = (q.Y-py)*(vx+ux) - (q.X-px)*(vy+uy)
		}
	}
	f.Offset = measure.Length(math.Copysign(d, in.side))
	if f.Chainage >= measure.Length(a.length) {
		if f.Chainage = measure.Length(a.length); a.closed {
			f.Chainage = 0
		}
	}
	return f
}

// beside returns the piece that goes on from piece i at s, when s is outside
// it and no kink lies between; i itself otherwise.
func (a *Alignment) beside(i int, s float64) int {
	p := &a.pieces[i]
	switch {
	case s > p.hi:
		if j := i + 1; j < len(a.pieces) && !a.kinked(j) {
			return j
		} else if j == len(a.pieces) && a.closed && !a.kinked(0) {
			return 0
		}
	case s < p.lo && !a.kinked(i):
		if i > 0 {
			return i - 1
		} else if a.closed {
			return len(a.pieces) - 1
		}
	}
	return i
}
