// Package fault collects what is wrong with a call's input, so that every
// package reports all faults at once and in the same words.
package fault

import (
	"encoding"
	"errors"
	"fmt"
	"math"

	"golang.org/x/exp/constraints"

	"example.org/fourfoot/gauge/measure"
)

// A List collects the faults of one call.
type List struct {
	pkg  string
	errs []error
}

// In returns an empty list for the named package.
func In(pkg string) *List { return &List{pkg: pkg} }

// Add records that field, with the value as the caller would write it, breaks
// the limit.
func (l *List) Add(field string, value any, limit string) {
	l.add(field, value, limit, measure.ErrInput)
}

// Over records that field's value is more than a documented limit of work.
func (l *List) Over(field string, value any, limit string) {
	l.add(field, value, limit, measure.ErrLimit)
}

// NoAnswer records that no answer exists; limit says what would make one.
func (l *List) NoAnswer(field string, value any, limit string) {
	l.add(field, value, limit, measure.ErrNoAnswer)
}

func (l *List) add(field string, value any, limit string, kind error) {
	text := ""
	if value != nil {
		text = fmt.Sprint(value)
	}
	l.errs = append(l.errs, &measure.FieldError{Package: l.pkg, Field: field, Value: text, Limit: limit, Kind: kind})
}

// Join records an error that another package returned; nil is nothing.
func (l *List) Join(err error) {
	if err != nil {
		l.errs = append(l.errs, err)
	}
}

// JoinAs records an error under a field's name.
func (l *List) JoinAs(field string, err error) {
	if err != nil {
		l.errs = append(l.errs, fmt.Errorf("%s: %w", field, err))
	}
}

// OK reports whether nothing has been recorded.
func (l *List) OK() bool { return len(l.errs) == 0 }

// Err returns all that was recorded as one error, or nil.
func (l *List) Err() error { return errors.Join(l.errs...) }

// Finite records a value that is not finite and reports whether it is.
func Finite[F constraints.Float](l *List, field string, v F) bool {
	if math.IsNaN(float64(v)) || math.IsInf(float64(v), 0) {
		l.Add(field, v, "must be a finite number")
		return false
	}
	return true
}

// Positive records a value that is not finite and above zero.
func Positive[F constraints.Float](l *List, field string, v F) bool {
	if !Finite(l, field, v) {
		return false
	}
	if v <= 0 {
		l.Add(field, v, "must be more than "+fmt.Sprint(F(0)))
		return false
	}
	return true
}

// NotNegative records a value that is not finite or below zero.
func NotNegative[F constraints.Float](l *List, field string, v F) bool {
	if !Finite(l, field, v) {
		return false
	}
	if v < 0 {
		l.Add(field, v, "must be "+fmt.Sprint(F(0))+" or more")
		return false
	}
	return true
}

// Between records a value that is not finite or outside lo to hi.
func Between[F constraints.Float](l *List, field string, v, lo, hi F) bool {
	if !Finite(l, field, v) {
		return false
	}
	if v < lo || v > hi {
		l.Add(field, apart(v, lo, hi), fmt.Sprintf("must be from %v to %v", apart(lo, v), apart(hi, v)))
		return false
	}
	return true
}

// apart returns the text of v, exact when the short one is that of another
// value beside it: "600 mm must be 600 mm or more" helps nobody.
func apart[F constraints.Float](v F, beside ...F) string {
	short := fmt.Sprint(v)
	for _, w := range beside {
		if v == w || fmt.Sprint(w) != short {
			continue
		}
		if m, ok := any(v).(encoding.TextMarshaler); ok {
			if text, err := m.MarshalText(); err == nil {
				return string(text)
			}
		}
	}
	return short
}
