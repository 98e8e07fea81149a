package design

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// closing returns what is missing to two arcs of curvatures k1 and k2 being
// joined by the easement between them, and the vectors from the first centre
// to the second that the poses and the easement ask for, all multiplied by
// k1·k2 so that nothing is lost as an arc becomes straight. With v, n0, n1 the
// way between the arcs' plain starts and the poses' normals, and w, a, e the
// same of the easement by itself:
//
//	|v + n1/k2 - n0/k1|² = |w + e/k2 - a/k1|²
//
// out is seen backwards from the second pose.
func (s *joiner) closing(k1, k2 float64, in, out half) (missing float64, asked, has r2.Vec, mid float64) {
	n1 := forward(r2.Vec{}, s.heading, 0, 1)
	v := r2.Sub(forward(s.end, s.heading, -out.along, -out.shift), r2.Vec{X: in.along, Y: in.shift})
	w, mid := s.ramp.end(s.ease, k1, k2)
	e := forward(r2.Vec{}, mid, 0, 1)
	missing = k1*k2*(r2.Norm2(v)-r2.Norm2(w))/2 + k1*(r2.Dot(v, n1)-r2.Dot(w, e)) - k2*(v.Y-w.Y) - (n1.Y - e.Y)
	asked = r2.Vec{X: k1*k2*v.X + k1*n1.X, Y: k1*k2*v.Y + k1*n1.Y - k2}
	has = r2.Vec{X: k1*k2*w.X + k1*e.X, Y: k1*k2*w.Y + k1*e.Y - k2}
	return missing, asked, has, mid
}

// touching returns the member of two curvatures, which is one only where they
// close: what is missing is in parts of both curvatures.
func (s *joiner) touching(k1, k2 float64, in, out half) member {
	missing, asked, has, mid := s.closing(k1, k2, in, out)
	heading := math.Atan2(asked.Y, asked.X) - math.Atan2(has.Y, has.X)
	centres, square := math.Atan2(asked.Y, asked.X), math.Atan2(has.Y, has.X)
	if s.ease == 0 {
		centres, square = 0, 0 // along the two arcs that touch the heading itself is enough
	}
	if r2.Norm(has) < 1e-12*math.Abs(k1) { // one arc: part it in the middle
		heading = math.Copysign(turnFrom(math.Copysign(s.heading, k1*s.heading)), k1) / 2
	}
	h1, h2 := math.Copysign(1, k1), math.Copysign(1, k2)
	m := member{k1: k1, k2: k2, missing: missing, heading: heading, centres: centres, square: square, mid: mid, slack: newSlack()}
	m.turn1 = turnFrom(h1 * heading)
	m.turn2 = turnFrom(h2 * (s.heading - heading - mid))
	m.arc1, m.arc2 = m.turn1-math.Abs(in.turn), m.turn2-math.Abs(out.turn)
	m.length = 3*s.ease + m.arc1/math.Abs(k1) + m.arc2/math.Abs(k2)
	m.slack.limit(BoundTurn, s.maxTurn-max(m.turn1, m.turn2))
	m.slack.limit(BoundArc, min(m.arc1, m.arc2))
	m.slack.limit(BoundLength, s.maxLength-m.length)
	return m
}

func (s *joiner) buildTwo(l *fault.List, out *Joined) {
	k := [2]measure.Curvature{}
	for i, a := range out.Arcs {
		k[i] = measure.Curvature(float64(a.Hand) / float64(a.Radius))
	}
	add := func(e curve.Element, err error) {
		l.Join(err)
		out.Elements = append(out.Elements, e)
	}
	arc := func(i int) {
		a := &out.Arcs[i]
		if float64(a.Length) > max(roundingLength, 1e-13*s.scale) {
			add(curve.NewArc(a.Radius, a.Turn, a.Hand))
		}
		p := s.From
		if line, err := curve.New(s.From, out.Elements...); err == nil && l.OK() {
			p = line.End()
		}
		a.Centre = forward(p.Point, float64(p.Heading), 0, float64(a.Hand)*float64(a.Radius))
	}
	if s.Ease > 0 {
		add(curve.NewEasement(s.shape, s.Ease, 0, k[0]))
	}
	arc(0)
	if s.Ease > 0 {
		add(curve.NewEasement(s.shape, s.Ease, k[0], k[1]))
	}
	arc(1)
	if s.Ease > 0 {
		add(curve.NewEasement(s.shape, s.Ease, k[1], 0))
	}
}
