package movement_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/expansion"
	"example.org/fourfoot/expansion/joints"
	"example.org/fourfoot/expansion/movement"
	"example.org/fourfoot/gauge/measure"
)

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func straight(l measure.Length) *curve.Alignment {
	return must(curve.New(curve.Pose{}, must(curve.NewStraight(l))))
}

func oval(straight, radius measure.Length) *curve.Alignment {
	s := must(curve.NewStraight(straight))
	a := must(curve.NewArc(radius, math.Pi, curve.Left))
	return must(curve.NewClosed(curve.Pose{}, 1e-6, 1e-9, s, a, s, a))
}

func heat(base measure.Expansion) joints.Heat {
	return joints.Heat{
		Rail: 19 * measure.MicroPerKelvin, Base: base, Least: 0.1, Widest: 4,
		Laying: expansion.State{Name: "today", Rail: 18, Base: 16}, Climate: must(expansion.Corners(-15, 48, -10, 30)),
	}
}

func spec(h *joints.Heat) joints.Spec {
	return joints.Spec{
		RailCentres: 34, Stock: []joints.Stock{{Length: 1500}}, Heat: h,
		Objects: []joints.Object{{Name: "points", From: 3000, To: 3400, Free: 150}, {Name: "crossing", From: 9000, To: 9600}},
		Anchors: []joints.Anchor{{Name: "wall", At: 6000}},
	}
}

// A joint's gap in each state is today's less the movement of both rail ends,
// which is what the panels' ends say; and each gap that the joint plan chose
// keeps within the limits.
func TestJointsAgreeWithPanels(t *testing.T) {
	for _, alpha := range []measure.Expansion{0, 12e-6, 60e-6} {
		for _, line := range []*curve.Alignment{straight(14_000), oval(4000, 1800)} {
			h := heat(alpha)
			h.Widest = 9
			s := spec(&h)
			p := must(joints.New(line, s))
			m := must(movement.New(line, p, h))
			if len(m.Panels) != len(p.Pieces) || len(m.Joints) != len(p.Joints) {
				t.Fatalf("%d panels, %d joints for %d and %d", len(m.Panels), len(m.Joints), len(p.Pieces), len(p.Joints))
			}
			for i, j := range p.Joints {
				g := m.Joints[i]
				if g.Verdict != movement.Absorbs || g.Lacks != 0 || g.Gap.Low < h.Least-1e-9 || g.Gap.High > h.Widest+1e-9 {
					t.Errorf("joint %s: %+v, though the plan permits %v of [%v, %v]", j.Mark, g, j.Gap, j.Least, j.Most)
				}
				e := h.Joint(j.Before, j.After)
				for _, c := range h.Climate {
					if at := e.GapAt(j.Gap, h.Laying, c); at < g.Gap.Low-1e-9 || at > g.Gap.High+1e-9 {
						t.Errorf("joint %s is %v in %s, outside %+v", j.Mark, at, c.Name, g.Gap)
					}
				}
				if j.PieceBefore >= 0 && j.PieceAfter >= 0 {
					a, b := m.Panels[j.PieceBefore].Ahead, m.Panels[j.PieceAfter].Back
					if d := float64(j.Gap - (a.High - b.Low) - g.Gap.Low); math.Abs(d) > 1e-9 {
						t.Errorf("joint %s: ends move %v and %v, gap %v to %v", j.Mark, a, b, j.Gap, g.Gap.Low)
					}
				}
			}
			// 4 ends of 2 objects on 2 rails, the crossing held at its ends.
			if len(m.Ends) != 8 {
				t.Errorf("%d ends of objects, want 8", len(m.Ends))
			}
			for _, e := range m.Ends {
				want := 0.0
				if e.Object == "points" {
					want = 150 * (19e-6*63 + float64(alpha)*40)
				}
				if math.Abs(float64(e.Move.Size())-want) > 1e-9 {
					t.Errorf("%s at joint %s moves %v, want %v", e.Object, e.Joint, e.Move.Size(), want)
				}
			}
			if len(m.Warnings) != 0 {
				t.Errorf("warnings %q", m.Warnings)
			}
		}
	}
}

