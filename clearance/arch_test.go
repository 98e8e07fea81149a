package clearance_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// arched returns an arched tunnel from 500 to 900 of a line: with walls, or the
// arch alone.
func arched(left, right, springing, rise measure.Length, walls bool) clearance.Structure {
	s := clearance.Structure{Kind: clearance.Tunnel, Roofs: []clearance.Roof{{From: 500, To: 900, Height: springing, Rise: rise, Left: left, Right: right}}}
	if walls {
		for _, f := range []clearance.Face{{Side: curve.Left, Offset: left}, {Side: curve.Right, Offset: right}} {
			f.From, f.To = 500, 900
			s.Faces = append(s.Faces, f)
		}
	}
	return s
}

// A straight line and a body 100 wide from 10 to 120 high: the arch's gaps by
// hand, from its middle to the body's corners.
func TestAuditArchByHand(t *testing.T) {
	v := clearance.Bogie("coach", 400, 60, clearance.Band{Name: "body", Bottom: 10, Top: 120, Outline: clearance.Box(600, 100)})
	e := sweep(t, straight(t, 3000), []clearance.Vehicle{v}, clearance.Settings{})
	for _, c := range []struct {
		name                         string
		left, right, springing, rise measure.Length
		gap                          float64
		upright                      bool
		side                         curve.Hand
	}{
		{"semicircle", 80, 80, 90, 80, 80 - math.Hypot(50, 30), false, curve.Left},
		{"off the middle", 90, 70, 90, 80, 80 - math.Hypot(60, 30), false, curve.Right},
		{"high over the springing", 150, 150, 20, 150, 150 - math.Hypot(50, 100), true, curve.Left},
		{"segment, R 125 about 15", 100, 100, 90, 50, 125 - math.Hypot(50, 105), true, curve.Left},
		{"segment over all of the body", 100, 100, 130, 50, 125 - math.Hypot(50, 65), true, curve.Left},
		{"foul at the corner", 60, 60, 90, 60, 60 - math.Hypot(50, 30), false, curve.Left},
		{"narrower than the body", 45, 45, 90, 45, 45 - math.Hypot(50, 30), false, curve.Left},
		{"to its end, straight across", 60, 60, 125, 60, math.Hypot(10, 5), false, curve.Left},
		{"hardly an arch", 200, 200, 130, 1e-9, 10, true, curve.Left},
		{"beside it", 300, -60, 50, 30, 10, false, curve.Left},
		{"beside it, above", 300, -60, 125, 30, math.Hypot(10, 5), false, curve.Left},
		{"beside it on the right", -62, 300, 50, 30, 12, false, curve.Right},
		{"its edge through the body, out at the top", 300, 20, 118, 60, -2, true, curve.Right},
	} {
		f := audit(t, e, 3, arched(c.left, c.right, c.springing, c.rise, false))[0]
		if math.Abs(float64(f.Gap)-c.gap) > 1e-6 || f.Upright != c.upright || f.Side != c.side {
			t.Errorf("%s: gap %v upright %v %v, want %v %v %v", c.name, float64(f.Gap), f.Upright, f.Side, c.gap, c.upright, c.side)
		}
		if f.By.Vehicle != "coach" || f.By.Band != "body" {
			t.Errorf("%s: by %+v", c.name, f.By)
		}
	}
	// The place is on the arc: 80 along the direction from its middle.
	f := audit(t, e, 3, arched(80, 80, 90, 80, true))[0]
	if want := 80 * 50 / math.Hypot(50, 30); math.Abs(f.Place.Y-want) > 1e-9 || math.Abs(float64(f.Reach)-50) > 1e-9 {
		t.Errorf("place %v reach %v, want %v and 50", f.Place, float64(f.Reach), want)
	}
	if f.Remedy != (clearance.Remedy{}) {
		t.Errorf("a remedy for what passes: %+v", f.Remedy)
	}
}

// bored returns how far a leaning rectangle is from dense points of an arch, the
// nearest of them; negative, of the corner that is farthest outside, where one
// comes out.
func bored(corner [4]r2.Vec, left, right, springing, rise float64) float64 {
	w, mid := (left+right)/2, (left-right)/2
	// The circle through both springings and the crown: chord theorem
	// w² = rise·(2R - rise).
	R := (w*w/rise + rise) / 2
	middle := r2.Vec{X: mid, Y: springing + rise - R}
	half := math.Atan2(w, springing-middle.Y)
	gap, out := math.Inf(1), 0.0
	for i := range 16001 {
		a := half * (float64(i)/8000 - 1)
		q := r2.Add(middle, r2.Vec{X: R * math.Sin(a), Y: R * math.Cos(a)})
		for j, a := range corner {
			e, f := r2.Sub(corner[(j+1)%4], a), r2.Sub(q, a)
			u := max(0, min(1, r2.Dot(e, f)/r2.Norm2(e)))
			gap = min(gap, r2.Norm(r2.Sub(f, r2.Scale(u, e))))
		}
	}
	for _, p := range corner {
		if p.Y > springing {
			out = max(out, math.Hypot(p.X-middle.X, p.Y-middle.Y)-R, math.Abs(p.X-mid)-w)
		}
	}
	if out > 0 {
		return -out
	}
	return gap
}

