package clearance_test

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

func audit(t *testing.T, e *clearance.Envelope, margin measure.Length, s ...clearance.Structure) []clearance.Finding {
	t.Helper()
	f, err := e.Audit(context.Background(), s, margin)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func straight(t *testing.T, length measure.Length) *curve.Alignment {
	t.Helper()
	el, err := curve.NewStraight(length)
	if err != nil {
		t.Fatal(err)
	}
	line, err := curve.New(curve.Pose{}, el)
	if err != nil {
		t.Fatal(err)
	}
	return line
}

// A straight line along x, a body 100 wide from 10 to 120 high: every gap is
// plain to see.
func TestAuditStraight(t *testing.T) {
	v := clearance.Bogie("coach", 400, 60, clearance.Band{Name: "body", Bottom: 10, Top: 120, Outline: clearance.Box(600, 100)})
	e := sweep(t, straight(t, 3000), []clearance.Vehicle{v}, clearance.Settings{})
	pt := func(x, y float64) []r2.Vec { return []r2.Vec{{X: x, Y: y}} }
	face := func(side curve.Hand, offset, bottom, top measure.Length) []clearance.Face {
		return []clearance.Face{{Side: side, From: 500, To: 900, Offset: offset, Bottom: bottom, Top: top}}
	}
	for _, c := range []struct {
		name    string
		s       clearance.Structure
		gap     float64
		upright bool
		verdict clearance.Verdict
		remedy  clearance.Remedy
	}{
		{"wall", clearance.Structure{Kind: clearance.Wall, Faces: face(curve.Left, 80, 0, 0)}, 30, false, clearance.Pass, clearance.Remedy{}},
		{"tight wall", clearance.Structure{Kind: clearance.Wall, Faces: face(curve.Right, 55, 0, 0)}, 5, false, clearance.Tight, clearance.Remedy{MoveBy: 10}},
		{"foul tunnel", clearance.Structure{Kind: clearance.Tunnel, Faces: face(curve.Right, 48, 0, 0)}, -2, false, clearance.Foul, clearance.Remedy{MoveBy: 17, WidenBy: 17}},
		{"wall that comes nearer", clearance.Structure{Kind: clearance.Wall, Faces: []clearance.Face{{Side: curve.Left, From: 500, To: 900, Offset: 80, OffsetTo: 66}}}, 16, false, clearance.Pass, clearance.Remedy{}},
		{"platform under the body", clearance.Structure{Kind: clearance.PlatformEdge, Faces: face(curve.Right, 40, -20, 6)}, 4, true, clearance.Tight, clearance.Remedy{MoveBy: 11}},
		{"platform beside the body", clearance.Structure{Kind: clearance.PlatformEdge, Faces: face(curve.Right, 53, -20, 20)}, 3, false, clearance.Tight, clearance.Remedy{MoveBy: 12}},
		{"bridge", clearance.Structure{Kind: clearance.Overbridge, Roofs: []clearance.Roof{{From: 100, To: 300, Height: 140}}}, 20, true, clearance.Pass, clearance.Remedy{}},
		{"low bridge", clearance.Structure{Kind: clearance.Overbridge, Roofs: []clearance.Roof{{From: 100, To: 300, Height: 119}}}, -1, true, clearance.Foul, clearance.Remedy{MoveBy: 16, WidenBy: 16}},
		{"bridge in plan", clearance.Structure{Kind: clearance.Overbridge, Figures: []clearance.Figure{{Points: []r2.Vec{{X: 100, Y: -500}, {X: 300, Y: -500}, {X: 300, Y: 500}, {X: 100, Y: 500}}, Closed: true, Bottom: 130, Top: 200}}}, 10, true, clearance.Tight, clearance.Remedy{MoveBy: 5, WidenBy: 5}},
		{"canopy to one side", clearance.Structure{Roofs: []clearance.Roof{{From: 100, To: 300, Height: 100, Left: 200, Right: -58}}}, 8, false, clearance.Tight, clearance.Remedy{MoveBy: 7}},
		{"beam beside and above", clearance.Structure{Kind: clearance.Girder, Faces: face(curve.Left, 55, 130, 150)}, math.Hypot(5, 10), true, clearance.Tight, clearance.Remedy{MoveBy: 15 - measure.Length(math.Hypot(5, 10)), WidenBy: 15 - measure.Length(math.Hypot(5, 10))}},
		{"post", clearance.Structure{Kind: clearance.Post, Figures: []clearance.Figure{{Points: pt(1000, -62)}}}, 12, false, clearance.Tight, clearance.Remedy{MoveBy: 3}},
		{"post past the end", clearance.Structure{Kind: clearance.Post, Figures: []clearance.Figure{{Points: pt(3030, 90)}}}, 50, false, clearance.Pass, clearance.Remedy{}},
		{"fence crossing", clearance.Structure{Kind: clearance.Fence, Figures: []clearance.Figure{{Points: []r2.Vec{{X: 1000, Y: -300}, {X: 1400, Y: 300}}}}}, -50, false, clearance.Foul, clearance.Remedy{MoveBy: 65}},
		{"low fence crossing", clearance.Structure{Kind: clearance.Fence, Figures: []clearance.Figure{{Points: []r2.Vec{{X: 1000, Y: -300}, {X: 1400, Y: 300}}, Bottom: -5, Top: 2}}}, 8, true, clearance.Tight, clearance.Remedy{MoveBy: 7}},
		{"slanting fence", clearance.Structure{Kind: clearance.Fence, Figures: []clearance.Figure{{Points: []r2.Vec{{X: 1000, Y: 300}, {X: 1250, Y: 90}, {X: 1600, Y: 200}}}}}, 40, false, clearance.Pass, clearance.Remedy{}},
	} {
		f := audit(t, e, 15, c.s)[0]
		if math.Abs(float64(f.Gap)-c.gap) > 1e-4 || f.Upright != c.upright || f.Verdict != c.verdict {
			t.Errorf("%s: gap %v upright %v %v, want %v %v %v", c.name, float64(f.Gap), f.Upright, f.Verdict, c.gap, c.upright, c.verdict)
		}
		if d := float64(f.Remedy.MoveBy - c.remedy.MoveBy); math.Abs(d) > 1e-4 || math.Abs(float64(f.Remedy.WidenBy-c.remedy.WidenBy)) > 1e-4 || f.Remedy.EaseTo != 0 {
			t.Errorf("%s: remedy %+v, want %+v", c.name, f.Remedy, c.remedy)
		}
		if f.By.Vehicle != "coach" || f.By.Band != "body" {
			t.Errorf("%s: by %+v", c.name, f.By)
		}
	}
}

// On a long arc a wall's gap is its offset less the exact reach, and the remedy
// "ease to" leads, on a line of that radius, to the margin.
func TestAuditArc(t *testing.T) {
	v := clearance.Bogie("coach", 400, 60, clearance.Band{Top: 120, Outline: clearance.Tapered(600, 100, 50, 50, 70)})
	const R = 1200
	onArc := func(R measure.Length) *clearance.Envelope {
		arc, err := curve.NewArc(R, measure.Angle(3000/float64(R)), curve.Right)
		if err != nil {
			t.Fatal(err)
		}
		line, err := curve.New(curve.Pose{Heading: 1}, arc)
		if err != nil {
			t.Fatal(err)
		}
		return sweep(t, line, []clearance.Vehicle{v}, clearance.Settings{Tolerance: 0.001})
	}
	e := onArc(R)
	th := throwOf(t, v, R)
	for _, c := range []struct {
		side  curve.Hand
		reach measure.Length
	}{{curve.Right, th.Inside}, {curve.Left, th.Outside}} {
		s := clearance.Structure{Kind: clearance.Wall, Faces: []clearance.Face{{Side: c.side, From: 1200, To: 1800, Offset: c.reach + 4}}}
		f := audit(t, e, 10, s)[0]
		if want := 4.0; math.Abs(float64(f.Gap)-want) > 1e-3 {
			t.Errorf("%v: gap %v, want %v", c.side, float64(f.Gap), want)
		}
		if f.Verdict != clearance.Tight && f.Verdict != clearance.Foul {
			t.Fatalf("%v: %v: the case should be short of its margin", c.side, f.Verdict)
		}
		if f.Remedy.EaseTo <= R {
			t.Errorf("%v: ease to %v", c.side, float64(f.Remedy.EaseTo))
			continue
		}
		if g := audit(t, onArc(f.Remedy.EaseTo), 10, s)[0].Gap; math.Abs(float64(g)-10) > 2e-3 {
			t.Errorf("%v: eased to %v the gap is %v, want the margin 10", c.side, float64(f.Remedy.EaseTo), float64(g))
		}
		if s.Faces[0].Offset = 52; audit(t, e, 10, s)[0].Remedy.EaseTo != 0 {
			t.Errorf("%v: easing is offered where not even straight track is clear", c.side)
		}
	}
}

// toBody returns how far a place is from a body's outline, negative inside.
func toBody(q r2.Vec, place clearance.Placement, o clearance.Outline) float64 {
	d, in := math.Inf(1), false
	for i := range o {
		a, b := place.Plan(o[i]), place.Plan(o[(i+1)%len(o)])
		e, w := r2.Sub(b, a), r2.Sub(q, a)
		u := max(0, min(1, r2.Dot(w, e)/r2.Norm2(e)))
		d = min(d, r2.Norm(r2.Sub(w, r2.Scale(u, e))))
		if (a.Y > q.Y) != (b.Y > q.Y) && q.X < a.X+e.X*(q.Y-a.Y)/e.Y {
			in = !in
		}
	}
	if in {
		return -d
	}
	return d
}

// Posts in plan against the plainest check: the least distance from the post to
// the body over poses 1 mm apart.
func TestAuditAgainstPoses(t *testing.T) {
	foul := 0
	for seed := range 25 {
		rng := rand.New(rand.NewPCG(uint64(seed), 6))
		v, least := randomVehicle(rng)
		l := randomLine(t, rng, least)
		e := sweep(t, l.line, []clearance.Vehicle{v}, clearance.Settings{Tolerance: 0.02})
		L := float64(l.line.Length())
		for range 4 {
			c := L * (0.1 + 0.8*rng.Float64())
			off := (45 + 60*rng.Float64()) * float64(2*rng.IntN(2)-1)
			q := l.line.Offset(measure.Length(c), measure.Length(off))
			// The post, and a wall that begins there.
			wall := make([]r2.Vec, 21)
			for k := range wall {
				wall[k] = l.line.Offset(measure.Length(c+2*float64(k)), measure.Length(off))
			}
			want, wantWall := math.Inf(1), math.Inf(1)
			for s := c - 1100; s < c+700; s++ {
				st, err := clearance.Stand(l.line, v, measure.Length(s))
				if err != nil {
					t.Fatal(err)
				}
				for i, b := range v.Bodies {
					want = min(want, toBody(q, st.Bodies[i], b.Bands[0].Outline))
					for _, p := range wall {
						wantWall = min(wantWall, toBody(p, st.Bodies[i], b.Bands[0].Outline))
					}
				}
			}
			side := curve.Left
			if off < 0 {
				side = curve.Right
			}
			g := audit(t, e, 5, clearance.Structure{Kind: clearance.Wall, Faces: []clearance.Face{{Side: side, From: measure.Length(c), To: measure.Length(c + 40), Offset: measure.Length(math.Abs(off))}}})[0]
			if wantWall > 0 && math.Abs(float64(g.Gap)-wantWall) > 0.05 || wantWall < 0 && g.Gap > 0.05 {
				t.Errorf("seed %d (%s), wall from %v, %v: gap %v, want %v", seed, v.Name, c, off, float64(g.Gap), wantWall)
			}
			f := audit(t, e, 5, clearance.Structure{Kind: clearance.Post, Figures: []clearance.Figure{{Points: []r2.Vec{q}}}})[0]
			if want < 0 {
				if foul++; f.Gap > 0.05 {
					t.Errorf("seed %d, post at %v, %v: gap %v, but the body goes over it by %v", seed, c, off, float64(f.Gap), want)
				}
			} else if math.Abs(float64(f.Gap)-want) > 0.05 { // poses 1 mm apart on the corners' paths: 0.02
				t.Errorf("seed %d (%s), post at %v, %v: gap %v, want %v", seed, v.Name, c, off, float64(f.Gap), want)
			}
		}
	}
	if foul < 5 {
		t.Errorf("only %d posts were foul: the test does not bite", foul)
	}
}

// A tunnel by chainage and offset and the same tunnel as polylines in plan.
func TestAuditPlanAgreesWithChainage(t *testing.T) {
	line := garden(t, 1)
	v := rounded()
	e := sweep(t, line, []clearance.Vehicle{v}, clearance.Settings{})
	for _, from := range []measure.Length{3200, 5000, 11000} {
		byFace := clearance.Structure{Kind: clearance.Tunnel}
		inPlan := byFace
		for _, side := range []curve.Hand{curve.Left, curve.Right} {
			byFace.Faces = append(byFace.Faces, clearance.Face{Side: side, From: from, To: from + 900, Offset: 75})
			var f clearance.Figure
			for c := from; c <= from+900; c += 5 {
				f.Points = append(f.Points, line.Offset(c, measure.Length(side)*75))
			}
			inPlan.Figures = append(inPlan.Figures, f)
		}
		f := audit(t, e, 5, byFace, inPlan)
		if math.Abs(float64(f[0].Gap-f[1].Gap)) > 0.02 || f[0].Side != f[1].Side {
			t.Errorf("tunnel from %v: by chainage %v at %v %v, in plan %v at %v %v", float64(from), float64(f[0].Gap), float64(f[0].Chainage), f[0].Side, float64(f[1].Gap), float64(f[1].Chainage), f[1].Side)
		}
	}
}

// Two parallel straight tracks, and a structure that runs over a circuit's start.
func TestAuditNeighbourAndCircuit(t *testing.T) {
	v := clearance.Bogie("coach", 400, 60, box(600, 100))
	a := sweep(t, straight(t, 2000), []clearance.Vehicle{v}, clearance.Settings{})
	el, _ := curve.NewStraight(2000)
	beside, err := curve.New(curve.Pose{Point: r2.Vec{Y: 112}}, el)
	if err != nil {
		t.Fatal(err)
	}
	b := sweep(t, beside, []clearance.Vehicle{v}, clearance.Settings{})
	f := audit(t, a, 15, clearance.Structure{Name: "up line", Kind: clearance.NeighbouringTrack, Neighbour: b})[0]
	if math.Abs(float64(f.Gap)-12) > 1e-9 || f.Verdict != clearance.Tight || f.Side != curve.Left {
		t.Errorf("neighbour: %+v", f)
	}

	arc, _ := curve.NewArc(1000, measure.Angle(2*math.Pi), curve.Left)
	ring, err := curve.NewClosed(curve.Pose{}, 1e-6, 1e-9, arc)
	if err != nil {
		t.Fatal(err)
	}
	e := sweep(t, ring, []clearance.Vehicle{v}, clearance.Settings{})
	over := clearance.Structure{Kind: clearance.Wall, Faces: []clearance.Face{{Side: curve.Left, From: 6000, To: 300, Offset: 90}}}
	whole := clearance.Structure{Kind: clearance.Wall, Faces: []clearance.Face{{Side: curve.Left, From: 0, To: ring.Length(), Offset: 90}}}
	want := float64(90 - throwOf(t, v, 1000).Inside)
	for i, f := range audit(t, e, 5, over, whole) {
		if math.Abs(float64(f.Gap)-want) > 0.05 {
			t.Errorf("ring, wall %d: gap %v, want %v", i, float64(f.Gap), want)
		}
	}
}

// A track between the two arms of another: on its right lies the arm whose
// centreline is nearer, on its left the one that its own wide side faces.
func TestAuditNeighbourBetweenTwoArms(t *testing.T) {
	const gauge, right, left = 40.0, 139.0, 141.0
	lop := clearance.Rigid("lopsided", 100, clearance.Band{Top: 100, Outline: clearance.Outline{{-60, -20}, {60, -20}, {60, 50}, {-60, 50}}})
	slim := clearance.Rigid("slim", 100, box(120, 2*gauge))
	arm, err1 := curve.NewStraight(1500)
	bend, err2 := curve.NewArc((right+left)/2, math.Pi, curve.Left)
	if err := errors.Join(err1, err2); err != nil {
		t.Fatal(err)
	}
	a, err1 := curve.New(curve.Pose{Point: r2.Vec{Y: -right}}, arm, bend, arm)
	el, err2 := curve.NewStraight(800)
	b, err3 := curve.New(curve.Pose{Point: r2.Vec{X: 300}}, el)
	if err := errors.Join(err1, err2, err3); err != nil {
		t.Fatal(err)
	}
	hair := sweep(t, a, []clearance.Vehicle{slim}, clearance.Settings{})
	f := audit(t, hair, 5, clearance.Structure{Kind: clearance.NeighbouringTrack, Neighbour: sweep(t, b, []clearance.Vehicle{lop}, clearance.Settings{})})[0]
	if want := left - gauge - 50; math.Abs(float64(f.Gap)-want) > 1e-6 || f.Chainage < 1500 {
		t.Errorf("gap %v at %v, want %v on the second arm", float64(f.Gap), float64(f.Chainage), want)
	}
}

func TestAuditRefuses(t *testing.T) {
	v := clearance.Bogie("coach", 400, 60, box(600, 100))
	e := sweep(t, straight(t, 2000), []clearance.Vehicle{v}, clearance.Settings{})
	nan := measure.Length(math.NaN())
	for _, c := range []struct {
		name   string
		s      clearance.Structure
		margin measure.Length
		kind   error
		want   []string
	}{
		{"past the end", clearance.Structure{Name: "hill", Kind: clearance.Tunnel, Faces: []clearance.Face{{Side: curve.Left, From: 1500, To: 2500, Offset: 60}}}, 5, measure.ErrInput, []string{"tunnel hill: to", "on the line"}},
		{"nothing", clearance.Structure{}, 5, measure.ErrInput, []string{"structure 1", "needs a face"}},
		{"several", clearance.Structure{Faces: []clearance.Face{{From: 900, To: 800, Offset: nan, Bottom: 5, Top: 1}}}, -1, measure.ErrInput, []string{"margin", "side", "to", "offset", "top"}},
		{"figure", clearance.Structure{Figures: []clearance.Figure{{Points: []r2.Vec{{X: math.NaN()}}, Closed: true}}}, 5, measure.ErrInput, []string{"at least 3", "point 1: x"}},
		{"roof", clearance.Structure{Roofs: []clearance.Roof{{From: 1, To: 2, Height: nan, Left: 5, Right: -9}}}, 5, measure.ErrInput, []string{"height", "left"}},
		{"many parts", clearance.Structure{Roofs: make([]clearance.Roof, clearance.MaxParts+1)}, 5, measure.ErrLimit, []string{"at most"}},
	} {
		_, err := e.Audit(context.Background(), []clearance.Structure{c.s}, c.margin)
		if !errors.Is(err, c.kind) {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		for _, w := range c.want {
			if !strings.Contains(err.Error(), w) {
				t.Errorf("%s: %q does not say %q", c.name, err, w)
			}
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := e.Audit(ctx, []clearance.Structure{{Faces: []clearance.Face{{Side: curve.Left, From: 0, To: 2000, Offset: 60}}}}, 5); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: %v", err)
	}
}
