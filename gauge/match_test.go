package gauge_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/fourfoot/gauge"
	"example.org/fourfoot/gauge/measure"
)

func TestCompare(t *testing.T) {
	standard, _ := gauge.PrototypeNamed("standard gauge")
	metre, _ := gauge.PrototypeNamed("metre gauge")
	threeFoot, _ := gauge.PrototypeNamed("3 ft")
	for _, tc := range []struct {
		scale     string
		gauge     measure.Length
		p         gauge.Prototype
		stands, e float64 // worked by hand
		off       float64
	}{
		{"1:32", 45, standard, 1440, 5, 0.00348},
		{"1:22.5", 45, metre, 1012.5, 12.5, 0.0125},
		{"1:20.3", 45, threeFoot, 913.5, -0.9, -0.00098},
		{"10 mm/ft", 45, standard, 1371.6, -63.4, -0.04418},
	} {
		m, err := gauge.Compare(gauge.MustParseScale(tc.scale), tc.gauge, tc.p)
		if err != nil || !(math.Abs(float64(m.StandsFor)-tc.stands) <= 1e-9) || !(math.Abs(float64(m.Error)-tc.e) <= 1e-9) || !(math.Abs(m.Off-tc.off) <= 5e-6) {
			t.Errorf("Compare(%s, %v, %s) = %+v, %v; want %+v", tc.scale, tc.gauge, tc.p.Name, m, err, tc)
		}
	}
	if _, err := gauge.Compare(gauge.Scale{}, 0, gauge.Prototype{}); err == nil ||
		!strings.Contains(err.Error(), "model gauge") || !strings.Contains(err.Error(), "full-size gauge") {
		t.Errorf("Compare of zeros: %v; want both faults", err)
	}
}

func TestStandsFor(t *testing.T) {
	for scale, want := range map[string]string{"1:22.5": "metre gauge", "1:32": "4 ft 8½ in", "7/8 in/ft": "2 ft", "1:20.3": "3 ft"} {
		m, err := gauge.StandsFor(gauge.MustParseScale(scale), 45)
		if err != nil || m[0].Prototype.Name != want || len(m) != len(gauge.Prototypes()) {
			t.Errorf("StandsFor(%s, 45 mm) begins with %q of %d, %v; want %q", scale, m[0].Prototype.Name, len(m), err, want)
		}
		for i := range m[1:] {
			if math.Abs(m[i+1].Off) < math.Abs(m[i].Off) {
				t.Errorf("StandsFor(%s, 45 mm) is not nearest first at %d", scale, i+1)
			}
		}
	}
	if _, err := gauge.StandsFor(gauge.Scale{}, measure.Length(math.Inf(1))); !errors.Is(err, measure.ErrInput) {
		t.Errorf("StandsFor(+Inf): %v", err)
	}
}

func TestWantedGauge(t *testing.T) {
	// 4 ft 8½ in at 4 mm/ft: the 18.83 mm of P4; 2 ft at 16 mm/ft: 32 mm exactly.
	for _, tc := range []struct {
		scale        string
		full         measure.Length
		want, within float64
	}{
		{"4 mm/ft", 56.5 * measure.Inch, 18.83, 0.005},
		{"16 mm/ft", 2 * measure.Foot, 32, 1e-13},
		{"2 mm/ft", 56.5 * measure.Inch, 9.42, 0.005},
		{"7 mm/ft", 56.5 * measure.Inch, 33, 0.05},
	} {
		got, err := gauge.WantedGauge(gauge.MustParseScale(tc.scale), tc.full)
		if err != nil || !(math.Abs(float64(got)-tc.want) <= tc.within) {
			t.Errorf("WantedGauge(%s, %v) = %v, %v; want %v", tc.scale, tc.full, got, err, tc.want)
		}
	}
	if _, err := gauge.WantedGauge(gauge.Scale{}, -3); !errors.Is(err, measure.ErrInput) {
		t.Errorf("WantedGauge(-3): %v", err)
	}
}

func TestGaugesFor(t *testing.T) {
	for _, tc := range []struct {
		scale, prototype string
		want             measure.Length
		off              float64 // worked
	}{
		{"16 mm/ft", "2 ft", 32, 0},
		{"16 mm/ft", "2 ft 6 in", 45, 0.125},
		{"1:22.5", "750 mm", 33, -0.01},
		{"1:22.5", "metre gauge", 45, 0.0125},
		{"4 mm/ft", "4 ft 8½ in", 18.83, -0.000175},
	} {
		p, _ := gauge.PrototypeNamed(tc.prototype)
		m, err := gauge.GaugesFor(gauge.MustParseScale(tc.scale), p)
		if err != nil || m[0].Gauge != tc.want || !(math.Abs(m[0].Off-tc.off) <= 1e-5) {
			t.Errorf("GaugesFor(%s, %s) begins with %+v, %v; want %v off %v", tc.scale, tc.prototype, m[0], err, tc.want, tc.off)
		}
		seen := map[measure.Length]bool{}
		for i, x := range m {
			if seen[x.Gauge] || i > 0 && math.Abs(x.Off) < math.Abs(m[i-1].Off) {
				t.Errorf("GaugesFor(%s, %s): row %d, %v, is there twice or out of order", tc.scale, tc.prototype, i, x.Gauge)
			}
			seen[x.Gauge] = true
		}
	}
	if _, err := gauge.GaugesFor(gauge.Scale{}, gauge.Prototype{}); !errors.Is(err, measure.ErrInput) {
		t.Errorf("GaugesFor of no prototype: %v", err)
	}
}

