package drawing_test

import (
	"bytes"
	"context"
	"fmt"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/drawing"
	"example.org/fourfoot/clearance/opening"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// A former for the whole of a bend of 1.2 m radius, at full size: a sheet as
// large as the card and its margins.
func ExampleFormer() {
	arc, err := curve.NewArc(1200, 180*measure.Degree, curve.Left)
	if err != nil {
		fmt.Println(err)
		return
	}
	line, err := curve.New(curve.Pose{}, arc)
	if err != nil {
		fmt.Println(err)
		return
	}
	coach := clearance.Bogie("coach", 443, 80, clearance.Band{Name: "body", Bottom: 12, Top: 120, Outline: clearance.Box(614, 88)})
	e, err := clearance.Sweep(context.Background(), line, []clearance.Vehicle{coach}, clearance.Settings{})
	if err != nil {
		fmt.Println(err)
		return
	}
	f, err := opening.NewFormer(context.Background(), e, 0, line.Length(), opening.Card{Margin: 5, Gauge: 45, RailCentres: 47.5})
	if err != nil {
		fmt.Println(err)
		return
	}
	b, err := drawing.Former(drawing.Sheet{Name: "former"}, f)
	if err != nil {
		fmt.Println(err)
		return
	}
	first, _, _ := bytes.Cut(b, []byte(" role"))
	fmt.Println(string(first))
	// Output: <svg xmlns="http://www.w3.org/2000/svg" width="159.952mm" height="169mm" viewBox="0 0 159.952 169"
}

// garden is a straight and a bend of 1.5 m radius, with a coach on it.
func garden() (*clearance.Envelope, error) {
	straight, err := curve.NewStraight(1000)
	if err != nil {
		return nil, err
	}
	arc, err := curve.NewArc(1500, 60*measure.Degree, curve.Left)
	if err != nil {
		return nil, err
	}
	line, err := curve.New(curve.Pose{}, straight, arc)
	if err != nil {
		return nil, err
	}
	coach := clearance.Bogie("coach", 443, 80, clearance.Band{Name: "body", Bottom: 12, Top: 120, Outline: clearance.Box(614, 88)})
	return clearance.Sweep(context.Background(), line, []clearance.Vehicle{coach}, clearance.Settings{})
}

// A section with the smallest arch round it, at a usual scale.
func ExampleSection() {
	e, err := garden()
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := opening.At(e, 1800)
	if err != nil {
		fmt.Println(err)
		return
	}
	arch, err := s.Arch(opening.ArchForm{Floor: -10}, 6)
	if err != nil {
		fmt.Println(err)
		return
	}
	b, err := drawing.Section{
		Sheet: drawing.Sheet{Name: "portal", Title: "Portal"}, Section: s, Gauge: 45, RailCentres: 47.5, Ground: -10,
		Openings: []drawing.Face{{Name: "arch", Outline: arch.Outline(0.1)}},
	}.SVG()
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(bytes.Contains(b, []byte("<title>Portal</title>")), bytes.Contains(b, []byte(">1:2<")))
	// Output: true true
}

// The space of the stock in plan, with a wall beside it.
func ExamplePlan() {
	e, err := garden()
	if err != nil {
		fmt.Println(err)
		return
	}
	b, err := drawing.Plan{
		Sheet: drawing.Sheet{Name: "bend", Title: "The bend", Width: 180, Height: 120}, Envelope: e, RailCentres: 47.5,
		Structures: []clearance.Structure{{Name: "wall", Kind: clearance.Wall, Faces: []clearance.Face{{Side: curve.Right, From: 1200, To: 2000, Offset: 70}}}},
	}.SVG(context.Background())
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(bytes.Contains(b, []byte(">wall<")), bytes.Contains(b, []byte(">1:20<")))
	// Output: true true
}
