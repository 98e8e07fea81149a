package opening_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/opening"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// On an arc, with β half of its turn: curved walls at the reaches; straight
// ones along the chord at in·cos β inside, where the ends are, and at
// out + R(1-cos β) outside, where the middle is. Plane geometry.
func TestTunnelOnAnArc(t *testing.T) {
	const R, turn = 1500.0, 70.0
	for _, hand := range []curve.Hand{curve.Left, curve.Right} {
		e := sweep(t, line(t, straight(t, 1000), arc(t, R, 200*measure.Degree, hand), straight(t, 1000)), clearance.Settings{Tolerance: 1e-3}, coach())
		th := must[[]clearance.Throw](t)(clearance.Throws(coach(), R))[0]
		beta := turn / 2 * math.Pi / 180
		from := measure.Length(2500)
		to := from + R*2*measure.Length(beta)
		const m = 6
		want := map[opening.Walls][2]measure.Length{
			opening.CurvedWalls:   {th.Inside, th.Outside},
			opening.ChordWalls:    {th.Inside * measure.Length(math.Cos(beta)), th.Outside + R*measure.Length(1-math.Cos(beta))},
			opening.StraightWalls: {th.Inside * measure.Length(math.Cos(beta)), th.Outside + R*measure.Length(1-math.Cos(beta))},
		}
		for walls, w := range want {
			tunnel := must[*opening.Tunnel](t)(opening.NewTunnel(t.Context(), e, from, to, walls))
			r := must[opening.Rectangle](t)(tunnel.Section().Rectangle(m, opening.Free))
			in, out := r.Left, r.Right
			if hand == curve.Right {
				in, out = out, in
			}
			tol := 2e-3
			if walls == opening.StraightWalls { // not exactly along the chord, but no wider
				if r.Width() > w[0]+w[1]+2*m+2e-3 || r.Width() < w[0]+w[1]+2*m-1 {
					t.Errorf("%v %v: width %v, want at most %v", hand, walls, float64(r.Width()), float64(w[0]+w[1]+2*m))
				}
				continue
			}
			if !near(in, w[0]+m, tol) || !near(out, w[1]+m, tol) || r.Height != 130+m {
				t.Errorf("%v %v: inside %v outside %v high %v, want %v and %v", hand, walls, float64(in), float64(out), r.Height, float64(w[0]+m), float64(w[1]+m))
			}
			pegs := must[[]opening.Peg](t)(tunnel.Layout(r.Left, r.Right, 100))
			if pegs[0].Chainage != from || !near(pegs[len(pegs)-1].Chainage, to, 1e-9) || pegs[1].Chainage != 2600 || len(pegs) != 2+int(math.Floor(float64(to)/100))-25 {
				t.Errorf("%v %v: %d pegs from %v to %v", hand, walls, len(pegs), pegs[0].Chainage, pegs[len(pegs)-1].Chainage)
			}
			for _, p := range pegs {
				a := (float64(p.Chainage-from)/R - beta)
				wantIn, wantOut := w[0]+m, w[1]+m
				if walls == opening.ChordWalls { // the walls seen from the centre
					wantIn = R - measure.Length((R*math.Cos(beta)-float64(w[0]+m))/math.Cos(a))
					wantOut = measure.Length((R*math.Cos(beta)+float64(w[1]+m))/math.Cos(a)) - R
				}
				gotIn, gotOut, roomIn := p.Left, p.Right, p.LeftRoom
				if hand == curve.Right {
					gotIn, gotOut, roomIn = p.Right, p.Left, p.RightRoom
				}
				if !near(gotIn, wantIn, 3e-3) || !near(gotOut, wantOut, 3e-3) || !near(roomIn, wantIn-th.Inside, 5e-3) {
					t.Errorf("%v %v at %v: inside %v outside %v room %v, want %v and %v, %v", hand, walls, p.Chainage, float64(gotIn), float64(gotOut), float64(roomIn), float64(wantIn), float64(wantOut), float64(wantIn-th.Inside))
				}
				if d := r2.Norm(r2.Sub(p.LeftPlace, e.Line().Offset(p.Chainage, p.Left))); d > 1e-9 {
					t.Errorf("place off by %v", d)
				}
			}
		}
	}
}

