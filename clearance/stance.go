package clearance

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Placement is one rigid part of a vehicle as it stands on the line.
type Placement struct {
	Origin  r2.Vec        // of the part's own axes, in plan
	Heading measure.Angle // of its forward axis, in (-π, π]
}

// Plan returns the place in plan of a point of the part.
func (p Placement) Plan(q Point) r2.Vec {
	sin, cos := math.Sincos(float64(p.Heading))
	x, y := float64(q.Along), float64(q.Across)
	return r2.Vec{X: p.Origin.X + x*cos - y*sin, Y: p.Origin.Y + x*sin + y*cos}
}

// A Stance is a vehicle as it stands on the line.
type Stance struct {
	RearAxle  measure.Length // chainage of the rear axle of the rear carrier
	FrontAxle measure.Length // chainage of the front axle of the front carrier
	Bodies    []Placement
	Carriers  []Placement // an axle fixed in a body points along the line
	Trucks    []Placement // of the bodies in turn
}

// Stand returns the vehicle as it stands with the rear axle of its rear carrier
// (a rigid wheelbase's rear axle) at a chainage. An open line goes on straight
// past its ends. The error wraps measure.ErrNoAnswer where the vehicle cannot
// stand.
func Stand(line *curve.Alignment, v Vehicle, rearAxle measure.Length) (Stance, error) {
	l := fault.In("clearance")
	fault.Finite(l, "chainage of the rear axle", rearAxle)
	x, err := NewStander(line, v)
	l.Join(err)
	if err := l.Err(); err != nil {
		return Stance{}, err
	}
	return x.Stand(rearAxle)
}

// A Stander stands one vehicle on one line at many places, at less cost than
// Stand. It is not safe for concurrent use.
type Stander struct {
	rig  *rig
	at   *pose
	last *pose   // where it stood before
	near float64 // it is followed from there when no farther off than this
	st   Stance
}

// NewStander returns the stander of a vehicle, which it checks once.
func NewStander(line *curve.Alignment, v Vehicle) (*Stander, error) {
	l := fault.In("clearance")
	if line == nil {
		l.Add("line", "none", "must be given")
	}
	v.check(l, v.field())
	if err := l.Err(); err != nil {
		return nil, err
	}
	v = v.clone()
	r := newRig(line, &v)
	last := r.newPose()
	last.s = math.Inf(1)
	return &Stander{rig: r, at: r.newPose(), last: last, near: v.longestStep() / 8}, nil
}

// Stand is the function Stand with the stander's line and vehicle; but from a
// place no farther off than 1/32 of the shortest pivot spacing it follows the
// vehicle, as a sweep does. The slices of the stance are the stander's own, good
// until its next call.
func (x *Stander) Stand(rearAxle measure.Length) (Stance, error) {
	l := fault.In("clearance")
	if !fault.Finite(l, "chainage of the rear axle", rearAxle) {
		return Stance{}, l.Err()
	}
	r, s, st := x.rig, float64(rearAxle), &x.st
	p := x.at
	if math.Abs(s-x.last.s) > x.near || r.stand(p, s, x.last) != nil {
		if err := r.stand(p, s, nil); err != nil {
			return Stance{}, err
		}
	}
	x.at, x.last = x.last, p
	st.RearAxle, st.FrontAxle = rearAxle, measure.Length(p.last())
	st.Bodies, st.Carriers, st.Trucks = st.Bodies[:0], st.Carriers[:0], st.Trucks[:0]
	for i := range p.f {
		f := &p.f[i]
		pl := Placement{f.at(r.lead(i), 0), measure.Angle(math.Atan2(f.h.Y, f.h.X))}
		switch nb, nc := len(r.v.Bodies), len(r.v.Carriers); {
		case i < nb:
			st.Bodies = append(st.Bodies, pl)
		case i < nb+nc:
			st.Carriers = append(st.Carriers, pl)
		default:
			st.Trucks = append(st.Trucks, pl)
		}
	}
	return *st, nil
}

// lead returns how far the origin of part i's own axes is ahead of its frame's.
func (r *rig) lead(i int) float64 {
	if nb := len(r.v.Bodies); i < nb {
		return float64(r.v.Bodies[i].Pivots) / 2
	} else if i -= nb; i < len(r.v.Carriers) {
		return float64(r.v.Carriers[i].Wheelbase) / 2
	}
	return 0
}
