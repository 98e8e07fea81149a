package measure

import (
	"math"
	"strconv"
)

// An InchStyle writes lengths in inches and fractions of an inch. The zero
// style rounds to the nearest 1/64 in and writes no feet: "56 1/2 in".
type InchStyle struct {
	// Parts of an inch to round to: 64, 32, 16, 8 or any other; 0 means 64.
	Parts uint16
	// Feet writes feet and inches from one foot on: "4 ft 8 1/2 in".
	Feet bool
}

func (s InchStyle) parts() int64 {
	if s.Parts == 0 {
		return 64
	}
	return int64(s.Parts)
}

// mostParts is the largest count that is written as whole parts; longer
// lengths are written to six digits instead. 1e12 parts of 1/64 in are 400 km.
const mostParts = 1e12

// count returns l in parts, to the nearest, halves away from zero.
func (s InchStyle) count(l Length) (n int64, ok bool) {
	x := math.Round(float64(l) * 5 * float64(s.parts()) / 127)
	if !(math.Abs(x) <= mostParts) {
		return 0, false
	}
	return int64(x), true
}

// Round returns the length that the style writes for l, the nearest whole
// number of parts; Round(l) - l is the rounding error, at most half a part.
// A length of more than 1e12 parts, or one that is not finite, is returned as
// it is.
func (s InchStyle) Round(l Length) Length {
	n, ok := s.count(l)
	if !ok {
		return l
	}
	return Length(float64(n*127) / float64(5*s.parts()))
}

// Format returns l to the nearest part, halves away from zero, in the form
// that [ParseLength] reads. A length that is not zero but rounds to it is
// written "<1/128 in" (half a part; ">-1/128 in" when negative), which
// ParseLength refuses; Format(Round(l)) writes it as 0.
func (s InchStyle) Format(l Length) string {
	var buf [32]byte
	return string(s.Append(buf[:0], l))
}

// Append appends what Format returns.
func (s InchStyle) Append(b []byte, l Length) []byte {
	n, ok := s.count(l)
	if !ok {
		return appendShown(b, l.Inches(), 0, "in")
	}
	parts := s.parts()
	switch {
	case n < 0:
		b = append(b, '-')
		n = -n
	case n == 0 && l > 0:
		b = append(b, "<1/"...)
		return append(strconv.AppendInt(b, 2*parts, 10), " in"...)
	case n == 0 && l < 0:
		b = append(b, ">-1/"...)
		return append(strconv.AppendInt(b, 2*parts, 10), " in"...)
	}
	whole, n := n/parts, n%parts
	feet := s.Feet && whole >= 12
	if feet {
		b = append(strconv.AppendInt(b, whole/12, 10), " ft "...)
		whole %= 12
	}
	if feet || whole > 0 || n == 0 {
		b = strconv.AppendInt(b, whole, 10)
		if n > 0 {
			b = append(b, ' ')
		}
	}
	if n > 0 {
		f := gcd(n, parts)
		b = strconv.AppendInt(b, n/f, 10)
		b = append(b, '/')
		b = strconv.AppendInt(b, parts/f, 10)
	}
	return append(b, " in"...)
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
