package expansion

import (
	"fmt"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A State is the temperature of the rail and of the base under it at one
// time. The zero State is 0 °C for both.
type State struct {
	Name string // "July noon"; for reports only
	Rail measure.Temperature
	Base measure.Temperature
}

// Validate reports a temperature that is not from Coldest to Hottest.
func (s State) Validate() error {
	l := fault.In("expansion")
	s.check(l, "state")
	return l.Err()
}

// Corners returns the four states that a climate needs when only the extremes
// of rail and of base are known: the two do not peak together, and the worst
// gap may stand at any corner. An error names extremes the wrong way round.
func Corners(railLow, railHigh, baseLow, baseHigh measure.Temperature) ([]State, error) {
	l := fault.In("expansion")
	order(l, "rail", railLow, railHigh)
	order(l, "base", baseLow, baseHigh)
	if err := l.Err(); err != nil {
		return nil, err
	}
	return []State{
		{"rail coldest, base coldest", railLow, baseLow},
		{"rail coldest, base warmest", railLow, baseHigh},
		{"rail hottest, base coldest", railHigh, baseLow},
		{"rail hottest, base warmest", railHigh, baseHigh},
	}, nil
}

func order(l *fault.List, what string, low, high measure.Temperature) {
	a := temperature(l, what+": lowest temperature", low)
	b := temperature(l, what+": highest temperature", high)
	if a && b && low > high {
		l.Add(what+": lowest temperature", celsius(low), "must not be above the highest, "+celsius(high))
	}
}

// The temperatures that rail out of doors is taken to have; outside them a
// value is a slip of the pen or of the unit.
const (
	Coldest = measure.Temperature(-90)
	Hottest = measure.Temperature(150)
)

func temperature(l *fault.List, field string, t measure.Temperature) bool {
	if !fault.Finite(l, field, t) {
		return false
	}
	if t < Coldest || t > Hottest {
		l.Add(field, celsius(t), "must be from "+celsius(Coldest)+" to "+celsius(Hottest))
		return false
	}
	return true
}

func celsius(t measure.Temperature) string { return fmt.Sprintf("%.4g °C", t.Celsius()) }

// MaxStates is the most states that a climate may hold.
const MaxStates = 10000

func checkClimate(l *fault.List, climate []State) {
	if len(climate) == 0 {
		l.Add("climate", nil, "must hold one state or more")
	}
	if len(climate) > MaxStates {
		l.Over("climate", fmt.Sprintf("of %d states", len(climate)), fmt.Sprintf("at most %d", MaxStates))
		return
	}
	for i, s := range climate {
		s.check(l, fmt.Sprintf("climate: state %d", i+1))
	}
}

func (s State) check(l *fault.List, field string) {
	if s.Name != "" {
		field += " (" + s.Name + ")"
	}
	temperature(l, field+": rail temperature", s.Rail)
	temperature(l, field+": base temperature", s.Base)
}

func (s State) ok() bool {
	return s.Rail >= Coldest && s.Rail <= Hottest && s.Base >= Coldest && s.Base <= Hottest
}
