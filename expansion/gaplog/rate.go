package gaplog

import (
	"math"

	"example.org/fourfoot/expansion"
	"example.org/fourfoot/gauge/measure"
)

// A ReadingRate is what one more millimetre in the gap of one reading makes of
// its joint's finding.
type ReadingRate struct {
	Offset measure.Length // per mm
	Share  float64        // per mm; 0 where it is not told
	Drift  measure.Length // a year, per mm; 0 where it is not told
}

// ReadingRates returns the change of what Review finds of the joint per
// millimetre in each of its readings, in their order. All readings must be of
// this joint. The fit is linear in the gaps, so that any change counts so.
func (j Joint) ReadingRates(readings []Reading, s Settings) ([]ReadingRate, error) {
	s = s.defaults()
	if _, err := check([]Joint{j}, readings, s); err != nil {
		return nil, err
	}
	n := len(readings)
	p, t := make([]float64, n), make([]float64, n)
	var pm, tm float64
	for i, r := range readings {
		p[i] = float64(j.Predict(expansion.State{Rail: r.Rail, Base: r.Base}))
		t[i] = float64(r.Date.Sub(readings[0].Date)) / year
		pm, tm = pm+p[i]/float64(n), tm+t[i]/float64(n)
	}
	var pp, tt, pt float64
	for i := range p {
		p[i], t[i] = p[i]-pm, t[i]-tm
		pp, tt, pt = pp+p[i]*p[i], tt+t[i]*t[i], pt+p[i]*t[i]
	}
	err, det := float64(s.Error), pp*tt-pt*pt
	both, share, drift := told(n, pp, tt, pt, err)
	out := make([]ReadingRate, n)
	for i := range out {
		out[i].Offset = measure.Length(1 / float64(n))
		switch {
		case both:
			if err*math.Sqrt(tt/det) <= tells {
				out[i].Share = (tt*p[i] - pt*t[i]) / det
			}
			out[i].Drift = measure.Length((pp*t[i] - pt*p[i]) / det)
		case share:
			out[i].Share = p[i] / pp
		case drift:
			out[i].Drift = measure.Length(t[i] / tt)
		}
	}
	return out, nil
}
