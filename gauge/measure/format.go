package measure

import (
	"math"
	"strconv"
)

// shownDigits is how many significant digits String shows.
const shownDigits = 6

// A decimal is a finite number as its significant digits: 0.d1d2d3… × 10^exp.
type decimal struct {
	neg    bool
	digits [24]byte
	n      int // how many, none trailing zeros; 0 for zero
	exp    int
}

// newDecimal returns v rounded to the given number of significant digits, or
// with the fewest that tell it from its neighbours when prec is negative.
func newDecimal(v float64, prec int) decimal {
	var d decimal
	var buf [32]byte
	if prec > 0 {
		prec--
	}
	text := strconv.AppendFloat(buf[:0], v, 'e', prec, 64)
	if d.neg = text[0] == '-'; d.neg {
		text = text[1:]
	}
	for i, c := range text {
		if c == 'e' {
			d.exp, _ = strconv.Atoi(string(text[i+1:]))
			d.exp++
			break
		}
		if c != '.' {
			d.digits[d.n] = c
			d.n++
		}
	}
	for d.n > 0 && d.digits[d.n-1] == '0' {
		d.n--
	}
	if d.n == 0 {
		d.exp = 1
	}
	return d
}

// append appends the number times 10^shift, plainly when that is short.
func (d *decimal) append(b []byte, shift int) []byte {
	if d.neg {
		b = append(b, '-')
	}
	if d.n == 0 {
		return append(b, '0')
	}
	exp := d.exp + shift
	switch {
	case exp > 15 || exp < -5:
		b = append(b, d.digits[0])
		if d.n > 1 {
			b = append(b, '.')
			b = append(b, d.digits[1:d.n]...)
		}
		b = append(b, 'e')
		return strconv.AppendInt(b, int64(exp-1), 10)
	case exp <= 0:
		b = append(b, "0."...)
		for range -exp {
			b = append(b, '0')
		}
		return append(b, d.digits[:d.n]...)
	case exp >= d.n:
		b = append(b, d.digits[:d.n]...)
		for range exp - d.n {
			b = append(b, '0')
		}
		return b
	}
	b = append(b, d.digits[:exp]...)
	b = append(b, '.')
	return append(b, d.digits[exp:d.n]...)
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// appendUnit appends a unit's printed name, after a space unless it is a
// degree sign alone.
func appendUnit(b []byte, name string) []byte {
	if name != "°" {
		b = append(b, ' ')
	}
	return append(b, name...)
}

// appendShown appends v, in the unit of 10^shift base units, to six digits.
func appendShown(b []byte, v float64, shift int, name string) []byte {
	if !finite(v) {
		return appendUnit(strconv.AppendFloat(b, v, 'g', -1, 64), name)
	}
	d := newDecimal(v, shownDigits)
	d.neg = d.neg && d.n > 0
	return appendUnit(d.append(b, -shift), name)
}

// plainDigits is the most digits with which the base unit is always taken by
// exact text.
const plainDigits = 9

// shortDigits is the most digits for which another unit is taken.
const shortDigits = 12

// appendExact appends v so that it reads back to the same bits: in the base
// unit when that takes few digits, else in the unit that takes fewest.
func (k *kind) appendExact(b []byte, v float64) []byte {
	base := &k.units[0]
	d := newDecimal(v, -1)
	if d.n > plainDigits {
		if u, x, ok := k.shorter(v, d.n); ok {
			return appendUnit(x.append(b, 0), u.name())
		}
	}
	return appendUnit(d.append(b, -base.shift), base.name())
}

// shorter returns the unit in which v takes least digits, if less than n.
func (k *kind) shorter(v float64, n int) (best *unit, least decimal, ok bool) {
	for i := range k.units {
		u := &k.units[i]
		if !u.shown {
			continue
		}
		x := v
		if u.turn {
			x /= float64(Degree)
		}
		if u.off.n != 0 {
			x -= u.off.float()
		}
		x = x * float64(u.per.d) / float64(u.per.n)
		if !finite(x) {
			continue
		}
		d := newDecimal(x, 15)
		if d.n > shortDigits || d.n >= n || d.exp > 300 || d.exp < -300 || k.reads(u, &d) != v {
			continue
		}
		best, least, n, ok = u, d, d.n, true
	}
	return best, least, ok
}

// reads returns what the decimal in unit u is read as.
func (k *kind) reads(u *unit, d *decimal) float64 {
	abs := *d
	abs.neg = false
	var buf [40]byte
	text := string(abs.append(buf[:0], 0))
	p := parser{k: k, s: text}
	t := term{unit: u}
	if p.number(&t.num) != nil {
		return math.NaN()
	}
	v, ok := sum(d.neg, []term{t}, nil)
	if !ok {
		return math.NaN()
	}
	if u.turn {
		v = float64(v * float64(Degree))
	}
	return v
}

// marshalFault is the error for a value that is not finite.
func marshalFault(k *kind, v float64) error {
	return &FieldError{
		Package: "measure", Field: k.name, Value: strconv.FormatFloat(v, 'g', -1, 64),
		Limit: "has no text; must be a finite number", Kind: ErrInput,
	}
}

// appendText is appendExact for the quantities that have no words of their own.
func (k *kind) appendText(b []byte, v float64) ([]byte, error) {
	if !finite(v) {
		return b, marshalFault(k, v)
	}
	return k.appendExact(b, v), nil
}

// must returns v, or panics with the error.
func must[Q any](v Q, err error) Q {
	if err != nil {
		panic(err)
	}
	return v
}

// digits returns how many significant digits tell v from its neighbours.
func digits(v float64) int {
	d := newDecimal(v, -1)
	return d.n
}
