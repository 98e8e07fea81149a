package opening_test

import (
	"context"
	"fmt"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/nem"
	"example.org/fourfoot/clearance/opening"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// bend is a straight, an eased bend of 1.5 m radius to the left through a
// quarter turn, and a straight; a coach and a wagon run on it.
func bend() (*clearance.Envelope, error) {
	in, err := curve.NewStraight(2000)
	if err != nil {
		return nil, err
	}
	b, err := curve.Bend{Radius: 1500, Turn: 90 * measure.Degree, Hand: curve.Left, EaseIn: 800, EaseOut: 800}.Elements()
	if err != nil {
		return nil, err
	}
	line, err := curve.New(curve.Pose{}, append(append([]curve.Element{in}, b...), in)...)
	if err != nil {
		return nil, err
	}
	stock := []clearance.Vehicle{
		clearance.Bogie("coach", 443, 80,
			clearance.Band{Name: "body", Bottom: 12, Top: 110, Outline: clearance.Box(614, 88)},
			clearance.Band{Name: "roof", Bottom: 110, Top: 130, Outline: clearance.Box(614, 60)}),
		clearance.Rigid("wagon", 110, clearance.Band{Name: "body", Bottom: 8, Top: 90, Outline: clearance.Box(190, 92)}),
	}
	return clearance.Sweep(context.Background(), line, stock, clearance.Settings{Allowances: clearance.Allowances{Play: 0.5, Laying: 1}})
}

// The smallest openings in the middle of a bend, 8 mm clear
// all round, and NEM 102's straight-track opening for size I beside them.
func ExampleSection() {
	e, err := bend()
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := opening.At(e, 3200)
	if err != nil {
		fmt.Println(err)
		return
	}
	const margin = 8
	r, err := s.Rectangle(margin, opening.Free)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("rectangle:", r)
	fmt.Printf("left by the %s's %s, right by the %s's %s\n", r.LeftBy.Vehicle, r.LeftBy.Band, r.RightBy.Vehicle, r.RightBy.Band)
	a, err := s.Arch(opening.ArchForm{Floor: -10}, margin)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("semicircular arch on the centreline, of least area:", a)
	flat, err := s.Arch(opening.ArchForm{Rise: 0.2, Floor: -10, Least: opening.LeastSpan, About: opening.Free}, margin)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("segmental arch of rise 1/5, narrowest: %v, its middle %.1f mm to the left\n", flat, flat.Offset.Millimetres())
	// The sleepers lie in the pipe too.
	s, err = s.With("sleepers", -41, 41, -10, 0)
	if err != nil {
		fmt.Println(err)
		return
	}
	c, err := s.Circle(margin, opening.Free)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println("pipe:", c)
	straight, err := nem.StraightOpening("I")
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("NEM 102, straight track: %.0f mm wide, %.0f mm high\n", straight.Width.Millimetres(), straight.Height.Millimetres())
	// Output:
	// rectangle: 70.5 mm left, 67.3 mm right, 138.0 mm high
	// left by the coach's body, right by the coach's body
	// semicircular arch on the centreline, of least area: span 149.3 mm, springing 86.7 mm up, crown 161.4 mm up
	// segmental arch of rise 1/5, narrowest: span 137.7 mm, springing 123.5 mm up, crown 151.0 mm up, its middle 1.6 mm to the left
	// pipe: 182.2 mm across, its centre 61.4 mm up and 1.5 mm to the left
	// NEM 102, straight track: 130 mm wide, 150 mm high
}

// A tunnel 1.2 m long at the beginning of the bend: curved walls, straight
// walls, and where the straight ones are set out.
func ExampleNewTunnel() {
	e, err := bend()
	if err != nil {
		fmt.Println(err)
		return
	}
	const from, to, margin = 1900, 3100, 8
	for _, walls := range []opening.Walls{opening.CurvedWalls, opening.StraightWalls} {
		t, err := opening.NewTunnel(context.Background(), e, from, to, walls)
		if err != nil {
			fmt.Println(err)
			return
		}
		r, err := t.Section().Rectangle(margin, opening.Free)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v: %.1f mm wide, %.0f mm high\n", walls, r.Width().Millimetres(), r.Height.Millimetres())
		pegs, err := t.Layout(r.Left, r.Right, 300)
		if err != nil {
			fmt.Println(err)
			return
		}
		for _, p := range pegs {
			fmt.Printf("  %.0f: %.1f left, %.1f right\n", p.Chainage.Millimetres(), p.Left.Millimetres(), p.Right.Millimetres())
		}
	}
	// Output:
	// curved walls: 137.7 mm wide, 138 mm high
	//   1900: 70.5 left, 67.3 right
	//   2100: 70.5 left, 67.3 right
	//   2400: 70.5 left, 67.3 right
	//   2700: 70.5 left, 67.3 right
	//   3000: 70.5 left, 67.3 right
	//   3100: 70.5 left, 67.3 right
	// straight walls at their narrowest: 204.5 mm wide, 138 mm high
	//   1900: 56.0 left, 151.3 right
	//   2100: 88.2 left, 118.8 right
	//   2400: 127.2 left, 78.3 right
	//   2700: 136.3 left, 68.5 right
	//   3000: 97.2 left, 113.3 right
	//   3100: 70.9 left, 143.6 right
}

// The card to push round the bend: how far it comes out, and its foot.
func ExampleNewFormer() {
	e, err := bend()
	if err != nil {
		fmt.Println(err)
		return
	}
	f, err := opening.NewFormer(context.Background(), e, 2800, 3600, opening.Card{Margin: 5, Gauge: 45, RailCentres: 47.5})
	if err != nil {
		fmt.Println(err)
		return
	}
	var left, right, top measure.Length
	for _, p := range f.Outline {
		left, right, top = max(left, p.Offset), max(right, -p.Offset), max(top, p.Height)
	}
	fmt.Printf("%.1f mm to the left, %.1f mm to the right, %.1f mm high, %d corners\n", left.Millimetres(), right.Millimetres(), top.Millimetres(), len(f.Outline))
	// Output:
	// 67.5 mm to the left, 64.3 mm to the right, 135.0 mm high, 108 corners
}

// An arched tunnel that is there already, against the stock: how far inside the
// arch all of it stays along the tunnel, and the verdict at a margin of 8 mm.
func ExampleArch_Clear() {
	e, err := bend()
	if err != nil {
		fmt.Println(err)
		return
	}
	tunnel, err := opening.NewTunnel(context.Background(), e, 3000, 3600, opening.CurvedWalls)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, span := range []measure.Length{130, 150, 164} {
		arch := opening.Arch{Offset: -2, Span: span, Floor: -10, Springing: 90, Crown: 90 + span/2, Radius: span / 2}
		gap := arch.Clear(tunnel.Section())
		fmt.Printf("span %v mm: %.1f mm left, %v\n", span.Millimetres(), gap.Millimetres(), clearance.Judge(gap, 8))
	}
	// Output:
	// span 130 mm: -2.5 mm left, foul
	// span 150 mm: 7.5 mm left, tight
	// span 164 mm: 14.5 mm left, pass
}

// The smallest arch round a tunnel's whole length, taken as a structure that is
// audited with everything else beside the line; and the same one 6 mm narrower.
func ExampleTunnel_Arched() {
	e, err := bend()
	if err != nil {
		fmt.Println(err)
		return
	}
	tunnel, err := opening.NewTunnel(context.Background(), e, 3000, 3600, opening.CurvedWalls)
	if err != nil {
		fmt.Println(err)
		return
	}
	arch, err := tunnel.Section().Arch(opening.ArchForm{Floor: -10, About: opening.Free}, 8)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, less := range []measure.Length{0, 6} {
		a := arch
		a.Span -= less
		a.Radius -= less / 2
		a.Crown -= less / 2
		s, err := tunnel.Arched("rockery", a)
		if err != nil {
			fmt.Println(err)
			return
		}
		f, err := e.Audit(context.Background(), []clearance.Structure{s}, 7.9)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%v: %v, %.1f mm, by the %s's %s", a, f[0].Verdict, f[0].Gap.Millimetres(), f[0].By.Vehicle, f[0].By.Band)
		if f[0].Verdict != clearance.Pass {
			fmt.Printf("; raise it by %.1f mm", f[0].Remedy.MoveBy.Millimetres())
		}
		fmt.Println()
	}
	// Output:
	// span 145.6 mm, springing 87.8 mm up, crown 160.6 mm up: pass, 8.0 mm, by the coach's body
	// span 139.6 mm, springing 87.8 mm up, crown 157.6 mm up: tight, 5.0 mm, by the coach's body; raise it by 11.0 mm
}
