package curve_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

var (
	sinkVec     r2.Vec
	sinkStation curve.Station
	sinkFoot    curve.Foot
)

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// kinds are the names of the shapes that curvature changes along.
var kinds = []string{"clothoid", "bloss", "cosine", "sine", "helmert", "cubic parabola", "lath"}

// oneOf returns an easement of the given kind from a straight to a radius.
func oneOf(kind string, length, radius measure.Length) curve.Element {
	switch i := slices.Index(kinds, kind); {
	case i == 5:
		return must(curve.NewCubicParabola(length, radius, curve.Left))
	case i == 6:
		return must(curve.NewLath(length, radius, curve.Left))
	case i < 0:
		turn := length / radius
		return must(curve.NewLathBetween(curve.Pose{}, curve.Pose{Point: r2.Vec{X: float64(length), Y: float64(length * turn * 0.3)}, Heading: measure.Angle(turn)}, length*(1+turn*turn/10)))
	default:
		return must(curve.NewEasement(easements[i], length, 0, measure.Curvature(1/radius)))
	}
}

// oneEasement is a line of one easement that is not at the origin.
func oneEasement(kind string) *curve.Alignment {
	return must(curve.New(curve.Pose{Point: r2.Vec{X: 1200, Y: -3400}, Heading: 0.7}, oneOf(kind, 800, 2500)))
}

// mixedLine is a line of 80 elements: straights, arcs and easements of every
// shape.
func mixedLine() *curve.Alignment {
	var all []curve.Element
	hand := curve.Left
	for i := range 16 {
		b := curve.Bend{Radius: measure.Length(1500 + 90*i), Turn: measure.Angle(0.7 + 0.05*float64(i%5)), Hand: hand, EaseIn: 400, EaseOut: 500, Shape: easements[i%5]}
		all = append(all, must(curve.NewStraight(measure.Length(300+40*i))))
		all = append(all, must(b.Elements())...)
		all = append(all, must(curve.NewStraight(measure.Length(200+30*i))))
		if i%3 != 1 {
			hand = hand.Opposite()
		}
	}
	if len(all) != 80 {
		panic(len(all))
	}
	return must(curve.New(curve.Pose{}, all...))
}

func chainages(a *curve.Alignment, order string) []measure.Length {
	r := rand.New(rand.NewPCG(1, 2))
	s := make([]measure.Length, 4096)
	for i := range s {
		u := r.Float64()
		if order == "along" {
			u = float64(i) / float64(len(s))
		}
		s[i] = measure.Length(u) * a.Length()
	}
	return s
}

func BenchmarkPoint(b *testing.B) {
	for _, kind := range kinds {
		for _, order := range []string{"along", "random"} {
			b.Run(kind+"/"+order, func(b *testing.B) {
				a := oneEasement(kind)
				s := chainages(a, order)
				b.ReportAllocs()
				for i := 0; b.Loop(); i++ {
					sinkVec = a.Point(s[i&4095])
				}
			})
		}
	}
}

func BenchmarkAt(b *testing.B) {
	for _, kind := range kinds {
		for _, order := range []string{"along", "random"} {
			b.Run(kind+"/"+order, func(b *testing.B) {
				a := oneEasement(kind)
				s := chainages(a, order)
				b.ReportAllocs()
				for i := 0; b.Loop(); i++ {
					sinkStation = a.At(s[i&4095])
				}
			})
		}
	}
	b.Run("80 elements", func(b *testing.B) {
		a := mixedLine()
		s := chainages(a, "random")
		b.ReportAllocs()
		for i := 0; b.Loop(); i++ {
			sinkStation = a.At(s[i&4095])
		}
	})
}

func BenchmarkNew(b *testing.B) {
	a := mixedLine()
	e := a.Elements()
	b.ReportAllocs()
	for b.Loop() {
		_ = must(curve.New(curve.Pose{}, e...))
	}
}

// BenchmarkPiece prepares lines of 64 easements of one shape, and reports the
// time for each piece they are cut into.
func BenchmarkPiece(b *testing.B) {
	for _, kind := range append(slices.Clone(kinds), "lath between poses") {
		b.Run(kind, func(b *testing.B) {
			e := make([]curve.Element, 64)
			for i := range e {
				e[i] = oneOf(kind, 900, measure.Length(1500+20*i))
			}
			n := must(curve.New(curve.Pose{}, e...)).Pieces()
			b.ReportAllocs()
			for b.Loop() {
				_ = must(curve.New(curve.Pose{}, e...))
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/piece")
			b.ReportMetric(float64(n), "pieces")
		})
	}
}

func BenchmarkNearest(b *testing.B) {
	a := mixedLine()
	r := rand.New(rand.NewPCG(3, 4))
	s := chainages(a, "random")
	near, wide := make([]r2.Vec, len(s)), make([]r2.Vec, len(s))
	for i := range s {
		near[i] = a.Offset(s[i], measure.Length(400*(r.Float64()-0.5)))
		wide[i] = a.Offset(s[i], measure.Length(8000*(r.Float64()-0.5)))
	}
	for name, points := range map[string][]r2.Vec{"near": near, "wide": wide} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				sinkFoot = a.Nearest(points[i&4095])
			}
		})
	}
}

func BenchmarkNearestFrom(b *testing.B) {
	a := mixedLine()
	r := rand.New(rand.NewPCG(3, 4))
	s := chainages(a, "along")
	p := make([]r2.Vec, len(s))
	for i := range s {
		p[i] = a.Offset(s[i], measure.Length(400*(r.Float64()-0.5)))
	}
	b.ReportAllocs()
	guess := measure.Length(0)
	for i := 0; b.Loop(); i++ {
		if i&4095 == 0 {
			guess = 0
		}
		sinkFoot = a.NearestFrom(p[i&4095], guess)
		guess = sinkFoot.Chainage + a.Length()/4096
	}
}
