package export

import (
	"fmt"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// Points returns the stations of [curve.Alignment.Points]: along a range of
// the line, its ends and the ends of its elements among them, such that chords
// stay within tolerance of the line. At a kink it is the station that begins.
// A range over the start of a circuit has chainages past the length.
func Points(line *curve.Alignment, r Range, tolerance measure.Length) ([]curve.Station, error) {
	l := fault.In("export")
	fault.Positive(l, "tolerance", tolerance)
	spans(l, line, r)
	if !l.OK() {
		return nil, l.Err()
	}
	points, err := line.Points(r.From, r.end(line), tolerance)
	if err != nil {
		return nil, err
	}
	var out []curve.Station
	for s := range points {
		if len(out) == MaxPoints {
			l.Over("points", fmt.Sprintf("over %d", MaxPoints), fmt.Sprintf("must be %d or fewer; take a larger tolerance than %s or a shorter range", MaxPoints, mm(tolerance)))
			return nil, l.Err()
		}
		out = append(out, line.At(s))
	}
	return out, nil
}
