package expansion_test

import (
	"errors"
	"fmt"
	"math"

	"example.org/fourfoot/expansion"
	"example.org/fourfoot/gauge/measure"
)

// A line of brass rail on concrete in panels of 1.8 m, each held at its middle.
func gardenJoint() (expansion.Joint, []expansion.State) {
	j := expansion.EqualPanels(1800*measure.Millimetre, 19*measure.MicroPerKelvin, 12*measure.MicroPerKelvin)
	j.Widest = 4 * measure.Millimetre
	j.Joiner = expansion.Joiner{Length: 28 * measure.Millimetre, Engagement: 8 * measure.Millimetre}
	climate, err := expansion.Corners(measure.Celsius(-15), measure.Celsius(50), measure.Celsius(-10), measure.Celsius(35))
	if err != nil {
		panic(err)
	}
	return j, climate
}

func ExampleJoint_Gaps() {
	j, climate := gardenJoint()
	today := expansion.State{Rail: measure.Celsius(20), Base: measure.Celsius(18)}
	g, err := j.Gaps(today, climate)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("leave %.2f to %.2f mm\n", g.Least.Millimetres(), g.Most.Millimetres())
	fmt.Println("tight:", g.Tight.Name)
	fmt.Println("wide:", g.Wide.Name)
	// Output:
	// leave 1.63 to 2.44 mm
	// tight: rail hottest, base coldest
	// wide: rail coldest, base warmest
}

func ExampleJoint_Gaps_none() {
	j, climate := gardenJoint()
	j.Before.Free, j.After.Free = 2700, 2700
	_, err := j.Gaps(expansion.State{Rail: 20, Base: 18}, climate)
	fmt.Println(errors.Is(err, measure.ErrNoAnswer))
	fmt.Println(err)
	longest, _ := j.Longest(climate)
	fmt.Printf("longest %.1f mm\n", longest.Millimetres())
	// Output:
	// true
	// expansion: gap for 5400 mm of free rail: none suits both rail hottest, base coldest (rail 50 °C, base -10 °C) and rail coldest, base warmest (rail -15 °C, base 35 °C): the joint moves 9.58 mm and may move 4.00 mm (wheels); at most 2253 mm of free rail, or a reach of 9.59 mm, would do
	// longest 2253.5 mm
}

func ExampleJoint_LayingWindow() {
	j, climate := gardenJoint()
	w, err := j.LayingWindow(2*measure.Millimetre, 0, climate)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("2 mm is right from %.0f to %.0f °C\n", w.Low.Celsius(), w.High.Celsius())
	// Output:
	// 2 mm is right from -6 to 35 °C
}

func ExampleCard_Text() {
	j, climate := gardenJoint()
	c, err := j.Card(expansion.CardOptions{Title: "Brass, 1.8 m panels on concrete", Step: 10}, climate)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Print(c.Text())
	// Output:
	// Brass, 1.8 m panels on concrete
	// Gap to leave at a rail joint
	//
	//       rail         base |        gap, mm        |         gap, in
	//     °C    °F     °C    °F | least    aim    most  | least     aim    most
	//  -10.0    14  -10.0    14 |  2.06   2.45   2.85  | 0.081   0.097   0.112
	//    0.0    32    0.0    32 |  1.93   2.33   2.73  | 0.076   0.092   0.107
	//   10.0    50   10.0    50 |  1.80   2.20   2.60  | 0.071   0.087   0.102
	//   20.0    68   20.0    68 |  1.68   2.08   2.47  | 0.066   0.082   0.097
	//   30.0    86   30.0    86 |  1.55   1.95   2.35  | 0.061   0.077   0.092
	//
	// Tightest: rail hottest, base coldest (rail 50 °C, 122 °F; base -10 °C, 14 °F).
	// Widest: rail coldest, base warmest (rail -15 °C, 5 °F; base 35 °C, 95 °F); at most 4.00 mm, 0.157 in (wheels).
	// Read the rail, not the air. Rail in the sun burns the hand. Clamp rail to cut it, goggles on, deburr. Rails that carry current need a bond across the gap.
}

func ExampleFindMaterial() {
	m, err := expansion.FindMaterial("brass")
	if err != nil {
		fmt.Println(err)
		return
	}
	a := m.Expansion
	fmt.Printf("%.1f, tables from %.1f to %.1f per million and kelvin\n", a.Value.PerKelvins()*1e6, a.Low.PerKelvins()*1e6, a.High.PerKelvins()*1e6)
	// Output:
	// 19.0, tables from 18.0 to 20.9 per million and kelvin
}

func ExampleJoint_Longest() {
	j, climate := gardenJoint()
	longest, err := j.Longest(climate)
	if err != nil {
		fmt.Println(err)
		return
	}
	reach, by := j.Reach()
	fmt.Printf("panels up to %.0f mm; the widest gap is %.1f mm (%v)\n", math.Floor(longest.Millimetres()), reach.Millimetres(), by)
	// Output:
	// panels up to 2253 mm; the widest gap is 4.0 mm (wheels)
}

func ExampleJoint_Rates() {
	j, climate := gardenJoint()
	least, _, err := j.Rates(expansion.State{Rail: measure.Celsius(20), Base: measure.Celsius(18)}, climate)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range least[:2] {
		fmt.Printf("the least gap changes by %+.3f mm for %s of %s\n", r.By.Millimetres(), r.Per, r.Input)
	}
	// Output:
	// the least gap changes by -0.034 mm for 1 K of rail temperature today
	// the least gap changes by +0.022 mm for 1 K of base temperature today
}
