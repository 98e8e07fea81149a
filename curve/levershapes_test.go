package curve_test

import (
	"encoding/json"
	"math"
	"os"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/reference"
)

// The cubic parabola against points computed to 50 digits; the source is named
// in the file.
func TestCubicParabolaVectors(t *testing.T) {
	text, err := os.ReadFile("testdata/cubic_parabola.json")
	if err != nil {
		t.Fatal(err)
	}
	type rows struct {
		X, Y, Heading, Curvature []float64
		ArcLength                []float64 `json:"arc_length"`
	}
	var file struct {
		Cases []struct {
			Name        string
			Start       struct{ X, Y, Heading float64 }
			Length      float64
			EndRadius   float64 `json:"end_radius"`
			ByAbscissa  rows    `json:"by_abscissa"`
			ByArcLength rows    `json:"by_arc_length"`
		}
	}
	if err := json.Unmarshal(text, &file); err != nil {
		t.Fatal(err)
	}
	if len(file.Cases) != 16 {
		t.Fatalf("%d cases, want 16", len(file.Cases))
	}
	worst := 0.0
	for _, c := range file.Cases {
		hand := curve.Left
		if c.EndRadius < 0 {
			hand = curve.Right
		}
		e, err := curve.NewCubicParabola(measure.Length(c.Length), measure.Length(math.Abs(c.EndRadius)), hand)
		if err != nil {
			t.Fatal(c.Name, err)
		}
		a := must(curve.New(curve.Pose{Point: r2.Vec{X: c.Start.X, Y: c.Start.Y}, Heading: measure.Angle(c.Start.Heading)}, e))
		back := must(curve.New(curve.Pose{Point: a.End().Point, Heading: a.End().Heading + math.Pi}, e.Reverse()))
		if d := math.Abs(float64(e.Length()) - c.ByAbscissa.ArcLength[8]); d > 3e-16*c.Length {
			t.Errorf("%s: length off by %v", c.Name, d)
		}
		for _, r := range []rows{c.ByAbscissa, c.ByArcLength} {
			for i, s := range r.ArcLength {
				got := a.At(min(measure.Length(s), a.Length()))
				d := max(math.Abs(got.Point.X-r.X[i]), math.Abs(got.Point.Y-r.Y[i]))
				worst = max(worst, d/c.Length)
				if d > 5e-15*c.Length {
					t.Errorf("%s: At(%v).Point = %v, want %v %v", c.Name, s, got.Point, r.X[i], r.Y[i])
				}
				if d := math.Abs(float64(got.Heading) - r.Heading[i]); d > 2e-15 {
					t.Errorf("%s: At(%v).Heading is off by %.3g", c.Name, s, d)
				}
				if d := math.Abs(float64(got.Curvature)-r.Curvature[i]) * c.Length; d > 2e-14 {
					t.Errorf("%s: At(%v).Curvature is off by %.3g of 1/L", c.Name, s, d)
				}
				rev := back.At(max(e.Length()-measure.Length(s), 0))
				if d := r2.Norm(r2.Sub(rev.Point, got.Point)); d > 5e-15*c.Length {
					t.Errorf("%s: reversed, %v is off by %.3g", c.Name, s, d)
				}
				if d := math.Abs(float64(rev.Curvature+got.Curvature)) * c.Length; d > 2e-14 {
					t.Errorf("%s: reversed, the curvature at %v is %v, not %v", c.Name, s, rev.Curvature, -got.Curvature)
				}
			}
		}
		step := 1/c.EndRadius - c.ByAbscissa.Curvature[8]
		if d := math.Abs(float64(e.StepToArc()) - step); d*c.Length > 1e-14 {
			t.Errorf("%s: StepToArc = %v, want %v", c.Name, e.StepToArc(), step)
		}
		if d := math.Abs(float64(e.Reverse().StepToArc()) + step); d*c.Length > 1e-14 {
			t.Errorf("%s: StepToArc reversed = %v, want %v", c.Name, e.Reverse().StepToArc(), -step)
		}
	}
	t.Logf("worst %.2g of the length", worst)
}

// The lath by quadrature over the abscissa: with sin θ = x²/2RX,
// s = ∫dx/cos θ and y = ∫tan θ dx.
func TestLath(t *testing.T) {
	for _, c := range []struct{ X, R float64 }{{300, 6000}, {600, 1500}, {800, 800}, {900, 600}, {1800, 1000}, {1, 1e6}} {
		e := must(curve.NewLath(measure.Length(c.X), measure.Length(c.R), curve.Right))
		a := must(curve.New(curve.Pose{}, e))
		for i := range 9 {
			x := c.X * float64(i) / 8
			sin := func(x float64) float64 { return x * x / (2 * c.R * c.X) }
			s := reference.Integrate(func(x float64) float64 { return 1 / math.Sqrt(1-sin(x)*sin(x)) }, 0, x, 32)
			y := reference.Integrate(func(x float64) float64 { return sin(x) / math.Sqrt(1-sin(x)*sin(x)) }, 0, x, 32)
			got := a.At(min(measure.Length(s), a.Length()))
			if d := math.Hypot(got.Point.X-x, got.Point.Y+y); d > 1e-14*c.X {
				t.Errorf("X %v R %v: At(%v).Point = %v, want %v %v", c.X, c.R, s, got.Point, x, -y)
			}
			if want := -x / (c.R * c.X); math.Abs(float64(got.Curvature)-want)*c.X > 1e-14 {
				t.Errorf("X %v R %v: At(%v).Curvature = %v, want %v", c.X, c.R, s, got.Curvature, want)
			}
			if want := -math.Asin(sin(x)); math.Abs(float64(got.Heading)-want) > 3e-15 {
				t.Errorf("X %v R %v: At(%v).Heading = %v, want %v", c.X, c.R, s, got.Heading, want)
			}
		}
		if want := -1 / c.R; math.Abs(float64(e.EndCurvature())-want) > 1e-14/c.R {
			t.Errorf("X %v R %v: end curvature %v, want %v", c.X, c.R, e.EndCurvature(), want)
		}
	}
}

