package design

import (
	"context"
	"fmt"
	"math"

	"example.org/fourfoot/internal/fault"
)

// A seeker looks through a family of lines: through boxes of two radii, that
// of the sharper arc and that of the other, for each pair of hands and for
// either arc as the sharper. A box is dropped when one limit is broken, or one
// obstacle stands in the way, all over it; it is known to fit when none is
// anywhere in it; else it is halved.
//
// What is known of a box comes from its corners. For plain arcs that is exact:
// with signed radii ρ, and e from the first pose to the second, the length d of
// the straight between the arcs has
//
//	d² = e² + 2ρ2 e·n2 - 2ρ1 e·n1 + 2ρ1ρ2 (1 - cos of the angle between the poses)
//
// linear in each radius; what is missing to two arcs touching (closing) is
// linear in each curvature, so that the second follows from the first. The
// straight's heading and the length rise or fall with each radius all over the
// box, since
//
//	∂(turn 1)/∂R1 = (1 - cos turn 1) / d,  ∂length/∂R1 = turn 1 - sin turn 1
//
// (worked, from the movement below). With easements it holds of the arcs as
// their shifts move them; how far that is from linear shows in the middle of
// the box, and twice that is added, with a fiftieth (between two arcs a
// twentieth) of what the headings and lengths at the corners differ by.
//
// What a box does to the room of an obstacle comes from how far the line moves
// square to itself: (1 - cos φ) dR where an arc has turned φ from its pose, and
// between the arcs no more than at their ends; nothing else moves it, as the
// poses do not. A quarter is added. The line's points are compared with the
// obstacles at 48 places.
type seeker struct {
	*joiner
	ctx context.Context
	// look returns the line among the obstacles, or that one of them bars all of
	// the box; nil without any.
	look   func(member, way) (t *trial, barred bool, err error)
	looked int
	tiny   float64 // how far a line may move before the radius that is not the smaller is settled
}

// A patch is a range of the radius that is not the smaller, for one pair of
// hands.
type patch struct {
	h1, h2     float64
	firstSharp bool
	lo, hi     float64
}

// boxes returns all of a family for pairs of hands, the other radius from lo.
func (s *joiner) boxes(lo float64, hands ...[2]float64) []patch {
	hi := joinLargest
	if s.Family == TwoArcs {
		hi = 1e12 // the second arc may be all but straight
	}
	var out []patch
	for _, h := range hands {
		out = append(out, patch{h[0], h[1], true, lo, hi}, patch{h[0], h[1], false, lo, hi})
	}
	return out
}

var everyHand = [][2]float64{{1, 1}, {1, -1}, {-1, 1}, {-1, -1}}

// order puts what belongs to the sharper arc and the other in running order.
func order[T any](b patch, sharp, other T) (first, second T) {
	if b.firstSharp {
		return sharp, other
	}
	return other, sharp
}

// member returns the line with the sharper radius q and the other r.
func (s *joiner) member(b patch, q, r float64, hq, hr half) member {
	k1, k2 := order(b, 1/q, 1/r)
	in, out := order(b, hq, hr)
	if s.Family == ArcStraightArc {
		return s.tangent(b.h1*k1, b.h2*k2, in, out)
	}
	return s.touching(b.h1*k1, b.h2*k2, in.signed(b.h1), out.signed(-b.h2))
}

func (s *joiner) halfOf(r float64) half { return s.ramp.half(s.ease, 1/r) }

// mostPatches is how many boxes are looked at for one range of the smaller
// radius before they are halved no more.
const mostPatches = 4000

// MaxJoinBoxes is the most boxes of radii that the search for a join looks at,
// some ten seconds.
const MaxJoinBoxes = 2_000_000

// spend counts the boxes looked at.
func (s *seeker) spend() error {
	if s.looked++; s.looked <= MaxJoinBoxes {
		return s.ctx.Err()
	}
	l := fault.In("design")
	l.Over("boxes of radii looked at", nil, fmt.Sprintf("more than %d: give a longest join, a smaller turn or a narrower range of radii", MaxJoinBoxes))
	return l.Err()
}

