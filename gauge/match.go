package gauge

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Match compares what a model gauge stands for at a scale with a full-size
// gauge.
type Match struct {
	Sizes     string // names of the tabled sizes of that scale, "" when not looked up
	Scale     Scale
	Gauge     measure.Length // of the model
	Prototype Prototype
	StandsFor measure.Length // what the model gauge is at full size
	Error     measure.Length // StandsFor less the prototype's gauge: + is too wide
	Off       float64        // Error over the prototype's gauge; 0.01 is 1 %
}

// Compare returns how far the model gauge, at the scale, is off the
// prototype's.
func Compare(s Scale, model measure.Length, p Prototype) (Match, error) {
	l := fault.In("gauge")
	checkGauge(l, "model gauge", model)
	checkGauge(l, "full-size gauge", p.Gauge)
	if err := l.Err(); err != nil {
		return Match{}, err
	}
	return compare(s, model, p), nil
}

func compare(s Scale, model measure.Length, p Prototype) Match {
	full := s.FullLength(model)
	e := full - p.Gauge
	return Match{Scale: s, Gauge: model, Prototype: p, StandsFor: full, Error: e, Off: float64(e / p.Gauge)}
}

// StandsFor compares the model gauge, at the scale, with every full-size gauge
// of the table and returns them nearest first.
func StandsFor(s Scale, model measure.Length) ([]Match, error) {
	l := fault.In("gauge")
	if !checkGauge(l, "model gauge", model) {
		return nil, l.Err()
	}
	matches := make([]Match, len(prototypes))
	for i, p := range prototypes {
		matches[i] = compare(s, model, p)
	}
	nearestFirst(matches)
	return matches, nil
}

// WantedGauge returns the model gauge that the scale wants for a full-size
// gauge, without rounding to any that is made.
func WantedGauge(s Scale, full measure.Length) (measure.Length, error) {
	l := fault.In("gauge")
	if !checkGauge(l, "full-size gauge", full) {
		return 0, l.Err()
	}
	return s.ModelLength(full), nil
}

// GaugesFor returns the tabled model gauges (NEM 010 and imperial), each once,
// nearest first to what the scale wants for the prototype.
func GaugesFor(s Scale, p Prototype) ([]Match, error) {
	l := fault.In("gauge")
	if !checkGauge(l, "full-size gauge", p.Gauge) {
		return nil, l.Err()
	}
	var all []Match
	for _, z := range slices.Concat(NEMSizes(), ImperialSizes()) {
		if !slices.ContainsFunc(all, func(m Match) bool { return m.Gauge == z.Gauge }) {
			all = append(all, compare(s, z.Gauge, p))
		}
	}
	nearestFirst(all)
	return all, nil
}

// DefaultWithin is the part by which a gauge may be off for ScalesFor to call
// the scale suitable when the caller names none: 5 %, which takes in standard
// gauge at 10 mm/ft on 45 mm track (common practice, 4.4 % narrow).
const DefaultWithin = 0.05

// ScalesFor returns the tabled scales (NEM 010 and imperial) at which the model
// gauge is within the given part of the prototype's, nearest first, each scale
// once; within 0 means DefaultWithin. When none is, the error is of the kind
// measure.ErrNoAnswer and names the nearest and the exact scale.
func ScalesFor(p Prototype, model measure.Length, within float64) ([]Match, error) {
	l := fault.In("gauge")
	checkGauge(l, "full-size gauge", p.Gauge)
	checkGauge(l, "model gauge", model)
	fault.Between(l, "within", within, 0, 1)
	if err := l.Err(); err != nil {
		return nil, err
	}
	if within == 0 {
		within = DefaultWithin
	}
	var all []Match
	for _, z := range slices.Concat(NEMSizes(), ImperialSizes()) {
		i := slices.IndexFunc(all, func(m Match) bool { return m.Scale.Equal(z.Scale) })
		if i < 0 {
			m := compare(z.Scale, model, p)
			m.Sizes = z.Name
			all = append(all, m)
			continue
		}
		all[i].Sizes = strings.Join([]string{all[i].Sizes, z.Name}, "; ")
	}
	nearestFirst(all)
	n := slices.IndexFunc(all, func(m Match) bool { return math.Abs(m.Off) > within })
	if n < 0 {
		n = len(all)
	}
	if n == 0 {
		l.NoAnswer("scale", nil, noScale(p, model, all[0]))
		return nil, l.Err()
	}
	return all[:n:n], nil
}

// nearestFirst sorts matches by how far they are off, in the table's order
// where they are equally so.
func nearestFirst(m []Match) {
	slices.SortStableFunc(m, func(a, b Match) int { return cmp.Compare(math.Abs(a.Off), math.Abs(b.Off)) })
}

// noScale says what would give an answer where no tabled scale does.
func noScale(p Prototype, model measure.Length, nearest Match) string {
	text := fmt.Sprintf("no tabled scale has %v for %v; the nearest, %v, is off by %+.1f %%",
		model, p.Gauge, nearest.Scale, 100*nearest.Off)
	if exact, err := ExactScale(p.Gauge, model); err == nil {
		text += fmt.Sprintf("; the exact one is 1:%.4g", exact.Ratio())
	}
	return text
}
