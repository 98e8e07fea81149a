package design_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/design"
	"example.org/fourfoot/gauge/measure"
)

// The deflection-table example after Schofield, Engineering Surveying: R 200,
// Δ 30°, intersection at 2259.59: T1 2206, T2 2310.72.
func TestChainagesOfPublishedCurve(t *testing.T) {
	s, c := math.Sincos(math.Pi / 6)
	l, err := design.Through(
		design.Vertex{},
		design.Vertex{Point: r2.Vec{X: 2259.59}, Radius: 200},
		design.Vertex{Point: r2.Vec{X: 2259.59 + 500*c, Y: 500 * s}},
	)
	if err != nil {
		t.Fatal(err)
	}
	b := aligned(t, l).Boundaries()
	near(t, "T1", float64(b[1]), 2206, 0.005)
	near(t, "T2", float64(b[2]), 2310.72, 0.005)
}

// checkThrough evaluates a line through vertices: it starts at the first, ends
// at the last, and passes every side between the bends.
func checkThrough(t *testing.T, l design.Line, vs []design.Vertex) {
	t.Helper()
	a := aligned(t, l)
	scale := float64(a.Length())
	n := len(vs)
	if l.Closed {
		if d := r2.Norm(r2.Sub(a.End().Point, a.Start().Point)); d > 1e-11*scale {
			t.Errorf("circuit misses its start by %g mm", d)
		}
	} else {
		if d := r2.Norm(r2.Sub(a.Start().Point, vs[0].Point)); d > 0 {
			t.Errorf("starts %g mm from the first vertex", d)
		}
		if d := r2.Norm(r2.Sub(a.End().Point, vs[n-1].Point)); d > 1e-10*scale {
			t.Errorf("ends %g mm from the last vertex", d)
		}
	}
	for i, b := range l.Bends {
		checkBend(t, b)
		v := vs[(i+1)%n]
		if d := r2.Norm(r2.Sub(b.Intersection, v.Point)); d > 1e-10*scale {
			t.Errorf("bend %d has its intersection point %g mm from the vertex", i, d)
		}
		if b.Radius != v.Radius || b.Ease != v.Ease {
			t.Errorf("bend %d: radius %v ease %v, asked %v %v", i, b.Radius, b.Ease, v.Radius, v.Ease)
		}
	}
}

func TestThroughRandomVertices(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	made := 0
	for range 300 {
		n := 3 + rng.IntN(6)
		closed := rng.IntN(2) == 0
		vs := make([]design.Vertex, n)
		for i := range vs {
			a := 2 * math.Pi * float64(i) / float64(n)
			d := 3000 + 3000*rng.Float64()
			vs[i].Point = r2.Vec{X: d * math.Cos(a), Y: d * math.Sin(a)}
			vs[i].Radius = measure.Length(400 + 600*rng.Float64())
			if rng.IntN(3) > 0 {
				vs[i].Ease = design.Ease(shapes[rng.IntN(len(shapes))], measure.Length(300*rng.Float64()))
			}
		}
		build := design.Through
		if closed {
			build = design.Circuit
		}
		l, err := build(vs...)
		if err != nil {
			if !errors.Is(err, measure.ErrNoAnswer) {
				t.Errorf("vertices %v: %v", vs, err)
			}
			continue
		}
		made++
		checkThrough(t, l, vs)
	}
	if made < 100 {
		t.Errorf("only %d of 300 lines were made", made)
	}
}

func TestThroughGoesStraightOn(t *testing.T) {
	l, err := design.Through(design.Vertex{}, design.Vertex{Point: r2.Vec{X: 300}}, design.Vertex{Point: r2.Vec{X: 1000}})
	if err != nil {
		t.Fatal(err)
	}
	if len(l.Elements) != 1 || l.Elements[0].Length() != 1000 {
		t.Errorf("elements %v, want one straight of 1000 mm", l.Elements)
	}
}

