package joints

import (
	"fmt"
	"math"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/expansion"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// Limits of work.
const (
	MaxPieces = 100_000
	MaxPlaces = 1000       // objects, anchors, zones, each
	MaxWork   = 20_000_000 // joints times the states of the climate
)

// A Pattern says how the joints of the two rails stand to each other.
type Pattern uint8

// The patterns.
const (
	Square    Pattern = iota // at one chainage
	Staggered                // the right rail's half way between the left rail's
)

// String returns "square" or "staggered".
func (p Pattern) String() string {
	if p == Staggered {
		return "staggered"
	}
	return "square"
}

// Stock is rail as it is bought, or offcuts in the shed.
type Stock struct {
	Length measure.Length
	Count  int // how many there are; 0: as many as are needed
}

// An Object is a stretch of the line that brings its own rail: a turnout, a
// lift-out bridge. The planned rail has a joint at each end of it.
type Object struct {
	Name     string
	From, To measure.Length // on a circuit To may lie below From
	Free     measure.Length // rail of its own that slides towards the joint at each end; 0: it is held there
}

// An Anchor is a place where the rail itself is held: a bridge end, a
// building, a cattle grid.
type Anchor struct {
	Name string
	At   measure.Length
}

// A Zone is a stretch that is to have no joint: inside a tunnel, near the end
// of a structure. A joint at its very end is allowed.
type Zone struct {
	Name     string
	From, To measure.Length // on a circuit To may lie below From
}

// Heat is what decides the gap at each joint: the rail, what it lies on, the
// limits of every joint and the temperatures. The fields are those of
// expansion.Joint and its calls.
type Heat struct {
	Rail, Base measure.Expansion
	Least      measure.Length
	Widest     measure.Length
	Joiner     expansion.Joiner
	Laying     expansion.State
	Climate    []expansion.State
}

// Joint returns the joint between two free lengths.
func (h Heat) Joint(before, after measure.Length) expansion.Joint {
	return expansion.Joint{
		Before: expansion.Side{Free: before, Rail: h.Rail, Base: h.Base},
		After:  expansion.Side{Free: after, Rail: h.Rail, Base: h.Base},
		Least:  h.Least, Widest: h.Widest, Joiner: h.Joiner,
	}
}

// Sleepers say how the line is sleepered and fixed. The zero value orders none.
type Sleepers struct {
	Pitch      measure.Length // centre to centre, at most
	JointPitch measure.Length // of the two that stand either side of a joint; 0: as Pitch
	Fixings    int            // to a sleeper, both rails together; 0: 4
}

// A Spec is what a line of rail is to be. RailCentres and Stock must be given.
type Spec struct {
	Level       profile.Level  // zero: level all along
	From, To    measure.Length // both zero: the whole line; on a circuit From is where laying begins if there is no object, To equal to From is once round
	RailCentres measure.Length // distance of the rail-head centres, gauge + head width
	Stock       []Stock
	Panel       measure.Length // the longest piece to lay; 0: the longest stock
	Shortest    measure.Length // no two joints closer than this along the centreline where it can be helped; 0: a quarter of Panel
	Kerf        measure.Length // lost at each cut
	Gap         measure.Length // the feeler for every joint; 0: with Heat, the middle of what two full panels permit; without, rails touch
	Pattern     Pattern
	Objects     []Object
	Anchors     []Anchor
	Zones       []Zone
	Heat        *Heat // nil: Gap is used everywhere and nothing is said of temperatures
	Sleepers    Sleepers
}

func (s Spec) panel() measure.Length {
	if s.Panel > 0 {
		return s.Panel
	}
	return longest(s.Stock)
}

func (s Spec) shortest() measure.Length {
	if s.Shortest > 0 {
		return s.Shortest
	}
	return s.panel() / 4
}

func longest(stock []Stock) measure.Length {
	var m measure.Length
	for _, k := range stock {
		m = max(m, k.Length)
	}
	return m
}

func (s Spec) check(l *fault.List, line *curve.Alignment) {
	if line == nil {
		l.Add("line", nil, "must be given")
		return
	}
	if fault.Positive(l, "rail centres", s.RailCentres) {
		for i, e := range line.Elements() {
			k := math.Max(math.Abs(float64(e.StartCurvature())), math.Abs(float64(e.EndCurvature())))
			if k*float64(s.RailCentres) > 1 {
				l.Add("rail centres", mm(s.RailCentres), fmt.Sprintf("must not be more than the smallest radius, %s in element %d", mm(measure.Length(1/k)), i+1))
				break
			}
		}
	}
	checkStock(l, s.Stock)
	ok := fault.NotNegative(l, "panel", s.Panel)
	ok = fault.NotNegative(l, "shortest piece", s.Shortest) && ok
	fault.NotNegative(l, "saw kerf", s.Kerf)
	fault.NotNegative(l, "gap", s.Gap)
	if m := longest(s.Stock); ok && s.Panel > m {
		l.Add("panel", mm(s.Panel), "must not be longer than the longest stock, "+mm(m))
	}
	if ok && l.OK() && s.shortest() > s.panel()/2 {
		l.Add("shortest piece", mm(s.shortest()), "must be at most half a panel, "+mm(s.panel()/2))
	}
	if ok && l.OK() && s.Gap > s.panel()/2 {
		l.Add("gap", mm(s.Gap), "must be less than half a panel")
	}
	if s.Pattern > Staggered {
		l.Add("pattern", s.Pattern, "must be Square or Staggered")
	}
	if s.Sleepers != (Sleepers{}) {
		fault.Positive(l, "sleeper pitch", s.Sleepers.Pitch)
		fault.NotNegative(l, "sleeper pitch at joints", s.Sleepers.JointPitch)
		if s.Sleepers.Fixings < 0 {
			l.Add("fixings to a sleeper", s.Sleepers.Fixings, "must be 0 or more")
		}
	}
	circuit, loops := s.Level.Circuit()
	switch {
	case line.Closed() && loops && math.Abs(float64(circuit-line.Length())) > 1e-6:
		l.Add("level", "that repeats after "+mm(circuit), "must repeat after the length of the circuit, "+mm(line.Length()))
	case line.Closed() && !loops && !flat(s.Level):
		l.Add("level", nil, "of a circuit must be made with profile.NewClosedLevel")
	case !line.Closed() && loops && !flat(s.Level):
		l.Add("level", nil, "of an open line must be made with profile.NewLevel")
	}
	places(l, "object", len(s.Objects))
	places(l, "anchor", len(s.Anchors))
	places(l, "zone", len(s.Zones))
}

func places(l *fault.List, what string, n int) {
	if n > MaxPlaces {
		l.Over(what+"s", n, fmt.Sprintf("at most %d", MaxPlaces))
	}
}

func checkStock(l *fault.List, stock []Stock) {
	if len(stock) == 0 {
		l.Add("stock", nil, "must hold one length or more")
	}
	if len(stock) > 1000 {
		l.Over("stock", fmt.Sprintf("of %d lengths", len(stock)), "at most 1000")
		return
	}
	for i, k := range stock {
		fault.Positive(l, fmt.Sprintf("stock %d: length", i+1), k.Length)
		if k.Count < 0 {
			l.Add(fmt.Sprintf("stock %d: count", i+1), k.Count, "must be 0 (no limit) or more")
		}
	}
}

func mm(l measure.Length) string { return fmt.Sprintf("%.7g mm", l.Millimetres()) }
