package passing_test

import (
	"math"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/passing"
	"example.org/fourfoot/gauge/measure"
)

func FuzzSpacerBar(f *testing.F) {
	f.Add(3405.0, 1435.0, 70.0)
	f.Add(49.0, 45.0, 2.5)
	f.Add(math.NaN(), math.Inf(1), -1.0)
	f.Fuzz(func(t *testing.T, centres, gauge, head float64) {
		b, err := passing.SpacerBar(measure.Length(centres), measure.Length(gauge), measure.Length(head))
		if err != nil {
			return
		}
		if !(b.BetweenRails > 0 && b.BetweenRails < b.OverNearRails && b.OverNearRails < b.Centres && b.Centres < b.OverAllRails) || math.IsInf(float64(b.OverAllRails), 0) {
			t.Errorf("%+v", b)
		}
	})
}

func FuzzConcentric(f *testing.F) {
	f.Add(1500.0, 443.0, 614.0, 88.0, 5.0)
	f.Add(100.0, 443.0, 614.0, 88.0, 5.0)
	f.Add(1e18, 1e-3, 614.0, 1e9, 0.0)
	f.Fuzz(func(t *testing.T, radius, pivots, length, width, margin float64) {
		v := clearance.Rigid("box", measure.Length(pivots), box(measure.Length(length), measure.Length(width)))
		if !(length < 1e5 && pivots > 1 && width > 1 && width < 1e4) {
			t.Skip("sizes that no garden has")
		}
		s := passing.Stocks{Inner: []clearance.Vehicle{v}, Margin: measure.Length(margin)}
		x, err := s.Concentric(ctx, measure.Length(radius))
		if err != nil {
			return
		}
		sum := float64(x.InnerReach + x.OuterReach + s.Margin)
		if !(math.Abs(float64(x.Centres)-sum) <= 1e-6*(1+sum)) || x.OuterRadius <= x.InnerRadius || math.IsInf(float64(x.Centres), 0) {
			t.Errorf("%+v", x)
		}
	})
}
