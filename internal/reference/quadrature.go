// Package reference holds what tests compare with: slow, plain ways to numbers
// that the library gets in faster ones, and tables of published values.
package reference

import "math"

// Nodes and weights of the twenty-point Gauss-Legendre rule on -1 to 1, by
// Newton's method on the Legendre polynomial's recurrence (M. Abramowitz and
// I. A. Stegun, Handbook of Mathematical Functions, 1964, 25.4.29 and 22.7.10).
var nodes, weights = legendre()

const points = 20

func legendre() (x, w [points]float64) {
	for i := range x {
		z := math.Cos(math.Pi * (float64(i) + 0.75) / (points + 0.5))
		var d float64
		for range 50 {
			a, b := 1.0, z
			for k := 2; k <= points; k++ {
				a, b = b, (float64(2*k-1)*z*b-float64(k-1)*a)/float64(k)
			}
			d = points * (z*b - a) / (z*z - 1)
			z -= b / d
		}
		x[i], w[i] = z, 2/((1-z*z)*d*d)
	}
	return x, w
}

// Integrate returns the integral of f from a to b by a twenty-point
// Gauss-Legendre rule in each of n equal panels.
func Integrate(f func(float64) float64, a, b float64, n int) float64 {
	total, h := 0.0, (b-a)/float64(2*n)
	for i := range n {
		m := a + h*float64(2*i+1)
		part := 0.0
		for j, x := range nodes {
			part += weights[j] * f(m+h*x)
		}
		total += h * part
	}
	return total
}
