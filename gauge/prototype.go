package gauge

import (
	"slices"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Prototype is a full-size track gauge.
type Prototype struct {
	Name   string         // as the trade calls it: "3 ft", "metre gauge"
	Gauge  measure.Length // between the running edges of the rail heads
	Source Source
}

// checkGauge records a gauge, of a model or at full size, that none can be.
func checkGauge(l *fault.List, field string, v measure.Length) bool {
	return fault.Between(l, field, v, 0.1*measure.Millimetre, 3*measure.Metre)
}

// inUse is the source of the list of gauges. Those named in feet and inches are
// exact by 1 in = 25.4 mm.
var inUse = Source{Title: "gauges in use", Basis: CommonPractice}

var prototypes = []Prototype{
	{"15 in", 15 * measure.Inch, inUse},
	{"600 mm", 600, inUse},
	{"2 ft", 2 * measure.Foot, inUse},
	{"750 mm", 750, inUse},
	{"2 ft 6 in", 30 * measure.Inch, inUse},
	{"900 mm", 900, inUse},
	{"3 ft", 3 * measure.Foot, inUse},
	{"metre gauge", 1000, inUse},
	{"3 ft 6 in", 42 * measure.Inch, inUse},
	{"standard gauge", 1435, inUse},
	{"4 ft 8½ in", 56.5 * measure.Inch, inUse},
	{"1520 mm", 1520, inUse},
	{"5 ft", 5 * measure.Foot, inUse},
	{"5 ft 3 in", 63 * measure.Inch, inUse},
	{"1668 mm", 1668, inUse},
	{"5 ft 6 in", 66 * measure.Inch, inUse},
	{"7 ft ¼ in", 84.25 * measure.Inch, inUse},
}

// Prototypes returns the table of full-size gauges, narrowest first. Standard
// gauge is there twice: as the 1435 mm of today and as the 4 ft 8½ in
// (1435.1 mm) from which it comes.
func Prototypes() []Prototype { return slices.Clone(prototypes) }

// PrototypeNamed returns the full-size gauge of that name and whether there is
// one.
func PrototypeNamed(name string) (Prototype, bool) {
	i := slices.IndexFunc(prototypes, func(p Prototype) bool { return p.Name == name })
	if i < 0 {
		return Prototype{}, false
	}
	return prototypes[i], true
}
