package design_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/design"
	"example.org/fourfoot/gauge/measure"
)

func oval(t *testing.T, straight, r float64) *curve.Alignment {
	t.Helper()
	l, _, err := design.Laid(curve.Pose{},
		design.Piece{Length: measure.Length(straight / 2)},
		design.Piece{Length: measure.Length(r * math.Pi), Radius: measure.Length(r), Hand: curve.Left},
		design.Piece{Length: measure.Length(straight)},
		design.Piece{Length: measure.Length(r * math.Pi), Radius: measure.Length(r), Hand: curve.Left},
		design.Piece{Length: measure.Length(straight / 2)},
	)
	if err != nil {
		t.Fatal(err)
	}
	a, err := curve.NewClosed(l.Start, 1e-6, 1e-9, l.Elements...)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

// An oval's half circles: the straights stay 2R apart, the crowns stay, the
// radius shrinks to r + p = R.
func TestInsertInOval(t *testing.T) {
	a := oval(t, 4000, 1500)
	e, err := design.InsertEasements(a, design.KeepCrown, curve.Clothoid, 600)
	if err != nil {
		t.Fatal(err)
	}
	got := aligned(t, e.Line)
	for i, arc := range e.Arcs {
		near(t, "r + p", float64(arc.Radius+arc.Shift), 1500, 1e-9)
		near(t, "crown moved", float64(arc.CrownMoved), 0, 1e-9)
		checkBend(t, e.Bends[i])
	}
	for _, crown := range []r2.Vec{{X: 3500, Y: 1500}, {X: -3500, Y: 1500}} {
		near(t, "crown from line", float64(got.Nearest(crown).Offset), 0, 1e-8)
	}
	near(t, "far straight", float64(got.Nearest(r2.Vec{Y: 3000}).Offset), 0, 1e-9)
	if _, err := design.InsertEasements(a, design.KeepRadius, curve.Clothoid, 600); !errors.Is(err, measure.ErrNoAnswer) {
		t.Errorf("half circles that keep their radius between fixed straights: error %v, want no answer", err)
	}
}

func TestInsertRandom(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 8))
	made := 0
	for range 300 {
		var pieces []design.Piece
		n := 1 + rng.IntN(4)
		for range n {
			r := 1000 + 3000*rng.Float64()
			pieces = append(pieces,
				design.Piece{Length: measure.Length(400 + 1500*rng.Float64())},
				design.Piece{Length: measure.Length(r * (0.2 + 3.5*rng.Float64())), Radius: measure.Length(r), Hand: curve.Hand(sign(rng))})
		}
		pieces = append(pieces, design.Piece{Length: 1000})
		plain, _, err := design.Laid(randomPose(rng), pieces...)
		if err != nil {
			t.Fatal(err)
		}
		old := aligned(t, plain)
		keep := design.Keep(rng.IntN(2))
		lengths := []measure.Length{measure.Length(50 + 300*rng.Float64())}
		if rng.IntN(2) == 0 {
			lengths = nil
			for range n {
				lengths = append(lengths, measure.Length(300*rng.Float64()))
			}
		}
		e, err := design.InsertEasements(old, keep, shapes[rng.IntN(5)], lengths...)
		if err != nil {
			if !errors.Is(err, measure.ErrNoAnswer) {
				t.Errorf("%v", err)
			}
			continue
		}
		made++
		got := aligned(t, e.Line)
		meets(t, "start", got.Start(), old.Start(), 0)
		meets(t, "end: the straights are kept", got.End(), old.End(), 1e-8)
		bounds := old.Boundaries()
		for i, arc := range e.Arcs {
			checkBend(t, e.Bends[i])
			crown := old.At((bounds[2*i+1] + bounds[2*i+2]) / 2)
			if keep == design.KeepRadius && arc.Radius != arc.OldRadius {
				t.Errorf("radius %v, was %v", arc.Radius, arc.OldRadius)
			}
			// The new crown is at the middle of the new bend, moved to the inside.
			inside := r2.Scale(float64(e.Bends[i].Hand)*float64(arc.CrownMoved), r2.Vec{X: -crown.Tangent.Y, Y: crown.Tangent.X})
			at := r2.Sub(r2.Add(e.Bends[i].Centre, r2.Scale(float64(arc.Radius), r2.Scale(float64(e.Bends[i].Hand), r2.Vec{X: crown.Tangent.Y, Y: -crown.Tangent.X}))), crown.Point)
			near(t, "crown moved", r2.Norm(r2.Sub(at, inside)), 0, 1e-8)
			if keep == design.KeepCrown {
				near(t, "crown kept", float64(arc.CrownMoved), 0, 1e-9)
			}
		}
	}
	if made < 150 {
		t.Errorf("only %d of 300 were made", made)
	}
}

