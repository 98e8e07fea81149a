package export_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/export"
	"example.org/fourfoot/gauge/measure"
)

func TestLineComesBackBitForBit(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	lines := []*curve.Alignment{snake(t, false), snake(t, true), oval(t, 0), oval(t, 3)}
	for range 300 {
		lines = append(lines, random(t, rng))
	}
	for n, line := range lines {
		data := must[[]byte](t)(export.WriteLine(line))
		back, err := export.ReadLine(data)
		if err != nil {
			t.Fatalf("line %d: %v\n%s", n, err, data)
		}
		if back.Start() != line.Start() || back.Closed() != line.Closed() || !slices.Equal(back.Elements(), line.Elements()) {
			t.Fatalf("line %d came back changed:\n%s", n, data)
		}
		for range 5 {
			s := measure.Length(rng.Float64()) * line.Length()
			if a, b := line.At(s), back.At(s); a != b {
				t.Fatalf("line %d at %v: %v, read back %v", n, s, a, b)
			}
		}
		if again := must[[]byte](t)(export.WriteLine(back)); string(again) != string(data) {
			t.Fatalf("line %d written again differs", n)
		}
	}
}

// A lath between two poses, its parts and their mirror images come back too.
func TestLathBetweenComesBackBitForBit(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	made := 0
	for range 40 {
		end := curve.Pose{Point: r2.Vec{X: 500 + 1000*rng.Float64(), Y: 300 * rng.NormFloat64()}, Heading: measure.Angle(0.8 * rng.NormFloat64())}
		e, err := curve.NewLathBetween(curve.Pose{}, end, measure.Length(r2.Norm(end.Point)*(1.01+0.2*rng.Float64())))
		if err != nil {
			continue
		}
		made++
		part := must[curve.Element](t)(e.Part(e.Length()/5, e.Length()/2))
		line := must[*curve.Alignment](t)(curve.New(curve.Pose{Heading: 1}, e, part.WithKink(0.01), e.Reverse(), part.Reverse(), e.Mirror()))
		data := must[[]byte](t)(export.WriteLine(line))
		back, err := export.ReadLine(data)
		if err != nil {
			t.Fatalf("%v\n%s", err, data)
		}
		if !slices.Equal(back.Elements(), line.Elements()) || back.End() != line.End() {
			t.Fatalf("came back changed:\n%s", data)
		}
		half := strings.Replace(string(data), `"across"`, `"away"`, 1)
		if _, err := export.ReadLine([]byte(half)); !errors.Is(err, measure.ErrInput) {
			t.Fatalf("without across: %v", err)
		}
	}
	if made < 8 {
		t.Errorf("only %d laths made", made)
	}
}

// A circuit with a misclosure to spread is closed again from its elements.
func TestMisclosedCircuit(t *testing.T) {
	arc := must[curve.Element](t)(curve.NewArc(1000, 2*math.Pi*0.99999, curve.Left))
	line := must[*curve.Alignment](t)(curve.NewClosed(curve.Pose{Heading: 1}, 0.5, 0.1, arc))
	data := must[[]byte](t)(export.WriteLine(line))
	back, err := export.ReadLine(data)
	if err != nil {
		t.Fatalf("%v\n%s", err, data)
	}
	for s := measure.Length(0); s < line.Length(); s += 300 {
		if a, b := line.At(s), back.At(s); a != b {
			t.Errorf("at %v: %v, read back %v", s, a, b)
		}
	}
	part := must[*curve.Alignment](t)(line.Part(100, 5000))
	if _, err := export.WriteLine(part); !errors.Is(err, measure.ErrInput) || !strings.Contains(err.Error(), "circuit") {
		t.Errorf("a part of it: %v", err)
	}
}

func TestReadLineByHand(t *testing.T) {
	line := must[*curve.Alignment](t)(export.ReadLine([]byte(`{
		"start": {"east": "1 m", "north": "2 ft", "heading": "90°"},
		"elements": [
			{"form": "straight", "length": "3ft 6in"},
			{"form": "bloss", "length": "80 cm", "curvature": "straight", "to": "R 3 m left"},
			{"form": "arc", "curvature": "R 3 m left", "turn": "30°"},
			{"form": "cubic parabola", "abscissa": "500 mm", "curvature": "R 3 m left", "to": "straight"},
			{"form": "lath", "abscissa": "500 mm", "curvature": "straight", "to": "R 3 m left"},
			{"form": "straight", "length": "0.1 m"},
			{"kink": "0°30'", "form": "arc", "curvature": "R 3 m right", "length": "500 mm"}
		]}`)))
	e := line.Elements()
	near(t, "length", float64(e[0].Length()+e[1].Length()+e[2].Length()+e[6].Length()), 1066.8+800+3000*math.Pi/6+500, 1e-9)
	// The cubic parabola ends at a slope of X/2R, the lath at a sine of it.
	turn := 800.0/6000 + math.Atan(500.0/6000) + math.Asin(500.0/6000) - 500.0/3000
	near(t, "heading", float64(line.End().Heading.Degrees()), 90+30+0.5+turn*180/math.Pi, 1e-9)
	data := string(must[[]byte](t)(export.WriteLine(line)))
	if strings.Count(data, `"abscissa": "500 mm"`) != 2 || strings.Contains(data, "rate") || !strings.Contains(data, `"turn": "30°"`) {
		t.Errorf("not written as it was read:\n%s", data)
	}
}