// Along an easement: nothing that dense poses of the vehicle put between the
// tunnel's ends comes nearer to the walls than the margin, and something comes
// as near as that.
func TestTunnelAgainstPoses(t *testing.T) {
	l := garden(t, curve.Right)
	e := sweep(t, l, clearance.Settings{Tolerance: 0.005}, coach())
	const from, to, m = 1900, 3300, 5
	widths := map[opening.Walls]measure.Length{}
	for _, walls := range []opening.Walls{opening.CurvedWalls, opening.ChordWalls, opening.StraightWalls} {
		tunnel := must[*opening.Tunnel](t)(opening.NewTunnel(t.Context(), e, from, to, walls))
		r := must[opening.Rectangle](t)(tunnel.Section().Rectangle(m, opening.Free))
		widths[walls] = r.Width()
		pegs := must[[]opening.Peg](t)(tunnel.Layout(r.Left, r.Right, 50))
		a, b := pegs[0], pegs[len(pegs)-1]
		least := [2]float64{math.Inf(1), math.Inf(1)}
		body := coach().Bodies[0].Bands[1].Outline
		for s := measure.Length(1200); s < 3700; s += 2 {
			st := must[clearance.Stance](t)(clearance.Stand(l, coach(), s))
			for i, p := range body {
				q := body[(i+1)%len(body)]
				n := int(math.Hypot(float64(q.Along-p.Along), float64(q.Across-p.Across)) / 4)
				for j := range n {
					u := measure.Length(j) / measure.Length(n)
					x := st.Bodies[0].Plan(clearance.Point{Along: p.Along + u*(q.Along-p.Along), Across: p.Across + u*(q.Across-p.Across)})
					f := l.Nearest(x)
					if f.Chainage < from || f.Chainage > to {
						continue
					}
					if walls == opening.CurvedWalls {
						least[0], least[1] = min(least[0], float64(r.Left-f.Offset)), min(least[1], float64(r.Right+f.Offset))
						continue
					}
					d := r2.Unit(r2.Sub(b.LeftPlace, a.LeftPlace))
					least[0] = min(least[0], r2.Cross(r2.Sub(x, a.LeftPlace), d))
					d = r2.Unit(r2.Sub(b.RightPlace, a.RightPlace))
					least[1] = min(least[1], r2.Cross(d, r2.Sub(x, a.RightPlace)))
				}
			}
		}
		for side, g := range least {
			if g < m-0.01 || g > m+0.1 { // poses and points are steps apart
				t.Errorf("%v: wall %d: poses come as near as %v, want %v", walls, side, g, m)
			}
		}
		// Pegs between stand on the straight between the ends'.
		if walls != opening.CurvedWalls {
			for _, p := range pegs {
				if d := r2.Cross(r2.Sub(p.LeftPlace, a.LeftPlace), r2.Unit(r2.Sub(b.LeftPlace, a.LeftPlace))); math.Abs(d) > 1e-6 {
					t.Errorf("%v: peg at %v is %v off the wall", walls, p.Chainage, d)
				}
			}
		}
	}
	if !(widths[opening.CurvedWalls] < widths[opening.StraightWalls] && widths[opening.StraightWalls] <= widths[opening.ChordWalls]) {
		t.Errorf("widths %v", widths)
	}
}

func TestTunnelTooCrooked(t *testing.T) {
	e := sweep(t, line(t, arc(t, 1500, 180*measure.Degree, curve.Left)), clearance.Settings{}, coach())
	for _, walls := range []opening.Walls{opening.ChordWalls, opening.StraightWalls} {
		_, err := opening.NewTunnel(t.Context(), e, 0, e.Line().Length(), walls)
		if !errors.Is(err, measure.ErrNoAnswer) {
			t.Errorf("%v: %v", walls, err)
		}
	}
	tunnel := must[*opening.Tunnel](t)(opening.NewTunnel(t.Context(), e, 1000, 2000, opening.CurvedWalls))
	if _, err := tunnel.Layout(60, 60, 0.01); !errors.Is(err, measure.ErrLimit) {
		t.Errorf("too many pegs: %v", err)
	}
	if _, err := tunnel.Layout(60, -60, 10); !errors.Is(err, measure.ErrInput) {
		t.Errorf("walls crossed: %v", err)
	}
}

// Put forwards: the audit of the smallest opening finds the margin, and of one
// that is 0.1 % narrower or lower does not.
func TestTunnelThroughTheAudit(t *testing.T) {
	const from, to, m = 1900, 2900, 5
	for _, hand := range []curve.Hand{curve.Left, curve.Right} {
		set := clearance.Settings{Tolerance: 1e-3, From: from, To: to, Allowances: clearance.Allowances{Play: 0.5, Laying: 1}}
		e := sweep(t, garden(t, hand), set, coach(), wagon())
		for _, walls := range []opening.Walls{opening.CurvedWalls, opening.ChordWalls, opening.StraightWalls} {
			tunnel := must[*opening.Tunnel](t)(opening.NewTunnel(t.Context(), e, from, to, walls))
			r := must[opening.Rectangle](t)(tunnel.Section().Rectangle(m, opening.Free))
			gap := func(left, right, height measure.Length) float64 {
				s := must[clearance.Structure](t)(tunnel.Structure("rockery", left, right, height))
				return float64(must[[]clearance.Finding](t)(e.Audit(t.Context(), []clearance.Structure{s}, m))[0].Gap)
			}
			if g := gap(r.Left, r.Right, 0); math.Abs(g-m) > 1e-3 {
				t.Errorf("%v %v: gap %v to the walls, want %v", hand, walls, g, m)
			}
			if g := gap(r.Left*2, r.Right*2, r.Height); math.Abs(g-m) > 1e-3 {
				t.Errorf("%v %v: gap %v to the roof, want %v", hand, walls, g, m)
			}
			for i, g := range []float64{gap(r.Left-r.Width()*0.001, r.Right, 0), gap(r.Left, r.Right-r.Width()*0.001, 0), gap(r.Left*2, r.Right*2, r.Height*0.999)} {
				if g > m-1e-3 {
					t.Errorf("%v %v: %d: 0.1%% less leaves %v", hand, walls, i, g)
				}
			}
		}
	}
}

