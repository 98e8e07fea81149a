package clearance_test

import (
	"context"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// Whatever the numbers, a vehicle is refused or gives finite answers.
func FuzzVehicle(f *testing.F) {
	f.Add(400.0, 60.0, 5.0, 600.0, 100.0, 50.0, 1200.0, 70.0, 30.0)
	f.Add(150.0, 0.0, 0.0, 260.0, 90.0, 0.0, 450.0, 60.0, 0.0)
	f.Add(900.0, 80.0, -20.0, 1200.0, 100.0, 700.0, 460.0, 10.0, -90.0)
	f.Add(400.0, 60.0, 0.0, 560.0, 90.0, 60.0, 700.0, 95.0, 60.0)
	f.Add(1e-9, 1e-12, 1e300, 1e-300, math.Inf(1), math.NaN(), 1e9, -5.0, 1e-5)
	f.Fuzz(func(t *testing.T, pivots, wheelbase, pin, length, width, taper, radius, offset, bar float64) {
		v := clearance.Bogie("fuzzed", measure.Length(pivots), measure.Length(wheelbase), clearance.Band{Top: 100, Outline: clearance.Tapered(measure.Length(length), measure.Length(width), 0, measure.Length(taper), measure.Length(width)/2)})
		v.Carriers[0].Pin = measure.Length(pin)
		if bar != 0 {
			v.Bodies[0].Trucks = []clearance.Truck{{Hinge: measure.Length(pin), Bar: measure.Length(bar), Bands: []clearance.Band{box(20, 50)}}}
		}
		th, err := clearance.Throws(v, measure.Length(radius))
		if v.Validate() != nil {
			if err == nil {
				t.Fatalf("Throws took what Validate refuses: %v", v.Validate())
			}
			return
		}
		if err == nil {
			for _, x := range []float64{float64(th[0].Centre), float64(th[0].Front), float64(th[0].Rear), float64(th[0].Inside), float64(th[0].Outside), float64(th[0].FrontSwing), float64(th[0].RearSwing), float64(th[0].Attack)} {
				if math.IsNaN(x) || math.IsInf(x, 0) {
					t.Fatalf("Throws(%+v, %v) = %+v", v, radius, th[0])
				}
			}
		}
		arc, err := curve.NewArc(measure.Length(radius), 2, curve.Left)
		if err != nil || radius > 5000 {
			return
		}
		s, err := curve.NewStraight(300)
		if err != nil {
			t.Fatal(err)
		}
		line, err := curve.New(curve.Pose{}, s, arc, s)
		if err != nil {
			return
		}
		e, err := clearance.Sweep(context.Background(), line, []clearance.Vehicle{v}, clearance.Settings{Tolerance: 1, MaxKept: 50_000})
		if err != nil {
			return
		}
		for _, c := range e.Stations() {
			for _, side := range sides {
				r, err := e.At(c, side, clearance.Heights{})
				if err != nil || math.IsNaN(float64(r.Reach)) || math.IsInf(float64(r.Reach), 0) {
					t.Fatalf("at %v %v: %+v, %v", float64(c), side, r, err)
				}
			}
		}
		found, err := e.Audit(context.Background(), []clearance.Structure{
			{Kind: clearance.Post, Figures: []clearance.Figure{{Points: []r2.Vec{{X: 200, Y: offset}}}}},
			{Kind: clearance.Wall, Faces: []clearance.Face{{Side: curve.Left, From: 100, To: 400, Offset: measure.Length(offset), Bottom: 20, Top: 300}}},
		}, 5)
		if err != nil {
			return
		}
		for _, g := range found {
			if math.IsNaN(float64(g.Gap)) || math.IsInf(float64(g.Gap), 0) {
				t.Fatalf("gap %+v", g)
			}
		}
		arch := clearance.Structure{Kind: clearance.Tunnel, Roofs: []clearance.Roof{{From: 100, To: 400, Height: measure.Length(taper), Left: measure.Length(offset), Right: measure.Length(width), Rise: measure.Length(math.Abs(bar))}}}
		found, err = e.Audit(context.Background(), []clearance.Structure{arch}, 5)
		if err != nil {
			return
		}
		g := found[0]
		for _, x := range []measure.Length{g.Gap, g.Reach, g.Remedy.MoveBy, g.Remedy.WidenBy, g.Remedy.EaseTo} {
			if math.IsNaN(float64(x)) || math.IsInf(float64(x), 0) || g.Remedy.MoveBy < 0 || g.Remedy.WidenBy < 0 {
				t.Fatalf("arch %+v: %+v", arch.Roofs[0], g)
			}
		}
		raised := arch
		raised.Roofs = []clearance.Roof{arch.Roofs[0]}
		raised.Roofs[0].Height += g.Remedy.MoveBy
		if found, err = e.Audit(context.Background(), []clearance.Structure{raised}, 5); err != nil {
			t.Fatal(err)
		}
		if up := found[0].Gap; bar != 0 && g.Remedy.WidenBy > 0 && g.Remedy.MoveBy > 0 && float64(up) < 5-1e-6*(1+float64(g.Remedy.MoveBy)) {
			t.Fatalf("arch %+v: gap %v, raised by %v it is %v", arch.Roofs[0], float64(g.Gap), float64(g.Remedy.MoveBy), float64(up))
		}
	})
}
