package design_test

import (
	"context"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/design"
	"example.org/fourfoot/gauge/measure"
)

// A simple curve of radius 200 turning 30° (lecture example after Schofield,
// Engineering Surveying): tangent length 53.59, arc 104.72.
func ExampleCorner_ByRadius() {
	s, c := math.Sincos(math.Pi / 6)
	corner, err := design.CornerOf(r2.Vec{X: -100}, r2.Vec{}, r2.Vec{X: 100 * c, Y: 100 * s})
	if err != nil {
		fmt.Println(err)
		return
	}
	bend, err := corner.ByRadius(200, design.Easing{})
	fmt.Printf("tangent %.2f, arc %.2f, apex %.2f %v\n", float64(bend.TangentIn), float64(bend.Length()), float64(bend.Apex), err)
	// Output: tangent 53.59, arc 104.72, apex 7.06 <nil>
}

// Two walls of a garden meet at a right angle; the crown is to stay 1 m from
// their corner, with easements of 600 mm.
func ExampleCorner_ByApex() {
	corner, err := design.CornerOf(r2.Vec{X: -6000}, r2.Vec{}, r2.Vec{Y: 5000})
	if err != nil {
		fmt.Println(err)
		return
	}
	b, err := corner.ByApex(1*measure.Metre, design.Ease(curve.Clothoid, 600))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("radius %.1f mm, tangent lengths %.1f mm, shift %.2f mm\n", float64(b.Radius), float64(b.TangentIn), float64(b.ShiftIn))
	fmt.Printf("easements turn %.2f° each, the arc %.2f°\n", b.TurnIn.Degrees(), b.TurnArc.Degrees())
	// Output:
	// radius 2392.8 mm, tangent lengths 2698.9 mm, shift 6.27 mm
	// easements turn 7.18° each, the arc 75.63°
}

// A bend from one straight to another that passes a given gap in the hedge.
func ExampleCorner_Through() {
	corner, err := design.Meet(curve.Pose{}, curve.Pose{Point: r2.Vec{X: 8000, Y: 6000}, Heading: 60 * measure.Degree})
	if err != nil {
		fmt.Println(err)
		return
	}
	b, err := corner.Through(r2.Vec{X: 4300, Y: 400}, design.Ease(curve.Bloss, 500))
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("radius %.1f mm from (%.0f, %.0f) to (%.0f, %.0f)\n", float64(b.Radius), b.Start.Point.X, b.Start.Point.Y, b.End.Point.X, b.End.Point.Y)
	// Output: radius 2986.0 mm from (2561, 0) to (5523, 1711)
}

// How large can a bend be whose straights are 3 m and 4 m long? And what if
// more is asked for?
func ExampleCorner_Largest() {
	corner, err := design.CornerOf(r2.Vec{X: -3000}, r2.Vec{}, r2.Vec{Y: 4000})
	if err != nil {
		fmt.Println(err)
		return
	}
	b, err := corner.Largest(design.Ease(curve.Cosine, 500))
	fmt.Printf("%.1f mm %v\n", float64(b.Radius), err)
	_, err = corner.ByRadius(3000, design.Ease(curve.Cosine, 500))
	fmt.Println(err)
	// Output:
	// 2747.9 mm <nil>
	// design: tangent length 3251.95 mm: the first straight is 3000 mm long; the largest radius that fits is 2747.88 mm
}

