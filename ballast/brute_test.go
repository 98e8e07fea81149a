package ballast_test

import (
	"errors"
	"math"
	"testing"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/approx"
)

// A straight, a clothoid and an arc to the left, its bed tapered all along and
// canted on the curve, summed over a grid on the ground: each square's foot on
// the line is searched for, and the height of ballast over it written down from
// the definitions. Nothing here is shared with the package.
func TestAgainstSumOverTheGround(t *testing.T) {
	const (
		l1, l2, l3, R  = 400.0, 700.0, 500.0, 1500.0
		all            = l1 + l2 + l3
		g, sleeper, up = 47.5, 82.0, 9.0
		cell           = 1.0
		track          = 14.0 // to the left
	)
	// Height over the ground at chainage s and offset y.
	height := func(s, y float64) float64 {
		u := s / all
		depth, half := 22+u*14, 53+u*13
		cant := 4 * math.Min(math.Max((s-l1)/l2, 0), 1)
		a := math.Asin(cant / g)
		top := func(v float64) float64 { // v from the track, to the left; its left rail is the low one
			return depth + up/math.Cos(a) + (g/2*math.Cos(a)-v)*math.Tan(a)
		}
		switch v := y - track; {
		case v > half:
			return math.Max(0, top(half)-(v-half)/1.25)
		case v < -half:
			return math.Max(0, top(-half)-(-half-v)/1.25)
		default:
			return top(v)
		}
	}
	// The clothoid by the series of its integrals, from its own start.
	clothoid := func(s float64) (x, y, th float64) {
		th = s * s / (2 * R * l2)
		cx, cy, term := 0.0, 0.0, s
		for k := 0; k < 30; k++ { // s·Σ (i·th)^k / (k!·(2k+1))
			v := term / float64(2*k+1)
			switch k % 4 {
			case 0:
				cx += v
			case 1:
				cy += v
			case 2:
				cx -= v
			case 3:
				cy -= v
			}
			term *= th / float64(k+1)
		}
		return cx, cy, th
	}
	ex, ey, eth := clothoid(l2)
	mx, my := l1+ex-R*math.Sin(eth), ey+R*math.Cos(eth) // centre of the arc
	foot := func(px, py float64) (s, y float64, ok bool) {
		if px < l1 {
			return px, py, px >= 0
		}
		// Past the clothoid's end?
		if (px-l1-ex)*math.Cos(eth)+(py-ey)*math.Sin(eth) > 0 {
			dx, dy := px-mx, py-my
			th := math.Atan2(dx, -dy) // heading there
			s = l1 + l2 + (th-eth)*R
			return s, R - math.Hypot(dx, dy), s <= all
		}
		q := px - l1
		for range 20 {
			x, y, th := clothoid(q)
			along := (px-l1-x)*math.Cos(th) + (py-y)*math.Sin(th)
			across := -(px-l1-x)*math.Sin(th) + (py-y)*math.Cos(th)
			step := along / (1 - across*q/(R*l2))
			q += step
			if math.Abs(step) < 1e-10 {
				break
			}
		}
		x, y0, th := clothoid(q)
		return l1 + q, -(px-l1-x)*math.Sin(th) + (py-y0)*math.Cos(th), true
	}
	sum := 0.0
	for px := -cell / 2; px < 1700; px += cell {
		for py := -160 + cell/2; py < 700; py += cell {
			if math.Abs(py) > 200 && px < 900 {
				continue // no bed there
			}
			if s, y, ok := foot(px, py); ok && math.Abs(y) < 200 {
				sum += height(s, y)
			}
		}
	}
	sum *= cell * cell

	k := measure.Curvature(1 / R)
	line := open(straight(l1), must(curve.NewEasement(curve.Clothoid, l2, 0, k)), must(curve.NewArc(R, measure.Angle(l3/R), curve.Left)))
	a := ballast.Section{Depth: 22, Sleeper: ballast.Sleeper{Length: sleeper, Width: 12, Height: up}, TopWidth: 106, Tracks: []measure.Length{track}}
	b := a
	b.Depth, b.TopWidth = 36, 132
	cant := must(profile.NewCant(profile.InnerRail, profile.CantPoint{Chainage: l1}, profile.CantPoint{Chainage: l1 + l2, Cant: 4}))
	q, err := ballast.TakeOff(line, ballast.Bed{Ranges: []ballast.Range{{To: all, Section: a, Taper: &b}}, Cant: cant, RailCentres: g})
	if err != nil {
		t.Fatal(err)
	}
	got := float64(q.Total.Solid)
	t.Logf("over the ground %.1f mm³, along the line %.1f mm³, apart by %.2g of it", sum, got, got/sum-1)
	// The squares at the far end are in or out, which is worth some 3e-5 here; a
	// grid of 0.3 mm agrees to 6e-7.
	if math.Abs(got/sum-1) > 4e-5 {
		t.Errorf("TakeOff gives %.1f mm³, the sum over the ground %.1f", got, sum)
	}
	if q.Total.Cant <= 0 || q.Total.Curve >= 0 {
		t.Errorf("cant adds %v, the curve %v: want more and less than nothing", q.Total.Cant, q.Total.Curve)
	}
}

