package curve

import "math"

// state returns the turn of the heading from the element's start to s, and the
// curvature there.
func (e *Element) state(s float64) (turn, k float64) {
	if e.shape.lever() {
		return e.leverState(s)
	}
	if e.k0 == e.k1 {
		return e.k0 * s, e.k0
	}
	u := (e.from + s) / e.whole
	f, sum := e.shape.law(u)
	if e.from != 0 {
		_, before := e.shape.law(e.from / e.whole)
		sum -= before
	}
	turn = e.k0*s + (e.k1-e.k0)*e.whole*sum
	if u >= 1 {
		return turn, e.k1
	}
	return turn, e.k0 + (e.k1-e.k0)*f
}

// curvature returns the curvature at s from the element's start.
func (e *Element) curvature(s float64) float64 {
	if e.shape.lever() {
		return e.leverCurvature(s)
	}
	_, k := e.state(s)
	return k
}

// heading returns the turn of the heading from the element's start to s.
func (e *Element) heading(s float64) float64 {
	turn, _ := e.state(s)
	return turn
}

// absTurn returns ∫|k|ds from a to b, or a little more where the curvature
// changes sign: the curvature is monotone, so it is at most the larger end's.
func (e *Element) absTurn(a, b float64) float64 {
	ka, kb := e.curvature(a), e.curvature(b)
	if (ka < 0) == (kb < 0) || ka == 0 || kb == 0 {
		return math.Abs(e.heading(b) - e.heading(a))
	}
	return max(math.Abs(ka), math.Abs(kb)) * (b - a)
}

// series fills d with the power series of h·k(m + h·t) in t, k being the
// curvature at a distance from the element's start, and returns how many
// terms it has.
func (e *Element) series(d *[order]float64, m, h float64) int {
	if e.k0 == e.k1 {
		d[0] = h * e.k0
		return 1
	}
	u, w := (e.from+m)/e.whole, h/e.whole
	g := h * (e.k1 - e.k0)
	n := 0
	switch e.shape {
	case Clothoid:
		d[0], d[1] = g*u, g*w
		n = 2
	case Bloss:
		d[0], d[1], d[2], d[3] = g*u*u*(3-2*u), g*w*6*u*(1-u), g*w*w*(3-6*u), -2*g*w*w*w
		n = 4
	case Helmert:
		if u <= 0.5 {
			d[0], d[1], d[2] = 2*g*u*u, 4*g*u*w, 2*g*w*w
		} else {
			v := 1 - u
			d[0], d[1], d[2] = g-2*g*v*v, 4*g*v*w, -2*g*w*w
		}
		n = 3
	case Cosine:
		sin, cos := math.Sincos(math.Pi * u)
		n = waves(d, -g/2, cos, -sin, math.Pi*w)
		d[0] += g / 2
	case Sine:
		sin, cos := math.Sincos(2 * math.Pi * u)
		n = waves(d, -g/(2*math.Pi), sin, cos, 2*math.Pi*w)
		d[0] += g * u
		d[1] += g * w
	}
	d[0] += h * e.k0
	return n
}

// waves fills d with the series in t of g·f(b·t), f being a sine or cosine
// with f(0) = f0 and f'(0) = f1.
func waves(d *[order]float64, g, f0, f1, b float64) int {
	for n := range d {
		d[n] = g * f0
		f0, f1 = f1, -f0
		g *= b / float64(n+1)
		if math.Abs(g) < 1e-22 && n > 1 {
			return n + 1
		}
	}
	return order
}
