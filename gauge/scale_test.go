package gauge_test

import (
	"encoding/json"
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.org/fourfoot/gauge"
	"example.org/fourfoot/gauge/measure"
)

func TestParseScale(t *testing.T) {
	for _, tc := range []struct {
		text, want string
		ratio      float64
	}{
		{"1:22.5", "1:22.5", 22.5},
		{" 1 : 22.5 ", "1:22.5", 22.5},
		{"1:22,5", "1:22.5", 22.5},
		{"1/32", "1:32", 32},
		{"1/ 90", "1:90", 90},
		{"1:13 5/7", "1:13 5/7", 96.0 / 7},
		{"1:32.000", "1:32", 32},
		{"1:1", "1:1", 1},
		{"1:" + strings.Repeat(" ", 197) + "5", "1:5", 5}, // measure.MaxText bytes
		{"1:1000", "1:1000", 1000},
		{"16 mm/ft", "16 mm/ft", 19.05},
		{"16mm to the foot", "16 mm/ft", 19.05},
		{"16 MM TO THE FOOT", "16 mm/ft", 19.05},
		{"10 mm per ft", "10 mm/ft", 30.48},
		{"10 mm = 1 ft", "10 mm/ft", 30.48},
		{`1/2"=1'`, "1/2 in/ft", 24},
		{"3.5 mm/ft", "3.5 mm/ft", 304.8 / 3.5},
		{"304.8 mm/ft", "304.8 mm/ft", 1},
		{"7/8 in/ft", "7/8 in/ft", 96.0 / 7},
		{"⅞ in/ft", "7/8 in/ft", 96.0 / 7},
		{"0.875 in/ft", "7/8 in/ft", 96.0 / 7},
		{`7/8" to the foot`, "7/8 in/ft", 96.0 / 7},
		{"7/8″ per foot", "7/8 in/ft", 96.0 / 7},
		{"3/8 inch to a foot", "3/8 in/ft", 32},
		{"1½in/ft", "1 1/2 in/ft", 8},
		{"1 1/2 in to the foot", "1 1/2 in/ft", 8},
		{"1/3 in/ft", "1/3 in/ft", 36},
		{"1/8 in/ft", "1/8 in/ft", 96},
		{"0.6 in/ft", "0.6 in/ft", 20},
		{"1\u202f: 22.5", "1:22.5", 22.5},
	} {
		s, err := gauge.ParseScale(tc.text)
		if err != nil {
			t.Errorf("ParseScale(%q): %v", tc.text, err)
			continue
		}
		if s.String() != tc.want || s.Ratio() != tc.ratio {
			t.Errorf("ParseScale(%q) = %v with ratio %v, want %v with %v", tc.text, s, s.Ratio(), tc.want, tc.ratio)
		}
		if again, err := gauge.ParseScale(s.String()); err != nil || again != s {
			t.Errorf("ParseScale(%q) = %#v, %v; want %#v", s.String(), again, err, s)
		}
	}
}

func TestParseScaleRefuses(t *testing.T) {
	for _, tc := range []struct{ text, says string }{
		{"", "must be written like"},
		{"32", "must be written like"},
		{"22.5", "must be written like"},
		{"1:", "must be written like"},
		{"1:abc", "must be written like"},
		{"1:1e2", "must be written like"},
		{"1:-5", "must be written like"},
		{"1:.5", "must be written like"},
		{"1:5.", "must be written like"},
		{"1:22,500", "comma before exactly three digits"},
		{"1:1,000.5", "must be written like"},
		{"1:22.5.5", "must be written like"},
		{"1:0", "more than 0"},
		{"0 mm/ft", "more than 0"},
		{"1:0.5", "from 1:1 to 1:1000"},
		{"1:1001", "from 1:1 to 1:1000"},
		{"305 mm/ft", "from 1:1 to 1:1000"},
		{"0.1 mm/ft", "from 1:1 to 1:1000"},
		{"16 cm/ft", "must be written like"},
		{"16 mm", "must be written like"},
		{"16 /ft", "must be written like"},
		{"7/0 in/ft", "below the fraction line"},
		{"1 8/7 in/ft", "fraction below 1"},
		{"1 8/8 in/ft", "fraction below 1"},
		{"a 1/2 in/ft", "must be written like"},
		{"1 a/2 in/ft", "must be written like"},
		{"7/8/9 in/ft", "must be written like"},
		{"7/8", "must be written like"},
		{"1:999.9999999999999999999", "fewer digits"}, // its denominator alone would fit
		{"1:" + strings.Repeat("9", 80), "from 1:1 to 1:1000"},
		{"1:32." + strings.Repeat("1", 40), "fewer digits"},
	} {
		s, err := gauge.ParseScale(tc.text)
		var fe *measure.FieldError
		if !errors.Is(err, measure.ErrInput) || !errors.As(err, &fe) || fe.Field != "scale" || !strings.Contains(err.Error(), tc.says) {
			t.Errorf("ParseScale(%q) = %v, %v; want an error of field scale that says %q", tc.text, s, err, tc.says)
		}
		if s != (gauge.Scale{}) {
			t.Errorf("ParseScale(%q) = %v beside an error, want the zero Scale", tc.text, s)
		}
	}
}

