package passing_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/passing"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// A cloud is where the outline of a rigid box on two axles has been: dense
// poses, points of the outline 1 mm apart, on a centreline of its own
// integration; of them, in each tenth of a millimetre along x, the one farthest
// to a side. It shares no code with the package.
type cloud struct {
	up  float64 // +1 keeps the largest y, -1 the least
	pts map[int]r2.Vec
}

const bin = 0.1

func newCloud(up float64, start curve.Pose, k func(s float64) float64, length, wheelbase, body, width float64) cloud {
	const h = 0.5
	var x, y []float64
	px, py, th := start.Point.X, start.Point.Y, float64(start.Heading)
	for s := 0.0; s < length; s += h {
		x, y = append(x, px), append(y, py)
		mid := th + k(s+h/4)*h/2
		px, py = px+h*math.Cos(mid), py+h*math.Sin(mid)
		th += k(s+h/2) * h
	}
	c := cloud{up, map[int]r2.Vec{}}
	put := func(q r2.Vec) {
		key := int(math.Floor(q.X / bin))
		if was, ok := c.pts[key]; !ok || up*q.Y > up*was.Y {
			c.pts[key] = q
		}
	}
	for i := 0; i < len(x); i += 2 {
		// The leading axle by walking along the polyline.
		j := i
		for j < len(x) && math.Hypot(x[j]-x[i], y[j]-y[i]) < wheelbase {
			j++
		}
		if j >= len(x) {
			break
		}
		d0, d1 := math.Hypot(x[j-1]-x[i], y[j-1]-y[i]), math.Hypot(x[j]-x[i], y[j]-y[i])
		t := (wheelbase - d0) / (d1 - d0)
		ax, ay := x[j-1]+t*(x[j]-x[j-1]), y[j-1]+t*(y[j]-y[j-1])
		ux, uy := (ax-x[i])/wheelbase, (ay-y[i])/wheelbase
		mx, my := (ax+x[i])/2, (ay+y[i])/2
		for u := -body / 2; u <= body/2; u++ {
			w := up * width / 2
			put(r2.Vec{X: mx + u*ux - w*uy, Y: my + u*uy + w*ux})
		}
	}
	return c
}

// nearest returns the least distance between two clouds, for places of the
// first with x in a range, if it is less than 40.
func (c cloud) nearest(d cloud, from, to float64) float64 {
	best := 40.0
	for key, p := range c.pts {
		if p.X < from || p.X > to {
			continue
		}
		for i := key - int(best/bin) - 1; i <= key+int(best/bin)+1; i++ {
			if q, ok := d.pts[i]; ok {
				best = min(best, math.Hypot(p.X-q.X, p.Y-q.Y))
			}
		}
	}
	return best
}

// The least gap of two lines that bend differently, side by side, against
// clouds of points. A tenth of a millimetre on an edge that slopes by a fifth
// leaves 0.02 mm a side, and 1 mm steps a little of the corners' paths.
func TestGapsAgainstCloud(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 11))
	for n := range 24 {
		r1, r2_ := 1200+rng.Float64()*1500, 1200+rng.Float64()*1500
		l0 := 500 + rng.Float64()*200
		apart := 125 + rng.Float64()*8
		h1, h2 := 1.0, 1.0
		if n%3 == 0 {
			h2, apart = -1, apart+45
		} else {
			apart -= 20
		}
		// Each: straight, 400 of an arc, 300 of the other hand, straight.
		k := func(r, hand float64) func(s float64) float64 {
			return func(s float64) float64 {
				switch {
				case s < l0:
					return 0
				case s < l0+250:
					return hand / r
				case s < l0+500:
					return -hand / r
				}
				return 0
			}
		}
		make := func(at curve.Pose, r, hand float64) *curve.Alignment {
			el := []curve.Element{straight(t, measure.Length(l0))}
			for _, k := range [2]float64{hand / r, -hand / r} {
				e, err := curve.NewArcOfLength(250, measure.Curvature(k))
				if err != nil {
					t.Fatal(err)
				}
				el = append(el, e)
			}
			return line(t, at, append(el, straight(t, 500))...)
		}
		at := curve.Pose{Point: r2.Vec{Y: apart}}
		const base, body, width = 160, 300, 80
		v := clearance.Rigid("box", base, box(body, width))
		set := clearance.Settings{Tolerance: 1e-3, From: 250, To: measure.Length(l0 + 700)}
		a := sweep(t, make(curve.Pose{}, r1, h1), set, v)
		set.From, set.To = 0, 0
		b := sweep(t, make(at, r2_, h2), set, v)
		p, err := passing.Gaps(ctx, a, b, 0)
		if err != nil {
			t.Fatal(err)
		}
		least, err := p.Least()
		if err != nil {
			t.Fatal(err)
		}
		ca := newCloud(1, curve.Pose{}, k(r1, h1), l0+1000, base, body, width)
		cb := newCloud(-1, at, k(r2_, h2), l0+1000, base, body, width)
		want := ca.nearest(cb, 250, l0+700)
		if want < 0.1 { // they overlap: then the points say no more
			if least.Gap > 0.1 {
				t.Errorf("case %d: least gap %v, the clouds overlap", n, least.Gap)
			}
			continue
		}
		if d := float64(least.Gap) - want; want > 39 || d > 0.05 || d < -0.1 {
			t.Errorf("case %d: least gap %v, the cloud says %.3f", n, least.Gap, want)
		}
		// Swapped, the least gap is the same.
		q, err := passing.Gaps(ctx, sweep(t, make(at, r2_, h2), clearance.Settings{Tolerance: 1e-3}, v), sweep(t, make(curve.Pose{}, r1, h1), clearance.Settings{Tolerance: 1e-3}, v), 0)
		if err != nil {
			t.Fatal(err)
		}
		if other, err := q.Least(); err != nil {
			t.Fatal(err)
		} else {
			near(t, fmt.Sprintf("case %d swapped", n), other.Gap, least.Gap, 3e-3)
		}
	}
}

