package order

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"
)

// A Notation says how a table is written for a spreadsheet. The zero Notation
// is commas between cells and a decimal point; where the comma is the decimal
// sign, use Notation{Separator: ';', Decimal: ','}.
type Notation struct {
	Separator byte // between cells: ',', ';' or a tab; 0 means ','
	Decimal   byte // '.' or ','; 0 means '.'
}

var heading = []string{"item", "quantity", "reserve", "unit", "buying_unit", "pack_size", "count", "cost", "currency", "ranges"}

// CSV returns the list as comma-separated values (RFC 4180) with a heading. An
// item bought in packs of several sizes takes one row a size, its quantity,
// reserve and ranges in the first of them, so that every column adds up. The
// last row is the total. Quantities are rounded to six digits. A text that a
// spreadsheet would take for a formula is led by an apostrophe.
func (o Order) CSV(n Notation) string {
	sep, dec := n.Separator, n.Decimal
	if sep == 0 {
		sep = ','
	}
	if dec == 0 {
		dec = '.'
	}
	num := func(v string) string { return strings.Replace(v, ".", string(rune(dec)), 1) }
	var b strings.Builder
	row := func(cells ...string) {
		for i, c := range cells {
			if i > 0 {
				b.WriteByte(sep)
			}
			b.WriteString(quote(c, sep))
		}
		b.WriteString("\r\n")
	}
	row(heading...)
	for _, l := range o.Lines {
		first := []string{text(l.Item), num(digits(l.Quantity)), num(digits(l.Reserve)), text(l.Unit)}
		ranges := text(l.Ranges())
		if len(l.Purchase.Bought) == 0 {
			row(append(first, "", "", "0", num(l.Purchase.Cost.Number()), text(l.Purchase.Cost.Currency.Text), ranges)...)
		}
		for _, p := range l.Purchase.Bought {
			row(append(first[:4:4], text(p.Pack.Name), num(digits(p.Pack.Size)), strconv.Itoa(p.Count),
				num(p.Cost.Number()), text(p.Cost.Currency.Text), ranges)...)
			first[1], first[2], ranges = "", "", ""
		}
	}
	row("total", "", "", "", "", "", "", num(o.Total.Number()), text(o.Total.Currency.Text), "")
	return b.String()
}

// Ranges returns where the line's quantity goes: "main 12.5, loop 3".
func (l Line) Ranges() string {
	var s []string
	for _, f := range l.From {
		name := f.Range
		if name == "" {
			name = "elsewhere"
		}
		s = append(s, name+" "+digits(f.Quantity))
	}
	return strings.Join(s, ", ")
}

// String returns the list as a table for a page of fixed-width type, with the
// total, what it leaves out and the cautions below it.
func (o Order) String() string {
	cells := [][]string{{"item", "quantity", "reserve", "buy", "cost", "for"}}
	for _, l := range o.Lines {
		q, r, ranges := digits(l.Quantity)+" "+l.Unit, "none", l.Ranges()
		if l.Reserve > 0 {
			r = digits(l.Reserve) + " " + l.Unit
		}
		if len(l.Purchase.Bought) == 0 {
			cells = append(cells, []string{l.Item, q, r, "nothing", "", ranges})
		}
		item := l.Item
		for _, p := range l.Purchase.Bought {
			cost := p.Cost.String()
			if cost == "" {
				cost = "not known"
			}
			cells = append(cells, []string{item, q, r, fmt.Sprintf("%d × %s", p.Count, p.Pack.Name), cost, ranges})
			item, q, r, ranges = "", "", "", ""
		}
	}
	var width [6]int
	for _, row := range cells {
		for i, c := range row {
			width[i] = max(width[i], utf8.RuneCountInString(c))
		}
	}
	var b strings.Builder
	for _, row := range cells {
		for i, c := range row {
			pad := strings.Repeat(" ", width[i]-utf8.RuneCountInString(c))
			switch {
			case i == len(row)-1:
				b.WriteString(c)
			case i == 0 || i == 3:
				b.WriteString(c + pad + "  ")
			default:
				b.WriteString(pad + c + "  ")
			}
		}
		b.WriteString("\n")
	}
	total := o.Total.String()
	if total == "" {
		total = "not known"
	}
	b.WriteString("total cost: " + total + "\n")
	if len(o.Unpriced) > 0 && o.Total.Known() {
		b.WriteString("without: " + strings.Join(o.Unpriced, ", ") + " (price not known)\n")
	}
	for _, c := range o.Cautions {
		b.WriteString("caution: " + c + "\n")
	}
	return b.String()
}

// digits returns the number to six significant digits, without exponent or
// trailing zeros.
func digits(v float64) string {
	if v == 0 {
		return "0"
	}
	places := 5 - int(math.Floor(math.Log10(math.Abs(v))))
	s := strconv.FormatFloat(v, 'f', min(max(places, 0), 12), 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	return s
}

func quote(s string, sep byte) string {
	if strings.ContainsAny(s, "\"\r\n"+string(rune(sep))) {
		return `"` + strings.ReplaceAll(s, `"`, `""`) + `"`
	}
	return s
}

// text guards a cell that comes from the user.
func text(s string) string {
	if s != "" && strings.ContainsRune("=+-@\t\r", rune(s[0])) {
		return "'" + s
	}
	return s
}
