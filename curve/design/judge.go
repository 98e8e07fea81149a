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
func (s *seeker) judge(b patch, q0, q1 float64) (v verdict, err error) {
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
		probes = s.probes(b, q0, q1)
		q, r, ok = s.sample(b, q0, q1)
	}
	m := s.member(b, q, r, s.halfOf(q), s.halfOf(r))
	if ok && !plain {
		probes = append(probes, m)
	}
	v.m = m
	c := s.corners(b, q0, q1, probes)
	if c.no {
		return verdict{gone: true}, nil
	}
	w := s.way(b, q0, q1, m, append(probes, m), c.reach)
	i, j := order(b, 0, 1)
	v.moveQ, v.moveR = w.ends[i].at(c.reach[i]), w.ends[j].at(c.reach[j])
	if plain {
		v.moveQ, v.moveR = max(v.moveQ, v.moveR), 0
	}
	if !ok {
		return v, nil
	}
	whole := w
	if s.Family == TwoArcs && !plain {
		// Whether all of it fits shows in a box close about the members.
		if near, ok := s.close(b, q0, q1); ok {
			probes := append(s.probes(near, q0, q1), m)
			if n := s.corners(near, q0, q1, probes); !n.no {
				c.all = n.all && near.lo >= q1
				whole = s.way(near, q0, q1, m, probes, n.reach)
			}
		}
	}
	if s.Family == TwoArcs && s.maxLength < math.Inf(1) {
		// The length changes by the integral of curvature times movement.
		change := func(w way) (sum float64) {
			for i, t := range [2]float64{m.turn1, m.turn2} {
				sum += moreMoved * math.Abs(t) * w.ends[i].at(w.reach[i])
			}
			return sum
		}
		if m.length-change(w) > s.maxLength {
			return verdict{gone: true}, nil
		}
		c.all = c.all && m.length+change(whole) <= s.maxLength
	}
	v.fits = m.left() >= 0
	v.whole = v.fits && c.all && b.hi >= q1
	if plain {
		v.whole = v.whole && s.partner(b, q0) <= 1/q0 && s.partner(b, q1) <= 1/q1
	}
	if s.look == nil || !v.fits {
		return v, nil
	}
	v.t, v.gone, err = s.look(m, w)
	v.fits = err == nil && v.t != nil
	if v.fits {
		v.fits, _ = v.t.fits(v.t.obstacles)
	}
	v.whole = v.whole && v.fits && v.t.keepsClear(whole)
	return v, err
}

// probes returns what is at the corners of a box.
func (s *seeker) probes(b patch, q0, q1 float64) (out []member) {
	hr := [2]half{s.halfOf(b.lo), s.halfOf(b.hi)}
	for _, q := range [2]float64{q0, q1} {
		hq := s.halfOf(q)
		out = append(out, s.member(b, q, b.lo, hq, hr[0]), s.member(b, q, b.hi, hq, hr[1]))
	}
	return out
}

// way returns how a line moves over a box from the sample m.
func (s *seeker) way(b patch, q0, q1 float64, m member, probes []member, reach [2]float64) way {
	k, l := order(b, math.Abs(m.k1), math.Abs(m.k2))
	dq, dr := s.moveOf(q0, q1, 1/k), s.moveOf(b.lo, b.hi, 1/l)
	w := way{scale: s.scale, reach: reach, arcs: reach}
	w.ends[0], w.ends[1] = order(b, dq, dr)
	for _, m := range probes {
		for i, x := range s.reach([]member{m}, everyTurn) {
			w.arcs[i] = min(w.arcs[i], x)
		}
	}
	if s.Family == TwoArcs && s.ease > 0 {
		for i := range w.ends {
			w.ends[i].fixed += (dq.curvature + dr.curvature) * s.ease * s.ease / 4
		}
	}
	return w
}

// close returns a box about the two eased arcs that touch at the ends of the
// range, half as wide again.
func (s *seeker) close(b patch, q0, q1 float64) (patch, bool) {
	at := span{math.Inf(1), math.Inf(-1)}
	for _, q := range [2]float64{q0, q1} {
		hq := s.halfOf(q)
		f := func(k float64) float64 { return s.member(b, q, 1/k, hq, s.ramp.half(s.ease, k)).missing }
		k, ok := solve.Brent(f, 1/b.hi, 1/b.lo, 1e-15/q)
		if !ok {
			return b, false
		}
		at.add(1 / k)
	}
	at = at.wider(0.5)
	b.lo, b.hi = max(b.lo, at.lo*(1-1e-9)), min(b.hi, at.hi*(1+1e-9))
	return b, true
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
