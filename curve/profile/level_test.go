package profile_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

const m = measure.Metre

func level(t testing.TB, points ...profile.Point) profile.Level {
	t.Helper()
	l, err := profile.NewLevel(points...)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func closedLevel(t testing.TB, length measure.Length, points ...profile.Point) profile.Level {
	t.Helper()
	l, err := profile.NewClosedLevel(length, 0, points...)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.12g, want %.12g within %g", what, got, want, tol)
	}
}

// IFC Alignment Geometry Implementation Guide to ISO 16739-1: vertical curve
// of 100 from level 10.0, +0.5 % to -1.0 %, as a parabola and as an arc.
func TestVerticalCurveOfTheGuide(t *testing.T) {
	sections := func(f profile.Form, curve measure.Length, before measure.Length) []profile.Point {
		start := profile.Point{Chainage: -1 * m, Level: 10*m - 5}
		return profile.Points(start, profile.Section{Length: 1*m + before, Gradient: 0.5 * measure.Percent, Curve: curve, Form: f},
			profile.Section{Length: 60 * m, Gradient: -1 * measure.Percent})
	}
	l := level(t, sections(profile.Parabola, 100*m, 50*m)...)
	for _, row := range []struct{ s, want float64 }{{0, 10}, {20, 10.07}, {40, 10.08}, {50, 10.0625}, {75, 9.953125}, {100, 9.75}} {
		near(t, "parabola, level in m", l.At(measure.Length(row.s)*m).Metres(), row.want, 1e-12)
	}
	near(t, "gradient at the start", float64(l.Gradient(0)), 0.005, 1e-15)
	near(t, "gradient at the end", float64(l.Gradient(100*m)), -0.01, 1e-15)
	if r, ok := l.Radius(100.0 / 3 * m); !ok || math.Abs(r.Metres()+100/0.015) > 1e-6 { // at the summit, where i = 0
		t.Errorf("radius at the summit %v m, want -L/Δi = %v m", r.Metres(), -100/0.015)
	}
	// An arc's tangents are equal along the slope: before its point in plan
	// L·cos φ0/(cos φ0 + cos φ1).
	c0, c1 := 1/math.Hypot(1, 0.005), 1/math.Hypot(1, 0.01)
	l = level(t, sections(profile.Circle, 100*m, measure.Length(100*c0/(c0+c1))*m)...)
	for _, row := range []struct{ s, want float64 }{{0, 10}, {50, 10.062504}, {100, 9.750014}} {
		near(t, "arc, level in m", l.At(measure.Length(row.s)*m).Metres(), row.want, 5e-7)
	}
	near(t, "gradient at the end of the arc", float64(l.Gradient(100*m)), -0.01, 1e-14)
}

// someLevels are levels with everything in them, two open and two circuits.
func someLevels(t testing.TB) []profile.Level {
	return []profile.Level{
		level(t, profile.Point{Level: 5}, profile.Point{Chainage: 4 * m, Level: 105, Radius: 12 * m},
			profile.Point{Chainage: 9 * m, Level: 20, Curve: 900, Form: profile.Circle}, profile.Point{Chainage: 15 * m, Level: 20}),
		level(t, profile.Point{Chainage: -300, Level: 40}, profile.Point{Chainage: 2 * m, Level: 0}, profile.Point{Chainage: 7 * m, Level: 90}),
		closedLevel(t, 20*m, profile.Point{Chainage: 100, Level: 10, Curve: 800}, profile.Point{Chainage: 6 * m, Level: 150, Curve: 700, Form: profile.Circle},
			profile.Point{Chainage: 8 * m, Level: 120, Radius: 9 * m}, profile.Point{Chainage: 13 * m, Level: -30, Radius: 8 * m, Form: profile.Circle}),
		closedLevel(t, 5*m, profile.Point{Chainage: 1 * m, Level: 10}, profile.Point{Chainage: 3 * m, Level: 50}),
	}
}

