package opening_test

import (
	"context"
	"errors"
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

type sectionOf = opening.Section

// On a constant radius the section is the body's bands at the reaches that
// Throws gives.
func TestAtOnConstantRadius(t *testing.T) {
	for _, hand := range []curve.Hand{curve.Left, curve.Right} {
		e := sweep(t, line(t, arc(t, 1500, 150*measure.Degree, hand)), clearance.Settings{Tolerance: 1e-4}, coach())
		s := must[opening.Section](t)(opening.At(e, 2000))
		for i, band := range coach().Bodies[0].Bands {
			v := coach()
			v.Bodies[0].Bands = v.Bodies[0].Bands[i : i+1]
			th := must[[]clearance.Throw](t)(clearance.Throws(v, 1500))[0]
			h := clearance.Heights{From: band.Bottom + 1, To: band.Top - 1}
			in, by, err := s.Reach(hand, h)
			if err != nil || !near(in, th.Inside, 1e-4) || by.Band != band.Name || by.Vehicle != "coach" || by.Chainage != 2000 {
				t.Errorf("%v, %s: inside %v by %+v (%v), want %v", hand, band.Name, float64(in), by, err, float64(th.Inside))
			}
			out, _, err := s.Reach(hand.Opposite(), h)
			if err != nil || !near(out, th.Outside, 1e-4) {
				t.Errorf("%v, %s: outside %v (%v), want %v", hand, band.Name, float64(out), err, float64(th.Outside))
			}
		}
		if s.Bottom() != 12 || s.Top() != 130 {
			t.Errorf("from %v to %v high", s.Bottom(), s.Top())
		}
	}
}

// The outline of a stepped body on straight track is the body.
func TestOutlineOnStraightTrack(t *testing.T) {
	e := sweep(t, line(t, straight(t, 3000)), clearance.Settings{}, coach())
	got := must[opening.Section](t)(opening.At(e, 1500)).Outline()
	p := func(y, z measure.Length) clearance.SectionPoint { return clearance.SectionPoint{Offset: y, Height: z} }
	want := []clearance.SectionPoint{
		p(35, 12), p(35, 38), p(44, 38), p(44, 110), p(30, 110), p(30, 130),
		p(-30, 130), p(-30, 110), p(-44, 110), p(-44, 38), p(-35, 38), p(-35, 12),
	}
	if d := approx.Diff(want, got, 1e-9); d != "" {
		t.Errorf("outline: -want +got:\n%s", d)
	}
}

// Flanks of random blocks and of random canted sections, against looking at
// every part at every height.
func TestReachAgainstEveryPart(t *testing.T) {
	for seed := range 200 {
		rng := rand.New(rand.NewPCG(uint64(seed), 1))
		s, all := blocks(t, rng, 1+rng.IntN(12))
		for range 200 {
			z := 220*rng.Float64() - 20
			left, right := math.Inf(-1), math.Inf(-1)
			for _, b := range all {
				if b[2] <= z && z <= b[3] {
					left, right = max(left, b[1]), max(right, -b[0])
				}
			}
			for side, want := range map[curve.Hand]float64{curve.Left: left, curve.Right: right} {
				got, _, err := s.Reach(side, clearance.Heights{From: measure.Length(z), To: measure.Length(z)})
				if math.IsInf(want, -1) {
					if !errors.Is(err, measure.ErrNoAnswer) {
						t.Fatalf("seed %d: at %v: %v, %v, want no answer", seed, z, got, err)
					}
					continue
				}
				if err != nil || !near(got, measure.Length(want), 1e-9) {
					t.Fatalf("seed %d: at %v %v: %v, %v, want %v", seed, z, side, float64(got), err, want)
				}
			}
		}
	}
}

// A section with cant, roll and vertical throw has at each height what the
// four-sided figures of clearance have there.
func TestAtWithAllowances(t *testing.T) {
	l := garden(t, curve.Left)
	cant := must[profile.Cant](t)(profile.NewBendCant(l, profile.InnerRail, 3))
	level := must[profile.Level](t)(profile.NewLevel(profile.Point{}, profile.Point{Chainage: 3200, Level: 60, Radius: 9000}, profile.Point{Chainage: 7000}))
	set := clearance.Settings{Allowances: clearance.Allowances{Play: 0.8, Laying: 1, Heat: 0.5, Springs: 1 * measure.Degree, RollCentre: 25, Cant: cant, RailCentres: 47.5, Level: level}}
	e := sweep(t, l, set, coach(), wagon())
	for _, c := range []measure.Length{300, 2400, 3100, 3900, 5000} {
		s := must[opening.Section](t)(opening.At(e, c))
		parts := must[[]clearance.Section](t)(e.Sections(c))
		for z := -20.0; z < 160; z += 0.37 {
			left, right := math.Inf(-1), math.Inf(-1)
			for _, p := range parts {
				c := [6]clearance.SectionPoint{p.Corners[0], p.Corners[1], p.Knees[0], p.Corners[2], p.Corners[3], p.Knees[1]}
				for i := range c {
					a, b := c[i], c[(i+1)%6]
					if z0, z1 := float64(a.Height), float64(b.Height); (z0 <= z) != (z1 <= z) {
						y := float64(a.Offset) + float64(b.Offset-a.Offset)*(z-z0)/(z1-z0)
						left, right = max(left, y), max(right, -y)
					}
				}
			}
			for side, want := range map[curve.Hand]float64{curve.Left: left, curve.Right: right} {
				got, _, err := s.Reach(side, clearance.Heights{From: measure.Length(z), To: measure.Length(z)})
				if (err != nil) != math.IsInf(want, -1) || err == nil && !near(got, measure.Length(want), 1e-9) {
					t.Fatalf("at %v, %v %v: %v, %v, want %v", c, z, side, float64(got), err, want)
				}
			}
		}
	}
}

// Over a range the section is the largest of all its places, on a circuit over
// the start too.
func TestOver(t *testing.T) {
	l := garden(t, curve.Left)
	e := sweep(t, l, clearance.Settings{Tolerance: 0.01}, coach(), wagon())
	s := must[opening.Section](t)(opening.Over(t.Context(), e, 1800, 3000))
	for _, side := range []curve.Hand{curve.Left, curve.Right} {
		want := measure.Length(0)
		for c := measure.Length(1800); c <= 3000; c += 0.5 {
			want = max(want, must[clearance.Reach](t)(e.At(c, side, clearance.Heights{})).Reach)
		}
		got, _, err := s.Reach(side, clearance.Heights{})
		if err != nil || got > want+0.01 || got < want-0.01 {
			t.Errorf("%v: %v (%v), want %v", side, float64(got), err, float64(want))
		}
	}
	circle := must[*curve.Alignment](t)(curve.NewClosed(curve.Pose{}, 1, 0, arc(t, 1200, 360*measure.Degree, curve.Left)))
	e = sweep(t, circle, clearance.Settings{}, coach())
	s = must[opening.Section](t)(opening.Over(t.Context(), e, 7000, 600))
	th := must[[]clearance.Throw](t)(clearance.Throws(coach(), 1200))[0]
	if got, _, err := s.Reach(curve.Left, clearance.Heights{}); err != nil || !near(got, th.Inside, 0.1) {
		t.Errorf("over the start: %v (%v), want %v", float64(got), err, float64(th.Inside))
	}
}

// A circuit that is not the same all round: the range over its start has the
// bend's end and the straight, not what lies between.
func TestOverTheStart(t *testing.T) {
	bend := must[[]curve.Element](t)(curve.Bend{Radius: 1000, Turn: 180 * measure.Degree, Hand: curve.Left, EaseIn: 500, EaseOut: 500}.Elements())
	oval := must[*curve.Alignment](t)(curve.NewClosed(curve.Pose{}, 1, 0, elements(t, straight(t, 1500), bend, straight(t, 1500), bend)...))
	L := oval.Length()
	e := sweep(t, oval, clearance.Settings{}, coach())
	for _, c := range [][2]measure.Length{{L - 900, 300}, {L - 100, 5700}, {L - 2000, 1900}} {
		s := must[opening.Section](t)(opening.Over(t.Context(), e, c[0], c[1]))
		for _, side := range []curve.Hand{curve.Left, curve.Right} {
			want := measure.Length(0)
			for d := measure.Length(0); d <= c[1]-c[0]+L; d += 3 {
				x := c[0] + d
				if x > L {
					x -= L
				}
				want = max(want, must[clearance.Reach](t)(e.At(x, side, clearance.Heights{})).Reach)
			}
			if got, _, err := s.Reach(side, clearance.Heights{}); err != nil || !near(got, want, 0.05) {
				t.Errorf("%v to %v %v: %v (%v), want %v", c[0], c[1], side, float64(got), err, float64(want))
			}
		}
	}
}

func TestSectionRefusals(t *testing.T) {
	e := sweep(t, line(t, straight(t, 3000)), clearance.Settings{From: 1000, To: 2000}, coach())
	s := must[opening.Section](t)(opening.At(e, 1500))
	ctx := context.Background()
	nan := measure.Length(math.NaN())
	stopped, stop := context.WithCancel(ctx)
	stop()
	for name, f := range map[string]func() error{
		"no envelope":    func() error { _, err := opening.At(nil, 0); return err },
		"off the range":  func() error { _, err := opening.At(e, 2500); return err },
		"range":          func() error { _, err := opening.Over(ctx, e, 500, 1500); return err },
		"range's end":    func() error { _, err := opening.Over(ctx, e, 1500, 2500); return err },
		"backwards":      func() error { _, err := opening.Over(ctx, e, 1500, 1200); return err },
		"nan":            func() error { _, err := opening.Over(ctx, e, nan, 1200); return err },
		"empty block":    func() error { _, err := s.With("bed", 10, 10, 0, 5); return err },
		"flat block":     func() error { _, err := s.With("bed", -10, 10, 5, 5); return err },
		"block nan":      func() error { _, err := s.With("bed", nan, 10, 0, 5); return err },
		"side":           func() error { _, _, err := s.Reach(0, clearance.Heights{}); return err },
		"heights":        func() error { _, _, err := s.Reach(curve.Left, clearance.Heights{From: 5, To: 1}); return err },
		"margin":         func() error { _, err := s.Rectangle(-1, opening.Centred); return err },
		"about":          func() error { _, err := s.Circle(1, 7); return err },
		"empty section":  func() error { _, err := opening.Section{}.Rectangle(1, opening.Centred); return err },
		"rise":           func() error { _, err := s.Arch(opening.ArchForm{Rise: 0.7}, 1); return err },
		"floor":          func() error { _, err := s.Arch(opening.ArchForm{Floor: nan}, 1); return err },
		"least":          func() error { _, err := s.Arch(opening.ArchForm{Least: 9}, 1); return err },
		"low springing":  func() error { _, err := s.ArchFrom(-5, opening.ArchForm{}, 1); return err },
		"grown":          func() error { _, err := s.Grown(nan); return err },
		"tunnel's walls": func() error { _, err := opening.NewTunnel(ctx, e, 1000, 2000, 7); return err },
		"no tunnel":      func() error { _, err := opening.NewTunnel(ctx, e, 1500, 1500, opening.CurvedWalls); return err },
		"former's gauge": func() error { _, err := opening.NewFormer(ctx, e, 1500, 1500, opening.Card{}); return err },
	} {
		if err := f(); !errors.Is(err, measure.ErrInput) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := opening.Over(stopped, e, 1000, 2000); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped: %v", err)
	}
}
