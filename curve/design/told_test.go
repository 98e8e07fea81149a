package design_test

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"strconv"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/design"
	"example.org/fourfoot/gauge/measure"
)

// toldIn returns the number that an error tells.
func toldIn(t *testing.T, err error, pattern string) measure.Length {
	t.Helper()
	m := regexp.MustCompile(pattern).FindStringSubmatch(fmt.Sprint(err))
	if m == nil || !errors.Is(err, measure.ErrNoAnswer) {
		t.Fatalf("error %v, want one that tells %q", err, pattern)
	}
	x, err := strconv.ParseFloat(m[1], 64)
	if err != nil {
		t.Fatal(err)
	}
	return measure.Length(x)
}

// fitsUpTo checks that what was told fits, and a little more does not.
func fitsUpTo(t *testing.T, what string, told measure.Length, try func(measure.Length) error) {
	t.Helper()
	if err := try(told * 0.999); err != nil {
		t.Errorf("%s: %v was told, and a little less does not fit: %v", what, told, err)
	}
	if err := try(told * 1.001); err == nil {
		t.Errorf("%s: %v was told, and a little more fits too", what, told)
	}
}

func TestLongestEasementsToldInACorner(t *testing.T) {
	for _, shape := range allShapes {
		c := corner(t, 1, 1000, 1500)
		largest := func(x measure.Length) error {
			_, err := c.Largest(design.Ease(shape, x))
			return err
		}
		fitsUpTo(t, shape.String()+", largest", toldIn(t, largest(1200), `easements of about ([0-9.]+) mm each`), largest)
		// By radius, in a corner that easements turn wholly, and in one that
		// turns so far that a cubic parabola ends before.
		for _, turn := range []float64{0.6, 2.5} {
			c := corner(t, turn, 1e5, 1e5)
			byRadius := func(both measure.Length) error {
				_, err := c.ByRadius(1000, design.Ease(shape, both/2))
				return err
			}
			fitsUpTo(t, fmt.Sprintf("%v, turn of %v", shape, turn), toldIn(t, byRadius(6000), `together they may be ([0-9.]+) mm`), byRadius)
		}
	}
}

// Easements of two lengths exist where the longer one does.
func TestSmallestRadiusToldForUnequalParabolas(t *testing.T) {
	c := corner(t, 2.5, 1e5, 1e5)
	ease := design.Easing{In: 300, Out: 2700, Shape: curve.CubicParabola}
	_, err := c.ByRadius(1000, ease)
	r := toldIn(t, err, `radius must be at least ([0-9.]+) mm`)
	if _, err := c.ByRadius(r*1.001, ease); err != nil {
		t.Errorf("%v was told: %v", r, err)
	}
	if _, err := c.ByRadius(r*0.999, ease); err == nil {
		t.Errorf("%v was told, and less fits too", r)
	}
}

func TestLongestEasementsToldForACrown(t *testing.T) {
	// One arc between straights that are never too short.
	in, err1 := curve.NewStraight(1e5)
	arc, err2 := curve.NewArc(1500, math.Pi, curve.Left)
	line, err3 := curve.New(curve.Pose{}, in, arc, in)
	if err := errors.Join(err1, err2, err3); err != nil {
		t.Fatal(err)
	}
	insert := func(x measure.Length) error {
		_, err := design.InsertEasements(line, design.KeepCrown, curve.Sine, x)
		return err
	}
	fitsUpTo(t, "crown", toldIn(t, insert(6000), `longest easements that do are ([0-9.]+) mm`), insert)
}

// Reverse curves of two turns: the second must at least turn its own easements.
func TestReverseWhoseSecondCurveIsAllEasement(t *testing.T) {
	r := design.Reverse{
		To: curve.Pose{Point: r2.Vec{Y: 300}}, Radius1: 3000, Radius2: 2000,
		Ease1: design.Ease(curve.Clothoid, 100), Ease2: design.Ease(curve.Clothoid, 400),
	}
	line, err := r.Line()
	if err != nil {
		t.Fatal(err)
	}
	meets(t, "end heading", curve.Pose{Heading: aligned(t, line).End().Heading}, curve.Pose{}, 0)
	// With less between the tracks than the easements of the second curve need.
	r.To.Point.Y = 60
	_, err = r.Line()
	least := toldIn(t, err, `needs at least ([0-9.]+) mm`)
	fitsFrom := func(d measure.Length) error {
		r.To.Point.Y = float64(d)
		_, err := r.Line()
		return err
	}
	if err := fitsFrom(least * 1.001); err != nil {
		t.Errorf("%v was told: %v", least, err)
	}
	if fitsFrom(least*0.999) == nil {
		t.Errorf("%v was told, and less fits too", least)
	}
}
