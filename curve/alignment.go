package curve

import (
	"errors"
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/gauge/measure"
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

// A Foot is a point's nearest station on a line.
type Foot struct {
	Chainage measure.Length
	Offset   measure.Length // of the point from the line, left positive
	End      bool           // the foot is an end of an open line, the point lies beyond it
}

// An Alignment is a line in plan: a start pose and elements, checked once and
// immutable. It is safe for concurrent use.
type Alignment struct {
	elements []Element
	start    []float64 // chainage of each element's start, and the length last
	heading  []float64 // heading at each element's start, its kink included
	point    []r2.Vec
	final    Pose
	closed   bool
}

// New returns the open line that begins at start and runs through elements.
func New(start Pose, elements ...Element) (*Alignment, error) {
	if len(elements) == 0 {
		return nil, fmt.Errorf("curve: a line needs at least one element: %w", ErrInput)
	}
	a := &Alignment{}
	s, h, p := 0.0, float64(start.Heading), start.Point
	for i, e := range elements {
		if e.length <= 0 {
			return nil, fmt.Errorf("curve: element %d is not made by a constructor: %w", i+1, ErrInput)
		}
		h += e.kink
		a.elements = append(a.elements, e)
		a.start = append(a.start, s)
		a.heading = append(a.heading, h)
		a.point = append(a.point, p)
		p = e.from(p, h, e.length)
		h += e.heading(e.length)
		s += e.length
	}
	a.start = append(a.start, s)
	a.final = Pose{p, measure.Angle(h)}
	return a, nil
}

// NewClosed returns the circuit that begins at start, runs through elements
// and meets its start again within tolerance in place and slack in heading.
func NewClosed(start Pose, tolerance measure.Length, slack measure.Angle, elements ...Element) (*Alignment, error) {
	a, err := New(start, elements...)
	if err != nil {
		return nil, err
	}
	gap := r2.Norm(r2.Sub(a.final.Point, start.Point))
	turn := math.Remainder(float64(a.final.Heading-start.Heading), 2*math.Pi)
	if gap > float64(tolerance) || math.Abs(turn) > float64(slack) {
		return nil, fmt.Errorf("curve: the circuit misses its start by %.3f mm and %.4f°: at most %.3f mm and %.4f° are allowed: %w",
			gap, measure.Angle(turn).Degrees(), float64(tolerance), slack.Degrees(), ErrInput)
	}
	a.closed = true
	return a, nil
}

func (e Element) from(p r2.Vec, h, s float64) r2.Vec {
	switch e.shape {
	case StraightLine:
		return r2.Vec{X: p.X + s*math.Cos(h), Y: p.Y + s*math.Sin(h)}
	case CircularArc:
		half := e.k0 * s / 2
		c := s
		if half != 0 {
			c = s * math.Sin(half) / half
		}
		return r2.Vec{X: p.X + c*math.Cos(h+half), Y: p.Y + c*math.Sin(h+half)}
	}
	n := 8 + int(math.Abs(e.heading(s))*4)
	p.X += quad.Fixed(func(t float64) float64 { return math.Cos(h + e.heading(t)) }, 0, s, 2*n, nil, 0)
	p.Y += quad.Fixed(func(t float64) float64 { return math.Sin(h + e.heading(t)) }, 0, s, 2*n, nil, 0)
	return p
}

// Length returns the length of the line along its centreline.
func (a *Alignment) Length() measure.Length { return measure.Length(a.start[len(a.elements)]) }

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

// Start returns the pose at chainage 0.
func (a *Alignment) Start() Pose {
	return Pose{a.point[0], measure.Angle(a.heading[0] - a.elements[0].kink)}
}

// End returns the pose at the end.
func (a *Alignment) End() Pose { return a.final }

// At returns the line at chainage s. It answers for every finite s: a circuit
// takes s modulo its length, an open line goes on straight on its end
// tangents. At an element boundary it answers for the element that begins.
func (a *Alignment) At(s measure.Length) Station {
	x := float64(s)
	l := a.start[len(a.elements)]
	if a.closed {
		x = math.Mod(x, l)
		if x < 0 {
			x += l
		}
	} else if x < 0 {
		return beyond(s, x, a.Start())
	} else if x > l {
		return beyond(s, x-l, a.final)
	}
	i := sort.SearchFloat64s(a.start, x)
	if i == len(a.elements) || a.start[i] > x {
		i--
	}
	e := a.elements[i]
	x -= a.start[i]
	h := a.heading[i] + e.heading(x)
	sin, cos := math.Sincos(h)
	return Station{s, e.from(a.point[i], a.heading[i], x), r2.Vec{X: cos, Y: sin}, measure.Angle(h), measure.Curvature(e.curvature(x))}
}

func beyond(s measure.Length, x float64, p Pose) Station {
	sin, cos := math.Sincos(float64(p.Heading))
	return Station{s, r2.Vec{X: p.Point.X + x*cos, Y: p.Point.Y + x*sin}, r2.Vec{X: cos, Y: sin}, p.Heading, 0}
}

// Locate is At for a chainage that comes from outside: it refuses one that is
// not finite or, on an open line, not on the line.
func (a *Alignment) Locate(s measure.Length) (Station, error) {
	if !finite(float64(s)) {
		return Station{}, fmt.Errorf("curve: chainage of %v mm: must be finite: %w", float64(s), ErrInput)
	}
	if !a.closed && (s < 0 || s > a.Length()) {
		return Station{}, fmt.Errorf("curve: chainage of %v mm: the line runs from 0 mm to %v mm: %w", float64(s), float64(a.Length()), ErrInput)
	}
	return a.At(s), nil
}

// Point returns the place at chainage s, under the rules of At.
func (a *Alignment) Point(s measure.Length) r2.Vec { return a.At(s).Point }

// Offset returns the point at the given offset from the line, left positive,
// square to the line at chainage s.
func (a *Alignment) Offset(s, offset measure.Length) r2.Vec {
	st := a.At(s)
	return r2.Vec{X: st.Point.X - float64(offset)*st.Tangent.Y, Y: st.Point.Y + float64(offset)*st.Tangent.X}
}

// Turn returns the turn of the heading from one chainage to another, left
// positive, whole turns counted. On a circuit `to` may lie below `from`: the
// range then runs over the start.
func (a *Alignment) Turn(from, to measure.Length) measure.Angle {
	h := a.At(to).Heading - a.At(from).Heading
	if a.closed && to < from {
		h += a.final.Heading - a.Start().Heading
	}
	return h
}

// Span returns the length of the range from one chainage to another. On a
// circuit `to` may lie below `from`: the range then runs over the start.
func (a *Alignment) Span(from, to measure.Length) measure.Length {
	if a.closed && to < from {
		return to - from + a.Length()
	}
	return to - from
}

// A Rail is one of the two running rails, named in the running direction.
type Rail = Hand

// RailLength returns the length of the left or right rail between two
// chainages on the level, at the rail-head centres railCentres apart
// (gauge + head width): Δs ∓ (railCentres/2)·Δθ, exact for every shape.
func (a *Alignment) RailLength(rail Rail, from, to, railCentres measure.Length) (measure.Length, error) {
	_, err1 := a.Locate(from)
	_, err2 := a.Locate(to)
	if err := errors.Join(err1, err2); err != nil {
		return 0, err
	}
	return a.Span(from, to) - measure.Length(float64(rail)*float64(railCentres)/2*float64(a.Turn(from, to))), nil
}

// Nearest returns the nearest station of p.
func (a *Alignment) Nearest(p r2.Vec) Foot {
	const step = 20
	l := a.start[len(a.elements)]
	n := int(l/step) + 2
	best, bs := math.Inf(1), 0.0
	for i := 0; i <= n; i++ {
		s := l * float64(i) / float64(n)
		if d := r2.Norm2(r2.Sub(p, a.Point(measure.Length(s)))); d < best {
			best, bs = d, s
		}
	}
	lo, hi := bs-l/float64(n), bs+l/float64(n)
	if !a.closed {
		lo, hi = max(lo, 0), min(hi, l)
	}
	g := func(s float64) float64 {
		st := a.At(measure.Length(s))
		return r2.Dot(r2.Sub(p, st.Point), st.Tangent)
	}
	for i := 0; i < 60; i++ {
		if m := (lo + hi) / 2; g(m) > 0 {
			lo = m
		} else {
			hi = m
		}
	}
	s := (lo + hi) / 2
	st := a.At(measure.Length(s))
	d := r2.Sub(p, st.Point)
	off := st.Tangent.X*d.Y - st.Tangent.Y*d.X
	along := r2.Dot(d, st.Tangent)
	f := Foot{Chainage: measure.Length(s), Offset: measure.Length(off)}
	if !a.closed && math.Abs(along) > 1e-6 {
		f.End = true
		f.Offset = measure.Length(math.Copysign(r2.Norm(d), off))
	}
	if a.closed {
		f.Chainage = measure.Length(math.Mod(s+l, l))
	}
	return f
}
