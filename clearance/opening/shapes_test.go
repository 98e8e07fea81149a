package opening_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/opening"
	"example.org/fourfoot/gauge/measure"
)

// corners returns the corners of blocks.
func corners(all [][4]float64) (p []r2.Vec) {
	for _, b := range all {
		for _, y := range b[:2] {
			p = append(p, r2.Vec{X: y, Y: b[2]}, r2.Vec{X: y, Y: b[3]})
		}
	}
	return p
}

// inside returns how far the farthest-out of the points is from the faces of an
// opening, given as a closed polygon with a floor far below: the least distance
// to any of its sides, negative outside. Points of the polygon turn
// anticlockwise.
func inside(poly []clearance.SectionPoint, p []r2.Vec) float64 {
	gap := math.Inf(1)
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		d := r2.Vec{X: float64(b.Offset - a.Offset), Y: float64(b.Height - a.Height)}
		n := r2.Norm(d)
		if n == 0 {
			continue
		}
		for _, q := range p {
			gap = min(gap, r2.Cross(d, r2.Vec{X: q.X - float64(a.Offset), Y: q.Y - float64(a.Height)})/n)
		}
	}
	return gap
}

func TestRectangle(t *testing.T) {
	for seed := range 100 {
		rng := rand.New(rand.NewPCG(uint64(seed), 2))
		s, all := blocks(t, rng, 1+rng.IntN(8))
		m := 12 * rng.Float64()
		free := must[opening.Rectangle](t)(s.Rectangle(measure.Length(m), opening.Free))
		if got := inside(free.Outline(-1000), corners(all)); math.Abs(got-m) > 1e-9 {
			t.Fatalf("seed %d: free: clear by %v, want %v", seed, got, m)
		}
		for _, less := range []opening.Rectangle{
			{Left: free.Left - 0.1, Right: free.Right, Height: free.Height},
			{Left: free.Left, Right: free.Right - 0.1, Height: free.Height},
			{Left: free.Left, Right: free.Right, Height: free.Height - 0.1},
		} {
			if got := inside(less.Outline(-1000), corners(all)); math.Abs(got-(m-0.1)) > 1e-9 || !near(less.Clear(s), measure.Length(got), 1e-9) {
				t.Fatalf("seed %d: smaller: clear by %v and %v, want %v", seed, got, float64(less.Clear(s)), m-0.1)
			}
		}
		c := must[opening.Rectangle](t)(s.Rectangle(measure.Length(m), opening.Centred))
		if c.Left != c.Right || c.Left != max(free.Left, free.Right) || c.Height != free.Height {
			t.Fatalf("seed %d: centred %v, free %v", seed, c, free)
		}
	}
}

// The least enclosing circle, against every circle through two corners or
// three that holds them all.
func TestCircle(t *testing.T) {
	for seed := range 100 {
		rng := rand.New(rand.NewPCG(uint64(seed), 3))
		s, all := blocks(t, rng, 1+rng.IntN(4))
		p := corners(all)
		far := func(c r2.Vec) (r float64) {
			for _, q := range p {
				r = max(r, r2.Norm(r2.Sub(q, c)))
			}
			return r
		}
		want := math.Inf(1)
		for i, a := range p {
			for j, b := range p[:i] {
				want = min(want, far(r2.Scale(0.5, r2.Add(a, b))))
				for _, c := range p[:j] {
					// Meet of the upright bisectors.
					u, v := r2.Sub(b, a), r2.Sub(c, a)
					d := 2 * r2.Cross(u, v)
					if math.Abs(d) < 1e-9 {
						continue
					}
					want = min(want, far(r2.Add(a, r2.Vec{X: (v.Y*r2.Norm2(u) - u.Y*r2.Norm2(v)) / d, Y: (u.X*r2.Norm2(v) - v.X*r2.Norm2(u)) / d})))
				}
			}
		}
		const m = 7
		c := must[opening.Circle](t)(s.Circle(m, opening.Free))
		if !near(c.Radius, measure.Length(want+m), 1e-9) || !near(c.Clear(s), m, 1e-9) || len(c.By) < 2 {
			t.Fatalf("seed %d: free %v, clear by %v, by %d, want radius %v", seed, c, float64(c.Clear(s)), len(c.By), want+m)
		}
		// Centred: golden section over the height.
		a, b := -300.0, 500.0
		for range 200 {
			x, y := b-0.618033988749895*(b-a), a+0.618033988749895*(b-a)
			if far(r2.Vec{Y: x}) < far(r2.Vec{Y: y}) {
				b = y
			} else {
				a = x
			}
		}
		c = must[opening.Circle](t)(s.Circle(m, opening.Centred))
		if c.Offset != 0 || !near(c.Radius, measure.Length(far(r2.Vec{Y: (a + b) / 2})+m), 1e-6) || !near(c.Clear(s), m, 1e-9) {
			t.Fatalf("seed %d: centred %v, clear by %v, want radius %v", seed, c, float64(c.Clear(s)), far(r2.Vec{Y: (a + b) / 2})+m)
		}
		if got := inside(c.Outline(1e-4), p); got < m-1e-3 || got > m+1e-3 {
			t.Fatalf("seed %d: the circle's outline clears by %v", seed, got)
		}
	}
}

