package design_test

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/design"
	"example.org/fourfoot/gauge/measure"
)

func tree(x, y float64) design.Obstacle {
	return design.Obstacle{Name: "tree", Points: []r2.Vec{{X: x, Y: y}}, Left: 150, Right: 100}
}

// A tree on the bisector of a right-angled corner, e from the intersection
// point: a plain bend of radius R passes it at e - R (√2 - 1) outside it, or at
// as much inside.
func TestFitPassesTreeOnEitherSide(t *testing.T) {
	const e, versed = 1000.0, math.Sqrt2 - 1
	c := corner(t, math.Pi/2, 5000, 5000)
	f := design.Fit{Obstacles: []design.Obstacle{tree(-e/math.Sqrt2, e/math.Sqrt2)}}
	got, err := f.Bend(context.Background(), c, design.Easing{})
	if err != nil {
		t.Fatal(err)
	}
	if len(got.Intervals) != 2 {
		t.Fatalf("intervals %+v, want two", got.Intervals)
	}
	near(t, "largest radius outside the tree", float64(got.Intervals[0].To.Radius), (e-150)/versed, 1e-4)
	near(t, "least radius inside the tree", float64(got.Intervals[1].From.Radius), (e+100)/versed, 1e-4)
	near(t, "largest radius", float64(got.Radius), 5000, 1e-4)
	if got.Intervals[0].To.By != "tree" || got.Intervals[1].From.By != "tree" || !strings.Contains(got.Intervals[1].To.By, "straights") {
		t.Errorf("bounds %+v", got.Intervals)
	}
}

// A post that needs 2 mm bars 10 mm of radii, far less than a step of the
// search, and so does the gap between two posts that leaves a few.
func TestFitFindsNarrowIntervals(t *testing.T) {
	const versed = math.Sqrt2 - 1
	post := func(e, need float64) design.Obstacle {
		return design.Obstacle{Points: []r2.Vec{{X: -e / math.Sqrt2, Y: e / math.Sqrt2}}, Left: measure.Length(need), Right: measure.Length(need)}
	}
	c := corner(t, math.Pi/2, 5000, 5000)
	got, err := design.Fit{Obstacles: []design.Obstacle{post(1000, 2)}}.Bend(context.Background(), c, design.Easing{})
	if err != nil || len(got.Intervals) != 2 {
		t.Fatalf("one post: intervals %+v, %v; want two", got.Intervals, err)
	}
	near(t, "to the post", float64(got.Intervals[0].To.Radius), 998/versed, 1e-4)
	near(t, "from the post", float64(got.Intervals[1].From.Radius), 1002/versed, 1e-4)
	got, err = design.Fit{MinRadius: 1500, MaxRadius: 4000, Obstacles: []design.Obstacle{post(800, 299), post(1400, 299)}}.Bend(context.Background(), c, design.Easing{})
	if err != nil || len(got.Intervals) != 1 {
		t.Fatalf("between two posts: intervals %+v, %v; want one", got.Intervals, err)
	}
	near(t, "from the first post", float64(got.Intervals[0].From.Radius), 1099/versed, 1e-4)
	near(t, "to the second post", float64(got.Intervals[0].To.Radius), 1101/versed, 1e-4)
}

// A fence round the whole place is no obstacle; a solid of the same corners is,
// and so is a wall across the line, even one that needs no room.
func TestFitFenceAndSolid(t *testing.T) {
	c := corner(t, 1, 2000, 2000)
	fence := design.Obstacle{Points: []r2.Vec{{X: -9000, Y: -9000}, {X: 9000, Y: -9000}, {X: 9000, Y: 9000}, {X: -9000, Y: 9000}, {X: -9000, Y: -9000}}, Left: 100, Right: 100}
	if _, err := (design.Fit{Obstacles: []design.Obstacle{fence}}).Bend(context.Background(), c, design.Easing{}); err != nil {
		t.Errorf("fence: %v", err)
	}
	fence.Solid, fence.Points, fence.Left, fence.Right = true, fence.Points[:4], 0, 0
	var none *design.NoFitError
	if _, err := (design.Fit{Obstacles: []design.Obstacle{fence}}).Bend(context.Background(), c, design.Easing{}); !errors.As(err, &none) {
		t.Errorf("solid: %v", err)
	} else if d := float64(none.Moves[0].Distance); d < 8000 || d > 12000 {
		t.Errorf("solid: moves %+v", none.Moves)
	}
	wall := design.Obstacle{Points: []r2.Vec{{X: -1990, Y: 70}, {X: -1990, Y: -50}}}
	if _, err := (design.Fit{Obstacles: []design.Obstacle{wall}}).Bend(context.Background(), c, design.Easing{}); !errors.As(err, &none) {
		t.Errorf("wall across: %v", err)
	} else {
		near(t, "least move of the wall", float64(none.Moves[0].Distance), 50, 1e-3)
	}
}

