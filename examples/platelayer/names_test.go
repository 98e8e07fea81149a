package main

import (
	"bytes"
	"strings"
	"testing"

	"example.org/fourfoot/gauge/measure"
)

// inches is the demo's plan with its book in inches and its posts cut to
// measure, changed in pairs.
func inches(t *testing.T, pairs ...string) string {
	t.Helper()
	return edited(t, append([]string{`"gauge": "32 mm",`, `"gauge": "32 mm", "inches": true,`, `, "posts": ["600 mm", "900 mm"]`, ``}, pairs...)...)
}

func bookText(t *testing.T, plan string) string {
	t.Helper()
	book, err := makeBook(t.Context(), []byte(plan))
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := writeText(&out, book); err != nil {
		t.Fatal(err)
	}
	return strings.Join(strings.Fields(out.String()), " ") // as it would stand on one line
}

// A post has one length in its table, in the order list and among what has no
// price, no less than it needs, and the shop takes the name as it is printed.
func TestPostNames(t *testing.T) {
	for _, plan := range []string{inches(t), edited(t, `, "posts": ["600 mm", "900 mm"]`, ``)} {
		p := &Plan{}
		if err := decodePlan([]byte(plan), p); err != nil {
			t.Fatal(err)
		}
		u := Units{Inches: p.Inches}
		posts := table(t, plan, "posts")
		text := bookText(t, plan)
		for _, row := range posts.Rows {
			printed := u.cell(posts.Columns[6], row[6])
			name := "posts, " + printed + " " + u.unit(Length)
			cut, err := measure.ParseLength(printed + " " + u.unit(Length))
			if short := row[6].(measure.Length) - cut; err != nil || short > 1e-6 || short <= -u.cutTo() {
				t.Errorf("%v is written %s, %v", row[6], printed, err)
			}
			if n := strings.Count(text, name); n != 2 {
				t.Errorf("the book says %q %d times, want in the order list and where prices are wanting:\n%s", name, n, text[strings.Index(text, "Order list"):])
			}
			if !strings.Contains(text, `"`+name+`"`) {
				t.Errorf("the book does not say what to call %q in the shop", name)
			}
			shop := `"shop": [{"item": "` + name + `", "pack": "post", "holds": 1, "price": {"minor": 300, "currency": "EUR", "places": 2}},`
			priced := bookText(t, strings.Replace(plan, `"shop": [`, shop, 1))
			if n := strings.Count(priced, name); n != 1 || !strings.Contains(priced, "× post ") {
				t.Errorf("%q with a price stands %d times", name, n)
			}
		}
	}
	stock := bookText(t, edited(t, `"gauge": "32 mm",`, `"gauge": "32 mm", "inches": true,`, `"posts": ["600 mm", "900 mm"]`, `"posts": ["2 ft", "36 in"]`))
	if !strings.Contains(stock, "posts, 24 in") {
		t.Error("a post of 2 ft is not 24 in in the order list")
	}
}

// Lengths that are cut are rounded up, to what a saw can be set to.
func TestCut(t *testing.T) {
	cut := Column{Kind: Cut}
	for _, tt := range []struct {
		length      measure.Length
		inch, milli string
	}{
		{28.583 * measure.Inch, "28 19/32", "727"},
		{28.6875 * measure.Inch, "28 11/16", "729"},
		{24 * measure.Inch, "24", "610"},
		{704.2 * measure.Millimetre, "27 47/64", "705"},
		{600 * measure.Millimetre, "23 5/8", "600"},
	} {
		if a, b := (Units{Inches: true}).cell(cut, tt.length), (Units{}).cell(cut, tt.length); a != tt.inch || b != tt.milli {
			t.Errorf("%v is cut to %s in, %s mm, want %s and %s", tt.length, a, b, tt.inch, tt.milli)
		}
	}
}

// A small trench is not dug for nothing.
func TestSmallTrench(t *testing.T) {
	small := []string{`"from": "5 m", "to": "9.3 m", "width": "220 mm", "depth": "90 mm"`, `"from": "5 m", "to": "5.3048 m", "width": "6 in", "depth": "3 in"`, `"thickness": "70 mm"`, `"thickness": "1 in"`}
	trenches := table(t, inches(t, small...), "trenches")
	for i, want := range map[int]string{2: "0.12", 3: "0.156", 6: "0.04"} {
		if got := (Units{Inches: true}).cell(trenches.Columns[i], trenches.Rows[0][i]); !strings.HasPrefix(got, want) {
			t.Errorf("%s: %s cu ft, want %s", trenches.Columns[i].Head, got, want)
		}
	}
}