func TestGradientAndCurvatureAreTheDerivatives(t *testing.T) {
	for n, l := range someLevels(t) {
		near0 := func(s measure.Length) bool {
			for _, b := range l.Boundaries() {
				if math.Abs(float64(s-b)) < 1 {
					return true
				}
			}
			return false
		}
		for s := measure.Length(-1 * m); s < 21*m; s += 37.7 {
			if c, ok := l.Circuit(); near0(s) || ok && near0(measure.Length(math.Mod(float64(s+2*c), float64(c)))) {
				continue
			}
			const h = 0.01
			d := float64(l.At(s+h)-l.At(s-h)) / (2 * h)
			i := float64(l.Gradient(s))
			if math.Abs(i-d) > 1e-9 {
				t.Errorf("level %d at %v: gradient %v, difference quotient %v", n, s, i, d)
			}
			dd := float64(l.Gradient(s+h)-l.Gradient(s-h)) / (2 * h) / math.Pow(1+i*i, 1.5)
			if k := float64(l.Curvature(s)); math.Abs(k-dd) > 1e-10 {
				t.Errorf("level %d at %v: curvature %v, difference quotient %v", n, s, k, dd)
			}
		}
	}
}

func TestRangeCallsAgainstBruteForce(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for n, l := range someLevels(t) {
		for range 40 {
			from := measure.Length(rng.Float64()*22-1) * m
			to := from + measure.Length(rng.Float64()*20)*m
			hi, err1 := l.Highest(from, to)
			lo, err2 := l.Lowest(from, to)
			st, err3 := l.Steepest(from, to)
			length, err4 := l.TrueLength(from, to)
			if err := errors.Join(err1, err2, err3, err4); err != nil {
				t.Fatal(err)
			}
			high, low, steep, sum := math.Inf(-1), math.Inf(1), 0.0, 0.0
			const parts = 20000
			h := (to - from) / parts
			for i := range parts {
				s := from + h*measure.Length(i)
				z, next := float64(l.At(s)), float64(l.At(s+h))
				high, low = max(high, z, next), min(low, z, next)
				steep = max(steep, math.Abs(next-z)/float64(h))
				sum += math.Hypot(float64(h), next-z)
			}
			near(t, "highest", float64(hi.Level), high, 0.05*float64(h))
			near(t, "level at the highest", float64(l.At(hi.Chainage)), float64(hi.Level), 1e-9)
			near(t, "lowest", float64(lo.Level), low, 0.05*float64(h))
			near(t, "level at the lowest", float64(l.At(lo.Chainage)), float64(lo.Level), 1e-9)
			near(t, "steepest", math.Abs(float64(st.Gradient)), steep, 1e-4)
			near(t, "true length", float64(length), sum, 1e-3)
			if float64(hi.Level) < high-1e-9 || float64(lo.Level) > low+1e-9 {
				t.Errorf("trial found %v and %v, Highest and Lowest %v and %v", high, low, hi, lo)
			}
			if t.Failed() {
				t.Fatalf("level %d from %v to %v", n, from, to)
			}
		}
	}
}

// A slope has the length plan·√(1+i²); a circle's arc is R·Δφ; the parabola's
// formula gives way to a series where its ends differ by 0.01.
func TestTrueLength(t *testing.T) {
	l := level(t, profile.Point{}, profile.Point{Chainage: 1 * m, Level: 20})
	got, err := l.TrueLength(0, 1*m)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "1 m at 1 in 50", float64(got), 1000*math.Sqrt(1+0.02*0.02), 1e-12)

	i0, i1 := 0.25, -0.125
	l = level(t, profile.Point{Chainage: -5 * m, Level: measure.Length(-5000 * i0)}, profile.Point{Radius: 8 * m, Form: profile.Circle}, profile.Point{Chainage: 5 * m, Level: measure.Length(5000 * i1)})
	T := 8000 * math.Tan((math.Atan(i0)-math.Atan(i1))/2)
	got, err = l.TrueLength(measure.Length(-T/math.Hypot(1, i0)), measure.Length(T/math.Hypot(1, i1)))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "arc of R 8 m", float64(got), 8000*(math.Atan(i0)-math.Atan(i1)), 1e-9)

	for _, i0 := range []float64{0, 0.02, -0.3} {
		for _, di := range []float64{1e-12, 1e-9, 1e-6, 1e-3, 0.0099999, 0.0100001, 0.02, 0.1} {
			l := level(t, profile.Point{Chainage: -1 * m, Level: measure.Length(-1000 * i0)}, profile.Point{Curve: 1 * m}, profile.Point{Chainage: 1 * m, Level: measure.Length(1000 * (i0 + di))})
			got, err := l.TrueLength(-500, 500)
			if err != nil {
				t.Fatal(err)
			}
			want := simpson(func(x float64) float64 { return math.Hypot(1, i0+di*(x+500)/1000) }, -500, 500)
			near(t, "parabola", float64(got), want, 2e-11)
		}
	}
}

