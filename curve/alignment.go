package curve

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Pose is a place and a heading.
type Pose struct {
	Point   r2.Vec        // x east, y north, millimetres
	Heading measure.Angle // anticlockwise from +x
}

// A Station is the line at one chainage.
type Station struct {
	Chainage  measure.Length
	Point     r2.Vec            // x east, y north, millimetres
	Tangent   r2.Vec            // unit vector in the running direction
	Heading   measure.Angle     // not wrapped: it counts whole turns from the start
	Curvature measure.Curvature // left positive
}

// An Alignment is a line in plan: a start pose and elements, checked once and
// immutable. It is safe for concurrent use.
type Alignment struct {
	elements []Element
	placings []placing // of each element's start, and of the end
	pieces   []piece
	start    []float64 // chainage of each element's start, and the length last
	lookup   lookup    // pieces by chainage
	tree     tree      // boxes of the pieces
	length   float64
	first    Pose
	final    Pose
	closed   bool
}

// MaxElements is the most elements that a line may have.
const MaxElements = 10_000

// New returns the open line that begins at start and runs through elements.
func New(start Pose, elements ...Element) (*Alignment, error) {
	if err := check(start, elements); err != nil {
		return nil, err
	}
	return build(start, elements), nil
}

// check reports all that New refuses.
func check(start Pose, elements []Element) error {
	l := fault.In("curve")
	for _, c := range []struct {
		name string
		v    float64
	}{{"start x", start.Point.X}, {"start y", start.Point.Y}} {
		fault.Between(l, c.name, measure.Length(c.v), -MaxLength, MaxLength)
	}
	fault.Finite(l, "start heading", start.Heading)
	switch n := len(elements); {
	case n == 0:
		l.Add("elements", 0, "a line needs at least one")
	case n > MaxElements:
		l.Over("elements", n, fmt.Sprintf("a line takes at most %d", MaxElements))
		return l.Err()
	}
	for i := range elements {
		e := &elements[i]
		if e.length <= 0 {
			l.Add(fmt.Sprintf("element %d", i+1), nil, "is not made by a constructor")
		}
		if !(math.Abs(e.kink) < math.Pi) {
			l.Add(fmt.Sprintf("element %d: kink", i+1), degrees(e.kink), "must be between -180° and 180°")
		}
	}
	return l.Err()
}

// build prepares a line whose input is checked. Of biases there are none, one
// for all elements, or one for each.
func build(start Pose, elements []Element, biases ...bias) *Alignment {
	a := &Alignment{first: start}
	a.elements = append(make([]Element, 0, len(elements)), elements...)
	a.placings = make([]placing, 0, len(elements)+1)
	a.start = make([]float64, 0, len(elements)+1)
	a.pieces = make([]piece, 0, 2*len(elements))
	at := placing{}
	at.heading.hi, at.x.hi, at.y.hi = float64(start.Heading), start.Point.X, start.Point.Y
	s := sum{}
	for i := range a.elements {
		e := &a.elements[i]
		at.at = s.value()
		at.heading = at.heading.add(e.kink)
		if n := len(biases); n > 0 {
			at.bias = biases[min(i, n-1)]
		}
		a.start = append(a.start, at.at)
		a.placings = append(a.placings, at)
		a.pieces, at = prepare(a.pieces, e, i, at)
		s = s.add(e.length)
	}
	a.length = s.value()
	at.at = a.length
	a.start = append(a.start, a.length)
	a.placings = append(a.placings, at)
	a.final = Pose{r2.Vec{X: at.x.value(), Y: at.y.value()}, measure.Angle(at.heading.value())}
	a.lookup = newLookup(a.pieces, a.length)
	a.tree = newTree(a.pieces)
	return a
}

// Length returns the length of the line along its centreline.
func (a *Alignment) Length() measure.Length { return measure.Length(a.length) }

// Closed reports whether the line is a circuit.
func (a *Alignment) Closed() bool { return a.closed }

// Elements returns a copy of the line's elements.
func (a *Alignment) Elements() []Element { return append([]Element(nil), a.elements...) }

// Boundaries returns the chainage of each element's start, and the length of
// the line last.
func (a *Alignment) Boundaries() []measure.Length {
	b := make([]measure.Length, len(a.start))
	for i, s := range a.start {
		b[i] = measure.Length(s)
	}
	return b
}

// Start returns the pose at chainage 0, before the first element's kink.
func (a *Alignment) Start() Pose { return a.first }

// End returns the pose at the end.
func (a *Alignment) End() Pose { return a.final }

