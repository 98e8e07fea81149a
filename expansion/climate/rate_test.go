package climate_test

import (
	"math"
	"testing"

	"example.org/fourfoot/expansion/climate"
	"example.org/fourfoot/gauge/measure"
)

// Every rate of every part of the balance is the difference that a changed
// body or weather shows.
func TestRates(t *testing.T) {
	b := climate.Body{SunWidth: 8, Girth: 25, Absorptivity: 0.7, Emissivity: 0.8, SkyView: 0.4, Convection: climate.Convection{Still: 4, PerWind: 2.5}}
	w := climate.Weather{Air: 25, Sun: 700, Wind: 1.5, Cloud: 0.3}
	rates, err := climate.BalanceRates(b, w)
	if err != nil {
		t.Fatal(err)
	}
	edits := map[string]func(*climate.Body, *climate.Weather, float64){
		"air temperature":      func(_ *climate.Body, w *climate.Weather, d float64) { w.Air += measure.Temperature(d) },
		"sun":                  func(_ *climate.Body, w *climate.Weather, d float64) { w.Sun += climate.Irradiance(d) },
		"wind":                 func(_ *climate.Body, w *climate.Weather, d float64) { w.Wind += measure.Speed(d) },
		"sun width":            func(b *climate.Body, _ *climate.Weather, d float64) { b.SunWidth += measure.Length(d) },
		"girth":                func(b *climate.Body, _ *climate.Weather, d float64) { b.Girth += measure.Length(d) },
		"absorptivity":         func(b *climate.Body, _ *climate.Weather, d float64) { b.Absorptivity += d / 10 },
		"cloud":                func(_ *climate.Body, w *climate.Weather, d float64) { w.Cloud += d / 10 },
		"sky view":             func(b *climate.Body, _ *climate.Weather, d float64) { b.SkyView += d / 10 },
		"still-air convection": func(b *climate.Body, _ *climate.Weather, d float64) { b.Convection.Still += d },
		"convection with wind": func(b *climate.Body, _ *climate.Weather, d float64) { b.Convection.PerWind += d },
		"emissivity":           func(b *climate.Body, _ *climate.Weather, d float64) { b.Emissivity += d / 10 },
	}
	if len(rates) != len(edits) {
		t.Errorf("%d rates, want %d", len(rates), len(edits))
	}
	temperature, err := climate.Rates(b, w)
	if err != nil || len(temperature) != len(rates) {
		t.Fatal(temperature, err)
	}
	for i, r := range rates {
		if x := temperature[i]; x.Input != r.Input || x.Per != r.Per || x.By != r.Temperature {
			t.Errorf("temperature %+v, balance %+v", x, r)
		}
		const d = 1e-4
		at := func(d float64) climate.Balance {
			c, v := b, w
			edits[r.Input](&c, &v, d)
			s, err := climate.Steady(c, v)
			if err != nil {
				t.Fatal(err)
			}
			return s
		}
		up, down := at(d), at(-d)
		for what, v := range map[string][2]float64{
			"temperature": {float64(r.Temperature), float64(up.Temperature - down.Temperature)},
			"sky":         {float64(r.Sky), float64(up.Sky - down.Sky)},
			"absorbed":    {float64(r.Absorbed), float64(up.Absorbed - down.Absorbed)},
			"convected":   {float64(r.Convected), float64(up.Convected - down.Convected)},
			"radiated":    {float64(r.Radiated), float64(up.Radiated - down.Radiated)},
		} {
			if want := v[1] / (2 * d); math.Abs(want-v[0]) > 1e-5*max(1, math.Abs(want)) {
				t.Errorf("%s: %v per %s of %s, by differences %v", what, v[0], r.Per, r.Input, want)
			}
		}
	}
}
