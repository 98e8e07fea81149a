package gauge

import (
	"math"
	"math/big"
	"strconv"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// The range of scales that this package takes. Within it no conversion of a
// garden railway's quantities comes near the ends of a float64.
const (
	LeastRatio    = 1    // full size
	GreatestRatio = 1000 // 1:1000
)

// A Scale is the proportion of a model, held as an exact fraction: 1:22.5 is
// 45/2, and 7/8 in/ft is 96/7 with nothing lost. It remembers how it was
// written, so that 16 mm/ft prints as 16 mm/ft and not as 1:19.05; use Equal to
// ask for the same proportion, == to ask for the same proportion written the
// same way.
//
// Scales are immutable and comparable. The zero Scale is full size, 1:1.
type Scale struct {
	num, den uint64  // full size over model, in lowest terms; 0, 0 is 1, 1
	ratio    float64 // num/den, rounded once
	form     form
}

type form uint8

const (
	oneTo     form = iota // 1:22.5
	mmPerFoot             // 16 mm/ft
	inPerFoot             // 7/8 in/ft
)

// NewScale returns the scale 1:n, n as the shortest decimal that is the same
// float64: NewScale(22.5) is 1:22.5 and NewScale(20.3) is 1:20.3 exactly.
func NewScale(n float64) (Scale, error) {
	l := fault.In("gauge")
	if !fault.Between(l, "scale ratio", n, LeastRatio, GreatestRatio) {
		return Scale{}, l.Err()
	}
	r := shortest(n)
	s, ok := newScale(r, oneTo)
	if !ok {
		l.Add("scale ratio", n, tooFine)
	}
	return s, l.Err()
}

const tooFine = "must be written with fewer digits"

// shortest returns the shortest decimal that rounds to the finite x.
func shortest(x float64) *big.Rat {
	r, _ := new(big.Rat).SetString(strconv.FormatFloat(x, 'f', -1, 64))
	return r
}

// newScale returns the scale whose ratio is r > 0, and whether its terms are
// small enough to be held.
func newScale(r *big.Rat, f form) (Scale, bool) {
	if !r.Num().IsUint64() || !r.Denom().IsUint64() {
		return Scale{}, false
	}
	s := Scale{num: r.Num().Uint64(), den: r.Denom().Uint64(), form: f}
	s.ratio, _ = r.Float64()
	if s.num == s.den && f == oneTo {
		s = Scale{}
	}
	return s, true
}

// exact returns full size over model.
func (s Scale) exact() *big.Rat {
	if s.den == 0 {
		return big.NewRat(1, 1)
	}
	return new(big.Rat).SetFrac(new(big.Int).SetUint64(s.num), new(big.Int).SetUint64(s.den))
}

// Ratio returns n of 1:n, full size over model, rounded once to a float64.
func (s Scale) Ratio() float64 {
	if s.den == 0 {
		return 1
	}
	return s.ratio
}

// PerFoot returns the model length of one foot of full size.
func (s Scale) PerFoot() measure.Length { return s.ModelLength(measure.Foot) }

// Equal reports whether two scales are the same proportion exactly, however
// they are written.
func (s Scale) Equal(t Scale) bool { return s.exact().Cmp(t.exact()) == 0 }

// ExactScale returns the scale at which the full-size gauge comes out as the
// model gauge exactly: 3 ft (914.4 mm) on 45 mm is 1:20.32. Both lengths are
// taken as the shortest decimals of millimetres that they round to. When the
// quotient has too many digits to be held exactly, it is rounded to 1e-9.
func ExactScale(full, model measure.Length) (Scale, error) {
	l := fault.In("gauge")
	okFull, okModel := checkGauge(l, "full-size gauge", full), checkGauge(l, "model gauge", model)
	if !okFull || !okModel {
		return Scale{}, l.Err()
	}
	n := float64(full) / float64(model)
	if n < LeastRatio || n > GreatestRatio {
		l.Add("scale ratio", n, "must be from 1 to 1000: compare the full-size gauge with the model gauge")
		return Scale{}, l.Err()
	}
	r := new(big.Rat).Quo(shortest(float64(full)), shortest(float64(model)))
	if s, ok := newScale(r, oneTo); ok {
		return s, nil
	}
	return NewScale(math.Round(n*1e9) / 1e9)
}
