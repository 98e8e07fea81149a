package passing_test

import (
	"context"
	"fmt"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/coupling"
	"example.org/fourfoot/clearance/passing"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// The spacing of two tracks on concentric curves, and the bar to set it.
func ExampleStocks_Table() {
	saloon := clearance.Bogie("saloon", 443, 80, clearance.Band{Top: 120, Outline: clearance.Box(614, 88)})
	s := passing.Stocks{Inner: []clearance.Vehicle{saloon}, Margin: 8}
	rows, err := s.Table(context.Background(), 1500, 2000, 3000)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, x := range rows {
		bar, err := passing.SpacerBar(x.Centres, 45, 3.5)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.0f mm: centres %.1f, between rails %.1f, over near rails %.1f, over all rails %.1f\n",
			x.InnerRadius.Millimetres(), bar.Centres.Millimetres(), bar.BetweenRails.Millimetres(), bar.OverNearRails.Millimetres(), bar.OverAllRails.Millimetres())
	}
	// Output:
	// 1500 mm: centres 125.2, between rails 73.2, over near rails 80.2, over all rails 177.2
	// 2000 mm: centres 118.4, between rails 66.4, over near rails 73.4, over all rails 170.4
	// 3000 mm: centres 111.2, between rails 59.2, over near rails 66.2, over all rails 163.2
}

// lines returns a straight line and a loop that leaves it to the left and comes
// back.
func lines() (main, loop *curve.Alignment, err error) {
	in, err := curve.NewStraight(1500)
	if err != nil {
		return nil, nil, err
	}
	mid, err := curve.NewStraight(3000)
	if err != nil {
		return nil, nil, err
	}
	all, err := curve.NewStraight(9000)
	if err != nil {
		return nil, nil, err
	}
	out, err := curve.NewArc(4*measure.Metre, 10*measure.Degree, curve.Left)
	if err != nil {
		return nil, nil, err
	}
	if main, err = curve.New(curve.Pose{}, all); err != nil {
		return nil, nil, err
	}
	loop, err = curve.New(curve.Pose{}, in, out, out.Mirror(), mid, out.Mirror(), out, in)
	return main, loop, err
}

// The fouling points of a loop, and the train that stands clear between them.
func ExampleStandingRoom() {
	ctx := context.Background()
	main, loop, err := lines()
	if err != nil {
		fmt.Println(err)
		return
	}
	saloon := clearance.Bogie("saloon", 443, 80, clearance.Band{Top: 120, Outline: clearance.Box(614, 88)})
	stock := []clearance.Vehicle{saloon}
	a, err := clearance.Sweep(ctx, main, stock, clearance.Settings{})
	if err != nil {
		fmt.Println(err)
		return
	}
	b, err := clearance.Sweep(ctx, loop, stock, clearance.Settings{})
	if err != nil {
		fmt.Println(err)
		return
	}
	points, err := passing.FoulingPoints(ctx, b, a, 8)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range points {
		fmt.Printf("post at %.0f, %.0f: chainage %.0f mm of the loop, %.0f mm of the line\n", f.Mark.X, f.Mark.Y, f.First.Chainage.Millimetres(), f.Second.Chainage.Millimetres())
	}
	rooms, err := passing.StandingRoom(ctx, b, 8, a)
	if err != nil {
		fmt.Println(err)
		return
	}
	car := coupling.Car{Vehicle: saloon, Rear: coupling.End{Hinge: -292, Length: 25}, Front: coupling.End{Hinge: 292, Length: 25}}
	for n := 5; n <= 7; n++ {
		train := make([]coupling.Car, n)
		for i := range train {
			train[i] = car
		}
		s, err := rooms[0].Holds(train...)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%d coaches, %.0f mm, in %.0f mm: clear %v, %.0f mm to spare\n", n, s.Length.Millimetres(), rooms[0].Length().Millimetres(), s.Clear, s.Spare.Millimetres())
	}
	// Output:
	// post at 2500, 48: chainage 2502 mm of the loop, 2501 mm of the line
	// post at 6278, 48: chainage 6291 mm of the loop, 6278 mm of the line
	// 5 coaches, 3153 mm, in 3789 mm: clear true, 636 mm to spare
	// 6 coaches, 3790 mm, in 3789 mm: clear false, -1 mm to spare
	// 7 coaches, 4423 mm, in 3789 mm: clear false, -634 mm to spare
}

