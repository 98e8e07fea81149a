package passing_test

import (
	"context"
	"errors"
	"math"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/passing"
	"example.org/fourfoot/gauge/measure"
)

// Two stocks of unlike heights that roll on their springs, on straight track:
// the spacing is what both need together at the height where that is most,
// found here by looking at every height.
func TestSpacingOfStocksThatRoll(t *testing.T) {
	const roll, rollCentre, margin = 0.02, 40.0, 6.0
	type band struct{ bottom, top, half float64 }
	low, tall := []band{{12, 90, 57}}, []band{{18, 120, 50}, {120, 200, 62}}
	stock := func(name string, bands []band) []clearance.Vehicle {
		var out []clearance.Band
		for _, b := range bands {
			out = append(out, clearance.Band{Bottom: measure.Length(b.bottom), Top: measure.Length(b.top), Outline: clearance.Box(300, measure.Length(2*b.half))})
		}
		return []clearance.Vehicle{clearance.Rigid(name, 120, out...)}
	}
	// The outermost place of the bands, rolled, at a height; a corner rises by
	// half width times roll.
	reach := func(bands []band, z float64) float64 {
		most := math.Inf(-1)
		for _, b := range bands {
			zb, zt := b.bottom-roll*b.half, b.top+roll*b.half
			// A corner's lift is that of the outermost place of its section.
			yb, yt := b.half+roll*math.Abs(b.bottom-rollCentre), b.half+roll*math.Abs(b.top-rollCentre)
			if z >= zb && z <= zt {
				most = max(most, yb+(yt-yb)*(z-zb)/(zt-zb))
			}
		}
		return most
	}
	for _, pair := range [][2][]band{{low, tall}, {tall, low}, {low, low}, {tall, tall}} {
		want := math.Inf(-1)
		for z := 0.0; z < 220; z += 0.01 {
			want = max(want, reach(pair[0], z)+reach(pair[1], z)+margin)
		}
		s := passing.Stocks{
			Inner: stock("inner", pair[0]), Outer: stock("outer", pair[1]), Margin: margin,
			Allowances: clearance.Allowances{Springs: roll, RollCentre: rollCentre},
		}
		got, err := s.Straight(context.Background())
		if err != nil {
			t.Errorf("Straight of %v past %v: %v", pair[0], pair[1], err)
			continue
		}
		if d := got.Centres.Millimetres() - want; d < -1e-6 || d > 0.1 {
			t.Errorf("Straight of %v past %v = %.4f mm, want %.4f and at most 0.1 mm more", pair[0], pair[1], got.Centres.Millimetres(), want)
		}
	}
}

// By hand, rolling 0.02 about the rails. A body 100 wide from 0 to 100 high has
// a flank from 50 at 1 below to 52 at 101; one 80 wide from 20 to 60 has one from
// 40.4 at 19.2 to 41.2 at 60.8. They need most at 60.8, 41.2 and 50 + 2·61.8/102 =
// 51.2118. Of two that part by 1 mm of height, 100 wide up to 30 and 80 wide from
// 31 to 80, the one comes up to 31, 50.6 out, the other down to 30.2: at 31 they
// need 50.6 and 40.62 + 0.98·0.8/50.6 = 40.6355. Ones 3 mm apart never meet.
func TestSpacingOfStocksThatRollByHand(t *testing.T) {
	body := func(bottom, top, width measure.Length) []clearance.Vehicle {
		return []clearance.Vehicle{clearance.Rigid("body", 120, clearance.Band{Bottom: bottom, Top: top, Outline: clearance.Box(300, width)})}
	}
	for _, c := range []struct {
		name         string
		inner, outer []clearance.Vehicle
		want         float64
	}{
		{"low beside tall", body(0, 100, 100), body(20, 60, 80), 41.2 + 50 + 2*61.8/102},
		{"tall beside low", body(20, 60, 80), body(0, 100, 100), 41.2 + 50 + 2*61.8/102},
		{"one over the other", body(0, 30, 100), body(31, 80, 80), 50.6 + 40.62 + 0.98*0.8/50.6},
	} {
		s := passing.Stocks{Inner: c.inner, Outer: c.outer, Margin: 5, Allowances: clearance.Allowances{Springs: 0.02}}
		got, err := s.Straight(context.Background())
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		// On the safe side, by what the two lean in twice the lift of a corner.
		if d := got.Centres.Millimetres() - 5 - c.want; d < -1e-6 || d > 2*0.02*2*1.04 {
			t.Errorf("%s: %.4f mm, want %.4f", c.name, got.Centres.Millimetres()-5, c.want)
		}
	}
	s := passing.Stocks{Inner: body(0, 30, 100), Outer: body(33, 80, 80), Allowances: clearance.Allowances{Springs: 0.02}}
	if got, err := s.Straight(context.Background()); !errors.Is(err, measure.ErrNoAnswer) {
		t.Errorf("3 mm apart: %+v, %v", got, err)
	}
}
