package curve_test

import (
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/reference"
)

// table reads the rows of the table in the package's doc, five numbers each.
func table(t *testing.T) map[string][]float64 {
	t.Helper()
	text, err := os.ReadFile("doc.go")
	if err != nil {
		t.Fatal(err)
	}
	rows := map[string][]float64{}
	for line := range strings.Lines(string(text)) {
		line, ok := strings.CutPrefix(strings.TrimSpace(line), "//	")
		words := strings.Fields(line)
		if n := len(words) - 5; ok && n > 0 && words[n] != "n" {
			var row []float64
			for _, w := range words[n:] {
				if x, err := strconv.ParseFloat(w, 64); err == nil {
					row = append(row, x)
				}
			}
			if len(row) == 5 {
				rows[strings.Join(words[:n], " ")] = row
			}
		}
	}
	return rows
}

// The table in the package's doc, to the digits that it gives.
func TestShapeTable(t *testing.T) {
	doc := table(t)
	if len(doc) != 7 {
		t.Errorf("the doc's table has %d rows, want 7: %v", len(doc), doc)
	}
	const L, R = 30., 10000.
	digits := func(x float64, n int) float64 { p := math.Pow10(n); return math.Round(x*p) / p }
	for _, row := range []struct {
		shape                        curve.Shape
		n, m, peak, length, peakThen float64
	}{
		{curve.Clothoid, 24, 6, 1, 1, 1},
		{curve.Bloss, 40, 6.667, 1.5, 1.291, 1.162},
		{curve.Cosine, 42.23, 6.726, 1.571, 1.327, 1.184},
		{curve.Sine, 61.21, 7.075, 2, 1.597, 1.252},
		{curve.Helmert, 48, 6.857, 2, 1.414, 1.414},
		{curve.CubicParabola, 24, 6, 1, 1, 1},
		{curve.Lath, 24, 6, 1, 1, 1},
	} {
		name := row.shape.String()
		switch row.shape {
		case curve.Bloss:
			name = "Bloss"
		case curve.Sine:
			name = "sine (Klein)"
		case curve.Helmert:
			name = "Helmert"
		}
		if want := []float64{row.n, row.m, row.peak, row.length, row.peakThen}; !slices.Equal(doc[name], want) {
			t.Errorf("the doc says of %s %v, want %v", name, doc[name], want)
		}
		all := must(curve.Bend{Radius: R, Turn: 0.1, Hand: curve.Left, EaseIn: L, Shape: row.shape}.Elements())
		e := all[0]
		a := must(curve.New(curve.Pose{}, e))
		end := a.End()
		n := L * L / R / (end.Point.Y - R*(1-math.Cos(float64(end.Heading))))
		m := L * L / R / end.Point.Y
		peak := 0.0
		for i := range 1001 {
			peak = max(peak, e.CurvatureRate(e.Length()*measure.Length(i)/1000)*L*R)
		}
		length := math.Sqrt(n / 24)
		for _, c := range []struct {
			name      string
			got, want float64
			digits    int
		}{
			{"n", n, row.n, 2},
			{"m", m, row.m, 3},
			{"peak rate", peak, row.peak, 3},
			{"length for equal shift", length, row.length, 3},
			{"peak rate then", peak / length, row.peakThen, 3},
		} {
			// The shift comes as a small difference of large numbers.
			if d := math.Abs(c.got - c.want); d > 0.6*math.Pow10(-c.digits) {
				t.Errorf("%v: %s is %v, the table says %v", row.shape, c.name, digits(c.got, c.digits+2), c.want)
			}
		}
	}
	// 3/8·(X/R)² to the first power.
	e := must(curve.NewCubicParabola(30, 3000, curve.Left))
	if got := float64(e.StepToArc()) * 3000 / (0.01 * 0.01); math.Abs(got-3./8) > 1e-4 {
		t.Errorf("step of the cubic parabola %v, want 3/8", got)
	}
}

// f goes from 0 to 1 and is its own reverse; the turn of an easement is its
// integral, taken here by quadrature.
func TestRampIsTheCurvature(t *testing.T) {
	for _, shape := range easements {
		if f0, f1 := shape.Ramp(0), shape.Ramp(1); f0 != 0 || math.Abs(f1-1) > 1e-15 {
			t.Errorf("%v goes from %v to %v", shape, f0, f1)
		}
		e := must(curve.NewEasement(shape, 1000, 0, 1./1000))
		a := must(curve.New(curve.Pose{}, e))
		for i := range 21 {
			u := float64(i) / 20
			if d := math.Abs(shape.Ramp(u) + shape.Ramp(1-u) - 1); d > 1e-15 {
				t.Errorf("%v: f(%v) + f(1-u) is off 1 by %v", shape, u, d)
			}
			st := a.At(measure.Length(1000 * u))
			if d := math.Abs(float64(st.Curvature)*1000 - shape.Ramp(u)); d > 1e-15 {
				t.Errorf("%v: curvature at %v off by %v", shape, u, d)
			}
			// Panels with the Helmert corner at an edge.
			sum := reference.Integrate(shape.Ramp, 0, min(u, 0.5), 4) + reference.Integrate(shape.Ramp, 0.5, max(u, 0.5), 4)
			if d := math.Abs(float64(st.Heading) - sum); d > 1e-15 {
				t.Errorf("%v: heading at %v off by %v", shape, u, d)
			}
		}
		if shape.String() == "unknown shape" || !shape.Easement() {
			t.Errorf("%d is no easement", shape)
		}
	}
	if curve.Lath.Easement() || curve.CircularArc.Easement() || curve.Shape(99).Easement() {
		t.Error("what has no law is called an easement")
	}
}
