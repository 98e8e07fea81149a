package order_test

import (
	"encoding/csv"
	"strings"
	"testing"

	"example.org/fourfoot/ballast/order"
)

// A purchase covers its need, costs what its packs cost, and no other mix of
// two sizes costs less.
func FuzzBuy(f *testing.F) {
	f.Add(99.0, 25.0, int64(650), 10.0, int64(300))
	f.Add(1234.5, 25.0, int64(500), 848.07, int64(9000))
	f.Add(0.0, 1e-12, int64(0), 1e18, int64(1))
	f.Fuzz(func(t *testing.T, need, a float64, pa int64, b float64, pb int64) {
		p, err := order.Buy(need, order.Pack{Name: "a", Size: a, Price: cents(pa)}, order.Pack{Name: "b", Size: b, Price: cents(pb)})
		if err != nil {
			return
		}
		if p.Spare() < -1e-8*need || p.Cost.Minor < 0 {
			t.Fatalf("%+v", p)
		}
		cost := int64(0)
		for _, x := range p.Bought {
			cost += int64(x.Count) * x.Pack.Price.Minor
		}
		if cost != p.Cost.Minor {
			t.Fatalf("%+v costs %d", p, cost)
		}
		if need/a > 2000 || need/b > 2000 {
			return
		}
		// A mix that just covers a hair more than the need must not be cheaper.
		for i := 0; float64(i-1)*a < need; i++ {
			j := 0
			for float64(i)*a+float64(j)*b < need*(1+1e-8) {
				j++
			}
			if c := int64(i)*pa + int64(j)*pb; c < p.Cost.Minor {
				t.Fatalf("%d of a and %d of b cost %d, Buy says %v", i, j, c, p.Cost)
			}
		}
	})
}

// Whatever the names, a list comes back from its CSV row by row.
func FuzzCSV(f *testing.F) {
	f.Add("granite grit", "kg", 61.5, "main", 0.1, uint8(0))
	f.Add("=1+2;\"a\", b\n", "m²", 1e18, "x,y", 1.0, uint8(1))
	f.Fuzz(func(t *testing.T, item, unit string, q float64, where string, reserve float64, n uint8) {
		o, err := order.New([]order.Demand{{Item: item, Unit: unit, Quantity: q, Range: where}},
			[]order.Supply{{Item: item, Unit: unit, Reserve: reserve, Packs: []order.Pack{{Name: where, Size: max(1, q/7), Price: cents(100)}}}})
		if err != nil {
			return
		}
		if err := o.Reconcile(); err != nil {
			t.Fatal(err)
		}
		if strings.ContainsRune(item+unit+where, '\r') {
			return // encoding/csv drops carriage returns
		}
		form := []order.Notation{{}, {Separator: ';', Decimal: ','}, {Separator: '\t'}}[n%3]
		r := csv.NewReader(strings.NewReader(o.CSV(form)))
		if r.Comma = ','; form.Separator != 0 {
			r.Comma = rune(form.Separator)
		}
		rows, err := r.ReadAll()
		if err != nil || len(rows) != 3 || len(rows[1]) != 10 || strings.TrimPrefix(rows[1][0], "'") != strings.TrimPrefix(item, "'") {
			t.Fatalf("%q: %v, %v", o.CSV(form), rows, err)
		}
		_ = o.String()
	})
}
