package main

import (
	"context"
	"fmt"
	"slices"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/ballast/order"
	"example.org/fourfoot/gauge/measure"
)

// section returns the ballast section of the plan.
func (s *site) section() ballast.Section {
	p, sleeper := s.plan.Bed, s.plan.Rail.Sleeper
	return ballast.Section{
		Depth: p.Depth, Shoulder: p.Shoulder, Slope: p.Slope, Crib: p.Crib, Formation: p.Formation,
		Sleeper: ballast.Sleeper{Length: sleeper.Length, Width: sleeper.Width, Height: sleeper.Height},
	}
}

// grit returns the ballast material of the plan.
func (g GritPlan) grit() ballast.Material {
	return ballast.Material{Name: g.Name, Loose: g.Loose, Compacted: g.Compacted, Bulking: g.Bulking, Moisture: g.Moisture, Waste: g.Waste}
}

func (g GritPlan) bags() []ballast.Bag {
	var bags []ballast.Bag
	for _, b := range g.Bags {
		bags = append(bags, ballast.Bag{Name: b.Name, Mass: b.Mass, Volume: b.Volume, Price: b.Price.money()})
	}
	return bags
}

// takeOff measures the ballast of the line.
func (s *site) takeOff() (ballast.Quantities, error) {
	p := s.plan.Bed
	bed := ballast.Bed{Cant: s.cant, RailCentres: s.railCentres}
	for _, g := range append(slices.Clone(p.Gaps), s.plan.Points...) {
		bed.Gaps = append(bed.Gaps, ballast.Stretch(g))
	}
	for _, g := range p.Loose {
		bed.Loose = append(bed.Loose, ballast.Stretch(g))
	}
	ranges := p.Ranges
	if len(ranges) == 0 {
		ranges = []RangePlan{{Name: s.plan.Name, To: s.line.Length()}}
	}
	for _, r := range ranges {
		x := ballast.Range{Name: r.Name, From: r.From, To: r.To, Section: s.section(), Sleepers: s.sleepersIn(r.From, r.To, bed.Gaps), Bonded: p.Bond != nil}
		if r.Depth != 0 {
			x.Section.Depth = r.Depth
		}
		if r.Shoulder != 0 {
			x.Section.Shoulder = r.Shoulder
		}
		if r.TaperTo != 0 {
			taper := x.Section
			taper.Depth = r.TaperTo
			x.Taper = &taper
		}
		bed.Ranges = append(bed.Ranges, x)
	}
	return ballast.TakeOff(s.line, bed)
}

// sleepersIn counts the sleepers of the joint plan in a range, gaps not counted.
func (s *site) sleepersIn(from, to measure.Length, gaps []ballast.Stretch) int {
	within := func(at, from, to measure.Length) bool {
		span := s.line.Span(from, at)
		return span >= 0 && span < s.line.Span(from, to)
	}
	count := 0
	for at := range s.joints.Sleepers() {
		if within(at, from, to) && !slices.ContainsFunc(gaps, func(g ballast.Stretch) bool { return within(at, g.From, g.To) }) {
			count++
		}
	}
	return count
}

