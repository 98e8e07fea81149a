package climate_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/fourfoot/expansion/climate"
	"example.org/fourfoot/gauge/measure"
)

// A full-size rail, height 172 and foot 150 mm (EN 60E1): girth 680 mm (from
// memory); with the sun 60° high the silhouette of head and foot is 182 mm
// wide (worked from 172, 150 and 72 mm).
var fullSize = climate.Body{SunWidth: 182, Girth: 680}

// Network Rail: rail up to 20 K above air in sun; 46 °C rail near 30 °C air.
// The first is tried where the sun is ever that strong, in air of 5 °C and up.
func TestPublishedBounds(t *testing.T) {
	for air := 5.0; air <= 35; air += 5 {
		for sun := 0.0; sun <= 900; sun += 100 {
			for _, wind := range []measure.Speed{0, 0.5, 1, 3, 8} {
				b, err := climate.Steady(fullSize, climate.Weather{Air: measure.Celsius(air), Sun: climate.Irradiance(sun), Wind: wind})
				if err != nil {
					t.Fatal(err)
				}
				if d := b.Temperature.Celsius() - air; d > 20 {
					t.Errorf("air %v °C, sun %v, wind %v: rail %.1f K above air, published at most 20", air, sun, wind, d)
				}
			}
		}
	}
	b, err := climate.Steady(fullSize, climate.Weather{Air: 30, Sun: 850, Wind: 0.4})
	if err != nil {
		t.Fatal(err)
	}
	if d := math.Abs(b.Temperature.Celsius() - 46); d > 1.5 {
		t.Errorf("rail at %.2f °C near 30 °C air in strong sun and light air: published 46", b.Temperature.Celsius())
	}
}

// Over a grid of bodies and weathers the balance is met, the temperature rises
// with sun and with air and falls with wind in sunshine, and clear nights are
// colder than the air.
func TestBalance(t *testing.T) {
	steady := func(b climate.Body, w climate.Weather) climate.Balance {
		t.Helper()
		s, err := climate.Steady(b, w)
		if err != nil {
			t.Fatal(err)
		}
		if r := math.Abs(float64(s.Residual)); r > 1e-6 {
			t.Fatalf("%+v in %+v: residual %v W/m", b, w, r)
		}
		if d := float64(s.Absorbed - s.Convected - s.Radiated); math.Abs(d-float64(s.Residual)) > 1e-9 {
			t.Fatalf("flows sum to %v, residual %v", d, s.Residual)
		}
		return s
	}
	for _, b := range []climate.Body{fullSize, {SunWidth: 8, Girth: 25}, {SunWidth: 8, Girth: 25, Emissivity: 0.05, Absorptivity: 0.3}, {SunWidth: 150, Girth: 150, SkyView: 1}, {SunWidth: 5, Girth: 20, Convection: climate.Convection{Still: 10, PerWind: 6}}} {
		for air := -70.0; air <= 60; air += 10 {
			for _, wind := range []measure.Speed{0, 0.3, 2, 20, 60} {
				last := measure.Temperature(-300)
				for sun := climate.Irradiance(0); sun <= 1500; sun += 250 {
					w := climate.Weather{Air: measure.Celsius(air), Sun: sun, Wind: wind}
					s := steady(b, w)
					if s.Temperature <= last {
						t.Fatalf("more sun does not warm: %+v in %+v", b, w)
					}
					last = s.Temperature
					if sun == 0 && air < 50 && s.Temperature >= w.Air {
						t.Fatalf("a clear night is not colder than the air: %v in %+v", s.Temperature, w)
					}
					if sun >= 750 && s.Temperature > w.Air && wind < 60 {
						more := w
						more.Wind++
						if steady(b, more).Temperature >= s.Temperature {
							t.Fatalf("more wind does not cool: %+v in %+v", b, w)
						}
					}
					cloudy := w
					cloudy.Cloud = 1
					if c := steady(b, cloudy); sun == 0 && math.Abs(float64(c.Temperature-w.Air)) > 1e-9 {
						t.Fatalf("an overcast night at %v °C leaves the body at %v", air, c.Temperature)
					}
				}
			}
		}
	}
}

// Swinbank's clear sky over air of 0 °C: 0.0552·273.15^1.5 = 249.20 K (worked);
// as warm as the air where it is overcast; half covered, in proportion of T⁴.
func TestSky(t *testing.T) {
	for cloud, want := range map[float64]float64{0: 249.195, 1: 273.15, 0.5: math.Pow((math.Pow(249.195, 4)+math.Pow(273.15, 4))/2, 0.25)} {
		s, err := climate.Steady(fullSize, climate.Weather{Air: 0, Cloud: cloud})
		if err != nil {
			t.Fatal(err)
		}
		if d := math.Abs(s.Sky.Kelvin() - want); d > 0.005 {
			t.Errorf("cloud %v: sky at %v K, want %v", cloud, s.Sky.Kelvin(), want)
		}
	}
}