// What cant adds on the straight, worked: the trapezium's area with its middle
// raised, kept or lowered, less the level one.
func TestCantByDatum(t *testing.T) {
	line := open(straight(1000))
	for datum, lift := range map[profile.Datum]float64{profile.InnerRail: 2, profile.Centreline: 0, profile.OuterRail: -2} {
		cant := must(profile.NewCant(datum, profile.CantPoint{Chainage: 0, Cant: -4}))
		q, err := ballast.TakeOff(line, ballast.Bed{Ranges: []ballast.Range{{To: 1000, Section: gardenSection()}}, Cant: cant, RailCentres: 47.5})
		sin := 4 / 47.5
		cos := math.Sqrt(1 - sin*sin)
		h := 20 + 9/cos + lift
		want := (106*h + 1.25*(h*h+sin*sin/cos/cos*106*106/4) - 106*29 - 1.25*29*29) * 1000
		if err != nil || !near(float64(q.Total.Cant), want, 1e-9) {
			t.Errorf("%v: cant adds %v mm³, %v, want %v", datum, float64(q.Total.Cant), err, want)
		}
	}
}

// bigLine is a kilometre of line: 80 eased bends with straights between, canted
// and with a bed that changes every tenth of the way.
func bigLine() (*curve.Alignment, ballast.Bed) {
	var es []curve.Element
	hand := curve.Left
	for i := range 80 {
		shape := []curve.Shape{curve.Clothoid, curve.Bloss, curve.Cosine, curve.Sine, curve.Helmert}[i%5]
		b := must(curve.Bend{Radius: 5000, Turn: 1.7, Hand: hand, EaseIn: 1300, EaseOut: 1300, Shape: shape}.Elements())
		es = append(append(es, straight(2700)), b...)
		hand = hand.Opposite()
	}
	line := open(es...)
	cants := make([]measure.Length, len(profile.Bends(line)))
	for i := range cants {
		cants[i] = 4
	}
	bed := ballast.Bed{Cant: must(profile.NewBendCant(line, profile.InnerRail, cants...)), RailCentres: 47.5}
	s, w := gardenSection(), gardenSection()
	w.Depth = 35
	for i := range 20 {
		r := ballast.Range{From: line.Length() * measure.Length(i) / 20, To: line.Length() * measure.Length(i+1) / 20, Section: s, Sleepers: 1000}
		if i%2 == 1 {
			r.Taper = &w
			s, w = w, s
		}
		bed.Ranges = append(bed.Ranges, r)
	}
	for i := range 40 {
		from := line.Length() * (measure.Length(i) + 0.3) / 40
		bed.Gaps = append(bed.Gaps, ballast.Stretch{Name: "points", From: from, To: from + 700})
	}
	return line, bed
}

func BenchmarkTakeOffKilometre(b *testing.B) {
	line, bed := bigLine()
	if line.Length() < measure.Kilometre {
		b.Fatalf("the line is only %v long", line.Length())
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := ballast.TakeOff(line, bed); err != nil {
			b.Fatal(err)
		}
	}
}

// On a ring what cant adds is the difference of two bodies of revolution.
func TestCantOnARing(t *testing.T) {
	ring := must(curve.NewClosed(curve.Pose{}, 1e-6, 1e-9, must(curve.NewArc(2500, 2*math.Pi, curve.Left))))
	s := gardenSection()
	s.Tracks = []measure.Length{60}
	cant := must(profile.NewCant(profile.InnerRail, profile.CantPoint{Cant: 4}))
	q := must(ballast.TakeOff(ring, ballast.Bed{Ranges: []ballast.Range{{To: ring.Length(), Section: s}}, Cant: cant, RailCentres: 47.5}))
	a, b := must(s.Outline(4, 47.5, profile.InnerRail)), must(s.Outline(0, 47.5, profile.InnerRail))
	want := 2 * math.Pi * (float64(a.Area)*(2500-float64(a.Centroid)) - float64(b.Area)*(2500-float64(b.Centroid)))
	if !near(float64(q.Total.Cant), want, 1e-9) {
		t.Errorf("cant adds %v, want %v", float64(q.Total.Cant), want)
	}
}

func TestCantOfACircuit(t *testing.T) {
	line := oval(700)
	end := line.Length()
	s := gardenSection()
	s.Tracks = []measure.Length{25}
	bed := ballast.Bed{Ranges: []ballast.Range{{To: end, Section: s}}, RailCentres: 47.5}
	cants := make([]measure.Length, len(profile.Bends(line)))
	for i := range cants {
		cants[i] = 3
	}
	bed.Cant = must(profile.NewBendCant(line, profile.InnerRail, cants...))
	whole := must(ballast.TakeOff(line, bed)).Total
	// Cut somewhere in a canted easement and over the start, it is the same bed.
	bed.Ranges = []ballast.Range{{From: 3300, To: 12000, Section: s}, {From: 12000, To: 3300, Section: s}}
	if d := approx.Diff(whole, must(ballast.TakeOff(line, bed)).Total, 0.05); d != "" || whole.Cant <= 0 {
		t.Errorf("cut elsewhere: %s", d)
	}
	for name, c := range map[string]profile.Cant{
		"of another lap":      must(profile.NewClosedCant(profile.InnerRail, end/2, 1e-6, profile.CantPoint{Cant: 1}, profile.CantPoint{Chainage: end / 4})),
		"too much":            must(profile.NewCant(profile.InnerRail, profile.CantPoint{Cant: 30})),
		"low end in the soil": must(profile.NewCant(profile.OuterRail, profile.CantPoint{Cant: 20})),
	} {
		bed.Cant = c
		if _, err := ballast.TakeOff(line, bed); !errors.Is(err, measure.ErrInput) {
			t.Errorf("cant %s: %v, want an error", name, err)
		}
	}
	bed.Cant, bed.RailCentres = must(profile.NewCant(profile.InnerRail, profile.CantPoint{Cant: 1})), 0
	if _, err := ballast.TakeOff(line, bed); !errors.Is(err, measure.ErrInput) {
		t.Errorf("cant without rail-head centres: %v", err)
	}
}