// bedChapter is the ballast: section, quantities, grit and mix.
func (s *site) bedChapter(context.Context) (Chapter, error) {
	u, p := s.units, s.plan.Bed
	c := Chapter{Title: "Ballast"}
	q, err := s.takeOff()
	if err != nil {
		return c, fmt.Errorf("bed: %w", err)
	}
	t := Table{Name: "ballast", Caption: "Ballast in place, compacted; sleepers are taken off below its surface only.", Columns: []Column{
		{"range", Text, 0}, {"length", Length, 0}, {"whole bed", Volume, 1}, {"of it by cant", Volume, 2}, {"of it by curves", Volume, 2}, {"sleepers", Volume, 1}, {"ballast", Volume, 1}, {"bonded", Volume, 1},
	}}
	for _, r := range append(q.Ranges, q.Total) {
		name := r.Name
		if name == "" {
			name = "in all"
		}
		t.row(name, r.Length, r.Solid, r.Cant, r.Curve, r.Sleepers, r.Net, r.Bonded)
	}
	c.Tables = append(c.Tables, t)

	grit := p.Grit.grit()
	need, err := grit.Need(q.Total.Net)
	if err != nil {
		return c, fmt.Errorf("bed.grit: %w", err)
	}
	bought, err := need.Buy(p.Grit.bags()...)
	if err != nil {
		return c, fmt.Errorf("bed.grit.bags: %w", err)
	}
	packs, err := need.Material.Packs(p.Grit.bags()...)
	if err != nil {
		return c, fmt.Errorf("bed.grit.bags: %w", err)
	}
	demands, err := q.Demands(grit)
	if err != nil {
		return c, fmt.Errorf("bed.grit: %w", err)
	}
	s.demands = append(s.demands, demands...)
	s.supplies = append(s.supplies, order.Supply{Item: grit.Name, Unit: "kg", Packs: packs})
	c.Lines = append(c.Lines, fmt.Sprintf("%s: %s in place are %s loose and %s as delivered, of them %s for waste; %s, %s.",
		p.Grit.Name, u.sayVolume(need.Compacted), u.sayVolume(need.Loose), u.sayMass(need.Delivered), u.sayVolume(need.Waste),
		purchase(bought), bought.Cost))
	for _, g := range ballast.Gradings() {
		fit, err := g.Fit(s.plan.Scale, p.Grit.Small, p.Grit.Large)
		if err != nil {
			return c, fmt.Errorf("bed.grit: %w", err)
		}
		c.Lines = append(c.Lines, fmt.Sprintf("To scale, %s would be %s to %s; the grit of %s to %s is off by %s %% and %s %%.",
			g.Name, u.say(fit.Want.Small, 2), u.say(fit.Want.Large, 2), u.say(p.Grit.Small, 2), u.say(p.Grit.Large, 2), signed(fit.SmallOver*100, 0), signed(fit.LargeOver*100, 0)))
	}
	cautions := need.Cautions
	if p.Bond != nil {
		mix := ballast.Mix{Grit: p.Bond.Grit, Binder: p.Bond.Cement, Kind: ballast.Cement}
		if p.Bond.Resin != 0 {
			mix.Binder, mix.Kind = p.Bond.Resin, ballast.Resin
		}
		b, err := mix.Bond(q.Total.Bonded, grit)
		if err != nil {
			return c, fmt.Errorf("bed.bond: %w", err)
		}
		c.Lines = append(c.Lines, fmt.Sprintf("Bonded, %s parts of grit to %s of %s by volume: %s in place take %s (%s) of %s.",
			fixed(mix.Grit, 1), fixed(mix.Binder, 1), mix.Kind, u.sayVolume(q.Total.Bonded), u.sayVolume(b.Binder), u.sayMass(b.BinderMass), mix.Kind))
		if mix.Kind == ballast.Cement {
			c.Lines = append(c.Lines, fmt.Sprintf("Water for it: %s, what the grit brings taken off.", u.sayMass(b.Water)))
		}
		cautions = b.Cautions
		binder, err := q.BinderDemands(mix, grit)
		if err != nil {
			return c, fmt.Errorf("bed.bond: %w", err)
		}
		s.demands = append(s.demands, binder...)
	}
	c.Caution = sentences(cautions)
	drawing, err := s.drawBed()
	if err != nil {
		return c, fmt.Errorf("bed: %w", err)
	}
	c.Lead = append(c.Lead, Figure{"bed", "Section of the bed, looking along the line, with the largest cant of the line.", drawing})
	return c, nil
}

// purchase says what was bought.
func purchase(p order.Purchase) string {
	var parts []string
	for _, b := range p.Bought {
		parts = append(parts, fmt.Sprintf("%d × %s", b.Count, b.Pack.Name))
	}
	return list(parts)
}
