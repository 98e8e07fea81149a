package clearance_test

import (
	"errors"
	"math"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/reference"
)

// box is one band of a rectangle, on a vehicle of any height.
func box(length, width measure.Length) clearance.Band {
	return clearance.Band{Top: 100, Outline: clearance.Box(length, width)}
}

func throwOf(t *testing.T, v clearance.Vehicle, radius measure.Length) clearance.Throw {
	t.Helper()
	th, err := clearance.Throws(v, radius)
	if err != nil {
		t.Fatal(err)
	}
	return th[0]
}

// The exact throw numbers, worked from plane geometry.
func TestThrowsExact(t *testing.T) {
	for _, c := range []struct {
		name        string
		R, C, L, p  measure.Length
		centre, end float64
		tol         float64
		source      string
	}{
		{"full size", 175000, 14785, 21340, 0, 156.210, 169.061, 5e-4, "worked"},
		{"full size with bogies", 100000, 20000, 25000, 2500, 509.108, 273.065, 5e-4, "worked"},
		{"garden", 1200, 400, 600, 0, 16.7840, 20.6556, 5e-5, "worked"},
		{"garden with bogies", 1200, 400, 600, 80, 17.4604, 20.0000, 5e-5, "worked"},
		{"Mark 1 at 1:32", 2000, 442.91, 614.36, 0, 12.299, 11.298, 1e-3, "worked on UK Mark 1, body 64 ft 6 in, centres 46 ft 6 in"},
		{"Mark 1 at 1:32", 3048, 442.91, 614.36, 0, 8.056, 7.425, 1e-3, "worked on UK Mark 1, body 64 ft 6 in, centres 46 ft 6 in"},
	} {
		got := throwOf(t, clearance.Bogie(c.name, c.C, c.p, box(c.L, 60)), c.R)
		if math.Abs(float64(got.Centre)-c.centre) > c.tol || math.Abs(float64(got.End())-c.end) > c.tol {
			t.Errorf("%s, R %v: centre %.5f end %.5f, want %v %v (%s)", c.name, float64(c.R), float64(got.Centre), float64(got.End()), c.centre, c.end, c.source)
		}
	}
}

// UIC-X, 26.40 m over buffers on 19.00 m pivots, width 2.825 m: reach by the
// closed forms √((m+b)²+(L/2)²)-R and R-m+b, worked. Bogies of 2.5 m and the
// radius are taken here, not from its data.
func TestThrowsReachUICX(t *testing.T) {
	const R, C, L, p, w = 150000.0, 19000.0, 26400.0, 2500.0, 2825.0
	got := throwOf(t, clearance.Bogie("UIC-X", C, p, box(L, w)), R)
	m := math.Sqrt(R*R - p*p/4 - C*C/4)
	inside, outside := R-m+w/2, math.Sqrt((m+w/2)*(m+w/2)+L*L/4)-R
	if math.Abs(float64(got.Inside)-inside) > 1e-6 || math.Abs(float64(got.Outside)-outside) > 1e-6 {
		t.Errorf("UIC-X on R 150 m: inside %v outside %v, want %v %v", float64(got.Inside), float64(got.Outside), inside, outside)
	}
	if s, want := float64(got.FrontSwing), math.Asin(C/2/math.Sqrt(R*R-p*p/4)); math.Abs(s-want) > 1e-12 {
		t.Errorf("bogie swing %v, want %v", s, want)
	}
	if got.RearSwing != got.FrontSwing {
		t.Errorf("swing differs: rear %v front %v", got.RearSwing, got.FrontSwing)
	}
	if a, want := float64(got.Attack), math.Asin(p/2/R); math.Abs(a-want) > 1e-15 {
		t.Errorf("attack %v, want %v", a, want)
	}
}

// An off-centre pin: the pivot stands at ρ² = R² - (p/2)² + e². Checked by
// building the chord from the carriers' places in plain coordinates.
func TestThrowsPinOffset(t *testing.T) {
	const R, C, p, er, ef = 1500.0, 500.0, 90.0, -12.0, 20.0
	v := clearance.Bogie("pins", C, p, box(700, 80))
	v.Carriers[0].Pin, v.Carriers[1].Pin = er, ef
	got := throwOf(t, v, R)
	// The pivot of a carrier whose middle stands at the angle a of the circle.
	pin := func(a, e float64) (x, y float64) {
		m := math.Sqrt(R*R - p*p/4)
		return m*math.Cos(a) - e*math.Sin(a), m*math.Sin(a) + e*math.Cos(a)
	}
	ax, ay := pin(0, er)
	lo, hi := 0.1, 1.0
	for range 100 {
		mid := (lo + hi) / 2
		if bx, by := pin(mid, ef); math.Hypot(bx-ax, by-ay) < C {
			lo = mid
		} else {
			hi = mid
		}
	}
	bx, by := pin(lo, ef)
	ux, uy := (bx-ax)/C, (by-ay)/C
	at := func(x float64) float64 { // distance from the centre of a point x ahead of midway
		return math.Hypot((ax+bx)/2+x*ux, (ay+by)/2+x*uy)
	}
	if want := at(350) - R; math.Abs(float64(got.Front)-want) > 1e-8 {
		t.Errorf("front throw %v, want %v", float64(got.Front), want)
	}
	if want := at(-350) - R; math.Abs(float64(got.Rear)-want) > 1e-8 {
		t.Errorf("rear throw %v, want %v", float64(got.Rear), want)
	}
	if want := math.Abs(ax*uy - ay*ux); math.Abs(float64(got.Centre)-(R-want)) > 1e-8 {
		t.Errorf("centre throw %v, want %v", float64(got.Centre), R-want)
	}
	// Swing: angle from the carrier's axis, along the circle at its middle.
	body := math.Atan2(uy, ux)
	if want := (lo + math.Pi/2) - body; math.Abs(float64(got.FrontSwing)-want) > 1e-9 {
		t.Errorf("front swing %v, want %v", float64(got.FrontSwing), want)
	}
	if want := body - math.Pi/2; math.Abs(float64(got.RearSwing)-want) > 1e-9 {
		t.Errorf("rear swing %v, want %v", float64(got.RearSwing), want)
	}
}

