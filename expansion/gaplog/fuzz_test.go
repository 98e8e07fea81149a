package gaplog_test

import (
	"errors"
	"math"
	"testing"
	"time"

	"example.org/fourfoot/expansion"
	"example.org/fourfoot/expansion/gaplog"
	"example.org/fourfoot/gauge/measure"
)

// Whatever the numbers: no panic, no NaN, an error of a known kind.
func FuzzReview(f *testing.F) {
	f.Add(900.0, 19e-6, 2.0, 15.0, 0.2, int64(0), 20.0, 1.8, int64(10_000_000), 41.0, 1.0, int64(30_000_000), -6.0, 2.8)
	f.Add(900.0, 0.0, 2.0, 15.0, 1e-300, int64(5), 20.0, 1.8, int64(5), 20.0, 1.0, int64(5), 20.0, 2.8)
	f.Add(math.NaN(), 19.0, -2.0, 400.0, math.Inf(1), int64(math.MaxInt64), 20.0, 1.8, int64(math.MinInt64), 41.0, 1.0, int64(1), -600.0, -1.0)
	f.Fuzz(func(t *testing.T, free, alpha, gap, laid, readError float64, t1 int64, r1, g1 float64, t2 int64, r2, g2 float64, t3 int64, r3, g3 float64) {
		joint := gaplog.Joint{Mark: "L1", Joint: expansion.EqualPanels(measure.Length(free), measure.Expansion(alpha), 0), Gap: measure.Length(gap), Laid: expansion.State{Rail: measure.Temperature(laid)}}
		other := joint
		other.Mark = "L2"
		read := func(mark string, at int64, rail, gap float64) gaplog.Reading {
			return gaplog.Reading{Joint: mark, Date: time.Unix(at, 0), Rail: measure.Temperature(rail), Gap: measure.Length(gap)}
		}
		rep, err := gaplog.Review([]gaplog.Joint{joint, other}, []gaplog.Reading{read("L1", t1, r1, g1), read("L1", t2, r2, g2), read("L1", t3, r3, g3), read("L2", t1, r2, g3)}, gaplog.Settings{Error: measure.Length(readError)})
		if err != nil {
			if !errors.Is(err, measure.ErrInput) && !errors.Is(err, measure.ErrLimit) {
				t.Errorf("an error of no kind: %v", err)
			}
			return
		}
		for _, x := range rep.Findings {
			for _, v := range []float64{float64(x.Offset), float64(x.Worst), x.Share, x.ShareError, float64(x.Drift), float64(x.DriftError)} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Errorf("%+v", x)
				}
			}
		}
	})
}
