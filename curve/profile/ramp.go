package profile

import (
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// ramp is a cant that goes from v0 to v1 over a length from its anchor by an
// easement's law; length 0 is the constant v0.
type ramp struct {
	at, length float64
	v0, v1     float64
	law        curve.Shape // Clothoid is linear
	bow        *bow        // in place of the law where there is none
}

// A bow is an element whose curvature is no law of the part of its length; the
// ramp on it takes its form from the curvature itself. Its v1 is what the cant
// would be where the curvature were k0 and gain: at the element's end, but on a
// lath between two poses, which may end with the curvature it begins with.
type bow struct {
	e        curve.Element
	line     *curve.Alignment // of e alone, prepared for evaluation
	k0, gain float64          // curvature at its start, and a change of it that is not 0
}

// bowOf returns the bow of an element, nil where the gain is 0.
func bowOf(e curve.Element, gain float64) *bow {
	line, err := curve.New(curve.Pose{}, e.WithKink(0))
	if err != nil || gain == 0 {
		return nil // an element that comes from a line makes one
	}
	return &bow{e, line, float64(e.StartCurvature()), gain}
}

// shape returns how much of the ramp has been climbed at the part u of its
// length, u from 0 to 1.
func (r ramp) shape(u float64) float64 {
	if b := r.bow; b != nil {
		return (float64(b.line.At(measure.Length(u)*b.e.Length()).Curvature) - b.k0) / b.gain
	}
	return r.law.Ramp(u)
}

// shapeRate is the derivative of shape by u.
func (r ramp) shapeRate(u float64) float64 {
	if b := r.bow; b != nil {
		return b.e.CurvatureRate(measure.Length(u)*b.e.Length()) * float64(b.e.Length()) / b.gain
	}
	return r.law.RampRate(u)
}

func (r ramp) constant() bool { return r.length == 0 || r.v0 == r.v1 }

// part returns how much of the ramp's length lies before s, from 0 to 1.
func (r ramp) part(s float64) float64 { return min(max((s-r.at)/r.length, 0), 1) }

func (r ramp) value(s float64) float64 {
	if r.constant() {
		return r.v0
	}
	return r.v0 + (r.v1-r.v0)*r.shape(r.part(s))
}

func (r ramp) rate(s float64) float64 {
	if r.constant() {
		return 0
	}
	return (r.v1 - r.v0) / r.length * r.shapeRate(r.part(s))
}

func (r ramp) moved(by float64) ramp {
	r.at += by
	return r
}

// reversed: every law is its own reverse, 1 - f(1-u) = f(u), but a bow is not.
// What leans to the left leans to the right when it is met from the other end.
func (r ramp) reversed(length float64) ramp {
	r.at = length - (r.at + r.length)
	if b := r.bow; b != nil {
		end := -(r.v0 + (r.v1-r.v0)*r.shape(1))
		r.v0, r.v1 = end, end+(r.v1-r.v0)
		r.bow = bowOf(b.e.Reverse(), b.gain)
		return r
	}
	if r.length == 0 {
		r.v1 = r.v0
	}
	r.v0, r.v1 = -r.v1, -r.v0
	return r
}

func (r ramp) scaled(by float64) ramp {
	r.at, r.length, r.v0, r.v1 = r.at*by, r.length*by, r.v0*by, r.v1*by
	return r
}

func (r ramp) beyond(s float64) ramp { return ramp{v0: r.value(s)} }

func (r ramp) meets(next ramp, s float64) bool {
	return r.constant() && next.constant() && r.value(s) == next.value(s)
}
