package profile

import (
	"fmt"
	"math"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Bend is a stretch of a line that curves to one hand, its easements
// included: a straight, a reversal or an end of the line bounds it.
type Bend struct {
	From, To measure.Length // on a circuit To may lie below From
	Hand     curve.Hand
	Sharpest measure.Length // the smallest radius of it, at the ends of its elements
}

// Bends returns the bends of a line in order of where they begin; on a circuit
// the bend that runs over the start is the last. A reversal within an S-shaped
// easement lies where its curvature is zero.
func Bends(line *curve.Alignment) []Bend {
	bends, _ := bendsOf(line)
	return bends
}

// ends are the bends that an element's start and end belong to, -1 for none.
type ends struct{ start, end int }

func bendsOf(line *curve.Alignment) ([]Bend, []ends) {
	elements, at := line.Elements(), line.Boundaries()
	var bends []Bend
	of := make([]ends, len(elements))
	hand := 0.0 // of the bend that is open
	reach := func(k float64, s measure.Length) int {
		if k == 0 {
			return -1
		}
		if math.Signbit(k) != math.Signbit(hand) || hand == 0 {
			hand = math.Copysign(1, k)
			bends = append(bends, Bend{From: s, Hand: curve.Hand(hand), Sharpest: measure.Length(1 / math.Abs(k))})
		}
		b := &bends[len(bends)-1]
		b.Sharpest = min(b.Sharpest, measure.Length(1/math.Abs(k)))
		return len(bends) - 1
	}
	shut := func(s measure.Length) {
		if hand != 0 {
			bends[len(bends)-1].To, hand = s, 0
		}
	}
	for i, e := range elements {
		r0, r1 := reached(e)
		k0, k1 := float64(r0), float64(r1)
		if k0 == 0 || hand != 0 && k0*hand < 0 {
			shut(at[i])
		}
		of[i].start = reach(k0, at[i])
		begin := at[i]
		if k0*k1 < 0 {
			// The curvature is monotone, so the zero is found by halving.
			lo, hi := measure.Length(0), e.Length()
			for range 60 {
				if s := (lo + hi) / 2; float64(e.CurvatureAt(s))*k0 > 0 {
					lo = s
				} else {
					hi = s
				}
			}
			begin += lo
			shut(begin)
		}
		of[i].end = reach(k1, begin)
		if k1 == 0 {
			shut(at[i+1])
		}
	}
	shut(line.Length())
	if n := len(bends); line.Closed() && n > 1 && bends[0].From == 0 && bends[n-1].To == line.Length() && bends[0].Hand == bends[n-1].Hand &&
		elements[0].StartCurvature() != 0 && elements[len(elements)-1].EndCurvature() != 0 {
		bends[n-1].To = bends[0].To
		bends[n-1].Sharpest = min(bends[n-1].Sharpest, bends[0].Sharpest)
		bends = bends[1:]
		renumber := func(bend int) int {
			if bend < 0 {
				return bend
			}
			return (bend + n - 2) % (n - 1)
		}
		for i := range of {
			of[i] = ends{renumber(of[i].start), renumber(of[i].end)}
		}
	}
	return bends, of
}

// NewBendCant returns the cant of a line whose bends, as [Bends] numbers
// them, have the given cants, zero or more, at their sharpest. Along a bend
// the cant is in proportion to the curvature: it rises on the easements by
// their own law, is constant on an arc, and on an S-shaped easement goes by
// its law from the one cant to the other. So it does on a lath and on a cubic
// parabola; since the parabola's curvature ends short of the arc's, by
// [curve.Element.StepToArc], and cant cannot step, its cant is in proportion to
// its curvature made so much greater all along that it ends in the arc's. On a
// lath between two poses, whose curvature may rise and fall, a canted bend is
// refused. Where a canted bend begins or ends, or changes its radius, without
// an easement there is nothing to ramp on, and the line is refused: put the
// ramp yourself, with [NewCant].
func NewBendCant(line *curve.Alignment, datum Datum, cants ...measure.Length) (Cant, error) {
	l := fault.In("profile")
	checkDatum(l, datum)
	if line == nil {
		l.Add("line", nil, "must be given")
		return Cant{}, l.Err()
	}
	bends, of := bendsOf(line)
	if len(cants) != len(bends) {
		l.Add("cants", len(cants), fmt.Sprintf("must be one for each bend: the line has %d", len(bends)))
	}
	for i, u := range cants {
		if fault.NotNegative(l, fmt.Sprintf("cant of bend %d", i+1), u) {
			within(l, fmt.Sprintf("cant of bend %d", i+1), u)
		}
	}
	if !l.OK() {
		return Cant{}, l.Err()
	}
	elements, at := line.Elements(), line.Boundaries()
	sharpest := make([]float64, len(bends)) // curvature of each bend, as the cant sees it
	for i, e := range elements {
		k0, k1 := leaning(e)
		if j := of[i].start; j >= 0 {
			sharpest[j] = max(sharpest[j], math.Abs(float64(k0)))
		}
		if j := of[i].end; j >= 0 {
			sharpest[j] = max(sharpest[j], math.Abs(float64(k1)))
		}
	}
	value := func(bend int, k measure.Curvature) float64 {
		if bend < 0 {
			return 0
		}
		return float64(cants[bend]) * float64(k) / sharpest[bend]
	}
	out := Cant{datum: datum}
	if line.Closed() {
		out.circuit = float64(line.Length())
	} else {
		k, _ := leaning(elements[0])
		out.add(math.Inf(-1), ramp{v0: value(of[0].start, k)})
	}
	last := len(elements) - 1
	_, final := leaning(elements[last])
	for i, e := range elements {
		k0, k1 := leaning(e)
		v0, v1 := value(of[i].start, k0), value(of[i].end, k1)
		before := v0
		if i > 0 {
			_, k := leaning(elements[i-1])
			before = value(of[i-1].end, k)
		} else if line.Closed() {
			before = value(of[last].end, final)
		}
		if step := math.Abs(v0 - before); step > 1e-6 {
			l.Add(fmt.Sprintf("cant at element %d, chainage %s", i+1, mm(at[i])), mm(measure.Length(step))+" of change at once",
				"must have an easement to ramp on; add one, or place the ramp with NewCant")
		}
		if between(e) && of[i].canted(cants) {
			l.Add(fmt.Sprintf("cant at element %d, chainage %s", i+1, mm(at[i])), e.Shape(),
				"must not be a lath between two poses, whose curvature is no ramp's; place the ramp with NewCant")
		}
		if math.Abs(v1-v0) > float64(Steepest)*float64(e.Length()) {
			l.Add(fmt.Sprintf("ramp on element %d", i+1), fmt.Sprintf("%.6g mm of cant in %.6g mm", v1-v0, float64(e.Length())), "must not be steeper than 1 in 1")
		}
		out.add(float64(at[i]), rampOn(e, float64(at[i]), v0, v1))
	}
	if !line.Closed() {
		out.add(float64(line.Length()), ramp{v0: value(of[last].end, final)})
	}
	if !l.OK() {
		return Cant{}, l.Err()
	}
	return out, nil
}

// canted reports whether one of the bends has a cant.
func (e ends) canted(cants []measure.Length) bool {
	return e.start >= 0 && cants[e.start] != 0 || e.end >= 0 && cants[e.end] != 0
}

// between reports whether the element is a lath between two poses.
func between(e curve.Element) bool {
	v := e.Form()
	return v.Shape == curve.Lath && (v.Start != 0 || v.Across != 0)
}

// reached returns the curvatures that an element leads from and to: its own, but
// at the step where a cubic parabola meets its arc, the arc's.
func reached(e curve.Element) (k0, k1 measure.Curvature) {
	k0, k1 = e.StartCurvature(), e.EndCurvature()
	switch v := e.Form(); {
	case v.Shape != curve.CubicParabola:
	case v.Back && v.From == v.Whole:
		k0 += e.StepToArc()
	case !v.Back && v.From+v.Length == v.Whole:
		k1 += e.StepToArc()
	}
	return k0, k1
}

// leaning returns the curvatures at an element's ends that its cant is in
// proportion to: its own, and a cubic parabola's so much greater that the whole
// of it ends in the arc's.
func leaning(e curve.Element) (k0, k1 measure.Curvature) {
	k0, k1 = e.StartCurvature(), e.EndCurvature()
	if e.Shape() != curve.CubicParabola {
		return k0, k1
	}
	v := e.Form()
	v.From, v.Length, v.Back = 0, v.Whole, false
	whole, err := v.Element()
	if err != nil {
		return k0, k1
	}
	end := whole.EndCurvature()
	grown := (end + whole.StepToArc()) / end
	return k0 * grown, k1 * grown
}

// rampOn returns the ramp that goes with an element's curvature from v0 at its
// start, at chainage s, to v1 at its end. Of a part of an easement the ramp is
// a part too: cant is linear in curvature, so it is carried on to the ends of
// the whole.
func rampOn(e curve.Element, s, v0, v1 float64) ramp {
	if shape := e.Shape(); shape == curve.CubicParabola || shape == curve.Lath {
		return ramp{s, float64(e.Length()), v0, v1, curve.Clothoid, bowOf(e)}
	}
	whole, from := e.Whole()
	if whole.Length() != e.Length() && v0 != v1 {
		k0, k1 := float64(e.StartCurvature()), float64(e.EndCurvature())
		rate := (v1 - v0) / (k1 - k0)
		v1 = v0 + rate*(float64(whole.EndCurvature())-k0)
		v0 += rate * (float64(whole.StartCurvature()) - k0)
	}
	return ramp{s - float64(from), float64(whole.Length()), v0, v1, law(e.Shape()), nil}
}
