package closing_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/closing"
	"example.org/fourfoot/gauge/measure"
)

func TestPartsOfGivesTheLineAgain(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 23))
	for range 50 {
		var want []closing.Part
		var el []curve.Element
		for range 1 + rng.IntN(5) {
			p := closing.Part{Bend: curve.Bend{Radius: 1500, Turn: 1, Hand: curve.Hand(2*rng.IntN(2) - 1), Shape: curve.Clothoid + curve.Shape(rng.IntN(5))}}
			p.Bend.EaseIn = measure.Length(300 * rng.IntN(2))
			p.Bend.EaseOut = measure.Length(200 * rng.IntN(2))
			if rng.IntN(4) == 0 { // no arc left
				p.Bend.EaseIn, p.Bend.EaseOut = 1500, 1500
			}
			if p.Bend.EaseIn == 0 && p.Bend.EaseOut == 0 {
				p.Bend.Shape = 0
			}
			want = append(want, closing.Part{Straight: 500}, p)
		}
		for _, p := range want {
			if p.Straight > 0 {
				e, err := curve.NewStraight(p.Straight)
				if err != nil {
					t.Fatal(err)
				}
				el = append(el, e)
				continue
			}
			e, err := p.Bend.Elements()
			if err != nil {
				t.Fatal(err)
			}
			el = append(el, e...)
		}
		a, err := curve.New(curve.Pose{Point: r2.Vec{X: 5}, Heading: 2}, el...)
		if err != nil {
			t.Fatal(err)
		}
		got, err := closing.PartsOf(a)
		if err != nil {
			t.Fatal(err)
		}
		if len(got) != len(want) {
			t.Fatalf("%d parts, want %d: %+v", len(got), len(want), got)
		}
		for i, w := range want {
			g := got[i]
			near(t, "radius", float64(g.Bend.Radius), float64(w.Bend.Radius), 1e-9)
			near(t, "turn", float64(g.Bend.Turn), float64(w.Bend.Turn), 1e-12)
			g.Bend.Radius, g.Bend.Turn = w.Bend.Radius, w.Bend.Turn
			if g != w {
				t.Errorf("part %d is %+v, want %+v", i, g, w)
			}
		}
	}
}

func TestPartsOfRefuses(t *testing.T) {
	arc, err := curve.NewArc(1000, 1, curve.Left)
	if err != nil {
		t.Fatal(err)
	}
	between, err := curve.NewEasement(curve.Bloss, 100, 1e-3, 2e-3)
	if err != nil {
		t.Fatal(err)
	}
	parabola, err := curve.NewCubicParabola(100, 1000, curve.Left)
	if err != nil {
		t.Fatal(err)
	}
	other, err := curve.NewEasement(curve.Bloss, 100, 2e-3, 0)
	if err != nil {
		t.Fatal(err)
	}
	lath, err := curve.NewLath(100, 1000, curve.Left)
	if err != nil {
		t.Fatal(err)
	}
	for name, row := range map[string]struct {
		el   []curve.Element
		says string
	}{
		"kink":          {[]curve.Element{arc, arc.WithKink(0.1)}, "kink"},
		"arc to arc":    {[]curve.Element{arc, between, arc}, "from arc to arc is no part"},
		"parabola":      {[]curve.Element{parabola, arc}, "as a Part, with the abscissas"},
		"lath":          {[]curve.Element{lath, arc}, "as a Part, with the abscissas"},
		"other radius":  {[]curve.Element{arc, other}, "must begin a bend"},
		"only between":  {[]curve.Element{between}, "from arc to arc is no part"},
		"kink in front": {[]curve.Element{arc.WithKink(0.1)}, "kink"},
	} {
		a, err := curve.New(curve.Pose{}, row.el...)
		if err != nil {
			t.Fatal(err)
		}
		if p, err := closing.PartsOf(a); !errors.Is(err, measure.ErrInput) || !strings.Contains(err.Error(), row.says) {
			t.Errorf("%s: parts %+v, error %v; want bad input that says %q", name, p, err, row.says)
		}
	}
	if _, err := closing.PartsOf(nil); !errors.Is(err, measure.ErrInput) {
		t.Errorf("nil: %v", err)
	}
	// Two plain arcs that touch are two bends.
	right, err := curve.NewArc(800, math.Pi/2, curve.Right)
	if err != nil {
		t.Fatal(err)
	}
	a, err := curve.New(curve.Pose{}, arc, right)
	if err != nil {
		t.Fatal(err)
	}
	if p, err := closing.PartsOf(a); err != nil || len(p) != 2 {
		t.Errorf("two arcs: %+v, %v", p, err)
	}
}

// What is taken apart goes together again.
func FuzzPartsOf(f *testing.F) {
	f.Add(1000.0, 1500.0, 1.2, 300.0, 200.0, uint8(3), 500.0, false)
	f.Add(1e-3, 2.0, 3.0, 0.0, 1e-3, uint8(5), 0.0, true)
	f.Fuzz(func(t *testing.T, straight, radius, turn, in, out float64, shape uint8, rest float64, right bool) {
		hand := curve.Left
		if right {
			hand = curve.Right
		}
		bend, err := curve.Bend{Radius: measure.Length(radius), Turn: measure.Angle(turn), Hand: hand, EaseIn: measure.Length(in), EaseOut: measure.Length(out), Shape: curve.Shape(shape)}.Elements()
		if err != nil {
			return
		}
		el := bend
		for i, x := range []float64{straight, rest} {
			if e, err := curve.NewStraight(measure.Length(x)); err == nil && i == 0 {
				el = append([]curve.Element{e}, el...)
			} else if err == nil {
				el = append(el, e)
			}
		}
		a, err := curve.New(curve.Pose{}, el...)
		if err != nil {
			return
		}
		parts, err := closing.PartsOf(a)
		if err != nil {
			if !errors.Is(err, measure.ErrInput) {
				t.Fatalf("error of no kind: %v", err)
			}
			return
		}
		var again []curve.Element
		for _, p := range parts {
			if p.Straight > 0 {
				e, err := curve.NewStraight(p.Straight)
				if err != nil {
					t.Fatal(err)
				}
				again = append(again, e)
				continue
			}
			e, err := p.Bend.Elements()
			if err != nil {
				t.Fatal(err)
			}
			again = append(again, e...)
		}
		b, err := curve.New(curve.Pose{}, again...)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "end x", b.End().Point.X, a.End().Point.X, 1e-8*float64(a.Length()))
		near(t, "end y", b.End().Point.Y, a.End().Point.Y, 1e-8*float64(a.Length()))
	})
}
