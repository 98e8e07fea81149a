package plane_test

import (
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/internal/plane"
)

func TestContains(t *testing.T) {
	// An L, its notch at the upper right.
	l := []r2.Vec{{}, {X: 4}, {X: 4, Y: 1}, {X: 1, Y: 1}, {X: 1, Y: 3}, {Y: 3}}
	for range 2 { // either way round
		for _, c := range []struct {
			x    r2.Vec
			want bool
		}{
			{r2.Vec{X: 0.5, Y: 2}, true},
			{r2.Vec{X: 3, Y: 0.5}, true},
			{r2.Vec{X: 2, Y: 2}, false},
			{r2.Vec{X: -1, Y: 1}, false},
			{r2.Vec{X: -1, Y: 0.5}, false},
			{r2.Vec{X: 5, Y: 0.5}, false},
			{r2.Vec{X: 0.5, Y: 4}, false},
		} {
			if got := plane.Contains(l, c.x); got != c.want {
				t.Errorf("%v: %v", c.x, got)
			}
		}
		slices.Reverse(l)
	}
	if plane.Contains(nil, r2.Vec{}) || plane.Contains(l[:2], r2.Vec{X: 2}) {
		t.Error("fewer than three corners hold something")
	}
}
