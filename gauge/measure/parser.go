package measure

import (
	"errors"
	"strconv"
	"strings"
	"unicode"
)

// MaxText is the most bytes of text that is read as one quantity.
const MaxText = 200

// A parser reads one quantity.
type parser struct {
	k       *kind
	decimal DecimalSign
	unsaid  string // the unit of a number without one; "": none
	text    string // as given
	s       string // cleaned
	i       int    // read up to here
}

// refuse returns the error for the text: why, and what would be taken.
func (p *parser) refuse(why string) error {
	return &FieldError{
		Package: "measure", Field: p.k.name, Value: quote(p.text),
		Limit: why + "; write for example " + p.k.forms, Kind: ErrInput,
	}
}

// reason returns why an error of this package refused a text.
func reason(err error) string {
	if e, ok := errors.AsType[*FieldError](err); ok {
		why, _, _ := strings.Cut(e.Limit, ";")
		return why
	}
	return err.Error()
}

// quote returns the text in quotes, cut when long.
func quote(s string) string {
	if r := []rune(s); len(r) > 40 {
		s = string(r[:40]) + "…"
	}
	if strings.Contains(s, `"`) && strconv.CanBackquote(s) {
		return "`" + s + "`"
	}
	return strconv.Quote(s)
}

// parse reads text as a quantity of kind k, in its base unit.
func (n Notation) parse(k *kind, unsaid, text string) (float64, error) {
	p := parser{k: k, decimal: n.Decimal, unsaid: unsaid, text: text}
	if len(text) > MaxText {
		return 0, &FieldError{
			Package: "measure", Field: k.name, Value: quote(text),
			Limit: "must be at most " + strconv.Itoa(MaxText) + " bytes", Kind: ErrLimit,
		}
	}
	p.s = clean(text)
	if p.s == "" {
		return 0, p.refuse("is empty")
	}
	if k.words != nil {
		if v, done, err := k.words(&p, n); done || err != nil {
			return v, err
		}
	}
	return p.value()
}

// value reads a sign and one or more numbers with units, to the end.
func (p *parser) value() (float64, error) {
	neg := p.sign()
	var buf [6]term // mile chain yd ft in thou is the longest
	terms := buf[:0]
	for {
		var t term
		if err := p.number(&t.num); err != nil {
			return 0, err
		}
		if err := p.unit(&t, len(terms) == 0); err != nil {
			return 0, err
		}
		if len(terms) > 0 {
			if err := p.follows(&terms[len(terms)-1], &t); err != nil {
				return 0, err
			}
		}
		terms = append(terms, t)
		p.space()
		if p.i == len(p.s) {
			break
		}
		if p.s[p.i] == '-' && p.s[p.i-1] != ' ' && t.unit.fold { // 4'-8"
			p.i++
		}
	}
	v, ok := sum(neg, terms, nil)
	if !ok {
		if terms[0].unit.recip && terms[0].num.zero() {
			return 0, p.refuse("is a rise in no distance")
		}
		return 0, p.outOfRange()
	}
	if terms[0].unit.turn {
		v = float64(v * float64(Degree))
	}
	return v, nil
}

func (p *parser) outOfRange() error {
	return p.refuse("is too large or too close to nothing for a number")
}

// follows checks that t can stand after its predecessor: 8in after 4ft.
func (p *parser) follows(last, t *term) error {
	a, b := last.unit, t.unit
	if a.fold != b.fold || a.alone || b.alone {
		return p.refuse("has " + b.name() + " after " + a.name() + ", which do not go together")
	}
	if float64(b.per.n)*float64(a.per.d) >= float64(a.per.n)*float64(b.per.d) {
		return p.refuse("has " + b.name() + " after " + a.name() + ", and units must get smaller")
	}
	if last.num.point != 0 || last.num.q != 0 || last.num.exp != 0 {
		return p.refuse("has a broken number of " + a.name() + " before the " + b.name())
	}
	if !t.num.less(a, b) {
		return p.refuse("has more " + b.name() + " than make one " + a.name())
	}
	return nil
}

// less reports whether n of unit b are less than one of unit a.
func (n *number) less(a, b *unit) bool {
	if x, ok := n.ratio(); ok {
		if x, ok = x.times(b.per); ok {
			one := a.per
			one.neg = true
			if x, ok = x.plus(one); ok {
				return x.neg
			}
		}
	}
	x := n.rat()
	return x.Mul(x, b.per.rat()).Cmp(a.per.rat()) < 0
}

func (p *parser) space() {
	for p.i < len(p.s) && p.s[p.i] == ' ' {
		p.i++
	}
}

// sign reads an optional sign and reports whether it is a minus.
func (p *parser) sign() bool {
	if p.i == len(p.s) || p.s[p.i] != '-' && p.s[p.i] != '+' {
		return false
	}
	p.i++
	neg := p.s[p.i-1] == '-'
	p.space()
	return neg
}

// unit reads the unit of a number.
func (p *parser) unit(t *term, first bool) error {
	start := p.i
	p.space()
	from := p.i
	if p.k.compound {
		p.i = wordEnd(p.s, p.i)
	} else {
		p.i = len(p.s)
	}
	name := p.s[from:p.i]
	if name == "" {
		if first && p.i == len(p.s) {
			if p.unsaid == "" {
				return p.refuse("has no unit")
			}
			if t.unit = p.k.unit(clean(p.unsaid)); t.unit == nil {
				return p.refuse("has no unit, and the declared " + quote(p.unsaid) + " is not a unit of " + p.k.name)
			}
			return nil
		}
		if first && start < from && digit(p.s, from) {
			return p.refuse("has a space inside the number, or no unit before it")
		}
		if p.i < len(p.s) && !digit(p.s, p.i) {
			return p.refuse("has " + quote(p.s[p.i:]) + " where a unit should stand")
		}
		return p.refuse("has no unit after " + quote(strings.TrimSpace(p.s[:start])))
	}
	if t.unit = p.k.unit(name); t.unit == nil {
		if c := name[0]; c == '-' || digit(name, 0) {
			return p.refuse("has " + quote(name) + " where a unit should stand")
		}
		return p.refuse("has " + quote(name) + ", which is not a unit of " + p.k.name)
	}
	return nil
}

// wordEnd returns where the unit that begins at i ends: after a mark such as
// ' or ", or at a space, a digit or a sign.
func wordEnd(s string, i int) int {
	start := i
	for i < len(s) {
		r, n := runeAt(s, i)
		switch {
		case r == '\'' || r == '"' || r == '°':
			if i == start {
				return i + n
			}
			return i
		case r == '.':
			if i == start || digit(s, i+1) {
				return i
			}
			return i + n
		case unicode.IsLetter(r) || strings.ContainsRune("/²³^%‰·", r):
			i += n
		default:
			return i
		}
	}
	return i
}
