package coupling_test

import (
	"math"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/coupling"
	"example.org/fourfoot/gauge/measure"
)

func FuzzAt(f *testing.F) {
	f.Add(110.0, 85.0, 20.0, 1200.0, 1500.0)
	f.Add(110.0, 1e6, 0.0, 100.0, -50.0)
	f.Add(math.NaN(), -1.0, math.Inf(1), 1200.0, 0.0)
	f.Fuzz(func(t *testing.T, wheelbase, hinge, length, radius, at float64) {
		if !(radius > 1 && radius < 1e7) {
			t.Skip("radius")
		}
		l := line(t, straight(t, 1000), arc(t, 1000, 1/radius), arc(t, 1000, -1/radius))
		c := coupling.Car{
			Vehicle: clearance.Rigid("wagon", measure.Length(wheelbase), box(190, 90)),
			Rear:    coupling.End{Hinge: measure.Length(-hinge), Length: measure.Length(length)},
			Front:   coupling.End{Hinge: measure.Length(hinge), Length: measure.Length(length)},
		}
		p := coupling.Pair{Behind: c, Ahead: c}
		j, err := coupling.At(l, p, measure.Length(at))
		if err != nil {
			return
		}
		if err := p.Validate(); err != nil {
			t.Errorf("an answer for a pair at fault: %v", err)
		}
		for _, v := range []float64{float64(j.Offset), float64(j.Angle), float64(j.SwingAhead), float64(j.SwingBehind), float64(j.Chainage)} {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				t.Errorf("%+v", j)
			}
		}
		if j.BehindAxle >= j.RearAxle {
			t.Errorf("the car behind is ahead: %+v", j)
		}
	})
}