// reduce looks at boxes over a range of sharper radii, halving the other
// radius while that moves the line more than the range does. It returns the
// boxes that are still open, and the best sample; whole means that all of the
// range fits. When first is set it stops at the first sample that fits.
func (s *seeker) reduce(q0, q1 float64, boxes []patch, first bool) (open []patch, best verdict, whole bool, err error) {
	queue := append([]patch(nil), boxes...)
	for i := 0; i < len(queue); i++ {
		b := queue[i]
		if b.lo = max(b.lo, q0); b.lo > b.hi {
			continue
		}
		if err := s.spend(); err != nil {
			return nil, best, false, err
		}
		v, err := s.judge(b, q0, q1)
		if err != nil {
			return nil, best, false, err
		}
		if v.fits && !best.fits {
			best = v
			if first {
				return nil, best, false, nil
			}
		}
		switch mid := 2 / (1/b.lo + 1/b.hi); {
		case v.gone:
		case v.whole:
			return nil, v, true, nil
		case v.moveR >= v.moveQ && v.moveR > s.tiny && mid > b.lo && mid < b.hi && b.hi/b.lo-1 > (q1/q0-1)/8 && len(queue) < mostPatches:
			sharp, gentle := b, b
			sharp.hi, gentle.lo = mid, mid
			queue = append(queue, gentle, sharp)
		default:
			open = append(open, b)
		}
	}
	return open, best, false, nil
}

// exists returns a member with the smaller radius q.
func (s *seeker) exists(q float64, boxes []patch) (verdict, bool, error) {
	_, v, _, err := s.reduce(q, q, boxes, true)
	return v, v.fits, err
}

// edge narrows between a radius that has a member and one that has none.
func (s *seeker) edge(in verdict, out float64, boxes []patch, within float64) (verdict, error) {
	for range 60 {
		a := in.m.smallest()
		mid := math.Sqrt(a * out)
		if math.Abs(out-a) <= within*a || mid == a || mid == out {
			break
		}
		v, ok, err := s.exists(mid, boxes)
		if err != nil {
			return in, err
		}
		if ok {
			in = v
		} else {
			out = mid
		}
	}
	return in, nil
}

// top finds the largest radius of a range that has a member, by halves, down
// to parts of within; out is a radius above it that has none.
func (s *seeker) top(q0, q1 float64, boxes []patch, within float64) (in verdict, out float64, found bool, err error) {
	boxes, v, whole, err := s.reduce(q0, q1, boxes, false)
	switch {
	case err != nil || !v.fits && len(boxes) == 0:
		return v, 0, false, err
	case whole || q1 <= q0*(1+within):
		return v, q1 * (1 + within), v.fits, nil
	}
	if v.fits { // nothing below matters
		q0 = v.m.smallest()
	}
	mid := math.Sqrt(q0 * q1)
	if in, out, found, err = s.top(mid, q1, boxes, within); found || err != nil {
		return in, out, found, err
	}
	if in, out, found, err = s.top(q0, mid, boxes, within); found || err != nil || !v.fits {
		return in, out, found, err
	}
	return v, q0 * (1 + within), true, nil
}

func (h half) signed(hand float64) half {
	h.turn *= hand
	h.shift *= hand
	return h
}

// gentlest returns, of the members with the smaller radius q, the one whose
// other radius is largest.
func (s *seeker) gentlest(in verdict, boxes []patch) (verdict, error) {
	q := in.m.smallest()
	for _, start := range boxes {
		stack := []patch{start}
		for looked := 0; len(stack) > 0 && looked < mostPatches; looked++ {
			b := stack[len(stack)-1]
			stack = stack[:len(stack)-1]
			if b.hi <= in.m.largest() {
				continue
			}
			if err := s.spend(); err != nil {
				return in, err
			}
			v, err := s.judge(b, q, q)
			if err != nil {
				return in, err
			}
			if v.fits && v.m.largest() > in.m.largest() {
				in = v
			}
			if mid := 2 / (1/b.lo + 1/b.hi); !v.gone && v.moveR > s.tiny && mid > b.lo && mid < b.hi {
				sharp, gentle := b, b
				sharp.hi, gentle.lo = mid, mid
				stack = append(stack, sharp, gentle)
			}
		}
	}
	return in, nil
}
