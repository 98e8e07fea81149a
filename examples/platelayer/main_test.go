package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// call runs the command as the shell would.
func call(args ...string) (status int, stdout, stderr string) {
	var out, err bytes.Buffer
	status = run(args, &out, &err)
	return status, out.String(), err.String()
}

// planWith writes the demo plan with one piece of it replaced.
func planWith(t *testing.T, old, new string) string {
	t.Helper()
	if n := strings.Count(string(demo), old); n != 1 {
		t.Fatalf("the demo plan holds %q %d times, want once", old, n)
	}
	return planFile(t, strings.Replace(string(demo), old, new, 1))
}

func planFile(t *testing.T, text string) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "plan.json")
	if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return name
}

func TestBadPlans(t *testing.T) {
	many := `"elements": [` + strings.Repeat(`{"straight": "1 m"},`, 20_000)
	tests := []struct {
		name, old, new string
		want           []string // each must stand in the message
	}{
		{"not a number", `"radius": "1.8 m"`, `"radius": "NaN m"`, []string{"line.elements[2].radius", "NaN"}},
		{"negative radius", `"radius": "1.8 m"`, `"radius": "-1.8 m"`, []string{"line.elements[2]", "radius", "-1800 mm", "must be more than 0 mm"}},
		{"zero length", `"straight": "2.6 m"`, `"straight": "0 m"`, []string{"line.elements[3]", "straight"}},
		{"negative length", `"straight": "2.6 m"`, `"straight": "-2.6 m"`, []string{"line.elements[3]", "-2600 mm"}},
		{"two forms in one element", `"straight": "2.6 m"`, `"straight": "2.6 m", "bend": "left"`, []string{"line.elements[3]", "one of straight, bend or easement"}},
		{"easements longer than the bend", `"turn": "50°", "ease": "500 mm"`, `"turn": "50°", "ease": "5 m"`, []string{"line.elements[9]", "must be at least"}},
		{"no unit", `"margin": "6 mm"`, `"margin": 6`, []string{"margin", "6 has no unit"}},
		{"no unit in text", `"margin": "6 mm"`, `"margin": "6"`, []string{"margin", "unit"}},
		{"ambiguous comma", `"straight": "5 m"`, `"straight": "5,000 mm"`, []string{"line.elements[1].straight", "5,000"}},
		{"unknown key", `"margin": "6 mm"`, `"margins": "6 mm"`, []string{"margins: unknown key", "margin: missing"}},
		{"unknown key deep", `"large": "4 mm"`, `"large": "4 mm", "colour": "grey"`, []string{"bed.grit.colour: unknown key", "loose_density"}},
		{"a key twice", `"margin": "6 mm"`, `"margin": "6 mm", "margin": "7 mm"`, []string{"margin: stands twice"}},
		{"pivots outside the body", `"bogie_centres": "320 mm"`, `"bogie_centres": "520 mm"`, []string{"bogie coach", "260 mm", "within the body"}},
		{"pivots that cannot both stand", `"bogie_centres": "320 mm"`, `"bogie_centres": "3.2 m"`, []string{"bogie coach"}},
		{"temperatures the wrong way round", `"rail_high": "48 °C"`, `"rail_high": "-20 °C"`, []string{"climate", "-20"}},
		{"unknown material", `"material": "nickel silver"`, `"material": "cheese"`, []string{"cheese", "brass"}},
		{"neither bogies nor wheelbase", `"wheelbase": "96 mm"`, `"wheelbase": "0 mm"`, []string{"vehicles[2].wheelbase", "must be more than 0 mm"}},
		{"too many elements", `"elements": [`, many, []string{"10000"}},
		{"a hand that is none", `"turn": "100°"`, `"turn": "100°", "hand": "up"`, []string{"line.elements[2].hand", `"up"`}},
		{"shape that is none", `"shape": "bloss"`, `"shape": "bent"`, []string{"line.elements[9].shape", "bloss"}},
		{"structure past the end", `"to": "26.4 m"`, `"to": "27.4 m"`, []string{"quarry face", "27.4 m"}},
		{"structure without a face", `"side": "left", "offset": "82 mm"`, `"offset": "82 mm"`, []string{"lamp post", "side"}},
		{"keys of another kind", `"left": "68 mm", "right": "76 mm", "height"`, `"side": "left", "offset": "72 mm", "height"`, []string{"Hollow Tunnel", "side: not for a tunnel", "left: missing"}},
		{"unknown kind", `"kind": "overbridge"`, `"kind": "viaduct"`, []string{"structures[8].kind", "viaduct", "overbridge"}},
		{"loop not on a straight", `"from": "350 mm", "to": "4.45 m", "side"`, `"from": "350 mm", "to": "6.5 m", "side"`, []string{"station loop"}},
		{"loop too short for its curves", `"from": "350 mm", "to": "4.45 m", "side"`, `"from": "350 mm", "to": "950 mm", "side"`, []string{"station loop"}},
		{"levels not in order", `"at": "17 m"`, `"at": "3 m"`, []string{"levels"}},
		{"sleeper longer than the pitch allows", `"width": "14 mm"`, `"width": "140 mm"`, []string{"sleeper"}},
		{"unknown item", `"item": "fixings"`, `"item": "nails"`, []string{"shop[8].item", "nails"}},
		{"negative price", `"minor": 560`, `"minor": -560`, []string{"bed.grit.bags"}},
		{"price with a fraction", `"minor": 560`, `"minor": 5.6`, []string{"price.minor", "whole number"}},
		{"tunnel without a wall", `"left": "68 mm", "right"`, `"right"`, []string{"Hollow Tunnel", "left: missing for a tunnel"}},
		{"wall without an offset", `"offset": "84 mm", "top": "250 mm"`, `"top": "250 mm"`, []string{"herb bed wall", "offset: missing"}},
		{"post without a place", `"at": "15.6 m", `, ``, []string{"lamp post", "at: missing"}},
		{"height of a platform", `"top": "28 mm"`, `"top": "28 mm", "height": "30 mm"`, []string{"station platform", "height: not for a platform edge"}},
		{"negative width", `"width": "112 mm"`, `"width": "-112 mm"`, []string{"vehicles[1].width", "must be more than 0 mm"}},
		{"no widest gap", `"widest_gap": "4 mm"`, `"widest_gap": "0 mm"`, []string{"rail.widest_gap"}},
		{"beyond any garden", `"laying": "1.5 mm"`, `"laying": "1e300 mm"`, []string{"allowances.laying", "more than 10000 m"}},
		{"laid hotter than the climate", `"laying": "17 °C"`, `"laying": "70 °C"`, []string{"rail.laying", "within the climate"}},
		{"pitch below the sleeper's width", `"pitch": "42 mm"`, `"pitch": "4.2 mm"`, []string{"rail.sleeper.pitch"}},
		{"radius of a straight", `"straight": "1.8 m"`, `"straight": "1.8 m", "radius": "2 m"`, []string{"line.elements[6]", "radius: not for a straight"}},
		{"bend without a turn", `"turn": "50°", `, ``, []string{"line.elements[9]", "turn: missing"}},
		{"a name twice", `"name": "lamp post"`, `"name": "footbridge"`, []string{"footbridge", "stands twice"}},
		{"a name without a letter", `"name": "lamp post"`, `"name": "  "`, []string{"structures[7].name", "must not be empty"}},
		{"a name that moves the cursor", `"name": "lamp post"`, `"name": "lamp\u001b[31m post"`, []string{"structures[7].name", "do not print"}},
		{"level past the end", `"at": "26.5 m"`, `"at": "265 m"`, []string{"levels", "265 m", "past the end"}},
		{"loose bed without a bond", `"gaps": [`, `"loose": [{"name": "x", "from": "1 m", "to": "2 m"}], "gaps": [`, []string{"bed.loose"}},
		{"circuit's key on an open line", `"heading": "0°",`, `"heading": "0°", "closes_within": "2 mm",`, []string{"line.closes_within"}},
		{"points that overlap", `"from": "4 m", "to": "4.45 m"}]`, `"from": "700 mm", "to": "1.1 m"}]`, []string{"points[2]", "runs into points[1], from 350 mm to 800 mm"}},
		{"points past the end", `"from": "4 m", "to": "4.45 m"}]`, `"from": "4 m", "to": "44.5 m"}]`, []string{"points[2]", "past the end"}},
		{"hinge beyond the middle", `"hinge": "12 mm"`, `"hinge": "240 mm"`, []string{"vehicles[1].coupling.hinge", "half the body of 480 mm"}},
		{"coupler that swings round", `"hinge": "12 mm", "length": "34 mm", "swing": "20°"`, `"hinge": "12 mm", "length": "34 mm", "swing": "100°"`, []string{"vehicles[1].coupling.swing", "90°"}},
		{"buffers at one of two", `"hinge": "12 mm", `, `"hinge": "12 mm", "buffers": {"length": "5 mm", "width": "10 mm"}, `, []string{"vehicles[2].coupling.buffers"}},
		{"loop past the end", `"from": "350 mm", "to": "4.45 m", "side"`, `"from": "350 mm", "to": "44.5 m", "side"`, []string{"loops[1]", "past the end"}},
		{"joiner held by more than half", `"held": "9 mm"`, `"held": "16 mm"`, []string{"rail.held", "half the joiner"}},
		{"panel longer than a bar", `"panel": "1 m"`, `"panel": "2 m"`, []string{"rail.panel"}},
		{"too much cant", `"cant": "1 mm"`, `"cant": "17 mm"`, []string{"line.elements[2].cant"}},
		{"platform that ends before it begins", `"from": "1.2 m", "to": "3.4 m"`, `"from": "1.2 m", "to": "1.1 m"`, []string{"structures[3]", "to: 1100 mm lies before from, 1200 mm"}},
		{"platform upside down", `"bottom": "0 mm", "top": "28 mm"`, `"bottom": "38 mm", "top": "28 mm"`, []string{"structures[3]", "top: 28 mm"}},
		{"springs", `"springs": "0.5°"`, `"springs": "50°"`, []string{"allowances.springs"}},
		{"inner axle outside", `"ahead": "6 mm"`, `"ahead": "60 mm"`, []string{"vehicles[2]", "inner axle", "48 mm"}},
		{"no bags", `"bags": [`, `"bags": [], "note": [`, []string{"bed.grit.bags"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			status, stdout, stderr := call(planWith(t, tt.old, tt.new))
			if status != 2 || stdout != "" {
				t.Errorf("status %d, printed %d bytes, want 2 and nothing", status, len(stdout))
			}
			for _, want := range tt.want {
				if !strings.Contains(stderr, want) {
					t.Errorf("message lacks %q:\n%s", want, stderr)
				}
			}
			for _, line := range strings.Split(stderr, "\n") {
				if len(line) > 600 {
					t.Errorf("a line of %d bytes is no plain sentence:\n%.300s…", len(line), line)
				}
			}
		})
	}
}

