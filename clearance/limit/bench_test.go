package limit_test

import (
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/limit"
)

func BenchmarkForOpening(b *testing.B) {
	bend := limit.Bend{Stock: []clearance.Vehicle{coach(), wagon()}, Margin: 5}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := bend.ForOpening(b.Context(), 62, 62); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWidest(b *testing.B) {
	r := route(b)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := r.Widest(b.Context(), coach()); err != nil {
			b.Fatal(err)
		}
	}
}
