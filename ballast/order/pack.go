package order

import (
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// MaxPacks is the most sizes of pack that one item may come in.
const MaxPacks = 32

// A Pack is a buying unit of one item: a bag, a load, a length, a box.
type Pack struct {
	Name  string  // "25 kg bag"
	Size  float64 // in the unit of the quantity it is to cover, more than 0
	Price Money   // of one; the zero Money when not known
}

// Bought is a number of one pack.
type Bought struct {
	Pack  Pack
	Count int
	Cost  Money
}

// A Purchase is what covers a quantity.
type Purchase struct {
	Need   float64  // the quantity to cover
	Bought []Bought // in the order in which the packs were given; none of count 0
	Count  int      // packs in all
	Got    float64  // the quantity they hold
	Cost   Money    // of all
}

// Spare returns what is left over.
func (p Purchase) Spare() float64 { return p.Got - p.Need }

// met is the part of a need that may be missing and still count as met: it
// keeps the noise of arithmetic from costing a bag.
const met = 1e-9

// grid is the most steps that Buy divides a need into where packs come in
// several sizes.
const grid = 1 << 16

// MaxCount is the most packs of one purchase in one size.
const MaxCount = 1 << 30

// Buy returns the packs that cover the quantity need at least cost, and of
// those of equal cost the fewest packs. With one pack no price is needed; with
// several each must have one, in one currency.
//
// The method is the exact one for covering with whole packs (Bellman's
// recursion, f(x) = min over packs of price + f(x - size), f(x ≤ 0) = 0; R.
// Bellman, Dynamic Programming, 1957) on the common measure of the sizes. Where
// that would take more than 65536 steps, sizes are rounded down to
// need/65536: the purchase still covers the need, and could be undercut only
// by packs that fit to closer than that.
func Buy(need float64, packs ...Pack) (Purchase, error) {
	l := fault.In("order")
	fault.Amount(l, "quantity", need)
	if len(packs) == 0 {
		l.Add("packs", nil, "at least one buying unit is needed")
	}
	if len(packs) > MaxPacks {
		l.Over("packs", len(packs), fmt.Sprintf("at most %d", MaxPacks))
		return Purchase{}, l.Err()
	}
	for i, p := range packs {
		name := packName(i, p)
		fault.Size(l, name+": size", p.Size)
		if p.Price.Minor < 0 {
			l.Add(name+": price", p.Price, "must be 0 or more")
		}
		if p.Price.Currency.Places < 0 || p.Price.Currency.Places > 4 {
			l.Add(name+": decimal places of the currency", p.Price.Currency.Places, "must be from 0 to 4")
		}
		if len(packs) > 1 && !p.Price.Known() {
			l.Add(name+": price", nil, "is needed with its currency to choose among several packs")
		}
		if p.Price.Currency != packs[0].Price.Currency {
			l.Add(name+": price", p.Price, fmt.Sprintf("must be in the currency of the first pack, %q: prices are not converted", packs[0].Price.Currency.Text))
		}
		if p.Price.Minor > math.MaxInt64/(2*MaxCount) {
			l.Over(name+": price", p.Price, "at most 4 thousand million minor units")
		}
		most := float64(grid)
		if len(packs) == 1 {
			most = MaxCount
		}
		if need > p.Size*most {
			l.Over(name+": size", p.Size, fmt.Sprintf("more than %v packs would be needed for %v", most, need))
		}
	}
	if err := l.Err(); err != nil {
		return Purchase{}, err
	}
	counts := make([]int, len(packs))
	if len(packs) == 1 {
		counts[0] = countUp(need, packs[0].Size)
	} else {
		cheapest(need, packs, counts)
	}
	return total(need, packs, counts)
}

func packName(i int, p Pack) string {
	if p.Name != "" {
		return "pack " + p.Name
	}
	return fmt.Sprintf("pack %d", i+1)
}

// countUp returns the least number of packs of the size that cover need.
func countUp(need, size float64) int { return int(math.Ceil(need / size * (1 - met))) }

// cheapest fills in the counts of least cost.
func cheapest(need float64, packs []Pack, counts []int) {
	if need == 0 {
		return
	}
	// A pack that covers the need by itself does so on any measure.
	step := 0.0
	for _, p := range packs {
		switch {
		case p.Size >= need:
		case step == 0:
			step = p.Size
		default:
			step = common(step, p.Size, need*met)
		}
	}
	if step == 0 {
		step = need
	}
	if need/step > grid {
		step = need / grid
	}
	n := countUp(need, step)
	size := make([]int, len(packs))
	for i, p := range packs {
		size[i] = n
		if p.Size < need {
			size[i] = min(n, int(math.Floor(p.Size/step*(1+met))))
		}
	}
	cost, number, choice := make([]int64, n+1), make([]int32, n+1), make([]int8, n+1)
	for x := 1; x <= n; x++ {
		cost[x] = math.MaxInt64
		for i, s := range size {
			if s == 0 {
				continue
			}
			r := max(0, x-s)
			c, k := cost[r]+packs[i].Price.Minor, number[r]+1
			if c < cost[x] || c == cost[x] && k < number[x] {
				cost[x], number[x], choice[x] = c, k, int8(i)
			}
		}
	}
	for x := n; x > 0; {
		i := choice[x]
		counts[i]++
		x -= size[i]
	}
}

// common returns the common measure of two sizes, or less than tol when they
// have none: Euclid's algorithm on real numbers.
func common(a, b, tol float64) float64 {
	a, b = max(a, b), min(a, b)
	tol = max(tol, a*1e-12)
	for b > tol {
		r := a - b*math.Round(a/b)
		a, b = b, math.Abs(r)
	}
	return a
}

func total(need float64, packs []Pack, counts []int) (Purchase, error) {
	t := Purchase{Need: need, Cost: Money{0, packs[0].Price.Currency}}
	for i, n := range counts {
		if n == 0 {
			continue
		}
		cost, err := packs[i].Price.Times(n)
		if err != nil {
			return Purchase{}, err
		}
		if t.Cost, err = t.Cost.Plus(cost); err != nil {
			return Purchase{}, err
		}
		t.Bought = append(t.Bought, Bought{packs[i], n, cost})
		t.Count += n
		t.Got += float64(n) * packs[i].Size
	}
	if t.Got < need*(1-2*met) { // cannot happen: sizes are only ever rounded down
		return Purchase{}, fmt.Errorf("order: the packs hold %v of %v: %w", t.Got, need, measure.ErrNoAnswer)
	}
	return t, nil
}
