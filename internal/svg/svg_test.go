package svg_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/export"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/svg"
)

func page() svg.Page {
	return svg.Page{Name: "t1-", Title: "Test <& \"sheet\"", Width: 200, Height: 100, Corner: r2.Vec{X: -1000, Y: 500}, Scale: 20}
}

func drawing(t testing.TB) *svg.Drawing {
	t.Helper()
	d, err := svg.New(page())
	if err != nil {
		t.Fatal(err)
	}
	return d
}

type node struct {
	name string
	attr map[string]string
	text string
}

// parse reads the drawing with encoding/xml, which refuses what is not
// well-formed.
func parse(t testing.TB, data []byte) []node {
	t.Helper()
	var out []node
	dec := xml.NewDecoder(bytes.NewReader(data))
	depth := 0
	for {
		tok, err := dec.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("not well-formed: %v\n%s", err, data)
		}
		switch x := tok.(type) {
		case xml.StartElement:
			n := node{x.Name.Local, map[string]string{}, ""}
			for _, a := range x.Attr {
				if _, twice := n.attr[a.Name.Local]; twice {
					t.Errorf("attribute %s twice in %s", a.Name.Local, n.name)
				}
				n.attr[a.Name.Local] = a.Value
			}
			out = append(out, n)
			depth++
		case xml.CharData:
			if len(out) > 0 {
				out[len(out)-1].text += strings.TrimSpace(string(x))
			}
		case xml.EndElement:
			depth--
		}
	}
	if depth != 0 {
		t.Errorf("depth %d at the end", depth)
	}
	return out
}

func result(t testing.TB, d *svg.Drawing) []node {
	t.Helper()
	data, err := d.SVG()
	if err != nil {
		t.Fatal(err)
	}
	return parse(t, data)
}

func find(nodes []node, name string) (out []node) {
	for _, n := range nodes {
		if n.name == name {
			out = append(out, n)
		}
	}
	return out
}

func TestSheetIsToScale(t *testing.T) {
	d := drawing(t)
	d.Lines(svg.Pen{}, r2.Vec{X: -1000, Y: 500}, r2.Vec{X: 1000, Y: 500}, r2.Vec{X: 1000, Y: 2500})
	d.Circle(svg.Pen{}, r2.Vec{X: 0, Y: 1500}, 400)
	d.Dot(svg.Pen{}, d.Paper(50, 10), 2)
	n := result(t, d)
	root := n[0].attr
	if root["width"] != "200mm" || root["height"] != "100mm" || root["viewBox"] != "0 0 200 100" {
		t.Errorf("sheet %v", root)
	}
	if got, want := find(n, "path")[0].attr["d"], "M0 100L100 100L100 0"; got != want {
		t.Errorf("path %q, want %q: 1:20, y upwards", got, want)
	}
	c := find(n, "circle")
	if c[0].attr["cx"] != "50" || c[0].attr["cy"] != "50" || c[0].attr["r"] != "20" {
		t.Errorf("circle on the plan %v", c[0].attr)
	}
	if c[1].attr["cx"] != "50" || c[1].attr["cy"] != "90" || c[1].attr["r"] != "2" {
		t.Errorf("dot on the paper %v", c[1].attr)
	}
}

func TestTextIsEscaped(t *testing.T) {
	evil := "</text><script>alert(\"1\")</script> & 'x' \x00\x1b 5½″ 標"
	d := drawing(t)
	d.Layer(evil)
	d.Text(r2.Vec{}, svg.Font{}, evil)
	d.Leader(r2.Vec{}, 5, 5, evil)
	d.Dimension(r2.Vec{}, r2.Vec{X: 100}, 5, evil)
	n := result(t, d)
	if s := find(n, "script"); len(s) > 0 {
		t.Fatal("text became an element")
	}
	want := "</text><script>alert(\"1\")</script> & 'x' \uFFFD\uFFFD 5½″ 標"
	texts := find(n, "text")
	if len(texts) != 3 {
		t.Fatalf("%d texts, want 3", len(texts))
	}
	for _, x := range texts {
		if x.text != want {
			t.Errorf("text %q, want %q", x.text, want)
		}
	}
	if got := find(n, "title")[0].text; got != page().Title {
		t.Errorf("title %q", got)
	}
}

