package limit_test

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/limit"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

func garden(t testing.TB) *curve.Alignment {
	s := must[curve.Element](t)(curve.NewStraight(1500))
	b := must[[]curve.Element](t)(curve.Bend{Radius: 1500, Turn: 90 * measure.Degree, Hand: curve.Left, EaseIn: 600, EaseOut: 600}.Elements())
	return must[*curve.Alignment](t)(curve.New(curve.Pose{}, append(append([]curve.Element{s}, b...), s)...))
}

func route(t testing.TB) limit.Route {
	return limit.Route{Line: garden(t), Margin: 5, Structures: []clearance.Structure{
		{Name: "rockery", Kind: clearance.Tunnel, Faces: []clearance.Face{
			{Side: curve.Left, From: 2400, To: 3200, Offset: 68},
			{Side: curve.Right, From: 2400, To: 3200, Offset: 68},
		}, Roofs: []clearance.Roof{{From: 2400, To: 3200, Height: 150}}},
		{Name: "gatepost", Kind: clearance.Post, Faces: []clearance.Face{{Side: curve.Right, From: 1450, To: 1450, Offset: 60}}},
	}}
}

// spare is the least gap, less the margin, of a vehicle on the route.
func spare(t *testing.T, r limit.Route, v clearance.Vehicle, tol measure.Length) float64 {
	t.Helper()
	e := must[*clearance.Envelope](t)(clearance.Sweep(t.Context(), r.Line, []clearance.Vehicle{v}, clearance.Settings{Tolerance: tol}))
	least := math.Inf(1)
	for _, f := range must[[]clearance.Finding](t)(e.Audit(t.Context(), r.Structures, r.Margin)) {
		least = min(least, float64(f.Gap-r.Margin))
	}
	return least
}

func box(length, width, pivots measure.Length) clearance.Vehicle {
	return clearance.Bogie("coach", pivots, 80, clearance.Band{Name: "body", Bottom: 12, Top: 120, Outline: clearance.Box(length, width)})
}

func TestWidest(t *testing.T) {
	r := route(t)
	for _, w := range []measure.Length{30, 88, 150} { // from narrower and from wider
		got := must[limit.Largest](t)(r.Widest(t.Context(), box(614, w, 443)))
		// Forwards, with a vehicle made anew.
		if g := spare(t, r, box(614, got.Size, 443), 1e-3); math.Abs(g) > 1e-3 {
			t.Errorf("from %v: %v wide has %v to spare", w, float64(got.Size), g)
		}
		if g := spare(t, r, box(614, got.Size*1.001, 443), 1e-3); g >= 0 {
			t.Errorf("from %v: 0.1%% over %v has %v to spare", w, float64(got.Size), g)
		}
		if got.By.Structure != "rockery" {
			t.Errorf("by %+v", got.By)
		}
	}
	// On straight track by hand: half the width is the post's offset less the margin.
	r.Structures = []clearance.Structure{{Name: "gatepost", Kind: clearance.Post, Faces: []clearance.Face{{Side: curve.Right, From: 700, To: 700, Offset: 60}}}}
	if got := must[limit.Largest](t)(r.Widest(t.Context(), box(614, 88, 443))); math.Abs(float64(got.Size-110)) > 1e-6 || got.By.Structure != "gatepost" {
		t.Errorf("straight: %v by %v, want 110", float64(got.Size), got.By.Structure)
	}
	// Under a semicircle of 80 that springs 90 up a body 120 high has its corner
	// 75 from the arch's middle, 30 up: plane geometry.
	r.Structures = []clearance.Structure{{Name: "arch", Kind: clearance.Overbridge, Roofs: []clearance.Roof{{From: 600, To: 800, Height: 90, Rise: 80, Left: 80, Right: 80}}}}
	if got, want := must[limit.Largest](t)(r.Widest(t.Context(), box(614, 88, 443))), 2*math.Sqrt(75*75-30*30); math.Abs(float64(got.Size)-want) > 1e-6 || got.By.Structure != "arch" {
		t.Errorf("arch: %v by %v, want %v", float64(got.Size), got.By.Structure, want)
	}
}

// Many structures asked one by one admit what they do together, whichever of
// them limits it, on an open line and on a circuit, over whose start one stands.
func TestWidestOfMany(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	half := must[[]curve.Element](t)(curve.Bend{Radius: 1500, Turn: 180 * measure.Degree, Hand: curve.Left, EaseIn: 600, EaseOut: 600}.Elements())
	s := must[curve.Element](t)(curve.NewStraight(1500))
	circuit := must[*curve.Alignment](t)(curve.NewClosed(curve.Pose{}, 0.01, 1e-3, append(append(append([]curve.Element{s}, half...), s), half...)...))
	by := map[string]bool{}
	for n := range 16 {
		line := garden(t)
		if n%2 == 1 {
			line = circuit
		}
		route := limit.Route{Line: line, Margin: 5}
		for i, name := range []string{"wall", "girder", "post", "bridge", "fence"} {
			at := line.Length() * measure.Length(0.05+0.17*float64(i)+0.1*r.Float64())
			f := clearance.Face{Side: []curve.Hand{curve.Left, curve.Right}[r.IntN(2)], From: at, To: at + measure.Length(400*r.Float64()), Offset: measure.Length(60 + 20*r.Float64()), Top: 300}
			if i == 4 && line.Closed() {
				f.From, f.To = line.Length()-100, 100
			}
			route.Structures = append(route.Structures, clearance.Structure{Name: name, Kind: clearance.Wall, Faces: []clearance.Face{f}})
		}
		got := must[limit.Largest](t)(route.Widest(t.Context(), box(614, 88, 443)))
		by[got.By.Structure] = true
		if g := spare(t, route, box(614, got.Size, 443), 1e-3); math.Abs(g) > 2e-3 {
			t.Errorf("%d: %v wide has %v to spare", n, float64(got.Size), g)
		}
		if g := spare(t, route, box(614, got.Size*1.001, 443), 1e-3); g >= 0 {
			t.Errorf("%d: 0.1%% over %v has %v to spare", n, float64(got.Size), g)
		}
		if route.Structures[got.By.Index].Name != got.By.Structure {
			t.Errorf("%d: structure %d is not %s", n, got.By.Index, got.By.Structure)
		}
	}
	if len(by) < 3 {
		t.Errorf("only %v ever limit it", by)
	}
}

