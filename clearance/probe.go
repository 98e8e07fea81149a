package clearance

import (
	"context"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/plane"
)

// A near is the least gap found so far.
type near struct {
	gap     float64
	upright bool
	meet    bool    // the heights of the section and the structure meet
	under   bool    // the structure is below
	c, n    float64 // of the structure's place: unrolled chainage and offset
	place   r2.Vec
	reach   float64
	lo, hi  float64 // heights of the structure
	cut     cut
	arch    *Roof // the structure is an arch, and touch its place
	touch   touch
}

func (n near) side() curve.Hand {
	if n.n < 0 {
		return curve.Right
	}
	return curve.Left
}

// governor returns what gives the reach on the side of the least gap, at the
// section's bottom and at its top, and which part of the way up the gap is: of
// an arch that of the nearer corner.
func (e *Envelope) governor(n *near) (by [2]hit, t float64) {
	side := n.side()
	switch {
	case n.arch != nil:
		c := n.touch.i
		if n.touch.t > 0.5 {
			c = n.touch.j
		}
		if side = curve.Left; c == 0 || c == 3 {
			side = curve.Right
		}
		t = float64(c / 2)
	case n.under:
		t = 0
	case n.upright:
		t = 1
	default:
		_, t = n.cut.flank(side, n.lo, n.hi)
	}
	return e.by(&n.cut, side), t
}

// A prober looks for the least gap between an envelope and structures.
type prober struct {
	ctx   context.Context
	e     *Envelope
	stock int // -1 for all
	best  near
	turns int
}

func (p *prober) structure(s Structure) error {
	for _, f := range s.Faces {
		if err := p.face(f); err != nil {
			return err
		}
	}
	for _, r := range s.Roofs {
		if err := p.roof(r); err != nil {
			return err
		}
	}
	for _, f := range s.Figures {
		if err := p.figure(f); err != nil {
			return err
		}
	}
	if s.Neighbour != nil {
		return p.neighbour(s.Neighbour)
	}
	return nil
}

// stop reports the context's end, now and then.
func (p *prober) stop() error {
	if p.turns++; p.turns%64 == 0 {
		return p.ctx.Err()
	}
	return nil
}

// take keeps a gap if it is the least so far.
func (p *prober) take(n near) {
	if n.gap < p.best.gap {
		p.best = n
	}
}

// sections calls f with the section of every sheet that is asked about at c,
// in the interval of stations from i.
func (p *prober) sections(c float64, i int, f func(s *sheet, k cut)) {
	for _, s := range p.e.sheets {
		if p.stock < 0 || s.vehicle == p.stock {
			f(s, p.e.cut(s, c, i))
		}
	}
}

// block returns the least gap at c, square to the line, to a block with offsets
// from y0 to y1 and heights from lo to hi; n is the offset of its place.
func (p *prober) block(c float64, i int, y0, y1, lo, hi, n float64) near {
	best := near{gap: math.Inf(1)}
	p.sections(c, i, func(s *sheet, k cut) {
		if gap, upright, meet := k.gapTo(y0, y1, lo, hi); gap < best.gap {
			best = near{gap: gap, upright: upright, meet: meet, under: upright && lo < s.bottom, c: c, n: n, lo: lo, hi: hi, cut: k}
			best.reach = k.towards(n < 0, lo, hi)
		}
	})
	best.place = p.e.line.Offset(measure.Length(c), measure.Length(n))
	return best
}

// towards returns the reach of the section to one side between two heights, or
// altogether when it does not meet them.
func (k *cut) towards(right bool, lo, hi float64) float64 {
	y0, y1, ok := k.rangeY(lo, hi)
	if !ok {
		y0, y1, _ = k.rangeY(math.Inf(-1), math.Inf(1))
	}
	if right {
		return -y0
	}
	return y1
}

