package climate_test

import (
	"errors"
	"math"
	"testing"

	"example.org/fourfoot/expansion/climate"
	"example.org/fourfoot/gauge/measure"
)

// Whatever the numbers: no panic, no NaN, a balance that is met.
func FuzzSteady(f *testing.F) {
	f.Add(8.0, 25.0, 0.8, 0.9, 0.5, 2.8, 3.0, 30.0, 850.0, 1.0, 0.2)
	f.Add(0.0, 0.001, 1.0, 1.0, 1.0, 1e-9, 0.0, -70.0, 0.0, 60.0, 0.0)
	f.Add(math.NaN(), -1.0, 2.0, math.Inf(1), -0.5, 0.0, -3.0, 300.0, -1.0, 99.0, 8.0)
	f.Fuzz(func(t *testing.T, width, girth, a, e, view, still, perWind, air, sun, wind, cloud float64) {
		b := climate.Body{SunWidth: measure.Length(width), Girth: measure.Length(girth), Absorptivity: a, Emissivity: e, SkyView: view, Convection: climate.Convection{Still: still, PerWind: perWind}}
		w := climate.Weather{Air: measure.Celsius(air), Sun: climate.Irradiance(sun), Wind: measure.Speed(wind), Cloud: cloud}
		s, err := climate.Steady(b, w)
		if err != nil {
			if !errors.Is(err, measure.ErrInput) && !errors.Is(err, measure.ErrLimit) {
				t.Errorf("an error of no kind: %v", err)
			}
			return
		}
		if r := math.Abs(float64(s.Residual)); !(r <= 1e-6*max(1, float64(s.Absorbed))) {
			t.Errorf("%+v in %+v: residual %v of %v W/m", b, w, r, s.Absorbed)
		}
		rates, err := climate.Rates(b, w)
		if err != nil {
			t.Error(err)
		}
		for _, r := range rates {
			if math.IsNaN(float64(r.By)) {
				t.Errorf("%s: %v", r.Input, r.By)
			}
		}
	})
}
