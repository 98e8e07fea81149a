package opening_test

import (
	"math"
	"testing"

	"example.org/fourfoot/clearance/opening"
	"example.org/fourfoot/gauge/measure"
)

// Whatever two blocks, margin, rise and floor are given, an opening is refused
// or clears them by the margin.
func FuzzOpenings(f *testing.F) {
	f.Add(-44.0, 44.0, 12.0, 110.0, -20.0, 30.0, 90.0, 140.0, 6.0, 0.5, -10.0)
	f.Add(0.0, 1e-9, 0.0, 1e-9, 5.0, 6.0, 1e9, 2e9, 0.0, 0.001, 0.0)
	f.Add(-1e6, 1e6, -50.0, 3.0, 1.0, 2.0, -50.0, 3.0, 1e3, 0.1, 1e3)
	f.Add(1.0, 2.0, 3.0, 4.0, 1.0, 2.0, 3.0, 4.0, 0.0, 0.3, -1e7)
	f.Fuzz(func(t *testing.T, y0, y1, z0, z1, y2, y3, z2, z3, margin, rise, floor float64) {
		for _, v := range []float64{y0, y1, z0, z1, y2, y3, z2, z3, margin, floor} {
			if math.Abs(v) > 1e9 {
				return
			}
		}
		s, err := opening.Section{}.With("a", measure.Length(y0), measure.Length(y1), measure.Length(z0), measure.Length(z1))
		if err != nil {
			return
		}
		if t2, err := s.With("b", measure.Length(y2), measure.Length(y3), measure.Length(z2), measure.Length(z3)); err == nil {
			s = t2
		}
		if y1-y0 < 1e-6 || z1-z0 < 1e-6 {
			return
		}
		size := 1.0
		for _, v := range []float64{y0, y1, z0, z1, y2, y3, z2, z3, margin, floor} {
			size = max(size, math.Abs(v))
		}
		if len(s.Outline()) < 4 {
			t.Fatalf("outline %v", s.Outline())
		}
		for _, about := range []opening.About{opening.Centred, opening.Free} {
			r, err := s.Rectangle(measure.Length(margin), about)
			if err != nil {
				return
			}
			if c := float64(r.Clear(s)); math.IsNaN(c) || c < margin-1e-9*size {
				t.Fatalf("%v clears by %v, want %v", r, c, margin)
			}
			c, err := s.Circle(measure.Length(margin), about)
			if err != nil {
				t.Fatal(err)
			}
			if g := float64(c.Clear(s)); math.IsNaN(g) || math.Abs(g-margin) > 1e-9*size {
				t.Fatalf("%v clears by %v, want %v", c, g, margin)
			}
			a, err := s.Arch(opening.ArchForm{Rise: rise, Floor: measure.Length(floor), About: about}, measure.Length(margin))
			if err != nil {
				return
			}
			if g := float64(a.Clear(s)); math.IsNaN(g) || g < margin-1e-6*float64(a.Radius)-1e-6*size {
				t.Fatalf("%v clears by %v, want %v", a, g, margin)
			}
		}
		if margin > 0.01*size/1e3 {
			g, err := s.Grown(measure.Length(margin))
			if err != nil {
				t.Fatal(err)
			}
			if float64(g.Top()-s.Top()) < margin-1e-9*size {
				t.Fatalf("grown by %v: from %v to %v", margin, s.Top(), g.Top())
			}
		}
	})
}