// Arches against a search over spans, middles and springings that asks only how
// far the corners are from the sides of a fine polygon.
func TestArch(t *testing.T) {
	for seed := range 40 {
		rng := rand.New(rand.NewPCG(uint64(seed), 4))
		s, all := blocks(t, rng, 1+rng.IntN(4))
		p := corners(all)
		rise := []float64{0, 0.5, 0.35, 0.2, 0.08}[seed%5]
		q := rise
		if q == 0 {
			q = 0.5
		}
		floor := measure.Length(-15 + 10*rng.Float64())
		m := 10 * rng.Float64()
		// arch draws one from first principles: through the springings, rise q
		// of the span.
		arch := func(w, c, h float64, n int) []clearance.SectionPoint {
			f := 2 * w * q
			r := (w*w + f*f) / (2 * f)
			half := 2 * math.Atan(f/w)
			out := []clearance.SectionPoint{{Offset: measure.Length(c - w), Height: -1e6}, {Offset: measure.Length(c + w), Height: -1e6}}
			for i := range n + 1 {
				a := half - 2*half*float64(i)/float64(n)
				out = append(out, clearance.SectionPoint{Offset: measure.Length(c + r*math.Sin(a)), Height: measure.Length(h + f - r + r*math.Cos(a))})
			}
			return out
		}
		area := func(w, h float64) float64 {
			f := 2 * w * q
			r, half := (w*w+f*f)/(2*f), 2*math.Atan(f/w)
			return 2*w*(h-float64(floor)) + r*r*(2*half-math.Sin(2*half))/2
		}
		for _, about := range []opening.About{opening.Centred, opening.Free} {
			form := opening.ArchForm{Rise: rise, Floor: floor, About: about}
			got := must[opening.Arch](t)(s.Arch(form, measure.Length(m)))
			if g := inside(arch(float64(got.Span)/2, float64(got.Offset), float64(got.Springing), 2000), p); g < m-1e-3 {
				t.Fatalf("seed %d: %v clears by %v only, want %v", seed, got, g, m)
			}
			if !near(got.Rise(), measure.Length(q)*got.Span, 1e-9) || got.Springing < floor {
				t.Fatalf("seed %d: %v rises %v on a floor at %v", seed, got, got.Rise(), floor)
			}
			if a := area(float64(got.Span)/2, float64(got.Springing)); math.Abs(a-float64(got.Area())) > 1e-6*a {
				t.Fatalf("seed %d: area %v, want %v", seed, float64(got.Area()), a)
			}
			span := must[opening.Arch](t)(s.Arch(opening.ArchForm{Rise: rise, Floor: floor, About: about, Least: opening.LeastSpan}, measure.Length(m)))
			crown := must[opening.Arch](t)(s.Arch(opening.ArchForm{Rise: rise, Floor: floor, About: about, Least: opening.LeastCrown}, measure.Length(m)))
			// None that is smaller clears.
			tried, clears := 0, 0
			for range 400 {
				w := float64(span.Span) / 2 * (0.98 + 0.6*rng.Float64()*rng.Float64())
				c := 0.0
				if about == opening.Free {
					c = float64(got.Offset) + 20*rng.NormFloat64()
				}
				h := max(float64(floor), float64(span.Springing)-w*rng.Float64())
				if rng.IntN(3) == 0 { // close to the answer
					w, c, h = float64(got.Span)/2*(1+0.02*rng.NormFloat64()), c*float64(about)*rng.Float64()+float64(got.Offset)*(1-float64(about)), max(float64(floor), float64(got.Springing)*(1+0.02*rng.NormFloat64()))
				}
				smaller := area(w, h) < float64(got.Area())*(1-1e-6) || 2*w < float64(span.Span)-1e-6 || h+2*w*q < float64(crown.Crown)-1e-6
				if !smaller {
					continue
				}
				tried++
				if inside(arch(w, c, h, 200), p) > m {
					clears++
					t.Errorf("seed %d, rise %v, about %v: span %v middle %v springing %v clears by %v, want none smaller than %v (area %v against %v), span %v, crown %v", seed, rise, about, 2*w, c, h, inside(arch(w, c, h, 2000), p), got, area(w, h), float64(got.Area()), span, crown)
				}
			}
			if tried < 20 {
				t.Errorf("seed %d: only %d smaller ones tried", seed, tried)
			}
			if clears > 0 {
				t.FailNow()
			}
			if crown.Crown > got.Crown+1e-6 || span.Span > got.Span+1e-6 || span.Area() < got.Area()*(1-1e-9) || crown.Area() < got.Area()*(1-1e-9) {
				t.Fatalf("seed %d: least area %v, span %v, crown %v", seed, got, span, crown)
			}
			if !near(got.Clear(s), measure.Length(m), 1e-6) || !near(span.Clear(s), measure.Length(m), 1e-6) {
				t.Fatalf("seed %d: clear by %v and %v, want %v", seed, float64(got.Clear(s)), float64(span.Clear(s)), m)
			}
			// From a given springing: smallest span, just clear.
			h := floor + measure.Length(150*rng.Float64())
			from := must[opening.Arch](t)(s.ArchFrom(h, opening.ArchForm{Rise: rise, Floor: floor, About: about}, measure.Length(m)))
			if g := inside(arch(float64(from.Span)/2, float64(from.Offset), float64(h), 2000), p); math.Abs(g-m) > 1e-3 || from.Springing != h {
				t.Fatalf("seed %d: from %v: %v clears by %v, want %v", seed, h, from, g, m)
			}
			for range 10 {
				c := 0.0
				if about == opening.Free {
					c = float64(from.Offset) + 10*rng.NormFloat64()
				}
				if g := inside(arch(float64(from.Span)/2*(1-1e-5), c, float64(h), 2000), p); g > m {
					t.Fatalf("seed %d: from %v: a smaller one at %v clears by %v", seed, h, c, g)
				}
			}
		}
	}
}

// The least area is that of the best of all springings, each with its own
// smallest arch; of a wide body with a tall chimney both ends of the family can
// have a least area of their own.
func TestArchOfAllSpringings(t *testing.T) {
	for seed := range 120 {
		rng := rand.New(rand.NewPCG(uint64(seed), 6))
		s, _ := blocks(t, rng, 1+rng.IntN(3))
		s = must[opening.Section](t)(s.With("body", -40, 40, 0, measure.Length(20+60*rng.Float64())))
		form := opening.ArchForm{Rise: []float64{0.5, 0.3, 0.15}[seed%3], Floor: measure.Length(-60 * rng.Float64())}
		got := must[opening.Arch](t)(s.Arch(form, 4))
		best := math.Inf(1)
		for h := form.Floor; h <= s.Top()+10; h += 0.5 {
			best = min(best, float64(must[opening.Arch](t)(s.ArchFrom(h, form, 4)).Area()))
		}
		if a := float64(got.Area()); a > best*(1+1e-9) || a < best*(1-0.02) {
			t.Errorf("seed %d: %v has %v, the best of all springings %v", seed, got, a, best)
		}
	}
}
