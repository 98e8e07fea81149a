package clearance_test

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// sum adds the shares up and returns the one that is asked for.
func sum(f clearance.Finding, name string) (all, one float64) {
	for _, s := range f.Shares {
		all += float64(s.Amount)
		if s.Name == name {
			one = float64(s.Amount)
		}
	}
	return all, one
}

func wall(side curve.Hand, offset, bottom, top measure.Length) clearance.Structure {
	return clearance.Structure{Kind: clearance.Wall, Faces: []clearance.Face{{Side: side, From: 900, To: 1500, Offset: offset, Bottom: bottom, Top: top}}}
}

func roof(height measure.Length) clearance.Structure {
	return clearance.Structure{Kind: clearance.Overbridge, Roofs: []clearance.Roof{{From: 900, To: 1500, Height: height}}}
}

// Straight track, body 600 × 100 from 10 to 120 high on pivots 400 apart.
func allowed(t *testing.T, a clearance.Allowances) *clearance.Envelope {
	t.Helper()
	v := clearance.Bogie("coach", 400, 0, clearance.Band{Name: "body", Bottom: 10, Top: 120, Outline: clearance.Box(600, 100)})
	return sweep(t, straight(t, 3000), []clearance.Vehicle{v}, clearance.Settings{Allowances: a})
}

func TestAllowancesAddUp(t *testing.T) {
	e := allowed(t, clearance.Allowances{Play: 1, Laying: 2, Heat: 3, Running: 4, Springs: 2 * measure.Degree, RollCentre: 20})
	f := audit(t, e, 5, wall(curve.Left, 90, 0, 0), roof(140))
	// Play grows beyond the pivots by 300/200; the roll is 2° times 100 mm of height.
	roll := 2 * math.Pi / 180 * 100
	want := 50 + 1.5 + 2 + 3 + 4 + roll
	if math.Abs(float64(f[0].Gap)-(90-want)) > 1e-6 || math.Abs(float64(f[0].Reach)-want) > 1e-6 {
		t.Errorf("wall: gap %v reach %v, want reach %v", float64(f[0].Gap), float64(f[0].Reach), want)
	}
	for name, w := range map[string]float64{"play of the wheels": 1.5, "laying tolerance": 2, "movement with heat": 3, "running margin": 4, "roll on springs": roll, "cant": 0} {
		if _, got := sum(f[0], name); math.Abs(got-w) > 1e-6 {
			t.Errorf("%s: %v, want %v", name, got, w)
		}
	}
	if all, _ := sum(f[0], ""); math.Abs(all+50-float64(f[0].Reach)) > 1e-6 {
		t.Errorf("shares %v and 50 do not make %v", f[0].Shares, float64(f[0].Reach))
	}
	// Upright the roll lifts the outermost corner.
	lift := 2 * math.Pi / 180 * (50 + 1.5 + 9)
	if math.Abs(float64(f[1].Gap)-(20-lift)) > 1e-6 {
		t.Errorf("roof: gap %v, want %v", float64(f[1].Gap), 20-lift)
	}
	if _, got := sum(f[1], "roll on springs"); math.Abs(got-lift) > 1e-6 {
		t.Errorf("roof: shares %v", f[1].Shares)
	}
}

// Rolled 5° outwards about 20 up, the eaves go out by 5° times 100 and down by 5°
// times 50, from 120 to 115.6: a wall 118 high meets them at their furthest. So
// does the floor a sill that begins above it, rolling up from 10 to 14.4.
func TestAllowancesRollUnderTheEaves(t *testing.T) {
	e := allowed(t, clearance.Allowances{Springs: 5 * measure.Degree, RollCentre: 20})
	low := allowed(t, clearance.Allowances{Springs: 5 * measure.Degree, RollCentre: 120})
	roll := 5 * math.Pi / 180
	for _, c := range []struct {
		e           *clearance.Envelope
		bottom, top measure.Length
		want        float64
	}{
		{e, 0, 118, 50 + roll*100},
		{e, 0, 115, 50 + roll*100 - roll*90*(5-roll*50)/110},
		{low, 13, 200, 50 + roll*110},
	} {
		f := audit(t, c.e, 0, wall(curve.Left, 90, c.bottom, c.top))[0]
		if math.Abs(float64(f.Reach)-c.want) > 1e-6 {
			t.Errorf("from %v to %v: reach %.3f, want %.3f", float64(c.bottom), float64(c.top), float64(f.Reach), c.want)
		}
		if all, _ := sum(f, ""); math.Abs(all+50-float64(f.Reach)) > 1e-6 {
			t.Errorf("from %v to %v: shares %v do not make %v", float64(c.bottom), float64(c.top), f.Shares, float64(f.Reach))
		}
	}
}

