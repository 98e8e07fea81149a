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
		e.tilt(&k, s, first, last, bend, add, &inner)
	}
	if k.lift != 0 || e.cant.varies() || k.up != k.down {
		k.bend(&inner)
	}
	return k
}

// tilt turns a section by the lean: sideways by that of the pose that governs
// at each height, up and down by the worst of all that pass the place.
func (e *Envelope) tilt(k *cut, s *sheet, first, last, bend, add float64, inner *[4]float64) {
	lo, hi := e.leans(s, first, last, bend)
	if lo == 0 && hi == 0 {
		return
	}
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
		y -= sign * add // the track lies as much to the side, leaning or not
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
		k.y[j] = turned + (y-n)*cos + sign*(add+tip)
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