func simpson(f func(float64) float64, a, b float64) float64 {
	const n = 100
	h, sum := (b-a)/n, 0.0
	for i := range n {
		x := a + float64(i)*h
		sum += f(x) + 4*f(x+h/2) + f(x+h)
	}
	return sum * h / 6
}

func TestLevelPropertiesOfPartReverseScaleAndStart(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for n, l := range someLevels(t) {
		length, closed := l.Circuit()
		if !closed {
			length = 15 * m
		}
		shift := measure.Length(rng.Float64()*40-20) * m
		moved, err1 := l.StartAt(shift)
		back, err2 := l.Reverse(length)
		big, err3 := l.Scaled(2.5)
		from := measure.Length(rng.Float64()*5) * m
		to := from + 9*m
		if n == 3 {
			to = from + 4*m
		}
		part, err4 := l.Part(from, to)
		if err := errors.Join(err1, err2, err3, err4); err != nil {
			t.Fatal(err)
		}
		for range 300 {
			s := measure.Length(rng.Float64()*30-5) * m
			near(t, "start moved", float64(moved.At(s)), float64(l.At(s+shift)), 1e-9)
			near(t, "start moved, gradient", float64(moved.Gradient(s)), float64(l.Gradient(s+shift)), 1e-12)
			near(t, "reversed", float64(back.At(s)), float64(l.At(length-s)), 1e-9)
			near(t, "reversed, gradient", float64(back.Gradient(s)), -float64(l.Gradient(length-s)), 1e-12)
			near(t, "reversed, curvature", float64(back.Curvature(s)), float64(l.Curvature(length-s)), 1e-15)
			near(t, "scaled", float64(big.At(2.5*s)), 2.5*float64(l.At(s)), 1e-9)
			near(t, "scaled, curvature", float64(big.Curvature(2.5*s)), float64(l.Curvature(s))/2.5, 1e-15)
			if x := s - from; x >= 0 && s <= to {
				near(t, "part", float64(part.At(x)), float64(l.At(s)), 1e-9)
				near(t, "part, gradient", float64(part.Gradient(x)), float64(l.Gradient(s)), 1e-12)
			}
		}
		near(t, "part before its start", float64(part.At(-100)), float64(l.At(from))-100*float64(part.Gradient(0)), 1e-9)
		a, err1 := l.TrueLength(from, to)
		b, err2 := part.TrueLength(0, to-from)
		if err := errors.Join(err1, err2); err != nil {
			t.Fatal(err)
		}
		near(t, "length of part", float64(b), float64(a), 1e-9)
		if t.Failed() {
			t.Fatalf("level %d", n)
		}
	}
}

func TestCircuitLevel(t *testing.T) {
	l := someLevels(t)[2]
	over, err := l.Highest(19*m, 1*m)
	if err != nil {
		t.Fatal(err)
	}
	want, err := l.Highest(19*m, 21*m)
	if err != nil || want != over {
		t.Errorf("range over the start: %v, and past the length: %v, %v", over, want, err)
	}
	if s := over.Chainage; s < 0 || s >= 20*m {
		t.Errorf("chainage %v not within the lap", s)
	}
	lap, _ := l.TrueLength(0, 20*m)
	three, _ := l.TrueLength(3*m, 63*m)
	near(t, "three laps", float64(three), 3*float64(lap), 1e-8)
	for s := measure.Length(0); s < 20*m; s += 333 {
		if a, b := l.At(s), l.At(s-40*m); math.Abs(float64(a-b)) > 1e-9 {
			t.Errorf("At(%v) = %v, two laps before %v", s, a, b)
		}
	}
	// Gradients that add up to a rise of 0.08 mm over the lap.
	points := profile.Points(profile.Point{}, profile.Section{Length: 5 * m, Gradient: 2 * measure.Percent, Curve: 500}, profile.Section{Length: 5 * m, Gradient: -1.9984 * measure.Percent})
	if _, err := profile.NewClosedLevel(10*m, 0.05, points...); !errors.Is(err, measure.ErrInput) || !strings.Contains(err.Error(), "0.08 mm apart") {
		t.Errorf("a misclosure of 0.08 mm at a tolerance of 0.05 mm gives: %v", err)
	}
	l, err = profile.NewClosedLevel(10*m, 0.1, points...)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "level just before the start", float64(l.At(10*m-1e-9)), 0, 1e-9)
	if b := l.Breaks(); len(b) != 1 || b[0].Chainage != 0 || math.Abs(float64(b[0].Change)-0.04) > 1e-4 {
		t.Errorf("Breaks = %v, want one sag of 4 %% at 0", b)
	}
}