// Up to where the two must end: the cubic parabola where its curvature begins to
// fall, the lath square to its straight. The place comes by quadrature in
// variables that have no singularity there: s = ∫√(1+(x²/2RX)²)dx, and for the
// lath with x²/2RX = sin²ψ, s = √(2RX)·∫dψ/√(1+sin²ψ), y = √(2RX)·∫sin²ψ dψ/√(1+sin²ψ).
func TestLeversUpToTheirLimits(t *testing.T) {
	check := func(name string, a *curve.Alignment, s, x, y, h float64) {
		t.Helper()
		got := a.At(min(measure.Length(s), a.Length()))
		if s > float64(a.Length())*(1-1e-3) { // the end, however long it is
			got = a.At(a.Length())
		}
		if d := math.Hypot(got.Point.X-x, got.Point.Y-y); d > 5e-15*float64(a.Length()) {
			t.Errorf("%s: At(%v).Point = %v, want %v %v: off by %.3g of the length", name, s, got.Point, x, y, d/float64(a.Length()))
		}
		if d := math.Abs(float64(got.Heading) - h); d > 3e-15 {
			t.Errorf("%s: At(%v).Heading is off by %.3g", name, s, d)
		}
	}
	const R = 1000.
	for _, X := range []float64{1e-3, 700, 860, 894.4} {
		a := must(curve.New(curve.Pose{}, must(curve.NewCubicParabola(measure.Length(X), R, curve.Left))))
		for i := range 17 {
			x := X * float64(i) / 16
			s := reference.Integrate(func(x float64) float64 { return math.Hypot(1, x*x/(2*R*X)) }, 0, x, 32)
			check("cubic parabola", a, s, x, x*x*x/(6*R*X), math.Atan(x*x/(2*R*X)))
		}
	}
	for _, X := range []float64{1e-3, 1500, 1900, 1990, 1995} {
		a := must(curve.New(curve.Pose{}, must(curve.NewLath(measure.Length(X), R, curve.Left))))
		scale, end := math.Sqrt(2*R*X), math.Asin(math.Sqrt(X/(2*R)))
		for i := range 17 {
			w := end * float64(i) / 16
			rate := func(w float64) float64 { return 1 / math.Sqrt(1+math.Sin(w)*math.Sin(w)) }
			s := scale * reference.Integrate(rate, 0, w, 32)
			y := scale * reference.Integrate(func(w float64) float64 { return math.Sin(w) * math.Sin(w) * rate(w) }, 0, w, 32)
			sin := math.Sin(w)
			// asin(sin²ψ), told without loss near a right angle.
			check("lath", a, s, scale*sin, y, math.Atan2(sin*sin, math.Cos(w)*math.Sqrt(1+sin*sin)))
		}
	}
}

// Turns of a millionth, and none that counts: the cubic parabola and the lath
// tend to each other and to the straight, and a lath between two poses of one
// heading turns by nothing in all.
func TestLeversOfSmallAndNoTurn(t *testing.T) {
	const X = 1000.
	for _, turn := range []float64{1e-3, 1e-6, 1e-9, 1e-12} {
		R := X / 2 / turn
		if R > 1e12 {
			R = 1e12
		}
		for name, e := range map[string]curve.Element{
			"cubic parabola": must(curve.NewCubicParabola(X, measure.Length(R), curve.Left)),
			"lath":           must(curve.NewLath(X, measure.Length(R), curve.Left)),
		} {
			a := must(curve.New(curve.Pose{}, e))
			for i := range 9 {
				x := X * float64(i) / 8
				// Both are y = x³/6RX and x long but for terms of the turn's square.
				st := a.At(min(measure.Length(x), a.Length()))
				second := turn * turn
				if d := math.Abs(st.Point.X - x); d > X*(second+5e-15) {
					t.Errorf("%s, turn %v: x at %v off by %v", name, turn, x, d)
				}
				want := x * x * x / (6 * R * X)
				if d := math.Abs(st.Point.Y - want); d > want*(second+4e-15)+1e-15*X*turn {
					t.Errorf("%s, turn %v: y at %v is %v, want %v", name, turn, x, st.Point.Y, want)
				}
				want = x * x / (2 * R * X)
				if d := math.Abs(float64(st.Heading) - want); d > want*(second+1e-14)+1e-15*turn {
					t.Errorf("%s, turn %v: heading at %v is %v, want %v", name, turn, x, float64(st.Heading), want)
				}
				want = x / (R * X)
				if d := math.Abs(float64(st.Curvature) - want); d > want*(3*second+1e-13)+1e-15/R {
					t.Errorf("%s, turn %v: curvature at %v is %v, want %v", name, turn, x, float64(st.Curvature), want)
				}
			}
		}
	}
	for _, y := range []float64{200, 20, 1} {
		e := must(curve.NewLathBetween(curve.Pose{}, curve.Pose{Point: r2.Vec{X: X, Y: y}}, measure.Length(math.Hypot(X, y)*(1+0.1*y*y/X/X))))
		if turn := math.Abs(float64(e.Turn())); turn > 1e-12 {
			t.Errorf("a lath to %v beside turns by %v", y, turn)
		}
	}
}
