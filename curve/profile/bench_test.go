package profile_test

import (
	"testing"

	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

func BenchmarkLevelAt(b *testing.B) {
	l := someLevels(b)[2]
	b.ReportAllocs()
	s := measure.Length(0)
	for b.Loop() {
		l.At(s)
		if s += 777; s > 40000 {
			s = 0
		}
	}
}

func BenchmarkCantAt(b *testing.B) {
	all := someCants(b)
	for _, c := range []struct {
		name string
		cant profile.Cant
	}{{"laws", all[0]}, {"lath", all[3]}, {"cubic parabola", all[4]}, {"lath between poses", all[5]}} {
		b.Run(c.name, func(b *testing.B) {
			b.ReportAllocs()
			s := measure.Length(0)
			for b.Loop() {
				c.cant.At(s)
				if s += 77; s > 1000 {
					s = 0
				}
			}
		})
	}
}

func BenchmarkMaxTwist(b *testing.B) {
	c := someCants(b)[0]
	b.ReportAllocs()
	for b.Loop() {
		if _, err := c.MaxTwist(0, 7000, 150); err != nil {
			b.Fatal(err)
		}
	}
}
