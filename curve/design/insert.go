package design

import (
	"fmt"
	"math"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
	"example.org/fourfoot/internal/solve"
)

// A Keep says what an arc keeps when easements are put to its ends. Both
// ways keep the straights where they are.
type Keep uint8

const (
	// KeepRadius keeps the arc's radius and shifts the arc in by its shift
	// (square to the straights); the crown moves shift/cos Δ/2.
	KeepRadius Keep = iota
	// KeepCrown keeps the arc's crown and makes the radius smaller.
	KeepCrown
)

// String returns "radius" or "crown".
func (k Keep) String() string {
	switch k {
	case KeepRadius:
		return "radius"
	case KeepCrown:
		return "crown"
	}
	return "unknown"
}

// An Eased is a plain line with easements put to its arcs.
type Eased struct {
	Line
	Arcs []EasedArc // one for each bend of the line
}

// An EasedArc says what the easements did to an arc.
type EasedArc struct {
	OldRadius  measure.Length
	Radius     measure.Length
	Shift      measure.Length // of the new arc from each straight
	CrownMoved measure.Length // towards the inside of the curve
	Used       measure.Length // of the straight at each end; negative when the straight grows
}

// InsertEasements puts easements of the given shape to both ends of every arc
// of a line of straights and arcs. lengths has one length for all arcs, or
// one for each in running order; 0 leaves an arc plain. A circuit that starts
// on an arc is given back starting at its first straight.
//
// In the frame of the straight before an arc of radius R and turn Δ, with r
// the new radius, p its shift and m the move of the centre towards the crown:
//
//	R - m cos Δ/2 = r + p          (the straights are kept)
//	r = R:     m = -p / cos Δ/2    (KeepRadius)
//	m + r = R: (R - r)(1 - cos Δ/2) = p(r)   (KeepCrown)
//
// and each straight is used up by k - m sin Δ/2, k being the abscissa of the
// new centre. KeepCrown holds for a half circle too, where KeepRadius cannot.
// Where a straight is too short, or no radius keeps the crown, the error
// (measure.ErrNoAnswer) tells the longest easements that fit.
func InsertEasements(a *curve.Alignment, keep Keep, shape curve.Shape, lengths ...measure.Length) (Eased, error) {
	l := fault.In("design")
	if shape == curve.StraightLine {
		shape = curve.Clothoid
	}
	checkShape(l, "shape", shape, false)
	if keep > KeepCrown {
		l.Add("keep", uint8(keep), "must be KeepRadius or KeepCrown")
	}
	for i, x := range lengths {
		fault.NotNegative(l, fmt.Sprintf("easement %d", i+1), x)
	}
	if a == nil {
		l.Add("line", nil, "must not be nil")
		return Eased{}, l.Err()
	}
	start, arcs, straights := plain(l, a)
	if len(arcs) > 0 && len(lengths) != 1 && len(lengths) != len(arcs) {
		l.Add("lengths", len(lengths), fmt.Sprintf("must be one, or one for each of the %d arcs", len(arcs)))
	}
	if !l.OK() {
		return Eased{}, l.Err()
	}
	out := Eased{Line: Line{Start: start, Closed: a.Closed()}}
	use := make([]float64, len(arcs))
	eases := make([]Easing, len(arcs))
	for i, arc := range arcs {
		x := lengths[0]
		if len(lengths) > 1 {
			x = lengths[i]
		}
		eases[i] = Ease(shape, x)
		e, ok := arc.ease(l, fmt.Sprintf("arc %d", i+1), keep, eases[i])
		if ok {
			use[i] = float64(e.Used)
			out.Arcs = append(out.Arcs, e)
		}
	}
	if !l.OK() {
		return Eased{}, l.Err()
	}
	rest := append([]float64(nil), straights...)
	for i := range arcs {
		rest[i] -= use[i]
		rest[i+1] -= use[i]
	}
	if n := len(rest) - 1; a.Closed() && n > 0 {
		// The first and the last straight are one, with the start on it.
		if move := min(rest[0], 0) - min(rest[n], 0); move != 0 && rest[0]+rest[n] >= 0 {
			out.Start.Point = forward(out.Start.Point, float64(out.Start.Heading), move, 0)
			rest[0] -= move
			rest[n] += move
		}
	}
	for i, x := range rest {
		if x < -1e-12*(straights[i]+1) {
			l.NoAnswer(fmt.Sprintf("straight %d", i+1), measure.Length(straights[i]),
				fmt.Sprintf("is %.6g mm too short for the easements beside it; %s", -x, longestInsert(keep, shape, arcs, straights, a.Closed())))
		}
	}
	if !l.OK() {
		return Eased{}, l.Err()
	}
	at := out.Start
	for i, arc := range arcs {
		out.straight(rest[i], arc.r)
		at.Point = forward(at.Point, float64(at.Heading), max(rest[i], 0), 0)
		b, err := bendFrom(at, arc.hand, float64(out.Arcs[i].Radius), arc.turn, eases[i])
		if err != nil {
			return Eased{}, err
		}
		out.bend(b)
		at = b.End
	}
	out.straight(rest[len(rest)-1], 1)
	return out, nil
}

type plainArc struct {
	r, turn float64
	hand    curve.Hand
}

