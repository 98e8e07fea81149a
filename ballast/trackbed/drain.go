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

// A Drain is a perforated pipe in gravel beside the line or under it.
type Drain struct {
	Pipe   measure.Length   // outer diameter
	Width  measure.Length   // of its ditch
	Start  measure.Length   // depth of the pipe's underside below the ground at the upper end
	Ground measure.Gradient // of the ground along the drain, positive falling to the lower end
	Fall   measure.Gradient // of the pipe, positive; 0 means 1 in 100 (common practice, no source)
	Bed    measure.Length   // of gravel under the pipe
	Offset measure.Length   // from the line, left positive
	Stock  measure.Length   // length of a pipe or coil; 0: not counted
}

// A Drainage is what a stretch of drain takes.
type Drainage struct {
	Name      string
	Length    measure.Length // of the pipe in plan
	Drop      measure.Length // of the pipe from end to end
	Outlet    measure.Length // depth of the pipe's underside below the ground at the lower end
	Excavated measure.Volume // in the ground
	Gravel    measure.Volume // in place, pipe taken off, up to the ground
	Pipes     int
	Cautions  []string
}

// Along measures the drain along a stretch of line; it may run either way.
func (d Drain) Along(line *curve.Alignment, s ballast.Stretch) (Drainage, error) {
	l := fault.In("trackbed")
	p := fault.Size(l, "drain pipe", d.Pipe)
	if w := fault.Size(l, "drain ditch width", d.Width); w && p && d.Width < d.Pipe {
		l.Add("drain ditch width", d.Width, fmt.Sprintf("must be at least the pipe's diameter, %v", d.Pipe))
	}
	if st := fault.Size(l, "drain depth at its start", d.Start); st && p && d.Start < d.Pipe {
		l.Add("drain depth at its start", d.Start, fmt.Sprintf("must be at least the pipe's diameter, %v", d.Pipe))
	}
	fault.Between(l, "drain: fall of the ground", d.Ground, -1, 1)
	fault.Between(l, "drain fall", d.Fall, 0, 1)
	fault.Amount(l, "drain bed", d.Bed)
	fault.Place(l, "drain offset", d.Offset)
	fault.Amount(l, "drain pipe stock", d.Stock)
	r, ok := newRun(l, line, s)
	if ok && l.OK() {
		fits(l, "drain", line, s, float64(d.Offset-d.Width/2), float64(d.Offset+d.Width/2))
	}
	if !l.OK() {
		return Drainage{}, l.Err()
	}
	fall := d.Fall
	if fall == 0 {
		fall = 0.01
	}
	n := r.along(float64(d.Offset))
	out := Drainage{Name: s.Name, Length: measure.Length(n), Drop: measure.Length(n * float64(fall)), Cautions: []string{caution.Digging}}
	out.Outlet = d.Start + measure.Length(n*float64(fall-d.Ground))
	if out.Outlet < d.Pipe {
		l.NoAnswer("drain fall", fall, fmt.Sprintf("brings the pipe out of the ground, which falls faster: a fall of at least %v or a deeper start would keep it in",
			d.Ground-measure.Gradient((d.Start-d.Pipe)/out.Length)))
		return Drainage{}, l.Err()
	}
	mean := float64(d.Start+out.Outlet)/2 + float64(d.Bed) // the depth goes evenly
	out.Excavated = measure.Volume(n * float64(d.Width) * mean)
	out.Gravel = out.Excavated - measure.Volume(n*math.Pi/4*float64(d.Pipe)*float64(d.Pipe))
	if d.Stock > 0 {
		k := math.Ceil(n / float64(d.Stock) * (1 - 1e-12))
		if k > MaxPieces {
			l.Over("drain pipes", k, fmt.Sprintf("at most %d", MaxPieces))
			return Drainage{}, l.Err()
		}
		out.Pipes = int(k)
	}
	return out, nil
}
