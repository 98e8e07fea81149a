package parallel

import (
	"math"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// An Offset is the distance that the track keeps from the line at a chainage
// of the line, and how it goes on to the next.
type Offset struct {
	Chainage measure.Length
	Offset   measure.Length // left positive
	Law      curve.Shape    // of the change to the next: Bloss, Cosine, Sine or Helmert; zero means Sine
}

// offset is d(s) along one taper, or the constant d0 when length is 0.
type offset struct {
	at, length, d0, d1 float64
	law                curve.Shape
}

// eval returns d and its first two derivatives by the line's chainage.
func (o offset) eval(s float64) (d, rate, rate2 float64) {
	if o.length == 0 || o.d0 == o.d1 {
		return o.d0, 0, 0
	}
	u := min(max((s-o.at)/o.length, 0), 1)
	change := o.d1 - o.d0
	return o.d0 + change*o.law.Ramp(u), change / o.length * o.law.RampRate(u), change / (o.length * o.length) * second(o.law, u)
}

func (o offset) constant() bool { return o.length == 0 || o.d0 == o.d1 }

// second returns d²f/du² of a shape's f.
func second(law curve.Shape, u float64) float64 {
	switch law {
	case curve.Bloss:
		return 6 - 12*u
	case curve.Cosine:
		return math.Pi * math.Pi / 2 * math.Cos(math.Pi*u)
	case curve.Sine:
		return 2 * math.Pi * math.Sin(2*math.Pi*u)
	case curve.Helmert:
		if u < 0.5 {
			return 4
		}
		return -4
	}
	return 0
}

// tapers returns what covers the chainages from 0 to length, in order: each
// begins at its at.
func tapers(points []Offset, length float64, closed bool) []offset {
	taper := func(a, b Offset) offset {
		law := a.Law
		if law == curve.StraightLine {
			law = curve.Sine
		}
		return offset{float64(a.Chainage), float64(b.Chainage - a.Chainage), float64(a.Offset), float64(b.Offset), law}
	}
	first, last := points[0], points[len(points)-1]
	if len(points) == 1 {
		return []offset{{d0: float64(first.Offset)}}
	}
	before := offset{d0: float64(first.Offset)}
	after := offset{at: float64(last.Chainage), d0: float64(last.Offset)}
	if closed { // one taper, from the last point to the first, runs over the start
		first.Chainage += measure.Length(length)
		after = taper(last, first)
		before = after
		before.at -= length
	}
	out := []offset{before}
	for i := range len(points) - 1 {
		out = append(out, taper(points[i], points[i+1]))
	}
	return append(out, after)
}
