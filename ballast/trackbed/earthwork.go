package trackbed

import (
	"fmt"
	"math"
	"slices"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/caution"
	"example.org/fourfoot/internal/fault"
	"example.org/fourfoot/internal/solve"
)

// An Earthwork is a formation cut into the ground or raised on it, with side
// slopes; the ground is level across the line.
type Earthwork struct {
	Width   measure.Length // of the formation
	Below   measure.Length // formation below the level of the line
	Cut     float64        // side slope of cuttings, horizontal over vertical
	Fill    float64        // side slope of banks; 1.5 is NEM 122's
	Every   measure.Length // distance of stations along the line; 0 means 1 m
	Bulking float64        // of the soil, loose volume over volume in the ground; 0 means DefaultBulking
	Shrink  float64        // volume in the ground that one volume of tamped bank takes; 0 means 1.1 (common practice, no source)
}

// An EarthStation is one cross-section.
type EarthStation struct {
	Chainage measure.Length
	Depth    measure.Length // of the formation below the ground; negative on a bank
	Area     measure.Area   // of cutting or of bank
}

// An Earth is what is moved along a stretch. Cut is measured in the ground,
// Fill in place.
type Earth struct {
	Name            string
	Stations        []EarthStation
	Cut, Fill       measure.Volume // by average end areas
	CutMid, FillMid measure.Volume // by the prismoidal formula with the middle areas, for comparison
	Spare           measure.Volume // in the ground: cut less what the banks take; negative: so much has to be brought
	Spoil           measure.Volume // loose, to be carted off: Spare bulked, 0 when earth is short
	Cautions        []string
}

// Along measures cut and fill along a stretch of line, from the line's level and
// the ground's, both above one datum. Stations lie at every multiple of Every
// from the start of the stretch, where either profile changes, and where cut
// gives way to fill. End areas are (width + slope·depth)·depth; between two
// stations the volume is their mean times the distance, which is a little too
// much on steep ground, and the prismoidal volume says by how much.
func (e Earthwork) Along(line *curve.Alignment, s ballast.Stretch, level, ground profile.Level) (Earth, error) {
	l := fault.In("trackbed")
	w := fault.Size(l, "formation width", e.Width)
	fault.Place(l, "formation below the line", e.Below)
	fault.Between(l, "slope of cuttings, horizontal over vertical", e.Cut, 0, 10)
	fault.Between(l, "slope of banks, horizontal over vertical", e.Fill, 0, 10)
	fault.Amount(l, "distance of stations", e.Every)
	bulking := bulkingOr(l, "bulking of the soil", e.Bulking)
	if e.Shrink == 0 {
		e.Shrink = 1.1
	}
	fault.Between(l, "shrinking of the soil", e.Shrink, 0.5, 2)
	if e.Every == 0 {
		e.Every = measure.Metre
	}
	r, ok := newRun(l, line, s)
	if ok && l.OK() && r.length > float64(e.Every)*MaxPieces {
		l.Over("distance of stations", e.Every, fmt.Sprintf("more than %d stations on %v", MaxPieces, measure.Length(r.length)))
	}
	if ok && w {
		fits(l, "formation", line, s, -float64(e.Width)/2, float64(e.Width)/2)
	}
	if !l.OK() {
		return Earth{}, l.Err()
	}
	end := float64(line.Length())
	depth := func(x float64) float64 { // x along the stretch
		c := float64(s.From) + x
		if line.Closed() && c > end {
			c -= end
		}
		return float64(ground.At(measure.Length(c)) - level.At(measure.Length(c)) + e.Below)
	}
	area := func(d float64) float64 {
		slope := e.Cut
		if d < 0 {
			slope, d = e.Fill, -d
		}
		return (float64(e.Width) + slope*d) * d
	}
	xs := e.stations(r.length, float64(s.From), end, line.Closed(), level, ground)
	for i := len(xs) - 1; i > 0; i-- {
		if a, b := depth(xs[i-1]), depth(xs[i]); a*b < 0 {
			if x, ok := solve.Brent(depth, xs[i-1], xs[i], 1e-6); ok {
				xs = append(xs, x)
			}
		}
	}
	slices.Sort(xs)
	out := Earth{Name: s.Name, Cautions: []string{caution.Digging, caution.Lifting}}
	for i, x := range xs {
		d := depth(x)
		if math.Abs(d) < 1e-5 { // a change from cut to fill
			d = 0
		}
		c := float64(s.From) + x
		if line.Closed() && c > end {
			c -= end
		}
		out.Stations = append(out.Stations, EarthStation{measure.Length(c), measure.Length(d), measure.Area(area(d))})
		if i == 0 {
			continue
		}
		gap, mid := x-xs[i-1], depth((x+xs[i-1])/2)
		a, b := area(float64(out.Stations[i-1].Depth)), area(d)
		mean, prism := measure.Volume(gap*(a+b)/2), measure.Volume(gap*(a+4*area(mid)+b)/6)
		if mid > 0 {
			out.Cut, out.CutMid = out.Cut+mean, out.CutMid+prism
		} else {
			out.Fill, out.FillMid = out.Fill+mean, out.FillMid+prism
		}
	}
	out.Spare = out.Cut - out.Fill*measure.Volume(e.Shrink)
	out.Spoil = max(0, out.Spare) * measure.Volume(bulking)
	if math.IsInf(float64(out.Cut+out.Fill), 0) || math.IsNaN(float64(out.Cut+out.Fill)) {
		l.Over("earthwork", nil, "is more than can be counted")
		return Earth{}, l.Err()
	}
	return out, nil
}

// stations returns the places of cross-sections along the stretch.
func (e Earthwork) stations(length, from, lap float64, closed bool, profiles ...profile.Level) []float64 {
	xs := []float64{0, length}
	for i := 1.0; i*float64(e.Every) < length; i++ {
		xs = append(xs, i*float64(e.Every))
	}
	for _, p := range profiles {
		for _, b := range p.Boundaries() {
			x := float64(b) - from
			if closed {
				x = math.Mod(math.Mod(x, lap)+lap, lap)
			}
			if x > 0 && x < length {
				xs = append(xs, x)
			}
		}
	}
	slices.Sort(xs)
	return slices.CompactFunc(xs, func(a, b float64) bool { return math.Abs(b-a) < 1e-6 })
}
