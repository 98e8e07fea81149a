package profile_test

import (
	"testing"

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
	c := someCants(b)[0]
	b.ReportAllocs()
	s := measure.Length(0)
	for b.Loop() {
		c.At(s)
		if s += 77; s > 7000 {
			s = 0
		}
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
