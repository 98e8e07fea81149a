package clearance

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Kind says what a structure is. It changes no number, only which remedies
// make sense: a tree is not widened.
type Kind uint8

// The kinds of structure.
const (
	Obstacle Kind = iota
	Tunnel
	Portal
	Wall
	Fence
	Tree
	Post
	PlatformEdge
	Girder
	CuttingSide
	Overbridge
	NeighbouringTrack
)

var kindNames = [...]string{"obstacle", "tunnel", "portal", "wall", "fence", "tree", "post", "platform edge", "girder", "cutting side", "overbridge", "neighbouring track"}

// String returns the kind in words.
func (k Kind) String() string {
	if int(k) < len(kindNames) {
		return kindNames[k]
	}
	return fmt.Sprintf("kind %d", uint8(k))
}

// opening reports whether the structure is one that the line goes through.
func (k Kind) opening() bool { return k == Tunnel || k == Portal || k == Girder || k == Overbridge }

// A Structure is what the line must pass. It is given by chainage and offset
// (Faces, Roofs), in plan (Figures), by the space that a neighbouring track
// needs, or by several of these together.
type Structure struct {
	Name      string
	Kind      Kind
	Faces     []Face
	Roofs     []Roof
	Figures   []Figure
	Neighbour *Envelope
}

// A Face is an upright face beside the line, solid outwards from it: a tunnel
// or retaining wall, a platform edge, one side of a portal, a cutting side (at
// each height band its own). Where Bottom and Top are both zero it has every
// height.
type Face struct {
	Side        curve.Hand
	From, To    measure.Length // chainages; To equal to From is a post; on a circuit To may lie below From, over the start
	Offset      measure.Length // of the face from the track centreline at From, outwards positive
	OffsetTo    measure.Length // at To, straight between; 0 means the same as Offset
	Bottom, Top measure.Length // above the head of the rail that stays level
}

// A Roof is the underside of what lies over the line, solid upwards: a bridge, a
// tunnel's crown. Where Left and Right are both zero it spans the whole line.
//
// With a Rise it is an arch: one circular arc that springs from Height at its
// left and right edges, which it must have. The gap to it is square to the arc,
// in the cross-section square to the line. What carries it up to the springing,
// upright walls or abutments, are Faces.
type Roof struct {
	From, To    measure.Length // chainages, as in Face
	Height      measure.Length // of the underside above the head of the rail that stays level; of an arch's springing
	Left, Right measure.Length // how far it spans to either side of the track centreline
	Rise        measure.Length // of an arch's crown above its springing, up to half of its span; 0 is a level underside
}

// A Figure is something given in plan: a point (one), a segment or polyline
// (more), or with Closed a polygon, which is solid inside. Where Bottom and
// Top are both zero it has every height.
type Figure struct {
	Points      []r2.Vec // x east, y north, millimetres
	Closed      bool
	Bottom, Top measure.Length // above the head of the rail that stays level
}

func (s Structure) field(i int) string {
	if s.Name != "" {
		return s.Kind.String() + " " + s.Name
	}
	return fmt.Sprintf("structure %d (%v)", i+1, s.Kind)
}