func TestBadFiles(t *testing.T) {
	for _, tt := range []struct{ name, text, want string }{
		{"nothing", "", "the file ends before the plan does"},
		{"cut off", `{"name": "x"`, "the file ends before the plan does"},
		{"empty plan", "{}", "line: missing"},
		{"a list", "[]", "the plan: must be an object"},
		{"two plans", "{} {}", "something follows"},
		{"not JSON", "{\n\nname: 1}", "line 3"},
		{"deep", strings.Repeat("[", 1000), "nested deeper"},
		{"null", "null", "the plan: must be an object"},
		{"a mark at the beginning", "\ufeff{}", "line: missing"},
	} {
		status, stdout, stderr := call(planFile(t, tt.text))
		if status != 2 || stdout != "" || !strings.Contains(stderr, tt.want) {
			t.Errorf("%s: status %d, stdout %q, stderr %q, want 2 and %q", tt.name, status, stdout, stderr, tt.want)
		}
	}
	if status, _, stderr := call(filepath.Join(t.TempDir(), "none.json")); status != 2 || !strings.Contains(stderr, "none.json") {
		t.Errorf("no such file: status %d, %q", status, stderr)
	}
	if status, _, stderr := call("-colour"); status != 2 || !strings.Contains(stderr, "-colour") {
		t.Errorf("no such flag: status %d, %q", status, stderr)
	}
	if status, _, _ := call("a.json", "b.json"); status != 2 {
		t.Errorf("two plans: status %d, want 2", status)
	}
}

