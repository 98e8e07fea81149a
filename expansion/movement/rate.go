package movement

import (
	"math"

	"example.org/fourfoot/expansion"
	"example.org/fourfoot/expansion/joints"
	"example.org/fourfoot/expansion/locked"
	"example.org/fourfoot/gauge/measure"
)

const (
	perK  = "1 K"
	perMM = "1 mm"
	perA  = "1e-6 per K"
)

// Rates returns the change of Low and of High per unit of each input, for the
// heat that the range was made with. The lengths of rail and base count by
// their size; over the base the two are one length and their rates add up.
// A length of none is left out, and which state governs is taken to stay.
func (r Range) Rates(heat joints.Heat) (low, high []expansion.Rate[measure.Length]) {
	return r.end(heat, r.AtLow, "lowest"), r.end(heat, r.AtHigh, "highest")
}

func (r Range) end(h joints.Heat, s expansion.State, which string) []expansion.Rate[measure.Length] {
	a, b := h.Rail.Of(r.Rail, 1), h.Base.Of(r.Base, 1)
	return append([]expansion.Rate[measure.Length]{
		{Input: "rail temperature at laying", Per: perK, By: -a},
		{Input: "base temperature at laying", Per: perK, By: -b},
		{Input: which + " state's rail temperature", Per: perK, By: a},
		{Input: which + " state's base temperature", Per: perK, By: b},
	}, r.shared(h, s.Rail.Sub(h.Laying.Rail), s.Base.Sub(h.Laying.Base))...)
}

// shared are the rates of what does not belong to a state.
func (r Range) shared(h joints.Heat, dRail, dBase measure.TemperatureDifference) []expansion.Rate[measure.Length] {
	out := []expansion.Rate[measure.Length]{
		{Input: "rail expansion", Per: perA, By: (1 * measure.MicroPerKelvin).Of(r.Rail, dRail)},
		{Input: "base expansion", Per: perA, By: (1 * measure.MicroPerKelvin).Of(r.Base, dBase)},
	}
	if r.Rail != 0 {
		out = append(out, expansion.Rate[measure.Length]{Input: "length of rail", Per: perMM, By: h.Rail.Of(measure.Length(math.Copysign(1, float64(r.Rail))), dRail)})
	}
	if r.Base != 0 {
		out = append(out, expansion.Rate[measure.Length]{Input: "length of base", Per: perMM, By: h.Base.Of(measure.Length(math.Copysign(1, float64(r.Base))), dBase)})
	}
	return out
}

// SizeRates returns the change of Size per unit of each input, a joint's Takes
// from its Gap. The laying state does not count.
func (r Range) SizeRates(heat joints.Heat) []expansion.Rate[measure.Length] {
	a, b := heat.Rail.Of(r.Rail, 1), heat.Base.Of(r.Base, 1)
	return append([]expansion.Rate[measure.Length]{
		{Input: "lowest state's rail temperature", Per: perK, By: -a},
		{Input: "lowest state's base temperature", Per: perK, By: -b},
		{Input: "highest state's rail temperature", Per: perK, By: a},
		{Input: "highest state's base temperature", Per: perK, By: b},
	}, r.shared(heat, r.AtHigh.Rail.Sub(r.AtLow.Rail), r.AtHigh.Base.Sub(r.AtLow.Base))...)
}

// GapRates returns the change of the least and of the widest gap per unit of
// each input, that left at laying included.
func (j Joint) GapRates(heat joints.Heat) (low, high []expansion.Rate[measure.Length]) {
	low, high = j.Gap.Rates(heat)
	laid := expansion.Rate[measure.Length]{Input: "gap at laying", Per: perMM, By: 1}
	return append(low, laid), append(high, laid)
}

// LacksRates returns the change of Lacks per unit of each input, for the heat
// that the plan was made with; none of a joint that absorbs.
func (j Joint) LacksRates(heat joints.Heat) []expansion.Rate[measure.Length] {
	low, high := j.GapRates(heat)
	var out []expansion.Rate[measure.Length]
	if j.Verdict&Shuts != 0 {
		out = append(plus(out, -1, low), expansion.Rate[measure.Length]{Input: "least gap", Per: perMM, By: 1})
	}
	if j.Verdict&Parts != 0 {
		out = plus(plus(out, 1, high), -1, heat.Joint(0, 0).ReachRates())
	}
	return out
}

