package opening

import (
	"context"
	"fmt"
	"math"
	"slices"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Section is the space that the stock needs in the cross-section, at one
// place or over a range of the line, all allowances and the cant in it. At each
// height it is filled from its right flank to its left one, and where a gap of
// height is between two outlines it is joined straight across. It is immutable.
type Section struct {
	left, right flank
	from        []Source
}

// A Source is what asks for a part of a section.
type Source struct {
	Chainage measure.Length
	Stock    int    // index into the stock list; -1 for something added
	Vehicle  string // its name, or that of what was added
	Part     string // as in clearance.Governor
	Band     string
}

// At returns the section of the whole stock at a chainage. The error wraps
// measure.ErrInput for a chainage outside the range that was swept.
func At(e *clearance.Envelope, chainage measure.Length) (Section, error) {
	l := fault.In("opening")
	if e == nil {
		l.Add("envelope", "none", "must be given")
		return Section{}, l.Err()
	}
	var g gatherer
	if err := g.add(e, chainage, nil); err != nil {
		return Section{}, err
	}
	return g.section(), nil
}

// Over returns the section of the whole stock over a range of the line, as if
// every place of it were looked at from one: offsets are from the track
// centreline, square to it at each place. It is made of the sections at both
// ends and at the envelope's stations, between which no reach departs from a
// straight line by more than the sweep's tolerance. On a circuit to may lie
// below from. The error wraps measure.ErrInput for a range that was not swept.
func Over(ctx context.Context, e *clearance.Envelope, from, to measure.Length) (Section, error) {
	at, err := places(e, from, to)
	if err != nil {
		return Section{}, err
	}
	var g gatherer
	for i, c := range at {
		if i%16 == 0 && ctx.Err() != nil {
			return Section{}, ctx.Err()
		}
		if err := g.add(e, c, nil); err != nil {
			return Section{}, err
		}
	}
	return g.section(), nil
}

// places returns the chainages at which a range is looked at.
func places(e *clearance.Envelope, from, to measure.Length) ([]measure.Length, error) {
	l := fault.In("opening")
	if e == nil {
		l.Add("envelope", "none", "must be given")
		return nil, l.Err()
	}
	okF, okT := fault.Finite(l, "from", from), fault.Finite(l, "to", to)
	if !okF || !okT {
		return nil, l.Err()
	}
	line, set := e.Line(), e.Settings()
	length := line.Length()
	for _, c := range []struct {
		name string
		at   measure.Length
	}{{"from", from}, {"to", to}} {
		if c.at < 0 || c.at > length {
			l.Add(c.name, c.at, fmt.Sprintf("must be on the line, from 0 mm to %v", length))
		}
	}
	if !line.Closed() && to < from {
		l.Add("to", to, fmt.Sprintf("must not be before the beginning of the range at %v", from))
	}
	if err := l.Err(); err != nil {
		return nil, err
	}
	first, span := from, to-from
	if span < 0 {
		span += length
	}
	if line.Closed() && first < set.From {
		first += length
	}
	whole := line.Closed() && set.To-set.From > length-1e-9
	if !whole && (first < set.From-1e-9 || first+span > set.To+1e-9) {
		l.Add("range", fmt.Sprintf("%v to %v", from, to), fmt.Sprintf("must be in the range swept, from %v to %v", set.From, set.To))
		return nil, l.Err()
	}
	ahead := []measure.Length{0, span}
	last := measure.Length(math.NaN())
	for _, c := range e.Stations() {
		d := c - from
		if d < 0 && line.Closed() {
			d += length
		}
		if d <= 0 || d >= span {
			continue
		}
		ahead = append(ahead, d)
		if c == last { // a kink: also just before it
			ahead = append(ahead, d-1e-6)
		}
		last = c
	}
	slices.Sort(ahead)
	ahead = slices.Compact(ahead)
	for i, d := range ahead {
		c := from + d
		if c > length {
			c -= length
		}
		ahead[i] = c
	}
	return ahead, nil
}

// A gatherer puts sections together.
type gatherer struct {
	from []Source
	heap [][2]flank // each of about twice as many parts as the one after it
	n    int
}

// add adds the sections at a chainage, each corner moved by a function.
func (g *gatherer) add(e *clearance.Envelope, c measure.Length, move func(y, z float64) (float64, float64)) error {
	all, err := e.Sections(c)
	if err != nil {
		return err
	}
	for i := range all {
		s := &all[i]
		var y, z [6]float64
		n := 4
		put := func(k int, p clearance.SectionPoint) {
			y[k], z[k] = float64(p.Offset), float64(p.Height)
			if move != nil {
				y[k], z[k] = move(y[k], z[k])
			}
		}
		for k, p := range s.Corners {
			put(k, p)
		}
		if s.Knees != [2]clearance.SectionPoint{s.Corners[2], s.Corners[3]} {
			put(4, s.Knees[0])
			put(5, s.Knees[1])
			n = 6
		}
		g.put(y[:n], z[:n], Source{Chainage: c, Stock: s.Stock, Vehicle: s.Vehicle, Part: s.Part, Band: s.Band})
	}
	return nil
}

// put adds a convex figure.
func (g *gatherer) put(y, z []float64, by Source) {
	k := int32(len(g.from))
	g.from = append(g.from, by)
	g.push([2]flank{hullFlank(y, z, 1, k), hullFlank(y, z, -1, k)})
}

func (g *gatherer) push(f [2]flank) {
	g.heap = append(g.heap, f)
	g.n++
	for k := g.n; k%2 == 0; k /= 2 {
		g.join()
	}
}

func (g *gatherer) join() {
	n := len(g.heap)
	a, b := g.heap[n-2], g.heap[n-1]
	g.heap = append(g.heap[:n-2], [2]flank{outer(a[0], b[0]), outer(a[1], b[1])})
}

// section returns all together, with only the sources that are left.
func (g *gatherer) section() Section {
	for len(g.heap) > 1 {
		g.join()
	}
	if len(g.heap) == 0 {
		return Section{}
	}
	s := Section{left: g.heap[0][0], right: g.heap[0][1]}
	known := map[int32]int32{}
	for _, f := range [2]flank{s.left, s.right} {
		for i := range f {
			k, ok := known[f[i].by]
			if !ok {
				k = int32(len(s.from))
				known[f[i].by] = k
				s.from = append(s.from, g.from[f[i].by])
			}
			f[i].by = k
		}
	}
	return s
}

// With returns the section with a block added that the opening must hold too:
// the track's bed, the ends of the sleepers, a cable. left and right are its
// offsets, left positive.
func (s Section) With(name string, right, left, bottom, top measure.Length) (Section, error) {
	l := fault.In("opening")
	okR, okL := fault.Finite(l, name+": right", right), fault.Finite(l, name+": left", left)
	okB, okT := fault.Finite(l, name+": bottom", bottom), fault.Finite(l, name+": top", top)
	if okR && okL && left <= right {
		l.Add(name+": left", left, fmt.Sprintf("must be to the left of its right side at %v", right))
	}
	if okB && okT && top <= bottom {
		l.Add(name+": top", top, fmt.Sprintf("must be above its bottom at %v", bottom))
	}
	if err := l.Err(); err != nil {
		return Section{}, err
	}
	g := gatherer{from: slices.Clone(s.from)}
	if len(s.left) > 0 {
		g.push([2]flank{slices.Clone(s.left), slices.Clone(s.right)})
	}
	y := []float64{float64(right), float64(left), float64(left), float64(right)}
	z := []float64{float64(bottom), float64(bottom), float64(top), float64(top)}
	g.put(y, z, Source{Stock: -1, Vehicle: name})
	return g.section(), nil
}

// Outline returns the section as one closed figure: up the left flank and down
// the right one, the first point not repeated.
func (s Section) Outline() []clearance.SectionPoint {
	var out []clearance.SectionPoint
	put := func(y, z float64) {
		p := clearance.SectionPoint{Offset: measure.Length(y), Height: measure.Length(z)}
		if n := len(out); n == 0 || math.Abs(float64(out[n-1].Offset-p.Offset)) > 1e-9 || math.Abs(float64(out[n-1].Height-p.Height)) > 1e-9 {
			out = append(out, p)
		}
	}
	for _, g := range s.left {
		put(g.y0, g.z0)
		put(g.y1, g.z1)
	}
	for _, g := range slices.Backward(s.right) {
		put(-g.y1, g.z1)
		put(-g.y0, g.z0)
	}
	if n := len(out); n > 1 && out[0] == out[n-1] {
		out = out[:n-1]
	}
	return out
}

// Reach returns how far the section comes out on one side between two heights,
// and what asks for it. The zero Heights are all heights, which here are
// vertical, above the head of the rail that stays level. The error wraps
// measure.ErrNoAnswer when nothing of the section is between them.
func (s Section) Reach(side curve.Hand, h clearance.Heights) (measure.Length, Source, error) {
	l := fault.In("opening")
	if side != curve.Left && side != curve.Right {
		l.Add("side", side, "must be left or right")
	}
	okF, okT := fault.Finite(l, "heights: from", h.From), fault.Finite(l, "heights: to", h.To)
	if okF && okT && h.To < h.From {
		l.Add("heights: to", h.To, fmt.Sprintf("must not be below the heights' beginning at %v", h.From))
	}
	if err := l.Err(); err != nil {
		return 0, Source{}, err
	}
	lo, hi := float64(h.From), float64(h.To)
	if h == (clearance.Heights{}) {
		lo, hi = math.Inf(-1), math.Inf(1)
	}
	f := s.left
	if side == curve.Right {
		f = s.right
	}
	far, by := f.reach(lo, hi)
	if by < 0 {
		l.NoAnswer("heights", fmt.Sprintf("%v to %v", h.From, h.To), "hold no part of the stock: take a range that meets it")
		return 0, Source{}, l.Err()
	}
	return measure.Length(far), s.from[by], nil
}

// Bottom returns the section's lowest height.
func (s Section) Bottom() measure.Length {
	if len(s.left) == 0 {
		return 0
	}
	return measure.Length(s.left[0].z0)
}

// Top returns the section's highest height.
func (s Section) Top() measure.Length {
	if len(s.left) == 0 {
		return 0
	}
	return measure.Length(s.left[len(s.left)-1].z1)
}

// Sources returns what the section's flanks are made of.
func (s Section) Sources() []Source { return slices.Clone(s.from) }
