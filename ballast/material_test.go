package ballast_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/ballast/order"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/reference"
)

func TestTwoOfThree(t *testing.T) {
	// Loose 1417.5, rodded 1495 kg/m³: the one pair of published figures.
	table := map[string][]string{}
	for _, r := range reference.Rows(t, "testdata/bulk.csv")[1:] {
		table[r[0]] = r
	}
	loose := reference.Number(t, table["coarse aggregate loose"][1])
	rodded := reference.Number(t, table["coarse aggregate rodded"][1])
	want := ballast.Material{Loose: measure.Density(loose), Compacted: measure.Density(rodded), Bulking: rodded / loose}
	for name, m := range map[string]ballast.Material{
		"densities":             {Loose: want.Loose, Compacted: want.Compacted},
		"loose and bulking":     {Loose: want.Loose, Bulking: want.Bulking},
		"compacted and bulking": {Compacted: want.Compacted, Bulking: want.Bulking},
		"all three":             want,
	} {
		got, err := m.Complete()
		if err != nil || !near(float64(got.Loose), loose, 1e-12) || !near(float64(got.Compacted), rodded, 1e-12) || !near(got.Bulking, rodded/loose, 1e-12) {
			t.Errorf("%s: %+v, %v", name, got, err)
		}
	}
	for name, m := range map[string]ballast.Material{
		"one only":             {Loose: 1500},
		"none":                 {},
		"at odds":              {Loose: 1500, Compacted: 1600, Bulking: 1.2},
		"lighter in place":     {Loose: 1500, Compacted: 1400},
		"bulking inverted":     {Loose: 1500, Bulking: 0.9},
		"negative density":     {Loose: -1500, Bulking: 1.1},
		"g/cm³ for kg/m³":      {Loose: 1500e3, Bulking: 1.1},
		"not a number":         {Loose: measure.Density(math.NaN()), Bulking: 1.1},
		"more water than mass": {Loose: 1500, Bulking: 1.1, Moisture: 1.5},
		"waste in percent":     {Loose: 1500, Bulking: 1.1, Waste: 5},
	} {
		if _, err := m.Complete(); !errors.Is(err, measure.ErrInput) {
			t.Errorf("%s: %v, want an error", name, err)
		}
	}
}

func TestMassIsConserved(t *testing.T) {
	m := ballast.Material{Compacted: 1650, Bulking: 1.15, Moisture: 0.04}
	n, err := m.Need(100 * measure.Litre)
	if err != nil || !near(float64(n.Dry), 165, 1e-12) || !near(float64(n.Loose), float64(115*measure.Litre), 1e-12) || !near(float64(n.Delivered), 165*1.04, 1e-12) {
		t.Errorf("%+v, %v: want 165 kg dry, 115 l loose, 171.6 kg delivered", n, err)
	}
	m.Waste = 0.1
	w, err := m.Need(100 * measure.Litre)
	if err != nil || !near(float64(w.Dry), 181.5, 1e-12) || !near(float64(w.Waste), float64(11.5*measure.Litre), 1e-12) || w.Compacted != n.Compacted {
		t.Errorf("%+v, %v: want 181.5 kg dry, 11.5 l of it waste", w, err)
	}
	if len(n.Cautions) == 0 || !strings.Contains(strings.Join(n.Cautions, " "), "backs") {
		t.Error("bags without a caution about lifting")
	}
}

func TestBags(t *testing.T) {
	m := ballast.Material{Name: "grit", Loose: 1500, Bulking: 1.1, Moisture: 0.05}
	n := must(m.Need(100 * measure.Litre)) // 165 kg dry, 173.25 kg delivered, 110 l loose
	for _, c := range []struct {
		name string
		bag  ballast.Bag
		want int
	}{
		{"by mass, water counts", ballast.Bag{Mass: 17.2}, 11},
		{"by loose volume", ballast.Bag{Volume: 10 * measure.Litre}, 11},
		{"by loose volume, just short", ballast.Bag{Volume: 9.99 * measure.Litre}, 12},
	} {
		p, err := n.Buy(c.bag)
		if err != nil || p.Count != c.want {
			t.Errorf("%s: %d bags, %v, want %d", c.name, p.Count, err, c.want)
		}
	}
	p, err := n.Buy(ballast.Bag{Name: "bag", Mass: 25, Price: cents(600)}, ballast.Bag{Name: "bulk", Volume: 100 * measure.Litre, Price: cents(3000)})
	if err != nil || p.Cost != cents(3600) || p.Count != 2 { // 157.5 kg in the bulk bag, and one bag
		t.Errorf("mixed: %+v, %v, want 36.00 EUR for two", p, err)
	}
	for name, b := range map[string]ballast.Bag{"neither": {}, "both": {Mass: 1, Volume: 1}, "negative": {Mass: -1}} {
		if _, err := n.Buy(b); !errors.Is(err, measure.ErrInput) {
			t.Errorf("%s: %v", name, err)
		}
	}
	// How far a bag goes, and back: so many bags for that length.
	reach, err := ballast.Bag{Mass: 25}.Reach(m, 3000)
	if back := must(m.Need(measure.Area(3000).By(reach))); err != nil || !near(float64(back.Delivered), 25, 1e-12) {
		t.Errorf("a bag reaches %v, %v, which takes %v", reach, err, back.Delivered)
	}
}

