package opening

import (
	"fmt"
	"math"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
	"example.org/fourfoot/internal/solve"
)

// An Arch is an opening with upright walls up to the springing and one circular
// arc over it: a semicircle, or a segment of a larger circle.
type Arch struct {
	Offset    measure.Length // of its middle from the track centreline (a straight tunnel's axis), left positive
	Span      measure.Length // clear width between the walls
	Floor     measure.Length // height that the walls stand on
	Springing measure.Length // height where the arc begins, as all heights above the head of the rail that stays level
	Crown     measure.Length // height of the arc at its middle
	Radius    measure.Length // of the arc
}

// Rise returns the height of the crown above the springing.
func (a Arch) Rise() measure.Length { return a.Crown - a.Springing }

// Left and Right return the offsets of the walls from the track centreline,
// outwards positive.
func (a Arch) Left() measure.Length  { return a.Span/2 + a.Offset }
func (a Arch) Right() measure.Length { return a.Span/2 - a.Offset }

// Area returns the clear area above the floor.
func (a Arch) Area() measure.Area {
	return measure.Area(archArea(float64(a.Span)/2, float64(a.Radius), float64(a.Springing-a.Floor)))
}

func archArea(w, r, wall float64) float64 {
	return 2*w*wall + r*r*math.Asin(min(1, w/r)) - w*math.Sqrt(max(0, (r-w)*(r+w)))
}

// Least says what of an arch is to be as small as can be.
type Least uint8

const (
	LeastArea  Least = iota // the clear area above the floor: what is dug out and vaulted over
	LeastSpan               // the span, and then the crown
	LeastCrown              // the crown, and then the span
)

// An ArchForm says which family of arches one is chosen from.
type ArchForm struct {
	Rise  float64        // of the arc, over its span, up to 1/2; 0 means 1/2, the semicircle
	Floor measure.Length // height that the walls stand on: no springing is below it
	Least Least          // what is made smallest
	About About          // where its middle may stand
}

// An archFitter fits arches of one form round points. With w half the span, the
// arc's radius is ρ = k₁w and its centre k₀w below the springing at h: k₁ =
// (1+4q²)/4q, k₀ = (1-4q²)/4q for the rise q over the span. The opening is the
// part of the strip |y| ≤ w that lies under the arc, which is convex, so that
// what clears it by the margin m is under the arc of radius ρ-m about the same
// centre and within w-m.
type archFitter struct {
	p      []spot
	k0, k1 float64
	m      float64
	floor  float64
	lo, hi float64 // least and most offset of the points
}

func (s Section) archFitter(l *fault.List, form ArchForm, margin measure.Length) (archFitter, bool) {
	q := form.Rise
	if q == 0 {
		q = 0.5
	}
	fault.Between(l, "rise over span", q, 1e-3, 0.5)
	fault.Finite(l, "floor", form.Floor)
	if form.Least > LeastCrown {
		l.Add("least", uint8(form.Least), "must be LeastArea, LeastSpan or LeastCrown")
	}
	if !s.check(l, margin, form.About) {
		return archFitter{}, false
	}
	f := archFitter{p: s.spots(), k0: (1 - 4*q*q) / (4 * q), k1: (1 + 4*q*q) / (4 * q), m: float64(margin), floor: float64(form.Floor)}
	f.lo, f.hi = math.Inf(1), math.Inf(-1)
	for _, p := range f.p {
		f.lo, f.hi = min(f.lo, p.y), max(f.hi, p.y)
	}
	return f, true
}

// least returns the smallest half span with the middle at c.
func (f *archFitter) least(c float64) float64 { return max(f.hi-c, c-f.lo) + f.m }

// springing returns the lowest springing for a half span w, the middle at c.
func (f *archFitter) springing(w, c float64) float64 {
	a := f.k1*w - f.m
	h := math.Inf(-1)
	for _, p := range f.p {
		d := p.y - c
		h = max(h, p.z-math.Sqrt(max(0, (a-d)*(a+d))))
	}
	return max(f.floor, h+f.k0*w)
}

// middle returns where the middle of an arch of half span w may stand with the
// lowest springing.
func (f *archFitter) middle(w float64, about About) (c, h float64) {
	if about == Centred {
		return 0, f.springing(w, 0)
	}
	lo, hi := f.hi-(w-f.m), f.lo+(w-f.m)
	if hi <= lo {
		c = (lo + hi) / 2
		return c, f.springing(w, c)
	}
	// The springing is a largest of convex functions of c.
	return lowest(func(c float64) float64 { return f.springing(w, c) }, lo, hi)
}

func (f *archFitter) arch(w, c, h float64) Arch {
	return Arch{
		Offset: measure.Length(c), Span: measure.Length(2 * w), Floor: measure.Length(f.floor), Springing: measure.Length(h),
		Crown: measure.Length(h + (f.k1-f.k0)*w), Radius: measure.Length(f.k1 * w),
	}
}

