package gauge_test

import (
	"testing"

	"example.org/fourfoot/gauge"
	"example.org/fourfoot/gauge/rail"
	"example.org/fourfoot/gauge/wheelset"
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

// Every row of every table says what it rests on.
func TestEveryRowHasABasis(t *testing.T) {
	check := func(name string, s gauge.Source) {
		if s.Basis < gauge.Seen || s.Basis > gauge.CommonPractice || s.Title == "" {
			t.Errorf("%s: source %v", name, s)
		}
	}
	for _, p := range gauge.Prototypes() {
		check(p.Name, p.Source)
	}
	for _, z := range append(gauge.NEMSizes(), gauge.ImperialSizes()...) {
		check(z.Name, z.Source)
	}
	for _, s := range wheelset.Standards() {
		check(s.Name, s.Source)
	}
	for _, s := range append(rail.FullSize(), rail.ModelRails()...) {
		check(s.Name, s.Source)
	}
}
