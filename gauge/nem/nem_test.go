package nem_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/gauge/nem"
	"example.org/fourfoot/internal/reference"
)

var nan = measure.Length(math.NaN())

func TestEasementTable(t *testing.T) {
	rows := reference.Rows(t, "testdata/nem113.csv")
	if len(rows) != 7 {
		t.Fatalf("%d rows", len(rows))
	}
	for _, row := range rows {
		radius, _ := strconv.ParseFloat(row[0], 64)
		want, _ := strconv.ParseFloat(row[1], 64)
		got, err := nem.Easement{Gauge: 45, Radius: measure.Length(radius)}.Find()
		if err != nil || float64(got.Length) != want {
			t.Errorf("G 45, R %v: %v, %v; printed %v", radius, got.Length, err, want)
		}
		if got.Shift != 25 || got.Needed != (radius <= 2700) || got.ByVehicle {
			t.Errorf("G 45, R %v: %+v; want shift 25, needed up to 60 G", radius, got)
		}
	}
}

func TestEasementShifts(t *testing.T) {
	// NEM 113, ed. 2016: f 18 at 32, 25 at 45, 36 at 64.
	for g, f := range map[measure.Length]measure.Length{32: 18, 45: 25, 64: 36} {
		got, err := nem.Easement{Gauge: g, Radius: 40 * g}.Find()
		if err != nil || got.Shift != f || !(math.Abs(float64(got.Exact*got.Exact/(24*40*g)-f)) <= 1e-9) {
			t.Errorf("gauge %v: %+v, %v; want shift %v", g, got, err, f)
		}
	}
	if _, err := (nem.Easement{Gauge: 89, Radius: 5000}).Find(); !errors.Is(err, measure.ErrNoAnswer) {
		t.Errorf("gauge 89 without a shift: %v; want ErrNoAnswer", err)
	}
	if got, err := (nem.Easement{Gauge: 89, Radius: 5000, Shift: 50}).Find(); err != nil || got.Length != 2450 {
		t.Errorf("gauge 89, shift 50: %+v, %v; want √(24·5000·50) = 2449.5, rounded 2450", got, err)
	}
}

func TestEasementLongest(t *testing.T) {
	got, err := nem.Easement{Gauge: 45, Radius: 2000, Longest: 1201}.Find()
	if err != nil || got.Length != 1205 || !got.ByVehicle || got.Long {
		t.Errorf("longest 1201 on R 2000: %+v, %v; want 1205 by the vehicle", got, err)
	}
	got, err = nem.Easement{Gauge: 45, Radius: 2000, Longest: 1095}.Find()
	if err != nil || got.Length != 1095 || got.ByVehicle {
		t.Errorf("longest 1095 on R 2000: %+v, %v; want 1095 by the shift", got, err)
	}
	if got, err := (nem.Easement{Gauge: 45, Radius: 900}).Find(); err != nil || !got.Long {
		t.Errorf("R 900: %+v, %v; want a warning that 735 is not below 0.8 R", got, err)
	}
}

// Where there is no answer, the radius that the error offers has one.
func TestEasementNoAnswer(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 3000 {
		e := nem.Easement{Gauge: 45, Radius: measure.Length(1 + 900*r.Float64()), Shift: measure.Length(1 + 40*r.Float64())}
		if r.IntN(2) == 0 {
			e.Longest = measure.Length(1000 * r.Float64())
		}
		_, err := e.Find()
		if err == nil {
			continue
		}
		if !errors.Is(err, measure.ErrNoAnswer) {
			t.Fatalf("%+v: %v", e, err)
		}
		_, text, _ := strings.Cut(err.Error(), "take a radius of ")
		text, _, _ = strings.Cut(text, " or more")
		if e.Radius, err = measure.ParseLength(text); err != nil {
			t.Fatalf("%+v offers the radius %q: %v", e, text, err)
		}
		if _, err := e.Find(); err != nil {
			t.Fatalf("offered radius %s: %v", text, err)
		}
		// And it is not far above the least that has one.
		least := e.Radius - 20
		for ; least < e.Radius; least++ {
			f := e
			if f.Radius = least; f.Radius <= 0 {
				continue
			}
			if _, err := f.Find(); err == nil {
				break
			}
		}
		if e.Radius-least > 15 {
			t.Fatalf("%+v: offered, but %v would do", e, least)
		}
	}
}

