package main

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"example.org/fourfoot/gauge/measure"
)

// A Book is a laying book before it is printed: chapters of sentences, tables
// and figures, which the terminal, the page and the CSV files share.
type Book struct {
	Title    string
	Units    Units
	Chapters []Chapter
}

// A Chapter is one part of the book.
type Chapter struct {
	Title   string
	Lines   []string // sentences, before the tables
	Lead    []Figure // before the tables
	Tables  []Table
	Figures []Figure // after them
	Caution string
}

// A Table holds typed cells; how they are written depends on where.
type Table struct {
	Name    string // of the CSV file, without its ending
	Caption string
	Columns []Column
	Rows    [][]any // string, int, float64 or a quantity
}

// A Column is a column's head and how its numbers are written. The unit is
// added to the head.
type Column struct {
	Head   string
	Kind   Kind
	Digits int // after the point, in mm, degrees and so on
}

// Kind is what the cells of a column are.
type Kind int

// The kinds of column.
const (
	Text Kind = iota
	Count
	Number
	Length
	AtLeast // a length, written rounded up, so that what is printed does too
	AtMost  // a length, written rounded down
	Cut     // a length to cut wood to, written rounded up to cutTo
	Angle
	Temp
	Percent
	Volume
	Mass
)

// A Figure is a drawing with what it shows.
type Figure struct {
	Name    string // of the SVG file, without its ending
	Caption string
	SVG     string
}

// row adds a row of cells.
func (t *Table) row(cells ...any) { t.Rows = append(t.Rows, cells) }

// Units says how the book writes quantities.
type Units struct{ Inches bool }

// unit returns the unit that a kind of column is in.
func (u Units) unit(k Kind) string {
	switch k {
	case Length, AtLeast, AtMost, Cut:
		return pick(u.Inches, "in", "mm")
	case Angle:
		return "°"
	case Temp:
		return pick(u.Inches, "°F", "°C")
	case Percent:
		return "%"
	case Volume:
		return pick(u.Inches, "cu ft", "L")
	case Mass:
		return pick(u.Inches, "lb", "kg")
	}
	return ""
}

func pick[T any](first bool, a, b T) T {
	if first {
		return a
	}
	return b
}

// head returns the column's head with its unit.
func (u Units) head(c Column) string {
	if unit := u.unit(c.Kind); unit != "" {
		return c.Head + " [" + unit + "]"
	}
	return c.Head
}

// number returns the cell as a number in the column's unit, and whether it is
// one.
func (u Units) number(cell any) (float64, bool) {
	switch v := cell.(type) {
	case measure.Length:
		if u.Inches {
			return v.Inches(), true
		}
		return v.Millimetres(), true
	case measure.Angle:
		return v.Degrees(), true
	case measure.Temperature:
		if u.Inches {
			return v.Fahrenheit(), true
		}
		return v.Celsius(), true
	case measure.Gradient:
		return float64(v) * 100, true
	case measure.Volume:
		if u.Inches {
			return float64(v / measure.CubicFoot), true
		}
		return v.Litres(), true
	case measure.Mass:
		if u.Inches {
			return float64(v / measure.Pound), true
		}
		return v.Kilograms(), true
	case float64:
		return v, true
	}
	return 0, false
}

// cell writes a cell for people.
func (u Units) cell(c Column, cell any) string {
	if l, ok := cell.(measure.Length); ok {
		switch c.Kind {
		case AtLeast:
			l = u.inwards(l, c.Digits, math.Ceil)
		case AtMost:
			l = u.inwards(l, c.Digits, math.Floor)
		case Cut:
			l = measure.Length(math.Ceil(float64(l/u.cutTo())*(1-1e-12))) * u.cutTo()
			return u.length(l, pick(u.Inches, 1, 0))
		}
		return u.length(l, c.Digits)
	}
	if v, ok := cell.(measure.Volume); ok {
		return u.volume(v, c.Digits)
	}
	if x, ok := u.number(cell); ok {
		return fixed(x, c.Digits)
	}
	return fmt.Sprint(cell)
}

// csv writes a cell for a spreadsheet: numbers in full, in the unit of the
// head. A text that a spreadsheet would take for a formula is led by an
// apostrophe.
func (u Units) csv(cell any) string {
	if x, ok := u.number(cell); ok {
		return strconv.FormatFloat(x, 'f', -1, 64)
	}
	s := fmt.Sprint(cell)
	if s != "" && s != "-" && strings.ContainsRune("=+-@", rune(s[0])) {
		return "'" + s
	}
	return s
}

// length writes a length without its unit: millimetres with the given digits;
// inches to the nearest 1/8 for no digits and 1/64 for one, and for more in
// thousandths, as gaps and throws are measured.
func (u Units) length(l measure.Length, digits int) string {
	switch {
	case !u.Inches:
		return fixed(l.Millimetres(), digits)
	case digits > 1:
		return fixed(l.Inches(), 3)
	}
	style := measure.InchStyle{Parts: 64}
	if digits == 0 {
		style.Parts = 8
	}
	return strings.TrimSuffix(style.Format(style.Round(l)), " in")
}

