package trackbed

import (
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/caution"
	"example.org/fourfoot/internal/fault"
	"example.org/fourfoot/internal/solve"
)

// gravity is standard gravity in m/s² (CGPM 1901).
const gravity = 9.80665

// A Bearer is one or several equal rectangular timbers side by side that carry
// the track from post to post.
type Bearer struct {
	Width   measure.Length // of one timber
	Height  measure.Length
	Count   int             // 0 means 1
	Modulus measure.Stress  // of elasticity, see Timbers
	Density measure.Density // for its own weight; 0: its weight is in the load
}

// A Load is what stands on a bay. It is for model trains, not for people: a
// foot on the boards is the user's to add as a Point.
type Load struct {
	Lasting measure.LinearMass // boards, ballast, track
	Moving  measure.LinearMass // train, as a mass along the line
	Point   measure.Mass       // at the middle of the bay: the heaviest engine
	// Creep is the part by which sag under the lasting load grows with the years;
	// 0 for none. EN 1995-1-1 has 0.8 under cover and 2 outdoors (from memory).
	Creep float64
}

// A SagLimit is the most that a bay may sag: a part of its span, a length, or
// whichever of the two is less.
type SagLimit struct {
	SpanOver float64        // 300 for span/300; 0: not limited so
	Most     measure.Length // 0: not limited so
}

// A Bay is a span and what happens on it.
type Bay struct {
	Span     measure.Length
	Sag      measure.Length // at the middle, creep included
	Creep    measure.Length // the part of Sag that comes with the years
	Moment   float64        // bending moment at the middle, N·mm
	Stress   measure.Stress // of bending; whether the timber bears it is for its maker's tables
	Cautions []string
}

func (b Bearer) check(l *fault.List) {
	fault.Size(l, "bearer width", b.Width)
	fault.Size(l, "bearer height", b.Height)
	fault.Between(l, "modulus of elasticity", b.Modulus, 100, 500e3)
	fault.Between(l, "bearer density", b.Density, 0, 20000)
	if b.Count < 0 || b.Count > 100 {
		l.Add("bearers side by side", b.Count, "must be from 0 (for 1) to 100")
	}
}

func (q Load) check(l *fault.List) {
	fault.Amount(l, "lasting load", q.Lasting)
	fault.Amount(l, "moving load", q.Moving)
	fault.Amount(l, "point load", q.Point)
	fault.Between(l, "creep", q.Creep, 0, 10)
}

// bay returns sag and moment on a span: 5qL⁴/384EI and PL³/48EI, qL²/8 and PL/4
// (simply supported beam, any handbook).
func (b Bearer) bay(q Load, span float64) Bay {
	n := float64(max(b.Count, 1))
	w, h := float64(b.Width), float64(b.Height)
	ei := float64(b.Modulus) * n * w * h * h * h / 12
	own := n * w * h * float64(b.Density) * 1e-9         // kg/mm
	lasting := (float64(q.Lasting)*1e-3 + own) * gravity // N/mm
	moving, p := float64(q.Moving)*1e-3*gravity, float64(q.Point)*gravity
	spread := func(q float64) float64 { return 5 * q * math.Pow(span, 4) / (384 * ei) }
	creep := q.Creep * spread(lasting)
	moment := (lasting+moving)*span*span/8 + p*span/4
	return Bay{
		Span: measure.Length(span), Creep: measure.Length(creep),
		Sag:    measure.Length(spread(lasting) + creep + spread(moving) + p*span*span*span/(48*ei)),
		Moment: moment, Stress: measure.Stress(moment / (n * w * h * h / 6)),
		Cautions: []string{caution.Lifting, caution.Cutting},
	}
}

// Bay returns what a bay of the given span does under the load.
func (b Bearer) Bay(q Load, span measure.Length) (Bay, error) {
	l := fault.In("trackbed")
	b.check(l)
	q.check(l)
	fault.Size(l, "span", span)
	if !l.OK() {
		return Bay{}, l.Err()
	}
	return b.bay(q, float64(span)), nil
}

// longestBay is the longest span that LongestBay will give.
const longestBay = 20e3

// LongestBay returns the longest bay that keeps the limit of sag under the load.
func (b Bearer) LongestBay(q Load, most SagLimit) (Bay, error) {
	l := fault.In("trackbed")
	b.check(l)
	q.check(l)
	r := most.SpanOver == 0 || fault.Between(l, "limit of sag, span over", most.SpanOver, 50, 10000)
	if m := fault.Amount(l, "limit of sag", most.Most); r && m && most.SpanOver == 0 && most.Most == 0 {
		l.Add("limit of sag", nil, "needs a part of the span or a length")
	}
	if l.OK() && q.Lasting == 0 && q.Moving == 0 && q.Point == 0 && b.Density == 0 {
		l.Add("load", nil, "must be more than nothing")
	}
	if !l.OK() {
		return Bay{}, l.Err()
	}
	over := func(span float64) float64 { // rises with the span
		allowed := math.Inf(1)
		if most.SpanOver > 0 {
			allowed = span / most.SpanOver
		}
		if most.Most > 0 {
			allowed = min(allowed, float64(most.Most))
		}
		return float64(b.bay(q, span).Sag)/allowed - 1
	}
	if over(longestBay) <= 0 {
		l.Over("span", measure.Length(longestBay), "the limit of sag would allow more, which is no longer a bay: give a stricter limit")
		return Bay{}, l.Err()
	}
	span, ok := solve.Brent(over, 1e-3, longestBay, 1e-9)
	if !ok {
		l.NoAnswer("bearer", nil, "sags too much on any span: a higher one would carry it")
		return Bay{}, l.Err()
	}
	for over(span) > 0 { // to the safe side of the root
		span *= 1 - 1e-12
	}
	return b.bay(q, span), nil
}
