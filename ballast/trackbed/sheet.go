package trackbed

import (
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/caution"
	"example.org/fourfoot/internal/fault"
)

// A Sheet is felt, geotextile or membrane from the roll.
type Sheet struct {
	Name       string
	RollWidth  measure.Length
	RollLength measure.Length
	SideLap    measure.Length // of strips that lie side by side
	EndLap     measure.Length // of pieces that follow one another
}

// A Covering is what covers a strip of ground or board.
type Covering struct {
	Name     string
	Net      measure.Area   // covered
	Sheet    measure.Area   // used, laps included
	Across   int            // strips side by side, where the roll is too narrow
	Slit     int            // strips slit from one roll's width, where it is wide enough for several
	Strip    measure.Length // total length of strips of the width needed, end laps included
	Rolls    int            // strips cut from whole rolls, joined with end laps
	EndLaps  int
	Cautions []string
}

// Cover returns what covers a strip of the given width and length: as many
// widths of the roll side by side as that takes, or several strips slit from
// one roll. On a curve give the length of the longer edge.
func (s Sheet) Cover(width, length measure.Length) (Covering, error) {
	l := fault.In("trackbed")
	at := "sheet"
	if s.Name != "" {
		at = s.Name
	}
	fault.Size(l, at+": width to cover", width)
	fault.Size(l, at+": length to cover", length)
	w := fault.Size(l, at+": roll width", s.RollWidth)
	n := fault.Size(l, at+": roll length", s.RollLength)
	if fault.Amount(l, at+": side lap", s.SideLap) && w && s.SideLap >= s.RollWidth {
		l.Add(at+": side lap", s.SideLap, fmt.Sprintf("must be less than the roll's width, %v", s.RollWidth))
	}
	if fault.Amount(l, at+": end lap", s.EndLap) && n && s.EndLap >= s.RollLength {
		l.Add(at+": end lap", s.EndLap, fmt.Sprintf("must be less than the roll's length, %v", s.RollLength))
	}
	if !l.OK() {
		return Covering{}, l.Err()
	}
	c := Covering{Name: s.Name, Net: width.By(length), Across: 1, Slit: 1, Cautions: []string{caution.Treated, caution.Lifting}}
	used := width
	if width > s.RollWidth*(1+1e-12) {
		across := math.Ceil(float64((width-s.SideLap)/(s.RollWidth-s.SideLap)) * (1 - 1e-12))
		if across > MaxPieces {
			l.Over(at+": strips side by side", across, fmt.Sprintf("at most %d", MaxPieces))
			return Covering{}, l.Err()
		}
		c.Across = int(across)
		used = s.RollWidth
	} else {
		slit := math.Floor(float64(s.RollWidth/width) * (1 + 1e-12))
		if slit > MaxPieces {
			l.Over(at+": strips slit from a roll", slit, fmt.Sprintf("at most %d", MaxPieces))
			return Covering{}, l.Err()
		}
		c.Slit = int(slit)
	}
	// One strip of length L from pieces p long that lap by e: k pieces reach
	// k·p - (k-1)·e. Strips that lie side by side are cut one after another from
	// the same rolls, so that each starts with what the last one left.
	perStrip := math.Ceil(float64((length-s.EndLap)/(s.RollLength-s.EndLap)) * (1 - 1e-12))
	if perStrip*float64(c.Across) > MaxPieces {
		l.Over(at+": rolls", perStrip, fmt.Sprintf("at most %d", MaxPieces))
		return Covering{}, l.Err()
	}
	pieces, left := 0, 0.0
	laps := 0
	total := 0.0
	for range c.Across {
		need := float64(length)
		for need > 1e-9*float64(length) {
			if left <= float64(s.EndLap) || left <= 0 {
				left = float64(s.RollLength)
				pieces++
			}
			take := math.Min(left, need)
			left -= take
			total += take
			if need -= take; need > 1e-9*float64(length) {
				need += float64(s.EndLap)
				laps++
			}
		}
	}
	c.EndLaps, c.Strip = laps, measure.Length(total)
	c.Sheet = used.By(c.Strip)
	c.Rolls = (pieces + c.Slit - 1) / c.Slit
	return c, nil
}
