package gauge_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/fourfoot/gauge"
	"example.org/fourfoot/gauge/measure"
)

// University of Warsaw, table of scale physics: what 1 m² and 1 m³ are in the
// model, to three figures.
func TestScalePhysics(t *testing.T) {
	for _, tc := range []struct {
		scale    string
		cm2, cm3 float64
		half2    float64 // half a unit of the last figure printed
		half3    float64
	}{
		{"1:16", 39.1, 244, 0.05, 0.5},
		{"1:22.5", 19.8, 87.8, 0.05, 0.05},
		{"1:32", 9.77, 30.5, 0.005, 0.05},
		{"1:45", 4.94, 11, 0.005, 0.05}, // 11 is 11.0 in three figures
	} {
		s := gauge.MustParseScale(tc.scale)
		if got := float64(s.ModelArea(measure.SquareMetre) / measure.SquareCentimetre); !(math.Abs(got-tc.cm2) <= tc.half2) {
			t.Errorf("%v: 1 m² is %v cm², published %v", s, got, tc.cm2)
		}
		if got := float64(s.ModelVolume(measure.CubicMetre) / measure.CubicCentimetre); !(math.Abs(got-tc.cm3) <= tc.half3) {
			t.Errorf("%v: 1 m³ is %v cm³, published %v", s, got, tc.cm3)
		}
	}
}

// Same table: 60 mph at 1:87.1 is about 1 ft/s.
func TestLinearSpeedPublished(t *testing.T) {
	v := gauge.MustParseScale("1:87.1").ModelSpeed(60 * measure.MilePerHour)
	if got := float64(v / measure.FootPerSecond); !(math.Abs(got-1) <= 0.05) {
		t.Errorf("60 mph at 1:87.1 = %v ft/s, published about 1", got)
	}
}

// Common practice: the full-size six-foot way comes to 60 mm at 10 mm/ft.
func TestSixFoot(t *testing.T) {
	if got := gauge.MustParseScale("10 mm/ft").ModelLength(6 * measure.Foot); !(math.Abs(float64(got)-60) <= 1e-12) {
		t.Errorf("6 ft at 10 mm/ft = %v, want 60 mm", got)
	}
}

func TestThereAndBack(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 2000 {
		s, err := gauge.NewScale(1 + 999*r.Float64())
		if err != nil {
			t.Fatal(err)
		}
		x := math.Exp(40 * (r.Float64() - 0.5))
		fr := s.Froude()
		for name, got := range map[string]float64{
			"length": float64(s.FullLength(s.ModelLength(measure.Length(x)))),
			"area":   float64(s.FullArea(s.ModelArea(measure.Area(x)))),
			"volume": float64(s.FullVolume(s.ModelVolume(measure.Volume(x)))),
			"mass":   float64(s.FullMass(s.ModelMass(measure.Mass(x)))),
			"speed":  float64(s.FullSpeed(s.ModelSpeed(measure.Speed(x)))),
			"Froude": float64(fr.FullSpeed(fr.ModelSpeed(measure.Speed(x)))),
			"force":  float64(fr.FullForce(fr.ModelForce(measure.Force(x)))),
		} {
			if !(math.Abs(got-x) <= 4*(math.Nextafter(x, math.Inf(1))-x)) {
				t.Errorf("%v: %s %v there and back is %v", s, name, x, got)
			}
		}
	}
}

// The laws follow from each other: a box's area and volume from its sides, a
// mass from a density, Froude's time from length over speed, its energy from
// force times length and its power from force times speed.
func TestLaws(t *testing.T) {
	for _, text := range []string{"1:1", "1:5.5", "1:22.5", "16 mm/ft", "7/8 in/ft", "1:220"} {
		s := gauge.MustParseScale(text)
		n, fr := s.Ratio(), s.Froude()
		a, b, c := measure.Length(3200), measure.Length(1435), measure.Length(771)
		check := func(name string, got, want float64) {
			t.Helper()
			if !(math.Abs(got/want-1) <= 1e-14) {
				t.Errorf("%v: %s = %v, want %v", s, name, got, want)
			}
		}
		check("length", float64(s.ModelLength(a)), 3200/n)
		check("area", float64(s.ModelArea(a.By(b))), float64(s.ModelLength(a).By(s.ModelLength(b))))
		box := s.ModelLength(a).By(s.ModelLength(b)).By(s.ModelLength(c))
		check("volume", float64(s.ModelVolume(a.By(b).By(c))), float64(box))
		rho := 7850 * measure.KilogramPerCubicMetre
		check("mass", float64(s.ModelMass(rho.Of(a.By(b).By(c)))), float64(rho.Of(box)))
		check("linear speed", float64(s.ModelSpeed(60)), 60/n)
		check("Froude speed squared", math.Pow(float64(fr.ModelSpeed(60)), 2), 3600/n)
		check("time", fr.TimeFactor(), n/(60/float64(fr.ModelSpeed(60))))
		check("energy", fr.EnergyFactor(), float64(fr.FullForce(1))*float64(s.FullLength(1)))
		check("power", fr.PowerFactor(), float64(fr.FullForce(1))*float64(fr.FullSpeed(1)))
		check("weight", float64(fr.FullForce(1)), float64(s.FullMass(1)))
	}
}
