package curve

import (
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// NewLathBetween returns the curve that a springy batten of the given length
// takes by itself between two poses at which its ends are held: along it the
// curvature is the moment of one force about the place, over the stiffness (L.
// Euler, 1744, the elastica). It turns the short way, less than half a turn, and
// its curvature changes hand once at most. Started at the first pose it ends at
// the second to 1e-12 of its length.
//
// There is none unless the length is more than the distance, and for some poses
// none of the length asked: the error then names a length that has one, if any
// does up to twice the distance.
func NewLathBetween(start, end Pose, length measure.Length) (Element, error) {
	l := fault.In("curve")
	for _, c := range []struct {
		name string
		v    float64
	}{
		{"start x", start.Point.X},
		{"start y", start.Point.Y},
		{"end x", end.Point.X},
		{"end y", end.Point.Y},
	} {
		fault.Between(l, c.name, measure.Length(c.v), -MaxLength, MaxLength)
	}
	fault.Finite(l, "start heading", start.Heading)
	fault.Finite(l, "end heading", end.Heading)
	checkLength(l, "length of lath", length)
	if !l.OK() {
		return Element{}, l.Err()
	}
	sin, cos := math.Sincos(float64(start.Heading))
	dx, dy := end.Point.X-start.Point.X, end.Point.Y-start.Point.Y
	to := bow{cos*dx + sin*dy, cos*dy - sin*dx, math.Remainder(float64(end.Heading-start.Heading), 2*math.Pi)}
	away := math.Hypot(dx, dy)
	L := float64(length)
	if !(L > away*(1+1e-9)) {
		l.NoAnswer("length of lath", mm(length), fmt.Sprintf("must be more than the distance of %.6g mm; where both ends lie on one straight, take a straight", away))
		return Element{}, l.Err()
	}
	if law, ok := spring(bow{to.x / L, to.y / L, to.heading}); ok {
		return Element{shape: Lath, length: L, whole: L, k0: law.k / L, k1: law.a / (L * L), b: law.b / (L * L)}, nil
	}
	hint := "and there is none between these poses of up to twice their distance"
	for _, more := range []float64{1.005, 1.02, 1.05, 1.1, 1.2, 1.4, 1.7, 2} {
		n := away * more
		if _, ok := spring(bow{to.x / n, to.y / n, to.heading}); ok && away > 0 {
			hint = fmt.Sprintf("one of %.6g mm has such a curve", n)
			break
		}
	}
	l.NoAnswer("length of lath", mm(length), "finds no curve that changes hand once at most; "+hint)
	return Element{}, l.Err()
}

// spring finds the lath of length 1 from the origin, heading 0, to a place, by
// shooting.
func spring(to bow) (lever, bool) {
	// A cubic's curvature grows evenly along x: κ/2 + α/6 = y, κ + α/2 = θ.
	a := 12 * (to.heading/2 - to.y)
	guess := lever{k: to.heading - a/2, a: a}
	for _, b := range []float64{0, -10, 10, -30, 30} {
		for _, more := range []float64{0, 6, -6} {
			law, ok := shoot(lever{k: guess.k + more, a: guess.a - 2*more, b: b}, to)
			if ok && law.inflections() <= 1 {
				return law, true
			}
		}
	}
	return lever{}, false
}

// shoot improves a law until its curve of length 1 ends at the place: first
// coarsely, then with the series.
func shoot(law lever, to bow) (lever, bool) {
	law, size := newton(law, to, lever.coarse, 25, 1e-6)
	if size > 1e-3 {
		return law, false
	}
	law, size = newton(law, to, func(l lever) bow { return l.at(1) }, 12, 1e-15)
	return law, size < 1e-13
}

// newton is Newton's method, the step cut until the miss falls. It returns the
// law and its miss.
func newton(law lever, to bow, end func(lever) bow, rounds int, enough float64) (lever, float64) {
	const h = 1e-6
	off := func(k, a, b float64) (miss [3]float64, size float64) {
		p := end(lever{k: k, a: a, b: b})
		miss = [3]float64{p.x - to.x, p.y - to.y, p.heading - to.heading}
		return miss, math.Abs(miss[0]) + math.Abs(miss[1]) + math.Abs(miss[2])
	}
	miss, size := off(law.k, law.a, law.b)
	for range rounds {
		if size < enough {
			break
		}
		mk, _ := off(law.k+h, law.a, law.b)
		ma, _ := off(law.k, law.a+h, law.b)
		mb, _ := off(law.k, law.a, law.b+h)
		var j [3][3]float64 // columns
		for i := range 3 {
			j[0][i], j[1][i], j[2][i] = (mk[i]-miss[i])/h, (ma[i]-miss[i])/h, (mb[i]-miss[i])/h
		}
		det := triple(j[0], j[1], j[2])
		dk, da, db := triple(miss, j[1], j[2])/det, triple(j[0], miss, j[2])/det, triple(j[0], j[1], miss)/det
		better := false
		for step := 1.0; step > 0.01; step /= 2 {
			next := lever{k: law.k - step*dk, a: law.a - step*da, b: law.b - step*db}
			if !(math.Abs(next.k)+math.Abs(next.a)+math.Abs(next.b) < 200) {
				continue
			}
			if m, s := off(next.k, next.a, next.b); s < size {
				law, miss, size, better = next, m, s, true
				break
			}
		}
		if !better {
			break
		}
	}
	return law, size
}

// coarse returns about where a curve of length 1 ends: the rule of Runge and
// Kutta in 48 steps.
func (l lever) coarse() bow {
	const n = 48
	const h = 1. / n
	slope := func(p bow) bow {
		sin, cos := math.Sincos(p.heading)
		return bow{cos, sin, l.k + l.a*p.x + l.b*p.y}
	}
	ahead := func(p, v bow, h float64) bow { return bow{p.x + h*v.x, p.y + h*v.y, p.heading + h*v.heading} }
	var p bow
	for range n {
		a := slope(p)
		b := slope(ahead(p, a, h/2))
		c := slope(ahead(p, b, h/2))
		d := slope(ahead(p, c, h))
		p = ahead(p, bow{(a.x + 2*b.x + 2*c.x + d.x) / 6, (a.y + 2*b.y + 2*c.y + d.y) / 6, (a.heading + 2*b.heading + 2*c.heading + d.heading) / 6}, h)
	}
	return p
}

// triple is the determinant of three columns.
func triple(u, v, w [3]float64) float64 {
	return u[0]*(v[1]*w[2]-v[2]*w[1]) - u[1]*(v[0]*w[2]-v[2]*w[0]) + u[2]*(v[0]*w[1]-v[1]*w[0])
}

// inflections counts how often the curvature changes sign over the length 1.
func (l lever) inflections() int {
	const steps = 64
	var v flex
	p, n, was := bow{}, 0, l.k
	for range steps {
		l.series(&v, p, 1./steps)
		p = v.end(p, 1./steps)
		k := l.curvature(p)
		if k*was < 0 {
			n++
		}
		if k != 0 {
			was = k
		}
	}
	return n
}
