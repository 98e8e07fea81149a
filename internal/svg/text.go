package svg

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/gauge/measure"
)

// A Font is how text is written. The zero Font is 2.5 mm high, begins at its
// point and runs level.
type Font struct {
	Size   float64       // mm of paper, 0 means 2.5 (ISO 3098)
	Place  Place         // of the text against its point
	Turn   measure.Angle // anticlockwise
	Bold   bool
	Halo   bool // a white edge, over lines
	Grey   float64
	Raised float64 // mm of paper square to the text, to clear a line; below 0 lowers it
}

// A Place is where text lies against its point.
type Place uint8

// The places.
const (
	Begin  Place = iota // the text begins at the point
	Middle              // its middle is at the point
	End                 // it ends at the point
)

var anchors = [...]string{"start", "middle", "end"}

func (f Font) size() float64 {
	if f.Size == 0 {
		return 2.5
	}
	return f.Size
}

// Text writes text at a point of the plan.
func (d *Drawing) Text(at r2.Vec, f Font, text string) {
	if !finite(f.Size, float64(f.Turn), f.Raised) {
		d.refuse("font", fmt.Sprint(f), "must be finite")
		return
	}
	x, y := d.at(at)
	d.on.texts = append(d.on.texts, f.span(d.paper(at), text))
	attr := ""
	if f.Place > Begin && int(f.Place) < len(anchors) {
		attr += fmt.Sprintf(" text-anchor=\"%s\"", anchors[f.Place])
	}
	if f.Turn != 0 {
		attr += fmt.Sprintf(" transform=\"rotate(%s %s %s)\"", number(-f.Turn.Degrees()), x, y)
	}
	if f.Raised != 0 {
		attr += fmt.Sprintf(" dy=\"%s\"", number(-f.Raised))
	}
	if f.Bold {
		attr += " font-weight=\"bold\""
	}
	if f.Halo {
		attr += " stroke=\"#fff\" stroke-width=\"0.6\" stroke-linejoin=\"round\" paint-order=\"stroke\""
	}
	fmt.Fprintf(&d.body, "<text x=\"%s\" y=\"%s\" font-size=\"%s\" fill=\"%s\"%s>%s</text>\n", x, y, number(f.size()), grey(f.Grey), attr, escape(text))
}

// readable returns the turn, or its opposite, at which text along it is read
// from below or from the right.
func readable(turn float64) float64 {
	turn = math.Remainder(turn, 2*math.Pi)
	if turn > math.Pi/2+1e-9 || turn < -math.Pi/2+1e-9 {
		turn = math.Remainder(turn+math.Pi, 2*math.Pi)
	}
	return turn
}
