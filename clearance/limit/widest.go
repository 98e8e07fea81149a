package limit

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
	"example.org/fourfoot/internal/solve"
)

// A Route is a line and what stands beside it.
type Route struct {
	Line       *curve.Alignment
	Structures []clearance.Structure
	Margin     measure.Length     // to be left to each
	Settings   clearance.Settings // of the sweeps; a zero Tolerance here means 0.001 mm
}

// A Largest is the largest vehicle that a route admits.
type Largest struct {
	Vehicle clearance.Vehicle
	Size    measure.Length    // its width or length over all its bodies' outlines
	By      clearance.Finding // the structure that admits no more
}

// Widest returns the widest vehicle of a pattern that clears every structure of
// the route by the margin: the pattern with all its outlines made wider or
// narrower in proportion, its length and pivots as they are. The error wraps
// measure.ErrNoAnswer where not even the narrowest clears, naming the structure
// and what it lacks, which By then tells of too, and where nothing limits the width.
// For what an error in a measure is worth, see Rates.
func (r Route) Widest(ctx context.Context, pattern clearance.Vehicle) (Largest, error) {
	w, err := r.narrowest(ctx, pattern)
	if errors.Is(err, errUnlimited) {
		if w, err = r.widest(ctx, pattern); errors.Is(err, errUnlimited) {
			err = r.unlimited("width", pattern)
		}
	}
	return w, err
}

// narrowest is Widest structure by structure, each on its own stretch of the
// line, errUnlimited where that does not lead to the answer. A wider body only
// ever comes nearer, so the answer is the least of what each allows; and by no
// more than what is added to half its width over the cosine of 75°, the most
// that a chord may stand at to the line, so that most need not be asked.
func (r Route) narrowest(ctx context.Context, pattern clearance.Vehicle) (Largest, error) {
	if pattern.Validate() != nil {
		return Largest{}, errUnlimited
	}
	rough := r // to know which may count
	rough.Settings.Tolerance = 10 * r.settings().Tolerance
	all, bad, err := rough.audit(ctx, pattern)
	if err != nil || bad != nil {
		return Largest{}, errUnlimited
	}
	slices.SortStableFunc(all, func(a, b clearance.Finding) int { return cmp.Compare(a.Gap, b.Gap) })
	var best Largest
	for _, f := range all {
		one := r.beside(f.Index, pattern)
		if best.Size > 0 {
			if f.Gap-r.Margin > max(0, 2*(best.Size-width(pattern)))+2*rough.Settings.Tolerance {
				break
			}
			if t, err := one.try(ctx, best.Vehicle); err == nil && t.spare >= 0 {
				continue
			}
		}
		w, err := one.widest(ctx, pattern)
		switch {
		case errors.Is(err, errUnlimited):
		case err != nil:
			return Largest{}, errUnlimited
		default:
			best, best.By.Index = w, f.Index
		}
	}
	// What stands farther off than the stretch reaches past it may be nearer
	// from beyond.
	if best.Size == 0 || best.Size >= long(pattern) {
		return Largest{}, errUnlimited
	}
	return best, nil
}

// width returns the width of a vehicle over all its outlines.
func width(v clearance.Vehicle) measure.Length {
	var all []clearance.Band
	for _, b := range bandsOf(&v) {
		all = append(all, b...)
	}
	return extent(all).width()
}

// beside returns the route past one structure: the stretch of line that it
// stands along and half a vehicle either way, where it says so by chainages.
func (r Route) beside(i int, pattern clearance.Vehicle) Route {
	x := r.Structures[i]
	r.Structures = r.Structures[i : i+1]
	if len(x.Figures) > 0 || x.Neighbour != nil || r.Line == nil || r.Settings.From != 0 || r.Settings.To != 0 {
		return r
	}
	from, to := r.Line.Length(), measure.Length(0)
	add := func(a, b measure.Length) {
		from, to = min(from, a, b), max(to, a, b)
		if b < a { // over the start of a circuit
			from, to = 0, r.Line.Length()
		}
	}
	for _, f := range x.Faces {
		add(f.From, f.To)
	}
	for _, f := range x.Roofs {
		add(f.From, f.To)
	}
	from, to = from-long(pattern)/2, to+long(pattern)/2
	if r.Line.Closed() && (from < 0 || to > r.Line.Length()) {
		return r
	}
	r.Settings.From, r.Settings.To = max(from, 0), min(to, r.Line.Length())
	return r
}

