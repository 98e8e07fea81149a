package curve_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

func TestElementsAreMadeAgainBitForBit(t *testing.T) {
	arc := must(curve.NewArc(1234.5678, 0.777, curve.Right))
	if again := must(curve.NewArcOfLength(arc.Length(), arc.StartCurvature())); again != arc {
		t.Errorf("%v is not %v", again, arc)
	}
	whole := must(curve.NewEasement(curve.Bloss, 1000.0/3, 1.0/700, -1.0/900))
	part := must(curve.Form{Shape: curve.Bloss, Length: 99.7, Start: 1.0 / 700, End: -1.0 / 900, Whole: 1000.0 / 3, From: 100.1}.Element())
	if back, from := part.WithKink(0.1).Whole(); back != whole || from != 100.1 {
		t.Errorf("of %v from %v, not %v", back, from, whole)
	}
	if literal := must(curve.Form{Shape: curve.Bloss, Length: 1000.0 / 3, Start: 1.0 / 700, End: -1.0 / 900}.Element()); literal != whole {
		t.Errorf("%v is not %v", literal, whole)
	}
	all := []curve.Element{arc, whole, part, part.Reverse(), must(curve.NewStraight(77.7))}
	for _, shape := range easements {
		e := must(curve.NewEasement(shape, 1000.0/3, -1.0/777, 1.0/333))
		all = append(all, e, must(e.Part(33.3, 222.2)), must(e.Part(33.3, 222.2)).Reverse(), e.Mirror())
	}
	for i, e := range all {
		e = e.WithKink(measure.Angle(i) / 10)
		if again, err := e.Form().Element(); err != nil || again != e {
			t.Errorf("%d: %+v comes back as %+v, %v", i, e, again, err)
		}
	}
	for s := measure.Length(0); s < 99; s += 7 {
		if a, b := part.CurvatureAt(s), whole.CurvatureAt(s+100.1); math.Abs(float64(a-b)) > 1e-17 {
			t.Errorf("curvature of the part at %v: %v, of the whole %v", s, a, b)
		}
		const h = 0.01
		d := float64(part.CurvatureAt(s+h)-part.CurvatureAt(s-h)) / (2 * h)
		if s > 0 && math.Abs(part.CurvatureRate(s)-d) > 1e-11 {
			t.Errorf("rate at %v: %v, difference quotient %v", s, part.CurvatureRate(s), d)
		}
	}
}

func TestExactConstructorsRefuse(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	good := curve.Form{Shape: curve.Sine, Length: 500, End: 1.0 / 700}
	for i, c := range []struct {
		change func(f *curve.Form)
		want   string
	}{
		{func(f *curve.Form) { f.Shape = 99 }, "shape of element unknown shape"},
		{func(f *curve.Form) { f.From, f.Length, f.Whole = -1, 5, 500 }, "start of the part of sine"},
		{func(f *curve.Form) { f.From, f.Length, f.Whole = 499, 5, 500 }, "end of the part of sine 504 mm"},
		{func(f *curve.Form) { f.From = 1 }, "end of the part of sine 501 mm"},
		{func(f *curve.Form) { f.From, f.Length = measure.Length(nan), measure.Length(nan) }, "length of sine"},
		{func(f *curve.Form) { f.Kink = measure.Angle(inf) }, "kink of element"},
		{func(f *curve.Form) { f.End = measure.Curvature(inf) }, "curvature at the end"},
		{func(f *curve.Form) { f.Rate = 1 }, "rate of sine"},
		{func(f *curve.Form) { f.Across = nan }, "rate across of sine"},
		{func(f *curve.Form) { f.Back = true }, "running back of sine"},
		{func(f *curve.Form) { f.Shape = curve.StraightLine }, "end curvature of straight"},
		{func(f *curve.Form) { f.Shape, f.Start = curve.StraightLine, 1 }, "start curvature of straight"},
		{func(f *curve.Form) { f.Shape, f.End, f.Whole = curve.CircularArc, 0, 600 }, "whole length of arc"},
		{func(f *curve.Form) { f.Shape, f.End = curve.CircularArc, 0 }, "curvature of arc"},
		{func(f *curve.Form) { f.Shape, f.End, f.Start = curve.CubicParabola, 0, 1 }, "start curvature of cubic parabola"},
	} {
		f := good
		c.change(&f)
		if _, err := f.Element(); !errors.Is(err, measure.ErrInput) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("case %d: error %v, want %q", i+1, err, c.want)
		}
	}
	_, e1 := curve.NewArcOfLength(5, 0)
	_, e2 := curve.NewArcOfLength(measure.Length(nan), measure.Curvature(inf))
	for i, err := range []error{e1, e2} {
		if !errors.Is(err, measure.ErrInput) {
			t.Errorf("arc %d: error %v, want ErrInput", i+1, err)
		}
	}
}
