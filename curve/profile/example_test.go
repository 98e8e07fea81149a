package profile_test

import (
	"fmt"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// A climb of 1 in 50 between two level lengths, with vertical curves of 8 m
// radius.
func ExampleNewLevel() {
	l, err := profile.NewLevel(
		profile.Point{Chainage: 0, Level: 200},
		profile.Point{Chainage: 2000, Level: 200, Radius: 8 * measure.Metre},
		profile.Point{Chainage: 7000, Level: 300, Radius: 8 * measure.Metre},
		profile.Point{Chainage: 9000, Level: 300},
	)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range []measure.Length{1900, 2000, 4500, 7000} {
		fmt.Printf("chainage %.0f: level %.2f, gradient %.2f %%\n", s.Millimetres(), l.At(s).Millimetres(), 100*float64(l.Gradient(s)))
	}
	long, err := l.TrueLength(0, 9000)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("along the slope %.2f mm\n", long.Millimetres())
	// Output:
	// chainage 1900: level 200.00, gradient 0.00 %
	// chainage 2000: level 200.40, gradient 1.00 %
	// chainage 4500: level 250.00, gradient 2.00 %
	// chainage 7000: level 299.60, gradient 1.00 %
	// along the slope 9000.99 mm
}

// A lap described by its gradients has to come back to its level.
func ExampleNewClosedLevel() {
	points := profile.Points(profile.Point{},
		profile.Section{Length: 5 * measure.Metre, Gradient: measure.OneIn(50)},
		profile.Section{Length: 5 * measure.Metre, Gradient: -measure.OneIn(60)})
	_, err := profile.NewClosedLevel(10*measure.Metre, 0.5*measure.Millimetre, points...)
	fmt.Println(err)
	// Output:
	// profile: levels of the circuit 16.6666667 mm apart where it meets its start: must agree within 0.5 mm; gradients over the lap must add up to no rise
}

// Cant of 3 mm, NEM 114's most at 45 mm gauge, on a bend with Bloss easements.
func ExampleNewBendCant() {
	bend, err := curve.Bend{Radius: 3 * measure.Metre, Turn: 90 * measure.Degree, Hand: curve.Left, EaseIn: 1340, EaseOut: 1340, Shape: curve.Bloss}.Elements()
	if err != nil {
		fmt.Println(err)
		return
	}
	line, err := curve.New(curve.Pose{}, bend...)
	if err != nil {
		fmt.Println(err)
		return
	}
	cant, err := profile.NewBendCant(line, profile.InnerRail, 3)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range []measure.Length{0, 335, 670, 1340} {
		left, right := cant.Rails(s)
		fmt.Printf("chainage %.0f: left rail %+.2f, right rail %+.2f\n", s.Millimetres(), left.Millimetres(), right.Millimetres())
	}
	twist, err := cant.MaxTwist(0, line.Length(), 150)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("a 150 mm wheelbase is twisted by %.2f mm at chainage %.0f\n", twist.Change.Millimetres(), twist.Chainage.Millimetres())
	// Output:
	// chainage 0: left rail +0.00, right rail +0.00
	// chainage 335: left rail +0.00, right rail +0.47
	// chainage 670: left rail +0.00, right rail +1.50
	// chainage 1340: left rail +0.00, right rail +3.00
	// a 150 mm wheelbase is twisted by 0.50 mm at chainage 595
}
