package expansion

import (
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Window is the range of rail temperatures at which a given feeler is the
// right gap.
type Window struct {
	Low, High measure.Temperature // of the rail
	// The base is taken to be this much cooler than the rail while laying.
	BaseBelow measure.TemperatureDifference
}

// Holds reports whether the rail temperature t lies in the window.
func (w Window) Holds(t measure.Temperature) bool { return t >= w.Low && t <= w.High }

// LayingWindow returns the rail temperatures at which a feeler of the given
// thickness is right for the joint, while the base is cooler than the rail by
// baseBelow (0: as warm). It is measure.ErrNoAnswer where no gap exists at
// all, or where the feeler is right at no temperature of this climate; the
// text says which feelers are.
func (j Joint) LayingWindow(feeler measure.Length, baseBelow measure.TemperatureDifference, climate []State) (Window, error) {
	l := fault.In("expansion")
	fault.NotNegative(l, "feeler", feeler)
	fault.Finite(l, "base below rail", baseBelow)
	if err := l.Err(); err != nil {
		return Window{}, err
	}
	x, ok := j.extremes(climate)
	if !j.good() || !ok {
		return Window{}, j.refuse(nil, climate)
	}
	reach, by := j.Reach()
	if !fits(j.Least, reach, x) {
		return Window{}, j.none(x, reach, by, climate)
	}
	// The closing today, c, must hold g_min + high - c ≤ feeler ≤ g_max + low - c.
	lo := max(float64(j.Least)+x.high-float64(feeler), x.low)
	hi := min(float64(reach)+x.low-float64(feeler), x.high)
	a, b := j.rates()
	w, ok := window(a, b, float64(baseBelow), lo, hi, climate)
	if !ok {
		return Window{}, j.noTemperature(feeler, baseBelow, x, climate)
	}
	w.BaseBelow = baseBelow
	return w, nil
}

// noTemperature says which feelers would be right at some temperature.
func (j Joint) noTemperature(feeler measure.Length, baseBelow measure.TemperatureDifference, x extremes, climate []State) error {
	l := fault.In("expansion")
	a, b := j.rates()
	w, ok := window(a, b, float64(baseBelow), x.low, x.high, climate)
	if !ok {
		l.NoAnswer("base below rail", fmt.Sprintf("%.4g K", float64(baseBelow)), "no rail temperature of this climate has a base that much cooler, whatever the feeler: add today's state to it")
		return l.Err()
	}
	closed := func(t measure.Temperature) float64 { return at(a, b, State{Rail: t, Base: t.Add(-baseBelow)}) }
	low, high := closed(w.Low), closed(w.High)
	reach, _ := j.Reach()
	thin, thick := j.Least+measure.Length(x.high-max(low, high)), reach+measure.Length(x.low-min(low, high))
	from, to := up(thin, 1e3), down(thick, 1e3)
	which := fmt.Sprintf("one from %.3f mm to %.3f mm thick is", from, to)
	if from > to {
		which = fmt.Sprintf("one of %.6f mm is", float64(thin+(thick-thin)/2))
	}
	l.NoAnswer("feeler", mm(feeler), fmt.Sprintf("is right at no rail temperature of this climate while the base is %.4g K cooler: %s", float64(baseBelow), which))
	return l.Err()
}

// window returns the temperatures, of rail and base within the climate's own,
// at which the closing a·t - b·(t - d) lies from lo to hi.
func window(a, b, d, lo, hi float64, climate []State) (Window, bool) {
	cold, hot := math.Inf(1), math.Inf(-1)
	baseCold, baseHot := cold, hot
	for _, s := range climate {
		cold, hot = min(cold, float64(s.Rail)), max(hot, float64(s.Rail))
		baseCold, baseHot = min(baseCold, float64(s.Base)), max(baseHot, float64(s.Base))
	}
	if b != 0 { // a base that does not move may have any temperature
		cold, hot = max(cold, baseCold+d), min(hot, baseHot+d)
	}
	if lo > hi+rounding || cold > hot {
		return Window{}, false
	}
	if a == b {
		// Rail and base move together: every temperature or none.
		c := float64(b * d)
		return Window{Low: measure.Temperature(cold), High: measure.Temperature(hot)}, c >= lo && c <= hi
	}
	t, u := (lo-float64(b*d))/(a-b), (hi-float64(b*d))/(a-b)
	if t > u {
		t, u = u, t
	}
	t, u = max(t, cold), min(u, hot)
	if t > u && t <= u+rounding {
		t, u = u, t
	}
	return Window{Low: measure.Temperature(t), High: measure.Temperature(u)}, t <= u
}
