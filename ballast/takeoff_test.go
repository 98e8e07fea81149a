package ballast_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/approx"
)

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func straight(l measure.Length) curve.Element { return must(curve.NewStraight(l)) }

func open(es ...curve.Element) *curve.Alignment { return must(curve.New(curve.Pose{}, es...)) }

// oval is a circuit of two straights and two eased bends.
func oval(ease measure.Length) *curve.Alignment {
	b := must(curve.Bend{Radius: 2000, Turn: math.Pi, Hand: curve.Left, EaseIn: ease, EaseOut: ease, Shape: curve.Bloss}.Elements())
	es := append([]curve.Element{straight(3000)}, b...)
	es = append(append(es, straight(3000)), b...)
	return must(curve.NewClosed(curve.Pose{}, 0.01, 1e-6, es...))
}

// Pappus on a ring: the volume of a section turned about an axis is its area
// times the way of its centroid.
func TestPappusOnARing(t *testing.T) {
	for _, hand := range []curve.Hand{curve.Left, curve.Right} {
		const R, y = 2500.0, 60.0
		ring := must(curve.NewClosed(curve.Pose{}, 1e-6, 1e-9, must(curve.NewArc(R, 2*math.Pi, hand))))
		s := gardenSection()
		s.Tracks = []measure.Length{y} // the bed's centroid lies y to the left
		q, err := ballast.TakeOff(ring, ballast.Bed{Ranges: []ballast.Range{{To: ring.Length(), Section: s}}})
		want := (106*29 + 1.25*29*29) * 2 * math.Pi * (R - float64(hand)*y)
		if err != nil || !near(float64(q.Total.Solid), want, 1e-12) {
			t.Errorf("%v: %v mm³, %v, want %v", hand, float64(q.Total.Solid), err, want)
		}
		if c := want - (106*29+1.25*29*29)*2*math.Pi*R; !near(float64(q.Total.Curve), c, 1e-9) {
			t.Errorf("%v: the curve adds %v, want %v", hand, float64(q.Total.Curve), c)
		}
	}
}

// 11 cubic feet fill 99 ft of trench, 4 by 4 inches (hobby page; worked).
func TestTrenchOfElevenCubicFeet(t *testing.T) {
	line := open(straight(99 * measure.Foot))
	q, err := ballast.TakeOff(line, ballast.Bed{Ranges: []ballast.Range{{To: line.Length(), Section: ballast.Section{
		Depth: 4*measure.Inch - 10, Sleeper: ballast.Sleeper{Length: 82, Width: 12, Height: 10},
		TopWidth: 4 * measure.Inch, Kerbed: true, TrenchWidth: 4 * measure.Inch, TrenchDepth: 4 * measure.Inch,
	}}}})
	if err != nil || !near(float64(q.Total.Net), float64(11*measure.CubicFoot), 1e-12) {
		t.Errorf("%v mm³, %v, want 11 ft³", float64(q.Total.Net), err)
	}
}

// Light railways, Brisbane Courier 1897: 1700 cubic yards a mile for a line of
// 60 lb/yd, 1135 and 600 for lighter ones. The section is not in the source;
// this one, plausible for such a line, must come between: an order of
// magnitude, no more.
func TestLightRailwayYardsAMile(t *testing.T) {
	line := open(straight(measure.Mile))
	s := ballast.Section{
		Depth: 6 * measure.Inch, Sleeper: ballast.Sleeper{Length: 7 * measure.Foot, Width: 9 * measure.Inch, Height: 4.5 * measure.Inch},
		TopWidth: 9 * measure.Foot, Slope: 1.5,
	}
	q, err := ballast.TakeOff(line, ballast.Bed{Ranges: []ballast.Range{{To: measure.Mile, Section: s, Sleepers: 2112}}})
	yards := float64(q.Total.Net / measure.CubicYard)
	if err != nil || yards < 600 || yards > 1700 {
		t.Errorf("%.0f cubic yards a mile, %v, want 600 to 1700", yards, err)
	}
}