// ShutRates and OpenRates return the change of Shut and of Open per unit of
// each input, for the heat that the plan was made with; none where it is 0.
func (r Run) ShutRates(heat joints.Heat) []expansion.Rate[measure.Length] {
	if r.Shut == 0 {
		return nil
	}
	_, high := r.Closes.Rates(heat)
	return high
}

// OpenRates: see ShutRates.
func (r Run) OpenRates(heat joints.Heat) []expansion.Rate[measure.Length] {
	if r.Open == 0 {
		return nil
	}
	low, _ := r.Closes.Rates(heat)
	return plus(nil, -1, low)
}

// RoomRates and ReachRates return the change of Room and of Reach per unit of
// each input. That of the gap is for all the run's gaps together.
func (r Run) RoomRates() []expansion.Rate[measure.Length] {
	n := measure.Length(r.Joints)
	return []expansion.Rate[measure.Length]{{Input: "gaps at laying", Per: perMM, By: n}, {Input: "least gap", Per: perMM, By: -n}}
}

// ReachRates: see RoomRates.
func (r Run) ReachRates(heat joints.Heat) []expansion.Rate[measure.Length] {
	n := measure.Length(r.Joints)
	return plus([]expansion.Rate[measure.Length]{{Input: "gaps at laying", Per: perMM, By: -n}}, n, heat.Joint(0, 0).ReachRates())
}

// LacksRates returns the change of Lacks per unit of each input; none where
// the run lacks nothing.
func (r Run) LacksRates(heat joints.Heat) []expansion.Rate[measure.Length] {
	switch {
	case r.Lacks == 0:
		return nil
	case r.Shut-r.Room >= r.Open-r.Reach:
		return plus(r.ShutRates(heat), -1, r.RoomRates())
	}
	return plus(r.OpenRates(heat), -1, r.ReachRates(heat))
}

// plus adds k times the rates to those that are there, one entry an input.
func plus(to []expansion.Rate[measure.Length], k measure.Length, rates []expansion.Rate[measure.Length]) []expansion.Rate[measure.Length] {
next:
	for _, x := range rates {
		x.By *= k
		for i := range to {
			if to[i].Input == x.Input {
				to[i].By += x.By
				continue next
			}
		}
		to = append(to, x)
	}
	return to
}

// Rates returns the change of Allowance per unit of each input, for the heat
// that it was made with; none where the rail is never too long for its base. The
// length of a straight, and the radius and turn of a curve, are as in
// locked.BowRates, locked.ShiftRates and locked.RingGrowthRates.
func (s Sideways) Rates(heat joints.Heat) ([]expansion.Rate[measure.Length], error) {
	if s.Strain <= 0 {
		return nil, nil
	}
	alpha, warming := asWarming(heat, s.Strain)
	var rates []expansion.Rate[measure.Length]
	var err error
	switch {
	case !s.Curve:
		rates, err = locked.BowRates(s.Length, alpha, warming)
	case ring(s.Turn):
		rates, err = locked.RingGrowthRates(s.Radius, alpha, warming)
	default:
		rates, err = locked.ShiftRates(s.Radius, s.Turn, alpha, warming)
	}
	if err != nil {
		return nil, err
	}
	var out []expansion.Rate[measure.Length]
	for _, r := range rates {
		switch r.Input {
		case "expansion": // one with the warming
		case "warming":
			e := r.By / measure.Length(alpha) // a unit of strain
			a, b := e*measure.Length(heat.Rail), e*measure.Length(heat.Base)
			dRail, dBase := s.At.Rail.Sub(heat.Laying.Rail), s.At.Base.Sub(heat.Laying.Base)
			out = append(
				out,
				expansion.Rate[measure.Length]{Input: "rail expansion", Per: perA, By: (1 * measure.MicroPerKelvin).Of(e, dRail)},
				expansion.Rate[measure.Length]{Input: "base expansion", Per: perA, By: -(1 * measure.MicroPerKelvin).Of(e, dBase)},
				expansion.Rate[measure.Length]{Input: "rail temperature at laying", Per: perK, By: -a},
				expansion.Rate[measure.Length]{Input: "base temperature at laying", Per: perK, By: b},
				expansion.Rate[measure.Length]{Input: "governing state's rail temperature", Per: perK, By: a},
				expansion.Rate[measure.Length]{Input: "governing state's base temperature", Per: perK, By: -b},
			)
		default:
			out = append(out, r)
		}
	}
	return out, nil
}
