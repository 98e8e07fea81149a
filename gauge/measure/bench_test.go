package measure_test

import (
	"testing"

	"example.org/fourfoot/gauge/measure"
)

func BenchmarkParseLength(b *testing.B) {
	for _, text := range []string{"1435.1 mm", "4ft 8 1/2in", "4' 8½\"", "33.333333333333336 mm", "0.333333333333333333 in"} {
		b.Run(text, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := measure.ParseLength(text); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkRefuse(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if _, err := measure.ParseLength("1,234 mm"); err == nil {
			b.Fatal("no error")
		}
	}
}

func BenchmarkAppendText(b *testing.B) {
	for _, tt := range []struct {
		name string
		l    measure.Length
	}{{"short", 1435.1}, {"long", 100. / 3}} {
		b.Run(tt.name, func(b *testing.B) {
			b.ReportAllocs()
			var buf []byte
			for b.Loop() {
				buf, _ = tt.l.AppendText(buf[:0])
			}
		})
	}
}

func BenchmarkInchStyle(b *testing.B) {
	b.ReportAllocs()
	s := measure.InchStyle{Feet: true}
	var buf []byte
	for b.Loop() {
		buf = s.Append(buf[:0], 1435.1)
	}
}

func BenchmarkLengthString(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		if measure.Length(1435.1).String() == "" {
			b.Fatal("empty")
		}
	}
}
