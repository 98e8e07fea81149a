package design

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
	"example.org/fourfoot/internal/solve"
)

// twoArcs returns the member that fits best of those with one arc of radius q
// and the other not sharper.
func (s *joiner) twoArcs(q float64) member {
	best := member{k1: 1 / q, k2: 1 / q, slack: badSlack}
	back := s.reversed()
	for _, h := range bothHands {
		for _, m := range s.partners(h / q) {
			best = better(best, m)
		}
		for _, m := range back.partners(h / q) {
			m.k1, m.k2, m.arc1, m.arc2 = -m.k2, -m.k1, m.arc2, m.arc1
			best = better(best, m)
		}
	}
	return best
}

// reversed returns the search for the same line run the other way.
func (s *joiner) reversed() *joiner {
	b := *s
	turn := math.Pi - s.heading // the heading that leaves the second pose backwards, turned to +x
	b.end = forward(r2.Vec{}, turn, -s.end.X, -s.end.Y)
	b.heading = math.Remainder(-s.heading, 2*math.Pi)
	return &b
}

// partners returns the members whose first arc has curvature k1 and whose
// second is not sharper.
func (s *joiner) partners(k1 float64) []member {
	in := s.ramp.half(s.ease, k1)
	if s.ease == 0 {
		k2, ok := s.plainPartner(k1)
		if !ok || math.Abs(k2) > math.Abs(k1)*(1+1e-15) {
			return nil
		}
		return []member{s.touching(k1, k2, in)}
	}
	f := func(k2 float64) float64 { g, _, _ := s.closing(k1, k2, in); return g }
	const cells = 24
	most := math.Abs(k1)
	var out []member
	a := -most
	fa := f(a)
	for i := 1; i <= cells; i++ {
		b := most * (2*float64(i)/cells - 1)
		if 2*i == cells {
			b = 1e-9 * most // a straight is no arc
		}
		fb := f(b)
		if fa == 0 {
			out = append(out, s.touching(k1, a, in))
		} else if k2, ok := solve.Brent(f, a, b, 1e-17*most); ok && fb != 0 && k2 != 0 {
			out = append(out, s.touching(k1, k2, in))
		}
		a, fa = b, fb
	}
	if fa == 0 {
		out = append(out, s.touching(k1, a, in))
	}
	return out
}

// plainPartner solves closing for plain arcs, where it is linear in k2.
func (s *joiner) plainPartner(k1 float64) (float64, bool) {
	sin, cos := math.Sincos(s.heading)
	across := -s.end.X*sin + s.end.Y*cos // of the way between the poses, to the left of the second
	num := k1*across + (1 - cos)
	den := k1/2 - s.end.Y // |end| = 1
	k2 := -num / den
	return k2, den != 0 && k2 != 0 && !math.IsInf(k2, 0) && !math.IsNaN(k2)
}

// closing returns what is missing to two arcs of curvatures k1 and k2 being
// joined by the easement between them, and the vectors from the first centre
// to the second that the poses and the easement ask for, all multiplied by
// k1·k2 so that nothing is lost as an arc becomes straight. With v, n0, n1 the
// way between the arcs' plain starts and the poses' normals, and w, a, e the
// same of the easement by itself:
//
//	|v + n1/k2 - n0/k1|² = |w + e/k2 - a/k1|²
func (s *joiner) closing(k1, k2 float64, in half) (missing float64, asked, has r2.Vec) {
	out := s.ramp.half(s.ease, -k2) // seen backwards from the second pose
	n1 := forward(r2.Vec{}, s.heading, 0, 1)
	v := r2.Sub(forward(s.end, s.heading, -out.along, -out.shift), r2.Vec{X: in.along, Y: in.shift})
	w, turn := s.ramp.end(s.ease, k1, k2)
	e := forward(r2.Vec{}, turn, 0, 1)
	missing = k1*k2*(r2.Norm2(v)-r2.Norm2(w))/2 + k1*(r2.Dot(v, n1)-r2.Dot(w, e)) - k2*(v.Y-w.Y) - (n1.Y - e.Y)
	asked = r2.Vec{X: k1*k2*v.X + k1*n1.X, Y: k1*k2*v.Y + k1*n1.Y - k2}
	has = r2.Vec{X: k1*k2*w.X + k1*e.X, Y: k1*k2*w.Y + k1*e.Y - k2}
	return missing, asked, has
}

// touching returns the member of two curvatures that close.
func (s *joiner) touching(k1, k2 float64, in half) member {
	_, asked, has := s.closing(k1, k2, in)
	_, mid := s.ramp.end(s.ease, k1, k2)
	heading := math.Atan2(asked.Y, asked.X) - math.Atan2(has.Y, has.X)
	if r2.Norm(has) < 1e-12*math.Abs(k1) { // one arc: part it in the middle
		heading = math.Copysign(turnFrom(math.Copysign(s.heading, k1*s.heading)), k1) / 2
	}
	h1, h2 := math.Copysign(1, k1), math.Copysign(1, k2)
	out := s.ramp.half(s.ease, -k2)
	t1 := turnFrom(h1 * heading)
	t2 := turnFrom(h2 * (s.heading - heading - mid))
	m := member{k1: k1, k2: k2, arc1: t1 - math.Abs(in.turn), arc2: t2 - math.Abs(out.turn), slack: newSlack()}
	m.slack.limit(BoundTurn, s.maxTurn-max(t1, t2))
	m.slack.limit(BoundArc, min(m.arc1, m.arc2))
	m.slack.limit(BoundLength, s.maxLength-(3*s.ease+m.arc1/math.Abs(k1)+m.arc2/math.Abs(k2)))
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
