package clearance

import (
	"fmt"
	"math"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A cut is one sheet's cross-section at one place with all allowances in it.
type cut struct {
	quad
	left, right hit     // what gives the level reach
	up, down    float64 // vertical throw, at most and at least
	lift        float64 // of the corners by rolling on the springs
	c           float64 // the place, in the interval of stations from i
	i           int
}

// by returns what gives the section's reach on a side, at the bottom and at the
// top.
func (e *Envelope) by(k *cut, side curve.Hand) [2]hit {
	h, at := k.left, 0
	if side == curve.Right {
		h, at = k.right, 1
	}
	both := [2]hit{h, h}
	for i, leaned := range h.sheet.leaned {
		if leaned != nil {
			both[i] = e.onAfter(leaned, k.c, at, k.i)
		}
	}
	return both
}

// cut returns the section of a sheet at the unrolled chainage c, in the
// interval of stations from i.
func (e *Envelope) cut(s *sheet, c float64, i int) cut {
	k := cut{left: e.onAfter(s, c, 0, i), right: e.onAfter(s, c, 1, i), c: c, i: i}
	a := &e.set.Allowances
	add := float64(a.Laying + a.Heat + a.Running)
	var first, last, bend float64
	if s.first != nil {
		first, last = e.passing(s, c, i)
		bend = (e.stations[i].k1 + e.stations[i+1].k0) / 2
		k.up, k.down = e.verticalThrow(s, c, first, last, bend)
	}
	yl, yr := k.left.n+add, -k.right.n-add
	zb, zt := s.bottom+k.down, s.top+k.up
	// Rolled on its springs either way, to first order: a corner at the height
	// z moves out by z - z0 times the roll, one at the offset y up or down by
	// y times it.
	roll, z0 := float64(a.Springs), float64(a.RollCentre)
	out := [2]float64{roll * math.Abs(zb-z0), roll * math.Abs(zt-z0)}
	k.lift = roll * max(math.Abs(yl), math.Abs(yr))
	k.y = [4]float64{yr - out[0], yl + out[0], yl + out[1], yr - out[1]}
	k.z = [4]float64{zb - k.lift, zb - k.lift, zt + k.lift, zt + k.lift}
	if e.cant == nil && k.lift == 0 {
		return k
	}
	inner := [4]float64{s.bottom + k.up + k.lift, s.bottom + k.up + k.lift, s.top + k.down - k.lift, s.top + k.down - k.lift}
	if e.cant != nil {
		e.tilt(&k, s, first, last, bend, &inner)
	}
	if k.lift != 0 || e.cant.varies() || k.up != k.down {
		k.bend(&inner)
	}
	return k
}

// tilt turns a section by the lean: sideways by that of the pose that governs
// at each height, up and down by the worst of all that pass the place.
func (e *Envelope) tilt(k *cut, s *sheet, first, last, bend float64, inner *[4]float64) {
	lo, hi := e.leans(s, first, last, bend)
	cos := max(math.Cos(lo), math.Cos(hi))
	for j, at := range [4]struct{ side, height int }{{1, 0}, {0, 0}, {0, 1}, {1, 1}} {
		y, z := k.y[j], k.z[j]
		n, sign, own := k.left.n, 1.0, s.bottom
		if at.side == 1 {
			n, sign = -k.right.n, -1
		}
		if at.height == 1 {
			own = s.top
		}
		turned, _ := e.cant.turn(n, own, lo)
		if leaned := s.leaned[at.height]; leaned != nil {
			turned = sign * e.onAfter(leaned, k.c, at.side, k.i).n
		}
		least, most := e.cant.upright(y, z, lo, hi)
		other, another := e.cant.upright(y, inner[j], lo, hi)
		// What the other allowances add sideways, and by raising and lowering
		// what leans.
		tip := 0.0
		for _, d := range [2]float64{k.down - k.lift, k.up + k.lift} {
			tip = max(tip, sign*d*math.Sin(lo), sign*d*math.Sin(hi))
		}
		k.y[j] = turned + (y-n)*cos + sign*tip
		if k.z[j], inner[j] = least, another; at.height == 1 {
			k.z[j], inner[j] = most, other
		}
	}
}

// flank returns the furthest reach of the section to a side between two
// heights, as far as its flank has it there, and how far that is from its
// bottom corner's to its top corner's.
func (k *cut) flank(side curve.Hand, lo, hi float64) (reach, t float64) {
	low, high, sign, knee := 1, 2, 1.0, 0
	if side == curve.Right {
		low, high, sign, knee = 0, 3, -1, 1
	}
	reach = math.Inf(-1)
	along := func(y0, z0, t0, y1, z1, t1 float64) {
		dz := z1 - z0
		for _, u := range [4]float64{0, 1, (lo - z0) / dz, (hi - z0) / dz} {
			z := z0 + u*dz
			if !(u >= 0 && u <= 1 && z >= lo-1e-9 && z <= hi+1e-9) {
				continue
			}
			if y := sign * (y0 + u*(y1-y0)); y > reach {
				reach, t = y, t0+u*(t1-t0)
			}
		}
	}
	y0, z0, y1, z1 := k.y[low], k.z[low], k.y[high], k.z[high]
	if !k.bent {
		along(y0, z0, 0, y1, z1, 1)
		return reach, t
	}
	at := 0.0 // the knee is as far out as the bottom, or as the top
	if k.ky[knee] == y1 {
		at = 1
	}
	along(y0, z0, 0, k.ky[knee], k.kz[knee], at)
	along(k.ky[knee], k.kz[knee], at, y1, z1, 1)
	return reach, t
}

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

// A SectionPoint is a point of a cross-section.
type SectionPoint struct {
	Offset measure.Length // from the track centreline in plan, left positive
	Height measure.Length // above the head of the rail that stays level
}

// A Section is the space that one outline needs in the cross-section at a
// chainage, all allowances and the cant in it: a convex figure of four corners
// and, where a flank leans and what it belongs to can stand at several heights,
// of a knee in each flank, which is a corner again where there is none.
type Section struct {
	Stock   int    // index into the stock list
	Vehicle string // its name
	Part    string // as in Governor
	Band    string
	Corners [4]SectionPoint // right bottom, left bottom, left top, right top
	Knees   [2]SectionPoint // between left bottom and left top, between right top and right bottom
}

// Sections returns the cross-section of every outline of the stock at a
// chainage. The error wraps measure.ErrInput for a chainage outside the range
// that was swept.
func (e *Envelope) Sections(chainage measure.Length) ([]Section, error) {
	l := fault.In("clearance")
	c, ok := e.unroll(chainage)
	if !ok {
		l.Add("chainage", chainage, fmt.Sprintf("must be in the range swept, from %v to %v", e.set.From, e.set.To))
		return nil, l.Err()
	}
	out := make([]Section, len(e.sheets))
	for i, s := range e.sheets {
		k := e.cut(s, c, e.find(c))
		v := &e.stock[s.vehicle]
		out[i] = Section{Stock: s.vehicle, Vehicle: v.Name, Part: v.partName(s.part), Band: v.bandName(s.part, s.band)}
		for j := range k.y {
			out[i].Corners[j] = SectionPoint{measure.Length(k.y[j]), measure.Length(k.z[j])}
		}
		out[i].Knees = [2]SectionPoint{out[i].Corners[2], out[i].Corners[3]}
		if k.bent {
			for j := range k.ky {
				out[i].Knees[j] = SectionPoint{measure.Length(k.ky[j]), measure.Length(k.kz[j])}
			}
		}
	}
	return out, nil
}
