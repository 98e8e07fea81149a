package trackbed_test

import (
	"math"
	"strings"
	"testing"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/ballast/trackbed"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// The solids, the water and the air of a batch fill its volume exactly, and
// masses stand as the parts do.
func TestConcreteFillsItsVolume(t *testing.T) {
	for _, c := range []trackbed.Concrete{
		{Cement: 1, Sand: 2, Stone: 4}, {Cement: 1, Sand: 3}, {Cement: 1, Sand: 1.5, Stone: 3, Water: 0.4, Air: 0.05},
	} {
		b, err := c.For(measure.CubicMetre, 0)
		if err != nil {
			t.Fatal(err)
		}
		air := c.Air
		if air == 0 {
			air = 0.02
		}
		v := float64(b.Cement)/3150 + float64(b.Sand)/2650 + float64(b.Stone)/2650 + float64(b.Water)/1000 + air
		if !near(v, 1, 1e-12) {
			t.Errorf("%+v fills %v m³, want 1", c, v)
		}
		if got, want := float64(b.Sand)/1690/(float64(b.Cement)/1440), c.Sand/c.Cement; !near(got, want, 1e-12) {
			t.Errorf("%+v: %v parts of sand to cement, want %v", c, got, want)
		}
	}
	// Dry parts shrink to about two thirds: the usual factor is 1.5 to 1.57 (common practice, no source).
	b := must(trackbed.Concrete{Cement: 1, Sand: 2, Stone: 4}.For(measure.CubicMetre, 0.1))
	if b.Yield < 1.45 || b.Yield > 1.6 {
		t.Errorf("1:2:4 takes %v of dry parts to one of concrete", b.Yield)
	}
	if !near(float64(b.DryVolume), b.Yield*1.1*1e9, 1e-12) {
		t.Errorf("waste is not in: %v", b.DryVolume)
	}
	ds := b.Demands("strip")
	if len(ds) != 3 || ds[0].Item != "cement" || !near(ds[0].Quantity+ds[0].Reserve, float64(b.Cement), 1e-12) || !strings.Contains(strings.Join(ds[0].Cautions, ""), "cement burns") {
		t.Errorf("demands %+v", ds)
	}
}

func TestConcreteRefuses(t *testing.T) {
	for name, c := range map[string]trackbed.Concrete{
		"parts of cement":        {Sand: 1},
		"parts of sand":          {Cement: 1, Sand: math.Inf(1)},
		"water over cement":      {Cement: 1, Water: 5},
		"must be below":          {Cement: 1, SandBulk: 2700},
		"bulk density of cement": {Cement: 1, CementBulk: -1},
		"air":                    {Cement: 1, Air: 2},
	} {
		_, err := c.For(1, 0)
		refused(t, name, err, measure.ErrInput, name)
	}
	_, err := trackbed.Concrete{Cement: 1}.For(-1, 2)
	refused(t, "volume", err, measure.ErrInput, "volume")
	refused(t, "waste", err, measure.ErrInput, "waste")
}

func TestStrip(t *testing.T) {
	s := trackbed.Strip{Width: 200, Thickness: 75, Fall: measure.OneIn(40), Bars: 2, Cover: 40, BarStock: 6000, BarLap: 300, Joint: 2000}
	p, err := s.Along(open(straight(10500)), ballast.Stretch{To: 10500})
	if err != nil {
		t.Fatal(err)
	}
	if want := 200 * 77.5 * 10500.0; !near(float64(p.Volume), want, 1e-12) {
		t.Errorf("volume %v, want %v", float64(p.Volume), want)
	}
	if p.FallBy != 5 || len(p.Joints) != 5 || p.Panel != 1750 || p.Joints[0] != 1750 || p.Shutters != 21000 || !near(float64(p.Top), 200*10500, 1e-12) {
		t.Errorf("%+v, want a fall of 5 mm, 6 panels of 1750 mm, 21 m of shutters", p)
	}
	// A line of bars 10.5 m long: two of 6 m lapped by 300 reach 11.7.
	if p.BarPieces != 4 || p.BarLength != 2*(10500+300) {
		t.Errorf("%d bars, %v in all, want 4 and 21.6 m", p.BarPieces, p.BarLength)
	}
	s.Joint = 0
	if p := must(s.Along(open(straight(10500)), ballast.Stretch{To: 10500})); p.Panel > 30*75 || len(p.Joints) != 4 {
		t.Errorf("by default joints lie %v apart, want at most %v", p.Panel, 30*75)
	}
}

// On a ring, against rings integrated in closed form: with the fall to the
// right (outside a bend to the left) the top is z = T + f·(y + w/2), and the
// volume is 2π·∫(R - y)·z dy.
func TestStripOnARing(t *testing.T) {
	const R, w, th, f, off = 2000.0, 300.0, 80.0, 0.05, 100.0
	for _, fall := range []float64{f, -f} {
		line := ring(R)
		p, err := trackbed.Strip{Width: w, Thickness: th, Fall: measure.Gradient(fall), Offset: off, Bars: 1, BarStock: 3000, BarLap: 200}.Along(line, all(line))
		want, n := 0.0, 200000
		for i := range n { // middle of thin rings
			y := -w/2 + w*(float64(i)+0.5)/float64(n)
			z := th + f*(w/2+math.Copysign(y, y*fall))
			want += 2 * math.Pi * (R - off - y) * z * w / float64(n)
		}
		if err != nil || !near(float64(p.Volume), want, 1e-9) {
			t.Errorf("fall %v: %v, %v, want %v", fall, float64(p.Volume), err, want)
		}
		if k := len(p.Joints); k == 0 || !near(float64(p.Panel)*float64(k), float64(line.Length()), 1e-12) {
			t.Errorf("a ring has as many joints as panels, got %d of %v", k, p.Panel)
		}
		// One closed line of bars of 2π·1900: each piece gives its length less a lap.
		if want := int(math.Ceil(2 * math.Pi * 1900 / 2800)); p.BarPieces != want || !near(float64(p.BarLength), 2*math.Pi*1900+200*float64(want), 1e-12) {
			t.Errorf("%d bars, %v, want %d", p.BarPieces, p.BarLength, want)
		}
	}
}

func TestStripRefuses(t *testing.T) {
	line := open(straight(1000), arc(250, 1, curve.Right))
	for text, s := range map[string]trackbed.Strip{
		"strip width":         {Thickness: 75},
		"strip thickness":     {Width: 100, Thickness: -1},
		"fall across":         {Width: 100, Thickness: 75, Fall: 1},
		"bars -1":             {Width: 100, Thickness: 75, Bars: -1},
		"lap of the bars":     {Width: 100, Thickness: 75, BarStock: 10, BarLap: 10},
		"cover":               {Width: 100, Thickness: 75, Bars: 2, Cover: 50},
		"centre of the curve": {Width: 600, Thickness: 75},
		"finite":              {Width: 100, Thickness: inf},
	} {
		_, err := s.Along(line, all(line))
		refused(t, text, err, measure.ErrInput, text)
	}
	_, err := trackbed.Strip{Width: 100, Thickness: 75, Joint: 0.001}.Along(line, all(line))
	refused(t, "joints", err, measure.ErrLimit, "joints")
	_, err = trackbed.Strip{Width: 100, Thickness: 75, BarStock: 0.001}.Along(line, all(line))
	refused(t, "bars", err, measure.ErrLimit, "bars")
}

// Waste stands in the list as a reserve; both together are the batch.
func TestConcreteWasteIsReserve(t *testing.T) {
	b := must(trackbed.Concrete{Cement: 1, Sand: 2, Stone: 4}.For(100*measure.Litre, 0.1))
	plain := must(trackbed.Concrete{Cement: 1, Sand: 2, Stone: 4}.For(100*measure.Litre, 0))
	for i, m := range []measure.Mass{plain.Cement, plain.Sand, plain.Stone} {
		d := b.Demands("strip")[i]
		if !near(d.Quantity, m.Kilograms(), 1e-12) || !near(d.Reserve, 0.1*m.Kilograms(), 1e-12) {
			t.Errorf("%+v, want %v and a tenth of it in reserve", d, m)
		}
	}
}
