package expansion

import (
	"example.org/fourfoot/gauge/measure"
)

// A Rate says how much a result changes when one measured input grows by one
// unit, all others kept: what a degree of the thermometer or a millimetre of
// the tape is worth. Where an input decides only on one side (a limit that
// another takes over) it is the rate of the side that governs now.
type Rate[T ~float64] struct {
	Input string // "rail temperature today"
	Per   string // the unit: "1 K", "1 mm", "1e-6 per K"
	By    T      // the change of the result
}

const (
	perK  = "1 K"
	perMM = "1 mm"
	perA  = "1e-6 per K"
)

// Rates returns the change per unit of each input of the two ends of
// Joint.Gaps. Their mean moves by half of both together; the closing and the
// opening move as Joint.ClosingRates says for the states that govern.
func (j Joint) Rates(laying State, climate []State) (least, most []Rate[measure.Length], err error) {
	g, err := j.Gaps(laying, climate)
	if err != nil {
		return nil, nil, err
	}
	least = append(j.endRates(laying, g.Tight, "tightest"), Rate[measure.Length]{"least gap", perMM, 1})
	most = append(j.endRates(laying, g.Wide, "widest"), reachRates(j.Joiner, g.By)...)
	return least, most, nil
}

// ClosingRates returns the change per unit of each input of Joint.Closing, and
// with the sign turned that of Joint.GapAt.
func (j Joint) ClosingRates(then, now State) []Rate[measure.Length] {
	rates := j.endRates(then, now, "the other")
	for i, input := range [...]string{"rail temperature then", "base temperature then", "rail temperature now", "base temperature now"} {
		rates[i].Input = input
	}
	return rates
}

// endRates are those of m from today to a governing state.
func (j Joint) endRates(today, s State, which string) []Rate[measure.Length] {
	a, b := j.rates()
	dr, db := float64(s.Rail-today.Rail), float64(s.Base-today.Base)
	side := func(p Side, where string) []Rate[measure.Length] {
		return []Rate[measure.Length]{
			{"free length " + where, perMM, measure.Length(float64(p.Rail)*dr - float64(p.Base)*db)},
			{"rail expansion " + where, perA, measure.Length(1e-6 * dr * float64(p.Free))},
			{"base expansion " + where, perA, measure.Length(-1e-6 * db * float64(p.Free))},
		}
	}
	out := []Rate[measure.Length]{
		{"rail temperature today", perK, measure.Length(-a)},
		{"base temperature today", perK, measure.Length(b)},
		{which + " state's rail temperature", perK, measure.Length(a)},
		{which + " state's base temperature", perK, measure.Length(-b)},
	}
	return append(append(out, side(j.Before, "before")...), side(j.After, "after")...)
}

// ReachRates returns the change per unit of each input of Joint.Reach.
func (j Joint) ReachRates() []Rate[measure.Length] {
	_, by := j.Reach()
	return reachRates(j.Joiner, by)
}

func reachRates(j Joiner, by Limit) []Rate[measure.Length] {
	switch by {
	case JoinerCentred:
		return []Rate[measure.Length]{{"joiner length", perMM, 1}, {"joiner engagement", perMM, -2}}
	case JoinerWalked:
		if j.Stop == 0 {
			return []Rate[measure.Length]{{"joiner length", perMM, 0.5}, {"joiner engagement", perMM, -1}}
		}
		return []Rate[measure.Length]{{"joiner length", perMM, 1}, {"joiner engagement", perMM, -1}, {"joiner stop", perMM, -1}}
	}
	return []Rate[measure.Length]{{"widest gap for wheels", perMM, 1}}
}

// TravelRates returns the change per unit of each input of Joint.Travel. Those
// of Joint.LeastReach are the same, and 1 mm for each of the least gap.
func (j Joint) TravelRates(climate []State) ([]Rate[measure.Length], error) {
	x, ok := j.extremes(climate)
	if !j.good() || !ok {
		return nil, j.refuse(nil, climate)
	}
	tight, wide := climate[x.tight], climate[x.wide]
	rates := j.endRates(wide, tight, "tightest")
	rates[0].Input, rates[1].Input = "widest state's rail temperature", "widest state's base temperature"
	return rates, nil
}

