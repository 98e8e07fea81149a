package fault

import (
	"math"

	"golang.org/x/exp/constraints"
)

// Least and Greatest bound what Size, Amount and Place take, in the quantity's
// own unit. Products of a few quantities within them neither overflow nor
// vanish, so that no result becomes infinite.
const (
	Least    = 1e-12
	Greatest = 1e18
)

// Size records a value that is not above zero, or not within Least and
// Greatest.
func Size[F constraints.Float](l *List, field string, v F) bool {
	return Positive(l, field, v) && Between(l, field, v, Least, Greatest)
}

// Amount records a value that is neither zero nor a Size.
func Amount[F constraints.Float](l *List, field string, v F) bool {
	return NotNegative(l, field, v) && (v == 0 || Between(l, field, v, Least, Greatest))
}

// Place records a value that is not finite or further than Greatest from zero.
func Place[F constraints.Float](l *List, field string, v F) bool {
	return Finite(l, field, v) && (math.Abs(float64(v)) <= Greatest || Between(l, field, v, -Greatest, Greatest))
}
