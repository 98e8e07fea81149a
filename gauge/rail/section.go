package rail

import (
	"example.org/fourfoot/gauge"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Section is a rail's cross-section. What is 0 is not stated.
type Section struct {
	Name   string
	Height measure.Length
	Foot   measure.Length // width
	Head   measure.Length // width
	Web    measure.Length // thickness
	Area   measure.Area
	Mass   measure.LinearMass // of the material it is rolled in
	Source gauge.Source
}

// Validate says what is wrong with the section: a height that is not positive,
// or another dimension that is neither positive nor 0, or a foot, head or web
// of a size that no rail has beside its height or foot.
func (s Section) Validate() error {
	l := fault.In("rail")
	s.check(l)
	return l.Err()
}

func (s Section) check(l *fault.List) {
	okH := fault.Between(l, "rail height", s.Height, measure.Millimetre/100, greatest)
	okF := fault.Between(l, "foot width", s.Foot, 0, greatest)
	okD := fault.Between(l, "head width", s.Head, 0, greatest)
	okW := fault.Between(l, "web thickness", s.Web, 0, greatest)
	okA := fault.NotNegative(l, "sectional area", s.Area)
	fault.NotNegative(l, "mass per length", s.Mass)
	if okD && okW && s.Head != 0 && s.Web > s.Head {
		l.Add("web thickness", s.Web, "must not be above the head width, "+s.Head.String())
	}
	if okH && okF && okD && okA && s.Area > s.Height.By(max(s.Foot, s.Head)) && s.Foot != 0 && s.Head != 0 {
		l.Add("sectional area", s.Area, "must not be above height times width, "+s.Height.By(max(s.Foot, s.Head)).String())
	}
}

// greatest is the most that a dimension of a rail may be.
const greatest = measure.Metre

// AtScale returns the section at a scale: lengths over n, the area and, the
// material being the same, the mass per length over n².
func (s Section) AtScale(scale gauge.Scale) Section {
	n := scale.Ratio()
	t := s
	t.Name = s.named() + " at " + scale.String()
	t.Height, t.Foot = scale.ModelLength(s.Height), scale.ModelLength(s.Foot)
	t.Head, t.Web = scale.ModelLength(s.Head), scale.ModelLength(s.Web)
	t.Area = scale.ModelArea(s.Area)
	t.Mass = s.Mass / measure.LinearMass(n*n)
	t.Source.Basis = gauge.Worked
	return t
}

// MassOf returns the mass per length of the section rolled in a material of the
// density, from its area.
func (s Section) MassOf(material measure.Density) (measure.LinearMass, error) {
	l := fault.In("rail")
	s.check(l)
	fault.Positive(l, "density", material)
	if s.Area == 0 {
		l.Add("sectional area", nil, "must be stated to find a mass")
	}
	if err := l.Err(); err != nil {
		return 0, err
	}
	perMetre := material.Of(s.Area.By(measure.Metre))
	return measure.LinearMass(perMetre.Kilograms()), nil
}

// PairMass returns the mass of both rails of a length of line.
func (s Section) PairMass(line measure.Length) (measure.Mass, error) {
	l := fault.In("rail")
	s.check(l)
	fault.NotNegative(l, "length of line", line)
	if s.Mass == 0 {
		l.Add("mass per length", nil, "must be stated")
	}
	if err := l.Err(); err != nil {
		return 0, err
	}
	return 2 * s.Mass.Of(line), nil
}

// LeastJoiner returns the least length of a joiner for the section, four rail
// heights (NEM 120, ed. 2010).
func (s Section) LeastJoiner() measure.Length { return 4 * s.Height }

// HeadCentres returns g_c, how far apart the centres of the rail heads lie on a
// track of the gauge: gauge + head width. It is what the lengths of the two
// rails of a curve differ by, per radian of turn.
func (s Section) HeadCentres(trackGauge measure.Length) (measure.Length, error) {
	l := fault.In("rail")
	if s.Head == 0 {
		l.Add("head width", nil, "must be stated for "+s.named())
		fault.Positive(l, "gauge", trackGauge)
		return 0, l.Err()
	}
	return HeadCentres(trackGauge, s.Head)
}

func (s Section) named() string {
	if s.Name == "" {
		return "a rail"
	}
	return s.Name
}

// HeadCentres returns g_c, how far apart the centres of the rail heads lie:
// gauge + head width.
func HeadCentres(trackGauge, head measure.Length) (measure.Length, error) {
	l := fault.In("rail")
	fault.Between(l, "gauge", trackGauge, measure.Millimetre, 3*measure.Metre)
	fault.Between(l, "head width", head, measure.Millimetre/100, greatest)
	if err := l.Err(); err != nil {
		return 0, err
	}
	return trackGauge + head, nil
}
