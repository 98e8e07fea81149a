package curve

import "math"

// cutLever appends the pieces of a cubic parabola or lath.
func (b *builder) cutLever() {
	e := b.e
	l, way := e.lever(), 1.0
	if e.back {
		way = -1
	}
	shape, scale := l.mould(e.whole)
	start := bow{}
	if e.from > 0 {
		start = l.at(e.from)
	}
	from := start // where a piece begins, asked for without a mould only
	var v flex
	half := e.length / 2 / math.Ceil(e.length/2/l.reach())
	for lo := 0.0; lo < e.length; {
		hi := lo + 2*half
		if hi >= e.length*(1-1e-12) {
			hi = e.length
		}
		m, h := (lo+hi)/2, (hi-lo)/2
		split := lo < m && m < hi && h > 1e-12*e.length
		var middle, end bow
		ok := true
		if shape != nil {
			middle = shape.place(e.along(m), scale, l.a)
			l.series(&v, middle, way*h)
		} else {
			ok = l.series(&v, from, way*h)
			middle = v.end(from, way*h)
			l.series(&v, middle, way*h)
			end = v.end(middle, way*h)
		}
		p := piece{mid: m, half: h, lo: lo, hi: hi}
		if split && !ok || !b.fitLever(&p, &v, middle.heading-start.heading, split) {
			half = h / 2
			continue
		}
		from, lo = end, hi
	}
}

// reach is about how much of a lever's curve half a piece can carry, in its
// length: between a quarter and a fifth of the way to the singularities of its
// mould, at 0.618(1+i) and 1.311(1+i). Where it is too much the piece is split.
func (l lever) reach() float64 {
	if l.cubed {
		return 0.15 * math.Sqrt(2/math.Abs(l.a))
	}
	return 0.28 * math.Sqrt(2/math.Hypot(l.a, l.b))
}

// fitLever is fit for a piece of a lever that v runs along.
func (b *builder) fitLever(p *piece, v *flex, turn float64, split bool) bool {
	d, h := v.c[:v.n], p.half
	all, end, ka, kb := math.Abs(b.at.bent)*2*h, turn, 0.0, 0.0
	for i, c := range d {
		all += 2 * math.Abs(c) * recip[i+1]
		end += c * recip[i+1]
		kb += c
		if i%2 == 0 {
			ka += c
		} else {
			ka -= c
		}
		if i > 0 {
			p.spread += math.Abs(c)
		}
	}
	if split && !(all <= maxPieceTurn) {
		return false
	}
	p.k, p.spread = d[0]/h, p.spread/h
	p.k1, p.k2 = (kb-ka)/2/h, (ka+kb)/2/h-p.k
	turned(&p.turned, d, turn)
	sin, cos := b.at.direction(turn + b.at.bent*p.mid)
	if b.at.bent == 0 {
		// Turn the course into the plan's axes.
		c, s := cos*v.cos[0]+sin*v.sin[0], sin*v.cos[0]-cos*v.sin[0]
		for i := range v.n {
			v.cos[i], v.sin[i] = c*v.cos[i]-s*v.sin[i], s*v.cos[i]+c*v.sin[i]
		}
		v.cos[0], v.sin[0] = cos, sin
	} else {
		v.c[0] += h * b.at.bent
		v.turn(d, cos, sin)
	}
	b.turned = end
	return b.fit(p, &v.course, turn, split)
}
