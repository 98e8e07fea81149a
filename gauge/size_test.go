package gauge_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/fourfoot/gauge"
	"example.org/fourfoot/gauge/measure"
)

// NEM 010, ed. 2011: nominal sizes (seen).
func TestNEMSizes(t *testing.T) {
	want := []struct {
		name  string
		ratio float64
		gauge measure.Length
	}{
		{"Z", 220, 6.5},
		{"N", 160, 9},
		{"TT", 120, 12},
		{"H0", 87, 16.5},
		{"S", 64, 22.5},
		{"0", 45, 32},
		{"I", 32, 45},
		{"II", 22.5, 64},
		{"III", 16, 89},
		{"V", 11, 127},
		{"VII", 8, 184},
		{"X", 5.5, 260},
	}
	got := gauge.NEMSizes()
	if len(got) != len(want) {
		t.Fatalf("NEMSizes has %d rows, want %d", len(got), len(want))
	}
	for i, w := range want {
		z := got[i]
		if z.Name != w.name || z.Scale.Ratio() != w.ratio || z.Gauge != w.gauge || z.FullMin != 1250 || z.FullMax != 1700 {
			t.Errorf("row %d = %+v, want %+v for 1250 to 1700", i, z, w)
		}
		if one, err := gauge.NEMSize(w.name); err != nil || one != z {
			t.Errorf("NEMSize(%q) = %+v, %v; want %+v", w.name, one, err, z)
		}
	}
}

// NEM 010: the size II family, II 64 mm for 1440 mm exactly, IIm 45 for 1012.5,
// IIe 32 for 720; the other rows follow from the rule and the table of sizes.
func TestNarrow(t *testing.T) {
	for _, tc := range []struct {
		name        string
		gauge, full measure.Length
		min, max    measure.Length
	}{
		{"II", 64, 1440, 1250, 1700},
		{"IIm", 45, 1012.5, 850, 1250},
		{"IIe", 32, 720, 650, 850},
		{"IIi", 22.5, 506.25, 400, 650},
		{"IIp", 16.5, 371.25, 300, 400},
		{"Ii", 16.5, 528, 400, 650},
		{"H0e", 9, 783, 650, 850},
		{"Nm", 6.5, 1040, 850, 1250},
	} {
		z, err := gauge.NEMSize(tc.name)
		if err != nil || z.Gauge != tc.gauge || z.Scale.FullLength(z.Gauge) != tc.full || z.FullMin != tc.min || z.FullMax != tc.max {
			t.Errorf("NEMSize(%q) = %+v, %v; want %+v", tc.name, z, err, tc)
		}
	}
	for _, name := range []string{"", "Zm", "Ne", "HO", "II m", "IV", "IIx", "mm", strings.Repeat("I", 500)} {
		if z, err := gauge.NEMSize(name); !errors.Is(err, measure.ErrInput) || len(err.Error()) > 250 {
			t.Errorf("NEMSize(%q) = %+v, %v; want a short ErrInput", name, z, err)
		}
	}
}

func TestNEMSizeFor(t *testing.T) {
	for _, tc := range []struct {
		size string
		full measure.Length
		want string
	}{
		{"II", 1000, "IIm"},
		{"II", 750, "IIe"},
		{"II", 1435, "II"},
		{"0", 600, "0i"},
		{"0", 381, "0p"},
		// ends of the ranges: "850 to under 1250"
		{"I", 300, "Ip"},
		{"I", 400, "Ii"},
		{"I", 650, "Ie"},
		{"I", 850, "Im"},
		{"I", measure.Length(math.Nextafter(1250, 0)), "Im"},
		{"I", 1250, "I"},
		{"Z", 1435, "Z"},
		{"I", 1700, "I"},
	} {
		if z, err := gauge.NEMSizeFor(tc.size, tc.full); err != nil || z.Name != tc.want {
			t.Errorf("NEMSizeFor(%q, %v) = %v, %v; want %v", tc.size, tc.full, z.Name, err, tc.want)
		}
	}
	if _, err := gauge.NEMSizeFor("N", 600); !errors.Is(err, measure.ErrNoAnswer) {
		t.Errorf("NEMSizeFor(N, 600): %v; want ErrNoAnswer", err)
	}
	for _, full := range []measure.Length{299, 1701} {
		if z, err := gauge.NEMSizeFor("II", full); !errors.Is(err, measure.ErrInput) || z != (gauge.Size{}) {
			t.Errorf("NEMSizeFor(II, %v) = %v, %v; want ErrInput", full, z, err)
		}
	}
	for _, full := range []measure.Length{299, 1701, -1, measure.Length(math.NaN())} {
		if _, err := gauge.NEMSizeFor("IIm", full); !errors.Is(err, measure.ErrInput) ||
			!strings.Contains(err.Error(), "size") || !strings.Contains(err.Error(), "full-size gauge") {
			t.Errorf("NEMSizeFor(IIm, %v): %v; want both faults", full, err)
		}
	}
}

