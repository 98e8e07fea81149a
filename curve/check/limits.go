package check

import (
	"fmt"

	"example.org/fourfoot/gauge/measure"
)

// Limits are what [Line] holds a line to. A zero field is not
// checked, but for MaxKink, where zero allows no kink.
type Limits struct {
	MinRadius measure.Length // smallest radius
	MaxKink   measure.Angle  // largest sudden turn of the heading

	// MaxJump is the largest sudden change of curvature: 1/R lets a straight
	// lead into an arc of radius R without an easement (NEM 113: easements may
	// be left out above a radius of 60 gauges).
	MaxJump measure.Curvature

	MinEasement measure.Length // shortest easement

	// MinParameter is the smallest clothoid parameter A: the curvature may
	// change by 1/A² a millimetre, and an easement from a straight to R must
	// be A²/R long if a clothoid, 1.5 times as long if Bloss, π/2 if cosine,
	// twice if sine or Helmert.
	MinParameter measure.Length

	// MinStraight is the shortest straight between curves of opposite hand,
	// unless easements lead out of the one and into the other.
	MinStraight measure.Length
}

// A Defect is a kind of finding.
type Defect uint8

// The defects, in the order of the limits.
const (
	TooSharp Defect = iota + 1
	Kinked
	CurvatureJumps
	EasementTooShort
	CurvatureTooQuick
	StraightTooShort
)

var defectNames = [...]string{
	"no defect", "radius", "kink", "jump of curvature", "length of easement",
	"clothoid parameter of easement", "straight between reverse curves",
}

// String names what was measured, as in "radius".
func (d Defect) String() string {
	if int(d) < len(defectNames) {
		return defectNames[d]
	}
	return "unknown defect"
}

// A Finding is a place where a line breaks a limit.
type Finding struct {
	Defect   Defect
	Element  int            // from 0: that is at fault, or that begins at the joint at fault
	Chainage measure.Length // of the place, or where it begins
	Value    fmt.Stringer   // a measure.Length, or of a kink a measure.Angle, of a jump a measure.Curvature
	Limit    fmt.Stringer   // of the same type
}

// String returns the finding as a sentence.
func (f Finding) String() string {
	bound := "at least"
	if f.Defect == Kinked || f.Defect == CurvatureJumps {
		bound = "at most"
	}
	return fmt.Sprintf("element %d at chainage %v: %v %v: must be %s %v", f.Element+1, f.Chainage, f.Defect, f.Value, bound, f.Limit)
}
