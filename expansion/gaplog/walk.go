package gaplog

import (
	"math"

	"example.org/fourfoot/gauge/measure"
)

// A Walk is a panel that has moved along the line as a whole.
type Walk struct {
	From, To string         // marks of the joints at its ends; To is "" at the end of a run
	By       measure.Length // positive in the running direction
	Error    measure.Length // the reading errors of the joints up to it, added up
}

// walks adds the offsets up along each run. A joint that was not read ends
// what can be told of its run.
func walks(joints []Joint, findings []Finding, s Settings) []Walk {
	var out []Walk
	var by, err measure.Length
	known := false
	for i, j := range joints {
		if i == 0 || joints[i-1].Run != j.Run {
			by, err, known = 0, 0, true
		}
		if findings[i].Verdict == Unread {
			known = false
		}
		if !known {
			continue
		}
		by += findings[i].Offset
		err += s.Error
		if measure.Length(math.Abs(float64(by))) > err {
			w := Walk{From: j.Mark, By: by, Error: err}
			if i+1 < len(joints) && joints[i+1].Run == j.Run {
				w.To = joints[i+1].Mark
			}
			out = append(out, w)
		}
	}
	return out
}
