package measure_test

import (
	"encoding"
	"encoding/csv"
	"math"
	"os"
	"reflect"
	"strconv"
	"testing"

	"example.org/fourfoot/gauge/measure"
)

// TestConversions reads published equalities: the two texts of a row must be
// the same quantity within the row's tolerance, 0 meaning to the last bit.
func TestConversions(t *testing.T) {
	f, err := os.Open("testdata/conversions.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment, r.FieldsPerRecord = '#', 5
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	read := func(quantity, text string) float64 {
		for _, q := range quantities() {
			p := reflect.ValueOf(q).Elem()
			if p.Type().Name() != quantity {
				continue
			}
			if err := q.(encoding.TextUnmarshaler).UnmarshalText([]byte(text)); err != nil {
				t.Errorf("%s %q: %v", quantity, text, err)
			}
			return p.Float()
		}
		t.Fatalf("no quantity %q", quantity)
		return 0
	}
	for _, row := range rows {
		within, err := strconv.ParseFloat(row[3], 64)
		if err != nil {
			t.Fatal(err)
		}
		a, b := read(row[0], row[1]), read(row[0], row[2])
		if !(math.Abs(a-b) <= within) {
			t.Errorf("%s %q = %v, %q = %v, differ by more than %v (%s)", row[0], row[1], a, row[2], b, within, row[4])
		}
	}
	if len(rows) < 40 {
		t.Errorf("only %d rows", len(rows))
	}
}

// Every constant is what its own name reads as.
func TestConstants(t *testing.T) {
	tests := []struct {
		constant float64
		parsed   float64
	}{
		{float64(measure.Centimetre), float64(measure.MustParseLength("1 cm"))},
		{float64(measure.Metre), float64(measure.MustParseLength("1 m"))},
		{float64(measure.Kilometre), float64(measure.MustParseLength("1 km"))},
		{float64(measure.Inch), float64(measure.MustParseLength("1 in"))},
		{float64(measure.Foot), float64(measure.MustParseLength("1 ft"))},
		{float64(measure.Yard), float64(measure.MustParseLength("1 yd"))},
		{float64(measure.Chain), float64(measure.MustParseLength("1 chain"))},
		{float64(measure.Mile), float64(measure.MustParseLength("1 mile"))},
		{float64(measure.SquareCentimetre), float64(measure.MustParseArea("1 cm²"))},
		{float64(measure.SquareMetre), float64(measure.MustParseArea("1 m²"))},
		{float64(measure.SquareInch), float64(measure.MustParseArea("1 sq in"))},
		{float64(measure.SquareFoot), float64(measure.MustParseArea("1 sq ft"))},
		{float64(measure.CubicCentimetre), float64(measure.MustParseVolume("1 cm³"))},
		{float64(measure.Litre), float64(measure.MustParseVolume("1 litre"))},
		{float64(measure.CubicMetre), float64(measure.MustParseVolume("1 m3"))},
		{float64(measure.CubicInch), float64(measure.MustParseVolume("1 cu in"))},
		{float64(measure.CubicFoot), float64(measure.MustParseVolume("1 cu ft"))},
		{float64(measure.CubicYard), float64(measure.MustParseVolume("1 cu yd"))},
		{float64(measure.Gram), float64(measure.MustParseMass("1 g"))},
		{float64(measure.Tonne), float64(measure.MustParseMass("1 t"))},
		{float64(measure.Pound), float64(measure.MustParseMass("1 lb"))},
		{float64(measure.Ounce), float64(measure.MustParseMass("1 oz"))},
		{float64(measure.Hundredweight), float64(measure.MustParseMass("1 cwt"))},
		{float64(measure.Ton), float64(measure.MustParseMass("1 ton"))},
		{float64(measure.PoundPerCubicFoot), float64(measure.MustParseDensity("1 lb/cu ft"))},
		{float64(measure.PoundPerYard), float64(measure.MustParseLinearMass("1 lb/yd"))},
		{float64(measure.KilometrePerHour), float64(measure.MustParseSpeed("1 km/h"))},
		{float64(measure.MilePerHour), float64(measure.MustParseSpeed("1 mph"))},
		{float64(measure.FootPerSecond), float64(measure.MustParseSpeed("1 ft/s"))},
		{float64(measure.Kilonewton), float64(measure.MustParseForce("1 kN"))},
		{float64(measure.KilogramForce), float64(measure.MustParseForce("1 kgf"))},
		{float64(measure.PoundForce), float64(measure.MustParseForce("1 lbf"))},
		{float64(measure.Gigapascal), float64(measure.MustParseStress("1 GPa"))},
		{float64(measure.Degree), float64(measure.MustParseAngle("1°"))},
		{float64(measure.Minute), float64(measure.MustParseAngle("1 min"))},
		{float64(measure.Second), float64(measure.MustParseAngle("1 sec"))},
		{float64(measure.PerMillimetre), float64(measure.MustParseCurvature("1 /mm"))},
		{float64(measure.Percent), float64(measure.MustParseGradient("1 %"))},
		{float64(measure.PerMille), float64(measure.MustParseGradient("1 ‰"))},
		{float64(measure.OneIn(37)), float64(measure.MustParseGradient("1 in 37"))},
		{float64(measure.Celsius(-7)), float64(measure.MustParseTemperature("-7 °C"))},
		{float64(measure.Fahrenheit(71)), float64(measure.MustParseTemperature("71 °F"))},
		{float64(measure.FahrenheitDegree), float64(measure.MustParseTemperatureDifference("1 °F"))},
		{float64(measure.PerFahrenheitDegree), float64(measure.MustParseExpansion("1 /°F"))},
		{float64(measure.MicroPerKelvin), float64(measure.MustParseExpansion("1 ppm/K"))},
	}
	for i, tt := range tests {
		if tt.constant != tt.parsed {
			t.Errorf("row %d: constant %v, parsed %v", i, tt.constant, tt.parsed)
		}
	}
}
