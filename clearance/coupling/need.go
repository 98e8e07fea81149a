package coupling

import (
	"context"
	"errors"
	"fmt"
	"math"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
	"example.org/fourfoot/internal/solve"
)

// A Situation is a piece of line without easements that a pair is to pass.
type Situation uint8

// The situations.
const (
	Curve   Situation = iota + 1 // on a curve, both cars wholly on it
	Entry                        // from straight track into a curve, and out of it again
	Reverse                      // from a curve into one of the same radius and the other hand, with nothing between
)

// String returns the situation in words.
func (s Situation) String() string {
	switch s {
	case Curve:
		return "on a curve"
	case Entry:
		return "between straight track and a curve"
	case Reverse:
		return "through a reverse curve"
	}
	return fmt.Sprintf("situation %d", uint8(s))
}

// steady builds straight or curved track, so long that both cars are wholly on
// it.
func (p Pair) steady(k float64) (curve.Element, error) {
	long := measure.Length(1.5*(p.Behind.long()+p.Ahead.long()) + 10)
	if k == 0 {
		return curve.NewStraight(long)
	}
	return curve.NewArcOfLength(long, measure.Curvature(k))
}

// reverse builds a line of steady track at both ends with what is between.
func (p Pair) reverse(k0, k1 float64, between ...curve.Element) (*curve.Alignment, error) {
	a, err := p.steady(k0)
	if err != nil {
		return nil, err
	}
	b, err := p.steady(k1)
	if err != nil {
		return nil, err
	}
	return curve.New(curve.Pose{}, append(append([]curve.Element{a}, between...), b)...)
}

// short runs a pair along a line that was built for it and returns what is left
// of a limit. Where much is left of all that there is on straight track, a rough
// look tells enough.
func (p Pair) short(ctx context.Context, line *curve.Alignment, limit Limit, all float64) (float64, error) {
	const much = 0.1
	h, err := newHitch(line, p)
	if err != nil {
		return 0, err
	}
	pivots := min(p.Behind.shortest(), p.Ahead.shortest())
	from, to := p.Ahead.long()/2, float64(line.Length())-p.Ahead.long()/2
	if all > 0 {
		f, err := h.along(ctx, from, to, max(pivots/4, (to-from)/150), rough)
		if s := f.spare(limit); err != nil || s < 0 || s > much*all {
			return s, err
		}
		h.lag = math.NaN()
	}
	f, err := h.along(ctx, from, to, pivots/6, limited)
	return f.spare(limit), err
}

// spareOn returns what is left of a limit in a situation with the curvature k.
func (p Pair) spareOn(ctx context.Context, limit Limit, at Situation, k, all float64) (float64, error) {
	k0, k1 := k, k
	var between []curve.Element
	switch at {
	case Entry:
		// Two cars unlike swing more on the one way than on the other.
		bend, err := p.steady(k)
		if err != nil {
			return 0, err
		}
		k0, k1, between = 0, 0, []curve.Element{bend}
	case Reverse:
		k1 = -k
	}
	line, err := p.reverse(k0, k1, between...)
	if err != nil {
		return 0, err
	}
	if at == Curve {
		h, err := newHitch(line, p)
		if err != nil {
			return 0, err
		}
		j, err := h.at(line.Length() / 2)
		if err != nil {
			return 0, err
		}
		return Findings{SwingBehind: j, SwingAhead: j, Overlap: j, pair: p}.spare(limit), nil
	}
	return p.short(ctx, line, limit, all)
}

func (p Pair) checkLimit(l *fault.List, limit Limit) {
	swing := p.Behind.Front.Swing > 0 || p.Ahead.Rear.Swing > 0
	switch {
	case limit > OverlapLimit:
		l.Add("limit", uint8(limit), "must be one of the limits 0 to 2")
	case limit != OverlapLimit && swing && p.Behind.Front.Length+p.Ahead.Rear.Length == 0:
		l.Add("coupler length", "0 mm at both ends", "must be above 0 mm for a swing to be limited")
	case limit == SwingLimit && !swing:
		l.Add("swing", "not limited", "must be limited at one end or both")
	case limit == OverlapLimit && !p.buffered():
		l.Add("buffers", "none", "must be given")
	case limit == AllLimits && !swing && !p.buffered():
		l.Add("limits", "none", "needs a coupler's swing, or buffers")
	}
}

