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
	near("boards and their gaps", measure.Length(sum+3*float64(len(boards)-1)), 900, 0.01)
}

func TestTrackbedFaults(t *testing.T) {
	for name, c := range map[string]struct{ old, new, want string }{
		"no ground":       {`"ground": [`, `"note": [`, "trackbed.ground: must be given"},
		"past the end":    {`"from": "5 m", "to": "9.3 m"`, `"from": "5 m", "to": "93 m"`, "trackbed.trenches[1]"},
		"overfull trench": {`"thickness": "70 mm"`, `"thickness": "170 mm"`, "trackbed.trenches[1]"},
		"no cement":       {`"cement": 1, "sand": 2`, `"cement": 0, "sand": 2`, "trackbed.concrete[1]"},
		"narrow boards":   {`"width": "110 mm", "margin"`, `"width": "80 mm", "margin"`, "trackbed.decks[1]"},
		"short posts":     {`"posts": ["600 mm", "900 mm"]`, `"posts": ["300 mm"]`, "trackbed.decks[1]"},
	} {
		if _, err := makeBook(t.Context(), []byte(edited(t, c.old, c.new))); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", name, err, c.want)
		}
	}
}