// A base that covers the whole line carries its fixed points with it, and the
// joints move as they do without: only what is between two fixed points
// counts. On a straight, where rail and base are as long, to the gap's own
// share of the base.
func TestOneBase(t *testing.T) {
	line := straight(14_000)
	h := heat(30e-6)
	s := spec(&h)
	s.Objects = nil
	p := must(joints.New(line, s))
	free := must(movement.New(line, p, h))
	m := must(movement.New(line, p, h, movement.Base{Name: "strip", From: 0, To: 14_000, Fixed: 2000}))
	for i := range m.Joints {
		if d := math.Abs(float64(m.Joints[i].Gap.Low - free.Joints[i].Gap.Low)); d > 4*30e-6*40 {
			t.Errorf("joint %s: %v on one base, %v over it", m.Joints[i].Mark, m.Joints[i].Gap.Low, free.Joints[i].Gap.Low)
		}
	}
	for i, q := range p.Pieces {
		want := 30e-6 * float64(q.Fixed-2000) * (30 - 16)
		got := float64(m.Panels[i].Fixed.High)
		if q.Fixed < 2000 {
			want, got = -want, -float64(m.Panels[i].Fixed.Low)
		}
		if math.Abs(got-want) > 1e-9 {
			t.Errorf("panel %s, fixed at %v, moves %v with the base, want %v", q.Mark, q.Fixed, got, want)
		}
	}
	if b := m.Beds[0]; math.Abs(float64(b.To.Size())-30e-6*12_000*40) > 1e-9 || math.Abs(float64(b.From.Size())-30e-6*2000*40) > 1e-9 {
		t.Errorf("base ends %+v", b)
	}
}

// Where two bases meet between two fixed points their own movement comes on
// top: bases fixed far from their meeting shut the joint over it.
func TestTwoBases(t *testing.T) {
	line := straight(12_000)
	h := heat(60e-6)
	h.Widest = 12
	p := must(joints.New(line, joints.Spec{RailCentres: 34, Stock: []joints.Stock{{Length: 1500}}, Heat: &h}))
	m := must(movement.New(line, p, h, movement.Base{Name: "a", From: 0, To: 6000, Fixed: 0}, movement.Base{Name: "b", From: 6000, To: 12_000, Fixed: 12_000}))
	for i, j := range p.Joints {
		before, after := p.Pieces[j.PieceBefore], p.Pieces[j.PieceAfter]
		over := before.Fixed < 6000 && after.Fixed > 6000
		if (m.Joints[i].Verdict != movement.Absorbs) != over {
			t.Errorf("joint %s at %v: %v, over the meeting: %v", j.Mark, j.Chainage, m.Joints[i].Verdict, over)
		}
		if over {
			// In the hottest state both fixed points come together and the rails grow.
			want := float64(j.Gap) - 60e-6*14*float64(before.Fixed+12_000-after.Fixed) - 19e-6*30*float64(j.Before+j.After)
			if math.Abs(float64(m.Joints[i].Gap.Low)-want) > 1e-9 {
				t.Errorf("joint %s comes to %v, want %v", j.Mark, m.Joints[i].Gap.Low, want)
			}
		}
	}
	if text := strings.Join(m.Warnings, "; "); !strings.Contains(text, "shuts") {
		t.Errorf("warnings %q", text)
	}
}