// long returns the length of a vehicle's bodies together.
func long(v clearance.Vehicle) measure.Length {
	sum := measure.Length(0)
	for _, b := range v.Bodies {
		sum += extent(b.Bands).length()
	}
	return sum
}

func (r Route) widest(ctx context.Context, pattern clearance.Vehicle) (Largest, error) {
	return r.largest(ctx, pattern, "width", func(f float64) clearance.Vehicle {
		v := pattern.Turned().Turned()
		for _, bands := range bandsOf(&v) {
			for _, b := range bands {
				for j := range b.Outline {
					b.Outline[j].Across *= measure.Length(f)
				}
			}
		}
		return v
	}, 2, width)
}

// Longest returns the longest vehicle of a pattern that clears every structure
// of the route by the margin: the pattern with its bodies, pivots, inner axles
// and trucks drawn out or pushed together in proportion, its bogies and its
// width as they are. Every shorter one, in steps of 2 %, clears too. Errors are
// as for Widest.
func (r Route) Longest(ctx context.Context, pattern clearance.Vehicle) (Largest, error) {
	w, err := r.longest(ctx, pattern)
	if errors.Is(err, errUnlimited) {
		err = r.unlimited("length", pattern)
	}
	return w, err
}

func (r Route) longest(ctx context.Context, pattern clearance.Vehicle) (Largest, error) {
	return r.largest(ctx, pattern, "length", func(f float64) clearance.Vehicle {
		v := pattern.Turned().Turned()
		m := measure.Length(f)
		for i := range v.Bodies {
			b := &v.Bodies[i]
			b.Pivots *= m
			for j := range b.Inner {
				b.Inner[j].Along *= m
			}
			for j := range b.Trucks {
				b.Trucks[j].Hinge *= m
				b.Trucks[j].Bar *= m
			}
			for _, band := range b.Bands {
				for j := range band.Outline {
					band.Outline[j].Along *= m
				}
			}
		}
		return v
	}, 1.02, long)
}

// bandsOf returns the outlines of all parts, to be changed in place.
func bandsOf(v *clearance.Vehicle) [][]clearance.Band {
	var out [][]clearance.Band
	for _, b := range v.Bodies {
		out = append(out, b.Bands)
		for _, t := range b.Trucks {
			out = append(out, t.Bands)
		}
	}
	for _, c := range v.Carriers {
		out = append(out, c.Bands)
	}
	return out
}

// A trial is one size of vehicle on the route.
type trial struct {
	spare float64 // least gap less the margin
	by    clearance.Finding
	bad   error // it cannot run here at all
}

func (r Route) settings() clearance.Settings {
	set := r.Settings
	if set.Tolerance == 0 {
		set.Tolerance = 1e-3
	}
	return set
}

// audit runs a vehicle along the route; bad is why it cannot run there at all.
func (r Route) audit(ctx context.Context, v clearance.Vehicle) (all []clearance.Finding, bad, err error) {
	e, err := clearance.Sweep(ctx, r.Line, []clearance.Vehicle{v}, r.settings())
	if errors.Is(err, measure.ErrNoAnswer) {
		return nil, err, nil
	}
	if err != nil {
		return nil, nil, err
	}
	all, err = e.Audit(ctx, r.Structures, r.Margin)
	return all, nil, err
}

// try runs a vehicle along the route.
func (r Route) try(ctx context.Context, v clearance.Vehicle) (trial, error) {
	all, bad, err := r.audit(ctx, v)
	if bad != nil {
		return trial{spare: -math.MaxFloat64, bad: bad}, nil
	}
	t := trial{spare: math.Inf(1)}
	for _, g := range all {
		if s := float64(g.Gap - r.Margin); s < t.spare {
			t.spare, t.by = s, g
		}
	}
	return t, err
}

// errUnlimited is what largest says where nothing limits it.
var errUnlimited = errors.New("limit: not limited")