// within calls f at the unrolled chainages from a to b at which to look: both
// ends and the kept stations between. u is the chainage counted on from a, c
// the same within the range swept: a circuit may go over its end.
func (p *prober) within(a, b float64, f func(u, c float64, i int)) error {
	e := p.e
	shift := 0.0
	if b > e.to+1e-9 {
		l := float64(e.line.Length())
		if err := p.within(a, e.to, f); err != nil {
			return err
		}
		a, b, shift = e.from, b-l, l
	}
	f(a+shift, a, e.find(a))
	for i := e.find(a) + 1; i < len(e.stations) && e.stations[i].c < b; i++ {
		if err := p.stop(); err != nil {
			return err
		}
		if c := e.stations[i].c; c > a {
			f(c+shift, c, min(i, len(e.stations)-2))
		}
	}
	if b > a {
		f(b+shift, b, e.find(b))
	}
	return nil
}

func (p *prober) face(f Face) error {
	lo, hi := heights(f.Bottom, f.Top)
	a, b := p.e.span(f.From, f.To)
	side := float64(f.Side)
	to := float64(f.OffsetTo)
	if to == 0 {
		to = float64(f.Offset)
	}
	offset := func(c float64) float64 {
		if b == a {
			return side * float64(f.Offset)
		}
		return side * (float64(f.Offset) + (to-float64(f.Offset))*(c-a)/(b-a))
	}
	at, least := a, math.Inf(1)
	err := p.within(a, b, func(u, c float64, i int) {
		n := offset(u)
		y0, y1 := n, math.Inf(1) // solid outwards
		if side < 0 {
			y0, y1 = math.Inf(-1), n
		}
		got := p.block(c, i, y0, y1, lo, hi, n)
		if got.gap < least {
			least, at = got.gap, u
		}
		p.take(got)
	})
	// Where it ends, and where it comes nearest, what stands out beside it.
	for _, u := range []float64{a, b, at} {
		c := u
		if u > p.e.to+1e-9 {
			c -= float64(p.e.line.Length())
		}
		p.take(p.point(c, offset(u), lo, hi))
	}
	return err
}

// point returns the least gap to a place of the structure, at the offset n
// square to c, from all the stations near it.
func (p *prober) point(c, n, lo, hi float64) near {
	e := p.e
	i := e.find(c)
	best := p.block(c, i, n, n, lo, hi, n)
	q := best.place
	side := 0
	if n < 0 {
		side = 1
	}
	p.sections(c, i, func(s *sheet, k cut) {
		gap, upright, meet := k.gapTo(n, n, lo, hi)
		if !meet || upright || gap <= 0 {
			return
		}
		// Straight across to the swept edge on either hand, as far as it could
		// be nearer.
		far := gap / max(0.1, 1-math.Abs(n*max(math.Abs(e.stations[i].k0), math.Abs(e.stations[i].k1))))
		for _, dir := range [2]int{-1, 1} {
			prev, ok := e.edge(&k, c, lo, hi, side)
			shift := 0.0
			for j := i + (dir+1)/2; ok; j += dir {
				if j < 0 || j == len(e.stations) {
					if shift != 0 || !e.whole() {
						break
					}
					j, shift = len(e.stations)-1, -float64(e.line.Length())
					if dir > 0 {
						j, shift = 0, -shift
					}
				}
				st := &e.stations[j]
				if math.Abs(st.c+shift-c) > far+25 {
					break
				}
				kj := e.cut(s, st.c, min(j, len(e.stations)-2))
				var next r2.Vec
				if next, ok = kj.edge(st.p, st.t, lo, hi, side); !ok {
					break
				}
				if d := toSegment(q, prev, next); d < best.gap {
					best = near{gap: d, meet: true, c: c, n: n, place: q, lo: lo, hi: hi, cut: kj, reach: kj.towards(n < 0, lo, hi)}
				}
				prev = next
			}
		}
	})
	return best
}

// edge returns the place in plan of a section's outermost point on a side,
// between two heights.
func (e *Envelope) edge(k *cut, c, lo, hi float64, side int) (r2.Vec, bool) {
	st := e.line.At(measure.Length(c))
	return k.edge(st.Point, st.Tangent, lo, hi, side)
}

