package export_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/export"
	"example.org/fourfoot/gauge/measure"
)

var token = regexp.MustCompile(`[MLACZ]|-?[0-9]+(\.[0-9]+)?`)

// sample reads path data and returns points along it, n to a piece: lines,
// cubics, and arcs by the SVG recommendation's conversion from end points to
// centre (SVG 1.1, appendix F.6.5). It shares nothing with what it tests.
func sample(t *testing.T, path string, n int) (out []r2.Vec, pieces map[string]int) {
	t.Helper()
	pieces = map[string]int{}
	words := token.FindAllString(path, -1)
	if left := strings.Trim(token.ReplaceAllString(path, ""), " "); left != "" {
		t.Fatalf("path has %q that is no path data", left)
	}
	next := func() float64 {
		v, err := strconv.ParseFloat(words[0], 64)
		if err != nil {
			t.Fatalf("number wanted, got %q", words[0])
		}
		words = words[1:]
		return v
	}
	point := func() r2.Vec {
		x := next()
		return r2.Vec{X: x, Y: next()}
	}
	var at, start r2.Vec
	for len(words) > 0 {
		verb := words[0]
		words = words[1:]
		pieces[verb]++
		var f func(float64) r2.Vec
		a := at
		switch verb {
		case "M":
			at = point()
			start = at
			out = append(out, at)
			continue
		case "Z":
			at = start
			f = func(u float64) r2.Vec { return r2.Add(r2.Scale(1-u, a), r2.Scale(u, start)) }
		case "L":
			at = point()
			b := at
			f = func(u float64) r2.Vec { return r2.Add(r2.Scale(1-u, a), r2.Scale(u, b)) }
		case "C":
			p, q, b := point(), point(), point()
			at = b
			f = func(u float64) r2.Vec {
				v := 1 - u
				return r2.Add(r2.Add(r2.Scale(v*v*v, a), r2.Scale(3*v*v*u, p)), r2.Add(r2.Scale(3*v*u*u, q), r2.Scale(u*u*u, b)))
			}
		case "A":
			rx, ry, phi, large, sweep := next(), next(), next(), next(), next()
			at = point()
			if rx != ry || phi != 0 {
				t.Fatalf("arc is not circular: %v %v %v", rx, ry, phi)
			}
			f = arc(a, at, rx, large == 1, sweep == 1)
		}
		for i := range n {
			out = append(out, f(float64(i+1)/float64(n)))
		}
	}
	return out, pieces
}

func arc(a, b r2.Vec, r float64, large, sweep bool) func(float64) r2.Vec {
	x, y := (a.X-b.X)/2, (a.Y-b.Y)/2
	d2 := x*x + y*y
	r = max(r, math.Sqrt(d2))
	f := math.Sqrt(max(0, (r*r-d2)/d2))
	if large == sweep {
		f = -f
	}
	cx, cy := f*y, -f*x
	centre := r2.Vec{X: cx + (a.X+b.X)/2, Y: cy + (a.Y+b.Y)/2}
	t0 := math.Atan2(a.Y-centre.Y, a.X-centre.X)
	dt := math.Atan2(b.Y-centre.Y, b.X-centre.X) - t0
	if sweep && dt < 0 {
		dt += 2 * math.Pi
	}
	if !sweep && dt > 0 {
		dt -= 2 * math.Pi
	}
	return func(u float64) r2.Vec {
		sin, cos := math.Sincos(t0 + u*dt)
		return r2.Vec{X: centre.X + r*cos, Y: centre.Y + r*sin}
	}
}

func segmentDistance(p, a, b r2.Vec) float64 {
	ab := r2.Sub(b, a)
	u := 0.0
	if n := r2.Norm2(ab); n > 0 {
		u = min(max(r2.Dot(r2.Sub(p, a), ab)/n, 0), 1)
	}
	return r2.Norm(r2.Sub(p, r2.Add(a, r2.Scale(u, ab))))
}

// checkPath samples the path of a range and compares it with the line both
// ways.
func checkPath(t *testing.T, line *curve.Alignment, r export.Range, view export.View, tol measure.Length) map[string]int {
	t.Helper()
	path := must[string](t)(export.Path(line, r, view, tol))
	points, pieces := sample(t, path, 96)
	scale := view.Scale
	if scale == 0 {
		scale = 1
	}
	plan := make([]r2.Vec, len(points))
	for i, p := range points {
		plan[i] = r2.Vec{X: p.X/scale + view.Origin.X, Y: view.Origin.Y - p.Y/scale}
	}
	stations := must[[]curve.Station](t)(export.Points(line, r, 0.001))
	// off measures to the chords a little before and after the last one found,
	// so it also sees that the path runs the line's way.
	off := func(at *int, p r2.Vec, to []r2.Vec) float64 {
		best, from := math.Inf(1), max(*at-2, 1)
		for i := from; i < min(from+200, len(to)); i++ {
			if d := segmentDistance(p, to[i-1], to[i]); d < best {
				best, *at = d, i
			}
		}
		return best
	}
	at := 1
	on := make([]r2.Vec, len(stations))
	for i, s := range stations {
		on[i] = s.Point
	}
	for i, p := range plan {
		if d := off(&at, p, on); d > float64(tol)+0.001 {
			t.Fatalf("sample %d of the path is %v mm off the line, tolerance %v", i, d, tol)
		}
	}
	at = 1
	for i := range on {
		// The samples' own chords miss up to k·h²/8.
		if d := off(&at, on[i], plan); d > float64(tol)+0.05 {
			t.Fatalf("the line at %v is %v mm off the path", stations[i].Chainage, d)
		}
	}
	sum := 0.0
	for i := 1; i < len(plan); i++ {
		sum += r2.Norm(r2.Sub(plan[i], plan[i-1]))
	}
	want := 0.0
	for i := 1; i < len(on); i++ {
		want += r2.Norm(r2.Sub(on[i], on[i-1]))
	}
	near(t, "length of the path", sum, want, 0.002*want+float64(tol))
	near(t, "start of the path", r2.Norm(r2.Sub(plan[0], on[0])), 0, float64(tol))
	near(t, "end of the path", r2.Norm(r2.Sub(plan[len(plan)-1], on[len(on)-1])), 0, float64(tol))
	return pieces
}

