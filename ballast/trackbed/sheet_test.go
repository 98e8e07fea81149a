package trackbed_test

import (
	"testing"

	"example.org/fourfoot/ballast/trackbed"
	"example.org/fourfoot/gauge/measure"
)

func TestCover(t *testing.T) {
	felt := trackbed.Sheet{Name: "felt", RollWidth: 1000, RollLength: 8000, SideLap: 75, EndLap: 100}
	for _, c := range []struct {
		name           string
		width, length  measure.Length
		across, slit   int
		rolls, endLaps int
		strip          measure.Length
	}{
		{"three strips slit from a roll", 300, 20000, 1, 3, 1, 2, 20200}, // three pieces of 8 m, all out of one roll
		{"just one piece", 300, 8000, 1, 3, 1, 0, 8000},
		{"a full roll wide", 1000, 15900, 1, 1, 2, 1, 16000}, // two rolls lapped by 100
		{"a little more", 1000, 15901, 1, 1, 3, 2, 16101},
		{"two wide", 1900, 4000, 2, 1, 1, 0, 8000}, // both out of one roll
		{"three wide", 2000, 4000, 3, 1, 2, 0, 12000},
		{"exactly two wide", 1925, 4000, 2, 1, 1, 0, 8000},
	} {
		g, err := felt.Cover(c.width, c.length)
		if err != nil || g.Across != c.across || g.Slit != c.slit || g.Rolls != c.rolls || g.EndLaps != c.endLaps || !near(float64(g.Strip), float64(c.strip), 1e-12) {
			t.Errorf("%s: %+v, %v", c.name, g, err)
		}
		wide := min(c.width, 1000)
		if !near(float64(g.Sheet), float64(wide*c.strip), 1e-12) || !near(float64(g.Net), float64(c.width*c.length), 1e-12) || g.Sheet < g.Net*(1-1e-12) {
			t.Errorf("%s: net %v, sheet %v", c.name, g.Net, g.Sheet)
		}
		if held := float64(g.Rolls) * 8000 * 1000; held < float64(g.Sheet)*(1-1e-12) {
			t.Errorf("%s: %d rolls hold less than the sheet used", c.name, g.Rolls)
		}
	}
	for text, c := range map[string]struct {
		s    trackbed.Sheet
		kind error
	}{
		"roll width":   {trackbed.Sheet{RollLength: 1}, measure.ErrInput},
		"roll length":  {trackbed.Sheet{RollWidth: 1, RollLength: nan}, measure.ErrInput},
		"side lap":     {trackbed.Sheet{RollWidth: 100, RollLength: 100, SideLap: 100}, measure.ErrInput},
		"end lap":      {trackbed.Sheet{RollWidth: 100, RollLength: 100, EndLap: 100}, measure.ErrInput},
		"rolls":        {trackbed.Sheet{RollWidth: 300, RollLength: 0.001}, measure.ErrLimit},
		"side by side": {trackbed.Sheet{RollWidth: 0.001, RollLength: 1000}, measure.ErrLimit},
		"slit":         {trackbed.Sheet{RollWidth: 1e9, RollLength: 1000}, measure.ErrLimit},
	} {
		_, err := c.s.Cover(300, 1000)
		refused(t, text, err, c.kind, text)
	}
}
