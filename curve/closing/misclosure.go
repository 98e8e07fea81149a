package closing

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// A Misclosure is by how much the end of a line misses its start.
type Misclosure struct {
	Gap     r2.Vec         // from the start to the end
	Along   measure.Length // of the gap in the direction of the start, positive past it
	Across  measure.Length // of the gap to the left of the start
	Heading measure.Angle  // of the end against the start, left positive, whole turns taken off
}

// Distance returns the length of the gap.
func (m Misclosure) Distance() measure.Length { return measure.Length(r2.Norm(m.Gap)) }

// MisclosureOf returns by how much the line misses its start.
func MisclosureOf(a *curve.Alignment) Misclosure { return misclosure(a.Start(), a.End()) }

func misclosure(start, end curve.Pose) Misclosure {
	gap := r2.Sub(end.Point, start.Point)
	sin, cos := math.Sincos(float64(start.Heading))
	return Misclosure{
		Gap:     gap,
		Along:   measure.Length(cos*gap.X + sin*gap.Y),
		Across:  measure.Length(cos*gap.Y - sin*gap.X),
		Heading: measure.Angle(math.Remainder(float64(end.Heading-start.Heading), 2*math.Pi)),
	}
}
