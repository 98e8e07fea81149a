package coupling

import (
	"context"
	"fmt"
	"math"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
	"example.org/fourfoot/internal/solve"
)

// MaxPoses is the most places at which Along stands a pair.
const MaxPoses = 1_000_000

// Findings are a pair's couplings where each measure is worst along a line.
type Findings struct {
	Offset      Joint // most between the coupler faces, either way
	Angle       Joint // most between the bodies
	SwingBehind Joint // most of the rear car's coupler
	SwingAhead  Joint // most of the other's
	Overlap     Joint // least of the buffers; the zero Joint where there are none
	BufferGap   Joint // least between the buffer faces, likewise

	pair Pair
}

// measures of a joint, the larger the worse.
var measures = [...]func(Joint) float64{
	func(j Joint) float64 { return math.Abs(float64(j.Offset)) },
	func(j Joint) float64 { return math.Abs(float64(j.Angle)) },
	func(j Joint) float64 { return math.Abs(float64(j.SwingBehind)) },
	func(j Joint) float64 { return math.Abs(float64(j.SwingAhead)) },
	func(j Joint) float64 { return -float64(j.Overlap) },
	func(j Joint) float64 { return -float64(j.BufferGap) },
}

// Along runs a pair along the whole line, onto it at its start and off it at
// its end, and returns where its coupling is worst. The pair is stood a
// twelfth of its shortest pivot spacing apart, and each worst place then
// searched for between.
//
// The error wraps measure.ErrNoAnswer where a car cannot stand or the couplers
// do not reach, measure.ErrLimit beyond MaxPoses.
func Along(ctx context.Context, line *curve.Alignment, p Pair) (Findings, error) {
	l := fault.In("coupling")
	if line == nil {
		l.Add("line", "none", "must be given")
	}
	p.check(l)
	if err := l.Err(); err != nil {
		return Findings{}, err
	}
	from, to := 0.0, float64(line.Length())
	if !line.Closed() {
		from -= p.Ahead.long()
		to += p.Behind.long()
	}
	step := min(p.Behind.shortest(), p.Ahead.shortest()) / 12
	if n := (to - from) / step; n > MaxPoses {
		l.Over("line", line.Length(), fmt.Sprintf("asks for %.0f places to stand at, more than %d: take it in parts", n, MaxPoses))
		return Findings{}, l.Err()
	}
	h, err := newHitch(line, p)
	if err != nil {
		return Findings{}, err
	}
	return h.along(ctx, from, to, step, whole)
}

// A survey says what along is to find: whole findings, or what a limit looks at,
// and that roughly, at the places stood at alone.
type survey uint8

const (
	whole survey = iota
	limited
	rough
)

func (h *hitch) along(ctx context.Context, from, to, step float64, what survey) (Findings, error) {
	n := max(2, int(math.Ceil((to-from)/step)))
	step = (to - from) / float64(n)
	values := make([][len(measures)]float64, n+1)
	var worst [len(measures)]Joint
	var most [len(measures)]float64
	for i := range most {
		most[i] = math.Inf(-1)
	}
	try := func(s float64) (v [len(measures)]float64, err error) {
		j, err := h.coupled(measure.Length(s))
		if err != nil {
			return v, err
		}
		for i, f := range measures {
			v[i] = f(j)
			if v[i] > most[i] {
				most[i], worst[i] = v[i], j
			}
		}
		return v, nil
	}
	still := newStill(h.line, from, to)
	was := -1
	for i := range values {
		if i%64 == 0 {
			if err := ctx.Err(); err != nil {
				return Findings{}, err
			}
		}
		s := from + float64(i)*step
		on := still.within(s-h.lag, s+h.p.Ahead.long())
		if on >= 0 && on == was {
			values[i] = values[i-1]
			continue
		}
		was = on
		var err error
		if values[i], err = try(s); err != nil {
			return Findings{}, err
		}
	}
	// Between the places: wherever a measure is near its worst and nowhere
	// near it worse.
	for k := range measures {
		if what == rough || k >= 4 && !h.p.buffered() || what == limited && (k < 2 || k > 4) {
			continue
		}
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, v := range values {
			lo, hi = min(lo, v[k]), max(hi, v[k])
		}
		if hi-lo < 1e-12 {
			continue
		}
		floor, level := hi-0.1*(hi-lo), 1e-10*(hi-lo)
		for i := 0; i <= n; i++ {
			v, before, after := values[i][k], math.Inf(-1), math.Inf(-1)
			if i > 0 {
				before = values[i-1][k]
			}
			if i < n {
				after = values[i+1][k]
			}
			if v < floor || before > v || after >= v || v-min(before, after) < level {
				continue // what is level to rounding has no top to be found
			}
			if err := ctx.Err(); err != nil {
				return Findings{}, err
			}
			x, y := from+float64(max(0, i-1))*step, from+float64(min(n, i+1))*step
			near := 1e-7 * (1 + math.Abs(x)/1e4)
			if what == limited {
				near = 1e-5 // of a top, where it is level
			}
			// Every place tried counts: try keeps the worst.
			var fail error
			solve.Golden(func(s float64) float64 {
				v, err := try(s)
				if err != nil {
					fail = err
					return math.Inf(-1)
				}
				return -v[k]
			}, x, y, near, math.Inf(-1))
			if fail != nil {
				return Findings{}, fail
			}
		}
	}
	if what == whole {
		for i := range worst {
			worst[i] = h.placed(worst[i])
		}
	}
	f := Findings{Offset: worst[0], Angle: worst[1], SwingBehind: worst[2], SwingAhead: worst[3], pair: h.p}
	if h.p.buffered() {
		f.Overlap, f.BufferGap = worst[4], worst[5]
	}
	return f, nil
}

