package design

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Vertex is an intersection point of two straights and the bend to be put
// there. The ends of an open line need only the point, and so does a point on
// a straight.
type Vertex struct {
	Point  r2.Vec
	Radius measure.Length
	Ease   Easing
}

// MaxVertices is the most vertices that a line may have.
const MaxVertices = 2000

// Through returns the line from the first vertex to the last with a bend at
// each one between. Where two bends need more than the straight between them,
// the error (measure.ErrNoAnswer) tells for each the largest radius that fits.
func Through(vertices ...Vertex) (Line, error) { return through(vertices, false) }

// Circuit returns the closed line with a bend at each vertex. It starts where
// the bend at the first vertex ends.
func Circuit(vertices ...Vertex) (Line, error) { return through(vertices, true) }

func through(vs []Vertex, closed bool) (Line, error) {
	l := fault.In("design")
	n, least := len(vs), 2
	if closed {
		least = 3
	}
	if n < least {
		l.Add("vertices", n, fmt.Sprintf("must be %d or more", least))
		return Line{}, l.Err()
	}
	if n > MaxVertices {
		l.Over("vertices", n, fmt.Sprintf("at most %d", MaxVertices))
		return Line{}, l.Err()
	}
	for i, v := range vs {
		checkPoint(l, vertexName(i)+" point", v.Point)
	}
	if !l.OK() {
		return Line{}, l.Err()
	}
	sides := n - 1
	if closed {
		sides = n
	}
	length := make([]float64, sides)
	for i := range length {
		length[i] = r2.Norm(r2.Sub(vs[(i+1)%n].Point, vs[i].Point))
		if length[i] == 0 {
			l.Add(vertexName((i+1)%n), nil, "must not lie on the vertex before it")
		}
	}
	if !l.OK() {
		return Line{}, l.Err()
	}
	bends := make([]*Bend, n)
	corners := make([]Corner, n)
	for i := range vs {
		if closed || i > 0 && i < n-1 {
			bends[i], corners[i] = vertexBend(l, vs, i)
		}
	}
	if !l.OK() {
		return Line{}, l.Err()
	}
	rest := make([]float64, sides)
	for i := range length {
		j := (i + 1) % n
		out, in := tangentOut(bends[i]), tangentIn(bends[j])
		rest[i] = length[i] - out - in
		if rest[i] < -1e-12*length[i] {
			l.NoAnswer(fmt.Sprintf("straight from vertex %d to vertex %d", i+1, j+1), measure.Length(length[i]),
				fmt.Sprintf("the bends need %.6g mm and %.6g mm of it%s", out, in,
					roomHints(corners[i], bends[i], length[i]-in, corners[j], bends[j], length[i]-out, i, j)))
		}
	}
	if !l.OK() {
		return Line{}, l.Err()
	}
	line := Line{Closed: closed}
	first := r2.Sub(vs[1].Point, vs[0].Point)
	line.Start = curve.Pose{Point: vs[0].Point, Heading: measure.Angle(math.Atan2(first.Y, first.X))}
	if closed && bends[0] != nil {
		line.Start.Point = forward(vs[0].Point, float64(line.Start.Heading), tangentOut(bends[0]), 0)
	}
	straight := 0.0
	for i := range length {
		straight += rest[i]
		if b := bends[(i+1)%n]; b != nil {
			line.straight(straight, length[i])
			line.bend(*b)
			straight = 0
		}
	}
	line.straight(straight, length[sides-1])
	return line, nil
}

func vertexName(i int) string { return fmt.Sprintf("vertex %d", i+1) }

// vertexBend returns the bend at vertex i, nil where the line goes straight on.
func vertexBend(l *fault.List, vs []Vertex, i int) (*Bend, Corner) {
	n := len(vs)
	prev, v, next := vs[(i+n-1)%n], vs[i], vs[(i+1)%n]
	a, b := r2.Sub(v.Point, prev.Point), r2.Sub(next.Point, v.Point)
	turn := math.Atan2(float64(a.X*b.Y)-float64(a.Y*b.X), r2.Dot(a, b))
	if math.Abs(turn) < 1e-12 {
		return nil, Corner{}
	}
	sub := fault.In("design")
	c, err := CornerOf(prev.Point, v.Point, next.Point)
	if err != nil {
		l.JoinAs(vertexName(i), err)
		return nil, Corner{}
	}
	checkRadius(sub, "radius", v.Radius)
	v.Ease.check(sub, "easement")
	if sub.OK() {
		if bend, ok := c.bend(sub, float64(v.Radius), v.Ease); ok {
			return &bend, c
		}
	}
	l.JoinAs(vertexName(i), sub.Err())
	return nil, Corner{}
}

func tangentIn(b *Bend) float64 {
	if b == nil {
		return 0
	}
	return float64(b.TangentIn)
}

func tangentOut(b *Bend) float64 {
	if b == nil {
		return 0
	}
	return float64(b.TangentOut)
}

// roomHints tells what radius at either end would fit the straight between,
// the other bend left as it is.
func roomHints(ci Corner, bi *Bend, roomI float64, cj Corner, bj *Bend, roomJ float64, i, j int) string {
	s := ""
	if bi != nil && roomI > 0 {
		if r, ok := largestRadius(ci.turn, math.Inf(1), roomI, bi.Ease); ok {
			s += fmt.Sprintf("; a radius of %.6g mm at vertex %d would fit", r, i+1)
		}
	}
	if bj != nil && roomJ > 0 {
		if r, ok := largestRadius(cj.turn, roomJ, math.Inf(1), bj.Ease); ok {
			s += fmt.Sprintf("; a radius of %.6g mm at vertex %d would fit", r, j+1)
		}
	}
	if s == "" {
		return "; make both bends sharper or move the vertices apart"
	}
	return s
}
