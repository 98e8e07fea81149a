package expansion_test

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/fourfoot/expansion"
	"example.org/fourfoot/gauge/measure"
)

// Every row of a card is what the joint says for its temperatures.
func TestCardRows(t *testing.T) {
	j, climate := gardenJoint()
	for _, o := range []expansion.CardOptions{{}, {Step: 2.5}, {BaseBelow: 4}, {Low: -10, High: 30, Step: 10}} {
		c, err := j.Card(o, climate)
		if err != nil {
			t.Fatal(err)
		}
		if len(c.Rows) < 5 {
			t.Errorf("%+v: %d rows", o, len(c.Rows))
		}
		for i, r := range c.Rows {
			g, err := j.Gaps(expansion.State{Rail: r.Rail, Base: r.Base}, climate)
			if err != nil {
				t.Fatal(err)
			}
			if r.Least != g.Least || r.Most != g.Most || r.Aim != g.Aim() || r.Rail.Sub(r.Base) != o.BaseBelow {
				t.Errorf("row %+v, gaps %+v", r, g)
			}
			if i > 0 && r.Aim >= c.Rows[i-1].Aim {
				t.Errorf("row %d: the gap grows with heat", i)
			}
		}
	}
}

func TestCardBadInput(t *testing.T) {
	j, climate := gardenJoint()
	for _, c := range []struct {
		name string
		o    expansion.CardOptions
		kind error
	}{
		{"wrong way round", expansion.CardOptions{Low: 30, High: 10}, measure.ErrInput},
		{"step", expansion.CardOptions{Step: -1}, measure.ErrInput},
		{"NaN step", expansion.CardOptions{Step: measure.TemperatureDifference(math.NaN())}, measure.ErrInput},
		{"too many rows", expansion.CardOptions{Step: 0.1}, measure.ErrLimit},
		{"beyond the climate", expansion.CardOptions{Low: 20, High: 120, Step: 10}, measure.ErrInput},
		{"title", expansion.CardOptions{Title: strings.Repeat("x", 81)}, measure.ErrLimit},
		{"base too cool", expansion.CardOptions{BaseBelow: 100}, measure.ErrNoAnswer},
	} {
		if _, err := j.Card(c.o, climate); !errors.Is(err, c.kind) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	j.Before.Free, j.After.Free = 5000, 5000
	if _, err := j.Card(expansion.CardOptions{}, climate); !errors.Is(err, measure.ErrNoAnswer) {
		t.Errorf("no gap: %v", err)
	}
}

// The drawing is well-formed, has the page's true size, keeps within it, and
// leaves between each pair of rail ends the gap to aim for.
func TestCardSVG(t *testing.T) {
	j, climate := gardenJoint()
	for _, step := range []measure.TemperatureDifference{5, 2.5, 2} {
		c, err := j.Card(expansion.CardOptions{Title: `Brass & "concrete" <1.8 m>`, Step: step}, climate)
		if err != nil {
			t.Fatal(err)
		}
		svg := c.SVG()
		if !strings.HasPrefix(svg, `<svg xmlns="http://www.w3.org/2000/svg" width="148mm" height="210mm" viewBox="0 0 148 210"`) {
			t.Errorf("the page is not to size: %.120s", svg)
		}
		d := xml.NewDecoder(strings.NewReader(svg))
		var ends [][2]float64
		var rules []float64
		var all strings.Builder
		for {
			tok, err := d.Token()
			if err == io.EOF {
				break
			}
			if err != nil {
				t.Fatal(err)
			}
			if s, ok := tok.(xml.CharData); ok {
				all.Write(s)
			}
			e, ok := tok.(xml.StartElement)
			if !ok {
				continue
			}
			at := map[string]float64{}
			for _, a := range e.Attr {
				if v, err := strconv.ParseFloat(a.Value, 64); err == nil {
					at[a.Name.Local] = v
				}
			}
			if e.Name.Local == "line" {
				rules = append(rules, at["x2"]-at["x1"])
			}
			if e.Name.Local == "text" {
				if at["y"] <= 5 || at["y"] >= 208 || at["x"] < 9 || at["x"] > 148-9 || at["font-size"] < 1.4 {
					t.Errorf("text at %v", at)
				}
			}
			if e.Name.Local == "rect" && at["x"] > 0 {
				row := len(ends) / 2
				height := min(9, 124/float64(len(c.Rows)))
				if top := at["y"] - 42 - height*float64(row); top < 0 || top+at["height"] > height || math.Abs(at["width"]-4) > 1e-9 {
					t.Errorf("rail end %v of row %d", at, row)
				}
				ends = append(ends, [2]float64{at["x"], at["x"] + at["width"]})
			}
			if at["x"]+at["width"] > 148 || at["y"]+at["height"] > 210 || at["y"] < 0 || at["x"] < 0 || at["x1"] < 0 || at["x2"] > 148 || at["y2"] > 210 {
				t.Errorf("%s %v leaves the page", e.Name.Local, at)
			}
		}
		if len(ends) != 2*len(c.Rows) {
			t.Fatalf("%d rail ends for %d rows", len(ends), len(c.Rows))
		}
		if !slices.ContainsFunc(rules, func(l float64) bool { return math.Abs(l-50) < 0.006 }) || !slices.ContainsFunc(rules, func(l float64) bool { return math.Abs(l-50.8) < 0.006 }) {
			t.Errorf("no rules of 50 mm and 2 in among %v", rules)
		}
		for i, r := range c.Rows {
			near(t, "true width", ends[2*i+1][0]-ends[2*i][1], float64(r.Aim), 0.0011)
		}
		for _, want := range []string{`Brass & "concrete" <1.8 m>`, "°F", "mm", "in", "burns"} {
			if !strings.Contains(all.String(), want) {
				t.Errorf("%q is not on the card", want)
			}
		}
	}
}

func TestCardText(t *testing.T) {
	j, climate := gardenJoint()
	j.Before.Base, j.After.Base = 0, 0
	c, err := j.Card(expansion.CardOptions{}, climate)
	if err != nil {
		t.Fatal(err)
	}
	if s := c.Text(); strings.Contains(s, "base   ") || !strings.Contains(s, "gap, in") {
		t.Errorf("a card for a base that stays:\n%s", s)
	}
}

func ExampleCard_SVG() {
	j, climate := gardenJoint()
	c, err := j.Card(expansion.CardOptions{Title: "Brass, 1.8 m panels on concrete"}, climate)
	if err != nil {
		panic(err)
	}
	page := c.SVG() // to write to a file and print at 100 %
	fmt.Println(page[:62])
	// Output:
	// <svg xmlns="http://www.w3.org/2000/svg" width="148mm" height="
}

func wellFormed(t *testing.T, text string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(text))
	for {
		if _, err := d.Token(); err == io.EOF {
			return
		} else if err != nil {
			t.Fatal(err)
		}
	}
}

