package clearance

import (
	"math"

	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// A canting is the cant of the track as the vehicles feel it: the section
// square to the line turns about the head of the rail that stays level, by the
// lean of the part that stands there.
type canting struct {
	cant    profile.Cant
	centres float64 // between the centres of the rail heads
	level   float64 // offset of the rail that stays level, towards the lean
	marks   marks   // where a ramp begins or ends
}

// newCanting returns the canting of the allowances, nil without a cant.
func newCanting(a *Allowances) *canting {
	if !a.canted() {
		return nil
	}
	k := &canting{cant: a.Cant, centres: float64(a.RailCentres)}
	switch a.Cant.Datum() {
	case profile.InnerRail:
		k.level = k.centres / 2
	case profile.OuterRail:
		k.level = -k.centres / 2
	}
	lap, _ := a.Cant.Circuit()
	k.marks = newMarks(a.Cant.Boundaries(), lap)
	return k
}

// varies reports whether the cant is not the same everywhere. Only then can it
// change which point governs.
func (k *canting) varies() bool { return k != nil && len(k.marks.at) > 1 }

// angle returns the lean, to the left positive, that a cant gives.
func (k *canting) angle(u float64) float64 { return math.Asin(max(-1, min(1, u/k.centres))) }

func (k *canting) rail(lean float64) float64 {
	if lean < 0 {
		return -k.level
	}
	return k.level
}

// turn turns a point of the section by a lean.
func (k *canting) turn(y, z, lean float64) (float64, float64) {
	rail := k.rail(lean)
	sin, cos := math.Sincos(lean)
	y -= rail
	return rail + y*cos + z*sin, z*cos - y*sin
}

// upright returns the least and the largest height of a turned point with leans
// from lo to hi.
func (k *canting) upright(y, z, lo, hi float64) (least, most float64) {
	_, a := k.turn(y, z, lo)
	least, most = a, a
	if lo == hi {
		return least, most
	}
	try := func(lean float64) {
		if lo < lean && lean <= hi {
			_, a := k.turn(y, z, lean)
			least, most = min(least, a), max(most, a)
		}
	}
	try(hi)
	try(0)
	for _, rail := range [2]float64{k.level, -k.level} { // where neither a small turn raises nor lowers it
		try(math.Atan((rail - y) / z))
	}
	return least, most
}

// back returns the offset that a turned one had.
func (k *canting) back(y, z, lean float64) float64 {
	rail := k.rail(lean)
	sin, cos := math.Sincos(lean)
	return rail + (y-rail-z*sin)/cos
}

// shift returns the turned offset of a point above the centreline, and what an
// offset is multiplied by.
func (k *canting) shift(z, lean float64) (y, cos float64) {
	sin, cos := math.Sincos(lean)
	return k.rail(lean)*(1-cos) + z*sin, cos
}

// growth returns the growth of a turned offset with the lean, for a growth of 1
// with the offset.
func (k *canting) growth(y, z, lean float64) float64 {
	return z - (y-k.rail(lean))*math.Tan(lean)
}

// A lean is the angle at which a part leans, to the left positive, and its
// growth per mm of the drive.
type lean struct{ a, w float64 }

// of works out the lean of every part at a pose: a carrier's by the cant at its
// middle, a body's by the mean of those under its two carriers, a truck's that
// of its body.
func (k *canting) of(r *rig, p *pose) {
	nb, nc := len(r.v.Bodies), len(r.v.Carriers)
	grow := func(u, du float64) lean {
		a := k.angle(u)
		return lean{a, du / (k.centres * math.Cos(a))}
	}
	was, dwas := 0.0, 0.0
	for i := range nc {
		at := measure.Length((p.rear[i] + p.front[i]) / 2)
		u, du := float64(k.cant.At(at)), float64(k.cant.Ramp(at))*(p.rate[i]+p.rate[nc+i])/2
		p.lean[nb+i] = grow(u, du)
		if i > 0 {
			p.lean[i-1] = grow((was+u)/2, (dwas+du)/2)
		}
		was, dwas = u, du
	}
	for i, t := range r.trucks {
		p.lean[nb+nc+i] = p.lean[t.body]
	}
}

// A ramp is a stretch of cant between two of its marks: how fast its gradient
// grows, at most, and by how much it jumps at the stretch's beginning, as
// angles per mm² and per mm.
type ramp struct{ from, to, bend, kink float64 }

// ramps returns the stretches of the cant on its first lap, or altogether.
func (k *canting) ramps() []ramp {
	if !k.varies() {
		return nil
	}
	var out []ramp
	slope := func(c float64) float64 { return float64(k.cant.Ramp(measure.Length(c))) / k.centres }
	for i, from := range k.marks.at {
		to := from
		if i+1 < len(k.marks.at) {
			to = k.marks.at[i+1]
		} else if k.marks.lap > 0 {
			to = k.marks.at[0] + k.marks.lap
		}
		r := ramp{from: from, to: to, kink: math.Abs(slope(from+1e-4) - slope(from-1e-4))}
		const n = 40
		d := (to - from) / n
		for j := 1; j < n-1 && d > 1e-3; j++ {
			r.bend = max(r.bend, 1.2*math.Abs(slope(from+float64(j+1)*d)-slope(from+float64(j)*d))/d)
		}
		out = append(out, r)
	}
	return out
}

// spacing is how far apart stations may be where the ramp is within a vehicle's
// length. At the height z a kink bends a reach by as much where the lean is a
// carrier's, half as much where it is a body's, and the cubic between two
// stations misses that by up to an eighth of their spacing times it; a bend
// takes the reach from its tangent by half the square of the spacing times it.
func (r *ramp) spacing(tolerance, z float64) float64 {
	return min(4*tolerance/(r.kink*z+1e-12), math.Sqrt(tolerance/(r.bend*z+1e-12)))
}

// spacing is how far apart stations may be between two chainages.
func (k *canting) spacing(ramps []ramp, a, b, tolerance, z float64) float64 {
	h := math.Inf(1)
	for i := range ramps {
		r := &ramps[i]
		first, last := 0.0, 0.0
		if k.marks.lap > 0 {
			first, last = math.Floor((a-r.to)/k.marks.lap), math.Ceil((b-r.from)/k.marks.lap)
		}
		for lap := first; lap <= last; lap++ {
			if by := lap * k.marks.lap; r.from+by <= b && r.to+by >= a {
				h = min(h, r.spacing(tolerance, z))
			}
		}
	}
	return h
}