func TestPathFitsTheView(t *testing.T) {
	e, err := curve.NewArc(1000, math.Pi/2, curve.Left)
	if err != nil {
		t.Fatal(err)
	}
	line, err := curve.New(curve.Pose{Point: r2.Vec{X: 0, Y: 700}}, e)
	if err != nil {
		t.Fatal(err)
	}
	d := drawing(t)
	data, err := export.Path(line, export.Range{}, d.View(), 0.1)
	if err != nil {
		t.Fatal(err)
	}
	d.Path(svg.Pen{Dash: svg.Chain}, data)
	if got, want := find(result(t, d), "path")[0].attr["d"], "M50 90A50 50 0 0 0 100 40"; got != want {
		t.Errorf("path %q, want %q", got, want)
	}
	d.Path(svg.Pen{}, `M0 0"/><script>`)
	if _, err := d.SVG(); !errors.Is(err, measure.ErrInput) {
		t.Errorf("what is no path data gives %v", err)
	}
}

func TestPens(t *testing.T) {
	d := drawing(t)
	square := []r2.Vec{{}, {X: 100}, {X: 100, Y: 100}}
	d.Figure(svg.Pen{Weight: svg.Heavy, Dash: svg.Dashed, Grey: 0.5, Hatch: svg.Rising}, square...)
	d.Figure(svg.Pen{Hatch: svg.Stipple, Dash: svg.NoLine}, square...)
	d.Figure(svg.Pen{Hatch: svg.Rising}, square...)
	d.Lines(svg.Pen{Hatch: svg.Solid}, square...)
	n := result(t, d)
	ids := map[string]bool{}
	for _, p := range find(n, "pattern") {
		if ids[p.attr["id"]] {
			t.Errorf("pattern %s twice", p.attr["id"])
		}
		ids[p.attr["id"]] = true
	}
	if len(ids) != 2 {
		t.Errorf("patterns %v, want the two that are used", ids)
	}
	figures := 0
	for _, p := range find(n, "path") {
		fill := p.attr["fill"]
		if strings.HasPrefix(fill, "url(#") {
			figures++
			if id := strings.TrimSuffix(strings.TrimPrefix(fill, "url(#"), ")"); !ids[id] || !strings.HasPrefix(id, "t1-") {
				t.Errorf("fill %q has no pattern of this drawing", fill)
			}
		}
	}
	if figures != 3 {
		t.Errorf("%d hatched figures, want 3", figures)
	}
	var drawn []node
	for _, p := range find(n, "path") {
		if strings.Contains(p.attr["d"], "L") && p.attr["stroke-width"] != "0.13" {
			drawn = append(drawn, p)
		}
	}
	first := drawn[0].attr
	if first["stroke"] != "#808080" || first["stroke-width"] != "0.5" || first["stroke-dasharray"] != "2 1" {
		t.Errorf("heavy dashed grey line: %v", first)
	}
	if last := drawn[len(drawn)-1].attr; last["fill"] != "none" {
		t.Errorf("an open line is filled: %v", last)
	}
}

// No ink has a colour.
func TestBlackAndGrey(t *testing.T) {
	data, err := demo(t).SVG()
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range regexp.MustCompile(`(?:fill|stroke)="([^"]*)"`).FindAllStringSubmatch(string(data), -1) {
		c := m[1]
		if c == "none" || strings.HasPrefix(c, "url(") || c == "#fff" || c == "#000" {
			continue
		}
		if len(c) != 7 || c[1:3] != c[3:5] || c[3:5] != c[5:7] {
			t.Errorf("ink %q is neither black nor grey", c)
		}
	}
}

func TestDimension(t *testing.T) {
	d := drawing(t)
	d.Dimension(r2.Vec{X: 0, Y: 600}, r2.Vec{X: 0, Y: 1600}, 6, "")
	n := result(t, d)
	text := find(n, "text")[0]
	if text.text != "1 m" && text.text != "1000 mm" {
		t.Errorf("dimension of 1000 mm says %q", text.text)
	}
	if !strings.HasPrefix(text.attr["transform"], "rotate(-90 ") {
		t.Errorf("upright text: %q, want it read from the right", text.attr["transform"])
	}
	// Downwards it is still read from the right, on the other side.
	e := drawing(t)
	e.Dimension(r2.Vec{X: 0, Y: 1600}, r2.Vec{X: 0, Y: 600}, 6, "x")
	if x := find(result(t, e), "text")[0]; !strings.HasPrefix(x.attr["transform"], "rotate(-90 ") || x.attr["x"] != "56" {
		t.Errorf("downwards: %v", x.attr)
	}
	if x, _ := strconv.ParseFloat(text.attr["x"], 64); x != 44 {
		t.Errorf("text at x %v, want 6 mm to the left of 50", x)
	}
	d.Dimension(r2.Vec{X: 5}, r2.Vec{X: 5}, 6, "")
	if _, err := d.SVG(); !errors.Is(err, measure.ErrInput) {
		t.Errorf("a dimension of nothing gives %v", err)
	}
}

