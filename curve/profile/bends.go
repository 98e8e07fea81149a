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
	Sharpest measure.Length // the smallest radius of it
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
		turn := turns(e)
		if between(e) {
			if j := reach(float64(sharpest(e, 0, turn)), at[i]); j >= 0 {
				of[i].start = j
			}
		}
		begin := at[i]
		if turn < e.Length() {
			begin += turn
			shut(begin)
			if between(e) {
				reach(float64(sharpest(e, turn, e.Length())), begin)
			}
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

// turns returns where the curvature changes its hand, once at most: the
// element's length where it does not.
func turns(e curve.Element) measure.Length {
	r0, r1 := reached(e)
	if k0, k1 := float64(r0), float64(r1); k0*k1 < 0 {
		lo, hi := measure.Length(0), e.Length()
		for range 60 {
			if s := (lo + hi) / 2; float64(e.CurvatureAt(s))*k0 > 0 {
				lo = s
			} else {
				hi = s
			}
		}
		return lo
	}
	return e.Length()
}

// sharpest returns the sharpest curvature between two distances from the
// element's start, 0 where that is no length.
func sharpest(e curve.Element, from, to measure.Length) measure.Curvature {
	part, err := e.Part(from, to)
	if err != nil {
		return 0
	}
	_, k := part.Sharpest()
	return k
}

// NewBendCant returns the cant of a line whose bends, as [Bends] numbers
// them, have the given cants, zero or more, at their sharpest. Along a bend
// the cant is in proportion to the curvature: it rises on the easements by
// their own law, is constant on an arc, and on an S-shaped easement goes by
// its law from the one cant to the other. So it does on a lath and on a cubic
// parabola; since the parabola's curvature ends short of the arc's, by
// [curve.Element.StepToArc], and cant cannot step, its cant is in proportion to
// its curvature made so much greater all along that it ends in the arc's. On a
// lath between two poses, whose curvature may rise and fall, the whole cant is
// reached at its crest if that is the bend's sharpest place, and where its
// curvature changes hand the cant is nothing. Where a canted bend begins or
// ends, or changes its radius, without an easement there is nothing to ramp on,
// and the line is refused: put the ramp yourself, with [NewCant].
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
	most := make([]float64, len(bends)) // curvature of each bend, as the cant sees it
	for i, e := range elements {
		k0, k1 := leaning(e)
		if j := of[i].start; j >= 0 {
			most[j] = max(most[j], math.Abs(float64(k0)))
		}
		if j := of[i].end; j >= 0 {
			most[j] = max(most[j], math.Abs(float64(k1)))
		}
		if between(e) {
			for _, p := range parts(e, of[i]) {
				if p.bend >= 0 {
					most[p.bend] = max(most[p.bend], math.Abs(float64(sharpest(e, p.from, p.to))))
				}
			}
		}
	}
	value := func(bend int, k measure.Curvature) float64 {
		if bend < 0 {
			return 0
		}
		return float64(cants[bend]) * float64(k) / most[bend]
	}
	out := Cant{datum: datum}
	if line.Closed() {
		out.chain.circuit = float64(line.Length())
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
				"must have an easement to ramp on, or a ramp that is placed by itself")
		}
		steep := func(rise float64, length measure.Length) {
			if math.Abs(rise) > float64(Steepest)*float64(length) {
				l.Add(fmt.Sprintf("ramp on element %d", i+1), fmt.Sprintf("%.6g mm of cant in %.6g mm", rise, float64(length)), "must not be steeper than 1 in 1")
			}
		}
		if !between(e) {
			steep(v1-v0, e.Length())
			out.add(float64(at[i]), rampOn(e, float64(at[i]), v0, v1))
			continue
		}
		for _, p := range parts(e, of[i]) {
			part, err := e.Part(p.from, p.to)
			if err != nil {
				continue // no length
			}
			k, peak := part.StartCurvature(), sharpest(e, p.from, p.to)
			v, gain := value(p.bend, k), value(p.bend, peak)
			steep(gain, part.Length())
			s := float64(at[i] + p.from)
			out.add(s, ramp{s, float64(part.Length()), v, v + gain, curve.Clothoid, bowOf(part, float64(peak))})
		}
	}
	if !line.Closed() {
		out.add(float64(line.Length()), ramp{v0: value(of[last].end, final)})
	}
	if !l.OK() {
		return Cant{}, l.Err()
	}
	return out, nil
}

// A share is a stretch of an element that belongs to one bend, -1 for none.
type share struct {
	from, to measure.Length
	bend     int
}

// parts returns the stretches of an element: two where its curvature changes
// hand.
func parts(e curve.Element, of ends) []share {
	if turn := turns(e); turn < e.Length() {
		return []share{{0, turn, of.start}, {turn, e.Length(), of.end}}
	}
	return []share{{0, e.Length(), max(of.start, of.end)}}
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
		return ramp{s, float64(e.Length()), v0, v1, curve.Clothoid, bowOf(e, float64(e.EndCurvature()-e.StartCurvature()))}
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
