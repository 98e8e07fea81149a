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