// The bar is as long as it says, at the scale it says.
func TestScaleBar(t *testing.T) {
	for _, scale := range []float64{1, 2, 5, 10, 16, 25, 37.5, 100, 250} {
		p := page()
		p.Scale = scale
		d, err := svg.New(p)
		if err != nil {
			t.Fatal(err)
		}
		d.ScaleBar(10, 10)
		n := result(t, d)
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, f := range find(n, "path") {
			for _, c := range regexp.MustCompile(`[ML]([0-9.]+) `).FindAllStringSubmatch(f.attr["d"], -1) {
				x, _ := strconv.ParseFloat(c[1], 64)
				lo, hi = min(lo, x), max(hi, x)
			}
		}
		texts := find(n, "text")
		var says measure.Length
		var ratio string
		for _, x := range texts {
			if l, err := measure.ParseLength(x.text); err == nil && x.text != "0" {
				says = l
			}
			if strings.HasPrefix(x.text, "1:") {
				ratio = x.text[2:]
			}
		}
		if math.Abs((hi-lo)*scale-float64(says)) > 0.01*scale || hi-lo < 34 || hi-lo > 90 {
			t.Errorf("1:%v: bar of %v mm of paper says %v", scale, hi-lo, says)
		}
		if r, err := strconv.ParseFloat(ratio, 64); err != nil || r != scale {
			t.Errorf("1:%v: says 1:%s", scale, ratio)
		}
	}
}

// A diagram has scales of its own along and up; a circle's and a line's place
// follow them, text does not.
func TestUprightScale(t *testing.T) {
	p := page()
	p.Upright = 5
	d, err := svg.New(p)
	if err != nil {
		t.Fatal(err)
	}
	d.Lines(svg.Pen{}, r2.Vec{X: -1000, Y: 500}, r2.Vec{X: 1000, Y: 750})
	if got, want := find(result(t, d), "path")[0].attr["d"], "M0 100L100 50"; got != want {
		t.Errorf("path %q, want %q", got, want)
	}
	if at := d.Paper(100, 50); at != (r2.Vec{X: 1000, Y: 750}) {
		t.Errorf("Paper(100, 50) = %v", at)
	}
	d.Path(svg.Pen{}, "M0 0L1 1")
	if _, err := d.SVG(); !errors.Is(err, measure.ErrInput) {
		t.Errorf("path data of one scale gives %v", err)
	}
}

func TestFit(t *testing.T) {
	p, err := svg.Fit(297, 210, 10, r2.Vec{X: -500, Y: 20}, r2.Vec{X: 6100, Y: 2900}, r2.Vec{X: 0, Y: 3000})
	if err != nil {
		t.Fatal(err)
	}
	if p.Scale != 25 { // 6600/277 = 23.8, 2980/190 = 15.7
		t.Errorf("scale 1:%v, want 1:25", p.Scale)
	}
	d, err := svg.New(p)
	if err != nil {
		t.Fatal(err)
	}
	if lo, hi := d.Paper(10, 10), d.Paper(p.Width-10, p.Height-10); r2.Norm(r2.Sub(lo, r2.Vec{X: -500, Y: 20})) > 1e-9 || r2.Norm(r2.Sub(hi, r2.Vec{X: 6100, Y: 3000})) > 1e-9 {
		t.Errorf("the margins' corners are %v and %v", lo, hi)
	}
	if _, err := svg.Fit(10, measure.Length(math.Inf(1)), 9, r2.Vec{X: math.NaN()}); !errors.Is(err, measure.ErrInput) || !strings.Contains(err.Error(), "point 1") {
		t.Errorf("bad input gives %v", err)
	}
}

