package locked

import (
	"fmt"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A SecondMoment is a second moment of area, in mm⁴.
type SecondMoment float64

// A Section is the cross-section of a rail.
type Section struct {
	Name     string
	Height   measure.Length
	Foot     measure.Length // width
	Area     measure.Area
	Upright  SecondMoment // about the level axis: resists bending up and down
	Sideways SecondMoment // about the upright axis: resists bending sideways
	Source   string
}

// Mass returns the mass per length of the section in a material.
func (s Section) Mass(d measure.Density) measure.LinearMass {
	return measure.LinearMass(d.KilogramsPerCubicMetre() * s.Area.SquareMetres())
}

// Profiles returns the full-size flat-bottom rails that model rail is scaled
// from: height, foot, area as EN 13674-1 has them; its second moments from
// memory.
func Profiles() []Section {
	const cm2, cm4 = measure.SquareCentimetre, 1e4
	return []Section{
		{"60E1", 172, 150, 76.70 * cm2, 3038.3 * cm4, 512.3 * cm4, "EN 13674-1; second moments from memory"},
		{"54E1", 159, 140, 69.77 * cm2, 2337.9 * cm4, 419.2 * cm4, "EN 13674-1; area and second moments from memory"},
	}
}

// Scaled returns the section with its heights scaled to the given height and
// its widths to the given foot (0: as the heights): areas go by the product of
// the two factors, the upright second moment by its width and height cubed,
// the sideways one by its height and width cubed. Model rail has a thicker web
// than that, so all four come out on the small side.
func (s Section) Scaled(name string, height, foot measure.Length) (Section, error) {
	l := fault.In("locked")
	fault.Positive(l, "profile: height", s.Height)
	fault.Positive(l, "profile: foot", s.Foot)
	fault.Positive(l, "height", height)
	fault.NotNegative(l, "foot", foot)
	if err := l.Err(); err != nil {
		return Section{}, err
	}
	v := float64(height / s.Height)
	w := v
	if foot > 0 {
		w = float64(foot / s.Foot)
	}
	return Section{
		name, height, s.Foot * measure.Length(w), s.Area * measure.Area(v*w),
		s.Upright * SecondMoment(w*v*v*v), s.Sideways * SecondMoment(v*w*w*w), "scaled from " + s.Name + " (" + s.Source + ")",
	}, nil
}

// Code returns 60E1 scaled to the height of a rail code, thousandths of an
// inch, and to the given foot (0: in proportion).
func Code(code float64, foot measure.Length) (Section, error) {
	l := fault.In("locked")
	fault.Between(l, "rail code, thousandths of an inch", code, 10, 2000)
	if err := l.Err(); err != nil {
		return Section{}, err
	}
	return Profiles()[0].Scaled(fmt.Sprintf("code %g", code), measure.Length(code/1000)*measure.Inch, foot)
}
