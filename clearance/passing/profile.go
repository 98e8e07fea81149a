package passing

import (
	"context"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
	"example.org/fourfoot/internal/solve"
)

// A Profile is the gap between the spaces that two tracks' stocks need, at
// every place along the first track. It is immutable and safe for concurrent
// use.
type Profile struct {
	a, b   *clearance.Envelope
	side   curve.Hand // of a's line that b's stock is on
	other  curve.Hand // of b's line that a's stock is on
	layers []layer
	gap    []float64 // at each of a's stations, the least over the layers
	layer  []int     // which gives it, -1 where a's stock has nothing that b's could meet
	c      []float64 // a's chainages, counted on over the start of a circuit
}

// A layer is the two brinks that face each other at some heights.
type layer struct {
	h    clearance.Heights
	a, b *brink
	gap  []float64 // at each point of a's edge
	foot []spot
}

// A Place is the gap at one place along the first track: straight across from
// the outer edge of the first stock's space to that of the second's.
type Place struct {
	Chainage measure.Length    // on the first track
	Other    measure.Length    // on the second track, of the nearest place of its stock's edge
	Gap      measure.Length    // negative: by so much the two spaces overlap
	From, To r2.Vec            // in plan, on the first and the second edge
	Heights  clearance.Heights // at which the gap is this small
	Reach    clearance.Reach   // of the first stock, with all allowances, at Chainage
	Facing   clearance.Reach   // of the second stock, with all allowances, at Other
	AtEnd    bool              // the nearest place is at an end of the second track's range
}

// Gaps compares the spaces that the stocks of two tracks need, at one level, at
// every kept station of the first. Each stock may stand anywhere on its own
// track: what counts is the least gap over all positions of both. Parts of
// which one passes wholly over the other are not compared; heights that only
// touch are.
//
// A gap is straight across between the two edges that face each other. side
// says on which side of the first track the second one lies; 0 finds it from
// where the two run beside each other. It is the same all along, so that the
// gap of two routes that part goes on growing from far below zero where they
// are one, through zero, to where they have parted. Tracks that cross change
// sides: compare them in parts.
//
// The gap is within the sum of the two sweeps' tolerances. Sections that lean
// are compared in at most 200 slabs of height, so that a gap may also be told
// smaller by as much as they lean within one, a 200th of the stock's height
// times the leans; with springs alone, by what they lean in twice the lift of a
// corner, and outlines whose heights part by less than the lift are compared.
// The error wraps
// measure.ErrInput for envelopes that are missing and a side that is neither,
// measure.ErrNoAnswer where the two tracks never run beside each other or their
// stocks have no heights in common.
func Gaps(ctx context.Context, first, second *clearance.Envelope, side curve.Hand) (*Profile, error) {
	l := fault.In("passing")
	if first == nil {
		l.Add("first track", "none", "must be given")
	}
	if second == nil {
		l.Add("second track", "none", "must be given")
	}
	if side != 0 && side != curve.Left && side != curve.Right {
		l.Add("side", side, "must be left, right or 0")
	}
	if err := l.Err(); err != nil {
		return nil, err
	}
	p := &Profile{a: first, b: second, side: side}
	heights, err := slabs(ctx, first, second)
	if err != nil {
		return nil, err
	}
	if len(heights) == 0 {
		l.NoAnswer("heights", "of the two stocks", "have nothing in common, so that neither limits the other sideways: audit the one as a structure over the other")
		return nil, l.Err()
	}
	var ea, eb [2][][]clearance.EdgePoint
	for i, s := range [2]curve.Hand{curve.Left, curve.Right} {
		if ea[i], err = first.Edges(ctx, s, heights); err != nil {
			return nil, err
		}
		if eb[i], err = second.Edges(ctx, s, heights); err != nil {
			return nil, err
		}
	}
	var near measure.Length
	for i := range heights {
		near = max(near, widest([2][]clearance.EdgePoint{ea[0][i], ea[1][i]})+widest([2][]clearance.EdgePoint{eb[0][i], eb[1][i]}))
	}
	var same, ok bool
	if p.side, same, ok = facing(first, second, side, near); !ok {
		l.NoAnswer("tracks", "given", "must run beside each other somewhere, the second on the side asked for: sweep longer ranges, or take the other side")
		return nil, l.Err()
	}
	if p.other = p.side; same {
		p.other = p.side.Opposite()
	}
	sa, sb := index(p.side), index(p.other)
	for i, h := range heights {
		x := layer{h: h, a: newBrink(first, p.side, ea[sa][i], ea[1-sa][i]), b: newBrink(second, p.other, eb[sb][i], eb[1-sb][i])}
		if x.a != nil && x.b != nil {
			p.layers = append(p.layers, x)
		}
	}
	if len(p.layers) == 0 {
		l.NoAnswer("heights", "of the two stocks", "have nothing in common, so that neither limits the other sideways: audit the one as a structure over the other")
		return nil, l.Err()
	}
	return p, p.measure(ctx)
}

