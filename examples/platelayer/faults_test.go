package main

import (
	"errors"
	"fmt"
	"os"
	"strings"
	"testing"

	"example.org/fourfoot/gauge/measure"
)

// What is wrong with a plan is said with the key at which it is to be put
// right, and nothing is said that is not so.
func TestFaultsNameTheirKeys(t *testing.T) {
	const bars = `{"item": "rail bars", "pack": "bar", "holds": 1, "price": {"minor": 410, "currency": "EUR", "places": 2}}`
	price := func(old, new string) string { return strings.Replace(bars, old, new, 1) }
	many := `"vehicles": [`
	for i := range 2 {
		many += fmt.Sprintf(`{"name": "v%d", "length": "100 mm", "width": "80 mm", "height": "90 mm", "wheelbase": "50 mm", "bands": [%s]},`, i,
			strings.TrimSuffix(strings.Repeat(`{"name": "b", "bottom": "10 mm", "top": "20 mm", "length": "50 mm", "width": "50 mm"},`, 9), ","))
	}
	for name, c := range map[string]struct {
		edits []string
		want  string
		not   string
	}{
		"a structure past the end": {[]string{`"to": "20.1 m"`, `"to": "99 m"`}, "structures[1]: Hollow Tunnel: to: 99 m is past the end of the line at 26.5177 m", "from: 99"},
		"a loop past the end":      {[]string{`"to": "4.45 m"`, `"to": "99 m"`}, "loops[1]: station loop: to: 99 m is past the end of the line", "from: "},
		"broken trench":            {[]string{`"from": "5 m", "to": "9.3 m"`, `"from": "5 m", "to": "93 m"`}, "trackbed.trenches[1]", "shop"},
		"broken concrete":          {[]string{`"cement": 1, "sand": 2`, `"cement": 0, "sand": 2`}, "trackbed.concrete[1]", "shop"},
		"broken deck":              {[]string{`"width": "110 mm", "margin"`, `"width": "80 mm", "margin"`}, "trackbed.decks[1]", "shop"},
		"cant without an easement": {
			[]string{`"turn": "100°", "ease": "500 mm", "cant"`, `"turn": "100°", "cant"`}, "line.elements[2].ease: the cant changes at once at chainage 5000 mm", "NewCant",
		},
		"cant without an easement at its end": {
			[]string{`"turn": "110°", "ease": "450 mm"`, `"turn": "110°", "ease_in": "450 mm", "cant": "1 mm"`}, "line.elements[4].ease: the cant changes at once", "element 7",
		},
		"a line too long":         {[]string{`"straight": "2.2 m"`, `"straight": "2000 m"`}, "line.elements: together they are 2024.32 m long, 1024.32 m more than the 1000 m", "MaxKept"},
		"too many outlines":       {[]string{`"vehicles": [`, many, `"straight": "2.2 m"`, `"straight": "900 m"`}, "vehicles: 4 with their bands are too many for a line of 924.318 m", "MaxKept"},
		"one item twice":          {[]string{bars, bars + ", " + bars}, `shop[6].item: the price of "rail bars" stands twice`, "order"},
		"an empty pack":           {[]string{bars, price(`"holds": 1`, `"holds": 0`)}, "shop[5].holds: 0: must be at least 0.001", "1073741824"},
		"too much in reserve":     {[]string{`"reserve": 0.02`, `"reserve": 2`}, "shop[7].reserve: 2: must be at most 1", "order"},
		"two currencies":          {[]string{bars, price("EUR", "GBP")}, `shop[5].price.currency: "GBP" must be that of the other prices, "EUR"`, "order"},
		"two kinds of places":     {[]string{bars, price(`"places": 2`, `"places": 3`)}, "shop[5].price.places: 3 must be that of the other prices, 2", "order"},
		"a price below nothing":   {[]string{bars, price("410", "-410")}, "shop[5].price.minor: -410", "order"},
		"posts without levels":    {[]string{`"levels": [`, `"note": [`}, "trackbed.decks[1]: without levels", "shop"},
		"levels past the end":     {[]string{`"at": "26.5 m"`, `"at": "265 m"`}, "levels[4].at: 265 m is past the end", ": ["},
		"cement for nothing":      {[]string{`"concrete": [`, `"note": [`}, "shop[1].item: nothing takes cement: bed.bond with cement would, or trackbed.concrete", "sand"},
		"two forms":               {[]string{`"straight": "2.6 m"`, `"straight": "2.6 m", "bend": "left"`}, "line.elements[3]: must have only one of straight, bend or easement, not straight and bend", "must have one"},
		"play that is none":       {[]string{`"play": "0.4 mm"`, `"play": "8.1 mm"`}, "allowances.play: 8.1 mm must be at most a quarter of the gauge, 8 mm", "vehicles"},
		"axles in one place":      {[]string{`[{"ahead": "6 mm"}]`, `[{"ahead": "6 mm"}, {"ahead": "0 mm"}, {"ahead": "6 mm"}]`}, "vehicles[2].inner_axles[3].ahead: 6 mm: there is an axle already", "clearance"},
		"an axle on an outer one": {[]string{`[{"ahead": "6 mm"}]`, `[{"ahead": "-48 mm"}]`}, "vehicles[2].inner_axles[1].ahead: -48 mm: there is an outer axle", "axles[2]"},
		"a saw as wide as a bar":  {[]string{`"kerf": "1 mm"`, `"kerf": "900 mm"`}, "rail.kerf: 900 mm must be at most 10 mm", "deck"},
		"a saw as wide as a post": {[]string{`"kerf": "2 mm"`, `"kerf": "11 mm"`}, "trackbed.decks[1].kerf: 11 mm must be at most 10 mm", "rail"},
		"inches, of the plan":     {[]string{`"gauge": "32 mm"`, `"inches": true, "gauge": "32 mm"`, `"panel": "1 m"`, `"panel": "72 in"`}, "rail.panel: 72 in must not be longer than the bar of 39 3/8 in", " mm"},
		"inches, of a package":    {[]string{`"gauge": "32 mm"`, `"inches": true, "gauge": "32 mm"`, `"width": "110 mm", "margin"`, `"width": "80 mm", "margin"`}, "must be more than the sleeper and both margins, 3 47/64 in", " mm"},
		"inches, of the reading":  {[]string{`"gauge": "32 mm"`, `"inches": true, "gauge": "32 mm"`, `"margin": "6 mm"`, `"margin": "-1 in"`}, "margin: -1.000 in: must not be negative", " mm"},
		"degrees in Fahrenheit":   {[]string{`"gauge": "32 mm"`, `"inches": true, "gauge": "32 mm"`, `"laying": "17 °C"`, `"laying": "212 °F"`}, "rail.laying: 212 °F must be within the climate, 10 °F to 118 °F", "°C"},
		"inches, what is quoted":  {[]string{`"gauge": "32 mm"`, `"inches": true, "gauge": "32 mm"`, `"kind": "post"`, `"kind": "25 mm post"`}, `"25 mm post" is none of`, " in post"},
	} {
		_, err := makeBook(t.Context(), []byte(edited(t, c.edits...)))
		if err == nil || !strings.Contains(err.Error(), c.want) || strings.Contains(err.Error(), c.not) {
			t.Errorf("%s: %v, want %q and no %q", name, err, c.want, c.not)
		}
	}
	if _, err := makeBook(t.Context(), []byte(edited(t, `"gauge": "32 mm"`, `"inches": true, "gauge": "32 mm"`, `"posts": ["600 mm", "900 mm"]`, `"posts": ["300 mm"]`))); !errors.Is(err, measure.ErrNoAnswer) {
		t.Errorf("in inches %v is no longer of its kind", err)
	}
}

// What a circuit may miss its start by has its key and its limit.
func TestClosesWithin(t *testing.T) {
	circuit, err := os.ReadFile("plans/circuit.json")
	if err != nil {
		t.Fatal(err)
	}
	metric := strings.Replace(string(circuit), `"inches": true,`, "", 1)
	if metric == string(circuit) {
		t.Fatal("the circuit is in inches no longer")
	}
	for within, want := range map[string]string{
		"1000 m": "line.closes_within: 1000 m: what a circuit misses its start by is spread over its length, and that may be a thousandth of it at most, 25.5 mm",
		"1 mm":   "line.closes_within: curve: end of the circuit",
	} {
		plan := strings.Replace(metric, `"closes_within": "1/32 in"`, `"closes_within": "`+within+`"`, 1)
		if within == "1 mm" {
			plan = strings.Replace(plan, `"straight": "7 ft"`, `"straight": "7 ft 1 in"`, 1)
		}
		if _, err := makeBook(t.Context(), []byte(plan)); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("within %s: %v, want %q", within, err, want)
		}
	}
}
