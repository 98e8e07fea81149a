package export_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/export"
	"example.org/fourfoot/gauge/measure"
)

func TestPointsStayWithinTheTolerance(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	lines := []*curve.Alignment{snake(t, false), snake(t, true), oval(t, 0), oval(t, 2)}
	for range 40 {
		lines = append(lines, random(t, rng))
	}
	for n, line := range lines {
		for _, tol := range []measure.Length{1, 0.03} {
			points := must[[]curve.Station](t)(export.Points(line, export.Range{}, tol))
			worst := 0.0
			for i := 1; i < len(points); i++ {
				a, b := points[i-1], points[i]
				chord := r2.Sub(b.Point, a.Point)
				if !(b.Chainage > a.Chainage) {
					t.Fatalf("line %d: chainage %v after %v", n, b.Chainage, a.Chainage)
				}
				for j := 1; j < 8; j++ {
					p := line.Point(a.Chainage + (b.Chainage-a.Chainage)*measure.Length(j)/8)
					worst = max(worst, math.Abs(r2.Cross(r2.Sub(p, a.Point), chord))/r2.Norm(chord))
				}
			}
			if worst > float64(tol)*(1+1e-9) || n < 4 && worst < 0.3*float64(tol) {
				t.Errorf("line %d: %d points, chords %v mm off at a tolerance of %v", n, len(points), worst, tol)
			}
			if first, last := points[0], points[len(points)-1]; first.Chainage != 0 || last.Chainage != line.Length() || r2.Norm(r2.Sub(last.Point, line.End().Point)) > 1e-9 {
				t.Errorf("line %d: ends %v and %v", n, first, last)
			}
		}
	}
}

func TestPointsOfARange(t *testing.T) {
	line := oval(t, 2)
	l := line.Length()
	over := must[[]curve.Station](t)(export.Points(line, export.Range{From: l - 500, To: 700}, 0.1))
	if over[0].Chainage != l-500 || math.Abs(float64(over[len(over)-1].Chainage-l-700)) > 1e-9 {
		t.Errorf("from %v to %v, want %v to %v", over[0].Chainage, over[len(over)-1].Chainage, l-500, l+700)
	}
	sum := 0.0
	for i := 1; i < len(over); i++ {
		sum += r2.Norm(r2.Sub(over[i].Point, over[i-1].Point))
	}
	near(t, "length over the start", sum, 1200, 1)
	point := must[[]curve.Station](t)(export.Points(line, export.Range{From: 50, To: 50}, 0.1))
	if len(point) == 0 || point[0].Point != line.Point(50) {
		t.Errorf("range of no length: %v", point)
	}
}

func TestPointsRefuses(t *testing.T) {
	line := snake(t, false)
	nan := measure.Length(math.NaN())
	for i, tt := range []struct {
		line *curve.Alignment
		r    export.Range
		tol  measure.Length
		kind error
	}{
		{nil, export.Range{}, 1, measure.ErrInput},
		{line, export.Range{}, 0, measure.ErrInput},
		{line, export.Range{}, nan, measure.ErrInput},
		{line, export.Range{From: nan}, 1, measure.ErrInput},
		{line, export.Range{From: 5, To: 4}, 1, measure.ErrInput},
		{line, export.Range{To: line.Length() + 1}, 1, measure.ErrInput},
		{line, export.Range{}, 1e-12, measure.ErrLimit},
	} {
		if _, err := export.Points(tt.line, tt.r, tt.tol); !errors.Is(err, tt.kind) {
			t.Errorf("case %d: Points gives error %v, want %v", i, err, tt.kind)
		}
	}
}
