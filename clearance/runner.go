package clearance

import (
	"context"
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r2"
)

// maxDepth is how often the step of a side's own point is halved, at most, and
// maxHalvings how many halvings all the pieces of a step get together: a sudden
// change takes two dozen.
const (
	maxDepth    = 12
	maxHalvings = 200
)

// A runner sweeps one vehicle.
type runner struct {
	r      *rig
	tol    float64
	length float64 // of an open line, else +Inf; past it a pose is beyond
	open   bool
	reach  float64  // more than any body point can be off the line: one farther off is passing another part of a circuit
	cant   *canting // nil unless it can change what governs
	plain  []station
	knots  []station
	sheets []*sheet
	work   []*track // of the sheets, and of those that lean
	pool   [maxDepth]*pose
	halved int // halvings of the step at hand
	lean   legLean
}

// A track is a sheet being filled: the candidates' places at the two poses of
// the step at hand and the station that each has passed last.
type track struct {
	*sheet
	pts, vel [3][]r2.Vec // corners' places and velocities at three poses
	at       []int       // each corner's last station passed, -1 before the first
	seen     []int       // the same of each side's own point, none when there is no such point
}

const none = math.MinInt

func newRunner(e *Envelope, vehicle int, plain, knots []station) *runner {
	v := &e.stock[vehicle]
	run := &runner{r: newRig(e.line, v), tol: float64(e.set.Tolerance), length: math.Inf(1), open: !e.line.Closed(), plain: plain, knots: knots}
	if run.open {
		run.length = float64(e.line.Length())
	}
	if e.cant.varies() {
		run.cant = e.cant
	}
	stations := len(plain) + len(knots)
	for part := range v.parts() {
		play, bends := v.play(part, float64(e.set.Allowances.Play))
		for i, b := range v.bands(part) {
			s := newSheet(b.Outline, run.r.lead(part), play, bends, stations)
			s.vehicle, s.part, s.band, s.bottom, s.top = vehicle, part, i, float64(b.Bottom), float64(b.Top)
			if e.cant != nil || len(e.breaks.at) > 0 {
				s.time(stations)
			}
			run.sheets = append(run.sheets, s)
			run.work = append(run.work, newTrack(s))
			run.reach = max(run.reach, s.most(2*run.r.lead(part)))
			if run.cant != nil {
				for h, z := range [2]float64{s.bottom, s.top} {
					s.leaned[h] = s.leaning(run.cant, z, stations)
					run.work = append(run.work, newTrack(s.leaned[h]))
				}
			}
		}
	}
	for i := range run.pool {
		run.pool[i] = run.newPose()
	}
	return run
}

func newTrack(s *sheet) *track {
	t := &track{sheet: s, at: make([]int, len(s.x)), seen: make([]int, len(s.x))}
	for k := range t.pts {
		t.pts[k], t.vel[k] = make([]r2.Vec, len(s.x)), make([]r2.Vec, len(s.x))
	}
	for j := range t.at {
		t.at[j], t.seen[j] = -1, none
	}
	return t
}

func (run *runner) newPose() *pose {
	p := run.r.newPose()
	if run.cant != nil {
		p.lean = make([]lean, len(p.f))
	}
	return p
}

// stand is the rig's, with the lean.
func (run *runner) stand(p *pose, s float64, from *pose) error {
	err := run.r.stand(p, s, from)
	if err == nil && run.cant != nil {
		run.cant.of(run.r, p)
	}
	return err
}

// place works out the corners of every track at a pose, into slot k.
func (run *runner) place(p *pose, k int) {
	for _, t := range run.work {
		f := &p.f[t.part]
		x, v := t.pts[k], t.vel[k]
		for i := range x {
			x[i] = f.at(t.x[i], t.y[i])
			v[i] = f.velocity(t.x[i], t.y[i])
		}
	}
}

