package climate

import (
	"fmt"

	"example.org/fourfoot/expansion"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// MaxWeathers is the most kinds of weather that one call takes.
const MaxWeathers = 1000

// States returns the climate of a rail on a base: one state for each weather,
// both in balance with it, and then the four corners of the extremes found,
// since rail and base do not peak together.
func States(rail, base Body, weathers ...Weather) ([]expansion.State, error) {
	l := fault.In("climate")
	if len(weathers) == 0 {
		l.Add("weather", nil, "must be given, one or more")
	}
	if len(weathers) > MaxWeathers {
		l.Over("weather", fmt.Sprintf("of %d kinds", len(weathers)), fmt.Sprintf("at most %d", MaxWeathers))
		return nil, l.Err()
	}
	var states []expansion.State
	for i, w := range weathers {
		r, err := Steady(rail, w)
		l.JoinAs(fmt.Sprintf("rail in weather %d", i+1), err)
		b, err := Steady(base, w)
		l.JoinAs(fmt.Sprintf("base in weather %d", i+1), err)
		states = append(states, expansion.State{Name: w.Name, Rail: r.Temperature, Base: b.Temperature})
	}
	if err := l.Err(); err != nil {
		return nil, err
	}
	corners, err := corners(states)
	if err != nil {
		return nil, err
	}
	return append(states, corners...), nil
}

func corners(states []expansion.State) ([]expansion.State, error) {
	low, high := states[0], states[0]
	for _, s := range states {
		low.Rail, high.Rail = min(low.Rail, s.Rail), max(high.Rail, s.Rail)
		low.Base, high.Base = min(low.Base, s.Base), max(high.Base, s.Base)
	}
	return expansion.Corners(low.Rail, high.Rail, low.Base, high.Base)
}

// Rates returns the change of the steady temperature per unit of each
// measured input, by the derivative of the balance.
func Rates(b Body, w Weather) ([]expansion.Rate[measure.TemperatureDifference], error) {
	s, err := Steady(b, w)
	if err != nil {
		return nil, err
	}
	b = b.defaults()
	t, air := s.Temperature.Kelvin(), w.Air.Kelvin()
	p := b.Girth.Metres()
	h := b.Convection.Still + b.Convection.PerWind*w.Wind.MetresPerSecond()
	stiff := h*p + 4*b.Emissivity*sigma*p*t*t*t // W/m per K of the body
	const d = 1e-3                              // K, for the sky's own slope
	up, down := w, w
	up.Air += d
	down.Air -= d
	sky := (up.sky4() - down.sky4()) / (2 * d)
	fromAir := h*p + b.Emissivity*sigma*p*(b.SkyView*sky+(1-b.SkyView)*4*air*air*air)
	dt := func(watts float64) measure.TemperatureDifference {
		return measure.TemperatureDifference(watts / stiff)
	}
	open, shut := w, w
	open.Cloud, shut.Cloud = 0, 1
	clear, overcast := open.sky4(), shut.sky4()
	sunlit := b.Absorptivity * float64(w.Sun)
	return []expansion.Rate[measure.TemperatureDifference]{
		{Input: "air temperature", Per: "1 K", By: dt(fromAir)},
		{Input: "sun", Per: "1 W/m²", By: dt(b.Absorptivity * b.SunWidth.Metres())},
		{Input: "wind", Per: "1 m/s", By: dt(-b.Convection.PerWind * p * (t - air))},
		{Input: "sun width", Per: "1 mm", By: dt(sunlit * 1e-3)},
		{Input: "girth", Per: "1 mm", By: dt(-float64(s.Convected+s.Radiated) / p * 1e-3)},
		{Input: "absorptivity", Per: "0.1", By: dt(0.1 * float64(w.Sun) * b.SunWidth.Metres())},
		{Input: "cloud", Per: "0.1", By: dt(0.1 * b.Emissivity * sigma * p * b.SkyView * (overcast - clear))},
		{Input: "sky view", Per: "0.1", By: dt(0.1 * b.Emissivity * sigma * p * (w.sky4() - overcast))},
		{Input: "still-air convection", Per: "1 W/(m² K)", By: dt(-p * (t - air))},
		{Input: "convection with wind", Per: "1 W/(m² K) per m/s", By: dt(-p * (t - air) * w.Wind.MetresPerSecond())},
		{Input: "emissivity", Per: "0.1", By: dt(-0.1 * float64(s.Radiated) / b.Emissivity)},
	}, nil
}
