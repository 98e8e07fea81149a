package main

import (
	"bytes"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"example.org/fourfoot/gauge/measure"
)

// What packages say in millimetres and °C is said in the units of the book.
func TestWords(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"piece from 1270 mm to 2540 mm", "piece from 50 in to 100 in"},
		{"is right today, 0.62 to 3.43 mm is", "is right today, 0.024 to 0.135 in is"},
		{"B max 28.6 mm + T max 1.3 mm = 29.9 mm", "B max 1.126 in + T max 0.051 in = 1.177 in"},
		{"July (rail 48 °C, base -10 °C)", "July (rail 118 °F, base 14 °F)"},
		{"4 K cooler", "7.2 °F cooler"},
		{"2.54 m of rail", "100 in of rail"},
		{"from 0 mm³ to 1000 m³, 5 mm² of it", "from 0 mm³ to 1000 m³, 5 mm² of it"},
		{"12 mmm, x4 m3, one of the", "12 mmm, x4 m3, one of the"},
	} {
		if got := (Units{Inches: true}).words(tt.text); got != tt.want {
			t.Errorf("%q: %q, want %q", tt.text, got, tt.want)
		}
		if got := (Units{}).words(tt.text); got != tt.text {
			t.Errorf("%q: %q in millimetres", tt.text, got)
		}
	}
}

// What is printed of a permitted gap is permitted, and no more than one of the
// last digit inside; what was round stays.
func TestInwards(t *testing.T) {
	least, most := Column{Kind: AtLeast, Digits: 2}, Column{Kind: AtMost, Digits: 2}
	for _, u := range []Units{{}, {Inches: true}} {
		unit, digit := measure.Millimetre, measure.Length(0.01)
		if u.Inches {
			unit, digit = measure.Inch, 0.0254
		}
		for l := measure.Length(0); l < 4; l += 0.0037 {
			low, err1 := strconv.ParseFloat(u.cell(least, l), 64)
			high, err2 := strconv.ParseFloat(u.cell(most, l), 64)
			a, b := measure.Length(low)*unit-l, l-measure.Length(high)*unit
			if err1 != nil || err2 != nil || a < -1e-6*digit || b < -1e-6*digit || a > digit || b > digit {
				t.Errorf("%v: from %v to %v %v", l, low, high, unit)
			}
		}
	}
	if a, b := (Units{}).cell(least, 0.29*measure.Millimetre), (Units{}).cell(most, 0.29*measure.Millimetre); a != "0.29" || b != "0.29" {
		t.Errorf("0.29 is written %s and %s", a, b)
	}
}

// Table and card of the gap chapter say the same, and so does the day's gap.
func TestGapCardAgrees(t *testing.T) {
	for name, plan := range plans(t) {
		book, err := makeBook(t.Context(), plan)
		if err != nil {
			t.Fatal(err)
		}
		checked := 0
		for _, c := range book.Chapters {
			for _, x := range c.Tables {
				if x.Name != "gap-card" {
					continue
				}
				for _, row := range x.Rows {
					both := book.Units.cell(x.Columns[2], row[2]) + " to " + book.Units.cell(x.Columns[4], row[4])
					if !strings.Contains(c.Figures[0].SVG, ">"+both+"<") {
						t.Errorf("%s: the card does not say %s", name, both)
					}
					checked++
				}
			}
		}
		if checked < 5 {
			t.Errorf("%s: %d rows", name, checked)
		}
	}
}

// A joint at a tunnel says so, on a line as on a circuit over its start.
func TestJointsAtTunnels(t *testing.T) {
	for name, want := range map[string][]string{
		"demo":    {"where Hollow Tunnel begins: as few inside as can be", "inside Hollow Tunnel"},
		"circuit": {"inside hedge tunnel"},
	} {
		said := map[string]int{}
		for _, row := range table(t, string(plans(t)[name]), "joints").Rows {
			if at := row[6].(string); strings.Contains(at, "unnel") {
				said[at]++
			}
		}
		for _, w := range want {
			if said[w] != 2 { // one a rail
				t.Errorf("%s: %q stands %d times", name, w, said[w])
			}
			delete(said, w)
		}
		if len(said) > 0 {
			t.Errorf("%s: also %v", name, said)
		}
	}
}

// A book in inches has no millimetre and no °C in it, but for the gap card,
// which has both, in its drawings no more than in its words.
func TestOneUnit(t *testing.T) {
	metric := regexp.MustCompile(`[0-9] ?(mm|cm|m|°C|L|kg/m³)\b`)
	book, err := makeBook(t.Context(), plans(t)["circuit"])
	if err != nil {
		t.Fatal(err)
	}
	var text bytes.Buffer
	if err := writeText(&text, book); err != nil {
		t.Fatal(err)
	}
	if found := metric.FindAllString(text.String(), -1); found != nil {
		t.Errorf("the book says %q", found)
	}
	words := regexp.MustCompile(`>[^<]*<`)
	drawings := 0
	for _, c := range book.Chapters {
		for _, f := range append(append([]Figure{}, c.Lead...), c.Figures...) {
			if f.Name == "gap-card" {
				continue
			}
			drawings++
			for _, w := range words.FindAllString(f.SVG, -1) {
				if metric.MatchString(w) {
					t.Errorf("%s says %q", f.Name, w)
				}
			}
		}
	}
	if drawings < 8 {
		t.Errorf("only %d drawings", drawings)
	}
}

// A compound curve has a radius for each of its arcs in the drawings.
func TestRadiusOfEachArc(t *testing.T) {
	plan := edited(t, `{"bend": "left", "radius": "2 m", "turn": "50°", "ease": "500 mm", "shape": "bloss"},`,
		`{"bend": "left", "radius": "2 m", "turn": "25°", "ease_in": "500 mm"}, {"bend": "left", "radius": "2.6 m", "turn": "25°", "ease_out": "400 mm"},`,
		"26.5 m", "26 m", "26.4 m", "25.9 m")
	book, err := makeBook(t.Context(), []byte(plan))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range book.Chapters {
		for _, f := range c.Lead {
			if f.Name != "plan" && f.Name != "curvature" {
				continue
			}
			for _, want := range []string{"R 2000 mm", "R 2600 mm", "R 1200 mm"} {
				if n := strings.Count(f.SVG, ">"+want); n != 1 {
					t.Errorf("%s says %s %d times", f.Name, want, n)
				}
			}
		}
	}
}