// The marks change where the sheet says: an easement above 60 G, and a length
// of 0.8 R.
func TestEasementMarks(t *testing.T) {
	for r, needed := range map[measure.Length]bool{2700: true, 2700.1: false} {
		if a, err := (nem.Easement{Gauge: 45, Radius: r}).Find(); err != nil || a.Needed != needed {
			t.Errorf("R %v: needed %v, %v; want %v", r, a.Needed, err, needed)
		}
	}
	for longest, long := range map[measure.Length]bool{1595: false, 1600: true, 1605: true} {
		if a, err := (nem.Easement{Gauge: 45, Radius: 2000, Longest: longest}).Find(); err != nil || a.Long != long {
			t.Errorf("length %v on R 2000: long %v, %v; want %v", a.Length, a.Long, err, long)
		}
	}
	// L is to be below R, not equal.
	if a, err := (nem.Easement{Gauge: 45, Radius: 2000, Longest: 2000}).Find(); !errors.Is(err, measure.ErrNoAnswer) {
		t.Errorf("length 2000 on R 2000 = %+v, %v; want ErrNoAnswer", a, err)
	}
}

// Gauges from 0.1 mm to 3 m and lengths up to 1000 km are taken.
func TestBounds(t *testing.T) {
	for g, ok := range map[measure.Length]bool{0.1: true, 0.0999: false, 3000: true, 3000.1: false} {
		if got, err := nem.CantLimit(g); ok != (err == nil) || !ok && got != 0 {
			t.Errorf("CantLimit(%v) = %v, %v; want taken %v", g, got, err, ok)
		}
	}
	for w, ok := range map[measure.Length]bool{1e-3: true, 1e9: true, 1.0001e9: false} {
		if got, err := nem.AttackRadius(w); ok != (err == nil) || !ok && got != 0 {
			t.Errorf("AttackRadius(%v) = %v, %v; want taken %v", w, got, err, ok)
		}
	}
}

func TestNames(t *testing.T) {
	for g, want := range map[nem.Group]string{0: "no group", nem.A: "A", nem.B: "B", nem.C: "C", 4: "no group"} {
		if g.String() != want {
			t.Errorf("group %d prints %q, want %q", uint8(g), g, want)
		}
	}
	for u, want := range map[nem.Use]string{
		0: "no use", nem.AbsoluteLeast: "absolute least", nem.StationSideTrack: "station side track",
		nem.SecondaryMain: "secondary main line", nem.Main: "main line", 5: "no use",
	} {
		if u.String() != want {
			t.Errorf("use %d prints %q, want %q", uint8(u), u, want)
		}
	}
}

func TestFreeShift(t *testing.T) {
	// NEM 113, ed. 2016: the divisors 24, 23, 22 and where they change.
	for _, tc := range []struct{ length, by measure.Length }{
		{100, 24}, {599, 24}, {600, 23}, {700, 23}, {800, 23}, {801, 22}, {999, 22},
	} {
		got, err := nem.FreeShift(1000, tc.length)
		if err != nil || !(math.Abs(float64(got-tc.length*tc.length/(1000*tc.by))) <= 1e-12) {
			t.Errorf("FreeShift(1000, %v) = %v, %v; want L²/%vR", tc.length, got, err, float64(tc.by))
		}
	}
	for _, tc := range [][2]measure.Length{{1000, 1000}, {1000, 2000}, {0, 5}, {-1, 5}, {1000, 0}, {nan, nan}} {
		if got, err := nem.FreeShift(tc[0], tc[1]); !errors.Is(err, measure.ErrInput) {
			t.Errorf("FreeShift(%v, %v) = %v, %v; want ErrInput", tc[0], tc[1], got, err)
		}
	}
}

func TestMinimumRadius(t *testing.T) {
	// NEM 111, ed. 2016, multiples of the gauge for A, B, C (secondary).
	want := map[nem.Use][3]measure.Length{
		nem.AbsoluteLeast:    {22, 25, 30},
		nem.StationSideTrack: {25, 30, 35},
		nem.SecondaryMain:    {30, 35, 40},
		nem.Main:             {35, 40, 45},
	}
	for use, row := range want {
		for i, g := range []nem.Group{nem.A, nem.B, nem.C} {
			got, err := nem.MinimumRadius(45, use, g)
			if err != nil || got != 45*row[i] {
				t.Errorf("MinimumRadius(45, %v, %v) = %v, %v; want %v G", use, g, got, err, float64(row[i]))
			}
		}
	}
	for _, tc := range []struct {
		g     measure.Length
		use   nem.Use
		group nem.Group
	}{{0, 0, 0}, {nan, 5, 4}, {-45, 99, 99}} {
		_, err := nem.MinimumRadius(tc.g, tc.use, tc.group)
		if !errors.Is(err, measure.ErrInput) || strings.Count(err.Error(), "\n") != 2 {
			t.Errorf("MinimumRadius(%v): %v; want three faults", tc, err)
		}
	}
}

