package design

import (
	"math"
)

// What the corners of a box tell.
type corners struct {
	no, all bool // a limit is broken all over the box; every limit is kept
	reach   [2]float64

	exists    span    // what missing goes over
	slackness float64 // of what is not linear: added to spans of angles and lengths
	ref       member  // from which angles are counted
	whole     []turns // whole turns with which the headings of the box may keep the limits
}

// turns are the whole turns taken off those of the two arcs.
type turns struct{ first, second float64 }

// corners looks at what the corners of a box, and its sample last, are.
func (s *seeker) corners(b patch, q0, q1 float64, probes []member) corners {
	c := corners{all: true, reach: s.reach(probes, everyTurn), slackness: 1e-12, ref: probes[len(probes)-1]}
	if s.ease > 0 {
		c.slackness = 0.02
	}
	if known := s.existence(&c, b, q0, q1, probes); !known || c.no {
		c.all = false
		return c
	}
	undefined := 0
	for _, m := range probes {
		if math.IsNaN(m.missing) || math.IsNaN(m.turn1+m.turn2) {
			undefined++
		}
	}
	if undefined > 0 {
		c.no, c.all = undefined == len(probes), false
		return c
	}
	s.headings(&c, b, probes)
	if s.Family == ArcStraightArc && s.maxLength < math.Inf(1) {
		s.lengths(&c, b, probes)
	}
	return c
}

// existence looks at whether there is a straight between the arcs, or whether
// they touch.
func (s *seeker) existence(c *corners, b patch, q0, q1 float64, probes []member) (known bool) {
	if s.Family == TwoArcs && s.ease == 0 {
		// All of them touch, and the heading turns one way from end to end.
		// Nothing is known if an end of the range has none, or if it turns so
		// far that the way is not sure.
		if len(probes) < 3 {
			return false
		}
		x := math.Remainder(probes[2].heading-probes[0].heading, 2*math.Pi)
		y := math.Remainder(probes[1].heading-probes[2].heading, 2*math.Pi)
		return x*y >= 0 && max(math.Abs(x), math.Abs(y)) <= 1.5
	}
	c.exists = nothing
	sum := 0.0
	for _, m := range probes[:4] {
		c.exists.add(m.missing)
		sum += m.missing
	}
	c.exists = c.exists.wider(1e-12)
	if s.ease > 0 {
		// The corners are linear to as much as the middle is.
		off := 2 * math.Abs(s.middle(b, q0, q1).missing-sum/4)
		c.exists = span{c.exists.lo - off, c.exists.hi + off}
	}
	if s.Family == ArcStraightArc {
		c.no = c.exists.hi < 0
		c.all = c.exists.lo > 0
		return true
	}
	c.no = c.exists.lo > 0 || c.exists.hi < 0
	c.slackness = 0.05
	// It must change its sign between the ends of the other radius, at both
	// ends of the sharper.
	x, y := probes[0].missing, probes[1].missing
	z, w := probes[2].missing, probes[3].missing
	c.all = x*y < 0 && z*w < 0 && x*z > 0 && math.Abs(x+z) > c.slackness*math.Abs(x-z) && math.Abs(y+w) > c.slackness*math.Abs(y-w)
	return true
}

// headings looks at the turns. The way between the centres is linear in each
// radius: over a box it stays between its corners, if those are less than half
// a turn apart; else nothing is known.
func (s *seeker) headings(c *corners, b patch, probes []member) {
	heading, mid, need1, need2, centres, square := nothing, nothing, nothing, nothing, nothing, nothing
	var curvature [2]float64 // the largest of each arc
	for _, m := range probes {
		heading.add(c.ref.headingTo(m.heading))
		if s.Family == ArcStraightArc && c.exists.lo <= 0 {
			heading.add(c.ref.headingTo(m.square))
		}
		centres.add(math.Remainder(m.centres-c.ref.centres, 2*math.Pi))
		square.add(math.Remainder(m.square-c.ref.square, 2*math.Pi))
		mid.add(m.mid)
		curvature[0], curvature[1] = max(curvature[0], math.Abs(m.k1)), max(curvature[1], math.Abs(m.k2))
		need1.add(m.turn1 - m.arc1)
		need2.add(m.turn2 - m.arc2)
	}
	if heading.hi-heading.lo > 3 || centres.hi-centres.lo > 3 || s.Family == TwoArcs && square.hi-square.lo > 3 {
		c.all = false
		return
	}
	heading = heading.wider(c.slackness)
	mid, need1, need2 = mid.wider(c.slackness), need1.wider(c.slackness), need2.wider(c.slackness)
	within := false
	var most [2]float64
	for i := -2.0; i <= 2; i++ {
		for k := -2.0; k <= 2; k++ {
			// The headings that give both arcs a turn from n to max.
			in := func(n1, n2, m0, m1, max1, max2 float64) span {
				one := turned(b.h1, span{n1, min(max1, s.maxTurn)}, 0, 2*math.Pi*i)
				two := turned(-b.h2, span{n2, min(max2, s.maxTurn)}, s.heading, 2*math.Pi*k)
				return span{max(one.lo, two.lo-m0), min(one.hi, two.hi-m1)}
			}
			may := in(need1.lo, need2.lo, mid.hi, mid.lo, need1.hi+s.maxLength*curvature[0], need2.hi+s.maxLength*curvature[1])
			may.lo, may.hi = max(may.lo, heading.lo), min(may.hi, heading.hi)
			if may.hi-may.lo > 1e-12 || heading.hi-heading.lo <= 1e-12 && may.hi >= may.lo {
				c.whole = append(c.whole, turns{i, k})
				for _, h := range [2]float64{may.lo, may.hi} {
					most[0] = max(most[0], b.h1*(h-2*math.Pi*i))
					most[1] = max(most[1], -b.h2*(h+mid.lo-s.heading-2*math.Pi*k), -b.h2*(h+mid.hi-s.heading-2*math.Pi*k))
				}
			}
			must := in(need1.hi, need2.hi, mid.lo, mid.hi, s.maxTurn, s.maxTurn)
			within = within || heading.lo >= must.lo && heading.hi <= must.hi
		}
	}
	c.no = c.no || len(c.whole) == 0
	c.all = c.all && within
	c.reach = s.reach(probes, most)
}

// lengths looks at the length, with turns that do not jump from corner to
// corner and no less straight than none.
func (s *seeker) lengths(c *corners, b patch, probes []member) {
	if len(c.whole) != 1 {
		c.all = false
		return
	}
	length := nothing
	for _, m := range probes {
		h := c.ref.headingTo(m.heading)
		t1 := b.h1 * (h - 2*math.Pi*c.whole[0].first)
		t2 := -b.h2 * (h - s.heading - 2*math.Pi*c.whole[0].second)
		length.add(m.length + (t1-m.turn1)/math.Abs(m.k1) + (t2-m.turn2)/math.Abs(m.k2) + max(-m.straight, 0))
	}
	if c.exists.lo <= 0 {
		length = length.wider(0.1)
	}
	length = length.wider(c.slackness)
	c.no = c.no || length.lo > s.maxLength
	c.all = c.all && length.hi <= s.maxLength
}

// headingTo returns a heading as less than half a turn from the member's.
func (m member) headingTo(h float64) float64 {
	return m.heading + math.Remainder(h-m.heading, 2*math.Pi)
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

var nothing = span{math.Inf(1), math.Inf(-1)}

func (s *span) add(x float64) { s.lo, s.hi = min(s.lo, x), max(s.hi, x) }

func (s span) wider(part float64) span {
	d := part * (s.hi - s.lo)
	return span{s.lo - d, s.hi + d}
}
