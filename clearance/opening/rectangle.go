package opening

import (
	"fmt"
	"math"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// About says where the middle of an opening may stand.
type About uint8

const (
	Centred About = iota // on the track centreline, or a straight tunnel's axis
	Free                 // wherever the opening becomes smallest
)

func (a About) check(l *fault.List) {
	if a > Free {
		l.Add("about", uint8(a), "must be Centred or Free")
	}
}

// check refuses a section, margin or place of the middle that no opening can
// be made for.
func (s Section) check(l *fault.List, margin measure.Length, about About) bool {
	if len(s.left) == 0 {
		l.Add("section", "empty", "must hold something")
	}
	fault.NotNegative(l, "margin", margin)
	about.check(l)
	return l.OK()
}

// A Rectangle is an opening with upright sides and a level top. Its sides go
// down to the ground; Bottom is only how low the section itself comes.
type Rectangle struct {
	Left, Right   measure.Length // of its sides from the track centreline (a straight tunnel's axis), outwards positive
	Bottom        measure.Length // of the section less the margin
	Height        measure.Length // of its top above the head of the rail that stays level
	LeftBy, TopBy Source         // what asks for it
	RightBy       Source
}

// Width returns the clear width.
func (r Rectangle) Width() measure.Length { return r.Left + r.Right }

// Rectangle returns the smallest rectangular opening that clears the section by
// the margin everywhere. Centred, both sides stand as far out as the one that
// must stand farther out.
func (s Section) Rectangle(margin measure.Length, about About) (Rectangle, error) {
	l := fault.In("opening")
	if !s.check(l, margin, about) {
		return Rectangle{}, l.Err()
	}
	left, lb := s.left.reach(math.Inf(-1), math.Inf(1))
	right, rb := s.right.reach(math.Inf(-1), math.Inf(1))
	top := s.left[len(s.left)-1]
	r := Rectangle{
		Left: measure.Length(left) + margin, Right: measure.Length(right) + margin,
		Bottom: s.Bottom() - margin, Height: s.Top() + margin,
		LeftBy: s.from[lb], RightBy: s.from[rb], TopBy: s.from[top.by],
	}
	if about == Centred {
		r.Left = max(r.Left, r.Right)
		r.Right = r.Left
	}
	return r, nil
}

// A spot is a corner of the section that an opening may touch.
type spot struct {
	y, z float64
	by   int32
}

// spots returns the corners of the section's convex hull: an opening of convex
// form clears the section when it clears these.
func (s Section) spots() []spot {
	var all []spot
	for i := range s.left {
		g := &s.left[i]
		all = append(all, spot{g.y0, g.z0, g.by}, spot{g.y1, g.z1, g.by})
	}
	for i := range s.right {
		g := &s.right[i]
		all = append(all, spot{-g.y0, g.z0, g.by}, spot{-g.y1, g.z1, g.by})
	}
	return hullOf(all)
}

// Clear returns how far inside the rectangle the section stays: the least of
// the gaps to its sides and its top, below zero where it comes out.
func (r Rectangle) Clear(s Section) measure.Length {
	gap := math.Inf(1)
	for _, p := range s.spots() {
		gap = min(gap, float64(r.Left)-p.y, float64(r.Right)+p.y, float64(r.Height)-p.z)
	}
	return measure.Length(gap)
}

// Outline returns the rectangle's corners down to a height: right bottom, left
// bottom, left top, right top.
func (r Rectangle) Outline(floor measure.Length) []clearance.SectionPoint {
	return []clearance.SectionPoint{{Offset: -r.Right, Height: floor}, {Offset: r.Left, Height: floor}, {Offset: r.Left, Height: r.Height}, {Offset: -r.Right, Height: r.Height}}
}

// String returns the rectangle in words.
func (r Rectangle) String() string {
	return fmt.Sprintf("%.1f mm left, %.1f mm right, %.1f mm high", float64(r.Left), float64(r.Right), float64(r.Height))
}
