package limit_test

import (
	"context"
	"fmt"
	"math"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/limit"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

var stock = []clearance.Vehicle{
	clearance.Bogie("coach", 443, 80, clearance.Band{Name: "body", Bottom: 12, Top: 120, Outline: clearance.Box(614, 88)}),
	clearance.Rigid("wagon", 110, clearance.Band{Name: "body", Bottom: 8, Top: 90, Outline: clearance.Box(190, 92)}),
}

// How sharp may the bend through an arch be that is 130 mm wide, the track in
// its middle, and what a millimetre more of anything would change.
func ExampleBend_ForOpening() {
	bend := limit.Bend{Stock: stock, Margin: 6, Allowances: clearance.Allowances{Play: 0.5, Laying: 1}}
	r, err := bend.ForOpening(context.Background(), 65, 65)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("least radius %.0f mm, by the %s on the %v\n", r.Least.Millimetres(), r.By.Vehicle, r.Side)
	for _, x := range r.Rates {
		if math.Abs(x.Change) > 0.5 {
			fmt.Printf("  a mm more of %s: %+.0f mm of radius\n", x.Input, x.Change)
		}
	}
	_, err = bend.ForOpening(context.Background(), 52, 52)
	fmt.Println(err)
	// Output:
	// least radius 1883 mm, by the coach on the left
	//   a mm more of inside half-width: -138 mm of radius
	//   a mm more of margin: +138 mm of radius
	//   a mm more of pivot spacing: +8 mm of radius
	//   a mm more of body width: +69 mm of radius
	//   a mm more of bogie wheelbase: +1 mm of radius
	// limit: inside half-width 52 mm: is too narrow for wagon even on straight track: it must be more than 53.8636 mm
}

// How sharp may the inner of two tracks be that lie 120 mm apart.
func ExampleBend_ForSpacing() {
	bend := limit.Bend{Stock: stock, Margin: 8}
	r, err := bend.ForSpacing(context.Background(), 120, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	rate, _ := r.Rate("spacing")
	fmt.Printf("least radius of the inner track %.0f mm; %+.0f mm for each mm of spacing\n", r.Least.Millimetres(), rate)
	// Output: least radius of the inner track 1854 mm; -82 mm for each mm of spacing
}

// A platform inside the bend whose coping is 30 mm up: no door of the coach more
// than 15 mm from its edge.
func ExampleBend_ForPlatform() {
	bend := limit.Bend{Stock: stock[:1], Margin: 3}
	r, err := bend.ForPlatform(context.Background(), limit.Platform{Side: curve.Left, Coping: 30, Step: 15})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("least radius %.0f mm, the edge then %.1f mm from the track centreline\n", r.Least.Millimetres(), r.Edge.Millimetres())
	// Output: least radius 3971 mm, the edge then 53.4 mm from the track centreline
}

// The widest coach of this length, and the longest of this width, that clear
// the tunnel; and what of the present stock does not.
func ExampleRoute_Widest() {
	route, err := rockery()
	if err != nil {
		fmt.Println(err)
		return
	}
	w, err := route.Widest(context.Background(), stock[0])
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("widest: %.1f mm, by the %v %s\n", w.Size.Millimetres(), w.By.Kind, w.By.Structure)
	l, err := route.Longest(context.Background(), stock[0])
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("longest: %.0f mm on pivots %.0f mm apart\n", l.Size.Millimetres(), l.Vehicle.Bodies[0].Pivots.Millimetres())
	// Output:
	// widest: 82.0 mm, by the tunnel rockery
	// longest: 556 mm on pivots 401 mm apart
}

// What each millimetre of the pattern and of the margin is worth to the widest
// coach. Any other answer is asked the same way.
func ExampleRates() {
	route, err := rockery()
	if err != nil {
		fmt.Println(err)
		return
	}
	rates, err := limit.Rates(func(x []measure.Length) (measure.Length, error) {
		r := route
		r.Margin = x[0]
		w, err := r.Widest(context.Background(), clearance.Bogie("coach", x[1], x[2], clearance.Band{Bottom: 12, Top: 120, Outline: clearance.Box(614, 88)}))
		return w.Size, err
	},
		limit.Input[measure.Length]{Name: "margin", Value: 5},
		limit.Input[measure.Length]{Name: "pivot spacing", Value: 443},
		limit.Input[measure.Length]{Name: "bogie wheelbase", Value: 80},
	)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, x := range rates {
		fmt.Printf("a mm more of %s: %+.2f mm\n", x.Input, x.Change)
	}
	// Output:
	// a mm more of margin: -2.00 mm
	// a mm more of pivot spacing: -0.15 mm
	// a mm more of bogie wheelbase: -0.03 mm
}

// Which vehicle passes what, and why not.
func ExampleNewMatrix() {
	route, err := rockery()
	if err != nil {
		fmt.Println(err)
		return
	}
	e, err := clearance.Sweep(context.Background(), route.Line, stock, clearance.Settings{})
	if err != nil {
		fmt.Println(err)
		return
	}
	m, err := limit.NewMatrix(context.Background(), e, route.Structures, route.Margin)
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, row := range m.Cells {
		for j, f := range row {
			fmt.Printf("%s, %s: %v\n", m.Stock[i], m.Structures[j], f.Verdict)
		}
	}
	for _, n := range m.Nos() {
		fmt.Println(n.Text)
	}
	// Output:
	// coach, rockery: tight
	// wagon, rockery: pass
	// rockery: coach has only 2.0 mm on the left, 3.0 mm less than the margin, at chainage 2400 mm: side of its body, 0.1 mm behind the middle of its pivots
}

// rockery is a tunnel on an eased bend of 1.5 m radius.
func rockery() (limit.Route, error) {
	s, err := curve.NewStraight(1500)
	if err != nil {
		return limit.Route{}, err
	}
	b, err := curve.Bend{Radius: 1500, Turn: 90 * measure.Degree, Hand: curve.Left, EaseIn: 600, EaseOut: 600}.Elements()
	if err != nil {
		return limit.Route{}, err
	}
	line, err := curve.New(curve.Pose{}, append(append([]curve.Element{s}, b...), s)...)
	if err != nil {
		return limit.Route{}, err
	}
	return limit.Route{Line: line, Margin: 5, Structures: []clearance.Structure{{
		Name: "rockery", Kind: clearance.Tunnel, Faces: []clearance.Face{
			{Side: curve.Left, From: 2400, To: 3200, Offset: 63},
			{Side: curve.Right, From: 2400, To: 3200, Offset: 63},
		}, Roofs: []clearance.Roof{{From: 2400, To: 3200, Height: 140}},
	}}}, nil
}
