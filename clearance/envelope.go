package clearance

import (
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// An Envelope is the space that a list of stock needs along a line: at every
// kept station and on each side, for each outline of each vehicle, how far it
// reaches and what gives that. It is immutable and safe for concurrent use.
type Envelope struct {
	line     *curve.Alignment
	stock    []Vehicle
	set      Settings
	from, to float64 // unrolled: on a circuit to may be past the length
	stations []station
	sheets   []*sheet
	cant     *canting // nil without one
	breaks   marks    // where the level of the allowances changes its gradient
}

// allow gets the allowances ready.
func (e *Envelope) allow() {
	a := &e.set.Allowances
	e.cant = newCanting(a)
	lap, _ := a.Level.Circuit()
	e.breaks = newMarks(a.Level.Boundaries(), lap)
}

// all returns every sheet, those that lean too.
func (e *Envelope) all() []*sheet {
	out := make([]*sheet, 0, len(e.sheets))
	for _, s := range e.sheets {
		out = append(out, s)
		for _, l := range s.leaned {
			if l != nil {
				out = append(out, l)
			}
		}
	}
	return out
}

// Heights is a range of heights above the plane of both rail heads. The zero
// value means all heights.
type Heights struct {
	From, To measure.Length
}

// meets reports whether an outline between bottom and top is in the range.
func (h Heights) meets(bottom, top float64) bool {
	return h == Heights{} || bottom < float64(h.To) && top > float64(h.From) ||
		h.From == h.To && bottom <= float64(h.To) && top >= float64(h.From)
}

// limits returns the range, all heights without end.
func (h Heights) limits() (lo, hi float64) {
	if h == (Heights{}) {
		return math.Inf(-1), math.Inf(1)
	}
	return float64(h.From), float64(h.To)
}

func (h Heights) check(l *fault.List) {
	okF, okT := fault.Finite(l, "heights: from", h.From), fault.Finite(l, "heights: to", h.To)
	if okF && okT && h.To < h.From {
		l.Add("heights: to", h.To, fmt.Sprintf("must not be below the heights' beginning at %v", h.From))
	}
}

// A Governor is what gives a reach: which point of which vehicle, and where the
// vehicle stands when it does.
type Governor struct {
	Stock     int            // index into the stock list
	Vehicle   string         // its name
	Part      string         // "body", "body 2", "carrier 1", "truck 1", or the body's name
	Band      string         // the band's name, or "band 1"
	Point     Point          // in the part's own axes
	Corner    bool           // the point is a corner; otherwise it moves along a side
	RearAxle  measure.Length // chainage of the rear axle of the vehicle's rear carrier
	BeyondEnd bool           // reached only by a vehicle that stands partly past an end of the line
}

// A Reach is how far the stock comes out from the track centreline, square to
// the line at a chainage, on one side: the geometric reach with the play of the
// wheels, no other allowance.
type Reach struct {
	Chainage measure.Length
	Side     curve.Hand
	Reach    measure.Length // negative when the body stays on the other side of the centreline
	Play     measure.Length // the share of the wheels' play in it
	Slope    float64        // growth of the reach along the line, mm a mm
	By       Governor
}

// merge puts the stations in order and the sheets with them.
func (e *Envelope) merge(plain, knots []station) {
	if len(knots) == 0 {
		e.stations = plain
		return
	}
	order := make([]int, 0, len(plain)+len(knots))
	k := 0
	for i := range plain {
		for ; k < len(knots) && knots[k].knot <= i; k++ {
			order = append(order, len(plain)+k)
		}
		order = append(order, i)
	}
	for ; k < len(knots); k++ {
		order = append(order, len(plain)+k)
	}
	all := append(append([]station(nil), plain...), knots...)
	e.stations = make([]station, len(order))
	for i, j := range order {
		e.stations[i] = all[j]
	}
	for _, s := range e.all() {
		for side := range s.side {
			s.side[side] = ordered(s.side[side], order)
		}
		if s.first != nil {
			s.first, s.last = ordered(s.first, order), ordered(s.last, order)
		}
	}
}

func ordered[T any](was []T, order []int) []T {
	now := make([]T, len(order))
	for i, j := range order {
		now[i] = was[j]
	}
	return now
}

// checkReach refuses an envelope that passes the centre of a curve: squares to
// the line meet there and a reach has no meaning.
func (e *Envelope) checkReach() error {
	l := fault.In("clearance")
	for _, s := range e.all() {
		for side, kept := range s.side {
			for i, k := range kept {
				st := &e.stations[i]
				n := k.n
				if side == 1 {
					n = -n
				}
				if math.IsInf(n, 0) || math.IsNaN(n) {
					continue
				}
				if n*st.k0 > 0.9 || n*st.k1 > 0.9 {
					kmax := max(math.Abs(st.k0), math.Abs(st.k1))
					l.NoAnswer(e.stock[s.vehicle].field()+": reach", measure.Length(k.n), fmt.Sprintf("comes too near the centre of the curve at chainage %.0f mm, of radius %.1f mm: the radius must be above about %.1f mm", st.c, 1/kmax, math.Abs(n)/0.9))
					return l.Err()
				}
			}
		}
	}
	return nil
}

// Line returns the line that was swept.
func (e *Envelope) Line() *curve.Alignment { return e.line }

// Stock returns a copy of the stock list.
func (e *Envelope) Stock() []Vehicle { return append([]Vehicle(nil), e.stock...) }

// Settings returns the settings of the sweep, defaults filled in.
func (e *Envelope) Settings() Settings { return e.set }

// Stations returns the chainages of the kept stations, in order from the
// beginning of the range; a kink has two.
func (e *Envelope) Stations() []measure.Length {
	c := make([]measure.Length, len(e.stations))
	for i := range e.stations {
		c[i] = e.chainage(e.stations[i].c)
	}
	return c
}

// chainage rolls a chainage up again.
func (e *Envelope) chainage(c float64) measure.Length {
	if l := float64(e.line.Length()); e.line.Closed() && c >= l {
		c -= l
	}
	return measure.Length(c)
}

// unroll returns the chainage as the envelope counts it, and whether the
// envelope answers for it.
func (e *Envelope) unroll(c measure.Length) (float64, bool) {
	x := float64(c)
	if e.line.Closed() {
		l := float64(e.line.Length())
		x = math.Mod(x, l)
		if x < 0 {
			x += l
		}
		if x < e.from {
			x += l
		}
	}
	const slack = 1e-9
	if x < e.from-slack || x > e.to+slack || math.IsNaN(x) {
		return x, false
	}
	return max(e.from, min(e.to, x)), true
}

// At returns the reach of the whole stock at a chainage on one side, over a
// range of heights. The error wraps measure.ErrInput for a chainage outside the
// range that was swept and measure.ErrNoAnswer when no outline of the stock is
// in the range of heights.
func (e *Envelope) At(chainage measure.Length, side curve.Hand, h Heights) (Reach, error) {
	return e.at(-1, chainage, side, h)
}

// Of is At for one vehicle of the stock list.
func (e *Envelope) Of(stock int, chainage measure.Length, side curve.Hand, h Heights) (Reach, error) {
	if stock < 0 || stock >= len(e.stock) {
		l := fault.In("clearance")
		l.Add("vehicle", stock, fmt.Sprintf("must be an index of the stock list, 0 to %d", len(e.stock)-1))
		return Reach{}, l.Err()
	}
	return e.at(stock, chainage, side, h)
}

func (e *Envelope) at(stock int, chainage measure.Length, side curve.Hand, h Heights) (Reach, error) {
	l := fault.In("clearance")
	h.check(l)
	if side != curve.Left && side != curve.Right {
		l.Add("side", side, "must be left or right")
	}
	c, ok := e.unroll(chainage)
	if !ok {
		l.Add("chainage", chainage, fmt.Sprintf("must be in the range swept, from %v to %v", e.set.From, e.set.To))
	}
	if err := l.Err(); err != nil {
		return Reach{}, err
	}
	best := hit{n: math.Inf(-1)}
	for _, s := range e.sheets {
		if stock >= 0 && s.vehicle != stock || !h.meets(s.bottom, s.top) {
			continue
		}
		if got := e.on(s, c, sideIndex(side)); got.n > best.n || got.n == best.n && best.kept.beyond && !got.kept.beyond {
			best = got
		}
	}
	if best.sheet == nil {
		l.NoAnswer("heights", fmt.Sprintf("%v to %v", h.From, h.To), "hold no part of the stock: take a range that meets its bands")
		return Reach{}, l.Err()
	}
	r := e.reach(best)
	r.Chainage, r.Side = chainage, side
	return r, nil
}

func sideIndex(side curve.Hand) int {
	if side == curve.Left {
		return 0
	}
	return 1
}

// A hit is a reach found on one sheet.
type hit struct {
	n, m  float64
	sheet *sheet
	kept  *keep // of the kept station that speaks for it
	side  int
	index int
}

// find returns the index of the last station at or before c that has one after it.
func (e *Envelope) find(c float64) int {
	i := sort.Search(len(e.stations), func(i int) bool { return e.stations[i].c > c }) - 1
	return max(0, min(i, len(e.stations)-2))
}

// on returns the reach of one sheet at c: between stations the cubic through
// both when one point governs there, and the larger of the two tangents when
// the governor changes, which is where the reach has its convex corners.
func (e *Envelope) on(s *sheet, c float64, side int) hit { return e.onAfter(s, c, side, e.find(c)) }

func (e *Envelope) onAfter(s *sheet, c float64, side, i int) hit {
	a, b := &s.side[side][i], &s.side[side][i+1]
	sa, sb := &e.stations[i], &e.stations[i+1]
	h := sb.c - sa.c
	if h <= 0 {
		if b.n > a.n {
			return hit{b.n, b.slope(sb.k1, side), s, b, side, i + 1}
		}
		return hit{a.n, a.slope(sa.k0, side), s, a, side, i}
	}
	ma, mb := a.slope(sa.k1, side), b.slope(sb.k0, side)
	t := (c - sa.c) / h
	near, index := a, i
	if t > 0.5 {
		near, index = b, i+1
	}
	if a.id == b.id && math.Abs(b.s-a.s) < 4*h+10 {
		da, db := ma*h, mb*h
		c2, c3 := 3*(b.n-a.n)-2*da-db, 2*(a.n-b.n)+da+db
		return hit{a.n + t*(da+t*(c2+t*c3)), (da + t*(2*c2+t*3*c3)) / h, s, near, side, index}
	}
	// A leaned reach can also bend inwards, where a whole side at once is as far
	// out as it comes: then the smaller of the two.
	na, nb := a.n+ma*(c-sa.c), b.n+mb*(c-sb.c)
	if (na >= nb) == (ma <= mb || s.cant == nil) {
		return hit{na, ma, s, a, side, i}
	}
	return hit{nb, mb, s, b, side, i + 1}
}

// slope returns the growth of the reach per chainage: the path's own slope is
// against the station's square, and chainage runs slower than the path on the
// inside of a curve by 1 - k·offset.
func (k *keep) slope(curvature float64, side int) float64 {
	n := k.n
	if side == 1 {
		n = -n
	}
	return k.m * (1 - curvature*n)
}

// reach describes a hit.
func (e *Envelope) reach(h hit) Reach {
	s, k := h.sheet, h.kept
	v := &e.stock[s.vehicle]
	g := Governor{
		Stock: s.vehicle, Vehicle: v.Name, Part: v.partName(s.part), Band: v.bandName(s.part, s.band),
		Corner: k.id >= 0, RearAxle: e.chainage(k.s), BeyondEnd: k.beyond,
	}
	if k.id >= 0 {
		g.Point = s.own[k.id]
	} else {
		g.Point = e.sidePoint(h)
	}
	r := Reach{Reach: measure.Length(h.n), Slope: h.m, By: g}
	if j := e.set.Allowances.Play; j > 0 {
		play, _ := v.play(s.part, float64(j))
		r.Play = measure.Length(play(float64(g.Point.Along)))
	}
	return r
}

// leanAt returns the lean of a sheet's part with the vehicle's drive at s.
func (e *Envelope) leanAt(s *sheet, drive float64) float64 {
	r := newRig(e.line, &e.stock[s.vehicle])
	p := r.newPose()
	if r.stand(p, drive, nil) != nil {
		return 0
	}
	p.lean = make([]lean, len(p.f))
	e.cant.of(r, p)
	return p.lean[s.part].a
}

// level returns what a hit's reach would be without the lean, the vehicle
// standing as it does.
func (e *Envelope) level(h hit) float64 {
	s := h.sheet
	if s.cant == nil {
		return h.n
	}
	y := h.kept.n
	if h.side == 1 {
		y = -y
	}
	n := s.cant.back(y, s.z, e.leanAt(s, h.kept.s))
	if h.side == 1 {
		n = -n
	}
	return h.n + n - h.kept.n
}

// sidePoint finds the body's point that gave a hit on a side, by standing the
// vehicle there again.
func (e *Envelope) sidePoint(h hit) Point {
	s := h.sheet
	i := int(-1 - h.kept.id)
	p, q := s.own[i], s.own[(i+1)%len(s.own)]
	r := newRig(e.line, &e.stock[s.vehicle])
	at := r.newPose()
	if r.stand(at, h.kept.s, nil) != nil {
		return p
	}
	st := &e.stations[h.index]
	n := h.kept.n
	if h.side == 1 {
		n = -n
	}
	if s.cant != nil {
		n = s.cant.back(n, s.z, e.leanAt(s, h.kept.s))
	}
	x, y := at.f[s.part].local(r2.Vec{X: st.p.X - n*st.t.Y, Y: st.p.Y + n*st.t.X})
	x -= r.lead(s.part)
	dx, dy := float64(q.Along-p.Along), float64(q.Across-p.Across)
	t := measure.Length(max(0, min(1, ((x-float64(p.Along))*dx+(y-float64(p.Across))*dy)/(dx*dx+dy*dy))))
	return Point{p.Along + t*(q.Along-p.Along), p.Across + t*(q.Across-p.Across)}
}

// partName names a part for messages.
func (v *Vehicle) partName(part int) string {
	if nb := len(v.Bodies); part < nb {
		if n := v.Bodies[part].Name; n != "" {
			return n
		} else if nb == 1 {
			return "body"
		}
		return fmt.Sprintf("body %d", part+1)
	} else if part -= nb; part < len(v.Carriers) {
		return fmt.Sprintf("carrier %d", part+1)
	}
	return fmt.Sprintf("truck %d", part-len(v.Carriers)+1)
}

func (v *Vehicle) bandName(part, band int) string {
	if n := v.bands(part)[band].Name; n != "" {
		return n
	}
	return fmt.Sprintf("band %d", band+1)
}
