package ballast

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// An Outline is a section as it lies at one place, cant included. In its points
// X is the offset from the line, left positive, and Y the height over the
// lowest ground under the bed (the bottom of the trench, if there is one).
type Outline struct {
	Area     measure.Area
	Centroid measure.Length // offset of the area's centroid, left positive
	Right    measure.Length // offset of the right toe
	Left     measure.Length // offset of the left toe
	Surface  measure.Length // of the top and the slopes, measured along them
	Top      []r2.Vec       // the surface from the right toe to the left
	Bottom   []r2.Vec       // the ground under it from right to left
}

// Outline returns the section with the given cant between rail-head centres
// railCentres apart. Positive cant raises the right rail, as in a bend to the
// left. The sleepers turn about the rail that keeps the level, or their middle,
// as datum says, and the depth of ballast there stays what it was; the ground
// stays level, and each track of several has the same cant.
func (s Section) Outline(cant, railCentres measure.Length, datum profile.Datum) (Outline, error) {
	l := fault.In("ballast")
	s.check(l, "")
	checkCant(l, cant, railCentres, datum)
	if err := l.Err(); err != nil {
		return Outline{}, err
	}
	g, tool := s.shape(), figure{keep: true}
	m := tool.measure(&g, tiltOf(cant, railCentres, datum))
	if why := m.fault(&g); why != "" {
		l.Add("section", nil, why)
		return Outline{}, l.Err()
	}
	o := Outline{
		Area: measure.Area(m.area), Right: measure.Length(m.right), Left: measure.Length(m.left),
		Surface: measure.Length(m.surface), Top: tool.topLine, Bottom: tool.bottomLine,
	}
	if m.area > 0 {
		o.Centroid = measure.Length(m.moment / m.area)
	}
	return o, nil
}

func checkCant(l *fault.List, cant, railCentres measure.Length, datum profile.Datum) {
	if datum < profile.InnerRail || datum > profile.OuterRail {
		l.Add("datum", datum, "must say which rail keeps the level")
	}
	if fault.Place(l, "cant", cant) && fault.Size(l, "rail-head centres", railCentres) && math.Abs(float64(cant)) > float64(railCentres)/2 {
		l.Add("cant", cant, fmt.Sprintf("must be at most half the rail-head centres, %v", railCentres/2))
	}
}

// A tilt is how cant turns a section: by its tangent dz/dy and cosine, and the
// lift of the track's middle.
type tilt struct{ tan, cos, lift float64 }

var level = tilt{0, 1, 0}

func tiltOf(cant, railCentres measure.Length, datum profile.Datum) tilt {
	sin := float64(cant / railCentres)
	if sin == 0 {
		return level
	}
	cos := math.Sqrt(1 - sin*sin)
	t := tilt{tan: -sin / cos, cos: cos} // positive cant lifts the right, where y is negative
	switch datum {
	case profile.InnerRail:
		t.lift = math.Abs(float64(cant)) / 2
	case profile.OuterRail:
		t.lift = -math.Abs(float64(cant)) / 2
	}
	return t
}

// measures are the integrals over one section: y is the offset, h the height of
// ballast there.
type measures struct {
	area, moment           float64 // ∫h dy, ∫y·h dy
	surface, surfaceMoment float64 // ∫dl, ∫y·dl along the surface
	right, left            float64 // toes
	lowEdge, lowSleeper    float64 // least heights of the top's edges and of the sleepers' undersides
}

// fault returns what makes the section impossible at this place, or "".
func (m *measures) fault(g *shape) string {
	const slack = 1e-9
	switch reach := max(m.left, -m.right); {
	case m.lowSleeper < -slack:
		return fmt.Sprintf("a canted sleeper's low end reaches %v below the formation: the depth under the sleeper must be at least %v",
			measure.Length(-m.lowSleeper), measure.Length(g.depth-m.lowSleeper))
	case m.lowEdge < -slack:
		return fmt.Sprintf("the low edge of the top comes %v below the formation: a narrower top or a depth of %v would cure it",
			measure.Length(-m.lowEdge), measure.Length(g.depth-m.lowEdge))
	case g.formation > 0 && reach > g.formation/2+slack:
		return fmt.Sprintf("the toe lies %v from the line, past the formation, which is %v wide: the formation must be at least %v",
			measure.Length(reach), measure.Length(g.formation), measure.Length(2*reach))
	}
	return ""
}

// A line is z = a + b·y between from and to.
type line struct{ from, to, a, b float64 }

// figure measures sections; its buffers are used again from one to the next.
type figure struct {
	lines               []line
	breaks, cross       []float64
	keep                bool
	topLine, bottomLine []r2.Vec
}

