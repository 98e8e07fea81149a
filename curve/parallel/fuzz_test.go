package parallel_test

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/parallel"
	"example.org/fourfoot/gauge/measure"
)

// A track that is taken lies at its offset, and runs as far as its chainage
// says.
func FuzzTrack(f *testing.F) {
	f.Add(uint8(2), 800.0, 1.0/3000, 1000.0, 1.2, 100.0, 160.0, 500.0, 200.0)
	f.Add(uint8(6), 600.0, -1.0/900, 10.0, -2.0, 0.0, -500.0, 300.0, 500.0)
	f.Add(uint8(3), 600.0, 1.0/900, 10.0, 0.5, 0.0, 900.0, 300.0, 899.0)
	f.Add(uint8(5), 1e-3, 1e-300, 1e9, 1e-12, 0.0, 1e6, 1e-4, -1e6)
	f.Fuzz(func(t *testing.T, shape uint8, length, k, straight, turn, s0, d0, s1, d1 float64) {
		var e []curve.Element
		add := func(x curve.Element, err error) {
			if err == nil {
				e = append(e, x)
			}
		}
		add(curve.NewStraight(measure.Length(straight)))
		add(curve.NewEasement(curve.Shape(shape%8), measure.Length(length), 0, measure.Curvature(k)))
		add(curve.NewArcOfLength(measure.Length(math.Abs(turn/k)), measure.Curvature(k)))
		line, err := curve.New(curve.Pose{}, e...)
		if err != nil || line.Length() > 1e7 {
			return
		}
		tr, err := parallel.NewTapered(line, parallel.Offset{Chainage: measure.Length(s0), Offset: measure.Length(d0), Law: curve.Shape(shape / 8 % 8)}, parallel.Offset{Chainage: measure.Length(s1), Offset: measure.Length(d1)})
		if err != nil {
			if !errors.Is(err, measure.ErrInput) {
				t.Fatalf("error of no kind: %v", err)
			}
			return
		}
		if !(tr.Length() > 0) || math.IsInf(float64(tr.Length()), 0) {
			t.Fatalf("length %v", tr.Length())
		}
		for i := range 20 {
			x := tr.Length() * measure.Length(i) / 19
			st := tr.At(x)
			tol := 1e-9 * (1 + float64(tr.Length()) + math.Abs(d0) + math.Abs(d1))
			if off := r2.Norm(r2.Sub(st.Point, line.Point(st.Line))); !(math.Abs(off-math.Abs(float64(st.Offset))) <= tol) {
				t.Fatalf("at %v it lies %v off, want %v", x, off, st.Offset)
			}
			if k := float64(st.Curvature); math.IsNaN(k) || math.IsInf(k, 0) {
				t.Fatalf("curvature %v at %v", k, x)
			}
		}
		if points, err := tr.Points(measure.Length(1e-3 * float64(tr.Length()))); err == nil {
			if last := points[len(points)-1].Chainage; math.Abs(float64(last-tr.Length())) > 1e-9*float64(tr.Length()) {
				t.Fatalf("points end at %v, length %v", last, tr.Length())
			}
		} else if !errors.Is(err, measure.ErrLimit) {
			t.Fatal(err)
		}
	})
}
