package main

import (
	"math"
	"strings"
	"testing"

	"example.org/fourfoot/gauge/measure"
)

// What is dug and poured is width times depth times the line's length, and a
// post reaches from below the rail to below the frost.
func TestTrackbedInBook(t *testing.T) {
	near := func(what string, got any, want, tolerance float64) {
		t.Helper()
		x, ok := Units{}.number(got)
		if !ok || math.Abs(x-want) > tolerance {
			t.Errorf("%s: %v, want %v", what, got, want)
		}
	}
	dug := table(t, string(demo), "trenches").Rows[0]
	near("dug", dug[2], 220*90*4300e-6, 0.01)
	near("spoil", dug[3], 1.25*220*90*4300e-6, 0.01)
	near("filling", dug[6], 220*70*4300e-6, 0.01)

	poured := table(t, string(demo), "concrete").Rows[0]
	near("concrete", poured[2], 160*(50+1)*1200e-6, 0.01) // 160 mm at 1 in 80 are 2 mm
	near("water", poured[6], poured[3].(measure.Mass).Kilograms()/2, 1e-9)

	posts := table(t, string(demo), "posts").Rows
	if len(posts) != 3 {
		t.Fatalf("%d posts", len(posts))
	}
	at := 9400.0
	rail := 300 + (at-5600)/80
	near("top", posts[0][2], rail-70, 0.01)
	near("ground", posts[0][3], 200, 0.01)
	near("foot", posts[0][4], 200-400, 0.01)
	near("length", posts[0][5], rail-70+200, 0.01)
	near("cut from", posts[0][6], 600, 0)

	boards := table(t, string(demo), "boards").Rows
	sum := 0.0
	for _, b := range boards {
		sum += b[3].(measure.Length).Millimetres()
	}
	// On the straight the track lies in the middle of every board.
	for _, b := range boards {
		near("left edge to the track", b[7], 110/2.0, 1e-6)
		near("left edge to the track halfway", b[8], 110/2.0, 1e-6)
	}
	near("boards and their gaps", measure.Length(sum+3*float64(len(boards)-1)), 900, 0.01)
}

// On a bend the track lies off the middle of a board by half its bow: to the
// inside of the curve at the ends, to the outside halfway.
func TestBoardsOnABend(t *testing.T) {
	const r = 1800.0
	plan := edited(t, `"name": "beck bridge", "from": "9.4 m", "to": "10.3 m", "width"`, `"name": "beck bridge", "from": "6.4 m", "to": "7.3 m", "width"`, `"from": "5 m", "to": "9.3 m"`, `"from": "8 m", "to": "9.3 m"`, `{"at": "9.2 m", "level": "280 mm"}`, `{"at": "6 m", "level": "180 mm"}, {"at": "9 m", "level": "180 mm"}`)
	for _, b := range table(t, plan, "boards").Rows {
		chord := b[2].(measure.Length).Millimetres() - b[1].(measure.Length).Millimetres()
		bow := r - r*math.Cos(chord/2/r)
		corner := 7 * math.Sin(chord/2/r) // of a sleeper 14 mm wide, at the end
		ends, halfway := b[7].(measure.Length).Millimetres(), b[8].(measure.Length).Millimetres()
		// To the left the line turns, so that it bows to the right.
		if math.Abs(halfway-ends-bow) > 0.01 || math.Abs(ends-(55-bow/2+corner/2)) > 0.1 {
			t.Errorf("%v to %v: %v at the ends, %v halfway; want %v less, and %v", b[1], b[2], ends, halfway, bow, 55-bow/2+corner/2)
		}
	}
}