// Mirrored, or run the other way, gaps are the same; scaled, they scale.
func TestGapsProperties(t *testing.T) {
	main, branch := turnout(t)
	v := clearance.Rigid("wagon", 110, box(190, 92))
	const tol = 1e-3
	least := func(a, b *curve.Alignment, v clearance.Vehicle, from, to measure.Length, tol measure.Length) measure.Length {
		p, err := passing.Gaps(ctx, sweep(t, a, clearance.Settings{Tolerance: tol, From: from, To: to}, v), sweep(t, b, clearance.Settings{Tolerance: tol}, v), 0)
		if err != nil {
			t.Fatal(err)
		}
		g, err := p.Least()
		if err != nil {
			t.Fatal(err)
		}
		return g.Gap
	}
	want := least(main, branch, v, 3500, 4500, tol)
	near(t, "mirror", least(main.Mirror(), branch.Mirror(), v, 3500, 4500, tol), want, 2*tol)
	near(t, "other way", least(main.Reverse(), branch, v, main.Length()-4500, main.Length()-3500, tol), want, 2*tol)
	big, err := main.Scaled(3)
	if err != nil {
		t.Fatal(err)
	}
	bigger, err := branch.Scaled(3)
	if err != nil {
		t.Fatal(err)
	}
	band := clearance.Band{Top: 360, Outline: clearance.Box(570, 276)}
	near(t, "three times as large", least(big, bigger, clearance.Rigid("wagon", 330, band), 10500, 13500, 3*tol), 3*want, 6*tol)
}

// Only heights that both have count: a narrow body over a wide footplate.
func TestHeights(t *testing.T) {
	wide := clearance.Band{Name: "footplate", Bottom: 10, Top: 30, Outline: clearance.Box(200, 110)}
	narrow := clearance.Band{Name: "body", Bottom: 35, Top: 120, Outline: clearance.Box(200, 80)}
	engine := clearance.Rigid("engine", 110, wide, narrow)
	high := clearance.Rigid("van", 110, clearance.Band{Bottom: 40, Top: 100, Outline: clearance.Box(180, 90)})
	over := clearance.Rigid("lantern", 110, clearance.Band{Bottom: 200, Top: 220, Outline: clearance.Box(180, 90)})
	a := line(t, curve.Pose{}, straight(t, 2000))
	b := line(t, curve.Pose{Point: r2.Vec{Y: 120}}, straight(t, 2000))
	set := clearance.Settings{}
	for _, c := range []struct {
		other clearance.Vehicle
		want  measure.Length
	}{{high, 120 - 40 - 45}, {engine, 120 - 55 - 55}} {
		p, err := passing.Gaps(ctx, sweep(t, a, set, engine), sweep(t, b, set, c.other), 0)
		if err != nil {
			t.Fatal(err)
		}
		g, err := p.At(1000)
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.other.Name, g.Gap, c.want, 1e-6)
	}
	if _, err := passing.Gaps(ctx, sweep(t, a, set, engine), sweep(t, b, set, over), 0); err == nil {
		t.Error("nothing in common, and yet a gap")
	}
}

func BenchmarkGaps(b *testing.B) {
	main := line(b, curve.Pose{}, straight(b, 6000))
	loop := line(b, curve.Pose{}, straight(b, 500), arc(b, 4000, 10, curve.Left), arc(b, 4000, 10, curve.Right), straight(b, 2100))
	x, y := sweep(b, loop, clearance.Settings{}, coach()), sweep(b, main, clearance.Settings{}, coach())
	b.ReportAllocs()
	for b.Loop() {
		if _, err := passing.Gaps(ctx, x, y, 0); err != nil {
			b.Fatal(err)
		}
	}
}

// The same two by the audit of a neighbouring track.
func BenchmarkAuditNeighbour(b *testing.B) {
	main := line(b, curve.Pose{}, straight(b, 6000))
	loop := line(b, curve.Pose{}, straight(b, 500), arc(b, 4000, 10, curve.Left), arc(b, 4000, 10, curve.Right), straight(b, 2100))
	x, y := sweep(b, loop, clearance.Settings{}, coach()), sweep(b, main, clearance.Settings{}, coach())
	b.ReportAllocs()
	for b.Loop() {
		if _, err := y.Audit(ctx, []clearance.Structure{{Kind: clearance.NeighbouringTrack, Neighbour: x}}, 5); err != nil {
			b.Fatal(err)
		}
	}
}
