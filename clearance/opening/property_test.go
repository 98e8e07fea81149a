package opening_test

import (
	"math"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/opening"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// The section of the mirrored line is mirrored.
func TestMirror(t *testing.T) {
	set := clearance.Settings{Tolerance: 1e-3}
	a := sweep(t, garden(t, curve.Left), set, coach(), wagon())
	b := sweep(t, garden(t, curve.Right), set, coach(), wagon())
	for _, walls := range []opening.Walls{opening.CurvedWalls, opening.ChordWalls, opening.StraightWalls} {
		x := must[*opening.Tunnel](t)(opening.NewTunnel(t.Context(), a, 1900, 2900, walls)).Section()
		y := must[*opening.Tunnel](t)(opening.NewTunnel(t.Context(), b, 1900, 2900, walls)).Section()
		r := must[opening.Rectangle](t)(x.Rectangle(5, opening.Free))
		q := must[opening.Rectangle](t)(y.Rectangle(5, opening.Free))
		if !near(r.Left, q.Right, 2e-3) || !near(r.Right, q.Left, 2e-3) || r.Height != q.Height {
			t.Errorf("%v: %v, mirrored %v", walls, r, q)
		}
		c := must[opening.Circle](t)(x.Circle(5, opening.Free))
		d := must[opening.Circle](t)(y.Circle(5, opening.Free))
		if !near(c.Offset, -d.Offset, 5e-3) || !near(c.Radius, d.Radius, 2e-3) {
			t.Errorf("%v: %v, mirrored %v", walls, c, d)
		}
		p := must[opening.Arch](t)(x.Arch(opening.ArchForm{About: opening.Free, Rise: 0.3}, 5))
		s := must[opening.Arch](t)(y.Arch(opening.ArchForm{About: opening.Free, Rise: 0.3}, 5))
		if math.Abs(float64(p.Area()-s.Area())) > 0.5 {
			t.Errorf("%v: %v, mirrored %v", walls, p, s)
		}
	}
}

// A section scaled has its openings scaled.
func TestScale(t *testing.T) {
	const f = 22.5
	var a, b opening.Section
	for _, x := range [][4]measure.Length{{-44, 44, 12, 110}, {-50, 46, 8, 40}, {-20, 30, 90, 140}} {
		a = must[opening.Section](t)(a.With("block", x[0], x[1], x[2], x[3]))
		b = must[opening.Section](t)(b.With("block", x[0]*f, x[1]*f, x[2]*f, x[3]*f))
	}
	for _, about := range []opening.About{opening.Centred, opening.Free} {
		r, q := must[opening.Rectangle](t)(a.Rectangle(6, about)), must[opening.Rectangle](t)(b.Rectangle(6*f, about))
		if !near(r.Width()*f, q.Width(), 1e-9) || !near(r.Height*f, q.Height, 1e-9) {
			t.Errorf("%v, %v", r, q)
		}
		c, d := must[opening.Circle](t)(a.Circle(6, about)), must[opening.Circle](t)(b.Circle(6*f, about))
		if !near(c.Radius*f, d.Radius, 1e-9) || !near(c.Height*f, d.Height, 1e-6) {
			t.Errorf("%v, %v", c, d)
		}
		for _, rise := range []float64{0.5, 0.2} {
			form := opening.ArchForm{Rise: rise, About: about}
			p, s := must[opening.Arch](t)(a.Arch(form, 6)), must[opening.Arch](t)(b.Arch(form, 6*f))
			if math.Abs(float64(p.Area())*f*f-float64(s.Area())) > 1e-8*float64(s.Area()) {
				t.Errorf("rise %v: %v, %v", rise, p, s)
			}
		}
	}
}

// As the radius grows the section becomes that of straight track, and a tunnel
// with straight walls one with curved walls.
func TestFlatCurve(t *testing.T) {
	want := must[opening.Rectangle](t)(must[opening.Section](t)(opening.At(sweep(t, line(t, straight(t, 3000)), clearance.Settings{}, coach()), 1500)).Rectangle(0, opening.Free))
	last := math.Inf(1)
	for _, r := range []measure.Length{1e4, 1e5, 1e6, 1e7} {
		e := sweep(t, line(t, straight(t, 1000), arc(t, r, measure.Angle(2000/r), curve.Left), straight(t, 1000)), clearance.Settings{Tolerance: 1e-3}, coach())
		for _, walls := range []opening.Walls{opening.CurvedWalls, opening.ChordWalls} {
			got := must[opening.Rectangle](t)(must[*opening.Tunnel](t)(opening.NewTunnel(t.Context(), e, 1400, 2400, walls)).Section().Rectangle(0, opening.Free))
			// Throws and, of straight walls, the versine of the tunnel: L²/8R and 1000²/8R at most.
			more := float64(got.Width() - want.Width())
			if more < -1e-6 || more > (614*614+1000*1000)/(8*float64(r))+1e-6 {
				t.Errorf("%v, %v: %v wider than on straight track", r, walls, more)
			}
			if walls == opening.ChordWalls {
				if more > last/9 {
					t.Errorf("%v: %v more, at a tenth of the radius %v", r, more, last)
				}
				last = more
			}
		}
	}
}

// An opening of a range holds that of every place in it, and that of a list of
// stock is the union of its vehicles'.
func TestUnion(t *testing.T) {
	l := garden(t, curve.Left)
	set := clearance.Settings{Tolerance: 1e-3}
	both := must[opening.Section](t)(opening.At(sweep(t, l, set, coach(), wagon()), 2500))
	one := must[opening.Section](t)(opening.At(sweep(t, l, set, coach()), 2500))
	two := must[opening.Section](t)(opening.At(sweep(t, l, set, wagon()), 2500))
	for z := measure.Length(9); z < 130; z += 0.7 {
		h := clearance.Heights{From: z, To: z}
		for _, side := range []curve.Hand{curve.Left, curve.Right} {
			want := measure.Length(math.Inf(-1))
			for _, s := range []opening.Section{one, two} {
				if r, _, err := s.Reach(side, h); err == nil {
					want = max(want, r)
				}
			}
			if got, _, err := both.Reach(side, h); err != nil || !near(got, want, 2e-3) {
				t.Errorf("at %v %v: %v (%v), want %v", z, side, float64(got), err, float64(want))
			}
		}
	}
}
