package opening

import (
	"math"
	"slices"

	"example.org/fourfoot/internal/solve"
)

// hullOf returns the corners of the convex hull, anticlockwise in (y, z)
// (Andrew's monotone chain).
func hullOf(p []spot) []spot {
	slices.SortFunc(p, func(a, b spot) int {
		if a.y != b.y {
			return compare(a.y, b.y)
		}
		return compare(a.z, b.z)
	})
	p = slices.CompactFunc(p, func(a, b spot) bool { return a.y == b.y && a.z == b.z })
	if len(p) < 3 {
		return p
	}
	var h []spot
	grow := func(q spot, least int) {
		for len(h) > least {
			a, b := h[len(h)-2], h[len(h)-1]
			if (b.y-a.y)*(q.z-a.z)-(b.z-a.z)*(q.y-a.y) > 0 {
				break
			}
			h = h[:len(h)-1]
		}
		h = append(h, q)
	}
	for _, q := range p {
		grow(q, 1)
	}
	least := len(h)
	for _, q := range slices.Backward(p[:len(p)-1]) {
		grow(q, least)
	}
	return h[:len(h)-1]
}

// lowest returns where between a and b, the ends with them, a function with one
// least value has it.
func lowest(f func(float64) float64, a, b float64) (x, least float64) {
	x, least = solve.Golden(f, a, b, 0, math.Inf(-1))
	for _, at := range [2]float64{a, b} {
		if v := f(at); v < least || math.IsNaN(least) {
			x, least = at, v
		}
	}
	return x, least
}
