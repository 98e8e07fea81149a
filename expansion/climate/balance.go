package climate

import (
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// An Irradiance is radiant power on an area, in W/m². The sun on a face square
// to its rays gives 800 to 1000 under a clear summer sky.
type Irradiance float64

// A LinearPower is heat per length of bar, in W/m.
type LinearPower float64

// A Body is a bar in cross-section. The zero fields mean the defaults named.
type Body struct {
	SunWidth     measure.Length // lit by the sun, measured square to its rays
	Girth        measure.Length // outline of the section that loses heat
	Absorptivity float64        // for sunlight, 0 to 1; 0: 0.8, dull or rusty metal (from memory)
	Emissivity   float64        // 0 to 1; 0: 0.9, dull or oxidised (from memory); bright metal has 0.1 or less
	SkyView      float64        // part of the girth that looks at the sky, 0 to 1; 0: 0.5
	Convection   Convection     // zero: 2.8 + 3.0 v
}

// A Convection is the coefficient of heat transfer to the air, linear in the
// wind.
type Convection struct {
	Still   float64 // in still air, W/(m² K)
	PerWind float64 // more for each m/s of wind, W/(m² K) per m/s
}

// Weather is one steady state of the air and the sky. The zero Weather is a
// clear, still night at 0 °C.
type Weather struct {
	Name  string // "clear January night"; for reports only
	Air   measure.Temperature
	Sun   Irradiance // on a face square to the rays
	Wind  measure.Speed
	Cloud float64 // part of the sky covered, 0 to 1
}

// A Balance is the answer for one body in one weather, with the heat flows
// that make it up.
type Balance struct {
	Temperature measure.Temperature
	Sky         measure.Temperature // that the body radiates to
	Absorbed    LinearPower         // from the sun
	Convected   LinearPower         // to the air
	Radiated    LinearPower         // net, to the sky and to things around
	Residual    LinearPower         // Absorbed - Convected - Radiated, below 1e-6 W/m in size
}

const sigma = 5.670374419e-8 // W/(m² K⁴)

// Steady returns the temperature at which the body neither warms nor cools in
// the given weather.
func Steady(b Body, w Weather) (Balance, error) {
	l := fault.In("climate")
	b = b.defaults()
	b.check(l, "body")
	w.check(l, "weather")
	h := b.Convection.Still + b.Convection.PerWind*w.Wind.MetresPerSecond()
	if l.OK() && h <= 0 {
		l.Add("convection", fmt.Sprintf("%v W/(m² K)", h), "must be more than 0 in this wind")
	}
	if err := l.Err(); err != nil {
		return Balance{}, err
	}
	air := w.Air.Kelvin()
	sky4 := w.sky4()
	p := b.Girth.Metres()
	absorbed := b.Absorptivity * float64(w.Sun) * b.SunWidth.Metres()
	flows := func(t float64) (convected, radiated float64) {
		t4 := t * t * t * t
		return h * p * (t - air), b.Emissivity * sigma * p * (b.SkyView*(t4-sky4) + (1-b.SkyView)*(t4-air*air*air*air))
	}
	// The net gain falls with t and is concave, so Newton's steps from above
	// the root come down to it without ever passing it.
	t := air + absorbed/(h*p)
	for range 100 {
		c, r := flows(t)
		step := (absorbed - c - r) / (h*p + 4*b.Emissivity*sigma*p*t*t*t)
		t += step
		if step > -1e-13*t {
			break
		}
	}
	c, r := flows(t)
	return Balance{
		measure.Celsius(t - 273.15), measure.Celsius(math.Sqrt(math.Sqrt(sky4)) - 273.15),
		LinearPower(absorbed), LinearPower(c), LinearPower(r), LinearPower(absorbed - c - r),
	}, nil
}

func (w Weather) sky4() float64 {
	air := w.Air.Kelvin()
	clear := min(0.0552*math.Pow(air, 1.5), air)
	return (1-w.Cloud)*clear*clear*clear*clear + w.Cloud*air*air*air*air
}

func (b Body) defaults() Body {
	if b.Absorptivity == 0 {
		b.Absorptivity = 0.8
	}
	if b.Emissivity == 0 {
		b.Emissivity = 0.9
	}
	if b.SkyView == 0 {
		b.SkyView = 0.5
	}
	if b.Convection == (Convection{}) {
		b.Convection = Convection{2.8, 3.0}
	}
	return b
}

func (b Body) check(l *fault.List, field string) {
	fault.NotNegative(l, field+": sun width", b.SunWidth)
	fault.Positive(l, field+": girth", b.Girth)
	fault.Between(l, field+": absorptivity", b.Absorptivity, 0, 1)
	fault.Between(l, field+": emissivity", b.Emissivity, 0, 1)
	fault.Between(l, field+": sky view", b.SkyView, 0, 1)
	fault.Between(l, field+": still-air convection in W/(m² K)", b.Convection.Still, 0, 1000)
	fault.Between(l, field+": convection with wind in W/(m² K) per m/s", b.Convection.PerWind, 0, 1000)
	if b.SunWidth > b.Girth && b.Girth > 0 {
		l.Add(field+": sun width", b.SunWidth, fmt.Sprintf("must not be more than the girth, %v", b.Girth))
	}
}

func (w Weather) check(l *fault.List, field string) {
	if w.Name != "" {
		field += " (" + w.Name + ")"
	}
	fault.Between(l, field+": air temperature in °C", w.Air.Celsius(), -70, 60)
	fault.Between(l, field+": sun in W/m²", float64(w.Sun), 0, 1500)
	fault.Between(l, field+": wind in m/s", w.Wind.MetresPerSecond(), 0, 60)
	fault.Between(l, field+": cloud", w.Cloud, 0, 1)
}
