package design

import (
	"math"
)

// What the corners of a box tell.
type corners struct {
	no, all bool // a limit is broken all over the box; every limit is kept
	reach   [2]float64
}

func (s *seeker) corners(b patch, q0, q1 float64, probes []member) (c corners) {
	c.all = true
	none := span{math.Inf(1), math.Inf(-1)}
	heading, mid, need1, need2, length, exists := none, none, none, none, none, none
	slackness := 1e-12 // of angles and lengths between corners
	if s.ease > 0 {
		slackness = 0.02
	}
	switch {
	case s.Family == TwoArcs && s.ease == 0:
		// All of them touch, and the heading turns one way from end to end.
		// Nothing is known if an end of the range has none, or if it turns so
		// far that the way is not sure.
		if len(probes) < 3 {
			return corners{reach: s.reach(probes, everyTurn)}
		}
		x := math.Remainder(probes[2].heading-probes[0].heading, 2*math.Pi)
		y := math.Remainder(probes[1].heading-probes[2].heading, 2*math.Pi)
		if x*y < 0 || max(math.Abs(x), math.Abs(y)) > 1.5 {
			return corners{reach: s.reach(probes, everyTurn)}
		}
		exists = span{}
	default:
		for _, m := range probes[:4] {
			exists.add(m.missing)
		}
		exists = exists.wider(1e-12)
		if s.ease > 0 {
			// Away from linear it is four times as far at the corners as in the middle.
			off := 2 * math.Abs(s.middle(b, q0, q1).missing-(probes[0].missing+probes[1].missing+probes[2].missing+probes[3].missing)/4)
			exists = span{exists.lo - off, exists.hi + off}
		}
		if s.Family == ArcStraightArc {
			c.no = exists.hi < 0
			c.all = exists.lo > 0
			break
		}
		c.no = exists.lo > 0 || exists.hi < 0
		slackness = 0.05
		// It must change its sign between the ends of the other radius, at both
		// ends of the sharper.
		x, y := probes[0].missing, probes[1].missing
		z, w := probes[2].missing, probes[3].missing
		c.all = x*y < 0 && z*w < 0 && x*z > 0 && math.Abs(x+z) > slackness*math.Abs(x-z) && math.Abs(y+w) > slackness*math.Abs(y-w)
	}
	if c.no {
		return c
	}
	undefined := 0
	for _, m := range probes {
		if m.left() != m.left() || math.IsNaN(m.missing) || math.IsNaN(m.turn1+m.turn2) {
			undefined++
		}
	}
	if undefined > 0 {
		return corners{no: undefined == len(probes), reach: s.reach(probes, everyTurn)}
	}
	ref := probes[len(probes)-1].heading
	last := probes[len(probes)-1]
	centres, square := none, none
	var curvature [2]float64 // the largest of each arc
	for _, m := range probes {
		heading.add(ref + math.Remainder(m.heading-ref, 2*math.Pi))
		if s.Family == ArcStraightArc && exists.lo <= 0 {
			heading.add(ref + math.Remainder(m.square-ref, 2*math.Pi))
		}
		centres.add(math.Remainder(m.centres-last.centres, 2*math.Pi))
		square.add(math.Remainder(m.square-last.square, 2*math.Pi))
		mid.add(m.mid)
		curvature[0], curvature[1] = max(curvature[0], math.Abs(m.k1)), max(curvature[1], math.Abs(m.k2))
		need1.add(m.turn1 - m.arc1)
		need2.add(m.turn2 - m.arc2)
	}
	type turns struct{ i, k float64 } // whole ones
	var whole []turns
	most := everyTurn
	// The way between the centres is linear in each radius: over a box it stays
	// between its corners, if those are less than half a turn apart.
	if heading.hi-heading.lo > 3 || centres.hi-centres.lo > 3 || s.Family == TwoArcs && square.hi-square.lo > 3 {
		c.all = false
	} else {
		heading = heading.wider(slackness)
		mid, need1, need2 = mid.wider(slackness), need1.wider(slackness), need2.wider(slackness)
		may, is := false, false
		most = [2]float64{}
		for i := -2.0; i <= 2; i++ {
			for k := -2.0; k <= 2; k++ {
				in := func(n1, n2, m0, m1, max1, max2 float64) span {
					one := turned(b.h1, span{n1, min(max1, s.maxTurn)}, 0, 2*math.Pi*i)
					two := turned(-b.h2, span{n2, min(max2, s.maxTurn)}, s.heading, 2*math.Pi*k)
					return span{max(one.lo, two.lo-m0), min(one.hi, two.hi-m1)}
				}
				wide := in(need1.lo, need2.lo, mid.hi, mid.lo, need1.hi+s.maxLength*curvature[0], need2.hi+s.maxLength*curvature[1])
				wide.lo, wide.hi = max(wide.lo, heading.lo), min(wide.hi, heading.hi)
				if wide.hi-wide.lo > 1e-12 || heading.hi-heading.lo <= 1e-12 && wide.hi >= wide.lo {
					may = true
					whole = append(whole, turns{i, k})
					for _, h := range [2]float64{wide.lo, wide.hi} {
						most[0] = max(most[0], b.h1*(h-2*math.Pi*i))
						most[1] = max(most[1], -b.h2*(h+mid.lo-s.heading-2*math.Pi*k), -b.h2*(h+mid.hi-s.heading-2*math.Pi*k))
					}
				}
				tight := in(need1.hi, need2.hi, mid.lo, mid.hi, s.maxTurn, s.maxTurn)
				is = is || heading.lo >= tight.lo && heading.hi <= tight.hi
			}
		}
		c.no = c.no || !may
		c.all = c.all && is
	}
	if s.Family == ArcStraightArc && s.maxLength < math.Inf(1) {
		c.all = c.all && len(whole) == 1
		if len(whole) == 1 {
			// With turns that do not jump, and no less straight than none.
			for _, m := range probes {
				h := ref + math.Remainder(m.heading-ref, 2*math.Pi)
				t1 := b.h1 * (h - 2*math.Pi*whole[0].i)
				t2 := -b.h2 * (h - s.heading - 2*math.Pi*whole[0].k)
				length.add(m.length + (t1-m.turn1)/math.Abs(m.k1) + (t2-m.turn2)/math.Abs(m.k2) + max(-m.straight, 0))
			}
			if exists.lo <= 0 {
				length = length.wider(0.1)
			}
			length = length.wider(slackness)
			c.no = c.no || length.lo > s.maxLength
			c.all = c.all && length.hi <= s.maxLength
		}
	}
	c.reach = s.reach(probes, most)
	return c
}

