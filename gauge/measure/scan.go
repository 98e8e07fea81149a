package measure

import "strings"

// number reads a number without a sign: 8, 8.5, 8,5, 3/8, 8 1/2, 8-1/2, 8½,
// 1e-6 or 11.5×10⁻⁶.
func (p *parser) number(n *number) error {
	s := p.s
	if v, size := p.vulgar(p.i); size > 0 {
		n.p, n.q = v.n, v.d
		p.i += size
		return nil
	}
	start := p.i
	for p.i < len(s) && (digit(s, p.i) || (s[p.i] == '.' || s[p.i] == ',') && digit(s, p.i+1)) {
		p.i++
	}
	n.text = s[start:p.i]
	if n.text == "" {
		if start == len(s) {
			return p.refuse("has no number")
		}
		return p.refuse("has " + quote(s[start:]) + " where a number should stand")
	}
	if err := p.separators(n); err != nil {
		return err
	}
	if n.point == 0 && n.digits == len(n.text) {
		if done, err := p.fraction(n); done || err != nil {
			return err
		}
	}
	return p.exponent(n)
}

// separators reads the digits of n.text and works out its decimal sign.
func (p *parser) separators(n *number) error {
	points, commas := strings.Count(n.text, "."), strings.Count(n.text, ",")
	var group byte
	switch p.decimal {
	case AnySign:
		switch {
		case points > 0 && commas > 0 || points > 1 || commas > 1:
			return p.refuse("groups thousands, which is refused unless the decimal sign is declared")
		case points == 1:
			n.point = '.'
		case commas == 1:
			n.point = ','
			if len(n.text)-strings.IndexByte(n.text, ',') == 4 {
				return p.refuse("has a comma before three digits, which may be a decimal sign or group thousands; " +
					"declare the decimal sign or use a point")
			}
		}
	case PointSign:
		n.point, group = '.', ','
	case CommaSign:
		n.point, group = ',', '.'
	}
	at := strings.IndexByte(n.text, n.point)
	if n.point == 0 || at < 0 {
		at = len(n.text)
		n.point = 0
	}
	if group != 0 && !grouped(n.text, group, at) {
		return p.refuse("has a " + signName(group) + ", and the decimal sign is declared to be the " + signName(point(group)))
	}
	for i := range len(n.text) {
		c := n.text[i]
		if c < '0' || c > '9' {
			if c != group && i != at {
				return p.refuse("has two decimal signs")
			}
			continue
		}
		n.digits++
		if n.mant >= 1e18 {
			n.long = true
		} else {
			n.mant = n.mant*10 + uint64(c-'0')
		}
		if i > at {
			n.exp--
		}
	}
	return nil
}

func point(group byte) byte { return '.' + ',' - group }

func signName(c byte) string {
	if c == ',' {
		return "comma"
	}
	return "point"
}

// grouped reports whether the group signs in s, if any, part whole groups of
// three before a decimal sign at index at.
func grouped(s string, group byte, at int) bool {
	if !strings.Contains(s, string(group)) {
		return true
	}
	if at == len(s) || strings.IndexByte(s[at:], group) >= 0 {
		return false
	}
	first, rest, _ := strings.Cut(s[:at], string(group))
	if len(first) == 0 || len(first) > 3 {
		return false
	}
	for g := range strings.SplitSeq(rest, string(group)) {
		if len(g) != 3 {
			return false
		}
	}
	return true
}

// vulgar returns the fraction character at i, if there is one.
func (p *parser) vulgar(i int) (ratio, int) {
	r, size := runeAt(p.s, i)
	if n, d := vulgar(r); d != 0 {
		return ratio{n: n, d: d}, size
	}
	return ratio{}, 0
}

// fraction reads what may follow a whole number: /8, or  3/8, -3/8, ½.
func (p *parser) fraction(n *number) (bool, error) {
	s := p.s
	if p.i < len(s) && s[p.i] == '/' && digit(s, p.i+1) {
		p.i++
		n.p, n.text, n.digits, n.mant = n.mant, "", 0, 0
		if n.long {
			return false, p.refuse("has a fraction of too many digits")
		}
		return true, p.denominator(n)
	}
	i := p.i
	for i < len(s) && s[i] == ' ' {
		i++
	}
	if i == p.i && i < len(s) && s[i] == '-' {
		i++
	}
	if v, size := p.vulgar(i); size > 0 {
		n.p, n.q = v.n, v.d
		p.i = i + size
		return true, nil
	}
	from := i
	for digit(s, i) {
		i++
	}
	if i == from || i == p.i || i >= len(s) || s[i] != '/' || !digit(s, i+1) {
		return false, nil
	}
	if i-from > 9 {
		return false, p.refuse("has a fraction of too many digits")
	}
	for _, c := range []byte(s[from:i]) {
		n.p = n.p*10 + uint64(c-'0')
	}
	p.i = i + 1
	if err := p.denominator(n); err != nil {
		return false, err
	}
	if n.p >= n.q {
		return false, p.refuse("has a fraction of one or more after a whole number")
	}
	return true, nil
}

func (p *parser) denominator(n *number) error {
	from := p.i
	for digit(p.s, p.i) {
		n.q = n.q*10 + uint64(p.s[p.i]-'0')
		if p.i++; p.i-from > 9 {
			return p.refuse("has a fraction of too many digits")
		}
	}
	if n.q == 0 {
		return p.refuse("divides by nought")
	}
	return nil
}

// exponent reads e-6 or ×10⁻⁶.
func (p *parser) exponent(n *number) error {
	s, i := p.s, p.i
	bare := false // digits right after the 10, which read as part of it
	if i < len(s) && (s[i] == 'e' || s[i] == 'E') {
		i++
	} else {
		for i < len(s) && s[i] == ' ' {
			i++
		}
		r, size := runeAt(s, i)
		if r != '×' && r != 'x' && r != '·' && r != '*' {
			return nil
		}
		for i += size; i < len(s) && s[i] == ' '; {
			i++
		}
		if !strings.HasPrefix(s[i:], "10") {
			return nil
		}
		i += len("10")
		if bare = digit(s, i); i < len(s) && s[i] == '^' {
			i++
		}
	}
	neg := false
	if r, size := runeAt(s, i); r == '-' || r == '+' || r == '⁻' || r == '⁺' {
		neg = r == '-' || r == '⁻'
		i += size
	}
	from, e := i, 0
	for i < len(s) {
		r, size := runeAt(s, i)
		d := strings.IndexRune("0123456789", r)
		if d < 0 {
			if d = superscript(r); d < 0 {
				break
			}
		}
		if e = e*10 + d; e > 400 {
			return p.outOfRange()
		}
		i += size
	}
	if i == from || bare {
		return nil
	}
	if neg {
		e = -e
	}
	n.exp += e
	p.i = i
	return nil
}

func superscript(r rune) int {
	switch r {
	case '¹':
		return 1
	case '²', '³':
		return int(r-'²') + 2
	case '⁰', '⁴', '⁵', '⁶', '⁷', '⁸', '⁹':
		return int(r - '⁰')
	}
	return -1
}
