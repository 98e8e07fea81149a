package clearance

import "math"

// A quad is one outline's cross-section at a station, allowances and cant in
// it: offset (left positive) and height of its corners, right bottom, left
// bottom, left top, right top. Where its corners can stand at several heights
// and its flanks lean, a flank has a knee: the furthest offset at the least or
// the largest of the heights that it comes to.
type quad struct {
	y, z   [4]float64
	bent   bool
	ky, kz [2]float64 // of the knees, left and right
}

// rangeY returns the offsets that the quad takes between two heights; ok is
// false when it is not there.
func (q *quad) rangeY(lo, hi float64) (from, to float64, ok bool) {
	if q.bent {
		return bentStrip(&q.z, &q.y, &q.kz, &q.ky, lo, hi)
	}
	return strip(&q.z, &q.y, lo, hi)
}

// rangeZ returns the heights that the quad takes between two offsets.
func (q *quad) rangeZ(lo, hi float64) (from, to float64, ok bool) {
	if q.bent {
		return bentStrip(&q.y, &q.z, &q.ky, &q.kz, lo, hi)
	}
	return strip(&q.y, &q.z, lo, hi)
}

// bentStrip is strip for a quad with knees: what is below them and what is
// above.
func bentStrip(u, v *[4]float64, ku, kv *[2]float64, lo, hi float64) (from, to float64, ok bool) {
	a, b, _ := strip(&[4]float64{u[0], u[1], ku[0], ku[1]}, &[4]float64{v[0], v[1], kv[0], kv[1]}, lo, hi)
	from, to, _ = strip(&[4]float64{ku[1], ku[0], u[2], u[3]}, &[4]float64{kv[1], kv[0], v[2], v[3]}, lo, hi)
	from, to = min(from, a), max(to, b)
	return from, to, from <= to
}

// bend gives the flanks their knees; inner is the other end of the heights that
// each corner comes to: the least of the tops, the largest of the bottoms.
func (q *quad) bend(inner *[4]float64) {
	for side, at := range [2][2]int{{1, 2}, {0, 3}} {
		b, t := at[0], at[1]
		out := q.y[t] - q.y[b]
		if side == 1 {
			out = -out
		}
		if out >= 0 {
			q.ky[side], q.kz[side] = q.y[t], max(inner[t], q.z[b])
		} else {
			q.ky[side], q.kz[side] = q.y[b], min(inner[b], q.z[t])
		}
		q.bent = q.bent || out != 0
	}
}

// strip returns the range of v over the part of the convex quad where u is
// from lo to hi.
func strip(u, v *[4]float64, lo, hi float64) (from, to float64, ok bool) {
	from, to = math.Inf(1), math.Inf(-1)
	add := func(x float64) { from, to = min(from, x), max(to, x) }
	for i := range u {
		j := (i + 1) % 4
		if lo <= u[i] && u[i] <= hi {
			add(v[i])
		}
		for _, cut := range [2]float64{lo, hi} {
			if (u[i] < cut) != (u[j] < cut) && !math.IsInf(cut, 0) {
				add(v[i] + (v[j]-v[i])*(cut-u[i])/(u[j]-u[i]))
			}
		}
	}
	return from, to, from <= to
}

// gapTo returns how far the quad is clear of the block with offsets from y0 to
// y1 and heights from z0 to z1: sideways where their heights meet, upright
// where their offsets meet, straight across where neither meets; negative, the
// least way out, where the two overlap. upright says which way it is, and
// meet whether the heights meet.
func (q *quad) gapTo(y0, y1, z0, z1 float64) (gap float64, upright, meet bool) {
	ya, yb, okY := q.rangeY(z0, z1)
	za, zb, okZ := q.rangeZ(y0, y1)
	switch {
	case okY && okZ:
		side := max(y0-yb, ya-y1)
		up := max(z0-zb, za-z1)
		// Where they overlap the least way out; where they do not, a leaning
		// quad past the block's corner, the nearer way.
		if (up > side) != (up > 0 && side > 0) {
			return up, true, true
		}
		return side, false, true
	case okY:
		return max(y0-yb, ya-y1), false, true
	case okZ:
		return max(z0-zb, za-z1), true, false
	}
	ya, yb, _ = q.rangeY(math.Inf(-1), math.Inf(1))
	za, zb, _ = q.rangeZ(math.Inf(-1), math.Inf(1))
	side, up := max(y0-yb, ya-y1, 0), max(z0-zb, za-z1, 0)
	return math.Hypot(side, up), up > side, false
}
