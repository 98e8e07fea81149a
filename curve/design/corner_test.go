package design_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/design"
	"example.org/fourfoot/gauge/measure"
)

func corner(t *testing.T, turn float64, in, out float64) design.Corner {
	t.Helper()
	s, c := math.Sincos(turn)
	k, err := design.CornerOf(r2.Vec{X: -in}, r2.Vec{}, r2.Vec{X: out * c, Y: out * s})
	if err != nil {
		t.Fatal(err)
	}
	return k
}

// The simple curve's tangent and arc lengths, as published (unit: that of the
// source, here as if millimetres).
func TestPublishedTangentLengths(t *testing.T) {
	for _, row := range []struct {
		source       string
		radius, turn float64 // turn in degrees
		tangent, arc float64
		tol          float64
	}{
		{"university surveying example", 300, 40, 109.19, 209.44, 0.005},
		{"lecture example after Schofield, Engineering Surveying", 200, 30, 53.59, 104.72, 0.005},
		{"Cross, Engineer's Field Book, 1855: 1° curve, feet", 5729.651, 25, 1270.28, 0, 0.05},
		{"Cross, Engineer's Field Book, 1855: 2° curve, feet, half the 1° curve's", 5729.651 / 2, 25, 635.14, 0, 0.05},
	} {
		for _, hand := range []float64{1, -1} {
			c := corner(t, hand*row.turn*math.Pi/180, 1e5, 1e5)
			b, err := c.ByRadius(measure.Length(row.radius), design.Easing{})
			if err != nil {
				t.Fatalf("%s: %v", row.source, err)
			}
			near(t, row.source+": tangent", float64(b.TangentIn), row.tangent, row.tol)
			near(t, row.source+": tangent", float64(b.TangentOut), row.tangent, row.tol)
			if row.arc != 0 {
				near(t, row.source+": arc", float64(b.Length()), row.arc, row.tol)
			}
			checkBend(t, b)
		}
	}
}

// The leading shift of each shape, from the table of curvature laws
// ([IFCG], integrals worked): p = L²/(n R) for short easements.
func TestShiftTendsToLeadingTerm(t *testing.T) {
	n := map[curve.Shape]float64{curve.Clothoid: 24, curve.Bloss: 40, curve.Cosine: 42.232, curve.Sine: 61.213, curve.Helmert: 48}
	const r, l = 10000.0, 500.0
	for shape, n := range n {
		b, err := corner(t, 1, 1e5, 1e5).ByRadius(r, design.Ease(shape, l))
		if err != nil {
			t.Fatal(err)
		}
		p := l * l / (n * r)
		near(t, shape.String()+" shift", float64(b.ShiftIn), p, 1e-3*p)
		tangent := (r+float64(b.ShiftIn))*math.Tan(0.5) + l/2
		near(t, shape.String()+" tangent", float64(b.TangentIn), tangent, 0.2)
	}
}

// Straight to R 300 by L 100 ([FIT] TS1, tolerance 1e-9): shift and abscissa of
// the centre from the published end points.
func TestShiftFromPublishedEndPoints(t *testing.T) {
	for _, row := range []struct {
		shape curve.Shape
		x, y  float64
	}{
		{curve.Clothoid, 99.72257921782744, 5.54454236562880},
		{curve.Bloss, 99.74680641746025, 4.98981104238495},
		{curve.Cosine, 99.74845535773652, 4.94582068772272},
		{curve.Sine, 99.75698050971553, 4.70132070248442},
		{curve.Helmert, 99.75176344624509, 4.85106052287364},
	} {
		b, err := corner(t, 1, 1e4, 1e4).ByRadius(300, design.Ease(row.shape, 100))
		if err != nil {
			t.Fatal(err)
		}
		sin, cos := math.Sincos(1.0 / 6)
		near(t, row.shape.String()+" shift", float64(b.ShiftIn), row.y-300*(1-cos), 1e-9)
		k := row.x - 300*sin
		near(t, row.shape.String()+" tangent", float64(b.TangentIn), (300+row.y-300*(1-cos))*math.Tan(0.5)+k, 2e-9)
	}
}

