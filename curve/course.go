package curve

import "math"

// A series is worked out to order terms at most, and stops sooner where four
// terms one after the other are below negligible. Both are of half a piece.
const (
	order      = 26
	negligible = 3e-17
)

// A course is the direction along a piece, by powers of t from its middle:
// cosine and sine of the heading, n terms of each.
type course struct {
	cos, sin [order]float64
	n        int
}

// turn fills the course along which the heading's derivative by t is the series
// d, from the direction in the middle.
//
// With c = cos θ, s = sin θ: c' = -θ's and s' = θ'c give the coefficients one
// after the other.
func (v *course) turn(d []float64, cos, sin float64) {
	v.cos[0], v.sin[0] = cos, sin
	for v.n = 1; v.n < order; v.n++ {
		if v.next(d); v.diedDown() {
			break
		}
	}
}

// next works out term n from the heading's derivative: two sums side by side
// for each, since an addition waits for the one before it.
func (v *course) next(d []float64) {
	n, m := v.n, min(v.n, len(v.cos), len(d))
	d = d[:m]
	var a, b, a1, b1 float64
	j := 0
	for ; j+1 < m; j += 2 {
		u, w := d[j], d[j+1]
		a += u * v.sin[n-1-j]
		b += u * v.cos[n-1-j]
		a1 += w * v.sin[n-2-j]
		b1 += w * v.cos[n-2-j]
	}
	if j < m {
		a += d[j] * v.sin[n-1-j]
		b += d[j] * v.cos[n-1-j]
	}
	v.cos[n], v.sin[n] = -(a+a1)*recip[n], (b+b1)*recip[n]
}

// diedDown counts term n in when it and the three before it are negligible.
func (v *course) diedDown() bool {
	n := v.n
	if n < 4 || !(v.term(n) < negligible && v.term(n-1) < negligible && v.term(n-2) < negligible && v.term(n-3) < negligible) {
		return false
	}
	v.n++
	return true
}

func (v *course) term(n int) float64 { return math.Abs(v.cos[n]) + math.Abs(v.sin[n]) }

// places integrates the course: x and y get the coefficients of the place from
// the middle, in half lengths, brought down to the degree of a poly. It returns
// how much that leaves out at most.
func (v *course) places(x, y *[order + 1]float64) (rest float64) {
	for n := range v.n {
		x[n+1], y[n+1] = v.cos[n]*recip[n+1], v.sin[n]*recip[n+1]
	}
	for n := v.n; n > v.n-4; n-- {
		rest += math.Abs(x[n]) + math.Abs(y[n])
	}
	for n := v.n; n > degree; n-- {
		t := &chebyshev[n]
		for j := n - 2; j > 0; j -= 2 {
			x[j] -= x[n] * t[j]
			y[j] -= y[n] * t[j]
		}
		rest += (math.Abs(x[n]) + math.Abs(y[n])) * errs[n]
	}
	return rest
}

// turn fills h with the heading whose derivative by t is the series d, brought
// down to the degree of a poly.
func turned(p *[degree + 1]float64, d []float64, middle float64) {
	var h [order + 1]float64
	for n, v := range d {
		h[n+1] = v * recip[n+1]
	}
	for n := len(d); n > degree; n-- {
		t := &chebyshev[n]
		for j := n - 2; j >= 0; j -= 2 {
			h[j] -= h[n] * t[j]
		}
	}
	copy(p[:], h[:])
	p[0] += middle
}

// errs[n] is how much replacing tⁿ by lower powers errs.
var errs = func() (e [order + 1]float64) {
	for n := range e {
		e[n] = math.Ldexp(1, 1-n)
	}
	return e
}()

var recip = func() (r [order + 1]float64) {
	for n := 1; n <= order; n++ {
		r[n] = 1 / float64(n)
	}
	return r
}()
