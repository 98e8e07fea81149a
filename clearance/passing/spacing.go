package passing

import (
	"context"
	"fmt"
	"math"
	"slices"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
	"example.org/fourfoot/internal/solve"
)

// Stocks are what runs on the two tracks of a curve and how near they may pass.
type Stocks struct {
	Inner      []clearance.Vehicle  // on the track nearer the centre of the curve
	Outer      []clearance.Vehicle  // on the other; none means the same as Inner
	Margin     measure.Length       // running gap to be left, beyond the allowances
	Allowances clearance.Allowances // of both tracks; a cant must be the same all along, positive leaning to the inner side; a level is not taken here
}

func (s Stocks) outer() []clearance.Vehicle {
	if len(s.Outer) == 0 {
		return s.Inner
	}
	return s.Outer
}

// Turned returns the stocks each with every vehicle the other way round as
// well: for trains that run both ways on each track.
func (s Stocks) Turned() Stocks {
	both := func(v []clearance.Vehicle) []clearance.Vehicle {
		var out []clearance.Vehicle
		for _, x := range v {
			out = append(out, x, x.Turned())
		}
		return out
	}
	s.Inner, s.Outer = both(s.Inner), both(s.Outer)
	return s
}

func (s Stocks) check(l *fault.List) {
	if len(s.Inner) == 0 {
		l.Add("inner stock", "none", "needs at least one vehicle")
	}
	if n := max(len(s.Inner), len(s.Outer)); n > clearance.MaxStock {
		l.Over("stock", fmt.Sprintf("of %d vehicles", n), fmt.Sprintf("must be at most %d", clearance.MaxStock))
		return
	}
	for i, v := range append(append([]clearance.Vehicle(nil), s.Inner...), s.Outer...) {
		l.JoinAs(fmt.Sprintf("vehicle %d", i+1), v.Validate())
	}
	fault.NotNegative(l, "margin", s.Margin)
	if n := len(s.Allowances.Cant.Boundaries()); n > 1 {
		l.Add("cant", fmt.Sprintf("with %d places", n), "must be the same all along: sweep two lines with it and compare them by Gaps")
	}
	if len(s.Allowances.Level.Boundaries()) > 0 {
		l.Add("level", "given", "must not be: sweep two lines with it and compare them by Gaps")
	}
}

// A Spacing is what two tracks need between their centrelines.
type Spacing struct {
	Centres      measure.Length    // needed, centre to centre
	InnerRadius  measure.Length    // to the inner track's centreline; 0 is straight
	OuterRadius  measure.Length    // to the outer track's
	InnerReach   measure.Length    // of the inner track's stock outwards, allowances in it
	OuterReach   measure.Length    // of the outer track's stock inwards
	InnerVehicle string            // which gives it
	OuterVehicle string            //
	Heights      clearance.Heights // at which the two are nearest
}

// tolerance is by how much a reach on a steady curve may be off.
const tolerance = 1e-4 * measure.Millimetre

// A steady is what a list of stock needs on track of one curvature, swept at a
// single place.
func steady(ctx context.Context, stock []clearance.Vehicle, a clearance.Allowances, k float64) (*clearance.Envelope, error) {
	long := 100.0
	for _, v := range stock {
		l := 100.0
		for _, b := range v.Bodies {
			for _, band := range b.Bands {
				lo, hi := band.Outline.Extent()
				l += 2 * float64(hi-lo)
			}
		}
		for _, c := range v.Carriers {
			l += 2 * float64(c.Wheelbase)
		}
		long = max(long, l)
	}
	var el curve.Element
	var err error
	if k == 0 {
		el, err = curve.NewStraight(measure.Length(6 * long))
	} else {
		el, err = curve.NewArcOfLength(measure.Length(6*long), measure.Curvature(k))
	}
	if err != nil {
		return nil, err
	}
	line, err := curve.New(curve.Pose{}, el)
	if err != nil {
		return nil, err
	}
	at := line.Length() / 2
	return clearance.Sweep(ctx, line, stock, clearance.Settings{Tolerance: tolerance, From: at, To: at + 1, Allowances: a})
}

// needs returns the spacing where the inner stock reaches outwards as on
// curvature ki, the outer inwards as on ko; curves to the left positive.
func (s Stocks) needs(ctx context.Context, ki, ko float64) (Spacing, error) {
	inner, err := steady(ctx, s.Inner, s.Allowances, ki)
	if err != nil {
		return Spacing{}, err
	}
	outer, err := steady(ctx, s.outer(), s.Allowances, ko)
	if err != nil {
		return Spacing{}, err
	}
	in, err := inner.Sections(inner.Settings().From)
	if err != nil {
		return Spacing{}, err
	}
	out, err := outer.Sections(outer.Settings().From)
	if err != nil {
		return Spacing{}, err
	}
	// Flanks of convex sections: what two of them need together is most at the
	// height of a corner.
	var heights []measure.Length
	for _, q := range slices.Concat(in, out) {
		for _, p := range q.Corners {
			heights = append(heights, p.Height)
		}
	}
	slices.Sort(heights)
	best := Spacing{Centres: measure.Length(math.Inf(-1))}
	for _, z := range slices.Compact(heights) {
		i, ri := widestAt(in, z, curve.Right)
		o, ro := widestAt(out, z, curve.Left)
		if i < 0 || o < 0 {
			continue // only one of them is at this height
		}
		if c := ri + ro + s.Margin; c > best.Centres {
			best = Spacing{Centres: c, InnerReach: ri, OuterReach: ro, InnerVehicle: in[i].Vehicle, OuterVehicle: out[o].Vehicle, Heights: at(z)}
		}
	}
	if math.IsInf(float64(best.Centres), -1) {
		l := fault.In("passing")
		l.NoAnswer("heights", "of the two stocks", "have nothing in common, so that neither limits the other sideways")
		return Spacing{}, l.Err()
	}
	return best, nil
}

