package design

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
	"example.org/fourfoot/internal/solve"
)

// A Corner is two straights that meet at an intersection point, to be joined
// by a bend. Make one with [Meet] or [CornerOf].
type Corner struct {
	point    r2.Vec
	in       float64 // heading of the first straight
	turn     float64 // positive
	hand     curve.Hand
	from, to float64 // lengths of the straights
}

// straightest and sharpest are the turns between which a corner is one.
const (
	straightest = 1e-6
	sharpest    = math.Pi - 1e-4
)

// Meet returns the corner between the straight that leaves from and the
// straight that arrives at to; both run as far as the intersection point.
func Meet(from, to curve.Pose) (Corner, error) {
	l := fault.In("design")
	if a, b := checkPose(l, "from", from), checkPose(l, "to", to); !a || !b {
		return Corner{}, l.Err()
	}
	turn := math.Remainder(float64(to.Heading-from.Heading), 2*math.Pi)
	if !checkTurn(l, "turn", turn) {
		return Corner{}, l.Err()
	}
	u, v := unit(from.Heading), unit(to.Heading)
	d := r2.Sub(to.Point, from.Point)
	det := u.X*v.Y - u.Y*v.X
	s := (d.X*v.Y - d.Y*v.X) / det
	t := (d.X*u.Y - d.Y*u.X) / det
	if s <= 0 {
		l.NoAnswer("from", nil, fmt.Sprintf("the intersection point lies %.4g mm behind it; it must lie ahead", -s))
	}
	if t >= 0 {
		l.NoAnswer("to", nil, fmt.Sprintf("the intersection point lies %.4g mm past it; it must lie before", t))
	}
	if !l.OK() {
		return Corner{}, l.Err()
	}
	return Corner{
		point: r2.Add(from.Point, r2.Scale(s, u)), in: float64(from.Heading),
		turn: math.Abs(turn), hand: handOf(turn), from: s, to: -t,
	}, nil
}

// CornerOf returns the corner at the intersection point ip between the
// straights from a to ip and from ip to b.
func CornerOf(a, ip, b r2.Vec) (Corner, error) {
	l := fault.In("design")
	checkPoint(l, "first point", a)
	checkPoint(l, "intersection point", ip)
	checkPoint(l, "last point", b)
	if !l.OK() {
		return Corner{}, l.Err()
	}
	u, v := r2.Sub(ip, a), r2.Sub(b, ip)
	if r2.Norm(u) == 0 || r2.Norm(v) == 0 {
		l.Add("intersection point", ip, "must not lie on another point")
		return Corner{}, l.Err()
	}
	turn := math.Atan2(float64(u.X*v.Y)-float64(u.Y*v.X), r2.Dot(u, v))
	if !checkTurn(l, "turn", turn) {
		return Corner{}, l.Err()
	}
	return Corner{
		point: ip, in: math.Atan2(u.Y, u.X), turn: math.Abs(turn), hand: handOf(turn),
		from: r2.Norm(u), to: r2.Norm(v),
	}, nil
}

func checkTurn(l *fault.List, field string, turn float64) bool {
	a := math.Abs(turn)
	if a < straightest {
		l.NoAnswer(field, fmt.Sprintf("%.4g°", measure.Angle(turn).Degrees()), "the straights are parallel; join them with a reverse curve")
		return false
	}
	if a > sharpest {
		l.NoAnswer(field, fmt.Sprintf("%.6g°", measure.Angle(turn).Degrees()), "the straights run back on each other; use two bends, or poses and a family")
		return false
	}
	return true
}

func unit(h measure.Angle) r2.Vec {
	sin, cos := math.Sincos(float64(h))
	return r2.Vec{X: cos, Y: sin}
}

func handOf(turn float64) curve.Hand {
	if turn < 0 {
		return curve.Right
	}
	return curve.Left
}

// Point returns the intersection point.
func (c Corner) Point() r2.Vec { return c.point }

// Turn returns the turn from the first straight to the second, positive.
func (c Corner) Turn() measure.Angle { return measure.Angle(c.turn) }

// Hand returns the hand of the turn.
func (c Corner) Hand() curve.Hand { return c.hand }

// Straights returns the lengths of the two straights to the intersection
// point.
func (c Corner) Straights() (in, out measure.Length) {
	return measure.Length(c.from), measure.Length(c.to)
}

func (c Corner) check(l *fault.List, ease Easing) bool {
	if c.hand == 0 {
		l.Add("corner", nil, "must be made by Meet or CornerOf")
	}
	ease.check(l, "easement")
	return l.OK()
}

// ByRadius returns the bend of the given radius. If the easements turn more
// than the corner, or a tangent length is more than its straight, the error
// (measure.ErrNoAnswer) tells the longest easements and the radii that fit.
func (c Corner) ByRadius(radius measure.Length, ease Easing) (Bend, error) {
	l := fault.In("design")
	checkRadius(l, "radius", radius)
	if !c.check(l, ease) || !l.OK() {
		return Bend{}, l.Err()
	}
	b, ok := c.bend(l, float64(radius), ease)
	if !ok {
		return Bend{}, l.Err()
	}
	return b, c.room(l, b)
}