func TestDeductions(t *testing.T) {
	line := open(straight(1000))
	for _, c := range []struct {
		name string
		crib measure.Length
		want float64 // below the surface, of one sleeper 82 × 12 × 9
	}{{"flush", 0, 82 * 12 * 9}, {"half out", 4, 82 * 12 * 4}, {"buried", 12, 82 * 12 * 9}} {
		s := gardenSection()
		s.Crib, s.ShoulderLevel = c.crib, 12
		q, err := ballast.TakeOff(line, ballast.Bed{Ranges: []ballast.Range{{To: 1000, Section: s, Sleepers: 25}}})
		if err != nil || !near(float64(q.Total.Sleepers), 25*c.want, 1e-12) || !near(float64(q.Total.Net), float64(q.Total.Solid-q.Total.Sleepers), 1e-12) {
			t.Errorf("%s: sleepers take %v, %v, want %v", c.name, float64(q.Total.Sleepers), err, 25*c.want)
		}
	}
	s := gardenSection()
	s.Crib = 12
	q, err := ballast.TakeOff(line, ballast.Bed{Ranges: []ballast.Range{{To: 1000, Section: s, Solids: []ballast.Solid{
		{Name: "rail foot", Offset: 23, Bottom: 9, Top: 15, Width: 6},       // 3 of 6 mm lie under the surface
		{Name: "duct", Offset: -50, Bottom: -25, Top: -10, Width: 10},       // the formation cuts it at -20
		{Name: "chair", Bottom: 9, Top: 11, Plan: 40, Count: 50},            // all under
		{Name: "lamp", Offset: 48, Bottom: 20, Top: 90, Plan: 40, Count: 2}, // all over
	}}}})
	if want := 3.0*6*1000 + 10*10*1000 + 50*40*2; err != nil || !near(float64(q.Total.Others), want, 1e-12) {
		t.Errorf("other solids take %v, %v, want %v", float64(q.Total.Others), err, want)
	}
}

// Two rails of a curve are as long together as the line twice over.
func TestRunningSolidsOnACurve(t *testing.T) {
	line := open(must(curve.NewArc(1000, 1, curve.Right)))
	take := func(off ...measure.Length) float64 {
		var so []ballast.Solid
		for _, o := range off {
			so = append(so, ballast.Solid{Offset: o, Top: 9, Width: 6})
		}
		return float64(must(ballast.TakeOff(line, ballast.Bed{Ranges: []ballast.Range{{To: line.Length(), Section: gardenSection(), Solids: so}}})).Total.Others)
	}
	if got := take(-23, 23); !near(got, 2*9*6*1000, 1e-12) {
		t.Errorf("both rails take %v, want %v", got, 2*9*6*1000)
	}
	if got := take(23); !near(got, 9*6*1023, 1e-12) { // the left rail is the outer one of a right bend
		t.Errorf("the outer rail takes %v, want %v", got, 9*6*1023)
	}
}

// A taper of a trapezium, worked: with w and H going evenly from one end to the
// other, the mean of w·H is (2w0H0 + w0H1 + w1H0 + 2w1H1)/6.
func TestTaper(t *testing.T) {
	a, b := gardenSection(), gardenSection()
	b.Depth, b.Shoulder = 50, 40
	line := open(straight(2000))
	q, err := ballast.TakeOff(line, ballast.Bed{Ranges: []ballast.Range{{To: 2000, Section: a, Taper: &b}}})
	w0, w1, h0, h1 := 106.0, 162.0, 29.0, 59.0
	want := 2000 * ((2*w0*h0+w0*h1+w1*h0+2*w1*h1)/6 + 1.25*(h0*h0+h0*h1+h1*h1)/3)
	if err != nil || !near(float64(q.Total.Solid), want, 1e-11) {
		t.Errorf("taper %v, %v, want %v", float64(q.Total.Solid), err, want)
	}
	// A trench 100 wide that begins at nothing, or runs out: the ground outside
	// it, 3 mm on either side under the kerbs, comes up evenly.
	a.Kerbed = true
	b = a
	b.TrenchWidth, b.TrenchDepth = 100, 15
	for _, r := range []ballast.Range{{To: 2000, Section: a, Taper: &b}, {To: 2000, Section: b, Taper: &a}} {
		q, err := ballast.TakeOff(line, ballast.Bed{Ranges: []ballast.Range{r}})
		if want := 2000 * (106*29 - 6*7.5); err != nil || !near(float64(q.Total.Solid), want, 1e-11) {
			t.Errorf("trench that runs out %v, %v, want %v", float64(q.Total.Solid), err, want)
		}
	}
}