// A compound curve: the sharper arc where the garden is narrow.
func ExampleCorner_Compound() {
	corner, err := design.CornerOf(r2.Vec{X: -6000}, r2.Vec{}, r2.Vec{Y: 6000})
	if err != nil {
		fmt.Println(err)
		return
	}
	b, err := corner.Compound(design.Compound{
		Radius1: 4000, Radius2: 2500, Turn1: 30 * measure.Degree,
		EaseIn: 500, Between: 400, EaseOut: 600,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("tangents %.1f mm and %.1f mm, second arc turns %.2f°, shift between the arcs %.2f mm\n",
		float64(b.TangentIn), float64(b.TangentOut), b.Turn2.Degrees(), float64(b.Shift))
	// Output: tangents 3646.5 mm and 3096.6 mm, second arc turns 42.10°, shift between the arcs 1.00 mm
}

// A circuit of four bends round a lawn.
func ExampleCircuit() {
	ease := design.Ease(curve.Clothoid, 600)
	l, err := design.Circuit(
		design.Vertex{Point: r2.Vec{}, Radius: 2200, Ease: ease},
		design.Vertex{Point: r2.Vec{X: 9000}, Radius: 2000, Ease: ease},
		design.Vertex{Point: r2.Vec{X: 9000, Y: 6000}, Radius: 2000, Ease: ease},
		design.Vertex{Point: r2.Vec{X: 0, Y: 5000}, Radius: 2000, Ease: ease},
	)
	if err != nil {
		fmt.Println(err)
		return
	}
	a, err := l.Alignment()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d elements, %.1f mm round\n", len(l.Elements), float64(a.Length()))
	for _, b := range l.Bends {
		fmt.Printf("%v %.2f° tangents %.1f mm\n", b.Hand, b.Turn.Degrees(), float64(b.TangentIn))
	}
	// Output:
	// 16 elements, 25429.6 mm round
	// left 90.00° tangents 2307.3 mm
	// left 96.34° tangents 2542.7 mm
	// left 83.66° tangents 2096.6 mm
	// left 90.00° tangents 2506.6 mm
}

// Sectional pieces with a joint that was forced.
func ExampleLaid() {
	l, joints, err := design.Laid(curve.Pose{},
		design.Piece{Length: 600},
		design.Piece{Length: 628.3, Radius: 1200, Hand: curve.Left},
		design.Piece{Length: 300, Kink: -0.5 * measure.Degree},
	)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, j := range joints {
		fmt.Printf("kink of %.2f° at %.1f mm\n", j.Kink.Degrees(), float64(j.Chainage))
	}
	a, err := l.Alignment()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("ends at (%.1f, %.1f) heading %.2f°\n", a.End().Point.X, a.End().Point.Y, a.End().Heading.Degrees())
	// Output:
	// kink of -0.50° at 1228.3 mm
	// ends at (1461.1, 308.5) heading 29.50°
}

// The versine of a 500 mm chord is 20 mm: R = c²/8v + v/2.
func ExampleThreePoints() {
	b, err := design.ThreePoints(r2.Vec{}, r2.Vec{X: 250, Y: -20}, r2.Vec{X: 500})
	fmt.Printf("radius %.1f mm, %v, turns %.3f° %v\n", float64(b.Radius), b.Hand, b.Turn.Degrees(), err)
	// Output: radius 1572.5 mm, left, turns 18.296° <nil>
}

// From one track to another 170 mm beside it with curves of 3 m, a straight of
// 300 mm and easements.
func ExampleReverse() {
	l, err := design.Reverse{
		To:      curve.Pose{Point: r2.Vec{Y: 170}},
		Radius1: 3000, Straight: 300,
		Ease1: design.Ease(curve.Clothoid, 250), Ease2: design.Ease(curve.Clothoid, 250),
	}.Line()
	if err != nil {
		fmt.Println(err)
		return
	}
	end := l.Bends[1].End.Point
	fmt.Printf("each curve turns %.3f°; the shift takes %.1f mm of track\n", l.Bends[0].Turn.Degrees(), end.X)
	// Output: each curve turns 9.384°; the shift takes 1771.2 mm of track
}

// Easements of 600 mm for an oval of half circles that must keep its place.
func ExampleInsertEasements() {
	half := design.Piece{Length: 1500 * math.Pi, Radius: 1500, Hand: curve.Left}
	plain, _, err := design.Laid(curve.Pose{}, design.Piece{Length: 3000}, half, design.Piece{Length: 3000}, half)
	if err != nil {
		fmt.Println(err)
		return
	}
	plain.Closed = true
	a, err := plain.Alignment()
	if err != nil {
		fmt.Println(err)
		return
	}
	eased, err := design.InsertEasements(a, design.KeepCrown, curve.Clothoid, 600)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, arc := range eased.Arcs {
		fmt.Printf("radius %.1f mm instead of %.1f mm, shift %.2f mm, %.1f mm of each straight used\n",
			float64(arc.Radius), float64(arc.OldRadius), float64(arc.Shift), float64(arc.Used))
	}
	// Output:
	// radius 1489.9 mm instead of 1500.0 mm, shift 10.05 mm, 289.5 mm of each straight used
	// radius 1489.9 mm instead of 1500.0 mm, shift 10.05 mm, 289.5 mm of each straight used
}

// From a bridge to a station throat that looks another way: the gentlest line
// of two arcs with a straight between and easements of 300 mm.
func ExampleJoin() {
	got, err := design.Join{
		To:     curve.Pose{Point: r2.Vec{X: 6000, Y: 2500}, Heading: -20 * measure.Degree},
		Family: design.ArcStraightArc, Ease: 300, MaxLength: 8 * measure.Metre,
	}.Line(context.Background())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("radius %.1f mm: %v\n", float64(got.Radius), got.Bound)
	for _, arc := range got.Arcs {
		fmt.Printf("%v, radius %.1f mm, turns %.2f° and its easements\n", arc.Hand, float64(arc.Radius), arc.Turn.Degrees())
	}
	_, err = design.Join{
		To:   curve.Pose{Point: r2.Vec{X: 6000, Y: 2500}, Heading: -20 * measure.Degree},
		Ease: 300, MaxLength: 6600 * measure.Millimetre,
	}.Line(context.Background())
	fmt.Println(err)
	// Output:
	// radius 2758.5 mm: no straight is left between the arcs
	// left, radius 2758.5 mm, turns 50.20° and its easements
	// right, radius 2758.5 mm, turns 70.20° and its easements
	// design: family "two arcs": no member of the family fits: any length allowed, the gentlest has a radius of 2764.75 mm and is 7000.07 mm long
}

// The largest bend past a tree and a shed. The tree may be passed on either
// side: the radii in between foul it.
func ExampleFit_Bend() {
	corner, err := design.CornerOf(r2.Vec{X: -6000}, r2.Vec{}, r2.Vec{Y: 6000})
	if err != nil {
		fmt.Println(err)
		return
	}
	fit := design.Fit{Obstacles: []design.Obstacle{
		{Name: "tree", Points: []r2.Vec{{X: -900, Y: 900}}, Left: 120, Right: 150},
		{Name: "shed", Points: []r2.Vec{{X: -4000, Y: 1800}, {X: -1800, Y: 1800}, {X: -1800, Y: 4000}, {X: -4000, Y: 4000}}, Solid: true, Left: 120, Right: 150},
	}}
	got, err := fit.Bend(context.Background(), corner, design.Ease(curve.Clothoid, 600))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, i := range got.Intervals {
		fmt.Printf("%.1f mm (%s) to %.1f mm (%s)\n", float64(i.From.Radius), i.From.By, float64(i.To.Radius), i.To.By)
	}

	fit.MinRadius, fit.MaxRadius = 2800, 3400
	_, err = fit.Bend(context.Background(), corner, design.Ease(curve.Clothoid, 600))
	fmt.Println(err)
	// Output:
	// 382.0 mm (the easements turn the whole bend) to 2764.6 mm (tree)
	// 3420.0 mm (tree) to 5697.4 mm (the straights are used up)
	// design: no radius keeps clear of the obstacles: the least that must move is, for a radius of 3400 mm, tree by 8.229 mm towards -45°
}

// Round the end of a pond from one straight to another.
func ExampleFit_Join() {
	fit := design.Fit{MaxRadius: 10000, Obstacles: []design.Obstacle{
		{Name: "pond", Points: []r2.Vec{{X: 1800, Y: -300}, {X: 3000, Y: -300}, {X: 2800, Y: 150}, {X: 2000, Y: 150}}, Solid: true, Left: 200, Right: 200},
	}}
	got, err := fit.Join(context.Background(), design.Join{
		To: curve.Pose{Point: r2.Vec{X: 4500, Y: 1500}}, Family: design.ArcStraightArc, Ease: 200, MaxLength: 6000,
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, i := range got.Intervals {
		fmt.Printf("%v and %v: to %.1f mm (%s)\n", i.Hands[0], i.Hands[1], float64(i.To.Radius), i.To.By)
	}
	// Output: left and right: to 3449.5 mm (no straight is left between the arcs)
}

// Two straights of a plan, known by a place and a heading on each, and where
// they meet.
func ExampleMeet() {
	corner, err := design.Meet(
		curve.Pose{Point: r2.Vec{X: -3000}},
		curve.Pose{Point: r2.Vec{X: 1500, Y: 1500}, Heading: 45 * measure.Degree},
	)
	if err != nil {
		fmt.Println(err)
		return
	}
	in, out := corner.Straights()
	fmt.Printf("meet at (%.0f, %.0f), turn %v of %v, straights %.1f mm and %.1f mm\n", corner.Point().X, corner.Point().Y, corner.Hand(), corner.Turn(), float64(in), float64(out))
	// Output: meet at (0, 0), turn left of 45°, straights 3000.0 mm and 2121.3 mm
}

// A line past two bends of its own; the second asks for more than the straight
// between them leaves.
func ExampleThrough() {
	vertices := []design.Vertex{
		{Point: r2.Vec{}},
		{Point: r2.Vec{X: 4000}, Radius: 2500, Ease: design.Ease(curve.Bloss, 400)},
		{Point: r2.Vec{X: 6000, Y: 2000}, Radius: 2000},
		{Point: r2.Vec{X: 9000, Y: 2000}},
	}
	line, err := design.Through(vertices...)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%d elements, %.1f mm\n", len(line.Elements), float64(line.Length()))
	for _, b := range line.Bends {
		fmt.Printf("%v, radius %.0f mm, tangents %.1f mm and %.1f mm\n", b.Hand, float64(b.Radius), float64(b.TangentIn), float64(b.TangentOut))
	}
	vertices[2].Radius = 5000
	_, err = design.Through(vertices...)
	fmt.Println(err)
	// Output:
	// 7 elements, 9633.5 mm
	// left, radius 2500 mm, tangents 1236.2 mm and 1236.2 mm
	// right, radius 2000 mm, tangents 828.4 mm and 828.4 mm
	// design: straight from vertex 2 to vertex 3 2828.43 mm: the bends need 1236.18 mm and 2071.07 mm of it; a radius of 1342.78 mm at vertex 2 would fit; a radius of 3844.03 mm at vertex 3 would fit
}

// The end of an oval between straights 3 m apart, with easements.
func ExampleHalfTurn() {
	bend, err := design.HalfTurn(
		curve.Pose{Point: r2.Vec{X: 4000}},
		curve.Pose{Point: r2.Vec{X: 4000, Y: 3000}, Heading: math.Pi},
		design.Ease(curve.Clothoid, 500),
	)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("radius %.1f mm, shift %.1f mm, from (%.0f, %.0f) to (%.0f, %.0f)\n", float64(bend.Radius), float64(bend.ShiftIn), bend.Start.Point.X, bend.Start.Point.Y, bend.End.Point.X, bend.End.Point.Y)
	// Output:
	// radius 1493.0 mm, shift 7.0 mm, from (4000, 0) to (4000, 3000)
}

// Two arcs that touch, past a tree that leaves two ranges of the sharper
// radius.
func ExampleFit_Join_twoArcs() {
	fit := design.Fit{MinRadius: 500, MaxRadius: 1900, Obstacles: []design.Obstacle{
		{Name: "tree", Points: []r2.Vec{{X: 480, Y: 110}}, Left: 40, Right: 40},
	}}
	got, err := fit.Join(context.Background(), design.Join{To: curve.Pose{Point: r2.Vec{X: 2000, Y: 3000}, Heading: 90 * measure.Degree}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, i := range got.Intervals {
		fmt.Printf("%v and %v: %.1f mm (%s) to %.1f mm (%s)\n", i.Hands[0], i.Hands[1], float64(i.From.Radius), i.From.By, float64(i.To.Radius), i.To.By)
	}
	fmt.Printf("the line: %.1f mm, then %.1f mm\n", float64(got.Arcs[0].Radius), float64(got.Arcs[1].Radius))
	// Output:
	// left and left: 500.0 mm (the smallest radius looked at) to 800.8 mm (tree)
	// left and left: 1720.7 mm (tree) to 1900.0 mm (the largest radius asked for)
	// left and right: 500.0 mm (the smallest radius looked at) to 1900.0 mm (the largest radius asked for)
	// the line: 1900.0 mm, then 8000.0 mm
}
