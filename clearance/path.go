package clearance

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/gauge/measure"
)

// A keep is what is kept at one station and side: the reach of one outline and
// what gave it.
type keep struct {
	n      float64 // reach, to its own side
	m      float64 // slope of the path against the station: across over along, outwards
	s      float64 // drive of the vehicle there
	id     int32   // corner i: i; the moving point of the side from corner i: -1-i
	beyond bool    // the vehicle stands partly past an end of an open line
}

// A sheet is one outline of one vehicle with its candidates and what has been
// kept of it at each station: plain stations, then knots.
type sheet struct {
	vehicle, part, band int
	bottom, top         float64
	rear, front         float64   // the outline's extent along the part's own axis
	side                [2][]keep // left, right
	first, last         []float64 // drive of the vehicle as it comes to each station and leaves it; nil unless heights depend on it

	leaned [2]*sheet // the same swept with the lean in it, at its bottom and at its top; nil where the lean cannot change what governs
	cant   *canting  // of a leaned sheet: its reach is the turned one, at the height z
	z      float64

	x, y   []float64 // corners, anticlockwise, in the part's frame, opened by the play
	own    []Point   // the body's corner that each belongs to
	convex []bool
	radius float64 // of the farthest corner from the frame's origin
}

// newSheet takes an outline into the frame of its part, lead behind the part's
// own origin, and opens it by the play of the wheels: every point x along the
// body may stand up to play(x) to either side, so the sides that face left
// move left by it, those that face right move right. Where play(x) bends, a
// side gets a corner.
func newSheet(o Outline, lead float64, play func(x float64) float64, bends [2]float64, stations int) *sheet {
	if o.area() < 0 {
		r := make(Outline, len(o))
		for i, p := range o {
			r[len(o)-1-i] = p
		}
		o = r
	}
	if play(0) > 0 {
		o = o.cut(bends[0]).cut(bends[1])
	}
	s := &sheet{}
	r, f := o.Extent()
	s.rear, s.front = float64(r), float64(f)
	for i, p := range o {
		before, after := o[(i+len(o)-1)%len(o)], o[(i+1)%len(o)]
		x, y := float64(p.Along), float64(p.Across)
		d := play(x)
		// Of a side that runs forward the outside is on the right.
		in, out := sign(before.Along-p.Along), sign(p.Along-after.Along)
		if in != 0 || d == 0 {
			s.add(x+lead, y+in*d, p)
		}
		if out != 0 && out != in && d != 0 {
			s.add(x+lead, y+out*d, p)
		}
	}
	n := len(s.x)
	s.convex = make([]bool, n)
	for i := range s.x {
		h, j := (i+n-1)%n, (i+1)%n
		s.radius = max(s.radius, math.Hypot(s.x[i], s.y[i]))
		s.convex[i] = (s.x[i]-s.x[h])*(s.y[j]-s.y[i])-(s.y[i]-s.y[h])*(s.x[j]-s.x[i]) > 0
	}
	s.open(stations)
	return s
}

// open makes room for the stations.
func (s *sheet) open(stations int) {
	for k := range s.side {
		s.side[k] = make([]keep, stations)
		for i := range s.side[k] {
			s.side[k][i].n = math.Inf(-1)
		}
	}
}

// time makes room for when the vehicle passes the stations.
func (s *sheet) time(stations int) {
	s.first, s.last = make([]float64, stations), make([]float64, stations)
	for i := range s.first {
		s.first[i], s.last[i] = math.Inf(1), math.Inf(-1)
	}
}

// most bounds how far a corner can be off the line when the points 0 and c of
// the frame are on it or next to it: half of c between them, the overhang
// beyond, and the width.
func (s *sheet) most(c float64) float64 {
	d := 0.0
	for i := range s.x {
		d = max(d, math.Abs(s.y[i])+max(c/2, -s.x[i], s.x[i]-c)+c/20)
	}
	return d
}

func sign(l measure.Length) float64 {
	switch {
	case l > 0:
		return 1
	case l < 0:
		return -1
	}
	return 0
}

