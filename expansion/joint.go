package expansion

import (
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Side is the panel on one side of a joint: it slides from its fixed point,
// where it is held to the base, towards the joint.
type Side struct {
	Free measure.Length    // along the rail from the fixed point to the joint
	Rail measure.Expansion // of the rail
	Base measure.Expansion // of what the fixed points stand on; 0: it does not move
}

// A Joiner slides on both rails. It reaches as far as Engagement is left on
// each rail, both when it sits in the middle of the gap and when it has walked
// onto one rail until it meets the nearest fixing. The zero Joiner sets no
// limit.
type Joiner struct {
	Length     measure.Length
	Engagement measure.Length // to be left on each rail
	Stop       measure.Length // from the rail's end to the fixing that stops the joiner; 0: half its length, as when it is pinned to one rail
}

// Centred returns the widest gap with the joiner in the middle: J - 2e.
func (j Joiner) Centred() measure.Length { return j.Length - 2*j.Engagement }

// Walked returns the widest gap with the joiner walked fully onto one rail,
// seen from the other: J - stop - e.
func (j Joiner) Walked() measure.Length { return j.Length - j.stop() - j.Engagement }

func (j Joiner) stop() measure.Length {
	if j.Stop == 0 {
		return j.Length / 2
	}
	return j.Stop
}

// A Joint is a gap between two panels of rail. Its two sides may differ in
// length, in rail and in base.
type Joint struct {
	Before, After Side
	Least         measure.Length // g_min, the gap to be left at the tight end; 0: the rails may just touch
	Widest        measure.Length // the widest gap that the wheels may cross; 0: the wheels set no limit
	Joiner        Joiner
}

// EqualPanels returns the joint between two equal panels that are each held at
// their middle. The limits are still to be filled in.
func EqualPanels(panel measure.Length, rail, base measure.Expansion) Joint {
	s := Side{panel / 2, rail, base}
	return Joint{Before: s, After: s}
}

// A Limit names what sets the widest gap of a joint.
type Limit uint8

// What sets the widest gap.
const (
	Wheels        Limit = iota // the wheels cannot cross a wider one
	JoinerCentred              // the joiner, sitting in the middle
	JoinerWalked               // the joiner, walked fully onto one rail
)

// String returns the limit in words.
func (l Limit) String() string {
	switch l {
	case JoinerCentred:
		return "joiner, centred"
	case JoinerWalked:
		return "joiner, walked onto one rail"
	}
	return "wheels"
}

// Reach returns g_max, the widest gap that the joint may come to have, and
// what sets it.
func (j Joint) Reach() (measure.Length, Limit) {
	reach, by := j.Widest, Wheels
	if reach == 0 {
		reach = measure.Length(math.Inf(1))
	}
	if j.Joiner != (Joiner{}) {
		if c := j.Joiner.Centred(); c < reach {
			reach, by = c, JoinerCentred
		}
		if w := j.Joiner.Walked(); w < reach {
			reach, by = w, JoinerWalked
		}
	}
	return reach, by
}

// Validate reports everything in the joint that no call could take.
func (j Joint) Validate() error {
	l := fault.In("expansion")
	j.check(l)
	return l.Err()
}

func (j Joint) check(l *fault.List) {
	j.Before.check(l, "panel before the joint")
	j.After.check(l, "panel after the joint")
	ok := fault.NotNegative(l, "least gap", j.Least)
	ok = fault.NotNegative(l, "widest gap for wheels", j.Widest) && ok
	ok = j.Joiner.check(l) && ok
	if !ok {
		return
	}
	if j.Widest == 0 && j.Joiner == (Joiner{}) {
		l.Add("joint", nil, "give the joiner, or the widest gap that the wheels may cross")
		return
	}
	if g, by := j.Reach(); g < j.Least {
		l.Add("least gap", mm(j.Least), fmt.Sprintf("must not be above the widest, %s (%v)", mm(g), by))
	}
}

func (s Side) check(l *fault.List, field string) {
	if fault.NotNegative(l, field+": free length", s.Free) && s.Free > MaxFree {
		l.Over(field+": free length", mm(s.Free), "at most "+mm(MaxFree))
	}
	checkExpansion(l, field+": rail expansion", s.Rail)
	checkExpansion(l, field+": base expansion", s.Base)
}

// MaxFree is the longest free length of a side that is taken, 100 km.
const MaxFree = 100 * measure.Kilometre

// Steepest is the largest coefficient of expansion that is taken; a value
// above it was given without its 1e-6.
const Steepest = 1000 * measure.MicroPerKelvin

func checkExpansion(l *fault.List, field string, a measure.Expansion) {
	if fault.NotNegative(l, field, a) && a > Steepest {
		l.Add(field, fmt.Sprintf("%.4g per K", a.PerKelvins()), "must be at most 0.001 per K: was the 1e-6 forgotten?")
	}
}

func (j Joiner) check(l *fault.List) bool {
	ok := fault.NotNegative(l, "joiner length", j.Length)
	ok = fault.NotNegative(l, "joiner engagement", j.Engagement) && ok
	ok = fault.NotNegative(l, "joiner stop", j.Stop) && ok
	if !ok || j == (Joiner{}) {
		return ok
	}
	if j.Length == 0 {
		l.Add("joiner length", mm(j.Length), "must be more than 0 mm when its engagement or stop is given")
		return false
	}
	if j.Stop != 0 && j.Stop < j.Length/2 {
		l.Add("joiner stop", mm(j.Stop), "must be half the joiner or more, "+mm(j.Length/2)+", for the joiner to fit between the fixings of closed rails")
		ok = false
	}
	if w := j.Walked(); w < 0 {
		l.Add("joiner engagement", mm(j.Engagement), fmt.Sprintf("the joiner holds at most %s on the far rail once it has walked onto one: a longer joiner or a nearer stop", mm(j.Length-j.stop())))
		ok = false
	}
	return ok
}

// good is check without words, and without allocation.
func (j Joint) good() bool {
	if !(j.Before.good() && j.After.good() && j.Least >= 0 && j.Widest >= 0 && j.Widest < measure.Length(math.Inf(1))) {
		return false
	}
	if k := j.Joiner; k != (Joiner{}) {
		if !(k.Length > 0 && k.Length < measure.Length(math.Inf(1)) && k.Engagement >= 0 && k.Stop >= 0 && (k.Stop == 0 || k.Stop >= k.Length/2) && k.Walked() >= 0) {
			return false
		}
	} else if j.Widest == 0 {
		return false
	}
	g, _ := j.Reach()
	return j.Least <= g
}

func (s Side) good() bool {
	return s.Free >= 0 && s.Free <= MaxFree && s.Rail >= 0 && s.Rail <= Steepest && s.Base >= 0 && s.Base <= Steepest
}

// Closing returns by how much the gap closes between two states, m; negative
// where it opens. It is exactly 0 between equal temperatures.
func (j Joint) Closing(from, to State) measure.Length {
	a, b := j.rates()
	return measure.Length(at(a, b, to) - at(a, b, from))
}

// GapAt returns the gap at the state now of a joint that had the given gap at
// the state then. A negative gap has shut: the rails push on each other.
func (j Joint) GapAt(gap measure.Length, then, now State) measure.Length {
	return gap - j.Closing(then, now)
}

// rates returns the closing per kelvin of rail and the opening per kelvin of
// base, in mm/K.
func (j Joint) rates() (rail, base float64) {
	rail = float64(j.Before.Rail)*float64(j.Before.Free) + float64(j.After.Rail)*float64(j.After.Free)
	base = float64(j.Before.Base)*float64(j.Before.Free) + float64(j.After.Base)*float64(j.After.Free)
	return rail, base
}

// at is the closing at a state, from 0 °C.
func at(rail, base float64, s State) float64 {
	return float64(rail*float64(s.Rail)) - float64(base*float64(s.Base))
}

func mm(l measure.Length) string { return fmt.Sprintf("%.6g mm", l.Millimetres()) }
