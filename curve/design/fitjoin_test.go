package design_test

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/design"
	"example.org/fourfoot/gauge/measure"
)

// plainJoins returns every plain arc, straight, arc of two radii and the given
// hands between two poses, each turn under 180°: the heading of the straight is
// scanned and refined, the rest follows. It shares no code with the package.
func plainJoins(t *testing.T, from, to curve.Pose, ra, rb float64, h1, h2 curve.Hand) []*curve.Alignment {
	t.Helper()
	s1, s2 := float64(h1), float64(h2)
	ends := func(turn float64) (q, e r2.Vec, h, t2 float64) {
		h = float64(from.Heading) + s1*turn
		c1 := r2.Add(from.Point, r2.Scale(s1*ra, unit(from.Heading+math.Pi/2)))
		q = r2.Sub(c1, r2.Scale(s1*ra, unit(measure.Angle(h)+math.Pi/2)))
		c2 := r2.Add(to.Point, r2.Scale(s2*rb, unit(to.Heading+math.Pi/2)))
		e = r2.Sub(c2, r2.Scale(s2*rb, unit(measure.Angle(h)+math.Pi/2)))
		t2 = math.Mod(s2*(float64(to.Heading)-h)+8*math.Pi, 2*math.Pi)
		return q, e, h, t2
	}
	miss := func(turn float64) float64 {
		q, e, h, _ := ends(turn)
		return offTangent(e, curve.Pose{Point: q, Heading: measure.Angle(h)})
	}
	var out []*curve.Alignment
	const n = 360
	for i := range n {
		a, b := math.Pi*float64(i)/n, math.Pi*float64(i+1)/n
		if miss(a)*miss(b) > 0 {
			continue
		}
		for range 60 {
			m := (a + b) / 2
			if miss(a)*miss(m) <= 0 {
				b = m
			} else {
				a = m
			}
		}
		q, e, h, t2 := ends(a)
		along := r2.Dot(r2.Sub(e, q), unit(measure.Angle(h)))
		if along < 1e-6 || t2 >= math.Pi || t2 < 1e-9 || a < 1e-9 {
			continue
		}
		var el []curve.Element
		for _, x := range []struct {
			radius, turn float64
			hand         curve.Hand
		}{{ra, a, h1}, {}, {rb, t2, h2}} {
			var p curve.Element
			var err error
			if x.hand == 0 {
				p, err = curve.NewStraight(measure.Length(along))
			} else {
				p, err = curve.NewArc(measure.Length(x.radius), measure.Angle(x.turn), x.hand)
			}
			if err != nil {
				t.Fatal(err)
			}
			el = append(el, p)
		}
		l, err := curve.New(from, el...)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, l)
	}
	return out
}

// plainTwo returns every two plain arcs that touch, the first of a given radius
// and hand, the second no sharper, each turn under 180°: the turn of the first
// is scanned and refined, the second is the arc that touches there and passes
// the second point. It shares no code with the package.
func plainTwo(t *testing.T, from, to curve.Pose, r float64, hand curve.Hand) []*curve.Alignment {
	t.Helper()
	second := func(turn float64) (k, t2, miss float64) {
		arc, err := curve.NewArc(measure.Length(r), measure.Angle(turn), hand)
		if err != nil {
			t.Fatal(err)
		}
		a, err := curve.New(from, arc)
		if err != nil {
			t.Fatal(err)
		}
		d := r2.Sub(to.Point, a.End().Point)
		off := offTangent(to.Point, a.End())
		k = 2 * off / r2.Norm2(d)
		t2 = 2 * math.Atan2(off, r2.Dot(d, unit(a.End().Heading)))
		return k, t2, wrap(float64(a.End().Heading-to.Heading) + t2)
	}
	var out []*curve.Alignment
	const n = 360
	for i := range n {
		a, b := math.Pi*(float64(i)+1e-6)/n, math.Pi*(float64(i)+1)/n
		_, _, ma := second(a)
		_, _, mb := second(b)
		if ma*mb > 0 || math.Abs(ma-mb) > 1 {
			continue
		}
		for range 60 {
			m := (a + b) / 2
			if _, _, mm := second(m); ma*mm <= 0 {
				b = m
			} else {
				a, ma = m, mm
			}
		}
		k, t2, _ := second(a)
		if math.Abs(t2) >= math.Pi || math.Abs(k) > 1/r || k == 0 || math.Abs(t2) < 1e-9 {
			continue
		}
		e1, err1 := curve.NewArc(measure.Length(r), measure.Angle(a), hand)
		e2, err2 := curve.NewArc(measure.Length(1/math.Abs(k)), measure.Angle(math.Abs(t2)), curve.Hand(math.Copysign(1, k)))
		l, err := curve.New(from, e1, e2)
		if err := errors.Join(err1, err2, err); err != nil {
			t.Fatal(err)
		}
		out = append(out, l)
	}
	return out
}

