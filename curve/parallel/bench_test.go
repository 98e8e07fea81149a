package parallel_test

import (
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func BenchmarkAt(b *testing.B) {
	for n, name := range []string{"constant", "", "tapered"} {
		if name == "" {
			continue
		}
		tr := tracks(b)[n]
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			x := measure.Length(0)
			for b.Loop() {
				tr.At(x)
				x += 377
				if x > tr.Length() {
					x -= tr.Length()
				}
			}
		})
	}
}
