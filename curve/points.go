package curve

import (
	"iter"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// Points yields chainages and points from one chainage to another, both
// included, such that no chord from one point to the next is further than
// tolerance from the line. Ends of elements are among them; a straight has no
// others. On a circuit `to` may lie below `from`: the range then runs over the
// start, and its chainages past the length. The number of points grows as one
// over the square root of the tolerance, and is not limited: they are worked
// out one after the other, as they are asked for.
func (a *Alignment) Points(from, to, tolerance measure.Length) (iter.Seq2[measure.Length, r2.Vec], error) {
	l := fault.In("curve")
	_, err := a.Locate(from)
	l.Join(err)
	_, err = a.Locate(to)
	l.Join(err)
	if l.OK() && !a.closed && to < from {
		l.Add("end of the range", mm(to), "must not lie before its start at "+mm(from))
	}
	fault.Positive(l, "tolerance", tolerance)
	if !l.OK() {
		return nil, l.Err()
	}
	return func(yield func(measure.Length, r2.Vec) bool) {
		end := to
		if to < from {
			end = from + a.Span(from, to)
		}
		a.points(float64(from), float64(end), float64(tolerance), yield)
	}, nil
}

func (a *Alignment) points(from, end, tolerance float64, yield func(measure.Length, r2.Vec) bool) {
	put := func(s float64) bool { return yield(measure.Length(s), a.Point(measure.Length(s))) }
	if !put(from) {
		return
	}
	x := min(a.reduce(from), a.length)
	lap := from - x
	for i := a.lookup.find(x); ; {
		p := &a.pieces[i]
		lo, hi := p.at+p.lo, a.length
		if i+1 < len(a.pieces) {
			hi = a.lookup.start[i+1]
		}
		lo = max(lo, from-lap)
		last := hi+lap >= end
		if last {
			hi = end - lap
		}
		// A chord of length c stands c²k/8 off its arc at most, where k is the
		// largest curvature.
		k := math.Abs(p.k) + p.spread
		n := 1.0
		if p.form == formPoly || p.form == formArc {
			n = math.Ceil((hi - lo) * math.Sqrt(k/(8*tolerance)))
			n = max(n, 1)
		}
		for j := 1.0; j < n; j++ {
			if !put(lap + lo + (hi-lo)*j/n) {
				return
			}
		}
		if last {
			if end > from {
				put(end)
			}
			return
		}
		if hi > lo && !put(lap+hi) {
			return
		}
		if i++; i == len(a.pieces) {
			i = 0
			lap += a.length
		}
	}
}
