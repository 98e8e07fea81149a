package limit

import (
	"context"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/opening"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Platform is a platform that follows the bend, its edge as near to the track
// as the stock allows.
type Platform struct {
	Side   curve.Hand     // Left inside the bend, Right outside
	Coping measure.Length // height of its edge above the head of the rail that stays level
	Step   measure.Length // the widest step allowed from a door to the edge, level and square to the edge
	Doors  []Door         // where it is measured; none means both ends and the middle of every body
}

// A Door is a place of a body's side where people step over.
type Door struct {
	Stock int // index into the stock list
	Body  int // of the vehicle
	Sill  clearance.Point
}

// sills returns the platform's doors on its side, filled in: without any, the
// ends and the middle of the widest part of each body, at the outline that is
// lowest of those that rise above the coping.
func (p Platform) sills(stock []clearance.Vehicle) []Door {
	doors := p.Doors
	if len(doors) == 0 {
		for i, v := range stock {
			for j, b := range v.Bodies {
				band, found := b.Bands[0], false
				for _, x := range b.Bands {
					switch {
					case x.Top > p.Coping && (!found || x.Bottom < band.Bottom):
						band, found = x, true
					case !found && x.Top > band.Top:
						band = x
					}
				}
				e := extent([]clearance.Band{band})
				wide := e.left
				if p.Side == curve.Right {
					wide = e.right
				}
				rear, front := math.Inf(1), math.Inf(-1)
				for _, q := range band.Outline {
					if math.Abs(float64(q.Across-wide)) < 1e-6 {
						rear, front = min(rear, float64(q.Along)), max(front, float64(q.Along))
					}
				}
				for _, x := range [3]float64{rear, (rear + front) / 2, front} {
					doors = append(doors, Door{i, j, clearance.Point{Along: measure.Length(x), Across: wide}})
				}
			}
		}
	}
	return doors
}

func (p Platform) check(l *fault.List, b Bend) {
	if p.Side != curve.Left && p.Side != curve.Right {
		l.Add("platform's side", p.Side, "must be left, inside the bend, or right, outside")
	}
	fault.Finite(l, "coping", p.Coping)
	fault.Positive(l, "step", p.Step)
	for i, d := range p.Doors {
		f := fmt.Sprintf("door %d", i+1)
		if d.Stock < 0 || d.Stock >= len(b.Stock) {
			l.Add(f+": vehicle", d.Stock, fmt.Sprintf("must be an index of the stock list, 0 to %d", len(b.Stock)-1))
		} else if n := len(b.Stock[d.Stock].Bodies); d.Body < 0 || d.Body >= n {
			l.Add(f+": body", d.Body, fmt.Sprintf("must be an index of the vehicle's bodies, 0 to %d", n-1))
		}
		fault.Finite(l, f+": along", d.Sill.Along)
		fault.Finite(l, f+": across", d.Sill.Across)
	}
}

// ForPlatform returns the least radius of a platform at which no door is farther
// from its edge than the step, and the edge from the track centreline there:
// as near as all the stock up to the height of the coping allows, with the
// margin. (Heights is not asked.) Doors are taken where the vehicles stand
// without any allowance. Rates: "step", "margin", and of the vehicle whose door
// governs "body length", "pivot spacing", "body width", "bogie wheelbase"; the
// last four only where the doors are not given.
func (b Bend) ForPlatform(ctx context.Context, p Platform) (Radius, error) {
	l := fault.In("limit")
	b.check(l)
	p.check(l, b)
	for i, v := range b.Stock {
		if err := v.Validate(); err != nil {
			l.JoinAs(fmt.Sprintf("vehicle %d", i+1), err)
		}
	}
	if err := l.Err(); err != nil {
		return Radius{}, err
	}
	q := question{
		names: []string{"step"}, values: []float64{float64(p.Step)},
		lack: func(ctx context.Context, b Bend, values []float64, k float64) (excess, error) {
			step, from, edge, err := b.step(ctx, p, k)
			return excess{by: step - values[0], from: from, side: p.Side, edge: edge}, err
		},
		remedy: func(short float64, _ excess) (string, string, string) {
			return "step", p.Step.String(), fmt.Sprintf("is too small even on straight track: it must be more than %v", p.Step+measure.Length(short))
		},
	}
	r, err := q.least(ctx, b)
	if len(p.Doors) > 0 {
		kept := r.Rates[:0]
		for _, x := range r.Rates {
			if x.Input == "step" || x.Input == "margin" {
				kept = append(kept, x)
			}
		}
		r.Rates = kept
	}
	return r, err
}

// Step returns the widest step of the platform at a radius, and where its edge
// is from the track centreline: what ForPlatform asks forwards.
func (b Bend) Step(ctx context.Context, radius measure.Length, p Platform) (step, edge measure.Length, err error) {
	l := fault.In("limit")
	b.check(l)
	p.check(l, b)
	fault.Positive(l, "radius", radius)
	if err := l.Err(); err != nil {
		return 0, 0, err
	}
	s, _, e, err := b.step(ctx, p, 1/float64(radius))
	return measure.Length(s), measure.Length(e), err
}

func (b Bend) step(ctx context.Context, p Platform, k float64) (step float64, from opening.Source, edge float64, err error) {
	s, err := b.at(ctx, k)
	if err != nil {
		return 0, from, 0, err
	}
	reach, _, err := s.Reach(p.Side, clearance.Heights{From: s.Bottom() - 1, To: p.Coping})
	if err != nil {
		l := fault.In("limit")
		l.Add("coping", p.Coping, fmt.Sprintf("must not be below the stock, which begins at %v", s.Bottom()))
		return 0, from, 0, l.Err()
	}
	edge = float64(reach + b.Margin)
	line, err := circle(k)
	if err != nil {
		return 0, from, 0, err
	}
	step = math.Inf(-1)
	stands := make([]*clearance.Stance, len(b.Stock))
	for _, d := range p.sills(b.Stock) {
		if stands[d.Stock] == nil {
			st, err := clearance.Stand(line, b.Stock[d.Stock], 0)
			if err != nil {
				return 0, from, 0, err
			}
			stands[d.Stock] = &st
		}
		at := stands[d.Stock].Bodies[d.Body].Plan(d.Sill)
		off := at.Y // left of a straight along x
		if k >= flattest {
			// Inwards of the circle, whose centre is its radius to the left of
			// its start: R - |p-c| without cancellation.
			c := r2.Vec{Y: 1 / k}
			r := r2.Norm(r2.Sub(at, c))
			off = (2*at.Y/k - at.X*at.X - at.Y*at.Y) / (1/k + r)
		}
		if gap := edge - off*float64(p.Side); gap > step {
			step = gap
			v := b.Stock[d.Stock]
			from = opening.Source{Stock: d.Stock, Vehicle: v.Name, Part: "door", Band: fmt.Sprintf("%.0f mm along", float64(d.Sill.Along))}
		}
	}
	return step, from, edge, nil
}
