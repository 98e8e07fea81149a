package expansion

import (
	"fmt"
	"strings"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Property is one property of a material: the value that is used, the range
// over the tables that were compared, and where they stand.
type Property[T ~float64] struct {
	Value     T
	Low, High T // both zero: no range known
	Source    string
}

// Given returns the property that the caller knows better than any table.
func Given[T ~float64](v T) Property[T] { return Property[T]{v, v, v, "given"} }

// A Material is what rail or base is made of. The tables' values are a start:
// an alloy or a plastic has its own, and the maker's data sheet goes first.
// Only the expansion must be known for gaps; a zero modulus or density means
// not known, and what needs it says so.
type Material struct {
	Name      string
	Expansion Property[measure.Expansion] // linear, along the rail
	Modulus   Property[measure.Stress]    // of elasticity, along the rail
	Density   Property[measure.Density]
}

// Validate reports every property that is not a number of the right sign or
// lies outside its own range.
func (m Material) Validate() error {
	l := fault.In("expansion")
	m.check(l, "material "+m.Name)
	return l.Err()
}

func (m Material) check(l *fault.List, name string) {
	checkProperty(l, name+": expansion", m.Expansion)
	checkProperty(l, name+": modulus", m.Modulus)
	checkProperty(l, name+": density", m.Density)
}

func checkProperty[T ~float64](l *fault.List, field string, p Property[T]) {
	ok := fault.NotNegative(l, field, p.Value)
	ok = fault.NotNegative(l, field+": low", p.Low) && ok
	ok = fault.NotNegative(l, field+": high", p.High) && ok
	if ok && (p.Low != 0 || p.High != 0) && (p.Value < p.Low || p.Value > p.High) {
		l.Add(field, p.Value, fmt.Sprintf("must lie in its own range, %v to %v", p.Low, p.High))
	}
}

const (
	tables = "range over the engineering tables compared; value usual in them"
	memory = "from memory"
)

func material(name string, alpha, alphaLow, alphaHigh float64, alphaSource string, e, eLow, eHigh, rho, rhoLow, rhoHigh float64, rhoSource string) Material {
	const u = measure.MicroPerKelvin
	const g = measure.Gigapascal
	return Material{
		Name:      name,
		Expansion: Property[measure.Expansion]{measure.Expansion(alpha) * u, measure.Expansion(alphaLow) * u, measure.Expansion(alphaHigh) * u, alphaSource},
		Modulus:   Property[measure.Stress]{measure.Stress(e) * g, measure.Stress(eLow) * g, measure.Stress(eHigh) * g, memory},
		Density:   Property[measure.Density]{measure.Density(rho), measure.Density(rhoLow), measure.Density(rhoHigh), rhoSource},
	}
}

// RailMaterials returns the rail materials of the table: expansion in 1e-6/K
// (value, lowest, highest), modulus in GPa, density in kg/m³.
//
// The range of steel holds Vose's 6.8e-6/°F (1857) and the 6.5e-6/°F that
// reproduces US Army TI 850-02; that of nickel silver holds one table's
// "german silver".
func RailMaterials() []Material {
	return []Material{
		material("brass", 19, 18, 20.9, tables, 100, 97, 110, 8500, 8400, 8730, memory),
		material("nickel silver", 17, 16.2, 18.4, tables, 125, 120, 135, 8700, 8600, 8800, memory),
		material("steel", 11.5, 11.5, 12.24, "rail steel, engineering tables compared; highest is Vose 1857", 210, 200, 210, 7850, 7800, 7870, "EN 60E1: 60.21 kg/m on 76.70 cm²; range from memory"),
		material("stainless steel", 17.3, 16.2, 18.4, "grade 304; "+tables, 193, 190, 200, 8000, 7900, 8000, memory),
		material("aluminium", 23.6, 21, 24, "alloy 6061; "+tables, 69, 68, 71, 2700, 2650, 2800, memory),
		material("bronze", 18, 17.5, 18, tables, 110, 100, 120, 8800, 8700, 8900, memory),
	}
}

// BaseMaterials returns the materials of the table that rail is laid on, in
// the units of [RailMaterials]. Plastics differ by half between tables; the
// middle of the range is used.
//
// Felt on a board is taken to move as the board, softwood along the grain: the
// felt is too soft to move a rail (common practice, no source). Timber moves
// with moisture as well, which no coefficient here holds.
func BaseMaterials() []Material {
	const mid = "range over the engineering tables compared; its middle"
	return []Material{
		material("ABS", 90, 72, 108, mid, 2.2, 1.8, 2.6, 1050, 1030, 1070, memory),
		material("acetal", 97, 85, 110, mid, 2.9, 2.6, 3.2, 1410, 1390, 1430, memory),
		material("rigid PVC", 66, 52, 80, mid, 2.9, 2.4, 3.3, 1400, 1350, 1450, memory),
		material("softwood along the grain", 4, 3, 5, mid, 10, 8, 13, 500, 400, 600, memory),
		material("softwood across the grain", 42, 27, 58, mid, 0.4, 0.2, 0.8, 500, 400, 600, memory),
		material("concrete", 12, 9.8, 14.5, mid, 30, 25, 35, 2300, 2200, 2400, memory),
		material("felt on board", 4, 3, 5, "as softwood along the grain (common practice, no source)", 10, 8, 13, 500, 400, 600, memory),
	}
}

// FindMaterial returns the rail or base material of the tables with the given
// name; the case of the letters does not matter.
func FindMaterial(name string) (Material, error) {
	var names []string
	for _, m := range append(RailMaterials(), BaseMaterials()...) {
		if strings.EqualFold(m.Name, strings.TrimSpace(name)) {
			return m, nil
		}
		names = append(names, m.Name)
	}
	l := fault.In("expansion")
	l.Add("material", fmt.Sprintf("%q", name), "must be one of "+strings.Join(names, ", ")+", or give its coefficient yourself")
	return Material{}, l.Err()
}
