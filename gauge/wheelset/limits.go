package wheelset

import (
	"math"
	"strings"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// Greatest is the most that a limit of this package may be: more than the
// widest full-size gauge.
const Greatest = 3 * measure.Metre

// Limits is what a dimension may be, both ends included. An end that is 0 is
// not stated; the zero Limits states nothing. A single figure that is printed
// without a tolerance has both ends equal.
type Limits struct {
	Min, Max measure.Length
}

// Reading returns the limits of a measured figure and the error of measuring
// it, either way, rounded as Tolerance does.
func Reading(v, within measure.Length) Limits { return Tolerance(v, within, within) }

// Tolerance returns the limits of a figure with its tolerance upwards and
// downwards, both positive: 45.0 +0/-0.5 is Tolerance(45, 0, 0.5). The ends are
// rounded to a millionth of a millimetre, so that decimal figures add up.
func Tolerance(v, plus, minus measure.Length) Limits {
	return Limits{Min: tidy(v - minus), Max: tidy(v + plus)}
}

// Stated reports whether either end is stated.
func (m Limits) Stated() bool { return m != Limits{} }

// String returns "44.5 to 45 mm", "at least …", "at most …", the figure alone
// or "not stated", to six significant digits.
func (m Limits) String() string { return m.text(measure.Length.String) }

func (m Limits) text(length func(measure.Length) string) string {
	switch {
	case !m.Stated():
		return "not stated"
	case m.Max == 0:
		return "at least " + length(m.Min)
	case m.Min == 0:
		return "at most " + length(m.Max)
	case m.Min == m.Max:
		return length(m.Min)
	}
	return strings.TrimSuffix(length(m.Min), " mm") + " to " + length(m.Max)
}

// check records what is wrong with the limits of a field.
func (m Limits) check(l *fault.List, field string) {
	okMin := fault.Between(l, field+" min", m.Min, 0, Greatest)
	okMax := fault.Between(l, field+" max", m.Max, 0, Greatest)
	if okMin && okMax && m.Max != 0 && m.Min > m.Max {
		l.Add(field+" min", mm(m.Min), "must not be above the max, "+mm(m.Max))
	}
}

// tidy rounds to a millionth of a millimetre, well below what can be measured
// and well above the rounding of sums of a few such figures.
func tidy(v measure.Length) measure.Length {
	return measure.Length(math.Round(float64(v)*1e6)/1e6) + 0 // + 0: never -0
}

// exact returns the length with all its digits.
func exact(v measure.Length) string {
	b, err := v.AppendText(nil)
	if err != nil {
		return v.String() // not a number that text can hold
	}
	return string(b)
}

func mm(v measure.Length) string { return exact(tidy(v)) }
