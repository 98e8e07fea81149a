package gauge

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"
	"unicode"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

const scaleForms = "must be written like 1:22.5, 16 mm/ft or 7/8 in/ft"

// ParseScale reads a scale as the trade writes it: `1:22.5`, `1/32`,
// `16 mm/ft`, `7/8 in/ft`, `16mm to the foot`, `3/8" to the foot`,
// `10 mm per ft`, `10 mm = 1 ft`. The number is a decimal or a fraction (`1 1/2`, `1½`). A
// decimal comma is read (`1:22,5`), but a comma before exactly three digits is
// refused, since it may be meant to part thousands. A bare number is refused,
// and text of more than measure.MaxText bytes is over the limit.
func ParseScale(text string) (Scale, error) {
	l := fault.In("gauge")
	refuse := func(limit string) (Scale, error) {
		l.Add("scale", strconv.Quote(clip(text)), limit)
		return Scale{}, l.Err()
	}
	if len(text) > measure.MaxText {
		l.Over("scale", strconv.Quote(clip(text)), fmt.Sprintf("must be at most %d bytes", measure.MaxText))
		return Scale{}, l.Err()
	}
	figures, f, ok := splitScale(strings.ToLower(strings.TrimSpace(text)))
	if !ok {
		return refuse(scaleForms)
	}
	x, complaint := parseNumber(figures)
	if complaint != "" {
		return refuse(complaint)
	}
	if x.Sign() <= 0 {
		return refuse("must be more than 0")
	}
	ratio := x
	if f != oneTo {
		ratio = new(big.Rat).Quo(footIn(f), x)
	}
	if ratio.Cmp(big.NewRat(LeastRatio, 1)) < 0 || ratio.Cmp(big.NewRat(GreatestRatio, 1)) > 0 {
		return refuse("must be from 1:1 to 1:1000")
	}
	s, ok := newScale(ratio, f)
	if !ok {
		return refuse(tooFine)
	}
	return s, nil
}

// MustParseScale is ParseScale for text in a program's source; it panics when
// the text is refused.
func MustParseScale(text string) Scale {
	s, err := ParseScale(text)
	if err != nil {
		panic(err)
	}
	return s
}

// footIn returns one foot in the unit of the form.
func footIn(f form) *big.Rat {
	if f == mmPerFoot {
		return big.NewRat(3048, 10)
	}
	return big.NewRat(12, 1)
}

// splitScale parts the number of a scale from what is written around it.
func splitScale(s string) (figures string, f form, ok bool) {
	if rest, found := strings.CutPrefix(s, "1"); found {
		rest = strings.TrimSpace(rest)
		if after, found := strings.CutPrefix(rest, ":"); found {
			return strings.TrimSpace(after), oneTo, true
		}
		if after, found := strings.CutPrefix(rest, "/"); found && strings.IndexFunc(after, notInDecimal) < 0 {
			return strings.TrimSpace(after), oneTo, true
		}
	}
	s, ok = cutAnySuffix(s, "foot", "ft", "'", "′")
	if !ok {
		return "", 0, false
	}
	s, ok = cutAnySuffix(s, "/", "to the", "to a", "to 1", "to", "= 1", "=1", "per")
	if !ok {
		return "", 0, false
	}
	if before, found := cutAnySuffix(s, "mm", "millimetres", "millimetre"); found {
		return before, mmPerFoot, true
	}
	before, found := cutAnySuffix(s, "inches", "inch", "in", `"`, "″")
	return before, inPerFoot, found
}

func notInDecimal(r rune) bool {
	return !unicode.IsSpace(r) && r != '.' && r != ',' && (r < '0' || r > '9')
}

// cutAnySuffix cuts the first of the suffixes that s ends in, and the space
// before it.
func cutAnySuffix(s string, suffixes ...string) (string, bool) {
	for _, x := range suffixes {
		if before, found := strings.CutSuffix(s, x); found {
			return strings.TrimSpace(before), true
		}
	}
	return s, false
}

