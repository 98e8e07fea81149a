package clearance

import (
	"context"
	"fmt"
	"math"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// Sweep runs every vehicle of the stock along the line and returns the space
// that they need, each on its own and so also as a train: bodies coupled to one
// another stand where each would stand alone.
//
// The rear axle drives. What can lie on the edge of the swept space is only a
// body's convex corners and, on each of its sides, the one point that moves
// along that side: with v the body's velocity, ω its turning rate, n the side's
// normal and u the distance along it, v·n + ω·u = 0. The path of each is
// carried as a curve (a cubic with the true directions at its ends) and solved
// for where it crosses the square to the line at each kept station, so that
// nothing depends on the step. Steps are halved until the motion between two
// poses is known to an eighth of the tolerance, and the path of a side's point
// on its own spacing, which can be much wider than the vehicle's step.
//
// With a cant that varies the same is done at the bottom and at the top of each
// outline with every offset turned by the lean of its pose; on a side the point
// is then where v·n + ω·u + σ·n_y = 0, σ the growth of what the lean shifts it by
// and n_y the part of the normal across the body.
//
// It stops promptly when ctx ends. The error wraps measure.ErrInput for input
// at fault, measure.ErrNoAnswer where a vehicle cannot stand on the line or
// reaches past the centre of a curve, measure.ErrLimit beyond MaxStock,
// MaxPoses or Settings.MaxKept.
func Sweep(ctx context.Context, line *curve.Alignment, stock []Vehicle, set Settings) (*Envelope, error) {
	l := fault.In("clearance")
	set = set.check(l, line)
	if len(stock) == 0 {
		l.Add("stock", "none", "needs at least one vehicle")
	}
	if len(stock) > MaxStock {
		l.Over("stock", fmt.Sprintf("of %d vehicles", len(stock)), fmt.Sprintf("must be at most %d", MaxStock))
		return nil, l.Err()
	}
	for i, v := range stock {
		f := v.field()
		if v.Name == "" {
			f = fmt.Sprintf("vehicle %d", i+1)
		}
		v.check(l, f)
	}
	if err := l.Err(); err != nil {
		return nil, err
	}
	e := &Envelope{line: line, set: set, from: float64(set.From), to: float64(set.To)}
	e.allow()
	for _, v := range stock {
		e.stock = append(e.stock, v.clone())
	}
	ext, wide, high, outlines := 0.0, 0.0, 0.0, 0
	for i := range e.stock {
		v := &e.stock[i]
		ext = max(ext, v.length())
		if n := (e.to - e.from + 2*v.length()) / v.longestStep(); n > MaxPoses {
			l.Over(v.field()+": pivot spacing", measure.Length(4*v.longestStep()), fmt.Sprintf("takes about %.0f poses on this range, more than %d: take a shorter range", n, MaxPoses))
		}
		for part := range v.parts() {
			for _, b := range v.bands(part) {
				outlines++
				if e.cant.varies() {
					outlines += 2 // swept at its bottom and at its top too
				}
				high = max(high, math.Abs(float64(b.Bottom)), math.Abs(float64(b.Top)))
				for _, p := range b.Outline {
					wide = max(wide, 2*math.Abs(float64(p.Across)))
				}
			}
		}
	}
	if err := l.Err(); err != nil {
		return nil, err
	}
	ramps := e.cant.ramps()
	within := func(a, b float64) float64 { return e.cant.spacing(ramps, a, b, float64(set.Tolerance), high) }
	plain, knots, n := layStations(line, e.from, e.to, float64(set.Tolerance), ext, wide, within, set.MaxKept/max(1, outlines))
	if n *= float64(outlines); n > float64(set.MaxKept) {
		l.Over("tolerance", set.Tolerance, fmt.Sprintf("needs about %.0f kept stations, more than the %d allowed for its %d outlines: take a coarser tolerance, a shorter range or fewer vehicles, or raise MaxKept", n, set.MaxKept, outlines))
		return nil, l.Err()
	}
	for i := range e.stock {
		run := newRunner(e, i, plain, knots)
		if err := run.sweep(ctx); err != nil {
			return nil, err
		}
		e.sheets = append(e.sheets, run.sheets...)
	}
	e.merge(plain, knots)
	if err := e.checkReach(); err != nil {
		return nil, err
	}
	return e, nil
}

// clone copies the vehicle, so that a later change of the caller's slices does
// not reach the envelope.
func (v Vehicle) clone() Vehicle { return v.Turned().Turned() }

// parts is the number of rigid parts: bodies, carriers, trucks.
func (v *Vehicle) parts() int {
	n := len(v.Bodies) + len(v.Carriers)
	for _, b := range v.Bodies {
		n += len(b.Trucks)
	}
	return n
}

// bands returns the outlines of a part, in the order of parts.
func (v *Vehicle) bands(part int) []Band {
	if part < len(v.Bodies) {
		return v.Bodies[part].Bands
	}
	if part -= len(v.Bodies); part < len(v.Carriers) {
		return v.Carriers[part].Bands
	}
	_, t := v.truck(part - len(v.Carriers))
	return t.Bands
}

// truck returns the truck of an index over all the bodies, and its body's.
func (v *Vehicle) truck(i int) (body int, t *Truck) {
	for i >= len(v.Bodies[body].Trucks) {
		i -= len(v.Bodies[body].Trucks)
		body++
	}
	return body, &v.Bodies[body].Trucks[i]
}

// longestStep is the longest step between two poses: a quarter of the shortest
// pivot spacing.
func (v *Vehicle) longestStep() float64 {
	h := math.Inf(1)
	for _, b := range v.Bodies {
		h = min(h, float64(b.Pivots)/4)
	}
	return h
}

// length is a generous length of line that the vehicle may stand over.
func (v *Vehicle) length() float64 {
	l := 0.0
	for i, b := range v.Bodies {
		rear, front := b.extent()
		l += float64(b.Pivots)
		if i == 0 {
			l += max(0, -float64(b.Pivots)/2-float64(rear))
		}
		if i == len(v.Bodies)-1 {
			l += max(0, float64(front)-float64(b.Pivots)/2)
		}
		for _, t := range b.Trucks {
			l += math.Abs(float64(t.Bar))
		}
	}
	for _, c := range v.Carriers {
		l += float64(c.Wheelbase) + math.Abs(float64(c.Pin))
	}
	return 1.5 * l
}