// An arched tunnel as the audit sees it and as Arch.Clear does, on the same
// stock: with a cant, to both hands, on a circuit over its start.
func TestArchedThroughTheAudit(t *testing.T) {
	const m = 6
	ring := must[*curve.Alignment](t)(curve.NewClosed(curve.Pose{}, 1e-6, 1e-9, arc(t, 1600, 360*measure.Degree, curve.Right)))
	for _, c := range []struct {
		line     *curve.Alignment
		from, to measure.Length
		lean     measure.Length
	}{{garden(t, curve.Left), 1900, 2900, 3}, {garden(t, curve.Right), 1900, 2900, -3}, {garden(t, curve.Right), 2600, 3300, 2}, {ring, 9900, 200, -3}} {
		cant := must[profile.Cant](t)(profile.NewCant(profile.InnerRail, profile.CantPoint{Cant: c.lean}))
		set := clearance.Settings{Tolerance: 1e-3, From: c.from, To: c.to, Allowances: clearance.Allowances{Play: 0.5, Laying: 1, Cant: cant, RailCentres: 47.5}}
		e := sweep(t, c.line, set, coach(), wagon())
		tunnel := must[*opening.Tunnel](t)(opening.NewTunnel(t.Context(), e, c.from, c.to, opening.CurvedWalls))
		finding := func(a opening.Arch) clearance.Finding {
			s := must[clearance.Structure](t)(tunnel.Arched("rockery", a))
			return must[[]clearance.Finding](t)(e.Audit(t.Context(), []clearance.Structure{s}, m))[0]
		}
		for i, least := range []opening.Least{opening.LeastArea, opening.LeastSpan, opening.LeastCrown} {
			for _, rise := range []float64{0.5, 0.3, 0.1} {
				a := must[opening.Arch](t)(tunnel.Section().Arch(opening.ArchForm{Rise: rise, Floor: -10, Least: least, About: opening.Free}, m))
				f := finding(a)
				if math.Abs(float64(f.Gap)-m) > 1e-3 || math.Abs(float64(f.Gap-a.Clear(tunnel.Section()))) > 1e-3 {
					t.Errorf("from %v, %d, rise %v: gap %v, want %v", c.from, i, rise, float64(f.Gap), m)
				}
				less := a
				less.Span, less.Radius, less.Crown = a.Span*0.999, a.Radius*0.999, a.Springing+a.Rise()*0.999
				if f := finding(less); f.Gap > m-1e-3 || f.Verdict != clearance.Tight {
					t.Errorf("from %v, %d, rise %v: 0.1%% smaller leaves %v", c.from, i, rise, float64(f.Gap))
				}
			}
		}
		// Any arch, foul ones too.
		for seed := range 40 {
			rng := rand.New(rand.NewPCG(uint64(seed), 8))
			w, q := 45+60*rng.Float64(), 0.02+0.48*rng.Float64()
			a := opening.Arch{Offset: measure.Length(10 * rng.NormFloat64()), Span: measure.Length(2 * w), Floor: -10, Springing: measure.Length(20 + 110*rng.Float64())}
			rise := 2 * w * q
			a.Crown, a.Radius = a.Springing+measure.Length(rise), measure.Length((w*w/rise+rise)/2)
			got, want := finding(a).Gap, a.Clear(tunnel.Section())
			if want >= 0 && math.Abs(float64(got-want)) > 1e-3 || want < 0 && got > -1e-9 {
				t.Errorf("from %v, seed %d: %v: gap %v, want %v", c.from, seed, a, float64(got), float64(want))
			}
		}
		if _, err := tunnel.Arched("flat", opening.Arch{Span: 100, Springing: 20, Crown: 20}); !errors.Is(err, measure.ErrInput) {
			t.Errorf("a flat arch: %v", err)
		}
	}
	e := sweep(t, garden(t, curve.Left), clearance.Settings{}, coach())
	tunnel := must[*opening.Tunnel](t)(opening.NewTunnel(t.Context(), e, 1900, 2900, opening.ChordWalls))
	if _, err := tunnel.Arched("straight", opening.Arch{Span: 160, Springing: 80, Crown: 160, Radius: 80}); !errors.Is(err, measure.ErrInput) {
		t.Errorf("straight walls: %v", err)
	}
}