// At returns the line at chainage s. It answers for every finite s: a circuit
// takes s modulo its length, an open line goes on straight on its end
// tangents. At an element boundary it answers for the element that begins. A
// chainage that is not a number is answered as 0; an infinite one as the end
// it lies towards.
func (a *Alignment) At(s measure.Length) Station {
	x := float64(s)
	if !(x >= 0 && x < a.length) {
		if x = a.reduce(x); !(x >= 0 && x <= a.length) {
			return a.beyond(x)
		}
		if !finite(float64(s)) {
			s = measure.Length(x)
		}
	}
	p := &a.pieces[a.lookup.find(x)]
	at := &a.placings[p.elem]
	x -= p.at
	st := Station{Chainage: s}
	turn := at.bent * x
	switch p.form {
	case formStraight:
		st.Point = r2.Vec{X: p.x + p.c*x, Y: p.y + p.s*x}
		st.Tangent = r2.Vec{X: p.c - at.dx, Y: p.s - at.dy}
		st.Heading = measure.Angle(at.heading.value())
		if at.bias != (bias{}) {
			return st.shifted(at.dx, at.dy)
		}
		return st
	case formArc:
		turn = p.k * x
		sin, cos := math.Sincos(turn / 2)
		r := p.r2 * sin
		st.Point = r2.Vec{X: p.x + r*(p.c*cos-p.s*sin), Y: p.y + r*(p.s*cos+p.c*sin)}
		sin, cos = 2*sin*cos, 1-2*sin*sin
		st.Tangent = r2.Vec{X: p.c*cos - p.s*sin, Y: p.s*cos + p.c*sin}
		st.Heading = measure.Angle(at.heading.value() + turn)
		st.Curvature = measure.Curvature(p.k)
		return st
	}
	st.Point.X, st.Point.Y = p.q.at(p.x, p.y, (x-p.mid)*p.inv)
	more, k := p.state(x)
	h := at.heading.value() + (turn + more)
	// A piece turns little: go on from the direction in its middle.
	sin, cos := sincos(more - p.turn + at.bent*(x-p.mid))
	c, d := p.c-at.dx, p.s-at.dy
	st.Tangent = r2.Vec{X: c*cos - d*sin, Y: d*cos + c*sin}
	st.Heading = measure.Angle(h)
	st.Curvature = measure.Curvature(k + at.bent)
	if at.bias != (bias{}) {
		return st.shifted(at.dx, at.dy)
	}
	return st
}

// reduce brings a chainage outside the line's range onto a circuit; on an
// open line it makes only what is not finite a number.
func (a *Alignment) reduce(x float64) float64 {
	switch {
	case math.IsNaN(x) || math.IsInf(x, -1):
		return 0
	case math.IsInf(x, 1):
		x = a.length
	}
	if !a.closed {
		return x
	}
	if x >= a.length && x < 2*a.length {
		x -= a.length // exact
	} else if x = math.Mod(x, a.length); x < 0 {
		x += a.length
	}
	if x >= a.length {
		x = 0
	}
	return x
}

// shifted turns the tangent to where it points when the place moves by
// (dx, dy) a millimetre besides.
func (s Station) shifted(dx, dy float64) Station {
	t := s.Tangent
	ahead, left := 1+t.X*dx+t.Y*dy, t.X*dy-t.Y*dx
	speed := math.Hypot(ahead, left)
	s.Tangent = r2.Vec{X: (t.X + dx) / speed, Y: (t.Y + dy) / speed}
	s.Heading += measure.Angle(math.Atan2(left, ahead))
	s.Curvature *= measure.Curvature(ahead / (speed * speed * speed))
	return s
}

// beyond answers for a chainage off the ends of an open line.
func (a *Alignment) beyond(s float64) Station {
	p, x := a.first, s
	if s > a.length {
		p, x = a.final, s-a.length
	}
	sin, cos := math.Sincos(float64(p.Heading))
	return Station{measure.Length(s), r2.Vec{X: p.Point.X + x*cos, Y: p.Point.Y + x*sin}, r2.Vec{X: cos, Y: sin}, p.Heading, 0}
}

// Locate is At for a chainage that comes from outside: it refuses one that is
// not finite or, on an open line, not on the line.
func (a *Alignment) Locate(s measure.Length) (Station, error) {
	if !finite(float64(s)) {
		return Station{}, fmt.Errorf("curve: chainage of %v mm: must be finite: %w", float64(s), measure.ErrInput)
	}
	if !a.closed && (s < 0 || s > a.Length()) {
		return Station{}, fmt.Errorf("curve: chainage of %v mm: the line runs from 0 mm to %v mm: %w", float64(s), float64(a.Length()), measure.ErrInput)
	}
	return a.At(s), nil
}

// Point returns the place at chainage s, under the rules of At.
func (a *Alignment) Point(s measure.Length) r2.Vec {
	x := float64(s)
	if !(x >= 0 && x < a.length) {
		if x = a.reduce(x); !(x >= 0 && x <= a.length) {
			return a.beyond(x).Point
		}
	}
	p := &a.pieces[a.lookup.find(x)]
	px, py := p.place(x - p.at)
	return r2.Vec{X: px, Y: py}
}

// Offset returns the point at the given offset from the line, left positive,
// square to the line at chainage s.
func (a *Alignment) Offset(s, offset measure.Length) r2.Vec {
	st := a.At(s)
	return r2.Vec{X: st.Point.X - float64(offset)*st.Tangent.Y, Y: st.Point.Y + float64(offset)*st.Tangent.X}
}
