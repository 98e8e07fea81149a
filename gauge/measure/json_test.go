package measure_test

import (
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