// Two tracks that converge: beds that first stand apart, then share their
// slopes, then their tops. Worked by summing the area of the union in closed
// form over the three spans of spacing.
func TestConvergingTracks(t *testing.T) {
	a, b := gardenSection(), gardenSection()
	a.Tracks, b.Tracks = []measure.Length{0, 240}, []measure.Length{0, 90}
	line := open(straight(3000))
	q, err := ballast.TakeOff(line, ballast.Bed{Ranges: []ballast.Range{{To: 3000, Section: a, Taper: &b}}})
	const w, n, h = 106.0, 1.25, 29.0
	one := w*h + n*h*h
	apart, tops := w+2*n*h, w // spacings at which toes and tops touch
	// ∫ over the spacing d, from 90 to 240, of the area.
	sum := (240 - apart) * 2 * one
	sum += (apart-tops)*2*one - math.Pow(apart-tops, 3)/(3*4*n)
	sum += (tops - 90) * (h*((tops+90)/2+w) + n*h*h)
	if want := sum * 3000 / 150; err != nil || !near(float64(q.Total.Solid), want, 1e-9) {
		t.Errorf("converging %v, %v, want %v", float64(q.Total.Solid), err, want)
	}
}

func TestAdditiveOverRanges(t *testing.T) {
	line := oval(700)
	s, w := gardenSection(), gardenSection()
	s.Tracks, w.Tracks, w.Depth = []measure.Length{20}, []measure.Length{-15}, 35
	end := line.Length()
	bed := func(r ...ballast.Range) ballast.Bed { return ballast.Bed{Ranges: r} }
	whole := must(ballast.TakeOff(line, bed(ballast.Range{To: end, Section: s, Taper: &w})))
	mid := s
	mid.Tracks, mid.Depth = []measure.Length{20 - 35*0.4}, 20+15*0.4
	cut := must(ballast.TakeOff(line, bed(ballast.Range{To: 0.4 * end, Section: s, Taper: &mid}, ballast.Range{From: 0.4 * end, To: end, Section: mid, Taper: &w})))
	if d := approx.Diff(whole.Total, cut.Total, 0.05); d != "" {
		t.Errorf("in two parts it is another bed (%v mm³ in all): %s", float64(whole.Total.Solid), d)
	}
	if len(cut.Ranges) != 2 || !near(float64(cut.Ranges[0].Solid+cut.Ranges[1].Solid), float64(cut.Total.Solid), 1e-12) {
		t.Error("the total is not the sum of the ranges")
	}
}

