package clearance

import "math"

// A quad is one outline's cross-section at a station, allowances and cant in
// it: offset (left positive) and height of its corners, right bottom, left
// bottom, left top, right top.
type quad struct {
	y, z [4]float64
}

// rangeY returns the offsets that the quad takes between two heights; ok is
// false when it is not there.
func (q *quad) rangeY(lo, hi float64) (from, to float64, ok bool) {
	return strip(&q.z, &q.y, lo, hi)
}

// rangeZ returns the heights that the quad takes between two offsets.
func (q *quad) rangeZ(lo, hi float64) (from, to float64, ok bool) {
	return strip(&q.y, &q.z, lo, hi)
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