func TestInsertTellsLongest(t *testing.T) {
	a := oval(t, 600, 1500)
	_, err := design.InsertEasements(a, design.KeepCrown, curve.Sine, 1500)
	m := regexp.MustCompile(`easements of ([0-9.]+) mm at every arc would fit`).FindStringSubmatch(fmt.Sprint(err))
	if m == nil || !errors.Is(err, measure.ErrNoAnswer) {
		t.Fatalf("error %v tells no easement", err)
	}
	l := must(strconv.ParseFloat(m[1], 64))
	if _, err := design.InsertEasements(a, design.KeepCrown, curve.Sine, measure.Length(l*0.9999)); err != nil {
		t.Errorf("what was told does not fit: %v", err)
	}
	if _, err := design.InsertEasements(a, design.KeepCrown, curve.Sine, measure.Length(l*1.001)); err == nil {
		t.Errorf("more than what was told fits too")
	}
}

// A circuit gives the same line wherever its start was put.
func TestInsertInCircuitFromAnyStart(t *testing.T) {
	a := oval(t, 4000, 1500)
	want, err := design.InsertEasements(a, design.KeepCrown, curve.Bloss, 400)
	if err != nil {
		t.Fatal(err)
	}
	ref := aligned(t, want.Line)
	el := a.Elements()
	b := a.Boundaries()
	for i := range el {
		st := a.At(b[i])
		turned, err := curve.NewClosed(curve.Pose{Point: st.Point, Heading: st.Heading}, 1e-6, 1e-9, append(append([]curve.Element(nil), el[i:]...), el[:i]...)...)
		if err != nil {
			t.Fatal(err)
		}
		got, err := design.InsertEasements(turned, design.KeepCrown, curve.Bloss, 400)
		if err != nil {
			t.Fatalf("start at element %d: %v", i, err)
		}
		g := aligned(t, got.Line)
		near(t, "length", float64(g.Length()), float64(ref.Length()), 1e-8)
		for s := measure.Length(0); s < g.Length(); s += 333 {
			near(t, "offset", float64(ref.Nearest(g.Point(s)).Offset), 0, 1e-8)
		}
	}
}

func TestInsertRefuses(t *testing.T) {
	a := oval(t, 4000, 1500)
	if _, err := design.InsertEasements(nil, 0, 0, 1); !errors.Is(err, measure.ErrInput) {
		t.Errorf("no line: %v", err)
	}
	if _, err := design.InsertEasements(a, 7, 0, 1); !errors.Is(err, measure.ErrInput) {
		t.Errorf("unknown way: %v", err)
	}
	if _, err := design.InsertEasements(a, 0, 0, 1, 2, 3); !errors.Is(err, measure.ErrInput) {
		t.Errorf("three lengths for two arcs: %v", err)
	}
	if _, err := design.InsertEasements(a, 0, 0, measure.Length(math.Inf(1))); !errors.Is(err, measure.ErrInput) {
		t.Errorf("infinite length: %v", err)
	}
	e, err := design.InsertEasements(a, design.KeepCrown, 0, 600)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := design.InsertEasements(aligned(t, e.Line), 0, 0, 1); !errors.Is(err, measure.ErrInput) {
		t.Errorf("a line that has easements: %v", err)
	}
}

func FuzzInsert(f *testing.F) {
	f.Add(1000.0, 2000.0, 1.0, 500.0, 1500.0, -1.5, 1000.0, 200.0, uint8(0), uint8(2))
	f.Add(1000.0, 2000.0, 3.1415926, 500.0, 1500.0, 4.0, 1000.0, 200.0, uint8(1), uint8(5))
	f.Fuzz(func(t *testing.T, s0, r1, t1, s1, ra, ta, s2, ease float64, keep, shape uint8) {
		hand := func(x float64) curve.Hand {
			if x < 0 {
				return curve.Right
			}
			return curve.Left
		}
		l, _, err := design.Laid(curve.Pose{},
			design.Piece{Length: measure.Length(s0)},
			design.Piece{Length: measure.Length(r1 * math.Abs(t1)), Radius: measure.Length(r1), Hand: hand(t1)},
			design.Piece{Length: measure.Length(s1)},
			design.Piece{Length: measure.Length(ra * math.Abs(ta)), Radius: measure.Length(ra), Hand: hand(ta)},
			design.Piece{Length: measure.Length(s2)})
		if err != nil {
			return
		}
		a, err := l.Alignment()
		if err != nil {
			t.Fatal(err)
		}
		e, err := design.InsertEasements(a, design.Keep(keep), curve.Shape(shape), measure.Length(ease))
		if err != nil {
			return
		}
		g, err := e.Alignment()
		if err != nil {
			t.Fatal(err)
		}
		scale := float64(a.Length()) + r1 + ra
		meets(t, "end", g.End(), a.End(), 1e-8*scale)
	})
}
