package climate

import (
	"fmt"

	"example.org/fourfoot/expansion"
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
