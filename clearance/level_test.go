package clearance_test

import (
	"math"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// On a circuit nothing changes when the start is put elsewhere: a change of
// gradient just before the start, just past it or across it lifts and lowers
// what passes the start as it does when the start is far away.
func TestVerticalThrowOverTheStart(t *testing.T) {
	bend, err := curve.NewArc(1500, 2*math.Pi, curve.Right)
	if err != nil {
		t.Fatal(err)
	}
	ring, err := curve.NewClosed(curve.Pose{}, 1e-6, 1e-9, bend)
	if err != nil {
		t.Fatal(err)
	}
	lap := float64(ring.Length())
	v := clearance.Bogie("coach", 400, 70, clearance.Band{Bottom: 10, Top: 120, Outline: clearance.Box(600, 100)})
	for _, c := range []struct {
		name   string
		at     float64 // of the change of gradient
		radius measure.Length
	}{{"before", lap - 60, 0}, {"far before", lap - 230, 0}, {"past", 80, 0}, {"across", 20, 3000}} {
		// The gradient changes by 0.04 at the place, back again half a lap on.
		p := []profile.Point{{Chainage: measure.Length(c.at), Radius: c.radius}, {Chainage: measure.Length(c.at + lap/2), Level: measure.Length(0.02 * lap / 2)}}
		level, err := profile.NewClosedLevel(ring.Length(), 1e-6, p...)
		if err != nil {
			t.Fatal(err)
		}
		const by = 3000
		moved, err := level.StartAt(by)
		if err != nil {
			t.Fatal(err)
		}
		here := sweep(t, ring, []clearance.Vehicle{v}, clearance.Settings{Allowances: clearance.Allowances{Level: level}})
		there := sweep(t, ring, []clearance.Vehicle{v}, clearance.Settings{Allowances: clearance.Allowances{Level: moved}})
		thrown := 0
		for d := -700.0; d <= 700; d += 35 {
			x := math.Mod(d+lap, lap)
			a, err1 := here.Sections(measure.Length(x))
			b, err2 := there.Sections(measure.Length(math.Mod(x-by+lap, lap)))
			if err1 != nil || err2 != nil {
				t.Fatal(err1, err2)
			}
			for k := range a[0].Corners {
				if math.Abs(float64(a[0].Corners[k].Height-b[0].Corners[k].Height)) > 1e-3 {
					t.Errorf("%s, %v from the start, corner %d: %v high, far from a start %v", c.name, d, k, float64(a[0].Corners[k].Height), float64(b[0].Corners[k].Height))
				}
			}
			if a[0].Corners[2].Height > 121 || a[0].Corners[0].Height < 9 {
				thrown++
			}
		}
		if thrown == 0 {
			t.Errorf("%s: nothing was thrown: not what this test is about", c.name)
		}
	}
}

// The worst height of all poses, against a scan of a thousand of them, the
// change of gradient anywhere under the body: breaks, parabolas and both.
func TestVerticalThrowIsTheWorstPose(t *testing.T) {
	const C, half, crest = 400.0, 330.0, 1500.0
	v := clearance.Rigid("wagon", C, clearance.Band{Bottom: 10, Top: 120, Outline: clearance.Box(2*half, 100)})
	for _, radius := range []measure.Length{0, 900, 5000} {
		for _, i := range []float64{0.03, -0.03} {
			level, err := profile.NewLevel(profile.Point{}, profile.Point{Chainage: crest - 210, Level: measure.Length(i * (crest - 210))},
				profile.Point{Chainage: crest, Level: measure.Length(i * (crest - 210)), Radius: radius}, profile.Point{Chainage: 3000, Level: measure.Length(i * (crest - 210) * 0.6)})
			if err != nil {
				t.Fatal(err)
			}
			e := sweep(t, straight(t, 3000), []clearance.Vehicle{v}, clearance.Settings{Allowances: clearance.Allowances{Level: level}})
			for c := crest - 900; c < crest+700; c += 13.7 {
				up, down := 0.0, 0.0
				for n := range 1001 {
					// Midway between the axles at m, the chord over the level at c.
					m := c - half + 2*half*float64(n)/1000
					zr, zf := float64(level.At(measure.Length(m-C/2))), float64(level.At(measure.Length(m+C/2)))
					d := (zr+zf)/2 + (zf-zr)/C*(c-m) - float64(level.At(measure.Length(c)))
					up, down = max(up, d), min(down, d)
				}
				s, err := e.Sections(measure.Length(c))
				if err != nil {
					t.Fatal(err)
				}
				low, top := float64(s[0].Corners[0].Height), float64(s[0].Corners[2].Height)
				if math.Abs(top-120-up) > 1e-4 || math.Abs(low-10-down) > 1e-4 {
					t.Errorf("radius %v, gradient %v, at %v: from %v to %v, want %v to %v", float64(radius), i, c, low, top, 10+down, 120+up)
				}
			}
		}
	}
}