func TestStartOfCircuitMoved(t *testing.T) {
	line := oval(700)
	es := line.Elements()
	end := line.Length()
	s, w := gardenSection(), gardenSection()
	s.Tracks, w.Depth = []measure.Length{20}, 35
	w.Tracks = s.Tracks
	for k := 1; k < len(es); k++ {
		moved := must(curve.NewClosed(curve.Pose{}, 0.01, 1e-6, append(es[k:len(es):len(es)], es[:k]...)...))
		by := line.Boundaries()[k]
		at := func(s measure.Length) measure.Length {
			return measure.Length(math.Mod(float64(s-by+end), float64(end)))
		}
		bed := func(f func(measure.Length) measure.Length) ballast.Bed {
			return ballast.Bed{
				Ranges: []ballast.Range{
					{Name: "a", From: f(1000), To: f(9000), Section: s, Taper: &w, Sleepers: 100, Bonded: true},
					{Name: "b", From: f(9000), To: f(500), Section: w, Taper: &s, Sleepers: 200},
				},
				Gaps:  []ballast.Stretch{{Name: "points", From: f(4000), To: f(4700)}, {Name: "bridge", From: f(end - 200), To: f(300)}},
				Loose: []ballast.Stretch{{Name: "lift-out", From: f(2000), To: f(2500)}},
			}
		}
		a := must(ballast.TakeOff(line, bed(func(s measure.Length) measure.Length { return s }))).Total
		b := must(ballast.TakeOff(moved, bed(at))).Total
		if d := approx.Diff(a, b, 0.05); d != "" || a.Bonded <= 0 || a.Bonded >= a.Net {
			t.Errorf("the start moved by %d elements changes the bed: %s", k, d)
		}
		if want := float64(8000 + (end - 9000 + 500) - 700 - 500); !near(float64(a.Length), want, 1e-12) {
			t.Errorf("length %v, want %v", float64(a.Length), want)
		}
	}
}

// A bed n times as large takes n³ as much.
func TestScaling(t *testing.T) {
	take := func(k measure.Length) ballast.Quantity {
		line := open(straight(1000*k), must(curve.NewEasement(curve.Clothoid, 800*k, 0, measure.Curvature(1/(1500*k)))))
		s := ballast.Section{Depth: 20 * k, Sleeper: ballast.Sleeper{Length: 82 * k, Width: 12 * k, Height: 9 * k}, Shoulder: 12 * k, Tracks: []measure.Length{15 * k}}
		w := s
		w.Depth = 31 * k
		return must(ballast.TakeOff(line, ballast.Bed{Ranges: []ballast.Range{{To: line.Length(), Section: s, Taper: &w, Sleepers: 40}}})).Total
	}
	one, big := take(1), take(22.5)
	for _, c := range [][2]measure.Volume{{one.Solid, big.Solid}, {one.Curve, big.Curve}, {one.Sleepers, big.Sleepers}, {one.Net, big.Net}} {
		if !near(float64(c[1]), float64(c[0])*22.5*22.5*22.5, 1e-9) {
			t.Errorf("22.5 times the size takes %v, want %v", float64(c[1]), float64(c[0])*22.5*22.5*22.5)
		}
	}
}

// Mirrored, a bed takes the same.
func TestMirror(t *testing.T) {
	take := func(h measure.Length) ballast.Quantity {
		line := open(must(curve.NewEasement(curve.Helmert, 800, 0, measure.Curvature(h/1500))), must(curve.NewArc(1500, 1, curve.Hand(h))))
		s := gardenSection()
		s.Tracks = []measure.Length{30 * h}
		return must(ballast.TakeOff(line, ballast.Bed{Ranges: []ballast.Range{{From: 100, To: 1900, Section: s}}})).Total
	}
	if d := approx.Diff(take(1), take(-1), 1e-6); d != "" {
		t.Error(d)
	}
}

func TestKinkCountsOnce(t *testing.T) {
	// A circle of 36 short straights with a kink before each: in all -M·2π.
	var es []curve.Element
	for range 36 {
		es = append(es, straight(200).WithKink(10*measure.Degree))
	}
	line := open(es...)
	s := gardenSection()
	s.Tracks = []measure.Length{40}
	area := 106*29 + 1.25*29*29
	q, err := ballast.TakeOff(line, ballast.Bed{
		Ranges: []ballast.Range{{To: 3600, Section: s}, {From: 3600, To: 5050, Section: s}, {From: 5050, To: 7200, Section: s}},
		Loose:  []ballast.Stretch{{From: 4020, To: 4100}},
	})
	if want := area * (7200 - 40*2*math.Pi); err != nil || !near(float64(q.Total.Solid), want, 1e-12) {
		t.Errorf("%v, %v, want %v", float64(q.Total.Solid), err, want)
	}
}

