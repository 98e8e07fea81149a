package measure

import (
	"math"
	"strings"
)

// A Gradient is rise over plan distance, a pure number: 1 in 50 is 0.02.
// Positive climbs in the direction of running.
type Gradient float64

// Units of gradient.
const (
	Percent  Gradient = 0.01
	PerMille Gradient = 0.001
)

// OneIn returns the gradient of 1 in n, falling when n is negative. 1 in 0 is
// infinite, which whoever takes a gradient refuses.
func OneIn(n float64) Gradient { return Gradient(1 / n) }

var gradients = kind{
	name:  "gradient",
	forms: `1 in 50, 1 in 50 down, -2 %, 20 ‰ or level`,
	words: gradientWords,
	units: []unit{
		tens(-2, "% percent /cent pc cm/m"),
		tens(-3, "‰ permille /mille mm/m m/km"),
		tens(0, "m/m mm/mm in/in ft/ft"),
		per(1, 12, "in/ft"),
		per(1, 5280, "ft/mi"),
		{names: "1in 1inn 1:n", fold: true, per: ratio{n: 1, d: 1}, tens: true, recip: true},
	},
}

// ParseGradient reads a gradient in text such as 1 in 50, 1 in 50 down, -2 %,
// 20 ‰ or level. Units: 1 in N, %, ‰, mm/m, m/m, in/ft and ft/mile, and the
// words level, up, rising, down and falling.
func ParseGradient(text string) (Gradient, error) { return Notation{}.ParseGradient(text) }

// MustParseGradient is [ParseGradient] for text known to be good; it panics on
// other text.
func MustParseGradient(text string) Gradient { return must(ParseGradient(text)) }

// ParseGradient reads a gradient written in the notation.
func (n Notation) ParseGradient(text string) (Gradient, error) {
	v, err := n.parse(&gradients, n.Gradient, text)
	return Gradient(v), err
}

// MarshalText returns text that reads back to the same bits; what is not
// finite is refused.
func (g Gradient) MarshalText() ([]byte, error) { return g.AppendText(nil) }

// UnmarshalText reads what [ParseGradient] reads.
func (g *Gradient) UnmarshalText(text []byte) error {
	x, err := ParseGradient(string(text))
	if err == nil {
		*g = x
	}
	return err
}

// String returns the gradient as 1 in N to six significant digits, from
// 1 in 5 as a percentage; one that falls in the direction of running is
// followed by "down", none is "level".
func (g Gradient) String() string {
	x := math.Abs(float64(g))
	switch {
	case g == 0:
		return "level"
	case x > 0.2 || math.IsNaN(x) || math.IsInf(1/x, 0):
		return string(appendShown(nil, float64(g), -2, "%"))
	}
	d := newDecimal(1/x, shownDigits)
	return string(appendOneIn(nil, &d, g < 0))
}

func appendOneIn(b []byte, d *decimal, down bool) []byte {
	b = d.append(append(b, "1 in "...), 0)
	if down {
		b = append(b, " down"...)
	}
	return b
}

// AppendText appends text that reads back to the same bits.
func (g Gradient) AppendText(b []byte) ([]byte, error) {
	v := float64(g)
	x := math.Abs(v)
	if v == 0 && !math.Signbit(v) {
		return append(b, "level"...), nil
	}
	if x <= 0.2 && x > 1e-300 {
		d := newDecimal(1/x, 15)
		if d.n <= shortDigits && (d.n <= 4 || d.n < digits(v)) && gradients.reads(gradients.unit("1in"), &d) == x {
			return appendOneIn(b, &d, v < 0), nil
		}
	}
	return gradients.appendText(b, v)
}

// gradientWords reads what a gradient has of its own: level, 1 in 50, 1:50,
// up and down.
func gradientWords(p *parser, _ Notation) (float64, bool, error) {
	if strings.EqualFold(p.s, "level") {
		return 0, true, nil
	}
	down := false
	for _, w := range [...]string{"up", "rising", "down", "falling"} {
		if rest, ok := cutSuffixFold(p.s, w); ok {
			p.s = strings.TrimRight(rest, " ")
			if p.s != "" && (p.s[0] == '-' || p.s[0] == '+') {
				return 0, false, p.refuse("has a sign and " + w)
			}
			down = w == "down" || w == "falling"
			break
		}
	}
	v, done, err := p.oneIn()
	if err == nil && !done {
		p.i = 0
		v, err = p.value()
	}
	if down {
		v = -v
	}
	return v, true, err
}

// oneIn reads 1 in 50 and 1:50; done is false when the text is of another
// form.
func (p *parser) oneIn() (v float64, done bool, err error) {
	neg := p.sign()
	var rise term
	var run number
	if err := p.number(&rise.num); err != nil {
		return 0, false, err
	}
	p.space()
	rest, ok := strings.CutPrefix(p.s[p.i:], ":")
	if !ok {
		if rest, ok = cutPrefixFold(p.s[p.i:], "in"); !ok {
			return 0, false, nil
		}
	}
	if rest = strings.TrimLeft(rest, " "); rest == "" || !digit(rest, 0) {
		return 0, false, nil
	}
	p.i = len(p.s) - len(rest)
	if err := p.number(&run); err != nil {
		return 0, false, err
	}
	if p.i != len(p.s) {
		return 0, false, p.refuse("has " + quote(strings.TrimSpace(p.s[p.i:])) + " after the ratio")
	}
	if run.zero() {
		return 0, false, p.refuse("is a rise in no distance")
	}
	rise.unit = p.k.unit("m/m")
	if v, done = sum(neg, []term{rise}, &run); !done {
		return 0, false, p.outOfRange()
	}
	if math.Abs(v) > 1 {
		return 0, false, p.refuse("rises more than it runs, and may be the wrong way round; steeper than 1 in 1 is written in %")
	}
	return v, true, nil
}

func cutPrefixFold(s, prefix string) (string, bool) {
	if len(s) < len(prefix) || !strings.EqualFold(s[:len(prefix)], prefix) {
		return s, false
	}
	return s[len(prefix):], true
}

func cutSuffixFold(s, suffix string) (string, bool) {
	n := len(s) - len(suffix)
	if n < 0 || !strings.EqualFold(s[n:], suffix) {
		return s, false
	}
	return s[:n], true
}
