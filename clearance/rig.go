package clearance

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A frame is one rigid part at one moment: its origin and forward unit vector
// in plan, and how they move as the rear axle of the rear carrier moves on.
// The origin is a point on a pivot, lead behind the origin of the part's own
// axes.
type frame struct {
	p, h r2.Vec  // origin, forward
	v    r2.Vec  // of the origin, per mm of the drive
	w    float64 // turning rate, rad per mm of the drive
}

// velocity returns the velocity of the point (x, y) of the frame.
func (f *frame) velocity(x, y float64) r2.Vec {
	return r2.Vec{X: f.v.X + f.w*(-x*f.h.Y-y*f.h.X), Y: f.v.Y + f.w*(x*f.h.X-y*f.h.Y)}
}

// at returns the place of the point (x, y) of the frame.
func (f *frame) at(x, y float64) r2.Vec {
	return r2.Vec{X: f.p.X + x*f.h.X - y*f.h.Y, Y: f.p.Y + x*f.h.Y + y*f.h.X}
}

// local returns the coordinates in the frame of a place in plan.
func (f *frame) local(q r2.Vec) (x, y float64) {
	dx, dy := q.X-f.p.X, q.Y-f.p.Y
	return dx*f.h.X + dy*f.h.Y, dy*f.h.X - dx*f.h.Y
}

// A pose is a whole vehicle at one moment. Frames go bodies, carriers, trucks.
type pose struct {
	s     float64   // chainage of the rear axle of the rear carrier: the drive
	rear  []float64 // chainage of each carrier's rear axle
	front []float64 // and of its front axle, the same for a single axle
	truck []float64 // chainage of each truck's middle
	rate  []float64 // of rear, front and truck, per mm of the drive
	f     []frame
	lean  []lean // of each part, where the sweep counts it
}

// A rig is a vehicle on a line, ready to be stood at any chainage.
type rig struct {
	v      *Vehicle
	line   *curve.Alignment
	trucks []rigTruck
}

type rigTruck struct {
	body       int
	hinge, bar float64
}

func newRig(line *curve.Alignment, v *Vehicle) *rig {
	r := &rig{v: v, line: line}
	for i, b := range v.Bodies {
		for _, t := range b.Trucks {
			r.trucks = append(r.trucks, rigTruck{i, float64(t.Hinge), float64(t.Bar)})
		}
	}
	return r
}

func (r *rig) newPose() *pose {
	n, t := len(r.v.Carriers), len(r.trucks)
	return &pose{
		rear: make([]float64, n), front: make([]float64, n), truck: make([]float64, t),
		rate: make([]float64, 2*n+t), f: make([]frame, len(r.v.Bodies)+n+t),
	}
}

// last returns the foremost axle of the vehicle's carriers.
func (p *pose) last() float64 { return p.front[len(p.front)-1] }

// stand places the vehicle with its drive at s. With from, a pose nearby, each
// root is followed from it; without, the first root ahead is searched for.
func (r *rig) stand(p *pose, s float64, from *pose) error {
	p.s = s
	n, nb := len(r.v.Carriers), len(r.v.Bodies)
	ds := 0.0
	if from != nil {
		ds = s - from.s
	}
	var pin frame // the pivot of the last carrier placed, for the body ahead
	for k := range r.v.Carriers {
		c := &r.v.Carriers[k]
		lead := float64(c.Wheelbase)/2 + float64(c.Pin)
		half := float64(c.Apart) / 2
		q := s
		rate := 1.0
		var car frame
		var front, frontRate float64
		if k == 0 {
			g := math.NaN()
			if from != nil {
				g = from.front[0] + ds*from.rate[n]
			}
			var ok bool
			if car, front, frontRate, ok = r.carrier(c, s, g); !ok {
				return r.cannot(c.Wheelbase, "wheelbase", k, s)
			}
		} else {
			b := &r.v.Bodies[k-1]
			C := float64(b.Pivots)
			qg, fg := math.NaN(), math.NaN()
			if from != nil {
				qg = from.rear[k] + ds*from.rate[k]
				fg = from.front[k] + ds*from.rate[n+k]
			}
			var ok bool
			var body frame
			body, car, q, front, rate, frontRate, ok = r.link(c, pin, C, lead-half, p.rear[k-1], qg, fg)
			if !ok {
				return r.cannot(b.Pivots, "pivot spacing", k, s)
			}
			p.f[k-1] = body
		}
		p.rear[k], p.front[k] = q, front
		p.rate[k], p.rate[n+k] = rate, frontRate*rate
		car.v = r2.Scale(rate, car.v)
		car.w *= rate
		p.f[nb+k] = car
		pin = frame{p: car.at(lead+half, 0), v: car.velocity(lead+half, 0)}
	}
	for i, t := range r.trucks {
		b := &p.f[t.body]
		x := float64(r.v.Bodies[t.body].Pivots)/2 + t.hinge
		hinge := frame{p: b.at(x, 0), v: b.velocity(x, 0)}
		g := math.NaN()
		if from != nil {
			g = from.truck[i] + ds*from.rate[2*n+i]
		}
		// The chainage near the hinge, from the body's axles.
		near := p.rear[t.body] + x
		q, f, rate, ok := r.bar(hinge, t.bar, near, g)
		if !ok {
			e := fault.In("clearance")
			e.NoAnswer(fmt.Sprintf("%s: bar of truck %d", r.v.field(), i+1), measure.Length(t.bar),
				fmt.Sprintf("does not reach the line with the vehicle's rear axle at %.0f mm: the bar must be longer than its hinge stands off the line, or the line less sharp", s))
			return e.Err()
		}
		p.truck[i], p.rate[2*n+i] = q, rate
		p.f[nb+n+i] = f
	}
	return nil
}