func TestSurface(t *testing.T) {
	line := open(straight(1000))
	q := must(ballast.TakeOff(line, ballast.Bed{Ranges: []ballast.Range{{To: 1000, Section: gardenSection(), Sleepers: 25, Bonded: true}}})).Total
	want := (106+2*29*math.Sqrt(1+1.25*1.25))*1000 - 25*82*12
	if !near(float64(q.Surface), want, 1e-12) || q.BondArea != q.Surface || q.Bonded != q.Net {
		t.Errorf("surface %v, to be bonded %v, want %v", float64(q.Surface), float64(q.BondArea), want)
	}
	s := gardenSection()
	s.Crib = 11 // now the sleepers do not show
	q = must(ballast.TakeOff(line, ballast.Bed{Ranges: []ballast.Range{{To: 1000, Section: s, Sleepers: 25}}})).Total
	if want := (106 + 2*31*math.Sqrt(1+1.25*1.25)) * 1000; !near(float64(q.Surface), want, 1e-12) {
		t.Errorf("surface over buried sleepers %v, want %v", float64(q.Surface), want)
	}
}

func TestTakeOffRefuses(t *testing.T) {
	s := gardenSection()
	two := s
	two.Tracks = []measure.Length{0, 120}
	narrow := s
	narrow.Formation = 100
	circuit, line := oval(0), open(straight(5000), must(curve.NewArc(150, 1, curve.Left)))
	for _, c := range []struct {
		name, text string
		line       *curve.Alignment
		bed        ballast.Bed
	}{
		{"no line", "line", nil, ballast.Bed{}},
		{"no ranges", "ranges", line, ballast.Bed{}},
		{"overlap", "overlaps range a", line, ballast.Bed{Ranges: []ballast.Range{{Name: "a", To: 2000, Section: s}, {Name: "b", From: 1900, To: 2500, Section: s}}}},
		{"overlap over the start", "overlaps range a", circuit, ballast.Bed{Ranges: []ballast.Range{{Name: "a", From: 9000, To: 2000, Section: s}, {Name: "b", From: 1900, To: 2500, Section: s}}}},
		{"past the end", "leaves the line", line, ballast.Bed{Ranges: []ballast.Range{{To: 9000, Section: s}}}},
		{"before the start", "leaves the line", line, ballast.Bed{Ranges: []ballast.Range{{From: -1, To: 900, Section: s}}}},
		{"backwards", "not a circuit", line, ballast.Bed{Ranges: []ballast.Range{{From: 900, To: 100, Section: s}}}},
		{"of no length", "must differ", circuit, ballast.Bed{Ranges: []ballast.Range{{From: 900, To: 900, Section: s}}}},
		{"not a number", "finite", line, ballast.Bed{Ranges: []ballast.Range{{From: measure.Length(math.NaN()), To: 100, Section: s}}}},
		{"gap past the end", "gap bridge: to", line, ballast.Bed{Ranges: []ballast.Range{{To: 100, Section: s}}, Gaps: []ballast.Stretch{{Name: "bridge", To: 9000}}}},
		{"bad taper", "taper: tracks", line, ballast.Bed{Ranges: []ballast.Range{{To: 100, Section: s, Taper: &two}}}},
		{"toe past the formation", "past the formation", line, ballast.Bed{Ranges: []ballast.Range{{Name: "a", To: 100, Section: narrow}}}},
		{"curve too sharp", "centre of the curve", line, ballast.Bed{Ranges: []ballast.Range{{To: 5100, Section: func() ballast.Section { w := s; w.TopWidth, w.Shoulder = 300, 0; return w }()}}}},
		{"too many sleepers", "at most 8", line, ballast.Bed{Ranges: []ballast.Range{{To: 100, Section: s, Sleepers: 9}}}},
		{"negative sleepers", "sleepers -1", line, ballast.Bed{Ranges: []ballast.Range{{To: 100, Section: s, Sleepers: -1}}}},
		{"solids larger than the bed", "more than the whole bed", line, ballast.Bed{Ranges: []ballast.Range{{To: 100, Section: s, Solids: []ballast.Solid{{Top: 9, Width: 5000}}}}}},
		{"solid both ways", "either a width", line, ballast.Bed{Ranges: []ballast.Range{{To: 100, Section: s, Solids: []ballast.Solid{{Top: 9, Width: 5, Count: 1}}}}}},
		{"solid upside down", "more than its bottom", line, ballast.Bed{Ranges: []ballast.Range{{To: 100, Section: s, Solids: []ballast.Solid{{Top: -9, Width: 5}}}}}},
	} {
		_, err := ballast.TakeOff(c.line, c.bed)
		if !errors.Is(err, measure.ErrInput) || !strings.Contains(fmt.Sprint(err), c.text) {
			t.Errorf("%s: %v, want an error with %q", c.name, err, c.text)
		}
	}
	if _, err := ballast.TakeOff(line, ballast.Bed{Gaps: make([]ballast.Stretch, 10001)}); !errors.Is(err, measure.ErrLimit) {
		t.Errorf("10001 gaps: %v", err)
	}
}

