package svg

import (
	"math"
	"strconv"
	"unicode/utf8"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/gauge/measure"
)

// Dimension draws a dimension between two points of the plan: its line lies
// away to the left of the way from a to b, in millimetres of paper, to the
// right if away is negative. An empty text gives the distance itself.
func (d *Drawing) Dimension(a, b r2.Vec, away measure.Length, text string) {
	if text == "" {
		text = d.page.Say(measure.Length(r2.Norm(r2.Sub(b, a))))
	}
	p, q := d.paper(a), d.paper(b)
	along := r2.Sub(q, p)
	n := r2.Norm(along)
	if n == 0 || !finite(n) {
		d.refuse("dimension", text, "must be between two places")
		return
	}
	along = r2.Scale(1/n, along)
	left := r2.Vec{X: along.Y, Y: -along.X} // on the paper, y downwards
	side := math.Copysign(1, float64(away))
	back := func(v r2.Vec) r2.Vec {
		return r2.Add(d.page.Corner, d.onPlan(r2.Vec{X: v.X, Y: float64(d.page.Height) - v.Y}))
	}
	from := func(v r2.Vec, by float64) r2.Vec { return back(r2.Add(v, r2.Scale(by, left))) }
	fine := Pen{Weight: Fine}
	for _, v := range [2]r2.Vec{p, q} {
		d.Lines(fine, from(v, side*0.8), from(v, float64(away)+side*1.2))
		m := r2.Add(v, r2.Scale(float64(away), left))
		tick := r2.Scale(0.9, r2.Add(along, left))
		d.Lines(Pen{Weight: Medium}, back(r2.Sub(m, tick)), back(r2.Add(m, tick)))
	}
	// Text wider than the dimension stands past its end.
	end, middle := q, r2.Scale(0.5, r2.Add(p, q))
	if wide := 1.5 * float64(utf8.RuneCountInString(text)); wide > n-1 {
		middle = r2.Add(q, r2.Scale(wide/2+2, along))
		end = r2.Add(q, r2.Scale(wide+2.5, along))
	}
	d.Lines(fine, from(p, float64(away)), from(end, float64(away)))
	d.Text(from(middle, float64(away)),
		Font{Place: Middle, Turn: measure.Angle(readable(math.Atan2(-along.Y, along.X))), Raised: 0.8, Halo: true}, text)
}

// Leader points at a place of the plan from text that stands right and up of
// it on the paper; negative is left and down.
func (d *Drawing) Leader(tip r2.Vec, right, up measure.Length, text string) {
	knee := r2.Add(tip, d.onPlan(r2.Vec{X: float64(right), Y: float64(up)}))
	side, place := 1.0, Begin
	if right < 0 {
		side, place = -1, End
	}
	shelf := r2.Add(knee, d.onPlan(r2.Vec{X: 2 * side}))
	d.Dot(Pen{Hatch: Solid, Dash: NoLine}, tip, 0.45)
	d.Lines(Pen{Weight: Fine}, tip, knee, shelf)
	d.Text(r2.Add(shelf, d.onPlan(r2.Vec{X: 0.8 * side, Y: -0.9})), Font{Place: place, Halo: true}, text)
}

// ScaleBar draws a bar of a round length, about 50 mm of paper, that begins
// right and up on the paper, and the scale above it.
func (d *Drawing) ScaleBar(right, up measure.Length) {
	length, unit := usual(35*d.page.Scale), 1.0
	words := bar(length)
	if d.page.Inches {
		unit = float64(measure.Inch)
		words = " in"
		if 35*d.page.Scale > 6*unit {
			unit, words = float64(measure.Foot), " ft"
		}
		length = usual(35 * d.page.Scale / unit)
		words = strconv.FormatFloat(length, 'g', 6, 64) + words
	}
	parts := 5
	if lead := length / math.Pow(10, math.Floor(math.Log10(length)+1e-9)); lead > 1.5 && lead < 2.4 {
		parts = 4
	}
	length *= unit
	at := func(x, y float64) r2.Vec { return d.Paper(right+measure.Length(x), up+measure.Length(y)) }
	step := length / d.page.Scale / float64(parts)
	for i := range parts {
		pen := Pen{Weight: Fine, Hatch: Paper}
		if i%2 == 0 {
			pen.Hatch = Solid
		}
		x := float64(i) * step
		d.Figure(pen, at(x, 0), at(x+step, 0), at(x+step, 1.2), at(x, 1.2))
	}
	end := float64(parts) * step
	small := Font{Size: 2, Place: Middle}
	d.Text(at(0, 2), small, "0")
	d.Text(at(end, 2), small, words)
	d.Text(at(end/2, 2), small, "1:"+strconv.FormatFloat(d.page.Scale, 'g', 6, 64))
}

// bar writes the length of a scale bar in metres once it has any.
func bar(length float64) string {
	if length >= 1000 {
		return strconv.FormatFloat(length/1000, 'g', 6, 64) + " m"
	}
	return strconv.FormatFloat(length, 'g', 6, 64) + " mm"
}

// North draws an arrow to the north, which is up, with its foot right and up
// on the paper.
func (d *Drawing) North(right, up measure.Length) {
	at := func(x, y measure.Length) r2.Vec { return d.Paper(right+x, up+y) }
	d.Figure(Pen{Weight: Fine, Hatch: Solid}, at(0, 0), at(0, 10), at(-1.8, -1))
	d.Figure(Pen{Weight: Fine, Hatch: Paper}, at(0, 0), at(0, 10), at(1.8, -1))
	d.Text(at(0, 11), Font{Place: Middle}, "N")
}

// Frame draws a line around the sheet, inset from its edge.
func (d *Drawing) Frame(inset measure.Length) {
	w, h := d.page.Width, d.page.Height
	d.Figure(Pen{Weight: Medium}, d.Paper(inset, inset), d.Paper(w-inset, inset), d.Paper(w-inset, h-inset), d.Paper(inset, h-inset))
}
