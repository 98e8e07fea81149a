package gaplog_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/fourfoot/expansion/gaplog"
)

// The rates are what Review finds with one gap changed: share and drift
// together, share alone (two readings), drift alone (one temperature).
func TestReadingRates(t *testing.T) {
	j := run()[0]
	all := season(rand.New(rand.NewPCG(1, 2)), []gaplog.Joint{j}, func(_ int, p, years float64) float64 { return 0.6*p + 0.2*years + 0.3 })
	same := append([]gaplog.Reading(nil), all...)
	for i := range same {
		same[i].Rail = 15
	}
	for name, c := range map[string]struct {
		readings     []gaplog.Reading
		share, drift bool
	}{"both": {all, true, true}, "share": {[]gaplog.Reading{all[0], all[2]}, true, false}, "drift": {same, false, true}, "one": {all[:1], false, false}} {
		rates, err := j.ReadingRates(c.readings, gaplog.Settings{})
		if err != nil || len(rates) != len(c.readings) {
			t.Fatalf("%s: %v, %v", name, rates, err)
		}
		was := must(gaplog.Review([]gaplog.Joint{j}, c.readings, gaplog.Settings{})).Findings[0]
		for i, r := range rates {
			const d = 0.01
			more := append([]gaplog.Reading(nil), c.readings...)
			more[i].Gap += d
			is := must(gaplog.Review([]gaplog.Joint{j}, more, gaplog.Settings{})).Findings[0]
			for what, v := range map[string][2]float64{
				"offset": {float64(r.Offset), float64(is.Offset-was.Offset) / d},
				"share":  {r.Share, (is.Share - was.Share) / d},
				"drift":  {float64(r.Drift), float64(is.Drift-was.Drift) / d},
			} {
				if math.Abs(v[0]-v[1]) > 1e-9 {
					t.Errorf("%s, reading %d, %s: %v, by differences %v", name, i, what, v[0], v[1])
				}
			}
			if (r.Share != 0) != c.share || (r.Drift != 0) != c.drift {
				t.Errorf("%s: %+v", name, r)
			}
		}
	}
	if _, err := j.ReadingRates([]gaplog.Reading{{Joint: "another"}}, gaplog.Settings{}); err == nil {
		t.Error("a reading of another joint was taken")
	}
}
