package limit

import (
	"context"
	"errors"
	"fmt"
	"math"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/opening"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// ForOpening returns the least radius at which the stock clears, by the margin,
// faces that stand at given distances from the track centreline inside and
// outside the bend: half the width of an opening in the middle of which the
// track lies. +∞ leaves a side open. Rates: "inside half-width", "outside
// half-width", "margin", and of the vehicle that governs "body length", "pivot
// spacing", "body width" and, with two bogies, "bogie wheelbase". The error
// wraps measure.ErrNoAnswer where not even straight track clears, and says how
// wide it must be.
func (b Bend) ForOpening(ctx context.Context, inside, outside measure.Length) (Radius, error) {
	l := fault.In("limit")
	b.check(l)
	for _, w := range []struct {
		name string
		at   measure.Length
	}{{"inside half-width", inside}, {"outside half-width", outside}} {
		if math.IsNaN(float64(w.at)) || math.IsInf(float64(w.at), -1) {
			l.Add(w.name, w.at, "must be a finite number, or +Inf for an open side")
		}
	}
	if math.IsInf(float64(inside), 1) && math.IsInf(float64(outside), 1) {
		l.Add("inside half-width", inside, "must be finite if the outside half-width is not")
	}
	if err := l.Err(); err != nil {
		return Radius{}, err
	}
	q := question{
		names: []string{"inside half-width", "outside half-width"}, values: []float64{float64(inside), float64(outside)},
		lack: func(ctx context.Context, b Bend, values []float64, k float64) (excess, error) {
			s, err := b.at(ctx, k)
			if err != nil {
				return excess{}, err
			}
			worst := excess{by: math.Inf(-1)}
			for i, side := range [2]curve.Hand{curve.Left, curve.Right} {
				r, by, err := s.Reach(side, b.Heights)
				if err != nil {
					return excess{}, nothing(err)
				}
				if lack := float64(r+b.Margin) - values[i]; lack > worst.by {
					worst = excess{by: lack, from: by, side: side}
				}
			}
			return worst, nil
		},
		remedy: func(short float64, e excess) (string, string, string) {
			name, w := "inside half-width", inside
			if e.side == curve.Right {
				name, w = "outside half-width", outside
			}
			return name, w.String(), fmt.Sprintf("is too narrow for %s even on straight track: it must be more than %v", e.from.Vehicle, w+measure.Length(short))
		},
	}
	return q.least(ctx, b)
}

// nothing makes a fault of input of an error that says that the heights hold no
// part of the stock: otherwise it would be taken for stock that cannot stand.
func nothing(err error) error {
	if !errors.Is(err, measure.ErrNoAnswer) {
		return err
	}
	l := fault.In("limit")
	l.Add("heights", nil, "must hold a part of the stock: take a range that meets its bands")
	return l.Err()
}

// ForSpacing returns the least radius, of the inner of two concentric tracks, at
// which they may lie spacing apart, centre to centre: the stock on the inner
// one and the outer stock on the other (nil is the same stock) pass one another
// anywhere with the margin between them. Gaps are level, at each height that
// both have within Heights; what never is at one height does not meet. Rates:
// "spacing", "margin", and of the vehicle of the inner track that governs
// "body length", "pivot spacing", "body width", "bogie wheelbase".
func (b Bend) ForSpacing(ctx context.Context, spacing measure.Length, outer []clearance.Vehicle) (Radius, error) {
	l := fault.In("limit")
	b.check(l)
	fault.Positive(l, "spacing", spacing)
	if err := l.Err(); err != nil {
		return Radius{}, err
	}
	q := question{
		names: []string{"spacing"}, values: []float64{float64(spacing)},
		lack: func(ctx context.Context, b Bend, values []float64, k float64) (excess, error) {
			need, by, err := b.between(ctx, outer, k, values[0])
			return excess{by: need - values[0], from: by, side: curve.Right}, err
		},
		remedy: func(short float64, e excess) (string, string, string) {
			return "spacing", spacing.String(), fmt.Sprintf("is too narrow even on straight track: it must be more than %v", spacing+measure.Length(short))
		},
	}
	return q.least(ctx, b)
}

// Spacing returns the spacing that the margin asks for when the inner track has
// a radius and the outer one is as far from it as is given: what ForSpacing
// asks forwards. The spacing is right where the two are the same.
func (b Bend) Spacing(ctx context.Context, radius, spacing measure.Length, outer []clearance.Vehicle) (measure.Length, error) {
	l := fault.In("limit")
	b.check(l)
	fault.Positive(l, "radius", radius)
	fault.Positive(l, "spacing", spacing)
	if err := l.Err(); err != nil {
		return 0, err
	}
	need, _, err := b.between(ctx, outer, 1/float64(radius), float64(spacing))
	return measure.Length(need), err
}

// between returns the spacing that is needed with an inner curvature k and an
// outer radius larger by spacing, and what is outermost on the inner track.
func (b Bend) between(ctx context.Context, outer []clearance.Vehicle, k, spacing float64) (float64, opening.Source, error) {
	in, err := b.at(ctx, k)
	if err != nil {
		return 0, opening.Source{}, err
	}
	o := b
	if outer != nil {
		o.Stock = outer
	}
	out, err := o.at(ctx, k/(1+k*spacing))
	if err != nil {
		return 0, opening.Source{}, err
	}
	// Both flanks are straight between the heights of their corners.
	lo, hi := math.Inf(-1), math.Inf(1)
	if b.Heights != (clearance.Heights{}) {
		lo, hi = float64(b.Heights.From), float64(b.Heights.To)
	}
	best, by := math.Inf(-1), opening.Source{}
	for _, s := range [2]opening.Section{in, out} {
		for _, p := range s.Outline() {
			z := measure.Length(max(lo, min(hi, float64(p.Height))))
			h := clearance.Heights{From: z, To: z}
			if z == 0 { // zero Heights would be all heights
				h.To = math.SmallestNonzeroFloat64
			}
			r, from, err1 := in.Reach(curve.Right, h)
			l, _, err2 := out.Reach(curve.Left, h)
			if err1 != nil || err2 != nil {
				continue
			}
			if w := float64(r + l); w > best {
				best, by = w, from
			}
		}
	}
	if math.IsInf(best, -1) {
		return best, by, nil
	}
	return best + float64(b.Margin), by, nil
}
