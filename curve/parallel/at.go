package parallel

import (
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/solve"
)

// A Station is the track at one place, and the place of the line square to it.
type Station struct {
	curve.Station                // the track, by its own chainage
	Line          measure.Length // chainage of the line
	Offset        measure.Length // from the line, left positive
}

// At returns the track at its own chainage. It answers for every finite
// chainage: a circuit takes it modulo its length, an open track goes on
// straight on its end tangents. At a boundary it answers for what begins. A
// chainage that is not a number is answered as 0, an infinite one as the end it
// lies towards.
func (t *Track) At(chainage measure.Length) Station {
	x := tame(float64(chainage), t.own[len(t.pieces)])
	chainage = measure.Length(x)
	last := len(t.pieces)
	length := t.own[last]
	if t.Closed() {
		if x = math.Mod(x, length); x < 0 {
			x += length
		}
	}
	over := 0.0
	if x < 0 || x >= length {
		end := min(max(x, 0), length)
		over, x = x-end, end
	}
	i := min(max(sort.Search(len(t.own), func(i int) bool { return t.own[i] > x })-1, 0), last-1)
	p := t.pieces[i]
	s := p.s1
	if x < t.own[i+1] {
		s = t.inverse(p, x-t.own[i], t.own[i+1]-t.own[i])
	}
	out := t.on(p, s)
	out.Chainage = chainage
	if over != 0 {
		out.Curvature = 0
		out.Point.X += over * out.Tangent.X
		out.Point.Y += over * out.Tangent.Y
		out.Line += measure.Length(over)
	}
	return out
}

// tame returns a chainage that is finite.
func tame(x, length float64) float64 {
	switch {
	case x != x || math.IsInf(x, -1):
		return 0
	case math.IsInf(x, 1):
		return length
	}
	return x
}

// on returns the track within a piece at the line's chainage s.
func (t *Track) on(p piece, s float64) Station {
	st := t.line.At(measure.Length(s))
	if s == p.s1 { // there the line answers for what begins
		sin, cos := math.Sincos(p.h1)
		st.Heading, st.Tangent = measure.Angle(p.h1), r2.Vec{X: cos, Y: sin}
		st.Curvature = measure.Curvature(p.k1)
		if s == float64(t.line.Length()) {
			st.Point = t.line.End().Point
		}
	}
	d, _, _ := p.offset.eval(s)
	return Station{p.station(s, st), measure.Length(s), measure.Length(d)}
}

// inverse returns the line's chainage where the track has run x of the piece's
// own length: Newton's method, kept in its bracket by halving.
func (t *Track) inverse(p piece, x, length float64) float64 {
	lo, hi := p.s0, p.s1
	if length <= 0 || x <= 0 {
		return lo
	}
	s := lo + (hi-lo)*min(x/length, 1)
	if p.offset.constant() && p.k0 == p.k1 {
		return s
	}
	for range 60 {
		st := t.line.At(measure.Length(s))
		f := t.along(p, s, float64(st.Heading)) - x
		if f > 0 {
			hi = s
		} else {
			lo = s
		}
		d, rate, _ := p.offset.eval(s)
		next := s - f/math.Hypot(1-float64(st.Curvature)*d, rate)
		if !(next >= lo && next <= hi) {
			next = (lo + hi) / 2
		}
		if math.Abs(next-s) <= 1e-15*p.s1 || hi-lo <= 1e-15*p.s1 {
			return next
		}
		s = next
	}
	return s
}

// Chainage returns the track's own chainage square to chainage s of the line.
// It answers for every finite s, with the rules of At.
func (t *Track) Chainage(s measure.Length) measure.Length {
	length := float64(t.line.Length())
	x, lap := tame(float64(s), length), 0.0
	if t.Closed() {
		n := math.Floor(x / length)
		x -= n * length
		lap = n * t.own[len(t.pieces)]
	}
	end := min(max(x, 0), length)
	i := max(sort.Search(len(t.pieces), func(i int) bool { return t.pieces[i].s0 > end })-1, 0)
	p := t.pieces[i]
	h := p.h1
	if end < p.s1 {
		h = float64(t.line.At(measure.Length(end)).Heading)
	}
	return measure.Length(lap + t.own[i] + t.along(p, end, h) + x - end)
}

// Sharpest returns the track where its radius is smallest, by magnitude; ok is
// false when it is straight all along.
func (t *Track) Sharpest() (st Station, ok bool) {
	for i, p := range t.pieces {
		try := func(s float64) float64 {
			at := t.on(p, s)
			k := math.Abs(float64(at.Curvature))
			if k > math.Abs(float64(st.Curvature))*(1+1e-12) {
				at.Chainage = measure.Length(t.own[i] + t.along(p, s, t.heading(p, s)))
				st, ok = at, true
			}
			return k
		}
		try(p.s0)
		try(p.s1)
		if p.offset.constant() {
			continue // k/(1-k·d) is monotone in k, and k on the piece
		}
		h := (p.s1 - p.s0) / grid
		for j := range grid {
			// The curvature's magnitude has one top on so short a part.
			a, b := p.s0+h*float64(j), p.s0+h*float64(j+1)
			best, _ := solve.Golden(func(s float64) float64 { return -math.Abs(float64(t.on(p, s).Curvature)) }, a, b, 1e-9*h, math.Inf(-1))
			try(best)
		}
	}
	return st, ok
}

func (t *Track) heading(p piece, s float64) float64 {
	if s == p.s1 {
		return p.h1
	}
	return float64(t.line.At(measure.Length(s)).Heading)
}
