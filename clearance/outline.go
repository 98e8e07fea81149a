package clearance

import (
	"fmt"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Point is a point of a body, in the body's own axes.
type Point struct {
	Along  measure.Length // forward from midway between the pivots
	Across measure.Length // to the left of the body's centre line
}

// An Outline is a body in plan: the corners of a polygon in order, either way
// round, convex or stepped, the last joined to the first. Its sides must not
// cross or touch each other.
type Outline []Point

// Box returns a rectangle of the given length and width, its middle midway
// between the pivots.
func Box(length, width measure.Length) Outline { return Tapered(length, width, 0, 0, width) }

// Tapered returns a body of the given length and width whose ends narrow to
// endWidth: the rear end over the length rear, the front end over the length
// front; 0 leaves that end square and full width.
func Tapered(length, width, rear, front, endWidth measure.Length) Outline {
	l, w, e := length/2, width/2, endWidth/2
	var o Outline
	if rear > 0 {
		o = append(o, Point{-l, e}, Point{-l, -e}, Point{-l + rear, -w})
	} else {
		o = append(o, Point{-l, w}, Point{-l, -w})
	}
	if front > 0 {
		o = append(o, Point{l - front, -w}, Point{l, -e}, Point{l, e}, Point{l - front, w})
	} else {
		o = append(o, Point{l, -w}, Point{l, w})
	}
	if rear > 0 {
		o = append(o, Point{-l + rear, w})
	}
	return o
}

// Moved returns the outline moved forward by d, for a body whose middle is not
// midway between its pivots.
func (o Outline) Moved(d measure.Length) Outline {
	m := make(Outline, len(o))
	for i, p := range o {
		m[i] = Point{p.Along + d, p.Across}
	}
	return m
}

// Extent returns the rearmost and the foremost Along of the outline.
func (o Outline) Extent() (rear, front measure.Length) {
	for i, p := range o {
		if i == 0 {
			rear, front = p.Along, p.Along
		}
		rear, front = min(rear, p.Along), max(front, p.Along)
	}
	return rear, front
}

// area returns twice the signed area, positive anticlockwise.
func (o Outline) area() float64 {
	a := 0.0
	for i, p := range o {
		q := o[(i+1)%len(o)]
		a += float64(p.Along)*float64(q.Across) - float64(q.Along)*float64(p.Across)
	}
	return a
}

func (o Outline) check(l *fault.List, field string) {
	if len(o) < 3 {
		l.Add(field, fmt.Sprintf("of %d corners", len(o)), "needs at least 3 corners")
		return
	}
	if len(o) > MaxOutline {
		l.Over(field, fmt.Sprintf("of %d corners", len(o)), fmt.Sprintf("must have at most %d corners", MaxOutline))
		return
	}
	ok := true
	for i, p := range o {
		ok = fault.Finite(l, fmt.Sprintf("%s: corner %d: along", field, i+1), p.Along) && ok
		ok = fault.Finite(l, fmt.Sprintf("%s: corner %d: across", field, i+1), p.Across) && ok
	}
	if !ok {
		return
	}
	n := len(o)
	for i := range o {
		if o[i] == o[(i+1)%n] {
			l.Add(field, fmt.Sprintf("corner %d", i+1), "must not be the same as the next corner")
			return
		}
	}
	for i := range o {
		for j := i + 1; j < n; j++ {
			if j == i+1 || (j+1)%n == i {
				continue
			}
			if meet(o[i], o[i+1], o[j], o[(j+1)%n]) {
				l.Add(field, fmt.Sprintf("sides %d and %d", i+1, j+1), "must not cross or touch")
				return
			}
		}
	}
	if o.area() == 0 {
		l.Add(field, "of no area", "must enclose an area")
	}
}

// meet reports whether the segments ab and cd have a point in common.
func meet(a, b, c, d Point) bool {
	side := func(p, q, r Point) float64 {
		return float64(float64(q.Along-p.Along)*float64(r.Across-p.Across)) - float64(float64(q.Across-p.Across)*float64(r.Along-p.Along))
	}
	within := func(p, q, r Point) bool {
		return min(p.Along, q.Along) <= r.Along && r.Along <= max(p.Along, q.Along) &&
			min(p.Across, q.Across) <= r.Across && r.Across <= max(p.Across, q.Across)
	}
	s1, s2, s3, s4 := side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)
	if (s1 > 0) != (s2 > 0) && s1 != 0 && s2 != 0 && (s3 > 0) != (s4 > 0) && s3 != 0 && s4 != 0 {
		return true
	}
	return s1 == 0 && within(a, b, c) || s2 == 0 && within(a, b, d) || s3 == 0 && within(c, d, a) || s4 == 0 && within(c, d, b)
}

// A Band is a body's outline between two heights: the footplate, the cylinders,
// the cab, the chimney.
type Band struct {
	Name    string         // for messages, as "cylinders"; may be empty
	Bottom  measure.Length // above the plane of both rail heads
	Top     measure.Length // more than Bottom
	Outline Outline
}

func (b Band) check(l *fault.List, field string) {
	okB, okT := fault.Finite(l, field+": bottom", b.Bottom), fault.Finite(l, field+": top", b.Top)
	if okB && okT && b.Top <= b.Bottom {
		l.Add(field+": top", b.Top, fmt.Sprintf("must be above the bottom at %v", b.Bottom))
	}
	b.Outline.check(l, field+": outline")
}
