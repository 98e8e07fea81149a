package main

import (
	"encoding/csv"
	"html/template"
	"io"
	"os"
	"path/filepath"
	"slices"
)

// writePage writes the book as one page that needs nothing beside itself.
func writePage(w io.Writer, b *Book) error { return page.Execute(w, b) }

// SVGs are made by this program from numbers and escaped text, so the page
// may hold them as they are.
var page = template.Must(template.New("page").Funcs(template.FuncMap{
	"svg":  func(s string) template.HTML { return template.HTML(s) },
	"head": func(u Units, c Column) string { return u.head(c) },
	"cell": func(u Units, t Table, row []any, i int) string { return u.cell(t.Columns[i], row[i]) },
	"word": func(c Column) bool { return c.Kind == Text },
	"next": func(i int) int { return i + 1 },
}).Parse(`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>{{.Title}}: laying book</title>
<style>
body { font: 11pt/1.45 Georgia, "Times New Roman", serif; color: #111; background: #fff; max-width: 62rem; margin: 0 auto; padding: 1.5rem 1rem 4rem; }
h1 { font-size: 1.9rem; font-weight: normal; border-bottom: 3px double #111; padding-bottom: .3rem; }
h2 { font-size: 1.25rem; margin: 2.4rem 0 .5rem; border-bottom: 1px solid #111; }
nav ol { columns: 2; padding-left: 1.5rem; }
nav a { color: inherit; }
p { margin: .35rem 0; max-width: 46rem; }
table { border-collapse: collapse; font: 9.5pt/1.35 "Liberation Sans", Arial, sans-serif; margin: .3rem 0 1rem; }
caption { text-align: left; font: italic 10.5pt/1.4 Georgia, serif; padding: .6rem 0 .2rem; }
th { text-align: left; vertical-align: bottom; border-bottom: 1.5px solid #111; padding: .15rem .7rem .15rem 0; }
td { border-bottom: 1px solid #bbb; padding: .15rem .7rem .15rem 0; vertical-align: top; }
th.n, td.n { text-align: right; font-variant-numeric: tabular-nums; }
figure { margin: 1rem 0; break-inside: avoid; }
figure svg { max-width: 100%; height: auto; }
figcaption { font-style: italic; font-size: 10.5pt; }
.scroll { overflow-x: auto; }
.caution { border: 1.5px solid #111; border-left-width: 8px; padding: .4rem .7rem; margin-top: 1rem; max-width: 46rem; }
@media print { body { max-width: none; padding: 0; } h2 { break-after: avoid; } tr { break-inside: avoid; } }
</style>
</head>
<body>
<h1>{{.Title}}</h1>
<nav><ol>{{range $i, $c := .Chapters}}<li><a href="#c{{next $i}}">{{$c.Title}}</a></li>{{end}}</ol></nav>
{{$u := .Units}}{{range $i, $c := .Chapters}}
<h2 id="c{{next $i}}">{{next $i}}&ensp;{{$c.Title}}</h2>
{{range $c.Lines}}<p>{{.}}</p>
{{end}}{{range $c.Lead}}{{template "figure" .}}{{end}}{{range $t := $c.Tables}}<div class="scroll"><table>{{if $t.Caption}}<caption>{{$t.Caption}}</caption>{{end}}
<thead><tr>{{range $t.Columns}}<th{{if not (word .)}} class="n"{{end}}>{{head $u .}}</th>{{end}}</tr></thead>
<tbody>{{range $row := $t.Rows}}<tr>{{range $i, $col := $t.Columns}}<td{{if not (word $col)}} class="n"{{end}}>{{cell $u $t $row $i}}</td>{{end}}</tr>
{{end}}</tbody></table></div>
{{end}}{{range $c.Figures}}{{template "figure" .}}{{end}}{{if $c.Caution}}<p class="caution"><strong>Caution.</strong> {{$c.Caution}}</p>
{{end}}{{end}}
</body>
</html>
{{define "figure"}}<figure><div class="scroll">{{svg .SVG}}</div><figcaption>{{.Caption}}</figcaption></figure>
{{end}}`))

// writeCSV writes one table, numbers in full with their unit in the head.
func writeCSV(w io.Writer, u Units, t Table) error {
	out := csv.NewWriter(w)
	var head []string
	for _, c := range t.Columns {
		head = append(head, u.head(c))
	}
	records := [][]string{head}
	for _, r := range t.Rows {
		var rec []string
		for _, cell := range r {
			rec = append(rec, u.csv(cell))
		}
		records = append(records, rec)
	}
	return out.WriteAll(records)
}

// writeFiles writes the page, a CSV file a table and an SVG file a drawing into
// a folder, which is made if it is not there.
func writeFiles(dir string, b *Book) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	err := writeFile(filepath.Join(dir, "laying-book.html"), func(w io.Writer) error { return writePage(w, b) })
	for _, c := range b.Chapters {
		for _, t := range c.Tables {
			if err == nil {
				err = writeFile(filepath.Join(dir, t.Name+".csv"), func(w io.Writer) error { return writeCSV(w, b.Units, t) })
			}
		}
		for _, f := range append(slices.Clone(c.Lead), c.Figures...) {
			if err == nil {
				err = os.WriteFile(filepath.Join(dir, f.Name+".svg"), []byte(f.SVG), 0o644)
			}
		}
	}
	return err
}

func writeFile(path string, write func(io.Writer) error) error {
	f, err := os.Create(path)
	if err != nil {
		return err
	}
	if err := write(f); err != nil {
		f.Close()
		return err
	}
	return f.Close()
}
