package design

import (
	"math"
)

// A move is how an end of a line moves when its radius and curvature change by
// so much from those of a sample.
type move struct{ radius, curvature, fixed float64 }

func (s *joiner) moveOf(lo, hi, at float64) move {
	m := move{radius: max(hi-at, at-lo), curvature: max(1/at-1/hi, 1/lo-1/at)}
	if s.ease > 0 {
		mid := s.halfOf(at)
		for _, r := range [2]float64{lo, hi} {
			h := s.halfOf(r)
			m.fixed = max(m.fixed, math.Abs(h.along-mid.along)+2*math.Abs(h.shift-mid.shift))
		}
		m.fixed += m.curvature * s.ease * s.ease / 4
	}
	return m
}

// at returns how far the line moves at s from the pose: (1 - cos φ) ΔR, that
// is at most 2 ΔR and at most s²/2 of the change of curvature.
func (m move) at(s float64) float64 {
	return min(2*m.radius, s*s/2*m.curvature) + m.fixed
}

// A way is how a line moves over a box, in parts of scale.
type way struct {
	ends  [2]move
	arcs  [2]float64 // the shortest of the box's arcs, with the easements before and after
	reach [2]float64 // the longest
	scale float64
}

// at returns how far the line of the given length moves at chainage s, both
// in full size.
func (w way) at(s, length float64) float64 {
	a, b := s/w.scale, (length-s)/w.scale
	switch {
	case a <= w.arcs[0]:
		return w.scale * w.ends[0].at(a)
	case b <= w.arcs[1]:
		return w.scale * w.ends[1].at(b)
	}
	return w.scale * max(w.ends[0].at(w.reach[0]), w.ends[1].at(w.reach[1]))
}

// moreMoved is what is added to how far a line moves, for what the sample does
// not show.
const moreMoved = 1.25

// bars tells whether an obstacle, its room and place given, stands in the way
// of all lines of a box.
func (w way) bars(o Obstacle, room float64, at clearAt, length float64) bool {
	if at.offset == 0 {
		room = -float64(min(o.Left, o.Right)) // however deep the line crosses it
	}
	return room+moreMoved*w.at(at.s, length) < 0
}

// keepsClear tells whether all lines of a box keep clear of everything.
func (t *trial) keepsClear(w way) bool {
	length := float64(t.a.Length())
	spacing := length / (trialPoints - 1)
	var moved [trialPoints]float64
	for i := range moved {
		s := spacing * float64(i)
		moved[i] = moreMoved * max(w.at(max(s-spacing, 0), length), w.at(s, length), w.at(min(s+spacing, length), length))
	}
	for i, o := range t.obstacles {
		lo, hi := box(o.Points)
		need := float64(max(o.Left, o.Right))
		for k, p := range t.pts {
			if t.clear[i] < moved[k] && boxDistance(lo, hi, p) < need+moved[k]+spacing {
				return false
			}
		}
	}
	return true
}
