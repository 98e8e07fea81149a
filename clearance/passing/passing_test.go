package passing_test

import (
	"context"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/passing"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

func box(length, width measure.Length) clearance.Band {
	return clearance.Band{Top: 120, Outline: clearance.Box(length, width)}
}

func coach() clearance.Vehicle { return clearance.Bogie("coach", 443, 80, box(614, 88)) }

func straight(tb testing.TB, l measure.Length) curve.Element {
	tb.Helper()
	e, err := curve.NewStraight(l)
	if err != nil {
		tb.Fatal(err)
	}
	return e
}

func arc(tb testing.TB, r measure.Length, deg float64, hand curve.Hand) curve.Element {
	tb.Helper()
	e, err := curve.NewArc(r, measure.Angle(deg)*measure.Degree, hand)
	if err != nil {
		tb.Fatal(err)
	}
	return e
}

func line(tb testing.TB, start curve.Pose, e ...curve.Element) *curve.Alignment {
	tb.Helper()
	l, err := curve.New(start, e...)
	if err != nil {
		tb.Fatal(err)
	}
	return l
}

func sweep(tb testing.TB, l *curve.Alignment, set clearance.Settings, v ...clearance.Vehicle) *clearance.Envelope {
	tb.Helper()
	e, err := clearance.Sweep(context.Background(), l, v, set)
	if err != nil {
		tb.Fatal(err)
	}
	return e
}

func near(tb testing.TB, what string, got, want, tol measure.Length) {
	tb.Helper()
	if !(math.Abs(float64(got-want)) <= float64(tol)) {
		tb.Errorf("%s: %v, want %v within %v", what, got, want, tol)
	}
}

// On concentric arcs the gap is the spacing less the exact reaches.
func TestGapOnConcentricArcs(t *testing.T) {
	in := line(t, curve.Pose{}, arc(t, 2000, 90, curve.Left))
	out := line(t, curve.Pose{Point: r2.Vec{Y: -120}}, arc(t, 2120, 90, curve.Left))
	ti, err := clearance.Throws(coach(), 2000)
	if err != nil {
		t.Fatal(err)
	}
	to, err := clearance.Throws(coach(), 2120)
	if err != nil {
		t.Fatal(err)
	}
	want := 120 - ti[0].Outside - to[0].Inside
	set := clearance.Settings{Tolerance: 1e-3}
	a, b := sweep(t, in, set, coach()), sweep(t, out, set, coach())
	for _, pair := range [][2]*clearance.Envelope{{a, b}, {b, a}} {
		p, err := passing.Gaps(context.Background(), pair[0], pair[1], 0)
		if err != nil {
			t.Fatal(err)
		}
		least, err := p.Least()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "least gap", least.Gap, want, 2e-3)
		mid, err := p.At(pair[0].Line().Length() / 2)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "gap midway", mid.Gap, want, 2e-3)
		if mid.Reach.By.Vehicle != "coach" || mid.Facing.By.Vehicle != "coach" || mid.AtEnd {
			t.Errorf("governors: %+v", mid)
		}
		near(t, "sum", mid.Gap+mid.Reach.Reach+mid.Facing.Reach, 120, 2e-3)
	}
}

// turnout returns a straight route and one that leaves it at 2 m by an arc of
// 4 m radius through 8° and goes on straight.
func turnout(t *testing.T) (main, branch *curve.Alignment) {
	return line(t, curve.Pose{}, straight(t, 6000)),
		line(t, curve.Pose{}, straight(t, 2000), arc(t, 4000, 8, curve.Left), straight(t, 3000))
}

