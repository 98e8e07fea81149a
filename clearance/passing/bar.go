package passing

import (
	"fmt"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Bar is the spacer bar that sets two tracks of one gauge apart, by each of
// the ways in which one may be cut and held:
//
//	  track 1              track 2
//	 ▌   |   ▐            ▌   |   ▐
//	     |<-------Centres---->|
//	         ▐<BetweenRails>▌          the clear space, a bar laid between
//	        |<-OverNearRails->|        a bar notched over both near rails
//	|<-----------OverAllRails------->| a bar across the whole
//
// Measured square to the tracks.
type Bar struct {
	Centres       measure.Length // track centre to track centre
	BetweenRails  measure.Length // between the two near rails, from head to head: the faces that look at each other
	OverNearRails measure.Length // over the two near rails, from running edge to running edge: the six-foot as railways measure it
	OverAllRails  measure.Length // over all four rails, outer face to outer face
}

// SpacerBar returns the spacer bar for a spacing centre to centre. gauge is
// between the running edges, head the width of a rail's head, as rail.Section
// has it.
//
// It wraps measure.ErrNoAnswer where the near rails would not be apart.
func SpacerBar(centres, gauge, head measure.Length) (Bar, error) {
	l := fault.In("passing")
	ok := fault.Size(l, "centres", centres)
	ok = checkRails(l, gauge, head) && ok
	if ok && centres-gauge-2*head <= 0 {
		l.NoAnswer("centres", centres, fmt.Sprintf("leave no space between the near rails: take more than %v", gauge+2*head))
	}
	if err := l.Err(); err != nil {
		return Bar{}, err
	}
	return bar(centres, gauge, head), nil
}

// BarBetweenRails returns the spacer bar for a clear space between the two near
// rails, from head to head.
func BarBetweenRails(betweenRails, gauge, head measure.Length) (Bar, error) {
	l := fault.In("passing")
	fault.Size(l, "between rails", betweenRails)
	checkRails(l, gauge, head)
	if err := l.Err(); err != nil {
		return Bar{}, err
	}
	b := bar(betweenRails+gauge+2*head, gauge, head)
	b.BetweenRails = betweenRails
	return b, nil
}

func checkRails(l *fault.List, gauge, head measure.Length) bool {
	ok := fault.Size(l, "gauge", gauge)
	if !fault.Size(l, "width of the rail head", head) {
		return false
	}
	if ok && head >= gauge {
		l.Add("width of the rail head", head, fmt.Sprintf("must be below the gauge, %v", gauge))
		return false
	}
	return ok
}

func bar(centres, gauge, head measure.Length) Bar {
	return Bar{Centres: centres, BetweenRails: centres - gauge - 2*head, OverNearRails: centres - gauge, OverAllRails: centres + gauge + 2*head}
}
