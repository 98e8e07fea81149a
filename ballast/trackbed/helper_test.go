package trackbed_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func near(a, b, tol float64) bool { return math.Abs(a-b) <= tol*max(1, math.Abs(b)) }

func straight(l measure.Length) curve.Element { return must(curve.NewStraight(l)) }

func arc(r measure.Length, turn measure.Angle, h curve.Hand) curve.Element {
	return must(curve.NewArc(r, turn, h))
}

func open(es ...curve.Element) *curve.Alignment { return must(curve.New(curve.Pose{}, es...)) }

func ring(r measure.Length) *curve.Alignment {
	return must(curve.NewClosed(curve.Pose{}, 1e-6, 1e-9, arc(r, 2*math.Pi, curve.Left)))
}

func oval() *curve.Alignment {
	b := must(curve.Bend{Radius: 2000, Turn: math.Pi, Hand: curve.Left, EaseIn: 700, EaseOut: 700, Shape: curve.Bloss}.Elements())
	es := append([]curve.Element{straight(3000)}, b...)
	es = append(append(es, straight(3000)), b...)
	return must(curve.NewClosed(curve.Pose{}, 0.01, 1e-6, es...))
}

func all(line *curve.Alignment) ballast.Stretch {
	return ballast.Stretch{Name: "all", To: line.Length()}
}

func level(pts ...profile.Point) profile.Level { return must(profile.NewLevel(pts...)) }

// refused checks that err is of the kind and says the text.
func refused(t *testing.T, name string, err, kind error, text string) {
	t.Helper()
	if !errors.Is(err, kind) || !strings.Contains(fmt.Sprint(err), text) {
		t.Errorf("%s: %v, want %v with %q", name, err, kind, text)
	}
}

var (
	nan = measure.Length(math.NaN())
	inf = measure.Length(math.Inf(1))
)