// Gaps cut by guess: rail laid tight in spring has no room.
func TestNoRoom(t *testing.T) {
	line := straight(9000)
	h := heat(0)
	h.Least = 0
	p := must(joints.New(line, joints.Spec{RailCentres: 34, Stock: []joints.Stock{{Length: 1500}}, Gap: 0.2}))
	m := must(movement.New(line, p, h))
	if len(m.Runs) != 2 {
		t.Fatalf("%d runs", len(m.Runs))
	}
	// From 18 to 48 °C the rail between the first and the last fixed point
	// grows; five gaps of 0.2 mm take 1 mm.
	for _, r := range m.Runs {
		free := 0.0
		for _, j := range p.Joints {
			if j.Rail == r.Rail {
				free += float64(j.Before + j.After)
			}
		}
		want := 19e-6 * 30 * free
		if math.Abs(float64(r.Shut)-want) > 1e-9 || math.Abs(float64(r.Room)-1) > 1e-9 || math.Abs(float64(r.Lacks)-(want-1)) > 1e-9 {
			t.Errorf("run %+v: want shut %v, room 1", r, want)
		}
	}
	text := strings.Join(m.Warnings, "; ")
	if !strings.Contains(text, "no room") || !strings.Contains(text, "shuts") {
		t.Errorf("warnings %q", text)
	}
}

// Gaps left too wide in summer part in winter, and slipping does not help.
func TestPartsInWinter(t *testing.T) {
	line := straight(9000)
	h := heat(0)
	p := must(joints.New(line, joints.Spec{RailCentres: 34, Stock: []joints.Stock{{Length: 1500}}, Gap: 3.9}))
	m := must(movement.New(line, p, h))
	for _, r := range m.Runs {
		free := 0.0
		n := measure.Length(0)
		for _, j := range p.Joints {
			if j.Rail == r.Rail {
				free += float64(j.Before + j.After)
				n++
			}
		}
		open := 19e-6 * 33 * free
		if math.Abs(float64(r.Open)-open) > 1e-9 || math.Abs(float64(r.Reach-n*0.1)) > 1e-9 || math.Abs(float64(r.Lacks)-(open-0.1*float64(n))) > 1e-9 {
			t.Errorf("%+v: want %v open, %v reach", r, open, n*0.1)
		}
	}
	for i, j := range m.Joints {
		want := 19e-6*33*float64(p.Joints[i].Before+p.Joints[i].After) - 0.1
		if j.Verdict != movement.Parts || math.Abs(float64(j.Lacks)-want) > 1e-9 {
			t.Errorf("%+v: want it to lack %v", j, want)
		}
	}
	// Limits passed by a hair: 0.005 mm is still told.
	h.Widest = p.Joints[0].Gap + m.Joints[0].Takes*33/63 - 0.005
	if j := must(movement.New(line, p, h)).Joints[0]; j.Verdict != movement.Parts || math.Abs(float64(j.Lacks)-0.005) > 1e-9 {
		t.Errorf("%+v", j)
	}
}

// A base over the start of a circuit, fixed at the start: what lies before the
// start moves backwards with it in heat, an object's own rail as well.
func TestBaseOverStart(t *testing.T) {
	line := oval(4000, 2500)
	h := heat(60e-6)
	h.Widest = 20
	s := joints.Spec{RailCentres: 34, Stock: []joints.Stock{{Length: 1500}}, Heat: &h, Objects: []joints.Object{{Name: "points", From: 23_400, To: 100, Free: 150}}}
	p := must(joints.New(line, s))
	m := must(movement.New(line, p, h, movement.Base{Name: "deck", From: 20_000, To: 3000, Fixed: 0}))
	seen := map[string]bool{}
	for i, q := range p.Pieces {
		want := 0.0
		switch {
		case q.Fixed <= 3000:
			want = 60e-6 * 14 * float64(q.Fixed)
			seen["ahead"] = true
		case q.Fixed >= 20_000:
			want = -60e-6 * 26 * float64(q.Fixed-line.Length()) // it is furthest ahead when coldest
			seen["behind"] = true
		}
		if math.Abs(float64(m.Panels[i].Fixed.High)-want) > 1e-9 {
			t.Errorf("panel fixed at %v moves up to %v, want %v", q.Fixed, m.Panels[i].Fixed.High, want)
		}
	}
	for _, e := range m.Ends {
		j := p.Joints[0]
		for _, k := range p.Joints {
			if k.Mark == e.Joint {
				j = k
			}
		}
		if j.Chainage != 100 {
			continue
		}
		seen["end"] = true
		// The points' own rail is held 150 mm back, at -50: in the corner of hot
		// rail and cold base it is furthest ahead.
		if want := 150*19e-6*30 + 50*60e-6*26; math.Abs(float64(e.Move.High)-want) > 1e-9 {
			t.Errorf("end %+v, want up to %v", e, want)
		}
	}
	if len(seen) != 3 {
		t.Errorf("seen only %v", seen)
	}
}

