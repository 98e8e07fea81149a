package ballast

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// MaxStretches is the most ranges, gaps and loose stretches of a bed, counted
// together, and the most solids of one range.
const MaxStretches = 10000

// A Stretch is a named piece of the line from one chainage to another. On a
// circuit To may lie below From: the stretch then runs over the start.
type Stretch struct {
	Name     string
	From, To measure.Length
}

// A Range is a stretch of bed of one section, or of a section that changes
// evenly into another.
type Range struct {
	Name     string
	From, To measure.Length
	Section  Section
	Taper    *Section // the section at To, of as many tracks; nil: the same all along
	Sleepers int      // standing in this range's ballast, gaps not counted; evenly spaced
	Solids   []Solid  // what else stands in the ballast
	Bonded   bool     // the ballast is to be bonded, but for the bed's loose stretches
}

// A Solid is something that takes up room in the bed as sleepers do: rail feet,
// a duct, check rails' chairs. Only the part below the ballast's surface and
// above the formation counts. Either Width is given, and it runs along the
// whole range; or Plan and Count, and that many stand evenly spaced.
type Solid struct {
	Name   string
	Offset measure.Length // from the line, left positive: says whether the crib's or the shoulder's level covers it
	Bottom measure.Length // over the sleepers' undersides; negative below them
	Top    measure.Length // over the sleepers' undersides
	Width  measure.Length // of one that runs along
	Plan   measure.Area   // of each one, in plan
	Count  int
}

// A Bed is the ballast of a whole line.
type Bed struct {
	Ranges []Range
	Gaps   []Stretch // left without ballast of this bed: points, bridges, crossings, tunnels
	Loose  []Stretch // stay loose within bonded ranges: points, lift-outs, expansion gaps

	Cant        profile.Cant   // of the track; the zero Cant: none
	RailCentres measure.Length // distance of the rail-head centres, needed where there is cant
}

// checkStretch records what is wrong with a stretch and reports whether it can
// be used.
func checkStretch(l *fault.List, at string, line *curve.Alignment, from, to measure.Length) bool {
	end, ok := line.Length(), true
	for _, c := range []struct {
		field string
		v     measure.Length
	}{{at + ": from", from}, {at + ": to", to}} {
		if !fault.Place(l, c.field, c.v) {
			ok = false
		} else if c.v < 0 || c.v > end {
			l.Add(c.field, c.v, fmt.Sprintf("leaves the line, which runs from %v to %v", measure.Length(0), end))
			ok = false
		}
	}
	switch {
	case !ok:
	case from == to || from == end && to == 0:
		l.Add(at+": to", to, "must differ from where it begins; a whole circuit runs from 0 to its length")
		ok = false
	case to < from && !line.Closed():
		l.Add(at+": to", to, fmt.Sprintf("must be more than where it begins, %v: the line is not a circuit", from))
		ok = false
	}
	return ok
}

func named(kind string, i int, name string) string {
	if name == "" {
		return fmt.Sprintf("%s %d", kind, i+1)
	}
	return kind + " " + name
}

// An interval is part of a stretch, from ≤ to in plain chainage; at is how far
// along the stretch its from lies.
type interval struct {
	from, to, at float64
	owner        int
}

// intervals returns the stretch as one interval, or two where it runs over the
// start of a circuit.
func intervals(line *curve.Alignment, from, to measure.Length, owner int) []interval {
	f, t, end := float64(from), float64(to), float64(line.Length())
	if t > f {
		return []interval{{f, t, 0, owner}}
	}
	var v []interval
	if f < end {
		v = append(v, interval{f, end, 0, owner})
	}
	if t > 0 {
		v = append(v, interval{0, t, end - f, owner})
	}
	return v
}

func sortIntervals(v []interval) {
	slices.SortFunc(v, func(a, b interval) int { return cmp.Compare(a.from, b.from) })
}

// union sorts and joins intervals that touch.
func union(v []interval) []interval {
	sortIntervals(v)
	var u []interval
	for _, x := range v {
		if n := len(u); n > 0 && x.from <= u[n-1].to {
			u[n-1].to = max(u[n-1].to, x.to)
		} else {
			u = append(u, x)
		}
	}
	return u
}

// within reports whether s lies in one of the joined intervals.
func within(u []interval, s float64) bool {
	i, _ := slices.BinarySearchFunc(u, s, func(x interval, s float64) int { return cmp.Compare(x.to, s) })
	return i < len(u) && u[i].from <= s
}

