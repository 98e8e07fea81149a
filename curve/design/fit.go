package design

import (
	"context"
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Fit asks for the largest radius that keeps clear of obstacles.
type Fit struct {
	Obstacles            []Obstacle
	MinRadius, MaxRadius measure.Length // to be looked at; 0 means a hundredth of the largest, and the largest that the place allows
	Resolution           measure.Length // of the radii: an interval of fitting radii, or a gap between two, narrower than this may be missed; 0 means 1 mm
	MaxWork              int            // the most to do: lines tried, times ten and the obstacles' points; 0 means DefaultFitWork
}

// DefaultFitWork is Fit.MaxWork where that is 0: some ten seconds.
const DefaultFitWork = 5_000_000

// A Fitted is the line of the largest radius that fits, and all that do.
type Fitted struct {
	Line
	Radius    measure.Length // of a join the smaller of its two
	Arcs      []JoinArc      // of a join, its two arcs
	Intervals []Interval     // every interval of radii that fit, ascending
}

// An Interval is a range of radii that fit.
type Interval struct {
	From, To Limit
	Hands    [2]curve.Hand // of the line's two arcs; both the bend's own in a corner
}

// A Limit is an end of an interval.
type Limit struct {
	Radius measure.Length
	By     string // the obstacle that the line would come too near to, or what else ends the interval
}

// Bend finds the largest radius of a bend in the corner that, with the
// straights before and after it, keeps clear of the obstacles. Where none
// does, the error is a [NoFitError]: it tells which obstacles must move, how
// far, and for which radius.
func (f Fit) Bend(ctx context.Context, c Corner, ease Easing) (Fitted, error) {
	l := fault.In("design")
	f.check(l)
	if !c.check(l, ease) || !l.OK() {
		return Fitted{}, l.Err()
	}
	largest, err := c.Largest(ease)
	if err != nil {
		return Fitted{}, err
	}
	hi := float64(largest.Radius)
	top := "the straights are used up"
	if m := float64(f.MaxRadius); m > 0 && m < hi {
		hi, top = m, "the largest radius asked for"
	}
	lo, bottom := hi/100, "the smallest radius looked at"
	if f.MinRadius > 0 {
		lo = float64(f.MinRadius)
	}
	if least := ease.smallest(c.turn) * (1 + 1e-12); least > lo {
		lo, bottom = least, "the easements turn the whole bend"
	}
	if lo > hi {
		l.NoAnswer("smallest radius", measure.Length(lo), fmt.Sprintf("the largest that the straights take is %.6g mm", hi))
		return Fitted{}, l.Err()
	}
	s := &fitter{Fit: f, ctx: ctx, lo: lo, hi: hi, top: top, bottom: bottom, hands: [2]curve.Hand{c.hand, c.hand}}
	s.line = func(r float64) (Line, string, bool) {
		b, ok := c.bend(fault.In("design"), r, ease)
		if !ok {
			return Line{}, "the easements turn the whole bend", false
		}
		line := Line{Start: curve.Pose{Point: forward(c.point, c.in, -c.from, 0), Heading: measure.Angle(c.in)}}
		line.straight(c.from-float64(b.TangentIn), c.from)
		line.bend(b)
		line.straight(c.to-float64(b.TangentOut), c.to)
		return line, "", true
	}
	return f.best(s)
}

func (f Fit) work() int {
	if f.MaxWork == 0 {
		return DefaultFitWork
	}
	return f.MaxWork
}

// spend takes the work of one line from what is left.
func (f Fit) spend(ctx context.Context, left *int) error {
	*left -= 10
	for _, o := range f.Obstacles {
		*left -= len(o.Points)
	}
	if *left >= 0 {
		return ctx.Err()
	}
	l := fault.In("design")
	l.Over("work", nil, fmt.Sprintf("more than %d: take a coarser resolution, a narrower range of radii or fewer obstacles", f.work()))
	return l.Err()
}

func (f Fit) check(l *fault.List) {
	checkObstacles(l, f.Obstacles)
	fault.NotNegative(l, "smallest radius", f.MinRadius)
	fault.NotNegative(l, "largest radius", f.MaxRadius)
	fault.NotNegative(l, "resolution", f.Resolution)
	if f.MaxWork < 0 {
		l.Add("most work", f.MaxWork, "must be 0 or more")
	}
}

// best runs the search and returns the largest radius.
func (f Fit) best(s *fitter) (Fitted, error) {
	left := f.work()
	s.left = &left
	found, err := s.intervals()
	if err != nil {
		return Fitted{}, err
	}
	out := Fitted{Intervals: found}
	for _, i := range found {
		if i.To.Radius > out.Radius {
			out.Line, _, _ = s.line(float64(i.To.Radius))
			out.Radius = i.To.Radius
		}
	}
	if len(out.Intervals) > 0 {
		return f.sorted(out)
	}
	return Fitted{}, f.noFit([]*fitter{s})
}

// sorted returns what was found in order, unless nothing bounds it.
func (f Fit) sorted(out Fitted) (Fitted, error) {
	sort.SliceStable(out.Intervals, func(i, j int) bool { return out.Intervals[i].To.Radius < out.Intervals[j].To.Radius })
	if out.Intervals[len(out.Intervals)-1].To.By == "nothing" {
		l := fault.In("design")
		l.NoAnswer("radius", nil, fmt.Sprintf("nothing bounds it: more than %.4g mm fits; give a largest radius", float64(out.Radius)))
		return Fitted{}, l.Err()
	}
	return out, nil
}

// A fitter looks for the fitting radii of one family with one parameter.
type fitter struct {
	Fit
	ctx         context.Context
	lo, hi      float64
	top, bottom string // what the ends of the range are
	line        func(r float64) (Line, string, bool)
	hands       [2]curve.Hand
	left        *int // work
}

// A trial is the line of one radius.
type trial struct {
	r     float64
	ok    bool   // there is such a line
	why   string // there is none
	a     *curve.Alignment
	pts   []r2.Vec
	hands [2]curve.Hand

	obstacles []Obstacle
	clear     []float64 // of each obstacle
	at        []clearAt // where
}

const trialPoints = 48

func (s *fitter) try(r float64) (trial, error) {
	if err := s.spend(s.ctx, s.left); err != nil {
		return trial{}, err
	}
	t := trial{r: r}
	line, why, ok := s.line(r)
	if !ok {
		t.why = why
		return t, nil
	}
	a, err := line.Alignment()
	if err != nil {
		t.why = err.Error()
		return t, nil
	}
	t.hands = s.hands
	t.measure(a, s.Obstacles)
	return t, nil
}

func (t *trial) place(a *curve.Alignment, obstacles []Obstacle) {
	t.ok, t.a, t.obstacles = true, a, obstacles
	t.pts = make([]r2.Vec, trialPoints)
	for i := range t.pts {
		t.pts[i] = a.Point(a.Length() * measure.Length(i) / (trialPoints - 1))
	}
}

// measure takes the line and the room of each obstacle.
func (t *trial) measure(a *curve.Alignment, obstacles []Obstacle) {
	t.place(a, obstacles)
	for _, o := range obstacles {
		c, at := o.clear(a)
		t.clear, t.at = append(t.clear, c), append(t.at, at)
	}
}

// fits reports whether the line keeps clear of all; if not, what is in the
// way.
func (t trial) fits(obstacles []Obstacle) (bool, string) {
	if !t.ok {
		return false, t.why
	}
	worst, by := 0.0, -1
	for i, c := range t.clear {
		if c < worst {
			worst, by = c, i
		}
	}
	if by < 0 {
		return true, ""
	}
	return false, obstacles[by].label(by)
}

// intervals finds the fitting radii. Between two trials nothing can have
// happened when for each obstacle the room at both together is more than the
// line moves near it (as much again as a quarter is added for what lies
// between the points compared), or when one obstacle lacks as much at both;
// elsewhere the step is halved, down to the resolution.
func (s *fitter) intervals() ([]Interval, error) {
	const step = 1.04
	res := float64(s.Resolution)
	if res == 0 {
		res = 1
	}
	var out []Interval
	var open *Interval
	prev, err := s.try(s.lo)
	if err != nil {
		return nil, err
	}
	if ok, _ := prev.fits(s.Obstacles); ok {
		open = &Interval{From: Limit{measure.Length(s.lo), s.bottom}, Hands: prev.hands}
	}
	end := func(t trial, by string) {
		open.To = Limit{measure.Length(t.r), by}
		open.Hands = t.hands
		out = append(out, *open)
		open = nil
	}
	// walk takes the cell from a to b, with a's state already open or not.
	var walk func(a, b trial) error
	walk = func(a, b trial) error {
		fa, _ := a.fits(s.Obstacles)
		fb, _ := b.fits(s.Obstacles)
		small := b.r-a.r <= max(res, 1e-9*b.r)
		if settled := s.settled(a, b); !settled && !small {
			mid, err := s.try((a.r + b.r) / 2)
			if err != nil {
				return err
			}
			if err := walk(a, mid); err != nil {
				return err
			}
			return walk(mid, b)
		}
		if fa == fb {
			return nil
		}
		in, outside, err := s.edge(a, b)
		if err != nil {
			return err
		}
		_, by := outside.fits(s.Obstacles)
		if fb {
			open = &Interval{From: Limit{measure.Length(in.r), by}, Hands: in.hands}
		} else {
			end(in, by)
		}
		return nil
	}
	for prev.r < s.hi {
		r := min(prev.r*step, s.hi)
		next, err := s.try(r)
		if err != nil {
			return nil, err
		}
		if err := walk(prev, next); err != nil {
			return nil, err
		}
		prev = next
	}
	if open != nil {
		end(prev, s.top)
	}
	return out, nil
}

// edge bisects between a trial that fits and one that does not.
func (s *fitter) edge(a, b trial) (in, out trial, err error) {
	in, out = a, b
	if ok, _ := a.fits(s.Obstacles); !ok {
		in, out = b, a
	}
	for range 60 {
		m := (in.r + out.r) / 2
		if m == in.r || m == out.r || math.Abs(in.r-out.r) < 1e-9*in.r {
			break
		}
		t, err := s.try(m)
		if err != nil {
			return in, out, err
		}
		if ok, _ := t.fits(s.Obstacles); ok {
			in = t
		} else {
			out = t
		}
	}
	return in, out, nil
}

// settled reports whether the state of all radii between a and b is known.
func (s *fitter) settled(a, b trial) bool {
	if !a.ok || !b.ok {
		return !a.ok && !b.ok
	}
	moved := [2][]float64{moves(a, b), moves(b, a)}
	most := 0.0
	for _, m := range moved {
		for _, d := range m {
			most = max(most, d)
		}
	}
	spacing := max(float64(a.a.Length()), float64(b.a.Length())) / (trialPoints - 1)
	clear := true
	for i, o := range s.Obstacles {
		lo, hi := box(o.Points)
		reach := max(float64(o.Left), float64(o.Right)) + most + spacing
		near := 0.0
		for side, t := range [2]trial{a, b} {
			for k, p := range t.pts {
				if boxDistance(lo, hi, p) <= reach {
					for q := max(k-1, 0); q <= min(k+1, trialPoints-1); q++ {
						near = max(near, moved[side][q])
					}
				}
			}
		}
		near *= 1.25
		ca, cb := a.clear[i], b.clear[i]
		if ca < 0 && cb < 0 && ca+cb <= -near {
			return true // it is in the way throughout
		}
		if ca < 0 || cb < 0 || ca+cb < near {
			clear = false
		}
	}
	return clear
}

// moves returns how far a's points are from b's line.
func moves(a, b trial) []float64 {
	out := make([]float64, len(a.pts))
	for i, p := range a.pts {
		out[i] = math.Abs(float64(b.a.Nearest(p).Offset))
	}
	return out
}

func box(pts []r2.Vec) (lo, hi r2.Vec) {
	lo, hi = pts[0], pts[0]
	for _, p := range pts {
		lo = r2.Vec{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}
		hi = r2.Vec{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
	}
	return lo, hi
}

func boxDistance(lo, hi, p r2.Vec) float64 {
	return math.Hypot(max(lo.X-p.X, p.X-hi.X, 0), max(lo.Y-p.Y, p.Y-hi.Y, 0))
}