// at is the range of heights that is one height: both zero would be all.
func at(z measure.Length) clearance.Heights {
	if z == 0 {
		const hair = 1e-9
		return clearance.Heights{From: -hair, To: hair}
	}
	return clearance.Heights{From: z, To: z}
}

// widestAt returns which of the sections comes out most on a side at a height,
// and how far; -1 where none is there.
func widestAt(all []clearance.Section, z measure.Length, side curve.Hand) (which int, reach measure.Length) {
	which = -1
	for i, s := range all {
		for j, p := range s.Corners {
			q := s.Corners[(j+1)%len(s.Corners)]
			if min(p.Height, q.Height) > z || max(p.Height, q.Height) < z {
				continue
			}
			y := max(p.Offset*measure.Length(side), q.Offset*measure.Length(side))
			if p.Height != q.Height {
				y = (p.Offset + (q.Offset-p.Offset)*(z-p.Height)/(q.Height-p.Height)) * measure.Length(side)
			}
			if which < 0 || y > reach {
				which, reach = i, y
			}
		}
	}
	return which, reach
}

// Straight returns the spacing that two straight tracks need.
func (s Stocks) Straight(ctx context.Context) (Spacing, error) {
	l := fault.In("passing")
	s.check(l)
	if err := l.Err(); err != nil {
		return Spacing{}, err
	}
	return s.needs(ctx, 0, 0)
}

// OnArcs returns the spacing that two tracks need where they lie abreast and
// run in the same direction, one on a curve of the inner radius, the other on
// one of the outer radius, both of one hand; each is long enough to hold the
// whole vehicle. It is the sum of the one's reach outwards, the other's inwards
// and the margin. A radius of 0 is straight track.
//
// The two are nearest there when the outer radius is not less than the inner
// one and the spacing. Where it is less the tracks draw together to either
// side: compare the real lines by Gaps.
func (s Stocks) OnArcs(ctx context.Context, innerRadius, outerRadius measure.Length) (Spacing, error) {
	l := fault.In("passing")
	s.check(l)
	fault.Amount(l, "inner radius", innerRadius)
	fault.Amount(l, "outer radius", outerRadius)
	if err := l.Err(); err != nil {
		return Spacing{}, err
	}
	x, err := s.needs(ctx, curvature(innerRadius), curvature(outerRadius))
	x.InnerRadius, x.OuterRadius = innerRadius, outerRadius
	return x, err
}

func curvature(radius measure.Length) float64 {
	if radius == 0 {
		return 0
	}
	return 1 / float64(radius)
}

// Concentric returns the spacing that two tracks need on concentric curves, the
// inner of the given radius: the least at which the margin is left. The outer
// track's radius is the inner one and the spacing.
func (s Stocks) Concentric(ctx context.Context, innerRadius measure.Length) (Spacing, error) {
	l := fault.In("passing")
	s.check(l)
	fault.Size(l, "inner radius", innerRadius)
	if err := l.Err(); err != nil {
		return Spacing{}, err
	}
	r := float64(innerRadius)
	at, err := s.needs(ctx, 1/r, 0)
	if err != nil {
		return Spacing{}, err
	}
	// The spacing lies between what an outer track as sharp as the inner one
	// would need and what a straight one would.
	lo := float64(at.Centres)
	hi := lo
	if most, err := s.needs(ctx, 1/r, 1/r); err == nil {
		hi = float64(most.Centres)
	} else {
		// The outer stock cannot stand on the inner radius; the outer track's
		// own is larger.
		most, err := s.needs(ctx, 1/r, 1/(r+lo))
		if err != nil {
			return Spacing{}, err
		}
		hi = float64(most.Centres)
	}
	if hi < lo {
		lo, hi = hi, lo
	}
	var stop error
	miss := func(d float64) float64 {
		var err error
		if at, err = s.needs(ctx, 1/r, 1/(r+d)); err != nil {
			stop = err
			return 0
		}
		return d - float64(at.Centres)
	}
	d, ok := solve.Brent(miss, lo-0.01, hi+0.01, 1e-7)
	if stop != nil {
		return Spacing{}, stop
	}
	if !ok {
		d = hi
	}
	if at, err = s.needs(ctx, 1/r, 1/(r+d)); err != nil {
		return Spacing{}, err
	}
	at.InnerRadius, at.OuterRadius = innerRadius, innerRadius+at.Centres
	return at, nil
}

// MaxRadii is the most rows of a spacing table.
const MaxRadii = 1000

// Table returns the spacing on concentric curves for each inner radius.
func (s Stocks) Table(ctx context.Context, innerRadii ...measure.Length) ([]Spacing, error) {
	l := fault.In("passing")
	if len(innerRadii) > MaxRadii {
		l.Over("radii", len(innerRadii), fmt.Sprintf("must be at most %d", MaxRadii))
		return nil, l.Err()
	}
	var out []Spacing
	for i, r := range innerRadii {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		x, err := s.Concentric(ctx, r)
		if err != nil {
			l.JoinAs(fmt.Sprintf("radius %d", i+1), err)
			continue
		}
		out = append(out, x)
	}
	if err := l.Err(); err != nil {
		return nil, err
	}
	return out, nil
}
