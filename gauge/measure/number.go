package measure

import (
	"math"
	"math/big"
	"math/bits"
	"strconv"
	"unicode/utf8"
)

// A number is one number as written: decimal digits, a fraction or both.
type number struct {
	text   string // the decimal part, as written
	mant   uint64 // its digits without the signs, when short
	long   bool   // more digits than mant holds exactly
	exp    int    // the decimal part is mant × 10^exp
	point  byte   // the decimal sign that was read; 0: none
	p, q   uint64 // the fraction beside it; q = 0: none
	digits int    // how many digits the decimal part has
}

// maxInt is the largest integer up to which float64 holds all of them.
const maxInt = 1 << 53

// A ratio is a fraction of two integers, each of which float64 holds exactly,
// so that their quotient is rounded once.
type ratio struct {
	n, d uint64 // d > 0
	neg  bool
}

func product(a, b uint64) (uint64, bool) {
	hi, lo := bits.Mul64(a, b)
	return lo, hi == 0 && lo <= maxInt
}

func (r ratio) times(s ratio) (ratio, bool) {
	n, ok1 := product(r.n, s.n)
	d, ok2 := product(r.d, s.d)
	return ratio{n, d, r.neg != s.neg}, ok1 && ok2
}

func (r ratio) plus(s ratio) (ratio, bool) {
	a, ok1 := product(r.n, s.d)
	b, ok2 := product(s.n, r.d)
	d, ok3 := product(r.d, s.d)
	out := ratio{a + b, d, r.neg}
	if r.neg != s.neg {
		if out.n = a - b; a < b {
			out.n, out.neg = b-a, s.neg
		}
	}
	return out, ok1 && ok2 && ok3 && out.n <= maxInt
}

func (r ratio) float() float64 {
	x := float64(r.n) / float64(r.d)
	if r.neg {
		return -x
	}
	return x
}

func (r ratio) rat() *big.Rat {
	x := new(big.Rat).SetFrac(new(big.Int).SetUint64(r.n), new(big.Int).SetUint64(r.d))
	if r.neg {
		x.Neg(x)
	}
	return x
}

var powersOfTen = [...]uint64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

// ratio returns the number when it is short enough for one.
func (n *number) ratio() (ratio, bool) {
	r := ratio{n: n.mant, d: 1}
	if n.long || n.mant > maxInt || n.exp <= -len(powersOfTen) || n.exp >= len(powersOfTen) {
		return r, false
	}
	ok := true
	if n.exp < 0 {
		r.d = powersOfTen[-n.exp]
	} else if r.n, ok = product(r.n, powersOfTen[n.exp]); !ok {
		return r, false
	}
	if n.q != 0 {
		return r.plus(ratio{n: n.p, d: n.q})
	}
	return r, true
}

// decimal appends the decimal part times 10^shift in the form that strconv
// reads.
func (n *number) decimal(b []byte, shift int) []byte {
	for i := range len(n.text) {
		if c := n.text[i]; c >= '0' && c <= '9' {
			b = append(b, c)
		}
	}
	b = append(b, 'e')
	return strconv.AppendInt(b, int64(n.exp+shift), 10)
}

// rat returns the number exactly. Its size is bounded: the scanner refuses
// long text and large exponents.
func (n *number) rat() *big.Rat {
	x := new(big.Rat)
	if n.digits > 0 {
		x.SetString(string(n.decimal(nil, 0)))
	}
	if n.q != 0 {
		x.Add(x, ratio{n: n.p, d: n.q}.rat())
	}
	return x
}

// zero reports whether the number is written as nothing but zeros.
func (n *number) zero() bool {
	for i := range len(n.text) {
		if c := n.text[i]; c >= '1' && c <= '9' {
			return false
		}
	}
	return n.p == 0
}

// A term is a number and the unit it is counted in.
type term struct {
	num  number
	unit *unit
}

// sum returns the value of the terms together, negated if neg, rounded once
// from the exact value; ok is false when it is too large or too small for a
// float64. div, when not nil, divides it.
func sum(neg bool, terms []term, div *number) (v float64, ok bool) {
	if v, ok := sumShort(neg, terms, div); ok {
		return v, true
	}
	if len(terms) == 1 && div == nil {
		t := &terms[0]
		if u := t.unit; t.num.q == 0 && u.tens && !u.recip && u.off.n == 0 {
			var buf [80]byte
			v, err := strconv.ParseFloat(string(t.num.decimal(buf[:0], u.shift)), 64)
			if neg {
				v = -v
			}
			return v, err == nil && (v != 0 || t.num.zero())
		}
	}
	total := new(big.Rat)
	for i := range terms {
		t := &terms[i]
		x := t.num.rat()
		if neg {
			x.Neg(x)
		}
		x.Mul(x, t.unit.per.rat())
		if t.unit.off.n != 0 {
			x.Add(x, t.unit.off.rat())
		}
		if t.unit.recip {
			if x.Sign() == 0 {
				return 0, false
			}
			x.Inv(x)
		}
		total.Add(total, x)
	}
	if div != nil {
		x := div.rat()
		if x.Sign() == 0 {
			return 0, false
		}
		total.Quo(total, x)
	}
	v, _ = total.Float64()
	if v == 0 && neg {
		v = math.Copysign(0, -1)
	}
	return v, !math.IsInf(v, 0) && (v != 0 || total.Sign() == 0)
}

// sumShort is sum for numbers of a few digits, without allocation.
func sumShort(neg bool, terms []term, div *number) (float64, bool) {
	var total ratio
	for i := range terms {
		t := &terms[i]
		x, ok := t.num.ratio()
		if !ok {
			return 0, false
		}
		x.neg = neg
		if x, ok = x.times(t.unit.per); !ok {
			return 0, false
		}
		if t.unit.off.n != 0 {
			if x, ok = x.plus(t.unit.off); !ok {
				return 0, false
			}
		}
		if t.unit.recip {
			if x.n == 0 {
				return 0, false
			}
			x.n, x.d = x.d, x.n
		}
		if i == 0 {
			total = x
		} else if total, ok = total.plus(x); !ok {
			return 0, false
		}
	}
	if div != nil {
		x, ok := div.ratio()
		if !ok || x.n == 0 {
			return 0, false
		}
		if total, ok = total.times(ratio{n: x.d, d: x.n}); !ok {
			return 0, false
		}
	}
	return total.float(), true
}

// vulgar returns the fraction of a character such as ½.
func vulgar(r rune) (p, q uint64) {
	switch r {
	case '½':
		return 1, 2
	case '⅓':
		return 1, 3
	case '⅔':
		return 2, 3
	case '¼':
		return 1, 4
	case '¾':
		return 3, 4
	case '⅕', '⅖', '⅗', '⅘':
		return uint64(r-'⅕') + 1, 5
	case '⅙':
		return 1, 6
	case '⅚':
		return 5, 6
	case '⅐':
		return 1, 7
	case '⅛':
		return 1, 8
	case '⅜':
		return 3, 8
	case '⅝':
		return 5, 8
	case '⅞':
		return 7, 8
	case '⅑':
		return 1, 9
	case '⅒':
		return 1, 10
	}
	return 0, 0
}

func runeAt(s string, i int) (rune, int) {
	if i >= len(s) {
		return 0, 0
	}
	return utf8.DecodeRuneInString(s[i:])
}

func digit(s string, i int) bool { return i >= 0 && i < len(s) && s[i] >= '0' && s[i] <= '9' }