// The surface of a ring, by Pappus's first theorem: the length of the top and
// the slopes times the way of their centroid.
func TestSurfaceOnARing(t *testing.T) {
	ring := must(curve.NewClosed(curve.Pose{}, 1e-6, 1e-9, must(curve.NewArc(2500, 2*math.Pi, curve.Right))))
	s := gardenSection()
	s.Tracks = []measure.Length{60}
	q := must(ballast.TakeOff(ring, ballast.Bed{Ranges: []ballast.Range{{To: ring.Length(), Section: s}}}))
	if want := (106 + 2*29*math.Sqrt(1+1.25*1.25)) * 2 * math.Pi * 2560; !near(float64(q.Total.Surface), want, 1e-12) {
		t.Errorf("surface %v, want %v", float64(q.Total.Surface), want)
	}
}

// A constant section beside the line on easements of every shape: A·Δs - M·Δθ,
// also over parts of them.
func TestOffsetOnEasements(t *testing.T) {
	s := gardenSection()
	s.Tracks = []measure.Length{60}
	area := 106*29 + 1.25*29*29
	for _, shape := range []curve.Shape{curve.Clothoid, curve.Bloss, curve.Cosine, curve.Sine, curve.Helmert} {
		line := open(must(curve.NewEasement(shape, 1000, -1.0/3000, 1.0/1200)))
		for _, r := range [][2]measure.Length{{0, 1000}, {0, 300}, {200, 900}, {499, 501}} {
			q, err := ballast.TakeOff(line, ballast.Bed{Ranges: []ballast.Range{{From: r[0], To: r[1], Section: s}}})
			want := area * (float64(r[1]-r[0]) - 60*float64(line.Turn(r[0], r[1])))
			if err != nil || !near(float64(q.Total.Solid), want, 1e-11) {
				t.Errorf("%v from %v to %v: %v, %v, want %v", shape, r[0], r[1], float64(q.Total.Solid), err, want)
			}
		}
	}
}

// Sections that no taper joins sensibly, many powers of ten apart, are refused
// before they take long.
func TestTakeOffBoundsItsWork(t *testing.T) {
	line := open(straight(10000))
	r := rand.New(rand.NewPCG(3, 4))
	any := func() measure.Length { return measure.Length(math.Pow(10, r.Float64()*20-8)) }
	section := func() ballast.Section {
		s := ballast.Section{
			Depth: any(), Sleeper: ballast.Sleeper{Length: any(), Width: 1e-3, Height: any()},
			Shoulder: any(), Crib: any(), ShoulderLevel: any(), Kerbed: r.IntN(2) == 0,
		}
		s.Tracks = []measure.Length{-any(), any(), 1e13}
		return s
	}
	for range 50 {
		a, b := section(), section()
		if _, err := ballast.TakeOff(line, ballast.Bed{Ranges: []ballast.Range{{To: 10000, Section: a, Taper: &b}}}); errors.Is(err, measure.ErrLimit) {
			return
		}
	}
	t.Error("none of 50 was refused")
}
