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

// The most steps of quantity, and of cost, that Buy divides a need into where
// packs come in several sizes.
const (
	sizeSteps = 1 << 16
	costSteps = 1 << 18
)

// MaxCount is the most packs of one purchase in one size.
const MaxCount = 1 << 30

// Buy returns the packs that cover the quantity need at least cost. With one
// pack no price is needed; with several each must have one, in one currency.
//
// The method is the exact one for covering with whole packs, Bellman's
// recursion (R. Bellman, Dynamic Programming, 1957): on the common measure of
// the sizes, the least cost of every quantity; or, where sizes have none that
// divides the need into 65536 steps or fewer, on that of the prices, the most
// that every cost buys. Of purchases of equal cost the first way takes the
// fewest packs, the second the most material. A need that would take more than
// 262144 steps of price is refused.
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
		if need > p.Size*MaxCount {
			l.Over(name+": size", p.Size, fmt.Sprintf("more than %d packs would be needed for %v", MaxCount, need))
		}
	}
	if err := l.Err(); err != nil {
		return Purchase{}, err
	}
	counts := make([]int, len(packs))
	switch {
	case need == 0:
	case len(packs) == 1:
		counts[0] = countUp(need, packs[0].Size)
	case !bySize(need, packs, counts) && !byCost(need, packs, counts):
		l.Over("packs", len(packs), fmt.Sprintf("sizes and prices that need more than %d steps for %v: rounder prices, or fewer odd sizes, would take fewer", costSteps, need))
		return Purchase{}, l.Err()
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

// bySize fills in the counts of least cost on the common measure of the sizes,
// or returns false where they have none that is coarse enough.
func bySize(need float64, packs []Pack, counts []int) bool {
	// A pack that covers the need by itself does so on any measure.
	step := 0.0
	for _, p := range packs {
		switch {
		case p.Size >= need:
		case step == 0:
			step = p.Size
		default:
			step = common(step, p.Size)
		}
		if step > 0 && need/step > sizeSteps {
			return false
		}
	}
	if step == 0 {
		step = need
	}
	n := countUp(need, step)
	size := make([]int, len(packs))
	for i, p := range packs {
		size[i] = n
		if p.Size < need {
			size[i] = min(n, int(math.Round(p.Size/step)))
		}
	}
	cost, number, choice := make([]int64, n+1), make([]int32, n+1), make([]int8, n+1)
	for x := 1; x <= n; x++ {
		cost[x] = math.MaxInt64
		for i, s := range size {
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
	return true
}

// byCost fills in the counts of least cost on the common measure of the prices,
// or returns false where that is not coarse enough.
func byCost(need float64, packs []Pack, counts []int) bool {
	var step, most int64 = 0, math.MaxInt64
	free := -1
	for i, p := range packs {
		step = divisor(step, p.Price.Minor)
		most = min(most, int64(countUp(need, p.Size))*p.Price.Minor)
		if p.Price.Minor == 0 && (free < 0 || p.Size > packs[free].Size) {
			free = i
		}
	}
	if free >= 0 { // the largest that costs nothing
		counts[free] = countUp(need, packs[free].Size)
		return true
	}
	if most/step > costSteps {
		return false
	}
	n := int(most / step)
	got, choice := make([]float64, n+1), make([]int8, n+1)
	for c := 1; c <= n; c++ {
		got[c] = math.Inf(-1)
		for i, p := range packs {
			if r := int64(c) - p.Price.Minor/step; r >= 0 && got[r]+p.Size > got[c] {
				got[c], choice[c] = got[r]+p.Size, int8(i)
			}
		}
		if got[c] >= need*(1-met) || c == n {
			for c > 0 {
				i := choice[c]
				counts[i]++
				c -= int(packs[i].Price.Minor / step)
			}
			break
		}
	}
	return true
}

func divisor(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// common returns the common measure of two sizes: Euclid's algorithm on real
// numbers, a rest of a million millionth of the larger taken as none.
func common(a, b float64) float64 {
	a, b = max(a, b), min(a, b)
	tol := a * 1e-12
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
	if t.Got < need*(1-2*met) { // cannot happen, but a short order must not pass in silence
		return Purchase{}, fmt.Errorf("order: the packs hold %v of %v: %w", t.Got, need, measure.ErrNoAnswer)
	}
	return t, nil
}