func TestBond(t *testing.T) {
	m := ballast.Material{Loose: 1500, Bulking: 1.1, Moisture: 0.02}
	b, err := ballast.Mix{Grit: 6, Binder: 1}.Bond(60*measure.Litre, m)
	// 66 l loose and 99 kg of grit, 11 l and 15.84 kg of cement, 7.92 kg of water less 1.98 in the grit.
	if err != nil || !near(b.Binder.Litres(), 11, 1e-12) || !near(float64(b.BinderMass), 15.84, 1e-12) || !near(float64(b.Water), 7.92-1.98, 1e-12) {
		t.Errorf("%+v, %v", b, err)
	}
	if !strings.Contains(strings.Join(b.Cautions, " "), "cement burns") {
		t.Error("cement without its caution")
	}
	r, err := ballast.Mix{Grit: 20, Binder: 1, Kind: ballast.Resin}.Bond(60*measure.Litre, m)
	if err != nil || r.Water != 0 || !strings.Contains(strings.Join(r.Cautions, " "), "Resins") || !near(float64(r.BinderMass), 3.3*1.1, 1e-12) {
		t.Errorf("resin: %+v, %v", r, err)
	}
	wet := m
	wet.Moisture = 0.2
	if b, err := (ballast.Mix{Grit: 6, Binder: 1}).Bond(60*measure.Litre, wet); err != nil || b.Water != 0 {
		t.Errorf("soaked grit: %v of water, %v, want none", b.Water, err)
	}
	if b, err := (ballast.Mix{Grit: 3, Binder: 1}).Bond(60*measure.Litre, m); err != nil {
		t.Errorf("3:1: %+v, %v", b, err)
	}
	for name, x := range map[string]ballast.Mix{
		"mortar": {Grit: 2.6, Binder: 1}, "no grit": {Binder: 1}, "no binder": {Grit: 1}, "water by volume": {Grit: 6, Binder: 1, Water: 20},
		"unknown binder": {Grit: 6, Binder: 1, Kind: 7},
	} {
		if _, err := x.Bond(60*measure.Litre, m); !errors.Is(err, measure.ErrInput) {
			t.Errorf("%s: %v, want an error", name, err)
		}
	}
}

func TestAdhesive(t *testing.T) {
	n, err := ballast.Adhesive{Coverage: 4, Waste: 0.1}.Need(2 * measure.SquareMetre)
	if err != nil || !near(n.Net.Litres(), 0.5, 1e-12) || !near(n.Waste.Litres(), 0.05, 1e-12) || !near(n.Volume.Litres(), 0.55, 1e-12) || len(n.Cautions) == 0 {
		t.Errorf("%+v, %v, want 0.5 l, 0.05 l of waste, 0.55 l in all and a caution", n, err)
	}
	if n, err := (ballast.Adhesive{Coverage: 4}).Need(2 * measure.SquareMetre); err != nil || n.Waste != 0 || n.Volume != n.Net {
		t.Errorf("without waste: %+v, %v", n, err)
	}
	for name, a := range map[string]ballast.Adhesive{"no coverage": {}, "waste beyond all": {Coverage: 4, Waste: 1.1}, "too much to count": {Coverage: 1e-300}} {
		if n, err := a.Need(1e12); err == nil || n.Volume != 0 {
			t.Errorf("%s: %+v, %v", name, n, err)
		}
	}
	if _, err := (ballast.Adhesive{}).Need(1); !errors.Is(err, measure.ErrInput) {
		t.Errorf("no coverage: %v", err)
	}
}

// Cement's default density lies within the published range.
func TestCementDensity(t *testing.T) {
	for _, r := range reference.Rows(t, "testdata/bulk.csv")[1:] {
		if r[0] != "cement" {
			continue
		}
		b := must(ballast.Mix{Grit: 6, Binder: 1}.Bond(measure.CubicMetre, ballast.Material{Loose: 1500, Bulking: 1.1}))
		if d := float64(b.BinderMass) / b.Binder.CubicMetres(); d < reference.Number(t, r[1])-1e-9 || d > reference.Number(t, r[2])+1e-9 {
			t.Errorf("cement weighs %v kg/m³, published %s to %s", d, r[1], r[2])
		}
	}
}

func cents(n int64) order.Money {
	return order.Money{Minor: n, Currency: order.Currency{Text: "EUR", Places: 2}}
}