func TestSeized(t *testing.T) {
	h := heat(0)
	out := must(movement.Seized(oval(4000, 2500), h))
	if len(out) != 4 {
		t.Fatalf("%d stretches of an oval: %+v", len(out), out)
	}
	for _, s := range out {
		if s.Curve {
			if s.Outwards != curve.Right || s.Allowance < measure.Length(1.5*2500*19e-6*30) || s.Allowance > measure.Length(2.1*2500*19e-6*30) {
				t.Errorf("bend %+v", s)
			}
		} else if want := 2 / math.Pi * 4000 * math.Sqrt(19e-6*30); math.Abs(float64(s.Allowance)-want) > 1e-6 {
			t.Errorf("straight %+v, want %v", s, want)
		}
	}
	ring := must(curve.NewClosed(curve.Pose{}, 1e-6, 1e-9, must(curve.NewArc(3000, 2*math.Pi, curve.Left))))
	out = must(movement.Seized(ring, h))
	if len(out) != 1 || math.Abs(float64(out[0].Allowance)-3000*19e-6*30) > 1e-9 {
		t.Errorf("ring: %+v, want one that grows %v", out, 3000*19e-6*30)
	}
	out = must(movement.Seized(straight(5000), h))
	if len(out) != 1 || out[0].Curve {
		t.Errorf("straight: %+v", out)
	}
}

func TestBadInput(t *testing.T) {
	line := straight(9000)
	h := heat(0)
	p := must(joints.New(line, joints.Spec{RailCentres: 34, Stock: []joints.Stock{{Length: 1500}}}))
	for name, c := range map[string]struct {
		line  *curve.Alignment
		heat  joints.Heat
		bases []movement.Base
		kind  error
	}{
		"no line":         {nil, h, nil, measure.ErrInput},
		"no climate":      {line, joints.Heat{Rail: 19e-6, Widest: 3}, nil, measure.ErrInput},
		"NaN expansion":   {line, joints.Heat{Rail: measure.Expansion(math.NaN()), Widest: 3, Climate: h.Climate}, nil, measure.ErrInput},
		"NaN laying":      {line, joints.Heat{Rail: 19e-6, Widest: 3, Climate: h.Climate, Laying: expansion.State{Rail: measure.Temperature(math.NaN())}}, nil, measure.ErrInput},
		"base off line":   {line, h, []movement.Base{{"a", 0, 10_000, 0}}, measure.ErrInput},
		"base backwards":  {line, h, []movement.Base{{"a", 5000, 1000, 2000}}, measure.ErrInput},
		"no length":       {line, h, []movement.Base{{"a", 1000, 1000, 1000}}, measure.ErrInput},
		"NaN base":        {line, h, []movement.Base{{"a", 1000, measure.Length(math.NaN()), 1000}}, measure.ErrInput},
		"fixed elsewhere": {line, h, []movement.Base{{"a", 1000, 5000, 6000}}, measure.ErrInput},
		"too many":        {line, h, make([]movement.Base, movement.MaxBases+1), measure.ErrLimit},
	} {
		if _, err := movement.New(c.line, p, c.heat, c.bases...); !errors.Is(err, c.kind) {
			t.Errorf("%s: got %v, want %v", name, err, c.kind)
		}
		if _, err := movement.Seized(c.line, c.heat); c.bases == nil && !errors.Is(err, c.kind) {
			t.Errorf("seized, %s: got %v, want %v", name, err, c.kind)
		}
	}
	many := h
	for len(many.Climate) < 9000 {
		many.Climate = append(many.Climate, many.Climate...)
	}
	big := must(joints.New(straight(1000*measure.Metre), joints.Spec{RailCentres: 34, Stock: []joints.Stock{{Length: 700}}}))
	if _, err := movement.New(straight(1000*measure.Metre), big, many); !errors.Is(err, measure.ErrLimit) {
		t.Errorf("too much work: %v", err)
	}
	if _, err := movement.Seized(nil, h); !errors.Is(err, measure.ErrInput) {
		t.Errorf("seized: %v", err)
	}
}

