package svg_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/internal/svg"
)

var text = regexp.MustCompile(`<text x="([-0-9.]+)" y="([-0-9.]+)" font-size="2.5"[^>]*>label</text>`)

// labelled returns the box of the paper, y downwards, that the label of five
// letters takes: about 0.55 of their size each.
func labelled(t *testing.T, d *svg.Drawing) (x0, x1, y0, y1 float64) {
	t.Helper()
	b, err := d.SVG()
	if err != nil {
		t.Fatal(err)
	}
	m := text.FindStringSubmatch(string(b))
	if m == nil {
		t.Fatalf("no label in %s", b)
	}
	x, _ := strconv.ParseFloat(m[1], 64)
	y, _ := strconv.ParseFloat(m[2], 64)
	x0, x1 = x, x+5*0.55*2.5
	if strings.Contains(m[0], `text-anchor="end"`) {
		x0, x1 = x-5*0.55*2.5, x
	}
	return x0, x1, y - 1.9, y + 0.5
}

// A label stands clear of lines, of hatched figures and of other texts, on the
// sheet, wherever there is room.
func TestLabelKeepsOff(t *testing.T) {
	for seed := range 200 {
		rng := rand.New(rand.NewPCG(uint64(seed), 3))
		d, err := svg.New(svg.Page{Width: 200, Height: 120, Scale: 1})
		if err != nil {
			t.Fatal(err)
		}
		tip := r2.Vec{X: 4 + 192*rng.Float64(), Y: 4 + 112*rng.Float64()}
		// A line through the tip, which points of a millimetre stand for; a block
		// of masonry at it, to one side of the line.
		turn := 2 * math.Pi * rng.Float64()
		along := r2.Vec{X: math.Cos(turn), Y: math.Sin(turn)}
		left := r2.Vec{X: -along.Y, Y: along.X}
		d.Lines(svg.Pen{}, r2.Sub(tip, r2.Scale(300, along)), r2.Add(tip, r2.Scale(300, along)))
		block := []r2.Vec{tip, r2.Add(tip, r2.Scale(25, along)), r2.Add(r2.Add(tip, r2.Scale(25, along)), r2.Scale(12, left)), r2.Add(tip, r2.Scale(12, left))}
		d.Figure(svg.Pen{Hatch: svg.Rising}, block...)
		d.Text(r2.Vec{X: tip.X + 8, Y: tip.Y + 5}, svg.Font{}, "another text")
		d.Label(tip, "label")
		x0, x1, y0, y1 := labelled(t, d)
		if x0 < 0 || y0 < 0 || x1 > 200 || y1 > 120 {
			t.Fatalf("seed %d: the label is off the sheet: %v to %v, %v to %v", seed, x0, x1, y0, y1)
		}
		hits := func(p r2.Vec) bool {
			q := r2.Vec{X: p.X, Y: 120 - p.Y}
			return q.X > x0 && q.X < x1 && q.Y > y0 && q.Y < y1
		}
		for s := -300.0; s < 300; s += 0.25 {
			if hits(r2.Add(tip, r2.Scale(s, along))) {
				t.Fatalf("seed %d: the label lies on the line", seed)
			}
		}
		for s := 0.0; s <= 25; s += 0.5 {
			for v := 0.0; v <= 12; v += 0.5 {
				if hits(r2.Add(r2.Add(tip, r2.Scale(s, along)), r2.Scale(v, left))) {
					t.Fatalf("seed %d: the label lies on the block", seed)
				}
			}
		}
		if a := tip.X + 8; x0 < a+12*0.55*2.5 && x1 > a && y0 < 120-tip.Y-5+0.5 && y1 > 120-tip.Y-5-1.9 {
			t.Fatalf("seed %d: the label lies on the text", seed)
		}
	}
}

// With nothing in the way it stands near, to the right and above.
func TestLabelNear(t *testing.T) {
	d, err := svg.New(svg.Page{Width: 200, Height: 120, Scale: 10})
	if err != nil {
		t.Fatal(err)
	}
	d.Label(r2.Vec{X: 1000, Y: 600}, "label")
	x0, _, _, y1 := labelled(t, d)
	if got, want := fmt.Sprintf("%.1f %.1f", x0, y1-0.5), "108.8 54.9"; got != want {
		t.Errorf("label at %s, want %s", got, want)
	}
}
