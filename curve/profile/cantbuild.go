package profile

import (
	"fmt"
	"math"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A CantPoint is the cant at a chainage, and how it goes on to the next point.
type CantPoint struct {
	Chainage measure.Length
	Cant     measure.Length // positive: right rail higher
	Law      curve.Shape    // of the ramp to the next point; zero means linear
}

// NewCant returns the cant of an open line through points in order of
// chainage; before the first and after the last it stays as it is there.
func NewCant(datum Datum, points ...CantPoint) (Cant, error) { return newCant(datum, 0, 0, points) }

// NewClosedCant returns the cant of a circuit of the given length through
// points that lie within one lap of the first; after the last the ramp leads
// on to the first. When the last stands a whole lap from the first, the two
// are one place and must agree within the tolerance.
func NewClosedCant(datum Datum, length, tolerance measure.Length, points ...CantPoint) (Cant, error) {
	if err := checkCircuit(length, tolerance); err != nil {
		return Cant{}, err
	}
	return newCant(datum, float64(length), float64(tolerance), points)
}

func newCant(datum Datum, circuit, tolerance float64, points []CantPoint) (Cant, error) {
	l := fault.In("profile")
	checkDatum(l, datum)
	spread(l, len(points), func(i int) measure.Length { return points[i].Chainage }, measure.Length(circuit))
	if len(points) <= MaxPoints {
		for i, p := range points {
			within(l, fmt.Sprintf("point %d: cant", i+1), p.Cant)
			if p.Law == curve.CircularArc || p.Law > curve.Helmert {
				l.Add(fmt.Sprintf("point %d: law of the ramp", i+1), p.Law, "must be linear or that of an easement")
			}
		}
	}
	if !l.OK() {
		return Cant{}, l.Err()
	}
	n := len(points)
	first, last := points[0], points[n-1]
	if circuit > 0 && n > 1 && float64(last.Chainage-first.Chainage) > circuit*(1-1e-12) {
		if gap := float64(last.Cant - first.Cant); math.Abs(gap) > tolerance+1e-9 {
			l.Add("cants of the circuit", mm(last.Cant-first.Cant)+" apart where it meets its start", "must agree within "+mm(measure.Length(tolerance)))
			return Cant{}, l.Err()
		}
		points = points[:n-1]
		n--
	}
	out := Cant{chain[ramp]{circuit: circuit}, datum}
	if circuit == 0 {
		out.add(math.Inf(-1), ramp{v0: float64(first.Cant)})
	}
	for j, p := range points {
		s, r := float64(p.Chainage), ramp{v0: float64(p.Cant)}
		switch {
		case j+1 < n:
			r = ramp{s, float64(points[j+1].Chainage) - s, float64(p.Cant), float64(points[j+1].Cant), law(p.Law), nil}
		case circuit > 0 && n > 1:
			r = ramp{s, float64(points[0].Chainage) + circuit - s, float64(p.Cant), float64(points[0].Cant), law(p.Law), nil}
		}
		if math.Abs(r.v1-r.v0) > float64(Steepest)*r.length && r.length > 0 {
			l.Add(fmt.Sprintf("ramp after point %d", j+1), fmt.Sprintf("%.6g mm of cant in %.6g mm", r.v1-r.v0, r.length), "must not be steeper than 1 in 1")
		}
		out.add(s, r)
	}
	if !l.OK() {
		return Cant{}, l.Err()
	}
	return out, nil
}

func (c *Cant) add(from float64, r ramp) {
	c.chain.pieces, c.chain.from = append(c.chain.pieces, r), append(c.chain.from, from)
}

func checkDatum(l *fault.List, d Datum) {
	if d < InnerRail || d > OuterRail {
		l.Add("datum", d, "must be InnerRail, Centreline or OuterRail: say which rail stays level")
	}
}
