package drawing_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/drawing"
	"example.org/fourfoot/clearance/opening"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

func must[T any](t testing.TB) func(v T, err error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func envelope(t testing.TB, cant measure.Length) *clearance.Envelope {
	s := must[curve.Element](t)(curve.NewStraight(1000))
	b := must[[]curve.Element](t)(curve.Bend{Radius: 1500, Turn: 70 * measure.Degree, Hand: curve.Left, EaseIn: 600, EaseOut: 600}.Elements())
	line := must[*curve.Alignment](t)(curve.New(curve.Pose{}, append(append([]curve.Element{s}, b...), s)...))
	stock := []clearance.Vehicle{
		clearance.Bogie("coach", 443, 80,
			clearance.Band{Name: "frame", Bottom: 12, Top: 30, Outline: clearance.Box(600, 70)},
			clearance.Band{Name: "body", Bottom: 30, Top: 105, Outline: clearance.Tapered(614, 88, 40, 40, 70)},
			clearance.Band{Name: "roof", Bottom: 105, Top: 125, Outline: clearance.Box(614, 60)}),
		clearance.Rigid("engine", 150,
			clearance.Band{Name: "cylinders", Bottom: 8, Top: 40, Outline: clearance.Box(120, 90)},
			clearance.Band{Name: "boiler", Bottom: 40, Top: 110, Outline: clearance.Box(320, 62)},
			clearance.Band{Name: "chimney", Bottom: 110, Top: 142, Outline: clearance.Box(20, 20).Moved(110)}),
	}
	set := clearance.Settings{Allowances: clearance.Allowances{Play: 0.5, Laying: 1}}
	if cant > 0 {
		set.Allowances.Cant = must[profile.Cant](t)(profile.NewBendCant(line, profile.InnerRail, cant))
		set.Allowances.RailCentres = 47.5
	}
	return must[*clearance.Envelope](t)(clearance.Sweep(t.Context(), line, stock, set))
}

// sound checks that an SVG is well formed and has nothing unwritable in it, and
// keeps it where FOURFOOT_DRAWINGS says, to be looked at.
func sound(t *testing.T, name string, b []byte) string {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(b))
	for {
		if _, err := d.Token(); err == io.EOF {
			break
		} else if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
	}
	if s := string(b); strings.Contains(s, "NaN") || strings.Contains(s, "Inf") {
		t.Errorf("%s has NaN or Inf in it", name)
	}
	if dir := os.Getenv("FOURFOOT_DRAWINGS"); dir != "" {
		if err := os.WriteFile(dir+"/"+name+".svg", b, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return string(b)
}

// layer returns the first path of a layer, in millimetres of paper.
func layer(t *testing.T, svg, name string) (x, y []float64) {
	t.Helper()
	m := regexp.MustCompile(`<g class="` + name + `">\s*<path d="M([^"]*)"`).FindStringSubmatch(svg)
	if m == nil {
		t.Fatalf("no path in layer %q", name)
	}
	for _, p := range strings.Split(strings.TrimSuffix(m[1], "Z"), "L") {
		a, b, _ := strings.Cut(p, " ")
		u, err1 := strconv.ParseFloat(a, 64)
		v, err2 := strconv.ParseFloat(b, 64)
		if err := errors.Join(err1, err2); err != nil {
			t.Fatal(err)
		}
		x, y = append(x, u), append(y, v)
	}
	return x, y
}

func span(v []float64) float64 {
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, x := range v {
		lo, hi = min(lo, x), max(hi, x)
	}
	return hi - lo
}

// The card on paper is as large as the card, and left is on the left.
func TestFormerIsFullSize(t *testing.T) {
	e := envelope(t, 3)
	f := must[opening.Former](t)(opening.NewFormer(t.Context(), e, 1800, 2400, opening.Card{Margin: 5, Gauge: 45, RailCentres: 47.5, Tongue: 2, Play: 0.5}))
	s := sound(t, "former", must[[]byte](t)(drawing.Former(drawing.Sheet{Name: "f"}, f)))
	x, y := layer(t, s, "card")
	var wide, high []float64
	for _, p := range f.Outline {
		wide, high = append(wide, float64(p.Offset)), append(high, float64(p.Height))
	}
	if math.Abs(span(x)-span(wide)) > 2e-3 || math.Abs(span(y)-span(high)) > 2e-3 || len(x) != len(f.Outline) {
		t.Errorf("on paper %v by %v, the card is %v by %v", span(x), span(y), span(wide), span(high))
	}
	for i, p := range f.Outline {
		if d := (x[0] - x[i]) - float64(p.Offset-f.Outline[0].Offset); math.Abs(d) > 2e-3 {
			t.Fatalf("corner %d is off by %v: left must be on the left", i, d)
		}
	}
	w := regexp.MustCompile(`width="([0-9.]+)mm" height="([0-9.]+)mm" viewBox="0 0 ([0-9.]+) ([0-9.]+)"`).FindStringSubmatch(s)
	if w == nil || w[1] != w[3] || w[2] != w[4] {
		t.Errorf("page %v: not in millimetres", w)
	}
}

func TestSection(t *testing.T) {
	e := envelope(t, 3)
	sec := must[opening.Section](t)(opening.At(e, 2000))
	a := must[opening.Arch](t)(sec.Arch(opening.ArchForm{Floor: -12, About: opening.Free}, 6))
	r := must[opening.Rectangle](t)(sec.Rectangle(6, opening.Free))
	s := sound(t, "section", must[[]byte](t)(drawing.Section{
		Sheet: drawing.Sheet{Name: "s", Title: "section at chainage 2000 mm"}, Section: sec, Gauge: 45, RailCentres: 47.5, Ground: -12, RightRail: 2.9,
		Openings: []drawing.Face{{Name: "arch", Outline: a.Outline(0.05)}, {Name: "rectangle", Outline: r.Outline(-12)}},
	}.SVG()))
	x, _ := layer(t, s, "opening")
	m := regexp.MustCompile(`>1:([0-9.]+)<`).FindStringSubmatch(s)
	if m == nil {
		t.Fatal("no scale is stated")
	}
	n := must[float64](t)(strconv.ParseFloat(m[1], 64))
	if math.Abs(span(x)*n-float64(a.Span)) > 0.01*n {
		t.Errorf("the arch is %v wide on paper at 1:%v, want %v", span(x), n, float64(a.Span))
	}
	c := must[opening.Circle](t)(sec.Circle(6, opening.Centred))
	sound(t, "pipe", must[[]byte](t)(drawing.Section{
		Sheet: drawing.Sheet{Name: "p", Title: "pipe"}, Section: sec, Gauge: 45, RailCentres: 47.5, Ground: -12,
		Openings: []drawing.Face{{Name: "pipe", Outline: c.Outline(0.05)}},
	}.SVG()))
}

func TestPlan(t *testing.T) {
	e := envelope(t, 0)
	tunnel := must[*opening.Tunnel](t)(opening.NewTunnel(t.Context(), e, 1300, 2300, opening.StraightWalls))
	r := must[opening.Rectangle](t)(tunnel.Section().Rectangle(6, opening.Free))
	pegs := must[[]opening.Peg](t)(tunnel.Layout(r.Left, r.Right, 100))
	sound(t, "plan", must[[]byte](t)(drawing.Plan{
		Sheet: drawing.Sheet{Name: "plan", Title: "tunnel with straight walls"}, Envelope: e, From: 1000, To: 2800, RailCentres: 47.5, Walls: [][]opening.Peg{pegs},
		Structures: []clearance.Structure{{Name: "fence", Kind: clearance.Fence, Faces: []clearance.Face{{Side: curve.Right, From: 2400, To: 2700, Offset: 90}}}, {Name: "post", Kind: clearance.Post, Faces: []clearance.Face{{Side: curve.Left, From: 1150, To: 1150, Offset: 80}}}},
	}.SVG(t.Context())))
	sound(t, "whole", must[[]byte](t)(drawing.Plan{Envelope: e}.SVG(t.Context())))
	circle := must[*curve.Alignment](t)(curve.NewClosed(curve.Pose{}, 0, 0, must[curve.Element](t)(curve.NewArc(1200, 360*measure.Degree, curve.Left))))
	e = must[*clearance.Envelope](t)(clearance.Sweep(t.Context(), circle, e.Stock(), clearance.Settings{}))
	sound(t, "circuit", must[[]byte](t)(drawing.Plan{Sheet: drawing.Sheet{Title: "circuit"}, Envelope: e, RailCentres: 47.5}.SVG(t.Context())))
	sound(t, "over", must[[]byte](t)(drawing.Plan{Envelope: e, From: 7000, To: 700}.SVG(t.Context())))
}

func TestRefusals(t *testing.T) {
	e := envelope(t, 0)
	sec := must[opening.Section](t)(opening.At(e, 2000))
	nan := measure.Length(math.NaN())
	for name, f := range map[string]func() error{
		"empty section": func() error { _, err := drawing.Section{Gauge: 45, RailCentres: 47}.SVG(); return err },
		"gauge":         func() error { _, err := drawing.Section{Section: sec}.SVG(); return err },
		"name": func() error {
			_, err := drawing.Section{Sheet: drawing.Sheet{Name: "a b"}, Section: sec, Gauge: 45, RailCentres: 47}.SVG()
			return err
		},
		"ground": func() error {
			_, err := drawing.Section{Section: sec, Gauge: 45, RailCentres: 47, Ground: nan}.SVG()
			return err
		},
		"no former": func() error {
			_, err := drawing.Former(drawing.Sheet{Name: "f"}, opening.Former{Gauge: 45, RailCentres: 47})
			return err
		},
		"no envelope": func() error { _, err := drawing.Plan{}.SVG(t.Context()); return err },
		"backwards":   func() error { _, err := drawing.Plan{Envelope: e, From: 500, To: 400}.SVG(t.Context()); return err },
		"off":         func() error { _, err := drawing.Plan{Envelope: e, From: 500, To: 1e6}.SVG(t.Context()); return err },
		"nan":         func() error { _, err := drawing.Plan{Envelope: e, From: nan, To: 4}.SVG(t.Context()); return err },
	} {
		if err := f(); !errors.Is(err, measure.ErrInput) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if _, err := (drawing.Plan{Envelope: e, Every: 0.1}).SVG(t.Context()); !errors.Is(err, measure.ErrLimit) {
		t.Errorf("marks: %v", err)
	}
}

// On straight track the space in plan is as long as the line and as wide as the
// stock and its allowances, at the scale that is stated; left of the line, which
// runs to the east, is up.
func TestPlanIsToScale(t *testing.T) {
	line := must[*curve.Alignment](t)(curve.New(curve.Pose{}, must[curve.Element](t)(curve.NewStraight(2000))))
	outline := clearance.Outline{{Along: -95, Across: -40}, {Along: 95, Across: -40}, {Along: 95, Across: 60}, {Along: -95, Across: 60}}
	v := clearance.Rigid("wide to the left", 110, clearance.Band{Top: 90, Outline: outline})
	e := must[*clearance.Envelope](t)(clearance.Sweep(t.Context(), line, []clearance.Vehicle{v}, clearance.Settings{Allowances: clearance.Allowances{Laying: 5}}))
	s := sound(t, "straight", must[[]byte](t)(drawing.Plan{Envelope: e, RailCentres: 47.5}.SVG(t.Context())))
	m := regexp.MustCompile(`>1:([0-9.]+)<`).FindStringSubmatch(s)
	if m == nil {
		t.Fatal("no scale is stated")
	}
	n := must[float64](t)(strconv.ParseFloat(m[1], 64))
	x, y := layer(t, s, "stock")
	if math.Abs(span(x)*n-2000) > 2e-3*n || math.Abs(span(y)*n-110) > 2e-3*n {
		t.Errorf("%v by %v on paper at 1:%v, want 2000 by 110", span(x), span(y), n)
	}
	_, rail := layer(t, s, "track") // the left rail, 23.75 to the left
	if up := (rail[0] - y[0]) * n; math.Abs(up-(65-23.75)) > 4e-3*n {
		t.Errorf("the left edge is %v above the left rail, want %v", up, 65-23.75)
	}
}