func TestCornerProperties(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1))
	for range 400 {
		turn := (0.02 + 3*rng.Float64()) * sign(rng)
		r := math.Exp(5 + 5*rng.Float64())
		ease := design.Easing{
			In: measure.Length(rng.Float64() * r * math.Abs(turn)), Out: measure.Length(rng.Float64() * r * math.Abs(turn)),
			Shape: shapes[rng.IntN(len(shapes))],
		}
		if rng.IntN(4) == 0 {
			ease.In = 0
		}
		p := randomPose(rng)
		u := curve.Pose{Point: p.Point, Heading: p.Heading}
		ip := r2.Add(p.Point, r2.Scale(1e8, unit(p.Heading)))
		to := curve.Pose{Point: r2.Add(ip, r2.Scale(1e8, unit(p.Heading+measure.Angle(turn)))), Heading: p.Heading + measure.Angle(turn)}
		c, err := design.Meet(u, to)
		if err != nil {
			t.Fatal(err)
		}
		b, err := c.ByRadius(measure.Length(r), ease)
		if err != nil {
			t.Fatalf("turn %v r %v %+v: %v", turn, r, ease, err)
		}
		checkBend(t, b)
		near(t, "end on the second straight", offTangent(b.End.Point, to), 0, 1e-6/math.Sin(math.Abs(turn)))

		// By the apex distance just found, and through a point just found.
		again, err := c.ByApex(b.Apex, ease)
		if err != nil {
			t.Errorf("ByApex(%v): %v", b.Apex, err)
		} else if b.Ease.In == b.Ease.Out {
			near(t, "radius by apex", float64(again.Radius), r, 1e-5*r)
		} else {
			near(t, "apex", float64(again.Apex), float64(b.Apex), 1e-6)
		}
	}
}

// With a long easement at one end only, the crown may lie on it.
func TestCrownOnEasement(t *testing.T) {
	for _, shape := range shapes {
		b, err := corner(t, 0.8, 1e5, 1e5).ByRadius(1000, design.Easing{In: 1500, Shape: shape})
		if err != nil {
			t.Fatal(err)
		}
		checkBend(t, b)
		d := r2.Norm(r2.Sub(b.Crown, b.Centre))
		if d < 1000.001 {
			t.Errorf("%v: the crown is %v from the centre, so on the arc: the case tests nothing", shape, d)
		}
	}
}

func sign(rng *rand.Rand) float64 { return float64(2*rng.IntN(2) - 1) }

func unit(h measure.Angle) r2.Vec {
	s, c := math.Sincos(float64(h))
	return r2.Vec{X: c, Y: s}
}

func randomPose(rng *rand.Rand) curve.Pose {
	return curve.Pose{
		Point:   r2.Vec{X: 1e4 * (rng.Float64() - 0.5), Y: 1e4 * (rng.Float64() - 0.5)},
		Heading: measure.Angle(7 * (rng.Float64() - 0.5)),
	}
}

func TestBendThroughPoint(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 2))
	for range 200 {
		turn := (0.05 + 2.8*rng.Float64()) * sign(rng)
		r := math.Exp(6 + 3*rng.Float64())
		share := rng.Float64() * 0.9
		ease := design.Easing{
			In: measure.Length(share * r * math.Abs(turn)), Out: measure.Length(rng.Float64() * r * math.Abs(turn)),
			Shape: shapes[rng.IntN(len(shapes))],
		}
		c := corner(t, turn, 1e8, 1e8)
		b, err := c.ByRadius(measure.Length(r), ease)
		if err != nil {
			t.Fatal(err)
		}
		a, err := curve.New(b.Start, b.Elements()...)
		if err != nil {
			t.Fatal(err)
		}
		p := a.Point(a.Length() * measure.Length(0.2+0.6*rng.Float64()))
		got, err := c.Through(p, ease)
		if err != nil {
			t.Errorf("turn %v radius %v %+v through %v: %v", turn, r, ease, p, err)
			continue
		}
		g, err := curve.New(got.Start, got.Elements()...)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "point from bend", float64(g.Nearest(p).Offset), 0, 1e-7)
		checkBend(t, got)
	}
}