func TestUsageNamesEveryKey(t *testing.T) {
	status, stdout, _ := call("-h")
	if status != 0 {
		t.Errorf("-h: status %d", status)
	}
	for _, key := range []string{"gauge", "elements", "bogie_centres", "structures", "rail_low", "loose_density", "(needed)"} {
		if !strings.Contains(stdout, key) {
			t.Errorf("-h does not tell of %q", key)
		}
	}
}

// All faults come at once, each on a line of its own.
func TestAllFaultsAtOnce(t *testing.T) {
	text := strings.NewReplacer(`"margin": "6 mm"`, `"margin": 6`, `"radius": "1.8 m"`, `"radius": "1.8"`, `"small": "2 mm"`, `"smal": "2 mm"`).Replace(string(demo))
	_, _, stderr := call(planFile(t, text))
	for _, want := range []string{"margin: 6 has no unit", "line.elements[2].radius", "bed.grit.smal: unknown key", "bed.grit.small: missing"} {
		if !strings.Contains(stderr, want) {
			t.Errorf("message lacks %q:\n%s", want, stderr)
		}
	}
}

// Whatever the file holds, reading it ends in a plan or in words.
func FuzzDecodePlan(f *testing.F) {
	f.Add(demo)
	f.Fuzz(func(t *testing.T, data []byte) {
		if err := decodePlan(data, &Plan{}); err != nil && err.Error() == "" {
			t.Error("an error without a word")
		}
	})
}

