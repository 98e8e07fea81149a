package curve_test

import (
	"fmt"
	"log"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

func Example() {
	straight, err := curve.NewStraight(2 * measure.Metre)
	if err != nil {
		log.Fatal(err)
	}
	bend, err := curve.Bend{
		Radius: 2.5 * measure.Metre,
		Turn:   90 * measure.Degree,
		Hand:   curve.Left,
		EaseIn: 800, EaseOut: 800,
		Shape: curve.Bloss,
	}.Elements()
	if err != nil {
		log.Fatal(err)
	}
	line, err := curve.New(curve.Pose{}, append([]curve.Element{straight}, bend...)...)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("%.1f mm long\n", line.Length().Millimetres())
	for _, s := range line.Boundaries() {
		st := line.At(s)
		fmt.Printf("%6.1f  x %6.1f  y %6.1f  heading %4.1f°  %v\n",
			s.Millimetres(), st.Point.X, st.Point.Y, st.Heading.Degrees(), st.Curvature)
	}
	// Output:
	// 6727.0 mm long
	//    0.0  x    0.0  y    0.0  heading  0.0°  straight
	// 2000.0  x 2000.0  y    0.0  heading  0.0°  straight
	// 2800.0  x 2798.1  y   38.3  heading  9.2°  R 2500 mm left
	// 5927.0  x 4867.9  y 2108.1  heading 80.8°  R 2500 mm left
	// 6727.0  x 4906.2  y 2906.2  heading 90.0°  straight
}

func ExampleAlignment_Nearest() {
	arc, err := curve.NewArc(3*measure.Metre, 60*measure.Degree, curve.Right)
	if err != nil {
		log.Fatal(err)
	}
	line, err := curve.New(curve.Pose{}, arc)
	if err != nil {
		log.Fatal(err)
	}
	for _, tree := range []r2.Vec{{X: 1500, Y: 0}, {X: -400, Y: 300}} {
		foot := line.Nearest(tree)
		fmt.Printf("chainage %.1f, offset %.1f, end %v\n", foot.Chainage.Millimetres(), foot.Offset.Millimetres(), foot.End)
	}
	// Output:
	// chainage 1390.9, offset 354.1, end false
	// chainage 0.0, offset 500.0, end true
}

// A line may pass the same tree twice.
func ExampleAlignment_Feet() {
	straight, err1 := curve.NewStraight(3000)
	half, err2 := curve.NewArc(700, 180*measure.Degree, curve.Left)
	line, err3 := curve.New(curve.Pose{}, straight, half, straight)
	if err1 != nil || err2 != nil || err3 != nil {
		log.Fatal(err1, err2, err3)
	}
	for foot := range line.Feet(r2.Vec{X: 1000, Y: 600}, 1*measure.Metre) {
		fmt.Printf("chainage %.0f, offset %.0f\n", foot.Chainage.Millimetres(), foot.Offset.Millimetres())
	}
	// Output:
	// chainage 1000, offset 600
	// chainage 7199, offset 800
}

func ExampleAlignment_RailLength() {
	bend, err := curve.Bend{Radius: 3000, Turn: 90 * measure.Degree, Hand: curve.Left, EaseIn: 900, EaseOut: 900}.Elements()
	if err != nil {
		log.Fatal(err)
	}
	line, err := curve.New(curve.Pose{}, bend...)
	if err != nil {
		log.Fatal(err)
	}
	const centres = 47.5 * measure.Millimetre // gauge and one head width
	outer, _ := line.RailLength(curve.Right, 0, line.Length(), centres)
	inner, _ := line.RailLength(curve.Left, 0, line.Length(), centres)
	trim, _ := line.Trim(curve.Left, 0, line.Length(), centres)
	fmt.Printf("outer %.1f mm, inner %.1f mm, trim %.1f mm\n", outer.Millimetres(), inner.Millimetres(), trim.Millimetres())
	// Output:
	// outer 5649.7 mm, inner 5575.1 mm, trim 74.6 mm
}

// An oval: half of it twice.
func ExampleNewClosed() {
	straight, err := curve.NewStraight(2000)
	if err != nil {
		log.Fatal(err)
	}
	bend, err := curve.Bend{Radius: 1200, Turn: 180 * measure.Degree, Hand: curve.Left, EaseIn: 500, EaseOut: 500}.Elements()
	if err != nil {
		log.Fatal(err)
	}
	half := append([]curve.Element{straight}, bend...)
	oval, err := curve.NewClosed(curve.Pose{}, 0, 0, append(half, half...)...)
	if err != nil {
		log.Fatal(err)
	}
	l := oval.Length()
	fmt.Printf("lap %.1f mm; from 500 before the start to 500 past it: %.0f mm\n", l.Millimetres(), oval.Span(l-500, 500).Millimetres())
	// One straight longer than the other by more than may be spread.
	longer, err := curve.NewStraight(2003)
	if err != nil {
		log.Fatal(err)
	}
	_, err = curve.NewClosed(curve.Pose{}, 0.5*measure.Millimetre, 0, append(append(half, longer), bend...)...)
	fmt.Println(err != nil, strings.Contains(err.Error(), "3.000 mm: must be within 0.5 mm of the start"))
	// Output:
	// lap 12539.8 mm; from 500 before the start to 500 past it: 1000 mm
	// true true
}

func ExampleNewCubicParabola() {
	const radius = 2 * measure.Metre
	ease, err := curve.NewCubicParabola(800, radius, curve.Left)
	if err != nil {
		log.Fatal(err)
	}
	step := ease.StepToArc()
	fmt.Printf("%.2f mm long, turns %.3f°, ends at R %.0f, %.1f %% short of the arc's curvature\n",
		ease.Length().Millimetres(), ease.Turn().Degrees(), 1/ease.EndCurvature().PerMillimetres(), 100*step.PerMillimetres()*radius.Millimetres())
	_, err = curve.NewCubicParabola(1800, radius, curve.Left)
	fmt.Println(err)
	// Output:
	// 803.18 mm long, turns 11.310°, ends at R 2121, 5.7 % short of the arc's curvature
	// curve: abscissa of cubic parabola 1800 mm: must be less than 1788.85 mm at a radius of 2000 mm, where its curvature begins to fall
}

func ExampleAlignment_Points() {
	arc, err := curve.NewArc(1000, math.Pi/2, curve.Left)
	if err != nil {
		log.Fatal(err)
	}
	line, err := curve.New(curve.Pose{}, arc)
	if err != nil {
		log.Fatal(err)
	}
	points, err := line.Points(0, line.Length(), 20*measure.Millimetre)
	if err != nil {
		log.Fatal(err)
	}
	for s, p := range points {
		fmt.Printf("%4.0f: %4.0f %4.0f\n", s.Millimetres(), p.X, p.Y)
	}
	// Output:
	//    0:    0    0
	//  393:  383   76
	//  785:  707  293
	// 1178:  924  617
	// 1571: 1000 1000
}
