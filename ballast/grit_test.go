package ballast_test

import (
	"errors"
	"math"
	"testing"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/gauge"
	"example.org/fourfoot/gauge/measure"
)

func TestGradings(t *testing.T) {
	all := ballast.Gradings()
	// EN 13450, seen: 31.5 to 50 mm; United Kingdom 28 to 50.
	if g := all[0]; g.Small != 31.5 || g.Large != 50 || g.Source.Basis != gauge.Seen {
		t.Errorf("%+v", g)
	}
	if g := all[1]; g.Small != 28 || g.Large != 50 {
		t.Errorf("%+v", g)
	}
	for _, g := range all {
		for i, s := range g.Sieves {
			if s.Least > s.Most || s.Most > 100 || s.Least < 0 {
				t.Errorf("%s, sieve %v: from %v to %v %%", g.Name, s.Size, s.Least, s.Most)
			}
			if i > 0 && (s.Size >= g.Sieves[i-1].Size || s.Most > g.Sieves[i-1].Most || s.Least > g.Sieves[i-1].Least) {
				t.Errorf("%s: a finer sieve passes more at %v", g.Name, s.Size)
			}
		}
	}
}

func TestAtScale(t *testing.T) {
	g := ballast.Gradings()[0]
	m := g.AtScale(gauge.MustParseScale("1:20"))
	if !near(float64(m.Large), 2.5, 1e-12) || !near(float64(m.Sieves[0].Size), 3.15, 1e-12) || m.Sieves[1].Least != 70 {
		t.Errorf("%+v", m)
	}
	if g.Sieves[0].Size != 63 || ballast.Gradings()[0].Sieves[0].Size != 63 {
		t.Error("the full-size grading was changed")
	}
}

func TestGritFit(t *testing.T) {
	g, s := ballast.Gradings()[0], gauge.MustParseScale("1:20")
	f, err := g.Fit(s, 1.575, 3)
	if err != nil || !near(f.SmallOver, 0, 1e-12) || !near(f.LargeOver, 0.2, 1e-12) || !near(float64(f.FullLarge), 60, 1e-12) {
		t.Errorf("%+v, %v, want small right, large a fifth over", f, err)
	}
	for name, v := range map[string][2]measure.Length{
		"backwards": {3, 2}, "zero": {0, 2}, "not a number": {1, measure.Length(math.NaN())},
	} {
		if _, err := g.Fit(s, v[0], v[1]); !errors.Is(err, measure.ErrInput) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := (ballast.Grading{}).Fit(s, 1, 2); !errors.Is(err, measure.ErrInput) {
		t.Errorf("empty grading: %v", err)
	}
}

func TestGrain(t *testing.T) {
	if ballast.Sharp.String() != "sharp" || ballast.Round.String() != "round" || ballast.Sharp.Effect() == ballast.Round.Effect() {
		t.Error("the forms of grain are mixed up")
	}
}