// The gap between two tracks where it is least, and who passes there.
func ExampleGaps() {
	ctx := context.Background()
	main, loop, err := lines()
	if err != nil {
		fmt.Println(err)
		return
	}
	saloon := clearance.Bogie("saloon", 443, 80, clearance.Band{Top: 120, Outline: clearance.Box(614, 88)})
	van := clearance.Rigid("van", 150, clearance.Band{Top: 110, Outline: clearance.Box(250, 92)})
	a, err := clearance.Sweep(ctx, loop, []clearance.Vehicle{saloon, van}, clearance.Settings{From: 2700, To: 5800})
	if err != nil {
		fmt.Println(err)
		return
	}
	b, err := clearance.Sweep(ctx, main, []clearance.Vehicle{saloon}, clearance.Settings{})
	if err != nil {
		fmt.Println(err)
		return
	}
	p, err := passing.Gaps(ctx, a, b, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range []measure.Length{2800, 4250} {
		g, err := p.At(c)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("at %.0f mm: gap %.1f mm, %s passing %s\n", g.Chainage.Millimetres(), g.Gap.Millimetres(), g.Reach.By.Vehicle, g.Facing.By.Vehicle)
	}
	// Output:
	// at 2800 mm: gap 26.9 mm, saloon passing saloon
	// at 4250 mm: gap 31.5 mm, van passing saloon
}

// Where the second track must begin to swing out before a curve.
func ExampleStocks_LatestTaper() {
	ctx := context.Background()
	in, err := curve.NewStraight(2000)
	if err != nil {
		fmt.Println(err)
		return
	}
	bend, err := curve.Bend{Radius: 1500, Turn: 90 * measure.Degree, Hand: curve.Left, EaseIn: 700}.Elements()
	if err != nil {
		fmt.Println(err)
		return
	}
	line, err := curve.New(curve.Pose{}, append([]curve.Element{in}, bend...)...)
	if err != nil {
		fmt.Println(err)
		return
	}
	saloon := clearance.Bogie("saloon", 443, 80, clearance.Band{Top: 120, Outline: clearance.Box(614, 88)})
	s := passing.Stocks{Inner: []clearance.Vehicle{saloon}, Margin: 8}
	from, p, err := s.LatestTaper(ctx, line, curve.Right, passing.Taper{Straight: 104, Curve: 128, Length: 1200}, clearance.Settings{})
	if err != nil {
		fmt.Println(err)
		return
	}
	least, err := p.Least()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("begin at %.0f mm: gap %.1f mm at %.0f mm\n", from.Millimetres(), least.Gap.Millimetres(), least.Chainage.Millimetres())
	// Output:
	// begin at 1734 mm: gap 8.0 mm at 2569 mm
}

// Two tracks abreast on curves of their own, the outer one easier than
// concentric: the spacing that they need there, and what gives it.
func ExampleStocks_OnArcs() {
	saloon := clearance.Bogie("saloon", 443, 80, clearance.Band{Top: 120, Outline: clearance.Box(614, 88)})
	van := clearance.Rigid("van", 150, clearance.Band{Top: 110, Outline: clearance.Box(250, 92)})
	s := passing.Stocks{Inner: []clearance.Vehicle{van}, Outer: []clearance.Vehicle{saloon, van}, Margin: 8}
	x, err := s.OnArcs(context.Background(), 1500, 2500)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.1f mm: %s %.1f mm outwards, %s %.1f mm inwards\n", x.Centres.Millimetres(), x.InnerVehicle, x.InnerReach.Millimetres(), x.OuterVehicle, x.OuterReach.Millimetres())
	// Output: 111.3 mm: van 49.2 mm outwards, saloon 54.2 mm inwards
}

// What a track beside a straight and a curve needs along it.
func ExampleStocks_Needed() {
	ctx := context.Background()
	in, err := curve.NewStraight(2000)
	if err != nil {
		fmt.Println(err)
		return
	}
	bend, err := curve.Bend{Radius: 1500, Turn: 60 * measure.Degree, Hand: curve.Left, EaseIn: 700}.Elements()
	if err != nil {
		fmt.Println(err)
		return
	}
	line, err := curve.New(curve.Pose{}, append([]curve.Element{in}, bend...)...)
	if err != nil {
		fmt.Println(err)
		return
	}
	saloon := clearance.Bogie("saloon", 443, 80, clearance.Band{Top: 120, Outline: clearance.Box(614, 88)})
	need, err := passing.Stocks{Inner: []clearance.Vehicle{saloon}, Margin: 8}.Needed(ctx, line, curve.Right, clearance.Settings{})
	if err != nil {
		fmt.Println(err)
		return
	}
	next := measure.Length(1200)
	for _, n := range need {
		if n.Chainage >= next {
			fmt.Printf("%.0f mm: %.1f mm\n", n.Chainage.Millimetres(), n.Centres.Millimetres())
			next += 500
		}
	}
	// Output:
	// 1205 mm: 96.0 mm
	// 1707 mm: 96.5 mm
	// 2200 mm: 109.3 mm
	// 2700 mm: 124.5 mm
	// 3202 mm: 125.2 mm
	// 3704 mm: 125.2 mm
}