// plain takes a line apart: straights[i] lies before arcs[i], 0 where there is
// none, and the last straight after the last arc.
func plain(l *fault.List, a *curve.Alignment) (start curve.Pose, arcs []plainArc, straights []float64) {
	elements := a.Elements()
	start = a.Start()
	if a.Closed() {
		bounds := a.Boundaries()
		for i, e := range elements {
			if e.Shape() == curve.StraightLine {
				if i > 0 {
					st := a.At(bounds[i])
					start = curve.Pose{Point: st.Point, Heading: st.Heading}
				}
				elements = append(append([]curve.Element(nil), elements[i:]...), elements[:i]...)
				break
			}
		}
	}
	straights = []float64{0}
	for i, e := range elements {
		name := fmt.Sprintf("element %d", i+1)
		if e.Kink() != 0 {
			l.Add(name+" kink", e.Kink(), "must be 0: easements go to a line without kinks")
		}
		n := len(straights) - 1
		switch e.Shape() {
		case curve.StraightLine:
			straights[n] += float64(e.Length())
		case curve.CircularArc:
			k := float64(e.StartCurvature())
			arc := plainArc{1 / math.Abs(k), math.Abs(float64(e.Turn())), handOf(k)}
			if n > 0 && straights[n] == 0 && arcs[n-1].hand == arc.hand && math.Abs(arcs[n-1].r-arc.r) <= 1e-12*arc.r {
				arcs[n-1].turn += arc.turn
			} else {
				arcs = append(arcs, arc)
				straights = append(straights, 0)
			}
		default:
			l.Add(name, e.Shape(), "must be a straight or an arc")
		}
	}
	for i, arc := range arcs {
		if arc.turn >= 2*math.Pi-1e-6 {
			l.Add(fmt.Sprintf("arc %d turn", i+1), fmt.Sprintf("%.6g°", measure.Angle(arc.turn).Degrees()), "must be less than 360°")
		}
	}
	return start, arcs, straights
}

// ease works out what easements do to the arc.
func (a plainArc) ease(l *fault.List, name string, keep Keep, ease Easing) (EasedArc, bool) {
	if ease.In == 0 {
		return EasedArc{OldRadius: measure.Length(a.r), Radius: measure.Length(a.r)}, true
	}
	sin, cos := math.Sincos(a.turn / 2)
	r := a.r
	if keep == KeepCrown {
		var ok bool
		if r, ok = a.crownRadius(ease, 1-cos); !ok {
			lo, hi := 0.0, float64(ease.In)
			for range 50 {
				m := (lo + hi) / 2
				if _, ok := a.crownRadius(Ease(ease.Shape, measure.Length(m)), 1-cos); ok {
					lo = m
				} else {
					hi = m
				}
			}
			l.NoAnswer(name+" easement", ease.In, fmt.Sprintf("no smaller radius keeps the crown; the longest easements that do are %.6g mm", lo))
			return EasedArc{}, false
		}
	}
	h := newHalf(ease.Shape, float64(ease.In), r)
	if !(2*h.turn <= a.turn+roundingTurn) {
		l.NoAnswer(name+" easement", ease.In, fmt.Sprintf("the arc turns only %.5g°: at most %.6g mm", measure.Angle(a.turn).Degrees(), ease.longest(r, a.turn)/2))
		return EasedArc{}, false
	}
	m := a.r - r
	if keep == KeepRadius {
		m = -h.shift / cos
	}
	return EasedArc{
		OldRadius: measure.Length(a.r), Radius: measure.Length(r), Shift: measure.Length(h.shift),
		CrownMoved: measure.Length(a.r - r - m), Used: measure.Length(h.along - m*sin),
	}, true
}

// crownRadius returns the largest radius below the arc's own at which its
// crown stays; versed is 1 - cos Δ/2.
func (a plainArc) crownRadius(ease Easing, versed float64) (float64, bool) {
	f := func(r float64) float64 {
		return (a.r-r)*versed - newHalf(ease.Shape, float64(ease.In), r).shift
	}
	lo := ease.smallest(a.turn) * (1 + 1e-12)
	if lo >= a.r {
		return 0, false
	}
	// f is negative at R; the largest root is above f's peak.
	x, least := solve.Golden(func(r float64) float64 { return -f(r) }, lo, a.r, 1e-12*a.r, 0)
	if least > 0 {
		return 0, false
	}
	return solve.Brent(f, x, a.r, 1e-15*a.r)
}

// longestInsert tells the longest equal easements that all arcs can take.
func longestInsert(keep Keep, shape curve.Shape, arcs []plainArc, straights []float64, closed bool) string {
	fits := func(x float64) bool {
		rest := append([]float64(nil), straights...)
		for i, arc := range arcs {
			e, ok := arc.ease(fault.In("design"), "", keep, Ease(shape, measure.Length(x)))
			if !ok {
				return false
			}
			rest[i] -= float64(e.Used)
			rest[i+1] -= float64(e.Used)
		}
		if n := len(rest) - 1; closed && n > 0 {
			rest[0] += rest[n]
			rest[n] = 0
		}
		for _, x := range rest {
			if x < 0 {
				return false
			}
		}
		return true
	}
	lo, hi := 0.0, 0.0
	for _, s := range straights {
		hi += 2 * s
	}
	if !fits(hi * 1e-6) {
		return "none fit: put straights between the arcs"
	}
	for range 50 {
		if m := (lo + hi) / 2; fits(m) {
			lo = m
		} else {
			hi = m
		}
	}
	return fmt.Sprintf("easements of %.6g mm at every arc would fit", lo)
}
