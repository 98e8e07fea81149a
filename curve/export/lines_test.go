package export_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

const m = measure.Metre

func must[T any](t testing.TB) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.15g, want %.15g within %g", what, got, want, tol)
	}
}

// snake is an open line of every form with a kink, which does not cross
// itself; mirrored it bends the other way.
func snake(t testing.TB, mirror bool) *curve.Alignment {
	t.Helper()
	side := 1.0
	left, right := curve.Left, curve.Right
	if mirror {
		side, left, right = -1, curve.Right, curve.Left
	}
	e := []curve.Element{must[curve.Element](t)(curve.NewStraight(700))}
	for i, shape := range []curve.Shape{curve.Clothoid, curve.Bloss, curve.Cosine, curve.Sine, curve.Helmert} {
		hand := left
		if i%2 == 1 {
			hand = right
		}
		b := curve.Bend{Radius: 900 + 200*measure.Length(i), Turn: 1.3, Hand: hand, EaseIn: 600, EaseOut: 300, Shape: shape}
		e = append(e, must[[]curve.Element](t)(b.Elements())...)
	}
	e = append(e, must[curve.Element](t)(curve.NewEasement(curve.Bloss, 900, measure.Curvature(side/1200), measure.Curvature(-side/700))))
	e = append(e, must[curve.Element](t)(curve.NewStraight(300)).WithKink(measure.Angle(side*0.05)))
	e = append(e, must[curve.Element](t)(curve.NewArc(800, 3.5, right)))
	return must[*curve.Alignment](t)(curve.New(curve.Pose{Point: r2.Vec{X: 120, Y: -45}, Heading: measure.Angle(side * 0.4)}, e...))
}

// oval is a circuit that begins at one of its eight elements.
func oval(t testing.TB, first int) *curve.Alignment {
	t.Helper()
	bend := must[[]curve.Element](t)(curve.Bend{Radius: 2 * m, Turn: math.Pi, Hand: curve.Right, EaseIn: 600, EaseOut: 600, Shape: curve.Cosine}.Elements())
	s := must[curve.Element](t)(curve.NewStraight(3 * m))
	lap := append(append(append([]curve.Element{s}, bend...), s), bend...)
	whole := must[*curve.Alignment](t)(curve.New(curve.Pose{}, lap...))
	st := whole.At(whole.Boundaries()[first])
	lap = append(append([]curve.Element{}, lap[first:]...), lap[:first]...)
	return must[*curve.Alignment](t)(curve.NewClosed(curve.Pose{Point: st.Point, Heading: st.Heading}, 1e-6, 1e-9, lap...))
}

// random is an open line of random elements and parts of easements.
func random(t testing.TB, rng *rand.Rand) *curve.Alignment {
	t.Helper()
	var e []curve.Element
	for range 1 + rng.IntN(12) {
		length := measure.Length(math.Exp(rng.Float64()*7 - 1))
		k := func() measure.Curvature { return measure.Curvature((rng.Float64() - 0.5) / 200) }
		var x curve.Element
		switch rng.IntN(6) {
		case 4, 5:
			build := curve.NewLath
			if rng.IntN(2) == 0 {
				build = curve.NewCubicParabola
			}
			x = must[curve.Element](t)(build(length, length*measure.Length(1.2+5*rng.Float64()), curve.Hand(1-2*rng.IntN(2))))
			if rng.IntN(2) == 0 {
				x = must[curve.Element](t)(build(length, 2*measure.Length(math.Ceil(float64(length))), curve.Right))
			}
			if rng.IntN(2) == 0 {
				x = must[curve.Element](t)(x.Part(x.Length()*measure.Length(rng.Float64()*0.5), x.Length()*measure.Length(0.6+0.4*rng.Float64())))
			}
			if rng.IntN(2) == 0 {
				x = x.Reverse()
			}
		case 0:
			x = must[curve.Element](t)(curve.NewStraight(length))
		case 1:
			x = must[curve.Element](t)(curve.NewArcOfLength(length, k()))
		default:
			x = must[curve.Element](t)(curve.NewEasement(curve.Clothoid+curve.Shape(rng.IntN(5)), length, k(), k()))
			if rng.IntN(2) == 0 {
				a := measure.Length(rng.Float64()) * length / 2
				f := x.Form()
				f.From, f.Length = a, (length-a)*measure.Length(0.1+0.9*rng.Float64())
				x = must[curve.Element](t)(f.Element())
			}
		}
		if rng.IntN(4) == 0 {
			x = x.WithKink(measure.Angle(rng.Float64() - 0.5))
		}
		e = append(e, x)
	}
	start := curve.Pose{Point: r2.Vec{X: rng.NormFloat64() * 1e4, Y: rng.NormFloat64() * 1e4}, Heading: measure.Angle(rng.NormFloat64() * 3)}
	return must[*curve.Alignment](t)(curve.New(start, e...))
}
