package gaplog

import (
	"math"

	"example.org/fourfoot/expansion"
	"example.org/fourfoot/gauge/measure"
)

// A FindingRate is what one more unit in one reading makes of its joint's
// finding.
type FindingRate struct {
	Offset measure.Length // read less predicted, at the mean
	Share  float64        // 0 where it is not told
	Drift  measure.Length // a year; 0 where it is not told
}

// ReadingRates are what one reading is worth: a panel's walk counts the Offset
// of each joint up to it.
type ReadingRates struct {
	Gap  FindingRate // per 1 mm
	Rail FindingRate // per 1 K of the rail, 0 where the rails are predicted to touch
	Base FindingRate // per 1 K of the base, likewise
}

// ReadingRates returns the change of what Review finds of the joint per unit
// of each of its readings, in their order. All readings must be of this joint.
// The fit is linear in the gaps, so that any change of one counts so; in the
// temperatures the rates are those of a small change. What the joint's own
// figures are worth shows in Joint.PredictRates: the offset goes against the
// mean of those at the readings. Worst counts its own reading whole.
func (j Joint) ReadingRates(readings []Reading, s Settings) ([]ReadingRates, error) {
	s = s.defaults()
	if _, err := check([]Joint{j}, readings, s); err != nil {
		return nil, err
	}
	n := len(readings)
	p, t, g := make([]float64, n), make([]float64, n), make([]float64, n)
	var pm, tm, gm float64
	for i, r := range readings {
		p[i] = float64(j.Predict(expansion.State{Rail: r.Rail, Base: r.Base}))
		t[i] = float64(r.Date.Sub(readings[0].Date)) / year
		g[i] = float64(r.Gap)
		pm, tm, gm = pm+p[i]/float64(n), tm+t[i]/float64(n), gm+g[i]/float64(n)
	}
	var pp, tt, pt, pg, tg float64
	for i := range p {
		p[i], t[i], g[i] = p[i]-pm, t[i]-tm, g[i]-gm
		pp, tt, pt, pg, tg = pp+p[i]*p[i], tt+t[i]*t[i], pt+p[i]*t[i], pg+p[i]*g[i], tg+t[i]*g[i]
	}
	err, det := float64(s.Error), pp*tt-pt*pt
	both, share, drift := told(n, pp, tt, pt, err)
	slope := pg / pp
	if both {
		slope = (tt*pg - pt*tg) / det
	}
	out := make([]ReadingRates, n)
	for i, r := range readings {
		// The fit solves (p t)ᵀ(p t)·b = (p t)ᵀ·g, all about their means. By a
		// gap it changes with its own p and t; by a prediction with what the
		// fit leaves there and with its slope.
		var byGap, byPrediction FindingRate
		byGap.Offset = measure.Length(1 / float64(n))
		byPrediction.Offset = -byGap.Offset
		switch {
		case both:
			perYear := (pp*tg - pt*pg) / det
			left := g[i] - slope*p[i] - perYear*t[i]
			if err*math.Sqrt(tt/det) <= tells {
				byGap.Share = (tt*p[i] - pt*t[i]) / det
				byPrediction.Share = (tt*(left-slope*p[i]) + pt*slope*t[i]) / det
			}
			byGap.Drift = measure.Length((pp*t[i] - pt*p[i]) / det)
			byPrediction.Drift = measure.Length((-pp*slope*t[i] - pt*(left-slope*p[i])) / det)
		case share:
			byGap.Share = p[i] / pp
			byPrediction.Share = (g[i] - 2*slope*p[i]) / pp
		case drift: // of what is read less what is predicted
			byGap.Drift = measure.Length(t[i] / tt)
			byPrediction.Drift = -byGap.Drift
		}
		out[i].Gap = byGap
		for _, x := range j.PredictRates(expansion.State{Rail: r.Rail, Base: r.Base}) {
			switch x.Input {
			case "rail temperature now":
				out[i].Rail = byPrediction.times(float64(x.By))
			case "base temperature now":
				out[i].Base = byPrediction.times(float64(x.By))
			}
		}
	}
	return out, nil
}

func (r FindingRate) times(k float64) FindingRate {
	return FindingRate{r.Offset * measure.Length(k), r.Share * k, r.Drift * measure.Length(k)}
}
