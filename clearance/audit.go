package clearance

import (
	"context"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Verdict says whether a structure is clear.
type Verdict uint8

// The verdicts.
const (
	Foul  Verdict = iota + 1 // gap < 0
	Tight                    // 0 ≤ gap < margin
	Pass                     // gap ≥ margin
)

// String returns "foul", "tight" or "pass".
func (v Verdict) String() string {
	switch v {
	case Foul:
		return "foul"
	case Tight:
		return "tight"
	case Pass:
		return "pass"
	}
	return fmt.Sprintf("verdict %d", uint8(v))
}

// Judge returns the verdict on a gap with a running margin.
func Judge(gap, margin measure.Length) Verdict {
	switch {
	case gap < 0:
		return Foul
	case gap < margin:
		return Tight
	}
	return Pass
}

// A Finding is what an audit says about one structure: its least gap over all
// the stock, where it is and what gives it.
type Finding struct {
	Index     int    // of the structure in the list
	Structure string // its name
	Kind      Kind
	Verdict   Verdict
	Gap       measure.Length // negative when foul: then how far in
	Upright   bool           // the gap is up or down, to an arch more so than sideways; otherwise it is sideways
	Chainage  measure.Length // of the structure's place
	Side      curve.Hand     // of the line that the place is on
	Place     r2.Vec         // in plan
	Reach     measure.Length // sideways, with all allowances, towards the structure at the governor's own chainage
	By        Governor
	Shares    []Share // of each allowance in Reach or, upright, in the height; square to an arch
	Remedy    Remedy
}

// A Remedy is the least change, each by itself, that makes the gap the margin.
// Zero where nothing is to do, or where that change cures nothing.
type Remedy struct {
	WidenBy measure.Length // make the opening wider on this side, or higher, by this; strike an arch so much larger about the same middle
	MoveBy  measure.Length // move the structure away from the line, or raise it, by this; an arch with its walls carried up
	EaseTo  measure.Length // ease the curve here to this radius, if it is held for the vehicle's length either way; not sharper than it is
}

// Audit compares the stock with structures, each against every vehicle, and
// returns one finding a structure, in order. A gap is square to the line where
// the two run alongside, and straight across where one of them stands out or
// ends; past the end of the range swept it is to the section there. To a roof it
// is in the cross-section square to the line, to an arched one square to the arc.
func (e *Envelope) Audit(ctx context.Context, structures []Structure, margin measure.Length) ([]Finding, error) {
	return e.audit(ctx, -1, structures, margin)
}

// AuditOf is Audit for one vehicle of the stock list.
func (e *Envelope) AuditOf(ctx context.Context, stock int, structures []Structure, margin measure.Length) ([]Finding, error) {
	if stock < 0 || stock >= len(e.stock) {
		l := fault.In("clearance")
		l.Add("vehicle", stock, fmt.Sprintf("must be an index of the stock list, 0 to %d", len(e.stock)-1))
		return nil, l.Err()
	}
	return e.audit(ctx, stock, structures, margin)
}

func (e *Envelope) audit(ctx context.Context, stock int, structures []Structure, margin measure.Length) ([]Finding, error) {
	l := fault.In("clearance")
	fault.NotNegative(l, "margin", margin)
	if len(structures) > MaxStructures {
		l.Over("structures", len(structures), fmt.Sprintf("must be at most %d", MaxStructures))
		return nil, l.Err()
	}
	for i, s := range structures {
		e.checkStructure(l, s, i)
	}
	if err := l.Err(); err != nil {
		return nil, err
	}
	p := prober{ctx: ctx, e: e, stock: stock}
	findings := make([]Finding, len(structures))
	for i, s := range structures {
		p.best = near{gap: math.Inf(1)}
		if err := p.structure(s); err != nil {
			return nil, err
		}
		f := e.finding(p.best, margin)
		f.Index, f.Structure, f.Kind = i, s.Name, s.Kind
		var err error
		if f.Remedy, err = p.remedy(&f, s, p.best, margin); err != nil {
			return nil, err
		}
		findings[i] = f
	}
	return findings, nil
}

// finding describes the least gap.
func (e *Envelope) finding(n near, margin measure.Length) Finding {
	f := Finding{
		Gap: measure.Length(n.gap), Upright: n.upright, Chainage: e.chainage(n.c), Side: n.side(), Place: n.place,
		Verdict: Judge(measure.Length(n.gap), margin),
	}
	h, t := e.governor(&n)
	f.By = e.reach(h[int(math.Round(t))]).By
	f.Reach = measure.Length(n.reach)
	if n.arch != nil {
		f.Shares = e.archShares(&n)
	} else {
		f.Shares = e.shares(n, &h, t)
	}
	return f
}

// shares lists each allowance's share at the governing place, the part t of the
// way up the section. With the body's own reach, or its height, they add up to
// what the structure was measured against.
func (e *Envelope) shares(n near, by *[2]hit, t float64) []Share {
	a := &e.set.Allowances
	var out []Share
	add := func(name string, v float64) {
		if math.Abs(v) > 1e-9 {
			out = append(out, Share{name, measure.Length(v)})
		}
	}
	s, k := by[0].sheet, &n.cut
	if n.upright {
		throw, far := k.up, n.lo-n.gap-s.top
		if n.under {
			throw, far = -k.down, s.bottom-(n.hi+n.gap)
		}
		add("vertical throw", throw)
		add("roll on springs", k.lift)
		add("cant", far-throw-k.lift)
		return out
	}
	between := func(low, high float64) float64 { return low + t*(high-low) }
	roll, z0 := float64(a.Springs), float64(a.RollCentre)
	springs := between(roll*math.Abs(s.bottom+k.down-z0), roll*math.Abs(s.top+k.up-z0))
	add("play of the wheels", between(float64(e.reach(by[0]).Play), float64(e.reach(by[1]).Play)))
	add("laying tolerance", float64(a.Laying))
	add("movement with heat", float64(a.Heat))
	add("running margin", float64(a.Running))
	add("roll on springs", springs)
	add("cant", n.reach-between(e.level(by[0]), e.level(by[1]))-float64(a.Laying+a.Heat+a.Running)-springs)
	return out
}

// remedy works out the least remedies.
func (p *prober) remedy(f *Finding, s Structure, n near, margin measure.Length) (Remedy, error) {
	short := margin - f.Gap
	if short <= 0 {
		return Remedy{}, nil
	}
	if n.arch != nil {
		return p.archRemedy(f, s, n, margin)
	}
	r := Remedy{MoveBy: short}
	if s.Kind.opening() {
		r.WidenBy = short
	}
	if !f.Upright {
		r.EaseTo = p.e.ease(f, n, short)
	}
	return r, nil
}

// ease is easeTo for the stock's bodies, 0 for anything else.
func (e *Envelope) ease(f *Finding, n near, short measure.Length) measure.Length {
	v := &e.stock[f.By.Stock]
	if s := n.cut.left.sheet; s == nil || s.part >= len(v.Bodies) {
		return 0
	}
	return e.easeTo(v, n, short)
}

// easeTo returns the radius at which a long curve would give the outline, the
// play of the wheels in it, short less of reach than it has here; 0 when not
// even straight track does. It is not sharper than what the body touches.
func (e *Envelope) easeTo(v *Vehicle, n near, short measure.Length) measure.Length {
	by, t := e.governor(&n)
	h := by[int(math.Round(t))]
	s := h.sheet
	rear, front := e.stands(s, h.kept.s, 0)
	k := float64(e.line.At(measure.Length(n.c)).Curvature) // sharpest under the body, with its sign
	for i := range 9 {
		if at := float64(e.line.At(measure.Length(rear + (front-rear)*float64(i)/8)).Curvature); math.Abs(at) > math.Abs(k) {
			k = at
		}
	}
	if k == 0 {
		return 0
	}
	inside := (k > 0) == (n.side() == curve.Left)
	b := v.Bodies[s.part]
	o := make(Outline, len(s.x)) // the curve's centre to its left
	for i := range s.x {
		o[i] = Point{measure.Length(s.x[i]) - b.Pivots/2, measure.Length(math.Copysign(s.y[i], s.y[i]*k))}
	}
	reach := func(k float64) float64 {
		c, ok := b.chord(1/max(k, 1e-12), v.Carriers[s.part], v.Carriers[s.part+1])
		if !ok {
			return math.Inf(1)
		}
		r := math.Inf(-1)
		for i, p := range o {
			if inside {
				r = max(r, -c.nearest(p, o[(i+1)%len(o)]))
			} else {
				r = max(r, c.off(float64(p.Along), float64(p.Across)))
			}
		}
		return r
	}
	most := e.level(by[0]) + t*(e.level(by[1])-e.level(by[0])) - float64(short)
	if reach(0) > most {
		return 0
	}
	lo, hi := 0.0, math.Abs(k)
	for range 60 {
		if mid := (lo + hi) / 2; reach(mid) <= most {
			lo = mid
		} else {
			hi = mid
		}
	}
	return measure.Length(1 / lo)
}