// Arches on seeded lines of both hands, circuits over their start among
// them, with a cant about each rail: against dense points of the arch and of
// the section that the slow reference sweeps, leaned by hand.
func TestAuditArchAgainstReference(t *testing.T) {
	const g, u = 47.5, 3.0
	phi := math.Asin(u / g)
	worst, foul, over, lines := 0.0, 0, 0, [2]int{}
	for seed := range 30 {
		if testing.Short() && seed > 8 {
			break
		}
		rng := rand.New(rand.NewPCG(uint64(seed), 61))
		v, least := randomVehicle(rng)
		for i := range v.Bodies {
			v.Bodies[i].Bands[0].Bottom, v.Bodies[i].Bands[0].Top = 10, 115
		}
		l := randomLine(t, rng, least)
		L := l.ref.length()
		datum := []profile.Datum{profile.InnerRail, profile.Centreline, profile.OuterRail}[seed%3]
		lean := float64(2*rng.IntN(2) - 1) // left or right
		cant, err := profile.NewCant(datum, profile.CantPoint{Cant: measure.Length(lean * u)})
		if err != nil {
			t.Fatal(err)
		}
		rail := map[profile.Datum]float64{profile.InnerRail: g / 2, profile.Centreline: 0, profile.OuterRail: -g / 2}[datum] * lean
		e := sweep(t, l.line, []clearance.Vehicle{v}, clearance.Settings{Tolerance: 0.002, Allowances: clearance.Allowances{Laying: 1.5, Cant: cant, RailCentres: g}})
		ref := newRefSweep(l.ref, v, -2200, L+1200, 2)
		for range 3 {
			from := 0.9 * L * rng.Float64()
			if l.closed {
				from = L - 40*rng.Float64()
			}
			to := from + 60*rng.Float64()
			if l.closed && to > L {
				to -= L
				over++
			}
			w, mid := 75+60*rng.Float64(), 15*rng.NormFloat64()
			rise := w * (0.15 + 0.85*rng.Float64())
			springing := 130 - rise*rng.Float64()
			s := clearance.Structure{Kind: clearance.Tunnel, Roofs: []clearance.Roof{{From: measure.Length(from), To: measure.Length(to), Height: measure.Length(springing), Rise: measure.Length(rise), Left: measure.Length(w + mid), Right: measure.Length(w - mid)}}}
			f := audit(t, e, 5, s)[0]
			// At the place that the audit names, and at others that must not be
			// nearer.
			at := float64(f.Chainage)
			want := math.Inf(1)
			for i := range 4 {
				c := at
				if i > 0 {
					d := to - from
					if d < 0 {
						d += L
					}
					if c = from + d*rng.Float64(); c > L {
						c -= L
					}
				}
				yl, yr := ref.reach(l.ref, c)
				var q [4]r2.Vec
				for k, p := range [4]r2.Vec{{X: -yr, Y: 10}, {X: yl, Y: 10}, {X: yl, Y: 115}, {X: -yr, Y: 115}} {
					// Turned about the rail that stays level, the top leaning to
					// the side of the lean.
					d := r2.Sub(p, r2.Vec{X: rail})
					a := lean * phi
					aside := 1.5 // laying, however it leans
					if k == 0 || k == 3 {
						aside = -1.5
					}
					q[k] = r2.Vec{X: aside + rail + d.X*math.Cos(a) + d.Y*math.Sin(a), Y: d.Y*math.Cos(a) - d.X*math.Sin(a)}
				}
				got := bored(q, w+mid, w-mid, springing, rise)
				if want = min(want, got); i == 0 && got > 0.005 {
					worst = max(worst, math.Abs(got-float64(f.Gap)))
				}
			}
			// The sweep 0.002, the reference refError; one that just touches may
			// count as foul, by the way out.
			if math.Abs(float64(f.Gap)-want) > 0.005 && want > 0.005 || want <= 0.005 && f.Gap > 0.01 {
				t.Errorf("seed %d (%s), from %v: gap %v at %v, want %v", seed, v.Name, from, float64(f.Gap), at, want)
			}
			if f.Gap < 0 {
				foul++
			}
			k := 0
			if l.line.At(f.Chainage).Curvature < 0 {
				k = 1
			}
			lines[k]++
		}
	}
	t.Logf("worst difference %.4f mm; %d foul, %d over the start, %d left, %d right", worst, foul, over, lines[0], lines[1])
	if !testing.Short() && (foul < 5 || over < 5 || lines[0] < 10 || lines[1] < 10) {
		t.Error("the test does not reach what it is about")
	}
}

