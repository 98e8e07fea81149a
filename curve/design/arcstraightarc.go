package design

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/internal/fault"
)

var bothHands = [2]float64{1, -1}

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
	ends := in.along + out.along
	m := member{k1: k1, k2: k2, straight: d - ends, missing: d2 - ends*ends, slack: newSlack()}
	m.centres = math.Atan2(w.Y, w.X)
	m.heading = m.centres - math.Atan2(e, max(d, 0))
	m.square = m.centres - math.Copysign(math.Pi/2, e)
	m.turn1, m.turn2 = turnFrom(h1*m.heading), turnFrom(h2*(s.heading-m.heading))
	m.arc1, m.arc2 = m.turn1-2*in.turn, m.turn2-2*out.turn
	m.length = m.straight + 2*in.length + 2*out.length + r1*m.arc1 + r2_*m.arc2
	m.slack.limit(BoundStraight, m.straight)
	m.slack.limit(BoundTurn, s.maxTurn-max(m.turn1, m.turn2))
	m.slack.limit(BoundArc, min(m.arc1, m.arc2))
	m.slack.limit(BoundLength, s.maxLength-m.length)
	return m
}

// turnFrom brings a turn into 0 to 360°, but for rounding.
func turnFrom(t float64) float64 {
	t = math.Mod(t, 2*math.Pi)
	switch {
	case t < -1e-12:
		return t + 2*math.Pi
	case t > 2*math.Pi-1e-12:
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
