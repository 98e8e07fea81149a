package rail

import (
	"slices"

	"example.org/fourfoot/gauge"
	"example.org/fourfoot/gauge/measure"
)

var (
	area1939 = gauge.Source{Title: "AREA 1939", Basis: gauge.Seen}
	uic      = gauge.Source{Title: "dimensions of 60E1 and UIC 54, title of the table not kept", Basis: gauge.Seen}
)

func lbPerYard(name string, lb measure.LinearMass, height measure.Length) Section {
	return Section{Name: name, Height: height, Mass: lb * measure.PoundPerYard, Source: area1939}
}

var fullSize = []Section{
	{
		Name: "60E1", Height: 172, Foot: 150, Head: 72, Web: 16.5,
		Area: 76.70 * measure.SquareCentimetre, Mass: 60.21, Source: uic,
	},
	{Name: "UIC 54", Height: 159, Foot: 140, Head: 70, Web: 16, Mass: 54.43, Source: uic},
	lbPerYard("AREA 90 lb/yd", 90, 5.625*measure.Inch),
	lbPerYard("AREA 100 lb/yd", 100, 6*measure.Inch),
	lbPerYard("AREA 110 lb/yd", 110, 6.25*measure.Inch),
	lbPerYard("AREA 130 lb/yd", 130, 6.75*measure.Inch),
	lbPerYard("AREA 140 lb/yd", 140, 7*measure.Inch),
}

// FullSize returns the full-size sections. UIC 54 is not EN's 54E1, which
// weighs 54.77 kg/m.
func FullSize() []Section { return slices.Clone(fullSize) }

// ModelRails returns the model rails by code that are met, highest first.
func ModelRails() []Section { return modelRails() }

// Named returns the full-size section or the model rail of that name and
// whether there is one.
func Named(name string) (Section, bool) {
	all := slices.Concat(fullSize, modelRails())
	i := slices.IndexFunc(all, func(s Section) bool { return s.Name == name })
	if i < 0 {
		return Section{}, false
	}
	return all[i], true
}
