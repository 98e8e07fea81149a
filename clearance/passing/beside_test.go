package passing_test

import (
	"errors"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/passing"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/parallel"
	"example.org/fourfoot/gauge/measure"
)

// approach is a straight and an eased curve of 1.5 m.
func approach(t *testing.T) *curve.Alignment {
	t.Helper()
	bend, err := curve.Bend{Radius: 1500, Turn: 90 * measure.Degree, Hand: curve.Left, EaseIn: 700}.Elements()
	if err != nil {
		t.Fatal(err)
	}
	return line(t, curve.Pose{}, append([]curve.Element{straight(t, 2000)}, bend...)...)
}

func TestBesideFollows(t *testing.T) {
	l := approach(t)
	offsets := []parallel.Offset{{Chainage: 800, Offset: -100}, {Chainage: 2200, Offset: -130}}
	track, err := parallel.NewTapered(l, offsets...)
	if err != nil {
		t.Fatal(err)
	}
	b, err := passing.Beside(l, 1e-4, offsets...)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "length", b.Length(), track.Length(), 1e-4)
	for s := measure.Length(0); s < track.Length(); s += 37 {
		p, q := track.At(s), b.At(s)
		if d := r2.Norm(r2.Sub(p.Point, q.Point)); d > 1e-4 {
			t.Errorf("at %v: %g mm off", s, d)
		}
		near(t, "heading", measure.Length(q.Heading), measure.Length(p.Heading), 3e-6)
	}
}

func TestNeeded(t *testing.T) {
	l := approach(t)
	s := passing.Stocks{Inner: []clearance.Vehicle{coach()}, Margin: 6}
	set := clearance.Settings{Tolerance: 1e-2}
	for _, side := range []curve.Hand{curve.Right, curve.Left} {
		need, err := s.Needed(ctx, l, side, set)
		if err != nil {
			t.Fatal(err)
		}
		flat, err := s.Straight(ctx)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "on the straight", need[10].Centres, flat.Centres, 0.03)
		var most measure.Length
		for _, n := range need {
			most = max(most, n.Centres)
		}
		inner := measure.Length(1500)
		if side == curve.Left {
			inner -= most
		}
		conc, err := s.Concentric(ctx, inner)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "most", most, conc.Centres, 0.05)
	}
}

// What is needed most anywhere, laid as a parallel all along, leaves the margin
// and no more; a thousandth less does not.
func TestNeededFedForward(t *testing.T) {
	l := approach(t)
	s := passing.Stocks{Inner: []clearance.Vehicle{coach()}, Margin: 6}
	set := clearance.Settings{Tolerance: 1e-4}
	for _, side := range []curve.Hand{curve.Right, curve.Left} {
		need, err := s.Needed(ctx, l, side, set)
		if err != nil {
			t.Fatal(err)
		}
		var most measure.Length
		for _, n := range need {
			most = max(most, n.Centres)
		}
		gap := func(spacing measure.Length) measure.Length {
			beside, err := passing.Beside(l, 1e-5, parallel.Offset{Offset: spacing * measure.Length(side)})
			if err != nil {
				t.Fatal(err)
			}
			p, err := passing.Gaps(ctx, sweep(t, l, set, coach()), sweep(t, beside, set, coach()), side)
			if err != nil {
				t.Fatal(err)
			}
			least, err := p.Least()
			if err != nil {
				t.Fatal(err)
			}
			return least.Gap
		}
		near(t, "least gap", gap(most), 6, 1e-3)
		if g := gap(most * 0.999); g > 6-1e-3 {
			t.Errorf("%v: a thousandth less leaves %v", side, g)
		}
	}
}

// The latest taper keeps the margin and no more; a thousandth
// later it does not.
func TestLatestTaperFedForward(t *testing.T) {
	l := approach(t)
	s := passing.Stocks{Inner: []clearance.Vehicle{coach()}, Margin: 6}
	conc, err := s.Concentric(ctx, 1500)
	if err != nil {
		t.Fatal(err)
	}
	flat, err := s.Straight(ctx)
	if err != nil {
		t.Fatal(err)
	}
	taper := passing.Taper{Straight: flat.Centres + 8, Curve: conc.Centres + 2, Length: 1200}
	set := clearance.Settings{Tolerance: 2e-2}
	from, p, err := s.LatestTaper(ctx, l, curve.Right, taper, set)
	if err != nil {
		t.Fatal(err)
	}
	least, err := p.Least()
	if err != nil {
		t.Fatal(err)
	}
	near(t, "least gap", least.Gap, 6, 1e-3)
	if from < 500 || from > 2500 {
		t.Errorf("begins at %v", from)
	}
	late, err := passing.Beside(l, 1e-3, parallel.Offset{Chainage: from * 1.001, Offset: -taper.Straight}, parallel.Offset{Chainage: from*1.001 + 1200, Offset: -taper.Curve})
	if err != nil {
		t.Fatal(err)
	}
	q, err := passing.Gaps(ctx, sweep(t, l, set, coach()), sweep(t, late, set, coach()), 0)
	if err != nil {
		t.Fatal(err)
	}
	if g, err := q.Least(); err != nil || g.Gap >= 6 {
		t.Errorf("later: %v, %v", g.Gap, err)
	}
	taper.Curve = conc.Centres - 2
	if _, _, err := s.LatestTaper(ctx, l, curve.Right, taper, set); !errors.Is(err, measure.ErrNoAnswer) {
		t.Error(err)
	}
}
