package check

import (
	"fmt"
	"math"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// Line returns where a line breaks the limits, defect by defect and then by
// chainage. On a circuit the joint of end and start counts as any other.
func Line(line *curve.Alignment, limits Limits) ([]Finding, error) {
	l := fault.In("check")
	if line == nil {
		l.Add("line", nil, "must be given")
	}
	fault.NotNegative(l, "smallest radius", limits.MinRadius)
	fault.NotNegative(l, "largest kink", limits.MaxKink)
	fault.NotNegative(l, "largest jump of curvature", limits.MaxJump)
	fault.NotNegative(l, "shortest easement", limits.MinEasement)
	fault.NotNegative(l, "smallest clothoid parameter", limits.MinParameter)
	fault.NotNegative(l, "shortest straight", limits.MinStraight)
	if !l.OK() {
		return nil, l.Err()
	}
	c := checker{limits: limits, closed: line.Closed(), length: float64(line.Length()), elements: line.Elements()}
	for _, s := range line.Boundaries() {
		c.start = append(c.start, float64(s))
	}
	c.radii()
	c.joints()
	c.easements()
	c.reverses()
	return c.found, nil
}

type checker struct {
	limits   Limits
	closed   bool
	length   float64
	elements []curve.Element
	start    []float64 // chainage of each, and the line's length
	found    []Finding
}

func (c *checker) add(d Defect, i int, at float64, value, limit fmt.Stringer) {
	c.found = append(c.found, Finding{d, i, measure.Length(at), value, limit})
}

// before returns the element before number i, -1 at the start of an open line.
func (c *checker) before(i int) int {
	if i == 0 && c.closed {
		return len(c.elements) - 1
	}
	return i - 1
}

// first and last return the curvatures that an element begins and ends with.
func first(e curve.Element) float64 { return float64(e.StartCurvature()) }
func last(e curve.Element) float64  { return float64(e.EndCurvature()) }

// radii adds a finding for each run of curvature above the limit, at its
// sharpest.
func (c *checker) radii() {
	if c.limits.MinRadius == 0 {
		return
	}
	limit := 1 / float64(c.limits.MinRadius) * (1 + 1e-12)
	n := len(c.elements)
	runsOn := func(i int) bool { // from the element before, still too sharp
		j := c.before(i)
		if j < 0 {
			return false
		}
		k0, k1 := last(c.elements[j]), first(c.elements[i])
		return k0 > limit && k1 > limit || k0 < -limit && k1 < -limit
	}
	from := 0
	for from < n-1 && runsOn(from) { // begin where a circuit's runs do not hang over
		from++
	}
	var best Finding
	worst := 0.0
	flush := func() {
		if worst > 0 {
			c.found = append(c.found, best)
		}
		worst = 0
	}
	for j := range n {
		i := (from + j) % n
		if !runsOn(i) || j == 0 {
			flush()
		}
		s, signed := c.elements[i].Sharpest()
		if k := math.Abs(float64(signed)); k > limit && k > worst*(1+1e-12) {
			worst = k
			best = Finding{TooSharp, i, measure.Length(c.start[i]) + s, measure.Length(1 / k), c.limits.MinRadius}
		}
	}
	flush()
	byChainage(c.found)
}

// byChainage sorts findings of one defect; there are few, and few out of place.
func byChainage(f []Finding) {
	for i := range f {
		for j := i; j > 0 && f[j].Chainage < f[j-1].Chainage; j-- {
			f[j], f[j-1] = f[j-1], f[j]
		}
	}
}

func (c *checker) joints() {
	var jumps []Finding
	for i := range c.elements {
		e := c.elements[i]
		j := c.before(i)
		if kink := math.Abs(float64(e.Kink())); j >= 0 && kink > float64(c.limits.MaxKink)+1e-12 {
			c.add(Kinked, i, c.start[i], measure.Angle(kink), c.limits.MaxKink)
		}
		if j < 0 || c.limits.MaxJump == 0 {
			continue
		}
		jump := math.Abs(first(e) - last(c.elements[j]))
		if jump > float64(c.limits.MaxJump)*(1+1e-12) {
			jumps = append(jumps, Finding{CurvatureJumps, i, measure.Length(c.start[i]), measure.Curvature(jump), c.limits.MaxJump})
		}
	}
	c.found = append(c.found, jumps...)
}

// goesOn reports whether an element is the next part of the very easement of
// which the element before it is a part.
func (c *checker) goesOn(i int) bool {
	j := c.before(i)
	if j < 0 {
		return false
	}
	e, p := c.elements[i].Form(), c.elements[j].Form()
	end := p.From + p.Length
	if p.Back {
		end = p.From - p.Length
	}
	if e.Kink != 0 || math.Abs(float64(end-e.From)) > 1e-9*float64(e.Whole) {
		return false
	}
	e.From, e.Length, e.Kink = p.From, p.Length, p.Kink
	return e == p && p.Whole > p.Length
}

func (c *checker) easements() {
	var quick []Finding
	for i := range c.elements {
		e := c.elements[i].Form()
		lever := e.Shape == curve.CubicParabola || e.Shape == curve.Lath
		if !lever && (!e.Shape.Easement() || e.Start == e.End) || c.goesOn(i) {
			continue
		}
		if e.Whole < c.limits.MinEasement*(1-1e-12) {
			c.add(EasementTooShort, i, c.start[i], e.Whole, c.limits.MinEasement)
		}
		rate := math.Abs(float64(e.End-e.Start)) / float64(e.Whole) * e.Shape.RampRate(0.5) // steepest at the middle
		if lever {
			rate = math.Hypot(e.Rate, e.Across) // of the moment, at most
		}
		if a := 1 / math.Sqrt(rate); a < float64(c.limits.MinParameter)*(1-1e-12) {
			quick = append(quick, Finding{CurvatureTooQuick, i, measure.Length(c.start[i]), measure.Length(a), c.limits.MinParameter})
		}
	}
	c.found = append(c.found, quick...)
}

// reverses looks for curves of opposite hand with too short a straight
// between them.
func (c *checker) reverses() {
	if c.limits.MinStraight == 0 {
		return
	}
	var curved []int
	for i := range c.elements {
		if _, k := c.elements[i].Sharpest(); k != 0 {
			curved = append(curved, i)
		}
	}
	var found []Finding
	for m, i := range curved {
		j := m - 1
		if j < 0 {
			if j = len(curved) - 1; !c.closed {
				continue
			}
		}
		j = curved[j]
		p, e := c.elements[j], c.elements[i]
		end := c.start[j] + float64(p.Length())
		gap := 0.0
		for s := j + 1; s != i && (s != len(c.elements) || i != 0); s++ {
			if s == len(c.elements) {
				s = 0
			}
			gap += float64(c.elements[s].Length())
		}
		// The hands just off the joint; eased on both sides is no concern here.
		hand0 := p.CurvatureAt(p.Length()*(1-1e-3)) > 0
		hand1 := e.CurvatureAt(e.Length()*1e-3) > 0
		eased := last(p) == 0 && first(e) == 0
		if hand0 == hand1 || eased || gap >= float64(c.limits.MinStraight)*(1-1e-12) {
			continue
		}
		if c.closed && end >= c.length {
			end -= c.length
		}
		found = append(found, Finding{StraightTooShort, i, measure.Length(end), measure.Length(gap), c.limits.MinStraight})
	}
	byChainage(found)
	c.found = append(c.found, found...)
}
