package limit_test

import (
	"context"
	"errors"
	"math"
	"testing"
	"time"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/limit"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// Whatever coach, half-width, spacing and step are given, there is a radius that
// does, or an error of a known kind.
func FuzzLeastRadius(f *testing.F) {
	f.Add(614.0, 88.0, 443.0, 80.0, 62.0, 120.0, 14.0, 5.0)
	f.Add(432.0, 90.0, 400.0, 0.0, 45.3, 93.0, 2.0, 0.0)
	f.Add(1e-3, 1e-3, 1e-4, 0.0, 1.0, 1.0, 1.0, 0.0)
	f.Add(1e5, 10.0, 1e4, 1e3, 50.0, 1e5, 1e5, -3.0)
	f.Fuzz(func(t *testing.T, length, width, pivots, base, half, spacing, step, margin float64) {
		m := func(x float64) measure.Length { return measure.Length(x) }
		v := clearance.Bogie("coach", m(pivots), m(base), clearance.Band{Bottom: 10, Top: 100, Outline: clearance.Box(m(length), m(width))})
		for _, x := range []float64{length, width, pivots, base, half, spacing, step, margin} {
			if math.Abs(x) > 1e5 {
				return
			}
		}
		ctx, stop := context.WithTimeout(t.Context(), time.Minute)
		defer stop()
		b := limit.Bend{Stock: []clearance.Vehicle{v}, Margin: m(margin)}
		for what, ask := range map[string]func() (limit.Radius, error){
			"opening": func() (limit.Radius, error) { return b.ForOpening(ctx, m(half), m(half)) },
			"spacing": func() (limit.Radius, error) { return b.ForSpacing(ctx, m(spacing), nil) },
			"platform": func() (limit.Radius, error) {
				return b.ForPlatform(ctx, limit.Platform{Side: curve.Left, Coping: 30, Step: m(step)})
			},
		} {
			r, err := ask()
			if err != nil {
				if !errors.Is(err, measure.ErrInput) && !errors.Is(err, measure.ErrNoAnswer) && !errors.Is(err, measure.ErrLimit) {
					t.Fatalf("%s: %v", what, err)
				}
				continue
			}
			if x := float64(r.Least); math.IsNaN(x) || math.IsInf(x, 0) || x <= 0 {
				t.Fatalf("%s: %+v", what, r)
			}
			if r.Stands || what != "opening" {
				continue
			}
			s, err := b.At(ctx, r.Least)
			if err != nil {
				t.Fatalf("%s at %v: %v", what, r.Least, err)
			}
			in, _, _ := s.Reach(curve.Left, clearance.Heights{})
			out, _, _ := s.Reach(curve.Right, clearance.Heights{})
			if g := half - margin - float64(max(in, out)); math.Abs(g) > 1e-3 {
				t.Fatalf("opening %v at %v: the gap is %v more than the margin", half, float64(r.Least), g)
			}
			for _, x := range r.Rates {
				if math.IsNaN(x.Change) || math.IsInf(x.Change, 0) {
					t.Fatalf("%+v", r)
				}
			}
		}
	})
}