// middle returns the member in the middle of a box, as to what missing is
// linear in: the radii, or of two arcs the curvatures.
func (s *seeker) middle(b patch, q0, q1 float64) member {
	q, r := (q0+q1)/2, (b.lo+b.hi)/2
	if s.Family == TwoArcs {
		q, r = 2/(1/q0+1/q1), 2/(1/b.lo+1/b.hi)
	}
	return s.member(b, q, r, s.halfOf(q), s.halfOf(r))
}

// turned returns the headings, from a base, of turns to one hand.
func turned(hand float64, turn span, base, whole float64) span {
	if hand < 0 {
		turn = span{-turn.hi, -turn.lo}
	}
	return span{base + whole + turn.lo, base + whole + turn.hi}
}

var everyTurn = [2]float64{2 * math.Pi, 2 * math.Pi}

// reach returns how far the arcs run from their poses at most, if they turn no
// more than most.
func (s *seeker) reach(probes []member, most [2]float64) (out [2]float64) {
	for _, m := range probes {
		for i, x := range [2]float64{min(m.turn1, most[0]) / math.Abs(m.k1), min(m.turn2, most[1]) / math.Abs(m.k2)} {
			if x > 0 {
				out[i] = max(out[i], min(x, s.maxLength)+s.ease)
			}
		}
	}
	return out
}

// A span is a range of values.
type span struct{ lo, hi float64 }

func (s *span) add(x float64) { s.lo, s.hi = min(s.lo, x), max(s.hi, x) }

func (s span) wider(part float64) span {
	d := part * (s.hi - s.lo)
	return span{s.lo - d, s.hi + d}
}
