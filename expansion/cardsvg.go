package expansion

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"example.org/fourfoot/gauge/measure"
)

// MaxTitle is the longest title of a card, in characters.
const MaxTitle = 80

// The page is A5 upright (ISO 216: 148 × 210 mm), in millimetres.
const (
	pageWidth, pageHeight = 148.0, 210.0
	margin                = 9.0
	tableTop              = 42.0
	tableBottom           = 166.0
)

// SVG returns the card as one page, A5 upright, drawn to true size: the two
// rail ends beside each row stand as far apart as the gap to aim for, up to 10 mm. A rule of 50 mm and 2 in
// on it shows whether the printer kept the size.
func (c Card) SVG() string {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%gmm" height="%gmm" viewBox="0 0 %g %g" font-family="sans-serif" fill="#111">`+"\n", pageWidth, pageHeight, pageWidth, pageHeight)
	fmt.Fprintf(&b, `<rect width="%g" height="%g" fill="#fff"/>`+"\n", pageWidth, pageHeight)
	text := func(x, y, size float64, anchor, style, s string) {
		fmt.Fprintf(&b, `<text x="%.2f" y="%.2f" font-size="%.2f" text-anchor="%s"%s>%s</text>`+"\n", x, y, size, anchor, style, escape(s))
	}
	line := func(x1, y1, x2, y2, w float64) {
		fmt.Fprintf(&b, `<line x1="%.2f" y1="%.2f" x2="%.2f" y2="%.2f" stroke="#111" stroke-width="%.2f"/>`+"\n", x1, y1, x2, y2, w)
	}
	const bold = ` font-weight="bold"`
	text(margin, 17, 7, "start", bold, "Gap to leave at a rail joint")
	for i, s := range wrap(c.Title, 62) {
		text(margin, 23.5+4.6*float64(i), 4, "start", "", s)
	}
	c.svgTable(text, line)
	c.svgBars(&b)
	// The rule.
	y := 173.0
	line(margin, y, margin+50, y, 0.3)
	for x := 0.0; x <= 50; x += 10 {
		line(margin+x, y-1.5, margin+x, y+1.5, 0.3)
	}
	text(margin+52, y+1.2, 3, "start", "", "50 mm")
	in := 72.0 + margin
	line(in, y, in+50.8, y, 0.3)
	for x := 0.0; x <= 50.81; x += 12.7 {
		line(in+x, y-1.5, in+x, y+1.5, 0.3)
	}
	text(in+52.5, y+1.2, 3, "start", "", "2 in")
	y = 180
	foot := []string{
		c.tightest(), c.widest(),
		"Print at 100 % and measure the rules. Each pair of rail ends stands apart by the gap to aim for.",
		cardCaution,
	}
	for _, s := range foot {
		for _, part := range wrap(s, 98) {
			text(margin, y, 2.9, "start", "", part)
			y += 3.8
		}
	}
	b.WriteString("</svg>\n")
	return b.String()
}

func (c Card) rowHeight() float64 {
	return min(9, (tableBottom-tableTop)/float64(max(len(c.Rows), 1)))
}

// The columns: rail temperature in the first unit and the other, base
// temperature, gap in the first unit and the other, bar.
const (
	colFirst, colNext, colBase = 21.0, 34.0, 54.0
	colAim, colOther           = 80.0, 113.0
	colBar                     = 126.0
)

func (c Card) moving() bool { return c.Joint.Before.Base != 0 || c.Joint.After.Base != 0 }

func (c Card) svgTable(text func(x, y, size float64, anchor, style, s string), line func(x1, y1, x2, y2, w float64)) {
	const grey = ` fill="#444"`
	text(colFirst, 34, 3.2, "end", grey, c.first("rail °C", "rail °F"))
	text(colNext, 34, 3.2, "end", grey, c.first("rail °F", "rail °C"))
	if c.moving() {
		text(colBase, 34, 3.2, "end", grey, c.first("base °C, °F", "base °F, °C"))
	}
	text(colAim, 34, 3.2, "end", grey, c.first("aim, mm", "aim, in"))
	text(colOther, 34, 3.2, "end", grey, c.first("aim, in", "aim, mm"))
	text(colAim, 38.5, 2.6, "end", grey, "least to most")
	text(colOther, 38.5, 2.6, "end", grey, "least to most")
	text(colBar+5, 34, 3.2, "middle", grey, "true width")
	h := c.rowHeight()
	line(margin, tableTop-2, pageWidth-margin, tableTop-2, 0.4)
	for i, r := range c.Rows {
		y := tableTop + h*float64(i)
		big, small := min(5, h*0.55), min(2.6, h*0.3)
		base := y + h*0.5
		railC, railF := fmt.Sprintf("%.4g", r.Rail.Celsius()), fmt.Sprintf("%.0f", r.Rail.Fahrenheit())
		text(colFirst, base, big, "end", ` font-weight="bold"`, c.first(railC, railF))
		text(colNext, base, big*0.8, "end", "", c.first(railF, railC))
		if c.moving() {
			baseC, baseF := fmt.Sprintf("%g", math.Round(r.Base.Celsius()*10)/10), fmt.Sprintf("%.0f", r.Base.Fahrenheit())
			text(colBase, base, big*0.6, "end", "", c.first(baseC, baseF)+", "+c.first(baseF, baseC))
		}
		mm, in := fmt.Sprintf("%.2f", r.Aim.Millimetres()), fmt.Sprintf("%.3f", r.Aim.Inches())
		text(colAim, base, big, "end", ` font-weight="bold"`, c.first(mm, in))
		text(colOther, base, big, "end", ` font-weight="bold"`, c.first(in, mm))
		mm = fmt.Sprintf("%.2f to %.2f", up(r.Least, 1e2), down(r.Most, 1e2))
		in = fmt.Sprintf("%.3f to %.3f", up(r.Least/measure.Inch, 1e3), down(r.Most/measure.Inch, 1e3))
		text(colAim, base+small*1.2, small, "end", "", c.first(mm, in))
		text(colOther, base+small*1.2, small, "end", "", c.first(in, mm))
		line(margin, y+h-h*0.06, pageWidth-margin, y+h-h*0.06, 0.12)
	}
}

// svgBars draws each gap at true width between two rail ends; one above 10 mm
// would leave the page and is drawn as 10.
func (c Card) svgBars(b *strings.Builder) {
	h := c.rowHeight()
	for i, r := range c.Rows {
		y := tableTop + h*float64(i) + h*0.1
		gap := min(max(r.Aim.Millimetres(), 0), 10)
		left, right := colBar+5-gap/2, colBar+5+gap/2
		for _, end := range [2][2]float64{{left - 4, left}, {right, right + 4}} {
			fmt.Fprintf(b, `<rect x="%.3f" y="%.2f" width="%.3f" height="%.2f" fill="#555"/>`+"\n", end[0], y, end[1]-end[0], h*0.62)
		}
	}
}

// wrap breaks a text into lines of at most n characters at its spaces.
func wrap(s string, n int) []string {
	var lines []string
	for _, word := range strings.Fields(s) {
		k := len(lines) - 1
		if k < 0 || utf8.RuneCountInString(lines[k])+1+utf8.RuneCountInString(word) > n {
			lines = append(lines, word)
		} else {
			lines[k] += " " + word
		}
	}
	return lines
}

// escape makes text safe inside XML; what XML 1.0 does not allow is left out.
func escape(s string) string {
	s = strings.Map(func(r rune) rune {
		if r < ' ' || r == utf8.RuneError || r == 0xFFFE || r == 0xFFFF {
			return -1
		}
		return r
	}, s)
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;").Replace(s)
}
