package expansion

import (
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// Gaps are the gaps that may be left at a joint today, and why.
type Gaps struct {
	Least   measure.Length // g_min + max m
	Most    measure.Length // g_max + min m
	Closing measure.Length // max m: the most that the joint closes from today
	Opening measure.Length // min m: negative, the most that it opens from today
	Tight   State          // governs Least: the gap is smallest here
	Wide    State          // governs Most: the gap is widest here
	Reach   measure.Length // g_max
	By      Limit          // what sets Reach
}

// Aim returns the middle of the permitted gaps, which leaves the same margin
// at both ends.
func (g Gaps) Aim() measure.Length { return g.Least + (g.Most-g.Least)/2 }

// Gaps returns the gaps that may be left today, at the laying state, so that
// the joint stays between its least gap and its reach in every state of the
// climate.
//
// It is measure.ErrNoAnswer when no gap does so, whatever today's
// temperature; the text says the longest panel that has one and the reach
// that this one would need. A laying state that moves the joint beyond the
// extremes of the climate is refused: the climate then lacks today. The call
// allocates nothing unless it fails.
func (j Joint) Gaps(laying State, climate []State) (Gaps, error) {
	if !j.good() || !laying.ok() {
		return Gaps{}, j.refuse(&laying, climate)
	}
	x, ok := j.extremes(climate)
	if !ok {
		return Gaps{}, j.refuse(&laying, climate)
	}
	reach, by := j.Reach()
	if !fits(j.Least, reach, x) {
		return Gaps{}, j.none(x, reach, by, climate)
	}
	a, b := j.rates()
	now := at(a, b, laying)
	if now < x.low-rounding || now > x.high+rounding {
		return Gaps{}, j.beyond(laying, x, climate)
	}
	g := Gaps{
		Closing: measure.Length(max(x.high-now, 0)), Opening: measure.Length(min(x.low-now, 0)),
		Tight: climate[x.tight], Wide: climate[x.wide], Reach: reach, By: by,
	}
	g.Least, g.Most = j.Least+g.Closing, reach+g.Opening
	if g.Most < g.Least { // by rounding only, where the panel is the longest possible
		g.Most = g.Least
	}
	return g, nil
}

// extremes are the least and the greatest closing over a climate, from 0 °C,
// and the states where they occur.
type extremes struct {
	low, high   float64
	wide, tight int
}

func (j Joint) extremes(climate []State) (extremes, bool) {
	if len(climate) == 0 || len(climate) > MaxStates {
		return extremes{}, false
	}
	a, b := j.rates()
	x := extremes{low: math.Inf(1), high: math.Inf(-1)}
	for i := range climate {
		s := &climate[i]
		if !s.ok() {
			return extremes{}, false
		}
		m := at(a, b, *s)
		if m < x.low {
			x.low, x.wide = m, i
		}
		if m > x.high {
			x.high, x.tight = m, i
		}
	}
	return x, true
}

// rounding is what a panel may be too long by, or a laying state beyond the
// climate: it lets the longest panel and the ends of a window pass their own
// tests.
const rounding = 1e-9 // mm

// fits is the one test of whether a panel is possible.
func fits(least, reach measure.Length, x extremes) bool {
	return float64(least)+(x.high-x.low) <= float64(reach)+rounding
}

// Travel returns max m - min m: what the joint moves between the extremes of
// the climate.
func (j Joint) Travel(climate []State) (measure.Length, error) {
	x, ok := j.extremes(climate)
	if !j.good() || !ok {
		return 0, j.refuse(nil, climate)
	}
	return measure.Length(x.high - x.low), nil
}

// LeastReach returns the least g_max for which a gap exists:
// g_min + max m - min m.
func (j Joint) LeastReach(climate []State) (measure.Length, error) {
	t, err := j.Travel(climate)
	return j.Least + t, err
}

// Longest returns the greatest sum of the two free lengths, their shares kept,
// for which a gap exists. Between panels that are held at their middles that
// is the length of a panel. It is measure.ErrNoAnswer where the joint does not
// move at all, so that any length will do.
func (j Joint) Longest(climate []State) (measure.Length, error) {
	x, ok := j.extremes(climate)
	if !j.good() || !ok {
		return 0, j.refuse(nil, climate)
	}
	total := j.Before.Free + j.After.Free
	if x.high == x.low {
		l := fault.In("expansion")
		l.NoAnswer("longest panel", nil, "the joint does not move in this climate: any length will do; a limit exists when the states differ and the free lengths are more than 0 mm")
		return 0, l.Err()
	}
	reach, _ := j.Reach()
	return j.longest(total, reach, x), nil
}

func (j Joint) longest(total, reach measure.Length, x extremes) measure.Length {
	return measure.Length(float64(reach-j.Least) / (x.high - x.low) * float64(total))
}

func (j Joint) refuse(laying *State, climate []State) error {
	l := fault.In("expansion")
	j.check(l)
	if laying != nil {
		laying.check(l, "laying state")
	}
	checkClimate(l, climate)
	return l.Err()
}

func (j Joint) none(x extremes, reach measure.Length, by Limit, climate []State) error {
	total := j.Before.Free + j.After.Free
	need := j.Least + measure.Length(x.high-x.low)
	l := fault.In("expansion")
	l.NoAnswer("gap", "for "+mm(total)+" of free rail", fmt.Sprintf(
		"none suits both %s and %s: the joint moves %.2f mm and may move %.2f mm (%v); at most %.0f mm of free rail, or a reach of %.2f mm, would do",
		name(climate[x.tight]), name(climate[x.wide]), x.high-x.low, float64(reach-j.Least), by,
		math.Floor(float64(j.longest(total, reach, x))), math.Ceil(float64(need)*100)/100))
	return l.Err()
}

func (j Joint) beyond(laying State, x extremes, climate []State) error {
	l := fault.In("expansion")
	l.Add("laying state", name(laying), fmt.Sprintf("must not move the joint beyond the climate's own extremes, %s and %s: add it to the climate", name(climate[x.wide]), name(climate[x.tight])))
	return l.Err()
}

func name(s State) string {
	t := fmt.Sprintf("rail %.4g °C, base %.4g °C", s.Rail.Celsius(), s.Base.Celsius())
	if s.Name != "" {
		return s.Name + " (" + t + ")"
	}
	return t
}
