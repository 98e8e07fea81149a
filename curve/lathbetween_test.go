package curve_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// Held at its ends a lath is in balance: its curvature, here from places alone,
// is a linear function of the place.
func TestLathBetween(t *testing.T) {
	r := rand.New(rand.NewPCG(51, 52))
	made := 0
	for i := range 300 {
		start := curve.Pose{Point: r2.Vec{X: 500 * r.NormFloat64(), Y: 500 * r.NormFloat64()}, Heading: measure.Angle(3 * r.NormFloat64())}
		off0, off1 := 0.6*r.NormFloat64(), 0.6*r.NormFloat64() // from the chord
		sin, cos := math.Sincos(float64(start.Heading) - off0)
		away := 300 + 2000*r.Float64()
		end := curve.Pose{Point: r2.Add(start.Point, r2.Vec{X: away * cos, Y: away * sin}), Heading: start.Heading + measure.Angle(off1-off0)}
		// About the length of a cubic, and a little more or less.
		length := measure.Length(away * (1 + (2*off0*off0+2*off1*off1-off0*off1)/30*(0.95+0.3*r.Float64())))
		e, err := curve.NewLathBetween(start, end, length)
		if err != nil {
			if !errors.Is(err, measure.ErrNoAnswer) {
				t.Errorf("%d: %v", i, err)
			}
			continue
		}
		made++
		a := must(curve.New(start, e))
		if d := r2.Norm(r2.Sub(a.End().Point, end.Point)); d > 1e-12*float64(length) {
			t.Errorf("%d: ends %v off", i, d)
		}
		if d := math.Remainder(float64(a.End().Heading-end.Heading), 2*math.Pi); math.Abs(d) > 1e-12 {
			t.Errorf("%d: heads %v off", i, d)
		}
		if a.Length() != length {
			t.Errorf("%d: %v long, want %v", i, a.Length(), length)
		}
		// Three places give the plane; all others lie in it.
		const h = 0.02
		L := float64(length)
		k := func(u float64) float64 {
			s := measure.Length(u * L)
			p, q, v := a.Point(s-h*length), a.Point(s), a.Point(s+h*length)
			// Fourth order from five places.
			p2, v2 := a.Point(s-2*h*length), a.Point(s+2*h*length)
			d := func(f func(r2.Vec) float64) (first, second float64) {
				first = (f(p2) - 8*f(p) + 8*f(v) - f(v2)) / (12 * h * L)
				second = (-f(p2) + 16*f(p) - 30*f(q) + 16*f(v) - f(v2)) / (12 * h * h * L * L)
				return first, second
			}
			x1, x2 := d(func(v r2.Vec) float64 { return v.X })
			y1, y2 := d(func(v r2.Vec) float64 { return v.Y })
			return (x1*y2 - y1*x2) / math.Pow(x1*x1+y1*y1, 1.5)
		}
		row := func(u float64) (x, y, z float64) {
			p := r2.Sub(a.Point(measure.Length(u*L)), start.Point)
			return p.X / L, p.Y / L, k(u) * L
		}
		// Least squares would do; the residual of the best plane through
		// all places is what counts.
		var n [3][4]float64
		for j := range 19 {
			x, y, z := row(0.05 + 0.05*float64(j))
			v := [4]float64{1, x, y, z}
			for a := range 3 {
				for b := range 4 {
					n[a][b] += v[a] * v[b]
				}
			}
		}
		for a := range 3 {
			for b := a + 1; b < 3; b++ {
				f := n[b][a] / n[a][a]
				for c := range 4 {
					n[b][c] -= f * n[a][c]
				}
			}
		}
		c2 := n[2][3] / n[2][2]
		c1 := (n[1][3] - n[1][2]*c2) / n[1][1]
		c0 := (n[0][3] - n[0][1]*c1 - n[0][2]*c2) / n[0][0]
		for j := range 19 {
			x, y, z := row(0.05 + 0.05*float64(j))
			if d := math.Abs(c0 + c1*x + c2*y - z); d > 3e-3*(1+math.Abs(c1)+math.Abs(c2)) {
				t.Errorf("%d: out of balance by %v at %v; curvature %v", i, d, 0.05+0.05*float64(j), z)
			}
		}
		hands, was := 0, 0.0
		for j := range 201 {
			if k := float64(a.At(length * measure.Length(j) / 200).Curvature); k*was < 0 {
				hands++
				was = k
			} else if k != 0 {
				was = k
			}
		}
		if hands > 1 {
			t.Errorf("%d: changes hand %d times", i, hands)
		}
		// Part, reverse and mirror.
		part := must(e.Part(length*0.3, length*0.8))
		st := a.At(length * 0.8)
		back := must(curve.New(curve.Pose{Point: st.Point, Heading: st.Heading + math.Pi}, part.Reverse()))
		if d := r2.Norm(r2.Sub(back.End().Point, a.Point(length*0.3))); d > 1e-12*L {
			t.Errorf("%d: part reversed ends %v off", i, d)
		}
		m := must(curve.New(curve.Pose{}, e.Mirror())).End().Point
		p := must(curve.New(curve.Pose{}, e)).End().Point
		if math.Hypot(m.X-p.X, m.Y+p.Y) > 1e-12*L {
			t.Errorf("%d: mirrored ends at %v, want the mirror of %v", i, m, p)
		}
	}
	t.Logf("%d of 300 made", made)
	if made < 200 {
		t.Errorf("only %d of 300 made", made)
	}
}

// Between the ends of a lath from straight to arc lies that lath.
func TestLathBetweenItsOwnEnds(t *testing.T) {
	for _, c := range [][2]measure.Length{{300, 6000}, {600, 1500}, {900, 800}, {1500, 1000}} {
		e := must(curve.NewLath(c[0], c[1], curve.Right))
		a := must(curve.New(curve.Pose{}, e))
		b := must(curve.New(curve.Pose{}, must(curve.NewLathBetween(a.Start(), a.End(), a.Length()))))
		for i := range 11 {
			s := a.Length() * measure.Length(i) / 10
			if d := r2.Norm(r2.Sub(a.Point(s), b.Point(s))); d > 1e-7*float64(a.Length()) {
				t.Errorf("%v: at %v off by %v", c, s, d)
			}
		}
	}
}

func TestLathBetweenRefuses(t *testing.T) {
	at := func(x, y, h float64) curve.Pose {
		return curve.Pose{Point: r2.Vec{X: x, Y: y}, Heading: measure.Angle(h)}
	}
	for _, c := range []struct {
		start, end curve.Pose
		length     measure.Length
		kind       error
		want       string
	}{
		{at(0, 0, 0), at(1000, 100, 0.1), 900, measure.ErrNoAnswer, "more than the distance of 1004.99 mm"},
		{at(0, 0, 0), at(1000, 0, 0), 1000, measure.ErrNoAnswer, "take a straight"},
		{at(math.NaN(), 0, 0), at(1000, 0, math.Inf(1)), -1, measure.ErrInput, "start x"},
		{at(0, 0, 0), at(0, 0, 0), 100, measure.ErrNoAnswer, "changes hand once at most"},
	} {
		_, err := curve.NewLathBetween(c.start, c.end, c.length)
		if !errors.Is(err, c.kind) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v to %v by %v: error %v, want %q", c.start, c.end, c.length, err, c.want)
		}
	}
}
