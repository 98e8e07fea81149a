package measure_test

import (
	"encoding"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"example.org/fourfoot/gauge/measure"
)

// quantities returns a pointer to a new value of each quantity.
func quantities() []any {
	return []any{
		new(measure.Length), new(measure.Area), new(measure.Volume), new(measure.Mass), new(measure.Density),
		new(measure.LinearMass), new(measure.Speed), new(measure.Force), new(measure.Stress), new(measure.Angle),
		new(measure.Curvature), new(measure.Gradient), new(measure.Temperature),
		new(measure.TemperatureDifference), new(measure.Expansion),
	}
}

// check marshals v as the quantity that q points to and reads it back.
func check(t *testing.T, q any, v float64) {
	t.Helper()
	p := reflect.ValueOf(q).Elem()
	p.SetFloat(v)
	text, err := p.Interface().(encoding.TextMarshaler).MarshalText()
	if err != nil {
		t.Errorf("%v %v: MarshalText: %v", p.Type(), v, err)
		return
	}
	p.SetFloat(math.NaN())
	if err := q.(encoding.TextUnmarshaler).UnmarshalText(text); err != nil {
		t.Errorf("%v %v: UnmarshalText(%q): %v", p.Type(), v, text, err)
		return
	}
	if got := p.Float(); math.Float64bits(got) != math.Float64bits(v) {
		t.Errorf("%v: %v (%x) as %q reads back as %v (%x)", p.Type(), v, math.Float64bits(v), text, got, math.Float64bits(got))
	}
}

func TestRoundTripRandomBits(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	for _, q := range quantities() {
		for _, v := range []float64{
			0, math.Copysign(0, -1), 1, -1, 5e-324, -5e-324, 0x1p-1022, math.MaxFloat64, -math.MaxFloat64,
			1e-300, 1e300, 1e15, 1e16, 1e17, 1e21, 1e22, 1e23, 0.1, 1. / 3, 25.4, 1 << 53, 1<<53 + 2, -160. / 9, -273.15,
		} {
			check(t, q, v)
		}
		for range 3000 {
			check(t, q, (rnd.Float64()-0.5)*math.Pow(10, float64(rnd.IntN(20)-10)))
			v := math.Float64frombits(rnd.Uint64())
			if math.IsNaN(v) || math.IsInf(v, 0) {
				continue
			}
			check(t, q, v)
		}
	}
}
