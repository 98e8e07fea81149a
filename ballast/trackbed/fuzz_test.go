package trackbed_test

import (
	"math"
	"testing"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/ballast/trackbed"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

func finite(vs ...float64) bool {
	for _, v := range vs {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}

// Boards that are planned hold the sleepers, and their edges are finite.
func FuzzBend(f *testing.F) {
	f.Add(2000.0, 1.5, 145.0, 82.0, 12.0, 8.0, 4.0, 3.0, 2400.0)
	f.Add(600.0, 6.2, 200.0, 58.0, 0.0, 0.0, 0.0, 0.0, 0.0)
	f.Add(1e18, 1e-12, 1e18, 1e-12, 1e-12, 0.0, 1.0, 1.0, 1e18)
	f.Fuzz(func(t *testing.T, r, turn, w, sl, sw, m, gap, kerf, stock float64) {
		b := trackbed.Board{
			Width: measure.Length(w), SleeperLength: measure.Length(sl), SleeperWidth: measure.Length(sw), Margin: measure.Length(m),
			Gap: measure.Length(gap), Kerf: measure.Length(kerf), Stock: measure.Length(stock),
		}
		p, err := b.Bend(measure.Length(r), measure.Angle(turn))
		if err != nil {
			return
		}
		if !finite(float64(p.Long), float64(p.Short), float64(p.Chord), float64(p.Spare)) || p.Count < 1 || p.Short <= 0 || p.Long < p.Short {
			t.Fatalf("%+v", p)
		}
		if r < 1e6 && sw < sl && float64(p.Spare) < -1e-6*w {
			t.Fatalf("the margin is short by %v", -float64(p.Spare))
		}
		if stock > 0 && float64(p.Long) > stock*(1+1e-9) {
			t.Fatalf("a board of %v from planks of %v", float64(p.Long), stock)
		}
	})
}

// Nothing along a line panics or becomes infinite.
func FuzzAlong(f *testing.F) {
	line := oval()
	track := open(straight(1000), must(curve.NewEasement(curve.Helmert, 900, 0, 1.0/1500)), arc(1500, 1, curve.Left))
	f.Add(true, 100.0, 9000.0, 200.0, 150.0, 0.5, 60.0, 1000.0)
	f.Add(true, 9000.0, 100.0, 300.0, 80.0, 0.02, -60.0, 450.0)
	f.Add(false, 0.0, 3400.0, 1e18, 1e-12, 1.0, 0.0, 1e18)
	f.Fuzz(func(t *testing.T, circuit bool, from, to, width, depth, slope, off, every float64) {
		on := track
		if circuit {
			on = line
		}
		s := ballast.Stretch{From: measure.Length(from), To: measure.Length(to)}
		w, d, o, e := measure.Length(width), measure.Length(depth), measure.Length(off), measure.Length(every)
		if g, err := (trackbed.Trench{Width: w, Depth: d, Slope: slope, Offset: o}).Along(on, s); err == nil && (!finite(float64(g.Spoil), float64(g.Lining)) || g.Excavated <= 0) {
			t.Fatalf("%+v", g)
		}
		if g, err := (trackbed.Strip{Width: w, Thickness: d, Fall: measure.Gradient(slope), Offset: o, Joint: e, Bars: 2, BarStock: e}).Along(on, s); err == nil && (!finite(float64(g.Volume), float64(g.BarLength)) || g.Volume <= 0) {
			t.Fatalf("%+v", g)
		}
		if g, err := (trackbed.Slabs{Length: e, Width: w, Height: d, Gap: 5}).Along(on, s); err == nil && (!finite(float64(g.Dig), float64(g.WidestAt)) || g.Count < 1) {
			t.Fatalf("%+v", g)
		}
		if g, err := (trackbed.Drain{Pipe: d, Width: w, Start: e, Offset: o, Stock: e}).Along(on, s); err == nil && (!finite(float64(g.Gravel)) || g.Pipes < 1) {
			t.Fatalf("%+v", g)
		}
		up, err := profile.NewLevel(profile.Point{Level: d}, profile.Point{Chainage: 5000, Level: o})
		if err != nil {
			return
		}
		if g, err := (trackbed.Earthwork{Width: w, Cut: 1, Fill: slope, Every: e}).Along(on, s, up, profile.Level{}); err == nil && (!finite(float64(g.Cut), float64(g.Fill), float64(g.Spoil)) || g.Cut < 0 || g.Fill < 0) {
			t.Fatalf("%+v", g)
		}
		if g, err := (trackbed.Posts{Spacing: e, Embed: d, Hole: w}).Along(on, s, up, profile.Level{}); err == nil && (!finite(float64(g.Concrete), float64(g.Timber)) || len(g.Posts) < 1) {
			t.Fatalf("%+v", g)
		}
	})
}

// The longest bay keeps its limit.
func FuzzLongestBay(f *testing.F) {
	f.Add(38.0, 63.0, 8000.0, 10.0, 5.0, 300.0, 0.0)
	f.Add(1e-12, 1e18, 100.0, 1e18, 1e18, 50.0, 1e-12)
	f.Fuzz(func(t *testing.T, w, h, e, lasting, point, over, most float64) {
		b := trackbed.Bearer{Width: measure.Length(w), Height: measure.Length(h), Modulus: measure.Stress(e)}
		bay, err := b.LongestBay(trackbed.Load{Lasting: measure.LinearMass(lasting), Point: measure.Mass(point)}, trackbed.SagLimit{SpanOver: over, Most: measure.Length(most)})
		if err != nil {
			return
		}
		if !finite(float64(bay.Span), float64(bay.Sag)) || bay.Span <= 0 ||
			over > 0 && float64(bay.Sag) > float64(bay.Span)/over*(1+1e-9) || most > 0 && float64(bay.Sag) > most*(1+1e-9) {
			t.Fatalf("%+v", bay)
		}
	})
}
