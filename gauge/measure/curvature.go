package measure

import (
	"math"
	"strconv"
	"strings"
)

// A Curvature is one over a radius, in 1/mm; positive to the left of the
// running direction, zero on the straight.
type Curvature float64

// PerMillimetre is the curvature of a radius of one millimetre.
const PerMillimetre Curvature = 1

// PerMillimetres returns the curvature as a number of 1/mm.
func (k Curvature) PerMillimetres() float64 { return float64(k) }

var curvatures = kind{
	name:  "curvature",
	forms: `R 1200 mm left, R 4ft right, straight or 0.8 /m`,
	words: curvatureWords,
	units: []unit{
		tens(-3, "/m 1/m m-1"),
		tens(0, "/mm 1/mm mm-1"),
	},
}

// ParseCurvature reads a curvature in text such as R 1200 mm left, R 4ft
// right, straight or 0.8 /m. Units: a radius in any unit of length with its
// hand (R for right and L for left will do), or /m and /mm, positive to the
// left.
func ParseCurvature(text string) (Curvature, error) { return Notation{}.ParseCurvature(text) }

// MustParseCurvature is [ParseCurvature] for text known to be good; it panics on
// other text.
func MustParseCurvature(text string) Curvature { return must(ParseCurvature(text)) }

// ParseCurvature reads a curvature written in the notation.
func (n Notation) ParseCurvature(text string) (Curvature, error) {
	v, err := n.parse(&curvatures, n.Curvature, text)
	return Curvature(v), err
}

// MarshalText returns text that reads back to the same bits; what is not
// finite is refused.
func (k Curvature) MarshalText() ([]byte, error) { return k.AppendText(nil) }

// UnmarshalText reads what [ParseCurvature] reads.
func (k *Curvature) UnmarshalText(text []byte) error {
	x, err := ParseCurvature(string(text))
	if err == nil {
		*k = x
	}
	return err
}

// String returns the curvature as its radius and hand, "R 1200 mm left", to
// six significant digits; none is "straight".
func (k Curvature) String() string {
	if k == 0 {
		return "straight"
	}
	r := Length(1 / math.Abs(float64(k)))
	if !finite(float64(k)) || !finite(float64(r)) {
		return string(appendShown(nil, float64(k), -3, "/m"))
	}
	return string(appendHand(r.appendShown([]byte("R ")), k > 0))
}

func appendHand(b []byte, left bool) []byte {
	if left {
		return append(b, " left"...)
	}
	return append(b, " right"...)
}

// AppendText appends text that reads back to the same bits.
func (k Curvature) AppendText(b []byte) ([]byte, error) {
	v := float64(k)
	x := math.Abs(v)
	if v == 0 && !math.Signbit(v) {
		return append(b, "straight"...), nil
	}
	if x < 1e300 && x > 1e-300 {
		d := newDecimal(1/x, 15)
		r, _ := strconv.ParseFloat(string(d.append(nil, 0)), 64)
		if d.n <= shortDigits && 1/r == x {
			b = d.append(append(b, "R "...), 0)
			return appendHand(append(b, " mm"...), v > 0), nil
		}
	}
	return curvatures.appendText(b, v)
}

// curvatureWords reads straight and a radius with a hand, R 1200 mm left. The
// R must stand there: without it 1/1200 mm could be meant either way.
func curvatureWords(p *parser, n Notation) (float64, bool, error) {
	if strings.EqualFold(p.s, "straight") {
		return 0, true, nil
	}
	text, radius := cutPrefixFold(p.s, "radius")
	if !radius {
		text, radius = cutPrefixFold(p.s, "r")
	}
	text = strings.TrimLeft(text, " =:")
	if !radius || text == "" || letter(text[0]) {
		return 0, false, nil
	}
	hand := 0.0
	for _, h := range [...]string{" left", " l", " right", " r"} {
		if rest, ok := cutSuffixFold(text, h); ok {
			text, hand = strings.TrimRight(rest, " ,"), 1
			if h == " right" || h == " r" {
				hand = -1
			}
			break
		}
	}
	if hand == 0 {
		return 0, false, p.refuse("has a radius without a hand, left or right")
	}
	r, err := n.ParseLength(text)
	if err != nil {
		return 0, false, p.refuse("has a radius that cannot be read: " + reason(err))
	}
	if r <= 0 {
		return 0, false, p.refuse("has a radius that is not more than nothing")
	}
	v := hand / float64(r)
	if !finite(v) {
		return 0, false, p.outOfRange()
	}
	return v, true, nil
}
