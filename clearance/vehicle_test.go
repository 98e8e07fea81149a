package clearance_test

import (
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/gauge/measure"
)

func TestVehicleValidate(t *testing.T) {
	good := func() clearance.Vehicle {
		v := clearance.Bogie("coach", 400, 80, box(600, 90))
		v.Bodies[0].Bands[0].Name = "body"
		return v
	}
	if err := good().Validate(); err != nil {
		t.Fatal(err)
	}
	nan := measure.Length(math.NaN())
	for _, c := range []struct {
		name string
		mod  func(v *clearance.Vehicle)
		kind error
		want []string // in the message
	}{
		{"no body", func(v *clearance.Vehicle) { v.Bodies = nil }, measure.ErrInput, []string{"bodies"}},
		{"carriers", func(v *clearance.Vehicle) { v.Carriers = v.Carriers[:1] }, measure.ErrInput, []string{"carriers"}},
		{"pivots outside", func(v *clearance.Vehicle) { v.Bodies[0].Pivots = 700 }, measure.ErrInput, []string{"rear pivot", "front pivot", "within the body", "-350"}},
		{"pivots close", func(v *clearance.Vehicle) { v.Bodies[0].Pivots = 5; v.Carriers = make([]clearance.Carrier, 2) }, measure.ErrInput, []string{"pivot spacing", "100th"}},
		{"pivots zero", func(v *clearance.Vehicle) { v.Bodies[0].Pivots = 0 }, measure.ErrInput, []string{"pivot spacing"}},
		{"NaN and wheelbase", func(v *clearance.Vehicle) { v.Bodies[0].Pivots = nan; v.Carriers[0].Wheelbase = -1 }, measure.ErrInput, []string{"pivot spacing", "carrier 1: wheelbase"}},
		{"bogies overlap", func(v *clearance.Vehicle) { v.Bodies[0].Pivots = 70 }, measure.ErrInput, []string{"same rails"}},
		{"pin on an axle", func(v *clearance.Vehicle) { v.Carriers[1] = clearance.Carrier{Pin: 3} }, measure.ErrInput, []string{"carrier 2: pin"}},
		{"apart at an end", func(v *clearance.Vehicle) { v.Carriers[1].Apart = 10 }, measure.ErrInput, []string{"pivots apart"}},
		{"no band", func(v *clearance.Vehicle) { v.Bodies[0].Bands = nil }, measure.ErrInput, []string{"bands"}},
		{"upside down", func(v *clearance.Vehicle) { v.Bodies[0].Bands[0].Top = -1 }, measure.ErrInput, []string{"coach: body: top", "above the bottom"}},
		{"two corners", func(v *clearance.Vehicle) { v.Bodies[0].Bands[0].Outline = v.Bodies[0].Bands[0].Outline[:2] }, measure.ErrInput, []string{"at least 3 corners"}},
		{"crossed", func(v *clearance.Vehicle) {
			v.Bodies[0].Bands[0].Outline = clearance.Outline{{-300, -40}, {300, 40}, {300, -40}, {-300, 40}}
		}, measure.ErrInput, []string{"cross"}},
		{"doubled corner", func(v *clearance.Vehicle) {
			o := v.Bodies[0].Bands[0].Outline
			v.Bodies[0].Bands[0].Outline = append(o, o[3])
		}, measure.ErrInput, []string{"same as the next"}},
		{"flat", func(v *clearance.Vehicle) {
			v.Bodies[0].Bands[0].Outline = clearance.Outline{{-300, 0}, {300, 0}, {0, 0}}
		}, measure.ErrInput, []string{"outline"}},
		{"too many corners", func(v *clearance.Vehicle) {
			o := make(clearance.Outline, clearance.MaxOutline+1)
			for i := range o {
				s, c := math.Sincos(2 * math.Pi * float64(i) / float64(len(o)))
				o[i] = clearance.Point{Along: measure.Length(300 * c), Across: measure.Length(40 * s)}
			}
			v.Bodies[0].Bands[0].Outline = o
		}, measure.ErrLimit, []string{"at most 500"}},
		{"inner axle", func(v *clearance.Vehicle) { v.Bodies[0].Inner = []clearance.Axle{{Along: 250, Play: -1}} }, measure.ErrInput, []string{"inner axle 1", "between the outer axles", "play"}},
		{"hinge", func(v *clearance.Vehicle) { v.Bodies[0].Trucks = []clearance.Truck{{Hinge: 400, Bar: 0}} }, measure.ErrInput, []string{"hinge", "bar"}},
	} {
		v := good()
		c.mod(&v)
		err := v.Validate()
		if !errors.Is(err, c.kind) {
			t.Errorf("%s: %v, want %v", c.name, err, c.kind)
			continue
		}
		for _, w := range c.want {
			if !strings.Contains(err.Error(), w) {
				t.Errorf("%s: %q does not say %q", c.name, err, w)
			}
		}
	}
}

// Two bodies on a bogie between them, the pivot past the ends of both.
func TestVehicleArticulated(t *testing.T) {
	bogie := clearance.Carrier{Wheelbase: 80}
	half := clearance.Body{Pivots: 300, Bands: []clearance.Band{{Top: 100, Outline: clearance.Box(300, 90).Moved(-10)}}}
	other := clearance.Body{Pivots: 300, Bands: []clearance.Band{{Top: 100, Outline: clearance.Box(300, 90).Moved(10)}}}
	v := clearance.Vehicle{Name: "railcar", Bodies: []clearance.Body{half, other}, Carriers: []clearance.Carrier{bogie, bogie, bogie}}
	if err := v.Validate(); err != nil {
		t.Errorf("shared pivot between the bodies: %v", err)
	}
	v.Bodies[0], v.Bodies[1] = other, half // now the outer pivots are outside
	err := v.Validate()
	if !errors.Is(err, measure.ErrInput) || !strings.Contains(err.Error(), "body 1: rear pivot") || !strings.Contains(err.Error(), "body 2: front pivot") {
		t.Errorf("outer pivots outside: %v", err)
	}
}

func TestTurned(t *testing.T) {
	v := clearance.Bogie("a", 400, 80, clearance.Band{Top: 1, Outline: clearance.Tapered(600, 90, 0, 50, 40)})
	v.Carriers[0].Pin = 5
	v.Bodies[0].Trucks = []clearance.Truck{{Hinge: 100, Bar: 150}}
	w := v.Turned()
	if w.Carriers[1].Pin != -5 || w.Carriers[0].Pin != 0 || w.Bodies[0].Trucks[0].Bar != -150 {
		t.Errorf("Turned = %+v", w)
	}
	if back := w.Turned(); !slices.Equal(back.Bodies[0].Bands[0].Outline, v.Bodies[0].Bands[0].Outline) {
		t.Errorf("turned twice: %v, want %v", back.Bodies[0].Bands[0].Outline, v.Bodies[0].Bands[0].Outline)
	}
	if v.Bodies[0].Bands[0].Outline[0].Along != -300 {
		t.Error("Turned changed the vehicle it was given")
	}
}
