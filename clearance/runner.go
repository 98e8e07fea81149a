package clearance

import (
	"context"
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r2"
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
	flat   bool // nothing leans in the step at hand: what leans goes with its own sheet
}

// A track is a sheet being filled: the candidates' places at the two poses of
// the step at hand and the station that each has passed last.
type track struct {
	*sheet
	own      *track      // of a leaned sheet: the track of the one that does not lean, whose corners' places it shares
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
			own := newTrack(s)
			run.sheets = append(run.sheets, s)
			run.work = append(run.work, own)
			run.reach = max(run.reach, s.most(2*run.r.lead(part)))
			if run.cant != nil {
				for h, z := range [2]float64{s.bottom, s.top} {
					s.leaned[h] = s.leaning(run.cant, z, stations)
					run.work = append(run.work, own.leaning(s.leaned[h]))
				}
			}
		}
	}
	return run
}

func newTrack(s *sheet) *track {
	t := (&track{}).leaning(s)
	t.own = nil
	for k := range t.pts {
		t.pts[k], t.vel[k] = make([]r2.Vec, len(s.x)), make([]r2.Vec, len(s.x))
	}
	return t
}

// leaning returns the track of a leaned sheet of the same outline.
func (t *track) leaning(s *sheet) *track {
	l := &track{sheet: s, own: t, pts: t.pts, vel: t.vel, at: make([]int, len(s.x)), seen: make([]int, len(s.x))}
	for j := range l.at {
		l.at[j], l.seen[j] = -1, none
	}
	return l
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
		if t.own != nil {
			continue
		}
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
		run.flat = run.cant != nil && a.upright() && m.upright() && b.upright()
		run.step(a, m, 0, 1)
		run.step(m, b, 1, 2)
		run.sides(a, m, b)
		s += h
		a, b = b, a
		for _, t := range run.work {
			if run.flat && t.own != nil {
				copy(t.at, t.own.at)
				copy(t.seen, t.own.seen)
			}
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
		if t.own != nil {
			la, lm, lb := a.lean[t.part], m.lean[t.part], b.lean[t.part]
			l := (la.a+lb.a)/2 + h/8*(la.w-lb.w) - lm.a
			w := 1.5*(lb.a-la.a) - h*((la.w+lb.w)/4+lm.w)
			worst = max(worst, (math.Abs(t.z)+t.radius)*max(math.Abs(l), math.Abs(w)/4))
			continue
		}
		fa, fm, fb := &a.f[t.part], &m.f[t.part], &b.f[t.part]
		p := r2.Vec{
			X: (fa.p.X+fb.p.X)/2 + h/8*(fa.v.X-fb.v.X) - fm.p.X,
			Y: (fa.p.Y+fb.p.Y)/2 + h/8*(fa.v.Y-fb.v.Y) - fm.p.Y,
		}
		d := r2.Vec{
			X: (fa.h.X+fb.h.X)/2 + h/8*(fb.w*fb.h.Y-fa.w*fa.h.Y) - fm.h.X,
			Y: (fa.h.Y+fb.h.Y)/2 + h/8*(fa.w*fa.h.X-fb.w*fb.h.X) - fm.h.Y,
		}
		// And of the velocity there, which tells a sudden change a quarter of
		// the way along that the place would not.
		v := r2.Vec{
			X: 1.5*(fb.p.X-fa.p.X) - h*((fa.v.X+fb.v.X)/4+fm.v.X),
			Y: 1.5*(fb.p.Y-fa.p.Y) - h*((fa.v.Y+fb.v.Y)/4+fm.v.Y),
		}
		w := r2.Vec{
			X: 1.5*(fb.h.X-fa.h.X) + h*((fa.w*fa.h.Y+fb.w*fb.h.Y)/4+fm.w*fm.h.Y),
			Y: 1.5*(fb.h.Y-fa.h.Y) - h*((fa.w*fa.h.X+fb.w*fb.h.X)/4+fm.w*fm.h.X),
		}
		worst = max(worst, norm(p)+t.radius*norm(d), (norm(v)+t.radius*norm(w))/4)
	}
	return worst
}

// step carries every corner from pose a to pose b.
func (run *runner) step(a, b *pose, ka, kb int) {
	ds := b.s - a.s
	for _, t := range run.work {
		if run.flat && t.own != nil {
			continue
		}
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
		if run.flat && t.own != nil {
			continue
		}
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
// there.
func (run *runner) keep(t *track, g *leg, st *station, index int, id int32) {
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
	within := t.within(index, least, most)
	goes := run.flat && t.leaned[0] != nil // what leans goes with it
	if goes {
		within = within && t.leaned[0].within(index, least, most) && t.leaned[1].within(index, least, most)
	}
	if within {
		return
	}
	n, m, u, d := g.cross(st, a0, b0, a1, b1)
	if t.cant != nil {
		n, m = t.turned(g.lean, st, n, m, u, d)
		u = g.lean.part(u)
	}
	at := g.s0 + u*g.ds
	k := keep{n, m, at, id, run.open && (at < -1e-9 || g.e0+u*g.de > run.length+1e-9)}
	t.take(index, k)
	if goes {
		t.leaned[0].take(index, k)
		t.leaned[1].take(index, k)
	}
}

// within reports whether offsets from least to most do not reach further than
// what the sheet has at a station.
func (s *sheet) within(index int, least, most float64) bool {
	return most < s.side[0][index].n && -least < s.side[1][index].n
}

// take keeps a crossing of a station on both sides where it reaches furthest.
func (s *sheet) take(index int, k keep) {
	s.side[0][index].take(k)
	k.n, k.m = -k.n, -k.m
	s.side[1][index].take(k)
}

// take keeps what reaches further; of two alike, the one that stands wholly on
// the line.
func (k *keep) take(x keep) {
	if x.n > k.n+1e-9 || x.n >= k.n-1e-9 && k.beyond && !x.beyond {
		*k = x
	}
}