// still knows the straights and arcs of a line: a pair wholly on one is coupled
// alike all along it.
type still struct {
	from, to []float64
	next     int
}

// newStill returns those about a stretch of the line; an open one goes on
// straight beyond its ends.
func newStill(line *curve.Alignment, from, to float64) *still {
	var t still
	length := float64(line.Length())
	bounds, elements := line.Boundaries(), line.Elements()
	add := func(from, to float64) { t.from, t.to = append(t.from, from), append(t.to, to) }
	lap, last := 0.0, 0.0
	if line.Closed() {
		lap, last = math.Floor(from/length)-1, math.Ceil(to/length)+1
	} else {
		add(math.Inf(-1), 0)
	}
	for ; lap <= last; lap++ {
		for i, e := range elements {
			if e.Shape() <= curve.CircularArc {
				add(lap*length+float64(bounds[i]), lap*length+float64(bounds[i+1]))
			}
		}
	}
	if !line.Closed() {
		add(length, math.Inf(1))
	}
	return &t
}

// within returns the number of the straight or arc that holds a stretch, -1
// where none does. Stretches are asked for in running order.
func (t *still) within(from, to float64) int {
	for t.next < len(t.to) && t.to[t.next] <= from {
		t.next++
	}
	if t.next < len(t.to) && t.from[t.next] <= from && to <= t.to[t.next] {
		return t.next
	}
	return -1
}

// A Limit is what a coupling must keep.
type Limit uint8

// The limits.
const (
	AllLimits    Limit = iota // every limit that the cars state
	SwingLimit                // the swing of the couplers
	OverlapLimit              // the overlap of the buffers
)

// String returns the limit in words.
func (l Limit) String() string {
	switch l {
	case AllLimits:
		return "all limits"
	case SwingLimit:
		return "coupler swing"
	case OverlapLimit:
		return "buffer overlap"
	}
	return fmt.Sprintf("limit %d", uint8(l))
}

// Swing returns how much of the couplers' swing is left at the worst place,
// negative when they would have to swing farther than they can; ok is false
// when neither states how far that is.
func (f Findings) Swing() (left measure.Angle, ok bool) {
	left = measure.Angle(math.Inf(1))
	if s := f.pair.Behind.Front.Swing; s > 0 {
		left, ok = s-measure.Angle(math.Abs(float64(f.SwingBehind.SwingBehind))), true
	}
	if s := f.pair.Ahead.Rear.Swing; s > 0 {
		left, ok = min(left, s-measure.Angle(math.Abs(float64(f.SwingAhead.SwingAhead)))), true
	}
	if !ok {
		return 0, false
	}
	return left, true
}

// Buffers returns by how much the buffers' least remaining overlap is more
// than what the cars ask to remain; ok is false when there are none.
func (f Findings) Buffers() (left measure.Length, ok bool) {
	if !f.pair.buffered() {
		return 0, false
	}
	return f.Overlap.Overlap - max(f.pair.Behind.Front.Buffers.Least, f.pair.Ahead.Rear.Buffers.Least), true
}

// spare returns what is left of a limit, in mm: a swing as the way at the end
// of the two couplers.
func (f Findings) spare(limit Limit) float64 {
	s := math.Inf(1)
	if left, ok := f.Swing(); ok && limit != OverlapLimit {
		s = float64(left) * float64(f.pair.Behind.Front.Length+f.pair.Ahead.Rear.Length)
	}
	if left, ok := f.Buffers(); ok && limit != SwingLimit {
		s = min(s, float64(left))
	}
	return s
}
