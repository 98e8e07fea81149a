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
)

// A Fouling is a fouling point of two tracks: on this side of it the space
// that one track's stock needs comes within the running gap of the other's, on
// that side it never does.
type Fouling struct {
	First  Place  // on the first track: Chainage is its fouling point, Other the second track's place that gives it
	Second Place  // the same with the tracks exchanged: Chainage is the fouling point of the second track
	Mark   r2.Vec // in plan, midway between the two edges: where the marker post goes
	Opens  bool   // clear beyond it in the first track's running direction; else clear before it
}

// FoulingPoints returns the fouling points of two tracks, in order of the
// first track's chainage: one where two routes part, two for a loop that leaves
// a line and joins it again. Each route is given whole, with the stretch that
// it shares with the other, so that the places where the tracks only come to an
// end do not look like fouling points. margin is the running gap, beyond what
// the envelopes' allowances hold.
//
// The point on each track is its own: beyond it nothing that stands or runs
// there comes within the margin of anything on the other. The two lie a little
// apart, by about the margin times the angle of the tracks.
//
// The error wraps measure.ErrNoAnswer where the tracks nowhere come within the
// margin, and where they nowhere get clear.
func FoulingPoints(ctx context.Context, first, second *clearance.Envelope, margin measure.Length) ([]Fouling, error) {
	p, err := Gaps(ctx, first, second, 0)
	if err != nil {
		return nil, err
	}
	return p.FoulingPoints(ctx, margin)
}

// FoulingPoints is the function FoulingPoints for the two tracks of a profile.
func (p *Profile) FoulingPoints(ctx context.Context, margin measure.Length) ([]Fouling, error) {
	q, err := p.swapped(ctx)
	if err != nil {
		return nil, err
	}
	at, err := p.limits(margin)
	if err != nil {
		return nil, err
	}
	other, err := q.limits(margin)
	if err != nil {
		return nil, err
	}
	var out []Fouling
	for _, x := range at {
		f := Fouling{Opens: x.opens}
		if f.First, err = p.place(x.c); err != nil {
			return nil, err
		}
		if f.First.AtEnd {
			continue // only the other track's range ends here
		}
		// The other track's own point is the one next to this.
		near := math.Inf(1)
		for _, y := range other {
			if d := r2.Norm(r2.Sub(q.a.Line().Point(q.roll(y.c)), q.a.Line().Point(f.First.Other))); d < near {
				s, err := q.place(y.c)
				if err != nil {
					return nil, err
				}
				if !s.AtEnd {
					near, f.Second = d, s
				}
			}
		}
		if math.IsInf(near, 1) {
			continue
		}
		f.Mark = r2.Scale(0.5, r2.Add(f.First.From, f.First.To))
		out = append(out, f)
	}
	if len(out) > 0 {
		return out, nil
	}
	l := fault.In("passing")
	least, err := p.Least()
	if err != nil {
		return nil, err
	}
	if least.Gap >= margin {
		l.NoAnswer("margin", margin, fmt.Sprintf("is kept everywhere, by the least gap of %v at chainage %v too: nothing fouls", least.Gap, least.Chainage))
		return nil, l.Err()
	}
	most := math.Inf(-1)
	var where float64
	for i, g := range p.gap {
		if g > most && !math.IsInf(g, 1) {
			most, where = g, p.c[i]
		}
	}
	l.NoAnswer("margin", margin, fmt.Sprintf("is reached nowhere: the widest gap is %v, at chainage %v. Spread the tracks by %v more, or sweep farther on", measure.Length(most), p.roll(where), margin-measure.Length(most)))
	return nil, l.Err()
}

// A limit is where the gap passes the margin.
type limit struct {
	c     float64
	opens bool // the gap is at least the margin beyond it
}

