package measure_test

import (
	"encoding"
	"encoding/json"
	"math"
	"reflect"
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func TestJSON(t *testing.T) {
	type plan struct {
		Radius measure.Length
		Area   measure.Area
		Stone  measure.Volume
		Bag    measure.Mass
		Bulk   measure.Density
		Rail   measure.LinearMass
		Speed  measure.Speed
		Pull   measure.Force
		E      measure.Stress
		Turn   measure.Angle
		Bend   measure.Curvature
		Grade  measure.Gradient
		Cold   measure.Temperature
		Rise   measure.TemperatureDifference
		Brass  measure.Expansion
	}
	in := `{"Radius":"5ft","Area":"2 sq ft","Stone":"11 cu ft","Bag":"25 kg","Bulk":"95 lb/cu ft","Rail":"60 lb/yd",` +
		`"Speed":"30 km/h","Pull":"2 lbf","E":"200 GPa","Turn":"22.5°","Bend":"R 5ft right","Grade":"1 in 60 down",` +
		`"Cold":"20 °F","Rise":"100 °F","Brass":"18.7×10⁻⁶ per K"}`
	want := `{"Radius":"1524 mm","Area":"185806.08 mm²","Stone":"11 cu ft","Bag":"25 kg","Bulk":"95 lb/cu ft","Rail":"60 lb/yd",` +
		`"Speed":"30 km/h","Pull":"2 lbf","E":"200000 MPa","Turn":"22.5°","Bend":"R 1524 mm right","Grade":"1 in 60 down",` +
		`"Cold":"20 °F","Rise":"100 °F","Brass":"18.7e-6 /K"}`
	var p plan
	if err := json.Unmarshal([]byte(in), &p); err != nil {
		t.Fatal(err)
	}
	out, err := json.Marshal(p)
	if err != nil || string(out) != want {
		t.Errorf("Marshal = %s, %v\nwant %s", out, err, want)
	}
	var q plan
	if err := json.Unmarshal(out, &q); err != nil || q != p {
		t.Errorf("read back: %+v, %v\nwant %+v", q, err, p)
	}
	for _, bad := range []string{`{"Radius":1200}`, `{"Radius":"NaN mm"}`, `{"Radius":"+Inf mm"}`, `{"Grade":0.02}`} {
		if err := json.Unmarshal([]byte(bad), &q); err == nil {
			t.Errorf("Unmarshal(%s) was taken", bad)
		}
	}
	if q != p {
		t.Error("a refused text changed the value")
	}
}

func TestNicestText(t *testing.T) {
	for _, tt := range []struct {
		q    encoding.TextMarshaler
		want string
	}{
		{measure.Length(1435.1), "1435.1 mm"},
		{measure.Length(100. / 3), "33.333333333333336 mm"},
		{measure.MustParseLength("1/128 in"), "0.1984375 mm"},
		{measure.OneIn(50), "1 in 50"},
		{measure.MustParseGradient("-1 in 37.123456789"), "1 in 37.123456789 down"},
		{measure.MustParseGradient("1 in 37.1234567890123"), "2.6937146658604735 %"},
		{measure.OneIn(31.25), "1 in 31.25"},
		{measure.OneIn(78.125), "1.28 %"},
		{measure.MustParseCurvature("R 1.2345678901234 m left"), "0.8100000072900373 /m"},
		{3 * measure.Percent, "3 %"},
		{measure.Gradient(1. / 3), "33.33333333333333 %"},
		{measure.Gradient(math.Copysign(0, -1)), "-0 %"},
		{measure.Gradient(0), "level"},
		{measure.Curvature(0), "straight"},
		{measure.MustParseCurvature("R 1.2345678901 m left"), "R 1234.5678901 mm left"},
		{measure.Curvature(math.Pi), "3141.592653589793 /m"},
		{measure.Angle(math.Pi / 2), "90°"},
		{measure.Angle(0.2), "0.2 rad"},
		{measure.Fahrenheit(71), "71 °F"},
		{measure.Celsius(21.5), "21.5 °C"},
		{6.8e-6 * measure.PerFahrenheitDegree, "12.24e-6 /K"},
		{measure.MustParseSpeed("60 mph"), "26.8224 m/s"},
		{measure.MustParseStress("36000 psi"), "36000 psi"},
	} {
		got, err := tt.q.MarshalText()
		if err != nil || string(got) != tt.want {
			t.Errorf("%T %v: MarshalText = %q, %v, want %q", tt.q, tt.q, got, err, tt.want)
		}
	}
}

func TestMarshalRefusesWhatIsNotFinite(t *testing.T) {
	for _, q := range quantities() {
		for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
			reflect.ValueOf(q).Elem().SetFloat(v)
			if out, err := json.Marshal(q); err == nil {
				t.Errorf("%T: Marshal(%v) = %s", q, v, out)
			}
		}
	}
}
