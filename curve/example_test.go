package curve_test

import (
	"errors"
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

// A straight and two arcs, one by its turn and one by its length and curvature.
func ExampleNewArc() {
	straight, err1 := curve.NewStraight(1.2 * measure.Metre)
	arc, err2 := curve.NewArc(1500, 60*measure.Degree, curve.Left)
	back, err3 := curve.NewArcOfLength(800, -1./2000)
	if err := errors.Join(err1, err2, err3); err != nil {
		log.Fatal(err)
	}
	line, err := curve.New(curve.Pose{Point: r2.Vec{X: 500, Y: 0}}, straight, arc, back)
	if err != nil {
		log.Fatal(err)
	}
	end := line.End()
	fmt.Printf("%.1f mm long, ends at %.1f east, %.1f north, heading %.2f°\n", float64(line.Length()), end.Point.X, end.Point.Y, end.Heading.Degrees())
	// Output:
	// 3570.8 mm long, ends at 3525.2 east, 1345.6 north, heading 37.08°
}

// An easement between two arcs of a compound curve: the curvature goes from the
// one radius to the other.
func ExampleNewEasement() {
	ease, err := curve.NewEasement(curve.Bloss, 600, 1./3000, 1./1500)
	if err != nil {
		log.Fatal(err)
	}
	for s := measure.Length(0); s <= 600; s += 200 {
		radius, hand, _ := curve.RadiusOf(ease.CurvatureAt(s))
		fmt.Printf("%3.0f mm: R %.0f %v\n", float64(s), float64(radius), hand)
	}
	fmt.Printf("turns %.2f°\n", ease.Turn().Degrees())
	// Output:
	// 0 mm: R 3000 left
	// 200 mm: R 2382 left
	// 400 mm: R 1723 left
	// 600 mm: R 1500 left
	// turns 17.19°
}

// A bend of 90° that a springy batten eases: 700 mm of it along each straight.
func ExampleBend_Elements() {
	bend, err := curve.Bend{
		Radius: 2 * measure.Metre,
		Turn:   90 * measure.Degree,
		Hand:   curve.Right,
		EaseIn: 700, EaseOut: 700,
		Shape: curve.Lath,
	}.Elements()
	if err != nil {
		log.Fatal(err)
	}
	for _, e := range bend {
		fmt.Printf("%-4v %8.2f mm turning %6.2f°\n", e.Shape(), float64(e.Length()), e.Turn().Degrees())
	}
	// Output:
	// lath   702.17 mm turning -10.08°
	// arc   2437.97 mm turning -69.84°
	// lath   702.17 mm turning -10.08°
}

// The lath as an easement from a straight to a radius of 2 m.
func ExampleNewLath() {
	lath, err := curve.NewLath(900, 2000, curve.Left)
	if err != nil {
		log.Fatal(err)
	}
	line, err := curve.New(curve.Pose{}, lath)
	if err != nil {
		log.Fatal(err)
	}
	end := line.At(line.Length())
	fmt.Printf("%.2f mm of batten reach %.1f along and %.2f beside the straight, at %.3f°\n",
		float64(line.Length()), end.Point.X, end.Point.Y, end.Heading.Degrees())
	// Output:
	// 904.66 mm of batten reach 900.0 along and 68.25 beside the straight, at 13.003°
}

// A batten of 1109 mm held at two poses takes its curve by itself: it is
// sharpest within it.
func ExampleNewLathBetween() {
	to := curve.Pose{Point: r2.Vec{X: 1000, Y: 400}, Heading: 45 * measure.Degree}
	lath, err := curve.NewLathBetween(curve.Pose{}, to, 1109)
	if err != nil {
		log.Fatal(err)
	}
	s, k := lath.Sharpest()
	radius, hand, _ := curve.RadiusOf(k)
	fmt.Printf("sharpest at %.0f mm: R %.0f %v\n", float64(s), float64(radius), hand)
	_, err = curve.NewLathBetween(curve.Pose{}, to, 1000)
	fmt.Println(errors.Is(err, measure.ErrNoAnswer))
	// Output:
	// sharpest at 611 mm: R 1213 left
	// true
}

// A part of an easement, taken to pieces and made again.
func ExampleForm() {
	whole, err := curve.NewEasement(curve.Sine, 800, 0, 1./1200)
	if err != nil {
		log.Fatal(err)
	}
	part, err := whole.Part(200, 500)
	if err != nil {
		log.Fatal(err)
	}
	f := part.Form()
	again, err := f.Element()
	fmt.Printf("%v, %v long, from %v of %v, to R %.0f\n", f.Shape, f.Length, f.From, f.Whole, 1/float64(f.End))
	fmt.Println(again == part, err)
	// Output:
	// sine, 300 mm long, from 200 mm of 800 mm, to R 1200
	// true <nil>
}