// A wall square to the bisector of a right-handed corner, its middle e from the
// intersection point. Inside it (with the wall on the left) the crown must
// clear the wall's middle, R (√2 - 1) - e; outside it the wall's ends, nearest
// to the arc, are R - hypot(R √2 - e, half) from it.
func TestFitWallAcrossCorner(t *testing.T) {
	const e, need, half, versed = 400.0, 120.0, 70.0, math.Sqrt2 - 1
	c := corner(t, -math.Pi/2, 4000, 4000)
	end := func(k float64) r2.Vec {
		return r2.Vec{X: -e/math.Sqrt2 + k*half/math.Sqrt2, Y: -e/math.Sqrt2 - k*half/math.Sqrt2}
	}
	f := design.Fit{Obstacles: []design.Obstacle{{Points: []r2.Vec{end(-1), end(1)}, Left: need, Right: need}}}
	got, err := f.Bend(context.Background(), c, design.Easing{})
	if err != nil {
		t.Fatal(err)
	}
	if len(got.Intervals) != 2 {
		t.Fatalf("intervals %+v, want two", got.Intervals)
	}
	r := float64(got.Intervals[0].To.Radius)
	near(t, "room outside the wall", r-math.Hypot(r*math.Sqrt2-e, half), need, 1e-5)
	near(t, "least radius inside the wall", float64(got.Intervals[1].From.Radius), (e+need)/versed, 1e-4)
	if by := got.Intervals[0].To.By; by != "obstacle 1" {
		t.Errorf("bounded by %q", by)
	}
}

// gridClear tells by dense sampling whether a line keeps clear, with a
// tolerance; it shares no code with the package.
func gridClear(a *curve.Alignment, obstacles []design.Obstacle, slip float64) bool {
	const step = 4
	n := int(a.Length()/step) + 1
	pts := make([]curve.Station, n+1)
	for i := range pts {
		pts[i] = a.At(a.Length() * measure.Length(i) / measure.Length(n))
	}
	for _, o := range obstacles {
		var edge []r2.Vec
		m := len(o.Points)
		for i, p := range o.Points {
			q := o.Points[(i+1)%m]
			if !o.Solid && i == m-1 {
				q = p
			}
			k := int(r2.Norm(r2.Sub(q, p))/step) + 1
			for j := 0; j <= k; j++ {
				edge = append(edge, r2.Add(p, r2.Scale(float64(j)/float64(k), r2.Sub(q, p))))
			}
		}
		for _, x := range edge {
			best, side := math.Inf(1), 0.0
			for _, s := range pts {
				d := r2.Sub(x, s.Point)
				if r := r2.Norm(d); r < best {
					best, side = r, s.Tangent.X*d.Y-s.Tangent.Y*d.X
				}
			}
			need := float64(o.Left)
			if side < 0 {
				need = float64(o.Right)
			}
			if best < need-slip {
				return false
			}
		}
	}
	return true
}

// garden returns obstacles about the bends of a corner.
func garden(rng *rand.Rand, c design.Corner) []design.Obstacle {
	var out []design.Obstacle
	largest, err := c.Largest(design.Easing{})
	if err != nil {
		return nil
	}
	for range 1 + rng.IntN(4) {
		b, err := c.ByRadius(largest.Radius*measure.Length(0.1+0.9*rng.Float64()), design.Easing{})
		if err != nil {
			return nil
		}
		p := r2.Add(b.Crown, r2.Vec{X: 600 * (rng.Float64() - 0.5), Y: 600 * (rng.Float64() - 0.5)})
		need := measure.Length(60 + 100*rng.Float64())
		o := design.Obstacle{Left: need, Right: need}
		switch rng.IntN(3) {
		case 0:
			o.Points = []r2.Vec{p}
			o.Right = need * 0.8
		case 1:
			o.Points = []r2.Vec{p, r2.Add(p, r2.Vec{X: 600 * (rng.Float64() - 0.5), Y: 600 * (rng.Float64() - 0.5)})}
		case 2:
			w, h := 50+200*rng.Float64(), 50+200*rng.Float64()
			o.Points = []r2.Vec{p, {X: p.X + w, Y: p.Y}, {X: p.X + w, Y: p.Y + h}, {X: p.X, Y: p.Y + h}}
			o.Solid = true
		}
		out = append(out, o)
	}
	return out
}