// edge returns the place in plan of the section's outermost point on a side,
// between two heights, the line at p in the direction t.
func (k *cut) edge(p, t r2.Vec, lo, hi float64, side int) (r2.Vec, bool) {
	y0, y1, ok := k.rangeY(lo, hi)
	if side == 1 {
		y1 = y0
	}
	return r2.Vec{X: p.X - y1*t.Y, Y: p.Y + y1*t.X}, ok
}

// toSegment returns the distance from q to the segment ab.
func toSegment(q, a, b r2.Vec) float64 {
	d := r2.Sub(b, a)
	t := 0.0
	if l := r2.Norm2(d); l > 0 {
		t = max(0, min(1, r2.Dot(r2.Sub(q, a), d)/l))
	}
	return math.Sqrt(r2.Norm2(r2.Sub(q, r2.Add(a, r2.Scale(t, d)))))
}

func (p *prober) roof(r Roof) error {
	if r.Rise > 0 {
		return p.arch(r)
	}
	a, b := p.e.span(r.From, r.To)
	y0, y1 := -float64(r.Right), float64(r.Left)
	if r.Left == 0 && r.Right == 0 {
		y0, y1 = math.Inf(-1), math.Inf(1)
	}
	return p.within(a, b, func(_, c float64, i int) {
		p.take(p.block(c, i, y0, y1, float64(r.Height), math.Inf(1), 0))
	})
}

// plan returns the least gap to a place in plan, from every part of the line
// that passes it; past the ends of the range, from the sections there.
func (p *prober) plan(q r2.Vec, lo, hi float64) near {
	e := p.e
	best := near{gap: math.Inf(1)}
	beside := false
	look := func(f curve.Foot) {
		c, ok := e.unroll(f.Chainage)
		if f.End || !ok {
			return
		}
		beside = true
		if got := p.point(c, float64(f.Offset), lo, hi); got.gap < best.gap {
			best = got
		}
	}
	foot := e.line.Nearest(q)
	look(foot)
	for f := range e.line.Feet(q, measure.Length(math.Abs(float64(foot.Offset))+e.widest())) {
		if math.Abs(float64(f.Chainage-foot.Chainage)) > 1e-6 {
			look(f)
		}
	}
	if _, ok := e.unroll(foot.Chainage); beside && ok && !foot.End {
		return best
	}
	for _, c := range []float64{e.from, e.to} {
		if got := p.endOn(q, c, lo, hi); got.gap < best.gap {
			best = got
		}
	}
	return best
}

// endOn returns the gap to a place past an end of the range.
func (p *prober) endOn(q r2.Vec, c, lo, hi float64) near {
	e := p.e
	st := e.line.At(measure.Length(c))
	n := r2.Cross(st.Tangent, r2.Sub(q, st.Point))
	best := near{gap: math.Inf(1)}
	p.sections(c, e.find(c), func(_ *sheet, k cut) {
		l, meet := e.edge(&k, c, lo, hi, 0)
		r, _ := e.edge(&k, c, lo, hi, 1)
		gap, upright := 0.0, false
		if meet {
			gap = toSegment(q, l, r)
		} else {
			l, _ = e.edge(&k, c, math.Inf(-1), math.Inf(1), 0)
			r, _ = e.edge(&k, c, math.Inf(-1), math.Inf(1), 1)
			z0, z1, _ := k.rangeZ(math.Inf(-1), math.Inf(1))
			gap = toSegment(q, l, r)
			if up := max(lo-z1, z0-hi); up > gap {
				gap, upright = up, true
			}
		}
		if gap < best.gap {
			best = near{gap: gap, upright: upright, meet: meet, c: c, n: n, place: q, lo: lo, hi: hi, cut: k, reach: k.towards(n < 0, lo, hi)}
		}
	})
	return best
}

// widest returns more than the largest reach of the stock.
func (e *Envelope) widest() float64 {
	w := 0.0
	for _, s := range e.sheets {
		for i := range s.x {
			w = max(w, math.Abs(s.y[i])+math.Abs(s.x[i])/2)
		}
	}
	return w
}

