package main

import (
	"bytes"
	"encoding/csv"
	"encoding/xml"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"example.org/fourfoot/clearance"
)

func readDir(t *testing.T, dir string) map[string][]byte {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	files := map[string][]byte{}
	for _, e := range entries {
		if files[e.Name()], err = os.ReadFile(filepath.Join(dir, e.Name())); err != nil {
			t.Fatal(err)
		}
	}
	return files
}

func plans(t testing.TB) map[string][]byte {
	circuit, err := os.ReadFile("plans/circuit.json")
	if err != nil {
		t.Fatal(err)
	}
	return map[string][]byte{"demo": demo, "circuit": circuit}
}

// Everything that -out writes can be read by what will read it.
func TestFiles(t *testing.T) {
	for name, plan := range plans(t) {
		t.Run(name, func(t *testing.T) {
			dir := filepath.Join(t.TempDir(), "new", "folder")
			status, stdout, stderr := call("-out", dir, planFile(t, string(plan)))
			if status != 0 || stderr != "" {
				t.Fatalf("status %d: %s", status, stderr)
			}
			for _, bad := range []string{"NaN", "Inf", "%!", "<nil>"} {
				if strings.Contains(stdout, bad) {
					t.Errorf("the book says %q", bad)
				}
			}
			files := readDir(t, dir)
			count := map[string]int{}
			for file, data := range files {
				count[filepath.Ext(file)]++
				switch filepath.Ext(file) {
				case ".csv":
					rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
					if err != nil || len(rows) < 2 {
						t.Errorf("%s: %d rows, %v", file, len(rows), err)
					}
				case ".svg":
					wellFormed(t, file, data)
				}
			}
			if count[".html"] != 1 || count[".csv"] < 10 || count[".svg"] < 6 {
				t.Errorf("files written: %v", count)
			}
			page := string(files["laying-book.html"])
			if strings.Count(page, "<svg") != count[".svg"] {
				t.Errorf("the page has %d drawings, the folder %d", strings.Count(page, "<svg"), count[".svg"])
			}
			for _, outside := range []string{"src=", "@import", "url(http", "<script", "<link"} {
				if strings.Contains(page, outside) {
					t.Errorf("the page is not self-contained: it has %s", outside)
				}
			}
		})
	}
}

func wellFormed(t *testing.T, file string, data []byte) {
	t.Helper()
	dec := xml.NewDecoder(bytes.NewReader(data))
	elements := 0
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			break
		} else if err != nil {
			t.Errorf("%s: %v", file, err)
			return
		}
		if _, ok := tok.(xml.StartElement); ok {
			elements++
		}
	}
	if elements < 10 {
		t.Errorf("%s: only %d elements", file, elements)
	}
}

// The picture that the README shows is the one that the command draws.
func TestReadmePicture(t *testing.T) {
	book, err := makeBook(t.Context(), demo)
	if err != nil {
		t.Fatal(err)
	}
	want, err := os.ReadFile("testdata/plan.svg")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range book.Chapters {
		for _, f := range c.Lead {
			if f.Name == "plan" {
				if f.SVG != string(want) {
					t.Error("testdata/plan.svg is not the plan as drawn: copy it from what -out writes")
				}
				return
			}
		}
	}
	t.Error("the book has no plan")
}

// As first drawn the demo's tunnel is foul. The book says what would cure it,
// and each cure that it names does: fed back into the plan it gives the margin.
func TestDemoIsFoulAndCurable(t *testing.T) {
	first := findings(t, string(demo))
	tunnel := first["Hollow Tunnel"]
	if tunnel.Verdict != clearance.Foul || tunnel.Gap >= 0 {
		t.Fatalf("the tunnel is %v with a gap of %v, want foul", tunnel.Verdict, tunnel.Gap)
	}
	wider := strings.Replace(string(demo), `"left": "68 mm"`, `"left": "`+(68+tunnel.Remedy.WidenBy+0.001).String()+`"`, 1)
	if got := findings(t, wider)["Hollow Tunnel"]; got.Verdict == clearance.Foul {
		t.Errorf("widened by %v the tunnel is still %v with a gap of %v", tunnel.Remedy.WidenBy, got.Verdict, got.Gap)
	} else if off := got.Gap - 6; off < -0.3 || off > 0.3 {
		t.Errorf("widened by %v the tunnel has a gap of %v, want the margin of 6 mm", tunnel.Remedy.WidenBy, got.Gap)
	}
}

func findings(t *testing.T, plan string) map[string]clearance.Finding {
	t.Helper()
	p := &Plan{}
	if err := decodePlan([]byte(plan), p); err != nil {
		t.Fatal(err)
	}
	s := &site{plan: p}
	if err := s.lay(); err != nil {
		t.Fatal(err)
	}
	_, all, err := s.audit(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]clearance.Finding{}
	for _, f := range all {
		out[f.Structure] = f
	}
	return out
}

// BenchmarkDemoBook is the whole demo book with everything computed at a
// tolerance of 0.1 mm; drawings are part of it here.
func BenchmarkDemoBook(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := makeBook(b.Context(), demo); err != nil {
			b.Fatal(err)
		}
	}
}