func TestFoulingPointFedForward(t *testing.T) {
	main, branch := turnout(t)
	set := clearance.Settings{Tolerance: 1e-3}
	a, b := sweep(t, main, set, coach()), sweep(t, branch, set, coach())
	const margin = 8
	f, err := passing.FoulingPoints(context.Background(), a, b, margin)
	if err != nil {
		t.Fatal(err)
	}
	if len(f) != 1 || !f[0].Opens {
		t.Fatalf("fouling points: %+v", f)
	}
	near(t, "gap at the first's", f[0].First.Gap, margin, 1e-3)
	near(t, "gap at the second's", f[0].Second.Gap, margin, 1e-3)
	p, err := passing.Gaps(context.Background(), a, b, curve.Left)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		at    measure.Length
		clear bool
	}{{f[0].First.Chainage * 1.001, true}, {f[0].First.Chainage * 0.999, false}} {
		x, err := p.At(c.at)
		if err != nil {
			t.Fatal(err)
		}
		if (x.Gap > margin) != c.clear {
			t.Errorf("at %v the gap is %v", c.at, x.Gap)
		}
	}
	// Beyond the arc and the coach's length both edges are straight and so the
	// gap there is known: the branch's edge runs half a width off its line.
	end := branch.At(branch.Length())
	at := end.Point.X - 44*math.Sin(8*math.Pi/180)*-1
	x, err := p.At(measure.Length(at))
	if err != nil {
		t.Fatal(err)
	}
	sin, cos := math.Sincos(8 * math.Pi / 180)
	// Distance from (at, 44) to the line through end, 44 to its right.
	px, py := end.Point.X+44*sin, end.Point.Y-44*cos
	want := -(at-px)*-sin - (44-py)*cos
	near(t, "far gap", x.Gap, measure.Length(want), 1e-3)
}

func TestStandingRoom(t *testing.T) {
	main := line(t, curve.Pose{}, straight(t, 9000))
	// A loop 121.5 mm out, by equal reverse curves of 4 m radius through 10° at both ends.
	loop := line(t, curve.Pose{}, straight(t, 1500), arc(t, 4000, 10, curve.Left), arc(t, 4000, 10, curve.Right),
		straight(t, 3000), arc(t, 4000, 10, curve.Right), arc(t, 4000, 10, curve.Left), straight(t, 1500))
	set := clearance.Settings{Tolerance: 1e-2}
	a, b := sweep(t, loop, set, coach()), sweep(t, main, set, coach())
	rooms, err := passing.StandingRoom(context.Background(), a, 5, b)
	if err != nil {
		t.Fatal(err)
	}
	if len(rooms) != 1 || rooms[0].FromBy != 0 || rooms[0].ToBy != 0 {
		t.Fatalf("rooms: %+v", rooms)
	}
	// The loop is the same from both ends.
	near(t, "symmetry", rooms[0].From, loop.Length()-rooms[0].To, 0.3)
	f, err := passing.FoulingPoints(context.Background(), a, b, 5)
	if err != nil {
		t.Fatal(err)
	}
	if len(f) != 2 || !f[0].Opens || f[1].Opens {
		t.Fatalf("fouling points: %+v", f)
	}
	near(t, "from", rooms[0].From, f[0].First.Chainage, 1e-6)
	near(t, "to", rooms[0].To, f[1].First.Chainage, 1e-6)
	// Fed forward into a profile swept finer: the margin at both ends, and less
	// a thousandth of the room's length beyond them.
	set.Tolerance = 1e-4
	a, b = sweep(t, loop, set, coach()), sweep(t, main, set, coach())
	if rooms, err = passing.StandingRoom(context.Background(), a, 5, b); err != nil {
		t.Fatal(err)
	}
	p, err := passing.Gaps(context.Background(), a, b, 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		at, out measure.Length
	}{{rooms[0].From, -0.001 * rooms[0].Length()}, {rooms[0].To, 0.001 * rooms[0].Length()}} {
		x, err := p.At(c.at)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "gap at the room's end", x.Gap, 5, 1e-3)
		if x, err = p.At(c.at + c.out); err != nil || x.Gap > 5-1e-3 {
			t.Errorf("%v beyond %v the gap is %v, %v", c.out, c.at, x.Gap, err)
		}
	}
	if _, err := passing.StandingRoom(context.Background(), a, 100, b); err == nil {
		t.Error("room at a margin of 100 mm")
	} else {
		t.Log(err)
	}
}
