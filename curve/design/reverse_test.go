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

// Equal reverse curves between parallel tracks (worked, reference
// engineering.md, Pointwork): D = 2R (1 - cos θ), L = 2R sin θ = √(4RD - D²).
func TestReverseBetweenParallelTracks(t *testing.T) {
	const r, d = 3000.0, 170.0
	for _, side := range []float64{1, -1} {
		l, err := design.Reverse{To: curve.Pose{Point: r2.Vec{X: -77, Y: side * d}}, Radius1: r}.Line()
		if err != nil {
			t.Fatal(err)
		}
		end := aligned(t, l).End()
		near(t, "length along", end.Point.X, math.Sqrt(4*r*d-d*d), 1e-9)
		near(t, "spacing", end.Point.Y, side*d, 1e-9)
		near(t, "turn", float64(l.Bends[0].Turn), math.Acos(1-d/(2*r)), 1e-12)
		near(t, "heading", float64(end.Heading), 0, 1e-12)
	}
}

// With a straight S between plain curves: D = (R1+R2)(1-cos θ) + S sin θ.
func TestReverseWithStraight(t *testing.T) {
	l, err := design.Reverse{To: curve.Pose{Point: r2.Vec{Y: 400}}, Radius1: 2000, Radius2: 1200, Straight: 350}.Line()
	if err != nil {
		t.Fatal(err)
	}
	sin, cos := math.Sincos(float64(l.Bends[0].Turn))
	near(t, "spacing by formula", 3200*(1-cos)+350*sin, 400, 1e-9)
	near(t, "straight", float64(l.Elements[1].Length()), 350, 0)
}

func TestReverseRandom(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 6))
	made := 0
	for range 600 {
		from := randomPose(rng)
		converge := measure.Angle(0)
		if rng.IntN(2) == 0 {
			converge = measure.Angle(0.5 * (rng.Float64() - 0.5))
		}
		to := curve.Pose{Heading: from.Heading + converge}
		to.Point = r2.Add(from.Point, r2.Scale(400+600*rng.Float64(), unit(from.Heading+measure.Angle(sign(rng)*math.Pi/2))))
		to.Point = r2.Add(to.Point, r2.Scale(3000*rng.Float64(), unit(to.Heading)))
		r := design.Reverse{
			From: from, To: to, Radius1: measure.Length(600 + 2000*rng.Float64()), Radius2: measure.Length(600 + 2000*rng.Float64()),
			Ease1:    design.Easing{In: measure.Length(200 * rng.Float64()), Out: measure.Length(200 * rng.Float64()), Shape: shapes[rng.IntN(5)]},
			Ease2:    design.Ease(shapes[rng.IntN(5)], measure.Length(200*rng.Float64())),
			Straight: measure.Length(rng.IntN(2) * 100),
		}
		l, err := r.Line()
		if err != nil {
			if !errors.Is(err, measure.ErrNoAnswer) {
				t.Errorf("%+v: %v", r, err)
			}
			continue
		}
		made++
		a := aligned(t, l)
		near(t, "end on the other track", offTangent(a.End().Point, to), 0, 1e-8)
		near(t, "heading of the end", wrap(float64(a.End().Heading-to.Heading)), 0, 1e-11)
		for _, b := range l.Bends {
			checkBend(t, b)
		}
		if l.Bends[0].Hand != l.Bends[1].Hand.Opposite() {
			t.Errorf("hands %v and %v", l.Bends[0].Hand, l.Bends[1].Hand)
		}
		if l.Bends[0].Ease != r.Ease1 || l.Bends[1].Ease != r.Ease2 || l.Bends[0].Radius != r.Radius1 || l.Bends[1].Radius != r.Radius2 {
			t.Errorf("bends %+v are not those asked for %+v", l.Bends, r)
		}
	}
	if made < 200 {
		t.Errorf("only %d of 600 were made", made)
	}
}

func TestReverseTellsWhatFits(t *testing.T) {
	r := design.Reverse{To: curve.Pose{Point: r2.Vec{Y: 2000}}, Radius1: 600}
	_, err := r.Line()
	m := regexp.MustCompile(`a straight of at least ([0-9.]+) mm`).FindStringSubmatch(fmt.Sprint(err))
	if m == nil || !errors.Is(err, measure.ErrNoAnswer) {
		t.Fatalf("error %v tells no straight", err)
	}
	near(t, "straight told", must(strconv.ParseFloat(m[1], 64)), 800, 1e-3)
	r.Straight = 801
	if _, err := r.Line(); err != nil {
		t.Errorf("straight told does not fit: %v", err)
	}
	r = design.Reverse{To: curve.Pose{Point: r2.Vec{Y: 2000}, Heading: 0.3}, Radius1: 600}
	_, err = r.Line()
	m = regexp.MustCompile(`a straight of at least ([0-9.]+) mm`).FindStringSubmatch(fmt.Sprint(err))
	if m == nil {
		t.Fatalf("error %v tells no straight", err)
	}
	least := must(strconv.ParseFloat(m[1], 64))
	r.Straight = measure.Length(least + 0.1)
	if _, err := r.Line(); err != nil {
		t.Errorf("straight told for converging tracks does not fit: %v", err)
	}
	r.Straight = measure.Length(least - 1)
	if _, err := r.Line(); err == nil {
		t.Errorf("less than the straight told fits too")
	}
	r = design.Reverse{To: curve.Pose{Point: r2.Vec{Y: 20}}, Radius1: 2000, Ease1: design.Ease(curve.Bloss, 400), Ease2: design.Ease(curve.Bloss, 400)}
	_, err = r.Line()
	m = regexp.MustCompile(`needs at least ([0-9.]+) mm`).FindStringSubmatch(fmt.Sprint(err))
	if m == nil || !errors.Is(err, measure.ErrNoAnswer) {
		t.Fatalf("error %v tells no distance", err)
	}
	r.To.Point.Y = must(strconv.ParseFloat(m[1], 64)) + 1e-3
	if _, err := r.Line(); err != nil {
		t.Errorf("distance told does not fit: %v", err)
	}
}

func FuzzReverse(f *testing.F) {
	f.Add(170.0, 0.0, 0.0, 3000.0, 2000.0, 100.0, 50.0, 300.0, uint8(2))
	f.Add(-170.0, 50.0, 0.2, 3000.0, 0.0, 0.0, 0.0, 0.0, uint8(0))
	f.Fuzz(func(t *testing.T, y, x, heading, r1, r2_, e1, e2, straight float64, shape uint8) {
		r := design.Reverse{
			To:      curve.Pose{Point: r2.Vec{X: x, Y: y}, Heading: measure.Angle(heading)},
			Radius1: measure.Length(r1), Radius2: measure.Length(r2_),
			Ease1: design.Ease(curve.Shape(shape), measure.Length(e1)), Ease2: design.Ease(curve.Shape(shape), measure.Length(e2)),
			Straight: measure.Length(straight),
		}
		l, err := r.Line()
		if err != nil {
			return
		}
		a, err := l.Alignment()
		if err != nil {
			t.Fatal(err)
		}
		scale := float64(a.Length()) + r1 + r2_ + math.Abs(x) + math.Abs(y)
		near(t, "end on the other track", offTangent(a.End().Point, r.To), 0, 1e-9*scale)
		near(t, "heading", wrap(float64(a.End().Heading-r.To.Heading)), 0, 1e-9)
	})
}