func TestBufferRadius(t *testing.T) {
	// NEM 111, ed. 2016, buffers touching when propelled, R/G.
	for _, tc := range []struct {
		over, wheelbase float64
		gauges          measure.Length
	}{{9.8, 5, 50}, {9, 4.5, 50}, {9.8, 5.1, 57}, {9.9, 5, 57}, {14.6, 8, 57}, {9.801, 5, 57}, {14.601, 8, 71}, {14.6, 8.001, 71}, {17.5, 10, 71}, {2, 2, 50}} {
		got, err := nem.WagonBufferRadius(45, measure.Length(tc.over)*measure.Metre, measure.Length(tc.wheelbase)*measure.Metre)
		if err != nil || got != 45*tc.gauges {
			t.Errorf("WagonBufferRadius(45, %v m, %v m) = %v, %v; want %v G", tc.over, tc.wheelbase, got, err, float64(tc.gauges))
		}
	}
	for _, tc := range [][2]measure.Length{{17501, 10000}, {17500, 10001}} {
		if r, err := nem.WagonBufferRadius(45, tc[0], tc[1]); !errors.Is(err, measure.ErrNoAnswer) || !strings.Contains(err.Error(), "its largest is 17.5 m on 10 m") || r != 0 {
			t.Errorf("%v over buffers on %v: %v, %v; want ErrNoAnswer that names the largest class", tc[0], tc[1], r, err)
		}
	}
	if _, err := nem.WagonBufferRadius(45, 8000, 9000); !errors.Is(err, measure.ErrInput) {
		t.Errorf("wheelbase above the length: %v; want ErrInput", err)
	}
	for g, want := range map[nem.Group]measure.Length{nem.A: 57, nem.B: 60, nem.C: 84} {
		if got, err := nem.BufferRadius(32, g); err != nil || got != 32*want {
			t.Errorf("BufferRadius(32, %v) = %v, %v; want %v G", g, got, err, float64(want))
		}
	}
	if _, err := nem.BufferRadius(nan, 7); err == nil || strings.Count(err.Error(), "\n") != 1 {
		t.Errorf("BufferRadius(NaN, 7): %v; want two faults", err)
	}
}

func TestAttackRadius(t *testing.T) {
	r, err := nem.AttackRadius(300)
	if err != nil || !(math.Abs(math.Asin(300/2/float64(r))*180/math.Pi-12) <= 1e-12) {
		t.Errorf("AttackRadius(300) = %v, %v; its angle must be 12°", r, err)
	}
	if _, err := nem.AttackRadius(0); !errors.Is(err, measure.ErrInput) {
		t.Errorf("AttackRadius(0): %v", err)
	}
}

func TestCantLimit(t *testing.T) {
	// NEM 114, ed. 2007: 2 mm at 32, 3 at 45, 4 at 64, whole millimetres of G/15.
	for g, want := range map[measure.Length]float64{32: 2, 45: 3, 64: 4} {
		got, err := nem.CantLimit(g)
		if err != nil || math.Floor(float64(got)) != want || !(math.Abs(float64(15*got-g)) <= 1e-12) {
			t.Errorf("CantLimit(%v) = %v, %v; printed %v", g, got, err, want)
		}
	}
	if _, err := nem.CantLimit(nan); !errors.Is(err, measure.ErrInput) {
		t.Errorf("CantLimit(NaN): %v", err)
	}
}

func FuzzEasement(f *testing.F) {
	f.Add(45.0, 2000.0, 0.0, 850.0)
	f.Add(32.0, 400.0, 18.0, 0.0)
	f.Add(45.0, math.NaN(), -1.0, math.Inf(1))
	f.Add(64.0, 1e300, 1e300, 5e-324)
	f.Fuzz(func(t *testing.T, g, r, shift, longest float64) {
		e := nem.Easement{Gauge: measure.Length(g), Radius: measure.Length(r), Shift: measure.Length(shift), Longest: measure.Length(longest)}
		a, err := e.Find()
		if err != nil {
			if !errors.Is(err, measure.ErrInput) && !errors.Is(err, measure.ErrNoAnswer) {
				t.Fatalf("%+v: %v", e, err)
			}
			return
		}
		if l := float64(a.Length); !(l >= 5) || !(l >= longest) || !(l < r) || !(math.Abs(math.Mod(l+2.5, 5)-2.5) < 1e-6) {
			t.Fatalf("%+v: %+v", e, a)
		}
	})
}

func ExampleEasement_Find() {
	e, err := nem.Easement{Gauge: 45, Radius: 2 * measure.Metre, Longest: 850}.Find()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f mm (exactly %.1f), shift %.0f mm\n", e.Length.Millimetres(), e.Exact.Millimetres(), e.Shift.Millimetres())
	// Output:
	// 1095 mm (exactly 1095.4), shift 25 mm
}
