package curve

import (
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// checkLever records what neither a cubic parabola nor a lath can be made of.
func checkLever(l *fault.List, what string, length, radius measure.Length, hand Hand, most float64, why string) {
	if checkLength(l, "abscissa of "+what, length) && checkLength(l, "radius of "+what, radius) {
		if most := measure.Length(most) * radius; length >= most {
			l.Add("abscissa of "+what, mm(length), fmt.Sprintf("must be less than %.6g mm at a radius of %s, where %s", float64(most), mm(radius), why))
		}
	} else {
		checkLength(l, "radius of "+what, radius)
	}
	if hand != Left && hand != Right {
		l.Add("hand of "+what, hand, "must be left or right")
	}
}

// NewCubicParabola returns the cubic parabola y = x³/6RX from a straight, x
// along the straight's tangent up to the abscissa X, towards an arc of radius
// R. Its curvature ends a little short of the arc's: [Element.StepToArc] says
// by how much. It is refused at X ≥ 0.894 R (2/√5), where its curvature begins
// to fall. For one that leads from an arc to a straight, reverse it.
func NewCubicParabola(abscissa, radius measure.Length, hand Hand) (Element, error) {
	l := fault.In("curve")
	checkLever(l, "cubic parabola", abscissa, radius, hand, 2/math.Sqrt(5), "its curvature begins to fall")
	if !l.OK() {
		return Element{}, l.Err()
	}
	X, R := float64(abscissa), float64(radius)
	// Length: ∫√(1+(x²/2RX)²)dx, by its binomial series in q = (X/2R)² < 1/5:
	// X·Σ binom(1/2,n)·qⁿ/(4n+1).
	q := X / R * X / R / 4
	sum, term := 0.0, 1.0
	for n := range 60 {
		sum += term / float64(4*n+1)
		term *= q * (0.5 - float64(n)) / float64(n+1)
	}
	return Element{shape: CubicParabola, length: X * sum, whole: X * sum, k1: float64(hand) / R / X}, nil
}

// NewLath returns the curve that a springy batten takes from a straight to
// where it reaches the curvature of radius R, at the abscissa X along the
// straight's tangent, held there by a force square to the straight: its
// curvature is x/RX and its heading asin(x²/2RX). It is refused at X ≥ 2R,
// where the batten would stand square to the straight. For one that leads from
// an arc to a straight, reverse it.
func NewLath(abscissa, radius measure.Length, hand Hand) (Element, error) {
	l := fault.In("curve")
	checkLever(l, "lath", abscissa, radius, hand, 2, "it would stand square to the straight")
	if !l.OK() {
		return Element{}, l.Err()
	}
	X, R := float64(abscissa), float64(radius)
	e := Element{shape: Lath, k1: float64(hand) / R / X}
	// The length that brings x to X: Newton's method, dx/ds being cos θ.
	// From below it rises to the root, until only rounding is left.
	law, s := e.lever(), X
	for range 100 {
		p := law.at(s)
		step := (X - p.x) / math.Cos(p.heading)
		if s += step; step <= 4e-16*s {
			break
		}
	}
	e.length, e.whole = s, s
	return e, nil
}

// StepToArc returns how much the curvature of the arc that a cubic parabola
// leads to, or from, differs from the parabola's own there: 1/R less that. It
// is 0 for every other element.
func (e Element) StepToArc() measure.Curvature {
	if e.shape != CubicParabola {
		return 0
	}
	// 1/R from a = 1/RX: X is where the whole parabola ends.
	end := e.lever().at(e.whole)
	step := e.k1*end.x - e.lever().curvature(end)
	if e.back {
		step = -step
	}
	return measure.Curvature(step)
}
