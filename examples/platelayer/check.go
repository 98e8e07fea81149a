package main

import (
	"errors"
	"fmt"
	"strings"

	"example.org/fourfoot/expansion"
)

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
	for i, v := range p.Vehicles {
		once("vehicles", i, v.Name)
		fault(v.EndWidth > v.Width, "vehicles[%d].end_width: %v must not be more than the width of %v", i+1, v.EndWidth, v.Width)
		fault((v.EndWidth == 0) != (v.Taper == 0), "vehicles[%d]: end_width and taper go together", i+1)
		fault(v.Height <= v.Bottom, "vehicles[%d].height: %v must be more than its bottom at %v", i+1, v.Height, v.Bottom)
	}
	for i, x := range p.Structures {
		once("structures", i, x.Name)
	}
	for i, x := range p.Points {
		once("points", i, x.Name)
		fault(!p.Line.Circuit && x.To <= x.From, "points[%d].to: %v must be more than from, %v", i+1, x.To, x.From)
	}
	for i, x := range p.Loops {
		once("loops", i, x.Name)
	}
	for i, e := range p.Line.Elements {
		fault(e.Cant >= p.Gauge, "line.elements[%d].cant: %v must be less than the gauge of %v", i+1, e.Cant, p.Gauge)
	}
	fault(p.Line.Within != 0 && !p.Line.Circuit, "line.closes_within: only for a circuit")

	c := p.Climate
	fault(*c.RailHigh <= *c.RailLow, "climate.rail_high: %v must be more than rail_low, %v", *c.RailHigh, *c.RailLow)
	fault(*c.BaseHigh < *c.BaseLow, "climate.base_high: %v must not be less than base_low, %v", *c.BaseHigh, *c.BaseLow)
	r := p.Rail
	fault(r.Head >= p.Gauge, "rail.head: %v must be less than the gauge of %v", r.Head, p.Gauge)
	fault(r.Kerf >= r.Bar, "rail.kerf: %v must be less than the bar of %v", r.Kerf, r.Bar)
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

	b := p.Bed.Bond
	fault(b != nil && (b.Cement != 0) == (b.Resin != 0), "bed.bond: must have one of cement or resin")
	for i, x := range p.Shop {
		fault(x.Item == "cement" && (b == nil || b.Cement == 0) || x.Item == "resin" && (b == nil || b.Resin == 0), "shop[%d].item: %s is only for a bed bonded with it", i+1, x.Item)
	}
	fault(b == nil && len(p.Bed.Loose) > 0, "bed.loose: only for a bed with a bond")
	return errors.Join(faults...)
}
