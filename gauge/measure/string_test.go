package measure_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func TestString(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(-1)
	tests := []struct {
		q    fmt.Stringer
		want string
	}{
		{measure.Length(1435.1), "1435.1 mm"},
		{3 * measure.Inch, "76.2 mm"}, // the product is 76.19999999999999
		{measure.Length(25321.44), "25.3214 m"},
		{measure.Length(0), "0 mm"},
		{measure.Length(math.Copysign(0, -1)), "0 mm"},
		{measure.Length(1.23e-6), "0.00000123 mm"},
		{measure.Length(1.23e-7), "1.23e-7 mm"},
		{measure.Length(-1e-17), "-1e-17 mm"},
		{measure.Length(1e-17), "1e-17 mm"},
		{measure.Length(-0.000123), "-0.000123 mm"},
		{measure.Length(nan), "NaN mm"},
		{measure.Length(inf), "-Inf mm"},
		{2 * measure.SquareFoot, "0.185806 m²"},
		{measure.Area(500), "500 mm²"},
		{measure.Volume(500), "0.5 cm³"},
		{25 * measure.Litre, "25 l"},
		{2 * measure.CubicMetre, "2 m³"},
		{measure.Mass(0.45), "450 g"},
		{25 * measure.Kilogram, "25 kg"},
		{12 * measure.Tonne, "12 t"},
		{measure.Density(1500), "1500 kg/m³"},
		{60 * measure.PoundPerYard, "29.7633 kg/m"},
		{measure.Speed(0.5), "0.5 m/s"},
		{measure.Force(12), "12 N"},
		{12 * measure.Kilonewton, "12 kN"},
		{measure.Stress(250), "250 MPa"},
		{200 * measure.Gigapascal, "200 GPa"},
		{22.5 * measure.Degree, "22.5°"},
		{measure.Angle(nan), "NaN°"},
		{measure.Curvature(1. / 1200), "R 1200 mm left"},
		{measure.Curvature(-1. / 30480), "R 30.48 m right"},
		{measure.Curvature(0), "straight"},
		{measure.Curvature(nan), "NaN /m"},
		{measure.Curvature(inf), "-Inf /m"},
		{measure.Curvature(5e-324), "4.94066e-321 /m"},
		{measure.OneIn(50), "1 in 50"},
		{measure.OneIn(-37.5), "1 in 37.5 down"},
		{measure.Gradient(0), "level"},
		{25 * measure.Percent, "25 %"},
		{measure.Gradient(nan), "NaN %"},
		{measure.Gradient(inf), "-Inf %"},
		{measure.Gradient(5e-324), "4.94066e-322 %"},
		{measure.Celsius(21.5), "21.5 °C"},
		{measure.Fahrenheit(70), "21.1111 °C"},
		{measure.TemperatureDifference(30), "30 K"},
		{18.7 * measure.MicroPerKelvin, "18.7e-6 /K"},
		{measure.Expansion(0), "0 /K"},
		{measure.Expansion(nan), "NaN /K"},
	}
	for _, tt := range tests {
		if got := tt.q.String(); got != tt.want {
			t.Errorf("%T %v: String = %q, want %q", tt.q, tt.q, got, tt.want)
		}
	}
}

func TestStringReadsBack(t *testing.T) {
	rnd := rand.New(rand.NewPCG(9, 10))
	for range 20000 {
		v := math.Float64frombits(rnd.Uint64())
		if rnd.IntN(2) == 0 {
			v = (rnd.Float64() - 0.5) * math.Pow(10, float64(rnd.IntN(24)-12))
		}
		if math.IsNaN(v) || math.IsInf(v, 0) {
			continue
		}
		checkShown(t, measure.ParseLength, measure.Length(v))
		checkShown(t, measure.ParseArea, measure.Area(v))
		checkShown(t, measure.ParseVolume, measure.Volume(v))
		checkShown(t, measure.ParseMass, measure.Mass(v))
		checkShown(t, measure.ParseDensity, measure.Density(v))
		checkShown(t, measure.ParseLinearMass, measure.LinearMass(v))
		checkShown(t, measure.ParseSpeed, measure.Speed(v))
		checkShown(t, measure.ParseForce, measure.Force(v))
		checkShown(t, measure.ParseStress, measure.Stress(v))
		checkShown(t, measure.ParseAngle, measure.Angle(v))
		checkShown(t, measure.ParseCurvature, measure.Curvature(v))
		checkShown(t, measure.ParseGradient, measure.Gradient(v))
		checkShown(t, measure.ParseTemperature, measure.Temperature(v))
		checkShown(t, measure.ParseTemperatureDifference, measure.TemperatureDifference(v))
		checkShown(t, measure.ParseExpansion, measure.Expansion(v))
	}
}
