package curve

import "math"

// The cubic parabola and the bent lath have no curvature law over their own
// length; they are given by how the curvature grows with the place. In the
// axes of their first end (x ahead, y to the left, heading 0)
//
//	cubic parabola  k = a·x·cos³θ             y = a·x³/6, with a = 1/(R·X)
//	bent lath       k = k0 + a·x + b·y        the moment of one force about the place
//
// The lath as an easement starts with no curvature and is held by a force
// square to the straight: k0 = b = 0, a = 1/(R·X), and then sin θ = a·x²/2.

// A lever is such a law.
type lever struct {
	cubed   bool // the cubic parabola
	k, a, b float64
}

func (e *Element) lever() lever {
	return lever{e.shape == CubicParabola, e.k0, e.k1, e.b}
}

// A bow is where a lever's curve has got to.
type bow struct{ x, y, heading float64 }

// A flex is the series of a lever's curve along a piece: the course in the
// lever's own axes, and the derivative of the heading by t.
type flex struct {
	course
	c [order]float64
}

// series fills v about the given place, t counting in h millimetres. With h
// below 0 it runs towards the first end; c is the derivative of the heading by
// t in any case. It reports whether the series has died down.
func (l lever) series(v *flex, from bow, h float64) bool {
	v.sin[0], v.cos[0] = math.Sincos(from.heading)
	if l.cubed {
		return l.cubic(v, from.x, h)
	}
	// c' = h²(a cos θ + b sin θ)
	v.c[0] = h * (l.k + l.a*from.x + l.b*from.y)
	a, b := h*h*l.a, h*h*l.b
	for v.n = 1; v.n < order; v.n++ {
		v.next(v.c[:v.n])
		v.c[v.n] = (a*v.cos[v.n-1] + b*v.sin[v.n-1]) * recip[v.n]
		if v.diedDown() {
			return true
		}
	}
	return false
}

// cubic is series for the cubic parabola: c = h·a·x·cos³θ. The sums for the
// terms of all the products run side by side, since none waits for another.
func (l lever) cubic(v *flex, x0, h float64) bool {
	var x, p2, p3 [order]float64 // h·a·x, the square and the cube of the cosine
	p := &v.cos
	x[0], p2[0] = h*l.a*x0, p[0]*p[0]
	p3[0] = p2[0] * p[0]
	v.c[0] = x[0] * p3[0]
	for v.n = 1; v.n < order; v.n++ {
		n := v.n
		a, b := v.c[0]*v.sin[n-1], v.c[0]*p[n-1]
		square, cube, moment := 0.0, 0.0, 0.0
		for j := 1; j < n; j++ {
			a += v.c[j] * v.sin[n-1-j]
			b += v.c[j] * p[n-1-j]
			square += p[j] * p[n-j]
			cube += p2[j] * p[n-j]
			moment += x[j] * p3[n-j]
		}
		r := recip[n]
		x[n] = h * h * l.a * p[n-1] * r
		p[n], v.sin[n] = -a*r, b*r
		p2[n] = square + 2*p[0]*p[n]
		p3[n] = cube + p2[0]*p[n] + p2[n]*p[0]
		v.c[n] = moment + x[0]*p3[n] + x[n]*p3[0]
		if v.diedDown() {
			return true
		}
	}
	return false
}

// end returns the place at t = 1.
func (v *flex) end(from bow, h float64) bow {
	var x, y, turn float64
	for n := v.n - 1; n >= 0; n-- {
		x += v.cos[n] * recip[n+1]
		y += v.sin[n] * recip[n+1]
		turn += v.c[n] * recip[n+1]
	}
	return bow{from.x + h*x, from.y + h*y, from.heading + turn}
}

// at returns the place at a distance from the first end; y only where the law
// has no mould.
func (l lever) at(s float64) bow {
	if v, scale := l.mould(s); v != nil {
		return v.place(s, scale, l.a)
	}
	w := walk{lever: l}
	for w.next(s) {
	}
	if w.done != s { // no element turns so much
		return bow{math.NaN(), math.NaN(), math.NaN()}
	}
	return w.to
}

// A walk goes along a lever's curve from its first end by as few steps as the
// series takes: v is the series of one, from a place over h.
type walk struct {
	lever
	v        flex
	from, to bow
	h, done  float64 // done: where the step ends
}

// next takes a step towards s, and is false when it has come there, or when
// the curve turns too much to get there.
func (w *walk) next(s float64) bool {
	if !(w.done < s) {
		return false
	}
	w.from, w.h = w.to, s-w.done
	for !w.series(&w.v, w.from, w.h) || !w.v.gentle() {
		if w.h /= 2; !(w.h > 1e-9*s) {
			return false
		}
	}
	w.to = w.v.end(w.from, w.h)
	if w.done += w.h; s-w.done < 1e-15*s {
		w.done = s
	}
	return true
}

// gentle reports whether it turns by less than a right angle or so.
func (v *flex) gentle() bool {
	all := 0.0
	for _, c := range v.c[:v.n] {
		all += math.Abs(c)
	}
	return all < 1.5
}

// leverState is Element.state for a lever.
func (e *Element) leverState(s float64) (turn, k float64) {
	l := e.lever()
	return l.at(e.along(s)).heading - l.at(e.from).heading, e.leverCurvature(s)
}

func (e *Element) leverCurvature(s float64) float64 {
	l := e.lever()
	k := l.curvature(l.at(e.along(s)))
	if e.back {
		return -k
	}
	return k
}

func (l lever) curvature(p bow) float64 {
	if l.cubed {
		c := math.Cos(p.heading)
		return l.a * p.x * c * c * c
	}
	return l.k + l.a*p.x + l.b*p.y
}

// along returns the distance from the whole curve's first end at s from the
// element's start.
func (e *Element) along(s float64) float64 {
	if e.back {
		return max(e.from-s, 0)
	}
	return e.from + s
}

// leverRate returns dk/ds at s from the element's start. Running back, both
// the curvature and the way have the other sign.
func (e *Element) leverRate(s float64) float64 {
	l := e.lever()
	p := l.at(e.along(s))
	sin, cos := math.Sincos(p.heading)
	if l.cubed {
		return l.a * cos * cos * cos * (cos - 3*l.a*p.x*p.x*sin*cos*cos)
	}
	return l.a*cos + l.b*sin
}
