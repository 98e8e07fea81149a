package passing_test

import (
	"context"
	"errors"
	"math"
	"strconv"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/coupling"
	"example.org/fourfoot/clearance/passing"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/reference"
)

var ctx = context.Background()

// The spacing on concentric curves is the exact reaches and the margin, and fed
// forward as two real lines it leaves just the margin.
func TestConcentricFedForward(t *testing.T) {
	wagon := clearance.Rigid("wagon", 110, box(190, 92))
	s := passing.Stocks{Inner: []clearance.Vehicle{coach(), wagon}, Outer: []clearance.Vehicle{coach()}, Margin: 7, Allowances: clearance.Allowances{Play: 0.75, Laying: 1}}
	for _, r := range []measure.Length{900, 1500, 3000} {
		x, err := s.Concentric(ctx, r)
		if err != nil {
			t.Fatal(err)
		}
		gap := func(spacing measure.Length) measure.Length {
			in := line(t, curve.Pose{}, arc(t, r, 200, curve.Left))
			out := line(t, curve.Pose{Point: r2.Vec{Y: -float64(spacing)}}, arc(t, r+spacing, 200, curve.Left))
			set := clearance.Settings{Tolerance: 1e-4, Allowances: s.Allowances, From: r, To: r + 20}
			a := sweep(t, in, set, s.Inner...)
			set.From, set.To = r-30, r+measure.Length(float64(spacing)/float64(r))*r+60
			b := sweep(t, out, set, s.Outer...)
			p, err := passing.Gaps(ctx, a, b, 0)
			if err != nil {
				t.Fatal(err)
			}
			g, err := p.At(r + 10)
			if err != nil {
				t.Fatal(err)
			}
			return g.Gap
		}
		near(t, "gap", gap(x.Centres), 7, 1e-3)
		if g := gap(x.Centres * 0.999); g >= 7-1e-3 {
			t.Errorf("a thousandth less leaves %v", g)
		}
	}
	// As the radius grows it becomes the straight's; swapping like stocks changes nothing.
	flat, err := s.Straight(ctx)
	if err != nil {
		t.Fatal(err)
	}
	// Play grows beyond the pivots: lever sums at 95 on 110 and at 307 on 443.
	near(t, "straight", flat.Centres, 46+1+0.75*(1+40/55.0)+44+1+0.75*(1+85.5/221.5)+7, 1e-3)
	far, err := s.Concentric(ctx, 1e8)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "R to infinity", far.Centres, flat.Centres, 1e-2)
}

// Plain bodies without allowances: exact throws.
func TestOnArcsExact(t *testing.T) {
	s := passing.Stocks{Inner: []clearance.Vehicle{coach()}}
	for _, r := range []measure.Length{800, 2000, 10000} {
		x, err := s.OnArcs(ctx, r, r)
		if err != nil {
			t.Fatal(err)
		}
		th, err := clearance.Throws(coach(), r)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "spacing", x.Centres, th[0].Inside+th[0].Outside, 5e-4)
		near(t, "centre and end throw", x.Centres-88, measure.Length(614*614/(8*float64(r))), 0.06*(x.Centres-88))
	}
}

// EBOA 1983, Anlage 8: what curves add to the track spacing, against R 250 m,
// in full size here. The bodies are fitted, and next to no width is taken
// since the fit is of throws; what bodies it allows is not printed: 14 m between bogies with 4.5 m overhangs, 6 m with 3.5 m.
func TestEBOA(t *testing.T) {
	rows := reference.Rows(t, "testdata/eboa8.csv")
	for col, v := range []clearance.Vehicle{
		clearance.Rigid("14 m", 14*measure.Metre, box(23*measure.Metre, 2)),
		clearance.Rigid("6 m", 6*measure.Metre, box(13*measure.Metre, 2)),
	} {
		s := passing.Stocks{Inner: []clearance.Vehicle{v}}
		at := func(m float64) measure.Length {
			x, err := s.OnArcs(ctx, measure.Length(m*1000), measure.Length(m*1000))
			if err != nil {
				t.Fatal(err)
			}
			return x.Centres
		}
		for _, row := range rows[1:] {
			m, _ := strconv.ParseFloat(row[0], 64)
			want, _ := strconv.ParseFloat(row[1+col], 64)
			tol := 11.5
			if m < 40 {
				tol = 18
			}
			near(t, row[0]+" m "+v.Name, at(m)-at(250), measure.Length(want), measure.Length(tol))
		}
	}
}

// NMRA S-8, O scale: class II growth over the straight's 3¼ in, worked: fits
// L²/8R - 0.21 in with one body of 16.5 in (66 ft at 1:48) within 1/16 in. A
// fit, not a printed rule.
func TestS8(t *testing.T) {
	const inch = measure.Inch
	s := passing.Stocks{Inner: []clearance.Vehicle{clearance.Rigid("66 ft", 11.5*inch, box(16.5*inch, 2.5*inch))}}
	flat, err := s.Straight(ctx)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ r, spacing measure.Length }{{144, 3 + 5.0/16}, {96, 3 + 3.0/8}, {72, 3.5}, {58, 3 + 5.0/8}, {48, 3.75}} {
		x, err := s.OnArcs(ctx, c.r*inch, c.r*inch)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "growth", (x.Centres-flat.Centres)/inch-0.21, c.spacing-3.25, 1.0/16+0.01)
	}
}