func TestThroughTellsWhatFits(t *testing.T) {
	vs := []design.Vertex{
		{},
		{Point: r2.Vec{X: 5000}, Radius: 1200, Ease: design.Ease(curve.Clothoid, 300)},
		{Point: r2.Vec{X: 5000, Y: 2000}, Radius: 1100, Ease: design.Ease(curve.Clothoid, 300)},
		{Point: r2.Vec{X: 0, Y: 2000}},
	}
	_, err := design.Through(vs...)
	if !errors.Is(err, measure.ErrNoAnswer) {
		t.Fatalf("error %v, want no answer", err)
	}
	found := regexp.MustCompile(`a radius of ([0-9.]+) mm at vertex ([0-9]) would fit`).FindAllStringSubmatch(fmt.Sprint(err), -1)
	if len(found) != 2 {
		t.Fatalf("error %v tells %d radii, want 2", err, len(found))
	}
	for _, m := range found {
		r, _ := strconv.ParseFloat(m[1], 64)
		i, _ := strconv.Atoi(m[2])
		try := append([]design.Vertex(nil), vs...)
		try[i-1].Radius = measure.Length(r * 0.99999)
		if _, err := design.Through(try...); err != nil {
			t.Errorf("radius %v at vertex %d does not fit: %v", r, i, err)
		}
		try[i-1].Radius = measure.Length(r * 1.0001)
		if _, err := design.Through(try...); err == nil {
			t.Errorf("more than radius %v at vertex %d fits too", r, i)
		}
	}
}

func TestThroughRefusesAllAtOnce(t *testing.T) {
	_, err := design.Through(
		design.Vertex{},
		design.Vertex{Point: r2.Vec{X: 1000}, Radius: -1},
		design.Vertex{Point: r2.Vec{X: 1000, Y: 1000}, Radius: measure.Length(math.NaN())},
		design.Vertex{Point: r2.Vec{X: 2000, Y: 1000}},
	)
	if !errors.Is(err, measure.ErrInput) {
		t.Fatalf("error %v, want bad input", err)
	}
	for _, name := range []string{"vertex 2", "vertex 3"} {
		if !regexp.MustCompile(name).MatchString(err.Error()) {
			t.Errorf("error %v does not name %s", err, name)
		}
	}
	if _, err := design.Through(make([]design.Vertex, design.MaxVertices+1)...); !errors.Is(err, measure.ErrLimit) {
		t.Errorf("too many vertices: error %v", err)
	}
	if _, err := design.Through(design.Vertex{}); !errors.Is(err, measure.ErrInput) {
		t.Errorf("one vertex: error %v", err)
	}
	if _, err := design.Circuit(design.Vertex{}, design.Vertex{}, design.Vertex{}); !errors.Is(err, measure.ErrInput) {
		t.Errorf("one place: error %v", err)
	}
}

func FuzzThrough(f *testing.F) {
	f.Add(0.0, 0.0, 1000.0, 0.0, 1500.0, 900.0, 300.0, 1200.0, 200.0, 50.0, uint8(2), true)
	f.Add(0.0, 0.0, 1e6, 1.0, 1e6, 2.0, 0.0, 3.0, 0.3, 0.0, uint8(0), false)
	f.Fuzz(func(t *testing.T, x0, y0, x1, y1, x2, y2, x3, y3, r, ease float64, shape uint8, closed bool) {
		e := design.Ease(curve.Shape(shape), measure.Length(ease))
		vs := []design.Vertex{
			{Point: r2.Vec{X: x0, Y: y0}, Radius: measure.Length(r), Ease: e},
			{Point: r2.Vec{X: x1, Y: y1}, Radius: measure.Length(r), Ease: e},
			{Point: r2.Vec{X: x2, Y: y2}, Radius: measure.Length(r) * 2, Ease: e},
			{Point: r2.Vec{X: x3, Y: y3}, Radius: measure.Length(r), Ease: e},
		}
		build := design.Through
		if closed {
			build = design.Circuit
		}
		l, err := build(vs...)
		if err != nil {
			return
		}
		a, err := curve.New(l.Start, l.Elements...)
		if err != nil {
			t.Fatal(err)
		}
		far := float64(a.Length())
		for _, v := range vs {
			far += math.Abs(v.Point.X) + math.Abs(v.Point.Y)
		}
		want := vs[3].Point
		if closed {
			want = l.Start.Point
		}
		if d := r2.Norm(r2.Sub(a.End().Point, want)); d > 1e-9*far {
			t.Errorf("ends %g mm from %v", d, want)
		}
	})
}
