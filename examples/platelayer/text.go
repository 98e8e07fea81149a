package main

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// lineWidth is where the terminal's sentences wrap.
const lineWidth = 96

// writeText prints the book to a terminal.
func writeText(w io.Writer, b *Book) error {
	p := printer{w: w}
	p.line(strings.ToUpper(b.Title))
	p.line(strings.Repeat("=", utf8.RuneCountInString(b.Title)))
	for i, c := range b.Chapters {
		p.line("")
		title := fmt.Sprintf("%d  %s", i+1, c.Title)
		p.line(title)
		p.line(strings.Repeat("-", utf8.RuneCountInString(title)))
		for _, s := range c.Lines {
			p.wrapped(s)
		}
		for _, t := range c.Tables {
			p.line("")
			if t.Caption != "" {
				p.wrapped(t.Caption)
			}
			p.table(b.Units, t)
		}
		if c.Caution != "" {
			p.line("")
			p.wrapped("CAUTION: " + c.Caution)
		}
	}
	return p.err
}

type printer struct {
	w   io.Writer
	err error
}

func (p *printer) line(s string) {
	if p.err == nil {
		_, p.err = fmt.Fprintln(p.w, strings.TrimRight(s, " "))
	}
}

func (p *printer) wrapped(s string) {
	line := ""
	for _, word := range strings.Fields(s) {
		if line != "" && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > lineWidth {
			p.line(line)
			line = "  "
		} else if line != "" {
			line += " "
		}
		line += word
	}
	p.line(line)
}

func (p *printer) table(u Units, t Table) {
	cells := [][]string{nil}
	width := make([]int, len(t.Columns))
	for _, c := range t.Columns {
		cells[0] = append(cells[0], u.head(c))
	}
	for _, r := range t.Rows {
		var out []string
		for i, c := range t.Columns {
			out = append(out, u.cell(c, r[i]))
		}
		cells = append(cells, out)
	}
	for _, r := range cells {
		for i, s := range r {
			width[i] = max(width[i], utf8.RuneCountInString(s))
		}
	}
	for n, r := range cells {
		line := " "
		for i, s := range r {
			pad := strings.Repeat(" ", width[i]-utf8.RuneCountInString(s))
			if t.Columns[i].Kind == Text {
				line += " " + s + pad
			} else {
				line += " " + pad + s
			}
			line += " "
		}
		p.line(line)
		if n == 0 {
			total := 0
			for _, x := range width {
				total += x + 2
			}
			p.line("  " + strings.Repeat("-", total-2))
		}
	}
}
