package profile

import (
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Level is the height of the line above datum as a function of chainage:
// gradients joined by vertical curves. What the height is measured to, the
// inner rail, the centreline or the outer rail, is said by the [Cant] beside
// it.
//
// It is immutable and safe for concurrent use. The zero Level is flat at 0. An
// open one carries on past its ends on its end gradients.
type Level struct{ chain chain[vertical] }

// At returns the level at chainage s, for every finite s.
func (l Level) At(s measure.Length) measure.Length {
	if len(l.chain.pieces) == 0 {
		return 0
	}
	i, x := l.chain.find(float64(s))
	return measure.Length(l.chain.pieces[i].level(x))
}

// Gradient returns the gradient at chainage s, positive climbing, for every
// finite s; where the gradient changes suddenly, the one that begins.
func (l Level) Gradient(s measure.Length) measure.Gradient {
	if len(l.chain.pieces) == 0 {
		return 0
	}
	i, x := l.chain.find(float64(s))
	return measure.Gradient(l.chain.pieces[i].gradient(x))
}

// Curvature returns the curvature in the vertical plane at chainage s,
// positive in a sag (hollow), negative on a crest (summit), zero on a plain
// gradient and where the gradient changes suddenly: z″/(1+i²)^³⁄₂.
func (l Level) Curvature(s measure.Length) measure.Curvature {
	if len(l.chain.pieces) == 0 {
		return 0
	}
	i, x := l.chain.find(float64(s))
	return measure.Curvature(l.chain.pieces[i].curvature(x))
}

// Radius returns the vertical radius at chainage s, positive in a sag,
// negative on a crest; ok is false on a plain gradient, which has none.
func (l Level) Radius(s measure.Length) (r measure.Length, ok bool) {
	k := float64(l.Curvature(s))
	if math.Abs(k) < 1/float64(Farthest*Farthest) {
		return 0, false
	}
	return measure.Length(1 / k), true
}

// Rise returns the level at one chainage less that at another: what a train
// climbs from one to the other.
func (l Level) Rise(from, to measure.Length) measure.Length { return l.At(to) - l.At(from) }

// Circuit returns the length after which the level repeats, and whether it
// does.
func (l Level) Circuit() (measure.Length, bool) {
	return measure.Length(l.chain.circuit), l.chain.circuit > 0
}

// Boundaries returns the chainages where a gradient gives way to a vertical
// curve or to another gradient, in order.
func (l Level) Boundaries() []measure.Length { return l.chain.boundaries() }

// A Break is a sudden change of gradient.
type Break struct {
	Chainage measure.Length
	Change   measure.Gradient // positive is a sag
}

// Breaks returns the sudden changes of gradient that are left, in order. A
// change below 1e-9 is none.
func (l Level) Breaks() []Break {
	var out []Break
	for _, b := range l.chain.boundaries() {
		i, x := l.chain.find(float64(b))
		before := i - 1
		if i == 0 {
			before = len(l.chain.pieces) - 1
		}
		p := l.chain.pieces[before]
		if i == 0 {
			p = p.moved(-l.chain.circuit)
		}
		if d := l.chain.pieces[i].gradient(x) - p.gradient(x); math.Abs(d) > 1e-9 {
			out = append(out, Break{b, measure.Gradient(d)})
		}
	}
	return out
}

// StartAt returns the level with chainage 0 put where s was: its value at x is
// the old one at x + s. It refuses an s that is not finite.
func (l Level) StartAt(s measure.Length) (Level, error) {
	f := fault.In("profile")
	if !within(f, "new start", s) {
		return Level{}, f.Err()
	}
	return Level{l.chain.moved(-float64(s))}, nil
}

// Reverse returns the level met by running a line of the given length from its
// other end: its value at x is the old one at length - x.
func (l Level) Reverse(length measure.Length) (Level, error) {
	f := fault.In("profile")
	if !within(f, "length of the line", length) {
		return Level{}, f.Err()
	}
	return Level{l.chain.reversed(float64(length))}, nil
}

// Scaled returns the level with chainages and heights multiplied by factor,
// from a millionth to a million; gradients stay.
func (l Level) Scaled(factor float64) (Level, error) {
	if err := checkFactor(factor); err != nil {
		return Level{}, err
	}
	return Level{l.chain.scaled(factor)}, nil
}

// Part returns the open level of a range, its chainage 0 at from. On a circuit
// `to` may lie below `from`: the range then runs over the start.
func (l Level) Part(from, to measure.Length) (Level, error) {
	d, err := l.chain.span(from, to)
	if err != nil || len(l.chain.pieces) == 0 {
		return Level{}, err
	}
	return Level{l.chain.part(float64(from), d)}, nil
}
