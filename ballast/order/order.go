package order

import (
	"fmt"
	"math"

	"example.org/fourfoot/internal/fault"
)

// MaxDemands is the most demands, and the most supplies, of one order.
const MaxDemands = 100_000

// MaxMixed is the most items of one order that come in packs of several sizes:
// each takes up to some hundredths of a second.
const MaxMixed = 200

// A Demand is a quantity of an item wanted by one range of the line, from any
// package: kilograms of grit, metres of rail, so many joiners. The quantity is
// what the work takes; what is added for waste stands beside it, and a Supply may
// add more.
type Demand struct {
	Item     string
	Unit     string // "kg", "m", "each"
	Quantity float64
	Reserve  float64  // added to the quantity on purpose, as for waste; 0 for none
	Range    string   // where it is for
	Cautions []string // of the work it leads to
}

// A Supply says in what an item is bought. An item without one is bought in
// whole units at no known price.
type Supply struct {
	Item    string
	Unit    string  // the same as its demands'
	Packs   []Pack  // in that unit; none: whole units
	Reserve float64 // part of the quantity added to it and to its demands' reserves, 0.05 for one in twenty; 0 for none
}

// A Share is the part of a quantity that one range wants.
type Share struct {
	Range    string
	Quantity float64
}

// A Line is one item of an order.
type Line struct {
	Item     string
	Unit     string
	Quantity float64  // what the work takes: the sum of From
	Reserve  float64  // quantity added on purpose, by demands and supply together
	Purchase Purchase // covers Quantity and Reserve together
	From     []Share  // in the order in which the ranges came
}

// An Order is one list of everything to buy.
type Order struct {
	Lines    []Line   // in the order in which the items came
	Total    Money    // of all lines whose price is known
	Unpriced []string // items whose price is not known, and which Total leaves out
	Cautions []string // of all demands, each once
}

// New merges the demands item by item and counts up what to buy: quantities of
// one item are added first and rounded up to whole packs once. The units of an
// item must agree, and all prices must be in one currency. A supply that no
// demand asks for is passed over.
func New(demands []Demand, supplies []Supply) (Order, error) {
	l := fault.In("order")
	if len(demands) > MaxDemands || len(supplies) > MaxDemands {
		l.Over("demands or supplies", max(len(demands), len(supplies)), fmt.Sprintf("at most %d", MaxDemands))
		return Order{}, l.Err()
	}
	supply := map[string]Supply{}
	for i, s := range supplies {
		at := itemName("supply", i, s.Item)
		if s.Item == "" {
			l.Add(at+": item", nil, "must have a name")
		}
		if _, twice := supply[s.Item]; twice {
			l.Add(at, nil, "is given twice")
		}
		fault.Between(l, at+": reserve", s.Reserve, 0, 1)
		supply[s.Item] = s
	}
	var o Order
	at, share := map[string]int{}, map[[2]string]int{}
	warned := map[string]bool{}
	for i, d := range demands {
		name := itemName("demand", i, d.Item)
		if d.Item == "" {
			l.Add(name+": item", nil, "must have a name")
		}
		if d.Unit == "" {
			l.Add(name+": unit", nil, "must be given")
		}
		fault.Amount(l, name+": quantity", d.Quantity)
		fault.Amount(l, name+": reserve", d.Reserve)
		k, seen := at[d.Item]
		if !seen {
			k = len(o.Lines)
			at[d.Item] = k
			o.Lines = append(o.Lines, Line{Item: d.Item, Unit: d.Unit})
			if s, ok := supply[d.Item]; ok && s.Unit != d.Unit {
				l.Add(name+": unit", d.Unit, fmt.Sprintf("must be that of its supply, %q", s.Unit))
			}
		}
		line := &o.Lines[k]
		if d.Unit != line.Unit {
			l.Add(name+": unit", d.Unit, fmt.Sprintf("must be that of the item elsewhere, %q", line.Unit))
		}
		line.Quantity += d.Quantity
		line.Reserve += d.Reserve
		if f, ok := share[[2]string{d.Item, d.Range}]; ok {
			line.From[f].Quantity += d.Quantity
		} else {
			share[[2]string{d.Item, d.Range}] = len(line.From)
			line.From = append(line.From, Share{d.Range, d.Quantity})
		}
		for _, c := range d.Cautions {
			if !warned[c] {
				warned[c] = true
				o.Cautions = append(o.Cautions, c)
			}
		}
	}
	if !l.OK() {
		return Order{}, l.Err()
	}
	mixed := 0
	for i := range o.Lines {
		if len(supply[o.Lines[i].Item].Packs) > 1 {
			mixed++
		}
	}
	if mixed > MaxMixed {
		l.Over("items in packs of several sizes", mixed, fmt.Sprintf("at most %d", MaxMixed))
		return Order{}, l.Err()
	}
	for i := range o.Lines {
		line := &o.Lines[i]
		s := supply[line.Item]
		line.Reserve += line.Quantity * s.Reserve
		packs := s.Packs
		if len(packs) == 0 {
			packs = []Pack{{Name: line.Unit, Size: 1}}
		}
		p, err := Buy(line.Quantity+line.Reserve, packs...)
		if err != nil {
			l.JoinAs(line.Item, err)
			continue
		}
		line.Purchase = p
		if !p.Cost.Known() {
			o.Unpriced = append(o.Unpriced, line.Item)
		}
		total, err := o.Total.Plus(p.Cost)
		l.JoinAs(line.Item, err)
		o.Total = total
	}
	if !l.OK() {
		return Order{}, l.Err()
	}
	return o, nil
}

