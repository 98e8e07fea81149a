package curve

import (
	"iter"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/gauge/measure"
)

// NearestFrom returns the foot of p that lies next to guess, found by following
// the line from there: the cheap call for a sweep, where the foot of the point
// before is a good guess. It is a local foot, not always the nearest of all.
//
// Unlike Nearest it takes an open line as going on straight on its end
// tangents: a foot beyond an end has a chainage below 0 or past the length, is
// marked End, and its offset is square to the tangent. Where no foot can be
// followed, as outside a kink or past the centre of a curve, the answer is
// Nearest's, again carried on straight beyond an end.
func (a *Alignment) NearestFrom(p r2.Vec, guess measure.Length) Foot {
	s := a.reduce(float64(guess))
	q, far := within(p)
	for range 12 {
		if far {
			break
		}
		if !a.closed && !(s >= 0 && s <= a.length) {
			f, ok := a.off(q, s > 0)
			if ok {
				return f
			}
			s = min(max(s, 0), a.length)
		}
		i := &a.pieces[a.lookup.find(s)]
		in, _, _, k := i.look(s-i.at, q.X, q.Y)
		bend := 1 - k*in.side
		if bend < 0.02 {
			break
		}
		step := in.g / bend
		s += step
		if a.closed && !(s >= 0 && s < a.length) {
			s = a.reduce(s)
		}
		if math.Abs(step) < 1e-8*i.half {
			if !a.closed && !(s >= 0 && s <= a.length) {
				continue
			}
			return Foot{measure.Length(s), measure.Length(math.Copysign(math.Sqrt(in.d2), in.side)), false}
		}
	}
	f := a.Nearest(p)
	if f.End && !far {
		if past, ok := a.off(q, f.Chainage > 0); ok {
			return past
		}
	}
	return f
}

// off returns the foot on the line's straight continuation past its end, or
// before its start; ok is false when the foot is not on that.
func (a *Alignment) off(q r2.Vec, past bool) (f Foot, ok bool) {
	pose, from := a.first, 0.0
	if past {
		pose, from = a.final, a.length
	}
	sin, cos := math.Sincos(float64(pose.Heading))
	dx, dy := q.X-pose.Point.X, q.Y-pose.Point.Y
	g := dx*cos + dy*sin
	return Foot{measure.Length(from + g), measure.Length(dy*cos - dx*sin), true}, g != 0 && (g > 0) == past
}

// Feet yields, in order of chainage, every local foot of p within a distance:
// each station that is nearer to p than those just before and after it. A line
// may pass the same tree twice. Ends and kinks count when they are nearer than
// what lies beside them. At the centre of an arc, where the whole arc is equally
// near, the arc yields one foot at most.
func (a *Alignment) Feet(p r2.Vec, within measure.Length) iter.Seq[Foot] {
	return func(yield func(Foot) bool) {
		w := float64(within)
		if !(w >= 0) || !finite(p.X) || !finite(p.Y) {
			return
		}
		f := feet{a: a, p: p, within2: w * w, yield: yield}
		f.walk(0, 0, len(a.pieces))
	}
}

// feet is one run of Feet.
type feet struct {
	a       *Alignment
	p       r2.Vec
	within2 float64
	yield   func(Foot) bool
}

func (f *feet) walk(i, lo, hi int) bool {
	if f.a.tree[i].away2(f.p.X, f.p.Y) > f.within2 {
		return true
	}
	if hi-lo == 1 {
		return f.piece(lo)
	}
	mid := (lo + hi) / 2
	return f.walk(i+1, lo, mid) && f.walk(i+2*(mid-lo), mid, hi)
}

func (f *feet) found(i int, s float64) bool {
	p := &f.a.pieces[i]
	x, y := p.place(s)
	x, y = f.p.X-x, f.p.Y-y
	if d2 := x*x + y*y; d2 <= f.within2 {
		return f.yield(f.a.settle(f.p, hit{d2, s, i}))
	}
	return true
}