// measure integrates the region under the highest of the beds of all tracks and
// over the ground. It is exact: surface and ground are straight between the
// breaks, so area and moment are sums over trapezia.
func (f *figure) measure(g *shape, by tilt) measures {
	tan, cos, lift := by.tan, by.cos, by.lift
	m := measures{right: math.Inf(1), left: math.Inf(-1), lowEdge: math.Inf(1), lowSleeper: math.Inf(1)}
	f.lines, f.breaks = f.lines[:0], f.breaks[:0]
	f.topLine, f.bottomLine = nil, nil
	half, end := g.top/2, g.sleeper/2*cos
	for i, t := range g.tracks {
		middle := g.depth + lift - tan*t // the undersides' plane is middle + tan·y
		surface := func(level float64) float64 { return middle + level/cos }
		m.lowSleeper = min(m.lowSleeper, middle+tan*t-math.Abs(tan)*end)
		lo, hi := t-half, t+half
		zlo, zhi := surface(g.shoulder)+tan*lo, surface(g.shoulder)+tan*hi
		m.lowEdge = min(m.lowEdge, zlo, zhi)
		if g.slope > 0 {
			f.add(lo-g.slope*max(zlo, 0), lo, zlo-lo/g.slope, 1/g.slope)
			f.add(hi, hi+g.slope*max(zhi, 0), zhi+hi/g.slope, -1/g.slope)
		}
		f.add(lo, t-end, surface(g.shoulder), tan)
		f.add(t-end, t+end, surface(g.crib), tan)
		f.add(t+end, hi, surface(g.shoulder), tan)
		if next := i + 1; g.filled && next < len(g.tracks) {
			from, to := hi, g.tracks[next]-half
			if to > from {
				z := g.depth + lift - tan*g.tracks[next] + g.shoulder/cos + tan*to
				b := (z - zhi) / (to - from)
				f.add(from, to, zhi-b*from, b)
			}
		}
	}
	if g.trenchD > 0 {
		f.breaks = append(f.breaks, -g.trenchW/2, g.trenchW/2)
	}
	slices.Sort(f.breaks)
	for i := 1; i < len(f.breaks); i++ {
		if lo, hi := f.breaks[i-1], f.breaks[i]; hi > lo {
			f.strip(g, lo, hi, &m)
		}
	}
	if m.left < m.right { // nothing there at all
		m.left, m.right = 0, 0
	}
	return m
}

func (f *figure) add(from, to, a, b float64) {
	if to > from {
		f.lines = append(f.lines, line{from, to, a, b})
		f.breaks = append(f.breaks, from, to)
	}
}

// strip adds the strip from lo to hi, within which no line begins or ends.
func (f *figure) strip(g *shape, lo, hi float64, m *measures) {
	mid, ground := (lo+hi)/2, 0.0
	if g.trenchD > 0 && math.Abs(mid) > g.trenchW/2 {
		ground = g.trenchD
	}
	// Lines that cross each other or the ground inside the strip split it.
	f.cross = append(f.cross[:0], lo, hi)
	over := func(l *line) bool { return l.from <= lo && l.to >= hi }
	for i := range f.lines {
		p := &f.lines[i]
		if !over(p) {
			continue
		}
		if p.b != 0 {
			f.split((ground-p.a)/p.b, lo, hi)
		}
		for j := i + 1; j < len(f.lines); j++ {
			if q := &f.lines[j]; over(q) && p.b != q.b {
				f.split((q.a-p.a)/(p.b-q.b), lo, hi)
			}
		}
	}
	slices.Sort(f.cross)
	for i := 1; i < len(f.cross); i++ {
		y0, y1 := f.cross[i-1], f.cross[i]
		if y1 <= y0 {
			continue
		}
		var top *line
		for j := range f.lines {
			if p := &f.lines[j]; over(p) && (top == nil || p.a+p.b*(y0+y1)/2 > top.a+top.b*(y0+y1)/2) {
				top = p
			}
		}
		if top == nil || top.a+top.b*(y0+y1)/2 <= ground {
			continue
		}
		z0, z1 := top.a+top.b*y0, top.a+top.b*y1
		h0, h1, d := z0-ground, z1-ground, y1-y0
		m.area += d * (h0 + h1) / 2
		m.moment += d * (h0*(2*y0+y1) + h1*(y0+2*y1)) / 6
		along := d * math.Sqrt(1+top.b*top.b)
		m.surface += along
		m.surfaceMoment += along * (y0 + y1) / 2
		m.right, m.left = min(m.right, y0), max(m.left, y1)
		if f.keep {
			f.topLine = append(f.topLine, r2.Vec{X: y0, Y: z0}, r2.Vec{X: y1, Y: z1})
			f.bottomLine = append(f.bottomLine, r2.Vec{X: y0, Y: ground}, r2.Vec{X: y1, Y: ground})
		}
	}
}

func (f *figure) split(y, lo, hi float64) {
	if y > lo && y < hi {
		f.cross = append(f.cross, y)
	}
}