// limits returns every place where the gap passes the margin.
func (p *Profile) limits(margin measure.Length) ([]limit, error) {
	clear, err := p.Clear(margin)
	if err != nil {
		return nil, err
	}
	length := float64(p.a.Line().Length())
	var out []limit
	for _, s := range clear {
		if s.from == s.to {
			continue
		}
		whole := p.layers[0].a.closed && s.to-s.from >= length-1e-9
		if !s.AtFrom && !whole {
			out = append(out, limit{s.from, true})
		}
		if !s.AtTo && !whole {
			out = append(out, limit{s.to, false})
		}
	}
	return out, nil
}

// A Room is standing room: a stretch of a loop or siding that is clear of the
// tracks beside it.
type Room struct {
	Stretch
	// What ends it: the gap to the track named by index, or -1 where only the
	// range swept ends, as at a siding's buffer stop.
	FromBy, ToBy int

	line *curve.Alignment
}

// StandingRoom returns the stretches of a loop or siding in which whatever of
// its stock stands there keeps the margin from the stock of the tracks beside
// it, in order: the length between the fouling points. Each envelope is of a
// whole route, with the stretch that it shares with the others.
//
// The error wraps measure.ErrNoAnswer where there is none.
func StandingRoom(ctx context.Context, loop *clearance.Envelope, margin measure.Length, beside ...*clearance.Envelope) ([]Room, error) {
	l := fault.In("passing")
	if len(beside) == 0 {
		l.Add("tracks beside", "none", "needs at least one")
		return nil, l.Err()
	}
	if len(beside) > MaxBeside {
		l.Over("tracks beside", len(beside), fmt.Sprintf("must be at most %d", MaxBeside))
		return nil, l.Err()
	}
	var rooms []Room
	widest := measure.Length(math.Inf(1))
	for i, b := range beside {
		p, err := Gaps(ctx, loop, b, 0)
		if err != nil {
			l.JoinAs(fmt.Sprintf("track %d", i+1), err)
			continue
		}
		clear, err := p.Clear(margin)
		if err != nil {
			return nil, err
		}
		most := measure.Length(math.Inf(-1))
		for _, g := range p.Gaps() {
			most = max(most, g)
		}
		widest = min(widest, most)
		var own []Room
		for _, s := range clear {
			r := Room{Stretch: s, FromBy: i, ToBy: i, line: loop.Line()}
			if s.AtFrom {
				r.FromBy = -1
			}
			if s.AtTo {
				r.ToBy = -1
			}
			own = append(own, r)
		}
		if i == 0 {
			rooms = own
		} else {
			rooms = common(rooms, own)
		}
	}
	if err := l.Err(); err != nil {
		return nil, err
	}
	if len(rooms) == 0 {
		l.NoAnswer("margin", margin, fmt.Sprintf("is kept nowhere on the loop, where the gap is at most %v: set the tracks farther apart by %v, or take a smaller margin", widest, max(0, margin-widest)))
		return nil, l.Err()
	}
	return rooms, nil
}

// MaxBeside is the most tracks beside a loop.
const MaxBeside = 50

// common returns what two lists of stretches, each in order, have in common.
func common(a, b []Room) []Room {
	var out []Room
	length := math.Inf(1)
	if len(a) > 0 && a[0].line.Closed() {
		length = float64(a[0].line.Length())
	}
	for _, x := range a {
		for _, y := range b {
			for _, lap := range [3]float64{0, -1, 1} {
				y := y
				if lap != 0 {
					if math.IsInf(length, 1) {
						continue
					}
					y.from, y.to = y.from+lap*length, y.to+lap*length
				}
				r := x
				if y.from > x.from {
					r.From, r.AtFrom, r.FromBy, r.from = y.From, y.AtFrom, y.FromBy, y.from
				}
				if y.to < x.to {
					r.To, r.AtTo, r.ToBy, r.to = y.To, y.AtTo, y.ToBy, y.to
				}
				if r.to > r.from {
					out = append(out, r)
				}
			}
		}
	}
	return out
}
