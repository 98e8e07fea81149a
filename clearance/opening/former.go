package opening

import (
	"context"
	"fmt"
	"math"
	"slices"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// maxRound is by how much a grown corner may stand out past the true round.
const maxRound = 0.01

// Grown returns the section made larger by a distance on every side, corners
// rounded. The rounds are drawn as straight pieces outside the true ones, by at
// most 0.01 mm.
func (s Section) Grown(by measure.Length) (Section, error) {
	l := fault.In("opening")
	if !s.check(l, by, Centred) {
		return Section{}, l.Err()
	}
	if by == 0 {
		return s, nil
	}
	g := gatherer{from: slices.Clone(s.from)}
	// In layers between the heights at which either flank bends: each is a
	// trapezium, and the whole grown is all of these grown.
	var cuts []float64
	for _, f := range [2]flank{s.left, s.right} {
		for i := range f {
			cuts = append(cuts, f[i].z0, f[i].z1)
		}
	}
	slices.Sort(cuts)
	cuts = slices.Compact(cuts)
	i, j := 0, 0
	for k := 1; k < len(cuts); k++ {
		lo, hi := cuts[k-1], cuts[k]
		if hi-lo <= thinnest {
			continue
		}
		a0, a1, by1 := s.left.layer(&i, lo, hi)
		b0, b1, by2 := s.right.layer(&j, lo, hi)
		y := []float64{-b0, a0, a1, -b1}
		z := []float64{lo, lo, hi, hi}
		y, z = growConvex(y, z, float64(by))
		g.push([2]flank{hullFlank(y, z, 1, by1), hullFlank(y, z, -1, by2)})
	}
	return g.section(), nil
}

// layer returns the flank's offsets at the bottom and the top of a layer that
// no piece ends within; across a gap it joins what is below to what is above.
// i is the piece to begin at, and moves on.
func (f flank) layer(i *int, lo, hi float64) (at0, at1 float64, by int32) {
	mid := (lo + hi) / 2
	for *i+1 < len(f) && f[*i].z1 < mid {
		*i++
	}
	s := &f[*i]
	if s.z0 <= mid && mid <= s.z1 {
		return s.at(lo), s.at(hi), s.by
	}
	if *i == 0 || s.z1 < mid {
		return s.at(lo), s.at(hi), s.by
	}
	b := &f[*i-1] // the gap is between b and s
	gap := seg{b.z1, b.y1, s.z0, s.y0, b.by}
	return gap.at(lo), gap.at(hi), b.by
}

// growConvex returns the corners of a convex figure, anticlockwise or clockwise,
// grown by r: each corner becomes a round, drawn outside it.
func growConvex(y, z []float64, r float64) ([]float64, []float64) {
	n := len(y)
	// Leave corners out that coincide.
	var py, pz []float64
	for i := range n {
		if k := len(py); k == 0 || math.Hypot(y[i]-py[k-1], z[i]-pz[k-1]) > 1e-9 {
			py, pz = append(py, y[i]), append(pz, z[i])
		}
	}
	if k := len(py); k > 1 && math.Hypot(py[0]-py[k-1], pz[0]-pz[k-1]) <= 1e-9 {
		py, pz = py[:k-1], pz[:k-1]
	}
	n = len(py)
	area := 0.0
	for i := range n {
		j := (i + 1) % n
		area += py[i]*pz[j] - pz[i]*py[j]
	}
	if area < 0 {
		slices.Reverse(py)
		slices.Reverse(pz)
	}
	var oy, oz []float64
	for i := range n {
		h, j := (i+n-1)%n, (i+1)%n
		// Outward normals of the sides before and after the corner.
		a := math.Atan2(-(py[i] - py[h]), pz[i]-pz[h])
		turn := math.Atan2(-(py[j]-py[i]), pz[j]-pz[i]) - a
		for turn < -1e-12 {
			turn += 2 * math.Pi
		}
		pieces := math.Ceil(turn / (2 * math.Acos(r/(r+maxRound))))
		if !(pieces >= 1) {
			pieces = 1
		}
		step := turn / pieces
		far := r / math.Cos(step/2)
		for k := range int(pieces) {
			sin, cos := math.Sincos(a + step*(float64(k)+0.5))
			oy, oz = append(oy, py[i]+far*cos), append(oz, pz[i]+far*sin)
		}
	}
	return oy, oz
}

// A Former is the outline of a gauging former: a card that stands on the rails,
// square to the line, and is pushed along instead of a train. What it touches
// is too near. It is in the plane of the rails: offset from the track
// centreline, left positive, and height above the rail heads, and leans with
// the cant as the stock does.
type Former struct {
	From, To    measure.Length // chainages that it is good for
	Margin      measure.Length // that it is larger than what the stock needs
	Gauge       measure.Length // between rail heads
	RailCentres measure.Length // between the middles of the rail heads
	EitherWay   bool           // it may be turned about and used on bends of either hand

	Outline []clearance.SectionPoint // the card, right foot first, then the left foot and up the left side
	Below   bool                     // the stock comes below the rail heads, where the card cannot
	section Section
}

// A Card says how a former is made.
type Card struct {
	Margin      measure.Length // to be larger than what the stock needs
	Gauge       measure.Length // between rail heads
	RailCentres measure.Length // between the middles of the rail heads: gauge and head width
	EitherWay   bool           // make it good for both hands, turned either way
	Tongue      measure.Length // depth of a tongue between the rails that holds it in the middle; 0 is none
	Play        measure.Length // of the tongue between the rails, both sides together
}

// NewFormer returns the former for a range of the line, or for one place if to
// is from: what the stock needs anywhere in it, all allowances in it. A card
// for a range is stricter than each place asks; make several where an easement
// lies in it.
func NewFormer(ctx context.Context, e *clearance.Envelope, from, to measure.Length, card Card) (Former, error) {
	l := fault.In("opening")
	fault.NotNegative(l, "margin", card.Margin)
	if fault.Positive(l, "gauge", card.Gauge) && fault.Finite(l, "rail centres", card.RailCentres) && card.RailCentres <= card.Gauge {
		l.Add("rail centres", card.RailCentres, fmt.Sprintf("must be more than the gauge of %v", card.Gauge))
	}
	fault.NotNegative(l, "tongue", card.Tongue)
	if fault.NotNegative(l, "play of the tongue", card.Play) && card.Play >= card.Gauge && card.Gauge > 0 {
		l.Add("play of the tongue", card.Play, fmt.Sprintf("must be less than the gauge of %v", card.Gauge))
	}
	if err := l.Err(); err != nil {
		return Former{}, err
	}
	at, err := places(e, from, to)
	if err != nil {
		return Former{}, err
	}
	var g gatherer
	for i, c := range at {
		if i%16 == 0 && ctx.Err() != nil {
			return Former{}, ctx.Err()
		}
		level := level(e, c)
		if err := g.add(e, c, level); err != nil {
			return Former{}, err
		}
		if card.EitherWay {
			mirror := func(y, z float64) (float64, float64) {
				if level != nil {
					y, z = level(y, z)
				}
				return -y, z
			}
			if err := g.add(e, c, mirror); err != nil {
				return Former{}, err
			}
		}
	}
	s, err := g.section().Grown(card.Margin)
	if err != nil {
		return Former{}, err
	}
	f := Former{From: from, To: to, Margin: card.Margin, Gauge: card.Gauge, RailCentres: card.RailCentres, EitherWay: card.EitherWay, section: s, Below: s.Bottom() < 0}
	f.Outline = f.cut(card)
	return f, nil
}

// level returns how a section at a chainage is turned back into the plane of
// the rails there; nil where there is no cant.
func level(e *clearance.Envelope, c measure.Length) func(y, z float64) (float64, float64) {
	a := e.Settings().Allowances
	if a.Cant.Datum() == 0 {
		return nil
	}
	lean := math.Asin(max(-1, min(1, float64(a.Cant.At(c)/a.RailCentres))))
	rail := 0.0
	switch half := float64(a.RailCentres) / 2; a.Cant.Datum() {
	case profile.InnerRail:
		rail = math.Copysign(half, lean)
	case profile.OuterRail:
		rail = -math.Copysign(half, lean)
	}
	sin, cos := math.Sincos(lean)
	return func(y, z float64) (float64, float64) {
		y -= rail
		return rail + y*cos - z*sin, z*cos + y*sin
	}
}

// cut returns the card: the section above the rail heads, a foot over both
// rails below it, and the tongue.
func (f *Former) cut(card Card) []clearance.SectionPoint {
	foot := float64(card.RailCentres - card.Gauge/2) // outer edge of the rail head
	low := max(float64(f.section.Bottom()), 0)
	sides := [2]flank{f.section.left, f.section.right}
	for i, s := range sides {
		var above flank
		for _, g := range s {
			if g.z1 <= thinnest {
				continue
			}
			if g.z0 < 0 {
				g.y0, g.z0 = g.at(0), 0
			}
			above = append(above, g)
		}
		if low <= thinnest { // it comes down to the rails: only a base over them
			low = min(1, float64(f.section.Top()))
		}
		sides[i] = outer(above, flank{{0, foot, low, foot, 0}})
	}
	s := Section{left: sides[0], right: sides[1]}
	out := s.Outline()
	if card.Tongue > 0 {
		half := (card.Gauge - card.Play) / 2
		out = append([]clearance.SectionPoint{{Offset: -half}, {Offset: -half, Height: -card.Tongue}, {Offset: half, Height: -card.Tongue}, {Offset: half}}, out...)
	}
	return out
}

// Section returns what the former stands for, in the plane of the rails.
func (f Former) Section() Section { return f.section }
