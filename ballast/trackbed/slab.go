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

// Slabs are blocks or slabs laid one after another on a bed of sand.
type Slabs struct {
	Length measure.Length // along the line
	Width  measure.Length // across it
	Height measure.Length
	Gap    measure.Length // between two; on a curve between their inner edges
	Sand   measure.Length // thickness of the sand, compacted
	Margin measure.Length // by which the sand is wider on either side
	Mass   measure.Mass   // of one; 0 when not known
}

// A Paving is what a stretch takes in slabs.
type Paving struct {
	Name     string
	Count    int
	Sand     measure.Volume // compacted
	Dig      measure.Volume // for slabs and sand, when their tops are to be flush with the ground
	WidestAt measure.Length // widest gap, between the outer edges on the sharpest curve
	Mass     measure.Mass   // of one slab
	Cautions []string
}

// Along counts the slabs of a stretch, each square to the line at its middle.
// On a curve their inner edges keep the gap, so that a slab takes up
// (length + gap)/(1 - |κ|·width/2) of the line; the count is exact where the
// curvature is constant but for the bow of the line over one slab, a part of
// about length²/12R².
func (b Slabs) Along(line *curve.Alignment, s ballast.Stretch) (Paving, error) {
	l := fault.In("trackbed")
	a := fault.Size(l, "slab length", b.Length)
	w := fault.Size(l, "slab width", b.Width)
	fault.Size(l, "slab height", b.Height)
	fault.Amount(l, "gap between slabs", b.Gap)
	fault.Amount(l, "thickness of the sand", b.Sand)
	m := fault.Amount(l, "margin of the sand", b.Margin)
	fault.Amount(l, "mass of a slab", b.Mass)
	r, ok := newRun(l, line, s)
	half := float64(b.Width) / 2
	if ok && w && m {
		fits(l, "slabs", line, s, -half-float64(b.Margin), half+float64(b.Margin))
	}
	if ok && a && r.length > float64(b.Length)*MaxPieces {
		l.Over("slab length", b.Length, fmt.Sprintf("more than %d slabs on %v", MaxPieces, measure.Length(r.length)))
	}
	if !l.OK() {
		return Paving{}, l.Err()
	}
	pitch := float64(b.Length + b.Gap)
	inner := r.length - half*absTurn(line, s) // length along the inner edges
	p := Paving{Name: s.Name, Mass: b.Mass, WidestAt: b.Gap, Cautions: []string{caution.Lifting, caution.Cutting, caution.Digging}}
	p.Count = max(1, int(math.Ceil((inner+float64(b.Gap))/pitch*(1-1e-9))))
	if r.whole {
		p.Count = max(1, int(math.Ceil(inner/pitch*(1-1e-9))))
	}
	bed := float64(b.Width + 2*b.Margin)
	p.Sand = r.prism(bed*float64(b.Sand), 0)
	p.Dig = r.prism(bed*float64(b.Sand)+float64(b.Width)*float64(b.Height), 0)
	for _, q := range parts(line, s) {
		for _, x := range []float64{q[0], inside(q)} {
			k := math.Abs(float64(line.At(measure.Length(x)).Curvature))
			// The outer edge is longer by k·width/(1 - k·width/2) of the pitch.
			p.WidestAt = max(p.WidestAt, b.Gap+measure.Length(pitch*k*2*half/(1-k*half)))
		}
	}
	return p, nil
}
