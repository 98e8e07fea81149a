package curve

import "math"

// But for their size all cubic parabolas are one curve, and so are all laths
// held square to the straight that they leave: with σ = s·√(a/2) and ξ likewise
// from x,
//
//	dξ/dσ = cos θ,  dθ/dσ = 2ξ·cos³θ (the lath: 2ξ),  tan θ = ξ² (the lath: sin θ)
//
// The lath's ξ is C. F. Gauss's lemniscate sine of σ. Both ξ/σ and θ/σ² are
// power series in σ⁴, which serve to where an element must end: at σ = 0.682 of
// a radius of convergence of 0.874 (tan θ = 1/√5, and ξ⁴ = -1), and at 1.311 of
// 1.854 (sin θ = 1, and the lemniscate sine's poles).
type mould struct {
	most   float64 // σ
	xi, th [mouldTerms]float64
}

// Terms enough for 0.682/0.874 to the fourth.
const mouldTerms = 40

var parabolaMould, lathMould = newMould(0.7, 4), newMould(1.32, 0)

// newMould works out the series one term after the other: cos θ from its
// derivative, which is -2ξ³·cosᵐθ with m = 4 for the parabola, 0 for the lath.
func newMould(most float64, m int) *mould {
	const n = mouldTerms
	times := func(a, b [n]float64) (c [n]float64) {
		for i := range n {
			for j := range i + 1 {
				c[i] += a[j] * b[i-j]
			}
		}
		return c
	}
	power := func(a, b [n]float64, m int) [n]float64 {
		for range m {
			a = times(a, b)
		}
		return a
	}
	v := &mould{most: most}
	var cos [n]float64
	cos[0], v.xi[0], v.th[0] = 1, 1, 1
	for i := 1; i < n; i++ {
		d := power(power(v.xi, v.xi, 2), cos, m)
		cos[i] = -2 * d[i-1] / float64(4*i)
		v.xi[i] = cos[i] / float64(4*i+1)
		v.th[i] = 2 * power(v.xi, cos, m-1)[i] / float64(4*i+2)
	}
	return v
}

// at returns ξ and θ at σ.
func (v *mould) at(sigma float64) (xi, th float64) {
	z := sigma * sigma
	z *= z
	w := z * z
	var x0, x1, t0, t1 float64
	for i := mouldTerms - 2; i >= 0; i -= 2 {
		x0, x1 = x0*w+v.xi[i], x1*w+v.xi[i+1]
		t0, t1 = t0*w+v.th[i], t1*w+v.th[i+1]
	}
	return sigma * (x0 + z*x1), sigma * sigma * (t0 + z*t1)
}

// mould returns the mould of a law that has a straight end, and the scale to it,
// if it serves to the given distance from there; else nil.
func (l lever) mould(most float64) (v *mould, scale float64) {
	if l.k != 0 || l.b != 0 {
		return nil, 0
	}
	v, scale = lathMould, math.Sqrt(math.Abs(l.a)/2)
	if l.cubed {
		v = parabolaMould
	}
	if !(scale > 0 && scale*most <= v.most) {
		return nil, 0
	}
	return v, scale
}

// place returns the place at a distance from the straight end, but y, which no
// law with a mould asks for; a has the hand.
func (v *mould) place(s, scale, a float64) bow {
	x, th := v.at(scale * s)
	return bow{x: x / scale, heading: math.Copysign(th, a)}
}
