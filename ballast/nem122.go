package ballast

import (
	"fmt"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A NEM122 is a row of the trackbed section's table, NEM 122 (MOROP), edition
// 2007: single track on the level. The meaning of the sheet's letters is
// inferred from its figures.
type NEM122 struct {
	Size          string         // nominal size
	Gauge         measure.Length // G
	Sleeper       measure.Length // its length
	Top           measure.Length // width of the ballast at its top
	Formation     measure.Length // width of the ground under the bed, not the ballast's toe
	RailTop       measure.Length // over the formation
	BallastSlope  float64        // horizontal over vertical
	FormationBank float64        // slope of the bank below the formation, horizontal over vertical
}

// NEM122Sizes returns the rows of NEM 122, edition 2007, that are known here:
// sizes 0, I and II.
func NEM122Sizes() []NEM122 {
	return []NEM122{
		{"0", 32, 58, 76, 134, 16, 1.25, 1.5},
		{"I", 45, 82, 106, 188, 22, 1.25, 1.5},
		{"II", 64, 115, 147, 230, 37, 1.25, 1.5},
	}
}

// Section returns the row's section for sleepers of the given width (along the
// track) and height, with the rail's height that gives the depth: what is left
// of the height of the rail top over the formation.
func (r NEM122) Section(sleeperWidth, sleeperHeight, railHeight measure.Length) (Section, error) {
	l := fault.In("ballast")
	fault.Size(l, "sleeper width", sleeperWidth)
	ok := fault.Size(l, "sleeper height", sleeperHeight)
	ok = fault.Size(l, "rail height", railHeight) && ok
	depth := r.RailTop - sleeperHeight - railHeight
	if ok && depth < 0 {
		l.Add("rail and sleeper height", railHeight+sleeperHeight,
			fmt.Sprintf("must be at most the height of the rail top over the formation, %v for size %s", r.RailTop, r.Size))
	}
	s := Section{
		Depth: depth, Sleeper: Sleeper{r.Sleeper, sleeperWidth, sleeperHeight},
		TopWidth: r.Top, Slope: r.BallastSlope, Formation: r.Formation,
	}
	if err := l.Err(); err != nil {
		return Section{}, err
	}
	if err := s.Validate(); err != nil {
		return Section{}, err
	}
	return s, nil
}