// Cant: a rigid turn about the head of the rail that stays level. A point h up
// moves by h·u/g_c: EBO Anlage 4's lean, 3.53/1.50 of the cant, 235 mm for
// 100 mm; and 12.6 mm at 200 mm for 3 mm on 45 mm gauge (g_c 47.5).
func TestAllowancesCant(t *testing.T) {
	for _, c := range []struct{ h, u, g, want, tol float64 }{{3530, 100, 1500, 235, 0.5}, {200, 3, 47.5, 12.6, 0.05}} {
		cant, err := profile.NewCant(profile.Centreline, profile.CantPoint{Cant: measure.Length(c.u)})
		if err != nil {
			t.Fatal(err)
		}
		v := clearance.Rigid("post", 20, clearance.Band{Top: measure.Length(c.h), Outline: clearance.Box(30, 1e-3)})
		e := sweep(t, straight(t, 3000), []clearance.Vehicle{v}, clearance.Settings{Allowances: clearance.Allowances{Cant: cant, RailCentres: measure.Length(c.g)}})
		f := audit(t, e, 0, wall(curve.Left, 500, 0, 0))[0]
		if _, got := sum(f, "cant"); math.Abs(got-c.want) > c.tol {
			t.Errorf("%v mm up, cant %v on %v: %v, want %v", c.h, c.u, c.g, got, c.want)
		}
	}
}

// The exact turn about each of the three rails, sideways and upright, walls of
// all heights and low ones, leaning either way.
func TestAllowancesCantDatum(t *testing.T) {
	const g, u = 47.5, 3.0
	phi := math.Asin(u / g)
	for _, d := range []struct {
		datum profile.Datum
		rail  float64 // offset of the level rail towards the lean
	}{{profile.InnerRail, g / 2}, {profile.Centreline, 0}, {profile.OuterRail, -g / 2}} {
		for _, lean := range []curve.Hand{curve.Left, curve.Right} {
			cant, err := profile.NewCant(d.datum, profile.CantPoint{Cant: u * measure.Length(lean)})
			if err != nil {
				t.Fatal(err)
			}
			e := allowed(t, clearance.Allowances{Cant: cant, RailCentres: g})
			turn := func(y, z float64) (float64, float64) { // y towards the lean
				return d.rail + (y-d.rail)*math.Cos(phi) + z*math.Sin(phi), z*math.Cos(phi) - (y-d.rail)*math.Sin(phi)
			}
			f := audit(t, e, 0, wall(lean, 80, 0, 0), wall(lean.Opposite(), 80, 0, 0), roof(150), wall(lean, 80, -20, 40))
			high, _ := turn(50, 120)
			low, _ := turn(-50, 10)
			_, top := turn(-50, 120)
			for i, want := range []float64{80 - high, 80 + low, 150 - top} {
				if math.Abs(float64(f[i].Gap)-want) > 1e-6 {
					t.Errorf("%v, leaning %v, %d: gap %v, want %v", d.datum, lean, i, float64(f[i].Gap), want)
				}
				if f[i].Upright != (i == 2) {
					t.Errorf("%v, leaning %v, %d: upright %v", d.datum, lean, i, f[i].Upright)
				}
			}
			// Against a wall 40 high only what is below counts.
			y0, z0 := turn(50, 10)
			y1, z1 := turn(50, 120)
			if want := 80 - (y0 + (y1-y0)*(40-z0)/(z1-z0)); math.Abs(float64(f[3].Gap)-want) > 1e-6 {
				t.Errorf("%v, leaning %v, low wall: gap %v, want %v", d.datum, lean, float64(f[3].Gap), want)
			}
			for i, base := range []float64{50, 50, 120, 50} {
				got := float64(f[i].Reach)
				if f[i].Upright {
					got = 150 - float64(f[i].Gap)
				}
				if all, _ := sum(f[i], ""); math.Abs(all+base-got) > 1e-6 {
					t.Errorf("%v, leaning %v, %d: shares %v and %v do not make %v", d.datum, lean, i, f[i].Shares, base, got)
				}
			}
		}
	}
}

