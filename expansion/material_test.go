package expansion_test

import (
	"errors"
	"testing"

	"example.org/fourfoot/expansion"
	"example.org/fourfoot/gauge/measure"
)

// Every value lies in its own range and every property names its source.
func TestMaterials(t *testing.T) {
	seen := map[string]bool{}
	for _, m := range append(expansion.RailMaterials(), expansion.BaseMaterials()...) {
		if err := m.Validate(); err != nil {
			t.Error(err)
		}
		if seen[m.Name] {
			t.Errorf("%s stands twice", m.Name)
		}
		seen[m.Name] = true
		if m.Expansion.Source == "" || m.Modulus.Source == "" || m.Density.Source == "" {
			t.Errorf("%s: a source is missing", m.Name)
		}
		if m.Expansion.High == 0 || m.Modulus.High == 0 || m.Density.High == 0 {
			t.Errorf("%s: a range is missing", m.Name)
		}
		if got, err := expansion.FindMaterial(m.Name); err != nil || got != m {
			t.Errorf("%s is not found again: %v", m.Name, err)
		}
	}
	for _, name := range []string{"brass", "nickel silver", "steel", "stainless steel", "aluminium", "bronze", "ABS", "acetal", "rigid PVC", "softwood along the grain", "concrete", "felt on board"} {
		if !seen[name] {
			t.Errorf("no %s", name)
		}
	}
}

// The ranges over the engineering tables compared, 1e-6/K.
func TestExpansionRanges(t *testing.T) {
	for name, r := range map[string][2]float64{
		"brass": {18, 20.9}, "nickel silver": {16.2, 18.4}, "stainless steel": {16.2, 18.4}, "aluminium": {21, 24}, "bronze": {17.5, 18},
		"ABS": {72, 108}, "acetal": {85, 110}, "rigid PVC": {52, 80}, "softwood along the grain": {3, 5}, "softwood across the grain": {27, 58}, "concrete": {9.8, 14.5},
	} {
		m, err := expansion.FindMaterial(name)
		if err != nil {
			t.Error(err)
			continue
		}
		near(t, name+": low", m.Expansion.Low.PerKelvins()*1e6, r[0], 1e-9)
		near(t, name+": high", m.Expansion.High.PerKelvins()*1e6, r[1], 1e-9)
	}
}

func TestGivenMaterial(t *testing.T) {
	m := expansion.Material{Name: "my ladder", Expansion: expansion.Given(75 * measure.MicroPerKelvin)}
	if err := m.Validate(); err != nil {
		t.Error(err)
	}
	m.Expansion.Value = -1e-6
	m.Density = expansion.Property[measure.Density]{Value: 10, Low: 20, High: 30}
	if err := m.Validate(); !errors.Is(err, measure.ErrInput) {
		t.Errorf("a negative coefficient and a value outside its range: %v", err)
	}
	if _, err := expansion.FindMaterial("unobtainium"); !errors.Is(err, measure.ErrInput) {
		t.Errorf("an unknown name: %v", err)
	}
}
