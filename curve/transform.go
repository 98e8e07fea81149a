package curve

import (
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// Part returns the part of the element between two distances from its start.
// It is exact for every shape. A kink stays with a part that begins at 0.
func (e Element) Part(from, to measure.Length) (Element, error) {
	l := fault.In("curve")
	length := measure.Length(e.length)
	ok := fault.Between(l, "start of the part", from, 0, length)
	if fault.Between(l, "end of the part", to, 0, length) && ok {
		checkLength(l, "length of the part", to-from)
	}
	if !l.OK() {
		return Element{}, l.Err()
	}
	return e.part(float64(from), float64(to)), nil
}

func (e Element) part(from, to float64) Element {
	if from > 0 {
		e.kink = 0
	}
	if from > 0 || to < e.length {
		e.length = to - from
		switch {
		case e.back:
			e.from -= from
		case e.shape.Easement() || e.shape.lever():
			e.from += from
		default:
			e.whole = e.length
		}
	}
	return e
}

// Reverse returns the element as it is met from its other end, without a kink.
func (e Element) Reverse() Element {
	e.kink = 0
	if e.shape.lever() {
		if e.back {
			e.from -= e.length
		} else {
			e.from += e.length
		}
		e.back = !e.back
		return e
	}
	// Every law is its own reverse: 1 - f(1-u) = f(u).
	e.k0, e.k1 = -e.k1, -e.k0
	e.from = e.whole - e.from - e.length
	if e.from < 0 {
		e.from = 0
	}
	return e
}

// Mirror returns the element with left and right exchanged.
func (e Element) Mirror() Element {
	e.k0, e.k1, e.kink = -e.k0, -e.k1, -e.kink
	return e
}

// scaled returns the element in a drawing that many times as large.
func (e Element) scaled(by float64) Element {
	e.length *= by
	e.whole *= by
	e.from *= by
	e.k0 /= by
	e.k1 /= by
	if e.shape.lever() {
		e.k1 /= by
		e.b /= by * by
	}
	return e
}
