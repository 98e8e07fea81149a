package order_test

import (
	"errors"
	"math/rand/v2"
	"testing"

	"example.org/fourfoot/ballast/order"
	"example.org/fourfoot/gauge/measure"
)

var eur = order.Currency{Text: "EUR", Places: 2}

func cents(n int64) order.Money { return order.Money{Minor: n, Currency: eur} }

func TestBuyOnePack(t *testing.T) {
	for _, c := range []struct {
		need, size float64
		want       int
	}{
		{0, 25, 0},
		{1, 25, 1},
		{25, 25, 1},
		{25.001, 25, 2},
		{250, 25, 10},
		{0.3 + 1e-12, 0.1, 3}, // arithmetic noise costs no bag
	} {
		p, err := order.Buy(c.need, order.Pack{Size: c.size})
		if err != nil || p.Count != c.want || p.Cost.Known() {
			t.Errorf("Buy(%v, %v) = %d packs, cost %v, %v, want %d packs at no known cost", c.need, c.size, p.Count, p.Cost, err, c.want)
		}
	}
}

// The plain search over all counts, with nothing in common with Buy.
func bruteCost(need float64, packs []order.Pack) int64 {
	best := int64(1 << 60)
	var try func(i int, left float64, cost int64)
	try = func(i int, left float64, cost int64) {
		if left <= 1e-6 {
			best = min(best, cost)
			return
		}
		if i == len(packs) || cost >= best {
			return
		}
		for n := 0; ; n++ {
			rest := left - float64(n)*packs[i].Size
			try(i+1, rest, cost+int64(n)*packs[i].Price.Minor)
			if rest <= 0 {
				return
			}
		}
	}
	try(0, need, 0)
	return best
}

func TestBuyIsCheapest(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 300 {
		packs := make([]order.Pack, 2+r.IntN(3))
		for i := range packs {
			packs[i] = order.Pack{Size: float64(1+r.IntN(50)) * 2.5, Price: cents(int64(1 + r.IntN(3000)))}
		}
		need := r.Float64() * 400
		p, err := order.Buy(need, packs...)
		if want := bruteCost(need, packs); err != nil || p.Cost.Minor != want || p.Spare() < -1e-6 {
			t.Fatalf("Buy(%v, %v) costs %v with %v to spare, %v, want %d minor units", need, packs, p.Cost, p.Spare(), err, want)
		}
	}
}

// Of equal cost, the fewest packs.
func TestBuyFewest(t *testing.T) {
	a, b := order.Pack{Name: "25", Size: 25, Price: cents(500)}, order.Pack{Name: "50", Size: 50, Price: cents(1000)}
	for _, packs := range [][]order.Pack{{a, b}, {b, a}} {
		if p, err := order.Buy(125, packs...); err != nil || p.Count != 3 || p.Cost.Minor != 2500 {
			t.Errorf("%+v, %v, want two of 50 and one of 25", p, err)
		}
	}
}

func TestBuyOddSizes(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 200 { // sizes of no common measure, found by the plain search too
		packs := make([]order.Pack, 2+r.IntN(3))
		for i := range packs {
			packs[i] = order.Pack{Size: 5 + r.Float64()*100, Price: cents(int64(r.IntN(3000)))}
		}
		need := r.Float64() * 400
		p, err := order.Buy(need, packs...)
		if want := bruteCost(need, packs); err != nil || p.Cost.Minor != want || p.Spare() < -1e-6 {
			t.Fatalf("Buy(%v, %v) costs %v with %v to spare, %v, want %d minor units", need, packs, p.Cost, p.Spare(), err, want)
		}
	}
	// Sizes with no common measure: a bag by volume beside a bag by mass.
	p, err := order.Buy(1234.5, order.Pack{Name: "bag", Size: 25, Price: cents(500)},
		order.Pack{Name: "bulk", Size: 850 * 0.9977341, Price: cents(9000)})
	if err != nil || p.Spare() < 0 || p.Cost.Minor != 9000+16*500 {
		t.Errorf("Buy = %v, %v, want one bulk load and 16 bags at %d", p, err, 9000+16*500)
	}
}

