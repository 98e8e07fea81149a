package ballast_test

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/ballast/order"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge"
	"example.org/fourfoot/gauge/measure"
)

// Ten metres of straight and a bend of 2 m radius, with a bridge left out; then
// the bags for it.
func ExampleTakeOff() {
	straight, _ := curve.NewStraight(10 * measure.Metre)
	arc, _ := curve.NewArc(2*measure.Metre, 90*measure.Degree, curve.Left)
	line, _ := curve.New(curve.Pose{}, straight, arc)

	q, err := ballast.TakeOff(line, ballast.Bed{
		Ranges: []ballast.Range{{
			Name: "main", From: 0, To: line.Length(), Sleepers: 310,
			Section: ballast.Section{
				Depth:    20 * measure.Millimetre,
				Sleeper:  ballast.Sleeper{Length: 82, Width: 12, Height: 9},
				Shoulder: 12 * measure.Millimetre,
			},
		}},
		Gaps: []ballast.Stretch{{Name: "bridge", From: 4 * measure.Metre, To: 4600 * measure.Millimetre}},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	grit := ballast.Material{Name: "granite grit", Loose: 1500, Bulking: 1.12, Waste: 0.05}
	need, _ := grit.Need(q.Total.Net)
	bags, _ := need.Buy(ballast.Bag{Name: "25 kg", Mass: 25, Price: order.Money{Minor: 650, Currency: order.Currency{Text: "EUR", Places: 2}}})
	fmt.Printf("%.2f m of bed, %.1f l, %.0f kg, %d bags, %v\n", q.Total.Length.Metres(), q.Total.Net.Litres(), need.Delivered.Kilograms(), bags.Count, bags.Cost)
	// Output:
	// 12.54 m of bed, 49.0 l, 86 kg, 4 bags, 26.00 EUR
}

// Six parts of grit to one of cement.
func ExampleMix_Bond() {
	grit := ballast.Material{Name: "granite grit", Loose: 1500, Bulking: 1.12}
	b, err := ballast.Mix{Grit: 6, Binder: 1}.Bond(50*measure.Litre, grit)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("grit %.1f kg, cement %.2f kg, water %.2f kg\n", b.Grit.Dry.Kilograms(), b.BinderMass.Kilograms(), b.Water.Kilograms())
	// Output:
	// grit 84.0 kg, cement 13.44 kg, water 6.72 kg
}

// What grit stands for full-size ballast of 31.5 to 50 mm at 16 mm to the foot, and how
// far a 2 to 4 mm grit is off.
func ExampleGrading_Fit() {
	f, err := ballast.Gradings()[0].Fit(gauge.MustParseScale("16 mm/ft"), 2*measure.Millimetre, 4*measure.Millimetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("wanted %.2f to %.2f mm; on hand %+.0f %% and %+.0f %%\n",
		f.Want.Small.Millimetres(), f.Want.Large.Millimetres(), f.SmallOver*100, f.LargeOver*100)
	// Output:
	// wanted 1.65 to 2.62 mm; on hand +21 % and +52 %
}

// A canted sleeper and the foot of its right rail, for a drawing of the section.
func ExampleSection_OnTracks() {
	s := ballast.Section{Depth: 20, Sleeper: ballast.Sleeper{Length: 82, Width: 12, Height: 9}, Shoulder: 12}
	sleepers, _ := s.SleeperOutlines(3*measure.Millimetre, 47.5*measure.Millimetre, profile.InnerRail)
	foot := []r2.Vec{{X: -27, Y: 9}, {X: -20, Y: 9}}
	rails, err := s.OnTracks(foot, 3*measure.Millimetre, 47.5*measure.Millimetre, profile.InnerRail)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("underside from (%.1f, %.1f) to (%.1f, %.1f)\n", sleepers[0][0].X, sleepers[0][0].Y, sleepers[0][1].X, sleepers[0][1].Y)
	fmt.Printf("foot from (%.1f, %.1f) to (%.1f, %.1f)\n", rails[0][0].X, rails[0][0].Y, rails[0][1].X, rails[0][1].Y)
	// Output:
	// underside from (-40.9, 24.1) to (40.9, 18.9)
	// foot from (-26.4, 32.2) to (-19.4, 31.7)
}

func ExampleAdhesive_Need() {
	n, err := ballast.Adhesive{Name: "ballast binder", Coverage: 3, Waste: 0.1}.Need(6 * measure.SquareMetre)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f l and %.1f l of waste: have %.1f l\n", n.Net.Litres(), n.Waste.Litres(), n.Volume.Litres())
	// Output:
	// 2.0 l and 0.2 l of waste: have 2.2 l
}
