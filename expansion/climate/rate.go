package climate

import (
	"example.org/fourfoot/expansion"
	"example.org/fourfoot/gauge/measure"
)

// A BalanceRate is the change of each part of a Balance per unit of one
// measured input.
type BalanceRate struct {
	Input, Per                    string
	Temperature, Sky              measure.TemperatureDifference
	Absorbed, Convected, Radiated LinearPower
}

// Rates returns the change of the steady temperature per unit of each
// measured input, by the derivative of the balance.
func Rates(b Body, w Weather) ([]expansion.Rate[measure.TemperatureDifference], error) {
	rates, err := BalanceRates(b, w)
	if err != nil {
		return nil, err
	}
	out := make([]expansion.Rate[measure.TemperatureDifference], len(rates))
	for i, r := range rates {
		out[i] = expansion.Rate[measure.TemperatureDifference]{Input: r.Input, Per: r.Per, By: r.Temperature}
	}
	return out, nil
}

// BalanceRates returns the change of all of the balance, as Rates does.
func BalanceRates(b Body, w Weather) ([]BalanceRate, error) {
	s, err := Steady(b, w)
	if err != nil {
		return nil, err
	}
	b = b.defaults()
	t, air, sky := s.Temperature.Kelvin(), w.Air.Kelvin(), s.Sky.Kelvin()
	p := b.Girth.Metres()
	h := b.Convection.Still + b.Convection.PerWind*w.Wind.MetresPerSecond()
	black := b.Emissivity * sigma * p // W/m per K⁴
	radiates := 4 * black * t * t * t // W/m per K of the body
	const d = 1e-3                    // K, for the sky's own slope
	up, down := w, w
	up.Air += d
	down.Air -= d
	open, shut := w, w
	open.Cloud, shut.Cloud = 0, 1
	byAir, byCloud := (up.sky4()-down.sky4())/(2*d), 0.1*(shut.sky4()-open.sky4())
	sunlit := b.Absorptivity * float64(w.Sun)
	warmer := p * (t - air) // W/m per W/(m² K)
	// What each input makes of the flows and of the sky, K⁴, while the body is
	// held at its temperature.
	rows := []struct {
		input, per                    string
		absorbed, convected, radiated float64
		sky4                          float64
	}{
		{"air temperature", "1 K", 0, -h * p, -black * (b.SkyView*byAir + (1-b.SkyView)*4*air*air*air), byAir},
		{"sun", "1 W/m²", b.Absorptivity * b.SunWidth.Metres(), 0, 0, 0},
		{"wind", "1 m/s", 0, b.Convection.PerWind * warmer, 0, 0},
		{"sun width", "1 mm", sunlit * 1e-3, 0, 0, 0},
		{"girth", "1 mm", 0, float64(s.Convected) / p * 1e-3, float64(s.Radiated) / p * 1e-3, 0},
		{"absorptivity", "0.1", 0.1 * float64(w.Sun) * b.SunWidth.Metres(), 0, 0, 0},
		{"cloud", "0.1", 0, 0, -black * b.SkyView * byCloud, byCloud},
		{"sky view", "0.1", 0, 0, 0.1 * black * (shut.sky4() - w.sky4()), 0},
		{"still-air convection", "1 W/(m² K)", 0, warmer, 0, 0},
		{"convection with wind", "1 W/(m² K) per m/s", 0, warmer * w.Wind.MetresPerSecond(), 0, 0},
		{"emissivity", "0.1", 0, 0, 0.1 * float64(s.Radiated) / b.Emissivity, 0},
	}
	out := make([]BalanceRate, len(rows))
	for i, r := range rows {
		warms := (r.absorbed - r.convected - r.radiated) / (h*p + radiates)
		out[i] = BalanceRate{
			r.input, r.per, measure.TemperatureDifference(warms), measure.TemperatureDifference(r.sky4 / (4 * sky * sky * sky)),
			LinearPower(r.absorbed), LinearPower(r.convected + h*p*warms), LinearPower(r.radiated + radiates*warms),
		}
	}
	return out, nil
}