func TestFitBendAgainstGrid(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 13))
	ctx := context.Background()
	several, none := 0, 0
	for i := range 24 {
		turn := (0.5 + 1.8*rng.Float64()) * sign(rng)
		c := corner(t, turn, 3000, 3500)
		ease := design.Ease(shapes[i%5], measure.Length(rng.IntN(2)*300))
		f := design.Fit{Obstacles: garden(rng, c)}
		got, err := f.Bend(ctx, c, ease)
		if err != nil && !errors.Is(err, measure.ErrNoAnswer) {
			t.Fatal(err)
		}
		if len(got.Intervals) > 1 {
			several++
		}
		if err != nil {
			none++
		}
		largest, err := c.Largest(ease)
		if err != nil {
			t.Fatal(err)
		}
		least := max(float64(largest.Radius)/100, float64(ease.In)/math.Abs(turn))
		for k := range 60 {
			r := measure.Length(least + (float64(largest.Radius)-least)*(float64(k)+0.5)/60)
			b, err := c.ByRadius(r, ease)
			if err != nil {
				t.Fatal(err)
			}
			whole := design.Line{Start: curve.Pose{Point: r2.Vec{X: -3000}}}
			in, _ := curve.NewStraight(3000 - b.TangentIn)
			out, _ := curve.NewStraight(3500 - b.TangentOut)
			whole.Elements = append(append([]curve.Element{in}, b.Elements()...), out)
			a := aligned(t, whole)
			inside, edge := false, false
			for _, iv := range got.Intervals {
				inside = inside || r >= iv.From.Radius && r <= iv.To.Radius
				edge = edge || math.Abs(float64(r-iv.From.Radius)) < 5 || math.Abs(float64(r-iv.To.Radius)) < 5
			}
			if edge {
				continue
			}
			if inside && !gridClear(a, f.Obstacles, 0.1) {
				t.Errorf("case %d: radius %v is in an interval %+v, but fouls", i, r, got.Intervals)
			}
			if !inside && gridClear(a, f.Obstacles, -0.1) {
				t.Errorf("case %d: radius %v is in no interval %+v, but keeps clear", i, r, got.Intervals)
			}
		}
	}
	if several < 4 || none < 2 {
		t.Errorf("%d cases of several intervals and %d of none: too few to tell", several, none)
	}
}

// Mirrored and scaled, a garden gives the same intervals so changed.
func TestFitSymmetries(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 17))
	ctx := context.Background()
	for range 10 {
		turn := 1.3 * sign(rng)
		c := corner(t, turn, 3000, 3000)
		f := design.Fit{Obstacles: garden(rng, c), Resolution: 0.5}
		want, err1 := f.Bend(ctx, c, design.Ease(curve.Sine, 200))
		const k = 3.0
		m := design.Fit{Resolution: 0.5 * k}
		for _, o := range f.Obstacles {
			p := design.Obstacle{Solid: o.Solid, Left: k * o.Right, Right: k * o.Left}
			for _, x := range o.Points {
				p.Points = append(p.Points, r2.Vec{X: k * x.X, Y: -k * x.Y})
			}
			m.Obstacles = append(m.Obstacles, p)
		}
		got, err2 := m.Bend(ctx, corner(t, -turn, k*3000, k*3000), design.Ease(curve.Sine, k*200))
		if (err1 == nil) != (err2 == nil) || len(got.Intervals) != len(want.Intervals) {
			t.Errorf("intervals %+v (%v), mirrored and scaled %+v (%v)", want.Intervals, err1, got.Intervals, err2)
			continue
		}
		for i, w := range want.Intervals {
			near(t, "from", float64(got.Intervals[i].From.Radius)/k, float64(w.From.Radius), 1e-3)
			near(t, "to", float64(got.Intervals[i].To.Radius)/k, float64(w.To.Radius), 1e-3)
		}
	}
}

