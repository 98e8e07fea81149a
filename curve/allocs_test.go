package curve_test

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// What is asked for point by point takes no memory.
func TestAnswersTakeNoMemory(t *testing.T) {
	var all []curve.Element
	for _, shape := range []curve.Shape{curve.Clothoid, curve.Bloss, curve.Cosine, curve.Sine, curve.Helmert, curve.CubicParabola, curve.Lath} {
		for _, hand := range []curve.Hand{curve.Left, curve.Right} {
			b := curve.Bend{Radius: 3000, Turn: 45 * measure.Degree, Hand: hand, EaseIn: 800, EaseOut: 600, Shape: shape}
			all = append(all, must(b.Elements())...)
			all = append(all, must(curve.NewStraight(500)))
		}
	}
	line := must(curve.New(curve.Pose{}, all...))
	var sum float64
	for name, ask := range map[string]func(s measure.Length){
		"At":     func(s measure.Length) { sum += line.At(s).Point.X },
		"Point":  func(s measure.Length) { sum += line.Point(s).X },
		"Offset": func(s measure.Length) { sum += line.Offset(s, 50).X },
		"Nearest": func(s measure.Length) {
			sum += float64(line.Nearest(r2.Vec{X: float64(s), Y: 400}).Offset)
		},
	} {
		s := measure.Length(0)
		if n := testing.AllocsPerRun(1000, func() { s += 37; ask(s) }); n != 0 {
			t.Errorf("%s takes memory %v times, want 0", name, n)
		}
	}
	if sum != sum {
		t.Error("the answers are not numbers")
	}
}