// A pack far larger than the need leaves the small ones their measure.
func TestBuyHugePack(t *testing.T) {
	p, err := order.Buy(10, order.Pack{Size: 3, Price: cents(1)}, order.Pack{Size: 1e15, Price: cents(100)})
	if err != nil || p.Count != 4 || p.Cost.Minor != 4 {
		t.Errorf("%+v, %v, want four small packs", p, err)
	}
}

// Where sizes have no common measure: of packs that cost nothing the largest is
// taken, and a dear pack does not bring the search to its limit.
func TestBuyByCost(t *testing.T) {
	p, err := order.Buy(100, order.Pack{Size: 7.7777777, Price: cents(0)}, order.Pack{Name: "large", Size: 31.4159265, Price: cents(0)}, order.Pack{Size: 50.000001, Price: cents(1)})
	if err != nil || p.Cost.Minor != 0 || p.Count != 4 || p.Bought[0].Pack.Name != "large" {
		t.Errorf("%+v, %v, want four large packs for nothing", p, err)
	}
	p, err = order.Buy(100, order.Pack{Name: "cheap", Size: 7.7777777, Price: cents(101)}, order.Pack{Size: 1.0000137, Price: cents(299993)})
	if err != nil || p.Cost.Minor != 13*101 {
		t.Errorf("%+v, %v, want thirteen cheap packs", p, err)
	}
}

func TestBuyRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		need  float64
		packs []order.Pack
		kind  error
	}{
		"no packs":             {1, nil, measure.ErrInput},
		"negative need":        {-1, []order.Pack{{Size: 1}}, measure.ErrInput},
		"size zero":            {1, []order.Pack{{}}, measure.ErrInput},
		"price missing":        {1, []order.Pack{{Size: 1, Price: cents(1)}, {Size: 2}}, measure.ErrInput},
		"two currencies":       {1, []order.Pack{{Size: 1, Price: cents(1)}, {Size: 2, Price: order.Money{Minor: 1, Currency: order.Currency{Text: "SEK", Places: 2}}}}, measure.ErrInput},
		"negative price":       {1, []order.Pack{{Size: 1, Price: cents(-1)}}, measure.ErrInput},
		"too many packs":       {1e10, []order.Pack{{Size: 1}}, measure.ErrLimit},
		"odd sizes and prices": {1e6, []order.Pack{{Size: 1, Price: cents(1009)}, {Size: 7.7777777, Price: cents(7993)}}, measure.ErrLimit},
		"too many sizes":       {1, make([]order.Pack, 33), measure.ErrLimit},
	} {
		if _, err := order.Buy(c.need, c.packs...); !errors.Is(err, c.kind) {
			t.Errorf("%s: Buy gives %v, want kind %v", name, err, c.kind)
		}
	}
}

func TestMoney(t *testing.T) {
	for _, c := range []struct {
		m    order.Money
		want string
	}{
		{cents(1250), "12.50 EUR"},
		{cents(5), "0.05 EUR"},
		{cents(-5), "-0.05 EUR"},
		{cents(0), "0.00 EUR"},
		{order.Money{Minor: 1250, Currency: order.Currency{Text: "yen"}}, "1250 yen"},
		{order.Money{}, ""},
	} {
		if got := c.m.String(); got != c.want {
			t.Errorf("%#v prints %q, want %q", c.m, got, c.want)
		}
	}
	if _, err := cents(1).Plus(order.Money{Minor: 1, Currency: order.Currency{Text: "EUR"}}); !errors.Is(err, measure.ErrInput) {
		t.Errorf("EUR of two places and of none were added: %v", err)
	}
	if _, err := cents(1 << 62).Plus(cents(1 << 62)); !errors.Is(err, measure.ErrLimit) {
		t.Errorf("an overflow was not seen: %v", err)
	}
	if _, err := cents(1 << 62).Times(3); !errors.Is(err, measure.ErrLimit) {
		t.Errorf("an overflow was not seen: %v", err)
	}
}
