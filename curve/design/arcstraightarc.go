package design

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/internal/fault"
	"example.org/fourfoot/internal/solve"
)

var bothHands = [2]float64{1, -1}

// arcStraightArc tries arcs of radius q with arcs of q and more at the other
// end, in every combination of hands.
func (s *joiner) arcStraightArc(q float64) member {
	best := member{k1: 1 / q, k2: 1 / q, slack: badSlack}
	hq := s.ramp.half(s.ease, 1/q)
	half := func(r float64) half {
		if r == q {
			return hq
		}
		return s.ramp.half(s.ease, 1/r)
	}
	try := func(first bool, h1, h2, r float64) member {
		if first {
			return s.tangent(h1/q, h2/r, hq, half(r))
		}
		return s.tangent(h1/r, h2/q, half(r), hq)
	}
	radii := partnerRadii(q)
	left := make([]float64, len(radii))
	for _, first := range [2]bool{true, false} {
		for _, h1 := range bothHands {
			for _, h2 := range bothHands {
				for i, r := range radii {
					m := try(first, h1, h2, r)
					left[i] = m.left()
					best = better(best, m)
				}
				if best.left() >= 0 {
					return best
				}
				for i := range radii {
					if i > 0 && left[i] < left[i-1] || i+1 < len(radii) && left[i] < left[i+1] {
						continue
					}
					lo, hi := radii[max(i-1, 0)], radii[min(i+1, len(radii)-1)]
					best = better(best, peak(lo, hi, s.peakSteps, func(r float64) member { return try(first, h1, h2, r) }))
				}
			}
		}
	}
	return best
}

// partnerRadii returns the radii tried beside q: what the straight does goes
// by the difference of the radii, close to q, and by their ratio, far from it.
func partnerRadii(q float64) []float64 {
	const ratio, nearest, spread = 1.35, 0.002, 1.6
	radii := []float64{q}
	r, d := q*ratio, nearest
	for last := q; last < joinLargest; {
		last = min(r, q+d)
		if last == r {
			r *= ratio
		}
		if last == q+d {
			d *= spread
		}
		radii = append(radii, last)
	}
	return radii
}

// peak finds the member with the most left between two radii; one that fits is
// enough.
func peak(lo, hi float64, steps int, at func(float64) member) (best member) {
	found := false
	a, b := math.Log(lo), math.Log(hi)
	solve.Golden(func(x float64) float64 {
		m := at(math.Exp(x))
		if !found {
			best, found = m, true
		} else {
			best = better(best, m)
		}
		return -m.left()
	}, a, b, (b-a)*math.Pow(math.Phi, -float64(steps)), 0)
	return best
}

// tangent returns the member with the given curvatures. With ρ = R + shift,
// signed by its hand, and w from centre to centre, the straight's length
// between the feet of the centres is √(w² - (ρ2 - ρ1)²) and its heading that
// of w less atan((ρ2 - ρ1) / length).
func (s *joiner) tangent(k1, k2 float64, in, out half) member {
	h1, h2 := math.Copysign(1, k1), math.Copysign(1, k2)
	r1, r2_ := 1/math.Abs(k1), 1/math.Abs(k2)
	c1 := r2.Vec{X: in.along, Y: h1 * (r1 + in.shift)}
	c2 := forward(s.end, s.heading, -out.along, h2*(r2_+out.shift))
	w := r2.Sub(c2, c1)
	e := h2*(r2_+out.shift) - h1*(r1+in.shift)
	// w² - e² = (|w| - e)(|w| + e), without the cancellation of large radii.
	n := r2.Norm(w)
	d2 := (n - math.Abs(e)) * (n + math.Abs(e))
	d := math.Copysign(math.Sqrt(math.Abs(d2)), d2)
	heading := math.Atan2(w.Y, w.X) - math.Atan2(e, max(d, 0))
	t1 := turnFrom(h1 * heading)
	t2 := turnFrom(h2 * (s.heading - heading))
	m := member{k1: k1, k2: k2, arc1: t1 - 2*in.turn, arc2: t2 - 2*out.turn, straight: d - in.along - out.along, slack: newSlack()}
	m.slack.limit(BoundStraight, m.straight)
	m.slack.limit(BoundTurn, s.maxTurn-max(t1, t2))
	m.slack.limit(BoundArc, min(m.arc1, m.arc2))
	m.slack.limit(BoundLength, s.maxLength-(m.straight+2*in.length+2*out.length+r1*m.arc1+r2_*m.arc2))
	return m
}

// turnFrom brings a turn into -90° to 270°: a little less than nothing stays
// so, and is a fault that shows how large it is.
func turnFrom(t float64) float64 {
	t = math.Mod(t, 2*math.Pi)
	switch {
	case t < -math.Pi/2:
		return t + 2*math.Pi
	case t >= 3*math.Pi/2:
		return t - 2*math.Pi
	}
	return t
}

func (s *joiner) buildStraight(l *fault.List, out *Joined) {
	ease := Ease(s.shape, s.Ease)
	at := s.From
	for i := range out.Arcs {
		arc := &out.Arcs[i]
		h := newHalf(s.shape, float64(s.Ease), float64(arc.Radius))
		b, err := bendFrom(at, arc.Hand, float64(arc.Radius), float64(arc.Turn)+2*h.turn, ease)
		if err != nil {
			l.Join(err)
			return
		}
		arc.Centre = b.Centre
		if len(b.elements) > 0 {
			out.bend(b)
		}
		at = b.End
		if i == 0 {
			out.straight(float64(out.Between), s.scale)
			at = curve.Pose{Point: forward(at.Point, float64(at.Heading), float64(out.Between), 0), Heading: at.Heading}
		}
	}
}
