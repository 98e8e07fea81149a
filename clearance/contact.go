package clearance

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// maxDepth is how often the step of a side's own point is halved, at most, and
// maxHalvings how many halvings all the pieces of a step get together: a sudden
// change takes two dozen.
const (
	maxDepth    = 12
	maxHalvings = 200
)

// A contact is a side's state at a pose: the outward speeds of its two ends,
// and between them the point that moves along the side.
type contact struct {
	f0, f1 float64
	x, dir r2.Vec
}

func (c *contact) inside() bool { return c.f0 < 0 && c.f1 > 0 || c.f0 > 0 && c.f1 < 0 }

// part returns how far along the side the point is.
func (c *contact) part() float64 { return c.f0 / (c.f0 - c.f1) }

// contact works out the state of the side from corner i at a pose. Where the
// sheet leans its points also move across the body, by what the lean's growth
// shifts them.
func (t *track) contact(i int, p *pose) (c contact) {
	f := &p.f[t.part]
	j := i + 1
	if j == len(t.x) {
		j = 0
	}
	x0, y0 := t.x[i], t.y[i]
	dx, dy := t.x[j]-x0, t.y[j]-y0
	vx, vy := f.v.X*f.h.X+f.v.Y*f.h.Y, f.v.Y*f.h.X-f.v.X*f.h.Y
	// Outward normal (dy, -dx), its length left in.
	c.f0 = (vx-f.w*y0)*dy - (vy+f.w*x0)*dx
	c.f1 = c.f0 - f.w*(dx*dx+dy*dy)
	if t.cant != nil {
		l := &p.lean[t.part]
		c.f0 -= dx * l.w * t.cant.growth(y0, t.z, l.a)
		c.f1 -= dx * l.w * t.cant.growth(y0+dy, t.z, l.a)
	}
	const least = 1e-12
	size := norm(r2.Vec{X: dx, Y: dy})
	if math.Abs(c.f0) < least*size && math.Abs(c.f1) < least*size {
		c.f0, c.f1 = 0, 0
	}
	if c.inside() {
		u := c.part()
		c.x = f.at(x0+u*dx, y0+u*dy)
		c.dir = r2.Vec{X: dx*f.h.X - dy*f.h.Y, Y: dx*f.h.Y + dy*f.h.X}
	}
	return c
}

// follow carries the point that moves along the side from corner i, from pose
// a by m, midway, to b. It enters and leaves the side at a corner, where its
// path and the corner's touch. The leg is taken when the point at m lies on it
// and near its middle: where the motion changes suddenly the point jumps along
// the side, and directions at the ends alone would not tell.
func (run *runner) follow(t *track, i int, a, m, b *pose, depth int) {
	ca, cm, cb := t.contact(i, a), t.contact(i, m), t.contact(i, b)
	// A side at rest slides along itself; where it ceases to, all of it has
	// been as far out as it will be.
	if ca.still() && !cm.still() {
		run.lay(t, i, a)
	}
	if cm.still() && !cb.still() {
		run.lay(t, i, m)
	}
	if ca.outside(&cm) && cm.outside(&cb) {
		t.seen[i] = none
		return
	}
	if g, warp, ok := run.onward(t, i, &ca, &cm, &cb, a, m, b); ok {
		g.s0, g.ds, g.e0, g.de = a.s, b.s-a.s, a.last(), b.last()-a.last()
		if t.cant != nil {
			g.lean = run.lean.between(t.sheet, a, b)
			g.lean.warp = warp
		}
		at := t.seen[i]
		if at == none {
			at = run.anchor(t, i)
		}
		at = run.settle(at, g.x0) // the path may have been left and entered again
		t.seen[i] = run.carry(t, &g, at, int32(-1-i))
		return
	}
	if run.halved++; depth == maxDepth || run.halved > maxHalvings {
		// All of the side may turn from moving out to moving in at once.
		run.lay(t, i, m)
		return
	}
	if run.pool[depth] == nil {
		run.pool[depth] = run.newPose()
	}
	mid := run.pool[depth]
	if run.stand(mid, (a.s+m.s)/2, a) == nil {
		run.follow(t, i, a, mid, m, depth+1)
	} else {
		run.lay(t, i, a)
	}
	if run.stand(mid, (m.s+b.s)/2, m) == nil {
		run.follow(t, i, m, mid, b, depth+1)
	} else {
		run.lay(t, i, b)
	}
}

