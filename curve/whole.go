package curve

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// element returns which element holds x on the line, and how far into it x is.
func (a *Alignment) element(x float64) (i int, into float64) {
	i = int(a.pieces[a.lookup.find(x)].elem)
	return i, x - a.start[i]
}

// ElementAt returns which element, from 0, holds chainage s, and how far into
// it that is. At a boundary it is the element that begins; off an open line
// the first or the last, and then into is below 0 or past its length.
func (a *Alignment) ElementAt(s measure.Length) (i int, into measure.Length) {
	x := a.reduce(float64(s))
	i, _ = a.element(min(max(x, 0), a.length))
	return i, measure.Length(x - a.start[i])
}

// biases returns the elements' biases, changed by f.
func (a *Alignment) biases(f func(bias) bias) []bias {
	all := make([]bias, len(a.elements))
	for i := range all {
		all[i] = f(a.placings[i].bias)
	}
	return all
}

// Part returns the part of the line between two chainages, an open line. It is
// the same line, not an approximation of it. On a circuit `to` may lie below
// `from`: the part then runs over the start.
func (a *Alignment) Part(from, to measure.Length) (*Alignment, error) {
	l := fault.In("curve")
	_, err := a.Locate(from)
	l.Join(err)
	_, err = a.Locate(to)
	l.Join(err)
	span := a.Span(from, to)
	switch {
	case !l.OK():
	case span < MinLength:
		l.Add("length of the part", mm(span), "must be at least "+mm(MinLength))
	case span > a.Length():
		l.Add("length of the part", mm(span), "must be at most the circuit's "+mm(a.Length()))
	}
	if !l.OK() {
		return nil, l.Err()
	}
	x := a.reduce(float64(from))
	i, into := a.element(min(x, a.length))
	start := Pose{a.Point(measure.Length(x)), measure.Angle(a.turned(x))}
	left := float64(span)
	var all []Element
	var biases []bias
	for left > 0 {
		e, b := a.elements[i], a.placings[i].bias
		end := min(e.length, into+left)
		if rest := e.length - end; rest < 1e-14*a.length {
			end = e.length // a boundary, but for rounding
		}
		if left -= end - into; left < 1e-14*a.length {
			left = 0
		}
		if end > into {
			all = append(all, e.part(into, end))
			biases = append(biases, b)
		}
		if i++; i == len(a.elements) {
			if i = 0; !a.closed {
				break
			}
		}
		into = 0
	}
	all[0].kink = 0 // the start's heading has it
	return build(start, all, biases...), nil
}

// Reverse returns the line as it is run from its other end.
func (a *Alignment) Reverse() *Alignment {
	n := len(a.elements)
	all, biases := make([]Element, n), make([]bias, n)
	for i := range a.elements {
		j := n - 1 - i
		all[j] = a.elements[i].Reverse()
		if i+1 < n {
			all[j].kink = -a.elements[i+1].kink
		}
		b := a.placings[i].bias
		biases[j] = bias{-b.bent, -b.dx, -b.dy}
	}
	start := Pose{a.final.Point, a.final.Heading + math.Pi}
	if a.closed {
		all[0].kink = -a.elements[0].kink
		start.Heading += measure.Angle(a.elements[0].kink)
		return build(start, all, biases...).close()
	}
	return build(start, all, biases...)
}

// Mirror returns the line that starts at the same pose with left and right
// exchanged.
func (a *Alignment) Mirror() *Alignment {
	all := a.Elements()
	for i := range all {
		all[i] = all[i].Mirror()
	}
	sin, cos := math.Sincos(2 * float64(a.first.Heading))
	return a.again(build(a.first, all, a.biases(func(b bias) bias {
		return bias{-b.bent, cos*b.dx + sin*b.dy, sin*b.dx - cos*b.dy}
	})...))
}

// Moved returns the same line started at another pose.
func (a *Alignment) Moved(start Pose) (*Alignment, error) {
	if err := check(start, a.elements); err != nil {
		return nil, err
	}
	return a.moved(start), nil
}

func (a *Alignment) moved(start Pose) *Alignment {
	sin, cos := math.Sincos(float64(start.Heading - a.first.Heading))
	return a.again(build(start, a.elements, a.biases(func(b bias) bias {
		return bias{b.bent, cos*b.dx - sin*b.dy, sin*b.dx + cos*b.dy}
	})...))
}

// again makes b a circuit when a is one.
func (a *Alignment) again(b *Alignment) *Alignment {
	if a.closed {
		b.close()
	}
	return b
}

// Scaled returns the line in a drawing that many times as large about the
// origin: 1/22.5 makes the model of a full-size line.
func (a *Alignment) Scaled(by float64) (*Alignment, error) {
	l := fault.In("curve")
	if !fault.Positive(l, "scale", by) {
		return nil, l.Err()
	}
	all := a.Elements()
	for i := range all {
		all[i] = all[i].scaled(by)
		name := fmt.Sprintf("element %d: length", i+1)
		checkLength(l, name, measure.Length(all[i].length))
		fault.Finite(l, fmt.Sprintf("element %d: curvature", i+1), math.Abs(all[i].k0)+math.Abs(all[i].k1)+math.Abs(all[i].b))
	}
	start := Pose{r2.Scale(by, a.first.Point), a.first.Heading}
	l.Join(check(start, all))
	if !l.OK() {
		return nil, l.Err()
	}
	return a.again(build(start, all, a.biases(func(b bias) bias {
		return bias{b.bent / by, b.dx, b.dy}
	})...)), nil
}

// Join returns the line that runs through a and then, from its end, through
// b, wherever b stood before. Neither may be a circuit.
func (a *Alignment) Join(b *Alignment) (*Alignment, error) {
	l := fault.In("curve")
	if a.closed || b.closed {
		l.Add("line", "closed", "must be open to be joined")
		return nil, l.Err()
	}
	all := append(a.Elements(), b.elements...)
	if err := check(a.first, all); err != nil {
		return nil, err
	}
	sin, cos := math.Sincos(float64(a.final.Heading - b.first.Heading))
	biases := append(a.biases(func(b bias) bias { return b }), b.biases(func(b bias) bias {
		return bias{b.bent, cos*b.dx - sin*b.dy, sin*b.dx + cos*b.dy}
	})...)
	return build(a.first, all, biases...), nil
}