// gridLines returns the lines of a family with the smaller radius q; of three
// parts, some of them.
func gridLines(t *testing.T, j design.Join, q float64) []*curve.Alignment {
	t.Helper()
	var out []*curve.Alignment
	hands := []curve.Hand{curve.Left, curve.Right}
	back := func(p curve.Pose) curve.Pose {
		return curve.Pose{Point: p.Point, Heading: p.Heading + math.Pi}
	}
	for _, h1 := range hands {
		if j.Family == design.TwoArcs {
			out = append(out, plainTwo(t, j.From, j.To, q, h1)...)
			for _, a := range plainTwo(t, back(j.To), back(j.From), q, h1) {
				out = append(out, a.Reverse())
			}
			continue
		}
		for _, h2 := range hands {
			for m := range 7 {
				r := q * math.Pow(1.3, float64(m))
				out = append(out, plainJoins(t, j.From, j.To, q, r, h1, h2)...)
				if m > 0 {
					out = append(out, plainJoins(t, j.From, j.To, r, q, h1, h2)...)
				}
			}
		}
	}
	return out
}

// Over a grid of both radii every line that keeps clear must have its smaller
// radius in an interval; and each interval, asked for one of its radii, must
// give a line that has it and, evaluated, keeps clear.
func TestFitJoinAgainstGrid(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 18))
	ctx := context.Background()
	found, unequal := 0, 0
	for i := range 12 {
		j := design.Join{
			From: curve.Pose{Point: r2.Vec{X: -3000}}, To: curve.Pose{Point: r2.Vec{X: 3000, Y: 3000 * (rng.Float64() - 0.5)}, Heading: measure.Angle(2 * (rng.Float64() - 0.5))},
			Family: families[i%2],
		}
		f := design.Fit{MinRadius: 300, MaxRadius: 6000}
		for range 4 {
			p := r2.Vec{X: 4000 * (rng.Float64() - 0.5), Y: 2500 * (rng.Float64() - 0.5)}
			f.Obstacles = append(f.Obstacles, design.Obstacle{Points: []r2.Vec{p, r2.Add(p, r2.Vec{X: 300})}, Left: 150, Right: 150})
		}
		got, err := f.Join(ctx, j)
		if err != nil && !errors.Is(err, measure.ErrNoAnswer) {
			t.Fatal(err)
		}
		for _, iv := range got.Intervals {
			at := iv.From.Radius + (iv.To.Radius-iv.From.Radius)*measure.Length(0.1+0.8*rng.Float64())
			only := f
			only.MinRadius, only.MaxRadius = at*(1-1e-9), at
			one, err := only.Join(ctx, j)
			if err != nil {
				t.Errorf("case %d, interval %+v, radius %v: %v", i, iv, at, err)
				continue
			}
			a := aligned(t, one.Line)
			meets(t, "end", a.End(), j.To, 1e-6)
			near(t, "smaller radius", float64(min(one.Arcs[0].Radius, one.Arcs[1].Radius)), float64(at), 1e-5*float64(at))
			if !gridClear(a, f.Obstacles, 0.1) {
				t.Errorf("case %d, interval %+v: the line of radius %v fouls", i, iv, at)
			}
		}
		for k := range 12 {
			q := 300 + 5700*(float64(k)+0.5)/12
			for _, a := range gridLines(t, j, q) {
				if j.MaxLength > 0 && a.Length() > j.MaxLength || !gridClear(a, f.Obstacles, -0.1) {
					continue
				}
				e := a.Elements()
				first, last := e[0].StartCurvature(), e[len(e)-1].EndCurvature()
				h := [2]curve.Hand{curve.Hand(math.Copysign(1, float64(first))), curve.Hand(math.Copysign(1, float64(last)))}
				inside := false
				for _, iv := range got.Intervals {
					inside = inside || iv.Hands == h && q >= float64(iv.From.Radius)-5 && q <= float64(iv.To.Radius)+5
				}
				found++
				if math.Abs(math.Abs(float64(first/last))-1) > 0.01 {
					unequal++
				}
				if !inside {
					t.Errorf("case %d, %v: curvatures %v and %v keep clear but are in no interval\n%+v", i, j.Family, first, last, got.Intervals)
				}
			}
		}
	}
	if found < 150 || unequal < 100 {
		t.Errorf("only %d lines found, %d of them of unequal radii", found, unequal)
	}
}

