package curve

import "math"

// degree is that of the polynomials which carry a piece of an easement.
const degree = 15

// A poly is the place along a piece from its middle, in the plan's axes: the
// coefficients of t, t² ... t¹⁵, t from -1 to 1.
type poly struct{ x, y [degree]float64 }

// A form is how a piece is evaluated.
type form uint8

const (
	formStraight form = iota
	formArc
	formPoly
)

// A piece is a straight, an arc, or so much of an easement as one polynomial
// carries.
type piece struct {
	form     form
	elem     int32
	at       float64 // chainage of the element's start
	x, y     float64 // place of the element's start; of the piece's middle for a poly
	c, s     float64 // direction there
	k, r2    float64 // arc: curvature and twice the radius; poly: curvature in the middle
	mid, inv float64 // poly: the middle from the element's start, one over half the length
	half     float64 // half the length
	lo, hi   float64 // range, from the element's start
	k1, k2   float64 // curvature ≈ k + k1·t + k2·t², for iterations
	turn     float64 // poly: what the element turns up to the middle
	bent     float64 // poly: curvature added to close a circuit
	spread   float64 // how far the curvature may be from k anywhere on the piece
	shape    Shape

	// Of a law's element: curvature at the start of the whole, what it gains
	// over it, that times its length, one over its length; where in it the
	// element begins, and the law's integral up to there.
	k0, dk, gain, perWhole, u0, sum0 float64

	q      poly
	turned [degree + 1]float64 // lever: turn from the element's start, by powers of t
}

// state returns the turn of the heading from the element's start to x, and the
// curvature there, apart from what closes a circuit.
func (p *piece) state(x float64) (turn, k float64) {
	if !p.shape.lever() {
		f, sum := p.shape.law(x*p.perWhole + p.u0)
		return p.k0*x + p.gain*(sum-p.sum0), p.k0 + p.dk*f
	}
	t := (x - p.mid) * p.inv
	for i := degree; i >= 0; i-- {
		k = k*t + turn
		turn = turn*t + p.turned[i]
	}
	return turn, k * p.inv
}

// place returns the point at x from the element's start.
func (p *piece) place(x float64) (float64, float64) {
	switch p.form {
	case formPoly:
		return p.q.at(p.x, p.y, (x-p.mid)*p.inv)
	case formArc:
		sin, cos := math.Sincos(p.k * x / 2)
		r := p.r2 * sin
		return p.x + r*(p.c*cos-p.s*sin), p.y + r*(p.s*cos+p.c*sin)
	}
	return p.x + p.c*x, p.y + p.s*x
}

// at evaluates the polynomial at t: even and odd powers apart, so that the
// four chains run side by side.
func (q *poly) at(x0, y0, t float64) (float64, float64) {
	u := t * t
	ex := ((((((q.x[13]*u+q.x[11])*u+q.x[9])*u+q.x[7])*u+q.x[5])*u+q.x[3])*u + q.x[1]) * u
	ey := ((((((q.y[13]*u+q.y[11])*u+q.y[9])*u+q.y[7])*u+q.y[5])*u+q.y[3])*u + q.y[1]) * u
	ox := ((((((q.x[14]*u+q.x[12])*u+q.x[10])*u+q.x[8])*u+q.x[6])*u+q.x[4])*u+q.x[2])*u + q.x[0]
	oy := ((((((q.y[14]*u+q.y[12])*u+q.y[10])*u+q.y[8])*u+q.y[6])*u+q.y[4])*u+q.y[2])*u + q.y[0]
	return x0 + (ex + t*ox), y0 + (ey + t*oy)
}

// moving returns the place and its derivative by t.
func (q *poly) moving(x0, y0, t float64) (x, y, vx, vy float64) {
	u := t * t
	ex, ox, ey, oy := 0.0, 0.0, 0.0, 0.0
	dex, dox, dey, doy := 0.0, 0.0, 0.0, 0.0
	for i := 14; i >= 2; i -= 2 {
		dox = dox*u + ox
		ox = ox*u + q.x[i]
		doy = doy*u + oy
		oy = oy*u + q.y[i]
		dex = dex*u + ex
		ex = ex*u + q.x[i-1]
		dey = dey*u + ey
		ey = ey*u + q.y[i-1]
	}
	dox = dox*u + ox
	ox = ox*u + q.x[0]
	doy = doy*u + oy
	oy = oy*u + q.y[0]
	dex = dex*u + ex
	ex *= u
	dey = dey*u + ey
	ey *= u
	return x0 + (ex + t*ox), y0 + (ey + t*oy), 2*t*dex + ox + 2*u*dox, 2*t*dey + oy + 2*u*doy
}
