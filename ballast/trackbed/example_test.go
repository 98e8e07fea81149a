package trackbed_test

import (
	"fmt"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/ballast/trackbed"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// A bend of 2 m radius on planks 145 mm wide.
func ExampleBoard_Bend() {
	b := trackbed.Board{
		Width: 145 * measure.Millimetre, SleeperLength: 82 * measure.Millimetre, Margin: 8 * measure.Millimetre,
		Gap: 3 * measure.Millimetre, Kerf: 3 * measure.Millimetre, Stock: 2.4 * measure.Metre,
	}
	p, err := b.Bend(2*measure.Metre, 90*measure.Degree)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d boards from %d planks, mitre %.2f°, long edge %.1f mm, short edge %.1f mm\n",
		p.Count, p.Planks, p.Mitre.Degrees(), p.Long.Millimetres(), p.Short.Millimetres())
	// Output:
	// 4 boards from 2 planks, mitre 11.25°, long edge 813.8 mm, short edge 756.1 mm
}

// How far apart posts may stand under two bearers of 38 by 63 mm in C16.
func ExampleBearer_LongestBay() {
	b := trackbed.Bearer{Width: 38, Height: 63, Count: 2, Modulus: 8000 * measure.Megapascal, Density: 370}
	bay, err := b.LongestBay(trackbed.Load{Lasting: 8, Moving: 6, Point: 5, Creep: 2}, trackbed.SagLimit{SpanOver: 400, Most: 3})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.2f m, sags %.1f mm, %.1f mm of it with the years\n", bay.Span.Metres(), bay.Sag.Millimetres(), bay.Creep.Millimetres())
	// Output:
	// 1.65 m, sags 3.0 mm, 1.5 mm of it with the years
}

// Posts under a line that climbs, over ground that falls away.
func ExamplePosts_Along() {
	straight, _ := curve.NewStraight(4 * measure.Metre)
	line, _ := curve.New(curve.Pose{}, straight)
	rail, _ := profile.NewLevel(profile.Point{Level: 500}, profile.Point{Chainage: 4000, Level: 540})
	ground, _ := profile.NewLevel(profile.Point{Level: 100}, profile.Point{Chainage: 4000, Level: -100})
	s, err := trackbed.Posts{
		Spacing: 1500, Below: 120, Frost: 600, Embed: 450, Stock: []measure.Length{1200, 1800},
	}.Along(line, ballast.Stretch{Name: "viaduct", From: 0, To: 4000}, rail, ground)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range s.Posts {
		fmt.Printf("at %.2f m: %.0f mm, cut from %.0f\n", p.Chainage.Metres(), p.Length.Millimetres(), p.Buy.Millimetres())
	}
	// Output:
	// at 0.00 m: 880 mm, cut from 1200
	// at 1.33 m: 960 mm, cut from 1200
	// at 2.67 m: 1040 mm, cut from 1200
	// at 4.00 m: 1120 mm, cut from 1200
}

// A trench round a quarter circle, its spoil in barrows.
func ExampleTrench_Along() {
	arc, _ := curve.NewArc(3*measure.Metre, 90*measure.Degree, curve.Left)
	line, _ := curve.New(curve.Pose{}, arc)
	g, err := trackbed.Trench{
		Width: 200, Depth: 150, Layers: []trackbed.Layer{{"sub-base", 100}},
	}.Along(line, ballast.Stretch{To: line.Length()})
	if err != nil {
		fmt.Println(err)
		return
	}
	n, _, _ := trackbed.Barrow{Volume: 65 * measure.Litre}.Loads(g.Spoil, 0)
	fmt.Printf("dig %.0f l, %d barrows of spoil, %.0f l of sub-base\n", g.Excavated.Litres(), n, g.Layers[0].Litres())
	// Output:
	// dig 141 l, 3 barrows of spoil, 94 l of sub-base
}

// A concrete strip and its bags.
func ExampleStrip_Along() {
	straight, _ := curve.NewStraight(9 * measure.Metre)
	line, _ := curve.New(curve.Pose{}, straight)
	p, err := trackbed.Strip{Width: 200, Thickness: 75, Fall: measure.OneIn(40)}.Along(line, ballast.Stretch{To: line.Length()})
	if err != nil {
		fmt.Println(err)
		return
	}
	b, _ := trackbed.Concrete{Cement: 1, Sand: 2, Stone: 4}.For(p.Volume, 0.05)
	fmt.Printf("%.0f l, %d joints, falls %.0f mm; cement %.0f kg, sand %.0f kg, stone %.0f kg\n",
		p.Volume.Litres(), len(p.Joints), p.FallBy.Millimetres(), b.Cement.Kilograms(), b.Sand.Kilograms(), b.Stone.Kilograms())
	// Output:
	// 140 l, 3 joints, falls 5 mm; cement 44 kg, sand 104 kg, stone 180 kg
}

// Cut and fill by end areas.
func ExampleEarthwork_Along() {
	straight, _ := curve.NewStraight(10 * measure.Metre)
	line, _ := curve.New(curve.Pose{}, straight)
	rail, _ := profile.NewLevel(profile.Point{Level: 100})
	ground, _ := profile.NewLevel(profile.Point{Level: 400}, profile.Point{Chainage: 10000, Level: -100})
	g, err := trackbed.Earthwork{Width: 300, Below: 100, Cut: 1, Fill: 1.5}.Along(line, ballast.Stretch{To: line.Length()}, rail, ground)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("cut %.0f l, fill %.0f l, spoil %.0f l loose\n", g.Cut.Litres(), g.Fill.Litres(), g.Spoil.Litres())
	// Output:
	// cut 910 l, fill 41 l, spoil 1081 l loose
}
