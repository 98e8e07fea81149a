package profile

import "example.org/fourfoot/gauge/measure"

// A Form is the form of a vertical curve. The zero value is Parabola.
type Form uint8

// The forms of a vertical curve.
const (
	Parabola Form = iota // constant change of gradient per plan distance
	Circle               // constant curvature in the vertical plane
)

// String returns "parabola" or "circle".
func (f Form) String() string {
	switch f {
	case Parabola:
		return "parabola"
	case Circle:
		return "circle"
	}
	return "unknown form"
}

// A Point is where two gradients meet: the intersection point of a vertical
// curve, or with neither Curve nor Radius a sudden change of gradient.
type Point struct {
	Chainage measure.Length
	Level    measure.Length // of the intersection point, above datum
	Curve    measure.Length // length of the vertical curve in plan, 0 for none
	Radius   measure.Length // of the vertical curve, given instead of Curve
	Form     Form           // of the vertical curve
}

// A Section is a length on one gradient, from one intersection point to the
// next, and the vertical curve at its far end.
type Section struct {
	Length   measure.Length   // in plan
	Gradient measure.Gradient // positive climbs
	Curve    measure.Length   // as in Point
	Radius   measure.Length
	Form     Form
}

// Points returns the intersection points of sections that follow one another
// from a first point; hand them to [NewLevel] or [NewClosedLevel], which check
// them. The last section of an open line has no vertical curve.
func Points(first Point, sections ...Section) []Point {
	out := []Point{first}
	for _, s := range sections {
		last := out[len(out)-1]
		out = append(out, Point{
			Chainage: last.Chainage + s.Length,
			Level:    last.Level + measure.Length(float64(s.Gradient)*float64(s.Length)),
			Curve:    s.Curve, Radius: s.Radius, Form: s.Form,
		})
	}
	return out
}
