package export

import (
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// MaxPoints is the most points of a polyline, and pieces of a path, that one
// call makes.
const MaxPoints = 1_000_000

// A Range is a stretch of a line by chainage. The zero Range is the whole
// line. On a circuit To may lie below From: the range then runs over the start.
type Range struct {
	From, To measure.Length
}

// end returns where the range ends.
func (r Range) end(line *curve.Alignment) measure.Length {
	if r == (Range{}) {
		return line.Length()
	}
	return r.To
}

// misclosure returns how far the line's elements by themselves end from where
// the line ends, and by how much their heading differs: not nil where the
// misclosure of a circuit is spread.
func misclosure(line *curve.Alignment) (gap measure.Length, turn measure.Angle) {
	plain, err := curve.New(line.Start(), line.Elements()...)
	if err != nil { // not for elements that made a line
		return measure.Length(math.Inf(1)), 0
	}
	a, b := plain.End(), line.End()
	return measure.Length(r2.Norm(r2.Sub(a.Point, b.Point))), a.Heading - b.Heading
}

// asLaid reports whether the line lies where its elements put it.
func asLaid(line *curve.Alignment) bool {
	gap, turn := misclosure(line)
	at := line.Start().Point
	return float64(gap) <= 1e-9+1e-11*(float64(line.Length())+r2.Norm(at)) && math.Abs(float64(turn)) < 1e-9
}

// A span is what a range covers of one element, by distance from its start.
type span struct {
	line    *curve.Alignment
	element curve.Element
	at, to  measure.Length // chainages of the element's ends
	turned  measure.Angle  // heading at the element's end
	a, b    measure.Length
}

func mm(l measure.Length) string { return strconv.FormatFloat(float64(l), 'g', 9, 64) + " mm" }

func spans(l *fault.List, line *curve.Alignment, r Range) []span {
	if line == nil {
		l.Add("line", nil, "must be given")
		return nil
	}
	length := line.Length()
	ok := true
	for _, e := range [2]struct {
		name string
		s    measure.Length
	}{{"start of the range", r.From}, {"end of the range", r.To}} {
		if fault.Finite(l, e.name, e.s) && e.s >= 0 && e.s <= length {
			continue
		}
		if e.s < 0 || e.s > length {
			l.Add(e.name, mm(e.s), "must be on the line, from 0 mm to "+mm(length))
		}
		ok = false
	}
	if ok && !line.Closed() && r.To < r.From {
		l.Add("end of the range", mm(r.To), "must not lie before its start at "+mm(r.From)+"; only on a circuit a range runs over the start")
		ok = false
	}
	if !ok {
		return nil
	}
	r.To = r.end(line)
	if r.To < r.From {
		return append(cover(line, r.From, length), cover(line, 0, r.To)...)
	}
	return cover(line, r.From, r.To)
}

func cover(line *curve.Alignment, from, to measure.Length) []span {
	var out []span
	at := line.Boundaries()
	elements := line.Elements()
	part := func(i int, a, b measure.Length) {
		turned := line.End().Heading
		if i+1 < len(elements) {
			turned = line.At(at[i+1]).Heading - elements[i+1].Kink()
		}
		out = append(out, span{line, elements[i], at[i], at[i+1], turned, a, b})
	}
	for i, e := range elements {
		a, b := max(from-at[i], 0), min(to-at[i], e.Length())
		if to >= at[i+1] {
			b = e.Length()
		}
		if b > a {
			part(i, a, b)
		}
	}
	if len(out) == 0 { // a range of no length
		for i := range elements {
			if from <= at[i+1] {
				part(i, from-at[i], from-at[i])
				break
			}
		}
	}
	return out
}

// station returns the line at s from the element's start; at the element's end
// it answers for this element, not for the next.
func (p span) station(s measure.Length) curve.Station {
	if s < p.element.Length() {
		return p.line.At(p.at + s)
	}
	st := p.line.At(p.to)
	st.Chainage, st.Heading = p.to, p.turned
	sin, cos := math.Sincos(float64(st.Heading))
	st.Tangent = r2.Vec{X: cos, Y: sin}
	return st
}
