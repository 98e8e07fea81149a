package svg

import (
	"fmt"
	"strings"
)

// A Pen is how a line is drawn. The zero Pen is a full black line 0.25 mm
// wide.
type Pen struct {
	Weight float64 // mm of paper, 0 means 0.25
	Dash   Dash
	Grey   float64 // 0 black to 1 white
	Hatch  Hatch   // what fills a closed figure
}

// Weights of lines, in millimetres (ISO 128-2 steps by √2).
const (
	Fine   = 0.13
	Medium = 0.25
	Heavy  = 0.5
	Broad  = 0.7
)

// A Dash is the pattern of a line.
type Dash uint8

// The dashes, in order of length.
const (
	Full    Dash = iota
	Dashed       // hidden, or what is moved
	Chain        // a centre line: long, short, long
	Dotted       // a limit or a margin
	Wide         // long dashes: an envelope
	Chained      // long, two short: a neighbour
	NoLine       // only the fill
)

var dashes = [...]string{"", "2 1", "6 1 1 1", "0.01 0.9", "5 1.5", "6 1 1 1 1 1", ""}

// A Hatch is what fills a figure.
type Hatch uint8

// The hatches.
const (
	Empty   Hatch = iota
	Paper         // white, hides what lies below
	Tint          // light grey
	Solid         // the pen's own grey
	Rising        // lines at 45°: masonry in section
	Falling       // lines at -45°
	Cross         // both: what fouls
	Stipple       // dots: ballast
)

// patterns are what each hatch puts into a cell of 3 mm.
var patterns = map[Hatch]string{
	Rising:  `<path d="M-0.5 0.5L0.5 -0.5M0 3L3 0M2.5 3.5L3.5 2.5" stroke="#000" stroke-width="0.13"/>`,
	Falling: `<path d="M-0.5 2.5L0.5 3.5M0 0L3 3M2.5 -0.5L3.5 0.5" stroke="#000" stroke-width="0.13"/>`,
	Cross:   `<path d="M-0.5 0.5L0.5 -0.5M0 3L3 0M2.5 3.5L3.5 2.5M-0.5 2.5L0.5 3.5M0 0L3 3M2.5 -0.5L3.5 0.5" stroke="#000" stroke-width="0.18"/>`,
	Stipple: `<circle cx="0.6" cy="0.7" r="0.17"/><circle cx="2.1" cy="1.3" r="0.13"/><circle cx="1.1" cy="2.3" r="0.2"/><circle cx="2.6" cy="2.7" r="0.12"/>`,
}

func grey(g float64) string {
	v := int(min(max(g, 0), 1)*255 + 0.5)
	return fmt.Sprintf("#%02x%02x%02x", v, v, v)
}

// attributes returns the pen's attributes; fill says whether the figure may
// have one.
func (d *Drawing) attributes(p Pen, fill bool) string {
	var b strings.Builder
	colour := grey(p.Grey)
	switch {
	case !fill || p.Hatch == Empty:
		b.WriteString(` fill="none"`)
	case p.Hatch == Paper:
		b.WriteString(` fill="#fff"`)
	case p.Hatch == Tint:
		b.WriteString(` fill="#e4e4e4"`)
	case p.Hatch == Solid:
		fmt.Fprintf(&b, ` fill="%s"`, colour)
	default:
		d.hatches[p.Hatch] = true
		fmt.Fprintf(&b, ` fill="url(#%s)"`, d.hatchID(p.Hatch))
	}
	if p.Dash == NoLine {
		return b.String()
	}
	w := p.Weight
	if w == 0 {
		w = Medium
	}
	if !finite(w, p.Grey) || w < 0 {
		d.refuse("pen", fmt.Sprint(p), "must have a finite weight of 0 mm or more and a finite grey")
		return ""
	}
	fmt.Fprintf(&b, ` stroke="%s" stroke-width="%s" stroke-linejoin="round"`, colour, number(w))
	if int(p.Dash) < len(dashes) && dashes[p.Dash] != "" {
		fmt.Fprintf(&b, ` stroke-dasharray="%s"`, dashes[p.Dash])
		if p.Dash == Dotted {
			b.WriteString(` stroke-linecap="round"`)
		}
	}
	return b.String()
}

func (d *Drawing) hatchID(h Hatch) string { return fmt.Sprintf("%shatch%d", d.page.Name, h) }