// Two posts beside the first of two arcs, of radius q about (0, q): one at p
// that needs n bars what has | |p - (0, q)| - q | < n, that is q from
// (p² - n²)/2(y + n) to (p² - n²)/2(y - n). Between two of them a window of
// radii is left, here down to a two-hundredth of a millimetre of room.
func TestFitJoinBetweenPosts(t *testing.T) {
	const n = 10.0
	post := func(from, to float64) design.Obstacle {
		y := n * (to/from + 1) / (to/from - 1)
		x := math.Sqrt(n*n + 2*from*(y+n) - y*y)
		return design.Obstacle{Points: []r2.Vec{{X: x, Y: y}}, Left: n, Right: n}
	}
	j := design.Join{To: curve.Pose{Point: r2.Vec{X: 2000, Y: 3000}, Heading: math.Pi / 2}}
	for _, row := range []struct{ window, resolution float64 }{{1.2, 0}, {0.05, 0.02}} {
		lo, hi := 1200-row.window/2, 1200+row.window/2
		f := design.Fit{MinRadius: 900, MaxRadius: 1900, Resolution: measure.Length(row.resolution), Obstacles: []design.Obstacle{post(1000, lo), post(hi, 1400)}}
		got, err := f.Join(context.Background(), j)
		if err != nil {
			t.Fatal(err)
		}
		var left []design.Interval // with the second arc to the right the posts are not in the way
		for _, iv := range got.Intervals {
			if iv.Hands[1] == curve.Left {
				left = append(left, iv)
			}
		}
		if len(left) != 3 {
			t.Errorf("window of %v mm: intervals %+v, want three", row.window, left)
			continue
		}
		for i, want := range [3][2]float64{{900, 1000}, {lo, hi}, {1400, 1900}} {
			near(t, "from", float64(left[i].From.Radius), want[0], 1e-3)
			near(t, "to", float64(left[i].To.Radius), want[1], 1e-3)
		}
		if a, b := left[1].From.By, left[1].To.By; a != "obstacle 1" || b != "obstacle 2" {
			t.Errorf("the window lies between %q and %q", a, b)
		}
	}
}

// A tree inside the first arc leaves a larger smaller radius to two unequal
// ones than to two equal ones.
func TestFitJoinUnequalIsBetter(t *testing.T) {
	j := design.Join{To: curve.Pose{Point: r2.Vec{X: 5000, Y: 2000}, Heading: 0.3}, Family: design.ArcStraightArc}
	f := design.Fit{MaxRadius: 20000, Obstacles: []design.Obstacle{{Points: []r2.Vec{{X: 2500, Y: 600}}, Left: 200, Right: 200}}}
	got, err := f.Join(context.Background(), j)
	if err != nil {
		t.Fatal(err)
	}
	a := aligned(t, got.Line)
	meets(t, "end", a.End(), j.To, 1e-6)
	if !gridClear(a, f.Obstacles, 0.1) {
		t.Error("the line fouls")
	}
	equal := 0.0
	for q := 100.0; q < 12000; q += 40 {
		for _, h1 := range []curve.Hand{curve.Left, curve.Right} {
			for _, h2 := range []curve.Hand{curve.Left, curve.Right} {
				for _, a := range plainJoins(t, j.From, j.To, q, q, h1, h2) {
					if gridClear(a, f.Obstacles, 0) {
						equal = q
					}
				}
			}
		}
	}
	t.Logf("radii %v and %v; equal ones %v", got.Arcs[0].Radius, got.Arcs[1].Radius, equal)
	if equal < 500 || float64(got.Radius) < equal*1.1 {
		t.Errorf("radius %v, of equal ones %v fits", got.Radius, equal)
	}
}

