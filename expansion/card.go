package expansion

import (
	"fmt"
	"math"
	"strings"
	"unicode/utf8"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// CardOptions say how a gap card is laid out. The zero value covers the
// temperatures of the climate in steps of 5 K, the base as warm as the rail.
type CardOptions struct {
	Title     string
	Low, High measure.Temperature           // of the rail; both zero: all at which the climate allows laying
	Step      measure.TemperatureDifference // between rows; 0: 5 K
	BaseBelow measure.TemperatureDifference // the base is this much cooler than the rail while laying
	Inches    bool                          // °F and inches come first
}

// A CardRow is the gap to leave at one rail temperature.
type CardRow struct {
	Rail, Base       measure.Temperature
	Least, Aim, Most measure.Length
}

// A Card is a table of gap against rail temperature to carry into the garden.
// Print it with Text, or with SVG to true size.
type Card struct {
	Title  string
	Inches bool // °F and inches come first
	Joint  Joint
	Rows   []CardRow
	Tight  State // in which the gap is smallest
	Wide   State // in which it is widest
	Reach  measure.Length
	By     Limit
}

// MaxCardRows is the most rows that one page holds.
const MaxCardRows = 24

// Card returns the gap card of a joint. A rail temperature that the climate
// does not hold is refused when it was asked for.
func (j Joint) Card(o CardOptions, climate []State) (Card, error) {
	rows, err := j.cardTemperatures(o, climate)
	if err != nil {
		return Card{}, err
	}
	c := Card{Title: o.Title, Inches: o.Inches, Joint: j}
	for _, t := range rows {
		s := State{Rail: t, Base: t.Add(-o.BaseBelow)}
		g, err := j.Gaps(s, climate)
		if err != nil {
			return Card{}, err
		}
		c.Rows = append(c.Rows, CardRow{s.Rail, s.Base, g.Least, g.Aim(), g.Most})
		c.Tight, c.Wide, c.Reach, c.By = g.Tight, g.Wide, g.Reach, g.By
	}
	return c, nil
}

func (j Joint) cardTemperatures(o CardOptions, climate []State) ([]measure.Temperature, error) {
	l := fault.In("expansion")
	if o.Step == 0 {
		o.Step = 5
	}
	if n := utf8.RuneCountInString(o.Title); n > MaxTitle {
		l.Over("card: title", fmt.Sprintf("of %d characters", n), fmt.Sprintf("at most %d", MaxTitle))
	}
	fault.Positive(l, "card: step", o.Step)
	fault.Finite(l, "card: base below rail", o.BaseBelow)
	order(l, "card", o.Low, o.High)
	x, ok := j.extremes(climate)
	if !j.good() || !ok {
		l.Join(j.refuse(nil, climate))
	}
	if err := l.Err(); err != nil {
		return nil, err
	}
	if reach, by := j.Reach(); !fits(j.Least, reach, x) {
		return nil, j.none(x, reach, by, climate)
	}
	if o.Low == 0 && o.High == 0 {
		a, b := j.rates()
		w, ok := window(a, b, float64(o.BaseBelow), x.low, x.high, climate)
		if !ok {
			l.NoAnswer("card", nil, fmt.Sprintf("no rail temperature of this climate has a base %.4g K cooler: add today's state to it", float64(o.BaseBelow)))
			return nil, l.Err()
		}
		o.Low, o.High = w.Low, w.High
		// Whole steps, from inside the window.
		if lo, hi := math.Ceil(float64(o.Low)/float64(o.Step)), math.Floor(float64(o.High)/float64(o.Step)); lo <= hi {
			o.Low, o.High = measure.Temperature(lo*float64(o.Step)), measure.Temperature(hi*float64(o.Step))
		}
	}
	if cold, hot := coldest(climate), hottest(climate); o.Low < cold-rounding || o.High > hot+rounding {
		l.Add("card", "from "+celsius(o.Low)+" to "+celsius(o.High), "must lie within the climate's rail temperatures, "+celsius(cold)+" to "+celsius(hot))
		return nil, l.Err()
	}
	n := math.Floor(float64(o.High-o.Low)/float64(o.Step)+1e-9) + 1
	if n > MaxCardRows {
		l.Over("card", fmt.Sprintf("of %.0f rows", n), fmt.Sprintf("at most %d to a page: a step of %.3g K would do", MaxCardRows, math.Ceil(float64(o.High-o.Low)/(MaxCardRows-1))))
		return nil, l.Err()
	}
	t := make([]measure.Temperature, int(n))
	for i := range t {
		t[i] = o.Low + measure.Temperature(float64(o.Step)*float64(i))
	}
	return t, nil
}

func coldest(climate []State) measure.Temperature {
	t := climate[0].Rail
	for _, s := range climate {
		t = min(t, s.Rail)
	}
	return t
}

func hottest(climate []State) measure.Temperature {
	t := climate[0].Rail
	for _, s := range climate {
		t = max(t, s.Rail)
	}
	return t
}

// The cautions that every card carries.
const cardCaution = "Read the rail, not the air. Rail in the sun burns the hand. Clamp rail to cut it, goggles on, deburr. Rails that carry current need a bond across the gap."

// Text returns the card as a table: rail temperature in °C and °F, gap in mm
// and inch; the other way round for Inches.
func (c Card) Text() string {
	var b strings.Builder
	if c.Title != "" {
		fmt.Fprintf(&b, "%s\n", c.Title)
	}
	b.WriteString("Gap to leave at a rail joint\n\n")
	moving := c.moving()
	head, unit := "", ""
	if moving {
		head, unit = "         base", c.first("     °C    °F", "     °F    °C")
	}
	mm, in := "        gap, mm       ", "         gap, in"
	aims, fine := " least    aim    most ", " least     aim    most"
	if c.Inches {
		mm, in = "         gap, in        ", "       gap, mm"
		aims, fine = " least     aim    most  ", " least    aim    most"
	}
	fmt.Fprintf(&b, "      rail%s |%s |%s\n", head, mm, in)
	fmt.Fprintf(&b, "%s%s |%s |%s\n", c.first("    °C    °F", "    °F    °C"), unit, aims, fine)
	for _, r := range c.Rows {
		base := ""
		if moving {
			base = c.first(fmt.Sprintf(" %6.1f %5.0f", r.Base.Celsius(), r.Base.Fahrenheit()), fmt.Sprintf(" %6.0f %5.1f", r.Base.Fahrenheit(), r.Base.Celsius()))
		}
		rail := c.first(fmt.Sprintf("%6.1f %5.0f", r.Rail.Celsius(), r.Rail.Fahrenheit()), fmt.Sprintf("%6.0f %5.1f", r.Rail.Fahrenheit(), r.Rail.Celsius()))
		mm := fmt.Sprintf("%5.2f  %5.2f  %5.2f", up(r.Least, 1e2), r.Aim.Millimetres(), down(r.Most, 1e2))
		in := fmt.Sprintf("%5.3f  %6.3f  %6.3f", up(r.Least/measure.Inch, 1e3), r.Aim.Inches(), down(r.Most/measure.Inch, 1e3))
		fmt.Fprintf(&b, "%s%s | %s  | %s\n", rail, base, c.first(mm, in), c.first(in, mm))
	}
	fmt.Fprintf(&b, "\n%s\n%s\n%s\n", c.tightest(), c.widest(), cardCaution)
	return b.String()
}

// first picks what comes first on the card: the metric or the other.
func (c Card) first(metric, other string) string {
	if c.Inches {
		return other
	}
	return metric
}

func (c Card) tightest() string { return "Tightest: " + c.bothWays(c.Tight) + "." }

func (c Card) widest() string {
	mm, in := fmt.Sprintf("%.2f mm", down(c.Reach, 1e2)), fmt.Sprintf("%.3f in", down(c.Reach/measure.Inch, 1e3))
	return fmt.Sprintf("Widest: %s; at most %s, %s (%v).", c.bothWays(c.Wide), c.first(mm, in), c.first(in, mm), c.By)
}

// bothWays names a state in °C and °F.
func (c Card) bothWays(s State) string {
	say := func(t measure.Temperature) string {
		a, b := fmt.Sprintf("%.4g °C", t.Celsius()), fmt.Sprintf("%.4g °F", t.Fahrenheit())
		return c.first(a, b) + ", " + c.first(b, a)
	}
	text := "rail " + say(s.Rail) + "; base " + say(s.Base)
	if s.Name != "" {
		return s.Name + " (" + text + ")"
	}
	return text
}

// up and down round a permitted end to 1/k inwards, so that what is printed is
// permitted too; the + 0 makes a plain 0 of -0.
func up(l measure.Length, k float64) float64   { return math.Ceil(float64(l)*k-1e-6)/k + 0 }
func down(l measure.Length, k float64) float64 { return math.Floor(float64(l)*k+1e-6) / k }
