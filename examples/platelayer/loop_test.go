package main

import (
	"math"
	"testing"

	"example.org/fourfoot/gauge/measure"
)

// A loop's pieces and gaps make up its rails, its points left out, and what it
// takes is in the order.
func TestLoopRails(t *testing.T) {
	p := &Plan{}
	if err := decodePlan(demo, p); err != nil {
		t.Fatal(err)
	}
	s := &site{plan: p}
	if err := s.lay(); err != nil {
		t.Fatal(err)
	}
	l := s.loops[0]
	from, to := 450*measure.Millimetre, l.line.Length()-450
	for name, side := range map[string]struct {
		rail  float64
		total measure.Length
	}{"left": {1, l.joints.Left.Rail}, "right": {-1, l.joints.Right.Rail}} {
		want := float64(to-from) - side.rail*float64(s.railCentres)/2*float64(l.line.Turn(from, to))
		if math.Abs(float64(side.total)-want) > 1e-6 {
			t.Errorf("%s rail %v, want %v", name, float64(side.total), want)
		}
	}
	main, loop := len(s.joints.Cutting.Bars), len(l.joints.Cutting.Bars)
	if loop < 6 {
		t.Errorf("%d bars for the loop", loop)
	}
	for _, row := range table(t, string(demo), "order").Rows {
		if row[0] == bars && row[1] != float64(main+loop) {
			t.Errorf("ordered %v bars, want %d and %d", row[1], main, loop)
		}
	}
	if n := len(table(t, string(demo), "joints-loop1").Rows); n != len(l.joints.Joints) {
		t.Errorf("%d joints in the table, %d in the plan", n, len(l.joints.Joints))
	}
}