// The plain bend through a point, in closed form: with y1, y2 the point's
// distances from the straights, the circle that touches both.
func TestPlainBendThroughPointClosedForm(t *testing.T) {
	// 90° corner at the origin, point at (-a, a) on the bisector:
	// R√2 - R = a√2, R = a√2/(√2-1).
	c := corner(t, math.Pi/2, 1e4, 1e4)
	b, err := c.Through(r2.Vec{X: -100, Y: 100}, design.Easing{})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "radius", float64(b.Radius), 100*math.Sqrt2/(math.Sqrt2-1), 1e-9)
	near(t, "apex", float64(b.Apex), 100*math.Sqrt2, 1e-9)
}

func TestLargestUsesTheStraights(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 3))
	for range 200 {
		turn := (0.05 + 2.8*rng.Float64()) * sign(rng)
		in, out := 500+5000*rng.Float64(), 500+5000*rng.Float64()
		ease := design.Ease(shapes[rng.IntN(len(shapes))], measure.Length(rng.Float64()*min(in, out)*0.5))
		c := corner(t, turn, in, out)
		b, err := c.Largest(ease)
		if m := regexp.MustCompile(`about ([0-9.]+) mm each would`).FindStringSubmatch(fmt.Sprint(err)); m != nil && errors.Is(err, measure.ErrNoAnswer) {
			told := measure.Length(must(strconv.ParseFloat(m[1], 64)))
			if told >= ease.In {
				t.Errorf("easements of %v do not fit, but %v would", ease.In, told)
			}
			ease = design.Ease(ease.Shape, told*0.999)
			b, err = c.Largest(ease)
		}
		if err != nil {
			t.Errorf("turn %v, %v and %v, %+v: %v", turn, in, out, ease, err)
			continue
		}
		checkBend(t, b)
		if float64(b.TangentIn) > in*(1+1e-12) || float64(b.TangentOut) > out*(1+1e-12) {
			t.Errorf("tangents %v, %v are longer than the straights %v, %v", b.TangentIn, b.TangentOut, in, out)
		}
		near(t, "room left", min(in-float64(b.TangentIn), out-float64(b.TangentOut)), 0, 1e-8)
		if _, err := c.ByRadius(b.Radius*1.0001, ease); !errors.Is(err, measure.ErrNoAnswer) {
			t.Errorf("a radius 1.0001 times the largest: error %v, want no answer", err)
		}
	}
}

// What an error says would fit must fit.
func TestCornerErrorsTellWhatFits(t *testing.T) {
	c := corner(t, 1, 1000, 1500)
	number := regexp.MustCompile(`largest radius that fits is ([0-9.]+)`)
	_, err := c.ByRadius(5000, design.Ease(curve.Bloss, 300))
	m := number.FindStringSubmatch(fmt.Sprint(err))
	if m == nil || !errors.Is(err, measure.ErrNoAnswer) {
		t.Fatalf("error %v tells no radius", err)
	}
	r, _ := strconv.ParseFloat(m[1], 64)
	if _, err := c.ByRadius(measure.Length(r*0.99999), design.Ease(curve.Bloss, 300)); err != nil {
		t.Errorf("the radius told does not fit: %v", err)
	}
	_, err = c.ByRadius(300, design.Ease(curve.Bloss, 301))
	m = regexp.MustCompile(`together they may be ([0-9.]+) mm.*at least ([0-9.]+) mm`).FindStringSubmatch(fmt.Sprint(err))
	if m == nil || !errors.Is(err, measure.ErrNoAnswer) {
		t.Fatalf("error %v tells no easement", err)
	}
	near(t, "longest easements", must(strconv.ParseFloat(m[1], 64)), 600, 1e-3)
	near(t, "smallest radius", must(strconv.ParseFloat(m[2], 64)), 301, 1e-3)
}

func must[T any](x T, err error) T {
	if err != nil {
		panic(err)
	}
	return x
}

