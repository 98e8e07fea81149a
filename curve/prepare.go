package curve

import "math"

// maxPieceTurn bounds what one polynomial turns through, left and right added
// up; resolved is what the terms left out of it may come to, as a part of half
// its length.
const (
	maxPieceTurn = 0.6
	resolved     = 3e-17
)

// chebyshev[n] holds, below tⁿ, the coefficients of the Chebyshev polynomial
// Tn divided by 2ⁿ⁻¹, so that tⁿ less it is the best replacement of tⁿ by
// lower powers: it errs by 2¹⁻ⁿ (C. Lanczos, Applied Analysis, 1956, VII 6).
var chebyshev = func() (c [order + 1][order + 1]float64) {
	for n := range c {
		a := 1.0
		for k := 0; 2*k+2 <= n; k++ {
			a *= -float64((n-2*k)*(n-2*k-1)) / float64(4*(k+1)*(n-k-1))
			c[n][n-2*k-2] = a
		}
	}
	return c
}()

// A sum is a number with its rounding error carried beside it.
type sum struct{ hi, lo float64 }

func (a sum) add(x float64) sum {
	s := a.hi + x
	b := s - a.hi
	e := (a.hi - (s - b)) + (x - b)
	return sum{s, a.lo + e}
}

func (a sum) value() float64 { return a.hi + a.lo }

// A placing is where an element stands in a line.
type placing struct {
	at      float64 // chainage of its start
	heading sum     // there, its kink included
	x, y    sum
	bias
}

// A bias is what closes a circuit: curvature added, and a shift for each
// millimetre run.
type bias struct{ bent, dx, dy float64 }

// prepare appends the pieces of element e, number i of the line, placed at
// the given pose, and returns the pose at its end.
func prepare(pieces []piece, e *Element, i int, at placing) ([]piece, placing) {
	b := builder{e: e, at: at, elem: int32(i), pieces: pieces}
	switch {
	case e.shape == StraightLine && at.bent == 0:
		sin, cos := at.direction(0)
		b.pieces = append(b.pieces, piece{
			form: formStraight, elem: b.elem, at: at.at, half: e.length / 2, hi: e.length,
			x: at.x.value(), y: at.y.value(), c: cos + at.dx, s: sin + at.dy,
		})
		b.x, b.y = sum{hi: (cos + at.dx) * e.length}, sum{hi: (sin + at.dy) * e.length}
	case e.shape == CircularArc && e.length*math.Abs(e.k0) > 1e-3 && at.bias == (bias{}):
		sin, cos := at.direction(0)
		p := piece{
			form: formArc, elem: b.elem, at: at.at, half: e.length / 2, hi: e.length,
			c: cos, s: sin, k: e.k0, r2: 2 / e.k0,
		}
		p.carry(e)
		b.x.hi, b.y.hi = p.place(e.length)
		p.x, p.y = at.x.value(), at.y.value()
		b.pieces = append(b.pieces, p)
	case e.shape.lever():
		b.cutLever()
	case e.shape == Helmert:
		m := min(max(e.whole/2-e.from, 0), e.length)
		b.cut(0, m)
		b.cut(m, e.length)
	case e.shape == Cosine || e.shape == Sine:
		n := 2.0
		if e.shape == Sine {
			n = 4
		}
		n = math.Ceil(n * e.length / e.whole)
		for i := range int(n) {
			b.cut(e.length*float64(i)/n, e.length*float64(i+1)/n)
		}
	default:
		b.cut(0, e.length)
	}
	at.at += e.length
	if !e.shape.lever() {
		b.turned = e.heading(e.length)
	}
	at.heading = at.heading.add(b.turned).add(at.bent * e.length)
	at.x, at.y = at.x.add(b.x.hi).add(b.x.lo), at.y.add(b.y.hi).add(b.y.lo)
	return b.pieces, at
}

// direction returns sine and cosine of the heading that is turn past the
// placing's own.
func (at *placing) direction(turn float64) (sin, cos float64) {
	h := at.heading.add(turn)
	sin, cos = math.Sincos(h.hi)
	return sin + h.lo*cos, cos - h.lo*sin
}

type builder struct {
	e      *Element
	at     placing
	elem   int32
	pieces []piece
	x, y   sum     // end of the pieces so far, from the element's start
	turned float64 // of a lever: turn of the heading up to there
}

// cut appends the pieces that carry the element from lo to hi.
func (b *builder) cut(lo, hi float64) {
	m, h := (lo+hi)/2, (hi-lo)/2
	if !(h > 0) {
		return
	}
	turn := b.e.absTurn(lo, hi) + math.Abs(b.at.bent)*(hi-lo)
	split := lo < m && m < hi && h > 1e-12*b.e.length
	if turn <= maxPieceTurn || !split {
		var d [order]float64
		n := b.e.series(&d, m, h)
		half, k := b.e.state(m)
		ka, kb := b.e.curvature(lo), b.e.curvature(hi)
		p := piece{
			mid: m, half: h, lo: lo, hi: hi,
			k: k, k1: (kb - ka) / 2, k2: (ka+kb)/2 - k, spread: max(math.Abs(ka-k), math.Abs(kb-k)), // it is monotone
		}
		var v course
		d[0] += h * b.at.bent
		sin, cos := b.at.direction(half + b.at.bent*m)
		v.turn(d[:n], cos, sin)
		if b.fit(&p, &v, half, split) {
			return
		}
	}
	b.cut(lo, m)
	b.cut(m, hi)
}

// fit completes a piece and appends it; v holds the direction along it in the
// plan's axes, turn is what the element turns up to its middle. When the piece
// needs splitting, and may be split, it returns false.
func (b *builder) fit(p *piece, v *course, turn float64, split bool) bool {
	var x, y [order + 1]float64
	rest := v.places(&x, &y)
	if !(rest <= resolved) && split {
		return false
	}
	h, cos, sin := p.half, v.cos[0], v.sin[0]
	p.form, p.elem, p.at, p.bent = formPoly, b.elem, b.at.at, b.at.bent
	p.carry(b.e)
	p.c, p.s, p.inv = cos+b.at.dx, sin+b.at.dy, 1/h
	p.turn = turn
	p.k += b.at.bent
	for i := range degree {
		p.q.x[i], p.q.y[i] = h*x[i+1], h*y[i+1]
	}
	p.q.x[0] += h * b.at.dx
	p.q.y[0] += h * b.at.dy
	// The piece begins where the one before it ends.
	x0, y0 := p.q.at(0, 0, -1)
	b.x, b.y = b.x.add(-x0), b.y.add(-y0)
	p.x = b.at.x.add(b.x.hi).add(b.at.x.lo + b.x.lo).hi
	p.y = b.at.y.add(b.y.hi).add(b.at.y.lo + b.y.lo).hi
	x1, y1 := p.q.at(0, 0, 1)
	b.x, b.y = b.x.add(x1), b.y.add(y1)
	b.pieces = append(b.pieces, *p)
	return true
}

// carry takes over the element's law.
func (p *piece) carry(e *Element) {
	p.shape, p.k0 = e.shape, e.k0
	if e.shape.Easement() {
		p.dk, p.gain = e.k1-e.k0, (e.k1-e.k0)*e.whole
		p.perWhole, p.u0 = 1/e.whole, e.from/e.whole
		_, p.sum0 = e.shape.law(p.u0)
	}
}
