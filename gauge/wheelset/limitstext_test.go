package wheelset_test

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/gauge/wheelset"
)

func TestParseLimits(t *testing.T) {
	for text, want := range map[string]wheelset.Limits{
		"44.5 to 45 mm":                   {Min: 44.5, Max: 45},
		"44.5 mm to 45 mm":                {Min: 44.5, Max: 45},
		"4.45 cm to 45 mm":                {Min: 44.5, Max: 45},
		"45.0 +0/-0.5 mm":                 {Min: 44.5, Max: 45},
		"40.2 ± 0.1 mm":                   {Min: 40.1, Max: 40.3},
		"40,2±0,1 mm":                     {Min: 40.1, Max: 40.3},
		"at least 42.16 mm":               {Min: 42.16},
		"≥ 42.16 mm":                      {Min: 42.16},
		">=42.16mm":                       {Min: 42.16},
		"at most 39.5 mm":                 {Max: 39.5},
		"≤ 39.5 mm":                       {Max: 39.5},
		"<= 39.5 mm":                      {Max: 39.5},
		"2 mm":                            {Min: 2, Max: 2},
		"1 3/4 in":                        {Min: 44.45, Max: 44.45},
		"1 3/4 to 1 13/16 in":             {Min: 44.45, Max: 46.0375},
		"1¾ in":                           {Min: 44.45, Max: 44.45},
		`1¾ to 1 13/16"`:                  {Min: 44.45, Max: 46.0375},
		"44.123456789 to 45.000000001 mm": {Min: 44.123456789, Max: 45.000000001},
		"0 to 2 mm":                       {Max: 2},
		" not stated ":                    {},
		"0.062 +0.002/-0.01 in":           {Min: 1.3208, Max: 1.6256},
	} {
		got, err := wheelset.ParseLimits(text)
		if err != nil || !(math.Abs(float64(got.Min-want.Min)) <= 1e-12) || !(math.Abs(float64(got.Max-want.Max)) <= 1e-12) {
			t.Errorf("ParseLimits(%q) = %v, %v; want %v", text, got, err, want)
		}
		b, _ := got.MarshalText()
		if again, err := wheelset.ParseLimits(string(b)); err != nil || again != got {
			t.Errorf("ParseLimits(%q) = %v, %v; want %v", b, again, err, got)
		}
	}
	for _, text := range []string{
		"", "45", "44.5 to 45", "mm", "45 to 44 mm", "-1 mm", "at least 0 mm", "0 mm", "1 ± 2 mm", "45 + 0.5 mm", "45 +0/-x mm",
		"1 to 2 to 3 mm", "about 5 mm", "4 m", "NaN mm", "45,000 mm",
	} {
		if got, err := wheelset.ParseLimits(text); !errors.Is(err, measure.ErrInput) || got.Stated() || len(err.Error()) > 600 {
			t.Errorf("ParseLimits(%q) = %v, %v; want a short ErrInput", text, got, err)
		}
	}
}

func TestLimitsTooLong(t *testing.T) {
	pad := strings.Repeat(" ", measure.MaxText-len("≥2 mm"))
	if got, err := wheelset.ParseLimits("≥" + pad + "2 mm"); err != nil || got.Min != 2 {
		t.Errorf("%d bytes: %v, %v", measure.MaxText, got, err)
	}
	if got, err := wheelset.ParseLimits("≥ " + pad + "2 mm"); !errors.Is(err, measure.ErrLimit) || got.Stated() || len(err.Error()) > 200 {
		t.Errorf("%d bytes: %v, %v; want a short ErrLimit", measure.MaxText+1, got, err)
	}
}

func TestLimitsJSON(t *testing.T) {
	in, _ := wheelset.StandardNamed("Gauge One association, standard")
	b, err := json.Marshal(in.Track)
	if err != nil || !strings.Contains(string(b), `"CheckSpan":"at most 39.5 mm"`) {
		t.Errorf("Marshal: %s, %v", b, err)
	}
	var out wheelset.Track
	if err := json.Unmarshal(b, &out); err != nil || out != in.Track {
		t.Errorf("Unmarshal(%s) = %+v, %v", b, out, err)
	}
	if err := json.Unmarshal([]byte(`{"Gauge":"45"}`), &out); !errors.Is(err, measure.ErrInput) || out.Gauge != in.Track.Gauge {
		t.Errorf("a gauge without a unit: %v, gauge now %v", err, out.Gauge)
	}
}

func FuzzParseLimits(f *testing.F) {
	for _, s := range []string{"44.5 to 45 mm", "45 +0/-0.5 mm", "40.2 ± 0.1 mm", "at least 1 3/4 in", "≤ 39.5 mm", "not stated", "2 mm", "±", "+/-"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		m, err := wheelset.ParseLimits(text)
		if err != nil {
			if !errors.Is(err, measure.ErrInput) && !errors.Is(err, measure.ErrLimit) {
				t.Fatalf("ParseLimits(%q): %v is of no kind", text, err)
			}
			return
		}
		b, err := m.MarshalText()
		if again, err2 := wheelset.ParseLimits(string(b)); err != nil || err2 != nil || again != m {
			t.Fatalf("ParseLimits(%q) = %#v; %q (%v) reads back as %#v, %v", text, m, b, err, again, err2)
		}
	})
}
