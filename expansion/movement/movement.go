package movement

import (
	"fmt"

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
// govern its ends. In a state it is α_rail·Rail·ΔT_rail + α_base·Base·ΔT_base
// since laying; a gap has that of laying besides.
type Range struct {
	Low, High     measure.Length
	AtLow, AtHigh expansion.State
	Rail, Base    measure.Length // lengths of rail and base that move it, with the sign in which they do
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
	Run    int // index in the plan's Runs
	Rail   curve.Hand
	Joints int            // how many it has
	Closes Range          // what its joints close by, together, from laying
	Shut   measure.Length // Closes.High, the most that they close by; 0 where they never do
	Open   measure.Length // -Closes.Low, the most that they open by; 0 where they never do
	Room   measure.Length // that today's gaps leave above the least
	Reach  measure.Length // that they leave below the widest
	Lacks  measure.Length // Shut over Room, or Open over Reach, the larger; 0 where both fit
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
		totals[[2]int{int(r.Rail), r.Run}].fill(r, heat.Climate)
	}
	for _, b := range bases {
		out.Beds = append(out.Beds, Bed{b.Name, m.span(0, 0, m.on(b, b.From)), m.span(0, 0, m.on(b, b.To))})
	}
	out.warn(p)
	return out, nil
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
