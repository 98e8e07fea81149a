package curve_test

import (
	"math"
	"testing"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// On a circuit the turn of a whole lap is a whole turn, wherever it is cut, and
// the outer rail of a lap is 2π half rail centres longer than the line.
func TestTurnOfALap(t *testing.T) {
	s, err := curve.NewStraight(1000)
	if err != nil {
		t.Fatal(err)
	}
	c, err := curve.NewArc(800, math.Pi, curve.Left)
	if err != nil {
		t.Fatal(err)
	}
	a, err := curve.NewClosed(curve.Pose{}, 1e-6, 1e-9, s, c, s, c)
	if err != nil {
		t.Fatal(err)
	}
	l := a.Length()
	for _, c := range []struct {
		from, to measure.Length
		want     float64
	}{
		{0, l, 2 * math.Pi},
		{500, l, 2 * math.Pi},
		{1000, l, 2 * math.Pi},
		{1000 + 400*math.Pi, l, 1.5 * math.Pi},
		{1000 + 400*math.Pi, 500, 1.5 * math.Pi},
		{l - 1, 1000 + 400*math.Pi, math.Pi/2 + 1.0/800},
		{0, 500, 0},
		{500, l + 500, 2 * math.Pi},
		{500, 2*l + 500, 4 * math.Pi},
		{-500, 500, 500.0 / 800}, // the last half metre of the second arc
	} {
		got := float64(a.Turn(c.from, c.to))
		if math.Abs(got-c.want) > 1e-9 {
			t.Errorf("Turn(%v, %v) = %v, want %v", c.from, c.to, got, c.want)
		}
	}
	r, err := a.RailLength(curve.Right, 0, l, 47.5)
	if want := float64(l) + math.Pi*47.5; err != nil || math.Abs(float64(r)-want) > 1e-9*want {
		t.Errorf("the outer rail of a lap is %v, %v, want %v", float64(r), err, want)
	}
}
