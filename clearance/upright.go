package clearance

import (
	"math"

	"example.org/fourfoot/gauge/measure"
)

// passing returns the vehicle's drive as the sheet comes to the chainage c and
// as it leaves it.
func (e *Envelope) passing(s *sheet, c float64, i int) (first, last float64) {
	t := 0.0
	if h := e.stations[i+1].c - e.stations[i].c; h > 0 {
		t = (c - e.stations[i].c) / h
	}
	return s.first[i] + t*(s.first[i+1]-s.first[i]), s.last[i] + t*(s.last[i+1]-s.last[i])
}

// leans returns the least and the largest lean of a sheet's part as the
// vehicle's drive goes from first to last.
func (e *Envelope) leans(s *sheet, first, last, k float64) (lo, hi float64) {
	rear, front := e.stands(s, 0, k)
	u := func(drive float64) float64 {
		return float64(e.cant.cant.At(measure.Length(drive+rear))+e.cant.cant.At(measure.Length(drive+front))) / 2
	}
	if !e.cant.varies() {
		lo = e.cant.angle(u(first))
		return lo, lo
	}
	if from, to := first+rear, last+front; e.cant.marks.after(from-1e-9) > to && u(first) == 0 && u(last) == 0 {
		return 0, 0 // between two marks a cant only grows or only falls
	}
	lo, hi = e.cant.marks.extremes(first, last, rear, front, u)
	return e.cant.angle(lo), e.cant.angle(hi)
}

// stands returns the chainages that a part rests on with the vehicle's drive at
// s: the middles of a body's two carriers, twice the middle of a carrier. Along
// a line of the curvature k they are further apart than their chord.
func (e *Envelope) stands(s *sheet, drive, k float64) (rear, front float64) {
	v := &e.stock[s.vehicle]
	at := drive + float64(v.Carriers[0].Wheelbase)/2
	body, carrier := s.part, s.part-len(v.Bodies)
	if carrier >= len(v.Carriers) { // a truck: with its body
		body, _ = v.truck(carrier - len(v.Carriers))
		carrier = -1
	}
	for i := range v.Bodies {
		if carrier == i {
			return at, at
		}
		er, ef := pins(v.Carriers[i], v.Carriers[i+1])
		next := at + arcOver(float64(er+v.Bodies[i].Pivots-ef), k)
		if carrier < 0 && i == body {
			return at, next
		}
		at = next
	}
	return at, at
}

// arcOver returns the length of an arc of the curvature k over a chord.
func arcOver(chord, k float64) float64 {
	if h := math.Abs(k) * chord / 2; h > 1e-6 {
		return chord * math.Asin(min(h, 1)) / h
	}
	return chord
}

// verticalThrow returns by how much a part can stand higher, and lower, over
// the rails at c than on a plain gradient: the height of the chord of what it
// rests on over the level at c, while the vehicle's drive goes from first to
// last and its outline passes by.
func (e *Envelope) verticalThrow(s *sheet, c, first, last, k float64) (up, down float64) {
	if len(e.breaks.at) == 0 {
		return 0, 0
	}
	level := &e.set.Allowances.Level
	rear, front := e.stands(s, 0, k)
	// c itself counts too: an outline may lie wholly ahead of both pivots.
	from, to := min(c, first+rear), max(c, last+front)
	if front <= rear || !(first <= last) || e.breaks.after(from-1e-9) > to && level.Curvature(measure.Length(from)) == 0 {
		return 0, 0
	}
	here := float64(level.At(measure.Length(c)))
	v := &e.stock[s.vehicle]
	body, ahead := s.part, 0.0
	if i := s.part - len(v.Bodies) - len(v.Carriers); i >= 0 {
		var t *Truck
		body, t = v.truck(i)
		ahead = float64(t.Hinge + t.Bar)
	}
	C := float64(v.Bodies[body].Pivots)
	down, up = e.breaks.extremes(first, last, rear, front, func(drive float64) float64 {
		x := s.front // of what passes c
		if last > first {
			x -= (s.front - s.rear) * (drive - first) / (last - first)
		}
		x += ahead // of midway between the body's pivots
		zr, zf := float64(level.At(measure.Length(drive+rear))), float64(level.At(measure.Length(drive+front)))
		return zr + (zf-zr)*(x+C/2)/C - here
	})
	return max(0, up), min(0, down)
}