// largest looks for the factor at which the spare gap passes zero, from the
// pattern upwards or downwards in steps of a ratio.
func (r Route) largest(ctx context.Context, pattern clearance.Vehicle, what string, make func(f float64) clearance.Vehicle, ratio float64, size func(clearance.Vehicle) measure.Length) (Largest, error) {
	l := fault.In("limit")
	if err := pattern.Validate(); err != nil {
		return Largest{}, err
	}
	if len(r.Structures) == 0 {
		l.Add("structures", "none", "needs at least one: nothing else limits a vehicle")
	}
	fault.NotNegative(l, "margin", r.Margin)
	if err := l.Err(); err != nil {
		return Largest{}, err
	}
	var failed error
	var tried []float64
	var trials []trial
	var run func(f float64) trial
	try := func(f float64) trial {
		if i := slices.Index(tried, f); i >= 0 {
			return trials[i]
		}
		t := run(f)
		tried, trials = append(tried, f), append(trials, t)
		return t
	}
	run = func(f float64) trial {
		if failed != nil {
			return trial{}
		}
		t, err := r.try(ctx, make(f))
		if f != 1 && errors.Is(err, measure.ErrInput) {
			return trial{spare: -math.MaxFloat64, bad: err}
		}
		failed = err
		return t
	}
	const farthest = 1000 // times larger or smaller than the pattern
	lo, hi := 1.0, 1.0
	last := try(1)
	if failed != nil {
		return Largest{}, failed
	}
	// The first step goes a tenth farther than a body all of whose width is at
	// the structure, or length at its end, would have to.
	first := 1 + 2.2*last.spare/float64(size(pattern))
	if first < 1 {
		first = 1 / max(first, 0.5)
	}
	step := func(f float64) float64 {
		if f == 1 {
			return min(first, ratio)
		}
		return ratio
	}
	if last.spare >= 0 {
		for t := last; t.spare >= 0; {
			lo, hi = hi, hi*step(hi)
			if hi > farthest {
				return Largest{}, errUnlimited
			}
			t = try(hi)
			if failed != nil {
				return Largest{}, failed
			}
		}
	} else {
		for t := last; t.spare < 0; {
			hi, lo = lo, lo/step(lo)
			if lo < 1.0/farthest || t.bad != nil && errors.Is(t.bad, measure.ErrInput) {
				return Largest{By: last.by}, r.hopeless(l, what, pattern, last)
			}
			if t = try(lo); t.bad == nil {
				last = t
			}
			if failed != nil {
				return Largest{}, failed
			}
		}
	}
	// Halve until the larger one runs at least.
	for range 100 {
		t := try(hi)
		if t.bad == nil || hi-lo < 1e-13*hi {
			break
		}
		if m := (lo + hi) / 2; try(m).spare >= 0 {
			lo = m
		} else {
			hi = m
		}
	}
	near := 0.01 * float64(r.settings().Tolerance/size(pattern)) // no finer than the sweep
	f, ok := solve.Brent(func(f float64) float64 { return try(f).spare }, lo, hi, near)
	if !ok {
		f = lo
	}
	t := try(f)
	for step := near; failed == nil && t.spare < 0 && f > lo; step *= 2 {
		f = max(lo, f*(1-step))
		t = try(f)
	}
	if failed != nil {
		return Largest{}, failed
	}
	if t.spare > 1 { // it is not a structure that ends it
		return Largest{}, errUnlimited
	}
	v := make(f)
	return Largest{Vehicle: v, Size: size(v), By: t.by}, nil
}

func (r Route) unlimited(what string, pattern clearance.Vehicle) error {
	l := fault.In("limit")
	l.NoAnswer(what, nil, fmt.Sprintf("of %s is limited by no structure here, only by what can stand on the line: give structures beside it", name(pattern)))
	return l.Err()
}

func (r Route) hopeless(l *fault.List, what string, pattern clearance.Vehicle, t trial) error {
	if t.bad != nil {
		l.NoAnswer(what, nil, fmt.Sprintf("of %s can be made no size at which it runs here: %v", name(pattern), t.bad))
		return l.Err()
	}
	cure := "move it away"
	if t.by.Upright {
		cure = "raise it"
	}
	s := t.by.Structure
	if s == "" {
		s = fmt.Sprintf("structure %d", t.by.Index+1)
	}
	l.NoAnswer(what, nil, fmt.Sprintf("of %s can be made so small as to clear no more than all but %s, which still lacks %v at chainage %v: %s by that first", name(pattern), s, measure.Length(-t.spare), t.by.Chainage, cure))
	return l.Err()
}

func name(v clearance.Vehicle) string {
	if v.Name == "" {
		return "the vehicle"
	}
	return v.Name
}