// onward returns the leg of a side's own point from a to b, if one cubic is
// good enough.
func (run *runner) onward(t *track, i int, ca, cm, cb *contact, a, m, b *pose) (g leg, warp float64, ok bool) {
	ina, inb := ca.inside(), cb.inside()
	if !cm.inside() || ina && (ca.f0 > 0) != (cm.f0 > 0) || inb && (cb.f0 > 0) != (cm.f0 > 0) {
		return leg{}, 0, false
	}
	x0, d0, x1, d1 := ca.x, ca.dir, cb.x, cb.dir
	if t.cant != nil {
		d0, d1 = t.leanedWay(i, ca, cm, cb, a, b)
	}
	j := (i + 1) % len(t.x)
	if !ina {
		x0, d0 = t.corner(i, j, ca, cm, &a.f[t.part])
	}
	if !inb {
		x1, d1 = t.corner(i, j, cb, cm, &b.f[t.part])
	}
	g, dev, odd, flat := chord(x0, d0, x1, d1)
	if !flat {
		return g, 0, false
	}
	if t.cant != nil {
		// The lean goes by the drive, the cubic by the way along the chord.
		c := r2.Sub(x1, x0)
		if l2 := r2.Norm2(c); l2 > 1e-18 {
			u := r2.Dot(r2.Sub(cm.x, x0), c) / l2
			if warp = (0.5 - u) / (u * (1 - u)); !(u > 0.2 && u < 0.8) {
				return g, 0, false
			}
		}
		if l := b.lean[t.part].a - a.lean[t.part].a; math.Abs(t.z*l)*warp*warp > run.tol/2 {
			return g, 0, false
		}
	}
	if dev <= run.tol/8 {
		return g, warp, true
	}
	c := r2.Sub(x1, x0)
	w := r2.Sub(cm.x, x0)
	l2 := r2.Norm2(c)
	u := r2.Dot(w, c) / l2
	if u < 0.3 || u > 0.7 || odd > run.tol/4 {
		return g, 0, false
	}
	// Off the chord, the point at m against the cubic.
	p0, p1 := r2.Cross(c, g.d0), r2.Cross(c, g.d1)
	y := u*(1-u)*(1-u)*p0 - u*u*(1-u)*p1
	return g, warp, math.Abs(r2.Cross(c, w)-y) <= run.tol/8*math.Sqrt(l2)
}

// leanedWay returns the directions of the path of a side's own point from a to
// b where the sheet leans: the body's point there moves, and the one that counts
// moves along the side, as its three places tell.
func (t *track) leanedWay(i int, ca, cm, cb *contact, a, b *pose) (d0, d1 r2.Vec) {
	u0, um, u1 := ca.part(), cm.part(), cb.part()
	s0, s1 := 4*um-3*u0-u1, u0-4*um+3*u1
	if !ca.inside() {
		s1 = 2 * (u1 - um)
	}
	if !cb.inside() {
		s0 = 2 * (um - u0)
	}
	j, ds := (i+1)%len(t.x), b.s-a.s
	way := func(p *pose, c *contact, u, s float64) r2.Vec {
		v := p.f[t.part].velocity(t.x[i]+u*(t.x[j]-t.x[i]), t.y[i]+u*(t.y[j]-t.y[i]))
		return r2.Add(v, r2.Scale(s/ds, c.dir))
	}
	return way(a, ca, u0, s0), way(b, cb, u1, s1)
}

// still reports whether the side moves along itself, as on straight track.
func (c *contact) still() bool { return c.f0 == 0 && c.f1 == 0 }

// outside reports whether the point is on the side neither here nor there, nor
// has crossed it between.
func (c *contact) outside(d *contact) bool {
	return !c.inside() && !d.inside() && ((c.f0 > 0) == (d.f0 > 0) || c.still() || d.still())
}

// lay keeps a whole side as it stands at a pose.
func (run *runner) lay(t *track, i int, p *pose) {
	f := &p.f[t.part]
	j := (i + 1) % len(t.x)
	g := leg{x0: f.at(t.x[i], t.y[i]), x1: f.at(t.x[j], t.y[j]), s0: p.s, e0: p.last()}
	g.d0 = r2.Sub(g.x1, g.x0)
	g.d1 = g.d0
	if t.cant != nil {
		g.lean = run.lean.between(t.sheet, p, p)
	}
	run.carry(t, &g, run.settle(run.anchor(t, i), g.x0), int32(-1-i))
	t.seen[i] = none
}

// anchor returns the last station passed by a corner near side i.
func (run *runner) anchor(t *track, i int) int {
	for !t.convex[i] {
		i = (i + 1) % len(t.convex)
	}
	return t.at[i]
}

// corner returns the corner by which the point left or entered the side, the
// one whose outward speed has the other sign at the other pose, and its
// direction; out is the state without the point, in the state with it.
func (t *track) corner(i, j int, out, in *contact, f *frame) (x, dir r2.Vec) {
	if (out.f0 > 0) == (in.f0 > 0) && (out.f0 != 0 || math.Abs(in.f1) < math.Abs(in.f0)) {
		i = j
	}
	return f.at(t.x[i], t.y[i]), f.velocity(t.x[i], t.y[i])
}

// settle returns the last station that x has passed, walking from a station
// nearby.
func (run *runner) settle(at int, x r2.Vec) int {
	for at+1 < len(run.plain) {
		if along, across := run.plain[at+1].offset(x); along < 0 || at < 0 && math.Abs(across) > run.reach {
			break
		}
		at++
	}
	for at >= 0 {
		if along, _ := run.plain[at].offset(x); along >= 0 {
			break
		}
		at--
	}
	return at
}
