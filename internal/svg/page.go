package svg

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Page is a sheet of paper and what of the plan it shows.
type Page struct {
	Name          string         // begins every id, so that several drawings fit on one HTML page; letters, digits, - and _
	Title         string         // for readers that do not see the drawing
	Width, Height measure.Length // of the paper
	Corner        r2.Vec         // the plan's point at the paper's lower left corner
	Scale         float64        // n of 1:n
	Upright       float64        // n of 1:n for y where it has a scale of its own; 0 means Scale
	Inches        bool           // lengths are written in inches and feet
}

// Say writes a length in the units of the page, to a tenth of a millimetre or
// the nearest 1/64 in.
func (p Page) Say(l measure.Length) string {
	if p.Inches {
		style := measure.InchStyle{Parts: 64}
		return style.Format(style.Round(l))
	}
	return measure.Length(math.Round(float64(l)*10) / 10).String()
}

func (p Page) upright() float64 {
	if p.Upright == 0 {
		return p.Scale
	}
	return p.Upright
}

// scales are the n of 1:n that a drawing office uses.
var scales = [...]float64{1, 2, 2.5, 5, 10, 20, 25, 50}

// Fit returns the page, at most width by height, that shows all points with a
// margin around them at the largest usual scale; it is cut to what it shows.
func Fit(width, height, margin measure.Length, points ...r2.Vec) (Page, error) {
	l := fault.In("svg")
	fault.Positive(l, "width", width)
	fault.Positive(l, "height", height)
	if fault.NotNegative(l, "margin", margin) && 2*margin >= min(width, height) {
		l.Add("margin", margin, "must be less than half the sheet")
	}
	if len(points) == 0 {
		l.Add("points", 0, "must be at least 1")
	}
	lo, hi := r2.Vec{X: math.Inf(1), Y: math.Inf(1)}, r2.Vec{X: math.Inf(-1), Y: math.Inf(-1)}
	for i, p := range points {
		if !finite(p.X, p.Y) {
			l.Add(fmt.Sprintf("point %d", i+1), fmt.Sprint(p), "must be finite")
			break
		}
		lo = r2.Vec{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}
		hi = r2.Vec{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
	}
	if !l.OK() {
		return Page{}, l.Err()
	}
	size := r2.Sub(hi, lo)
	need := max(size.X/float64(width-2*margin), size.Y/float64(height-2*margin))
	n := usual(need)
	m := float64(margin) * n
	return Page{
		Width:  measure.Length(size.X/n) + 2*margin,
		Height: measure.Length(size.Y/n) + 2*margin,
		Corner: r2.Vec{X: lo.X - m, Y: lo.Y - m},
		Scale:  n,
	}, nil
}

// usual returns the smallest usual n that is at least need.
func usual(need float64) float64 {
	for power := 1.0; power < 1e12; power *= 10 {
		for _, n := range scales {
			if n*power >= need*(1-1e-12) {
				return n * power
			}
		}
	}
	return need
}

func finite(v ...float64) bool {
	for _, x := range v {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}
