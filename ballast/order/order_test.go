package order_test

import (
	"encoding/csv"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"example.org/fourfoot/ballast/order"
	"example.org/fourfoot/gauge/measure"
)

func demo() ([]order.Demand, []order.Supply) {
	demands := []order.Demand{
		{Item: "granite grit", Unit: "kg", Quantity: 61.5, Range: "main", Cautions: []string{"mind your back"}},
		{Item: "granite grit", Unit: "kg", Quantity: 20.25, Range: "loop", Cautions: []string{"mind your back"}},
		{Item: "rail, 6.35 mm", Unit: "m", Quantity: 55, Range: "main"},
		{Item: "joiner", Unit: "each", Quantity: 72, Range: "main"},
		{Item: "granite grit", Unit: "kg", Quantity: 8.25, Range: "main"},
		{Item: "clip", Unit: "each", Quantity: 31.5, Range: "loop"},
	}
	supplies := []order.Supply{
		{Item: "granite grit", Unit: "kg", Reserve: 0.1, Packs: []order.Pack{
			{Name: "25 kg bag", Size: 25, Price: cents(650)},
			{Name: "10 kg bag", Size: 10, Price: cents(300)},
		}},
		{Item: "rail, 6.35 mm", Unit: "m", Packs: []order.Pack{{Name: "2 m length", Size: 2, Price: cents(1495)}}},
		{Item: "joiner", Unit: "each", Packs: []order.Pack{{Name: "packet of 10", Size: 10, Price: cents(420)}}},
		{Item: "felt", Unit: "m²"}, // nobody asks for it
	}
	return demands, supplies
}

func ExampleNew() {
	o, err := order.New(demo())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(o)
	// Output:
	// item            quantity  reserve  buy                     cost  for
	// granite grit       90 kg     9 kg  4 × 25 kg bag      26.00 EUR  main 69.75, loop 20.25
	// rail, 6.35 mm       55 m     none  28 × 2 m length   418.60 EUR  main 55
	// joiner           72 each     none  8 × packet of 10   33.60 EUR  main 72
	// clip           31.5 each     none  32 × each          not known  loop 31.5
	// total cost: 478.20 EUR
	// without: clip (price not known)
	// caution: mind your back
}

func TestReconciles(t *testing.T) {
	o, err := order.New(demo())
	if err != nil {
		t.Fatal(err)
	}
	if err := o.Reconcile(); err != nil {
		t.Errorf("a fresh list does not add up: %v", err)
	}
	for name, change := range map[string]func(*order.Order){
		"quantity":   func(o *order.Order) { o.Lines[0].Quantity++ },
		"share":      func(o *order.Order) { o.Lines[0].From[1].Quantity-- },
		"count":      func(o *order.Order) { o.Lines[1].Purchase.Count++ },
		"pack count": func(o *order.Order) { o.Lines[1].Purchase.Bought[0].Count-- },
		"cost":       func(o *order.Order) { o.Lines[1].Purchase.Cost.Minor++ },
		"total":      func(o *order.Order) { o.Total.Minor++ },
		"reserve":    func(o *order.Order) { o.Lines[0].Reserve += 50 },
	} {
		o, _ := order.New(demo())
		change(&o)
		if err := o.Reconcile(); !errors.Is(err, measure.ErrInput) {
			t.Errorf("%s changed by hand: %v, want an error", name, err)
		}
	}
}

// One bag for all ranges together, not one for each.
func TestRoundedUpOnce(t *testing.T) {
	var ds []order.Demand
	for i := range 10 {
		ds = append(ds, order.Demand{Item: "grit", Unit: "kg", Quantity: 2.5, Range: strconv.Itoa(i)})
	}
	o, err := order.New(ds, []order.Supply{{Item: "grit", Unit: "kg", Packs: []order.Pack{{Size: 25}}}})
	if err != nil || o.Lines[0].Purchase.Count != 1 || len(o.Lines[0].From) != 10 {
		t.Errorf("%+v, %v, want one bag from ten ranges", o, err)
	}
}

// What the CSV says adds up to what the order says, in both notations.
func TestCSV(t *testing.T) {
	ds, ss := demo()
	ds = append(ds, order.Demand{Item: `=1+2;"a", b`, Unit: "each", Quantity: 3})
	ss[0].Packs[1].Price = cents(100) // now several sizes pay
	ss[0].Packs[1].Size = 3
	ss[0].Reserve = 0
	o, err := order.New(ds, ss)
	if err != nil {
		t.Fatal(err)
	}
	for _, n := range []order.Notation{{}, {Separator: ';', Decimal: ','}, {Separator: '\t'}} {
		r := csv.NewReader(strings.NewReader(o.CSV(n)))
		if r.Comma = ','; n.Separator != 0 {
			r.Comma = rune(n.Separator)
		}
		rows, err := r.ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		num := func(s string) float64 {
			v, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
			if s != "" && err != nil {
				t.Errorf("%q is not a number", s)
			}
			if n.Decimal == ',' && strings.Contains(s, ".") {
				t.Errorf("%q has the wrong decimal sign", s)
			}
			return v
		}
		quantity, cost := map[string]float64{}, 0.0
		for _, row := range rows[1 : len(rows)-1] {
			quantity[row[0]] += num(row[1])
			cost += num(row[7])
		}
		if total := num(rows[len(rows)-1][7]); math.Abs(total-cost) > 1e-9 || math.Abs(total*100-float64(o.Total.Minor)) > 1e-6 {
			t.Errorf("rows cost %v, the last row says %v, the order %v", cost, total, o.Total)
		}
		if quantity["granite grit"] != 90 || quantity[`'=1+2;"a", b`] != 3 {
			t.Errorf("quantities %v", quantity)
		}
	}
}