func ExampleNew() {
	line, err := curve.NewStraight(7500)
	if err != nil {
		fmt.Println(err)
		return
	}
	a, err := curve.New(curve.Pose{}, line)
	if err != nil {
		fmt.Println(err)
		return
	}
	climate, err := expansion.Corners(measure.Celsius(-15), measure.Celsius(48), measure.Celsius(-10), measure.Celsius(30))
	if err != nil {
		fmt.Println(err)
		return
	}
	h := joints.Heat{Rail: 19 * measure.MicroPerKelvin, Widest: 4, Laying: expansion.State{Rail: measure.Celsius(18)}, Climate: climate}
	plan, err := joints.New(a, joints.Spec{
		RailCentres: 34, Stock: []joints.Stock{{Length: 1500}}, Heat: &h,
		Objects: []joints.Object{{Name: "turnout", From: 3000, To: 3500, Free: 200}},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	m, err := movement.New(a, plan, h)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, j := range m.Joints[:4] {
		fmt.Printf("joint %s at %4.0f mm: gap %.2f today, %.2f to %.2f over the year, %v\n", j.Mark, plan.Joints[i].Chainage, plan.Joints[i].Gap, j.Gap.Low, j.Gap.High, j.Verdict)
	}
	for _, e := range m.Ends[:2] {
		fmt.Printf("%s at joint %s moves %.2f to %.2f mm\n", e.Object, e.Joint, e.Move.Low, e.Move.High)
	}
	// Output:
	// joint L1 at 1501 mm: gap 1.96 today, 1.10 to 2.90 over the year, absorbs
	// joint L2 at 3000 mm: gap 1.96 today, 1.42 to 2.55 over the year, absorbs
	// joint L3 at 3500 mm: gap 1.96 today, 1.42 to 2.55 over the year, absorbs
	// joint L4 at 5003 mm: gap 1.96 today, 1.10 to 2.90 over the year, absorbs
	// turnout at joint L2 moves -0.11 to 0.13 mm
	// turnout at joint L3 moves -0.13 to 0.11 mm
}

func ExampleSeized() {
	line, err := curve.NewStraight(4000)
	if err != nil {
		fmt.Println(err)
		return
	}
	arc, err := curve.NewArc(3000, 90*measure.Degree, curve.Left)
	if err != nil {
		fmt.Println(err)
		return
	}
	a, err := curve.New(curve.Pose{}, line, arc)
	if err != nil {
		fmt.Println(err)
		return
	}
	h := joints.Heat{Rail: 19 * measure.MicroPerKelvin, Widest: 4, Laying: expansion.State{Rail: 8}, Climate: []expansion.State{{Rail: -10}, {Rail: 48}}}
	out, err := movement.Seized(a, h)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range out {
		fmt.Printf("%4.0f to %4.0f mm: keep %.1f mm clear (%s)\n", s.From, s.To, s.Allowance, s.Shape)
	}
	// Output:
	// 0 to 4000 mm: keep 70.2 mm clear (half sine)
	// 4000 to 8712 mm: keep 4.6 mm clear (raised cosine, ends held in direction)
}
