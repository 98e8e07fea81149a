package design_test

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/design"
	"example.org/fourfoot/gauge/measure"
)

// plainJoins returns every plain arc, straight, arc of one radius and the given
// hands between two poses, each turn under 180°: the heading of the straight is
// scanned and refined, the rest follows. It shares no code with the package.
func plainJoins(t *testing.T, from, to curve.Pose, r float64, h1, h2 curve.Hand) []*curve.Alignment {
	t.Helper()
	s1, s2 := float64(h1), float64(h2)
	ends := func(turn float64) (q, e r2.Vec, h, t2 float64) {
		h = float64(from.Heading) + s1*turn
		c1 := r2.Add(from.Point, r2.Scale(s1*r, unit(from.Heading+math.Pi/2)))
		q = r2.Sub(c1, r2.Scale(s1*r, unit(measure.Angle(h)+math.Pi/2)))
		c2 := r2.Add(to.Point, r2.Scale(s2*r, unit(to.Heading+math.Pi/2)))
		e = r2.Sub(c2, r2.Scale(s2*r, unit(measure.Angle(h)+math.Pi/2)))
		t2 = math.Mod(s2*(float64(to.Heading)-h)+8*math.Pi, 2*math.Pi)
		return q, e, h, t2
	}
	miss := func(turn float64) float64 {
		q, e, h, _ := ends(turn)
		return offTangent(e, curve.Pose{Point: q, Heading: measure.Angle(h)})
	}
	var out []*curve.Alignment
	const n = 720
	for i := range n {
		a, b := math.Pi*float64(i)/n, math.Pi*float64(i+1)/n
		if miss(a)*miss(b) > 0 {
			continue
		}
		for range 60 {
			m := (a + b) / 2
			if miss(a)*miss(m) <= 0 {
				b = m
			} else {
				a = m
			}
		}
		q, e, h, t2 := ends(a)
		along := r2.Dot(r2.Sub(e, q), unit(measure.Angle(h)))
		if along < 1e-6 || t2 >= math.Pi || t2 < 1e-9 || a < 1e-9 {
			continue
		}
		var el []curve.Element
		for _, x := range []struct {
			turn float64
			hand curve.Hand
		}{{a, h1}, {0, 0}, {t2, h2}} {
			var p curve.Element
			var err error
			if x.hand == 0 {
				p, err = curve.NewStraight(measure.Length(along))
			} else {
				p, err = curve.NewArc(measure.Length(r), measure.Angle(x.turn), x.hand)
			}
			if err != nil {
				t.Fatal(err)
			}
			el = append(el, p)
		}
		l, err := curve.New(from, el...)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, l)
	}
	return out
}

func TestFitJoinAgainstGrid(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 18))
	several, checked := 0, 0
	for i := range 12 {
		j := design.Join{
			From: curve.Pose{Point: r2.Vec{X: -3000}}, To: curve.Pose{Point: r2.Vec{X: 3000, Y: 3000 * (rng.Float64() - 0.5)}, Heading: measure.Angle(2 * (rng.Float64() - 0.5))},
			Family: design.ArcStraightArc,
		}
		f := design.Fit{MinRadius: 300, MaxRadius: 6000}
		for range 2 {
			p := r2.Vec{X: 3000 * (rng.Float64() - 0.5), Y: 2500 * (rng.Float64() - 0.5)}
			f.Obstacles = append(f.Obstacles, design.Obstacle{Points: []r2.Vec{p, r2.Add(p, r2.Vec{X: 300})}, Left: 100, Right: 100})
		}
		got, err := f.Join(context.Background(), j)
		if err != nil && !errors.Is(err, measure.ErrNoAnswer) {
			t.Fatal(err)
		}
		if len(got.Intervals) > 1 {
			several++
		}
		for k := range 40 {
			r := measure.Length(300 + 5700*(float64(k)+0.5)/40)
			for _, h1 := range []curve.Hand{curve.Left, curve.Right} {
				for _, h2 := range []curve.Hand{curve.Left, curve.Right} {
					inside, edge := false, false
					for _, iv := range got.Intervals {
						if iv.Hands != [2]curve.Hand{h1, h2} {
							continue
						}
						inside = inside || r >= iv.From.Radius && r <= iv.To.Radius
						edge = edge || math.Abs(float64(r-iv.From.Radius)) < 5 || math.Abs(float64(r-iv.To.Radius)) < 5
					}
					if edge {
						continue
					}
					lines := plainJoins(t, j.From, j.To, float64(r), h1, h2)
					fits := false
					for _, a := range lines {
						fits = fits || gridClear(a, f.Obstacles, 0)
					}
					checked++
					if fits != inside {
						t.Errorf("case %d, radius %v, %v and %v: in an interval %v, by the grid %v of %d lines\n%+v", i, r, h1, h2, inside, fits, len(lines), got.Intervals)
					}
				}
			}
		}
	}
	if several < 4 {
		t.Errorf("only %d of 12 cases have several intervals", several)
	}
	t.Logf("%d radii compared", checked)
}
