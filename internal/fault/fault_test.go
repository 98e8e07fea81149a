package fault_test

import (
	"errors"
	"math"
	"testing"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

func TestList(t *testing.T) {
	l := fault.In("expansion")
	fault.Positive(l, "panel length", measure.Length(-20))
	fault.Finite(l, "gap", measure.Length(math.NaN()))
	fault.NotNegative(l, "mass", measure.Mass(-1))
	fault.Between(l, "radius", measure.Length(599.9999999), 600, 12000)
	fault.Between(l, "radius", measure.Length(12001), 600, 12000)
	l.Over("elements", 10001, "must be at most 10000")
	if !fault.Positive(l, "length", measure.Length(1)) {
		t.Error("1 mm was refused")
	}
	err := l.Err()
	want := `expansion: panel length -20 mm: must be more than 0 mm
expansion: gap NaN mm: must be a finite number
expansion: mass -1 kg: must be 0 kg or more
expansion: radius 599.9999999 mm: must be from 600 mm to 12 m
expansion: radius 12.001 m: must be from 600 mm to 12 m
expansion: elements 10001: must be at most 10000`
	if err == nil || err.Error() != want {
		t.Errorf("Err = %v\nwant %s", err, want)
	}
	if !errors.Is(err, measure.ErrInput) || !errors.Is(err, measure.ErrLimit) || errors.Is(err, measure.ErrNoAnswer) {
		t.Error("the kinds are not those of the faults")
	}
	var fe *measure.FieldError
	if !errors.As(err, &fe) || fe.Field != "panel length" || fe.Value != "-20 mm" {
		t.Errorf("the first fault is %+v", fe)
	}
	if fault.In("curve").Err() != nil {
		t.Error("no fault, but an error")
	}
}
