package trackbed_test

import (
	"math"
	"testing"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/ballast/trackbed"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

func TestSlabsOnAStraight(t *testing.T) {
	s := trackbed.Slabs{Length: 450, Width: 225, Height: 50, Gap: 5, Sand: 40, Margin: 30, Mass: 11}
	p, err := s.Along(open(straight(4545)), ballast.Stretch{To: 4545})
	if err != nil || p.Count != 10 || p.WidestAt != 5 || !near(float64(p.Sand), 285*40*4545, 1e-12) || !near(float64(p.Dig), (285*40+225*50)*4545, 1e-12) {
		t.Errorf("%+v, %v, want 10 slabs (10 × 450 + 9 × 5)", p, err)
	}
	if p := must(s.Along(open(straight(4546)), ballast.Stretch{To: 4546})); p.Count != 11 {
		t.Errorf("a millimetre more: %d", p.Count)
	}
}

// On a ring the slabs are laid out one by one: inner edges are chords of a
// circle, with the gap between their ends.
func TestSlabsOnARing(t *testing.T) {
	const R, a, w, gap = 1500.0, 300.0, 200.0, 4.0
	line := ring(R)
	p, err := trackbed.Slabs{Length: a, Width: w, Height: 50, Gap: gap}.Along(line, all(line))
	ri := R - w/2 // distance of the inner edges from the centre
	each := 2*math.Atan(a/2/ri) + gap/math.Hypot(ri, a/2)
	if want := 2 * math.Pi / each; err != nil || math.Abs(float64(p.Count)-want) > 1+want*a*a/(12*R*R) {
		t.Errorf("%d slabs, %v, laid out one by one %.2f", p.Count, err, want)
	}
	// The outer gap: the outer edge of the same angle is longer by w·each.
	if want := gap + w*(a+gap)/ri; !near(float64(p.WidestAt), want, 1e-9) {
		t.Errorf("widest gap %v, want %v", float64(p.WidestAt), want)
	}
}

// A reverse curve turns as much as a curve to one hand: what counts is the
// inner edge of each part. Also through an easement from one hand to the other.
func TestSlabsOnAReverse(t *testing.T) {
	s := trackbed.Slabs{Length: 30, Width: 200, Height: 50}
	k := measure.Curvature(1.0 / 1500)
	one := open(must(curve.NewEasement(curve.Clothoid, 2000, 0, k)), must(curve.NewEasement(curve.Clothoid, 2000, k, 0)))
	both := open(must(curve.NewEasement(curve.Clothoid, 4000, -k, k)))
	a, b := must(s.Along(one, all(one))), must(s.Along(both, all(both)))
	// Both turn 2000/1500 in all, to one hand or to both.
	want := int(math.Ceil((4000 - 100*2000/1500.0) / 30))
	if a.Count != want || b.Count != want {
		t.Errorf("%d slabs to one hand, %d to both, want %d", a.Count, b.Count, want)
	}
	line := oval()
	whole := must(s.Along(line, all(line)))
	if want := int(math.Ceil((float64(line.Length()) - 100*2*math.Pi) / 30)); whole.Count != want {
		t.Errorf("round the circuit %d slabs, want %d", whole.Count, want)
	}
	over := must(s.Along(line, ballast.Stretch{From: line.Length() - 1000, To: 1000}))
	if turn := math.Abs(float64(line.Turn(line.Length()-1000, 1000))); over.Count != int(math.Ceil((2000-100*turn)/30)) {
		t.Errorf("over the start %d slabs", over.Count)
	}
}

func TestSlabsRefuse(t *testing.T) {
	line := open(straight(1000), arc(250, 1, curve.Right))
	for text, s := range map[string]trackbed.Slabs{
		"slab length":         {Width: 200, Height: 50},
		"gap between slabs":   {Length: 100, Width: 200, Height: 50, Gap: -1},
		"thickness of":        {Length: 100, Width: 200, Height: 50, Sand: nan},
		"centre of the curve": {Length: 100, Width: 400, Height: 50, Margin: 60},
	} {
		_, err := s.Along(line, all(line))
		refused(t, text, err, measure.ErrInput, text)
	}
	_, err := trackbed.Slabs{Length: 0.001, Width: 200, Height: 50}.Along(line, all(line))
	refused(t, "count", err, measure.ErrLimit, "slab length")
}
