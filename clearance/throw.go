package clearance

import (
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Throw is what one body does on a curve of constant radius, long enough to
// hold the whole vehicle.
//
// With pivots at the radii ρr and ρf (ρ² = R² - (p/2)² + e² for a carrier of
// wheelbase p whose pin stands e from its middle) and the spacing C, the body's
// centre line passes the curve's centre at the distance m, x0 ahead of midway
// between the pivots: x0 = (ρr² - ρf²)/2C, m² = ρr² - (C/2 + x0)². A point x
// along the body and y towards the centre is √((x-x0)² + (m-y)²) from the
// centre. Plane geometry, exact.
type Throw struct {
	Radius  measure.Length // to the track centreline
	Centre  measure.Length // of the body's centre line, inwards, at its innermost: R - m
	Rear    measure.Length // of the body's centre line at the rear end, outwards
	Front   measure.Length // of the body's centre line at the front end, outwards
	Inside  measure.Length // reach to the inside of the curve, body corners and sides counted
	Outside measure.Length // reach to the outside of the curve, body corners counted

	CentreApprox measure.Length // C²/8R, engineering notes
	EndApprox    measure.Length // (L²-C²)/8R, engineering notes, L the body's length over its ends; for overhangs alike at both ends and no bogie wheelbase
	RearSwing    measure.Angle  // turn of the rear carrier against the body; 0 for an axle fixed in the body
	FrontSwing   measure.Angle  // turn of the front carrier against the body
	Attack       measure.Angle  // of the leading wheels on the rail: asin(wheelbase/2R) of the rigid wheelbase, or of the carrier with the longer one
}

// End returns the larger of the two end throws.
func (t Throw) End() measure.Length { return max(t.Rear, t.Front) }

// CentreError returns by how much the approximation C²/8R is more than the
// exact centre throw.
func (t Throw) CentreError() measure.Length { return t.CentreApprox - t.Centre }

// EndError returns by how much the approximation (L²-C²)/8R is more than the
// larger of the exact end throws.
func (t Throw) EndError() measure.Length { return t.EndApprox - t.End() }

// Throws returns the throw of each of the vehicle's bodies on a curve of the
// given radius, to the left or to the right, whichever asks for more. A
// carrier's own outline and trucks are left out: Sweep counts them.
func Throws(v Vehicle, radius measure.Length) ([]Throw, error) {
	l := fault.In("clearance")
	v.check(l, v.field())
	fault.Positive(l, "radius", radius)
	if err := l.Err(); err != nil {
		return nil, err
	}
	throws := make([]Throw, len(v.Bodies))
	for i, b := range v.Bodies {
		c, ok := b.chord(float64(radius), v.Carriers[i], v.Carriers[i+1])
		if !ok {
			l.NoAnswer(v.field()+": radius", radius, fmt.Sprintf("is too sharp for both pivots to stand on the line: it must be more than about %v", b.leastRadius(v.Carriers[i], v.Carriers[i+1])))
			return nil, l.Err()
		}
		throws[i] = b.throw(c, v.Carriers[i], v.Carriers[i+1])
	}
	return throws, nil
}

// An arcChord is a body's place on a curve: m from the centre, x0 ahead of
// midway between the pivots.
type arcChord struct{ R, x0, m float64 }

// pivotRadius returns ρ of a pivot that stands e ahead of its carrier's middle.
func pivotRadius(R float64, c Carrier, e measure.Length) float64 {
	p := float64(c.Wheelbase)
	return math.Sqrt((R-p/2)*(R+p/2) + float64(e)*float64(e))
}

// pins returns how far the body's rear and front pivots are ahead of the
// middles of their carriers.
func pins(rear, front Carrier) (er, ef measure.Length) {
	return rear.Pin + rear.Apart/2, front.Pin - front.Apart/2
}

func (b Body) chord(R float64, rear, front Carrier) (arcChord, bool) {
	er, ef := pins(rear, front)
	a, f, C := pivotRadius(R, rear, er), pivotRadius(R, front, ef), float64(b.Pivots)
	x0 := (a - f) * (a + f) / (2 * C)
	m := math.Sqrt((a - C/2 - x0) * (a + C/2 + x0))
	p := float64(max(rear.Wheelbase, front.Wheelbase))
	return arcChord{R, x0, m}, m > R*chordLimit && (R-p/2)*(R+p/2) > R*R*chordLimit*chordLimit
}

// leastRadius is the radius at which the chord of the pivots meets the limit.
func (b Body) leastRadius(rear, front Carrier) measure.Length {
	C := float64(b.Pivots)
	return measure.Length(math.Sqrt((C*C+float64(max(rear.Wheelbase, front.Wheelbase)*max(rear.Wheelbase, front.Wheelbase)))/(1-chordLimit*chordLimit)) / 2)
}

// off returns how far the point is outside the circle of radius R, inside
// negative, without the cancellation of √… - R.
func (c arcChord) off(x, y float64) float64 {
	dx, dy := x-c.x0, c.m-y
	return (dx*dx + (dy-c.R)*(dy+c.R)) / (math.Hypot(dx, dy) + c.R)
}

func (b Body) throw(c arcChord, rear, front Carrier) Throw {
	lo, hi := b.extent()
	C, L := float64(b.Pivots), float64(hi-lo)
	inside, outside := math.Inf(-1), math.Inf(-1)
	for _, band := range b.Bands {
		o := band.Outline
		for i, p := range o {
			q := o[(i+1)%len(o)]
			outside = max(outside, c.off(float64(p.Along), float64(p.Across)), c.off(float64(p.Along), -float64(p.Across)))
			inside = max(inside, -c.nearest(p, q), -c.nearest(Point{p.Along, -p.Across}, Point{q.Along, -q.Across}))
		}
	}
	er, ef := pins(rear, front)
	swing := func(x float64, car Carrier, e measure.Length) measure.Angle {
		if car.Wheelbase == 0 {
			return 0
		}
		p := float64(car.Wheelbase)
		return measure.Angle(math.Atan(x/c.m) - math.Atan(float64(e)/math.Sqrt((c.R-p/2)*(c.R+p/2))))
	}
	t := Throw{
		Radius:       measure.Length(c.R),
		Centre:       measure.Length(-c.off(c.x0, 0)),
		Rear:         measure.Length(c.off(float64(lo), 0)),
		Front:        measure.Length(c.off(float64(hi), 0)),
		Inside:       measure.Length(inside),
		Outside:      measure.Length(outside),
		CentreApprox: measure.Length(C * C / (8 * c.R)),
		EndApprox:    measure.Length((L*L - C*C) / (8 * c.R)),
		RearSwing:    -swing(-C/2-c.x0, rear, er),
		FrontSwing:   swing(C/2-c.x0, front, ef),
	}
	base := max(rear.Wheelbase, front.Wheelbase)
	if base == 0 {
		base = b.Pivots
	}
	t.Attack = measure.Angle(math.Asin(float64(base) / (2 * c.R)))
	return t
}

// nearest returns the least off on the side from p to q.
func (c arcChord) nearest(p, q Point) float64 {
	px, py := float64(p.Along)-c.x0, float64(p.Across)-c.m
	dx, dy := float64(q.Along-p.Along), float64(q.Across-p.Across)
	t := max(0, min(1, -(px*dx+py*dy)/(dx*dx+dy*dy)))
	return c.off(float64(p.Along)+t*dx, float64(p.Across)+t*dy)
}

// chordLimit is the cosine of the steepest angle at which the chord of two
// points on the line may stand to the line: 75°.
const chordLimit = 0.25881904510252074
