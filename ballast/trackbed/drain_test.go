package trackbed_test

import (
	"math"
	"testing"

	"example.org/fourfoot/ballast/trackbed"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

func TestDrain(t *testing.T) {
	line := open(arc(3000, math.Pi, curve.Left))
	d := trackbed.Drain{Pipe: 80, Width: 200, Start: 300, Bed: 50, Offset: -400, Ground: measure.OneIn(200), Stock: 3000}
	g, err := d.Along(line, all(line))
	n := math.Pi * 3400 // outside the bend
	if err != nil || !near(float64(g.Length), n, 1e-12) || !near(float64(g.Drop), n/100, 1e-12) || !near(float64(g.Outlet), 300+n/200, 1e-12) {
		t.Fatalf("%+v, %v", g, err)
	}
	dig := n * 200 * (350 + n/400)
	if !near(float64(g.Excavated), dig, 1e-12) || !near(float64(g.Gravel), dig-n*math.Pi*1600, 1e-12) || g.Pipes != 4 {
		t.Errorf("%+v, want %v dug", g, dig)
	}
	for text, c := range map[string]struct {
		change func(*trackbed.Drain)
		kind   error
	}{
		"drain pipe":         {func(d *trackbed.Drain) { d.Pipe = 0 }, measure.ErrInput},
		"ditch width":        {func(d *trackbed.Drain) { d.Width = 70 }, measure.ErrInput},
		"at its start":       {func(d *trackbed.Drain) { d.Start = 70 }, measure.ErrInput},
		"fall of the ground": {func(d *trackbed.Drain) { d.Ground = 2 }, measure.ErrInput},
		"out of the ground":  {func(d *trackbed.Drain) { d.Ground = 0.05 }, measure.ErrNoAnswer},
		"drain pipes":        {func(d *trackbed.Drain) { d.Stock = 0.01 }, measure.ErrLimit},
		"centre":             {func(d *trackbed.Drain) { d.Offset = 3000 }, measure.ErrInput},
	} {
		d := d
		c.change(&d)
		_, err := d.Along(line, all(line))
		refused(t, text, err, c.kind, text)
	}
}
