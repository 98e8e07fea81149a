package export_test

import (
	"testing"

	"example.org/fourfoot/curve/export"
)

func BenchmarkPath(b *testing.B) {
	line := snake(b, false)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := export.Path(line, export.Range{}, export.View{Scale: 0.1}, 0.1); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPoints(b *testing.B) {
	line := snake(b, false)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := export.Points(line, export.Range{}, 0.1); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReadLine(b *testing.B) {
	data, err := export.WriteLine(snake(b, false))
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := export.ReadLine(data); err != nil {
			b.Fatal(err)
		}
	}
}