func (run *runner) sweep(ctx context.Context) error {
	if len(run.work) == 0 || len(run.plain) == 0 {
		return nil
	}
	ext := run.r.v.length()
	last := len(run.plain) - 1
	from, to := run.plain[0].c, run.plain[last].c
	a, b, m := run.newPose(), run.newPose(), run.newPose()
	s := from - ext
	if err := run.stand(a, s, nil); err != nil {
		return err
	}
	run.place(a, 0)
	most := run.r.v.longestStep()
	h := most
	for {
		if err := ctx.Err(); err != nil {
			return err
		}
		off, err := run.next(a, m, b, s, &h)
		if err != nil {
			return err
		}
		run.place(m, 1)
		run.place(b, 2)
		run.step(a, m, 0, 1)
		run.step(m, b, 1, 2)
		run.sides(a, m, b)
		s += h
		a, b = b, a
		for _, t := range run.work {
			t.pts[0], t.pts[2] = t.pts[2], t.pts[0]
			t.vel[0], t.vel[2] = t.vel[2], t.vel[0]
		}
		if off < run.tol/200 {
			h = min(2*h, most)
		}
		if s > to && run.passed(last) || s > to+4*ext {
			return nil
		}
	}
}

// next stands the vehicle at s+h, and midway, having halved h until the pose
// midway is where a cubic foretells it; it returns how far off that is.
func (run *runner) next(a, m, b *pose, s float64, h *float64) (off float64, err error) {
	for {
		if err = run.stand(b, s+*h, a); err == nil {
			err = run.stand(m, s+*h/2, a)
		}
		switch {
		case err != nil && *h < 1e-3:
			return 0, err
		case err != nil:
			*h /= 4
			continue
		}
		if off = run.strays(a, m, b, *h); off <= run.tol/8 {
			return off, nil
		}
		if *h < 1e-9*(1+math.Abs(s)) {
			return 0, run.r.cannot(run.r.v.Bodies[0].Pivots, "pivot spacing", 0, s)
		}
		*h /= 2
	}
}

// passed reports whether every corner has passed the last station.
func (run *runner) passed(last int) bool {
	for _, t := range run.work {
		for i, at := range t.at {
			if t.convex[i] && at < last {
				return false
			}
		}
	}
	return true
}

// strays returns how far any corner at the middle pose is from where a cubic
// between the outer two has it, or by its velocity there seems to be.
func (run *runner) strays(a, m, b *pose, h float64) float64 {
	worst := 0.0
	for _, t := range run.work {
		fa, fm, fb := &a.f[t.part], &m.f[t.part], &b.f[t.part]
		dx := (fa.p.X+fb.p.X)/2 + h/8*(fa.v.X-fb.v.X) - fm.p.X
		dy := (fa.p.Y+fb.p.Y)/2 + h/8*(fa.v.Y-fb.v.Y) - fm.p.Y
		hx := (fa.h.X+fb.h.X)/2 + h/8*(fb.w*fb.h.Y-fa.w*fa.h.Y) - fm.h.X
		hy := (fa.h.Y+fb.h.Y)/2 + h/8*(fa.w*fa.h.X-fb.w*fb.h.X) - fm.h.Y
		// And of the velocity there, which tells a sudden change a quarter of
		// the way along that the place would not.
		vx := 1.5*(fb.p.X-fa.p.X) - h*((fa.v.X+fb.v.X)/4+fm.v.X)
		vy := 1.5*(fb.p.Y-fa.p.Y) - h*((fa.v.Y+fb.v.Y)/4+fm.v.Y)
		wx := 1.5*(fb.h.X-fa.h.X) + h*((fa.w*fa.h.Y+fb.w*fb.h.Y)/4+fm.w*fm.h.Y)
		wy := 1.5*(fb.h.Y-fa.h.Y) - h*((fa.w*fa.h.X+fb.w*fb.h.X)/4+fm.w*fm.h.X)
		worst = max(worst, math.Hypot(dx, dy)+t.radius*math.Hypot(hx, hy), (math.Hypot(vx, vy)+t.radius*math.Hypot(wx, wy))/4)
		if t.cant != nil {
			la, lm, lb := a.lean[t.part], m.lean[t.part], b.lean[t.part]
			l := (la.a+lb.a)/2 + h/8*(la.w-lb.w) - lm.a
			w := 1.5*(lb.a-la.a) - h*((la.w+lb.w)/4+lm.w)
			worst = max(worst, (math.Abs(t.z)+t.radius)*max(math.Abs(l), math.Abs(w)/4))
		}
	}
	return worst
}