// inwards rounds a length to what is printed with the given digits, two or
// more: up or down.
func (u Units) inwards(l measure.Length, digits int, round func(float64) float64) measure.Length {
	unit := measure.Millimetre * measure.Length(math.Pow10(-digits))
	if u.Inches {
		unit = measure.Inch / 1000
	}
	const slip = 1e-6 // of a rounding that was right before
	x := float64(l / unit)
	if n := math.Round(x); math.Abs(x-n) < slip {
		return measure.Length(n) * unit
	}
	return measure.Length(round(x)) * unit
}

// foreign finds the quantities in what a package says in words, which is in
// millimetres, °C, K and kg.
var foreign = regexp.MustCompile(`(-?[0-9]+(?:\.[0-9]+)?)(?: to (-?[0-9]+(?:\.[0-9]+)?))? (mm|m|°C|K)\b([²³])?`)

// words puts what a package says into the units of the book.
func (u Units) words(text string) string {
	if !u.Inches {
		return text
	}
	return foreign.ReplaceAllStringFunc(text, func(found string) string {
		part := foreign.FindStringSubmatch(found)
		if part[4] != "" {
			return found // an area or a volume
		}
		var numbers []string
		for _, digits := range part[1:3] {
			x, err := strconv.ParseFloat(digits, 64)
			if err != nil {
				continue // there is no second
			}
			switch part[3] {
			case "mm", "m":
				l := measure.Length(x) * measure.Millimetre
				if part[3] == "m" {
					l = measure.Length(x) * measure.Metre
				}
				fine := 1
				if l < 2*measure.Inch && l > -2*measure.Inch {
					fine = 2
				}
				digits = u.length(l, fine)
			case "°C":
				digits = fixed(measure.Celsius(x).Fahrenheit(), 0)
			case "K":
				digits = fixed(x*1.8, 1)
			}
			numbers = append(numbers, digits)
		}
		unit := map[string]string{"mm": "in", "m": "in", "°C": "°F", "K": "°F"}[part[3]]
		return strings.Join(numbers, " to ") + " " + unit
	})
}

// fault puts what is wrong with a plan into the units of its book, but for what
// it quotes.
func (u Units) fault(err error) error {
	if err == nil || !u.Inches {
		return err
	}
	parts := strings.Split(err.Error(), `"`)
	for i := 0; i < len(parts); i += 2 {
		parts[i] = u.words(parts[i])
	}
	return inUnits{strings.Join(parts, `"`), err}
}

// inUnits is an error in other words.
type inUnits struct {
	text string
	err  error
}

func (e inUnits) Error() string { return e.text }

func (e inUnits) Unwrap() error { return e.err }

// say writes a length with its unit, for a sentence.
func (u Units) say(l measure.Length, digits int) string {
	return u.length(l, digits) + " " + u.unit(Length)
}

// sayGauge writes a full-size gauge with its unit.
func (u Units) sayGauge(l measure.Length) string {
	if u.Inches {
		return u.say(l, 2)
	}
	return u.say(l, 1)
}

// sayVolume writes a volume with its unit.
func (u Units) sayVolume(v measure.Volume) string {
	return u.volume(v, 1) + " " + u.unit(Volume)
}

// volume writes a volume without its unit: litres with the given digits, cubic
// feet, of which one is 28 litres, with two more.
func (u Units) volume(v measure.Volume, digits int) string {
	x, _ := u.number(v)
	if u.Inches {
		digits += 2
	}
	return fixed(x, digits)
}

// cutTo is what wood is cut to.
func (u Units) cutTo() measure.Length {
	if u.Inches {
		return measure.Inch / 64
	}
	return measure.Millimetre
}

// sayMass writes a mass with its unit.
func (u Units) sayMass(m measure.Mass) string {
	x, _ := u.number(m)
	return fixed(x, 1) + " " + u.unit(Mass)
}

// sayTemp writes a temperature with its unit.
func (u Units) sayTemp(t measure.Temperature) string {
	x, _ := u.number(t)
	return fixed(x, 0) + " " + u.unit(Temp)
}

// signed writes a number with its sign, + or -, unless it is written as 0.
func signed(x float64, digits int) string {
	s := fixed(x, digits)
	if x > 0 && strings.Trim(s, "0.") != "" {
		return "+" + s
	}
	return s
}

// fixed writes a number with a fixed count of digits, never as a negative zero.
func fixed(x float64, digits int) string {
	s := strconv.FormatFloat(x, 'f', digits, 64)
	if strings.HasPrefix(s, "-") && strings.Trim(s, "-0.") == "" {
		return s[1:]
	}
	return s
}
