package solve_test

import (
	"math"
	"testing"

	"example.org/fourfoot/internal/solve"
)

func TestBrent(t *testing.T) {
	tests := []struct {
		name       string
		f          func(float64) float64
		a, b, want float64
	}{
		{"cosine", math.Cos, 1, 2, math.Pi / 2},
		{"cube, flat at the root", func(x float64) float64 { return x * x * x }, -1, 3, 0},
		{"step", func(x float64) float64 { return math.Copysign(1, x-0.3) }, 0, 1, 0.3},
		{"root at an end", func(x float64) float64 { return x - 1 }, 1, 2, 1},
		// Kepler's equation, M = 1, e = 0.5; E by bisection below.
		{"kepler", func(x float64) float64 { return x - 0.5*math.Sin(x) - 1 }, 0, 3, bisect(func(x float64) float64 { return x - 0.5*math.Sin(x) - 1 }, 0, 3)},
	}
	for _, tt := range tests {
		got, ok := solve.Brent(tt.f, tt.a, tt.b, 1e-13)
		if !ok || math.Abs(got-tt.want) > 1e-5 || tt.name != "cube, flat at the root" && math.Abs(got-tt.want) > 1e-12 {
			t.Errorf("%s: Brent = %v, %v, want %v", tt.name, got, ok, tt.want)
		}
	}
	if _, ok := solve.Brent(func(x float64) float64 { return x*x + 1 }, -1, 1, 1e-9); ok {
		t.Error("Brent found a root of x²+1")
	}
	if _, ok := solve.Brent(func(float64) float64 { return math.NaN() }, -1, 1, 1e-9); ok {
		t.Error("Brent found a root of NaN")
	}
}

func bisect(f func(float64) float64, a, b float64) float64 {
	for range 200 {
		if m := (a + b) / 2; f(m) < 0 {
			a = m
		} else {
			b = m
		}
	}
	return a
}
