package ballast

import (
	"fmt"
	"math"

	"example.org/fourfoot/ballast/order"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/caution"
	"example.org/fourfoot/internal/fault"
)

// A Material is what the bed is filled with. Two of the loose density, the
// compacted density and the bulking are given and the third follows, for mass
// is conserved: loose volume × loose density = compacted volume × compacted
// density. All three given must agree within one part in a hundred.
type Material struct {
	Name      string
	Loose     measure.Density // dry, as it falls from the bag
	Compacted measure.Density // dry, in place
	Bulking   float64         // loose volume over compacted volume, 1 or more
	Moisture  float64         // mass of water over dry mass, as delivered; 0 for dry
	Waste     float64         // part added for what is lost in handling, stated and never hidden; 0 for none
}

// MaxDensity is the most that a density may be: no stone is heavier.
const MaxDensity = 5000 * measure.KilogramPerCubicMetre

// Complete returns the material with the third of its densities and bulking
// worked out.
func (m Material) Complete() (Material, error) {
	l := fault.In("ballast")
	name := "material"
	if m.Name != "" {
		name += " " + m.Name
	}
	given := 0
	if m.Loose != 0 && fault.Size(l, name+": loose density", m.Loose) {
		given++
	}
	if m.Compacted != 0 && fault.Size(l, name+": compacted density", m.Compacted) {
		given++
	}
	if m.Bulking != 0 && fault.Size(l, name+": bulking", m.Bulking) {
		given++
		if m.Bulking < 1 || m.Bulking > 3 {
			l.Add(name+": bulking", m.Bulking, "must be from 1 to 3, loose volume over compacted volume")
		}
	}
	fault.Between(l, name+": moisture", m.Moisture, 0, 1)
	fault.Between(l, name+": waste", m.Waste, 0, 1)
	if l.OK() && given < 2 {
		l.Add(name, nil, "needs two of loose density, compacted density and bulking")
	}
	if !l.OK() {
		return Material{}, l.Err()
	}
	switch {
	case given == 3:
		if b := float64(m.Compacted / m.Loose); math.Abs(b/m.Bulking-1) > 0.01 {
			l.Add(name+": bulking", m.Bulking, fmt.Sprintf("must agree with the densities, which give %.4g", b))
		}
	case m.Bulking == 0:
		m.Bulking = float64(m.Compacted / m.Loose)
		if m.Bulking < 1 {
			l.Add(name+": compacted density", m.Compacted, fmt.Sprintf("must be at least the loose density, %v", m.Loose))
		}
	case m.Compacted == 0:
		m.Compacted = measure.Density(m.Bulking) * m.Loose
	default:
		m.Loose = m.Compacted / measure.Density(m.Bulking)
	}
	if m.Loose > MaxDensity || m.Compacted > MaxDensity {
		l.Add(name+": density", max(m.Loose, m.Compacted), fmt.Sprintf("must be at most %v", MaxDensity))
	}
	if !l.OK() {
		return Material{}, l.Err()
	}
	return m, nil
}

// A Need is an amount of material, seen in every way in which it is dug, poured
// or bought.
type Need struct {
	Material  Material       // completed
	Compacted measure.Volume // in place, waste not in it
	Loose     measure.Volume // to be ordered, waste in it
	Dry       measure.Mass   // to be ordered, waste in it
	Delivered measure.Mass   // the same with its water
	Waste     measure.Volume // the part of Loose that is for waste
	Cautions  []string
}

// Need returns what a compacted volume takes of the material.
func (m Material) Need(compacted measure.Volume) (Need, error) {
	m, err := m.Complete()
	l := fault.In("ballast")
	l.Join(err)
	fault.Amount(l, "volume", compacted)
	if !l.OK() {
		return Need{}, l.Err()
	}
	n := Need{Material: m, Compacted: compacted, Cautions: []string{caution.Lifting, caution.Dust}}
	net := compacted * measure.Volume(m.Bulking)
	n.Waste = net * measure.Volume(m.Waste)
	n.Loose = net + n.Waste
	n.Dry = m.Loose.Of(n.Loose)
	n.Delivered = n.Dry * measure.Mass(1+m.Moisture)
	return n, nil
}

// A Bag is a buying unit of a material: a bag, a bulk bag, a loose load. Either
// its mass is stated, as delivered with its water, or its loose volume.
type Bag struct {
	Name   string
	Mass   measure.Mass
	Volume measure.Volume
	Price  order.Money // of one; the zero Money when not known
}

// pack returns the bag as a pack of kilograms as delivered.
func (b Bag) pack(m Material) (order.Pack, error) {
	l := fault.In("ballast")
	name := "bag"
	if b.Name != "" {
		name += " " + b.Name
	}
	fault.Amount(l, name+": mass", b.Mass)
	fault.Amount(l, name+": volume", b.Volume)
	if l.OK() && (b.Mass > 0) == (b.Volume > 0) {
		l.Add(name, nil, "needs either a mass or a loose volume")
	}
	if !l.OK() {
		return order.Pack{}, l.Err()
	}
	kg := b.Mass
	if b.Volume > 0 {
		kg = m.Loose.Of(b.Volume) * measure.Mass(1+m.Moisture)
	}
	return order.Pack{Name: b.Name, Size: kg.Kilograms(), Price: b.Price}, nil
}

// Packs returns bags of the material as packs of kilograms as delivered, for
// an order list.
func (m Material) Packs(bags ...Bag) ([]order.Pack, error) {
	m, err := m.Complete()
	if err != nil {
		return nil, err
	}
	l := fault.In("ballast")
	var packs []order.Pack
	for _, b := range bags {
		p, err := b.pack(m)
		l.Join(err)
		packs = append(packs, p)
	}
	if !l.OK() {
		return nil, l.Err()
	}
	return packs, nil
}

// Buy returns the bags that cover the need at least cost, counted in kilograms
// as delivered.
func (n Need) Buy(bags ...Bag) (order.Purchase, error) {
	packs, err := n.Material.Packs(bags...)
	if err != nil {
		return order.Purchase{}, err
	}
	return order.Buy(n.Delivered.Kilograms(), packs...)
}

// Demand returns the need as a line for an order list, in kilograms as
// delivered, wanted by the named range; what is for waste is its reserve.
func (n Need) Demand(of string) order.Demand {
	d := order.Demand{Item: n.Material.Name, Unit: "kg", Quantity: n.Delivered.Kilograms(), Range: of, Cautions: n.Cautions}
	if n.Waste > 0 {
		d.Reserve = d.Quantity * float64(n.Waste/n.Loose)
		d.Quantity -= d.Reserve
	}
	return d
}

// Reach returns how far one bag goes in a bed of the compacted area, which the
// caller takes net of sleepers: a range's Net over its Length. Waste counts.
func (b Bag) Reach(m Material, area measure.Area) (measure.Length, error) {
	n, err := m.Need(area.By(measure.Metre))
	l := fault.In("ballast")
	l.Join(err)
	fault.Size(l, "area", area)
	if !l.OK() {
		return 0, l.Err()
	}
	p, err := b.pack(n.Material)
	if err != nil {
		return 0, err
	}
	return measure.Length(p.Size/n.Delivered.Kilograms()) * measure.Metre, nil
}
