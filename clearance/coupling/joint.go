package coupling

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Joint is a coupling between two cars as they stand on the line, pulled
// taut: the two couplers in line between their hinges.
//
// Across is square to the mean of the two bodies' directions, to the left
// positive, and along is with it.
type Joint struct {
	Chainage                  measure.Length // of midway between the two hinges
	RearAxle                  measure.Length // of the car ahead: chainage of the rear axle of its rear carrier
	BehindAxle                measure.Length // the same of the car behind
	Offset                    measure.Length // of the rear car's coupler face from the other's, across, both couplers held straight
	Angle                     measure.Angle  // of the body ahead against the body behind
	SwingBehind               measure.Angle  // of the rear car's coupler, against what carries it
	SwingAhead                measure.Angle  // of the other car's
	FromLineBehind            measure.Length // of the rear car's coupler face from the track centreline, held straight
	FromLineAhead             measure.Length // of the other car's
	Overlap                   measure.Length // that remains of the buffer heads, across, on the side where it is less; below zero they have parted by that
	BufferGap                 measure.Length // between the buffer faces, along, on the side where it is less; below zero they must give by that
	Buffered                  bool           // there are buffers, and the last two say something
	PlaceBehind, PlaceOfAhead r2.Vec         // of the two hinges, in plan

	faces [2]r2.Vec // behind and ahead, held straight
}

// Locked reports whether the buffer heads have parted sideways, so that pushed
// together they slip past and catch behind one another.
func (j Joint) Locked() bool { return j.Buffered && j.Overlap <= 0 }

// At returns the coupling of a pair with the rear axle of the car ahead at a
// chainage. The car behind is found where the two hinges are as far apart as
// the two couplers are long; couplers of no length meet face to face, along.
//
// The error wraps measure.ErrNoAnswer where a car cannot stand, and where the
// hinges stand farther apart sideways than the couplers are long.
func At(line *curve.Alignment, p Pair, rearAxle measure.Length) (Joint, error) {
	l := fault.In("coupling")
	if line == nil {
		l.Add("line", "none", "must be given")
	}
	p.check(l)
	fault.Finite(l, "chainage of the rear axle", rearAxle)
	if err := l.Err(); err != nil {
		return Joint{}, err
	}
	h, err := newHitch(line, p)
	if err != nil {
		return Joint{}, err
	}
	return h.at(rearAxle)
}

// A hitch is a pair on a line.
type hitch struct {
	line          *curve.Alignment
	p             Pair
	behind, ahead *clearance.Stander
	link          float64 // between the hinges
	lag           float64 // from the one car's rear axle to the other's, at the last joint; NaN before
}

func newHitch(line *curve.Alignment, p Pair) (*hitch, error) {
	h := &hitch{line: line, p: p, link: float64(p.Behind.Front.Length + p.Ahead.Rear.Length), lag: math.NaN()}
	var err1, err2 error
	h.behind, err1 = clearance.NewStander(line, bare(p.Behind.Vehicle))
	h.ahead, err2 = clearance.NewStander(line, bare(p.Ahead.Vehicle))
	return h, errors.Join(err1, err2)
}

// guess returns about how far the rear car's rear axle is behind the other's.
func (h *hitch) guess() float64 {
	b, a := h.p.Behind, h.p.Ahead
	d := h.link
	first, last := a.Vehicle.Bodies[0], b.Vehicle.Bodies[len(b.Vehicle.Bodies)-1]
	rear, front := a.Vehicle.Carriers[0], b.Vehicle.Carriers[len(b.Vehicle.Carriers)-1]
	switch {
	case a.Rear.OnCarrier:
		d += -float64(a.Rear.Hinge) - float64(rear.Wheelbase)/2
	default:
		d += -float64(a.Rear.Hinge) - float64(first.Pivots)/2 - float64(rear.Wheelbase)/2 - float64(rear.Pin)
	}
	switch {
	case b.Front.OnCarrier:
		d += float64(b.Front.Hinge)
	default:
		d += float64(b.Front.Hinge) - float64(last.Pivots)/2 + float64(front.Pin)
	}
	for i, body := range b.Vehicle.Bodies {
		d += float64(body.Pivots)
		if i > 0 {
			d += float64(b.Vehicle.Carriers[i].Apart)
		}
	}
	return d + float64(b.Vehicle.Carriers[0].Wheelbase)/2 + float64(b.Vehicle.Carriers[0].Pin)
}

func (h *hitch) at(rearAxle measure.Length) (Joint, error) {
	j, err := h.coupled(rearAxle)
	if err != nil {
		return Joint{}, err
	}
	return h.placed(j), nil
}

