package limit

import (
	"context"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
	"example.org/fourfoot/internal/solve"
)

// grid is in how many steps of curvature a first failure is looked for, and
// gentle the curvature up to which it is first looked for, a turn over the
// length of a vehicle.
const (
	grid   = 16
	gentle = 0.02 // rad
)

// near is how near an answer is to the curvature where the lack passes zero, as
// a part of it. It changes a reach by less than that part of the vehicle's
// length, which is finer than the sweep.
const near = 1e-10

// least returns the least radius: of all the curvatures from straight on, the
// first at which the bend fails. What a bend asks grows with its curvature for
// most bodies, but the end of a body that hardly stands out past its pivots
// swings out and then in again; so all curvatures are looked at.
func (q *question) least(ctx context.Context, b Bend) (Radius, error) {
	b.swept = &sections{}
	first, err := q.try(ctx, b, 0)
	if err != nil {
		return Radius{}, err
	}
	if first.bad != nil {
		return Radius{}, first.bad
	}
	if first.by > -1e-9 { // nothing is left for a curve
		l := fault.In("limit")
		l.NoAnswer(q.remedy(first.by, first))
		return Radius{}, l.Err()
	}
	// A curvature that fails.
	far := gentle / float64(b.longest())
	for {
		e, err := q.look(ctx, b, far)
		if err != nil {
			return Radius{}, err
		}
		if e.by > 0 {
			break
		}
		far *= 2
	}
	var k [grid + 1]float64
	var e [grid + 1]excess
	e[0] = first
	n := 0
	for i := 1; i <= grid; i++ {
		k[i] = far * float64(i) / grid
		if e[i], err = q.look(ctx, b, k[i]); err != nil {
			return Radius{}, err
		}
		if e[i].by > 0 {
			n = i
			break
		}
	}
	lo, hi := k[n-1], k[n]
	// Before it, a peak between the places looked at.
	for i := 1; i < n-1; i++ {
		up, down := e[i].by-e[i-1].by, e[i].by-e[i+1].by
		if up < 0 || down < 0 || e[i].by < -(up+down) {
			continue
		}
		at, peak, err := q.peak(ctx, b, k[i-1], k[i+1])
		if err != nil {
			return Radius{}, err
		}
		if peak > 0 {
			lo, hi = k[i-1], at
			break
		}
	}
	root, last, err := q.cross(ctx, b, lo, hi)
	if err != nil {
		return Radius{}, err
	}
	r := Radius{Least: measure.Length(1 / root), Edge: measure.Length(last.edge), By: last.from, Side: last.side}
	if last.bad != nil || last.by < -1e-6 {
		r.Stands = true
		return r, nil
	}
	if !b.NoRates {
		r.Rates, err = q.rates(ctx, b, root, last)
	}
	return r, err
}

// look is try, right only in whether the bend fails, and to a thousandth of a
// millimetre in by how much.
func (q *question) look(ctx context.Context, b Bend, k float64) (excess, error) {
	b.rough = true
	e, err := q.try(ctx, b, k)
	if err != nil || math.Abs(e.by) > 3*float64(roughTolerance) {
		return e, err
	}
	b.rough = false
	return q.try(ctx, b, k)
}

// longest returns the greatest length of a body of the stock.
func (b Bend) longest() measure.Length {
	longest := measure.Length(0)
	for _, v := range b.Stock {
		for _, body := range v.Bodies {
			longest = max(longest, extent(body.Bands).length())
		}
	}
	return longest
}

// peak returns where between two curvatures the lack is largest; one that is
// there at all is enough.
func (q *question) peak(ctx context.Context, b Bend, lo, hi float64) (at, most float64, err error) {
	at, least := solve.Golden(func(k float64) float64 {
		e, fail := q.try(ctx, b, k)
		if fail != nil {
			err = fail
			return math.Inf(-1)
		}
		return -e.by
	}, lo, hi, 1e-8*(hi-lo), -math.SmallestNonzeroFloat64)
	return at, -least, err
}

// cross returns the curvature between lo, which does, and hi, which does not,
// where the lack passes zero, on the side that does; last is the lack there.
func (q *question) cross(ctx context.Context, b Bend, lo, hi float64) (k float64, last excess, err error) {
	f := func(k float64) float64 {
		e, fail := q.try(ctx, b, k)
		if fail != nil {
			err = fail
		}
		return e.by
	}
	// Halve as long as the far end cannot be stood on.
	for range 200 {
		if hi-lo <= 1e-14*hi || err != nil {
			break
		}
		e, fail := q.try(ctx, b, hi)
		if fail != nil {
			return 0, last, fail
		}
		if e.bad == nil {
			break
		}
		if m := (lo + hi) / 2; f(m) > 0 {
			hi = m
		} else {
			lo = m
		}
	}
	if err != nil {
		return 0, last, err
	}
	root, ok := solve.Brent(f, lo, hi, near*hi)
	if err != nil {
		return 0, last, err
	}
	if !ok {
		root = lo
	}
	// Back onto the side that does.
	for step := near; ; step *= 2 {
		if last, err = q.try(ctx, b, root); err != nil || last.by <= 0 || root <= lo {
			return root, last, err
		}
		root = max(lo, root*(1-step))
	}
}