func (e *Envelope) checkStructure(l *fault.List, s Structure, i int) {
	f := s.field(i)
	if int(s.Kind) >= len(kindNames) {
		l.Add(f+": kind", uint8(s.Kind), fmt.Sprintf("must be one of the kinds 0 to %d", len(kindNames)-1))
	}
	n := len(s.Faces) + len(s.Roofs) + len(s.Figures)
	if n == 0 && s.Neighbour == nil {
		l.Add(f, "of nothing", "needs a face, a roof, a figure or a neighbouring track")
	}
	if n > MaxParts {
		l.Over(f, fmt.Sprintf("of %d parts", n), fmt.Sprintf("must have at most %d", MaxParts))
		return
	}
	heights := func(f string, bottom, top measure.Length) {
		okB, okT := fault.Finite(l, f+": bottom", bottom), fault.Finite(l, f+": top", top)
		if okB && okT && top < bottom {
			l.Add(f+": top", top, fmt.Sprintf("must not be below the bottom at %v", bottom))
		}
	}
	span := func(f string, from, to measure.Length) {
		ok := e.checkChainage(l, f+": from", from)
		ok = e.checkChainage(l, f+": to", to) && ok
		if ok {
			if a, b := e.span(from, to); b < a || b > e.to+1e-9 && !e.whole() {
				l.Add(f+": to", to, fmt.Sprintf("must not be before the beginning at %v, and the whole of it in the range swept", from))
			}
		}
	}
	for j, p := range s.Faces {
		f := part(f, "face", j, len(s.Faces))
		if p.Side != curve.Left && p.Side != curve.Right {
			l.Add(f+": side", p.Side, "must be left or right")
		}
		span(f, p.From, p.To)
		fault.Finite(l, f+": offset", p.Offset)
		fault.Finite(l, f+": offset at its end", p.OffsetTo)
		heights(f, p.Bottom, p.Top)
	}
	for j, p := range s.Roofs {
		f := part(f, "roof", j, len(s.Roofs))
		span(f, p.From, p.To)
		fault.Finite(l, f+": height", p.Height)
		okL, okR := fault.Finite(l, f+": left", p.Left), fault.Finite(l, f+": right", p.Right)
		okRise, span := fault.NotNegative(l, f+": rise", p.Rise), p.Left+p.Right
		switch {
		case !okL || !okR:
		case span < 0:
			l.Add(f+": left", p.Left, fmt.Sprintf("must not lie to the right of its right edge, %v to the right", p.Right))
		case okRise && p.Rise > span/2*(1+1e-12):
			l.Add(f+": rise", p.Rise, fmt.Sprintf("must be at most half of the span from its left to its right edge, %v", span/2))
		}
	}
	for j, p := range s.Figures {
		f := part(f, "figure", j, len(s.Figures))
		heights(f, p.Bottom, p.Top)
		switch {
		case len(p.Points) == 0:
			l.Add(f+": points", "none", "needs at least one")
		case p.Closed && len(p.Points) < 3:
			l.Add(f+": points", len(p.Points), "must be at least 3 for a closed figure")
		case len(p.Points) > MaxFigurePoints:
			l.Over(f+": points", len(p.Points), fmt.Sprintf("must be at most %d", MaxFigurePoints))
			continue
		}
		for k, q := range p.Points {
			fault.Finite(l, fmt.Sprintf("%s: point %d: x", f, k+1), q.X)
			fault.Finite(l, fmt.Sprintf("%s: point %d: y", f, k+1), q.Y)
		}
	}
}

func part(field, what string, i, n int) string {
	if n == 1 {
		return field
	}
	return fmt.Sprintf("%s: %s %d", field, what, i+1)
}

// checkChainage records a chainage that is not on the line or not in the range
// swept.
func (e *Envelope) checkChainage(l *fault.List, field string, c measure.Length) bool {
	if !fault.Finite(l, field, c) {
		return false
	}
	if length := e.line.Length(); c < 0 || c > length {
		l.Add(field, c, fmt.Sprintf("must be on the line, from 0 mm to %v", length))
		return false
	}
	if _, ok := e.unroll(c); !ok {
		l.Add(field, c, fmt.Sprintf("must be in the range swept, from %v to %v", e.set.From, e.set.To))
		return false
	}
	return true
}

// span unrolls a range of chainages.
func (e *Envelope) span(from, to measure.Length) (a, b float64) {
	a, _ = e.unroll(from)
	b, _ = e.unroll(to)
	if e.line.Closed() && to < from && b < a {
		b += float64(e.line.Length())
	}
	if to > from && b <= a { // the end of a whole circuit, unrolled to its beginning
		b += float64(e.line.Length())
	}
	return a, b
}

// whole reports whether the envelope is of a whole circuit.
func (e *Envelope) whole() bool {
	return e.line.Closed() && e.to-e.from > float64(e.line.Length())-1e-9
}

// heights returns a structure's range of heights; zero and zero is all.
func heights(bottom, top measure.Length) (lo, hi float64) {
	if bottom == 0 && top == 0 {
		return math.Inf(-1), math.Inf(1)
	}
	return float64(bottom), float64(top)
}