// cut returns the outline with a corner added wherever a side passes x.
func (o Outline) cut(x float64) Outline {
	var c Outline
	for i, p := range o {
		q := o[(i+1)%len(o)]
		c = append(c, p)
		a, b := float64(p.Along), float64(q.Along)
		if a < x && x < b || b < x && x < a {
			t := measure.Length((x - a) / (b - a))
			c = append(c, Point{measure.Length(x), p.Across + t*(q.Across-p.Across)})
		}
	}
	return c
}

func (s *sheet) add(x, y float64, own Point) {
	s.x = append(s.x, x)
	s.y = append(s.y, y)
	s.own = append(s.own, own)
}

// A leg is a piece of a candidate's path: a cubic in plan from x0 with the
// direction d0 to x1 with d1, and where the vehicle stands along it.
type leg struct {
	x0, d0, x1, d1 r2.Vec
	s0, ds         float64  // drive at its beginning, and to its end
	e0, de         float64  // foremost axle, likewise
	bulge          float64  // more than its distance from its chord
	lean           *legLean // of a leaned sheet
}

// swell works out the leg's bulge: a cubic departs from its chord by at most
// 4/27 of what its directions differ from it.
func (g *leg) swell() {
	cx, cy := g.x1.X-g.x0.X, g.x1.Y-g.x0.Y
	g.bulge = 0.15*(math.Abs(g.d0.X-cx)+math.Abs(g.d0.Y-cy)+math.Abs(g.d1.X-cx)+math.Abs(g.d1.Y-cy)) + 1e-9
}

// chord returns the leg from x0 to x1 whose directions, of any length and
// either sense, are those of the path at its ends: the cubic over the chord.
// dev is how far a path that turns one way may stray from the chord, odd the
// part of the cubic's straying that an arc would not have; flat is false when a direction is too steep for it.
func chord(x0, dir0, x1, dir1 r2.Vec) (g leg, dev, odd float64, flat bool) {
	c := r2.Sub(x1, x0)
	c2 := r2.Norm2(c)
	g = leg{x0: x0, x1: x1, d0: c, d1: c}
	if c2 < 1e-24 {
		return g, 0, 0, true
	}
	p0, p1 := r2.Dot(dir0, c), r2.Dot(dir1, c)
	t0, t1 := r2.Cross(c, dir0)/p0, r2.Cross(c, dir1)/p1 // slopes against the chord
	if !(math.Abs(t0) < 0.5 && math.Abs(t1) < 0.5) {
		return g, 0, 0, false
	}
	g.d0, g.d1 = r2.Scale(c2/p0, dir0), r2.Scale(c2/p1, dir1)
	l := math.Sqrt(c2)
	return g, 0.5 * l * max(math.Abs(t0), math.Abs(t1)), 0.05*l*math.Abs(t0+t1) + 0.1*l*max(math.Abs(t0*t0*t0), math.Abs(t1*t1*t1)), true
}

// cross solves for where the leg crosses the square to a station, given that it
// does and how far along and across its ends are: the offset there, the slope of the path (across over along) and the
// part t of the leg, and how the path grows along the station there with t.
func (g *leg) cross(st *station, a0, b0, a1, b1 float64) (n, m, t, d float64) {
	tx, ty := st.t.X, st.t.Y
	p0, p1 := g.d0.X*tx+g.d0.Y*ty, g.d1.X*tx+g.d1.Y*ty
	q0, q1 := g.d0.Y*tx-g.d0.X*ty, g.d1.Y*tx-g.d1.X*ty
	a2, a3 := 3*(a1-a0)-2*p0-p1, 2*(a0-a1)+p0+p1
	b2, b3 := 3*(b1-b0)-2*q0-q1, 2*(b0-b1)+q0+q1
	if t = 0.5; a0 != a1 {
		t = a0 / (a0 - a1)
	}
	for range 3 {
		f := a0 + t*(p0+t*(a2+t*a3))
		d = p0 + t*(2*a2+t*3*a3)
		step := f / d
		t = max(0, min(1, t-step))
		if math.Abs(step) < 1e-6 {
			break
		}
	}
	d = p0 + t*(2*a2+t*3*a3)
	return b0 + t*(q0+t*(b2+t*b3)), (q0 + t*(2*b2+t*3*b3)) / d, t, d
}
