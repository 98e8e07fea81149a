package measure_test

import (
	"encoding"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/fourfoot/gauge/measure"
)

// fuzzParse checks that any text is refused with a reason or read as a finite
// value, whose exact text reads back to the same bits and whose short text
// reads back to six digits.
func fuzzParse[Q ~float64](f *testing.F, parse func(string) (Q, error)) {
	f.Fuzz(func(t *testing.T, text string) {
		q, err := parse(text)
		if err != nil {
			if q != 0 {
				t.Errorf("parse(%q) = %v with the error %v", text, q, err)
			}
			if !strings.HasPrefix(err.Error(), "measure: ") {
				t.Errorf("parse(%q): error %q", text, err)
			}
			return
		}
		if v := float64(q); math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("parse(%q) = %v", text, v)
		}
		exact, err := any(q).(encoding.TextMarshaler).MarshalText()
		if err != nil {
			t.Fatalf("parse(%q) = %v: MarshalText: %v", text, float64(q), err)
		}
		back, err := parse(string(exact))
		if err != nil || math.Float64bits(float64(back)) != math.Float64bits(float64(q)) {
			t.Errorf("parse(%q) = %v, as %q reads back as %v, %v", text, float64(q), exact, float64(back), err)
		}
		checkShown(t, parse, q)
	})
}

// checkShown checks that String is short and right to six digits.
func checkShown[Q ~float64](t *testing.T, parse func(string) (Q, error), q Q) {
	t.Helper()
	shown := fmt.Sprint(q)
	back, err := parse(shown)
	if err != nil {
		// Rounding may carry the largest values past what a float64 holds,
		// and the smallest to nothing.
		if x := math.Abs(float64(q)); x > 1e-300 && x < 1e300 {
			t.Errorf("String of %v is %q, which is refused: %v", float64(q), shown, err)
		}
		return
	}
	if d := math.Abs(float64(back - q)); d > 5.1e-6*math.Abs(float64(q)) && d > 1e-300 {
		t.Errorf("String of %v is %q, which reads as %v", float64(q), shown, float64(back))
	}
	if q != 0 && back == 0 {
		t.Errorf("String of %v is %q", float64(q), shown)
	}
	if len(shown) > 28 {
		t.Errorf("String of %v is %q, %d bytes", float64(q), shown, len(shown))
	}
}

func FuzzParseHeading(f *testing.F) {
	f.Fuzz(func(t *testing.T, text string) {
		h, err := measure.ParseHeading(text)
		if err != nil {
			if h != (measure.Heading{}) {
				t.Errorf("ParseHeading(%q) = %+v with the error %v", text, h, err)
			}
			return
		}
		if h.Unit == "" {
			return
		}
		// The unit of a heading must serve for some quantity.
		n := h.Notation(measure.PointSign)
		for _, parse := range []func(string) error{
			func(s string) error { _, err := n.ParseLength(s); return err },
			func(s string) error { _, err := n.ParseArea(s); return err },
			func(s string) error { _, err := n.ParseVolume(s); return err },
			func(s string) error { _, err := n.ParseMass(s); return err },
			func(s string) error { _, err := n.ParseDensity(s); return err },
			func(s string) error { _, err := n.ParseLinearMass(s); return err },
			func(s string) error { _, err := n.ParseSpeed(s); return err },
			func(s string) error { _, err := n.ParseForce(s); return err },
			func(s string) error { _, err := n.ParseStress(s); return err },
			func(s string) error { _, err := n.ParseAngle(s); return err },
			func(s string) error { _, err := n.ParseCurvature(s); return err },
			func(s string) error { _, err := n.ParseGradient(s); return err },
			func(s string) error { _, err := n.ParseTemperature(s); return err },
			func(s string) error { _, err := n.ParseTemperatureDifference(s); return err },
			func(s string) error { _, err := n.ParseExpansion(s); return err },
		} {
			if parse("12.5") == nil {
				return
			}
		}
		t.Errorf("ParseHeading(%q) = %+v, whose unit serves for no quantity", text, h)
	})
}

func FuzzNotation(f *testing.F) {
	f.Fuzz(func(t *testing.T, text, unit string, sign byte) {
		n := measure.Notation{Decimal: measure.DecimalSign(sign), Length: unit, Gradient: unit, Temperature: unit}
		if l, err := n.ParseLength(text); err == nil && (math.IsNaN(float64(l)) || math.IsInf(float64(l), 0)) {
			t.Errorf("%+v.ParseLength(%q) = %v", n, text, float64(l))
		}
		if g, err := n.ParseGradient(text); err == nil && (math.IsNaN(float64(g)) || math.IsInf(float64(g), 0)) {
			t.Errorf("%+v.ParseGradient(%q) = %v", n, text, float64(g))
		}
		if d, err := n.ParseTemperature(text); err == nil && (math.IsNaN(float64(d)) || math.IsInf(float64(d), 0)) {
			t.Errorf("%+v.ParseTemperature(%q) = %v", n, text, float64(d))
		}
	})
}
