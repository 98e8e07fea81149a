package trackbed

import (
	"fmt"
	"math"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/caution"
	"example.org/fourfoot/internal/fault"
)

// DefaultBulking is the room that dug soil takes over what it took in the
// ground (common practice for garden soil, no source).
const DefaultBulking = 1.25

// A Layer is one of a trench's fillings, compacted.
type Layer struct {
	Name      string
	Thickness measure.Length
}

// A Trench is a ditch along the line, filled in layers.
type Trench struct {
	Width   measure.Length // at the bottom
	Depth   measure.Length // below the ground
	Slope   float64        // of the sides, horizontal over vertical; 0 for upright
	Offset  measure.Length // of its middle from the line, left positive
	Layers  []Layer        // from the bottom up, together no thicker than the depth
	Bulking float64        // of the soil, loose volume over volume in the ground; 0 means DefaultBulking
}

// A Dug is what a stretch of trench takes. Volumes of layers are compacted: a
// ballast.Material turns them into loads.
type Dug struct {
	Name      string
	Length    measure.Length // along the line
	Excavated measure.Volume // in the ground
	Spoil     measure.Volume // loose
	Layers    []measure.Volume
	Bottom    measure.Area // to be levelled and tamped
	Lining    measure.Area // bottom and both sides up to the ground, for a geotextile; laps are the sheet's
	Girth     measure.Length
	Cautions  []string
}

func bulkingOr(l *fault.List, field string, v float64) float64 {
	if v == 0 {
		return DefaultBulking
	}
	fault.Between(l, field, v, 1, 3)
	return v
}

// Along measures the trench along a stretch of line.
func (t Trench) Along(line *curve.Alignment, s ballast.Stretch) (Dug, error) {
	l := fault.In("trackbed")
	w := fault.Size(l, "trench width", t.Width)
	d := fault.Size(l, "trench depth", t.Depth)
	sl := fault.Between(l, "trench slope, horizontal over vertical", t.Slope, 0, 10)
	fault.Place(l, "trench offset", t.Offset)
	bulking := bulkingOr(l, "bulking of the soil", t.Bulking)
	var filled measure.Length
	for i, y := range t.Layers {
		fault.Size(l, fmt.Sprintf("thickness of layer %d, %s", i+1, y.Name), y.Thickness)
		filled += y.Thickness
	}
	if d && filled > t.Depth*(1+1e-9) {
		l.Add("layers", filled, fmt.Sprintf("must be no thicker together than the trench is deep, %v", t.Depth))
	}
	r, ok := newRun(l, line, s)
	if ok && w && d && sl {
		half := float64(t.Width)/2 + t.Slope*float64(t.Depth)
		fits(l, "trench", line, s, float64(t.Offset)-half, float64(t.Offset)+half)
	}
	if !l.OK() {
		return Dug{}, l.Err()
	}
	off := float64(t.Offset)
	// Between two heights: (w0 + w1)/2·t, with w = width + 2·slope·height.
	slice := func(z0, z1 float64) measure.Volume {
		return r.prism((float64(t.Width)+t.Slope*(z0+z1))*(z1-z0), off)
	}
	g := Dug{Name: s.Name, Length: measure.Length(r.length), Excavated: slice(0, float64(t.Depth)), Cautions: []string{caution.Digging}}
	g.Spoil = g.Excavated * measure.Volume(bulking)
	z := 0.0
	for _, y := range t.Layers {
		g.Layers = append(g.Layers, slice(z, z+float64(y.Thickness)))
		z += float64(y.Thickness)
	}
	g.Bottom = measure.Area(float64(t.Width) * r.along(off))
	g.Girth = t.Width + 2*measure.Length(float64(t.Depth)*math.Hypot(1, t.Slope))
	g.Lining = measure.Area(float64(g.Girth) * r.along(off))
	return g, nil
}

// A Barrow is what one load carries: by loose volume, by mass, or by whichever
// of the two is reached first.
type Barrow struct {
	Volume measure.Volume
	Mass   measure.Mass
}

// Loads returns the barrow loads of a loose volume of the given loose density,
// rounded up; the density is not needed when the barrow states no mass.
func (b Barrow) Loads(loose measure.Volume, density measure.Density) (int, []string, error) {
	l := fault.In("trackbed")
	fault.Amount(l, "loose volume", loose)
	fault.Amount(l, "barrow: volume", b.Volume)
	m := fault.Amount(l, "barrow: mass", b.Mass)
	fault.Amount(l, "loose density", density)
	if l.OK() && b.Volume == 0 && b.Mass == 0 {
		l.Add("barrow", nil, "needs a volume or a mass")
	}
	if m && b.Mass > 0 && density == 0 {
		l.Add("loose density", density, "is needed for a barrow that is limited by mass")
	}
	if !l.OK() {
		return 0, nil, l.Err()
	}
	n := 0.0
	if b.Volume > 0 {
		n = float64(loose / b.Volume)
	}
	if b.Mass > 0 {
		n = max(n, float64(density.Of(loose)/b.Mass))
	}
	if n > 1e9 {
		l.Over("barrow loads", n, "at most 1e9")
		return 0, nil, l.Err()
	}
	return int(math.Ceil(n * (1 - 1e-9))), []string{caution.Lifting}, nil
}