func TestFitJoinKeepsClear(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 14))
	ctx := context.Background()
	fitted := 0
	for i := range 10 {
		j := design.Join{
			From: curve.Pose{Point: r2.Vec{X: -3000}}, To: curve.Pose{Point: r2.Vec{X: 3000, Y: 1500 * (rng.Float64() - 0.5)}, Heading: measure.Angle(rng.Float64() - 0.5)},
			Family: families[i%2], Ease: measure.Length(rng.IntN(2) * 200), MaxLength: 9000,
		}
		f := design.Fit{Obstacles: garden(rng, corner(t, 1.5*sign(rng), 4000, 4000)), MinRadius: 600, MaxRadius: 30000}
		for _, o := range f.Obstacles {
			for k := range o.Points { // from about the corner to between the poses
				o.Points[k] = r2.Scale(2, o.Points[k])
			}
		}
		got, err := f.Join(ctx, j)
		if err != nil {
			if !errors.Is(err, measure.ErrNoAnswer) {
				t.Error(err)
			}
			continue
		}
		fitted++
		a := aligned(t, got.Line)
		meets(t, "end", a.End(), j.To, 1e-6)
		if !gridClear(a, f.Obstacles, 0.1) {
			t.Errorf("case %d: the line fouls", i)
		}
		free, err := j.Line(ctx)
		if err != nil {
			t.Errorf("case %d: %v without obstacles", i, err)
		} else if got.Radius > free.Radius*(1+1e-6) {
			t.Errorf("case %d: radius %v among obstacles, %v without", i, got.Radius, free.Radius)
		}
		for _, iv := range got.Intervals {
			if iv.To.Radius < iv.From.Radius || iv.To.Radius > got.Radius {
				t.Errorf("case %d: interval %+v, largest %v", i, iv, got.Radius)
			}
		}
	}
	if fitted < 4 {
		t.Errorf("only %d of 10 fitted", fitted)
	}
}

// Where nothing fits, moving what the error names as it says makes that radius
// fit.
func TestNoFitTellsTheMove(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 15))
	ctx := context.Background()
	tried := 0
	for range 30 {
		c := corner(t, 1.2*sign(rng), 3000, 3000)
		f := design.Fit{Obstacles: garden(rng, c), MinRadius: 2500}
		ease := design.Ease(curve.Clothoid, 200)
		_, err := f.Bend(ctx, c, ease)
		var none *design.NoFitError
		if !errors.As(err, &none) {
			continue
		}
		tried++
		if !errors.Is(err, measure.ErrNoAnswer) || len(none.Moves) == 0 || !strings.Contains(err.Error(), none.Moves[0].Name) {
			t.Errorf("error %v", err)
		}
		moved := f
		moved.Obstacles = append([]design.Obstacle(nil), f.Obstacles...)
		for _, m := range none.Moves {
			o := &moved.Obstacles[m.Obstacle]
			pts := make([]r2.Vec, len(o.Points))
			for i, p := range o.Points {
				pts[i] = r2.Add(p, r2.Scale(float64(m.Distance)+0.01, unit(m.Heading)))
			}
			o.Points = pts
		}
		moved.MinRadius = none.Radius - 2
		moved.MaxRadius = none.Radius + 2
		if _, err := moved.Bend(ctx, c, ease); err != nil {
			t.Errorf("after the moves %+v for radius %v: %v", none.Moves, none.Radius, err)
		}
		// Moved by less it must not fit at that radius.
		first := none.Moves[0]
		less := f
		less.Obstacles = append([]design.Obstacle(nil), f.Obstacles...)
		o := &less.Obstacles[first.Obstacle]
		pts := make([]r2.Vec, len(o.Points))
		for i, p := range o.Points {
			pts[i] = r2.Add(p, r2.Scale(float64(first.Distance)*0.98-0.1, unit(first.Heading)))
		}
		o.Points = pts
		less.MinRadius, less.MaxRadius = none.Radius-0.001, none.Radius+0.001
		if _, err := less.Bend(ctx, c, ease); err == nil && first.Distance > 1 {
			t.Errorf("moved by less than %+v it fits too", first)
		}
	}
	if tried < 5 {
		t.Errorf("only %d cases without a fit", tried)
	}
}