// LeastRadius returns the least radius at which a pair keeps a limit in a
// situation: everything of that radius and easier keeps it. At the radius
// itself nothing of the limit is left.
//
// The error wraps measure.ErrNoAnswer where even straight track breaks the
// limit, and where no curve on which the pair can stand breaks it.
func LeastRadius(ctx context.Context, p Pair, limit Limit, at Situation) (measure.Length, error) {
	l := fault.In("coupling")
	p.check(l)
	p.checkLimit(l, limit)
	if at < Curve || at > Reverse {
		l.Add("situation", uint8(at), "must be one of the situations 1 to 3")
	}
	if err := l.Err(); err != nil {
		return 0, err
	}
	all := 0.0 // asks for a close look
	spare := func(k float64) (float64, bool, error) {
		s, err := p.spareOn(ctx, limit, at, k, all)
		if errors.Is(err, measure.ErrNoAnswer) {
			return math.Inf(-1), false, nil
		}
		return s, true, err
	}
	s, _, err := spare(0)
	if err != nil {
		return 0, err
	}
	if s < 0 {
		l.NoAnswer(limit.String(), measure.Length(s), "is broken on straight track already: take a longer coupler or wider buffer heads")
		return 0, l.Err()
	}
	// From easy to sharp until the limit breaks, then between.
	all = s
	lo, hi := 0.0, 0.0
	for k := 0.02 / (p.Ahead.long() + p.Behind.long()); ; k *= 1.5 {
		s, ok, err := spare(k)
		if err != nil {
			return 0, err
		}
		if !ok {
			// Where the pair only just stands: is the limit broken by then?
			for range 60 {
				m := (lo + k) / 2
				s, ok, err := spare(m)
				switch {
				case err != nil:
					return 0, err
				case !ok:
					k = m
				case s < 0:
					hi = m
				default:
					lo = m
				}
				if hi > 0 {
					break
				}
			}
			if hi == 0 {
				l.NoAnswer(limit.String(), at, fmt.Sprintf("is kept on every curve on which the pair can stand coupled, down to a radius of %v: that radius is the least", measure.Length(1/lo)))
				return 0, l.Err()
			}
			break
		}
		if s < 0 {
			hi = k
			break
		}
		lo = k
	}
	var stop error
	all = 0
	k, ok := solve.Brent(func(k float64) float64 {
		s, ok, err := spare(k)
		if err != nil {
			stop = err
		}
		if !ok {
			return -1e3
		}
		return s
	}, lo, hi, 1e-9*hi)
	if stop != nil {
		return 0, stop
	}
	if !ok {
		k = lo
	}
	return measure.Length(1 / k), nil
}

// A Reversal is a place where a curve of one hand goes over into one of the
// other.
type Reversal struct {
	First, Second measure.Length // the two radii
}

// StraightNeeded returns the length of straight that a pair needs between the
// two curves of a reversal to keep a limit; 0 when it needs none. Every longer
// one keeps the limit too.
//
// The error wraps measure.ErrNoAnswer where no straight is enough, because the
// curves are too sharp to be entered from a straight.
func StraightNeeded(ctx context.Context, p Pair, limit Limit, r Reversal) (measure.Length, error) {
	return p.between(ctx, limit, r, Entry, "a straight", func(length float64) ([]curve.Element, error) {
		e, err := curve.NewStraight(measure.Length(length))
		return []curve.Element{e}, err
	})
}

