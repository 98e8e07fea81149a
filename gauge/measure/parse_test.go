package measure_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/fourfoot/gauge/measure"
)

// accepted are texts that mean the same: the value is in the base unit and
// must come out to the last bit.
type accepted struct {
	text string
	want float64
}

// refused are texts that must be refused with these words in the error.
type refused struct {
	text, why string
}

func testParse[Q ~float64](t *testing.T, parse func(string) (Q, error), good []accepted, bad []refused) {
	t.Helper()
	for _, tt := range good {
		got, err := parse(tt.text)
		if err != nil || math.Float64bits(float64(got)) != math.Float64bits(tt.want) {
			t.Errorf("%T: parse(%q) = %v, %v, want %v", got, tt.text, float64(got), err, tt.want)
		}
	}
	for _, tt := range bad {
		got, err := parse(tt.text)
		if err == nil {
			t.Errorf("%T: parse(%q) = %v, want an error with %q", got, tt.text, float64(got), tt.why)
			continue
		}
		var fe *measure.FieldError
		if !errors.Is(err, measure.ErrInput) || !errors.As(err, &fe) {
			t.Errorf("%T: parse(%q): error %v is not a FieldError of ErrInput", got, tt.text, err)
		}
		if !strings.Contains(err.Error(), tt.why) || !strings.Contains(err.Error(), "; write for example ") {
			t.Errorf("%T: parse(%q): error %q, want %q and an accepted form", got, tt.text, err, tt.why)
		}
	}
}
