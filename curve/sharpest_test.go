package curve_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// The sharpest place against walking along the element in small steps.
func TestSharpest(t *testing.T) {
	r := rand.New(rand.NewPCG(71, 72))
	inside := 0
	for i := range 250 {
		var e curve.Element
		if i%4 == 0 {
			e = randomElement(r)
		} else {
			e = lathsBetween()[r.IntN(60)]
		}
		if i%3 == 0 {
			e = must(e.Part(e.Length()*measure.Length(0.4*r.Float64()), e.Length()*measure.Length(1-0.4*r.Float64())))
		}
		if i%5 == 0 {
			e = e.Reverse()
		}
		const n = 500
		line := must(curve.New(curve.Pose{}, e))
		var at measure.Length
		var most float64
		for j := range n + 1 {
			s := e.Length() * measure.Length(j) / n
			if k := math.Abs(float64(line.At(s).Curvature)); k > most*(1+1e-13) {
				at, most = s, k
			}
		}
		s, k := e.Sharpest()
		if k != e.CurvatureAt(s) {
			t.Errorf("%d: the curvature at %v is %v, not %v", i, s, e.CurvatureAt(s), k)
		}
		// Between two samples a crest stands out by k''·h²/8, h being a sample.
		if d := math.Abs(float64(k)) - most; d < -1e-13*most || d > 1e-3*most {
			t.Errorf("%d: %v of %v is %v sharp at %v, walked %v at %v", i, e.Shape(), e.Length(), k, s, most, at)
		}
		// Two crests of one lath may be equally sharp: the first counts.
		if s > at+e.Length()/n && most > math.Abs(float64(k))*(1-1e-13) {
			t.Errorf("%d: sharpest at %v, as sharp at %v", i, s, at)
		}
		if s > 0 && s < e.Length() {
			inside++
			if d := math.Abs(e.CurvatureRate(s)) * float64(e.Length()*e.Length()); d > 1e-9 {
				t.Errorf("%d: at the crest the curvature grows by %v", i, d)
			}
		}
	}
	if inside < 30 {
		t.Errorf("only %d crests within an element", inside)
	}
}