// EasementNeeded returns the length of each of two easements, out of the first
// curve of a reversal and into the second, that a pair needs to keep a limit; 0
// when it needs none. Every longer pair of them, up to a turn of 90° each, keeps
// it too. The shape is one of those that curve.NewEasement takes.
//
// The error wraps measure.ErrNoAnswer where no easement is enough, because the
// curves are too sharp in themselves.
func EasementNeeded(ctx context.Context, p Pair, limit Limit, r Reversal, shape curve.Shape) (measure.Length, error) {
	if !shape.Easement() {
		l := fault.In("coupling")
		l.Add("shape", shape, "must be clothoid, Bloss, cosine, sine or Helmert")
		return 0, l.Err()
	}
	return p.between(ctx, limit, r, Curve, "an easement", func(length float64) ([]curve.Element, error) {
		out, err := curve.NewEasement(shape, measure.Length(length), measure.Curvature(1/float64(r.First)), 0)
		if err != nil {
			return nil, err
		}
		in, err := curve.NewEasement(shape, measure.Length(length), 0, measure.Curvature(-1/float64(r.Second)))
		return []curve.Element{out, in}, err
	})
}

// between solves for the length of what is put between two curves. alone is the
// situation that even a very long piece leaves.
func (p Pair) between(ctx context.Context, limit Limit, r Reversal, alone Situation, what string, piece func(length float64) ([]curve.Element, error)) (measure.Length, error) {
	l := fault.In("coupling")
	p.check(l)
	p.checkLimit(l, limit)
	fault.Size(l, "first radius", r.First)
	fault.Size(l, "second radius", r.Second)
	if err := l.Err(); err != nil {
		return 0, err
	}
	k0, k1 := 1/float64(r.First), -1/float64(r.Second)
	all, err := p.spareOn(ctx, limit, Curve, 0, 0)
	if err != nil && !errors.Is(err, measure.ErrNoAnswer) {
		return 0, err
	}
	spare := func(length, all float64) (float64, error) {
		var el []curve.Element
		if length >= float64(curve.MinLength) {
			var err error
			if el, err = piece(length); err != nil {
				return 0, err
			}
		}
		line, err := p.reverse(k0, k1, el...)
		if err != nil {
			return 0, err
		}
		s, err := p.short(ctx, line, limit, all)
		if errors.Is(err, measure.ErrNoAnswer) {
			return -1e3, nil
		}
		return s, err
	}
	looked := map[float64]float64{} // at closely
	closely := func(length float64) (float64, error) {
		s, ok := looked[length]
		if ok {
			return s, nil
		}
		s, err := spare(length, 0)
		looked[length] = s
		return s, err
	}
	// From very long down, to the last length that breaks the limit.
	most := 1.5 * (p.Behind.long() + p.Ahead.long())
	if alone == Curve {
		most = min(4*most, math.Pi*float64(min(r.First, r.Second)))
	}
	const (
		parts = 12
		ratio = 0.6 // of one length to the longer one before it
	)
	good := math.Inf(1)
	length := most
	for i := parts; i >= 0; i, length = i-1, length*ratio {
		if i == 0 {
			length = 0
		}
		s, err := spare(length, all)
		if err != nil {
			return 0, err
		}
		if s >= 0 {
			good = length
			continue
		}
		if i == parts {
			break
		}
		for { // what looked good roughly may break it after all
			s, err := closely(good)
			if err != nil {
				return 0, err
			}
			if s >= 0 || good > most {
				break
			}
			length, good = good, good/ratio
		}
		var stop error
		root, ok := solve.Brent(func(x float64) float64 {
			s, err := closely(x)
			if err != nil {
				stop = err
			}
			return s
		}, length, good, 1e-5)
		if stop != nil {
			return 0, stop
		}
		if !ok {
			root = good
		}
		return measure.Length(root), nil
	}
	if good == 0 {
		return 0, nil
	}
	text := "is too sharp by itself"
	if r, err := LeastRadius(ctx, p, limit, alone); err == nil {
		text = fmt.Sprintf("%v: the radius must be at least about %v", alone, r)
	}
	l.NoAnswer(fmt.Sprintf("reversal of %v and %v", r.First, r.Second), what, "is not enough at any length, "+text)
	return 0, l.Err()
}
