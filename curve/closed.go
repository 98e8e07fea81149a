package curve

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// What a circuit may miss its start by, however much is tolerated. More is no
// rounding of a plan; the elements must be changed.
const (
	maxGap   = 1e-3
	maxSlack = 1 * measure.Degree

	maxSpreadTurn = 64 * math.Pi // of an arc, where a misclosure is to be spread
)

// NewClosed returns the circuit that begins at start, runs through elements
// and meets its start again within tolerance in place and slack in heading; 0
// allows rounding only.
//
// A misclosure that is tolerated is spread over the whole lap, so that the
// circuit closes to rounding and is the same wherever it starts: that of the
// heading as a curvature, the same everywhere; then that of the place as a
// shift that grows evenly with the chainage. So along a circuit with a gap of
// 0.5 mm in 20 m, chainage and centreline differ by up to 25 µm a metre. Where
// that matters, change the elements until they close. At most a thousandth of
// the length and one degree are spread, whatever is tolerated.
func NewClosed(start Pose, tolerance measure.Length, slack measure.Angle, elements ...Element) (*Alignment, error) {
	l := fault.In("curve")
	l.Join(check(start, elements))
	fault.NotNegative(l, "tolerance of misclosure", tolerance)
	fault.NotNegative(l, "slack of heading", slack)
	if !l.OK() {
		return nil, l.Err()
	}
	a := build(start, elements)
	turn := math.Remainder(float64(a.final.Heading-start.Heading), 2*math.Pi)
	gap := r2.Norm(r2.Sub(a.final.Point, start.Point))
	roundingTurn := 1e-12 * (1 + math.Abs(float64(a.final.Heading-start.Heading)))
	if limit := min(max(float64(slack), roundingTurn), float64(maxSlack)); math.Abs(turn) > limit {
		l.Add("heading at the end of the circuit", degrees(turn), fmt.Sprintf("must be within %s of the start's", degrees(limit)))
	}
	rounding := 1e-12 * (a.length + math.Abs(start.Point.X) + math.Abs(start.Point.Y))
	if limit := min(max(float64(tolerance), rounding), maxGap*a.length); gap > limit {
		to := r2.Sub(a.final.Point, start.Point)
		l.Add("end of the circuit", fmt.Sprintf("%.3f mm", gap), fmt.Sprintf("must be within %s of the start; it lies %.3f mm east and %.3f mm north of it",
			fmt.Sprintf("%.6g mm", limit), to.X, to.Y))
	}
	if !l.OK() {
		return nil, l.Err()
	}
	var b bias
	if math.Abs(turn) > roundingTurn || gap > rounding {
		for i := range elements {
			if turn := math.Abs(elements[i].heading(elements[i].length)); turn > maxSpreadTurn {
				l.Over(fmt.Sprintf("element %d: turn", i+1), degrees(turn), "in a circuit with a misclosure an arc turns at most "+degrees(maxSpreadTurn))
				return nil, l.Err()
			}
		}
	}
	if math.Abs(turn) > roundingTurn {
		b.bent = -turn / a.length
		a = build(start, elements, b)
	}
	if to := r2.Sub(a.final.Point, start.Point); r2.Norm(to) > rounding {
		b.dx, b.dy = -to.X/a.length, -to.Y/a.length
		a = build(start, elements, b)
	}
	return a.close(), nil
}

// close makes the prepared line a circuit.
func (a *Alignment) close() *Alignment {
	a.closed = true
	laps := math.Round(float64(a.final.Heading-a.first.Heading) / (2 * math.Pi))
	a.final = Pose{a.first.Point, a.first.Heading + measure.Angle(2*math.Pi*laps)}
	return a
}

// Restart returns the same circuit with its start put at chainage s: what was
// at s + x is at x, and nothing else changes. It refuses an open line.
func (a *Alignment) Restart(s measure.Length) (*Alignment, error) {
	l := fault.In("curve")
	if !a.closed {
		l.Add("line", "open", "must be a circuit to be started elsewhere; take a part of it")
	}
	fault.Finite(l, "chainage of the start", s)
	if !l.OK() {
		return nil, l.Err()
	}
	x := a.reduce(float64(s))
	i, from := a.element(x)
	n := len(a.elements)
	var all []Element
	var biases []bias
	for j := range n {
		all = append(all, a.elements[(i+j)%n])
		biases = append(biases, a.placings[(i+j)%n].bias)
	}
	start := Pose{a.Point(measure.Length(x)), measure.Angle(a.turned(x))}
	if from > 0 {
		whole := all[0]
		all[0] = whole.part(from, whole.length)
		all = append(all, whole.part(0, from))
		biases = append(biases, biases[0])
	} else {
		start.Heading -= measure.Angle(all[0].kink)
	}
	return build(start, all, biases...).close(), nil
}
