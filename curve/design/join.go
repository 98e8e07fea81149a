package design

import (
	"context"
	"errors"
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Family is a kind of line that joins two poses.
type Family uint8

const (
	// TwoArcs is two arcs that touch, of one hand or of both. With easements:
	// easement, arc, easement from one curvature to the other, arc, easement.
	TwoArcs Family = iota
	// ArcStraightArc is an arc, a straight and an arc, each arc with an
	// easement at both ends if wanted.
	ArcStraightArc
)

// String returns "two arcs" or "arc, straight, arc".
func (f Family) String() string {
	switch f {
	case TwoArcs:
		return "two arcs"
	case ArcStraightArc:
		return "arc, straight, arc"
	}
	return "unknown family"
}

// A Join asks for the member of a family that joins two poses with the
// largest smallest radius.
type Join struct {
	From, To  curve.Pose
	Family    Family
	Ease      measure.Length // of every easement, 0 for none
	Shape     curve.Shape    // of the easements; the zero value means curve.Clothoid
	MaxLength measure.Length // of the whole join; 0 means no limit
	MaxTurn   measure.Angle  // of each arc with the easements from or to a straight; 0 means 180°
}

// A Bound is what keeps a join's smallest radius from being larger.
type Bound uint8

const (
	// BoundBalance: the two radii are equal, and making either larger makes the
	// other smaller.
	BoundBalance Bound = iota
	// BoundStraight: no straight is left between the arcs.
	BoundStraight
	// BoundTurn: an arc turns as much as is allowed.
	BoundTurn
	// BoundArc: an arc has no length left between its ends.
	BoundArc
	// BoundLength: the join is as long as is allowed.
	BoundLength
	// BoundTouch: with a larger radius no second arc reaches the other.
	BoundTouch
)

// String returns the bound in words.
func (b Bound) String() string {
	switch b {
	case BoundBalance:
		return "the two radii are equal"
	case BoundStraight:
		return "no straight is left between the arcs"
	case BoundTurn:
		return "an arc turns as much as is allowed"
	case BoundArc:
		return "an arc has no length left"
	case BoundLength:
		return "the join is as long as is allowed"
	case BoundTouch:
		return "no second arc reaches the first"
	}
	return "unknown bound"
}

// A Joined is a line that joins two poses.
type Joined struct {
	Line                   // with Bends only in the family ArcStraightArc
	Radius  measure.Length // the smaller of the two
	Bound   Bound          // what keeps Radius from being larger
	Arcs    [2]JoinArc
	Between measure.Length // of the straight, or of the easement between two arcs
}

// A JoinArc is one arc of a join.
type JoinArc struct {
	Radius measure.Length
	Hand   curve.Hand
	Turn   measure.Angle // of the arc alone, positive
	Length measure.Length
	Centre r2.Vec
}

// The range of radii that is searched, as parts of the distance of the poses.
const (
	joinSmallest = 1e-3
	joinLargest  = 1e3
)

// Line finds the member with the largest smallest radius. Where none fits, or
// where a straight joins the poses so that nothing bounds the radius, the
// error wraps measure.ErrNoAnswer and says why. Radii from a thousandth of the
// distance of the poses to a thousand times that are searched, both of them: a
// range of the smaller one that is wider than 1e-4 of itself is not passed by.
// A search of more than [MaxJoinBoxes] ends with measure.ErrLimit: very many
// members then come near to fitting.
//
// Two arcs of opposite hands with a straight between, plain and turning up to
// 180°, are best of one radius, since with a larger one both turns and the
// length grow and the straight shrinks. Of one hand a larger radius turns the
// other arc less, and two different radii may be better.
//
// The arcs' centres follow from the poses and the easements' own ends; the
// straight between is the common tangent of two circles, and two arcs that
// touch (or have an easement between them) have their centres at the
// distance R1 ± R2 (or that of the easement's own two centres).
func (j Join) Line(ctx context.Context) (Joined, error) {
	l := fault.In("design")
	s, ok := j.search(l)
	if !ok {
		return Joined{}, l.Err()
	}
	m, ok, err := s.largest(ctx)
	if err != nil {
		return Joined{}, err
	}
	if !ok {
		why, err := s.why(ctx)
		if err != nil {
			return Joined{}, err
		}
		l.NoAnswer("family", fmt.Sprintf("%q", j.Family), "no member of the family fits: "+why)
		return Joined{}, l.Err()
	}
	if m.smallest() > joinLargest*(1-1e-3) {
		l.NoAnswer("radius", nil, fmt.Sprintf("nothing bounds it: more than %.4g mm fits; a straight is all but enough", joinLargest*s.scale))
		return Joined{}, l.Err()
	}
	return s.build(m)
}

// A joiner searches one join in the frame of its first pose, in parts of the
// distance of the poses.
type joiner struct {
	Join
	scale     float64
	end       r2.Vec  // the second pose, one from the origin
	heading   float64 // of the second pose
	ease      float64
	maxLength float64
	maxTurn   float64
	shape     curve.Shape
	ramp      *ramp
}

func (j Join) search(l *fault.List) (*joiner, bool) {
	s := &joiner{Join: j, shape: Easing{Shape: j.Shape}.shape(), maxLength: math.Inf(1), maxTurn: math.Pi}
	from, to := checkPose(l, "from", j.From), checkPose(l, "to", j.To)
	fault.NotNegative(l, "easement", j.Ease)
	checkShape(l, "shape", s.shape, j.Family == TwoArcs)
	fault.NotNegative(l, "longest join", j.MaxLength)
	fault.Between(l, "largest turn", j.MaxTurn, 0, 2*math.Pi)
	if j.Family > ArcStraightArc {
		l.Add("family", uint8(j.Family), "must be TwoArcs or ArcStraightArc")
	}
	if !from || !to {
		return nil, false
	}
	v := r2.Sub(j.To.Point, j.From.Point)
	s.scale = r2.Norm(v)
	if s.scale < 1e-6 {
		l.Add("to point", j.To.Point, "must not be the place of the first pose")
	}
	if !l.OK() {
		return nil, false
	}
	s.end = r2.Scale(1/s.scale, forward(r2.Vec{}, -float64(j.From.Heading), v.X, v.Y))
	s.heading = math.Remainder(float64(j.To.Heading-j.From.Heading), 2*math.Pi)
	s.ease = float64(j.Ease) / s.scale
	if j.MaxLength > 0 {
		s.maxLength = float64(j.MaxLength) / s.scale
		if s.maxLength < 1 {
			l.NoAnswer("longest join", j.MaxLength, fmt.Sprintf("the poses are %.6g mm apart", s.scale))
		}
	}
	if j.MaxTurn > 0 {
		s.maxTurn = float64(j.MaxTurn)
	}
	if math.Abs(s.end.Y) < 1e-9 && s.end.X > 0 && math.Abs(s.heading) < 1e-9 {
		l.NoAnswer("poses", nil, fmt.Sprintf("a straight of %.6g mm joins them: nothing bounds the radius", s.scale))
	}
	var err error
	s.ramp, err = newRamp(s.shape)
	l.Join(err)
	return s, l.OK()
}

// A member is one line of the family, in the joiner's frame.
type member struct {
	k1, k2     float64 // curvatures of the arcs, left positive
	arc1, arc2 float64 // turns of the arcs alone, positive
	straight   float64
	slack      slack

	missing         float64 // to two arcs touching, signed; of a straight between them its square, negative where there is none
	turn1, turn2    float64 // of the arcs with the easements from or to a straight
	heading, square float64 // after the first arc, and where the straight has no length (of two arcs, of the way between the centres that they have)
	centres         float64 // heading from one centre to the other
	mid             float64 // what the easement between two arcs turns
	length          float64 // of the whole
}

// A slack is how much of each limit is left, below zero where it is broken:
// lengths in parts of the poses' distance, turns in radians.
type slack [BoundTouch + 1]float64

func newSlack() slack {
	inf := math.Inf(1)
	return slack{inf, inf, inf, inf, inf, inf}
}

func (s *slack) limit(b Bound, left float64) { s[b] = min(s[b], left) }

// tightest returns the limit with the least left.
func (s slack) tightest() (Bound, float64) {
	b := BoundStraight
	for i := BoundStraight; i <= BoundTouch; i++ {
		if s[i] < s[b] || s[i] != s[i] {
			b = i
		}
	}
	if s[b] != s[b] {
		return b, math.Inf(-1)
	}
	return b, s[b]
}

func (m member) left() float64 {
	_, x := m.slack.tightest()
	return x
}

func (m member) smallest() float64 { return 1 / max(math.Abs(m.k1), math.Abs(m.k2)) }

func (m member) largest() float64 { return 1 / min(math.Abs(m.k1), math.Abs(m.k2)) }

// joinWithin is the narrowest range of radii, in parts of the radius, that a
// join's search cannot pass by.
const joinWithin = 1e-4

// largest finds the member with the largest smaller radius.
func (s *joiner) largest(ctx context.Context) (member, bool, error) {
	k := &seeker{joiner: s, ctx: ctx, tiny: 1e-12}
	boxes := s.boxes(joinSmallest, everyHand...)
	in, out, ok, err := k.top(joinSmallest, joinLargest, boxes, joinWithin)
	if err != nil || !ok {
		return member{}, false, err
	}
	in, err = k.edge(in, out, boxes, 1e-15)
	return in.m, true, err
}

// why says what keeps every member from fitting, by letting go of each limit
// in turn.
func (s *joiner) why(ctx context.Context) (string, error) {
	var out []string
	try := func(j Join, say func(Joined) string) error {
		relaxed, ok := j.search(fault.In("design"))
		if !ok {
			return nil
		}
		m, ok, err := relaxed.largest(ctx)
		if err != nil || !ok {
			return err
		}
		if got, err := relaxed.build(m); err == nil {
			out = append(out, say(got))
		}
		return nil
	}
	var errs []error
	if s.MaxLength > 0 {
		j := s.Join
		j.MaxLength = 0
		errs = append(errs, try(j, func(g Joined) string {
			return fmt.Sprintf("any length allowed, the gentlest has a radius of %.6g mm and is %.6g mm long", float64(g.Radius), float64(g.Length()))
		}))
	}
	if s.maxTurn < 2*math.Pi {
		j := s.Join
		j.MaxTurn = 2 * math.Pi
		errs = append(errs, try(j, func(g Joined) string {
			return fmt.Sprintf("any turn allowed, the gentlest has a radius of %.6g mm and its arcs turn %.4g° and %.4g°",
				float64(g.Radius), g.Arcs[0].Turn.Degrees(), g.Arcs[1].Turn.Degrees())
		}))
	}
	if s.Ease > 0 {
		j := s.Join
		j.Ease = 0
		errs = append(errs, try(j, func(g Joined) string {
			return fmt.Sprintf("without easements the gentlest has a radius of %.6g mm", float64(g.Radius))
		}))
	}
	if err := errors.Join(errs...); err != nil {
		return "", err
	}
	if len(out) == 0 {
		return "no one limit stands in the way; take the other family or move a pose", nil
	}
	return strings.Join(out, "; "), nil
}

// bound tells what keeps the member's smallest radius from being larger.
func (m member) bound() Bound {
	const tight = 1e-6
	if b, left := m.slack.tightest(); left < tight {
		return b
	}
	if d := math.Abs(m.k1) - math.Abs(m.k2); math.Abs(d) < tight*math.Abs(m.k1) {
		return BoundBalance
	}
	return BoundTouch
}

// build makes the member in full size.
func (s *joiner) build(m member) (Joined, error) {
	l := fault.In("design")
	out := Joined{Line: Line{Start: s.From}, Radius: measure.Length(m.smallest() * s.scale), Bound: m.bound()}
	for i, k := range [2]float64{m.k1, m.k2} {
		turn := [2]float64{m.arc1, m.arc2}[i]
		if s.ease == 0 && turn/math.Abs(k) < roundingLength/s.scale {
			turn, k = 0, math.Copysign(1/m.smallest(), k) // no arc: any radius will do
		}
		r := s.scale / math.Abs(k)
		out.Arcs[i] = JoinArc{Radius: measure.Length(r), Hand: handOf(k), Turn: measure.Angle(turn), Length: measure.Length(r * turn)}
	}
	if s.Family == ArcStraightArc {
		out.Between = measure.Length(m.straight * s.scale)
		s.buildStraight(l, &out)
	} else {
		out.Between = s.Ease
		s.buildTwo(l, &out)
	}
	if !l.OK() {
		return Joined{}, l.Err()
	}
	return out, nil
}