func TestScaleTooLong(t *testing.T) {
	s, err := gauge.ParseScale("1:" + strings.Repeat(" ", 198) + "5")
	if !errors.Is(err, measure.ErrLimit) || s != (gauge.Scale{}) || len(err.Error()) > 150 {
		t.Errorf("201 bytes: %v, %v; want a short ErrLimit", s, err)
	}
}

func TestNewScale(t *testing.T) {
	for n, want := range map[float64]string{22.5: "1:22.5", 20.3: "1:20.3", 43.54: "1:43.54", 1: "1:1", 1000: "1:1000"} {
		s, err := gauge.NewScale(n)
		if err != nil || s.String() != want || s.Ratio() != n {
			t.Errorf("NewScale(%v) = %v, %v; want %v", n, s, err, want)
		}
	}
	for _, n := range []float64{100.0 / 3, 96.0 / 7, math.Nextafter(1, 2), math.Nextafter(1000, 0), math.Pi} {
		s, err := gauge.NewScale(n)
		if err != nil || s.Ratio() != n {
			t.Errorf("NewScale(%v).Ratio() = %v, %v; want the same number", n, s.Ratio(), err)
		}
		if again, err := gauge.ParseScale(s.String()); err != nil || again != s {
			t.Errorf("ParseScale(%q) = %v, %v; want the same Scale", s.String(), again, err)
		}
	}
	for _, n := range []float64{0, -1, 0.99, 1000.1, math.NaN(), math.Inf(1), math.Inf(-1)} {
		if s, err := gauge.NewScale(n); !errors.Is(err, measure.ErrInput) {
			t.Errorf("NewScale(%v) = %v, %v; want ErrInput", n, s, err)
		}
	}
}

func TestScaleEqual(t *testing.T) {
	mm, ratio := gauge.MustParseScale("16 mm/ft"), gauge.MustParseScale("1:19.05")
	if mm == ratio || !mm.Equal(ratio) || !ratio.Equal(mm) {
		t.Error("16 mm/ft and 1:19.05 must be Equal, but not ==")
	}
	if mm.Equal(gauge.MustParseScale("1:19")) {
		t.Error("16 mm/ft must not be Equal to 1:19")
	}
	var zero gauge.Scale
	if one := gauge.MustParseScale("1:1"); zero != one || zero.Ratio() != 1 || zero.String() != "1:1" {
		t.Errorf("the zero Scale is %v with ratio %v, want 1:1", zero, zero.Ratio())
	}
	if got := mm.PerFoot(); !(math.Abs(got.Millimetres()-16) <= 1e-14) {
		t.Errorf("PerFoot of 16 mm/ft = %v", got)
	}
}

func TestScaleJSON(t *testing.T) {
	type plan struct{ Scale gauge.Scale }
	for _, text := range []string{"1:22.5", "16 mm/ft", "7/8 in/ft", "1:1"} {
		in := plan{gauge.MustParseScale(text)}
		b, err := json.Marshal(in)
		if err != nil || string(b) != `{"Scale":"`+text+`"}` {
			t.Errorf("Marshal(%v) = %s, %v", text, b, err)
		}
		var out plan
		if err := json.Unmarshal(b, &out); err != nil || out != in {
			t.Errorf("Unmarshal(%s) = %v, %v", b, out, err)
		}
	}
	out := plan{gauge.MustParseScale("1:32")}
	if err := json.Unmarshal([]byte(`{"Scale":"32"}`), &out); !errors.Is(err, measure.ErrInput) || out.Scale.String() != "1:32" {
		t.Errorf("Unmarshal of a bare number: %v, scale now %v; want ErrInput and the old value", err, out.Scale)
	}
}

