package curve_test

import (
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/reference"
)

// A plain is an element told in plain words, so that tests can walk a line
// without the package's own evaluation.
type plain struct {
	shape  curve.Shape
	length float64
	k0, k1 float64
	kink   float64
}

func (e plain) element() curve.Element {
	var el curve.Element
	switch e.shape {
	case curve.StraightLine:
		el = must(curve.NewStraight(measure.Length(e.length)))
	case curve.CircularArc:
		hand := curve.Left
		if e.k0 < 0 {
			hand = curve.Right
		}
		el = must(curve.NewArc(measure.Length(1/math.Abs(e.k0)), measure.Angle(e.length*math.Abs(e.k0)), hand))
	default:
		el = must(curve.NewEasement(e.shape, measure.Length(e.length), measure.Curvature(e.k0), measure.Curvature(e.k1)))
	}
	return el.WithKink(measure.Angle(e.kink))
}

// heading is the turn from the start to s; the laws of ISO 16739-1, their
// integrals worked by hand.
func (e plain) heading(s float64) float64 {
	u, f := s/e.length, 0.0
	switch e.shape {
	case curve.StraightLine, curve.CircularArc:
		return e.k0 * s
	case curve.Clothoid:
		f = u * u / 2
	case curve.Bloss:
		f = u*u*u - u*u*u*u/2
	case curve.Cosine:
		f = u/2 - math.Sin(math.Pi*u)/2/math.Pi
	case curve.Sine:
		f = u*u/2 + (math.Cos(2*math.Pi*u)-1)/4/math.Pi/math.Pi
	case curve.Helmert:
		f = 2 * u * u * u / 3
		if u > 0.5 {
			f = 1./6 - u + 2*u*u - 2*u*u*u/3
		}
	}
	return e.k0*s + (e.k1-e.k0)*e.length*f
}

// A walk is a line walked by quadrature, with a mark every few millimetres.
type walk struct {
	elements []plain
	start    []float64 // chainage of each element
	length   float64
	marks    []mark
}

type mark struct {
	s, h    float64 // chainage, heading at the element's start
	element int
	at      r2.Vec
}

func walked(start curve.Pose, elements []plain, step float64) *walk {
	w := &walk{elements: elements}
	p, h := start.Point, float64(start.Heading)
	for i, e := range elements {
		h += e.kink
		w.start = append(w.start, w.length)
		n := int(e.length/step) + 1
		for j := range n {
			w.marks = append(w.marks, mark{w.length + e.length*float64(j)/float64(n), h, i, p})
			p = e.from(p, h, e.length*float64(j)/float64(n), e.length*float64(j+1)/float64(n))
		}
		h += e.heading(e.length)
		w.length += e.length
		w.marks = append(w.marks, mark{w.length, h - e.heading(e.length), i, p})
	}
	return w
}

// from integrates from a to b along the element, starting at p; h is the
// heading at the element's start.
func (e plain) from(p r2.Vec, h, a, b float64) r2.Vec {
	if a == b {
		return p
	}
	n := 1
	if e.shape == curve.Helmert && (a < e.length/2) != (b < e.length/2) && math.Min(e.length/2-a, b-e.length/2) > 1e-12 {
		return e.from(e.from(p, h, a, e.length/2), h, e.length/2, b)
	}
	p.X += reference.Integrate(func(s float64) float64 { return math.Cos(h + e.heading(s)) }, a, b, n)
	p.Y += reference.Integrate(func(s float64) float64 { return math.Sin(h + e.heading(s)) }, a, b, n)
	return p
}

// point returns the place at s, which lies between marks m and m+1.
func (w *walk) point(m int, s float64) r2.Vec {
	k := w.marks[m]
	e := w.elements[k.element]
	return e.from(k.at, k.h, k.s-w.start[k.element], s-w.start[k.element])
}

// crossesItself reports whether two chords of the walk that are not neighbours
// cross.
func (w *walk) crossesItself() bool {
	side := func(a, b, p r2.Vec) bool { return r2.Cross(r2.Sub(b, a), r2.Sub(p, a)) > 0 }
	for i := range w.marks[:len(w.marks)-1] {
		for j := i + 3; j+1 < len(w.marks); j++ {
			a, b, p, q := w.marks[i].at, w.marks[i+1].at, w.marks[j].at, w.marks[j+1].at
			if side(a, b, p) != side(a, b, q) && side(p, q, a) != side(p, q, b) {
				return true
			}
		}
	}
	return false
}

// distance returns the distance of p from the line and where: every mark that
// could have the nearest point beside it is searched by golden section.
func (w *walk) distance(p r2.Vec) (d, s float64) {
	best := math.Inf(1)
	for _, m := range w.marks {
		best = min(best, r2.Norm(r2.Sub(m.at, p)))
	}
	d = math.Inf(1)
	for i := range w.marks[:len(w.marks)-1] {
		a, b := w.marks[i], w.marks[i+1]
		if a.element != b.element {
			continue
		}
		// From either mark to the place between them is no farther than along
		// the line.
		if r2.Norm(r2.Sub(a.at, p))+r2.Norm(r2.Sub(b.at, p))-(b.s-a.s) > 2*best+1e-6 {
			continue
		}
		lo, hi := a.s, b.s
		far := func(s float64) float64 { return r2.Norm(r2.Sub(w.point(i, s), p)) }
		const g = 0.6180339887498949
		u, v := hi-(hi-lo)*g, lo+(hi-lo)*g
		fu, fv := far(u), far(v)
		for range 30 {
			if fu < fv {
				hi, v, fv = v, u, fu
				u = hi - (hi-lo)*g
				fu = far(u)
			} else {
				lo, u, fu = u, v, fv
				v = lo + (hi-lo)*g
				fv = far(v)
			}
		}
		for _, x := range []float64{a.s, (lo + hi) / 2, b.s} {
			if f := far(x); f < d {
				d, s = f, x
			}
		}
	}
	return d, s
}

// randomLine returns elements that follow on from one another in curvature
// now and then, with a kink now and then.
func randomLine(r *rand.Rand, n int) []plain {
	var out []plain
	k := 0.0
	bend := func() float64 { return (1 - 2*float64(r.IntN(2))) / (150 + 1500*r.Float64()) }
	for len(out) < n {
		e := plain{length: 40 + 500*r.Float64()}
		switch r.IntN(4) {
		case 0:
			e.shape = curve.StraightLine
		case 1:
			e.shape = curve.CircularArc
			if e.k0 = k; k == 0 {
				e.k0 = bend()
			}
			e.k1 = e.k0
			if r.IntN(8) == 0 {
				e.length = 7 / math.Abs(e.k0)
			}
		default:
			e.shape = easements[r.IntN(len(easements))]
			e.k0, e.k1 = k, bend()
			switch r.IntN(5) {
			case 0:
				e.k1 = 0
			case 1:
				e.k0, e.k1 = bend(), 0
			case 2:
				e.k1 = e.k0 * (1 + 1e-7)
			}
		}
		k = e.k1
		if r.IntN(5) == 0 {
			e.kink = r.NormFloat64() * 0.3
		}
		out = append(out, e)
	}
	return out
}

func build(start curve.Pose, w []plain) *curve.Alignment {
	var all []curve.Element
	for _, e := range w {
		all = append(all, e.element())
	}
	return must(curve.New(start, all...))
}
