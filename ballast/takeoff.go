package ballast

import (
	"fmt"
	"math"
	"slices"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Quantity is what one range of bed takes, compacted and in place.
type Quantity struct {
	Name     string
	From, To measure.Length
	Length   measure.Length // along the line, gaps taken off
	Count    int            // of sleepers, as given
	Solid    measure.Volume // of the whole bed, sleepers and all
	Cant     measure.Volume // the part of Solid that cant adds
	Curve    measure.Volume // the part of Solid that comes of the centroid's path being longer or shorter than the line
	Sleepers measure.Volume // taken off
	Others   measure.Volume // other solids taken off
	Net      measure.Volume // of ballast: Solid - Sleepers - Others
	Bonded   measure.Volume // the part of Net that is to be bonded
	Surface  measure.Area   // top and slopes, less the sleepers that show in it
	BondArea measure.Area   // the part of Surface that is to be bonded
}

// Quantities are the ranges in the order given, and their total, whose Name,
// From and To are empty.
type Quantities struct {
	Ranges []Quantity
	Total  Quantity
}

// TakeOff measures the bed along the line: for each range and in all the
// compacted volume, with its true length on curves, the part that cant adds,
// and what sleepers and other solids take up.
//
// An element of bed at offset y is longer or shorter than the line by the
// factor 1 - κy, so that the volume is ∫(A - κ·M) ds with A = ∫h dy and
// M = ∫y·h dy over the section (Pappus and Guldin's second theorem, the centroid
// at M/A). Where the section stays the same this is A·Δs - M·Δθ in closed form;
// where it tapers or its cant ramps, the integral along the line is by Gauss and
// Kronrod's rule of 15 points, halved until it agrees within 1e-9 of the range.
func TakeOff(line *curve.Alignment, bed Bed) (Quantities, error) {
	l := fault.In("ballast")
	if line == nil {
		l.Add("line", nil, "is missing")
		return Quantities{}, l.Err()
	}
	bed.check(l, line)
	if err := l.Err(); err != nil {
		return Quantities{}, err
	}
	t := newTaker(line, bed)
	var q Quantities
	for i := range bed.Ranges {
		r := t.take(l, i)
		q.Ranges = append(q.Ranges, r)
		q.Total.add(r)
	}
	if err := l.Err(); err != nil {
		return Quantities{}, err
	}
	return q, nil
}

func (q *Quantity) add(r Quantity) {
	q.Length += r.Length
	q.Count += r.Count
	q.Solid += r.Solid
	q.Cant += r.Cant
	q.Curve += r.Curve
	q.Sleepers += r.Sleepers
	q.Others += r.Others
	q.Net += r.Net
	q.Bonded += r.Bonded
	q.Surface += r.Surface
	q.BondArea += r.BondArea
}

// A piece is a stretch of line within one element and one range, on which
// everything varies smoothly.
type piece struct {
	from, to  float64
	u0, u1    float64 // part of the range's length, for the taper
	el        int
	elFrom    float64 // chainage of the element's start
	bonded    bool
	kinkFirst bool // the element's kink counts in this piece
}

type taker struct {
	line        *curve.Alignment
	bed         Bed
	elements    []curve.Element
	start       []float64
	gaps, loose []interval
	cuts        []float64 // sorted chainages at which pieces end
	work        worker
}

func newTaker(line *curve.Alignment, bed Bed) *taker {
	t := &taker{line: line, bed: bed, elements: line.Elements()}
	t.work.maxSplits = baseSplits
	t.work.cant, t.work.centres, t.work.canted = bed.Cant, bed.RailCentres, bed.canted()
	for _, b := range line.Boundaries() {
		t.start = append(t.start, float64(b))
	}
	for _, g := range bed.Gaps {
		t.gaps = append(t.gaps, intervals(line, g.From, g.To, 0)...)
	}
	for _, g := range bed.Loose {
		t.loose = append(t.loose, intervals(line, g.From, g.To, 0)...)
	}
	t.gaps, t.loose = union(t.gaps), union(t.loose)
	t.cuts = append(t.cuts, t.start...)
	for _, v := range [][]interval{t.gaps, t.loose} {
		for _, x := range v {
			t.cuts = append(t.cuts, x.from, x.to)
		}
	}
	for i, e := range t.elements {
		if e.Shape() == curve.Helmert { // two parabolas
			t.cuts = append(t.cuts, (t.start[i]+t.start[i+1])/2)
		}
	}
	end := float64(line.Length())
	for _, b := range bed.Cant.Boundaries() {
		s := float64(b)
		if line.Closed() {
			if s = math.Mod(s, end); s < 0 {
				s += end
			}
		}
		t.cuts = append(t.cuts, s)
	}
	slices.Sort(t.cuts)
	t.cuts = slices.Compact(t.cuts)
	return t
}

// pieces cuts a range up and leaves the gaps out.
func (t *taker) pieces(r Range) []piece {
	var ps []piece
	span := float64(t.line.Span(r.From, r.To))
	for _, v := range intervals(t.line, r.From, r.To, 0) {
		from := v.from
		next, _ := slices.BinarySearch(t.cuts, from)
		for from < v.to {
			for next < len(t.cuts) && t.cuts[next] <= from {
				next++
			}
			to := v.to
			if next < len(t.cuts) {
				to = min(to, t.cuts[next])
			}
			if mid := (from + to) / 2; !within(t.gaps, mid) {
				e, _ := slices.BinarySearch(t.start, mid)
				e--
				ps = append(ps, piece{
					from: from, to: to, u0: (v.at + from - v.from) / span, u1: (v.at + to - v.from) / span,
					el: e, elFrom: t.start[e], bonded: r.Bonded && !within(t.loose, mid), kinkFirst: from == t.start[e],
				})
			}
			from = to
		}
	}
	return ps
}

func (t *taker) take(l *fault.List, i int) Quantity {
	r := t.bed.Ranges[i]
	at := named("range", i, r.Name)
	q := Quantity{Name: r.Name, From: r.From, To: r.To, Count: r.Sleepers}
	ps := t.pieces(r)
	length := 0.0
	for _, p := range ps {
		length += p.to - p.from
	}
	q.Length = measure.Length(length)
	if length == 0 {
		if r.Sleepers > 0 {
			l.Add(at+": sleepers", r.Sleepers, "must be 0: gaps leave none of the range")
		}
		return q
	}
	room := length * float64(max(1, len(r.Section.Tracks)))
	if widths := float64(r.Sleepers) * float64(r.Section.Sleeper.Width); widths > room*(1+1e-9) {
		l.Add(at+": sleepers", r.Sleepers, fmt.Sprintf("must be at most %d: there is %v of track in the ballast, and a sleeper is %v wide",
			int(room/float64(r.Section.Sleeper.Width)), measure.Length(room), r.Section.Sleeper.Width))
		return q
	}
	w := &t.work
	w.maxSplits += pieceSplits * len(ps)
	w.load(r, length)
	for _, p := range ps {
		w.el, w.elFrom = t.elements[p.el], p.elFrom
		v := w.integrate(p)
		if w.why != "" {
			l.Add(at, nil, fmt.Sprintf("at %v: %s", measure.Length(w.whyAt), w.why))
			return q
		}
		net, area := v[solid]-v[sleepers]-v[others], v[surface]-v[shown]
		q.Solid += measure.Volume(v[solid])
		q.Cant += measure.Volume(v[solid] - v[flat])
		q.Curve += measure.Volume(v[solid] - v[straight])
		q.Sleepers += measure.Volume(v[sleepers])
		q.Others += measure.Volume(v[others])
		q.Net += measure.Volume(net)
		q.Surface += measure.Area(area)
		if p.bonded {
			q.Bonded += measure.Volume(net)
			q.BondArea += measure.Area(area)
		}
	}
	if w.splits > w.maxSplits {
		l.Over(at, nil, "its sections differ too much to be measured within 1e-9: give shorter tapers of like sections")
		return q
	}
	if q.Net < 0 {
		l.Add(at, nil, fmt.Sprintf("sleepers and other solids take up %v, more than the whole bed, %v: are they counted right?", q.Sleepers+q.Others, q.Solid))
	}
	if math.IsInf(float64(q.Solid), 0) || math.IsNaN(float64(q.Solid)) {
		l.Over(at+": volume", nil, "is more than can be counted")
	}
	return q
}
