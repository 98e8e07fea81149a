package joints

import (
	"example.org/fourfoot/expansion"
	"example.org/fourfoot/gauge/measure"
)

// Rates returns the change of Least and of Most per unit of each input, for
// the heat that the plan was made with. Gap goes with the end at which it
// stands, between them with the feeler alone.
func (j Joint) Rates(heat Heat) (least, most []expansion.Rate[measure.Length], err error) {
	return heat.Joint(j.Before, j.After).Rates(heat.Laying, heat.Climate)
}

// Rates returns the change of the length to cut per unit of each measured
// input, its joints staying where they are; Trim goes against it. The gap at
// an end of the line is none.
func (q Piece) Rates() []expansion.Rate[measure.Length] {
	return []expansion.Rate[measure.Length]{
		{Input: "rail centres", Per: "1 mm", By: q.perCentres(q.Turn)},
		{Input: "gap at its beginning", Per: "1 mm", By: measure.Length(-q.lead)},
		{Input: "gap at its end", Per: "1 mm", By: measure.Length(-q.tail)},
	}
}

// FreeRates returns the change of Back and of Ahead per unit of each measured
// input, its joints staying where they are.
func (q Piece) FreeRates() (back, ahead []expansion.Rate[measure.Length]) {
	back = []expansion.Rate[measure.Length]{
		{Input: "rail centres", Per: "1 mm", By: q.perCentres(q.turnBack)},
		{Input: "gap at its beginning", Per: "1 mm", By: measure.Length(-q.lead)},
	}
	ahead = []expansion.Rate[measure.Length]{
		{Input: "rail centres", Per: "1 mm", By: q.perCentres(q.Turn - q.turnBack)},
		{Input: "gap at its end", Per: "1 mm", By: measure.Length(-q.tail)},
	}
	if q.Anchor != "" {
		back = append(back, expansion.Rate[measure.Length]{Input: "chainage of its anchor", Per: "1 mm", By: measure.Length(q.atAnchor)})
		ahead = append(ahead, expansion.Rate[measure.Length]{Input: "chainage of its anchor", Per: "1 mm", By: measure.Length(-q.atAnchor)})
	}
	return back, ahead
}

func (q Piece) perCentres(turn measure.Angle) measure.Length {
	return measure.Length(-float64(q.Rail) / 2 * float64(turn))
}

// Rates returns the change of Left and of Right per unit of each measured
// input, as Piece.Rates does. That of Trim is the difference of the two.
func (f FlexLength) Rates() (left, right []expansion.Rate[measure.Length]) {
	return f.left.Rates(), f.right.Rates()
}
