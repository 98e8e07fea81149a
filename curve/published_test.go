package curve_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/reference"
)

// Full-size values are in metres: take millimetres for metres throughout, the
// geometry knows no unit.

// buildingSMART Germany, BIM Fit Check, Synthetic Testdata - Alignment 0.1
// (2025), TS1: easements from straight to R 300, L 100.
func TestFitCheck(t *testing.T) {
	for shape, rows := range map[curve.Shape][][3]float64{
		curve.Clothoid: {
			{20, 19.99991111129401, 0.04444430335117},
			{50, 49.99132014212061, 0.69435833257880},
			{80, 79.90902571105279, 2.84213360566643},
			{100, 99.72257921782744, 5.54454236562880},
		},
		curve.Bloss: {
			{20, 19.99999154003747, 0.01226666191642},
			{50, 49.99621103700240, 0.41663879253760},
			{80, 79.92938952948172, 2.31934488048262},
			{100, 99.74680641746025, 4.98981104238495},
		},
		curve.Cosine: {
			{20, 19.99999333582006, 0.01082292689418},
			{50, 49.99653640294060, 0.39462228640405},
			{80, 79.93087160790162, 2.27678850103152},
			{100, 99.74845535773652, 4.94582068772272},
		},
		curve.Sine: {
			{20, 19.99999921519727, 0.00338010481955},
			{50, 49.99807413644182, 0.27226168663248},
			{80, 79.93854160537184, 2.03968159912386},
			{100, 99.75698050971553, 4.70132070248442},
		},
		curve.Helmert: {
			{20, 19.99999548500946, 0.00888888701600},
			{50, 49.99724436348846, 0.34720436142748},
			{80, 79.93395831110374, 2.18394955793705},
			{100, 99.75176344624509, 4.85106052287364},
		},
	} {
		a := must(curve.New(curve.Pose{}, must(curve.NewEasement(shape, 100, 0, 1./300))))
		for _, r := range rows {
			p := a.Point(measure.Length(r[0]))
			if d := math.Hypot(p.X-r[1], p.Y-r[2]); d > 1e-9 {
				t.Errorf("%v at %v: %v, want %v %v", shape, r[0], p, r[1], r[2])
			}
		}
	}
	a := must(curve.New(curve.Pose{}, must(curve.NewEasement(curve.Clothoid, 100, 0, 1./300))))
	if h := a.At(100).Heading; math.Abs(float64(h)-0.1666666666666667) > 1e-15 {
		t.Errorf("clothoid heading at 100: %v", h)
	}
	if h := a.At(50).Heading; math.Abs(float64(h)-0.04166666666666667) > 1e-15 {
		t.Errorf("clothoid heading at 50: %v", h)
	}
}

// IFC Alignment Geometry Implementation Guide to ISO 16739-1.
func TestImplementationGuide(t *testing.T) {
	arc := must(curve.New(curve.Pose{}, must(curve.NewArc(300, 1, curve.Left)))).At(50)
	for _, r := range [][3]float64{ // 2.4.3; within the digits printed
		{arc.Point.X, 49.76883981, 1e-8},
		{arc.Point.Y, 4.1570305, 5e-8},
		{arc.Tangent.X, 0.98614323, 1e-8},
		{arc.Tangent.Y, 0.16589613, 1e-8},
	} {
		if math.Abs(r[0]-r[1]) > r[2] {
			t.Errorf("arc of R 300 at 50: got %v, want %v", r[0], r[1])
		}
	}
	for shape, want := range map[curve.Shape]float64{curve.Bloss: 0.0005208333333, curve.Cosine: 0.000488155364689} {
		a := must(curve.New(curve.Pose{}, must(curve.NewEasement(shape, 100, 0, 1./300))))
		if k := a.At(25).Curvature; math.Abs(float64(k)-want) > 1e-13 {
			t.Errorf("%v: curvature at 25 is %v, want %v", shape, float64(k), want)
		}
	}
	opening := must(curve.New(curve.Pose{}, must(curve.NewEasement(curve.Clothoid, 100, 1./300, 1./1000)))).Point(50)
	if math.Abs(opening.X-49.8252009) > 2e-6 || math.Abs(opening.Y-3.6744032) > 2e-6 {
		t.Errorf("clothoid from R 300 to R 1000 at 50: %v", opening)
	}
}

