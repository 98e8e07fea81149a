package coupling_test

import (
	"context"
	"fmt"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/coupling"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

func saloon() coupling.Car {
	return coupling.Car{
		Vehicle: clearance.Bogie("saloon", 443, 80, clearance.Band{Top: 120, Outline: clearance.Box(614, 88)}),
		Rear:    coupling.End{Hinge: -292, Length: 25, Swing: 12 * measure.Degree, Buffers: coupling.Buffers{Face: -315, Centres: 55, Width: 15}},
		Front:   coupling.End{Hinge: 292, Length: 25, Swing: 12 * measure.Degree, Buffers: coupling.Buffers{Face: 315, Centres: 55, Width: 15}},
	}
}

// A coupling on its way through a reverse curve: where it is worst.
func ExampleAlong() {
	left, err := curve.NewArc(3*measure.Metre, 60*measure.Degree, curve.Left)
	if err != nil {
		fmt.Println(err)
		return
	}
	line, err := curve.New(curve.Pose{}, left, left.Mirror())
	if err != nil {
		fmt.Println(err)
		return
	}
	f, err := coupling.Along(context.Background(), line, coupling.Pair{Behind: saloon(), Ahead: saloon()})
	if err != nil {
		fmt.Println(err)
		return
	}
	o := f.Overlap
	fmt.Printf("least overlap %.1f mm at chainage %.0f mm, locked: %v\n", o.Overlap.Millimetres(), o.Chainage.Millimetres(), o.Locked())
	swing, _ := f.Swing()
	fmt.Printf("swing left %.1f°\n", swing.Degrees())
	// Output:
	// least overlap -1.4 mm at chainage 3142 mm, locked: true
	// swing left -7.4°
}

// The straight that the same reverse curve needs, so that the buffers overlap.
func ExampleStraightNeeded() {
	pair := coupling.Pair{Behind: saloon(), Ahead: saloon()}
	l, err := coupling.StraightNeeded(context.Background(), pair, coupling.OverlapLimit, coupling.Reversal{First: 3000, Second: 3000})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f mm\n", l.Millimetres())
	// Output:
	// 132 mm
}

// The easements it needs for the couplers to swing no farther than they can.
func ExampleEasementNeeded() {
	pair := coupling.Pair{Behind: saloon(), Ahead: saloon()}
	l, err := coupling.EasementNeeded(context.Background(), pair, coupling.SwingLimit, coupling.Reversal{First: 3000, Second: 3000}, curve.Bloss)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f mm each\n", l.Millimetres())
	// Output:
	// 415 mm each
}

// The sharpest curve that the pair passes into and out of from straight track.
func ExampleLeastRadius() {
	pair := coupling.Pair{Behind: saloon(), Ahead: saloon()}
	r, err := coupling.LeastRadius(context.Background(), pair, coupling.SwingLimit, coupling.Entry)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f mm\n", r.Millimetres())
	// Output:
	// 3166 mm
}

// An engine and its tender on a drawbar of 30 mm between two pins, on a curve of
// 1.5 m: each stands on its own wheels, the drawbar swings between them.
func ExampleAt_engineAndTender() {
	const drawbar = 30
	engine := coupling.Car{
		Vehicle: clearance.Rigid("engine", 120, clearance.Band{Top: 110, Outline: clearance.Box(240, 80)}),
		Rear:    coupling.End{Hinge: -100, Length: drawbar},
		Front:   coupling.End{Hinge: 120},
	}
	tender := coupling.Car{
		Vehicle: clearance.Rigid("tender", 100, clearance.Band{Top: 90, Outline: clearance.Box(150, 80)}),
		Rear:    coupling.End{Hinge: -75},
		Front:   coupling.End{Hinge: 70}, // the bar is the engine's
	}
	arc, err := curve.NewArc(1500, 90*measure.Degree, curve.Left)
	if err != nil {
		fmt.Println(err)
		return
	}
	line, err := curve.New(curve.Pose{}, arc)
	if err != nil {
		fmt.Println(err)
		return
	}
	j, err := coupling.At(line, coupling.Pair{Behind: tender, Ahead: engine}, 1200)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("drawbar swings %.2f° from the engine's middle line\n", j.SwingAhead.Degrees())
	fmt.Printf("the tender's rear axle is %.2f mm behind the engine's\n", (1200 - j.BehindAxle).Millimetres())
	// Output:
	// drawbar swings -6.93° from the engine's middle line
	// the tender's rear axle is 189.85 mm behind the engine's
}
