package solve_test

import (
	"math"
	"testing"

	"example.org/fourfoot/internal/solve"
)

func TestGolden(t *testing.T) {
	for _, c := range []struct {
		name string
		f    func(float64) float64
		a, b float64
		want float64
	}{
		{"parabola", func(x float64) float64 { return (x - 0.3) * (x - 0.3) }, -1, 2, 0.3},
		{"kink", func(x float64) float64 { return math.Abs(x - 1.25) }, 0, 10, 1.25},
		{"cosine", math.Cos, 2, 4, math.Pi},
		{"least at the end", func(x float64) float64 { return x }, 5, 6, 5},
		{"from above", func(x float64) float64 { return math.Abs(x - 1.25) }, 10, 0, 1.25},
	} {
		x, least := solve.Golden(c.f, c.a, c.b, 1e-9, math.Inf(-1))
		// A smooth least value is flat: half the digits of its place are lost.
		if math.Abs(x-c.want) > 3e-8 {
			t.Errorf("%s: %v, want %v", c.name, x, c.want)
		}
		if least != c.f(x) {
			t.Errorf("%s: value %v is not that at %v", c.name, least, x)
		}
	}
}

func TestGoldenStops(t *testing.T) {
	calls := 0
	f := func(x float64) float64 { calls++; return math.Abs(x - 0.4) }
	if x, v := solve.Golden(f, 0, 1, 1e-9, 0.1); v > 0.1 || math.Abs(x-0.4) > 0.1 || calls != 1 {
		t.Errorf("enough: %v at %v after %d calls", v, x, calls)
	}
	calls = 0
	solve.Golden(f, 0, 1, 1e-3, math.Inf(-1))
	if want := 2 + int(math.Ceil(math.Log(1e-3)/math.Log((math.Sqrt(5)-1)/2))); calls != want {
		t.Errorf("to 1e-3 of the width took %d calls, want %d", calls, want)
	}
	calls = 0
	solve.Golden(f, 0, 1, 0, math.Inf(-1))
	if calls > 92 {
		t.Errorf("no tolerance took %d calls", calls)
	}
}