func TestReadLineRefuses(t *testing.T) {
	file := func(elements string) string {
		return `{"start":{"east":"0 mm","north":"0 mm","heading":"0°"},"elements":[` + elements + `]}`
	}
	for _, tt := range []struct{ name, file, want string }{
		{"empty", "", "ends before"},
		{"not JSON", "line", "byte"},
		{"cut off", `{"start":`, "ends before"},
		{"unknown key", strings.Replace(file(""), "east", "easting", 1), `"easting"`},
		{"unknown key of an element", file(`{"form":"straight","length":"1 m","radius":"3 m"}`), `"radius"`},
		{"no unit", file(`{"form":"straight","length":"1000"}`), "length"},
		{"number", file(`{"form":"straight","length":1000}`), "length"},
		{"no start", `{"elements":[{"form":"straight","length":"1 m"}]}`, "start"},
		{"no north", strings.Replace(file(`{"form":"straight","length":"1 m"}`), `"north":"0 mm",`, "", 1), "must have east, north and heading"},
		{"no start heading", strings.Replace(file(`{"form":"straight","length":"1 m"}`), `,"heading":"0°"`, "", 1), "must have east, north and heading"},
		{"no elements", file(""), "elements"},
		{"curvature of a straight", file(`{"form":"straight","length":"1 m","curvature":"R 3 m left"}`), "curvature"},
		{"arc that goes to", file(`{"form":"arc","length":"1 m","curvature":"R 3 m left","to":"straight"}`), "to"},
		{"arc without curvature", file(`{"form":"arc","length":"1 m"}`), "curvature: must be given"},
		{"parabola without abscissa", file(`{"form":"cubic parabola","length":"1 m","curvature":"straight","to":"R 3 m left"}`), "abscissa"},
		{"rate of a clothoid", file(`{"form":"clothoid","length":"1 m","curvature":"straight","to":"R 3 m left","rate":"1 /mm²"}`), "rate"},
		{"form", file(`{"form":"spiral","length":"1 m"}`), `"spiral"`},
		{"missing", file(`{"form":"bloss","length":"1 m"}`), "curvature"},
		{"not for it", file(`{"form":"straight","length":"1 m","turn":"3°"}`), "turn"},
		{"both", file(`{"form":"arc","length":"1 m","turn":"3°","curvature":"R 3 m left"}`), "length"},
		{"lath without straight", file(`{"form":"lath","abscissa":"1 m","curvature":"R 3 m left","to":"R 2 m left"}`), "one straight"},
		{"lath too long", file(`{"form":"lath","abscissa":"7 m","curvature":"straight","to":"R 3 m left"}`), "stand square"},
		{"rate", file(`{"form":"lath","length":"1 m","of":"1 m","from":"0 mm","rate":"3"}`), "rate"},
		{"rate too large", file(`{"form":"lath","length":"1 m","of":"1 m","from":"0 mm","rate":"1e300 /mm²"}`), "rate"},
		{"straight arc", file(`{"form":"arc","turn":"3°","curvature":"straight"}`), "straight"},
		{"negative", file(`{"form":"straight","length":"1 m"},{"form":"straight","length":"-1 m"}`), "element 2"},
		{"part beyond", file(`{"form":"bloss","length":"1 m","from":"0.5 m","of":"1.2 m","curvature":"straight","to":"R 3 m left"}`), "end of the part"},
		{"kink", file(`{"form":"straight","length":"1 m","kink":"200°"}`), "kink"},
		{"not closing", `{"closing":{"gap":"1 mm","turn":"1°"},` + file(`{"form":"straight","length":"1 m"}`)[1:], "1000.000 mm"},
		{"more after it", file(`{"form":"straight","length":"1 m"}`) + "{}", "goes on"},
	} {
		line, err := export.ReadLine([]byte(tt.file))
		if !errors.Is(err, measure.ErrInput) || !strings.Contains(err.Error(), tt.want) || line != nil {
			t.Errorf("%s: error %v, want ErrInput that says %q", tt.name, err, tt.want)
		}
	}
	if _, err := export.ReadLine(make([]byte, export.MaxFile+1)); !errors.Is(err, measure.ErrLimit) {
		t.Errorf("a file too large: %v", err)
	}
	if _, err := export.WriteLine(nil); !errors.Is(err, measure.ErrInput) {
		t.Errorf("no line: %v", err)
	}
}

// What is read can be written, and read again as the same line.
func FuzzReadLine(f *testing.F) {
	for _, line := range []*curve.Alignment{snake(f, false), oval(f, 2)} {
		data, err := export.WriteLine(line)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		line, err := export.ReadLine(data)
		if err != nil {
			if line != nil || !errors.Is(err, measure.ErrInput) && !errors.Is(err, measure.ErrLimit) {
				t.Fatalf("error of no kind: %v", err)
			}
			return
		}
		again, err := export.WriteLine(line)
		if err != nil {
			t.Fatal(err)
		}
		back, err := export.ReadLine(again)
		if err != nil || !slices.Equal(back.Elements(), line.Elements()) || back.Start() != line.Start() {
			t.Fatalf("read, written and read again: %v\n%s", err, again)
		}
	})
}