func (p *prober) figure(f Figure) error {
	lo, hi := heights(f.Bottom, f.Top)
	n := len(f.Points)
	if n == 1 {
		p.take(p.plan(f.Points[0], lo, hi))
		return nil
	}
	sides := n - 1
	if f.Closed {
		sides = n
	}
	for i := range sides {
		if err := p.segment(f.Points[i], f.Points[(i+1)%n], lo, hi); err != nil {
			return err
		}
	}
	if f.Closed {
		return p.inside(f, lo, hi)
	}
	return nil
}

// segment looks along a segment: as far apart as nothing nearer can hide, at
// least a step of 5 mm, and then closely about the nearest.
func (p *prober) segment(a, b r2.Vec, lo, hi float64) error {
	d := r2.Sub(b, a)
	l := r2.Norm(d)
	at := func(u float64) float64 {
		got := p.plan(r2.Add(a, r2.Scale(u/max(l, 1e-300), d)), lo, hi)
		p.take(got)
		return got.gap
	}
	best, where := math.Inf(1), 0.0
	for u := 0.0; ; {
		if err := p.stop(); err != nil {
			return err
		}
		g := at(u)
		if g < best {
			best, where = g, u
		}
		if !(u < l) {
			break
		}
		// A gap changes by at most half as much again as the place moves.
		u = min(l, u+max(5, (g-p.best.gap)/1.5))
	}
	if best > p.best.gap+10 {
		return nil
	}
	x, y := max(0, where-5), min(l, where+5)
	const golden = 0.6180339887498949
	for range 20 {
		m, n := y-golden*(y-x), x+golden*(y-x)
		if at(m) < at(n) {
			y = n
		} else {
			x = m
		}
	}
	return nil
}

// inside looks at the parts of the line that run through a polygon, over or
// under it.
func (p *prober) inside(f Figure, lo, hi float64) error {
	for i := range p.e.stations {
		if err := p.stop(); err != nil {
			return err
		}
		if st := &p.e.stations[i]; plane.Contains(f.Points, st.p) {
			p.take(p.block(st.c, min(i, len(p.e.stations)-2), 0, 0, lo, hi, 0))
		}
	}
	return nil
}

// neighbour looks at the space that another track's stock needs, the two at
// one level: the edge of each of its outlines, on both sides, at each of its
// stations.
func (p *prober) neighbour(o *Envelope) error {
	w, v := p.e.widest(), o.widest()
	look := w + v + 100
	for i := range o.stations {
		if err := p.stop(); err != nil {
			return err
		}
		st := &o.stations[i]
		f := p.e.line.Nearest(st.p)
		d := math.Abs(float64(f.Offset))
		if d > look && d > p.best.gap+look {
			continue
		}
		var skip [2]bool
		if d > v {
			skip = p.e.away(st, f, d+w+v)
		}
		for _, s := range o.sheets {
			k := o.cut(s, st.c, min(i, len(o.stations)-2))
			lo, hi := min(k.z[0], k.z[1]), max(k.z[2], k.z[3])
			for side := range 2 {
				if skip[side] {
					continue
				}
				if q, ok := k.edge(st.p, st.t, lo, hi, side); ok {
					p.take(p.plan(q, lo, hi))
				}
			}
		}
	}
	return nil
}

// away reports which sides of a neighbour, at a station of its own, look away
// from every part of the line within a distance, so that all of the neighbour's
// width is between. f is the nearest part; one that is farther than f by both
// stocks' reaches cannot have the least gap.
func (e *Envelope) away(st *station, f curve.Foot, within float64) [2]bool {
	out := [2]bool{true, true}
	see := func(q r2.Vec) {
		if r2.Cross(st.t, r2.Sub(q, st.p)) > 0 {
			out[0] = false
		} else {
			out[1] = false
		}
	}
	see(e.line.Point(f.Chainage))
	for g := range e.line.Feet(st.p, measure.Length(within)) {
		see(e.line.Point(g.Chainage))
	}
	if !e.line.Closed() {
		for _, c := range [2]measure.Length{0, e.line.Length()} {
			if q := e.line.Point(c); r2.Norm(r2.Sub(q, st.p)) <= within {
				see(q)
			}
		}
	}
	return out
}
