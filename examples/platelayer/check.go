package main

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"example.org/fourfoot/expansion"
	"example.org/fourfoot/gauge/measure"
)

// leastHeld is the least that a pack of the shop may hold.
const leastHeld = 0.001

// mostKerf is the widest cut of a saw or a disc that is taken.
const mostKerf = 10 * measure.Millimetre

// check reports what in the plan does not go together, so far as no package
// would say it in the words of the plan.
func (p *Plan) check() error {
	var faults []error
	fault := func(wrong bool, format string, args ...any) {
		if wrong {
			faults = append(faults, fmt.Errorf(format, args...))
		}
	}
	named := map[string]bool{}
	once := func(list string, i int, name string) {
		fault(named[list+name], "%s[%d].name: %q stands twice", list, i+1, name)
		named[list+name] = true
	}
	var last *CouplingPlan // of the vehicle before that has one
	for i, v := range p.Vehicles {
		once("vehicles", i, v.Name)
		fault(v.EndWidth > v.Width, "vehicles[%d].end_width: %v must not be more than the width of %v", i+1, v.EndWidth, v.Width)
		fault((v.EndWidth == 0) != (v.Taper == 0), "vehicles[%d]: end_width and taper go together", i+1)
		fault(v.Height <= v.Bottom, "vehicles[%d].height: %v must be more than its bottom at %v", i+1, v.Height, v.Bottom)
		for j, a := range v.Inner {
			fault(slices.ContainsFunc(v.Inner[:j], func(b AxlePlan) bool { return a.Ahead == b.Ahead }), "vehicles[%d].inner_axles[%d].ahead: %v: there is an axle already", i+1, j+1, a.Ahead)
			fault(v.Wheelbase != 0 && max(a.Ahead, -a.Ahead) == v.Wheelbase/2, "vehicles[%d].inner_axles[%d].ahead: %v: there is an outer axle", i+1, j+1, a.Ahead)
		}
		c := v.Coupling
		if c == nil {
			continue
		}
		fault(c.Hinge >= v.Length/2, "vehicles[%d].coupling.hinge: %v must be less than half the body of %v", i+1, c.Hinge, v.Length)
		fault(c.Swing < 0 || c.Swing > 90*measure.Degree, "vehicles[%d].coupling.swing: %v must be from 0° to 90°", i+1, c.Swing)
		if last != nil {
			fault((last.Buffers == nil) != (c.Buffers == nil), "vehicles[%d].coupling.buffers: must be on both or on neither of two vehicles that are coupled", i+1)
		}
		last = c
		if b := c.Buffers; b != nil {
			fault(b.Overlap >= b.Width, "vehicles[%d].coupling.buffers.overlap: %v must be less than the width of a head, %v", i+1, b.Overlap, b.Width)
		}
	}
	for i, x := range p.Structures {
		once("structures", i, x.Name)
	}
	for i, x := range p.Points {
		once("points", i, x.Name)
		fault(!p.Line.Circuit && x.To <= x.From, "points[%d].to: %v must be more than from, %v", i+1, x.To, x.From)
	}
	if t := p.Trackbed; t != nil {
		for i, x := range t.Trenches {
			once("trackbed.trenches", i, x.Name)
		}
		for i, x := range t.Concrete {
			once("trackbed.concrete", i, x.Name)
		}
		for i, x := range t.Decks {
			once("trackbed.decks", i, x.Name)
			fault(x.Kerf > mostKerf, "trackbed.decks[%d].kerf: %v must be at most %v", i+1, x.Kerf, mostKerf)
		}
	}
	for i, x := range p.Loops {
		once("loops", i, x.Name)
	}
	for i, e := range p.Line.Elements {
		fault(e.Cant > p.Gauge/2, "line.elements[%d].cant: %v must be at most half the gauge of %v", i+1, e.Cant, p.Gauge)
	}
	fault(p.Line.Within != 0 && !p.Line.Circuit, "line.closes_within: only for a circuit")

	c := p.Climate
	fault(*c.RailHigh <= *c.RailLow, "climate.rail_high: %v must be more than rail_low, %v", *c.RailHigh, *c.RailLow)
	fault(*c.BaseHigh < *c.BaseLow, "climate.base_high: %v must not be less than base_low, %v", *c.BaseHigh, *c.BaseLow)
	r := p.Rail
	fault(r.Head >= p.Gauge, "rail.head: %v must be less than the gauge of %v", r.Head, p.Gauge)
	fault(r.Joiner != 0 && r.Held > r.Joiner/2, "rail.held: %v must be at most half the joiner of %v", r.Held, r.Joiner)
	fault(r.WidestGap != 0 && r.LeastGap > r.WidestGap, "rail.least_gap: %v must not be more than widest_gap, %v", r.LeastGap, r.WidestGap)
	fault(r.Panel > r.Bar, "rail.panel: %v must not be longer than the bar of %v", r.Panel, r.Bar)
	fault(r.Kerf > mostKerf || r.Kerf >= r.Bar, "rail.kerf: %v must be at most %v, and less than the bar of %v", r.Kerf, mostKerf, r.Bar)
	fault(r.Sleeper.Length <= p.Gauge, "rail.sleeper.length: %v must be more than the gauge of %v", r.Sleeper.Length, p.Gauge)
	fault(r.Sleeper.Pitch < r.Sleeper.Width, "rail.sleeper.pitch: %v must not be less than the sleeper's width of %v", r.Sleeper.Pitch, r.Sleeper.Width)
	fault(*r.Laying < *p.Climate.RailLow || *r.Laying > *p.Climate.RailHigh, "rail.laying: %v must be within the climate, %v to %v", *r.Laying, *p.Climate.RailLow, *p.Climate.RailHigh)
	known := func(key, name string, materials []expansion.Material) {
		var names []string
		for _, m := range materials {
			if strings.EqualFold(m.Name, name) {
				return
			}
			names = append(names, m.Name)
		}
		faults = append(faults, fmt.Errorf("rail.%s: %w", key, badWord([]byte(name), names...)))
	}
	known("material", r.Material, expansion.RailMaterials())
	known("base", r.Base, expansion.BaseMaterials())

	play := p.Allowances.Play
	fault(play > p.Gauge/4, "allowances.play: %v must be at most a quarter of the gauge, %v: it is what a wheelset can go either way from the middle", play, p.Gauge/4)
	const mostRoll = 20 * measure.Degree // that package clearance takes
	fault(p.Allowances.Springs < 0 || p.Allowances.Springs > mostRoll, "allowances.springs: %v must be from 0° to %v", p.Allowances.Springs, mostRoll)

	b := p.Bed.Bond
	fault(b != nil && (b.Cement != 0) == (b.Resin != 0), "bed.bond: must have one of cement or resin")
	var first *PricePlan
	price := func(path string, x PricePlan) {
		if first == nil {
			first = &x
		}
		fault(x.Minor < 0, "%s.price.minor: %d: must not be negative", path, x.Minor)
		fault(x.Places < 0 || x.Places > 4, "%s.price.places: %d: must be from 0 to 4", path, x.Places)
		fault(x.Currency != first.Currency, "%s.price.currency: %q must be that of the other prices, %q: nothing is converted", path, x.Currency, first.Currency)
		fault(x.Currency == first.Currency && x.Places != first.Places, "%s.price.places: %d must be that of the other prices, %d", path, x.Places, first.Places)
	}
	for i, x := range p.Bed.Grit.Bags {
		price(fmt.Sprintf("bed.grit.bags[%d]", i+1), x.Price)
	}
	for i, x := range p.Shop {
		fault(x.Item == "cement" && (b == nil || b.Cement == 0) && (p.Trackbed == nil || len(p.Trackbed.Concrete) == 0), "shop[%d].item: nothing takes cement: bed.bond with cement would, or trackbed.concrete", i+1)
		fault(x.Item == "resin" && (b == nil || b.Resin == 0), "shop[%d].item: nothing takes resin: bed.bond with resin would", i+1)
		fault(x.Holds < leastHeld, "shop[%d].holds: %v: must be at least %v", i+1, x.Holds, leastHeld)
		fault(x.Reserve > 1, "shop[%d].reserve: %v: must be at most 1, as much again", i+1, x.Reserve)
		price(fmt.Sprintf("shop[%d]", i+1), x.Price)
	}
	fault(b == nil && len(p.Bed.Loose) > 0, "bed.loose: only for a bed with a bond")
	return errors.Join(faults...)
}
