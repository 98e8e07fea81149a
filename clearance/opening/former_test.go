package opening_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/opening"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/approx"
)

// A grown section reaches at each height as far as the farthest of the circles
// round all that is in it; its rounds stand out by 0.01 mm at most.
func TestGrown(t *testing.T) {
	for seed := range 60 {
		rng := rand.New(rand.NewPCG(uint64(seed), 5))
		s, all := blocks(t, rng, 1+rng.IntN(5))
		m := 0.5 + 12*rng.Float64()
		got := must[opening.Section](t)(s.Grown(measure.Length(m)))
		for range 30 {
			z := float64(got.Bottom()) + float64(got.Top()-got.Bottom())*rng.Float64()
			for _, side := range []curve.Hand{curve.Left, curve.Right} {
				want := math.Inf(-1)
				for _, b := range all {
					y := b[1]
					if side == curve.Right {
						y = -b[0]
					}
					if d := max(b[2]-z, z-b[3], 0); d <= m {
						want = max(want, y+math.Sqrt(m*m-d*d))
					}
				}
				r, _, err := got.Reach(side, clearance.Heights{From: measure.Length(z), To: measure.Length(z)})
				if err != nil {
					t.Fatal(err)
				}
				filled := joined(all)
				if !filled && (float64(r) < want-1e-9 || float64(r) > want+0.0101*math.Max(1, m/math.Sqrt(max(1e-6, m*m-edge(all, z, m))))) {
					t.Fatalf("seed %d, margin %v: at %v %v: %v, want %v", seed, m, z, side, float64(r), want)
				}
				if float64(r) < want-1e-9 {
					t.Fatalf("seed %d: at %v %v: %v, less than %v", seed, z, side, float64(r), want)
				}
			}
		}
	}
}

// joined reports whether there is a gap of height between blocks anywhere, so
// that the section has more in it than the blocks.
func joined(all [][4]float64) bool {
	for _, a := range all {
		top, more := a[3], false
		for _, b := range all {
			if b[3] > top+1e-12 {
				more = true
			}
		}
		covered := false
		for _, b := range all {
			if b[2] <= top && b[3] > top {
				covered = true
			}
		}
		if more && !covered {
			return true
		}
	}
	return false
}

// edge returns the square of the largest distance in height, up to m, from z to
// a block: near m the round is steep, and 0.01 mm outwards is more sideways.
func edge(all [][4]float64, z, m float64) float64 {
	d := 0.0
	for _, b := range all {
		if x := max(b[2]-z, z-b[3], 0); x <= m {
			d = max(d, x)
		}
	}
	return d * d
}

// With a cant the card leans with the track, so on one radius it is the card
// without a cant.
func TestFormerLeansWithTheTrack(t *testing.T) {
	l := line(t, arc(t, 1500, 150*measure.Degree, curve.Left))
	card := opening.Card{Margin: 5, Gauge: 45, RailCentres: 47.5}
	plain := must[opening.Former](t)(opening.NewFormer(t.Context(), sweep(t, l, clearance.Settings{Tolerance: 1e-3}, coach()), 2000, 2000, card))
	for _, datum := range []profile.Datum{profile.InnerRail, profile.Centreline, profile.OuterRail} {
		cant := must[profile.Cant](t)(profile.NewCant(datum, profile.CantPoint{Cant: 3}))
		e := sweep(t, l, clearance.Settings{Tolerance: 1e-3, Allowances: clearance.Allowances{Cant: cant, RailCentres: 47.5}}, coach())
		got := must[opening.Former](t)(opening.NewFormer(t.Context(), e, 2000, 2000, card))
		if d := approx.Diff(plain.Outline, got.Outline, 1e-6); d != "" {
			t.Errorf("%v: -plain +canted:\n%s", datum, d)
		}
	}
}

// The card: over the rails a foot, then the stock's outline and the margin.
func TestFormerOutline(t *testing.T) {
	l := line(t, arc(t, 1500, 150*measure.Degree, curve.Left))
	e := sweep(t, l, clearance.Settings{Tolerance: 1e-3}, coach())
	const m = 6
	f := must[opening.Former](t)(opening.NewFormer(t.Context(), e, 1000, 3000, opening.Card{Margin: m, Gauge: 45, RailCentres: 47.5, Tongue: 3, Play: 1}))
	th := must[[]clearance.Throw](t)(clearance.Throws(coach(), 1500))[0]
	left, right, top := measure.Length(0), measure.Length(0), measure.Length(0)
	for _, p := range f.Outline {
		left, right, top = max(left, p.Offset), max(right, -p.Offset), max(top, p.Height)
	}
	if !near(left, th.Inside+m, 0.012) || !near(right, th.Outside+m, 0.012) || !near(top, 130+m, 0.012) || f.Below {
		t.Errorf("%v left, %v right, %v high, below %v, want %v, %v, %v", float64(left), float64(right), float64(top), f.Below, float64(th.Inside+m), float64(th.Outside+m), 130+m)
	}
	// 45/2 + 2.5 is the rail head's outer edge; the tongue is 44 wide.
	want := []clearance.SectionPoint{{Offset: -22}, {Offset: -22, Height: -3}, {Offset: 22, Height: -3}, {Offset: 22}, {Offset: 25}}
	if d := approx.Diff(want, f.Outline[:5], 1e-9); d != "" {
		t.Errorf("foot: -want +got:\n%s", d)
	}
	for _, p := range f.Outline[5:] {
		if p.Height < -1e-9 {
			t.Errorf("the card comes below the rails at %v", p)
		}
	}
	both := must[opening.Former](t)(opening.NewFormer(t.Context(), e, 1000, 3000, opening.Card{Margin: m, Gauge: 45, RailCentres: 47.5, EitherWay: true}))
	l2, _, _ := both.Section().Reach(curve.Left, clearance.Heights{})
	r2, _, _ := both.Section().Reach(curve.Right, clearance.Heights{})
	if !near(l2, r2, 1e-9) || !near(l2, max(left, right), 1e-9) {
		t.Errorf("either way: %v left, %v right", float64(l2), float64(r2))
	}
}