func TestScalesFor(t *testing.T) {
	name := func(n string) gauge.Prototype { p, _ := gauge.PrototypeNamed(n); return p }
	for _, tc := range []struct {
		p     gauge.Prototype
		model measure.Length
		want  []string
	}{
		{name("standard gauge"), 45, []string{"1:32", "10 mm/ft"}},
		{name("metre gauge"), 45, []string{"1:22.5"}},
		{name("3 ft"), 45, []string{"1:20.3"}},
		{name("2 ft"), 32, []string{"16 mm/ft"}},
		{name("2 ft"), 45, []string{"7/8 in/ft"}},
	} {
		got, err := gauge.ScalesFor(tc.p, tc.model, 0)
		if err != nil || len(got) < len(tc.want) {
			t.Errorf("ScalesFor(%s, %v) = %v, %v; want %v", tc.p.Name, tc.model, got, err, tc.want)
			continue
		}
		for i, w := range tc.want {
			if got[i].Scale.String() != w {
				t.Errorf("ScalesFor(%s, %v)[%d] = %v, want %v", tc.p.Name, tc.model, i, got[i].Scale, w)
			}
		}
		for _, m := range got {
			if !(math.Abs(m.Off) <= gauge.DefaultWithin) || m.Sizes == "" {
				t.Errorf("ScalesFor(%s, %v) holds %+v", tc.p.Name, tc.model, m)
			}
		}
	}
	// Size I and 3/8 in to the foot are one scale.
	got, _ := gauge.ScalesFor(name("standard gauge"), 45, 0)
	if got[0].Sizes != "I; Gauge 1, 3/8 in to the foot" {
		t.Errorf("1:32 is named %q", got[0].Sizes)
	}
}

func TestScalesForNone(t *testing.T) {
	p, _ := gauge.PrototypeNamed("standard gauge")
	_, err := gauge.ScalesFor(p, 75, 0.001)
	if !errors.Is(err, measure.ErrNoAnswer) || !strings.Contains(err.Error(), "1:19.13") || !strings.Contains(err.Error(), "16 mm/ft") || !strings.Contains(err.Error(), "-0.4 %") {
		t.Errorf("ScalesFor(standard, 75 mm): %v; want the nearest and the exact scale", err)
	}
	for _, within := range []float64{-0.1, 1.1, math.NaN()} {
		if _, err := gauge.ScalesFor(p, 45, within); !errors.Is(err, measure.ErrInput) {
			t.Errorf("ScalesFor within %v: %v", within, err)
		}
	}
	if _, err := gauge.ScalesFor(gauge.Prototype{}, 45, 0); !errors.Is(err, measure.ErrInput) {
		t.Errorf("ScalesFor of no prototype: %v", err)
	}
}

// Gauges from 0.1 mm to 3 m are taken, and none beyond.
func TestGaugeBounds(t *testing.T) {
	for g, ok := range map[measure.Length]bool{0.1: true, 0.0999: false, 3000: true, 3000.1: false} {
		if got, err := gauge.WantedGauge(gauge.Scale{}, g); ok != (err == nil) || ok != (got == g) || !ok && got != 0 {
			t.Errorf("WantedGauge(1:1, %v) = %v, %v; want taken %v", g, got, err, ok)
		}
	}
}

// At the limit itself a scale still suits.
func TestScalesForAtLimit(t *testing.T) {
	p := gauge.Prototype{Name: "invented", Gauge: 1000}
	for _, m := range []struct {
		within float64
		ok     bool
	}{{0.28, true}, {0.2799, false}} {
		got, err := gauge.ScalesFor(p, 45, m.within) // 1:16 stands for 720, off by exactly 0.28
		if err != nil {
			t.Fatal(err)
		}
		has := false
		for _, x := range got {
			has = has || x.Scale.String() == "1:16"
		}
		if has != m.ok {
			t.Errorf("within %v holds 1:16: %v, want %v", m.within, has, m.ok)
		}
	}
	if gauge.DefaultWithin != 0.05 {
		t.Errorf("the default is %v", gauge.DefaultWithin)
	}
}

func ExampleScalesFor() {
	standard, _ := gauge.PrototypeNamed("standard gauge")
	matches, err := gauge.ScalesFor(standard, 45*measure.Millimetre, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, m := range matches {
		fmt.Printf("%-9v stands for %.1f mm, %+.1f %%\n", m.Scale, m.StandsFor.Millimetres(), 100*m.Off)
	}
	// Output:
	// 1:32      stands for 1440.0 mm, +0.3 %
	// 10 mm/ft  stands for 1371.6 mm, -4.4 %
}

func ExampleScale() {
	s := gauge.MustParseScale("16 mm to the foot")
	coach := s.ModelLength(26 * measure.Foot)
	fmt.Printf("%v is 1:%v; 26 ft is %.0f mm\n", s, s.Ratio(), coach.Millimetres())
	train := 20 * measure.MilePerHour
	fmt.Printf("20 mph is %.3f m/s for the timetable, %.3f m/s for how it sways\n",
		s.ModelSpeed(train).MetresPerSecond(), s.Froude().ModelSpeed(train).MetresPerSecond())
	// Output:
	// 16 mm/ft is 1:19.05; 26 ft is 416 mm
	// 20 mph is 0.469 m/s for the timetable, 2.048 m/s for how it sways
}