func itemName(kind string, i int, item string) string {
	if item == "" {
		return fmt.Sprintf("%s %d", kind, i+1)
	}
	return kind + " of " + item
}

// Reconcile checks that the list adds up: each quantity is the sum of its
// ranges, the packs hold quantity and reserve, costs are count times price, and
// the total is the sum of the lines. What New returns does; use it on a list
// that was changed by hand or kept elsewhere.
func (o Order) Reconcile() error {
	l := fault.In("order")
	var total Money
	for _, line := range o.Lines {
		sum := 0.0
		for _, f := range line.From {
			sum += f.Quantity
		}
		if math.Abs(sum-line.Quantity) > 1e-9*math.Abs(line.Quantity) {
			l.Add(line.Item+": quantity", line.Quantity, fmt.Sprintf("must be the sum of its ranges, %v", sum))
		}
		got, count, cost := 0.0, 0, Money{Currency: line.Purchase.Cost.Currency}
		for _, b := range line.Purchase.Bought {
			got += float64(b.Count) * b.Pack.Size
			count += b.Count
			c, err := b.Pack.Price.Times(b.Count)
			l.JoinAs(line.Item, err)
			if c != b.Cost {
				l.Add(line.Item+": cost of "+b.Pack.Name, b.Cost, fmt.Sprintf("must be %v", c))
			}
			cost, err = cost.Plus(b.Cost)
			l.JoinAs(line.Item, err)
		}
		if need := line.Quantity + line.Reserve; got < need*(1-2*met) {
			l.Add(line.Item+": packs", got, fmt.Sprintf("must hold at least %v", need))
		}
		if count != line.Purchase.Count || cost != line.Purchase.Cost {
			l.Add(line.Item+": count and cost", fmt.Sprintf("%d, %v", line.Purchase.Count, line.Purchase.Cost), fmt.Sprintf("must be %d, %v", count, cost))
		}
		t, err := total.Plus(line.Purchase.Cost)
		l.JoinAs(line.Item, err)
		total = t
	}
	if total != o.Total {
		l.Add("total", o.Total, fmt.Sprintf("must be %v", total))
	}
	return l.Err()
}