func TestStates(t *testing.T) {
	rail, base := climate.Body{SunWidth: 8, Girth: 25}, climate.Body{SunWidth: 100, Girth: 130, SkyView: 0.9}
	states, err := climate.States(rail, base, climate.Weather{Name: "July noon", Air: 30, Sun: 850, Wind: 1}, climate.Weather{Name: "January night", Air: -12})
	if err != nil {
		t.Fatal(err)
	}
	if len(states) != 6 {
		t.Fatalf("%d states, want two and four corners", len(states))
	}
	seen := map[[2]measure.Temperature]bool{}
	for _, s := range states {
		seen[[2]measure.Temperature{s.Rail, s.Base}] = true
	}
	for _, r := range states[:2] {
		for _, b := range states[:2] {
			if !seen[[2]measure.Temperature{r.Rail, b.Base}] {
				t.Errorf("no state has rail %v with base %v", r.Rail, b.Base)
			}
		}
	}
}

func TestBadInput(t *testing.T) {
	good := climate.Body{SunWidth: 8, Girth: 25}
	for _, c := range []struct {
		name string
		b    climate.Body
		w    climate.Weather
		want string
	}{
		{"no girth", climate.Body{}, climate.Weather{}, "girth"},
		{"negative girth", climate.Body{Girth: -1}, climate.Weather{}, "girth"},
		{"NaN width", climate.Body{Girth: 1, SunWidth: measure.Length(math.NaN())}, climate.Weather{}, "sun width"},
		{"wider than its girth", climate.Body{Girth: 1, SunWidth: 2}, climate.Weather{}, "sun width"},
		{"black beyond black", climate.Body{Girth: 25, Absorptivity: 1.1}, climate.Weather{}, "absorptivity"},
		{"per cent", climate.Body{Girth: 25, Emissivity: 90}, climate.Weather{}, "emissivity"},
		{"no convection at all", climate.Body{Girth: 25, Convection: climate.Convection{PerWind: 3}}, climate.Weather{}, "convection"},
		{"kelvin", good, climate.Weather{Air: 290}, "air temperature"},
		{"sun in kW", good, climate.Weather{Sun: -1}, "sun"},
		{"wind", good, climate.Weather{Wind: -1}, "wind"},
		{"cloud in eighths", good, climate.Weather{Cloud: 4}, "cloud"},
	} {
		_, err := climate.Steady(c.b, c.w)
		if !errors.Is(err, measure.ErrInput) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %v", c.name, err)
		}
	}
	if _, err := climate.States(good, good); !errors.Is(err, measure.ErrInput) {
		t.Errorf("no weather: %v", err)
	}
	if _, err := climate.States(good, good, make([]climate.Weather, climate.MaxWeathers+1)...); !errors.Is(err, measure.ErrLimit) {
		t.Errorf("too much weather: %v", err)
	}
}

func ExampleSteady() {
	rail := climate.Body{SunWidth: 8 * measure.Millimetre, Girth: 25 * measure.Millimetre}
	noon, err := climate.Steady(rail, climate.Weather{Air: measure.Celsius(30), Sun: 850, Wind: 1})
	if err != nil {
		fmt.Println(err)
		return
	}
	night, err := climate.Steady(rail, climate.Weather{Air: measure.Celsius(-10)})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("noon %.1f °C, clear night %.1f °C\n", noon.Temperature.Celsius(), night.Temperature.Celsius())
	// Output:
	// noon 45.6 °C, clear night -16.9 °C
}

func ExampleStates() {
	rail := climate.Body{SunWidth: 8 * measure.Millimetre, Girth: 25 * measure.Millimetre}
	slab := climate.Body{SunWidth: 110 * measure.Millimetre, Girth: 180 * measure.Millimetre, Absorptivity: 0.6, SkyView: 0.8}
	states, err := climate.States(rail, slab,
		climate.Weather{Name: "July noon", Air: measure.Celsius(30), Sun: 850, Wind: 1},
		climate.Weather{Name: "January night", Air: measure.Celsius(-10)})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range states {
		fmt.Printf("%s: rail %.1f, base %.1f\n", s.Name, s.Rail.Celsius(), s.Base.Celsius())
	}
	// Output:
	// July noon: rail 45.6, base 51.5
	// January night: rail -16.9, base -21.1
	// rail coldest, base coldest: rail -16.9, base -21.1
	// rail coldest, base warmest: rail -16.9, base 51.5
	// rail hottest, base coldest: rail 45.6, base -21.1
	// rail hottest, base warmest: rail 45.6, base 51.5
}
