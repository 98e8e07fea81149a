package fault_test

import (
	"math"
	"testing"

	"example.org/fourfoot/internal/fault"
)

func TestBounds(t *testing.T) {
	for _, c := range []struct {
		v                   float64
		size, amount, place bool
	}{
		{1, true, true, true},
		{0, false, true, true},
		{-1, false, false, true},
		{1e-13, false, false, true},
		{1e19, false, false, false},
		{-1e19, false, false, false},
		{math.NaN(), false, false, false},
		{math.Inf(1), false, false, false},
	} {
		l := fault.In("x")
		if s, a, p := fault.Size(l, "f", c.v), fault.Amount(l, "f", c.v), fault.Place(l, "f", c.v); s != c.size || a != c.amount || p != c.place {
			t.Errorf("%v: size %v, amount %v, place %v", c.v, s, a, p)
		}
		if (l.Err() == nil) != (c.size && c.amount && c.place) {
			t.Errorf("%v: %v", c.v, l.Err())
		}
	}
}
