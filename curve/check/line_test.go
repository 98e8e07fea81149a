package check_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/check"
	"example.org/fourfoot/gauge/measure"
)

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func arcOf(radius measure.Length, turn measure.Angle, hand curve.Hand) curve.Element {
	return must(curve.NewArc(radius, turn*measure.Degree, hand))
}

func straightOf(l measure.Length) curve.Element { return must(curve.NewStraight(l)) }

func easeOf(shape curve.Shape, l measure.Length, k0, k1 measure.Curvature) curve.Element {
	return must(curve.NewEasement(shape, l, k0, k1))
}

func TestCheck(t *testing.T) {
	L, R := curve.Left, curve.Right
	for _, c := range []struct {
		name     string
		limits   check.Limits
		elements []curve.Element
		want     []string
	}{
		{"nothing asked, nothing found", check.Limits{}, []curve.Element{straightOf(1), arcOf(10, 5, L), arcOf(10, 5, R)}, nil},
		{
			"radius",
			check.Limits{MinRadius: 600},
			[]curve.Element{straightOf(100), arcOf(500, 20, L), straightOf(50), arcOf(600, 20, R), arcOf(400, 10, R)},
			[]string{"element 2 at chainage 100 mm: radius 500 mm: must be at least 600 mm", "element 5 at chainage 533.972 mm: radius 400 mm: must be at least 600 mm"},
		},
		{
			"one finding for a bend, at its sharpest",
			check.Limits{MinRadius: 600},
			must(curve.Bend{Radius: 500, Turn: 1, Hand: L, EaseIn: 100, EaseOut: 200}.Elements()),
			[]string{"element 1 at chainage 100 mm: radius 500 mm: must be at least 600 mm"},
		},
		{
			"kinks",
			check.Limits{MaxKink: 1 * measure.Degree},
			[]curve.Element{straightOf(100).WithKink(0.5), straightOf(100).WithKink(-2 * measure.Degree), straightOf(10).WithKink(1 * measure.Degree)},
			[]string{"element 2 at chainage 100 mm: kink 2°: must be at most 1°"},
		},
		{
			"no kink allowed unless said",
			check.Limits{},
			[]curve.Element{straightOf(100), straightOf(100).WithKink(0.25 * measure.Degree)},
			[]string{"element 2 at chainage 100 mm: kink 0.25°: must be at most 0°"},
		},
		{
			"jump",
			check.Limits{MaxJump: 1. / 2000},
			[]curve.Element{straightOf(100), arcOf(2000, 5, L), arcOf(1000, 5, L), straightOf(7)},
			[]string{"element 4 at chainage 361.799 mm: jump of curvature R 1000 mm left: must be at most R 2000 mm left"},
		},
		{
			"short easement",
			check.Limits{MinEasement: 300},
			[]curve.Element{easeOf(curve.Bloss, 299, 0, 1e-3), easeOf(curve.Bloss, 300, 1e-3, 0), easeOf(curve.Sine, 5, 0, 0)},
			[]string{"element 1 at chainage 0 mm: length of easement 299 mm: must be at least 300 mm"},
		},
		{
			// A² = R·L over the steepness: 1000·400/2 for the sine.
			"clothoid parameter",
			check.Limits{MinParameter: 460},
			[]curve.Element{easeOf(curve.Clothoid, 400, 0, 1e-3), easeOf(curve.Sine, 400, 1e-3, 0)},
			[]string{"element 2 at chainage 400 mm: clothoid parameter of easement 447.214 mm: must be at least 460 mm"},
		},
		{
			"reverse curves",
			check.Limits{MinStraight: 200},
			[]curve.Element{arcOf(500, 10, L), straightOf(60), straightOf(70), arcOf(500, 10, R), straightOf(200), arcOf(500, 10, L), straightOf(5), arcOf(500, 10, L), arcOf(500, 10, R)},
			[]string{
				"element 4 at chainage 87.2665 mm: straight between reverse curves 130 mm: must be at least 200 mm",
				"element 9 at chainage 684.066 mm: straight between reverse curves 0 mm: must be at least 200 mm",
			},
		},
		{
			"reverse curves with easements",
			check.Limits{MinStraight: 200},
			append(must(curve.Bend{Radius: 500, Turn: 1, Hand: L, EaseIn: 100, EaseOut: 200}.Elements()), must(curve.Bend{Radius: 500, Turn: 1, Hand: R, EaseIn: 100}.Elements())...),
			nil,
		},
	} {
		a := must(curve.New(curve.Pose{}, c.elements...))
		found, err := check.Line(a, c.limits)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
		var got []string
		for _, f := range found {
			got = append(got, f.String())
			if f.Value == nil || f.Element < 0 || f.Element >= len(c.elements) {
				t.Errorf("%s: finding %+v", c.name, f)
			}
		}
		if fmt.Sprint(got) != fmt.Sprint(c.want) {
			t.Errorf("%s: found %q, want %q", c.name, got, c.want)
		}
		// Met from the other end the line breaks the same limits.
		back, err := check.Line(a.Reverse(), c.limits)
		if err != nil || len(back) != len(found) {
			t.Errorf("%s: reversed, found %v, %v", c.name, back, err)
		}
	}
	a := must(curve.New(curve.Pose{}, straightOf(1)))
	_, err := check.Line(a, check.Limits{MinRadius: -1, MaxKink: measure.Angle(math.NaN()), MaxJump: -1, MinEasement: -1, MinParameter: -1, MinStraight: -1})
	var joined interface{ Unwrap() []error }
	if !errors.As(err, &joined) || len(joined.Unwrap()) != 6 {
		t.Errorf("six bad limits: %v", err)
	}
}

