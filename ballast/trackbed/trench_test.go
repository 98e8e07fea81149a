package trackbed_test

import (
	"math"
	"testing"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/ballast/trackbed"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

func TestTrench(t *testing.T) {
	tr := trackbed.Trench{Width: 200, Depth: 150, Slope: 0.5, Bulking: 1.3, Layers: []trackbed.Layer{{"sub-base", 100}, {"sand", 50}}}
	g, err := tr.Along(open(straight(10000)), ballast.Stretch{Name: "a", To: 10000})
	if err != nil {
		t.Fatal(err)
	}
	// 200 wide at the bottom, 350 at the top; 300 where the sub-base ends.
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"excavated", float64(g.Excavated), (200 + 350) / 2.0 * 150 * 10000},
		{"spoil", float64(g.Spoil), (200 + 350) / 2.0 * 150 * 10000 * 1.3},
		{"sub-base", float64(g.Layers[0]), (200 + 300) / 2.0 * 100 * 10000},
		{"sand", float64(g.Layers[1]), (300 + 350) / 2.0 * 50 * 10000},
		{"bottom", float64(g.Bottom), 200 * 10000},
		{"girth", float64(g.Girth), 200 + 2*math.Hypot(150, 75)},
		{"lining", float64(g.Lining), (200 + 2*math.Hypot(150, 75)) * 10000},
	} {
		if !near(c.got, c.want, 1e-12) {
			t.Errorf("%s: %v, want %v", c.name, c.got, c.want)
		}
	}
	if len(g.Cautions) == 0 {
		t.Error("digging without its caution")
	}
}

// A trench beside a ring is as long as the circle of its middle.
func TestTrenchPappus(t *testing.T) {
	line := ring(2500)
	tr := trackbed.Trench{Width: 200, Depth: 100, Offset: -300, Layers: []trackbed.Layer{{"all", 100}}}
	g, err := tr.Along(line, all(line))
	if want := 200 * 100 * 2 * math.Pi * 2800; err != nil || !near(float64(g.Excavated), want, 1e-12) || g.Layers[0] != g.Excavated {
		t.Errorf("%v, %v, want %v", float64(g.Excavated), err, want)
	}
	// Cut anywhere, the two parts make the whole.
	a := must(tr.Along(line, ballast.Stretch{From: 1000, To: 9000}))
	b := must(tr.Along(line, ballast.Stretch{From: 9000, To: 1000}))
	if !near(float64(a.Excavated+b.Excavated), float64(g.Excavated), 1e-12) {
		t.Errorf("parts hold %v, the whole %v", float64(a.Excavated+b.Excavated), float64(g.Excavated))
	}
}

func TestTrenchRefuses(t *testing.T) {
	line := open(straight(1000), arc(250, 1, curve.Right))
	good := trackbed.Trench{Width: 200, Depth: 150}
	for name, c := range map[string]struct {
		text   string
		change func(*trackbed.Trench)
	}{
		"no width":         {"trench width", func(t *trackbed.Trench) { t.Width = 0 }},
		"not a number":     {"trench depth", func(t *trackbed.Trench) { t.Depth = nan }},
		"overfull":         {"no thicker", func(t *trackbed.Trench) { t.Layers = []trackbed.Layer{{"a", 151}} }},
		"layer of nothing": {"layer 1, a", func(t *trackbed.Trench) { t.Layers = []trackbed.Layer{{"a", 0}} }},
		"negative slope":   {"slope", func(t *trackbed.Trench) { t.Slope = -1 }},
		"bulking inverted": {"bulking", func(t *trackbed.Trench) { t.Bulking = 0.8 }},
		"past the centre":  {"centre of the curve", func(t *trackbed.Trench) { t.Offset = -200 }},
	} {
		tr := good
		c.change(&tr)
		_, err := tr.Along(line, all(line))
		refused(t, name, err, measure.ErrInput, c.text)
	}
	_, err := good.Along(line, ballast.Stretch{From: 0, To: 9000})
	refused(t, "past the end", err, measure.ErrInput, "leaves the line")
	_, err = good.Along(nil, ballast.Stretch{})
	refused(t, "no line", err, measure.ErrInput, "line")
}

func TestBarrow(t *testing.T) {
	for _, c := range []struct {
		b    trackbed.Barrow
		v    measure.Volume
		d    measure.Density
		want int
	}{
		{trackbed.Barrow{Volume: 60 * measure.Litre}, 600 * measure.Litre, 0, 10},
		{trackbed.Barrow{Volume: 60 * measure.Litre}, 601 * measure.Litre, 0, 11},
		{trackbed.Barrow{Volume: 60 * measure.Litre, Mass: 75}, 600 * measure.Litre, 1500, 12},
		{trackbed.Barrow{Mass: 90}, 600 * measure.Litre, 1500, 10},
		{trackbed.Barrow{Mass: 90}, 0, 1500, 0},
	} {
		if n, cs, err := c.b.Loads(c.v, c.d); err != nil || n != c.want || len(cs) == 0 {
			t.Errorf("%+v with %v: %d loads, %v, want %d", c.b, c.v, n, err, c.want)
		}
	}
	_, _, err := trackbed.Barrow{}.Loads(1, 1)
	refused(t, "no size", err, measure.ErrInput, "volume or a mass")
	_, _, err = trackbed.Barrow{Mass: 1}.Loads(1, 0)
	refused(t, "no density", err, measure.ErrInput, "density")
	_, _, err = trackbed.Barrow{Volume: 1}.Loads(1e12, 0)
	refused(t, "too many", err, measure.ErrLimit, "barrow")
}
