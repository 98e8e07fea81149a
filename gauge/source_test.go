package gauge_test

import (
	"testing"

	"example.org/fourfoot/gauge"
)

func TestSource(t *testing.T) {
	for s, want := range map[gauge.Source]string{
		{}: "basis not given",
		{Title: "NEM 010, ed. 2011", Basis: gauge.Seen}: "NEM 010, ed. 2011 (seen)",
		{Title: "a page", Basis: gauge.Secondary}:       "a page (secondary)",
		{Title: "a table", Basis: gauge.Worked}:         "a table (worked)",
		{Basis: gauge.FromMemory}:                       "from memory",
		{Title: "gauges", Basis: gauge.CommonPractice}:  "gauges (common practice, no source)",
		{Basis: gauge.CommonPractice + 1}:               "basis not given",
	} {
		if s.String() != want {
			t.Errorf("%#v prints %q, want %q", s, s, want)
		}
	}
}
