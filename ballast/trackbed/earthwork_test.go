package trackbed_test

import (
	"math"
	"testing"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/ballast/trackbed"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// End areas by hand: formation 300 wide, 1 in 20 into a slope of ground.
func TestEndAreas(t *testing.T) {
	line := open(straight(4000))
	ground := level(profile.Point{Level: 100}, profile.Point{Chainage: 4000, Level: 500})
	e := trackbed.Earthwork{Width: 300, Below: 50, Cut: 1, Fill: 1.5, Every: 2000}
	g, err := e.Along(line, all(line), level(profile.Point{Level: 50}), ground)
	// Depths 100, 300, 500: areas 40000, 180000, 400000.
	want := (40000+180000)/2*2000.0 + (180000+400000)/2*2000.0
	if err != nil || !near(float64(g.Cut), want, 1e-12) || g.Fill != 0 || len(g.Stations) != 3 || !near(float64(g.Stations[1].Area), 180000, 1e-12) {
		t.Fatalf("%+v, %v, want %v", g, err, want)
	}
	if !near(float64(g.Spare), want, 1e-12) || !near(float64(g.Spoil), want*1.25, 1e-12) {
		t.Errorf("spare %v, spoil %v", float64(g.Spare), float64(g.Spoil))
	}
	// Exact: ∫(300 + d)·d dx with d = 100 + x/10; the prismoid is exact for it.
	exact := 10 * (300.0/2*(500*500-100*100) + (500*500*500-100*100*100)/3.0)
	if !near(float64(g.CutMid), exact, 1e-12) || g.CutMid >= g.Cut {
		t.Errorf("prismoid %v, exact %v; end areas %v", float64(g.CutMid), exact, float64(g.Cut))
	}
}

// Cut gives way to fill where ground and formation meet, and not elsewhere.
func TestCutAndFill(t *testing.T) {
	line := open(straight(3000))
	ground := level(profile.Point{Level: 200}, profile.Point{Chainage: 3000, Level: -100})
	e := trackbed.Earthwork{Width: 300, Cut: 1, Fill: 1.5, Every: 100, Shrink: 1.2}
	g := must(e.Along(line, all(line), profile.Level{}, ground))
	exact := func(d, slope float64) float64 { return 10 * (300*d*d/2 + slope*d*d*d/3) }
	if !near(float64(g.CutMid), exact(200, 1), 1e-9) || !near(float64(g.FillMid), exact(100, 1.5), 1e-9) {
		t.Errorf("cut %v, fill %v, want %v, %v", float64(g.CutMid), float64(g.FillMid), exact(200, 1), exact(100, 1.5))
	}
	if !near(float64(g.Spare), float64(g.Cut-1.2*g.Fill), 1e-12) || g.Spare <= 0 {
		t.Errorf("spare %v of cut %v and fill %v", float64(g.Spare), float64(g.Cut), float64(g.Fill))
	}
	for _, s := range g.Stations {
		if s.Area < 0 || (s.Depth == 0) != (s.Area == 0) {
			t.Errorf("%+v", s)
		}
	}
	// Earth that is short is not spoil.
	g = must(e.Along(line, all(line), level(profile.Point{Level: 300}), ground))
	if g.Spare >= 0 || g.Spoil != 0 || g.Cut != 0 {
		t.Errorf("a bank all along: spare %v, spoil %v", g.Spare, g.Spoil)
	}
	// A change between stations far apart is found.
	e.Every = 3000
	g = must(e.Along(line, all(line), profile.Level{}, ground))
	if len(g.Stations) != 3 || !near(float64(g.Stations[1].Chainage), 2000, 1e-6) {
		t.Errorf("%+v, want a station at 2000", g.Stations)
	}
}

// A circuit makes the same earth wherever it is cut.
func TestEarthworkOverTheStart(t *testing.T) {
	line := ring(2000)
	end := line.Length()
	ground := must(profile.NewClosedLevel(end, 1e-6, profile.Point{Level: 100, Curve: 500}, profile.Point{Chainage: end / 2, Level: -50, Curve: 500}))
	e := trackbed.Earthwork{Width: 300, Cut: 1, Fill: 1.5, Every: 50}
	whole := must(e.Along(line, all(line), profile.Level{}, ground))
	a := must(e.Along(line, ballast.Stretch{From: end * 0.3, To: end * 0.8}, profile.Level{}, ground))
	b := must(e.Along(line, ballast.Stretch{From: end * 0.8, To: end * 0.3}, profile.Level{}, ground))
	if !near(float64(a.CutMid+b.CutMid), float64(whole.CutMid), 1e-6) || !near(float64(a.FillMid+b.FillMid), float64(whole.FillMid), 1e-6) || whole.Cut == 0 || whole.Fill == 0 {
		t.Errorf("parts %v and %v, whole %v", float64(a.CutMid+b.CutMid), float64(a.FillMid+b.FillMid), whole)
	}
}

func TestEarthworkRefuses(t *testing.T) {
	line := open(straight(1000))
	for text, c := range map[string]struct {
		e    trackbed.Earthwork
		kind error
	}{
		"formation width":     {trackbed.Earthwork{}, measure.ErrInput},
		"slope of cuttings":   {trackbed.Earthwork{Width: 1, Cut: math.NaN()}, measure.ErrInput},
		"slope of banks":      {trackbed.Earthwork{Width: 1, Fill: -1}, measure.ErrInput},
		"bulking":             {trackbed.Earthwork{Width: 1, Bulking: 0.5}, measure.ErrInput},
		"shrinking":           {trackbed.Earthwork{Width: 1, Shrink: 5}, measure.ErrInput},
		"stations":            {trackbed.Earthwork{Width: 1, Every: 0.001}, measure.ErrLimit},
		"below the line +Inf": {trackbed.Earthwork{Width: 1, Below: inf}, measure.ErrInput},
	} {
		_, err := c.e.Along(line, all(line), profile.Level{}, profile.Level{})
		if text == "below the line +Inf" {
			text = "below the line"
		}
		refused(t, text, err, c.kind, text)
	}
}
