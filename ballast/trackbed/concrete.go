package trackbed

import (
	"fmt"

	"example.org/fourfoot/ballast/order"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/caution"
	"example.org/fourfoot/internal/fault"
)

// A Concrete is a mix by loose parts by volume, such as 1 of cement, 2 of sand
// and 4 of stone. Every density may be left 0 for its default.
type Concrete struct {
	Cement, Sand, Stone float64 // parts; Stone may be 0 for mortar
	Water               float64 // mass of water over that of cement; 0 means 0.5 (common practice, no source)
	Air                 float64 // part of the finished volume; 0 means 0.02 (common practice, no source)

	CementBulk measure.Density // 0: 1440 kg/m³, the low end of the published 1440-1506
	SandBulk   measure.Density // 0: 1690 kg/m³, published for dry sand
	StoneBulk  measure.Density // 0: 1460 kg/m³, published for 20 mm stone

	CementGrain measure.Density // of the solid grains; 0: 3150 kg/m³ (from memory)
	SandGrain   measure.Density // 0: 2650 kg/m³, quartz (from memory)
	StoneGrain  measure.Density // 0: 2650 kg/m³ (from memory)
}

// A Batch is what a finished volume of concrete takes.
type Batch struct {
	Volume              measure.Volume // finished
	Cement, Sand, Stone measure.Mass   // dry
	Water               measure.Mass
	DryVolume           measure.Volume // loose, of all parts together
	Yield               float64        // DryVolume over Volume
	Waste               float64        // the part of the masses and of DryVolume that is for waste
	Cautions            []string
}

// For returns what the finished volume takes, with waste as a part added. The
// parts' solid volumes, the water and the air make up the finished volume (the
// method of absolute volumes): a loose part holds its bulk density over its
// grains' density of solid.
func (c Concrete) For(v measure.Volume, waste float64) (Batch, error) {
	l := fault.In("trackbed")
	fault.Amount(l, "concrete: volume", v)
	fault.Between(l, "concrete: waste", waste, 0, 1)
	fault.Size(l, "concrete: parts of cement", c.Cement)
	fault.Amount(l, "concrete: parts of sand", c.Sand)
	fault.Amount(l, "concrete: parts of stone", c.Stone)
	fault.Between(l, "concrete: water over cement", c.Water, 0, 1)
	fault.Between(l, "concrete: air", c.Air, 0, 0.2)
	or := func(field string, d *measure.Density, v measure.Density) float64 {
		fault.Between(l, "concrete: "+field, *d, 0, 5000)
		if *d == 0 {
			*d = v
		}
		return float64(*d)
	}
	cb, cg := or("bulk density of cement", &c.CementBulk, 1440), or("grain density of cement", &c.CementGrain, 3150)
	sb, sg := or("bulk density of sand", &c.SandBulk, 1690), or("grain density of sand", &c.SandGrain, 2650)
	tb, tg := or("bulk density of stone", &c.StoneBulk, 1460), or("grain density of stone", &c.StoneGrain, 2650)
	for _, d := range []struct {
		name        string
		bulk, grain float64
	}{{"cement", cb, cg}, {"sand", sb, sg}, {"stone", tb, tg}} {
		if d.bulk >= d.grain {
			l.Add("concrete: bulk density of "+d.name, measure.Density(d.bulk), fmt.Sprintf("must be below that of its grains, %v", measure.Density(d.grain)))
		}
	}
	if !l.OK() {
		return Batch{}, l.Err()
	}
	if c.Water == 0 {
		c.Water = 0.5
	}
	if c.Air == 0 {
		c.Air = 0.02
	}
	const water = 1000 // kg/m³
	parts := c.Cement + c.Sand + c.Stone
	made := c.Cement*cb/cg + c.Sand*sb/sg + c.Stone*tb/tg + c.Water*c.Cement*cb/water
	yield := parts * (1 - c.Air) / made
	b := Batch{Volume: v, Yield: yield, Cautions: []string{caution.Cement, caution.Lifting}}
	b.Waste = waste / (1 + waste)
	b.DryVolume = v * measure.Volume(yield*(1+waste))
	one := b.DryVolume / measure.Volume(parts)
	b.Cement = c.CementBulk.Of(one * measure.Volume(c.Cement))
	b.Sand = c.SandBulk.Of(one * measure.Volume(c.Sand))
	b.Stone = c.StoneBulk.Of(one * measure.Volume(c.Stone))
	b.Water = b.Cement * measure.Mass(c.Water)
	return b, nil
}

// Demands returns cement, sand and stone as lines for an order list, in
// kilograms dry; what is for waste is their reserve.
func (b Batch) Demands(of string) []order.Demand {
	var ds []order.Demand
	for _, x := range []struct {
		item string
		m    measure.Mass
	}{{"cement", b.Cement}, {"sand", b.Sand}, {"stone", b.Stone}} {
		if x.m > 0 {
			kg := x.m.Kilograms()
			ds = append(ds, order.Demand{Item: x.item, Unit: "kg", Quantity: kg * (1 - b.Waste), Reserve: kg * b.Waste, Range: of, Cautions: b.Cautions})
		}
	}
	return ds
}