// Arch returns the smallest arch of the form that clears the section by the
// margin everywhere. Of each family there is one lowest arch for every span;
// from the narrowest, whose walls stand at the section's sides, to the one that
// springs from the floor, its springing falls as its span grows. Among these
// the form says what is smallest.
func (s Section) Arch(form ArchForm, margin measure.Length) (Arch, error) {
	l := fault.In("opening")
	f, ok := s.archFitter(l, form, margin)
	if !ok {
		return Arch{}, l.Err()
	}
	mid := 0.0
	if form.About == Free {
		mid = (f.lo + f.hi) / 2
	}
	w0 := f.least(mid)
	w1 := f.fromFloor(w0, form.About)
	at := func(w float64) Arch {
		c, h := f.middle(w, form.About)
		return f.arch(w, c, h)
	}
	switch form.Least {
	case LeastSpan:
		return at(w0), nil
	case LeastCrown:
		return at(w1), nil
	}
	// Of 3000 random sections the area had no second least value between its
	// ends; should there be one, a grid finds it. Then closely about the best.
	const grid = 32
	area := func(w float64) float64 { return float64(at(w).Area()) }
	best, i0 := math.Inf(1), 0
	for i := range grid + 1 {
		if a := area(w0 + (w1-w0)*float64(i)/grid); a < best {
			best, i0 = a, i
		}
	}
	step := (w1 - w0) / grid
	w := w0 + step*float64(i0)
	if step > 0 {
		w, _ = lowest(area, max(w0, w-step), min(w1, w+step))
	}
	return at(w), nil
}

// fromFloor returns the half span at which the arch springs from the floor, or
// w0 if the narrowest does already.
func (f *archFitter) fromFloor(w0 float64, about About) float64 {
	over := func(w float64) float64 {
		g := *f
		g.floor = math.Inf(-1)
		_, h := g.middle(w, about)
		return h - f.floor
	}
	if over(w0) <= 0 {
		return w0
	}
	w1 := 2 * w0
	for over(w1) > 0 && w1 < 1e12 {
		w1 *= 2
	}
	w, ok := solve.Brent(over, w0, w1, 1e-12*w1)
	if !ok {
		return w0
	}
	return w
}

// ArchFrom returns the smallest arch of the form whose arc springs from the
// given height: its span, rise and crown are all the least. Least is not asked.
func (s Section) ArchFrom(springing measure.Length, form ArchForm, margin measure.Length) (Arch, error) {
	l := fault.In("opening")
	if fault.Finite(l, "springing", springing) && springing < form.Floor {
		l.Add("springing", springing, fmt.Sprintf("must not be below the floor at %v", form.Floor))
	}
	f, ok := s.archFitter(l, form, margin)
	if !ok || !l.OK() {
		return Arch{}, l.Err()
	}
	h := float64(springing)
	// The smallest half span is a largest of convex functions of c.
	span := func(c float64) float64 {
		w := f.least(c)
		for _, p := range f.p {
			d := p.y - c
			short := func(w float64) float64 {
				a := f.k1*w - f.m
				return p.z - h + f.k0*w - math.Sqrt(max(0, (a-d)*(a+d)))
			}
			if short(w) <= 0 {
				continue
			}
			hi := 2 * w
			for short(hi) > 0 && hi < 1e12 {
				hi *= 2
			}
			if got, ok := solve.Brent(short, w, hi, 1e-13*hi); ok {
				w = max(w, got)
			}
		}
		return w
	}
	c := 0.0
	if form.About == Free {
		c, _ = lowest(span, f.lo, f.hi)
	}
	return f.arch(span(c), c, h), nil
}

// Clear returns how far inside the arch the section stays, below zero where it
// comes out.
func (a Arch) Clear(s Section) measure.Length {
	gap, zc := math.Inf(1), float64(a.Crown-a.Radius)
	for _, p := range s.spots() {
		y := p.y - float64(a.Offset)
		gap = min(gap, float64(a.Span)/2-math.Abs(y))
		if p.z > zc {
			gap = min(gap, float64(a.Radius)-math.Hypot(y, p.z-zc))
		}
	}
	return measure.Length(gap)
}

// Outline returns the arch as a polygon that departs from it by at most the
// tolerance, inwards; the walls go down to its floor.
func (a Arch) Outline(tolerance measure.Length) []clearance.SectionPoint {
	half := math.Asin(min(1, float64(a.Span/(2*a.Radius))))
	y := a.Offset - a.Span/2
	out := []clearance.SectionPoint{{Offset: y, Height: a.Floor}, {Offset: y + a.Span, Height: a.Floor}}
	return append(out, arcPoints(float64(a.Offset), float64(a.Crown-a.Radius), float64(a.Radius), math.Pi/2-half, math.Pi/2+half, float64(tolerance))...)
}

// String returns the arch in words.
func (a Arch) String() string {
	return fmt.Sprintf("span %.1f mm, springing %.1f mm up, crown %.1f mm up", float64(a.Span), float64(a.Springing), float64(a.Crown))
}