func TestPathAgainstTheLine(t *testing.T) {
	for _, view := range []export.View{{}, {Origin: r2.Vec{X: -300, Y: 2000}, Scale: 0.1}, {Scale: 3.7}} {
		for _, tol := range []measure.Length{0.5, 0.01} {
			left := checkPath(t, snake(t, false), export.Range{}, view, tol)
			right := checkPath(t, snake(t, true), export.Range{}, view, tol)
			if fmt.Sprint(left) != fmt.Sprint(right) {
				t.Errorf("pieces %v, mirrored %v", left, right)
			}
			for first := range 8 {
				checkPath(t, oval(t, first), export.Range{}, view, tol)
			}
		}
	}
	// A misclosure of some millimetres and 0.5° is spread over the lap.
	e := append(oval(t, 0).Elements(), must[curve.Element](t)(curve.NewArc(1000, 0.5*measure.Degree, curve.Left)))
	spread := must[*curve.Alignment](t)(curve.NewClosed(curve.Pose{}, 20, 1*measure.Degree, e...))
	checkPath(t, spread, export.Range{}, export.View{}, 0.05)
	// Hand and y: on the page a left bend from east goes up, sweep flag 0.
	a := must[curve.Element](t)(curve.NewArc(100, math.Pi/2, curve.Left))
	line := must[*curve.Alignment](t)(curve.New(curve.Pose{}, a))
	if got, want := must[string](t)(export.Path(line, export.Range{}, export.View{}, 0.1)), "M0 0A100 100 0 0 0 100 -100"; got != want {
		t.Errorf("Path = %q, want %q", got, want)
	}
}

func TestPathOfRanges(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	for _, line := range []*curve.Alignment{snake(t, false), oval(t, 0), oval(t, 2)} {
		l := float64(line.Length())
		for range 15 {
			r := export.Range{From: measure.Length(rng.Float64() * l), To: measure.Length(rng.Float64() * l)}
			if !line.Closed() && r.To < r.From {
				r.From, r.To = r.To, r.From
			}
			checkPath(t, line, r, export.View{}, 0.1)
		}
	}
}

func TestPathOfRandomLines(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for range 60 {
		checkPath(t, random(t, rng), export.Range{}, export.View{}, 0.05)
	}
}

// An arc of several turns is cut; every piece keeps its centre.
func TestPathOfManyTurns(t *testing.T) {
	a := must[curve.Element](t)(curve.NewArc(500, 7*math.Pi, curve.Right))
	line := must[*curve.Alignment](t)(curve.New(curve.Pose{}, a))
	pieces := checkPath(t, line, export.Range{}, export.View{}, 0.05)
	if pieces["A"] != 14 {
		t.Errorf("7 half turns in %d arcs, want 14", pieces["A"])
	}
}

func TestEasementsTakeFewPieces(t *testing.T) {
	_, pieces := sample(t, must[string](t)(export.Path(snake(t, false), export.Range{}, export.View{}, 0.1)), 1)
	if pieces["C"] > 44 {
		t.Errorf("%d cubics for 11 easements at 0.1 mm", pieces["C"])
	}
}

func TestPathRefuses(t *testing.T) {
	line := snake(t, false)
	for i, tt := range []struct {
		view export.View
		tol  measure.Length
	}{{export.View{}, 0}, {export.View{Scale: -1}, 1}, {export.View{Scale: math.NaN()}, 1}, {export.View{Origin: r2.Vec{X: math.Inf(1)}}, 1}, {export.View{}, 1e-30}} {
		if p, err := export.Path(line, export.Range{}, tt.view, tt.tol); !errors.Is(err, measure.ErrInput) {
			t.Errorf("case %d: Path = %q, %v", i, p, err)
		}
	}
	coil := must[curve.Element](t)(curve.NewArc(1, (export.MaxPoints+1)*math.Pi/2, curve.Left))
	coiled := must[*curve.Alignment](t)(curve.New(curve.Pose{}, coil))
	if p, err := export.Path(coiled, export.Range{}, export.View{}, 0.1); !errors.Is(err, measure.ErrLimit) {
		t.Errorf("too many arcs: %d bytes, %v", len(p), err)
	}
	if _, err := export.Path(nil, export.Range{}, export.View{}, 1); !errors.Is(err, measure.ErrInput) {
		t.Errorf("no line: %v", err)
	}
}
