package order

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"example.org/fourfoot/gauge/measure"
)

// A Currency is the user's own text, "EUR" or "£", and the number of decimal
// places that its minor unit stands for: 2 when the minor unit is a hundredth,
// 0 when prices are in whole units.
type Currency struct {
	Text   string
	Places int // 0 to 4
}

// Money is a whole number of minor units of one currency. The zero Money says
// that no price is known.
type Money struct {
	Minor    int64
	Currency Currency
}

// Known reports whether a currency is stated.
func (m Money) Known() bool { return m.Currency.Text != "" }

// Plus returns the sum of two amounts of one currency. An amount that is not
// Known adds nothing.
func (m Money) Plus(n Money) (Money, error) {
	switch {
	case !n.Known():
		return m, nil
	case !m.Known():
		return n, nil
	case m.Currency != n.Currency:
		return Money{}, fmt.Errorf("order: %v and %v are of two currencies and are not added: %w", m, n, measure.ErrInput)
	}
	s := m.Minor + n.Minor
	if (s > m.Minor) != (n.Minor > 0) {
		return Money{}, fmt.Errorf("order: %v and %v: the sum is more than can be counted: %w", m, n, measure.ErrLimit)
	}
	return Money{s, m.Currency}, nil
}

// Times returns the amount n times, n not negative.
func (m Money) Times(n int) (Money, error) {
	if n < 0 {
		return Money{}, fmt.Errorf("order: %d times %v: the count must be 0 or more: %w", n, m, measure.ErrInput)
	}
	if n > 0 && (m.Minor > math.MaxInt64/int64(n) || m.Minor < -math.MaxInt64/int64(n)) {
		return Money{}, fmt.Errorf("order: %d times %v is more than can be counted: %w", n, m, measure.ErrLimit)
	}
	return Money{m.Minor * int64(n), m.Currency}, nil
}

// String returns the amount in its currency, "12.50 EUR", with the decimal
// point; "" when no price is known.
func (m Money) String() string {
	if !m.Known() {
		return ""
	}
	return m.Number() + " " + m.Currency.Text
}

// Number returns the amount without its currency, "12.50"; "" when no price is
// known.
func (m Money) Number() string {
	if !m.Known() {
		return ""
	}
	s, sign := strconv.FormatInt(m.Minor, 10), ""
	if s[0] == '-' {
		sign, s = "-", s[1:]
	}
	p := max(m.Currency.Places, 0)
	if p == 0 {
		return sign + s
	}
	if len(s) <= p {
		s = strings.Repeat("0", p+1-len(s)) + s
	}
	return sign + s[:len(s)-p] + "." + s[len(s)-p:]
}
