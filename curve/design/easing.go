package design

import (
	"math"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// An Easing is the pair of easements of a bend. The zero value means none.
type Easing struct {
	In, Out measure.Length // lengths of the first and the last easement, 0 for none
	Shape   curve.Shape    // of both; the zero value means curve.Clothoid
}

// Ease returns an easing with easements of one length and shape at both ends.
func Ease(shape curve.Shape, length measure.Length) Easing {
	return Easing{In: length, Out: length, Shape: shape}
}

func (e Easing) shape() curve.Shape {
	if e.Shape == curve.StraightLine {
		return curve.Clothoid
	}
	return e.Shape
}

func (e Easing) check(l *fault.List, field string) {
	fault.NotNegative(l, field+" in", e.In)
	fault.NotNegative(l, field+" out", e.Out)
	checkShape(l, field+" shape", e.shape())
}

func checkShape(l *fault.List, field string, s curve.Shape) {
	if !s.Easement() {
		l.Add(field, s, "must be an easement")
	}
}

// A half is one end of an eased curve in the frame of its straight: x forward
// from the tangent point, y towards the centre.
type half struct {
	length float64
	turn   float64 // of the easement
	along  float64 // from the tangent point to the foot of the arc's centre
	shift  float64 // the arc's nearest approach to the straight
}

// newHalf returns the end of an easement of length l to radius r, from the
// element's own end position:
//
//	along = x - r sin τ,  shift = y - r (1 - cos τ)
//
// The textbook L/2 and L²/24R are the first terms of these for a clothoid.
func newHalf(shape curve.Shape, l, r float64) half {
	if l == 0 {
		return half{}
	}
	e, err := curve.NewEasement(shape, measure.Length(l), 0, measure.Curvature(1/r))
	if err != nil {
		return half{math.NaN(), math.NaN(), math.NaN(), math.NaN()}
	}
	a, err := curve.New(curve.Pose{}, e)
	if err != nil {
		return half{math.NaN(), math.NaN(), math.NaN(), math.NaN()}
	}
	end := a.End()
	sin, cos := math.Sincos(float64(end.Heading))
	return half{l, float64(end.Heading), end.Point.X - r*sin, end.Point.Y - r*(1-cos)}
}

func (e Easing) halves(r float64) (in, out half) {
	in = newHalf(e.shape(), float64(e.In), r)
	if e.In == e.Out {
		return in, in
	}
	return in, newHalf(e.shape(), float64(e.Out), r)
}

// smallest returns the radius at which the easements alone turn the whole
// turn. Every shape here turns L/2R (∫f = 1/2).
func (e Easing) smallest(turn float64) float64 { return float64(e.In+e.Out) / (2 * turn) }