// What fills a trench is ordered: by litres in place, by weight where its
// density is known, and with the ballast where it is the same grit.
func TestTrenchFillingsOrdered(t *testing.T) {
	const litres = 220 * 70 * 4300e-6
	line := func(plan, item string) (takes float64, row []any) {
		for _, row := range table(t, plan, "order").Rows {
			if row[0] == item {
				return row[1].(float64), row
			}
		}
		t.Fatalf("%s is not ordered", item)
		return 0, nil
	}
	said := func(plan string) string {
		var out strings.Builder
		book, err := makeBook(t.Context(), []byte(plan))
		if err != nil {
			t.Fatal(err)
		}
		if err := writeText(&out, book); err != nil {
			t.Fatal(err)
		}
		return out.String()
	}
	if got, row := line(string(demo), "crushed stone"); math.Abs(got-litres) > 0.01 || row[3] != "L in place" || row[6] != "house bank" {
		t.Errorf("%v, want %v L for the house bank", row, litres)
	}
	const unpriced = `No price is known for "crushed stone"`
	if !strings.Contains(said(string(demo)), unpriced) {
		t.Errorf("the book lacks %q", unpriced)
	}
	shop := []string{`"shop": [`, `"shop": [{"item": "crushed stone", "pack": "sack", "holds": 15, "price": {"minor": 400, "currency": "EUR", "places": 2}},`}
	if _, row := line(edited(t, shop...), "crushed stone"); row[4] != "5 × sack" {
		t.Errorf("%v, want 5 sacks", row)
	}
	dense := edited(t, `"name": "crushed stone"`, `"name": "crushed stone", "compacted_density": "1700 kg/m³"`)
	if got, row := line(dense, "crushed stone"); math.Abs(got-1.7*litres) > 0.01 || row[3] != "kg" {
		t.Errorf("%v, want %v kg", row, 1.7*litres)
	}
	if got, row := line(edited(t, `"note": "An invented`, `"inches": true, "note": "An invented`), "crushed stone"); math.Abs(got-litres/28.316846592) > 1e-3 || row[3] != "cu ft in place" {
		t.Errorf("%v, want cubic feet", row)
	}
	before, _ := line(string(demo), "granite grit")
	// 1480 kg/m³ loose, 1.12 times that in place, 3 % of water.
	if got, _ := line(edited(t, `"name": "crushed stone"`, `"name": "granite grit"`), "granite grit"); math.Abs(got-before-1.48*1.12*1.03*litres) > 0.01 {
		t.Errorf("%v kg of grit, %v without the trench", got, before)
	}
	if _, err := makeBook(t.Context(), []byte(edited(t, `"name": "crushed stone"`, `"name": "stone"`))); err == nil || !strings.Contains(err.Error(), "trackbed.trenches[1].layers[1]: compacted_density") {
		t.Errorf("stone by litres and by weight: %v", err)
	}
}

func TestTrackbedFaults(t *testing.T) {
	for name, c := range map[string]struct{ old, new, want string }{
		"no ground":              {`"ground": [`, `"note": [`, "trackbed.ground: must be given"},
		"past the end":           {`"from": "5 m", "to": "9.3 m"`, `"from": "5 m", "to": "93 m"`, "trackbed.trenches[1]"},
		"overfull trench":        {`"thickness": "70 mm"`, `"thickness": "170 mm"`, "trackbed.trenches[1]"},
		"no cement":              {`"cement": 1, "sand": 2`, `"cement": 0, "sand": 2`, "trackbed.concrete[1]"},
		"narrow boards":          {`"width": "110 mm", "margin"`, `"width": "80 mm", "margin"`, "trackbed.decks[1]"},
		"a deck over another":    {`"decks": [`, `"decks": [{"name": "landing", "from": "10 m", "to": "11 m", "width": "110 mm", "plank": "600 mm", "post_spacing": "450 mm", "below": "70 mm", "embed": "200 mm"}, `, "trackbed.decks[2]: beck bridge: from 9400 mm to 10.3 m runs into trackbed.decks[1], landing, from 10 m to 11 m"},
		"a deck over a trench":   {`"from": "5 m", "to": "9.3 m"`, `"from": "5 m", "to": "9.5 m"`, "trackbed.decks[1]: beck bridge: from 9400 mm to 10.3 m runs into trackbed.trenches[1]"},
		"concrete on concrete":   {`"concrete": [`, `"concrete": [{"name": "pad", "from": "18 m", "to": "19 m", "width": "160 mm", "thickness": "50 mm", "cement": 1, "sand": 2}, `, "trackbed.concrete[2]"},
		"a trench over a trench": {`"trenches": [`, `"trenches": [{"name": "drain", "from": "4 m", "to": "6 m", "width": "160 mm", "depth": "50 mm"}, `, "trackbed.trenches[2]"},
		"short posts":            {`"posts": ["600 mm", "900 mm"]`, `"posts": ["300 mm"]`, "trackbed.decks[1]"},
	} {
		if _, err := makeBook(t.Context(), []byte(edited(t, c.old, c.new))); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
}

// Concrete may lie on a filled trench, and one piece begin where another ends.
func TestTrackbedOneAfterAnother(t *testing.T) {
	plan := edited(t, `"trenches": [`, `"trenches": [{"name": "under the floor", "from": "18.9 m", "to": "20.1 m", "width": "160 mm", "depth": "50 mm"}, {"name": "bank", "from": "3 m", "to": "5 m", "width": "160 mm", "depth": "50 mm"}, `)
	if _, err := makeBook(t.Context(), []byte(plan)); err != nil {
		t.Error(err)
	}
}
