package measure

import (
	"math"
	"strconv"
)

// A MillimetreStyle writes lengths in millimetres with a fixed number of
// decimals. The zero style writes whole millimetres: "1435 mm".
type MillimetreStyle struct {
	Decimals uint8
	// Bare leaves the unit away, for a column whose heading says it.
	Bare bool
	// Sign is the decimal sign to write, a point unless it is CommaSign.
	Sign DecimalSign
}

// Round returns the length that the style writes for l; Round(l) - l is the
// rounding error, at most half a unit of the last decimal.
func (s MillimetreStyle) Round(l Length) Length {
	if !finite(float64(l)) {
		return l
	}
	v, _ := strconv.ParseFloat(strconv.FormatFloat(float64(l), 'f', int(s.Decimals), 64), 64)
	return Length(v) + 0 // no negative zero
}

// Format returns l to the style's decimals. A length that is not zero but
// rounds to it is written "<0.05 mm" (half a unit of the last decimal;
// ">-0.05 mm" when negative), unless the style is bare; Format(Round(l)) writes
// it as 0.0.
func (s MillimetreStyle) Format(l Length) string {
	var buf [32]byte
	return string(s.Append(buf[:0], l))
}

// Append appends what Format returns.
func (s MillimetreStyle) Append(b []byte, l Length) []byte {
	v, start, decimals := float64(l), len(b), int(s.Decimals)
	switch r := s.Round(l); {
	case r != 0 || v == 0 || s.Bare:
		v = float64(r)
	case v > 0:
		b, v, decimals = append(b, '<'), 5*math.Pow10(-decimals-1), decimals+1
	default:
		b, v, decimals = append(b, '>'), -5*math.Pow10(-decimals-1), decimals+1
	}
	b = strconv.AppendFloat(b, v, 'f', decimals, 64)
	if s.Sign == CommaSign {
		for i := start; i < len(b); i++ {
			if b[i] == '.' {
				b[i] = ','
			}
		}
	}
	if s.Bare {
		return b
	}
	return append(b, " mm"...)
}
