package gaplog

import (
	"math"
	"time"

	"example.org/fourfoot/expansion"
	"example.org/fourfoot/gauge/measure"
)

// A Joint is a joint as laid. Joints of one run follow each other in order
// along it.
type Joint struct {
	Mark  string
	Run   int // joints of equal runs, one after the other, have panels between them
	Joint expansion.Joint
	Gap   measure.Length  // left when it was laid
	Laid  expansion.State // when it was laid
}

// Predict returns the gap that the joint should have in a state, 0 where the
// rails touch.
func (j Joint) Predict(now expansion.State) measure.Length {
	return max(j.Joint.GapAt(j.Gap, j.Laid, now), 0)
}

// PredictRates returns the change of Predict per unit of each input; none
// where the rails touch, for then only a change large enough to part them
// counts.
func (j Joint) PredictRates(now expansion.State) []expansion.Rate[measure.Length] {
	if j.Joint.GapAt(j.Gap, j.Laid, now) <= 0 {
		return nil
	}
	rates := j.Joint.ClosingRates(j.Laid, now)
	for i := range rates {
		rates[i].By = -rates[i].By
	}
	return append(rates, expansion.Rate[measure.Length]{Input: "gap when laid", Per: "1 mm", By: 1})
}

// A Reading is one gap read at one time.
type Reading struct {
	Joint string // its mark
	Date  time.Time
	Rail  measure.Temperature
	Base  measure.Temperature
	Gap   measure.Length
}

// Settings say how well gaps can be read. The zero value means the defaults.
type Settings struct {
	Error  measure.Length // of one reading, feeler and thermometer together; 0: 0.2 mm
	Seized float64        // share of the movement below which a joint counts as seized; 0: 0.3
	Stiff  float64        // share below which it counts as stiff; 0: 0.7
}

// A Verdict says what the readings of one joint tell.
type Verdict uint8

// The verdicts, the graver later.
const (
	Unread Verdict = iota // no reading
	Fits                  // as predicted, as far as the reading error and the temperatures read at tell
	Off                   // the gap is wider or narrower than predicted, and stays so: a panel has walked
	Creeps                // the gap changes from year to year
	Stiff                 // moves less than predicted
	Seized                // hardly moves
)

// String returns the verdict in words.
func (v Verdict) String() string {
	return [...]string{"unread", "fits", "off", "creeps", "stiff", "seized", "", ""}[v&7]
}

// A Finding is what the readings of one joint come to.
type Finding struct {
	Mark       string
	Verdict    Verdict
	Readings   int
	Offset     measure.Length // read less predicted, at the mean
	Worst      measure.Length // the largest difference of one reading, with its sign
	Share      float64        // of the predicted movement that is there; 1 where it cannot be told
	ShareError float64        // its error; 0 where it cannot be told
	Drift      measure.Length // a year; 0 where it cannot be told
	DriftError measure.Length // its error; 0 where it cannot be told
}

// A Report holds what all readings tell.
type Report struct {
	Findings []Finding // as the joints
	Walks    []Walk    // panels that have moved by more than the error
}

const year = 365.25 * 24 * float64(time.Hour)

// Review holds the readings against the joints.
func Review(joints []Joint, readings []Reading, s Settings) (Report, error) {
	s = s.defaults()
	index, err := check(joints, readings, s)
	if err != nil {
		return Report{}, err
	}
	of := make([][]Reading, len(joints))
	for _, r := range readings {
		i := index[r.Joint]
		of[i] = append(of[i], r)
	}
	var out Report
	for i, j := range joints {
		out.Findings = append(out.Findings, j.review(of[i], s))
	}
	out.Walks = walks(joints, out.Findings, s)
	return out, nil
}

func (s Settings) defaults() Settings {
	if s.Error == 0 {
		s.Error = 0.2
	}
	if s.Seized == 0 {
		s.Seized = 0.3
	}
	if s.Stiff == 0 {
		s.Stiff = 0.7
	}
	return s
}

func (j Joint) review(readings []Reading, s Settings) Finding {
	f := Finding{Mark: j.Mark, Readings: len(readings), Share: 1}
	n := len(readings)
	if n == 0 {
		return f
	}
	p, t, e := make([]float64, n), make([]float64, n), make([]float64, n)
	var pm, tm, em float64
	for i, r := range readings {
		p[i] = float64(j.Predict(expansion.State{Rail: r.Rail, Base: r.Base}))
		t[i] = float64(r.Date.Sub(readings[0].Date)) / year
		e[i] = float64(r.Gap) - p[i]
		pm, tm, em = pm+p[i]/float64(n), tm+t[i]/float64(n), em+e[i]/float64(n)
		if math.Abs(e[i]) > math.Abs(float64(f.Worst)) {
			f.Worst = measure.Length(e[i])
		}
	}
	f.Offset = measure.Length(em)
	var pp, tt, pt, pe, te float64
	for i := range p {
		dp, dt, de := p[i]-pm, t[i]-tm, e[i]-em
		pp, tt, pt, pe, te = pp+dp*dp, tt+dt*dt, pt+dp*dt, pe+dp*de, te+dt*de
	}
	err := float64(s.Error)
	det := pp*tt - pt*pt
	both, share, drift := told(n, pp, tt, pt, err)
	switch {
	case both:
		f.tellShare((tt*pe-pt*te)/det, err*math.Sqrt(tt/det))
		f.Drift, f.DriftError = measure.Length((pp*te-pt*pe)/det), measure.Length(err*math.Sqrt(pp/det))
	case share:
		f.tellShare(pe/pp, err/math.Sqrt(pp))
	case drift: // one temperature: only the date can tell
		f.Drift, f.DriftError = measure.Length(te/tt), measure.Length(err/math.Sqrt(tt))
	}
	span := 0.0
	for _, v := range t {
		span = max(span, math.Abs(v-tm)*2)
	}
	moves := f.ShareError > 0
	switch {
	case moves && f.Share < s.Seized && f.Share+2*f.ShareError < 1:
		f.Verdict = Seized
	case moves && f.Share < s.Stiff && f.Share+2*f.ShareError < 1:
		f.Verdict = Stiff
	case f.DriftError > 0 && math.Abs(float64(f.Drift)) > 2*float64(f.DriftError) && math.Abs(float64(f.Drift))*span > err:
		f.Verdict = Creeps
	case math.Abs(em) > err:
		f.Verdict = Off
	default:
		f.Verdict = Fits
	}
	return f
}

// tells is the error of a share that still tells: with two of it a joint that
// does not move is known from one that does.
const tells = 0.4

// told says what the spreads of n readings can tell: share and drift apart,
// else share alone, else drift alone.
func told(n int, pp, tt, pt, err float64) (both, share, drift bool) {
	return n >= 3 && pp > 0 && tt > 0 && pp*tt-pt*pt > 0.1*pp*tt,
		n >= 2 && pp > 0 && err/math.Sqrt(pp) <= tells,
		n >= 3 && tt > 0
}

func (f *Finding) tellShare(slope, err float64) {
	if err <= tells {
		f.Share, f.ShareError = 1+slope, err
	}
}
