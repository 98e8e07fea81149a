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

// series fills c with the series in t of h·k at h·t from the given place, and
// returns the place at t = 1. With h below 0 it runs towards the first end; c
// is the derivative of the heading by t in any case.
func (l lever) series(c *[order]float64, from bow, h float64) bow {
	var p, q, p2, p3 [order]float64 // cos and sin of the heading, its square and cube
	var x, y [order + 1]float64
	q[0], p[0] = math.Sincos(from.heading)
	x[0], y[0] = from.x, from.y
	for n := range order {
		if l.cubed {
			for j := range n + 1 {
				p2[n] += p[j] * p[n-j]
			}
			for j := range n + 1 {
				p3[n] += p2[j] * p[n-j]
			}
			c[n] = 0
			for j := range n + 1 {
				c[n] += x[j] * p3[n-j]
			}
			c[n] *= h * l.a
		} else {
			if c[n] = h * (l.a*x[n] + l.b*y[n]); n == 0 {
				c[n] += h * l.k
			}
		}
		r := recip[n+1]
		x[n+1], y[n+1] = h*p[n]*r, h*q[n]*r
		if n+1 < order {
			for j := range n + 1 {
				p[n+1] -= c[j] * q[n-j]
				q[n+1] += c[j] * p[n-j]
			}
			p[n+1] *= r
			q[n+1] *= r
		}
	}
	to := bow{heading: from.heading}
	for n := order; n >= 0; n-- {
		to.x += x[n]
		to.y += y[n]
		if n > 0 {
			to.heading += c[n-1] * recip[n]
		}
	}
	return to
}

// at returns the place at a distance from the first end, by as many steps as
// the series needs.
func (l lever) at(s float64) bow {
	var p bow
	var c [order]float64
	for done := 0.0; done < s; {
		h := s - done
		var to bow
		for range 40 {
			to = l.series(&c, p, h)
			if small(&c) {
				break
			}
			h /= 2
		}
		if !small(&c) || h < 1e-9*s { // no element turns so much
			return bow{math.NaN(), math.NaN(), math.NaN()}
		}
		p = to
		done += h
	}
	return p
}

// small reports whether a series has died down by its last terms.
func small(c *[order]float64) bool {
	all := 0.0
	for _, v := range c {
		all += math.Abs(v)
	}
	return math.Abs(c[order-1])+math.Abs(c[order-2])+math.Abs(c[order-3]) < 1e-18 && all < 1.5
}

// state is Element.state for a lever.
func (e *Element) leverState(s float64) (turn, k float64) {
	l := e.lever()
	a, b := l.at(e.from), l.at(e.along(s))
	if turn, k = b.heading-a.heading, l.curvature(b); e.back {
		k = -k
	}
	return turn, k
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
	var d [order]float64
	h := 1e-3 * e.whole
	l.series(&d, l.at(e.along(s)), h)
	return d[1] / (h * h)
}
