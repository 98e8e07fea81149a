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

// A Strip is a concrete strip under the line. Its top falls to one side so that
// rain runs off; its underside is level.
type Strip struct {
	Width     measure.Length
	Thickness measure.Length   // at the thin edge
	Fall      measure.Gradient // of the top across the line; positive falls to the right, negative to the left; 0 for none
	Offset    measure.Length   // of its middle from the line, left positive

	Bars     int            // reinforcing bars that run along, evenly spaced between the covers
	Cover    measure.Length // from the edges to the outer bars
	BarStock measure.Length // length that bars are sold in; 0: not cut up
	BarLap   measure.Length // by which two bars overlap

	// Joint is the most between contraction joints; 0 means 30 times the
	// thickness (24 to 36 times is usual; from memory, ACI's guide for slabs).
	Joint measure.Length
}

// A Poured is what a stretch of strip takes.
type Poured struct {
	Name      string
	Length    measure.Length // along the line
	Volume    measure.Volume
	Top       measure.Area // in plan
	Shutters  measure.Length
	FallBy    measure.Length   // the thin edge lies so much below the thick one
	Panel     measure.Length   // between joints, along the line
	Joints    []measure.Length // chainages; the ends of the strip are not joints
	CutDepth  measure.Length   // of a joint, a quarter of the thickness (common practice, no source)
	BarLength measure.Length   // all bars, laps included
	BarPieces int              // bars to buy, when BarStock is given; each line of bars by itself
	Cautions  []string
}

// Along measures the strip along a stretch of line.
func (c Strip) Along(line *curve.Alignment, s ballast.Stretch) (Poured, error) {
	l := fault.In("trackbed")
	w := fault.Size(l, "strip width", c.Width)
	t := fault.Size(l, "strip thickness", c.Thickness)
	fault.Between(l, "fall across", c.Fall, -0.5, 0.5)
	fault.Place(l, "strip offset", c.Offset)
	fault.Amount(l, "distance of joints", c.Joint)
	fault.Amount(l, "cover of the bars", c.Cover)
	fault.Amount(l, "stock length of bars", c.BarStock)
	fault.Amount(l, "lap of the bars", c.BarLap)
	if c.Bars < 0 || c.Bars > 1000 {
		l.Add("bars", c.Bars, "must be from 0 to 1000")
	}
	if c.BarStock > 0 && c.BarLap >= c.BarStock {
		l.Add("lap of the bars", c.BarLap, fmt.Sprintf("must be less than their stock length, %v", c.BarStock))
	}
	if w && c.Bars > 0 && 2*c.Cover >= c.Width {
		l.Add("cover of the bars", c.Cover, fmt.Sprintf("must be less than half the strip's width, %v", c.Width/2))
	}
	r, ok := newRun(l, line, s)
	if ok && w {
		fits(l, "strip", line, s, float64(c.Offset-c.Width/2), float64(c.Offset+c.Width/2))
	}
	joint := c.Joint
	if joint == 0 {
		joint = 30 * c.Thickness
	}
	if ok && t && r.length > float64(joint)*MaxPieces {
		l.Over("distance of joints", joint, fmt.Sprintf("more than %d panels on %v", MaxPieces, measure.Length(r.length)))
	}
	if ok && c.BarStock > 0 && 2*r.length > float64(c.BarStock-c.BarLap)*MaxPieces {
		l.Over("stock length of bars", c.BarStock, fmt.Sprintf("more than %d bars", MaxPieces))
	}
	if !l.OK() {
		return Poured{}, l.Err()
	}
	width, off := float64(c.Width), float64(c.Offset)
	rise := width * math.Abs(float64(c.Fall))
	area := width * (float64(c.Thickness) + rise/2)
	// The wedge's centroid lies a sixth of the width from the middle, to the
	// thick side: left when the top falls to the right.
	moment := area*off + math.Copysign(rise*width/2*width/6, float64(c.Fall))
	p := Poured{
		Name: s.Name, Length: measure.Length(r.length), Volume: r.prism(area, moment/area),
		Top:    measure.Area(width * r.along(off)),
		FallBy: measure.Length(rise), CutDepth: c.Thickness / 4,
		Cautions: []string{caution.Cement, caution.Lifting, caution.Cutting},
	}
	p.Shutters = measure.Length(r.along(off-width/2) + r.along(off+width/2))
	n := max(1, int(math.Ceil(r.length/float64(joint)*(1-1e-12))))
	p.Panel = measure.Length(r.length / float64(n))
	first := 1
	if r.whole {
		first = 0
	}
	for i := first; i < n; i++ {
		at := s.From + p.Panel*measure.Length(i)
		if line.Closed() && at >= line.Length() {
			at -= line.Length()
		}
		p.Joints = append(p.Joints, at)
	}
	for i := range c.Bars {
		y := off
		if c.Bars > 1 {
			y += (width - 2*float64(c.Cover)) * (float64(i)/float64(c.Bars-1) - 0.5)
		}
		bar := r.along(y)
		if c.BarStock > 0 {
			k := max(1, math.Ceil((bar-float64(c.BarLap))/float64(c.BarStock-c.BarLap)*(1-1e-12)))
			if r.whole { // the last bar laps the first
				k = math.Ceil(bar / float64(c.BarStock-c.BarLap) * (1 - 1e-12))
				bar += float64(c.BarLap)
			}
			p.BarPieces += int(k)
			bar += (k - 1) * float64(c.BarLap)
		}
		p.BarLength += measure.Length(bar)
	}
	return p, nil
}
