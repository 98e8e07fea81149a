package clearance_test

import (
	"context"
	"fmt"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// A coach on a curve: what its middle and its ends do, and the approximation
// in use beside it.
func ExampleThrows() {
	coach := clearance.Bogie("coach", 443, 80, clearance.Band{Top: 120, Outline: clearance.Box(614, 88)})
	t, err := clearance.Throws(coach, 2*measure.Metre)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("centre throw %.2f mm (C²/8R says %.2f)\n", t[0].Centre.Millimetres(), t[0].CentreApprox.Millimetres())
	fmt.Printf("end throw %.2f mm\n", t[0].End().Millimetres())
	fmt.Printf("reach inside %.2f mm, outside %.2f mm\n", t[0].Inside.Millimetres(), t[0].Outside.Millimetres())
	// Output:
	// centre throw 12.71 mm (C²/8R says 12.27)
	// end throw 10.87 mm
	// reach inside 56.71 mm, outside 54.36 mm
}

// line is a straight, an eased bend of 1.5 m radius through a quarter turn, and
// a straight.
func line() (*curve.Alignment, error) {
	in, err := curve.NewStraight(2000)
	if err != nil {
		return nil, err
	}
	bend, err := curve.Bend{Radius: 1500, Turn: 90 * measure.Degree, Hand: curve.Left, EaseIn: 800, EaseOut: 800}.Elements()
	if err != nil {
		return nil, err
	}
	return curve.New(curve.Pose{}, append(append([]curve.Element{in}, bend...), in)...)
}

// The space that two vehicles need along a real line, and what governs it.
func ExampleSweep() {
	l, err := line()
	if err != nil {
		fmt.Println(err)
		return
	}
	stock := []clearance.Vehicle{
		clearance.Bogie("coach", 443, 80, clearance.Band{Top: 120, Outline: clearance.Box(614, 88)}),
		clearance.Rigid("wagon", 110, clearance.Band{Top: 90, Outline: clearance.Box(190, 92)}),
	}
	e, err := clearance.Sweep(context.Background(), l, stock, clearance.Settings{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, c := range []measure.Length{1000, 2200, 3200} {
		for _, side := range []curve.Hand{curve.Left, curve.Right} {
			r, err := e.At(c, side, clearance.Heights{})
			if err != nil {
				fmt.Println(err)
				return
			}
			fmt.Printf("at %.0f mm %v: %.1f mm, %s\n", c.Millimetres(), side, r.Reach.Millimetres(), r.By.Vehicle)
		}
	}
	// Output:
	// at 1000 mm left: 46.0 mm, wagon
	// at 1000 mm right: 46.0 mm, wagon
	// at 2200 mm left: 48.7 mm, coach
	// at 2200 mm right: 51.2 mm, coach
	// at 3200 mm left: 61.0 mm, coach
	// at 3200 mm right: 57.6 mm, coach
}

// engineAndTender is a six-coupled engine with a leading truck on a radius bar,
// and its tender on three axles: two vehicles, each on its own axles.
func engineAndTender() []clearance.Vehicle {
	engine := clearance.Rigid("engine", 150,
		clearance.Band{Name: "cylinders", Bottom: 8, Top: 34, Outline: clearance.Box(60, 98).Moved(105)},
		clearance.Band{Name: "cab and footplate", Bottom: 34, Top: 118, Outline: clearance.Box(290, 90).Moved(30)})
	engine.Bodies[0].Inner = []clearance.Axle{{Along: 5, Play: 0.5}}
	engine.Bodies[0].Trucks = []clearance.Truck{{Hinge: 60, Bar: 85, Bands: []clearance.Band{{Name: "truck", Bottom: 2, Top: 26, Outline: clearance.Box(44, 70)}}}}
	tender := clearance.Rigid("tender", 130, clearance.Band{Name: "tank", Bottom: 12, Top: 100, Outline: clearance.Box(200, 94)})
	tender.Bodies[0].Inner = []clearance.Axle{{Play: 0.5}}
	return []clearance.Vehicle{engine, tender}
}

// An engine and its tender in one sweep: which of the two asks for the space,
// and with which part, beside the cylinders and higher up.
func ExampleSweep_engineAndTender() {
	l, err := line()
	if err != nil {
		fmt.Println(err)
		return
	}
	e, err := clearance.Sweep(context.Background(), l, engineAndTender(), clearance.Settings{Allowances: clearance.Allowances{Play: 0.8}})
	if err != nil {
		fmt.Println(err)
		return
	}
	low, high := clearance.Heights{From: 0, To: 30}, clearance.Heights{From: 40, To: 120}
	for _, side := range []curve.Hand{curve.Left, curve.Right} {
		for _, h := range []clearance.Heights{low, high} {
			r, err := e.At(3200, side, h)
			if err != nil {
				fmt.Println(err)
				return
			}
			fmt.Printf("%v, %.0f to %.0f mm up: %.1f mm, %s of the %s\n", side, h.From.Millimetres(), h.To.Millimetres(), r.Reach.Millimetres(), r.By.Band, r.By.Vehicle)
		}
	}
	// Output:
	// left, 0 to 30 mm up: 49.7 mm, cylinders of the engine
	// left, 40 to 120 mm up: 49.2 mm, tank of the tender
	// right, 0 to 30 mm up: 54.4 mm, cylinders of the engine
	// right, 40 to 120 mm up: 54.9 mm, cab and footplate of the engine
}

// A tunnel that is too narrow for the coach, and what would cure it.
func ExampleEnvelope_Audit() {
	l, err := line()
	if err != nil {
		fmt.Println(err)
		return
	}
	coach := clearance.Bogie("coach", 443, 80, clearance.Band{Name: "body", Top: 120, Outline: clearance.Box(614, 88)})
	e, err := clearance.Sweep(context.Background(), l, []clearance.Vehicle{coach}, clearance.Settings{})
	if err != nil {
		fmt.Println(err)
		return
	}
	tunnel := clearance.Structure{Name: "under the rockery", Kind: clearance.Tunnel, Faces: []clearance.Face{
		{Side: curve.Left, From: 2500, To: 3500, Offset: 60},
		{Side: curve.Right, From: 2500, To: 3500, Offset: 65},
	}}
	findings, err := e.Audit(context.Background(), []clearance.Structure{tunnel}, 5)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range findings {
		fmt.Printf("%v %s: %v, gap %.1f mm on the %v, by the %s's %s\n", f.Kind, f.Structure, f.Verdict, f.Gap.Millimetres(), f.Side, f.By.Vehicle, f.By.Band)
		fmt.Printf("widen by %.1f mm, or ease the curve to %.0f mm\n", f.Remedy.WidenBy.Millimetres(), f.Remedy.EaseTo.Millimetres())
	}
	// Output:
	// tunnel under the rockery: foul, gap -1.0 mm on the left, by the coach's body
	// widen by 6.0 mm, or ease the curve to 2308 mm
}

// An arched bridge over the bend: its arch springs 100 mm up from walls 72 mm to
// either side.
func ExampleRoof() {
	l, err := line()
	if err != nil {
		fmt.Println(err)
		return
	}
	coach := clearance.Bogie("coach", 443, 80,
		clearance.Band{Name: "body", Bottom: 10, Top: 105, Outline: clearance.Box(614, 88)},
		clearance.Band{Name: "roof", Bottom: 105, Top: 125, Outline: clearance.Box(600, 60)})
	e, err := clearance.Sweep(context.Background(), l, []clearance.Vehicle{coach}, clearance.Settings{})
	if err != nil {
		fmt.Println(err)
		return
	}
	const from, to = 2900, 3200
	bridge := clearance.Structure{
		Name: "under the path", Kind: clearance.Overbridge,
		Faces: []clearance.Face{{Side: curve.Left, From: from, To: to, Offset: 72}, {Side: curve.Right, From: from, To: to, Offset: 72}},
		Roofs: []clearance.Roof{{From: from, To: to, Height: 100, Rise: 45, Left: 72, Right: 72}},
	}
	findings, err := e.Audit(context.Background(), []clearance.Structure{bridge}, 5)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range findings {
		fmt.Printf("%v %s: %v, gap %.1f mm on the %v, by the %s's %s\n", f.Kind, f.Structure, f.Verdict, f.Gap.Millimetres(), f.Side, f.By.Vehicle, f.By.Band)
		fmt.Printf("raise the arch by %.1f mm, or strike it %.1f mm larger\n", f.Remedy.MoveBy.Millimetres(), f.Remedy.WidenBy.Millimetres())
	}
	// Output:
	// overbridge under the path: tight, gap 3.8 mm on the left, by the coach's roof
	// raise the arch by 1.5 mm, or strike it 1.2 mm larger
}

// What an eight-coupled engine asks of the gauge.
func ExampleGaugeWidening() {
	engine := clearance.Rigid("0-8-0", 300, clearance.Band{Top: 130, Outline: clearance.Box(420, 90)})
	engine.Bodies[0].Inner = []clearance.Axle{{Along: -50, Play: 0.5}, {Along: 50, Play: 0.5}}
	n, err := clearance.GaugeWidening(engine, 1500, 1.5)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("widen by %.2f mm; angle of attack %.1f°\n", n.Widening.Millimetres(), n.Attack.Degrees())
	// Output:
	// widen by 4.68 mm; angle of attack 5.7°
}

// An engine on four coupled wheels with a truck at either end, in the worst
// case of play, laying and a canted track.
func ExampleAllowances() {
	l, err := line()
	if err != nil {
		fmt.Println(err)
		return
	}
	engine := clearance.Rigid("4-4-2", 130, clearance.Band{Name: "footplate", Bottom: 15, Top: 120, Outline: clearance.Box(320, 84)})
	frame := clearance.Band{Bottom: 2, Top: 20, Outline: clearance.Box(70, 60)}
	engine.Bodies[0].Trucks = []clearance.Truck{
		{Hinge: 40, Bar: 75, Bands: []clearance.Band{frame}},
		{Hinge: -60, Bar: -60, Bands: []clearance.Band{frame}},
	}
	cant, err := profile.NewBendCant(l, profile.InnerRail, 3)
	if err != nil {
		fmt.Println(err)
		return
	}
	e, err := clearance.Sweep(context.Background(), l, []clearance.Vehicle{engine}, clearance.Settings{
		Allowances: clearance.Allowances{Play: 1, Laying: 2, Cant: cant, RailCentres: 47.5},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	wall := clearance.Structure{Name: "garden wall", Kind: clearance.Wall, Faces: []clearance.Face{{Side: curve.Left, From: 3000, To: 3300, Offset: 57}}}
	f, err := e.Audit(context.Background(), []clearance.Structure{wall}, 5)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%v: gap %.1f mm, reach %.1f mm, of that\n", f[0].Verdict, f[0].Gap.Millimetres(), f[0].Reach.Millimetres())
	for _, s := range f[0].Shares {
		fmt.Printf("%s %.1f mm\n", s.Name, s.Amount.Millimetres())
	}
	// Output:
	// tight: gap 3.1 mm, reach 53.9 mm, of that
	// play of the wheels 1.0 mm
	// laying tolerance 2.0 mm
	// cant 7.5 mm
}
