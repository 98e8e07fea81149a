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
	b, err := drawing.Former("former", f)
	if err != nil {
		fmt.Println(err)
		return
	}
	first, _, _ := bytes.Cut(b, []byte(" role"))
	fmt.Println(string(first))
	// Output: <svg xmlns="http://www.w3.org/2000/svg" width="159.952mm" height="169mm" viewBox="0 0 159.952 169"
}
