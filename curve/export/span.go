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

// A span is what a range covers of one element, by distance from its start.
type span struct {
	line    *curve.Alignment
	element curve.Element
	at, to  measure.Length // chainages of the element's ends
	end     bool           // the element is the line's last
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
	if r == (Range{}) {
		r.To = length
	}
	if r.To < r.From {
		return append(cover(line, r.From, length), cover(line, 0, r.To)...)
	}
	return cover(line, r.From, r.To)
}

func cover(line *curve.Alignment, from, to measure.Length) []span {
	var out []span
	at := line.Boundaries()
	elements := line.Elements()
	for i, e := range elements {
		a, b := max(from-at[i], 0), min(to-at[i], e.Length())
		if to >= at[i+1] {
			b = e.Length()
		}
		if b > a {
			out = append(out, span{line, e, at[i], at[i+1], i+1 == len(elements), a, b})
		}
	}
	if len(out) == 0 { // a range of no length
		for i, e := range elements {
			if from <= at[i+1] {
				out = append(out, span{line, e, at[i], at[i+1], i+1 == len(elements), from - at[i], from - at[i]})
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
	if p.end {
		st.Point = p.line.End().Point
	}
	st.Chainage = p.to
	st.Heading = p.line.At(p.at).Heading + p.element.Turn()
	sin, cos := math.Sincos(float64(st.Heading))
	st.Tangent = r2.Vec{X: cos, Y: sin}
	st.Curvature = p.element.EndCurvature()
	return st
}
