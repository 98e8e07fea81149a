package clearance

import (
	"fmt"
	"math"
	"sort"

	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A cut is one sheet's cross-section at one place with all allowances in it.
type cut struct {
	quad
	left, right hit
	lean        [2]float64 // cant angle with the left and the right reach, leaning left positive
	up, down    float64    // vertical throw, at most and at least
	lift        float64    // of the corners by rolling on the springs
}

// cut returns the section of a sheet at the unrolled chainage c, in the
// interval of stations from i.
func (e *Envelope) cut(s *sheet, c float64, i int) cut {
	k := cut{left: e.onAfter(s, c, 0, i), right: e.onAfter(s, c, 1, i)}
	a := &e.set.Allowances
	add := float64(a.Laying + a.Heat + a.Running)
	k.up, k.down = e.verticalThrow(s, c)
	yl, yr := k.left.n+add, -k.right.n-add
	zb, zt := s.bottom+k.down, s.top+k.up
	// Rolled on its springs either way, to first order: a corner at the height
	// z moves out by z - z0 times the roll, one at the offset y up or down by
	// y times it.
	roll, z0 := float64(a.Springs), float64(a.RollCentre)
	out := func(z float64) float64 { return roll * math.Abs(z-z0) }
	k.lift = roll * max(math.Abs(yl), math.Abs(yr))
	k.y = [4]float64{yr - out(zb), yl + out(zb), yl + out(zt), yr - out(zt)}
	k.z = [4]float64{zb - k.lift, zb - k.lift, zt + k.lift, zt + k.lift}
	if !a.canted() {
		return k
	}
	k.lean = [2]float64{e.lean(s, k.left.kept.s), e.lean(s, k.right.kept.s)}
	for j, side := range [4]int{1, 0, 0, 1} {
		k.y[j], k.z[j] = e.turn(k.y[j], k.z[j], k.lean[side])
	}
	return k
}

// lean returns the angle at which a part leans, to the left positive, with the
// vehicle's drive at s: a body by the mean of the cants under its two carriers,
// a carrier by the cant at its middle.
func (e *Envelope) lean(s *sheet, drive float64) float64 {
	rear, front := e.stands(s, drive)
	u := float64(e.set.Allowances.Cant.At(measure.Length(rear))+e.set.Allowances.Cant.At(measure.Length(front))) / 2
	return math.Asin(max(-1, min(1, u/float64(e.set.Allowances.RailCentres))))
}

// stands returns the chainages that a part rests on with the vehicle's drive at
// s: the middles of a body's two carriers, twice the middle of a carrier. They
// are taken along the chords; on the line they are longer by the square of
// chord over radius / 24 of it, which no cant or level tells apart.
func (e *Envelope) stands(s *sheet, drive float64) (rear, front float64) {
	v := &e.stock[s.vehicle]
	at := drive + float64(v.Carriers[0].Wheelbase)/2
	body, carrier := s.part, s.part-len(v.Bodies)
	if carrier >= len(v.Carriers) { // a truck: with its body
		i := carrier - len(v.Carriers)
		for body = 0; i >= len(v.Bodies[body].Trucks); body++ {
			i -= len(v.Bodies[body].Trucks)
		}
		carrier = -1
	}
	for i := range v.Bodies {
		if carrier == i {
			return at, at
		}
		er, ef := pins(v.Carriers[i], v.Carriers[i+1])
		next := at + float64(er+v.Bodies[i].Pivots-ef)
		if carrier < 0 && i == body {
			return at, next
		}
		at = next
	}
	return at, at
}

// turn turns a point of the section about the head of the rail that stays
// level, by an angle that leans it to the left.
func (e *Envelope) turn(y, z, lean float64) (float64, float64) {
	var rail float64 // offset of the rail that stays level
	half := float64(e.set.Allowances.RailCentres) / 2
	switch e.set.Allowances.Cant.Datum() {
	case profile.InnerRail:
		rail = math.Copysign(half, lean)
	case profile.OuterRail:
		rail = -math.Copysign(half, lean)
	}
	sin, cos := math.Sincos(lean)
	y -= rail
	return rail + y*cos + z*sin, z*cos - y*sin
}

// verticalThrow returns by how much a part can stand higher, and lower, over
// the rails at c than on a plain gradient: the height of the chord of what it
// rests on over the level at c, as its length passes by.
func (e *Envelope) verticalThrow(s *sheet, c float64) (up, down float64) {
	level := &e.set.Allowances.Level
	if len(e.breaks) == 0 {
		return 0, 0
	}
	rear, front := e.stands(s, 0)
	C := front - rear
	if C <= 0 {
		return 0, 0
	}
	// c itself counts too: an outline may lie wholly ahead of both pivots.
	if e.plain(min(c, c-s.front-C/2), max(c, c-s.rear+C/2)) {
		return 0, 0
	}
	here := float64(level.At(measure.Length(c)))
	const steps = 16
	for i := range steps + 1 {
		x := s.rear + (s.front-s.rear)*float64(i)/steps // ahead of midway between the pivots
		zr := float64(level.At(measure.Length(c - x - C/2)))
		zf := float64(level.At(measure.Length(c - x + C/2)))
		d := zr + (zf-zr)*(x+C/2)/C - here
		up, down = max(up, d), min(down, d)
	}
	return up, down
}

// breaks returns the chainages, on the first lap of a circuit, where a level
// changes its gradient.
func breaks(level profile.Level) []float64 {
	var out []float64
	lap, circuit := level.Circuit()
	for _, b := range level.Boundaries() {
		x := float64(b)
		if circuit {
			if x = math.Mod(x, float64(lap)); x < 0 {
				x += float64(lap)
			}
		}
		out = append(out, x)
	}
	sort.Float64s(out)
	return out
}

// plain reports whether the level is one gradient between two chainages; a
// circuit's start, where they may go round, it never calls plain.
func (e *Envelope) plain(a, b float64) bool {
	if l := float64(e.line.Length()); e.line.Closed() && (a < 0 || b > l) {
		return false
	}
	level := &e.set.Allowances.Level
	i := sort.SearchFloat64s(e.breaks, a)
	return (i == len(e.breaks) || e.breaks[i] > b) && level.Curvature(measure.Length(a)) == 0
}

// A SectionPoint is a point of a cross-section.
type SectionPoint struct {
	Offset measure.Length // from the track centreline in plan, left positive
	Height measure.Length // above the head of the rail that stays level
}

// A Section is the space that one outline needs in the cross-section at a
// chainage, all allowances and the cant in it: a convex four-sided figure.
type Section struct {
	Stock   int    // index into the stock list
	Vehicle string // its name
	Part    string // as in Governor
	Band    string
	Corners [4]SectionPoint // right bottom, left bottom, left top, right top
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
	}
	return out, nil
}
