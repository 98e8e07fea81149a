package design

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// HalfTurn returns the bend of 180° that leaves the straight of from at its
// place and arrives on the straight of to, which runs back beside it: the end
// of an oval, where there is no intersection point. The distance of the
// straights gives the radius:
//
//	D = 2R + p1 + p2
//
// with p1, p2 the shifts of its easements. Where to is lies along its straight
// does not matter. D must be large enough for the easements; if not, the error
// (measure.ErrNoAnswer) tells the least distance.
func HalfTurn(from, to curve.Pose, ease Easing) (Bend, error) {
	l := fault.In("design")
	checkPose(l, "from", from)
	checkPose(l, "to", to)
	ease.check(l, "easement")
	if !l.OK() {
		return Bend{}, l.Err()
	}
	if off := math.Remainder(float64(to.Heading-from.Heading)-math.Pi, 2*math.Pi); math.Abs(off) > 1e-9 {
		l.Add("to heading", to.Heading, fmt.Sprintf("must run back beside the first straight; it is %.6g° off, make a corner of the two", measure.Angle(off).Degrees()))
		return Bend{}, l.Err()
	}
	side := leftOf(float64(from.Heading), r2.Sub(to.Point, from.Point))
	d := math.Abs(side)
	spare := func(r float64) float64 {
		in, out := ease.halves(r)
		return 2*r + in.shift + out.shift - d
	}
	lo, hi := ease.smallest(math.Pi)*(1+1e-12), d/2
	r, ok := hi, ease.In == 0 && ease.Out == 0 && d > 0
	if !ok {
		r, ok = lastRoot(spare, max(lo, 1e-6*hi), hi)
	}
	if !ok {
		least := 0.0
		if lo > 0 {
			least = spare(lo) + d
		}
		l.NoAnswer("distance of the straights", measure.Length(d), fmt.Sprintf("with easements of %v and %v it must be at least %.6g mm; shorten them", ease.In, ease.Out, least))
		return Bend{}, l.Err()
	}
	return bendFrom(from, handOf(side), r, math.Pi, ease)
}
