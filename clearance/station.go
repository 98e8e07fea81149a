package clearance

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// A station is a kept place on the line, with the curvature on either side of
// it: they differ where an element ends.
type station struct {
	c      float64 // chainage, unrolled on a circuit
	p, t   r2.Vec
	k0, k1 float64 // curvature just before and just after
	knot   int     // at a kink: how many plain stations lie before it, else -1
}

// offset returns how far the place q is along and across the station.
func (st *station) offset(q r2.Vec) (along, across float64) {
	dx, dy := q.X-st.p.X, q.Y-st.p.Y
	return dx*st.t.X + dy*st.t.Y, dy*st.t.X - dx*st.t.Y
}

// spacing is how far apart stations may be where the sharpest curvature within
// a vehicle's length is k: the path of a body point across them departs from
// its tangent by half the square of the spacing times its own curvature
// against the line, at most about 2.5 k, and that is to stay below half the
// tolerance.
func spacing(tolerance, k float64) float64 {
	return min(25, math.Sqrt(tolerance/(2.5*k+1e-12)))
}

// layStations returns the stations of the range, element ends among them; ext
// is the length over which a vehicle feels the line, wide its reach. At a kink
// there are two, one square to each side, both knots, and no others so close
// that their squares meet within the vehicle's width. within tells how far apart
// they may be between two chainages for other reasons than the line's. count is
// how many it takes; when that is more than most, not all are laid.
func layStations(line *curve.Alignment, from, to, tolerance, ext, wide float64, within func(a, b float64) float64, most int) (plain, knots []station, count float64) {
	el, bounds := line.Elements(), line.Boundaries()
	length := float64(line.Length())
	lap0, lap1 := 0, 0
	if line.Closed() {
		lap0, lap1 = int(math.Floor((from-ext)/length)), int(math.Floor((to+ext)/length))
	}
	sharpest := func(a, b float64) float64 {
		k := 0.0
		for lap := lap0; lap <= lap1; lap++ {
			off := float64(lap) * length
			first := sort.Search(len(el), func(i int) bool { return float64(bounds[i+1])+off >= a })
			for i := first; i < len(el) && float64(bounds[i])+off <= b; i++ {
				e := el[i]
				k = max(k, math.Abs(float64(e.StartCurvature())), math.Abs(float64(e.EndCurvature())), math.Abs(float64(e.Kink()))/50)
			}
		}
		return k
	}
	put := func(c float64) *station {
		at := line.At(measure.Length(c))
		k := float64(at.Curvature)
		plain = append(plain, station{c: c, p: at.Point, t: at.Tangent, k0: k, k1: k, knot: -1})
		return &plain[len(plain)-1]
	}
	for lap := lap0; lap <= lap1; lap++ {
		for i, e := range el {
			s0 := float64(bounds[i]) + float64(lap)*length
			s1 := s0 + float64(e.Length())
			a, b := max(s0, from), min(s1, to)
			if a > b || (a == b && a != from) {
				continue
			}
			prev := i - 1
			if prev < 0 && line.Closed() {
				prev = len(el) - 1
			}
			turn := float64(e.Kink())
			if turn != 0 && a == s0 && prev >= 0 {
				at := line.At(bounds[i])
				sin, cos := math.Sincos(-turn)
				back := r2.Vec{X: at.Tangent.X*cos - at.Tangent.Y*sin, Y: at.Tangent.X*sin + at.Tangent.Y*cos}
				k0 := float64(el[prev].EndCurvature())
				knots = append(knots,
					station{c: s0, p: at.Point, t: back, k0: k0, k1: k0, knot: len(plain)},
					station{c: s0, p: at.Point, t: at.Tangent, k0: float64(at.Curvature), k1: float64(at.Curvature), knot: len(plain)})
				a += min((b-a)/3, wide*math.Abs(turn))
			}
			next := i + 1
			if next == len(el) && line.Closed() {
				next = 0
			}
			if next < len(el) && b == s1 {
				b -= min((b-a)/3, wide*math.Abs(float64(el[next].Kink())))
			}
			h := min(spacing(tolerance, sharpest(s0-ext, s1+ext)), within(s0-ext, s1+ext))
			steps := max(1, math.Ceil((b-a)/h))
			if count += steps; count > float64(most) {
				continue
			}
			n := int(steps)
			for j := range n + 1 {
				c := a + (b-a)*float64(j)/float64(n)
				if j == n {
					c = b
				}
				if j == 0 && len(plain) > 0 && plain[len(plain)-1].c >= c {
					continue
				}
				st := put(c)
				if j == 0 && a == s0 {
					st.k0, st.k1 = 0, float64(e.StartCurvature())
					if prev >= 0 {
						st.k0 = float64(el[prev].EndCurvature())
					}
				}
				if j == n && b == s1 {
					st.k0 = float64(e.EndCurvature())
					st.k1 = st.k0
					if next < len(el) {
						st.k1 = float64(el[next].StartCurvature())
					}
				}
			}
		}
	}
	return plain, knots, count + float64(len(knots)) + 1
}
