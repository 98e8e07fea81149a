package clearance

import "math"

// leaning returns the sheet to be swept with the lean in it, at a height.
func (s *sheet) leaning(k *canting, z float64, stations int) *sheet {
	c := *s
	c.cant, c.z, c.first, c.last, c.leaned = k, z, nil, nil, [2]*sheet{}
	c.open(stations)
	return &c
}

// upright reports whether no part of the vehicle leans, or begins to.
func (p *pose) upright() bool {
	for _, l := range p.lean {
		if l != (lean{}) {
			return false
		}
	}
	return true
}

// A legLean is how the vehicle leans along a leg: a cubic of the part of the
// drive, which is the part u + warp·u·(1-u) of its way where the leg is the
// part u of its own.
type legLean struct {
	l0, c1, c2, c3, warp float64
	least, most          float64 // bounds of what the lean shifts the centreline by
	narrow, wide         float64 // bounds of what it multiplies offsets by
}

// between works out the lean between two poses.
func (l *legLean) between(s *sheet, a, b *pose) *legLean {
	la, lb := &a.lean[s.part], &b.lean[s.part]
	ds := b.s - a.s
	w0, w1, c := ds*la.w, ds*lb.w, lb.a-la.a
	*l = legLean{l0: la.a, c1: w0, c2: 3*c - 2*w0 - w1, c3: w0 + w1 - 2*c}
	// The lean is between those of the ends, but for what the cubic swells.
	odd := 0.15 * (math.Abs(w0-c) + math.Abs(w1-c))
	lo, hi := min(la.a, lb.a)-odd, max(la.a, lb.a)+odd
	y0, cos0 := s.cant.shift(s.z, lo)
	y1, cos1 := s.cant.shift(s.z, hi)
	l.least, l.most = min(y0, y1), max(y0, y1)
	l.narrow, l.wide = min(cos0, cos1), max(cos0, cos1)
	if lo < 0 && hi > 0 {
		l.least, l.most, l.wide = min(l.least, 0), max(l.most, 0), 1
	}
	return l
}

// bounds returns less and more than the turned offsets of a leg that lies
// between two offsets.
func (l *legLean) bounds(least, most float64) (float64, float64) {
	return min(least*l.narrow, least*l.wide) + l.least, max(most*l.narrow, most*l.wide) + l.most
}

// part returns the part of the drive where the leg is the part u.
func (l *legLean) part(u float64) float64 { return u + l.warp*u*(1-u) }

// turned turns a leaned sheet's crossing of a station: n across, m the slope of
// the path, at the part u of the leg, d the growth of the path along the
// station with u.
func (s *sheet) turned(l *legLean, st *station, n, m, u, d float64) (y, slope float64) {
	v := l.part(u)
	a := l.l0 + v*(l.c1+v*(l.c2+v*l.c3))
	w := (l.c1 + v*(2*l.c2+v*3*l.c3)) * (1 + l.warp*(1-2*u))
	rail := s.cant.rail(a)
	sin, cos := math.Sincos(a)
	y = rail + (n-rail)*cos + s.z*sin
	slope = m * cos
	if w != 0 {
		slope += (s.z*cos - (n-rail)*sin) * w / d
	}
	// A keep's slope is against the station at its own reach.
	if f := (1 - st.k1*n) / (1 - st.k1*y); f > 0.5 && f < 2 {
		slope *= f
	}
	return y, slope
}
