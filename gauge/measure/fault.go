package measure

import "errors"

// The kinds of error that every package of this library wraps; test for them
// with errors.Is.
var (
	// ErrInput: a value given is not one the call can take.
	ErrInput = errors.New("bad input")
	// ErrNoAnswer: the values are good, but no answer exists; the text says
	// what would make one exist.
	ErrNoAnswer = errors.New("no answer")
	// ErrLimit: the work asked for is more than a documented limit.
	ErrLimit = errors.New("over the limit")
)

// A FieldError says which value was refused and why. Several are joined when
// several values are at fault; find one with errors.As.
type FieldError struct {
	Package string // that refused the value
	Field   string // in the caller's words: "radius", "vehicle 2: length"
	Value   string // as given, with its unit
	Limit   string // what it must be, with the unit: "must be more than 0 mm"
	Kind    error  // ErrInput, ErrNoAnswer or ErrLimit
}

// Error returns "package: field value: limit".
func (e *FieldError) Error() string {
	s := e.Package + ": " + e.Field
	if e.Value != "" {
		s += " " + e.Value
	}
	return s + ": " + e.Limit
}

// Unwrap returns the kind.
func (e *FieldError) Unwrap() error { return e.Kind }