// step carries every corner from pose a to pose b.
func (run *runner) step(a, b *pose, ka, kb int) {
	ds := b.s - a.s
	for _, t := range run.work {
		g := leg{s0: a.s, ds: ds, e0: a.last(), de: b.last() - a.last()}
		if t.cant != nil {
			g.lean = run.lean.between(t.sheet, a, b)
		}
		xa, va, xb, vb := t.pts[ka], t.vel[ka], t.pts[kb], t.vel[kb]
		for i, ok := range t.convex {
			if !ok {
				continue
			}
			g.x0, g.x1 = xa[i], xb[i]
			g.d0, g.d1 = r2.Scale(ds, va[i]), r2.Scale(ds, vb[i])
			t.at[i] = run.carry(t, &g, t.at[i], int32(i))
		}
	}
}

// sides carries every side's own point from pose a by m, midway, to b.
func (run *runner) sides(a, m, b *pose) {
	for _, t := range run.work {
		for i := range t.seen {
			run.halved = 0
			run.follow(t, i, a, m, b, 0)
		}
	}
}

// carry takes a candidate along a leg over the stations from the last one that
// it has passed, and returns the last one passed at the end.
func (run *runner) carry(t *track, g *leg, at int, id int32) int {
	was := at
	g.swell()
	for at+1 < len(run.plain) {
		st := &run.plain[at+1]
		if along, across := st.offset(g.x1); along < 0 || at < 0 && math.Abs(across) > run.reach {
			break
		}
		at++
		run.keep(t, g, st, at, id)
	}
	for at >= 0 && at <= was {
		st := &run.plain[at]
		if along, _ := st.offset(g.x1); along >= 0 {
			break
		}
		run.keep(t, g, st, at, id)
		at--
	}
	if len(run.knots) == 0 {
		return at
	}
	lo, hi := min(was, at)-1, max(was, at)+3
	i := sort.Search(len(run.knots), func(i int) bool { return run.knots[i].knot >= lo })
	for ; i < len(run.knots) && run.knots[i].knot <= hi; i++ {
		st := &run.knots[i]
		a0, _ := st.offset(g.x0)
		a1, _ := st.offset(g.x1)
		if (a0 < 0) != (a1 < 0) {
			run.keep(t, g, st, len(run.plain)+i, id)
		}
	}
	return at
}

// keep keeps the crossing of a station if it reaches further than what is
// there; of two alike, the one that stands wholly on the line.
func (run *runner) keep(t *track, g *leg, st *station, index int, id int32) {
	left, right := &t.side[0][index], &t.side[1][index]
	a0, b0 := st.offset(g.x0)
	a1, b1 := st.offset(g.x1)
	if t.first != nil {
		s := g.s0
		if a0 != a1 {
			s += g.ds * a0 / (a0 - a1)
		}
		t.first[index], t.last[index] = min(t.first[index], s), max(t.last[index], s)
	}
	most, least := max(b0, b1)+g.bulge, min(b0, b1)-g.bulge
	if t.cant != nil {
		least, most = g.lean.bounds(least, most)
	}
	if most < left.n && -least < right.n {
		return
	}
	n, m, u, d := g.cross(st, a0, b0, a1, b1)
	if t.cant != nil {
		n, m = t.turned(g.lean, st, n, m, u, d)
		u = g.lean.part(u)
	}
	for k, kept := range [2]*keep{left, right} {
		if k == 1 {
			n, m = -n, -m
		}
		if n < kept.n-1e-9 {
			continue
		}
		beyond := run.open && (g.s0+u*g.ds < -1e-9 || g.e0+u*g.de > run.length+1e-9)
		if n > kept.n+1e-9 || kept.beyond && !beyond {
			*kept = keep{n, m, g.s0 + u*g.ds, id, beyond}
		}
	}
}

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
	size := math.Hypot(dx, dy)
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
