package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/ballast/order"
	"example.org/fourfoot/expansion/joints"
	"example.org/fourfoot/gauge/measure"
)

// The items of the order besides the ballast, as a plan's shop names them.
const (
	bars     = "rail bars"
	joiners  = "joiners"
	sleepers = "sleepers"
	fixings  = "fixings"
)

// money returns the price in the words of the order list.
func (p PricePlan) money() order.Money {
	return order.Money{Minor: int64(p.Minor), Currency: order.Currency{Text: p.Currency, Places: p.Places}}
}

// orderChapter is one list of everything to buy.
func (s *site) orderChapter(context.Context) (Chapter, error) {
	c := Chapter{Title: "Order list"}
	demands := append(s.demands, railDemands(s.joints.Order, s.plan.Name)...)
	for _, l := range s.loops {
		demands = append(demands, railDemands(l.joints.Order, l.plan.Name)...)
	}
	supplies := s.supplies
	for i, x := range s.plan.Shop {
		unit := "each"
		switch x.Item {
		case bars, joiners, sleepers, fixings:
		case ballast.Cement.String(), ballast.Resin.String():
			unit = "kg"
		default: // something else that the plan takes
			k := slices.IndexFunc(demands, func(d order.Demand) bool { return s.sameItem(d.Item, x.Item) })
			if k < 0 && s.partial {
				continue // it may be of what failed
			} else if k < 0 {
				return c, fmt.Errorf("shop[%d].item: %w", i+1, badWord([]byte(x.Item), quoted(wanted(demands))...))
			}
			x.Item, unit = demands[k].Item, demands[k].Unit
		}
		if slices.ContainsFunc(supplies, func(y order.Supply) bool { return y.Item == x.Item }) {
			return c, fmt.Errorf("shop[%d].item: the price of %q stands twice", i+1, x.Item)
		}
		supplies = append(supplies, order.Supply{
			Item: x.Item, Unit: unit, Reserve: x.Reserve,
			Packs: []order.Pack{{Name: x.Pack, Size: x.Holds, Price: x.Price.money()}},
		})
	}
	o, err := order.New(demands, supplies)
	if err != nil {
		return c, fmt.Errorf("order: %w", err)
	}
	t := Table{Name: "order", Columns: []Column{
		{"item", Text, 0}, {"takes", Number, 1}, {"reserve", Number, 1}, {"unit", Text, 0}, {"buy", Text, 0}, {"cost", Text, 0}, {"for", Text, 0},
	}}
	for _, l := range o.Lines {
		quantity, reserve, unit := l.Quantity, l.Reserve, l.Unit
		switch {
		case s.units.Inches && unit == "kg":
			quantity, _ = s.units.number(measure.Mass(quantity))
			reserve, _ = s.units.number(measure.Mass(reserve))
			unit = s.units.unit(Mass)
		case s.units.Inches && unit == inPlace:
			quantity, _ = s.units.number(measure.Volume(quantity) * measure.Litre)
			reserve, _ = s.units.number(measure.Volume(reserve) * measure.Litre)
			unit = s.units.unit(Volume) + " in place"
		}
		t.row(l.Item, quantity, reserve, unit, purchase(l.Purchase), l.Purchase.Cost.String(), orderedFor(l))
	}
	c.Tables = append(c.Tables, t)
	c.Lines = append(c.Lines, fmt.Sprintf("In all %s.", o.Total))
	if len(o.Unpriced) > 0 {
		c.Lines = append(c.Lines, "No price is known for "+list(quoted(o.Unpriced))+"; the total leaves them out.")
	}
	c.Caution = sentences(o.Cautions)
	return c, nil
}

// railDemands returns what the rails of a line take.
func railDemands(o joints.Order, of string) []order.Demand {
	var demands []order.Demand
	add := func(item string, count int) {
		if count > 0 {
			demands = append(demands, order.Demand{Item: item, Unit: "each", Quantity: float64(count), Range: of})
		}
	}
	for _, b := range o.Bars {
		add(bars, b.Count)
	}
	add(joiners, o.Joiners)
	add(sleepers, o.Sleepers)
	add(fixings, o.Fixings)
	return demands
}

// sameItem reports whether two names are of one item: in the same words, or
// with the same length written in another way, as "posts, 27 5/8 in" and
// "posts, 27.625 in".
func (s *site) sameItem(a, b string) bool {
	if a == b {
		return true
	}
	item1, long1, ok1 := strings.Cut(a, ", ")
	item2, long2, ok2 := strings.Cut(b, ", ")
	if !ok1 || !ok2 || item1 != item2 {
		return false
	}
	x, err1 := measure.ParseLength(long1)
	y, err2 := measure.ParseLength(long2)
	return err1 == nil && err2 == nil && max(x-y, y-x) < s.units.cutTo()/2
}

// wanted names what the order takes.
func wanted(demands []order.Demand) []string {
	var names []string
	for _, d := range demands {
		if !slices.Contains(names, d.Item) {
			names = append(names, d.Item)
		}
	}
	return names
}

// orderedFor names the ranges that a line of the order is for.
func orderedFor(l order.Line) string {
	var names []string
	for _, share := range l.From {
		names = append(names, share.Range)
	}
	return list(names)
}
