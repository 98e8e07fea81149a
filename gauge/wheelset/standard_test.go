package wheelset_test

import (
	"strconv"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.org/fourfoot/gauge"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/gauge/wheelset"
	"example.org/fourfoot/internal/approx"
	"example.org/fourfoot/internal/reference"
)

func TestNMRATable(t *testing.T) {
	rows := reference.Rows(t, "testdata/nmra.csv")
	if len(rows) != 3 {
		t.Fatalf("%d rows", len(rows))
	}
	for _, row := range rows {
		s, ok := wheelset.StandardNamed(row[0])
		if !ok {
			t.Errorf("no column %q", row[0])
			continue
		}
		p, k := s.Track, s.Wheels
		got := []measure.Length{
			s.Nominal, p.Gauge.Min, p.Gauge.Max, p.CheckGauge.Min, p.CheckSpan.Max, p.Flangeway.Min,
			p.FlangewayDepth.Min, k.WheelCheck.Max, k.BackToBack.Min, k.Width.Min, k.FlangeDepth.Max,
		}
		for i, text := range row[1:] {
			if want, err := strconv.ParseFloat(text, 64); err != nil || float64(got[i]) != want {
				t.Errorf("%s, figure %d = %v, printed %s", row[0], i+1, got[i], text)
			}
		}
		// Blanks stay blank.
		if p.CheckGauge.Max != 0 || p.CheckSpan.Min != 0 || k.WheelCheck.Min != 0 || k.BackToBack.Max != 0 ||
			k.FlangeWidth.Stated() || k.Width.Max != 0 || p.Widened.Stated() {
			t.Errorf("%s states a figure that is not printed: %+v", row[0], s)
		}
	}
}

// Gauge One association, dimension tables, standard column, mm (seen).
func TestGaugeOneTable(t *testing.T) {
	s, ok := wheelset.StandardNamed("Gauge One association, standard")
	if !ok {
		t.Fatal("no column")
	}
	wantTrack := wheelset.Track{
		Gauge:      wheelset.Limits{Min: 44.5, Max: 45},
		Widened:    wheelset.Limits{Max: 45.5},
		CheckGauge: wheelset.Limits{Min: 42, Max: 42.5},
		CheckSpan:  wheelset.Limits{Max: 39.5},
		Flangeway:  wheelset.Limits{Min: 2.5, Max: 3},
	}
	wantWheels := wheelset.Wheels{
		BackToBack:  wheelset.Limits{Min: 40, Max: 40.5},
		FlangeWidth: wheelset.Limits{Min: 1, Max: 1.5},
		FlangeDepth: wheelset.Limits{Max: 2},
		Width:       wheelset.Limits{Min: 5.5, Max: 6},
	}
	if d := cmp.Diff(wantTrack, s.Track, approx.Within(0, 0)); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff(wantWheels, s.Wheels, approx.Within(0, 0)); d != "" {
		t.Error(d)
	}
	if s.Source.Basis != gauge.Seen || s.Nominal != 45 {
		t.Errorf("source %v, nominal %v", s.Source, s.Nominal)
	}
}

func TestStandardsAreCopies(t *testing.T) {
	wheelset.Standards()[0].Track.Gauge.Min = 1
	if got := wheelset.Standards()[0].Track.Gauge.Min; got != 44.85 {
		t.Errorf("gauge min is %v after a caller wrote to its copy", got)
	}
	if s, ok := wheelset.StandardNamed("none"); ok {
		t.Errorf("StandardNamed(none) = %v", s)
	}
}
