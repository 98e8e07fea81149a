package nem_test

import (
	"fmt"

	"example.org/fourfoot/clearance/nem"
)

// The widening that a standard prints, and a cell that it leaves blank.
func ExampleWidening() {
	w, err := nem.Widening("I", "B", 1600)
	fmt.Printf("%.0f mm, %v\n", w.Millimetres(), err)
	_, err = nem.Widening("I", "C", 1000)
	fmt.Println(err != nil)
	// Output:
	// 18 mm, <nil>
	// true
}

// The opening on straight track for size I.
func ExampleStraightOpening() {
	o, err := nem.StraightOpening("I")
	fmt.Printf("%.0f mm wide, %.0f mm high, %v\n", o.Width.Millimetres(), o.Height.Millimetres(), err)
	// Output:
	// 130 mm wide, 150 mm high, <nil>
}
