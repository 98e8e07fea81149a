package passing_test

import (
	"context"
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