func TestCornerRefuses(t *testing.T) {
	nan := measure.Length(math.NaN())
	c := corner(t, 1, 1000, 1000)
	for _, row := range []struct {
		name string
		err  error
		kind error
	}{
		{"radius NaN", second(c.ByRadius(nan, design.Easing{})), measure.ErrInput},
		{"radius 0", second(c.ByRadius(0, design.Easing{})), measure.ErrInput},
		{"easement negative", second(c.ByRadius(100, design.Easing{In: -1})), measure.ErrInput},
		{"easement of no shape", second(c.ByRadius(100, design.Easing{In: 1, Shape: curve.CircularArc})), measure.ErrInput},
		{"zero corner", second(design.Corner{}.ByRadius(100, design.Easing{})), measure.ErrInput},
		{"apex Inf", second(c.ByApex(measure.Length(math.Inf(1)), design.Easing{})), measure.ErrInput},
		{"apex too small for easements", second(c.ByApex(1, design.Ease(curve.Clothoid, 200))), measure.ErrNoAnswer},
		{"point outside", second(c.Through(r2.Vec{X: -10, Y: -10}, design.Easing{})), measure.ErrNoAnswer},
		{"parallel", second(design.Meet(curve.Pose{}, curve.Pose{Point: r2.Vec{X: 100, Y: 100}})), measure.ErrNoAnswer},
		{"behind", second(design.Meet(curve.Pose{}, curve.Pose{Point: r2.Vec{X: -100, Y: 100}, Heading: math.Pi / 2})), measure.ErrNoAnswer},
		{"NaN pose", second(design.Meet(curve.Pose{}, curve.Pose{Point: r2.Vec{X: math.NaN(), Y: 100}, Heading: math.Pi / 2})), measure.ErrInput},
	} {
		if !errors.Is(row.err, row.kind) {
			t.Errorf("%s: error %v, want %v", row.name, row.err, row.kind)
		}
	}
}

func second[T any](_ T, err error) error { return err }

func FuzzCorner(f *testing.F) {
	f.Add(1.0, 1000.0, 1000.0, 500.0, 100.0, 200.0, uint8(2), 50.0)
	f.Add(-3.0, 10.0, 1e6, 1.0, 0.0, 0.0, uint8(0), 1e-3)
	f.Add(1e-5, 1e7, 1e7, 1e6, 5.0, 5.0, uint8(4), 1e3)
	f.Fuzz(func(t *testing.T, turn, in, out, r, a, b float64, shape uint8, apex float64) {
		s, c := math.Sincos(turn)
		k, err := design.CornerOf(r2.Vec{X: -in}, r2.Vec{}, r2.Vec{X: out * c, Y: out * s})
		if err != nil {
			return
		}
		ease := design.Easing{In: measure.Length(a), Out: measure.Length(b), Shape: curve.Shape(shape)}
		check := func(what string, bend design.Bend, err error) {
			if err != nil {
				return
			}
			l, err := curve.New(bend.Start, bend.Elements()...)
			if err != nil {
				t.Fatalf("%s: %v", what, err)
			}
			in, out := k.Straights()
			if bend.TangentIn > in*(1+1e-9) || bend.TangentOut > out*(1+1e-9) {
				t.Errorf("%s: tangents %v %v beyond straights %v %v", what, bend.TangentIn, bend.TangentOut, in, out)
			}
			scale := float64(bend.Length()+bend.TangentIn+bend.TangentOut) + float64(in+out)
			meets(t, what, l.End(), bend.End, 1e-9*scale)
			wrapTurn := math.Abs(wrap(turn))
			near(t, what+" second straight", offTangent(l.End().Point, curve.Pose{Heading: measure.Angle(turn)}), 0, 1e-9*scale/math.Sin(wrapTurn))
		}
		bend, err := k.ByRadius(measure.Length(r), ease)
		check("ByRadius", bend, err)
		bend, err = k.Largest(ease)
		check("Largest", bend, err)
		bend, err = k.ByApex(measure.Length(apex), ease)
		check("ByApex", bend, err)
		if err == nil && math.Abs(float64(bend.Apex)-apex) > 1e-6*(1+apex+float64(bend.Radius)) {
			t.Errorf("ByApex(%v): apex %v", apex, bend.Apex)
		}
	})
}
