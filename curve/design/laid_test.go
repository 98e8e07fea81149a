package design_test

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/design"
	"example.org/fourfoot/gauge/measure"
)

func TestLaidCircle(t *testing.T) {
	const n = 12
	pieces := make([]design.Piece, n)
	for i := range pieces {
		pieces[i] = design.Piece{Length: 600 * 2 * math.Pi / n, Radius: 600, Hand: curve.Right}
	}
	l, joints, err := design.Laid(curve.Pose{Heading: 1}, pieces...)
	if err != nil {
		t.Fatal(err)
	}
	if len(joints) != 0 {
		t.Errorf("joints %v, want none", joints)
	}
	end := aligned(t, l).End()
	near(t, "circle closes", r2.Norm(end.Point), 0, 1e-9)
	near(t, "turn", float64(end.Heading), 1-2*math.Pi, 1e-12)
}

func TestLaidKinks(t *testing.T) {
	// A square of straights: each joint kinks 90°, all of the turn is kinks.
	kink := 90 * measure.Degree
	l, joints, err := design.Laid(curve.Pose{},
		design.Piece{Length: 100}, design.Piece{Length: 100, Kink: kink},
		design.Piece{Length: 100, Kink: kink}, design.Piece{Length: 100, Kink: kink})
	if err != nil {
		t.Fatal(err)
	}
	if len(joints) != 3 || joints[1] != (design.Joint{Piece: 2, Chainage: 200, Kink: kink}) {
		t.Errorf("joints %v", joints)
	}
	near(t, "square closes", r2.Norm(aligned(t, l).End().Point), 0, 1e-12)
}

func TestLaidRefuses(t *testing.T) {
	for name, p := range map[string]design.Piece{
		"no length":     {},
		"NaN":           {Length: measure.Length(math.NaN())},
		"no hand":       {Length: 100, Radius: 100},
		"no radius":     {Length: 100, Hand: curve.Left},
		"sharp kink":    {Length: 100, Kink: 2},
		"negative":      {Length: -1, Radius: 600, Hand: curve.Left},
		"bad hand":      {Length: 1, Radius: 600, Hand: 3},
		"infinite kink": {Length: 1, Kink: measure.Angle(math.Inf(1))},
	} {
		if _, _, err := design.Laid(curve.Pose{}, p); !errors.Is(err, measure.ErrInput) {
			t.Errorf("%s: error %v, want bad input", name, err)
		}
	}
	if _, _, err := design.Laid(curve.Pose{}); !errors.Is(err, measure.ErrInput) {
		t.Errorf("no pieces: error %v", err)
	}
}

func FuzzLaid(f *testing.F) {
	f.Add(100.0, 600.0, int8(1), 0.01, 200.0)
	f.Add(1e5, 1e-3, int8(-1), -1.0, 1.0)
	f.Fuzz(func(t *testing.T, a, r float64, hand int8, kink, b float64) {
		l, joints, err := design.Laid(curve.Pose{}, design.Piece{Length: measure.Length(a)},
			design.Piece{Length: measure.Length(b), Radius: measure.Length(r), Hand: curve.Hand(hand), Kink: measure.Angle(kink)})
		if err != nil {
			return
		}
		if (kink != 0) != (len(joints) == 1) {
			t.Errorf("kink %v, joints %v", kink, joints)
		}
		line, err := l.Alignment()
		if err != nil {
			t.Fatal(err)
		}
		near(t, "length", float64(line.Length()), a+b, 1e-12*(a+b))
		turn := kink
		if r != 0 {
			turn += float64(hand) * b / r
		}
		near(t, "turn", float64(line.End().Heading), turn, 1e-12*(1+math.Abs(turn)))
	})
}
