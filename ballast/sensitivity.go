package ballast

import (
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Sensitivity is how much more ballast a bed takes when it comes out
// different from what was drawn, by one and the same length everywhere.
type Sensitivity struct {
	By     measure.Length
	Deeper measure.Volume // the whole formation lies lower by so much
	Wider  measure.Volume // every top is wider by so much, half on each side
	Part   float64        // Deeper over the bed's Net
}

// Sensitivity takes the bed off again, deeper and wider by the given length:
// what a spade's error is worth in bags. A wider top past the formation's edge is an
// error, as it is in TakeOff.
func (b Bed) Sensitivity(line *curve.Alignment, by measure.Length) (Sensitivity, error) {
	l := fault.In("ballast")
	fault.Size(l, "sensitivity: length", by)
	if !l.OK() {
		return Sensitivity{}, l.Err()
	}
	base, err := TakeOff(line, b)
	if err != nil {
		return Sensitivity{}, err
	}
	deep, err := TakeOff(line, b.changed(func(s *Section) { s.Depth += by }))
	if err != nil {
		return Sensitivity{}, err
	}
	wide, err := TakeOff(line, b.changed(func(s *Section) {
		if s.TopWidth > 0 {
			s.TopWidth += by
			if s.Shoulder > 0 {
				s.Shoulder += by / 2
			}
		} else {
			s.Shoulder += by / 2
		}
	}))
	if err != nil {
		return Sensitivity{}, err
	}
	v := Sensitivity{By: by, Deeper: deep.Total.Net - base.Total.Net, Wider: wide.Total.Net - base.Total.Net}
	if base.Total.Net > 0 {
		v.Part = float64(v.Deeper / base.Total.Net)
	}
	return v, nil
}

// changed returns the bed with every section changed.
func (b Bed) changed(change func(*Section)) Bed {
	ranges := make([]Range, len(b.Ranges))
	for i, r := range b.Ranges {
		change(&r.Section)
		if r.Taper != nil {
			t := *r.Taper
			change(&t)
			r.Taper = &t
		}
		ranges[i] = r
	}
	b.Ranges = ranges
	return b
}
