package opening_test

import (
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/opening"
	"example.org/fourfoot/curve"
)

func BenchmarkTunnel(b *testing.B) {
	e := sweep(b, garden(b, curve.Left), clearance.Settings{}, coach(), wagon())
	b.ReportAllocs()
	for b.Loop() {
		if _, err := opening.NewTunnel(b.Context(), e, 1500, 4500, opening.StraightWalls); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkArch(b *testing.B) {
	e := sweep(b, garden(b, curve.Left), clearance.Settings{}, coach(), wagon())
	s := must[opening.Section](b)(opening.Over(b.Context(), e, 1500, 4500))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.Arch(opening.ArchForm{About: opening.Free, Rise: 0.3}, 5); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFormer(b *testing.B) {
	e := sweep(b, garden(b, curve.Left), clearance.Settings{}, coach(), wagon())
	b.ReportAllocs()
	for b.Loop() {
		if _, err := opening.NewFormer(b.Context(), e, 1500, 4500, opening.Card{Margin: 5, Gauge: 45, RailCentres: 47.5}); err != nil {
			b.Fatal(err)
		}
	}
}