// Each remedy, carried out, leaves the margin.
func TestAuditArchRemedies(t *testing.T) {
	const R, m = 1200, 8
	v := clearance.Bogie("coach", 400, 60, clearance.Band{Name: "body", Top: 120, Outline: clearance.Box(600, 90)}, clearance.Band{Name: "lantern", Bottom: 120, Top: 140, Outline: clearance.Box(560, 30)})
	onArc := func(R measure.Length, a clearance.Allowances) *clearance.Envelope {
		arc, err := curve.NewArc(R, measure.Angle(3000/float64(R)), curve.Right)
		if err != nil {
			t.Fatal(err)
		}
		line, err := curve.New(curve.Pose{Heading: 1}, arc)
		if err != nil {
			t.Fatal(err)
		}
		return sweep(t, line, []clearance.Vehicle{v}, clearance.Settings{Tolerance: 1e-4, Allowances: a})
	}
	e := onArc(R, clearance.Allowances{Play: 0.5, Laying: 1, Springs: measure.Degree, RollCentre: 15})
	eased := 0
	for _, c := range []struct{ left, right, springing, rise measure.Length }{
		{80, 80, 80, 80}, {85, 85, 100, 60}, {78, 82, 60, 78}, {90, 86, 110, 30}, {77, 80, 78, 78}, {82, 82, 115, 12}, {85, 85, 142, 5},
	} {
		s := arched(c.left, c.right, c.springing, c.rise, true)
		s.Roofs[0].From, s.Roofs[0].To, s.Faces[0].From, s.Faces[0].To, s.Faces[1].From, s.Faces[1].To = 1200, 1800, 1200, 1800, 1200, 1800
		f := audit(t, e, m, s)[0]
		if f.Verdict == clearance.Pass {
			t.Errorf("%+v passes by %v", c, float64(f.Gap))
			continue
		}
		raised := s
		raised.Roofs = append([]clearance.Roof(nil), s.Roofs...)
		raised.Roofs[0].Height += f.Remedy.MoveBy
		if g := audit(t, e, m, raised)[0].Gap; math.Abs(float64(g)-m) > 1e-6 || f.Remedy.MoveBy <= 0 {
			t.Errorf("%+v: gap %v, raised by %v it is %v", c, float64(f.Gap), float64(f.Remedy.MoveBy), float64(g))
		}
		// A larger arch about the same middle: its half span and rise in proportion.
		w, rise := float64(c.left+c.right)/2, float64(c.rise)
		rad := (w*w/rise + rise) / 2
		k := measure.Length(1 + float64(f.Remedy.WidenBy)/rad)
		wide := s
		wide.Roofs = append([]clearance.Roof(nil), s.Roofs...)
		x := &wide.Roofs[0]
		crown := x.Height + x.Rise + f.Remedy.WidenBy
		mid := (x.Left - x.Right) / 2
		x.Left, x.Right, x.Rise = mid+measure.Length(w)*k, measure.Length(w)*k-mid, x.Rise*k
		x.Height = crown - x.Rise
		wide.Faces = nil
		if g := audit(t, e, m, wide)[0].Gap; math.Abs(float64(g)-m) > 1e-6 || f.Remedy.WidenBy <= 0 {
			t.Errorf("%+v: gap %v, larger by %v it is %v", c, float64(f.Gap), float64(f.Remedy.WidenBy), float64(g))
		}
		// Without springs, whose lift is in proportion to the reach, and without
		// play, which the curve turns a little: easing takes no account of them.
		if to := audit(t, onArc(R, clearance.Allowances{Laying: 1}), m, s)[0].Remedy.EaseTo; to > 0 {
			if eased++; to < R {
				t.Errorf("%+v: ease to %v", c, float64(to))
			}
			if g := audit(t, onArc(to, clearance.Allowances{Laying: 1}), m, s)[0].Gap; math.Abs(float64(g)-m) > 2e-3 {
				t.Errorf("%+v: eased to %v the gap is %v, want the margin", c, float64(to), float64(g))
			}
		}
		// A tree is not widened.
		s.Kind = clearance.Tree
		if g := audit(t, e, m, s)[0]; g.Remedy.WidenBy != 0 || g.Remedy.MoveBy != f.Remedy.MoveBy {
			t.Errorf("%+v: a tree: %+v", c, g.Remedy)
		}
	}
	if eased < 2 {
		t.Errorf("only %d were eased", eased)
	}
	// By hand on straight track, margin 25 under a semicircle of 80: a corner 50
	// out and 30 over the springing wants to be √(55²-50²) over it. A footplate low
	// down between the walls has no part in it.
	low := clearance.Rigid("tank", 200, clearance.Band{Top: 10, Outline: clearance.Box(300, 148)}, clearance.Band{Name: "body", Bottom: 10, Top: 120, Outline: clearance.Box(300, 100)})
	plain := audit(t, sweep(t, straight(t, 1500), []clearance.Vehicle{low}, clearance.Settings{}), 25, arched(80, 80, 90, 80, false))[0]
	if up, out := 30-math.Sqrt(55*55-50*50), 25-(80-math.Hypot(50, 30)); math.Abs(float64(plain.Remedy.MoveBy)-up) > 1e-9 || math.Abs(float64(plain.Remedy.WidenBy)-out) > 1e-9 || plain.Remedy.EaseTo != 0 {
		t.Errorf("straight track: %+v, want raised by %v, larger by %v", plain.Remedy, up, out)
	}
	// No raising cures walls that are too near.
	s := arched(70, 70, 110, 70, false)
	if f := audit(t, e, m, s)[0]; f.Remedy.MoveBy != 0 || f.Remedy.WidenBy <= 0 {
		t.Errorf("walls too near: %+v", f.Remedy)
	}
}

