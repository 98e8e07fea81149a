package clearance_test

import (
	"errors"
	"math"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// An engine with a wide footplate, a narrower cab and a chimney: each height
// asks for its own.
func TestBands(t *testing.T) {
	v := clearance.Rigid("engine", 150,
		clearance.Band{Name: "footplate", Bottom: 10, Top: 30, Outline: clearance.Box(260, 110)},
		clearance.Band{Name: "cab", Bottom: 30, Top: 110, Outline: clearance.Box(80, 90).Moved(-80)},
		clearance.Band{Name: "chimney", Bottom: 30, Top: 125, Outline: clearance.Box(20, 20).Moved(110)})
	arc, err := curve.NewArc(900, 3, curve.Right)
	if err != nil {
		t.Fatal(err)
	}
	line, err := curve.New(curve.Pose{}, arc)
	if err != nil {
		t.Fatal(err)
	}
	e := sweep(t, line, []clearance.Vehicle{v}, clearance.Settings{Tolerance: 0.001})
	const c = 1300
	m := math.Sqrt(900*900 - 75*75)
	out := func(x, y float64) float64 { return math.Hypot(x, m+y) - 900 }
	for _, h := range []struct {
		heights clearance.Heights
		band    string
		want    float64
	}{
		{clearance.Heights{}, "footplate", out(130, 55)},
		{clearance.Heights{From: 0, To: 20}, "footplate", out(130, 55)},
		{clearance.Heights{From: 30, To: 200}, "cab", out(120, 45)},
		{clearance.Heights{From: 110, To: 200}, "chimney", out(120, 10)},
	} {
		r, err := e.At(c, curve.Left, h.heights)
		if err != nil || r.By.Band != h.band || math.Abs(float64(r.Reach)-h.want) > 1e-3 {
			t.Errorf("%v: %v %s, %v; want %v %s", h.heights, float64(r.Reach), r.By.Band, err, h.want, h.band)
		}
	}
	if _, err := e.At(c, curve.Left, clearance.Heights{From: 130, To: 140}); !errors.Is(err, measure.ErrNoAnswer) {
		t.Errorf("above the chimney: %v", err)
	}
	if _, err := e.At(c, 0, clearance.Heights{From: 5, To: 1}); !errors.Is(err, measure.ErrInput) {
		t.Errorf("no side, heights upside down: %v", err)
	}
	if _, err := e.Of(1, c, curve.Left, clearance.Heights{}); !errors.Is(err, measure.ErrInput) {
		t.Errorf("no such vehicle: %v", err)
	}
	s, err := e.Sections(c)
	if err != nil || len(s) != 3 || s[1].Band != "cab" {
		t.Fatalf("Sections: %+v, %v", s, err)
	}
	for i, want := range []clearance.SectionPoint{{Offset: -measure.Length(900 - m + 45), Height: 30}, {Offset: measure.Length(out(120, 45)), Height: 30}, {Offset: measure.Length(out(120, 45)), Height: 110}} {
		got := s[1].Corners[i]
		if i > 0 && math.Abs(float64(got.Offset-want.Offset)) > 1e-3 || got.Height != want.Height {
			t.Errorf("corner %d: %+v, want %+v", i, got, want)
		}
	}
	if _, err := e.Sections(1e6); !errors.Is(err, measure.ErrInput) {
		t.Errorf("past the end: %v", err)
	}
	// A platform that is lower than the footplate's underside, and a wall above
	// the cab that only the chimney meets.
	f := audit(t, e, 5,
		clearance.Structure{Kind: clearance.PlatformEdge, Faces: []clearance.Face{{Side: curve.Left, From: 1200, To: 1400, Offset: 50, Bottom: -30, Top: 4}}},
		clearance.Structure{Kind: clearance.Girder, Faces: []clearance.Face{{Side: curve.Left, From: 1200, To: 1400, Offset: 30, Bottom: 112, Top: 300}}})
	if f[0].By.Band != "footplate" || !f[0].Upright || math.Abs(float64(f[0].Gap)-6) > 1e-9 {
		t.Errorf("platform: %+v", f[0])
	}
	// The cab's roof is 2 below the girder, nearer than the chimney beside it.
	if f[1].By.Band != "cab" || !f[1].Upright || math.Abs(float64(f[1].Gap)-2) > 1e-9 {
		t.Errorf("girder: %+v", f[1])
	}
}
