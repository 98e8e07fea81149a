package closing_test

import (
	"context"
	"fmt"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/closing"
	"example.org/fourfoot/gauge/measure"
)

// A circuit was laid with one side 12 mm long and one corner 1° short. The
// sides can each be trimmed or eked out by 10 mm, and each corner bent by 1.5°.
func ExampleClose() {
	corner := func(turn measure.Angle) closing.Part {
		return closing.Part{
			Bend:   curve.Bend{Radius: 1500, Turn: turn, Hand: curve.Left, EaseIn: 300, EaseOut: 300},
			TurnBy: 1.5 * measure.Degree,
		}
	}
	side := func(length measure.Length) closing.Part {
		return closing.Part{Straight: length, StraightBy: 10}
	}
	parts := []closing.Part{
		side(4012), corner(90 * measure.Degree), side(2000), corner(90 * measure.Degree),
		side(4000), corner(90 * measure.Degree), side(2000), corner(89 * measure.Degree),
	}
	c, err := closing.Close(context.Background(), curve.Pose{}, parts...)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("misses by %.1f mm and %.2f°\n", float64(c.Before.Distance()), c.Before.Heading.Degrees())
	for i, ch := range c.Changes {
		fmt.Printf("part %d: length %+.1f mm, turn %+.2f°\n", i+1, float64(ch.Straight), ch.Turn.Degrees())
	}

	for i := range parts {
		parts[i].TurnBy = 0
	}
	_, err = closing.Close(context.Background(), curve.Pose{}, parts...)
	fmt.Println(err)
	// Output:
	// misses by 14.4 mm and -1.00°
	// part 1: length -0.8 mm, turn +0.00°
	// part 2: length +0.0 mm, turn +0.38°
	// part 3: length +0.3 mm, turn +0.00°
	// part 4: length +0.0 mm, turn -0.37°
	// part 5: length +0.8 mm, turn +0.00°
	// part 6: length +0.0 mm, turn +0.12°
	// part 7: length -0.3 mm, turn +0.00°
	// part 8: length +0.0 mm, turn +0.88°
	// closing: heading: the turns add up to 359° of 360°: 1° are missing, and no turn may change; free a turn, or a radius that keeps its arc
}

// A line that was drawn to close, and does not quite.
func ExamplePartsOf() {
	bend, err := curve.Bend{Radius: 1500, Turn: 180 * measure.Degree, Hand: curve.Left, EaseIn: 300, EaseOut: 300}.Elements()
	if err != nil {
		fmt.Println(err)
		return
	}
	side, err := curve.NewStraight(4000)
	if err != nil {
		fmt.Println(err)
		return
	}
	back, err := curve.NewStraight(4006)
	if err != nil {
		fmt.Println(err)
		return
	}
	elements := append(append(append([]curve.Element{side}, bend...), back), bend...)
	line, err := curve.New(curve.Pose{}, elements...)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("misses by %.1f mm\n", float64(closing.MisclosureOf(line).Distance()))

	parts, err := closing.PartsOf(line)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i := range parts {
		if parts[i].Straight > 0 {
			parts[i].StraightBy = 10
		}
	}
	c, err := closing.Close(context.Background(), line.Start(), parts...)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, ch := range c.Changes {
		fmt.Printf("part %d: %+.1f mm\n", i+1, float64(ch.Straight))
	}
	// Output:
	// misses by 6.0 mm
	// part 1: +3.0 mm
	// part 2: +0.0 mm
	// part 3: -3.0 mm
	// part 4: +0.0 mm
}
