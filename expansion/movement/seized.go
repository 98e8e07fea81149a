package movement

import (
	"fmt"
	"math"
	"sort"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/expansion"
	"example.org/fourfoot/expansion/joints"
	"example.org/fourfoot/expansion/locked"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Sideways is how far one stretch of the line moves to the side when its
// joints have seized and its ends hold.
type Sideways struct {
	From, To  measure.Length
	Length    measure.Length  // of a straight; 0 of a curve
	Curve     bool            // else a straight, which may bow to either side
	Radius    measure.Length  // smallest of a curve, 0 of a straight
	Outwards  curve.Hand      // side to which a curve moves in heat; zero for a straight
	Shape     string          // that is assumed
	Allowance measure.Length  // room to keep at the side
	Turn      measure.Angle   // of a curve; 0 of a straight and of a ring
	Strain    float64         // by which the rail is too long for its base, at most; 0 where it never is
	At        expansion.State // the state in which it is
}

// Seized returns the sideways movement of every bend and of every straight
// between bends, over the base, should all joints seize as laid and the state
// then come in which the rail is longest for its base, by the strain
// α_rail·ΔT_rail - α_base·ΔT_base since laying: of two states with the rail as
// hot that with the colder base, and on a base that moves more than the rail
// one in winter. A bend is taken as an arc of its smallest radius and whole
// turn, held to the base where it begins and ends; one that turns a whole
// circle or more, and a ring, grow evenly. What holds the ends is taken to move
// with the base; where it stands on the ground instead, give no base expansion
// as well and keep the larger. Products of strains are left out: they change the
// result by at most the base's own strain, 0.5 % for 90e-6 per K and 50 K.
func Seized(line *curve.Alignment, heat joints.Heat) ([]Sideways, error) {
	l := fault.In("movement")
	if line == nil {
		l.Add("line", nil, "must be given")
		return nil, l.Err()
	}
	if err := checkHeat(heat); err != nil {
		return nil, err
	}
	var worst expansion.State
	strain := math.Inf(-1)
	for _, x := range heat.Climate {
		if e := strainAt(heat, x); e > strain {
			strain, worst = e, x
		}
	}
	strain = max(strain, 0)
	alpha, warming := asWarming(heat, strain)
	bends := profile.Bends(line)
	sort.Slice(bends, func(i, j int) bool { return bends[i].From < bends[j].From })
	var out []Sideways
	straight := func(from, to measure.Length) error {
		d := line.Span(from, to)
		if d < 1e-6 {
			return nil
		}
		b, err := locked.NewBow(d, alpha, warming)
		out = append(out, Sideways{From: from, To: to, Length: d, Shape: "half sine", Allowance: b.Allowance, Strain: strain, At: worst})
		return err
	}
	for i, b := range bends {
		turn := line.Turn(b.From, b.To)
		if turn < 0 {
			turn = -turn
		}
		shape, allowance, err := bend(b.Sharpest, turn, alpha, warming)
		if err != nil {
			return nil, fmt.Errorf("movement: bend at %.0f mm: %w", float64(b.From), err)
		}
		if i == 0 && !line.Closed() {
			if err := straight(0, b.From); err != nil {
				return nil, err
			}
		}
		out = append(out, Sideways{b.From, b.To, 0, true, b.Sharpest, b.Hand.Opposite(), shape, allowance, turn, strain, worst})
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

// strainAt returns by how much the rail has become too long for its base.
func strainAt(h joints.Heat, s expansion.State) float64 {
	return float64(float64(h.Rail)*float64(s.Rail.Sub(h.Laying.Rail))) - float64(float64(h.Base)*float64(s.Base.Sub(h.Laying.Base)))
}

// asWarming returns the strain as the warming of a rail on a base that stays,
// all that package locked's shapes depend on being the product. The sum of the
// two expansions keeps the warming within that of the rail or the base.
func asWarming(h joints.Heat, strain float64) (measure.Expansion, measure.TemperatureDifference) {
	alpha := min(h.Rail+h.Base, expansion.Steepest)
	if alpha == 0 {
		return 0, 0
	}
	return alpha, measure.TemperatureDifference(strain / float64(alpha))
}

func bend(radius measure.Length, turn measure.Angle, alpha measure.Expansion, warming measure.TemperatureDifference) (shape string, allowance measure.Length, err error) {
	if ring(turn) {
		allowance, err = locked.RingGrowth(radius, alpha, warming)
		return "whole circle", allowance, err
	}
	s, err := locked.NewShift(radius, turn, alpha, warming)
	if s.Allowance == s.Cosine {
		return "raised cosine, ends held in direction", s.Allowance, err
	}
	return "arc through held ends", s.Allowance, err
}

// ring says whether a bend grows as a whole circle; a ring's turn from its
// start to its start is none.
func ring(turn measure.Angle) bool { return turn == 0 || turn >= 2*math.Pi }
