package main

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/gauge/measure"
)

// table returns a table of a plan's book.
func table(t *testing.T, plan, name string) Table {
	t.Helper()
	book, err := makeBook(t.Context(), []byte(plan))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range book.Chapters {
		for _, x := range c.Tables {
			if x.Name == name {
				return x
			}
		}
	}
	t.Fatalf("the book has no table %s", name)
	return Table{}
}

func edited(t *testing.T, pairs ...string) string {
	t.Helper()
	plan := string(demo)
	for i := 0; i < len(pairs); i += 2 {
		if !strings.Contains(plan, pairs[i]) {
			t.Fatalf("the demo has no %q", pairs[i])
		}
		plan = strings.ReplaceAll(plan, pairs[i], pairs[i+1])
	}
	return plan
}

// The radius that the tunnel admits is the one that its cure is to be eased to.
func TestLeastRadiusIsTheCure(t *testing.T) {
	want := findings(t, string(demo))["Hollow Tunnel"].Remedy.EaseTo
	for _, row := range table(t, string(demo), "least-radii").Rows {
		if row[0] == "Hollow Tunnel" {
			if got := row[2].(measure.Length); math.Abs(float64(got/want-1)) > 0.002 {
				t.Errorf("least radius %v, cured by %v", got, want)
			}
			return
		}
	}
	t.Error("the tunnel has no least radius")
}

// A vehicle as wide as the book says it may be has the margin at everything, and
// only just.
func TestWidestFits(t *testing.T) {
	row := table(t, string(demo), "widest").Rows[0]
	width := row[2].(measure.Length)
	f := width / (112 * measure.Millimetre)
	plan := edited(t, `"width": "112 mm"`, `"width": "`+width.String()+`"`, `"end_width": "96 mm"`, `"end_width": "`+(96*f).String()+`"`)
	// The other vehicle out of the way.
	plan = strings.ReplaceAll(plan, `"width": "104 mm"`, `"width": "60 mm"`)
	least := measure.Length(1e9)
	for name, x := range findings(t, plan) {
		if x.Kind != clearance.NeighbouringTrack {
			if least = min(least, x.Gap); x.Gap < 6-0.25 {
				t.Errorf("%s: gap %v below the margin of 6 mm", name, x.Gap)
			}
		}
	}
	if least > 6+0.25 {
		t.Errorf("the least gap is %v, more than the margin of 6 mm", least)
	}
}

// Too short an easement between curves of opposite hand is told; so is no
// straight where there is no easement.
func TestReversalsTold(t *testing.T) {
	whole := table(t, string(demo), "reversals").Rows[0]
	need := whole[6].(measure.Length)
	if whole[5] != "clothoid easements" || whole[8] != "enough" || need < 5 || need > 400 || whole[7] != 450*measure.Millimetre {
		t.Errorf("as drawn: %v", whole)
	}
	for ease, verdict := range map[measure.Length]string{need - 1: "too short", need + 1: "enough"} {
		short := edited(t, `"ease": "450 mm"`, `"ease": "`+ease.String()+`"`, "26.5 m", "25.5 m", "26.4 m", "25.4 m")
		if row := table(t, short, "reversals").Rows[0]; row[8] != verdict || math.Abs(float64(row[6].(measure.Length)-need)) > 1e-3 {
			t.Errorf("easements of %v: %v", ease, row)
		}
	}
	plain := table(t, edited(t, `, "ease": "450 mm"`, ``, "26.5 m", "25.5 m", "26.4 m", "25.4 m"), "reversals").Rows[0]
	if plain[5] != "a straight" || plain[7] != measure.Length(0) || plain[8] != "too short" {
		t.Errorf("without easements: %v", plain)
	}
}

// The widening is the middle axle's versine less the play.
func TestWideningInBook(t *testing.T) {
	row := table(t, string(demo), "widening").Rows[0]
	const r, a, x = 1200, 96, 6
	want := r - math.Sqrt(r*r-a*a/4+x*x)
	if math.Abs(float64(row[3].(measure.Length))-want) > 1e-9 || math.Abs(float64(row[4].(measure.Length))-(want-0.8)) > 1e-9 {
		t.Errorf("%v, want %v inside and %v of widening", row, want, want-0.8)
	}
}

func TestInnerAxlesOfBogieVehicle(t *testing.T) {
	plan := edited(t, `"bogie_centres": "320 mm"`, `"bogie_centres": "320 mm", "inner_axles": [{"ahead": "0 mm"}]`)
	if _, err := makeBook(t.Context(), []byte(plan)); err == nil || !strings.Contains(fmt.Sprint(err), "inner_axles: only for a rigid vehicle") {
		t.Error(err)
	}
}

// Under a roof that is lower than the stock no width is right: the table says
// what is wanting in a few words, and where.
func TestNoWidthDoes(t *testing.T) {
	low := edited(t, `"right": "76 mm", "height": "200 mm"`, `"right": "76 mm", "height": "150 mm"`)
	row := table(t, low, "widest").Rows[0] // the coach is 165 mm high, and leans
	tunnel := findings(t, low)["Hollow Tunnel"]
	if !tunnel.Upright || tunnel.Gap > -15 {
		t.Fatalf("the tunnel has a gap of %v, upright %v", tunnel.Gap, tunnel.Upright)
	}
	why, _ := row[3].(string)
	if row[2] != "-" || !strings.HasPrefix(why, "none: Hollow Tunnel still lacks ") || !strings.HasSuffix(why, " mm in height") || len(why) > 60 {
		t.Errorf("%q, limited by %q", row[2], why)
	}
	if at, ok := row[4].(measure.Length); !ok || at < 18900 || at > 20100 {
		t.Errorf("at %v", row[4])
	}
	none := table(t, edited(t, `"structures": [`, `"structures": [{"name": "far pole", "kind": "post", "at": "16 m", "side": "left", "offset": "9 m"}], "note": [`), "widest").Rows[0]
	if none[3] != "nothing that stands here" {
		t.Errorf("limited by %q", none[3])
	}
}
