// Package plane holds what several packages ask of figures in the plane.
package plane

import "gonum.org/v1/gonum/spatial/r2"

// Contains reports whether x lies in the polygon, by the even-odd rule: a ray
// from it crosses the sides an odd number of times. On a side it may say either.
func Contains(polygon []r2.Vec, x r2.Vec) bool {
	in := false
	for i, p := range polygon {
		q := polygon[(i+1)%len(polygon)]
		if (p.Y > x.Y) != (q.Y > x.Y) && x.X < p.X+(x.Y-p.Y)/(q.Y-p.Y)*(q.X-p.X) {
			in = !in
		}
	}
	return in
}
