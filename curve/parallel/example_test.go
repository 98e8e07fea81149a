package parallel_test

import (
	"fmt"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/parallel"
	"example.org/fourfoot/gauge/measure"
)

func eased() (*curve.Alignment, error) {
	straight, err := curve.NewStraight(2 * measure.Metre)
	if err != nil {
		return nil, err
	}
	bend, err := curve.Bend{Radius: 2500, Turn: 90 * measure.Degree, Hand: curve.Left, EaseIn: 800, EaseOut: 800}.Elements()
	if err != nil {
		return nil, err
	}
	return curve.New(curve.Pose{}, append([]curve.Element{straight}, bend...)...)
}

// The inner track of a double line, 165 mm to the left.
func ExampleNew() {
	line, err := eased()
	if err != nil {
		fmt.Println(err)
		return
	}
	track, err := parallel.New(line, 165)
	if err != nil {
		fmt.Println(err)
		return
	}
	sharpest, _ := track.Sharpest()
	fmt.Printf("line %.1f mm, track %.1f mm, its smallest radius %.0f mm\n", line.Length().Millimetres(), track.Length().Millimetres(), 1/float64(sharpest.Curvature))
	_, err = parallel.New(line, 2600)
	fmt.Println(err)
	// Output:
	// line 6727.0 mm, track 6467.8 mm, its smallest radius 2335 mm
	// parallel: offset 2600 mm: must not reach the centre of curvature: at chainage 2800 mm it must be less than the radius of 2500 mm on that side
}

// The spacing grows from 165 mm on the straight to 190 mm on the arc.
func ExampleNewTapered() {
	line, err := eased()
	if err != nil {
		fmt.Println(err)
		return
	}
	track, err := parallel.NewTapered(line, parallel.Offset{Chainage: 1000, Offset: 165}, parallel.Offset{Chainage: 2800, Offset: 190})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, s := range []measure.Length{1000, 1900, 2800} {
		st := track.At(track.Chainage(s))
		fmt.Printf("line %.0f, track %.1f: offset %.1f, curvature %+.6f\n", s.Millimetres(), st.Chainage.Millimetres(), st.Offset.Millimetres(), float64(st.Curvature))
	}
	// Output:
	// line 1000, track 1000.0: offset 165.0, curvature +0.000000
	// line 1900, track 1900.1: offset 177.5, curvature +0.000000
	// line 2800, track 2770.1: offset 190.0, curvature +0.000433
}
