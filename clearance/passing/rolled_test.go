package passing_test

import (
	"context"
	"errors"
	"math"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/limit"
	"example.org/fourfoot/clearance/passing"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
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
		if d := got.Centres.Millimetres() - want; d < -1e-6 || d > 1e-3 { // heights here 0.01 mm apart
			t.Errorf("Straight of %v past %v = %.4f mm, want %.4f", pair[0], pair[1], got.Centres.Millimetres(), want)
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
		if d := got.Centres.Millimetres() - 5 - c.want; math.Abs(d) > 1e-6 {
			t.Errorf("%s: %.4f mm, want %.4f", c.name, got.Centres.Millimetres()-5, c.want)
		}
	}
	s := passing.Stocks{Inner: body(0, 30, 100), Outer: body(33, 80, 80), Allowances: clearance.Allowances{Springs: 0.02}}
	if got, err := s.Straight(context.Background()); !errors.Is(err, measure.ErrNoAnswer) {
		t.Errorf("3 mm apart: %+v, %v", got, err)
	}
}

// Two tracks of one cant. Bodies alike, leaning alike, have faces that are
// parallel planes: 88/cos φ level, whatever the heights. A low body past a tall
// one of half width b: at the low one's top right corner, or its left one.
func TestSpacingOfCantedTracks(t *testing.T) {
	const g, u = 47.5, 3.0
	phi := math.Asin(u / g)
	cant, err := profile.NewCant(profile.Centreline, profile.CantPoint{Cant: u})
	if err != nil {
		t.Fatal(err)
	}
	body := func(bottom, top, width measure.Length) []clearance.Vehicle {
		return []clearance.Vehicle{clearance.Rigid("body", 120, clearance.Band{Bottom: bottom, Top: top, Outline: clearance.Box(300, width)})}
	}
	a := clearance.Allowances{Cant: cant, RailCentres: g}
	for _, c := range []struct {
		name         string
		inner, outer []clearance.Vehicle
		want         float64
	}{
		{"alike", body(10, 120, 88), body(10, 120, 88), 88 / math.Cos(phi)},
		{"low and tall", body(10, 60, 88), body(5, 150, 70), 79 / math.Cos(phi)},
	} {
		got, err := passing.Stocks{Inner: c.inner, Outer: c.outer, Margin: 4, Allowances: a}.Straight(ctx)
		if err != nil || math.Abs(float64(got.Centres)-4-c.want) > 1e-6 {
			t.Errorf("%s: %v (%v), want %v", c.name, float64(got.Centres)-4, err, c.want)
		}
	}
	// One whose top is a step of its own, on the inner track: of it and of a tall
	// one beside it the level gap is least at a corner. The corner (y, z) leans to
	// y cos φ + z sin φ, z cos φ - y sin φ.
	lean := func(y, z float64) (float64, float64) {
		return y*math.Cos(phi) + z*math.Sin(phi), z*math.Cos(phi) - y*math.Sin(phi)
	}
	y, z := lean(-60, 10) // the lower right corner of a footplate 120 wide from 10 to 20
	y1, z1 := lean(35, 5)
	want := -y + y1 + (z-z1)*math.Tan(phi) // up the tall one's left face
	got, err := passing.Stocks{Inner: body(10, 20, 120), Outer: body(5, 150, 70), Allowances: a}.Straight(ctx)
	if err != nil || math.Abs(float64(got.Centres)-want) > 1e-6 || got.InnerReach+got.OuterReach != got.Centres {
		t.Errorf("footplate: %+v (%v), want %v", got, err, want)
	}
	// On curves the same as package limit asks forwards, by its own sections.
	s := passing.Stocks{Inner: []clearance.Vehicle{coach()}, Outer: body(5, 90, 96), Margin: 4, Allowances: a}
	for _, r := range []measure.Length{900, 2500} {
		x, err := s.Concentric(ctx, r)
		if err != nil {
			t.Fatal(err)
		}
		need, err := limit.Bend{Stock: s.Inner, Margin: 4, Allowances: a}.Spacing(ctx, r, x.Centres, s.Outer)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "limit's spacing", need, x.Centres, 1e-3)
	}
	if _, err := s.Needed(ctx, line(t, curve.Pose{}, straight(t, 3000)), curve.Left, clearance.Settings{}); !errors.Is(err, measure.ErrInput) {
		t.Errorf("along a line: %v", err)
	}
	if s.Allowances.Cant, err = profile.NewCant(profile.InnerRail, profile.CantPoint{}, profile.CantPoint{Chainage: 100, Cant: 2}); err != nil {
		t.Fatal(err)
	}
	if _, err := s.Straight(ctx); !errors.Is(err, measure.ErrInput) {
		t.Errorf("a ramp: %v", err)
	}
}
