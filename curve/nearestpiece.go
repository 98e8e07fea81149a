package curve

import "math"

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