func TestLongest(t *testing.T) {
	r := route(t)
	for _, f := range []measure.Length{0.5, 1, 1.6} {
		got := must[limit.Largest](t)(r.Longest(t.Context(), box(614*f, 88, 443*f)))
		again := func(l measure.Length) clearance.Vehicle { return box(l, 88, l*443/614) }
		if g := spare(t, r, again(got.Size), 1e-3); math.Abs(g) > 1e-3 {
			t.Errorf("from %v: %v long has %v to spare", f, float64(got.Size), g)
		}
		if g := spare(t, r, again(got.Size*1.001), 1e-3); g >= 0 {
			t.Errorf("from %v: 0.1%% over %v has %v to spare", f, float64(got.Size), g)
		}
		for l := got.Size; l > 200; l *= 0.9 {
			if g := spare(t, r, again(l), 1e-3); g < -1e-3 {
				t.Errorf("from %v: %v, shorter than %v, fails by %v", f, float64(l), float64(got.Size), g)
			}
		}
	}
}

func TestLargestNoAnswers(t *testing.T) {
	r := route(t)
	low := r
	low.Structures = []clearance.Structure{{Name: "low bridge", Kind: clearance.Overbridge, Roofs: []clearance.Roof{{From: 1000, To: 1200, Height: 122}}}}
	high := low
	high.Structures = []clearance.Structure{{Name: "high bridge", Kind: clearance.Overbridge, Roofs: []clearance.Roof{{From: 1000, To: 1200, Height: 180}}}}
	for name, c := range map[string]struct {
		f    func() error
		says string
	}{
		"widest under":  {func() error { _, err := low.Widest(t.Context(), box(614, 88, 443)); return err }, "low bridge, which still lacks 3 mm at chainage 1000 mm: raise it by that"},
		"longest under": {func() error { _, err := low.Longest(t.Context(), box(614, 88, 443)); return err }, "low bridge"},
		"widest":        {func() error { _, err := high.Widest(t.Context(), box(614, 88, 443)); return err }, "limited by no structure"},
	} {
		if err := c.f(); !errors.Is(err, measure.ErrNoAnswer) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want no answer and %q", name, err, c.says)
		}
	}
	none := r
	none.Structures = nil
	wrong := r
	wrong.Margin = -1
	for name, f := range map[string]func() error{
		"none":    func() error { _, err := none.Widest(t.Context(), coach()); return err },
		"margin":  func() error { _, err := wrong.Longest(t.Context(), coach()); return err },
		"pattern": func() error { _, err := r.Widest(t.Context(), clearance.Vehicle{}); return err },
		"line":    func() error { _, err := limit.Route{Structures: r.Structures}.Widest(t.Context(), coach()); return err },
	} {
		if err := f(); !errors.Is(err, measure.ErrInput) {
			t.Errorf("%s: %v", name, err)
		}
	}
	ctx, stop := context.WithCancel(t.Context())
	stop()
	if _, err := r.Widest(ctx, coach()); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped: %v", err)
	}
}

// A vehicle that cannot stand on a bend far from every structure has no width,
// though it would pass them all.
func TestWidestMustStand(t *testing.T) {
	s := must[curve.Element](t)(curve.NewStraight(4000))
	a := must[curve.Element](t)(curve.NewArc(150, 180*measure.Degree, curve.Left))
	r := limit.Route{Line: must[*curve.Alignment](t)(curve.New(curve.Pose{}, s, a, s)), Margin: 5, Structures: []clearance.Structure{
		{Name: "gatepost", Kind: clearance.Post, Faces: []clearance.Face{{Side: curve.Right, From: 700, To: 700, Offset: 60}}},
	}}
	if w, err := r.Widest(t.Context(), box(614, 88, 443)); !errors.Is(err, measure.ErrNoAnswer) || !strings.Contains(err.Error(), "no size at which it runs here") {
		t.Errorf("%v wide, %v", float64(w.Size), err)
	}
	if w, err := r.Widest(t.Context(), box(200, 88, 140)); err != nil || math.Abs(float64(w.Size-110)) > 1e-6 {
		t.Errorf("one that stands: %v wide, %v", float64(w.Size), err)
	}
	// Farther off than half the vehicle is long.
	r.Line = must[*curve.Alignment](t)(curve.New(curve.Pose{}, s))
	r.Structures[0].Faces[0].Offset = 400
	if w, err := r.Widest(t.Context(), box(200, 88, 140)); err != nil || math.Abs(float64(w.Size-790)) > 1e-3 {
		t.Errorf("a post far off: %v wide, %v", float64(w.Size), err)
	}
}