// coupled is at without the places on the line, which placed adds.
func (h *hitch) coupled(rearAxle measure.Length) (Joint, error) {
	ahead, err := h.ahead.Stand(rearAxle)
	if err != nil {
		return Joint{}, err
	}
	a := h.p.Ahead.Rear.tip(ahead, false)
	// The first place, coming from behind, where the link is as long as it is.
	far := func(q float64) (float64, tip, error) {
		st, err := h.behind.Stand(measure.Length(q))
		if err != nil {
			return 0, tip{}, err
		}
		b := h.p.Behind.Front.tip(st, true)
		d := r2.Sub(a.hinge, b.hinge)
		if h.link == 0 {
			return r2.Dot(d, mean(a, b)), b, nil
		}
		return r2.Norm(d) - h.link, b, nil
	}
	q := float64(rearAxle) - h.lag
	if math.IsNaN(q) {
		q = float64(rearAxle) - h.guess()
	}
	f, b, err := far(q)
	if err != nil {
		return Joint{}, err
	}
	rate := -1.0
	for range 60 {
		if math.Abs(f) < 1e-11 {
			break
		}
		step := -f / rate
		if limit := 50 + h.link; math.Abs(step) > limit {
			step = math.Copysign(limit, step)
		}
		next := q + step
		g, tip, err := far(next)
		if err != nil {
			return Joint{}, err
		}
		if r := (g - f) / step; r < -0.05 && r > -5 && math.Abs(step) > 1e-9 {
			rate = r
		}
		q, f, b = next, g, tip
	}
	folded := r2.Dot(a.body, b.body) <= 0 || q >= float64(rearAxle)
	if folded || !(math.Abs(f) < 1e-7) || h.link > 0 && r2.Dot(r2.Sub(a.hinge, b.hinge), mean(a, b)) <= 0 {
		e := fault.In("coupling")
		if folded {
			e.NoAnswer("cars", "coupled", fmt.Sprintf("would stand folded together, at more than a right angle, near chainage %v: take an easier curve, or longer couplers", rearAxle))
			return Joint{}, e.Err()
		}
		apart := r2.Dot(r2.Sub(a.hinge, b.hinge), left(mean(a, b)))
		e.NoAnswer("couplers", fmt.Sprintf("of %v together", measure.Length(h.link)), fmt.Sprintf("do not reach from hinge to hinge near chainage %v, where these stand about %v apart sideways: take longer couplers, or an easier curve", rearAxle, measure.Length(math.Abs(apart))))
		return Joint{}, e.Err()
	}
	h.lag = float64(rearAxle) - q
	return h.joint(rearAxle, measure.Length(q), a, b), nil
}

func (h *hitch) joint(rearAxle, behindAxle measure.Length, a, b tip) Joint {
	t := mean(a, b)
	n := left(t)
	j := Joint{
		RearAxle: rearAxle, BehindAxle: behindAxle, PlaceBehind: b.hinge, PlaceOfAhead: a.hinge,
		Offset: measure.Length(r2.Dot(r2.Sub(b.face, a.face), n)),
		Angle:  between(b.body, a.body),
		faces:  [2]r2.Vec{b.face, a.face},
	}
	if h.link > 0 {
		d := r2.Sub(a.hinge, b.hinge)
		j.SwingBehind, j.SwingAhead = between(b.dir, d), between(a.dir, d)
	}
	if h.p.buffered() {
		j.Buffered = true
		wb, wa := float64(h.p.Behind.Front.Buffers.Width), float64(h.p.Ahead.Rear.Buffers.Width)
		over, gap := math.Inf(1), math.Inf(1)
		for i := range b.heads {
			d := r2.Sub(a.heads[i], b.heads[i])
			over = min(over, wa, wb, (wa+wb)/2-math.Abs(r2.Dot(d, n)))
			gap = min(gap, r2.Dot(d, t))
		}
		j.Overlap, j.BufferGap = measure.Length(over), measure.Length(gap)
	}
	return j
}

// placed returns the joint with where it stands on the line.
func (h *hitch) placed(j Joint) Joint {
	near := j.RearAxle + h.p.Ahead.Rear.Hinge // some chainage near the joint
	foot := h.line.NearestFrom(r2.Scale(0.5, r2.Add(j.PlaceOfAhead, j.PlaceBehind)), near)
	j.Chainage = foot.Chainage
	j.FromLineBehind = h.line.NearestFrom(j.faces[0], foot.Chainage).Offset
	j.FromLineAhead = h.line.NearestFrom(j.faces[1], foot.Chainage).Offset
	return j
}

// mean returns the direction midway between the two bodies'.
func mean(a, b tip) r2.Vec {
	t := r2.Add(a.body, b.body)
	if r2.Norm2(t) < 1e-12 {
		return a.body
	}
	return r2.Unit(t)
}

func left(t r2.Vec) r2.Vec { return r2.Vec{X: -t.Y, Y: t.X} }

// between returns the angle from a to b, in (-π, π].
func between(a, b r2.Vec) measure.Angle {
	return measure.Angle(math.Atan2(r2.Cross(a, b), r2.Dot(a, b)))
}
