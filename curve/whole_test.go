package curve_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// The bounds hold every point, and a point comes to each of their sides.
func TestBounds(t *testing.T) {
	r := rand.New(rand.NewPCG(41, 42))
	for line := range 300 {
		a := randomAlignment(r)
		b := a.Bounds()
		const n = 3000
		lo, hi := r2.Vec{X: math.Inf(1), Y: math.Inf(1)}, r2.Vec{X: math.Inf(-1), Y: math.Inf(-1)}
		for i := range n + 1 {
			p := a.Point(a.Length() * measure.Length(i) / n)
			lo, hi = r2.Vec{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}, r2.Vec{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
		}
		// Between samples the line stands out by step²k/8 at a crown, or by a
		// step at a kink.
		step := float64(a.Length()) / n
		for _, d := range []float64{lo.X - b.Min.X, lo.Y - b.Min.Y, b.Max.X - hi.X, b.Max.Y - hi.Y} {
			if d < -1e-10*float64(a.Length()) {
				t.Errorf("line %d: a point is %v outside the bounds", line, -d)
			}
			if d > step {
				t.Errorf("line %d: the bounds are %v too wide", line, d)
			}
		}
	}
	// An easement that swings out and back: its crowns by golden section.
	a := must(curve.New(curve.Pose{}, must(curve.NewEasement(curve.Clothoid, 1000, -1./300, 1./300))))
	low := 0.0
	for s := measure.Length(0); s <= 1000; s += 0.01 {
		low = min(low, a.Point(s).Y)
	}
	if d := math.Abs(a.Bounds().Min.Y - low); d > 1e-6 {
		t.Errorf("lowest at %v, walked %v", a.Bounds().Min.Y, low)
	}
	// One piece that rises, dips and rises again about its inflection.
	a = must(curve.New(curve.Pose{Heading: 0.02}, must(curve.NewEasement(curve.Clothoid, 400, -1./1000, 1./700))))
	low = 0
	for s := measure.Length(0); s <= 400; s += 0.01 {
		low = min(low, a.Point(s).Y)
	}
	if d := math.Abs(a.Bounds().Min.Y - low); d > 1e-6 || low > -1 {
		t.Errorf("lowest at %v, walked %v", a.Bounds().Min.Y, low)
	}
}

// No chord strays further from the line than was asked, and not many more are
// used than needed.
func TestPoints(t *testing.T) {
	r := rand.New(rand.NewPCG(43, 44))
	for line := range 100 {
		a := randomAlignment(r)
		tol := math.Pow(10, -3+4*r.Float64())
		from, to := a.Length()*measure.Length(0.3*r.Float64()), a.Length()*measure.Length(1-0.3*r.Float64())
		var s []measure.Length
		var p []r2.Vec
		for x, v := range must(a.Points(from, to, measure.Length(tol))) {
			s, p = append(s, x), append(p, v)
		}
		if s[0] != from || s[len(s)-1] != to {
			t.Errorf("line %d: points from %v to %v, asked %v to %v", line, s[0], s[len(s)-1], from, to)
		}
		for i := range s[1:] {
			if s[i+1] <= s[i] {
				t.Errorf("line %d: chainage %v after %v", line, s[i+1], s[i])
			}
			chord := r2.Unit(r2.Sub(p[i+1], p[i]))
			for j := range 9 {
				v := r2.Sub(a.Point(s[i]+(s[i+1]-s[i])*measure.Length(j)/8), p[i])
				if d := math.Abs(chord.X*v.Y - chord.Y*v.X); d > tol*(1+1e-9) {
					t.Errorf("line %d: the chord at %v is %v off, %v allowed", line, s[i], d, tol)
				}
			}
		}
		for _, b := range a.Boundaries() {
			found := b < from || b > to
			for _, x := range s {
				found = found || math.Abs(float64(x-b)) < 1e-9
			}
			if !found {
				t.Errorf("line %d: boundary %v is not among the points", line, b)
			}
		}
	}
	arc := must(curve.New(curve.Pose{}, must(curve.NewArc(1000, math.Pi, curve.Left))))
	n := 0
	for range must(arc.Points(0, arc.Length(), 0.1)) {
		n++
	}
	if want := 1 + math.Ceil(math.Pi*1000/math.Sqrt(8*1000*0.1)); n != int(want) {
		t.Errorf("%d points on the arc, want %v", n, want)
	}
	ring, _ := randomCircuit(r)
	last := ring.Length() * 0.9
	for s, p := range must(ring.Points(last, ring.Length()*0.2, 1)) {
		if s < last || p != ring.Point(s) {
			t.Errorf("over the start: %v after %v, %v", s, last, p)
		}
		last = s
	}
	if d := math.Abs(float64(last - ring.Length()*1.2)); d > 1e-9 {
		t.Errorf("over the start: ends at %v of %v", last, ring.Length())
	}
	for range must(ring.Points(0, 1, 0.5)) {
		break
	}
}

func TestElementAt(t *testing.T) {
	e := must(curve.NewStraight(100))
	a := must(curve.New(curve.Pose{}, e, e, e))
	for _, c := range []struct {
		s    measure.Length
		i    int
		into measure.Length
	}{{0, 0, 0}, {99, 0, 99}, {100, 1, 0}, {250, 2, 50}, {300, 2, 100}, {310, 2, 110}, {-5, 0, -5}} {
		if i, into := a.ElementAt(c.s); i != c.i || into != c.into {
			t.Errorf("ElementAt(%v) = %v, %v, want %v, %v", c.s, i, into, c.i, c.into)
		}
	}
}

// The rails by quadrature along the two offset curves.
func TestRailLength(t *testing.T) {
	const centres = 47.5
	r := rand.New(rand.NewPCG(45, 46))
	for range 50 {
		plan := randomLine(r, 3)
		for i := range plan {
			plan[i].kink = 0
		}
		a := build(curve.Pose{}, plan)
		for _, rail := range []curve.Hand{curve.Left, curve.Right} {
			from, to := a.Length()*0.1, a.Length()*0.95
			sum := 0.0
			const n = 4000
			for i := range n {
				p := a.Offset(from+(to-from)*measure.Length(i)/n, measure.Length(rail)*centres/2)
				q := a.Offset(from+(to-from)*measure.Length(i+1)/n, measure.Length(rail)*centres/2)
				sum += r2.Norm(r2.Sub(q, p))
			}
			got, err := a.RailLength(rail, from, to, centres)
			trim, err2 := a.Trim(rail, from, to, centres)
			other, err3 := a.RailLength(-rail, from, to, centres)
			if err := errors.Join(err, err2, err3); err != nil {
				t.Fatal(err)
			}
			if math.Abs(float64(got)-sum) > 1e-4*sum {
				t.Errorf("rail length %v, walked %v", got, sum)
			}
			if math.Abs(float64(other-got-trim)) > 1e-9 {
				t.Errorf("the other rail is %v longer, trim %v", other-got, trim)
			}
		}
	}
	// Common practice, no source: 0.83 mm a degree on 45 mm gauge, 74.6 mm for
	// 90° at rail-head centres of 47.5.
	bend := must(curve.New(curve.Pose{}, must(curve.Bend{Radius: 3000, Turn: 90 * measure.Degree, Hand: curve.Left, EaseIn: 900, EaseOut: 700, Shape: curve.Helmert}.Elements())...))
	if trim := must(bend.Trim(curve.Left, 0, bend.Length(), centres)); math.Abs(float64(trim)-74.6) > 0.05 {
		t.Errorf("trim of 90° is %v, want 74.6 mm", trim)
	}
	ring := must(curve.NewClosed(curve.Pose{}, 0, 0, must(curve.NewArc(1000, 2*math.Pi, curve.Right))))
	if trim := must(ring.Trim(curve.Right, 0, ring.Length(), centres)); math.Abs(float64(trim)-2*math.Pi*centres) > 1e-9 {
		t.Errorf("trim of a whole lap is %v", trim)
	}
	if trim := must(ring.Trim(curve.Right, 6000, 100, centres)); math.Abs(float64(trim)-(2*math.Pi*1000-5900)/1000*centres) > 1e-9 {
		t.Errorf("trim over the start is %v", trim)
	}
}