// Centre + end throw ≈ L²/8R whatever the pivots, and R → ∞ leaves half the
// width.
func TestThrowsIdentities(t *testing.T) {
	for _, C := range []measure.Length{200, 400, 550} {
		v := clearance.Bogie("any", C, 60, box(600, 80))
		got := throwOf(t, v, 60000)
		if sum, want := float64(got.Centre+got.End()), 600.0*600/(8*60000); math.Abs(sum-want) > 1e-4*want {
			t.Errorf("C %v: centre + end %v, want about L²/8R = %v", float64(C), sum, want)
		}
		flat := throwOf(t, v, 1e12)
		if math.Abs(float64(flat.Inside)-40) > 1e-6 || math.Abs(float64(flat.Outside)-40) > 1e-6 {
			t.Errorf("C %v at R 1e12: inside %v outside %v, want 40", float64(C), float64(flat.Inside), float64(flat.Outside))
		}
		// The approximations of engineering notes, C²/8R and (L²-C²)/8R.
		if c, e := float64(C*C)/480000, (360000-float64(C*C))/480000; math.Abs(float64(got.CentreApprox)-c) > 1e-12 || math.Abs(float64(got.EndApprox)-e) > 1e-12 {
			t.Errorf("C %v: approximately %v and %v, want %v and %v", float64(C), float64(got.CentreApprox), float64(got.EndApprox), c, e)
		}
		if got.CentreError() >= 0 != (got.CentreApprox >= got.Centre) || got.EndError() != got.EndApprox-got.End() {
			t.Errorf("C %v: errors %v %v do not match", float64(C), got.CentreError(), got.EndError())
		}
	}
}

// A body wider on one side asks for that side's width, whichever way it faces.
func TestThrowsOfALopsidedBody(t *testing.T) {
	const R, C, L = 1200.0, 400.0, 600.0
	m := math.Sqrt(R*R - C*C/4)
	for _, wide := range []measure.Length{50, -50} {
		v := clearance.Rigid("lopsided", C, clearance.Band{Top: 100, Outline: clearance.Outline{{-L / 2, -wide * 0.4}, {L / 2, -wide * 0.4}, {L / 2, wide}, {-L / 2, wide}}})
		got := throwOf(t, v, R)
		if in, out := R-m+50, math.Hypot(m+50, L/2)-R; math.Abs(float64(got.Inside)-in) > 1e-9 || math.Abs(float64(got.Outside)-out) > 1e-9 {
			t.Errorf("%v wide: inside %v outside %v, want %v %v", float64(wide), float64(got.Inside), float64(got.Outside), in, out)
		}
	}
}

// EBOA Anlage 8 is reproduced by centre + end throw against R 250 for a body
// with 4.5 m overhang on 14 m pivots (11 mm from R 40 up, 18 mm at R 35) and
// 3.5 m on 6 m (8 mm), whole mm. Both overhangs are fits, not printed.
func TestThrowsEBOAFit(t *testing.T) {
	for col, f := range []struct{ a, overhang, tol, tol35 measure.Length }{{14000, 4500, 11.5, 18.5}, {6000, 3500, 8.5, 8.5}} {
		v := clearance.Bogie("fit", f.a, 0, box(f.a+2*f.overhang, 2800))
		sum := func(R measure.Length) measure.Length {
			th := throwOf(t, v, R)
			return th.Centre + th.End()
		}
		for _, row := range reference.Rows(t, "testdata/eboa8.csv")[1:] {
			R := measure.Length(1000 * reference.Number(t, row[0]))
			want, tol := measure.Length(reference.Number(t, row[1+col])), f.tol
			if R < 40000 {
				tol = f.tol35
			}
			if got := sum(R) - sum(250000); math.Abs(float64(got-want)) > float64(tol) {
				t.Errorf("a %v, R %v m: %.1f, want %v ± %v (fit to EBOA 1983 Anlage 8)", float64(f.a), row[0], float64(got), float64(want), float64(tol))
			}
		}
	}
}

func TestThrowsTooSharp(t *testing.T) {
	v := clearance.Bogie("long", 900, 60, box(1200, 80))
	_, err := clearance.Throws(v, 440)
	if !errors.Is(err, measure.ErrNoAnswer) {
		t.Errorf("R 440 for pivots 900 apart: %v", err)
	}
	if _, err := clearance.Throws(v, 470); err != nil {
		t.Errorf("R 470: %v", err)
	}
	for _, R := range []measure.Length{0, -1, measure.Length(math.NaN()), measure.Length(math.Inf(1))} {
		if _, err := clearance.Throws(v, R); !errors.Is(err, measure.ErrInput) {
			t.Errorf("R %v: %v", float64(R), err)
		}
	}
}