// On a crest the ends stand up, in a sag the middle: parabola of radius Rv,
// chord over it C²/8Rv at the middle, (x² - C²/4)/2Rv at x, worked.
func TestAllowancesVerticalThrow(t *testing.T) {
	const Rv, C, half = 8000.0, 400.0, 300.0
	for _, c := range []struct {
		name     string
		from, to measure.Gradient
		up, down float64
	}{
		{"sag", -0.1, 0.1, C * C / 8 / Rv, -(half*half - C*C/4) / 2 / Rv},
		{"crest", 0.1, -0.1, (half*half - C*C/4) / 2 / Rv, -C * C / 8 / Rv},
	} {
		level, err := profile.NewLevel(
			profile.Point{Chainage: 0, Level: 0},
			profile.Point{Chainage: 1200, Level: measure.Length(c.from) * 1200, Radius: Rv},
			profile.Point{Chainage: 2400, Level: measure.Length(c.from)*1200 + measure.Length(c.to)*1200})
		if err != nil {
			t.Fatal(err)
		}
		e := allowed(t, clearance.Allowances{Level: level})
		floor := clearance.Structure{Kind: clearance.PlatformEdge, Faces: []clearance.Face{{Side: curve.Left, From: 900, To: 1500, Offset: 30, Bottom: -50, Top: 0}}}
		f := audit(t, e, 0, roof(140), floor)
		if want := 20 - c.up; math.Abs(float64(f[0].Gap)-want) > 1e-6 {
			t.Errorf("%s: roof gap %v, want %v", c.name, float64(f[0].Gap), want)
		}
		if want := 10 + c.down; math.Abs(float64(f[1].Gap)-want) > 1e-6 {
			t.Errorf("%s: floor gap %v, want %v", c.name, float64(f[1].Gap), want)
		}
		for i, w := range []float64{c.up, -c.down} {
			if _, got := sum(f[i], "vertical throw"); math.Abs(got-w) > 1e-6 {
				t.Errorf("%s, %d: shares %v, want vertical throw %v", c.name, i, f[i].Shares, w)
			}
		}
	}
}

// An outline that lies wholly ahead of both pivots, on a change of gradient that
// they have not come to: it stays on the gradient they are on, over the crest
// and into the sag. On circuits the same where the change is at the start.
func TestAllowancesVerticalThrowAheadOfThePivots(t *testing.T) {
	const R, C, near, far, i = 4000.0, 400.0, 300.0, 350.0, 0.02
	v := clearance.Bogie("snout", C, 0, clearance.Band{Bottom: 10, Top: 20, Outline: clearance.Box(C, 30)}, clearance.Band{Bottom: 10, Top: 120, Outline: clearance.Outline{{near, -20}, {far, -20}, {far, 20}, {near, 20}}})
	bend, err := curve.NewArc(R, 2*math.Pi, curve.Left)
	if err != nil {
		t.Fatal(err)
	}
	ring, err := curve.NewClosed(curve.Pose{}, 1e-6, 1e-9, bend)
	if err != nil {
		t.Fatal(err)
	}
	half := ring.Length() / 2
	open, err1 := profile.NewLevel(profile.Point{}, profile.Point{Chainage: 1200, Level: i * 1200}, profile.Point{Chainage: 2400})
	lap, err2 := profile.NewClosedLevel(ring.Length(), 1e-6, profile.Point{Level: i * half}, profile.Point{Chainage: half}, profile.Point{Chainage: ring.Length(), Level: i * half})
	if err := errors.Join(err1, err2); err != nil {
		t.Fatal(err)
	}
	for _, x := range []struct {
		name  string
		line  *curve.Alignment
		level profile.Level
		crest measure.Length
	}{{"open", straight(t, 3000), open, 1200}, {"circuit", ring, lap, 0}} {
		e := sweep(t, x.line, []clearance.Vehicle{v}, clearance.Settings{Allowances: clearance.Allowances{Level: x.level}})
		// Past the crest by d, all the while its rear is over the place, the
		// pivots are still before the crest: it stands 2·i·d too high.
		for _, d := range []measure.Length{-500, 20, 60, 95} {
			s, err := e.Sections(x.crest + d + measure.Length(map[bool]float64{true: float64(x.line.Length())}[x.crest+d < 0]))
			if err != nil {
				t.Fatal(err)
			}
			want := 120 + 2*i*max(0, float64(d))
			if d > 0 && x.line.Closed() {
				// Of what passes the place the outer corner, 20 out, comes from
				// furthest on: its foot is not 300 ahead of midway between the
				// pivots, which are √(R² - 200²) from the centre, but 298.3.
				want += i * (near - R*math.Atan2(near, math.Sqrt(R*R-C*C/4)+20))
			}
			if got := float64(s[1].Corners[2].Height); math.Abs(got-want) > 0.01 {
				t.Errorf("%s, %v past the crest: top at %v, want %v", x.name, float64(d), got, want)
			}
		}
	}
}