// A plan with other numbers in it makes a book without a number that is none,
// or is refused in words.
func FuzzBook(f *testing.F) {
	f.Add("1.8 m", "320 mm", "17 °C", "30 mm", "68 mm")
	f.Add("6 in", "1e9 mm", "-40 °F", "0 mm", "1 mm")
	f.Add("1e300 km", "1e-300 mm", "1e9 °C", "-5 mm", "2 km")
	f.Fuzz(func(t *testing.T, radius, centres, laying, depth, offset string) {
		plan := string(demo)
		for old, new := range map[string]string{
			`"radius": "1.8 m"`: radius, `"bogie_centres": "320 mm"`: centres, `"laying": "17 °C"`: laying, `"depth": "30 mm"`: depth, `"left": "68 mm"`: offset,
		} {
			key, _, _ := strings.Cut(old, ": ")
			quoted, err := json.Marshal(new)
			if err != nil || !strings.Contains(plan, old) {
				t.Fatalf("%s: %v", old, err)
			}
			plan = strings.Replace(plan, old, key+": "+string(quoted), 1)
		}
		book, err := makeBook(t.Context(), []byte(plan))
		if err != nil {
			if err.Error() == "" {
				t.Error("an error without a word")
			}
			return
		}
		var out bytes.Buffer
		if err := writeText(&out, book); err != nil {
			t.Error(err)
		}
		for _, bad := range []string{"NaN", "Inf", "%!"} {
			if strings.Contains(out.String(), bad) {
				t.Errorf("the book says %s", bad)
			}
		}
	})
}