// A tree beside the first arc bounds it, whatever the second: the second is
// then as large as fits.
func TestFitJoinOtherIsLargest(t *testing.T) {
	j := design.Join{To: curve.Pose{Point: r2.Vec{X: 5000, Y: 2000}, Heading: 0.3}, Family: design.ArcStraightArc}
	f := design.Fit{MaxRadius: 20000, Obstacles: []design.Obstacle{{Points: []r2.Vec{{X: 1700, Y: 200}}, Left: 200, Right: 200}}}
	got, err := f.Join(context.Background(), j)
	if err != nil {
		t.Fatal(err)
	}
	q := float64(got.Radius)
	largest := 0.0
	for r := q; r < 4*q; r *= 1.002 {
		for _, a := range plainJoins(t, j.From, j.To, q*(1-1e-6), r, got.Arcs[0].Hand, got.Arcs[1].Hand) {
			if gridClear(a, f.Obstacles, 0.01) {
				largest = r
			}
		}
	}
	if other := float64(got.Arcs[1].Radius); other < largest || other > largest*1.01 || largest < 2*q {
		t.Errorf("radius %v beside %v, the grid finds %v", other, q, largest)
	}
}

func FuzzFitJoin(f *testing.F) {
	f.Add(4500.0, 1500.0, 0.0, 200.0, 2000.0, -100.0, 2500.0, 150.0, 150.0, uint8(1))
	f.Add(2000.0, 3000.0, 1.5, 0.0, 480.0, 110.0, 480.0, 110.0, 40.0, uint8(0))
	f.Fuzz(func(t *testing.T, x, y, heading, ease, x1, y1, x2, y2, need float64, family uint8) {
		j := design.Join{To: curve.Pose{Point: r2.Vec{X: x, Y: y}, Heading: measure.Angle(heading)}, Family: design.Family(family), Ease: measure.Length(ease)}
		ft := design.Fit{
			Resolution: 50, MaxWork: 20000, MinRadius: 200, MaxRadius: 8000,
			Obstacles: []design.Obstacle{{Points: []r2.Vec{{X: x1, Y: y1}, {X: x2, Y: y2}}, Left: measure.Length(need), Right: measure.Length(need)}},
		}
		got, err := ft.Join(context.Background(), j)
		if err != nil {
			if !errors.Is(err, measure.ErrInput) && !errors.Is(err, measure.ErrNoAnswer) && !errors.Is(err, measure.ErrLimit) {
				t.Fatalf("error of no kind: %v", err)
			}
			return
		}
		a, err := got.Alignment()
		if err != nil {
			t.Fatal(err)
		}
		scale := float64(a.Length()) + math.Hypot(x, y)
		if d := r2.Norm(r2.Sub(a.End().Point, j.To.Point)); d > 1e-7*scale {
			t.Errorf("ends %g mm off", d)
		}
		for _, p := range ft.Obstacles[0].Points {
			if d := math.Abs(float64(a.Nearest(p).Offset)); d < need-1e-6*scale {
				t.Errorf("point %v is %v from the line, wants %v", p, d, need)
			}
		}
	})
}

func BenchmarkFitJoin(b *testing.B) {
	rng := rand.New(rand.NewPCG(3, 21))
	f := design.Fit{MaxRadius: 10000}
	for range 20 {
		p := r2.Vec{X: 4000 * rng.Float64(), Y: 800 + 4000*rng.Float64()}
		f.Obstacles = append(f.Obstacles, design.Obstacle{Points: []r2.Vec{p, r2.Add(p, r2.Vec{X: 100})}, Left: 80, Right: 80})
	}
	for _, family := range families {
		b.Run(family.String(), func(b *testing.B) {
			j := design.Join{To: curve.Pose{Point: r2.Vec{X: 5000, Y: 1000}, Heading: 0.3}, Family: family, Ease: 300, MaxLength: 6000}
			b.ReportAllocs()
			for b.Loop() {
				if _, err := f.Join(context.Background(), j); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