// swapped returns the profile along the second track.
func (p *Profile) swapped(ctx context.Context) (*Profile, error) {
	q := &Profile{a: p.b, b: p.a, side: p.other, other: p.side}
	for _, x := range p.layers {
		q.layers = append(q.layers, layer{h: x.h, a: x.b, b: x.a})
	}
	return q, q.measure(ctx)
}

func index(side curve.Hand) int {
	if side == curve.Left {
		return 0
	}
	return 1
}

// measure finds every station's gap in every layer and the least of them.
func (p *Profile) measure(ctx context.Context) error {
	lap, last := 0.0, math.Inf(-1)
	length := float64(p.a.Line().Length())
	for _, c := range p.a.Stations() {
		x := float64(c) + lap
		if p.a.Line().Closed() && x < last-length/2 {
			lap += length
			x += length
		}
		last = x
		p.c = append(p.c, x)
	}
	p.gap, p.layer = make([]float64, len(p.c)), make([]int, len(p.c))
	for i := range p.gap {
		p.gap[i], p.layer[i] = math.Inf(1), -1
	}
	for k := range p.layers {
		x := &p.layers[k]
		x.gap, x.foot = make([]float64, len(x.a.p)), make([]spot, len(x.a.p))
		guess, at := 0, 0
		for j := x.a.edge[0]; j <= x.a.edge[1]; j++ {
			if j%256 == 0 {
				if err := ctx.Err(); err != nil {
					return err
				}
			}
			x.gap[j], x.foot[j] = x.b.gap(x.a.p[j], guess)
			guess = x.foot[j].i
			// The station that this point is at: some have none in this layer.
			for p.c[at] != x.a.c[j] {
				at++
			}
			if x.gap[j] < p.gap[at] {
				p.gap[at], p.layer[at] = x.gap[j], k
			}
			at++
		}
	}
	return nil
}

// Side returns the side of the first track that the second one lies on.
func (p *Profile) Side() curve.Hand { return p.side }

// Gaps yields the chainage and the gap at every kept station of the first
// track, in order; on a circuit swept over its start, the chainages begin
// again there. Where the first stock has nothing at the second's heights the
// gap is +Inf.
func (p *Profile) Gaps() func(yield func(chainage, gap measure.Length) bool) {
	return func(yield func(chainage, gap measure.Length) bool) {
		for i, c := range p.c {
			if !yield(p.roll(c), measure.Length(p.gap[i])) {
				return
			}
		}
	}
}

func (p *Profile) roll(c float64) measure.Length {
	if l := float64(p.a.Line().Length()); p.a.Line().Closed() && c >= l {
		c -= l
	}
	return measure.Length(c)
}

func (p *Profile) unroll(c measure.Length) (float64, bool) {
	x := float64(c)
	from, to := p.c[0], p.c[len(p.c)-1]
	if p.a.Line().Closed() && x < from {
		x += float64(p.a.Line().Length())
	}
	const slack = 1e-9
	if !(x >= from-slack && x <= to+slack) {
		return 0, false
	}
	return max(from, min(to, x)), true
}

// gapAt returns the least gap at the unrolled chainage c, with the layer and
// the two places that give it.
func (p *Profile) gapAt(c float64) (gap float64, x *layer, from, to spot) {
	gap = math.Inf(1)
	for k := range p.layers {
		l := &p.layers[k]
		if c < l.a.c[l.a.edge[0]] || c > l.a.c[l.a.edge[1]] {
			continue
		}
		s := l.a.spot(c)
		if g, foot := l.b.gap(l.a.at(s), l.foot[s.i+int(math.Round(s.t))].i); g < gap {
			gap, x, from, to = g, l, s, foot
		}
	}
	return gap, x, from, to
}

// At returns the gap at a chainage of the first track, and what governs it on
// both sides.
func (p *Profile) At(chainage measure.Length) (Place, error) {
	l := fault.In("passing")
	c, ok := p.unroll(chainage)
	if !ok {
		l.Add("chainage", chainage, fmt.Sprintf("must be in the range swept, from %v to %v", measure.Length(p.c[0]), measure.Length(p.c[len(p.c)-1])))
		return Place{}, l.Err()
	}
	return p.place(c)
}