func TestLevelRefuses(t *testing.T) {
	nan := measure.Length(math.NaN())
	two := []profile.Point{{}, {Chainage: 1 * m, Level: 10}}
	tests := []struct {
		name string
		do   func() error
		want []string
		kind error
	}{
		{"no points", func() error { _, err := profile.NewLevel(); return err }, []string{"points 0"}, measure.ErrInput},
		{"NaN", func() error { _, err := profile.NewLevel(profile.Point{Chainage: nan}); return err }, []string{"point 1: chainage"}, measure.ErrInput},
		{"all at once", func() error {
			_, err := profile.NewLevel(profile.Point{Level: nan}, profile.Point{Chainage: 5, Curve: -1}, profile.Point{Chainage: 9, Curve: 1, Radius: 2, Form: 7})
			return err
		}, []string{"point 1: level", "point 2: vertical curve", "point 3: vertical curve", "point 3: form"}, measure.ErrInput},
		{"out of order", func() error { _, err := profile.NewLevel(two[1], two[0]); return err }, []string{"point 2: chainage 0 mm", "1000 mm"}, measure.ErrInput},
		{"too steep", func() error { _, err := profile.NewLevel(two[0], profile.Point{Chainage: 5, Level: 6}); return err }, []string{"gradient after point 1 120 %"}, measure.ErrInput},
		{"curve at an end", func() error {
			_, err := profile.NewLevel(two[0], profile.Point{Chainage: 1 * m, Curve: 50})
			return err
		}, []string{"point 2: vertical curve 50 mm"}, measure.ErrInput},
		{"curves overlap", func() error {
			_, err := profile.NewLevel(two[0], profile.Point{Chainage: 500, Level: 10, Curve: 300}, profile.Point{Chainage: 700, Curve: 300}, profile.Point{Chainage: 1 * m, Level: 10})
			return err
		}, []string{"points 2 and 3", "100 mm farther apart"}, measure.ErrInput},
		{"circuit of no length", func() error { _, err := profile.NewClosedLevel(0, -1, two...); return err }, []string{"length of the circuit", "tolerance"}, measure.ErrInput},
		{"more than a lap", func() error { _, err := profile.NewClosedLevel(900, 0, two...); return err }, []string{"point 2: chainage 1000 mm", "lap of 900 mm"}, measure.ErrInput},
		{"too many", func() error { _, err := profile.NewLevel(make([]profile.Point, profile.MaxPoints+1)...); return err }, []string{"10001"}, measure.ErrLimit},
		{"range backwards", func() error { _, err := level(t, two...).Highest(5, 4); return err }, []string{"end of the range"}, measure.ErrInput},
		{"range NaN", func() error { _, err := level(t, two...).TrueLength(nan, nan); return err }, []string{"start of the range", "end of the range"}, measure.ErrInput},
		{"factor", func() error { _, err := level(t, two...).Scaled(-1); return err }, []string{"factor -1"}, measure.ErrInput},
	}
	for _, tt := range tests {
		err := tt.do()
		if !errors.Is(err, tt.kind) {
			t.Errorf("%s: error %v, want kind %v", tt.name, err, tt.kind)
			continue
		}
		for _, w := range tt.want {
			if !strings.Contains(err.Error(), w) {
				t.Errorf("%s: error %q does not say %q", tt.name, err, w)
			}
		}
	}
}

func TestNoChainageGivesNaN(t *testing.T) {
	for n, l := range someLevels(t) {
		for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e12, -1e12} {
			s := measure.Length(x)
			r, _ := l.Radius(s)
			for _, v := range []float64{float64(l.At(s)), float64(l.Gradient(s)), float64(l.Curvature(s)), float64(r), float64(someCants(t)[n%3].At(s))} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Errorf("level and cant %d at %v: %v", n, x, v)
				}
			}
		}
	}
}

func TestZeroLevelIsFlat(t *testing.T) {
	var l profile.Level
	h, err := l.Highest(3, 9)
	if l.At(7) != 0 || l.Gradient(7) != 0 || l.Curvature(7) != 0 || err != nil || h.Level != 0 {
		t.Errorf("zero Level is not flat at 0: %v, %v", h, err)
	}
	if d, err := l.TrueLength(3, 9); d != 6 || err != nil {
		t.Errorf("TrueLength(3, 9) of the zero Level = %v, %v", d, err)
	}
	if p, err := l.Part(1, 2); p.At(1) != 0 || err != nil {
		t.Error("part of the zero Level")
	}
}
