package coupling_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/coupling"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// Stood at places close by, pairs of every kind have nothing left of their
// swing at the length that a reversal needs, and something at every longer one.
func TestReversalsFedForward(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	n := 0
	for range 8 {
		car := func() coupling.Car {
			l := 150 + 500*r.Float64()
			w := l * (0.35 + 0.4*r.Float64())
			band := clearance.Band{Top: 100, Outline: clearance.Box(measure.Length(l), 90)}
			v := clearance.Rigid("v", measure.Length(w), band)
			if r.IntN(2) == 0 {
				v = clearance.Bogie("v", measure.Length(w), 60, band)
			}
			e := func(way measure.Length) coupling.End {
				return coupling.End{Hinge: way * measure.Length(l/2-10), Length: measure.Length(15 + 25*r.Float64()), Swing: measure.Angle(10+20*r.Float64()) * measure.Degree}
			}
			return coupling.Car{Vehicle: v, Rear: e(-1), Front: e(1)}
		}
		p := coupling.Pair{Behind: car(), Ahead: car()}
		rev := coupling.Reversal{First: measure.Length(800 + 1500*r.Float64()), Second: measure.Length(800 + 1500*r.Float64())}
		check := func(what string, length measure.Length, err error, piece func(l measure.Length) []curve.Element) {
			if errors.Is(err, measure.ErrNoAnswer) || length == 0 {
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			n++
			for _, f := range []measure.Length{1, 1.02, 1.4, 3} {
				a, _ := curve.NewArcOfLength(3000, measure.Curvature(1/float64(rev.First)))
				b, _ := curve.NewArcOfLength(3000, measure.Curvature(-1/float64(rev.Second)))
				line, err := curve.New(curve.Pose{}, append(append([]curve.Element{a}, piece(length*f)...), b)...)
				if err != nil {
					t.Fatal(err)
				}
				left := measure.Angle(math.Inf(1))
				for x := measure.Length(1500); x < line.Length()-1500; x += 4 {
					j, err := coupling.At(line, p, x)
					if err != nil {
						t.Fatal(err)
					}
					left = min(left, p.Behind.Front.Swing-measure.Angle(math.Abs(float64(j.SwingBehind))), p.Ahead.Rear.Swing-measure.Angle(math.Abs(float64(j.SwingAhead))))
				}
				mm := float64(left) * float64(p.Behind.Front.Length+p.Ahead.Rear.Length)
				if f == 1 && math.Abs(mm) > 0.01 || f > 1 && mm < -1e-4 {
					t.Errorf("%s of %v times %v: %v mm left", what, f, length, mm)
				}
			}
		}
		s, err := coupling.StraightNeeded(t.Context(), p, coupling.AllLimits, rev)
		check("straight", s, err, func(l measure.Length) []curve.Element {
			e, _ := curve.NewStraight(l)
			return []curve.Element{e}
		})
		for _, shape := range []curve.Shape{curve.Clothoid, curve.Cosine} {
			e, err := coupling.EasementNeeded(t.Context(), p, coupling.AllLimits, rev, shape)
			check("ease", e, err, func(l measure.Length) []curve.Element {
				a, _ := curve.NewEasement(shape, l, measure.Curvature(1/float64(rev.First)), 0)
				b, _ := curve.NewEasement(shape, l, 0, measure.Curvature(-1/float64(rev.Second)))
				return []curve.Element{a, b}
			})
		}
	}
	if n < 4 {
		t.Errorf("only %d reversals need anything", n)
	}
}
