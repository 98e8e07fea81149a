package closing

import (
	"fmt"
	"math"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// PartsOf takes a line apart into straights and bends, nothing of which may
// change: set the limits of what may, then [Close] it. A bend is an arc with
// the easements from and to a straight beside it, of one shape. It refuses what
// is no such part: kinks, easements from arc to arc, and arcs that go on into
// an easement of another radius. A circuit taken apart should start on a
// straight or at the end of a bend.
func PartsOf(a *curve.Alignment) ([]Part, error) {
	l := fault.In("closing")
	if a == nil {
		l.Add("line", nil, "must not be nil")
		return nil, l.Err()
	}
	elements := a.Elements()
	var parts []Part
	for i := 0; i < len(elements); {
		if elements[i].Shape() == curve.StraightLine {
			parts = append(parts, Part{Straight: elements[i].Length()})
			noKink(l, i, elements[i])
			i++
			continue
		}
		n := bendAt(elements[i:])
		for k := range n {
			noKink(l, i+k, elements[i+k])
		}
		b, ok := bendOf(elements[i : i+n])
		if !ok {
			l.Add(fmt.Sprintf("element %d", i+1), elements[i].Shape(), noBend(elements[i:i+n]))
		}
		parts = append(parts, Part{Bend: b})
		i += n
	}
	if !l.OK() {
		return nil, l.Err()
	}
	return parts, nil
}

// noBend says why the elements make no bend, and what would do instead.
func noBend(e []curve.Element) string {
	for _, x := range e {
		switch {
		case x.Shape() == curve.CubicParabola || x.Shape() == curve.Lath:
			return fmt.Sprintf("must begin a bend whose radius its easements tell, which a %v does not: give this bend as a Part, with the abscissas as EaseIn and EaseOut", x.Shape())
		case x.Shape().Easement() && x.StartCurvature() != 0 && x.EndCurvature() != 0:
			return "must begin a bend: an easement from arc to arc is no part of one; give the bends as Parts with easements to a straight between, or with none"
		}
	}
	return "must begin a bend: an arc, with easements from or to a straight"
}

func noKink(l *fault.List, i int, e curve.Element) {
	if e.Kink() != 0 {
		l.Add(fmt.Sprintf("element %d kink", i+1), e.Kink(), "must be 0")
	}
}

// bendAt returns how many of the elements make the bend that begins there:
// up to an easement that ends straight, or to a plain arc's end.
func bendAt(e []curve.Element) int {
	n := 0
	if e[0].Shape() != curve.CircularArc {
		n++ // the easement into it
	}
	if n < len(e) && e[n].Shape() == curve.CircularArc {
		n++
	}
	if n < len(e) && e[n].Shape() != curve.CircularArc && e[n].Shape() != curve.StraightLine && e[n].StartCurvature() != 0 {
		n++ // the easement out of it
	}
	return n
}

// bendOf returns the bend that the elements make, by making it again.
func bendOf(e []curve.Element) (curve.Bend, bool) {
	var b curve.Bend
	var k float64
	turn := 0.0
	for i, x := range e {
		turn += float64(x.Turn())
		switch s := x.Shape(); {
		case s == curve.CircularArc:
			k = float64(x.StartCurvature())
		case s == curve.CubicParabola || s == curve.Lath:
			return b, false // what radius it leads to is not its own to say
		case i == 0 && x.StartCurvature() == 0:
			b.EaseIn, b.Shape, k = x.Length(), s, float64(x.EndCurvature())
		case x.EndCurvature() == 0 && (b.Shape == curve.StraightLine || b.Shape == s):
			b.EaseOut, b.Shape, k = x.Length(), s, float64(x.StartCurvature())
		default:
			return b, false
		}
	}
	r, hand, ok := curve.RadiusOf(measure.Curvature(k))
	if !ok {
		return b, false
	}
	b.Radius, b.Hand, b.Turn = r, hand, measure.Angle(math.Abs(turn))
	made, err := b.Elements()
	if err != nil || len(made) != len(e) {
		return b, false
	}
	for i := range e {
		if d := math.Abs(float64(made[i].Length()-e[i].Length())) + math.Abs(float64(made[i].EndCurvature()-e[i].EndCurvature()))*float64(r*r); d > 1e-9*float64(r) {
			return b, false
		}
	}
	return b, true
}
