package clearance

import (
	"fmt"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// Settings say how a sweep is done. The zero Settings sweep the whole line to
// the default tolerance with no allowances.
type Settings struct {
	Tolerance  measure.Length // by how much a reach may be off; 0 means 0.1 mm, at least 1e-6 mm
	From, To   measure.Length // the chainages to answer for; both 0 mean the whole line; on a circuit To may lie below From, over the start
	Allowances Allowances
	MaxKept    int // limit on kept stations times outlines, an outline counted three times with a cant that varies; 0 means DefaultMaxKept
}

// The tolerance of zero Settings, and the most that is taken.
const (
	DefaultTolerance measure.Length = 0.1

	// Of a sweep.
	DefaultMaxKept = 2_000_000 // kept stations times outlines: about 160 MB
	MaxStock       = 200       // vehicles of one sweep
	MaxPoses       = 200_000   // of one vehicle, at a quarter of its shortest pivot spacing
	MaxEdgePoints  = 5_000_000 // of one call of Edges

	// Of a vehicle.
	MaxBodies   = 8   // bodies of one vehicle
	MaxBands    = 50  // outlines of one body, carrier or truck
	MaxOutline  = 500 // corners of one outline
	MaxTrucks   = 4   // trucks of one body
	MaxAxles    = 20  // inner axles of one body
	MaxOverhang = 100 // a body's length over its pivot spacing: beyond, its ends swing without bound

	// Of structures.
	MaxStructures   = 1000  // of one audit
	MaxParts        = 100   // faces, roofs and figures of one structure
	MaxFigurePoints = 10000 // points of one figure
)

// check returns the settings with their defaults, From and To unrolled: To is
// more than From, on a circuit perhaps past its length.
func (set Settings) check(l *fault.List, line *curve.Alignment) Settings {
	if set.Tolerance == 0 {
		set.Tolerance = DefaultTolerance
	}
	fault.Between(l, "tolerance", set.Tolerance, 1e-6, 10)
	if set.MaxKept == 0 {
		set.MaxKept = DefaultMaxKept
	} else if set.MaxKept < 0 {
		l.Add("most kept stations", set.MaxKept, "must be 0 or more")
	}
	set.Allowances.check(l)
	okF, okT := fault.Finite(l, "from", set.From), fault.Finite(l, "to", set.To)
	if line == nil {
		l.Add("line", "none", "must be given")
	}
	if line == nil || !okF || !okT {
		return set
	}
	length := line.Length()
	if set.From == 0 && set.To == 0 {
		set.To = length
	}
	for _, c := range []struct {
		name string
		at   measure.Length
	}{{"from", set.From}, {"to", set.To}} {
		if c.at < 0 || c.at > length {
			l.Add(c.name, c.at, fmt.Sprintf("must be on the line, from 0 mm to %v", length))
		}
	}
	if line.Closed() && set.To < set.From {
		set.To += length
	}
	if set.To <= set.From {
		l.Add("to", set.To, fmt.Sprintf("must be past the beginning of the range at %v", set.From))
	}
	return set
}