func (r *rig) cannot(l measure.Length, what string, k int, s float64) error {
	e := fault.In("clearance")
	if !r.line.Closed() {
		s = max(0, min(s, float64(r.line.Length())))
	}
	e.NoAnswer(fmt.Sprintf("%s: %s at carrier %d", r.v.field(), what, k+1), l,
		fmt.Sprintf("cannot stand on the line near chainage %.0f mm: the line must not turn so sharply there, keep its radius above about %.0f mm", s, float64(l)/2/math.Sqrt(1-chordLimit*chordLimit)))
	return e.Err()
}

// polished is the size of a Newton step, mm, below which the step is applied
// to first order and the iteration ends: what is left is its square over a
// radius, less than 1e-11 mm.
const polished = 1e-5

// carrier places a carrier with its rear axle at q; guess is its front axle's
// chainage or NaN. Rates are per mm of q. The frame's origin is the rear axle.
func (r *rig) carrier(c *Carrier, q, guess float64) (f frame, front, frontRate float64, ok bool) {
	a := r.line.At(measure.Length(q))
	p := float64(c.Wheelbase)
	if p == 0 {
		return frame{p: a.Point, h: a.Tangent, v: a.Tangent, w: float64(a.Curvature)}, q, 1, true
	}
	x := guess
	if math.IsNaN(x) {
		x = q + p
		for range 60 {
			d := p - norm(r2.Sub(r.line.Point(measure.Length(x)), a.Point))
			if d < 1e-3*p {
				break
			}
			x += d
		}
	}
	for range 12 {
		b := r.line.At(measure.Length(x))
		d := r2.Sub(b.Point, a.Point)
		along := r2.Dot(d, b.Tangent)
		if along < chordLimit*p {
			return f, 0, 0, false
		}
		step := (p*p - r2.Norm2(d)) / (2 * along)
		x += step
		if math.Abs(step) < polished {
			d = r2.Add(d, r2.Scale(step, b.Tangent))
			h := r2.Scale(1/p, d)
			ca, cb := r2.Dot(h, a.Tangent), r2.Dot(h, b.Tangent)
			if ca < chordLimit || cb < chordLimit || x-q > 4*p {
				return f, 0, 0, false
			}
			rate := ca / cb
			w := (h.X*(rate*b.Tangent.Y-a.Tangent.Y) - h.Y*(rate*b.Tangent.X-a.Tangent.X)) / p
			return frame{p: a.Point, h: h, v: a.Tangent, w: w}, x, rate, true
		}
	}
	return f, 0, 0, false
}

