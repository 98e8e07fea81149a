package reference

import "math"

// Fresnel returns C(x) = ∫₀ˣ cos(πt²/2) dt and S(x) = ∫₀ˣ sin(πt²/2) dt
// (Abramowitz and Stegun 7.3.1, 7.3.2): by the power series 7.3.11 and 7.3.13
// up to |x| = 1.5, above it by quadrature in panels of an eighth of a turn. Good to
// 1e-15 up to 1.5 and to 1e-14 up to 10, where the rounding of x tells.
func Fresnel(x float64) (c, s float64) {
	if a := math.Abs(x); a > 1.5 {
		c, s = Fresnel(1.5)
		from := 1.5
		for from < a {
			to := min(a, math.Sqrt(from*from+0.5))
			// Whole turns go before the rounded π comes in.
			phase := func(t float64) float64 { return math.Pi / 2 * math.Mod(t*t, 4) }
			c += Integrate(func(t float64) float64 { return math.Cos(phase(t)) }, from, to, 1)
			s += Integrate(func(t float64) float64 { return math.Sin(phase(t)) }, from, to, 1)
			from = to
		}
		if x < 0 {
			return -c, -s
		}
		return c, s
	}
	q := math.Pi / 2 * x * x
	term := x // ±(π/2)ⁿ x²ⁿ⁺¹/n!
	for n := 0; n < 40; n += 2 {
		c += term / float64(2*n+1)
		term *= q / float64(n+1)
		s += term / float64(2*n+3)
		term *= -q / float64(n+2)
	}
	return c, s
}
