package opening

import (
	"math"
	"slices"
)

// A seg is a straight piece of a flank: from the height z0 up to z1, at the
// offset y0 and then y1. Offsets of a flank are positive outwards.
type seg struct {
	z0, y0, z1, y1 float64
	by             int32 // index of what gave it
}

func (s *seg) at(z float64) float64 {
	return s.y0 + (s.y1-s.y0)*((z-s.z0)/(s.z1-s.z0))
}

// A flank is how far something comes out on one side at each height: pieces in
// order of height that do not overlap. Between two of them there may be a step
// or nothing at all.
type flank []seg

// thinnest is the least height of a piece: the flank of a level edge is only
// its outer end.
const thinnest = 1e-12

// hullFlank returns the flank of a convex figure, outwards along y times sign:
// the upper hull of its corners over their heights.
func hullFlank(y, z []float64, sign float64, by int32) flank {
	order := make([]int, len(y))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int {
		if z[i] != z[j] {
			return compare(z[i], z[j])
		}
		return compare(sign*y[i], sign*y[j])
	})
	var hull []int
	for _, i := range order {
		for len(hull) > 0 {
			b := hull[len(hull)-1]
			if z[b] == z[i] { // the one farther out is i
				hull = hull[:len(hull)-1]
				continue
			}
			if len(hull) > 1 {
				a := hull[len(hull)-2]
				if (sign*y[b]-sign*y[a])*(z[i]-z[a]) <= (sign*y[i]-sign*y[a])*(z[b]-z[a]) {
					hull = hull[:len(hull)-1]
					continue
				}
			}
			break
		}
		hull = append(hull, i)
	}
	var f flank
	for k := 1; k < len(hull); k++ {
		a, b := hull[k-1], hull[k]
		if z[b]-z[a] > thinnest {
			f = append(f, seg{z[a], sign * y[a], z[b], sign * y[b], by})
		}
	}
	return f
}

func compare(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// outer returns the flank of two things together: at each height the one that
// comes out farther.
func outer(a, b flank) flank {
	if len(a) == 0 {
		return b
	}
	if len(b) == 0 {
		return a
	}
	out := make(flank, 0, len(a)+len(b))
	var last *seg // that the last piece of out is cut from
	put := func(s *seg, lo, hi float64) {
		if hi-lo <= thinnest {
			return
		}
		y0, y1 := s.at(lo), s.at(hi)
		if n := len(out) - 1; n >= 0 && last == s && out[n].z1 == lo {
			out[n].z1, out[n].y1 = hi, y1
			return
		}
		out, last = append(out, seg{lo, y0, hi, y1, s.by}), s
	}
	i, j := 0, 0
	z := min(a[0].z0, b[0].z0)
	for i < len(a) || j < len(b) {
		var p, q *seg
		next := math.Inf(1)
		if i < len(a) {
			if a[i].z0 <= z {
				p, next = &a[i], a[i].z1
			} else {
				next = a[i].z0
			}
		}
		if j < len(b) {
			if b[j].z0 <= z {
				q, next = &b[j], min(next, b[j].z1)
			} else {
				next = min(next, b[j].z0)
			}
		}
		switch {
		case p != nil && q != nil:
			d0, d1 := p.at(z)-q.at(z), p.at(next)-q.at(next)
			switch {
			case d0 >= 0 && d1 >= 0:
				put(p, z, next)
			case d0 <= 0 && d1 <= 0:
				put(q, z, next)
			default:
				m := z + (next-z)*(d0/(d0-d1))
				if d0 < 0 {
					p, q = q, p
				}
				put(p, z, m)
				put(q, m, next)
			}
		case p != nil:
			put(p, z, next)
		case q != nil:
			put(q, z, next)
		}
		z = next
		if i < len(a) && a[i].z1 <= z {
			i++
		}
		if j < len(b) && b[j].z1 <= z {
			j++
		}
	}
	return out
}

// reach returns how far the flank comes out between two heights, and the piece
// that does; -∞ when it is not there.
func (f flank) reach(lo, hi float64) (far float64, by int32) {
	far, by = math.Inf(-1), -1
	for i := range f {
		s := &f[i]
		if s.z1 < lo || s.z0 > hi {
			continue
		}
		for _, z := range [2]float64{max(lo, s.z0), min(hi, s.z1)} {
			if y := s.at(z); y > far {
				far, by = y, s.by
			}
		}
	}
	return far, by
}
