package export

import (
	"fmt"
	"math"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// Points returns stations along a range of the line, its ends and the ends of
// its elements among them, whose chords stay within tolerance of the line.
//
// A chord over a length h of a curve no sharper than k stays within k·h²/8 of
// it; on an easement each step is as long as that allows.
func Points(line *curve.Alignment, r Range, tolerance measure.Length) ([]curve.Station, error) {
	l := fault.In("export")
	fault.Positive(l, "tolerance", tolerance)
	parts := spans(l, line, r)
	if !l.OK() {
		return nil, l.Err()
	}
	out := []curve.Station{parts[0].station(parts[0].a)}
	for _, p := range parts {
		steps := p.steps(8*float64(tolerance), MaxPoints-len(out))
		if steps == nil {
			l.Over("points", fmt.Sprintf("over %d", MaxPoints), fmt.Sprintf("must be %d or fewer; take a larger tolerance than %s or a shorter range", MaxPoints, mm(tolerance)))
			return nil, l.Err()
		}
		for _, s := range steps {
			out = append(out, p.station(s))
		}
	}
	return out, nil
}

// steps returns the places after the first, the last included, such that
// |k|·h² of each step is at most q; nil when there are more than most.
func (p span) steps(q float64, most int) []measure.Length {
	k := func(s measure.Length) float64 { return math.Abs(float64(p.element.CurvatureAt(s))) }
	length := float64(p.b - p.a)
	// The largest curvature bounds the number of steps.
	n := math.Ceil(length * math.Sqrt(max(k(p.a), k(p.b))/q))
	if !(n <= float64(most)) {
		return nil
	}
	var out []measure.Length
	if k(p.a) == k(p.b) && !p.element.Shape().Easement() {
		for i := 1.0; i < n; i++ {
			out = append(out, p.a+measure.Length(i/n)*(p.b-p.a))
		}
		return append(out, p.b)
	}
	for s := p.a; s < p.b; {
		// Halve between a step that is short enough for certain and the rest.
		fits := func(h measure.Length) bool {
			return max(k(s), k(s+h))*float64(h)*float64(h) <= q
		}
		h := p.b - s
		if !fits(h) {
			lo, hi := measure.Length(0), h
			for range 30 {
				if mid := (lo + hi) / 2; fits(mid) {
					lo = mid
				} else {
					hi = mid
				}
			}
			h = lo
		}
		if s += h; s > p.b-measure.Length(1e-9*length) {
			s = p.b
		}
		out = append(out, s)
		if len(out) > most {
			return nil
		}
	}
	return out
}
