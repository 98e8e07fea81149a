package curve

import (
	"errors"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// turned returns the heading at s of the line's elements, on a circuit with
// its whole laps counted.
func (a *Alignment) turned(s float64) float64 {
	laps := 0.0
	if a.closed && !(s >= 0 && s < a.length) {
		x := a.reduce(s)
		laps = math.Round((s - x) / a.length)
		s = x
	}
	s = min(max(s, 0), a.length)
	p := &a.pieces[a.lookup.find(s)]
	at := &a.placings[p.elem]
	turn, _ := p.state(s - p.at)
	return at.heading.value() + (turn + at.bent*(s-p.at)) + laps*float64(a.final.Heading-a.first.Heading)
}

// number makes a chainage that is not finite the one that At takes it for.
func (a *Alignment) number(s measure.Length) measure.Length {
	if !finite(float64(s)) {
		return measure.Length(a.reduce(float64(s)))
	}
	return s
}

// Turn returns the turn of the heading from one chainage to another, left
// positive, whole turns counted. On a circuit `to` may lie below `from`: the
// range then runs over the start. Kinks between the two count, at `to` too.
func (a *Alignment) Turn(from, to measure.Length) measure.Angle {
	from, to = a.number(from), a.number(to)
	if a.closed && to < from {
		to = from + a.Span(from, to)
	}
	return measure.Angle(a.turned(float64(to)) - a.turned(float64(from)))
}

// Span returns the length of the range from one chainage to another. On a
// circuit `to` may lie below `from`: the range then runs over the start.
func (a *Alignment) Span(from, to measure.Length) measure.Length {
	from, to = a.number(from), a.number(to)
	if a.closed && to < from {
		d := a.reduce(float64(to)) - a.reduce(float64(from))
		if d < 0 {
			d += a.length
		}
		return measure.Length(d)
	}
	return to - from
}

// RailLength returns the length of the left or right rail between two
// chainages on the level, at the rail-head centres railCentres apart
// (gauge + head width): Δs ∓ (railCentres/2)·Δθ, exact for every shape.
func (a *Alignment) RailLength(rail Hand, from, to, railCentres measure.Length) (measure.Length, error) {
	trim, err := a.Trim(rail, from, to, railCentres)
	if err != nil {
		return 0, err
	}
	return a.Span(from, to) - trim/2, nil
}

// Trim returns by how much the given rail is shorter than the other between
// two chainages: railCentres·Δθ, whatever the radius and the easements.
// Negative: it is longer.
func (a *Alignment) Trim(rail Hand, from, to, railCentres measure.Length) (measure.Length, error) {
	l := fault.In("curve")
	_, err1 := a.Locate(from)
	_, err2 := a.Locate(to)
	l.Join(errors.Join(err1, err2))
	fault.Positive(l, "distance of rail-head centres", railCentres)
	if rail != Left && rail != Right {
		l.Add("rail", rail, "must be left or right")
	}
	if err1 == nil && err2 == nil && !a.closed && to < from {
		l.Add("end of the range", mm(to), "must not lie before its start at "+mm(from))
	}
	if !l.OK() {
		return 0, l.Err()
	}
	return measure.Length(float64(rail) * float64(railCentres) * float64(a.Turn(from, to))), nil
}