// A bridge in plan over a crest: what is under its middle counts, not only
// what is under its sides.
func TestAuditInsideAPolygon(t *testing.T) {
	level, err := profile.NewLevel(profile.Point{}, profile.Point{Chainage: 1200, Level: 120, Radius: 2000}, profile.Point{Chainage: 2400})
	if err != nil {
		t.Fatal(err)
	}
	e := allowed(t, clearance.Allowances{Level: level})
	inPlan := clearance.Structure{Kind: clearance.Overbridge, Figures: []clearance.Figure{{Points: []r2.Vec{{X: 900, Y: -400}, {X: 1500, Y: -400}, {X: 1500, Y: 400}, {X: 900, Y: 400}}, Closed: true, Bottom: 140, Top: 160}}}
	f := audit(t, e, 0, roof(140), inPlan)
	if math.Abs(float64(f[0].Gap-f[1].Gap)) > 1e-3 || f[0].Gap > 15 || !f[1].Upright {
		t.Errorf("by chainage %v at %v, in plan %v at %v", float64(f[0].Gap), float64(f[0].Chainage), float64(f[1].Gap), float64(f[1].Chainage))
	}
}

// Play on a curve is the same as a body opened by hand: waisted, one play wider
// at the pivots and three halves of it at the ends.
func TestAllowancesPlayOnACurve(t *testing.T) {
	line := garden(t, 1)
	const C, half, b, j = 400.0, 300.0, 50.0, 2.0
	v := clearance.Bogie("coach", C, 80, box(2*half, 2*b))
	v.Carriers[0].Pin = 10 // its pivot has (10 over 40 of half wheelbase) no more play than the axles
	end := measure.Length(b + j*half/(C/2))
	mid := measure.Length(b + j)
	by := v
	by.Bodies = []clearance.Body{{Pivots: C, Bands: []clearance.Band{{Top: 100, Outline: clearance.Outline{
		{-half, -end}, {-C / 2, -mid}, {C / 2, -mid}, {half, -end}, {half, end}, {C / 2, mid}, {-C / 2, mid}, {-half, end},
	}}}}}
	set := clearance.Settings{Tolerance: 0.01, Allowances: clearance.Allowances{Play: j}}
	got := sweep(t, line, []clearance.Vehicle{v}, set)
	set.Allowances = clearance.Allowances{}
	want := sweep(t, line, []clearance.Vehicle{by}, set)
	for c := measure.Length(0); c < line.Length(); c += 137 {
		for _, side := range []curve.Hand{curve.Left, curve.Right} {
			a, b := reach(t, got, c, side), reach(t, want, c, side)
			if math.Abs(float64(a.Reach-b.Reach)) > 1e-6 {
				t.Errorf("at %v %v: %v, want %v", float64(c), side, float64(a.Reach), float64(b.Reach))
			}
			if x := math.Abs(float64(a.By.Point.Along)); math.Abs(float64(a.Play)-j*max(1, x/(C/2))) > 1e-9 {
				t.Errorf("at %v %v: play %v at %v along", float64(c), side, float64(a.Play), x)
			}
		}
	}
}

func TestAllowancesRefused(t *testing.T) {
	cant, err := profile.NewCant(profile.InnerRail, profile.CantPoint{Cant: 3})
	if err != nil {
		t.Fatal(err)
	}
	v := []clearance.Vehicle{clearance.Rigid("r", 100, box(200, 80))}
	for name, a := range map[string]clearance.Allowances{
		"play":         {Play: -1},
		"laying":       {Laying: measure.Length(math.NaN())},
		"heat":         {Heat: -1},
		"running":      {Running: measure.Length(math.Inf(1))},
		"springs":      {Springs: 1},
		"roll centre":  {RollCentre: measure.Length(math.NaN())},
		"rail centres": {Cant: cant},
		"cant":         {Cant: cant, RailCentres: 5.9},
	} {
		if _, err := clearance.Sweep(t.Context(), straight(t, 1000), v, clearance.Settings{Allowances: a}); !errors.Is(err, measure.ErrInput) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
