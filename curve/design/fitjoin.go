package design

import (
	"context"
	"fmt"
	"math"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// Join finds the member of the family that joins the poses and keeps clear of
// the obstacles with the largest smaller radius and, of those, the one whose
// other radius is largest. The intervals are of the smaller radius: a radius is
// in one when with it, and some radius as large or larger at the other arc,
// there is a line that fits. Every combination of hands is tried, with either
// arc as the sharper.
//
// Obstacles may bind one arc alone, so both radii are searched: two different
// ones may fit where two equal ones do not. Where none fits, some ratios of the
// radii are looked at for the one that asks for the least move.
func (f Fit) Join(ctx context.Context, j Join) (Fitted, error) {
	l := fault.In("design")
	f.check(l)
	s, ok := j.search(l)
	if !ok || !l.OK() {
		return Fitted{}, l.Err()
	}
	g := garden{Fit: f, joiner: s, lo: joinSmallest * 10, hi: joinLargest, top: "nothing", bottom: "the smallest radius looked at"}
	if m := float64(f.MaxRadius) / s.scale; m > 0 && m < g.hi {
		g.hi, g.top = m, "the largest radius asked for"
	}
	g.lo = min(g.lo, g.hi/100)
	if f.MinRadius > 0 {
		g.lo = float64(f.MinRadius) / s.scale
	}
	if g.lo > g.hi {
		l.Add("smallest radius", f.MinRadius, fmt.Sprintf("must be at most %.6g mm", g.hi*s.scale))
		return Fitted{}, l.Err()
	}
	left := f.work()
	g.left = &left
	var out Fitted
	var best verdict
	for _, h := range everyHand {
		if err := g.intervals(ctx, h, &out, &best); err != nil {
			return Fitted{}, err
		}
	}
	if len(out.Intervals) > 0 {
		line, err := s.build(best.m)
		if err != nil {
			return Fitted{}, err
		}
		out.Line, out.Arcs = line.Line, line.Arcs[:]
		return f.sorted(out)
	}
	if !g.exists {
		l.NoAnswer("line", nil, "no member of the family joins the poses at any radius looked at, whatever the obstacles; ask the join itself for the reason")
		return Fitted{}, l.Err()
	}
	return Fitted{}, f.noFit(g.samples(ctx))
}

// A garden is the search of a family among obstacles.
type garden struct {
	Fit
	*joiner
	lo, hi      float64 // smaller radii, in parts of the distance of the poses
	top, bottom string  // what the ends are
	left        *int    // work
	exists      bool    // some line was made
	last        int     // the obstacle that barred the last box
}

// intervals adds the intervals of one pair of hands.
func (g *garden) intervals(ctx context.Context, hands [2]float64, fitted *Fitted, best *verdict) error {
	k := &seeker{joiner: g.joiner, ctx: ctx, look: g.look(ctx), tiny: 1e-3 / g.scale}
	boxes := g.boxes(g.lo, hands)
	res := float64(g.Resolution) / g.scale
	if res == 0 {
		res = 1 / g.scale
	}
	const within = 1e-9
	var open *Interval
	var last verdict // the last that fits
	lastOut := math.NaN()
	limit := func(in verdict) Limit {
		return Limit{measure.Length(in.m.smallest() * g.scale), g.binds(in)}
	}
	begin := func(in verdict, at Limit) {
		open = &Interval{From: at, Hands: [2]curve.Hand{curve.Hand(hands[0]), curve.Hand(hands[1])}}
		last = in
	}
	end := func(in verdict, at Limit) error {
		open.To = at
		fitted.Intervals = append(fitted.Intervals, *open)
		open = nil
		if at.Radius <= fitted.Radius {
			return nil
		}
		fitted.Radius = at.Radius
		var err error
		*best, err = k.gentlest(in, boxes)
		return err
	}
	err := k.cells(g.lo, g.hi, boxes, res, func(q0, q1 float64, v verdict) error {
		out := lastOut
		lastOut = math.NaN()
		switch {
		case v.fits && open == nil:
			if math.IsNaN(out) { // the first of all
				if low, ok, err := k.exists(g.lo, boxes); err != nil {
					return err
				} else if ok {
					begin(v, Limit{measure.Length(low.m.smallest() * g.scale), g.bottom})
					return nil
				}
				out = g.lo
			}
			in, err := k.edge(v, max(out, q0-res/2), boxes, within)
			begin(v, limit(in))
			return err
		case v.fits:
			last = v
		case open != nil:
			in, err := k.edge(last, min((q0+q1)/2, q0+res/2), boxes, within)
			if err != nil {
				return err
			}
			lastOut = (q0 + q1) / 2
			return end(in, limit(in))
		default:
			lastOut = (q0 + q1) / 2
		}
		return nil
	})
	if err != nil || open == nil {
		return err
	}
	high, ok, err := k.exists(g.hi, boxes)
	if err != nil {
		return err
	}
	if ok {
		return end(high, Limit{measure.Length(g.hi * g.scale), g.top})
	}
	if high, err = k.edge(last, g.hi, boxes, within); err != nil {
		return err
	}
	return end(high, limit(high))
}

// cells gives, in rising order, ranges of the smaller radius with a verdict
// that fits or does not.
func (s *seeker) cells(q0, q1 float64, boxes []patch, res float64, emit func(q0, q1 float64, v verdict) error) error {
	boxes, v, whole, err := s.reduce(q0, q1, boxes, false)
	if err != nil {
		return err
	}
	if whole || len(boxes) == 0 || q1-q0 <= max(res, 1e-9*q1) {
		return emit(q0, q1, v)
	}
	mid := (q0 + q1) / 2
	if q1 > 2*q0 {
		mid = math.Sqrt(q0 * q1)
	}
	if err := s.cells(q0, mid, boxes, res, emit); err != nil {
		return err
	}
	return s.cells(mid, q1, boxes, res, emit)
}

// look makes the line of a member and measures it among the obstacles, first
// of all the one that barred the last box.
func (g *garden) look(ctx context.Context) func(member, way) (*trial, bool, error) {
	return func(m member, w way) (*trial, bool, error) {
		if err := g.spend(ctx, g.left); err != nil {
			return nil, false, err
		}
		got, err := g.build(m)
		if err != nil {
			return nil, false, nil // too small or too large to be made
		}
		a, err := got.Alignment()
		if err != nil {
			return nil, false, nil
		}
		g.exists = true
		n := len(g.Obstacles)
		t := &trial{clear: make([]float64, n), at: make([]clearAt, n)}
		for k := range n {
			i := (g.last + k) % n
			o := g.Obstacles[i]
			t.clear[i], t.at[i] = o.clear(a)
			if w.bars(o, t.clear[i], t.at[i], float64(a.Length())) {
				g.last = i
				return nil, true, nil
			}
		}
		t.place(a, g.Obstacles)
		return t, false, nil
	}
}

// binds tells what is tightest about a member at the end of an interval.
func (g *garden) binds(in verdict) string {
	b, least := in.m.slack.tightest()
	by := b.String()
	for i, c := range in.t.clear {
		if c/g.scale < least {
			by, least = g.Obstacles[i].label(i), c/g.scale
		}
	}
	return by
}

// samples returns families of one radius to look through where nothing fits:
// each pair of hands with some ratios of the radii.
func (g *garden) samples(ctx context.Context) []*fitter {
	var all []*fitter
	plain := &seeker{joiner: g.joiner, ctx: ctx, tiny: 1e-3 / g.scale}
	add := func(b patch, at func(q float64) (member, bool)) {
		f := &fitter{Fit: g.Fit, ctx: ctx, lo: g.lo * g.scale, hi: g.hi * g.scale, left: g.left}
		f.line = func(r float64) (Line, string, bool) {
			m, ok := at(r / g.scale)
			if !ok {
				return Line{}, "", false
			}
			got, err := g.build(m)
			return got.Line, "", err == nil
		}
		all = append(all, f)
	}
	for _, b := range g.boxes(g.lo, everyHand...) {
		if g.Family == TwoArcs {
			add(b, func(q float64) (member, bool) {
				v, ok, err := plain.exists(q, []patch{b})
				return v.m, ok && err == nil
			})
			continue
		}
		for _, ratio := range [4]float64{1, 1.5, 2.5, 5} {
			if ratio == 1 && !b.firstSharp {
				continue
			}
			add(b, func(q float64) (member, bool) {
				m := g.member(b, q, ratio*q, g.halfOf(q), g.halfOf(ratio*q))
				return m, m.left() >= 0
			})
		}
	}
	return all
}
