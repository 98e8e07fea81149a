package wheelset

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

const limitForms = "must be written like 44.5 to 45 mm, 45 +0/-0.5 mm, 40.2 ± 0.1 mm, at least 42.16 mm, at most 39.5 mm, 2 mm or not stated"

// ParseLimits reads limits as they are printed in a table or noted at the
// bench: `44.5 to 45 mm`, `45.0 +0/-0.5 mm`, `40.2 ± 0.1 mm`, `at least
// 42.16 mm` or `≥ 42.16 mm`, `at most 39.5 mm` or `≤ 39.5 mm`, `2 mm`, `not
// stated`. The unit at the end holds for the numbers before it too, and there
// must be one. A lower end of 0 is the same as none. Text of more than measure.MaxText
// bytes is over the limit.
func ParseLimits(text string) (Limits, error) {
	l := fault.In("wheelset")
	refuse := func(err error) (Limits, error) {
		l.Add("limits", strconv.Quote(clip(text)), limitForms)
		l.Join(err)
		return Limits{}, l.Err()
	}
	if len(text) > measure.MaxText {
		l.Over("limits", strconv.Quote(clip(text)), fmt.Sprintf("must be at most %d bytes", measure.MaxText))
		return Limits{}, l.Err()
	}
	s := strings.TrimSpace(text)
	if s == "not stated" {
		return Limits{}, nil
	}
	m, err := readLimits(s)
	if err != nil {
		return refuse(err)
	}
	m.check(l, "limits")
	if l.OK() && !m.Stated() {
		l.Add("limits", strconv.Quote(text), "must be more than 0")
	}
	if err := l.Err(); err != nil {
		return Limits{}, err
	}
	return m, nil
}

// readLimits reads one of the forms, its ends not yet checked.
func readLimits(s string) (m Limits, err error) {
	// The unit of the last number is that of the others.
	n := measure.Notation{Length: s[len(strings.TrimRightFunc(s, inUnit)):]}
	var failed error
	length := func(s string) measure.Length {
		v, err := n.ParseLength(strings.TrimSpace(s))
		if err != nil && failed == nil {
			failed = err
		}
		return v
	}
	if v, found := cutAnyPrefix(s, "at least", "≥", ">="); found {
		m.Min = length(v)
	} else if v, found := cutAnyPrefix(s, "at most", "≤", "<="); found {
		m.Max = length(v)
	} else if lo, hi, found := strings.Cut(s, " to "); found {
		m = Limits{length(lo), length(hi)}
	} else if v, within, found := strings.Cut(s, "±"); found {
		m = Reading(length(v), length(within))
	} else if v, tol, found := strings.Cut(s, "+"); found {
		plus, minus, _ := strings.Cut(tol, "/-")
		m = Tolerance(length(v), length(plus), length(minus))
	} else {
		v := length(s)
		m = Limits{v, v}
	}
	return m, failed
}

func inUnit(r rune) bool { return unicode.IsLetter(r) || strings.ContainsRune(`'"′″`, r) }

func cutAnyPrefix(s string, prefixes ...string) (string, bool) {
	for _, p := range prefixes {
		if after, found := strings.CutPrefix(s, p); found {
			return after, true
		}
	}
	return s, false
}

// clip shortens text that is quoted in an error.
func clip(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "…"
	}
	return s
}

// MarshalText returns the form of String with all digits; it reads back to the
// same limits.
func (m Limits) MarshalText() ([]byte, error) { return []byte(m.text(exact)), nil }

// UnmarshalText reads what ParseLimits reads.
func (m *Limits) UnmarshalText(text []byte) error {
	v, err := ParseLimits(string(text))
	if err != nil {
		return err
	}
	*m = v
	return nil
}