// link places the carrier ahead of a body whose rear pivot is pin: its pivot,
// lead ahead of its rear axle, is C from the rear pivot. behind is the rear
// axle's chainage of the carrier behind; guesses may be NaN. The body's frame
// has its origin on the rear pivot and is per mm of the drive, as pin is; the
// carrier's is per mm of q.
func (r *rig) link(c *Carrier, pin frame, C, lead, behind, qGuess, fGuess float64) (body, car frame, q, front, rate, frontRate float64, ok bool) {
	if math.IsNaN(qGuess) {
		qGuess, fGuess = behind, math.NaN()
		for range 200 {
			var okc bool
			car, front, frontRate, okc = r.carrier(c, qGuess, fGuess)
			if !okc {
				return
			}
			d := C - norm(r2.Sub(car.at(lead, 0), pin.p))
			if d < 1e-3*C {
				fGuess = front
				break
			}
			step := 0.9 * d
			if qGuess += step; qGuess-behind > 4*(C+float64(c.Wheelbase)) {
				return
			}
			if fGuess = front + step*frontRate; step > float64(c.Wheelbase)/4 {
				fGuess = math.NaN()
			}
		}
	}
	q = qGuess
	for range 12 {
		car, front, frontRate, ok = r.carrier(c, q, fGuess)
		if !ok {
			return
		}
		ok = false
		b, vb := car.at(lead, 0), car.velocity(lead, 0)
		d := r2.Sub(b, pin.p)
		along := r2.Dot(d, vb)
		if along < chordLimit*C*norm(vb)/2 {
			return
		}
		step := (C*C - r2.Norm2(d)) / (2 * along)
		q += step
		front += step * frontRate
		fGuess = front
		if math.Abs(step) >= polished {
			continue
		}
		move(&car, step)
		d = r2.Add(d, r2.Scale(step, vb))
		h := r2.Scale(1/C, d)
		ca, cb := r2.Dot(h, pin.v), r2.Dot(h, vb)
		if ca < chordLimit*norm(pin.v) || cb < chordLimit*norm(vb) {
			return
		}
		rate = ca / cb
		w := (h.X*(rate*vb.Y-pin.v.Y) - h.Y*(rate*vb.X-pin.v.X)) / C
		return frame{p: pin.p, h: h, v: pin.v, w: w}, car, q, front, rate, frontRate, true
	}
	return
}

// norm is r2.Norm without its guard against overflow, which lengths in mm do
// not come near.
func norm(v r2.Vec) float64 { return math.Sqrt(r2.Norm2(v)) }

// move carries a frame on by a tiny step of its own drive.
func move(f *frame, step float64) {
	f.p = r2.Add(f.p, r2.Scale(step, f.v))
	t := step * f.w
	f.h = r2.Vec{X: f.h.X - t*f.h.Y, Y: f.h.Y + t*f.h.X}
}

// bar places a truck's middle on the line at the bar's length from the hinge,
// ahead of it or (negative) behind. The frame's origin is the truck's middle,
// its forward the line of the bar.
func (r *rig) bar(hinge frame, bar, near, guess float64) (q float64, f frame, rate float64, ok bool) {
	sign := math.Copysign(1, bar)
	length := math.Abs(bar)
	q = guess
	if math.IsNaN(q) {
		q = near
		for range 200 {
			a := r.line.At(measure.Length(q))
			d := r2.Sub(a.Point, hinge.p)
			if along := sign * r2.Dot(d, a.Tangent); along > chordLimit*length && length-norm(d) < 1e-3*length {
				break
			}
			if q += sign * max(0.9*(length-norm(d)), 1e-3*length); math.Abs(q-near) > 6*length {
				return
			}
		}
	}
	for range 12 {
		a := r.line.At(measure.Length(q))
		d := r2.Sub(a.Point, hinge.p)
		along := r2.Dot(d, a.Tangent)
		if sign*along < chordLimit*length {
			return
		}
		step := (length*length - r2.Norm2(d)) / (2 * along)
		q += step
		if math.Abs(step) >= polished {
			continue
		}
		d = r2.Add(d, r2.Scale(step, a.Tangent))
		h := r2.Scale(1/bar, d)
		rate = r2.Dot(h, hinge.v) / r2.Dot(h, a.Tangent)
		v := r2.Scale(rate, a.Tangent)
		w := (h.X*(v.Y-hinge.v.Y) - h.Y*(v.X-hinge.v.X)) / bar
		return q, frame{p: r2.Add(a.Point, r2.Scale(step, a.Tangent)), h: h, v: v, w: w}, rate, true
	}
	return
}
