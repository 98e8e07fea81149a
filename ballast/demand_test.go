package ballast_test

import (
	"errors"
	"math"
	"testing"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/ballast/order"
	"example.org/fourfoot/gauge/measure"
)

// The order list holds what was taken off: grit, binder and sleepers reconcile
// with the bed.
func TestDemandsReconcile(t *testing.T) {
	line := oval(700)
	q := must(ballast.TakeOff(line, ballast.Bed{
		Ranges: []ballast.Range{
			{Name: "main", From: 0, To: 8000, Section: gardenSection(), Sleepers: 200, Bonded: true},
			{From: 8000, To: line.Length(), Section: gardenSection(), Sleepers: 150},
		},
		Loose: []ballast.Stretch{{Name: "points", From: 2000, To: 3000}},
	}))
	grit, mix := ballast.Material{Name: "grit", Loose: 1500, Bulking: 1.1, Waste: 0.05}, ballast.Mix{Grit: 6, Binder: 1}
	ds := append(must(q.Demands(grit)), must(q.BinderDemands(mix, grit))...)
	ds = append(ds, q.SleeperDemands("sleeper")...)
	o, err := order.New(ds, nil)
	if err != nil || len(o.Lines) != 3 || o.Reconcile() != nil {
		t.Fatalf("%+v, %v, want three items that add up", o, err)
	}
	need := must(grit.Need(q.Total.Net))
	// The waste of one in twenty is stated as a reserve, not hidden in the quantity.
	if !near(o.Lines[0].Quantity, need.Delivered.Kilograms()/1.05, 1e-12) || !near(o.Lines[0].Reserve, need.Delivered.Kilograms()*0.05/1.05, 1e-12) || len(o.Lines[0].From) != 2 || o.Lines[0].From[1].Range != "range 2" {
		t.Errorf("grit %+v, want %v", o.Lines[0], need.Delivered)
	}
	bond := must(mix.Bond(q.Ranges[0].Bonded, grit))
	if o.Lines[1].Item != "cement" || !near(o.Lines[1].Quantity, bond.BinderMass.Kilograms()/1.05, 1e-12) || !near(o.Lines[1].Quantity+o.Lines[1].Reserve, bond.BinderMass.Kilograms(), 1e-12) || q.Ranges[0].Bonded >= q.Ranges[0].Net {
		t.Errorf("cement %+v, want %v", o.Lines[1], bond.BinderMass)
	}
	if o.Lines[2].Quantity != 350 || q.Total.Count != 350 {
		t.Errorf("sleepers %+v, want 350", o.Lines[2])
	}
	if len(o.Cautions) < 3 {
		t.Errorf("cautions %q, want cement, lifting and dust", o.Cautions)
	}
	if _, err := q.Demands(ballast.Material{Loose: measure.Density(math.NaN())}); !errors.Is(err, measure.ErrInput) {
		t.Errorf("a bad material: %v", err)
	}
	if _, err := q.BinderDemands(ballast.Mix{}, grit); !errors.Is(err, measure.ErrInput) {
		t.Errorf("a bad mix: %v", err)
	}
}