// The joint of end and start is a joint as any other.
func TestCheckCircuitJoint(t *testing.T) {
	half := arcOf(1000, 180, curve.Left)
	ring := must(curve.NewClosed(curve.Pose{}, 0, 0,
		straightOf(100), half, straightOf(500), half, straightOf(400)))
	found := must(check.Line(ring, check.Limits{MaxJump: 1. / 2000}))
	if len(found) != 4 {
		t.Errorf("four jumps, found %v", found)
	}
	// Start within an arc that is too sharp: still one finding.
	split := must(ring.Restart(100 + 1000))
	if found = must(check.Line(split, check.Limits{MinRadius: 2000})); len(found) != 2 {
		t.Errorf("two arcs too sharp, found %v", found)
	}
	kinked := must(curve.NewClosed(curve.Pose{}, 0, 0,
		arcOf(1000, 170, curve.Left).WithKink(10*measure.Degree), arcOf(1000, 170, curve.Left).WithKink(10*measure.Degree)))
	if found = must(check.Line(kinked, check.Limits{MaxKink: 1 * measure.Degree})); len(found) != 2 || found[0].Chainage != 0 {
		t.Errorf("two kinks, one at the start, found %v", found)
	}
}

// An easement that was cut is one easement still, and its parts are not short.
func TestCutEasementIsOne(t *testing.T) {
	lath, err := curve.NewLath(400, 900, curve.Left)
	if err != nil {
		t.Fatal(err)
	}
	for _, whole := range []curve.Element{easeOf(curve.Sine, 400, 0, 1e-3), lath, lath.Reverse()} {
		var cut []curve.Element
		for i := range 4 {
			cut = append(cut, must(whole.Part(whole.Length()*measure.Length(i)/4, whole.Length()*measure.Length(i+1)/4)))
		}
		for _, l := range []struct {
			limits check.Limits
			want   int
		}{{check.Limits{MinEasement: 350}, 0}, {check.Limits{MinEasement: 500, MinParameter: 2000}, 2}} {
			one := must(check.Line(must(curve.New(curve.Pose{}, whole)), l.limits))
			four := must(check.Line(must(curve.New(curve.Pose{}, cut...)), l.limits))
			if len(one) != l.want || len(four) != l.want {
				t.Errorf("%v: whole %v, cut %v, want %d findings", whole.Shape(), one, four, l.want)
			}
		}
	}
}