// vulgar turns the fraction characters into figures.
var vulgar = strings.NewReplacer(
	"½", " 1/2", "¼", " 1/4", "¾", " 3/4", "⅓", " 1/3", "⅔", " 2/3",
	"⅛", " 1/8", "⅜", " 3/8", "⅝", " 5/8", "⅞", " 7/8", "⁄", "/",
)

// parseNumber reads `22.5`, `22,5`, `7/8`, `1 1/2` or `1½` exactly. The
// complaint is empty when it could.
func parseNumber(s string) (x *big.Rat, complaint string) {
	fields := strings.Fields(vulgar.Replace(s))
	switch len(fields) {
	case 1:
		if strings.Contains(fields[0], "/") {
			return fraction(fields[0])
		}
		return decimal(fields[0])
	case 2:
		whole, ok := digits(fields[0])
		part, complaint := fraction(fields[1])
		if !ok || complaint != "" {
			return nil, scaleForms
		}
		if part.Cmp(big.NewRat(1, 1)) >= 0 {
			return nil, "must have a fraction below 1 after the whole number"
		}
		return part.Add(part, whole), ""
	}
	return nil, scaleForms
}

func fraction(s string) (*big.Rat, string) {
	top, bottom, _ := strings.Cut(s, "/")
	p, okP := digits(top)
	q, okQ := digits(bottom)
	if !okP || !okQ {
		return nil, scaleForms
	}
	if q.Sign() == 0 {
		return nil, "must not have 0 below the fraction line"
	}
	return p.Quo(p, q), ""
}

func decimal(s string) (*big.Rat, string) {
	if whole, part, found := strings.Cut(s, ","); found {
		if len(part) == 3 {
			return nil, "must not have a comma before exactly three digits, which may be thousands or decimals"
		}
		s = whole + "." + part
	}
	whole, part, found := strings.Cut(s, ".")
	w, ok := digits(whole)
	if !ok {
		return nil, scaleForms
	}
	if !found {
		return w, ""
	}
	p, ok := digits(part)
	if !ok {
		return nil, scaleForms
	}
	ten := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(len(part))), nil)
	return w.Add(w, p.Quo(p, new(big.Rat).SetInt(ten))), ""
}

// digits reads a whole number of nothing but the figures 0 to 9.
func digits(s string) (*big.Rat, bool) {
	if s == "" || strings.Trim(s, "0123456789") != "" {
		return nil, false
	}
	return new(big.Rat).SetString(s)
}

// String returns the scale as it was written: "1:22.5", "16 mm/ft" or
// "7/8 in/ft". ParseScale reads it back to the same Scale.
func (s Scale) String() string {
	switch s.form {
	case mmPerFoot:
		return number(new(big.Rat).Quo(footIn(s.form), s.exact()), 0) + " mm/ft"
	case inPerFoot:
		return number(new(big.Rat).Quo(footIn(s.form), s.exact()), 64) + " in/ft"
	}
	return "1:" + number(s.exact(), 0)
}

// mostDecimals is how many decimals a number may take before it is written as
// a fraction instead.
const mostDecimals = 17

// number writes x exactly: as a fraction when its denominator divides the
// given one (an inch's 64), else as a decimal, or a fraction when no decimal
// of reasonable length is exact.
func number(x *big.Rat, fractions int64) string {
	if x.IsInt() {
		return x.Num().String()
	}
	asFraction := fractions > 0 && x.Denom().IsInt64() && fractions%x.Denom().Int64() == 0
	if n, exact := x.FloatPrec(); exact && n <= mostDecimals && !asFraction {
		return x.FloatString(n)
	}
	whole, rest := new(big.Int).QuoRem(x.Num(), x.Denom(), new(big.Int))
	text := rest.String() + "/" + x.Denom().String()
	if whole.Sign() != 0 {
		text = whole.String() + " " + text
	}
	return text
}

// MarshalText returns String.
func (s Scale) MarshalText() ([]byte, error) { return []byte(s.String()), nil }

// UnmarshalText reads what ParseScale reads.
func (s *Scale) UnmarshalText(text []byte) error {
	t, err := ParseScale(string(text))
	if err != nil {
		return err
	}
	*s = t
	return nil
}
