package design

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/internal/solve"
)

// A verdict is what is known of a box over a range of sharper radii.
type verdict struct {
	gone, whole  bool
	fits         bool   // the sample does
	m            member // the sample
	t            *trial // of the sample, among obstacles
	moveQ, moveR float64
}

// judge looks at a box with the sharper radius from q0 to q1.
func (s *seeker) judge(b patch, q0, q1 float64) (verdict, error) {
	if b.hi < q0 {
		return verdict{gone: true}, nil
	}
	b.lo = max(b.lo, q0)
	var probes []member
	var q, r float64
	var ok bool
	plain := s.Family == TwoArcs && s.ease == 0
	if plain {
		var gone bool
		if b, probes, gone = s.partners(b, q0, q1); gone || probes == nil {
			return verdict{gone: gone, moveQ: 1}, nil
		}
		q, r, ok = (q0+q1)/2, 1/s.partner(b, (q0+q1)/2), true
		if r > 0 {
			probes = append(probes, s.member(b, q, r, half{}, half{}))
		}
		if ok = r >= q*(1-1e-15); !ok {
			q, r = q0, b.lo
		}
	} else {
		hq := [2]half{s.halfOf(q0), s.halfOf(q1)}
		hr := [2]half{s.halfOf(b.lo), s.halfOf(b.hi)}
		for i, q := range [2]float64{q0, q1} {
			for k, r := range [2]float64{b.lo, b.hi} {
				probes = append(probes, s.member(b, q, r, hq[i], hr[k]))
			}
		}
		q, r, ok = s.sample(b, q0, q1)
	}
	m := s.member(b, q, r, s.halfOf(q), s.halfOf(r))
	if ok && !plain {
		probes = append(probes, m)
	}
	v := verdict{m: m}
	c := s.corners(b, q0, q1, probes)
	if c.no {
		return verdict{gone: true}, nil
	}
	dq := s.moveOf(q0, q1, q)
	dr := s.moveOf(b.lo, b.hi, r)
	w := way{scale: s.scale}
	w.ends[0], w.ends[1] = order(b, dq, dr)
	w.reach = c.reach
	w.arcs = w.reach
	for _, m := range append(probes, m) {
		for i, x := range s.reach([]member{m}, everyTurn) {
			w.arcs[i] = min(w.arcs[i], x)
		}
	}
	if s.Family == TwoArcs && s.ease > 0 {
		for i := range w.ends {
			w.ends[i].fixed += (dq.curvature + dr.curvature) * s.ease * s.ease / 4
		}
	}
	i, j := order(b, 0, 1)
	v.moveQ, v.moveR = w.ends[i].at(c.reach[i]), w.ends[j].at(c.reach[j])
	if plain {
		v.moveQ, v.moveR = max(v.moveQ, v.moveR), 0
	}
	if !ok {
		return v, nil
	}
	if s.Family == TwoArcs && s.maxLength < math.Inf(1) {
		// The length changes by the integral of curvature times movement.
		change := 0.0
		for i, t := range [2]float64{m.turn1, m.turn2} {
			change += 1.25 * math.Abs(t) * w.ends[i].at(c.reach[i])
		}
		if m.length-change > s.maxLength {
			return verdict{gone: true}, nil
		}
		c.all = c.all && m.length+change <= s.maxLength
	}
	v.fits = m.left() >= 0
	v.whole = v.fits && c.all && b.hi >= q1
	if plain {
		v.whole = v.whole && s.partner(b, q0) <= 1/q0 && s.partner(b, q1) <= 1/q1
	}
	if s.look == nil || !v.fits {
		return v, nil
	}
	t, err := s.look(m)
	if err != nil || t == nil {
		v.fits, v.whole = false, false
		return v, err
	}
	v.t = t
	fouled, sure := t.over(w)
	v.gone = fouled
	v.fits, _ = t.fits(t.obstacles)
	v.whole = v.whole && v.fits && sure
	return v, nil
}

// sample returns the radii of a member inside the box, equal ones if the box
// has such.
func (s *seeker) sample(b patch, q0, q1 float64) (q, r float64, ok bool) {
	q = (q0 + min(q1, b.hi)) / 2
	lo := max(b.lo, q)
	r = lo
	if b.lo > q {
		r = 2 / (1/b.lo + 1/b.hi)
	}
	hq := s.halfOf(q)
	if s.Family == ArcStraightArc {
		left := func(r float64) float64 { return -s.member(b, q, r, hq, s.halfOf(r)).left() }
		if q1 <= 1.05*q0 && b.hi > lo && left(r) > 0 {
			// What is left of each limit rises or falls with r, so that the
			// least of them has one summit; it may be narrow.
			r, _ = solve.Golden(left, lo, b.hi, 1e-15*lo, 0)
		}
		return q, r, true
	}
	f := func(k float64) float64 { return s.member(b, q, 1/k, hq, s.ramp.half(s.ease, k)).missing }
	if k, found := solve.Brent(f, 1/b.hi, 1/lo, 1e-17/q); b.hi > lo && found {
		return q, 1 / k, true
	}
	return q, r, false
}

// partner returns the curvature of the other of two plain arcs that touch,
// below zero where its hand would be the other: closing is linear in it.
func (s *joiner) partner(b patch, q float64) float64 {
	n := forward(r2.Vec{}, s.heading, 0, 1)
	a, c, d, e := 0.5, r2.Dot(s.end, n), s.end.Y, n.Y-1 // |end| = 1
	if b.firstSharp {
		k := b.h1 / q
		return b.h2 * (e - c*k) / (a*k - d)
	}
	k := b.h2 / q
	return b.h1 * (e + d*k) / (a*k + c)
}

// partners narrows the box to the plain arcs that touch. There are no probes
// where the other arc passes through a point.
func (s *seeker) partners(b patch, q0, q1 float64) (_ patch, probes []member, gone bool) {
	x, y := s.partner(b, q0), s.partner(b, q1)
	m := s.partner(b, 2/(1/q0+1/q1))
	// Between two values of one sign of a function that is linear over linear
	// the middle one lies between, unless there is a pole.
	if !((x-m)*(m-y) >= 0) || math.IsInf(x, 0) || math.IsInf(y, 0) {
		return b, nil, false
	}
	lo, hi := min(x, y), max(x, y)
	if hi <= 0 || lo > 1/q0 {
		return b, nil, true
	}
	add := func(q, k float64) {
		if k > 0 && k < 1e6/q {
			probes = append(probes, s.member(b, q, 1/k, half{}, half{}))
		}
	}
	add(q0, x)
	add(q1, y)
	b.lo, b.hi = max(b.lo, 1/hi), min(b.hi, 1/max(lo, 1/b.hi))
	if len(probes) == 0 || b.lo > b.hi {
		return b, nil, false
	}
	return b, probes, false
}
