package wheelset

import (
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// LeastGauge returns the least gauge on which three axles in a rigid frame,
// without side play, go round a curve: the outer flanges of the end axles
// against the outer rail, the middle axle lies inside it by the versine v of
// the wheelbase on that rail, and must still find room, G ≥ B + 2T + v, both
// at their max. The wheelbase is that of the outer axles, the radius is to the
// track centreline. v is taken on the rail of the track without widening,
// radius + (B + 2T)/2, which errs wide by less than v·(G - B - 2T)/2R.
//
// Geometry, worked; no standard is followed. Two axles need no widening for
// this cause.
func LeastGauge(w Wheels, wheelbase, radius measure.Length) (measure.Length, error) {
	l := fault.In("wheelset")
	w.check(l)
	okB := fault.Positive(l, "wheelbase", wheelbase)
	if fault.Positive(l, "radius", radius) && okB && wheelbase >= 2*radius {
		l.Add("wheelbase", mm(wheelbase), "must be less than the curve's diameter, "+mm(2*radius))
	}
	over := w.overFlanges()
	for _, m := range over.missing {
		l.Add(m, nil, "must be stated")
	}
	if err := l.Err(); err != nil {
		return 0, err
	}
	rail, half := float64(radius+over.v/2), float64(wheelbase/2)
	v := half * half / (rail + math.Sqrt((rail-half)*(rail+half)))
	return over.v + measure.Length(v), nil
}
