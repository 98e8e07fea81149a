package movement

import (
	"fmt"
	"math"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/expansion"
	"example.org/fourfoot/expansion/joints"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// Limits of work.
const (
	MaxBases = 1000
	MaxWork  = 20_000_000 // pieces and joints times the bases and the states of the climate
)

// A Base is one piece of what the line lies on, fixed to the ground at one
// place, from which it grows both ways.
type Base struct {
	Name            string
	From, To, Fixed measure.Length // chainages; on a circuit To may lie below From
}

// A Range is what a movement comes to over the climate, and the states that
// govern its ends.
type Range struct {
	Low, High     measure.Length
	AtLow, AtHigh expansion.State
}

// Size returns High - Low.
func (r Range) Size() measure.Length { return r.High - r.Low }

// A Verdict says what becomes of a joint.
type Verdict uint8

// The verdicts.
const (
	Absorbs Verdict = iota // its gap keeps within its limits
	Shuts                  // its gap falls below the least
	Parts                  // its gap opens beyond the reach
	Both                   // it does both
)

// String returns the verdict in words.
func (v Verdict) String() string {
	return [...]string{"absorbs", "shuts", "parts", "shuts and parts"}[v&3]
}

// A Panel is what one piece of rail does.
type Panel struct {
	Mark  string
	Fixed Range // its fixed point
	Back  Range // its beginning
	Ahead Range // its end
}

// A Joint is what one joint does.
type Joint struct {
	Mark    string
	Gap     Range          // what it comes to
	Takes   measure.Length // movement that it takes up, the size of Gap
	Lacks   measure.Length // by how much its limits are passed, both ends together
	Verdict Verdict
}

// A Run is one rail of one run: all its joints together. Where it lacks room
// no slipping of panels can help: it wants more joints, or another gap.
type Run struct {
	Run   int // index in the plan's Runs
	Rail  curve.Rail
	Shut  measure.Length // the most that its joints close by, together, from today
	Open  measure.Length // the most that they open by
	Room  measure.Length // that today's gaps leave above the least
	Reach measure.Length // that they leave below the widest
	Lacks measure.Length // Shut over Room, or Open over Reach, the larger; 0 where both fit
}

// An End is the rail of an object, a turnout, at one of its joints.
type End struct {
	Object string
	Joint  string // its mark
	Move   Range
}

// A Bed is what the two ends of a base do.
type Bed struct {
	Name     string
	From, To Range
}

// A Plan is what the whole line does.
type Plan struct {
	Panels   []Panel // as the pieces of the joint plan
	Joints   []Joint // as its joints
	Runs     []Run
	Ends     []End
	Beds     []Bed
	Warnings []string
}

// New returns the movements of a line whose joints are planned, in the climate
// of heat.
func New(line *curve.Alignment, p joints.Plan, heat joints.Heat, bases ...Base) (Plan, error) {
	m, err := newMover(line, heat, bases)
	if err != nil {
		return Plan{}, err
	}
	if n := len(p.Pieces) + len(p.Joints); n > MaxWork/(len(heat.Climate)+len(bases)) {
		l := fault.In("movement")
		l.Over("work", fmt.Sprintf("of %d pieces and joints on %d bases in %d states", n, len(bases), len(heat.Climate)), fmt.Sprintf("at most %d together: the corners of the climate would do", MaxWork))
		return Plan{}, l.Err()
	}
	var out Plan
	for _, q := range p.Pieces {
		base := m.base(q.Fixed)
		out.Panels = append(out.Panels, Panel{
			q.Mark, m.span(0, 0, base), m.span(-1, q.Back, base), m.span(1, q.Ahead, base),
		})
	}
	totals := map[[2]int]*total{}
	for _, j := range p.Joints {
		key := [2]int{int(j.Rail), j.Run}
		if totals[key] == nil {
			totals[key] = &total{closing: make([]float64, len(heat.Climate))}
			out.Runs = append(out.Runs, Run{Run: j.Run, Rail: j.Rail})
		}
		// How far the two fixed points are from where their bases are fixed.
		before, after := m.base(m.wrap(j.Chainage-j.Before)), m.base(m.wrap(j.Chainage+j.After))
		if j.PieceBefore >= 0 {
			before = m.base(p.Pieces[j.PieceBefore].Fixed)
		} else {
			out.Ends = append(out.Ends, End{j.At, j.Mark, m.span(1, j.Before, before)})
		}
		if j.PieceAfter >= 0 {
			after = m.base(p.Pieces[j.PieceAfter].Fixed)
		} else {
			out.Ends = append(out.Ends, End{j.At, j.Mark, m.span(-1, j.After, after)})
		}
		out.Joints = append(out.Joints, m.joint(j, before, after, totals[key]))
	}
	for i := range out.Runs {
		r := &out.Runs[i]
		totals[[2]int{int(r.Rail), r.Run}].fill(r)
	}
	for _, b := range bases {
		out.Beds = append(out.Beds, Bed{b.Name, m.span(0, 0, m.on(b, b.From)), m.span(0, 0, m.on(b, b.To))})
	}
	out.warn(p)
	return out, nil
}

// total adds up the joints of a run over the states.
type total struct {
	closing     []float64
	room, reach float64
}

func (t total) fill(r *Run) {
	for _, c := range t.closing {
		r.Shut, r.Open = max(r.Shut, measure.Length(c)), max(r.Open, measure.Length(-c))
	}
	r.Room, r.Reach = measure.Length(t.room), measure.Length(t.reach)
	r.Lacks = max(r.Shut-r.Room, r.Open-r.Reach, 0)
	if r.Lacks < 1e-9 {
		r.Lacks = 0
	}
}

type mover struct {
	line   *curve.Alignment
	heat   joints.Heat
	bases  []Base
	ground bool // movements are over the ground
}

func newMover(line *curve.Alignment, heat joints.Heat, bases []Base) (mover, error) {
	l := fault.In("movement")
	if line == nil {
		l.Add("line", nil, "must be given")
		return mover{}, l.Err()
	}
	if _, err := heat.Joint(1, 1).Travel(heat.Climate); err != nil {
		l.Join(err)
	}
	if len(bases) > MaxBases {
		l.Over("bases", len(bases), fmt.Sprintf("at most %d", MaxBases))
	}
	for i, b := range bases {
		f := fmt.Sprintf("base %d (%s)", i+1, b.Name)
		ok := true
		for _, p := range []struct {
			field string
			s     measure.Length
		}{{"from", b.From}, {"to", b.To}, {"fixed", b.Fixed}} {
			if !fault.Between(l, f+": "+p.field, p.s, 0, line.Length()) {
				ok = false
			}
		}
		if !ok {
			continue
		}
		if b.To < b.From && !line.Closed() || b.To == b.From {
			l.Add(f+": to", b.To, "must lie after from")
		} else if line.Span(b.From, b.Fixed) > line.Span(b.From, b.To) || !line.Closed() && b.Fixed < b.From {
			l.Add(f+": fixed", b.Fixed, "must lie on the base itself")
		}
	}
	return mover{line, heat, bases, len(bases) > 0}, l.Err()
}

// base returns the distance of a chainage from where its base is fixed, ahead
// positive; 0 on none.
func (m mover) base(s measure.Length) measure.Length {
	for _, b := range m.bases {
		if m.line.Span(b.From, s) <= m.line.Span(b.From, b.To) && (m.line.Closed() || s >= b.From) {
			return m.on(b, s)
		}
	}
	return 0
}

func (m mover) on(b Base, s measure.Length) measure.Length {
	return m.line.Span(b.From, s) - m.line.Span(b.From, b.Fixed)
}

// at returns the movement in a state of a rail end that lies free ahead (side
// 1) or behind (-1) of a point whose base is fixed that far away.
func (m mover) at(side float64, free, base measure.Length, s expansion.State) float64 {
	rail := float64(m.heat.Rail.Of(free, s.Rail.Sub(m.heat.Laying.Rail)))
	dBase := s.Base.Sub(m.heat.Laying.Base)
	if m.ground {
		return side*rail + float64(m.heat.Base.Of(base, dBase))
	}
	return side * (rail - float64(m.heat.Base.Of(free, dBase)))
}

func (m mover) span(side float64, free, base measure.Length) Range {
	return m.over(func(s expansion.State) float64 { return m.at(side, free, base, s) })
}

func (m mover) over(f func(expansion.State) float64) Range {
	r := Range{Low: measure.Length(math.Inf(1)), High: measure.Length(math.Inf(-1))}
	for _, s := range m.heat.Climate {
		v := measure.Length(f(s))
		if v < r.Low {
			r.Low, r.AtLow = v, s
		}
		if v > r.High {
			r.High, r.AtHigh = v, s
		}
	}
	return r
}

// wrap brings a chainage onto the line.
func (m mover) wrap(s measure.Length) measure.Length {
	l := m.line.Length()
	if !m.line.Closed() {
		return min(max(s, 0), l)
	}
	x := math.Mod(float64(s), float64(l))
	if x < 0 {
		x += float64(l)
	}
	return measure.Length(x)
}

func (m mover) joint(j joints.Joint, before, after measure.Length, t *total) Joint {
	closing := func(s expansion.State) float64 {
		if m.ground {
			return m.at(1, j.Before, before, s) - m.at(-1, j.After, after, s)
		}
		return float64(m.heat.Joint(j.Before, j.After).Closing(m.heat.Laying, s))
	}
	out := Joint{Mark: j.Mark, Gap: m.over(func(s expansion.State) float64 { return float64(j.Gap) - closing(s) })}
	out.Takes = out.Gap.Size()
	reach, _ := m.heat.Joint(j.Before, j.After).Reach()
	const rounding = 1e-9
	if d := m.heat.Least - out.Gap.Low; d > rounding {
		out.Verdict, out.Lacks = Shuts, d
	}
	if d := out.Gap.High - reach; d > rounding {
		out.Verdict |= Parts
		out.Lacks += d
	}
	for i, s := range m.heat.Climate {
		t.closing[i] += closing(s)
	}
	t.room += float64(j.Gap - m.heat.Least)
	t.reach += float64(reach - j.Gap)
	return out
}

func (out *Plan) warn(p joints.Plan) {
	for i, j := range out.Joints {
		if j.Verdict != Absorbs {
			out.Warnings = append(out.Warnings, fmt.Sprintf("joint %s at %.0f mm %v: its gap comes to %.2f mm (%s) and %.2f mm (%s); it lacks %.2f mm",
				j.Mark, float64(p.Joints[i].Chainage), j.Verdict, float64(j.Gap.Low), j.Gap.AtLow.Name, float64(j.Gap.High), j.Gap.AtHigh.Name, float64(j.Lacks)))
		}
	}
	for _, r := range out.Runs {
		if r.Lacks > 0 {
			out.Warnings = append(out.Warnings, fmt.Sprintf("the %v rail from %.0f to %.0f mm has no room: its joints together lack %.2f mm, however its panels slip",
				r.Rail, float64(p.Runs[r.Run].From), float64(p.Runs[r.Run].To), float64(r.Lacks)))
		}
	}
}
