package design

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
	"example.org/fourfoot/internal/plane"
)

// An Obstacle is a thing that the line must keep clear of: a point, a wall
// along several points, or the polygon of its corners.
type Obstacle struct {
	Name   string
	Points []r2.Vec
	Solid  bool // the points are the corners of a polygon whose inside is barred too

	// The distances that the centreline must keep from it where it stands to
	// the left and to the right of the line, seen in the running direction.
	// Inside and outside of a curve need different room.
	Left, Right measure.Length
}

// MaxObstaclePoints is the most points that all obstacles of a fit may have.
const MaxObstaclePoints = 5000

func checkObstacles(l *fault.List, obstacles []Obstacle) {
	n := 0
	for i, o := range obstacles {
		name := o.label(i)
		n += len(o.Points)
		if len(o.Points) == 0 {
			l.Add(name, nil, "must have a point")
		}
		if o.Solid && len(o.Points) < 3 {
			l.Add(name+" points", len(o.Points), "a solid obstacle must have 3 or more")
		}
		fault.NotNegative(l, name+" left distance", o.Left)
		fault.NotNegative(l, name+" right distance", o.Right)
		if n > MaxObstaclePoints {
			l.Over("points of the obstacles", n, fmt.Sprintf("at most %d", MaxObstaclePoints))
			return
		}
		for k, p := range o.Points {
			checkPoint(l, fmt.Sprintf("%s point %d", name, k+1), p)
		}
	}
}

func (o Obstacle) label(i int) string {
	if o.Name != "" {
		return o.Name
	}
	return fmt.Sprintf("obstacle %d", i+1)
}

// edges yields the segments of the obstacle; a single point is one of no
// length.
func (o Obstacle) edges(yield func(p, q r2.Vec) bool) {
	n := len(o.Points)
	if n == 1 {
		yield(o.Points[0], o.Points[0])
		return
	}
	last := n - 1
	if o.Solid {
		last = n
	}
	for i := range last {
		if !yield(o.Points[i], o.Points[(i+1)%n]) {
			return
		}
	}
}

// clear returns how much more room than it needs the obstacle has from the
// line, negative where it has too little. For a place at signed distance d
// from the line, wanting L on the left and R on the right, it is
// max(d - L, -d - R), which changes no faster than the line moves. at is the
// place.
func (o Obstacle) clear(a *curve.Alignment) (clear float64, at clearAt) {
	clear = math.Inf(1)
	o.edges(func(p, q r2.Vec) bool {
		c := nearestTo(a, p, q, clear+max(float64(o.Left), float64(o.Right)))
		if s := o.room(c); s < clear {
			clear, at = s, c
		}
		return true
	})
	if o.Solid && plane.Contains(o.Points, a.Point(0)) {
		clear = min(clear, o.crossed())
	}
	return clear, at
}

func (o Obstacle) room(c clearAt) float64 {
	if c.offset == 0 {
		return o.crossed()
	}
	return max(c.offset-float64(o.Left), -c.offset-float64(o.Right))
}

// crossed is the room of an obstacle that the line crosses: the least of all
// places between its two sides, and never none.
func (o Obstacle) crossed() float64 { return -max(float64(o.Left+o.Right)/2, 1) }

// A clearAt is the place where a line and an obstacle are nearest.
type clearAt struct {
	offset float64 // of the obstacle from the line, left positive, 0 where they cross
	s      float64 // chainage
	point  r2.Vec  // of the obstacle
}

// nearestTo returns where the segment pq is nearest to the line. Beyond far it
// may stop at any place farther than that.
//
// A piece of the line of length h lies within k h²/8 of its chord, k being its
// largest curvature; pieces that cannot hold the nearest place are dropped and
// the others halved, until that is 1e-7 mm.
func nearestTo(a *curve.Alignment, p, q r2.Vec, far float64) clearAt {
	if p == q {
		f := a.Nearest(p)
		return clearAt{float64(f.Offset), float64(f.Chainage), p}
	}
	mid := r2.Scale(0.5, r2.Add(p, q))
	f := a.Nearest(mid)
	if math.Abs(float64(f.Offset))-r2.Norm(r2.Sub(q, p))/2 > far {
		return clearAt{float64(f.Offset), float64(f.Chainage), mid}
	}
	best, at, place := math.Abs(float64(f.Offset)), float64(f.Chainage), mid
	type piece struct {
		s0, s1 float64
		p0, p1 r2.Vec
		k      float64
	}
	var stack []piece
	look := func(s float64, x r2.Vec) {
		if y := nearestOn(p, q, x); r2.Norm(r2.Sub(x, y)) < best {
			best, at, place = r2.Norm(r2.Sub(x, y)), s, y
		}
	}
	bounds := a.Boundaries()
	for i, e := range a.Elements() {
		s0, s1 := float64(bounds[i]), float64(bounds[i+1])
		k := max(math.Abs(float64(e.StartCurvature())), math.Abs(float64(e.EndCurvature())))
		c := piece{s0, s1, a.Point(bounds[i]), a.Point(bounds[i+1]), k}
		look(s0, c.p0)
		look(s1, c.p1)
		stack = append(stack, c)
	}
	for len(stack) > 0 {
		c := stack[len(stack)-1]
		stack = stack[:len(stack)-1]
		h := c.s1 - c.s0
		sag := c.k * h * h / 8
		d, x := segments(c.p0, c.p1, p, q)
		if d-sag >= best-1e-7 {
			if d < best && sag <= 1e-7 {
				best, at, place = d, c.s0, x
			}
			continue
		}
		if sag <= 1e-7 {
			best, at, place = d, c.s0, x
			continue
		}
		m := (c.s0 + c.s1) / 2
		pm := a.Point(measure.Length(m))
		look(m, pm)
		stack = append(stack, piece{c.s0, m, c.p0, pm, c.k}, piece{m, c.s1, pm, c.p1, c.k})
	}
	if best <= 1e-7 {
		return clearAt{0, at, place}
	}
	f = a.Nearest(place) // for the side, and the foot itself
	return clearAt{math.Copysign(best, float64(f.Offset)), float64(f.Chainage), place}
}

// nearestOn returns the place of the segment pq nearest to x.
func nearestOn(p, q, x r2.Vec) r2.Vec {
	d := r2.Sub(q, p)
	n := r2.Norm2(d)
	if n == 0 {
		return p
	}
	t := min(max(r2.Dot(r2.Sub(x, p), d)/n, 0), 1)
	return r2.Add(p, r2.Scale(t, d))
}

// segments returns the distance of two segments, and the place of the second
// that is nearest to the first.
func segments(a, b, p, q r2.Vec) (float64, r2.Vec) {
	u, v := r2.Sub(b, a), r2.Sub(q, p)
	side := func(o, d, x r2.Vec) float64 { return float64(d.X*(x.Y-o.Y)) - float64(d.Y*(x.X-o.X)) }
	if side(a, u, p)*side(a, u, q) < 0 && side(p, v, a)*side(p, v, b) < 0 {
		t := side(a, u, p) / (side(a, u, p) - side(a, u, q))
		return 0, r2.Add(p, r2.Scale(t, v))
	}
	best, at := math.Inf(1), p
	for _, x := range [2]r2.Vec{p, q} {
		if d := r2.Norm(r2.Sub(nearestOn(a, b, x), x)); d < best {
			best, at = d, x
		}
	}
	for _, x := range [2]r2.Vec{a, b} {
		if y := nearestOn(p, q, x); r2.Norm(r2.Sub(x, y)) < best {
			best, at = r2.Norm(r2.Sub(x, y)), y
		}
	}
	return best, at
}