func TestTable(t *testing.T) {
	s := passing.Stocks{Inner: []clearance.Vehicle{coach()}, Margin: 5}
	rows, err := s.Table(ctx, 1200, 2000, 4000)
	if err != nil {
		t.Fatal(err)
	}
	for i, x := range rows {
		if i > 0 && x.Centres >= rows[i-1].Centres {
			t.Errorf("spacing grows with the radius: %v, %v", rows[i-1].Centres, x.Centres)
		}
		near(t, "outer radius", x.OuterRadius, x.InnerRadius+x.Centres, 1e-9)
		near(t, "parts", x.Centres, x.InnerReach+x.OuterReach+5, 1e-6)
	}
	if _, err := s.Table(ctx, 100); !errors.Is(err, measure.ErrNoAnswer) {
		t.Errorf("100 mm: %v", err)
	}
	bad := s
	bad.Margin, bad.Inner = -1, nil
	if _, err := bad.Concentric(ctx, measure.Length(math.NaN())); !errors.Is(err, measure.ErrInput) {
		t.Errorf("bad input: %v", err)
	}
}

// UK guidance (secondary): interval 1970 mm, centres 3405 on 1435.
func TestSpacerBar(t *testing.T) {
	b, err := passing.SpacerBar(3405, 1435, 70)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "over near rails", b.OverNearRails, 1970, 1e-9)
	near(t, "between", b.BetweenRails, 1830, 1e-9)
	near(t, "over all", b.OverAllRails, 3405+1435+140, 1e-9)
	c, err := passing.BarBetweenRails(b.BetweenRails, 1435, 70)
	if err != nil {
		t.Fatal(err)
	}
	if c != b {
		t.Errorf("round trip: %+v, want %+v", c, b)
	}
	if _, err := passing.SpacerBar(49, 45, 2.5); !errors.Is(err, measure.ErrNoAnswer) {
		t.Errorf("rails in each other: %v", err)
	}
	if _, err := passing.SpacerBar(-1, measure.Length(math.NaN()), 0); !errors.Is(err, measure.ErrInput) {
		t.Errorf("bad input: %v", err)
	}
}

func car() coupling.Car {
	return coupling.Car{Vehicle: coach(), Rear: coupling.End{Hinge: -292, Length: 25}, Front: coupling.End{Hinge: 292, Length: 25}}
}

// On straight track a train takes its bodies and what the couplers add.
func TestTrainInRoom(t *testing.T) {
	main := line(t, curve.Pose{}, straight(t, 9000))
	loop := line(t, curve.Pose{}, straight(t, 1500), arc(t, 4000, 10, curve.Left), arc(t, 4000, 10, curve.Right),
		straight(t, 3000), arc(t, 4000, 10, curve.Right), arc(t, 4000, 10, curve.Left), straight(t, 1500))
	set := clearance.Settings{Tolerance: 1e-2}
	a, b := sweep(t, loop, set, coach()), sweep(t, main, set, coach())
	rooms, err := passing.StandingRoom(ctx, a, 5, b)
	if err != nil {
		t.Fatal(err)
	}
	room := rooms[0]
	one, err := room.Holds(car())
	if err != nil {
		t.Fatal(err)
	}
	near(t, "one coach", one.Length, 614, 7) // on the inside of the curve a corner is up to 44/4000 further on
	near(t, "spare", one.Spare, room.Length()-one.Length, 1e-6)
	n := int(float64(room.Length()) / (614 + 6))
	train := make([]coupling.Car, n)
	for i := range train {
		train[i] = car()
	}
	s, err := room.Holds(train...)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "train", s.Length, measure.Length(614*n+20*(n-1)), 14)
	near(t, "spare", s.Spare, room.Length()-s.Length, 1e-6)
	if s.Clear != (s.Spare >= 0) {
		t.Error("verdict")
	}
	more, err := room.Holds(append(train, car())...)
	if err != nil || more.Clear {
		t.Errorf("one more: %+v, %v", more, err)
	}
	// Every corner of the train that is said to stand clear is the margin away
	// from the other track's space.
	if !s.Clear {
		train = train[:n-1]
		if s, err = room.Holds(train...); err != nil || !s.Clear {
			t.Fatalf("%+v, %v", s, err)
		}
	}
	for i, at := range s.RearAxles {
		st, err := clearance.Stand(loop, train[i].Vehicle, at)
		if err != nil {
			t.Fatal(err)
		}
		for _, q := range train[i].Vehicle.Bodies[0].Bands[0].Outline {
			f := main.Nearest(st.Bodies[0].Plan(q))
			if f.Offset-44 < 5-2e-2 {
				t.Errorf("car %d: corner %v is %v from the other track's space", i, q, f.Offset-44)
			}
		}
	}
	if _, err := room.Holds(); !errors.Is(err, measure.ErrInput) {
		t.Error(err)
	}
	if _, err := (passing.Room{}).Holds(car()); !errors.Is(err, measure.ErrInput) {
		t.Error(err)
	}
}