func (p *Profile) place(c float64) (Place, error) {
	gap, x, from, to := p.gapAt(c)
	if x == nil {
		l := fault.In("passing")
		l.NoAnswer("chainage", p.roll(c), "has nothing of the first stock at heights of the second")
		return Place{}, l.Err()
	}
	out := Place{
		Chainage: p.roll(c), Gap: measure.Length(gap), Heights: x.h, AtEnd: x.b.onEnd(to),
		From: x.a.at(from), To: x.b.at(to), Other: measure.Length(x.b.chainage(to)),
	}
	if l := p.b.Line().Length(); p.b.Line().Closed() && out.Other >= l {
		out.Other -= l
	}
	var err error
	if out.Reach, err = p.a.Needs(out.Chainage, p.side, x.h); err != nil {
		return Place{}, err
	}
	out.Facing, err = p.b.Needs(out.Other, p.other, x.h)
	return out, err
}

// Least returns the place of the least gap.
func (p *Profile) Least() (Place, error) {
	at, least := -1, math.Inf(1)
	for i, g := range p.gap {
		if g < least {
			at, least = i, g
		}
	}
	if at < 0 {
		return p.place(p.c[0])
	}
	// Between stations, about the least one.
	x, y := p.c[max(0, at-1)], p.c[min(len(p.c)-1, at+1)]
	best := p.c[at]
	solve.Golden(func(c float64) float64 {
		g, _, _, _ := p.gapAt(c)
		if g < least {
			best, least = c, g
		}
		return g
	}, x, y, 1e-8*(y-x), math.Inf(-1))
	return p.place(best)
}

// A Stretch is a part of the first track.
type Stretch struct {
	From, To     measure.Length // chainages; on a circuit To may lie below From, over the start
	AtFrom, AtTo bool           // it goes on past this end: the range swept ends, not the stretch
	from, to     float64
}

// Length returns how long the stretch is.
func (s Stretch) Length() measure.Length { return measure.Length(s.to - s.from) }

// Clear returns the stretches along the first track in which the gap is at
// least the margin, in order. On a circuit that was swept all round, one that
// runs over the start is given in one.
func (p *Profile) Clear(margin measure.Length) ([]Stretch, error) {
	return p.stretches(margin, func(g float64) bool { return g >= float64(margin) })
}

// Below returns the stretches along the first track in which the gap is less
// than the margin, in order.
func (p *Profile) Below(margin measure.Length) ([]Stretch, error) {
	return p.stretches(margin, func(g float64) bool { return g < float64(margin) })
}

func (p *Profile) stretches(margin measure.Length, in func(g float64) bool) ([]Stretch, error) {
	l := fault.In("passing")
	if !fault.NotNegative(l, "margin", margin) {
		return nil, l.Err()
	}
	m := float64(margin)
	var out []Stretch
	open := false
	last := len(p.c) - 1
	for i, g := range p.gap {
		if was := open; in(g) != was {
			c := p.c[i]
			if i > 0 {
				c = p.cross(i-1, m)
			}
			if was {
				s := &out[len(out)-1]
				s.To, s.to = p.roll(c), c
			} else {
				out = append(out, Stretch{From: p.roll(c), from: c, AtFrom: i == 0})
			}
			open = !was
		}
	}
	if open {
		s := &out[len(out)-1]
		s.To, s.to, s.AtTo = p.roll(p.c[last]), p.c[last], true
	}
	if n := len(out); n > 0 && p.layers[0].a.closed {
		switch {
		case n == 1 && out[0].AtFrom && out[0].AtTo:
			out[0].AtFrom, out[0].AtTo = false, false
		case n > 1 && out[0].AtFrom && out[n-1].AtTo:
			length := float64(p.a.Line().Length())
			out[n-1].To, out[n-1].to, out[n-1].AtTo = out[0].To, out[0].to+length, false
			out = out[1:]
		}
	}
	return out, nil
}

// cross returns where between station i and the next the gap passes m.
func (p *Profile) cross(i int, m float64) float64 {
	a, b := p.c[i], p.c[i+1]
	if a == b || math.IsInf(p.gap[i], 1) || math.IsInf(p.gap[i+1], 1) {
		return b
	}
	c, ok := solve.Brent(func(c float64) float64 {
		g, _, _, _ := p.gapAt(c)
		return g - m
	}, a, b, 1e-10)
	if !ok {
		return b
	}
	return c
}
