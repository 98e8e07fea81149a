package movement

import (
	"fmt"
	"math"
	"sort"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/expansion/joints"
	"example.org/fourfoot/expansion/locked"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Sideways is how far one stretch of the line moves to the side when its
// joints have seized and its ends hold.
type Sideways struct {
	From, To  measure.Length
	Curve     bool           // else a straight, which may bow to either side
	Radius    measure.Length // smallest of a curve, 0 of a straight
	Outwards  curve.Hand     // side to which a curve moves in heat; zero for a straight
	Shape     string         // that is assumed
	Allowance measure.Length // room to keep at the side
}

// Seized returns the sideways movement of every bend and of every straight
// between bends, should all joints seize as laid and the rail then come to its
// hottest. A bend is taken as an arc of its smallest radius and whole turn,
// held where it begins and ends; one that turns a whole circle or more, and a
// ring, grow evenly. The base is taken to stay as it was at laying.
func Seized(line *curve.Alignment, heat joints.Heat) ([]Sideways, error) {
	l := fault.In("movement")
	if line == nil {
		l.Add("line", nil, "must be given")
		return nil, l.Err()
	}
	if err := checkHeat(heat); err != nil {
		return nil, err
	}
	hot := heat.Climate[0].Rail
	for _, s := range heat.Climate {
		hot = max(hot, s.Rail)
	}
	warming := max(hot.Sub(heat.Laying.Rail), 0)
	bends := profile.Bends(line)
	sort.Slice(bends, func(i, j int) bool { return bends[i].From < bends[j].From })
	var out []Sideways
	straight := func(from, to measure.Length) error {
		d := line.Span(from, to)
		if d < 1e-6 {
			return nil
		}
		b, err := locked.NewBow(d, heat.Rail, warming)
		out = append(out, Sideways{From: from, To: to, Shape: "half sine", Allowance: b.Allowance})
		return err
	}
	for i, b := range bends {
		turn := line.Turn(b.From, b.To)
		if turn < 0 {
			turn = -turn
		}
		shape, allowance, err := bend(b.Sharpest, turn, heat.Rail, warming)
		if err != nil {
			return nil, fmt.Errorf("movement: bend at %.0f mm: %w", float64(b.From), err)
		}
		if i == 0 && !line.Closed() {
			if err := straight(0, b.From); err != nil {
				return nil, err
			}
		}
		out = append(out, Sideways{b.From, b.To, true, b.Sharpest, b.Hand.Opposite(), shape, allowance})
		next := line.Length()
		if i+1 < len(bends) {
			next = bends[i+1].From
		} else if line.Closed() {
			next = bends[0].From
		}
		if err := straight(b.To, next); err != nil {
			return nil, err
		}
	}
	if len(bends) == 0 {
		if err := straight(0, line.Length()); err != nil {
			return nil, err
		}
	}
	return out, nil
}

func bend(radius measure.Length, turn measure.Angle, alpha measure.Expansion, warming measure.TemperatureDifference) (shape string, allowance measure.Length, err error) {
	if turn == 0 || turn >= 2*math.Pi { // a ring's turn from its start to its start is none
		allowance, err = locked.RingGrowth(radius, alpha, warming)
		return "whole circle", allowance, err
	}
	s, err := locked.NewShift(radius, turn, alpha, warming)
	if s.Allowance == s.Cosine {
		return "raised cosine, ends held in direction", s.Allowance, err
	}
	return "arc through held ends", s.Allowance, err
}
