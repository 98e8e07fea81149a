package opening

import (
	"fmt"
	"math"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Circle is a round opening: a pipe, a ring of segments.
type Circle struct {
	Offset measure.Length // of its centre from the track centreline (a straight tunnel's axis), left positive
	Height measure.Length // of its centre above the head of the rail that stays level
	Radius measure.Length
	By     []Source // what touches it, the margin between
}

// Circle returns the smallest circular opening that clears the section by the
// margin everywhere: the section's least enclosing circle grown by the margin.
// Free, that is set by two corners or three; Centred, by one or two. What lies
// in the pipe under the rails belongs in the section too, see Section.With.
func (s Section) Circle(margin measure.Length, about About) (Circle, error) {
	l := fault.In("opening")
	if !s.check(l, margin, about) {
		return Circle{}, l.Err()
	}
	p := s.spots()
	var y, z float64
	if about == Free {
		y, z = enclose(p)
	} else {
		z = encloseCentred(p)
	}
	far := 0.0
	for _, q := range p {
		far = max(far, math.Hypot(q.y-y, q.z-z))
	}
	c := Circle{Offset: measure.Length(y), Height: measure.Length(z), Radius: measure.Length(far) + margin}
	for _, q := range p {
		if math.Hypot(q.y-y, q.z-z) > far-1e-7*(1+far) {
			c.By = append(c.By, s.from[q.by])
		}
	}
	return c, nil
}

// encloseCentred returns the height of the centre, on y = 0, of the least
// circle round the points. The square of the distance to the farthest is z² and
// the largest of the lines y_i² + z_i² - 2 z_i·z, so its least value is where
// one of them is least, at z = z_i, or where two of them are equal.
func encloseCentred(p []spot) float64 {
	best, at := math.Inf(1), 0.0
	try := func(z float64) {
		far := 0.0
		for _, q := range p {
			far = max(far, math.Hypot(q.y, q.z-z))
		}
		if far < best {
			best, at = far, z
		}
	}
	for i, a := range p {
		try(a.z)
		for _, b := range p[:i] {
			if d := a.z - b.z; d != 0 {
				try(((a.y-b.y)*(a.y+b.y)/d + a.z + b.z) / 2)
			}
		}
	}
	return at
}

// enclose returns the centre of the least circle round the points, by E.
// Welzl's method (Smallest enclosing disks, 1991) in its three nested loops.
func enclose(p []spot) (y, z float64) {
	r := -1.0
	in := func(q spot) bool { return math.Hypot(q.y-y, q.z-z) <= r*(1+1e-13)+1e-13 }
	two := func(a, b spot) {
		y, z = (a.y+b.y)/2, (a.z+b.z)/2
		r = math.Hypot(a.y-y, a.z-z)
	}
	for i, a := range p {
		if in(a) {
			continue
		}
		y, z, r = a.y, a.z, 0
		for j, b := range p[:i] {
			if in(b) {
				continue
			}
			two(a, b)
			for _, c := range p[:j] {
				if in(c) {
					continue
				}
				by, bz, cy, cz := b.y-a.y, b.z-a.z, c.y-a.y, c.z-a.z
				d := 2 * (float64(by*cz) - float64(bz*cy))
				if d == 0 {
					continue
				}
				b2, c2 := by*by+bz*bz, cy*cy+cz*cz
				dy, dz := (cz*b2-bz*c2)/d, (by*c2-cy*b2)/d
				y, z, r = a.y+dy, a.z+dz, math.Hypot(dy, dz)
			}
		}
	}
	return y, z
}

// Clear returns how far inside the circle the section stays, below zero where
// it comes out.
func (c Circle) Clear(s Section) measure.Length {
	far := 0.0
	for _, p := range s.spots() {
		far = max(far, math.Hypot(p.y-float64(c.Offset), p.z-float64(c.Height)))
	}
	return c.Radius - measure.Length(far)
}

// Outline returns the circle as a polygon that departs from it by at most the
// tolerance, inwards.
func (c Circle) Outline(tolerance measure.Length) []clearance.SectionPoint {
	p := arcPoints(float64(c.Offset), float64(c.Height), float64(c.Radius), 0, 2*math.Pi, float64(tolerance))
	return p[:len(p)-1] // it closes itself
}

// arcPoints returns points on an arc from the angle a to b, anticlockwise with
// the offset to the right, chords within a tolerance of it.
func arcPoints(y, z, r, a, b, tolerance float64) []clearance.SectionPoint {
	if !(tolerance > r*1e-7) {
		tolerance = r * 1e-7
	}
	n := int(max(1, math.Ceil((b-a)/(2*math.Acos(max(0, 1-tolerance/max(r, 1e-300)))))))
	out := make([]clearance.SectionPoint, 0, n+1)
	for i := range n + 1 {
		sin, cos := math.Sincos(a + (b-a)*float64(i)/float64(n))
		out = append(out, clearance.SectionPoint{Offset: measure.Length(y + r*cos), Height: measure.Length(z + r*sin)})
	}
	return out
}

// String returns the circle in words.
func (c Circle) String() string {
	return fmt.Sprintf("%.1f mm across, its centre %.1f mm up and %.1f mm to the left", 2*float64(c.Radius), float64(c.Height), float64(c.Offset))
}
