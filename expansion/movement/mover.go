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

// total adds up the joints of a run over the states.
type total struct {
	closing     []float64
	joints      int
	rail, base  measure.Length
	room, reach float64
}

func (t total) fill(r *Run, climate []expansion.State) {
	r.Joints, r.Closes = t.joints, overStates(climate, t.rail, t.base, func(i int) float64 { return t.closing[i] })
	r.Shut, r.Open = max(r.Closes.High, 0), max(-r.Closes.Low, 0)
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
	l.Join(checkHeat(heat))
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

func checkHeat(h joints.Heat) error {
	l := fault.In("movement")
	_, err := h.Joint(1, 1).Travel(h.Climate)
	l.Join(err)
	l.JoinAs("laying", h.Laying.Validate())
	return l.Err()
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
	rail := measure.Length(side) * free
	if !m.ground {
		base = -rail
	}
	return m.over(rail, base, func(s expansion.State) float64 { return m.at(side, free, base, s) })
}

func (m mover) over(rail, base measure.Length, f func(expansion.State) float64) Range {
	climate := m.heat.Climate
	return overStates(climate, rail, base, func(i int) float64 { return f(climate[i]) })
}

func overStates(climate []expansion.State, rail, base measure.Length, f func(int) float64) Range {
	r := Range{Low: measure.Length(math.Inf(1)), High: measure.Length(math.Inf(-1)), Rail: rail, Base: base}
	for i, s := range climate {
		v := measure.Length(f(i))
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
	rail, base := -(j.Before + j.After), j.Before+j.After
	if m.ground {
		base = after - before
	}
	out := Joint{Mark: j.Mark, Gap: m.over(rail, base, func(s expansion.State) float64 { return float64(j.Gap) - closing(s) })}
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
	t.joints++
	t.rail, t.base = t.rail-rail, t.base-base
	t.room += float64(j.Gap - m.heat.Least)
	t.reach += float64(reach - j.Gap)
	return out
}