// The leading term of the shift (the guide above for the laws, integrals worked): L²/nR, and the end offset
// four times as much for the clothoid (W. H. Perrott, 1920).
func TestShift(t *testing.T) {
	for shape, n := range map[curve.Shape]float64{
		curve.Clothoid: 24, curve.Bloss: 40, curve.Cosine: 42.232, curve.Sine: 61.213, curve.Helmert: 48,
	} {
		const L, R = 50, 10000.
		a := must(curve.New(curve.Pose{}, must(curve.NewEasement(shape, L, 0, 1/R))))
		st := a.At(L)
		shift := st.Point.Y - R*(1-math.Cos(float64(st.Heading)))
		if want := L * L / n / R; math.Abs(shift/want-1) > 2e-5 {
			t.Errorf("%v: shift %v, want %v", shape, shift, want)
		}
		if offset := st.Point.Y; shape == curve.Clothoid && math.Abs(offset/(4*shift)-1) > 2e-5 {
			t.Errorf("%v: end offset %v is not four times the shift of %v", shape, offset, shift)
		}
	}
	for _, v := range easements {
		for _, c := range vectors(t, v.String()) {
			if c.Shift == nil {
				continue
			}
			a := must(curve.New(curve.Pose{}, must(curve.NewEasement(v, measure.Length(c.Length), 0, bent(c.EndRadius)))))
			end := a.End()
			r := *c.EndRadius
			sin, cos := math.Sincos(float64(end.Heading))
			if d := math.Abs(end.Point.Y - r*(1-cos) - *c.Shift); d > 1e-15*(c.Length+math.Abs(r)) {
				t.Errorf("%v %s: shift off by %v", v, c.Name, d)
			}
			if d := math.Abs(end.Point.X - r*sin - *c.ShiftAbscissa); d > 1e-15*(c.Length+math.Abs(r)) {
				t.Errorf("%v %s: abscissa of the shift off by %v", v, c.Name, d)
			}
		}
	}
}

// bendOf returns the bend's line and the distance from its start to the
// intersection of its end tangents.
func bendOf(b curve.Bend) (a *curve.Alignment, tangent float64) {
	a = must(curve.New(curve.Pose{}, must(b.Elements())...))
	end := a.End()
	sin, cos := math.Sincos(float64(end.Heading))
	return a, end.Point.X - end.Point.Y*cos/sin
}

// University surveying example; Cross, Engineer's Field Book, 1855 (1° curve by
// chord definition, R 5729.651 ft).
func TestTangentLength(t *testing.T) {
	a, T := bendOf(curve.Bend{Radius: 300, Turn: 40 * measure.Degree, Hand: curve.Left})
	if math.Abs(T-109.19) > 0.005 || math.Abs(float64(a.Length())-209.44) > 0.005 {
		t.Errorf("R 300, 40°: T %v, L %v, want 109.19, 209.44", T, a.Length())
	}
	if _, T = bendOf(curve.Bend{Radius: 5729.651, Turn: 25 * measure.Degree, Hand: curve.Right}); math.Abs(T-1270.28) > 0.05 {
		t.Errorf("1° curve, 25°: T %v ft, want 1270.28", T)
	}
	if _, T = bendOf(curve.Bend{Radius: 5729.651 / 2, Turn: 25 * measure.Degree, Hand: curve.Right}); math.Abs(T-635.14) > 0.05 {
		t.Errorf("2° curve, 25°: T %v ft, want 635.14", T)
	}
}

// Rankine's deflection angles: lecture example after Schofield, Engineering
// Surveying. R 200, Δ 30°, intersection at chainage 2259.59, pegs at 20.
func TestRankine(t *testing.T) {
	a, T := bendOf(curve.Bend{Radius: 200, Turn: 30 * measure.Degree, Hand: curve.Right})
	if math.Abs(T-53.59) > 0.005 || math.Abs(float64(a.Length())-104.72) > 0.005 {
		t.Errorf("T %v, L %v", T, a.Length())
	}
	deflection := func(s float64) float64 { // from the tangent, seconds
		p := a.Point(measure.Length(s))
		return math.Atan2(-p.Y, p.X) * 180 / math.Pi * 3600
	}
	dms := func(d, m, s float64) float64 { return d*3600 + m*60 + s }
	for _, r := range []struct{ s, want float64 }{
		{14, dms(2, 0, 19)},
		{34, dms(2, 0, 19) + dms(2, 51, 53)},
		{94, dms(2, 0, 19) + 4*dms(2, 51, 53)},
		{94 + 10.72, dms(2, 0, 19) + 4*dms(2, 51, 53) + dms(1, 32, 8)},
	} {
		if got := deflection(r.s); math.Abs(got-r.want) > 6 { // 1" a peg
			t.Errorf("deflection at %v: %v\", want %v\"", r.s, got, r.want)
		}
	}
}

// Clothoids of any length in closed form through Fresnel integrals, from the
// straight and through an inflection.
func TestClothoidByFresnel(t *testing.T) {
	for _, c := range []struct{ L, k1 float64 }{{100, 0.01}, {300, -0.02}, {1000, 1. / 80}, {50, 1e-9}} {
		a := must(curve.New(curve.Pose{}, must(curve.NewEasement(curve.Clothoid, measure.Length(c.L), 0, measure.Curvature(c.k1)))))
		scale := math.Sqrt(math.Pi * c.L / math.Abs(c.k1)) // heading = π/2·(s/scale)²
		for i := range 11 {
			s := c.L * float64(i) / 10
			x, y := reference.Fresnel(s / scale)
			want := r2.Vec{X: x * scale, Y: math.Copysign(y*scale, c.k1)}
			if d := r2.Norm(r2.Sub(a.Point(measure.Length(s)), want)); d > 5e-14*c.L {
				t.Errorf("L %v, k %v: Point(%v) is off by %v", c.L, c.k1, s, d)
			}
		}
	}
}