// The shares, along the square to the arch, and the body's own part make up
// what the arch was measured against.
func TestAuditArchShares(t *testing.T) {
	const g, u = 47.5, 3.0
	phi := math.Asin(u / g)
	cant, err := profile.NewCant(profile.Centreline, profile.CantPoint{Cant: u})
	if err != nil {
		t.Fatal(err)
	}
	roll := math.Pi / 180
	e := allowed(t, clearance.Allowances{Play: 1, Laying: 2, Heat: 3, Running: 1, Springs: measure.Degree, RollCentre: 20, Cant: cant, RailCentres: g})
	f := audit(t, e, 5, arched(90, 90, 90, 90, false))[0]
	// The top left corner: 50 and 1.5 of play, rolled 1° about 20, leaned, 6 aside.
	y, z := 50+1.5+roll*100, 120+roll*57.5
	y, z = 6+y*math.Cos(phi)+z*math.Sin(phi), z*math.Cos(phi)-y*math.Sin(phi)
	d := math.Hypot(y, z-90)
	dy, dz := y/d, (z-90)/d
	if math.Abs(float64(f.Gap)-(90-d)) > 1e-6 {
		t.Fatalf("gap %v, want %v", float64(f.Gap), 90-d)
	}
	want := map[string]float64{
		"play of the wheels": 1.5 * dy, "laying tolerance": 2 * dy, "movement with heat": 3 * dy, "running margin": 1 * dy,
		"roll on springs": roll*100*dy + roll*57.5*dz,
		"cant":            (y-57.5-roll*100)*dy + (z-120-roll*57.5)*dz,
	}
	for name, w := range want {
		if _, got := sum(f, name); math.Abs(got-w) > 1e-6 {
			t.Errorf("%s: %v, want %v", name, got, w)
		}
	}
	if all, _ := sum(f, ""); math.Abs(all+50*dy+120*dz-(y*dy+z*dz)) > 1e-6 || len(f.Shares) != len(want) {
		t.Errorf("shares %v and the body's own part do not make %v", f.Shares, y*dy+z*dz)
	}
}

func TestAuditArchRefuses(t *testing.T) {
	e := allowed(t, clearance.Allowances{})
	for _, s := range []clearance.Structure{
		arched(80, 80, 90, 81, false), arched(0, 0, 90, 10, false), arched(80, 80, 90, -1, false),
		arched(80, 80, 90, measure.Length(math.NaN()), false), arched(80, -90, 90, 5, false),
	} {
		if _, err := e.Audit(t.Context(), []clearance.Structure{s}, 5); !errors.Is(err, measure.ErrInput) {
			t.Errorf("%+v: %v", s.Roofs[0], err)
		}
	}
}