// bend places a bend in the corner, whatever the straights' lengths.
func (c Corner) bend(l *fault.List, r float64, ease Easing) (Bend, bool) {
	in, out := ease.halves(r)
	if in.turn+out.turn > c.turn+roundingTurn || in.turn != in.turn || out.turn != out.turn {
		l.NoAnswer("easements", fmt.Sprintf("%v and %v", ease.In, ease.Out),
			fmt.Sprintf("they turn more than the corner's %.5g°, or do not exist at this radius: together they may be %.6g mm long, or the radius must be at least %.6g mm",
				measure.Angle(c.turn).Degrees(), ease.longest(r, c.turn), ease.smallest(c.turn)))
		return Bend{}, false
	}
	t1, _ := tangents(r, c.turn, in, out)
	b, err := bendFrom(curve.Pose{Point: forward(c.point, c.in, -t1, 0), Heading: measure.Angle(c.in)}, c.hand, r, c.turn, ease)
	l.Join(err)
	return b, err == nil
}

// room checks a bend against the straights' lengths.
func (c Corner) room(l *fault.List, b Bend) error {
	if c.fits(float64(b.TangentIn), float64(b.TangentOut)) {
		return nil
	}
	hint := "no radius fits with these easements; make them shorter"
	if r, ok := c.largest(b.Ease); ok {
		hint = fmt.Sprintf("the largest radius that fits is %.6g mm", r)
	}
	if float64(b.TangentIn) > c.from {
		l.NoAnswer("tangent length", b.TangentIn, fmt.Sprintf("the first straight is %.6g mm long; %s", c.from, hint))
	}
	if float64(b.TangentOut) > c.to {
		l.NoAnswer("tangent length", b.TangentOut, fmt.Sprintf("the second straight is %.6g mm long; %s", c.to, hint))
	}
	return l.Err()
}

func (c Corner) fits(t1, t2 float64) bool {
	return t1 <= c.from*(1+1e-14) && t2 <= c.to*(1+1e-14)
}

// Largest returns the bend of the largest radius whose tangent lengths the
// straights can take.
func (c Corner) Largest(ease Easing) (Bend, error) {
	l := fault.In("design")
	if !c.check(l, ease) {
		return Bend{}, l.Err()
	}
	r, ok := c.largest(ease)
	if r > float64(farthest) {
		l.NoAnswer("turn", fmt.Sprintf("%.4g°", measure.Angle(c.turn).Degrees()), "the straights are so nearly in line that a radius of more than 1e9 mm fits; give the radius")
		return Bend{}, l.Err()
	}
	if !ok {
		l.NoAnswer("easements", fmt.Sprintf("%v and %v", ease.In, ease.Out),
			fmt.Sprintf("no radius fits straights of %.6g mm and %.6g mm; easements of about %.4g mm each would", c.from, c.to, c.longest(ease.shape())))
		return Bend{}, l.Err()
	}
	b, ok := c.bend(l, r, ease)
	if !ok {
		return Bend{}, l.Err()
	}
	return b, nil
}

func (c Corner) largest(ease Easing) (float64, bool) {
	return largestRadius(c.turn, c.from, c.to, ease)
}

// largestRadius returns the largest radius of an eased bend whose tangent
// lengths are at most a and b.
func largestRadius(turn, a, b float64, ease Easing) (float64, bool) {
	spare := func(r float64) float64 {
		in, out := ease.halves(r)
		t1, t2 := tangents(r, turn, in, out)
		return min(a-t1, b-t2)
	}
	// Without easements T = R tan Δ/2; easements only take more room.
	hi := min(a, b) / math.Tan(turn/2)
	lo := ease.smallest(turn) * (1 + 1e-12)
	if ease.In == 0 && ease.Out == 0 {
		return hi, true
	}
	if lo >= hi {
		return 0, false
	}
	r, ok := lastRoot(spare, lo, hi)
	for range 8 { // land on the fitting side
		if !ok || spare(r) >= 0 {
			break
		}
		r *= 1 - 1e-15
	}
	return r, ok
}

// longest returns the longest equal easements for which some radius fits.
func (c Corner) longest(shape curve.Shape) float64 {
	lo, hi := 0.0, 2*min(c.from, c.to)
	for range 40 {
		m := (lo + hi) / 2
		if _, ok := c.largest(Ease(shape, measure.Length(m))); ok {
			lo = m
		} else {
			hi = m
		}
	}
	return lo
}

