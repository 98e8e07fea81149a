package curve

import (
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// Limits are what [Alignment.Check] holds a line to. A zero field is not
// checked, but for MaxKink, where zero allows no kink.
type Limits struct {
	MinRadius measure.Length // smallest radius
	MaxKink   measure.Angle  // largest sudden turn of the heading

	// MaxJump is the largest sudden change of curvature: 1/R lets a straight
	// lead into an arc of radius R without an easement (NEM 113: easements may
	// be left out above a radius of 60 gauges).
	MaxJump measure.Curvature

	MinEasement measure.Length // shortest easement

	// MinParameter is the smallest clothoid parameter A: the curvature may
	// change by 1/A² a millimetre, and an easement from a straight to R must
	// be A²/R long if a clothoid, 1.5 times as long if Bloss, π/2 if cosine,
	// twice if sine or Helmert.
	MinParameter measure.Length

	// MinStraight is the shortest straight between curves of opposite hand,
	// unless easements lead out of the one and into the other.
	MinStraight measure.Length
}

// A Defect is a kind of finding.
type Defect uint8

// The defects, in the order of the limits.
const (
	TooSharp Defect = iota + 1
	Kinked
	CurvatureJumps
	EasementTooShort
	CurvatureTooQuick
	StraightTooShort
)

var defectNames = [...]string{
	"no defect", "radius", "kink", "jump of curvature", "length of easement",
	"clothoid parameter of easement", "straight between reverse curves",
}

// String names what was measured, as in "radius".
func (d Defect) String() string {
	if int(d) < len(defectNames) {
		return defectNames[d]
	}
	return "unknown defect"
}

// A Finding is a place where a line breaks a limit.
type Finding struct {
	Defect   Defect
	Element  int            // from 0: that is at fault, or that begins at the joint at fault
	Chainage measure.Length // of the place, or where it begins
	Value    fmt.Stringer   // a measure.Length, or of a kink a measure.Angle, of a jump a measure.Curvature
	Limit    fmt.Stringer   // of the same type
}

// String returns the finding as a sentence.
func (f Finding) String() string {
	bound := "at least"
	if f.Defect == Kinked || f.Defect == CurvatureJumps {
		bound = "at most"
	}
	return fmt.Sprintf("element %d at chainage %v: %v %v: must be %s %v", f.Element+1, f.Chainage, f.Defect, f.Value, bound, f.Limit)
}

// Check returns where the line breaks the limits, defect by defect and then by
// chainage. On a circuit the joint of end and start counts as any other.
func (a *Alignment) Check(limits Limits) ([]Finding, error) {
	l := fault.In("curve")
	fault.NotNegative(l, "smallest radius", limits.MinRadius)
	fault.NotNegative(l, "largest kink", limits.MaxKink)
	fault.NotNegative(l, "largest jump of curvature", limits.MaxJump)
	fault.NotNegative(l, "shortest easement", limits.MinEasement)
	fault.NotNegative(l, "smallest clothoid parameter", limits.MinParameter)
	fault.NotNegative(l, "shortest straight", limits.MinStraight)
	if !l.OK() {
		return nil, l.Err()
	}
	c := checker{a, limits, nil}
	c.radii()
	c.joints()
	c.easements()
	c.reverses()
	return c.found, nil
}

type checker struct {
	*Alignment
	limits Limits
	found  []Finding
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

// sharpest returns the element's largest curvature, without its sign, and
// where it is from the element's start.
func (e *Element) sharpest() (k, s float64) {
	n := 1
	if e.shape == Lath && (e.k0 != 0 || e.b != 0) {
		n = 64 // its curvature may rise and fall
	}
	for j := range n + 1 {
		at := e.length * float64(j) / float64(n)
		if x := math.Abs(e.curvature(at)); x > k {
			k, s = x, at
		}
	}
	return k, s
}

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
		k0, k1 := c.elements[j].curvature(c.elements[j].length), c.elements[i].curvature(0)
		return k0 > limit && k1 > limit || k0 < -limit && k1 < -limit
	}
	first := 0
	for first < n-1 && runsOn(first) { // begin where a circuit's runs do not hang over
		first++
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
		i := (first + j) % n
		if !runsOn(i) || j == 0 {
			flush()
		}
		if k, s := c.elements[i].sharpest(); k > limit && k > worst*(1+1e-12) {
			worst = k
			best = Finding{TooSharp, i, measure.Length(c.start[i] + s), measure.Length(1 / k), c.limits.MinRadius}
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
		e := &c.elements[i]
		j := c.before(i)
		if kink := math.Abs(e.kink); j >= 0 && kink > float64(c.limits.MaxKink)+1e-12 {
			c.add(Kinked, i, c.start[i], measure.Angle(kink), c.limits.MaxKink)
		}
		if j < 0 || c.limits.MaxJump == 0 {
			continue
		}
		jump := math.Abs(e.curvature(0) - c.elements[j].curvature(c.elements[j].length))
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
	if j < 0 || c.elements[i].kink != 0 {
		return false
	}
	e, p := c.elements[i], c.elements[j]
	end, next := p.from+p.length, e.from
	if e.back {
		end, next = p.from-p.length, e.from
	}
	if math.Abs(end-next) > 1e-9*e.whole {
		return false
	}
	e.from, e.length, e.kink = p.from, p.length, p.kink
	return e == p && p.whole > p.length
}

func (c *checker) easements() {
	var quick []Finding
	for i := range c.elements {
		e := &c.elements[i]
		if e.k0 == e.k1 && !e.shape.lever() || c.goesOn(i) {
			continue
		}
		if !e.shape.Easement() && !e.shape.lever() {
			continue
		}
		if e.whole < float64(c.limits.MinEasement)*(1-1e-12) {
			c.add(EasementTooShort, i, c.start[i], measure.Length(e.whole), c.limits.MinEasement)
		}
		rate := math.Abs(e.k1-e.k0) / e.whole * e.shape.steepest()
		if e.shape.lever() {
			rate = math.Hypot(e.k1, e.b) // of the moment, at most
		}
		if a := 1 / math.Sqrt(rate); a < float64(c.limits.MinParameter)*(1-1e-12) {
			quick = append(quick, Finding{CurvatureTooQuick, i, measure.Length(c.start[i]), measure.Length(a), c.limits.MinParameter})
		}
	}
	c.found = append(c.found, quick...)
}

// steepest is the largest rate of change of each law.
func (s Shape) steepest() float64 { return s.RampRate(0.5) }

// reverses looks for curves of opposite hand with too short a straight
// between them.
func (c *checker) reverses() {
	if c.limits.MinStraight == 0 {
		return
	}
	var curved []int
	for i := range c.elements {
		if k, _ := c.elements[i].sharpest(); k != 0 {
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
		p, e := &c.elements[j], &c.elements[i]
		end := c.start[j] + p.length
		gap := 0.0
		for s := j + 1; s != i && (s != len(c.elements) || i != 0); s++ {
			if s == len(c.elements) {
				s = 0
			}
			gap += c.elements[s].length
		}
		// The hands just off the joint; eased on both sides is no concern here.
		hand0 := p.curvature(p.length*(1-1e-3)) > 0
		hand1 := e.curvature(e.length*1e-3) > 0
		eased := p.curvature(p.length) == 0 && e.curvature(0) == 0
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
