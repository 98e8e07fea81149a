package locked

import (
	"example.org/fourfoot/expansion"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/gauge/rail"
)

// A SecondMoment is a second moment of area, in mm⁴.
type SecondMoment float64

// A Section is the cross-section of a rail and how it resists bending. One
// with the caller's own figures is as good.
type Section struct {
	Name     string
	Area     measure.Area
	Upright  SecondMoment // about the level axis: resists bending up and down
	Sideways SecondMoment // about the upright axis: resists bending sideways
	Source   string
}

// Mass returns the mass per length of the section in a material.
func (s Section) Mass(d measure.Density) measure.LinearMass {
	return measure.LinearMass(d.KilogramsPerCubicMetre() * s.Area.SquareMetres())
}

// The second moments of 60E1: EN 13674-1, from memory.
const (
	upright60E1  SecondMoment = 3038.3e4
	sideways60E1 SecondMoment = 512.3e4
)

// FromRail returns the section of a rail, full size or model, by scaling 60E1:
// its heights to the rail's height, its widths to the rail's foot, or as the
// heights where the foot is not stated. Areas go by the product of the two
// factors, the upright second moment by width and height cubed, the sideways
// one by height and width cubed. Where the rail states its own area, all three
// are then taken up or down to that. Model rail has a thicker web and foot
// than that, so that an unstated area comes out on the small side.
func FromRail(r rail.Section) (Section, error) {
	if err := r.Validate(); err != nil {
		return Section{}, err
	}
	full, _ := rail.Named("60E1") // stands in the table
	v := float64(r.Height / full.Height)
	w := v
	if r.Foot > 0 {
		w = float64(r.Foot / full.Foot)
	}
	s := Section{
		Name: r.Name, Area: full.Area * measure.Area(v*w),
		Upright: upright60E1 * SecondMoment(w*v*v*v), Sideways: sideways60E1 * SecondMoment(v*w*w*w),
		Source: "scaled from 60E1, EN 13674-1 (second moments from memory), to " + r.Source.String(),
	}
	if r.Area > 0 {
		k := SecondMoment(r.Area / s.Area)
		s.Area, s.Upright, s.Sideways = r.Area, s.Upright*k, s.Sideways*k
	}
	return s, nil
}

// FromRailRates returns the change per unit of each input of the area and of
// the two second moments that FromRail makes of a rail.
func FromRailRates(r rail.Section) (area []expansion.Rate[measure.Area], upright, sideways []expansion.Rate[SecondMoment], err error) {
	s, err := FromRail(r)
	if err != nil {
		return nil, nil, nil, err
	}
	add := func(in input, a, u, w float64) {
		if a != 0 {
			area = append(area, power(a, s.Area, in))
		}
		if u != 0 {
			upright = append(upright, power(u, s.Upright, in))
		}
		if w != 0 {
			sideways = append(sideways, power(w, s.Sideways, in))
		}
	}
	height := perUnit("height", "1 mm", r.Height)
	// The powers of height and foot, taken down by the area's own where that
	// is stated and an input itself.
	a := 1.0
	if r.Area > 0 {
		a = 0
		add(perUnit("area", "1 mm²", r.Area), 1, 1, 1)
	}
	if r.Foot > 0 {
		add(height, a, 2+a, a)
		add(perUnit("foot", "1 mm", r.Foot), a, a, 2+a)
	} else {
		add(height, 2*a, 2+2*a, 2+2*a)
	}
	return area, upright, sideways, nil
}
