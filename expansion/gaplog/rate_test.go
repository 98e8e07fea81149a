package gaplog_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/fourfoot/expansion/gaplog"
	"example.org/fourfoot/gauge/measure"
)

// The rates are what Review finds with one reading changed: share and drift
// together, share alone (two readings), drift alone (one temperature).
func TestReadingRates(t *testing.T) {
	j := run()[0]
	j.Joint.Before.Base, j.Joint.After.Base = 5e-6, 5e-6
	seen := map[string]int{}
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
		for i, all := range rates {
			r := all.Gap
			for input, by := range map[string]gaplog.FindingRate{"gap": all.Gap, "rail": all.Rail, "base": all.Base} {
				if name == "drift" && input != "gap" {
					continue // warmer, it no longer is one temperature
				}
				d := map[string]float64{"gap": 1e-2, "rail": 1e-4, "base": 1e-4}[input]
				find := func(d float64) gaplog.Finding {
					more := append([]gaplog.Reading(nil), c.readings...)
					switch input {
					case "gap":
						more[i].Gap += measure.Length(d)
					case "rail":
						more[i].Rail += measure.Temperature(d)
					case "base":
						more[i].Base += measure.Temperature(d)
					}
					return must(gaplog.Review([]gaplog.Joint{j}, more, gaplog.Settings{})).Findings[0]
				}
				up, down := find(d), find(-d)
				for what, v := range map[string][2]float64{
					"offset": {float64(by.Offset), float64(up.Offset-down.Offset) / d / 2},
					"share":  {by.Share, (up.Share - down.Share) / d / 2},
					"drift":  {float64(by.Drift), float64(up.Drift-down.Drift) / d / 2},
				} {
					if math.Abs(v[0]-v[1]) > 1e-8 {
						t.Errorf("%s, reading %d, %s by %s: %v, by differences %v", name, i, what, input, v[0], v[1])
					}
					if v[1] != 0 {
						seen[what+" "+input]++
					}
				}
			}
			if (r.Share != 0) != c.share || (r.Drift != 0) != c.drift {
				t.Errorf("%s: %+v", name, r)
			}
		}
	}
	for _, k := range []string{"offset gap", "share gap", "drift gap", "offset rail", "share rail", "drift rail", "offset base", "share base", "drift base"} {
		if seen[k] == 0 {
			t.Errorf("%s: never checked", k)
		}
	}
	// Where the rails touch a degree makes no difference.
	tight := append([]gaplog.Reading(nil), all...)
	tight[0].Rail = 120
	if r := must(j.ReadingRates(tight, gaplog.Settings{}))[0]; r.Rail != (gaplog.FindingRate{}) || r.Base != r.Rail || r.Gap.Offset == 0 {
		t.Errorf("touching: %+v", r)
	}
	if _, err := j.ReadingRates([]gaplog.Reading{{Joint: "another"}}, gaplog.Settings{}); err == nil {
		t.Error("a reading of another joint was taken")
	}
}