func TestExactScale(t *testing.T) {
	for _, tc := range []struct {
		full, model measure.Length
		want        string
	}{
		{914.4, 45, "1:20.32"},
		{609.6, 32, "1:19.05"},
		{1435, 45, "1:31 8/9"},
		{1000, 45, "1:22 2/9"},
	} {
		s, err := gauge.ExactScale(tc.full, tc.model)
		if err != nil || s.String() != tc.want {
			t.Errorf("ExactScale(%v, %v) = %v, %v; want %v", tc.full, tc.model, s, err, tc.want)
		}
	}
	if s, err := gauge.ExactScale(1435, measure.Length(math.Pi*14)); err != nil || !(math.Abs(s.Ratio()-1435/(math.Pi*14)) <= 1e-9) {
		t.Errorf("ExactScale(1435, 14π) = %v, %v", s, err)
	}
	// Seventeen figures on both sides are often more than is held: then, and only
	// then, the ratio is rounded to 1e-9.
	r, rounded := rand.New(rand.NewPCG(9, 9)), 0
	for range 1000 {
		full, model := measure.Length(2000+900*r.Float64()), measure.Length(3+6*r.Float64())
		s, err := gauge.ExactScale(full, model)
		off := math.Abs(s.Ratio() - float64(full/model))
		if off > 1e-12 {
			rounded++
		}
		if err != nil || !(off <= 5.01e-10) || off > 1e-12 && len(s.String()) > 15 {
			t.Fatalf("ExactScale(%v, %v) = %v, %v, off by %v", float64(full), float64(model), s, err, off)
		}
	}
	if rounded == 0 {
		t.Error("no ratio was rounded: the test has lost its point")
	}
	for _, n := range []measure.Length{1, 1000} {
		if s, err := gauge.ExactScale(2*n, 2); err != nil || s.Ratio() != float64(n) {
			t.Errorf("ExactScale(%v, 2 mm) = %v, %v", 2*n, s, err)
		}
	}
	if _, err := gauge.ExactScale(measure.Length(math.NaN()), -1); err == nil ||
		!strings.Contains(err.Error(), "full-size gauge") || !strings.Contains(err.Error(), "model gauge") {
		t.Errorf("ExactScale(NaN, -1): %v; want both faults", err)
	}
	for _, tc := range [][2]measure.Length{{measure.Length(math.NaN()), 45}, {1435, measure.Length(math.NaN())}, {1435, 0}} {
		if s, err := gauge.ExactScale(tc[0], tc[1]); !errors.Is(err, measure.ErrInput) || s != (gauge.Scale{}) || strings.Contains(err.Error(), "\n") {
			t.Errorf("ExactScale(%v, %v) = %v, %v; want the one fault", tc[0], tc[1], s, err)
		}
	}
	if _, err := gauge.ExactScale(45, 1435); !errors.Is(err, measure.ErrInput) {
		t.Errorf("ExactScale(45, 1435): %v; want ErrInput", err)
	}
}

func FuzzNewScale(f *testing.F) {
	for _, n := range []float64{22.5, 1, 1000, 100.0 / 3, 0, -1, math.NaN(), math.Inf(1), math.Nextafter(1, 2)} {
		f.Add(n)
	}
	f.Fuzz(func(t *testing.T, n float64) {
		s, err := gauge.NewScale(n)
		if ok := n >= 1 && n <= 1000; ok != (err == nil) {
			t.Fatalf("NewScale(%v): %v", n, err)
		}
		if err != nil {
			return
		}
		if again, err := gauge.ParseScale(s.String()); err != nil || again != s || s.Ratio() != n {
			t.Fatalf("NewScale(%v) = %v with ratio %v; its text reads back as %v, %v", n, s, s.Ratio(), again, err)
		}
	})
}

func FuzzParseScale(f *testing.F) {
	for _, s := range []string{"1:22.5", "16 mm/ft", "7/8 in/ft", "16mm to the foot", "1:22,500", "1/3 in/ft", "⅞\" per ft", "1 1/2 in/ft", "1:", ""} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		s, err := gauge.ParseScale(text)
		if err != nil {
			if !errors.Is(err, measure.ErrInput) && !errors.Is(err, measure.ErrLimit) {
				t.Fatalf("ParseScale(%q): %v is of no kind", text, err)
			}
			return
		}
		if n := s.Ratio(); !(n >= 1 && n <= 1000) {
			t.Fatalf("ParseScale(%q).Ratio() = %v", text, n)
		}
		again, err := gauge.ParseScale(s.String())
		if err != nil || again != s {
			t.Fatalf("ParseScale(%q) = %v; its text reads back as %v, %v", text, s, again, err)
		}
	})
}