// ByApex returns the bend whose crown is at the given distance from the
// intersection point: the room that the bend leaves on its outside. The room
// on its inside, to a point at distance d from the intersection point on the
// bisector, is d less this.
func (c Corner) ByApex(apex measure.Length, ease Easing) (Bend, error) {
	l := fault.In("design")
	fault.Positive(l, "apex distance", apex)
	if !c.check(l, ease) || !l.OK() {
		return Bend{}, l.Err()
	}
	e := float64(apex)
	f := func(r float64) float64 {
		b, ok := c.bend(fault.In("design"), r, ease)
		if !ok {
			return math.NaN()
		}
		return float64(b.Apex) - e
	}
	lo, hi := c.radiusRange(e, ease)
	r, ok := lastRoot(f, lo, hi)
	if ease.In == 0 && ease.Out == 0 {
		r, ok = hi, true
	}
	if !ok {
		least := math.Inf(1)
		if b, ok := c.bend(fault.In("design"), lo, ease); ok {
			least = float64(b.Apex)
		}
		l.NoAnswer("apex distance", apex, fmt.Sprintf("with these easements it is at least %.6g mm, at a radius of %.6g mm with no arc left; shorten them", least, lo))
		return Bend{}, l.Err()
	}
	return c.ByRadius(measure.Length(r), ease)
}

// radiusRange returns the radii between which a bend can pass at the
// distance e from the intersection point. A bend's apex distance is at least
// the plain arc's, R (sec Δ/2 - 1).
func (c Corner) radiusRange(e float64, ease Easing) (lo, hi float64) {
	sin := math.Sin(c.turn / 4)
	hi = e * math.Cos(c.turn/2) / (2 * sin * sin)
	return max(ease.smallest(c.turn)*(1+1e-12), hi*1e-6), hi
}

// Through returns the bend that passes through p, which must lie inside the
// corner's angle.
func (c Corner) Through(p r2.Vec, ease Easing) (Bend, error) {
	l := fault.In("design")
	checkPoint(l, "point", p)
	if !c.check(l, ease) || !l.OK() {
		return Bend{}, l.Err()
	}
	// In the corner's frame: distance of p from each straight, on the inside.
	h := float64(c.hand)
	d := r2.Sub(p, c.point)
	y1 := h * leftOf(c.in, d)
	y2 := h * leftOf(c.in+h*c.turn, d)
	if y1 <= 0 || y2 <= 0 {
		l.NoAnswer("point", p, "must lie between the straights, on the inside of the bend")
		return Bend{}, l.Err()
	}
	e := r2.Norm(d)
	lo, hi := c.radiusRange(e, ease)
	hi *= 1 + 1e-9
	off := func(r float64) float64 {
		b, ok := c.bend(fault.In("design"), r, ease)
		if !ok {
			return math.NaN()
		}
		return h * b.offset(p, e)
	}
	r, ok := lastRoot(off, lo, hi)
	if !ok {
		l.NoAnswer("point", p, fmt.Sprintf("no bend with easements of %v and %v passes it: the sharpest, of radius %.6g mm, leaves it outside; shorten the easements", ease.In, ease.Out, lo))
		return Bend{}, l.Err()
	}
	return c.ByRadius(measure.Length(r), ease)
}

func leftOf(heading float64, d r2.Vec) float64 {
	sin, cos := math.Sincos(heading)
	return cos*d.Y - sin*d.X
}

// offset returns the offset of p, left positive, from the bend and the
// straights it joins; e is p's distance from the intersection point.
func (b Bend) offset(p r2.Vec, e float64) float64 {
	h := float64(b.Hand)
	d := r2.Sub(p, b.Centre)
	at := h * math.Remainder(math.Atan2(d.Y, d.X)+h*math.Pi/2-float64(b.Start.Heading), 2*math.Pi)
	if at >= float64(b.TurnIn) && at <= float64(b.TurnIn+b.TurnArc) {
		return h * (float64(b.Radius) - r2.Norm(d))
	}
	run := Line{Start: curve.Pose{Point: forward(b.Start.Point, float64(b.Start.Heading), -2*e, 0), Heading: b.Start.Heading}}
	run.straight(2*e, 1)
	run.bend(b)
	run.straight(2*e, 1)
	a, err := run.Alignment()
	if err != nil {
		return math.NaN()
	}
	return float64(a.Nearest(p).Offset)
}

// lastRoot returns the largest root of f between lo and hi, both positive,
// that a descent in equal ratios meets.
func lastRoot(f func(float64) float64, lo, hi float64) (float64, bool) {
	const steps = 96
	if !(lo < hi) {
		return 0, false
	}
	q := math.Pow(lo/hi, 1.0/steps)
	b, fb := hi, f(hi)
	for i := 1; i <= steps; i++ {
		a := hi * math.Pow(q, float64(i))
		if i == steps {
			a = lo
		}
		fa := f(a)
		if fb == 0 {
			return b, true
		}
		if fa < 0 && fb > 0 || fa > 0 && fb < 0 {
			return solve.Brent(f, a, b, 1e-15*b)
		}
		b, fb = a, fa
	}
	return b, fb == 0
}