// check records everything that is wrong with the bed on the line.
func (b Bed) check(l *fault.List, line *curve.Alignment) {
	if n := len(b.Ranges) + len(b.Gaps) + len(b.Loose); n > MaxStretches {
		l.Over("ranges, gaps and loose stretches", n, fmt.Sprintf("at most %d", MaxStretches))
		return
	}
	if len(b.Ranges) == 0 {
		l.Add("ranges", nil, "at least one range of bed is needed")
	}
	var all []interval
	for i, r := range b.Ranges {
		at := named("range", i, r.Name)
		if checkStretch(l, at, line, r.From, r.To) {
			all = append(all, intervals(line, r.From, r.To, i)...)
		}
		r.Section.check(l, at+": ")
		if r.Taper != nil {
			r.Taper.check(l, at+": taper: ")
			if a, b := max(1, len(r.Section.Tracks)), max(1, len(r.Taper.Tracks)); a != b {
				l.Add(at+": taper: tracks", b, fmt.Sprintf("must be as many as at the start, %d", a))
			}
			if r.Section.Filled != r.Taper.Filled {
				l.Add(at+": taper: filled between tracks", r.Taper.Filled, "must be as at the start")
			}
		}
		r.checkSolids(l, at)
	}
	for i, g := range b.Gaps {
		checkStretch(l, named("gap", i, g.Name), line, g.From, g.To)
	}
	for i, g := range b.Loose {
		checkStretch(l, named("loose stretch", i, g.Name), line, g.From, g.To)
	}
	if b.canted() {
		fault.Size(l, "rail-head centres", b.RailCentres)
		if lap, ok := b.Cant.Circuit(); ok && (!line.Closed() || math.Abs(float64(lap-line.Length())) > 1e-6*float64(line.Length())) {
			l.Add("cant", nil, fmt.Sprintf("repeats after %v, the line after %v", lap, line.Length()))
		}
	}
	sortIntervals(all)
	for i := 1; i < len(all); i++ {
		if p, q := all[i-1], all[i]; q.from < p.to-1e-6 {
			l.Add(named("range", q.owner, b.Ranges[q.owner].Name), nil, fmt.Sprintf("overlaps %s from %v to %v",
				named("range", p.owner, b.Ranges[p.owner].Name), measure.Length(q.from), measure.Length(min(p.to, q.to))))
		}
	}
}

// canted reports whether a cant was given.
func (b Bed) canted() bool { return b.Cant.Datum() != 0 }

func (r Range) checkSolids(l *fault.List, at string) {
	if r.Sleepers < 0 {
		l.Add(at+": sleepers", r.Sleepers, "must be 0 or more")
	}
	if len(r.Solids) > MaxStretches {
		l.Over(at+": solids", len(r.Solids), fmt.Sprintf("at most %d", MaxStretches))
		return
	}
	for i, s := range r.Solids {
		at := at + ": " + named("solid", i, s.Name)
		fault.Place(l, at+": offset", s.Offset)
		if fault.Place(l, at+": bottom", s.Bottom) && fault.Place(l, at+": top", s.Top) && s.Top <= s.Bottom {
			l.Add(at+": top", s.Top, fmt.Sprintf("must be more than its bottom, %v", s.Bottom))
		}
		fault.Amount(l, at+": width", s.Width)
		fault.Amount(l, at+": plan area", s.Plan)
		if s.Count < 0 {
			l.Add(at+": count", s.Count, "must be 0 or more")
		}
		if runs, stands := s.Width > 0, s.Plan > 0 || s.Count > 0; runs == stands {
			l.Add(at, nil, "needs either a width, when it runs along the range, or a plan area and a count")
		}
	}
}

// under returns the part of the height from bottom to top that lies in the
// ballast whose surface is at level and whose formation is at -depth.
func under(bottom, top, level, depth float64) float64 {
	return max(0, math.Min(top, level)-math.Max(bottom, -depth))
}

// Validate reports what is wrong with the stretch on the line.
func (s Stretch) Validate(line *curve.Alignment) error {
	l := fault.In("ballast")
	if line == nil {
		l.Add("line", nil, "is missing")
	} else {
		checkStretch(l, named("stretch", 0, s.Name), line, s.From, s.To)
	}
	return l.Err()
}
