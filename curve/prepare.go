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
	at.heading = at.heading.add(e.heading(e.length)).add(at.bent * e.length)
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
	x, y   sum // end of the pieces so far, from the element's start
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
		if b.fit(&p, d[:n], half, split) {
			return
		}
	}
	b.cut(lo, m)
	b.cut(m, hi)
}

// fit completes a piece and appends it; d is the series of its turn's
// derivative, turn what the element turns up to its middle. When the piece
// needs splitting, and may be split, it returns false.
func (b *builder) fit(p *piece, d []float64, turn float64, split bool) bool {
	h := p.half
	d[0] += h * b.at.bent
	var x, y [order + 1]float64
	sin, cos := b.at.direction(turn + b.at.bent*p.mid)
	if rest := bend(&x, &y, d, cos, sin); !(rest <= resolved) && split {
		return false
	}
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

// cutLever appends the pieces of a cubic parabola or lath, going on from the
// place that each piece ends at.
func (b *builder) cutLever() {
	e := b.e
	l, way := e.lever(), 1.0
	if e.back {
		way = -1
	}
	start := l.at(e.from)
	from := start
	var c, d [order]float64
	half := e.length / 2
	for lo := 0.0; lo < e.length; {
		hi := lo + 2*half
		last := hi >= e.length*(1-1e-12)
		if last {
			hi = e.length
		}
		m, h := (lo+hi)/2, (hi-lo)/2
		split := lo < m && m < hi && h > 1e-12*e.length
		middle := l.series(&c, from, way*h)
		end := l.series(&d, middle, way*h)
		p := piece{mid: m, half: h, lo: lo, hi: hi, k: d[0] / h}
		turn, ka, kb := math.Abs(b.at.bent)*(hi-lo), 0.0, 0.0
		for i, v := range d {
			turn += 2 * math.Abs(v) * recip[i+1]
			kb += v / h
			if i%2 == 0 {
				ka += v / h
			} else {
				ka -= v / h
			}
			if i > 0 {
				p.spread += math.Abs(v) / h
			}
		}
		p.k1, p.k2 = (kb-ka)/2, (ka+kb)/2-p.k
		p.turned = turned(d[:], middle.heading-start.heading)
		if split && (!small(&c) || !(turn <= maxPieceTurn)) || !b.fit(&p, d[:], middle.heading-start.heading, split) {
			half = h / 2
			continue
		}
		from, lo = end, hi
	}
}

// bend fills x and y with the coefficients of ∫cos and ∫sin of the heading
// whose derivative by t is the series d and which at t = 0 has the given
// cosine and sine, brought down to the degree of a poly. It returns how much
// that leaves out at most.
//
// With c = cos θ, s = sin θ: c' = -θ's and s' = θ'c give the coefficients one
// after the other.
func bend(x, y *[order + 1]float64, d []float64, cos, sin float64) float64 {
	var c, s [order]float64
	c[0], s[0] = cos, sin
	for n := range order - 1 {
		a, b := 0.0, 0.0
		for j := range min(n+1, len(d)) {
			a += d[j] * s[n-j]
			b += d[j] * c[n-j]
		}
		r := recip[n+1]
		c[n+1], s[n+1] = -a*r, b*r
	}
	for n := range order {
		x[n+1], y[n+1] = c[n]*recip[n+1], s[n]*recip[n+1]
	}
	rest := 0.0
	for n := order; n > order-4; n-- {
		rest += math.Abs(x[n]) + math.Abs(y[n])
	}
	for n := order; n > degree; n-- {
		t := &chebyshev[n]
		for j := n - 2; j > 0; j -= 2 {
			x[j] -= x[n] * t[j]
			y[j] -= y[n] * t[j]
		}
		rest += math.Ldexp(math.Abs(x[n])+math.Abs(y[n]), 1-n)
	}
	return rest
}

// turned returns the heading whose derivative by t is the series d, brought
// down to the degree of a poly.
func turned(d []float64, middle float64) *[degree + 1]float64 {
	var h [order + 1]float64
	h[0] = middle
	for n, v := range d {
		h[n+1] = v * recip[n+1]
	}
	for n := order; n > degree; n-- {
		for j := n - 2; j >= 0; j -= 2 {
			h[j] -= h[n] * chebyshev[n][j]
		}
	}
	return (*[degree + 1]float64)(h[:degree+1])
}

var recip = func() (r [order + 1]float64) {
	for n := 1; n <= order; n++ {
		r[n] = 1 / float64(n)
	}
	return r
}()
