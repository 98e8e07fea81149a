package parallel

import (
	"fmt"
	"math"
	"sort"
	"strconv"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// What this package takes.
const (
	MaxGap     = 0.1 * measure.Millimetre // the widest gap that a kink of the line may open in its parallel
	MaxOffsets = 10_000                   // points of a changing offset
	MaxSamples = 1_000_000                // points along a track
)

// A Track is the parallel of a line. It is immutable and safe for concurrent
// use; the zero Track is not valid.
type Track struct {
	line   *curve.Alignment
	pieces []piece
	own    []float64 // own chainage of each piece's start, and the length last
	node   []float64 // of Gauss and Legendre on -1 to 1
	weight []float64
}

// A piece lies on one element of the line and under one law of the offset.
type piece struct {
	s0, s1  float64 // chainages of the line
	h0, h1  float64 // headings of the line at the piece's ends
	k0, k1  float64 // curvatures there
	offset  offset
	element curve.Element
	from    float64 // chainage of the element's start
}

// New returns the track at a constant offset from the line, left positive.
func New(line *curve.Alignment, offset measure.Length) (*Track, error) {
	return NewTapered(line, Offset{Offset: offset})
}

// NewTapered returns the track whose offset goes through the given values at
// chainages of the line, in order. On an open line it keeps its first and last
// offset outside them; on a circuit it goes on from the last to the first over
// the start.
func NewTapered(line *curve.Alignment, offsets ...Offset) (*Track, error) {
	l := fault.In("parallel")
	if line == nil {
		l.Add("line", nil, "must be given")
		return nil, l.Err()
	}
	length := float64(line.Length())
	switch n := len(offsets); {
	case n == 0:
		l.Add("offsets", 0, "must be at least 1")
	case n > MaxOffsets:
		l.Over("offsets", n, fmt.Sprintf("must be %d or fewer", MaxOffsets))
		offsets = nil
	}
	for i, o := range offsets {
		name := fmt.Sprintf("offset %d", i+1)
		fault.Finite(l, name, o.Offset)
		if o.Law == curve.CircularArc || o.Law == curve.Clothoid || o.Law > curve.Helmert {
			l.Add(name+": law", o.Law, "must be bloss, cosine, sine or helmert; others have corners")
		}
		if !fault.Finite(l, name+": chainage", o.Chainage) {
			continue
		}
		if o.Chainage < 0 || float64(o.Chainage) > length || line.Closed() && float64(o.Chainage) == length {
			l.Add(name+": chainage", mm(float64(o.Chainage)), "must be on the line, from 0 mm to "+mm(length)+"; a circuit's end is its start")
		}
		if i > 0 && !(o.Chainage > offsets[i-1].Chainage) {
			l.Add(name+": chainage", mm(float64(o.Chainage)), "must be more than that of the offset before")
		}
	}
	if !l.OK() {
		return nil, l.Err()
	}
	t := &Track{line: line, node: make([]float64, 16), weight: make([]float64, 16)}
	quad.Legendre{}.FixedLocations(t.node, t.weight, -1, 1)
	t.cut(tapers(offsets, length, line.Closed()))
	t.checkGaps(l)
	t.checkCentres(l)
	if !l.OK() {
		return nil, l.Err()
	}
	t.own = append(t.own, 0)
	for i, p := range t.pieces {
		t.own = append(t.own, t.own[i]+t.along(p, p.s1, p.h1))
	}
	return t, nil
}

func mm(l float64) string { return strconv.FormatFloat(l, 'g', 9, 64) + " mm" }

// cut makes the pieces: at the line's elements, at the tapers' ends, and
// within a taper so short that 16 nodes integrate them to rounding.
func (t *Track) cut(tapers []offset) {
	const parts = 8 // of a taper, Helmert's corner at one of their ends
	elements, at := t.line.Elements(), t.line.Boundaries()
	var cuts []float64
	for i, o := range tapers {
		if i > 0 {
			cuts = append(cuts, o.at)
		}
		for j := 1; !o.constant() && j < parts; j++ {
			cuts = append(cuts, o.at+o.length*float64(j)/parts)
		}
	}
	for i, e := range elements {
		if e.Shape() == curve.Helmert { // its curvature has a corner at its middle
			whole, from := e.Whole()
			cuts = append(cuts, float64(at[i]-from+whole.Length()/2))
		}
	}
	sort.Float64s(cuts)
	for i, e := range elements {
		from, to := float64(at[i]), float64(at[i+1])
		turned := float64(t.line.At(at[i]).Heading)
		final := float64(t.line.End().Heading)
		if i+1 < len(elements) {
			final = float64(t.line.At(at[i+1]).Heading - elements[i+1].Kink())
		}
		p := piece{s0: from, h0: turned, k0: float64(t.line.At(at[i]).Curvature), element: e, from: from}
		shut := func(s, h, k float64) {
			p.s1, p.h1, p.k1 = s, h, k
			m := (p.s0 + p.s1) / 2
			p.offset = tapers[max(sort.Search(len(tapers), func(i int) bool { return tapers[i].at > m })-1, 0)]
			t.pieces = append(t.pieces, p)
			p.s0, p.h0, p.k0 = s, h, k
		}
		eps := 1e-12 * to
		for _, c := range cuts {
			if c > p.s0+eps && c < to-eps {
				st := t.line.At(measure.Length(c))
				shut(c, float64(st.Heading), float64(st.Curvature))
			}
		}
		// A circuit's misclosure is spread as a little curvature everywhere.
		spread := t.line.At(at[i]).Curvature - e.StartCurvature()
		shut(to, final, float64(e.EndCurvature()+spread))
	}
}

func (t *Track) checkGaps(l *fault.List) {
	n := len(t.pieces)
	for i, p := range t.pieces {
		before := t.pieces[(i+n-1)%n]
		if i == 0 && !t.line.Closed() {
			continue
		}
		d, _, _ := p.offset.eval(p.s0)
		kink := math.Abs(math.Remainder(p.h0-before.h1, 2*math.Pi))
		if gap := 2 * math.Abs(d) * math.Sin(kink/2); gap > float64(MaxGap) {
			l.Add("line", fmt.Sprintf("kink of %.4g° at chainage %s", kink*180/math.Pi, mm(p.s0)),
				fmt.Sprintf("must not open a gap of more than %s in the parallel; this one opens %.3g mm", mm(float64(MaxGap)), gap))
		}
	}
}

// checkCentres refuses an offset that reaches the centre of curvature. On one
// piece curvature and offset are monotone, so where the offset is constant the
// ends decide; where both change, a grid does.
func (t *Track) checkCentres(l *fault.List) {
	worst, at, radius := 1e-9, math.NaN(), 0.0
	var d float64
	for _, p := range t.pieces {
		try := func(s, k float64) {
			o, _, _ := p.offset.eval(s)
			if short := 1 - k*o; short < worst {
				worst, at, radius, d = short, s, 1/math.Abs(k), o
			}
		}
		try(p.s0, p.k0)
		for i := 1; i < grid && !p.offset.constant(); i++ {
			s := p.s0 + (p.s1-p.s0)*float64(i)/grid
			try(s, float64(t.line.At(measure.Length(s)).Curvature))
		}
		try(p.s1, p.k1)
	}
	if !math.IsNaN(at) {
		l.Add("offset", mm(d), fmt.Sprintf("must not reach the centre of curvature: at chainage %s it must be less than the radius of %s on that side", mm(at), mm(radius)))
	}
}

// grid is how many parts of a piece are looked at where no formula decides.
const grid = 64

// Closed reports whether the track is a circuit.
func (t *Track) Closed() bool { return t.line.Closed() }

// Length returns the length of the track along itself.
func (t *Track) Length() measure.Length { return measure.Length(t.own[len(t.pieces)]) }

// along returns how long the track is from the piece's start to the line's
// chainage s, where the line's heading is h. Constant offset: Δs - d·Δθ;
// else ∫√((1-k·d)² + d′²) ds.
func (t *Track) along(p piece, s, h float64) float64 {
	if p.offset.constant() {
		return s - p.s0 - p.offset.d0*(h-p.h0)
	}
	half, sum := (s-p.s0)/2, 0.0
	for i, x := range t.node {
		at := p.s0 + half*(1+x)
		d, rate, _ := p.offset.eval(at)
		sum += t.weight[i] * math.Hypot(1-float64(t.line.At(measure.Length(at)).Curvature)*d, rate)
	}
	return half * sum
}

// station returns the track at chainage s of the line within a piece, where
// the line is st.
func (p piece) station(s float64, st curve.Station) curve.Station {
	d, b, b2 := p.offset.eval(s)
	k := float64(st.Curvature)
	n := r2.Vec{X: -st.Tangent.Y, Y: st.Tangent.X}
	st.Point = r2.Add(st.Point, r2.Scale(d, n))
	if p.offset.constant() {
		st.Curvature = measure.Curvature(k / (1 - k*d))
		return st
	}
	// r′ = a·t + b·n, r″ = (a′ - b·k)·t + (a·k + b′)·n, with a = 1 - k·d and b = d′.
	a := 1 - k*d
	a2 := -p.element.CurvatureRate(measure.Length(s-p.from))*d - k*b
	v := math.Hypot(a, b)
	st.Curvature = measure.Curvature((a*(a*k+b2) - b*(a2-b*k)) / (v * v * v))
	st.Heading += measure.Angle(math.Atan2(b, a))
	st.Tangent = r2.Add(r2.Scale(a/v, st.Tangent), r2.Scale(b/v, n))
	return st
}
