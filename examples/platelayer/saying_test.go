package main

import (
	"regexp"
	"strings"
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func TestSigned(t *testing.T) {
	for x, want := range map[float64]string{0.4: "0", -0.4: "0", 0.6: "+1", -0.6: "-1", 0: "0", 12: "+12"} {
		if got := signed(x, 0); got != want {
			t.Errorf("%v is written %s, want %s", x, got, want)
		}
	}
}

// What breaks the builder's standard is told in one unit and in the order in
// which it lies along the line.
func TestBreachesInOrder(t *testing.T) {
	edits := []string{
		`"turn": "60°", "ease": "450 mm"`, `"turn": "60°", "ease": "300 mm"`, `"turn": "85°", "ease": "400 mm"`, `"turn": "85°"`,
		`"radius": "1.2 m", "gradient": "1 in 50"`, `"radius": "1.6 m", "gradient": "1 in 100"`, `"plain_above": "4 m"`, `"plain_above": "10 m"`,
		`"26.5 m"`, `"25.6 m"`, `"26.4 m"`, `"25.6 m"`,
	}
	at := regexp.MustCompile(`chainage (\S+(?: \d+/\d+)?) (mm|in)`)
	for unit, plan := range map[string]string{"mm": edited(t, edits...), "in": edited(t, append(edits, `"gauge": "32 mm",`, `"inches": true, "gauge": "32 mm",`)...)} {
		book, err := makeBook(t.Context(), []byte(plan))
		if err != nil {
			t.Fatal(err)
		}
		last, count := measure.Length(-1), 0
		kinds := map[string]bool{}
		for _, line := range book.Chapters[1].Lines {
			if !strings.HasPrefix(line, "Against your standard: ") {
				continue
			}
			for _, kind := range []string{"the radius is", "steps is", "easement is", "gradient is"} {
				kinds[kind] = kinds[kind] || strings.Contains(line, kind)
			}
			if regexp.MustCompile(`\d (m|R)\b`).MatchString(line) || strings.Contains(line, "R ") {
				t.Errorf("not in %s: %s", unit, line)
			}
			found := at.FindStringSubmatch(line)
			if found == nil {
				continue // a loop's
			}
			count++
			here, err := measure.ParseLength(found[1] + " " + found[2])
			if err != nil || found[2] != unit || here < last {
				t.Errorf("after %v: %s", last, line)
			}
			last = here
		}
		if count < 5 || len(kinds) != 4 || !kinds["steps is"] || !kinds["gradient is"] || !kinds["easement is"] || !kinds["the radius is"] {
			t.Errorf("%d breaches, of %v", count, kinds)
		}
	}
}

// With nothing beside the line no table of it is printed, and none is empty.
func TestNoEmptyTables(t *testing.T) {
	plan := edited(t, `"structures": [`, `"note": [`, `"loops": [`, `"note": [`)
	book, err := makeBook(t.Context(), []byte(plan))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range book.Chapters {
		for _, x := range c.Tables {
			if len(x.Rows) == 0 || x.Name == "clearance" {
				t.Errorf("table %s has %d rows", x.Name, len(x.Rows))
			}
		}
	}
	if text := bookText(t, plan); !strings.Contains(text, "The plan names nothing that the line passes.") || strings.Contains(text, "0 foul") {
		t.Error("the book does not say that nothing stands beside the line")
	}
}

// A heading is less than a whole turn.
func TestHeadingAtTheEnd(t *testing.T) {
	for turn, want := range map[string]string{"50°": "heading 285.00° from east", "410°": "heading 285.00° from east", "125°": "heading 0.00° from east"} {
		plan := strings.NewReplacer(`"turn": "50°"`, `"turn": "`+turn+`"`, `"structures": [`, `"note": [`).Replace(string(demo))
		plan = strings.Replace(plan, `"levels": [`, `"note": [`, 1)
		plan = strings.Replace(plan, `"trackbed": {`, `"note": {`, 1)
		plan = strings.Replace(plan, `{"name": "quarry end", "from": "20.1 m", "to": "26.5 m", "depth": "25 mm"}`, `{"name": "quarry end", "from": "20.1 m", "to": "26.4 m", "depth": "25 mm"}`, 1)
		plan = regexp.MustCompile(`(?s)"shop": \[.*?\n  \]`).ReplaceAllString(plan, `"shop": []`)
		if text := bookText(t, plan); !strings.Contains(text, want) {
			t.Errorf("turned by %s the book lacks %q", turn, want)
		}
	}
}

// Book and card of a plan in inches say the same widest gap, and the card has
// inches and °F first.
func TestInchCard(t *testing.T) {
	plan := edited(t, `"gauge": "32 mm",`, `"inches": true, "gauge": "32 mm",`, `"widest_gap": "4 mm"`, `"widest_gap": "3/16 in"`)
	book, err := makeBook(t.Context(), []byte(plan))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range book.Chapters {
		if c.Title != "Gaps at the joints" {
			continue
		}
		card := c.Figures[0].SVG
		first, next := strings.Index(card, "rail °F"), strings.Index(card, "rail °C")
		if first < 0 || first > next || !strings.Contains(strings.Join(strings.Fields(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(card, "")), " "), "at most 0.187 in, 4.76 mm") {
			t.Errorf("the card has °F at %d, °C at %d", first, next)
		}
		if said := strings.Join(c.Lines, " "); !strings.Contains(said, "The widest gap allowed is 0.187 in") {
			t.Errorf("the book says %s", said)
		}
		return
	}
	t.Error("the book has no gaps")
}
