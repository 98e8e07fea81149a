package clearance

import (
	"context"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// An EdgePoint is a point of the outer edge of the space that the stock needs.
type EdgePoint struct {
	Chainage measure.Length
	Reach    measure.Length // square to the line, with all allowances in it
	Place    r2.Vec         // in plan
	None     bool           // nothing of the stock is between the heights here; Reach and Place say nothing
}

// Edges returns the outer edge on one side of the space that the stock needs
// between each pair of heights, all allowances in it, a point at every kept
// station: what something else between those heights is to keep clear of.
// Heights are vertical, above the head of the rail that stays level. A straight
// line from one point to the next departs from the edge by no more than the
// sweep's tolerance.
func (e *Envelope) Edges(ctx context.Context, side curve.Hand, between []Heights) ([][]EdgePoint, error) {
	l := fault.In("clearance")
	for _, h := range between {
		h.check(l)
	}
	if side != curve.Left && side != curve.Right {
		l.Add("side", side, "must be left or right")
	}
	if n := len(between) * len(e.stations); n > MaxEdgePoints {
		l.Over("edges", fmt.Sprintf("of %d points", n), fmt.Sprintf("must be at most %d: take fewer heights, or a coarser tolerance", MaxEdgePoints))
	}
	if err := l.Err(); err != nil {
		return nil, err
	}
	out := make([][]EdgePoint, len(between))
	for i := range out {
		out[i] = make([]EdgePoint, len(e.stations))
	}
	n := make([]float64, len(between))
	for i := range e.stations {
		if i%64 == 0 {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
		}
		st := &e.stations[i]
		for j := range n {
			n[j] = math.Inf(-1)
		}
		for _, s := range e.sheets {
			k := e.cut(s, st.c, min(i, len(e.stations)-2))
			for j, h := range between {
				n[j] = max(n[j], k.outermost(h, side))
			}
		}
		for j := range n {
			p := EdgePoint{Chainage: e.chainage(st.c), Reach: measure.Length(n[j]), None: math.IsInf(n[j], -1)}
			if !p.None {
				d := n[j] * float64(side)
				p.Place = r2.Vec{X: st.p.X - d*st.t.Y, Y: st.p.Y + d*st.t.X}
			}
			out[j][i] = p
		}
	}
	return out, nil
}

// outermost returns the reach of the section to a side between two heights, -∞
// when it is not there.
func (k *cut) outermost(h Heights, side curve.Hand) float64 {
	y0, y1, ok := k.rangeY(h.limits())
	switch {
	case !ok:
		return math.Inf(-1)
	case side == curve.Right:
		return -y0
	}
	return y1
}

// Needs is At with all allowances: Reach counts them too, and the heights are
// vertical, above the head of the rail that stays level.
func (e *Envelope) Needs(chainage measure.Length, side curve.Hand, h Heights) (Reach, error) {
	l := fault.In("clearance")
	h.check(l)
	if side != curve.Left && side != curve.Right {
		l.Add("side", side, "must be left or right")
	}
	c, ok := e.unroll(chainage)
	if !ok {
		l.Add("chainage", chainage, fmt.Sprintf("must be in the range swept, from %v to %v", e.set.From, e.set.To))
	}
	if err := l.Err(); err != nil {
		return Reach{}, err
	}
	best, at := math.Inf(-1), hit{}
	i := e.find(c)
	lo, hi := h.limits()
	for _, s := range e.sheets {
		k := e.cut(s, c, i)
		if n := k.outermost(h, side); n > best {
			_, t := k.flank(side, lo, hi)
			best, at = n, e.by(&k, side)[int(math.Round(t))]
		}
	}
	if at.sheet == nil {
		l.NoAnswer("heights", fmt.Sprintf("%v to %v", h.From, h.To), "hold no part of the stock: take a range that meets its bands")
		return Reach{}, l.Err()
	}
	r := e.reach(at)
	r.Chainage, r.Side, r.Reach = chainage, side, measure.Length(best)
	return r, nil
}
