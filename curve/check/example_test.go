package check_test

import (
	"fmt"
	"log"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/check"
	"example.org/fourfoot/gauge/measure"
)

func ExampleLine() {
	left, err1 := curve.NewArc(900, 30*measure.Degree, curve.Left)
	straight, err2 := curve.NewStraight(250)
	right, err3 := curve.Bend{Radius: 1500, Turn: 40 * measure.Degree, Hand: curve.Right, EaseIn: 300}.Elements()
	if err1 != nil || err2 != nil || err3 != nil {
		log.Fatal(err1, err2, err3)
	}
	line, err := curve.New(curve.Pose{}, append([]curve.Element{left, straight}, right...)...)
	if err != nil {
		log.Fatal(err)
	}
	found, err := check.Line(line, check.Limits{
		MinRadius:   1000,
		MaxJump:     1. / 2700, // 60 times 45 mm
		MinEasement: 600,
		MinStraight: 400,
	})
	if err != nil {
		log.Fatal(err)
	}
	for _, f := range found {
		fmt.Println(f)
	}
	// Output:
	// element 1 at chainage 0 mm: radius 900 mm: must be at least 1000 mm
	// element 2 at chainage 471.239 mm: jump of curvature R 900 mm left: must be at most R 2700 mm left
	// element 3 at chainage 721.239 mm: length of easement 300 mm: must be at least 600 mm
	// element 3 at chainage 471.239 mm: straight between reverse curves 250 mm: must be at least 400 mm
}
