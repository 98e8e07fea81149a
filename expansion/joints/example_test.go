package joints_test

import (
	"fmt"
	"math"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/expansion"
	"example.org/fourfoot/expansion/joints"
	"example.org/fourfoot/gauge/measure"
)

// A line with a turnout, a tunnel and a bridge end, in brass on concrete.
func ExampleNew() {
	bend, err := curve.Bend{Radius: 3 * measure.Metre, Turn: 90 * measure.Degree, Hand: curve.Left, EaseIn: 600, EaseOut: 600, Shape: curve.Clothoid}.Elements()
	if err != nil {
		fmt.Println(err)
		return
	}
	straight, err := curve.NewStraight(2500)
	if err != nil {
		fmt.Println(err)
		return
	}
	line, err := curve.New(curve.Pose{}, append(append([]curve.Element{straight}, bend...), straight)...)
	if err != nil {
		fmt.Println(err)
		return
	}
	climate, err := expansion.Corners(measure.Celsius(-12), measure.Celsius(48), measure.Celsius(-8), measure.Celsius(32))
	if err != nil {
		fmt.Println(err)
		return
	}
	plan, err := joints.New(line, joints.Spec{
		RailCentres: 34 * measure.Millimetre,
		Stock:       []joints.Stock{{Length: 1500 * measure.Millimetre}},
		Kerf:        1 * measure.Millimetre,
		Objects:     []joints.Object{{Name: "turnout", From: 1800, To: 2150}},
		Anchors:     []joints.Anchor{{Name: "bridge end", At: 9000}},
		Zones:       []joints.Zone{{Name: "tunnel", From: 4500, To: 5800}},
		Heat: &joints.Heat{
			Rail: 19 * measure.MicroPerKelvin, Base: 12 * measure.MicroPerKelvin, Widest: 3.5 * measure.Millimetre,
			Laying: expansion.State{Rail: measure.Celsius(18), Base: measure.Celsius(16)}, Climate: climate,
		},
		Sleepers: joints.Sleepers{Pitch: 38, JointPitch: 24},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, j := range plan.Joints {
		if j.Rail == curve.Left {
			fmt.Printf("joint %-3s %-7s %5.0f mm  gap %.2f (%.2f to %.2f)\n", j.Mark, j.At, j.Chainage.Millimetres(), j.Gap.Millimetres(), j.Least.Millimetres(), j.Most.Millimetres())
		}
	}
	for _, q := range plan.Pieces {
		if q.Rail == curve.Left {
			fmt.Printf("piece %-3s %-10s cut %7.2f from bar %2d\n", q.Mark, q.Anchor, q.Length.Millimetres(), q.Bar+1)
		}
	}
	fmt.Printf("left rail %.2f = pieces %.2f + gaps %.2f\n", plan.Left.Rail, plan.Left.Pieces, plan.Left.Gaps)
	fmt.Printf("%d bars (bound %d), waste %.0f mm\n", len(plan.Cutting.Bars), plan.Cutting.Bound, plan.Cutting.Waste.Millimetres())
	fmt.Printf("%d joiners, %d sleepers, %d fixings\n", plan.Order.Joiners, plan.Order.Sleepers, plan.Order.Fixings)
	fmt.Println("warnings:", plan.Warnings)
	// Output:
	// joint L1            900 mm  gap 1.82 (0.77 to 2.82)
	// joint L2  turnout  1800 mm  gap 1.82 (0.38 to 3.16)
	// joint L3  turnout  2150 mm  gap 1.82 (0.64 to 2.93)
	// joint L4           3648 mm  gap 1.82 (1.00 to 2.61)
	// joint L5           4500 mm  gap 1.82 (1.00 to 2.61)
	// joint L6           5993 mm  gap 1.82 (1.27 to 2.37)
	// joint L7           7487 mm  gap 1.82 (1.28 to 2.36)
	// joint L8           8988 mm  gap 1.82 (0.65 to 2.92)
	// piece L1             cut  899.09 from bar 11
	// piece L2             cut  897.27 from bar 13
	// piece L3             cut 1490.39 from bar  6
	// piece L4             cut  845.42 from bar 16
	// piece L5             cut 1483.08 from bar  8
	// piece L6             cut 1483.78 from bar  7
	// piece L7             cut 1499.00 from bar  5
	// piece L8  bridge end cut 1323.08 from bar  9
	// left rail 9935.69 = pieces 9921.11 + gaps 14.58
	// 16 bars (bound 14), waste 4104 mm
	// 16 joiners, 269 sleepers, 1076 fixings
	// warnings: []
}

func ExampleCut() {
	c, err := joints.Cut([]measure.Length{1000, 1000, 640, 430, 350, 210}, []joints.Stock{{Length: 1000}, {Length: 450, Count: 1}}, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, b := range c.Bars {
		fmt.Printf("%.0f: pieces %v, rest %.0f\n", b.Length, b.Pieces, b.Rest)
	}
	fmt.Printf("waste %.0f mm; no cutting does with fewer than %d bars\n", c.Waste, c.Bound)
	// Output:
	// 1000: pieces [0], rest 0
	// 1000: pieces [1], rest 0
	// 1000: pieces [2 4], rest 8
	// 450: pieces [3], rest 19
	// 1000: pieces [5], rest 789
	// waste 820 mm; no cutting does with fewer than 4 bars
}

func ExampleFlexible() {
	arc, err := curve.NewArc(2*measure.Metre, math.Pi/2, curve.Right)
	if err != nil {
		fmt.Println(err)
		return
	}
	line, err := curve.New(curve.Pose{}, arc)
	if err != nil {
		fmt.Println(err)
		return
	}
	lengths, cutting, err := joints.Flexible(line, joints.Spec{RailCentres: 34, Stock: []joints.Stock{{Length: 3 * measure.Foot}}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range lengths {
		fmt.Printf("%5.0f to %5.0f: %v rail is the inner, trim it by %.2f mm: cut at %.2f\n", f.From, f.To, f.Inner, f.Trim, f.Right)
	}
	fmt.Println(len(cutting.Bars), "lengths")
	// Output:
	// 0 to   907: right rail is the inner, trim it by 15.41 mm: cut at 898.99
	//   907 to  1813: right rail is the inner, trim it by 15.41 mm: cut at 898.99
	//  1813 to  2720: right rail is the inner, trim it by 15.41 mm: cut at 898.99
	//  2720 to  3142: right rail is the inner, trim it by 7.17 mm: cut at 417.93
	// 4 lengths
}
