package curve

import (
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/solve"
)

// Sharpest returns where the element is most sharply curved, from its start, and
// the curvature there: the first such place. It is one of the element's ends,
// but on a lath between two poses, whose curvature may rise and fall. Of a range
// of the element ask its [Element.Part].
func (e Element) Sharpest() (s measure.Length, k measure.Curvature) {
	best := e.curvature(0)
	take := func(at, k float64) {
		if math.Abs(k) > math.Abs(best)*(1+1e-12) {
			s, best = measure.Length(at), k
		}
	}
	if e.shape.lever() && (e.k0 != 0 || e.b != 0) {
		lo, hi := e.from, e.along(e.length)
		if e.back {
			lo, hi = hi, lo
		}
		e.lever().crests(lo, hi, func(at float64) {
			if at -= e.from; e.back {
				at = -at
			}
			take(at, e.curvature(at))
		})
	}
	take(e.length, e.curvature(e.length))
	return s, measure.Curvature(best)
}

// crests yields the distances from the first end between lo and hi at which the
// curvature of a lath between two poses turns from rising to falling or back:
// its rate is a cos θ + b sin θ. The heading itself turns back only where the
// curvature is nothing, so that crests that a sample misses are no sharp ones.
func (l lever) crests(lo, hi float64, yield func(s float64)) {
	const samples = 8 // of a step, which turns by 1.5 at most
	w := walk{lever: l}
	rate := func(t float64) float64 {
		turn := 0.0
		for n := w.v.n - 1; n >= 0; n-- {
			turn = turn*t + w.v.c[n]*recip[n+1]
		}
		sin, cos := math.Sincos(w.from.heading + turn*t)
		return l.a*cos + l.b*sin
	}
	for w.next(hi) {
		for i := range samples {
			t, ok := solve.Brent(rate, float64(i)/samples, float64(i+1)/samples, 1e-12)
			if s := w.done + w.h*(t-1); ok && s > lo && s < hi {
				yield(s)
			}
		}
	}
}
