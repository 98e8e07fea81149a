package ballast

import (
	"fmt"
	"math"

	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// DefaultSlope is the side slope of ballast, horizontal over vertical, that a
// Section takes when it states none: 1:1.25 (NEM 122, edition 2007).
const DefaultSlope = 1.25

// MaxTracks is the most tracks that one section may carry.
const MaxTracks = 8

// A Sleeper is a block of the stated length (across the track), width (along
// it) and height.
type Sleeper struct {
	Length, Width, Height measure.Length
}

// Volume returns the volume of the whole sleeper.
func (s Sleeper) Volume() measure.Volume { return s.Length.By(s.Width).By(s.Height) }

// A Section is the shape of the compacted bed across the line: ballast on level
// ground, up to a surface parallel to the sleepers, with sloping or upright
// sides, and perhaps a trench below ground. Heights count from the undersides
// of the sleepers, widths in plan. Its area counts sleepers and all: they are
// deducted one by one in TakeOff.
type Section struct {
	Depth   measure.Length // of ballast under the sleeper, where there is no cant; 0 for sleepers on a board
	Sleeper Sleeper

	TopWidth measure.Length // of one track's bed at its surface; 0: the sleeper and two shoulders
	Shoulder measure.Length // from the sleeper's end to the edge of the top; 0 when TopWidth says it
	Slope    float64        // of the sides, horizontal over vertical, 1 to 10; 0 means DefaultSlope
	Kerbed   bool           // the sides are upright, held by kerbs or boards

	Crib          measure.Length // height of the ballast between the sleepers, over their undersides; 0: flush with their tops
	OpenCribs     bool           // no ballast at all between the sleepers; Crib is then 0
	ShoulderLevel measure.Length // height of the ballast beyond the sleepers' ends; 0: as the cribs

	Tracks []measure.Length // offsets of the tracks from the line, left positive; none: one track on the line
	Filled bool             // the spaces between the tracks are filled up to the shoulders

	TrenchWidth measure.Length // of a trench with upright sides about the line, filled with ballast; 0: none
	TrenchDepth measure.Length // of the trench below the ground; Depth counts from its bottom

	Formation measure.Length // width of the prepared ground about the line; the toes must stay on it; 0: not checked
}

// shape is a Section in numbers that can be mixed linearly: every default is
// filled in.
type shape struct {
	depth, sleeper, sleeperH, top, slope, crib, shoulder float64
	trenchW, trenchD, formation                          float64
	tracks                                               []float64
	filled                                               bool
}

// Validate reports everything that is wrong with the section.
func (s Section) Validate() error {
	l := fault.In("ballast")
	s.check(l, "")
	return l.Err()
}

func (s Section) check(l *fault.List, at string) {
	fault.Amount(l, at+"depth under the sleeper", s.Depth)
	sized := fault.Size(l, at+"sleeper length", s.Sleeper.Length)
	fault.Size(l, at+"sleeper width", s.Sleeper.Width)
	fault.Size(l, at+"sleeper height", s.Sleeper.Height)
	wide := fault.Amount(l, at+"top width", s.TopWidth)
	fault.Amount(l, at+"shoulder", s.Shoulder)
	fault.Amount(l, at+"crib level", s.Crib)
	fault.Amount(l, at+"shoulder level", s.ShoulderLevel)
	fault.Amount(l, at+"trench width", s.TrenchWidth)
	fault.Amount(l, at+"trench depth", s.TrenchDepth)
	fault.Amount(l, at+"formation width", s.Formation)
	switch {
	case !fault.Place(l, at+"slope", s.Slope):
	case s.Kerbed && s.Slope != 0:
		l.Add(at+"slope", s.Slope, "must be 0 where kerbs hold the sides upright")
	case s.Slope > 10:
		l.Add(at+"slope", s.Slope, "must be at most 10, horizontal over vertical")
	case s.Slope != 0 && s.Slope < 1:
		l.Add(at+"slope", s.Slope, "must be 1 or more, horizontal over vertical: loose stone does not stand steeper than 1:1. "+
			"Was it given the wrong way up (1 up on 1.25 across is 1.25)? For upright sides use kerbs")
	}
	if sized && wide && s.TopWidth > 0 {
		if s.Sleeper.Length > s.TopWidth {
			l.Add(at+"sleeper length", s.Sleeper.Length, fmt.Sprintf("must be at most the top width, %v", s.TopWidth))
		} else if s.Shoulder > 0 && math.Abs(float64(s.Sleeper.Length+2*s.Shoulder-s.TopWidth)) > 1e-6 {
			l.Add(at+"shoulder", s.Shoulder, fmt.Sprintf("must be 0 or %v: the top width says it", (s.TopWidth-s.Sleeper.Length)/2))
		}
	}
	if s.OpenCribs && s.Crib != 0 {
		l.Add(at+"crib level", s.Crib, "must be 0 when the cribs are open")
	}
	if (s.TrenchWidth > 0) != (s.TrenchDepth > 0) {
		l.Add(at+"trench", fmt.Sprintf("%v wide, %v deep", s.TrenchWidth, s.TrenchDepth), "needs a width and a depth, or neither")
	}
	if s.Formation > 0 && s.Formation < s.Sleeper.Length {
		l.Add(at+"formation width", s.Formation, fmt.Sprintf("is narrower than the sleeper, %v", s.Sleeper.Length))
	}
	if len(s.Tracks) > MaxTracks {
		l.Over(at+"tracks", len(s.Tracks), fmt.Sprintf("at most %d", MaxTracks))
		return
	}
	reach := 0.0
	for i, t := range s.Tracks {
		fault.Place(l, fmt.Sprintf("%soffset of track %d", at, i+1), t)
		if i > 0 && t <= s.Tracks[i-1] {
			l.Add(fmt.Sprintf("%soffset of track %d", at, i+1), t, fmt.Sprintf("must be more than that of the track before, %v", s.Tracks[i-1]))
		}
		reach = max(reach, math.Abs(float64(t)))
	}
	if s.TrenchDepth > s.Depth && float64(s.TrenchWidth) < 2*reach+float64(s.Sleeper.Length) {
		l.Add(at+"trench width", s.TrenchWidth, fmt.Sprintf("is narrower than the sleepers that lie in it: must be at least %v", measure.Length(2*reach)+s.Sleeper.Length))
	}
}

// shape returns the section in numbers; it must be valid.
func (s Section) shape() shape {
	g := shape{
		depth: float64(s.Depth), sleeper: float64(s.Sleeper.Length), sleeperH: float64(s.Sleeper.Height),
		top: float64(s.TopWidth), slope: s.Slope, crib: float64(s.Crib), shoulder: float64(s.ShoulderLevel),
		trenchW: float64(s.TrenchWidth), trenchD: float64(s.TrenchDepth), formation: float64(s.Formation),
		filled: s.Filled,
	}
	if g.top == 0 {
		g.top = g.sleeper + 2*float64(s.Shoulder)
	}
	if g.slope == 0 && !s.Kerbed {
		g.slope = DefaultSlope
	}
	if g.crib == 0 && !s.OpenCribs {
		g.crib = g.sleeperH
	}
	if g.shoulder == 0 {
		g.shoulder = g.crib
	}
	for _, t := range s.Tracks {
		g.tracks = append(g.tracks, float64(t))
	}
	if len(g.tracks) == 0 {
		g.tracks = []float64{0}
	}
	return g
}

// mix fills dst with the shape at the part u of the way from a to b.
func (a *shape) mix(b *shape, u float64, dst *shape) {
	f := func(x, y float64) float64 { return x + u*(y-x) }
	dst.depth, dst.sleeper, dst.sleeperH = f(a.depth, b.depth), f(a.sleeper, b.sleeper), f(a.sleeperH, b.sleeperH)
	dst.top, dst.slope = f(a.top, b.top), f(a.slope, b.slope)
	dst.crib, dst.shoulder = f(a.crib, b.crib), f(a.shoulder, b.shoulder)
	dst.formation = f(a.formation, b.formation)
	dst.trenchD = f(a.trenchD, b.trenchD)
	switch { // a trench that runs out keeps its width and loses its depth
	case a.trenchD == 0:
		dst.trenchW = b.trenchW
	case b.trenchD == 0:
		dst.trenchW = a.trenchW
	default:
		dst.trenchW = f(a.trenchW, b.trenchW)
	}
	dst.filled = a.filled
	dst.tracks = dst.tracks[:0]
	for i := range a.tracks {
		dst.tracks = append(dst.tracks, f(a.tracks[i], b.tracks[i]))
	}
}

// Area returns the area of the compacted section without cant, sleepers and
// all.
func (s Section) Area() (measure.Area, error) {
	o, err := s.Outline(0, 1, profile.InnerRail)
	return o.Area, err
}
