package clearance

import (
	"math"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// An arc is the underside of an arched roof in the cross-section: the part
// within w of the offset y, from the springing at h up to the crown, of a
// circle of curvature k. Everything is worked from the crown, so that an arch
// that hardly rises loses no figures.
type arc struct{ y, w, h, crown, k float64 }

// arc returns the roof's arc, or one of the same angle struck so much larger
// about the same middle.
func (r Roof) arc(larger float64) arc {
	w, rise := float64(r.Left+r.Right)/2, float64(r.Rise)
	k := 2 * rise / (w*w + rise*rise)
	f := 1 + k*larger
	return arc{
		y: float64(r.Left-r.Right) / 2, w: w * f, k: k / f,
		h: float64(r.Height) + larger*(1-k*rise), crown: float64(r.Height) + rise + larger,
	}
}

// point returns how far a point is inside the arc, and the direction square to
// it; ok is false where the square through the point passes the arc's ends.
// With u the height above the crown and R = 1/k it is R - √(dy² + (R+u)²),
// multiplied out.
func (a *arc) point(y, z float64) (gap, dy, dz float64, ok bool) {
	d, u := y-a.y, z-a.crown
	side, up := a.k*d, 1+a.k*u
	if math.Abs(d)*(1-a.k*(a.crown-a.h)) > a.w*up {
		return 0, 0, 0, false
	}
	n := math.Hypot(side, up)
	if n == 0 {
		return 1 / a.k, 0, 1, true
	}
	return -(d*side + u*(1+up)) / (1 + n), side / n, up / n, true
}

// A touch is the place of a section that is nearest to an arch: the part t of
// the way from its corner i to its corner j, and the direction from there to
// the arch, to the left and up.
type touch struct {
	i, j   int
	t      float64
	dy, dz float64
	beside bool // the section passes outside the arch, not under it
}

// on returns where on the section the touch is.
func (t *touch) on(q *quad) (y, z float64) {
	return q.y[t.i] + t.t*(q.y[t.j]-q.y[t.i]), q.z[t.i] + t.t*(q.z[t.j]-q.z[t.i])
}

// over calls f at the corners of the part of the quad that is not below h.
func (q *quad) over(h float64, f func(at touch)) {
	for i := range q.z {
		j := (i + 1) % 4
		if q.z[i] >= h {
			f(touch{i: i, j: i})
		}
		if (q.z[i] < h) != (q.z[j] < h) {
			f(touch{i: i, j: j, t: (h - q.z[i]) / (q.z[j] - q.z[i])})
		}
	}
}

// gapTo returns how far the section is clear of what the arch is the underside
// of, between its edges: square to the arc where the square meets it, else
// straight to its end. It is negative where a corner comes out past the arc, or
// one of the arch's edges goes through the section.
func (a *arc) gapTo(q *quad) (gap float64, at touch) {
	gap = math.Inf(1)
	take := func(g float64, t touch, dy, dz float64) {
		if g < gap {
			gap, at = g, t
			at.dy, at.dz = dy, dz
		}
	}
	y0, y1, above := q.rangeY(a.h, math.Inf(1))
	beside := above && (y0 >= a.y+a.w || y1 <= a.y-a.w)
	for i := range q.y {
		if beside && q.z[i] >= a.h {
			continue
		}
		if g, dy, dz, ok := a.point(q.y[i], q.z[i]); ok {
			take(g, touch{i: i, j: i}, dy, dz)
		}
	}
	for _, s := range [2]float64{1, -1} {
		end := a.y + s*a.w
		_, top, cross := q.rangeZ(end, end)
		switch {
		case beside && s*y0 >= s*end && s*y1 >= s*end: // the stock passes outside this edge
			q.over(a.h, func(t touch) {
				y, _ := t.on(q)
				t.beside = true
				take(s*(y-end), t, -s, 0)
			})
		case !beside && cross && top > a.h: // the edge goes through it: out by the nearer way
			side, out := math.Inf(-1), touch{}
			q.over(a.h, func(t touch) {
				if y, _ := t.on(q); s*(y-end) > side {
					side, out = s*(y-end), t
				}
			})
			if side < top-a.h {
				take(-side, out, s, 0)
				break
			}
			for i := range q.y {
				j := (i + 1) % 4
				t := touch{i: i, j: j, t: (end - q.y[i]) / (q.y[j] - q.y[i])}
				if _, z := t.on(q); t.t >= 0 && t.t <= 1 && z >= top-1e-9 {
					take(a.h-top, t, 0, 1)
				}
			}
		default: // straight to its end
			for i := range q.y {
				j := (i + 1) % 4
				ey, ez := q.y[j]-q.y[i], q.z[j]-q.z[i]
				t := touch{i: i, j: j, beside: beside}
				if l := ey*ey + ez*ez; l > 0 {
					t.t = max(0, min(1, ((end-q.y[i])*ey+(a.h-q.z[i])*ez)/l))
				}
				y, z := t.on(q)
				g := math.Hypot(end-y, a.h-z)
				take(g, t, (end-y)/max(g, 1e-300), (a.h-z)/max(g, 1e-300))
			}
		}
	}
	return gap, at
}

// arch looks along an arched roof.
func (p *prober) arch(r Roof) error {
	a := r.arc(0)
	from, to := p.e.span(r.From, r.To)
	return p.within(from, to, func(_, c float64, i int) { p.take(p.under(&r, &a, c, i)) })
}

// under returns the least gap to an arch at c, in the cross-section.
func (p *prober) under(r *Roof, a *arc, c float64, i int) near {
	best := near{gap: math.Inf(1)}
	p.sections(c, i, func(_ *sheet, k cut) {
		gap, t := a.gapTo(&k.quad)
		if !(gap < best.gap) {
			return
		}
		y, z := t.on(&k.quad)
		best = near{gap: gap, upright: t.dz > math.Abs(t.dy), meet: true, c: c, n: y + gap*t.dy, lo: z + gap*t.dz, hi: math.Inf(1), cut: k, arch: r, touch: t}
		if best.reach = y; best.n < 0 {
			best.reach = -y
		}
	})
	best.place = p.e.line.Offset(measure.Length(c), measure.Length(best.n))
	return best
}

// archShares lists each allowance's share towards an arch: of its sideways and
// its upright part, what lies along the direction from the section to the arch.
// What is left when the body's own part and all others are taken away is the
// cant's.
func (e *Envelope) archShares(n *near) []Share {
	a, k := &e.set.Allowances, &n.cut
	names := [...]string{"play of the wheels", "laying tolerance", "movement with heat", "running margin", "roll on springs", "vertical throw", "cant"}
	var sum [len(names)]float64
	corner := func(c int, weight float64) {
		side, out := curve.Left, weight*n.touch.dy
		if c == 0 || c == 3 {
			side, out = curve.Right, -out
		}
		h := e.by(k, side)[c/2]
		base, throw, lift := h.sheet.bottom, k.down, -k.lift
		if c >= 2 {
			base, throw, lift = h.sheet.top, k.up, k.lift
		}
		play := float64(e.reach(h).Play)
		roll := float64(a.Springs) * math.Abs(base+throw-float64(a.RollCentre))
		up := weight * n.touch.dz
		got := [len(names)]float64{out * play, out * float64(a.Laying), out * float64(a.Heat), out * float64(a.Running), out*roll + up*lift, up * throw}
		all := weight*n.touch.dy*k.y[c] + weight*n.touch.dz*k.z[c] - out*(e.level(h)-play) - up*base
		for i, v := range got {
			sum[i] += v
			all -= v
		}
		sum[len(sum)-1] += all
	}
	corner(n.touch.i, 1-n.touch.t)
	corner(n.touch.j, n.touch.t)
	var out []Share
	for i, v := range sum {
		if math.Abs(v) > 1e-9 {
			out = append(out, Share{names[i], measure.Length(v)})
		}
	}
	return out
}

// archRemedy works out the least remedies where an arch has the least gap.
func (p *prober) archRemedy(f *Finding, s Structure, n near, margin measure.Length) (Remedy, error) {
	short := float64(margin - f.Gap)
	a, m := n.arch.arc(0), float64(margin)
	y, z := n.touch.on(&n.cut.quad)
	var r Remedy
	if n.touch.beside {
		r.MoveBy = measure.Length(short)
	} else {
		by, err := p.raise(n.arch, &a, m)
		if err != nil {
			return r, err
		}
		r.MoveBy = measure.Length(by)
		if s.Kind.opening() {
			if by, err = p.larger(n.arch, m); err != nil {
				return r, err
			}
			r.WidenBy = measure.Length(by)
		}
		short = a.inwards(y, z, m)
	}
	if short > 0 {
		r.EaseTo = p.e.ease(f, n, measure.Length(short))
	}
	return r, nil
}

// raise returns by how much an arch must be raised, its walls carried up, to be
// clear by m all along; 0 where the walls are too near. A point of the section
// is then m inside the arc: below the crown by R - √((R-m)² - d²), multiplied
// out.
func (p *prober) raise(r *Roof, a *arc, m float64) (float64, error) {
	by, ok := 0.0, true
	from, to := p.e.span(r.From, r.To)
	err := p.within(from, to, func(_, c float64, i int) {
		p.sections(c, i, func(_ *sheet, k cut) {
			for j := range k.y {
				if g, _, _, on := a.point(k.y[j], k.z[j]); k.z[j] < a.h && !(on && g < m) {
					continue
				}
				d, e := math.Abs(k.y[j]-a.y), 1-a.k*m
				if d > a.w-m+1e-9 {
					ok = false
					continue
				}
				by = max(by, k.z[j]-a.crown+(2*m-a.k*m*m+a.k*d*d)/(1+math.Sqrt(max(0, e*e-a.k*d*a.k*d))))
			}
		})
	})
	if !ok {
		by = 0
	}
	return by, err
}

// larger returns by how much larger, about the same middle, an arch must be
// struck to be clear by m all along; 0 where that does not do it.
func (p *prober) larger(r *Roof, m float64) (float64, error) {
	from, to := p.e.span(r.From, r.To)
	by := 0.0
	for range 50 {
		a, gap := r.arc(by), math.Inf(1)
		err := p.within(from, to, func(_, c float64, i int) { gap = min(gap, p.under(r, &a, c, i).gap) })
		if err != nil || gap >= m-1e-9 {
			return by, err
		}
		by += m - gap // towards the arc itself a gap grows by as much, to its end by no more
	}
	return 0, nil
}

// inwards returns by how much a point of the section must come towards the
// middle to be m inside the arch, 0 where it never is.
func (a *arc) inwards(y, z, m float64) float64 {
	d := math.Abs(y - a.y)
	clear := func(d float64) bool {
		g, _, _, ok := a.point(a.y+d, z)
		if !ok {
			g = math.Hypot(a.w-d, a.h-z)
		}
		return g >= m && d < a.w
	}
	if !clear(0) {
		return 0
	}
	lo, hi := 0.0, d
	for range 60 {
		if mid := (lo + hi) / 2; clear(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return d - lo
}
