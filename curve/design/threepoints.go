package design

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// ThreePoints returns the plain arc from a through b to c. With the angle φ
// between ab produced and bc (the arc's half turn), R = ac / (2 sin φ) and the
// arc turns 2φ (Euclid, Elements III.20 and III.32, from memory: the angle at the
// circumference is half that at the centre, and equals that between chord and
// tangent).
func ThreePoints(a, b, c r2.Vec) (Bend, error) {
	l := fault.In("design")
	checkPoint(l, "first point", a)
	checkPoint(l, "second point", b)
	checkPoint(l, "third point", c)
	if !l.OK() {
		return Bend{}, l.Err()
	}
	ab, bc, ac := r2.Sub(b, a), r2.Sub(c, b), r2.Sub(c, a)
	if r2.Norm(ab) == 0 || r2.Norm(bc) == 0 || r2.Norm(ac) == 0 {
		l.Add("points", nil, "must be three different places")
		return Bend{}, l.Err()
	}
	turn := angleTo(ab, bc) // half the arc's turn, left positive
	r := r2.Norm(ac) / (2 * math.Abs(math.Sin(turn)))
	if !(r <= float64(farthest)) {
		l.NoAnswer("points", nil, fmt.Sprintf("lie on one straight line: join them with a straight of %.6g mm", r2.Norm(ac)))
		return Bend{}, l.Err()
	}
	start := math.Atan2(ab.Y, ab.X) - math.Copysign(math.Abs(angleTo(r2.Scale(-1, ac), r2.Scale(-1, bc))), turn)
	return bendFrom(curve.Pose{Point: a, Heading: measure.Angle(start)}, handOf(turn), r, 2*math.Abs(turn), Easing{})
}

// angleTo returns the turn from u to v, left positive, at most half a turn.
func angleTo(u, v r2.Vec) float64 {
	return math.Atan2(float64(u.X*v.Y)-float64(u.Y*v.X), r2.Dot(u, v))
}