func TestFitRefuses(t *testing.T) {
	ctx := context.Background()
	c := corner(t, 1, 1000, 1000)
	nan := math.NaN()
	for name, row := range map[string]struct {
		f    design.Fit
		kind error
	}{
		"no points":   {design.Fit{Obstacles: []design.Obstacle{{}}}, measure.ErrInput},
		"NaN point":   {design.Fit{Obstacles: []design.Obstacle{{Points: []r2.Vec{{X: nan}}}}}, measure.ErrInput},
		"negative":    {design.Fit{Obstacles: []design.Obstacle{{Points: []r2.Vec{{}}, Left: -1}}}, measure.ErrInput},
		"solid line":  {design.Fit{Obstacles: []design.Obstacle{{Points: []r2.Vec{{}, {X: 1}}, Solid: true}}}, measure.ErrInput},
		"too many":    {design.Fit{Obstacles: []design.Obstacle{{Points: make([]r2.Vec, design.MaxObstaclePoints+1)}}}, measure.ErrLimit},
		"much work":   {design.Fit{MaxWork: 1000}, measure.ErrLimit},
		"no work":     {design.Fit{MaxWork: -1}, measure.ErrInput},
		"range":       {design.Fit{MinRadius: 1e6}, measure.ErrNoAnswer},
		"NaN radius":  {design.Fit{MaxRadius: measure.Length(nan)}, measure.ErrInput},
		"on the line": {design.Fit{Obstacles: []design.Obstacle{{Name: "post", Points: []r2.Vec{{X: -990, Y: 1}}, Left: 50, Right: 50}}}, measure.ErrNoAnswer},
	} {
		_, err := row.f.Bend(ctx, c, design.Easing{})
		if !errors.Is(err, row.kind) {
			t.Errorf("%s: error %v, want %v", name, err, row.kind)
		}
	}
	// Nothing bounds the radius of a line between poses nearly in line.
	_, err := design.Fit{}.Join(ctx, design.Join{To: curve.Pose{Point: r2.Vec{X: 1000, Y: 1e-5}}})
	if !errors.Is(err, measure.ErrNoAnswer) || !strings.Contains(err.Error(), "nothing bounds") {
		t.Errorf("nothing bounds the radius: error %v", err)
	}
	done, cancel := context.WithCancel(ctx)
	cancel()
	if _, err := (design.Fit{}).Bend(done, c, design.Easing{}); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: error %v", err)
	}
}

func FuzzFitBend(f *testing.F) {
	f.Add(1.0, 2000.0, 3000.0, 100.0, -700.0, 300.0, -400.0, 500.0, 80.0, 60.0, true)
	f.Fuzz(func(t *testing.T, turn, in, out, ease, x, y, x2, y2, left, right float64, solid bool) {
		s, c := math.Sincos(turn)
		k, err := design.CornerOf(r2.Vec{X: -in}, r2.Vec{}, r2.Vec{X: out * c, Y: out * s})
		if err != nil {
			return
		}
		ft := design.Fit{Resolution: 20, Obstacles: []design.Obstacle{
			{Points: []r2.Vec{{X: x, Y: y}, {X: x2, Y: y2}, {X: x2, Y: y}}, Solid: solid, Left: measure.Length(left), Right: measure.Length(right)},
		}}
		got, err := ft.Bend(context.Background(), k, design.Ease(curve.Bloss, measure.Length(ease)))
		if err != nil {
			return
		}
		a, err := got.Alignment()
		if err != nil {
			t.Fatal(err)
		}
		// The points themselves keep the smaller distance.
		for _, p := range ft.Obstacles[0].Points {
			if d := math.Abs(float64(a.Nearest(p).Offset)); d < min(left, right)-1e-6*(1+in+out) {
				t.Errorf("point %v is %v from the line, wants %v or %v", p, d, left, right)
			}
		}
	})
}

func BenchmarkFitBend(b *testing.B) {
	rng := rand.New(rand.NewPCG(3, 16))
	c, err := design.CornerOf(r2.Vec{X: -4000}, r2.Vec{}, r2.Vec{X: 2000, Y: 3500})
	if err != nil {
		b.Fatal(err)
	}
	var f design.Fit
	for range 5 {
		f.Obstacles = append(f.Obstacles, garden(rng, c)...)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := f.Bend(context.Background(), c, design.Ease(curve.Bloss, 300)); err != nil && !errors.Is(err, measure.ErrNoAnswer) {
			b.Fatal(err)
		}
	}
}
