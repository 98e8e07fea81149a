// Package solve finds roots and least values of functions of one variable.
package solve

import (
	"math"

	"golang.org/x/exp/constraints"
)

// Brent returns a root of f between a and b, where f changes sign, to within
// tol; ok is false when f(a) and f(b) have the same sign or are not numbers.
// The method of R. P. Brent, Algorithms for Minimization without Derivatives
// (1973), chapter 4: inverse quadratic interpolation or secant, guarded by
// bisection, so that it never does worse than a bounded number of halvings.
func Brent[F constraints.Float](f func(F) F, a, b, tol F) (root F, ok bool) {
	fa, fb := f(a), f(b)
	switch {
	case fa == 0:
		return a, true
	case fb == 0:
		return b, true
	case !(fa < 0 && fb > 0 || fa > 0 && fb < 0):
		return 0, false
	}
	c, fc := a, fa
	d := b - a
	e := d
	const eps = 2.220446049250313e-16
	for range 200 {
		if (fb > 0) == (fc > 0) {
			c, fc = a, fa
			d = b - a
			e = d
		}
		if abs(fc) < abs(fb) {
			a, b, c = b, c, b
			fa, fb, fc = fb, fc, fb
		}
		t := 2*eps*abs(b) + tol/2
		m := (c - b) / 2
		if abs(m) <= t || fb == 0 {
			return b, true
		}
		if abs(e) < t || abs(fa) <= abs(fb) {
			d, e = m, m
		} else {
			var p, q F
			s := fb / fa
			if a == c {
				p, q = 2*m*s, 1-s
			} else {
				u, r := fa/fc, fb/fc
				p = s * (2*m*u*(u-r) - (b-a)*(r-1))
				q = (u - 1) * (r - 1) * (s - 1)
			}
			if p > 0 {
				q = -q
			} else {
				p = -p
			}
			if 2*p < min(3*m*q-abs(t*q), abs(e*q)) {
				e, d = d, p/q
			} else {
				d, e = m, m
			}
		}
		a, fa = b, fb
		if abs(d) > t {
			b += d
		} else {
			b += F(math.Copysign(float64(t), float64(m)))
		}
		fb = f(b)
		if fb != fb {
			return 0, false
		}
	}
	return b, true
}

func abs[F constraints.Float](x F) F { return F(math.Abs(float64(x))) }