// Scales on imperial proportions: the ratios and the full-size gauges as
// listed, to the figures printed.
func TestImperialSizes(t *testing.T) {
	for _, tc := range []struct {
		name        string
		perFoot     measure.Length
		ratio, half float64
		gauge, full measure.Length // full 0: not listed
	}{
		{"2 mm finescale", 2, 152.4, 0.05, 9.42, 0},
		{"OO", 4, 76.2, 0.05, 16.5, 0},
		{"EM", 4, 76.2, 0.05, 18.2, 0},
		{"P4", 4, 76.2, 0.05, 18.83, 0},
		{"O", 7, 43.54, 0.005, 32, 0},
		{"ScaleSeven", 7, 43.54, 0.005, 33, 0},
		{"Gauge 1, 10 mm to the foot", 10, 30.48, 0.005, 45, 0},
		{"Gauge 1, 3/8 in to the foot", 9.525, 32, 1e-12, 45, 0},
		{"16 mm on 32 mm", 16, 19.05, 0.005, 32, 609.6},
		{"16 mm on 45 mm", 16, 19.05, 0.005, 45, 857.25},
		{"1:20.3 on 45 mm", 15.01, 20.3, 1e-12, 45, 913.5},
		{"7/8 in on 45 mm", 22.225, 13.714, 0.0005, 45, 617.1},
	} {
		i := -1
		for j, z := range gauge.ImperialSizes() {
			if z.Name == tc.name {
				i = j
			}
		}
		if i < 0 {
			t.Errorf("no size %q", tc.name)
			continue
		}
		z := gauge.ImperialSizes()[i]
		if z.Gauge != tc.gauge || !(math.Abs(z.Scale.Ratio()-tc.ratio) <= tc.half) || !(math.Abs(float64(z.Scale.PerFoot()-tc.perFoot)) <= 0.006) {
			t.Errorf("%s: %v, %v per foot, gauge %v; listed %+v", tc.name, z.Scale.Ratio(), z.Scale.PerFoot(), z.Gauge, tc)
		}
		if full := z.Scale.FullLength(z.Gauge); tc.full != 0 && !(math.Abs(float64(full-tc.full)) <= 0.05) {
			t.Errorf("%s stands for %v, listed %v", tc.name, full, tc.full)
		}
		if z.Source.Basis == gauge.Seen {
			t.Errorf("%s: the list names no source that was seen", tc.name)
		}
	}
}

// Full-size gauges as listed, with the roundings that the list prints.
func TestPrototypes(t *testing.T) {
	want := []float64{381, 600, 609.6, 750, 762, 900, 914.4, 1000, 1066.8, 1435, 1435.1, 1520, 1524, 1600.2, 1668, 1676.4, 2139.95}
	got := gauge.Prototypes()
	if len(got) != len(want) {
		t.Fatalf("%d gauges, want %d", len(got), len(want))
	}
	for i, w := range want {
		if !(math.Abs(float64(got[i].Gauge)-w) <= 1e-9) {
			t.Errorf("%s is %v, listed %v", got[i].Name, got[i].Gauge, w)
		}
		if p, ok := gauge.PrototypeNamed(got[i].Name); !ok || p != got[i] {
			t.Errorf("PrototypeNamed(%q) = %v, %v", got[i].Name, p, ok)
		}
	}
	if p, ok := gauge.PrototypeNamed("broad"); ok {
		t.Errorf("PrototypeNamed(broad) = %v", p)
	}
	got[0].Gauge = 1
	if gauge.Prototypes()[0].Gauge != 381 {
		t.Error("the table is not copied out")
	}
}
