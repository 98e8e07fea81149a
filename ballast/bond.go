package ballast

import (
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/caution"
	"example.org/fourfoot/internal/fault"
)

// A Binder is what holds bonded ballast together.
type Binder uint8

// The binders.
const (
	Cement Binder = iota
	Resin
)

// String returns "cement" or "resin".
func (b Binder) String() string {
	if b == Resin {
		return "resin"
	}
	return "cement"
}

// A Mix is bonded ballast by loose parts by volume, such as 6 of grit to 1 of
// cement.
type Mix struct {
	Grit   float64 // parts
	Binder float64 // parts
	Kind   Binder
	// Density of the binder in bulk. 0 means 1440 kg/m³ for cement (the low end
	// of the published 1440-1506) and 1100 kg/m³ for resin (common practice, no source).
	Density measure.Density
	// Water is the mass of water over that of cement; 0 means 0.5 (common
	// practice, no source). Water in the grit counts towards it. Resin takes none.
	Water float64
	// Voids is the part of the compacted grit that is air; 0 means 0.40 (common
	// practice, no source). The binder must fit into it.
	Voids float64
}

// A Bonded is what a volume of bonded ballast takes.
type Bonded struct {
	Grit       Need
	Binder     measure.Volume // loose
	BinderMass measure.Mass
	Water      measure.Mass // to be added: what the cement needs, less what the grit brings
	Cautions   []string
}

// Bond returns what the compacted volume takes as bonded ballast. The grit
// fills the volume by itself and the binder goes into its voids, so the grit
// is what loose ballast would take; a mix with more binder than the voids hold
// is mortar and is refused.
func (m Mix) Bond(compacted measure.Volume, grit Material) (Bonded, error) {
	l := fault.In("ballast")
	fault.Size(l, "mix: parts of grit", m.Grit)
	fault.Size(l, "mix: parts of binder", m.Binder)
	fault.Amount(l, "mix: density of the binder", m.Density)
	fault.Between(l, "mix: water", m.Water, 0, 2)
	fault.Between(l, "mix: voids", m.Voids, 0, 0.6)
	if m.Kind > Resin {
		l.Add("mix: binder", m.Kind, "must be cement or resin")
	}
	need, err := grit.Need(compacted)
	l.Join(err)
	if !l.OK() {
		return Bonded{}, l.Err()
	}
	if m.Density == 0 {
		m.Density = [...]measure.Density{Cement: 1440, Resin: 1100}[m.Kind]
	}
	if m.Water == 0 {
		m.Water = 0.5
	}
	if m.Voids == 0 {
		m.Voids = 0.40
	}
	ratio := m.Binder / m.Grit
	if most := m.Voids / need.Material.Bulking; ratio > most {
		l.Add("mix", fmt.Sprintf("of %v parts of grit to %v of binder", m.Grit, m.Binder),
			fmt.Sprintf("holds more binder than the voids of the grit: must be at least %.3g parts of grit to 1", 1/most))
		return Bonded{}, l.Err()
	}
	b := Bonded{Grit: need, Binder: need.Loose * measure.Volume(ratio)}
	b.BinderMass = m.Density.Of(b.Binder)
	b.Cautions = append([]string{caution.Resin}, need.Cautions...)
	if m.Kind == Cement {
		b.Water = max(0, measure.Mass(m.Water)*b.BinderMass-(need.Delivered-need.Dry))
		b.Cautions[0] = caution.Cement
	}
	return b, nil
}

// An Adhesive is spread over laid ballast by area.
type Adhesive struct {
	Name     string
	Coverage float64 // square metres to a litre, coats included
	Waste    float64 // part of the net volume added; 0 for none
}

// A Spread is the adhesive that an area takes.
type Spread struct {
	Net      measure.Volume // that stays on the ballast, by the coverage
	Waste    measure.Volume // added to it
	Volume   measure.Volume // to have: Net and Waste
	Cautions []string
}

// Need returns the adhesive for an area.
func (a Adhesive) Need(area measure.Area) (Spread, error) {
	l := fault.In("ballast")
	fault.Amount(l, "area", area)
	fault.Size(l, "adhesive: coverage, m² to a litre", a.Coverage)
	fault.Between(l, "adhesive: waste", a.Waste, 0, 1)
	if !l.OK() {
		return Spread{}, l.Err()
	}
	net := measure.Volume(area.SquareMetres()/a.Coverage) * measure.Litre
	waste := net * measure.Volume(a.Waste)
	if math.IsInf(float64(net+waste), 0) {
		l.Over("adhesive: volume", nil, "is more than can be counted")
		return Spread{}, l.Err()
	}
	return Spread{net, waste, net + waste, []string{caution.Resin}}, nil
}
