package design

import (
	"math"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// An Easing is the pair of easements of a bend. The zero value means none.
type Easing struct {
	// Lengths of the first and the last easement, 0 for none; of a cubic
	// parabola or a lath the abscissas, as in package curve.
	In, Out measure.Length
	Shape   curve.Shape // of both; the zero value means curve.Clothoid
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
	checkShape(l, field+" shape", e.shape(), false)
}

// checkShape takes every easement's shape; law asks for one whose curvature
// has a law over its length, which alone can lead from arc to arc.
func checkShape(l *fault.List, field string, s curve.Shape, law bool) {
	switch {
	case s.Easement() || !law && lever(s):
	case lever(s):
		l.Add(field, s, "leads only from a straight to an arc; between two arcs take a clothoid, Bloss, cosine, sine or Helmert easement")
	default:
		l.Add(field, s, "must be an easement")
	}
}

// lever reports whether the shape is one of the two that go by abscissas.
func lever(s curve.Shape) bool { return s == curve.CubicParabola || s == curve.Lath }

// easement returns the easement of length (or abscissa) x from a straight to
// an arc of radius r.
func easement(shape curve.Shape, x, r float64, hand curve.Hand) (curve.Element, error) {
	switch shape {
	case curve.CubicParabola:
		return curve.NewCubicParabola(measure.Length(x), measure.Length(r), hand)
	case curve.Lath:
		return curve.NewLath(measure.Length(x), measure.Length(r), hand)
	}
	return curve.NewEasement(shape, measure.Length(x), 0, measure.Curvature(float64(hand)/r))
}

// A half is one end of an eased curve in the frame of its straight: x forward
// from the tangent point, y towards the centre.
type half struct {
	length float64 // of the easement
	turn   float64 // of the easement
	along  float64 // from the tangent point to the foot of the arc's centre
	shift  float64 // the arc's nearest approach to the straight
}

// newHalf returns the end of an easement of length (or abscissa) l to radius
// r, from the element's own end position; all are NaN where there is none.
//
//	along = x - r sin τ,  shift = y - r (1 - cos τ)
//
// The textbook L/2 and L²/24R are the first terms of these for a clothoid.
func newHalf(shape curve.Shape, l, r float64) half {
	if l == 0 {
		return half{}
	}
	nan := math.NaN()
	e, err := easement(shape, l, r, curve.Left)
	if err != nil {
		return half{nan, nan, nan, nan}
	}
	a, err := curve.New(curve.Pose{}, e)
	if err != nil {
		return half{nan, nan, nan, nan}
	}
	end := a.End()
	sin, cos := math.Sincos(float64(end.Heading))
	return half{float64(e.Length()), float64(end.Heading), end.Point.X - r*sin, end.Point.Y - r*(1-cos)}
}

func (e Easing) halves(r float64) (in, out half) {
	in = newHalf(e.shape(), float64(e.In), r)
	if e.In == e.Out {
		return in, in
	}
	return in, newHalf(e.shape(), float64(e.Out), r)
}

// parabolaEnds is the abscissa, in radii, at which a cubic parabola's
// curvature begins to fall, 2/√5.
const parabolaEnds = 0.894427190999916

// turn returns what an easement turns: L/2R whatever the law (∫f = 1/2), of an
// abscissa X atan(X/2R) for the cubic parabola and asin(X/2R) for the lath.
func easementTurn(shape curve.Shape, x, r float64) float64 {
	switch shape {
	case curve.CubicParabola:
		return math.Atan(x / (2 * r))
	case curve.Lath:
		return math.Asin(min(x/(2*r), 1))
	}
	return x / (2 * r)
}

// smallest returns the radius at which the easements alone turn the whole
// turn, or below which they do not exist.
func (e Easing) smallest(turn float64) float64 {
	a, b := float64(e.In), float64(e.Out)
	if !lever(e.Shape) {
		return (a + b) / (2 * turn)
	}
	lo := max(a, b) / 2
	if e.Shape == curve.CubicParabola {
		lo = max(a, b) / parabolaEnds
	}
	lo *= 1 + 1e-9
	spare := func(r float64) float64 {
		return turn - easementTurn(e.Shape, a, r) - easementTurn(e.Shape, b, r)
	}
	if lo == 0 || spare(lo) >= 0 {
		return lo
	}
	hi := lo
	for spare(hi) < 0 {
		hi *= 2
	}
	for range 100 {
		if m := (lo + hi) / 2; spare(m) < 0 {
			lo = m
		} else {
			hi = m
		}
	}
	return hi
}

// longest returns the length, both together, of equal easements that turn the
// whole turn at radius r.
func (e Easing) longest(r, turn float64) float64 {
	switch e.Shape {
	case curve.CubicParabola:
		return 2 * r * min(2*math.Tan(turn/2), parabolaEnds*(1-1e-9))
	case curve.Lath:
		return 2 * r * min(2*math.Sin(turn/2), 2*(1-1e-9))
	}
	return 2 * r * turn
}
