package parallel

import (
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// Points returns the track from start to end as stations whose chords stay
// within tolerance of it. More than [MaxSamples] are refused with ErrLimit.
func (t *Track) Points(tolerance measure.Length) ([]Station, error) {
	l := fault.In("parallel")
	if !fault.Positive(l, "tolerance", tolerance) {
		return nil, l.Err()
	}
	out := []Station{t.on(t.pieces[0], t.pieces[0].s0)}
	for i, p := range t.pieces {
		// A chord over a length h of a curve no sharper than k stays within
		// k·h²/8 of it.
		sharpest, steepest := 0.0, 0.0
		for j := range 9 {
			s := p.s0 + (p.s1-p.s0)*float64(j)/8
			sharpest = max(sharpest, math.Abs(float64(t.on(p, s).Curvature)))
			d, rate, _ := p.offset.eval(s)
			steepest = max(steepest, math.Hypot(1-float64(t.line.At(measure.Length(s)).Curvature)*d, rate))
		}
		if !p.offset.constant() {
			sharpest *= 1.25 // its top may lie between the nine
		}
		n := math.Ceil((p.s1 - p.s0) * steepest * 1.0001 * math.Sqrt(sharpest/(8*float64(tolerance))))
		if !(float64(len(out))+n <= MaxSamples) {
			l.Over("points", fmt.Sprintf("over %d at element %d of the track", MaxSamples, i+1), fmt.Sprintf("must be %d or fewer; take a larger tolerance than %s", MaxSamples, mm(float64(tolerance))))
			return nil, l.Err()
		}
		n = max(n, 1)
		for j := 1.0; j <= n; j++ {
			s := p.s0 + (p.s1-p.s0)*j/n
			if j == n {
				s = p.s1
			}
			st := t.on(p, s)
			st.Chainage = measure.Length(t.own[i] + t.along(p, s, t.heading(p, s)))
			out = append(out, st)
		}
	}
	return out, nil
}
