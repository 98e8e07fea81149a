package coupling

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Car is a vehicle with what couples it. Plain data; Validate says whether it
// can be used, and every function that takes a car asks it.
type Car struct {
	Vehicle     clearance.Vehicle
	Rear, Front End
}

// Turned returns the car turned end for end.
func (c Car) Turned() Car {
	return Car{c.Vehicle.Turned(), c.Front.turned(), c.Rear.turned()}
}

// An End is what couples a car at one of its ends. Places are Along in the axes
// of the body there, forward from midway between its pivots, so they are below
// zero at the rear.
type End struct {
	Hinge     measure.Length // what the coupler swings about; of a hook that does not swing, its face
	Length    measure.Length // from the hinge to where it meets the other coupler, 0 for one that does not swing
	OnCarrier bool           // the coupler is on the bogie, not on the body: Hinge is then from the bogie's middle
	Swing     measure.Angle  // the most that the coupler can swing, each way from the middle; 0 is not limited
	Buffers   Buffers
}

func (e End) turned() End {
	e.Hinge, e.Buffers.Face = -e.Hinge, -e.Buffers.Face
	return e
}

// Buffers are the buffer heads of one end, which are on its body. The zero
// value is none.
type Buffers struct {
	Face    measure.Length // of the heads, Along in the axes of the body
	Centres measure.Length // between the middles of the two heads; 0 is one in the middle
	Width   measure.Length // of a head, across; the diameter of a round one
	Least   measure.Length // overlap that is to remain of the heads; 0 lets them part only just
}

func (b Buffers) some() bool { return b != Buffers{} }

// Validate reports everything that is wrong with the car: the vehicle must be
// sound; lengths and swings finite and not below zero, a swing below a right
// angle; a hinge and a buffer face at the rear behind the body's middle, at the
// front ahead of it; heads wider than nothing and than the overlap wanted.
func (c Car) Validate() error {
	l := fault.In("coupling")
	c.check(l, c.field("car"))
	return l.Err()
}

func (c Car) field(f string) string {
	if c.Vehicle.Name != "" {
		return f + " " + c.Vehicle.Name
	}
	return f
}

func (c Car) check(l *fault.List, field string) {
	l.JoinAs(field, c.Vehicle.Validate())
	c.Rear.check(l, field+": rear", -1)
	c.Front.check(l, field+": front", 1)
}

func (e End) check(l *fault.List, field string, sign measure.Length) {
	where := "ahead of the middle, above"
	if sign < 0 {
		where = "behind the middle, below"
	}
	if fault.Finite(l, field+": hinge", e.Hinge) && e.Hinge*sign <= 0 {
		l.Add(field+": hinge", e.Hinge, "must be "+where+" 0 mm")
	}
	fault.NotNegative(l, field+": coupler length", e.Length)
	fault.Between(l, field+": swing", e.Swing, 0, 90*measure.Degree)
	b := e.Buffers
	if !b.some() {
		return
	}
	if fault.Finite(l, field+": buffer face", b.Face) && b.Face*sign <= 0 {
		l.Add(field+": buffer face", b.Face, "must be "+where+" 0 mm")
	}
	fault.NotNegative(l, field+": buffer centres", b.Centres)
	if fault.Positive(l, field+": buffer width", b.Width) && fault.NotNegative(l, field+": least overlap", b.Least) && b.Least >= b.Width {
		l.Add(field+": least overlap", b.Least, fmt.Sprintf("must be below the width of a head, %v", b.Width))
	}
}

// A Pair is two cars coupled, the one behind the other.
type Pair struct {
	Behind, Ahead Car
}

// Swapped returns the pair as it is met running the other way: each car turned
// end for end, the one that was ahead behind.
func (p Pair) Swapped() Pair { return Pair{p.Ahead.Turned(), p.Behind.Turned()} }

// Validate reports everything that is wrong with the pair: both cars must be
// sound, and either both have buffers where they meet or neither has.
func (p Pair) Validate() error {
	l := fault.In("coupling")
	p.check(l)
	return l.Err()
}

func (p Pair) check(l *fault.List) {
	p.Behind.check(l, p.Behind.field("car behind"))
	p.Ahead.check(l, p.Ahead.field("car ahead"))
	if a, b := p.Behind.Front.Buffers.some(), p.Ahead.Rear.Buffers.some(); a != b {
		l.Add("buffers", "on one of the two ends", "must be on both or on neither")
	}
}

// buffered reports whether the pair has buffers where it meets.
func (p Pair) buffered() bool { return p.Behind.Front.Buffers.some() }

// bare returns the vehicle as it stands, with no more outline than it needs.
func bare(v clearance.Vehicle) clearance.Vehicle {
	b := clearance.Vehicle{Name: v.Name}
	for _, c := range v.Carriers {
		c.Bands = nil
		b.Carriers = append(b.Carriers, c)
	}
	for _, body := range v.Bodies {
		reach := 2 * float64(body.Pivots)
		b.Bodies = append(b.Bodies, clearance.Body{
			Name: body.Name, Pivots: body.Pivots,
			Bands: []clearance.Band{{Top: 1, Outline: clearance.Outline{{Along: measure.Length(-reach)}, {Along: measure.Length(reach)}, {Across: 1}}}},
		})
	}
	return b
}

// long returns a generous length over the ends of the car.
func (c Car) long() float64 {
	l := 0.0
	for _, b := range c.Vehicle.Bodies {
		l += float64(b.Pivots)
	}
	for _, k := range c.Vehicle.Carriers {
		l += float64(k.Wheelbase) + math.Abs(float64(k.Pin))
	}
	return l + math.Abs(float64(c.Rear.Hinge)) + float64(c.Rear.Length) + math.Abs(float64(c.Front.Hinge)) + float64(c.Front.Length)
}

// shortest returns the shortest pivot spacing of the car.
func (c Car) shortest() float64 {
	p := math.Inf(1)
	for _, b := range c.Vehicle.Bodies {
		p = min(p, float64(b.Pivots))
	}
	return p
}

// A tip is one end of a standing car.
type tip struct {
	hinge, face r2.Vec // where the coupler swings, and where its face is when it does not
	dir         r2.Vec // of what carries the coupler, along the car
	body        r2.Vec // direction of the body
	heads       [2]r2.Vec
}

// tip returns an end of a car that stands.
func (e End) tip(st clearance.Stance, front bool) tip {
	body, carrier, sign := st.Bodies[0], st.Carriers[0], measure.Length(-1)
	if front {
		body, carrier, sign = st.Bodies[len(st.Bodies)-1], st.Carriers[len(st.Carriers)-1], 1
	}
	on := body
	if e.OnCarrier {
		on = carrier
	}
	t := tip{
		hinge: on.Plan(clearance.Point{Along: e.Hinge}),
		face:  on.Plan(clearance.Point{Along: e.Hinge + sign*e.Length}),
		dir:   unit(on.Heading), body: unit(body.Heading),
	}
	for i, side := range [2]measure.Length{1, -1} {
		t.heads[i] = body.Plan(clearance.Point{Along: e.Buffers.Face, Across: side * e.Buffers.Centres / 2})
	}
	return t
}

func unit(a measure.Angle) r2.Vec {
	sin, cos := math.Sincos(float64(a))
	return r2.Vec{X: cos, Y: sin}
}
