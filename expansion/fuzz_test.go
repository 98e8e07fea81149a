package expansion_test

import (
	"errors"
	"math"
	"testing"

	"example.org/fourfoot/expansion"
	"example.org/fourfoot/gauge/measure"
)

func kindOf(t *testing.T, err error) {
	t.Helper()
	if err != nil && !errors.Is(err, measure.ErrInput) && !errors.Is(err, measure.ErrNoAnswer) && !errors.Is(err, measure.ErrLimit) {
		t.Errorf("an error of no kind: %v", err)
	}
}

func finite(t *testing.T, what string, v ...float64) {
	t.Helper()
	for _, x := range v {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			t.Errorf("%s: %v", what, v)
		}
	}
}

// Whatever the numbers: no panic, no NaN, an error of a known kind, and gaps
// that hold in both states.
func FuzzJoint(f *testing.F) {
	f.Add(900.0, 900.0, 19e-6, 12e-6, 0.1, 4.0, 28.0, 8.0, 0.0, 18.0, 16.0, -15.0, -10.0, 48.0, 30.0, 2.0, 5.0)
	f.Add(900.0, 100.0, 19e-6, 80e-6, 0.0, 0.0, 28.0, 8.0, 17.0, 18.0, 16.0, -15.0, -10.0, 48.0, 30.0, 1.0, 0.0)
	f.Add(math.NaN(), -1.0, 19.0, math.Inf(1), 5.0, 4.0, 2.0, 8.0, 1.0, 300.0, 16.0, 50.0, 10.0, -48.0, 30.0, -2.0, 0.001)
	f.Fuzz(func(t *testing.T, before, after, rail, base, least, widest, joiner, engage, stop, layRail, layBase, rail1, base1, rail2, base2, feeler, step float64) {
		side := func(l float64) expansion.Side {
			return expansion.Side{Free: measure.Length(l), Rail: measure.Expansion(rail), Base: measure.Expansion(base)}
		}
		j := expansion.Joint{
			Before: side(before), After: side(after), Least: measure.Length(least), Widest: measure.Length(widest),
			Joiner: expansion.Joiner{Length: measure.Length(joiner), Engagement: measure.Length(engage), Stop: measure.Length(stop)},
		}
		today := expansion.State{Rail: measure.Temperature(layRail), Base: measure.Temperature(layBase)}
		climate := []expansion.State{{Rail: measure.Temperature(rail1), Base: measure.Temperature(base1)}, {Rail: measure.Temperature(rail2), Base: measure.Temperature(base2)}, today}
		g, err := j.Gaps(today, climate)
		kindOf(t, err)
		if err == nil {
			if e := j.Validate(); e != nil {
				t.Errorf("gaps for a joint that is not valid: %v", e)
			}
			finite(t, "gaps", float64(g.Least), float64(g.Most), float64(g.Reach))
			for _, s := range climate {
				for _, gap := range []measure.Length{g.Least, g.Most} {
					if at := float64(j.GapAt(gap, today, s)); at < float64(j.Least)-2e-9*(1+float64(g.Reach)) || at > float64(g.Reach)*(1+1e-12)+2e-9*(1+float64(g.Reach)) {
						t.Errorf("gap %v comes to %v, outside [%v, %v]", gap, at, j.Least, g.Reach)
					}
				}
			}
			a, b, err := j.Rates(today, climate)
			if err != nil {
				t.Error(err)
			}
			for _, r := range append(a, b...) {
				finite(t, r.Input, float64(r.By))
			}
		} else if errors.Is(err, measure.ErrNoAnswer) {
			if l, err := j.Longest(climate); err != nil || l >= j.Before.Free+j.After.Free {
				t.Errorf("none, but the longest panel is %v, %v", l, err)
			}
		}
		if l, err := j.Longest(climate); err == nil {
			finite(t, "longest", float64(l))
		} else {
			kindOf(t, err)
		}
		w, err := j.LayingWindow(measure.Length(feeler), 0, climate)
		kindOf(t, err)
		if err == nil {
			finite(t, "window", float64(w.Low), float64(w.High))
			if w.Low > w.High {
				t.Errorf("window %+v", w)
			}
		}
		c, err := j.Card(expansion.CardOptions{Step: measure.TemperatureDifference(step)}, climate)
		kindOf(t, err)
		if err == nil && (len(c.Rows) == 0 || len(c.Rows) > expansion.MaxCardRows || c.Text() == "" || c.SVG() == "") {
			t.Errorf("card of %d rows", len(c.Rows))
		}
	})
}

// Whatever the title, the drawing stays well-formed.
func FuzzCardTitle(f *testing.F) {
	for _, s := range []string{"", "Brass & steel", "<svg>", "]]>", "\x00\xff", "“long”"} {
		f.Add(s)
	}
	j, climate := gardenJoint()
	f.Fuzz(func(t *testing.T, title string) {
		c, err := j.Card(expansion.CardOptions{Title: title}, climate)
		if err != nil {
			kindOf(t, err)
			return
		}
		wellFormed(t, c.SVG())
	})
}
