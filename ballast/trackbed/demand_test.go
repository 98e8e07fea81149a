package trackbed_test

import (
	"fmt"
	"testing"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/ballast/order"
	"example.org/fourfoot/ballast/trackbed"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// Everything under a line in one list that adds up, with rail from elsewhere
// as plain data.
func TestOneListOfTheTrackbed(t *testing.T) {
	line := open(straight(4000), arc(3000, 1, curve.Left))
	s := ballast.Stretch{Name: "garden", To: line.Length()}
	soil := ballast.Material{Name: "sub-base", Loose: 1500, Bulking: 1.2}
	sand := ballast.Material{Name: "sand", Loose: 1690, Bulking: 1.1}
	gravel := ballast.Material{Name: "gravel", Loose: 1520, Bulking: 1.1}
	dug := must(trackbed.Trench{Width: 300, Depth: 150, Layers: []trackbed.Layer{{"base", 100}, {"sand", 40}}}.Along(line, s))
	paving := must(trackbed.Slabs{Length: 450, Width: 225, Height: 50, Gap: 5, Sand: 40}.Along(line, s))
	drain := must(trackbed.Drain{Pipe: 80, Width: 200, Start: 300, Stock: 3000}.Along(line, s))
	posts := must(trackbed.Posts{Spacing: 1200, Embed: 500, Rows: 2, Stock: []measure.Length{900, 1200}}.Along(line, s,
		level(profile.Point{Level: 350}, profile.Point{Chainage: 7000, Level: 600}), profile.Level{}))
	boards := must(trackbed.Board{Width: 145, SleeperLength: 82, Margin: 8, Stock: 2400}.Along(line, s))
	felt := must(trackbed.Sheet{Name: "felt", RollWidth: 1000, RollLength: 8000}.Cover(145, line.Length()))
	var ds []order.Demand
	ds = append(ds, must(dug.Demands(soil, sand))...)
	ds = append(ds, must(paving.Demands("slab", sand))...)
	ds = append(ds, must(drain.Demands("pipe", gravel))...)
	ds = append(ds, posts.Demands("post", "bearer", s.Name)...)
	ds = append(ds, boards.Demands("plank", s.Name)...)
	ds = append(ds, felt.Demands(s.Name)...)
	ds = append(ds, order.Demand{Item: "rail", Unit: "m", Quantity: 14, Range: s.Name})
	o, err := order.New(ds, nil)
	if err != nil || o.Reconcile() != nil {
		t.Fatalf("%v, %v", err, o.Reconcile())
	}
	got := map[string]float64{}
	for _, l := range o.Lines {
		got[l.Item] = l.Quantity
	}
	if want := float64(must(sand.Need(dug.Layers[1])).Delivered + must(sand.Need(paving.Sand)).Delivered); !near(got["sand"], want, 1e-12) {
		t.Errorf("sand %v kg of trench and slabs together, want %v", got["sand"], want)
	}
	if want := float64(must(gravel.Need(drain.Gravel)).Delivered); !near(got["gravel"], want, 1e-12) || got["pipe"] != 3 || got["slab"] != float64(paving.Count) {
		t.Errorf("%v", got)
	}
	if n := got["post, 900 mm"] + got["post, 1200 mm"]; n != float64(2*len(posts.Posts)) || got["post, 900 mm"] == 0 || got["post, 1200 mm"] == 0 {
		t.Errorf("posts %v", got)
	}
	if got[fmt.Sprintf("bearer, %v", measure.Length(1167))] != float64(posts.Bearers) || got["plank"] != float64(boards.Planks) || !near(got["felt"], felt.Sheet.SquareMetres(), 1e-12) {
		t.Errorf("%v", got)
	}
	if len(o.Cautions) < 4 {
		t.Errorf("cautions %q, want digging, lifting, cutting, treated timber", o.Cautions)
	}
	_, err = dug.Demands(soil)
	refused(t, "a layer without material", err, measure.ErrInput, "one for each layer")
	_, err = dug.Demands(soil, ballast.Material{})
	refused(t, "a bad material", err, measure.ErrInput, "material")
	_, err = paving.Demands("slab", ballast.Material{})
	refused(t, "bad sand", err, measure.ErrInput, "material")
	_, err = drain.Demands("pipe", ballast.Material{})
	refused(t, "bad gravel", err, measure.ErrInput, "material")
}
