package clearance_test

import (
	"context"
	"math"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// garden returns a line of 30 m in 12 elements, eased bends both ways; times
// repeats it.
func garden(tb testing.TB, times int) *curve.Alignment {
	tb.Helper()
	var el []curve.Element
	add := func(e ...curve.Element) { el = append(el, e...) }
	straight := func(l measure.Length) {
		e, err := curve.NewStraight(l)
		if err != nil {
			tb.Fatal(err)
		}
		add(e)
	}
	bend := func(r measure.Length, deg float64, hand curve.Hand, ease measure.Length, shape curve.Shape) {
		e, err := curve.Bend{Radius: r, Turn: measure.Angle(deg) * measure.Degree, Hand: hand, EaseIn: ease, EaseOut: ease, Shape: shape}.Elements()
		if err != nil {
			tb.Fatal(err)
		}
		add(e...)
	}
	for range times {
		straight(3000)
		bend(1500, 100, curve.Left, 900, curve.Clothoid)
		straight(2500)
		bend(1200, 90, curve.Right, 800, curve.Bloss)
		bend(2000, 60, curve.Left, 1000, curve.Cosine)
		l := 0.0
		for _, e := range el {
			l += float64(e.Length())
		}
		straight(measure.Length(30000*math.Ceil(l/30000) - l))
	}
	line, err := curve.New(curve.Pose{}, el...)
	if err != nil {
		tb.Fatal(err)
	}
	return line
}

// rounded returns a coach with an outline of 24 corners.
func rounded() clearance.Vehicle {
	var o clearance.Outline
	for i := range 24 {
		sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.5) / 24)
		o = append(o, clearance.Point{
			Along:  300 * measure.Length(math.Copysign(math.Pow(math.Abs(cos), 0.3), cos)),
			Across: 50 * measure.Length(math.Copysign(math.Pow(math.Abs(sin), 0.3), sin)),
		})
	}
	return clearance.Bogie("coach", 400, 70, clearance.Band{Top: 140, Outline: o})
}

func benchmarkSweep(b *testing.B, line *curve.Alignment, v clearance.Vehicle, tolerance measure.Length) {
	b.Helper()
	benchmarkAllowed(b, line, v, clearance.Settings{Tolerance: tolerance})
}

func benchmarkAllowed(b *testing.B, line *curve.Alignment, v clearance.Vehicle, set clearance.Settings) {
	b.Helper()
	b.ReportAllocs()
	points := 0.0
	for b.Loop() {
		e, err := clearance.Sweep(context.Background(), line, []clearance.Vehicle{v}, set)
		if err != nil {
			b.Fatal(err)
		}
		if points == 0 {
			points = float64(len(e.Stations()) * len(v.Bodies[0].Bands[0].Outline))
		}
	}
	// Every corner is carried over every kept station.
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/points, "ns/point")
}

func BenchmarkSweepRectangle(b *testing.B) {
	benchmarkSweep(b, garden(b, 1), clearance.Bogie("box", 400, 70, box(600, 100)), 0.1)
}
func BenchmarkSweep24(b *testing.B)      { benchmarkSweep(b, garden(b, 1), rounded(), 0.1) }
func BenchmarkSweep24Twice(b *testing.B) { benchmarkSweep(b, garden(b, 2), rounded(), 0.1) }
func BenchmarkSweep24Fine(b *testing.B)  { benchmarkSweep(b, garden(b, 1), rounded(), 0.001) }

// Cants on all the bends: each outline is swept three times.
func benchmarkCanted(b *testing.B, tolerance measure.Length) {
	line := garden(b, 1)
	cant, err := profile.NewBendCant(line, profile.InnerRail, 3, 3, 2)
	if err != nil {
		b.Fatal(err)
	}
	benchmarkAllowed(b, line, rounded(), clearance.Settings{Tolerance: tolerance, Allowances: clearance.Allowances{Cant: cant, RailCentres: 47.5}})
}
func BenchmarkSweep24Canted(b *testing.B)     { benchmarkCanted(b, 0.1) }
func BenchmarkSweep24CantedFine(b *testing.B) { benchmarkCanted(b, 0.001) }

// Six structures along 30 m, by chainage, against two vehicles.
func BenchmarkAudit(b *testing.B) {
	line := garden(b, 1)
	e, err := clearance.Sweep(context.Background(), line, []clearance.Vehicle{rounded(), clearance.Rigid("wagon", 120, box(200, 96))}, clearance.Settings{})
	if err != nil {
		b.Fatal(err)
	}
	var s []clearance.Structure
	for i := range 6 {
		at := measure.Length(3500 + 4000*i)
		s = append(s, clearance.Structure{Kind: clearance.Tunnel, Faces: []clearance.Face{
			{Side: curve.Left, From: at, To: at + 900, Offset: 80}, {Side: curve.Right, From: at, To: at + 900, Offset: 80},
		}, Roofs: []clearance.Roof{{From: at, To: at + 900, Height: 170}}})
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := e.Audit(context.Background(), s, 5); err != nil {
			b.Fatal(err)
		}
	}
}

// A fence of 4 m in plan, alongside an eased bend.
func BenchmarkAuditFence(b *testing.B) {
	line := garden(b, 1)
	e, err := clearance.Sweep(context.Background(), line, []clearance.Vehicle{rounded()}, clearance.Settings{})
	if err != nil {
		b.Fatal(err)
	}
	var f clearance.Figure
	for c := measure.Length(3000); c <= 7000; c += 500 {
		f.Points = append(f.Points, line.Offset(c, 110))
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := e.Audit(context.Background(), []clearance.Structure{{Kind: clearance.Fence, Figures: []clearance.Figure{f}}}, 5); err != nil {
			b.Fatal(err)
		}
	}
}