// A card for inches has the same numbers, the others first.
func TestInchesFirst(t *testing.T) {
	j := expansion.EqualPanels(1000, 17e-6, 0)
	j.Widest = 4
	climate := []expansion.State{{Rail: -10, Base: -10}, {Rail: 50, Base: 50}}
	metric, err1 := j.Card(expansion.CardOptions{Step: 10}, climate)
	inches, err2 := j.Card(expansion.CardOptions{Step: 10, Inches: true}, climate)
	if err1 != nil || err2 != nil {
		t.Fatal(err1, err2)
	}
	words := func(s string) []string {
		f := strings.Fields(regexp.MustCompile(`[|:;,.)(]+(\s|$)`).ReplaceAllString(s, " "))
		slices.Sort(f)
		return f
	}
	a, b := metric.Text(), inches.Text()
	if !slices.Equal(words(a), words(b)) {
		t.Errorf("other words:\n%s\n%s", a, b)
	}
	if strings.Index(b, "°F") > strings.Index(b, "°C") || strings.Index(b, "gap, in") > strings.Index(b, "gap, mm") || strings.Index(a, "°F") < strings.Index(a, "°C") {
		t.Errorf("wrong order:\n%s", b)
	}
	row := regexp.MustCompile(`(?m)^ *68 +20\.0 \|`)
	if !row.MatchString(b) {
		t.Errorf("no row of 68 °F:\n%s", b)
	}
	text := regexp.MustCompile(`>([^<]*)<`)
	a, b = metric.SVG(), inches.SVG()
	if len(text.FindAllString(a, -1)) != len(text.FindAllString(b, -1)) || strings.Index(b, "aim, in") > strings.Index(b, "aim, mm") || strings.Index(b, ">68<") > strings.Index(b, ">20<") {
		t.Errorf("the drawing:\n%s", b)
	}
}