// The work of an order is bounded.
func TestTooManyMixedItems(t *testing.T) {
	var ds []order.Demand
	var ss []order.Supply
	for i := range 201 {
		item := strconv.Itoa(i)
		ds = append(ds, order.Demand{Item: item, Unit: "kg", Quantity: 1})
		ss = append(ss, order.Supply{Item: item, Unit: "kg", Packs: []order.Pack{{Size: 1, Price: cents(1)}, {Size: 2, Price: cents(2)}}})
	}
	if _, err := order.New(ds, ss); !errors.Is(err, measure.ErrLimit) {
		t.Errorf("201 items in two sizes: %v", err)
	}
	if _, err := order.New(ds[1:], ss); err != nil {
		t.Errorf("200 items in two sizes: %v", err)
	}
}

func TestNewRefuses(t *testing.T) {
	d := func(item, unit string, q float64) order.Demand {
		return order.Demand{Item: item, Unit: unit, Quantity: q}
	}
	for name, c := range map[string]struct {
		ds   []order.Demand
		ss   []order.Supply
		kind error
	}{
		"two units":      {[]order.Demand{d("a", "kg", 1), d("a", "m", 1)}, nil, measure.ErrInput},
		"unit of supply": {[]order.Demand{d("a", "kg", 1)}, []order.Supply{{Item: "a", Unit: "m"}}, measure.ErrInput},
		"no name":        {[]order.Demand{d("", "kg", 1)}, nil, measure.ErrInput},
		"no unit":        {[]order.Demand{d("a", "", 1)}, nil, measure.ErrInput},
		"negative":       {[]order.Demand{d("a", "kg", -1)}, nil, measure.ErrInput},
		"not a number":   {[]order.Demand{d("a", "kg", math.NaN())}, nil, measure.ErrInput},
		"supply twice":   {nil, []order.Supply{{Item: "a"}, {Item: "a"}}, measure.ErrInput},
		"reserve in %":   {nil, []order.Supply{{Item: "a", Reserve: 5}}, measure.ErrInput},
		"currencies mixed": {[]order.Demand{d("a", "kg", 1), d("b", "kg", 1)}, []order.Supply{
			{Item: "a", Unit: "kg", Packs: []order.Pack{{Size: 1, Price: cents(1)}}},
			{Item: "b", Unit: "kg", Packs: []order.Pack{{Size: 1, Price: order.Money{Minor: 1, Currency: order.Currency{Text: "kr"}}}}},
		}, measure.ErrInput},
		"bad pack": {[]order.Demand{d("a", "kg", 1)}, []order.Supply{{Item: "a", Unit: "kg", Packs: []order.Pack{{Size: -1}}}}, measure.ErrInput},
		"too many": {make([]order.Demand, 100_001), nil, measure.ErrLimit},
	} {
		if _, err := order.New(c.ds, c.ss); !errors.Is(err, c.kind) {
			t.Errorf("%s: %v, want kind %v", name, err, c.kind)
		}
	}
}

// What demands add for waste and what the supply adds are both shown as reserve.
func TestReservesOfDemands(t *testing.T) {
	o, err := order.New([]order.Demand{
		{Item: "grit", Unit: "kg", Quantity: 100, Reserve: 5, Range: "a"},
		{Item: "grit", Unit: "kg", Quantity: 60, Reserve: 3, Range: "b"},
	}, []order.Supply{{Item: "grit", Unit: "kg", Reserve: 0.1, Packs: []order.Pack{{Size: 8}}}})
	if err != nil {
		t.Fatal(err)
	}
	if l := o.Lines[0]; l.Quantity != 160 || l.Reserve != 8+16 || l.Purchase.Count != 23 || o.Reconcile() != nil {
		t.Errorf("%+v, want 160 kg and 24 in reserve in 23 packs", l)
	}
	if _, err := order.New([]order.Demand{{Item: "grit", Unit: "kg", Quantity: 100, Reserve: -5}}, nil); !errors.Is(err, measure.ErrInput) {
		t.Errorf("a negative reserve: %v", err)
	}
}