func TestRefuses(t *testing.T) {
	if _, err := svg.New(svg.Page{Name: `x"`, Corner: r2.Vec{X: math.NaN()}}); err == nil ||
		!strings.Contains(err.Error(), "name") || !strings.Contains(err.Error(), "corner") || !strings.Contains(err.Error(), "scale") || !strings.Contains(err.Error(), "width") {
		t.Errorf("New gives %v, want all faults", err)
	}
	nan := math.NaN()
	for i, draw := range []func(*svg.Drawing){
		func(d *svg.Drawing) { d.Lines(svg.Pen{}, r2.Vec{X: nan}, r2.Vec{}) },
		func(d *svg.Drawing) { d.Circle(svg.Pen{}, r2.Vec{}, measure.Length(nan)) },
		func(d *svg.Drawing) { d.Text(r2.Vec{Y: math.Inf(1)}, svg.Font{}, "x") },
		func(d *svg.Drawing) { d.Text(r2.Vec{}, svg.Font{Size: nan}, "x") },
		func(d *svg.Drawing) { d.Lines(svg.Pen{Weight: nan}, r2.Vec{}, r2.Vec{X: 1}) },
		func(d *svg.Drawing) { d.Dimension(r2.Vec{}, r2.Vec{X: 5}, measure.Length(nan), "") },
	} {
		d := drawing(t)
		draw(d)
		if _, err := d.SVG(); !errors.Is(err, measure.ErrInput) {
			t.Errorf("case %d gives %v", i, err)
		}
	}
}

// demo is a sheet with everything on it.
func demo(t testing.TB) *svg.Drawing {
	t.Helper()
	s, err1 := curve.NewStraight(1500)
	bend, err2 := curve.Bend{Radius: 1500, Turn: math.Pi / 2, Hand: curve.Left, EaseIn: 600, EaseOut: 600}.Elements()
	line, err3 := curve.New(curve.Pose{}, append(append([]curve.Element{s}, bend...), s)...)
	p, err4 := svg.Fit(277, 190, 22, r2.Vec{X: -100, Y: -200}, r2.Vec{X: 3600, Y: 3900})
	if err := errors.Join(err1, err2, err3, err4); err != nil {
		t.Fatal(err)
	}
	p.Name, p.Title = "demo-", "Corner with a wall & a post"
	d, err := svg.New(p)
	if err != nil {
		t.Fatal(err)
	}
	d.Frame(3)
	d.Layer("structures")
	d.Figure(svg.Pen{Hatch: svg.Rising}, r2.Vec{X: 300, Y: 120}, r2.Vec{X: 1300, Y: 120}, r2.Vec{X: 1300, Y: 260}, r2.Vec{X: 300, Y: 260})
	d.Figure(svg.Pen{Hatch: svg.Stipple, Dash: svg.Dotted}, r2.Vec{X: 1500, Y: 700}, r2.Vec{X: 2300, Y: 700}, r2.Vec{X: 2300, Y: 1500}, r2.Vec{X: 1500, Y: 1500})
	d.Circle(svg.Pen{Hatch: svg.Cross}, r2.Vec{X: 2750, Y: 800}, 60)
	d.Layer("line")
	data, err := export.Path(line, export.Range{}, d.View(), 0.1)
	if err != nil {
		t.Fatal(err)
	}
	d.Path(svg.Pen{Weight: svg.Medium, Dash: svg.Chain}, data)
	for i, side := range []measure.Length{-80, 80} {
		var edge []r2.Vec
		for s := measure.Length(0); s <= line.Length(); s += 20 {
			edge = append(edge, line.Offset(s, side))
		}
		d.Lines(svg.Pen{Weight: svg.Heavy, Dash: []svg.Dash{svg.Full, svg.Wide}[i]}, edge...)
	}
	d.Layer("text")
	d.Dimension(r2.Vec{X: 300, Y: 260}, r2.Vec{X: 1300, Y: 260}, 6, "")
	d.Dimension(r2.Vec{X: 1300, Y: 0}, r2.Vec{X: 1300, Y: 120}, -9, "120 mm")
	d.Dimension(r2.Vec{X: 1500, Y: 700}, r2.Vec{X: 1500, Y: 1500}, 5, "")
	d.Leader(r2.Vec{X: 2750, Y: 800}, 14, -12, "post: foul by 4 mm")
	d.Leader(line.Point(line.Length()-200), -20, 4, "end of the line")
	d.Text(d.Paper(8, p.Height-10), svg.Font{Size: 4, Bold: true}, "Corner with a wall & a post")
	d.ScaleBar(10, 8)
	d.North(p.Width-12, 10)
	return d
}

func TestDemoIsWellFormed(t *testing.T) {
	if n := result(t, demo(t)); len(find(n, "g")) != 3 || len(find(n, "pattern")) != 3 {
		t.Errorf("%d layers, %d patterns", len(find(n, "g")), len(find(n, "pattern")))
	}
}
