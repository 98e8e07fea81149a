package clearance

import (
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A GaugeNeed is what a rigid wheelbase asks of the gauge on a curve.
type GaugeNeed struct {
	Widening measure.Length // to add to the gauge; 0 when the play is enough
	Axle     int            // index of the inner axle that asks for most, -1 when no axle stands between the outer ones
	Offset   measure.Length // of that axle's middle inwards from the track centreline, the outer axles on it
	Attack   measure.Angle  // of the leading wheels on the rail: asin(wheelbase/2R)
}

// GaugeWidening returns what the rigid wheelbase of the vehicle's first body
// asks of the gauge on a curve of the given radius. play is the whole sideways
// freedom of a wheelset between the rails: gauge less the width over flanges.
//
// With the outer axles on the track centreline an inner axle at x stands
// R - √(R² - (a/2)² + x²) inside it, a the wheelbase. The outer wheels can move
// out by half the play, the inner ones in by half and by the play in their
// boxes; what is then missing is the widening. Geometry, exact for wheels taken
// as points at the rail; the longer contact of a deep flange is left out.
func GaugeWidening(v Vehicle, radius, play measure.Length) (GaugeNeed, error) {
	l := fault.In("clearance")
	v.check(l, v.field())
	fault.Positive(l, "radius", radius)
	fault.NotNegative(l, "play", play)
	if err := l.Err(); err != nil {
		return GaugeNeed{}, err
	}
	b := v.Bodies[0]
	if v.Carriers[0].Wheelbase != 0 || v.Carriers[1].Wheelbase != 0 {
		l.Add(v.field()+": carriers", "on bogies", "must be axles fixed in the body")
		return GaugeNeed{}, l.Err()
	}
	c, ok := b.chord(float64(radius), Carrier{}, Carrier{})
	if !ok {
		l.NoAnswer(v.field()+": radius", radius, fmt.Sprintf("is too sharp for both outer axles to stand on the line: it must be more than about %v", b.leastRadius(Carrier{}, Carrier{})))
		return GaugeNeed{}, l.Err()
	}
	n := GaugeNeed{Axle: -1, Attack: measure.Angle(math.Asin(float64(b.Pivots) / (2 * float64(radius))))}
	worst := measure.Length(math.Inf(-1))
	for i, a := range b.Inner {
		off := measure.Length(-c.off(float64(a.Along), 0))
		if need := off - a.Play - play; need > worst {
			worst = need
			n.Axle, n.Offset, n.Widening = i, off, max(0, need)
		}
	}
	return n, nil
}
