package ballast

import (
	"fmt"
	"slices"

	"example.org/fourfoot/gauge"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Sieve is one size of a grading: the part of the mass, in percent, that
// passes it lies from Least to Most.
type Sieve struct {
	Size        measure.Length
	Least, Most float64
}

// A Grading says how stone is sized, sieve by sieve from the coarsest.
type Grading struct {
	Name   string
	Small  measure.Length // nominal size of the smallest stones
	Large  measure.Length // nominal size of the largest stones
	Source gauge.Source   // of the nominal sizes
	Sieves []Sieve
	Basis  gauge.Basis // of the sieves
}

// Gradings returns the full-size ballast gradings known here. The nominal size
// 31.5 to 50 mm of EN 13450 and 28 to 50 mm of the United Kingdom were seen;
// the figures sieve by sieve are from memory.
func Gradings() []Grading {
	return []Grading{
		{
			Name: "EN 13450 category A", Small: 31.5, Large: 50,
			Source: gauge.Source{Title: "EN 13450", Basis: gauge.Seen}, Basis: gauge.FromMemory,
			Sieves: []Sieve{{63, 100, 100}, {50, 70, 99}, {40, 30, 65}, {31.5, 1, 25}, {22.4, 0, 3}},
		},
		{
			Name: "United Kingdom 28-50", Small: 28, Large: 50,
			Source: gauge.Source{Title: "British practice, beside EN 13450", Basis: gauge.Seen}, Basis: gauge.FromMemory,
		},
		{
			Name: "AREMA No. 4A", Small: 0.75 * measure.Inch, Large: 2 * measure.Inch,
			Source: gauge.Source{Title: "AREMA Manual, ballast gradations", Basis: gauge.FromMemory}, Basis: gauge.FromMemory,
			Sieves: []Sieve{
				{2.5 * measure.Inch, 100, 100},
				{2 * measure.Inch, 90, 100},
				{1.5 * measure.Inch, 60, 90},
				{1 * measure.Inch, 10, 35},
				{0.75 * measure.Inch, 0, 10},
				{0.375 * measure.Inch, 0, 3},
			},
		},
	}
}

// AtScale returns the grading at the scale.
func (g Grading) AtScale(s gauge.Scale) Grading {
	g.Sieves = slices.Clone(g.Sieves)
	for i := range g.Sieves {
		g.Sieves[i].Size = s.ModelLength(g.Sieves[i].Size)
	}
	g.Small, g.Large = s.ModelLength(g.Small), s.ModelLength(g.Large)
	return g
}

// A GritFit compares a grit on hand with a grading at a scale. A part above 0
// is over scale, below 0 under scale: 0.25 is a quarter too coarse.
type GritFit struct {
	Want                 Grading        // at the scale
	SmallOver, LargeOver float64        // of the grit's small and large ends, as parts of the wanted sizes
	FullSmall, FullLarge measure.Length // what the grit on hand would be at full size
}

// Fit compares a grit of sizes from small to large with the full-size grading g
// at the scale.
func (g Grading) Fit(s gauge.Scale, small, large measure.Length) (GritFit, error) {
	l := fault.In("ballast")
	a := fault.Size(l, "smallest grit", small)
	if b := fault.Size(l, "largest grit", large); a && b && large < small {
		l.Add("largest grit", large, fmt.Sprintf("must be at least the smallest, %v", small))
	}
	fault.Size(l, "grading: small", g.Small)
	fault.Size(l, "grading: large", g.Large)
	if !l.OK() {
		return GritFit{}, l.Err()
	}
	want := g.AtScale(s)
	return GritFit{
		Want: want, SmallOver: float64(small/want.Small) - 1, LargeOver: float64(large/want.Large) - 1,
		FullSmall: s.FullLength(small), FullLarge: s.FullLength(large),
	}, nil
}

// A Grain is the form of the stones.
type Grain uint8

// The forms.
const (
	Sharp Grain = iota // crushed
	Round              // gravel, as rivers leave it
)

// String returns "sharp" or "round".
func (g Grain) String() string {
	if g == Round {
		return "round"
	}
	return "sharp"
}

// Effect says what stones of the form do under a line (common practice, no
// source).
func (g Grain) Effect() string {
	if g == Round {
		return "round stones roll on each other: the track creeps and must be bonded or held by pegs; they drain well and are easily worked out of points"
	}
	return "sharp stones bite into each other and under the sleepers and hold the track; a chip can wedge the blades of points, so keep those loose and brushed out"
}