// LongestRates returns the change per unit of each input of Joint.Longest.
func (j Joint) LongestRates(climate []State) ([]Rate[measure.Length], error) {
	longest, err := j.Longest(climate)
	if err != nil {
		return nil, err
	}
	x, _ := j.extremes(climate)
	tight, wide := climate[x.tight], climate[x.wide]
	travel := x.high - x.low
	a, b := j.rates()
	total := float64(j.Before.Free + j.After.Free)
	// L = total · room / travel: by room, and by travel.
	room := Rate[measure.Length]{"room, the reach less the least gap", perMM, measure.Length(total / travel)}
	of := func(dTravel float64) measure.Length { return measure.Length(-float64(longest) / travel * dTravel) }
	dr, db := float64(tight.Rail-wide.Rail), float64(tight.Base-wide.Base)
	return []Rate[measure.Length]{
		room,
		{"tightest state's rail temperature", perK, of(a)},
		{"tightest state's base temperature", perK, of(-b)},
		{"widest state's rail temperature", perK, of(-a)},
		{"widest state's base temperature", perK, of(b)},
		{"rail expansion before", perA, of(1e-6 * dr * float64(j.Before.Free))},
		{"rail expansion after", perA, of(1e-6 * dr * float64(j.After.Free))},
		{"base expansion before", perA, of(-1e-6 * db * float64(j.Before.Free))},
		{"base expansion after", perA, of(-1e-6 * db * float64(j.After.Free))},
	}, nil
}

// WindowRates returns the change per unit of each input of the two ends of
// Joint.LayingWindow. An end that the climate's own temperatures set moves
// with them alone; it has no rates and its slice is empty.
func (j Joint) WindowRates(feeler measure.Length, baseBelow measure.TemperatureDifference, climate []State) (low, high []Rate[measure.TemperatureDifference], err error) {
	w, err := j.LayingWindow(feeler, baseBelow, climate)
	if err != nil {
		return nil, nil, err
	}
	x, _ := j.extremes(climate)
	a, b := j.rates()
	reach, by := j.Reach()
	tight, wide := climate[x.tight], climate[x.wide]
	end := func(t measure.Temperature) []Rate[measure.TemperatureDifference] {
		today := State{Rail: t, Base: t.Add(-baseBelow)}
		now := at(a, b, today)
		per := func(rates []Rate[measure.Length]) []Rate[measure.TemperatureDifference] {
			var out []Rate[measure.TemperatureDifference]
			for _, r := range rates {
				if r.Input == "rail temperature today" || r.Input == "base temperature today" {
					continue
				}
				// The end of the permitted gaps stays at the feeler: the
				// temperature gives way at a - b a kelvin.
				out = append(out, Rate[measure.TemperatureDifference]{r.Input, r.Per, measure.TemperatureDifference(float64(r.By) / (a - b))})
			}
			return append(out,
				Rate[measure.TemperatureDifference]{"feeler", perMM, measure.TemperatureDifference(-1 / (a - b))},
				Rate[measure.TemperatureDifference]{"base below rail", perK, measure.TemperatureDifference(-b / (a - b))})
		}
		const near = 1e-6
		if d := float64(j.Least) + x.high - now - float64(feeler); d > -near && d < near && a != b {
			return per(append(j.endRates(today, tight, "tightest"), Rate[measure.Length]{"least gap", perMM, 1}))
		}
		if d := float64(reach) + x.low - now - float64(feeler); d > -near && d < near && a != b {
			return per(append(j.endRates(today, wide, "widest"), reachRates(j.Joiner, by)...))
		}
		return nil
	}
	return end(w.Low), end(w.High), nil
}