// ahead returns how far the point lies ahead of the piece's start and of its
// end. Where the line runs on without a kink, the end's value is that of the
// next piece's start, so that the two never disagree by a rounding. A foot is
// where it goes from more than 0 to 0 or less.
func (f *feet) ahead(i int) (start, end float64) {
	a := f.a
	p := &a.pieces[i]
	in, _, _, _ := p.look(p.lo, f.p.X, f.p.Y)
	start = in.g
	j := i + 1
	if j == len(a.pieces) && a.closed {
		j = 0
	}
	if j < len(a.pieces) && !a.kinked(j) {
		q := &a.pieces[j]
		in, _, _, _ = q.look(q.lo, f.p.X, f.p.Y)
		return start, in.g
	}
	in, _, _, _ = p.look(p.hi, f.p.X, f.p.Y)
	return start, in.g
}

// kinked reports whether piece i starts with a kink.
func (a *Alignment) kinked(i int) bool {
	return a.pieces[i].lo == 0 && a.elements[a.pieces[i].elem].kink != 0
}

func (f *feet) piece(i int) bool {
	a := f.a
	p := &a.pieces[i]
	start, end := f.ahead(i)
	before := start // of the start, from the piece before
	switch {
	case i == 0 && !a.closed:
		before = 1
	case a.kinked(i):
		q := &a.pieces[(i+len(a.pieces)-1)%len(a.pieces)]
		in, _, _, _ := q.look(q.hi, f.p.X, f.p.Y)
		before = in.g
	}
	if before > 0 && start <= 0 && !f.found(i, p.lo) {
		return false
	}
	on := true
	switch p.form {
	case formStraight:
		if start > 0 && end <= 0 {
			on = f.found(i, start/(p.c*p.c+p.s*p.s))
		}
	case formArc:
		on = f.arc(i, start, end)
	case formPoly:
		on = f.poly(i, 0, 1, start, end)
	}
	if on && i == len(a.pieces)-1 && !a.closed && end > 0 {
		on = f.found(i, p.hi)
	}
	return on
}

func (f *feet) arc(i int, start, end float64) bool {
	p := &f.a.pieces[i]
	r := math.Abs(p.r2 / 2)
	qx, qy := f.p.X-p.x+p.s*p.r2/2, f.p.Y-p.y-p.c*p.r2/2
	if math.Hypot(qx, qy) < 1e-12*(r+math.Abs(p.x)+math.Abs(p.y)) {
		if start > 0 && end <= 0 {
			return f.found(i, 0)
		}
		return true
	}
	turn := math.Atan2(qx*p.c+qy*p.s, (qx*p.s-qy*p.c)*math.Copysign(1, p.k))
	edge := 1e-9 * r
	for s := turn * r; s <= p.hi+edge; s += 2 * math.Pi * r {
		switch {
		case s < -edge, s < edge && start <= 0, s > p.hi-edge && end > 0:
			continue
		}
		if !f.found(i, min(max(s, 0), p.hi)) {
			return false
		}
	}
	return true
}

// poly yields the feet on the polynomial between m-d and m+d; start and end
// are how far the point is ahead there.
func (f *feet) poly(i int, m, d, start, end float64) bool {
	p := &f.a.pieces[i]
	in := p.see(m, f.p.X, f.p.Y)
	length := d * p.half
	if in.d2 > length*length {
		if r := math.Sqrt(in.d2) - length; r*r > f.within2 {
			return true
		}
	}
	k := p.curvature(m)
	vary := max(math.Abs(p.curvature(m-d)-k), math.Abs(p.curvature(m+d)-k))
	lo, hi, slack := p.span(in, d, k, vary)
	flat := math.Abs(in.g)*length+max(math.Abs(lo), math.Abs(hi))*length*length < 1e-14*in.d2
	switch {
	case math.Abs(in.g) > slack && (start > 0) == (end > 0):
		return true
	case lo > 0 || hi < 0 || flat || d < 1e-9:
		if !(start > 0 && end <= 0) {
			return true
		}
		t := m
		if lo > 0 {
			t, _ = p.root(in, m, m-d, m+d, f.p.X, f.p.Y)
		}
		return f.found(i, p.mid+t*p.half)
	}
	return f.poly(i, m-d/2, d/2, start, in.g) && f.poly(i, m+d/2, d/2, in.g, end)
}
