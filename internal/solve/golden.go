package solve

import "math"

// Golden searches between a and b for the least value of f by golden section
// (J. Kiefer, Sequential minimax search for a maximum, Proc. AMS 4, 1953), and
// returns the best place that it tried and the value there. It ends when the
// place is known to within tol, and at once when a value is not above enough.
// The ends themselves are not tried. Where f has more than one least value
// between a and b, it finds one of them.
func Golden(f func(float64) float64, a, b, tol, enough float64) (x, least float64) {
	const g = 0.6180339887498949 // (√5 - 1)/2
	c, d := b-g*(b-a), a+g*(b-a)
	fc := f(c)
	if fc <= enough {
		return c, fc
	}
	fd := f(d)
	// 90 times narrower by g is past the last place of any float64.
	for range 90 {
		if min(fc, fd) <= enough || math.Abs(b-a) <= tol {
			break
		}
		if fc < fd {
			b, d, fd = d, c, fc
			c = b - g*(b-a)
			fc = f(c)
		} else {
			a, c, fc = c, d, fd
			d = a + g*(b-a)
			fd = f(d)
		}
	}
	if fc < fd {
		return c, fc
	}
	return d, fd
}
