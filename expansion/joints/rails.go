package joints

import (
	"math"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// A track measures rail along a line from its origin: x is distance along the
// centreline from there, on a circuit as far round as one likes.
type track struct {
	line   *curve.Alignment
	level  profile.Level
	flat   bool
	origin float64
	half   float64 // half the rail centres
	length float64 // of the line
	turn   float64 // of a whole circuit
}

func newTrack(line *curve.Alignment, level profile.Level, railCentres, origin measure.Length) track {
	return track{
		line: line, level: level, flat: flat(level), origin: float64(origin), half: float64(railCentres) / 2,
		length: float64(line.Length()), turn: float64(line.End().Heading - line.Start().Heading),
	}
}

func flat(level profile.Level) bool { return len(level.Boundaries()) == 0 && level.Gradient(0) == 0 }

// chainage returns the line's own chainage of x.
func (t track) chainage(x float64) measure.Length {
	s := t.origin + x
	if t.line.Closed() {
		s = math.Mod(s, t.length)
		if s < 0 {
			s += t.length
		}
	}
	return measure.Length(s)
}

// at returns heading, whole circuits counted, and curvature at x.
func (t track) at(x float64) (heading, curvature float64) {
	s := t.origin + x
	laps := 0.0
	if t.line.Closed() {
		laps = math.Floor(s / t.length)
		s -= laps * t.length
		if s >= t.length { // by rounding
			s, laps = 0, laps+1
		}
	}
	st := t.line.At(measure.Length(s))
	return float64(st.Heading) + laps*t.turn, float64(st.Curvature)
}

// slope returns what the rail between two places gains over plan by grades.
func (t track) slope(x, y float64) float64 {
	if t.flat {
		return 0
	}
	// A circuit's level repeats, so that chainage need not be brought round.
	l, err := t.level.TrueLength(measure.Length(t.origin+x), measure.Length(t.origin+y))
	if err != nil { // x ≤ y, both finite: it cannot be
		return 0
	}
	return float64(l) - (y - x)
}

// rail returns the length of one rail between two places x ≤ y.
func (t track) rail(side curve.Hand, x, y float64) float64 {
	hx, _ := t.at(x)
	hy, _ := t.at(y)
	return (y - x) - float64(side)*t.half*(hy-hx) + t.slope(x, y)
}

// railAt returns how long one rail is per length of centreline at a place.
func (t track) railAt(side curve.Hand, x float64) float64 {
	_, k := t.at(x)
	return t.per(side, x, k)
}

func (t track) per(side curve.Hand, x, curvature float64) float64 {
	s := 1 - float64(side)*t.half*curvature
	if !t.flat {
		i := float64(t.level.Gradient(t.chainage(x)))
		s += math.Sqrt(1+i*i) - 1
	}
	return s
}

// least is what a rail is at least as long as, per length of centreline: half,
// on a curve as sharp as Spec.check lets through, and a kink or two beside.
const least = 0.25

// reach returns the furthest y, at most end, to which the rail from x is no
// longer than want: Newton's method on the rail length, whose slope, per, is
// 1 ∓ (g_c/2)·κ + (√(1+i²) - 1), kept by bisection where a kink makes the
// length jump.
func (t track) reach(side curve.Hand, x, want, end float64) float64 {
	if want <= 0 {
		return x
	}
	hx, _ := t.at(x)
	over := func(y float64) (excess, slope float64) {
		hy, k := t.at(y)
		return (y - x) - float64(side)*t.half*(hy-hx) + t.slope(x, y) - want, t.per(side, y, k)
	}
	if end-x <= want/least { // else the end is out of reach
		if e, _ := over(end); e <= 0 {
			return end
		}
	}
	lo, hi := x, min(end, x+want/least)
	y := min(x+want, end)
	for range 80 {
		e, s := over(y)
		if math.Abs(e) <= 1e-10 {
			return y
		}
		if e > 0 {
			hi = y
		} else {
			lo = y
		}
		y -= e / s
		if !(y > lo && y < hi) {
			y = lo + (hi-lo)/2
			if y == lo || y == hi {
				break
			}
		}
	}
	return lo
}
