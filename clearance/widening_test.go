package clearance_test

import (
	"errors"
	"math"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/gauge/measure"
)

func TestGaugeWidening(t *testing.T) {
	v := clearance.Rigid("2-8-0", 300, box(400, 90))
	v.Bodies[0].Inner = []clearance.Axle{{Along: -50, Play: 0.5}, {Along: 50}}
	const R = 1200.0
	// The axle at 50: R - √(R² - 150² + 50²), worked.
	off := R - math.Sqrt(R*R-150*150+50*50)
	n, err := clearance.GaugeWidening(v, R, 1.5)
	if err != nil {
		t.Fatal(err)
	}
	if n.Axle != 1 || math.Abs(float64(n.Offset)-off) > 1e-9 || math.Abs(float64(n.Widening)-(off-1.5)) > 1e-9 {
		t.Errorf("GaugeWidening = %+v, want axle 1, offset %v, widening %v", n, off, off-1.5)
	}
	// Widened by that nothing is missing; by a thousandth less something is.
	if more, err := clearance.GaugeWidening(v, R, 1.5+n.Widening); err != nil || more.Widening > 1e-9 {
		t.Errorf("widened: still %v missing, %v", float64(more.Widening), err)
	}
	if more, err := clearance.GaugeWidening(v, R, 1.5+0.999*n.Widening); err != nil || more.Widening <= 0 {
		t.Errorf("widened a thousandth less: %v missing, %v", float64(more.Widening), err)
	}
	if n, err = clearance.GaugeWidening(v, 20000, 1.5); err != nil || n.Widening != 0 {
		t.Errorf("R 20 m: %+v, %v", n, err)
	}
	v.Bodies[0].Inner = nil
	if n, err = clearance.GaugeWidening(v, R, 0); err != nil || n.Axle != -1 || n.Widening != 0 {
		t.Errorf("two axles: %+v, %v", n, err)
	}
	// NEM 111 ed. 2016: angle of attack at most 12°; 300 mm on R 1200 stands at asin(1/8).
	if want := math.Asin(300 / 2400.0); math.Abs(float64(n.Attack)-want) > 1e-15 {
		t.Errorf("attack %v, want %v", n.Attack, want)
	}
	if _, err = clearance.GaugeWidening(v, 151, 0); !errors.Is(err, measure.ErrNoAnswer) {
		t.Errorf("R 151 for a wheelbase of 300: %v", err)
	}
	if _, err = clearance.GaugeWidening(clearance.Bogie("b", 300, 50, box(400, 90)), R, -1); !errors.Is(err, measure.ErrInput) {
		t.Errorf("play -1: %v", err)
	}
}

// By hand: 300 mm of wheelbase on R 1200. The outer axles' chord is
// √(1200² - 150²) = √1417500 from the centre, an axle 50 from its middle
// √(1417500 + 2500) = √1420000 = 1191.6375, so 8.3625 inside the centreline.
// Half of 1.5 mm of play lets the outer wheels move out and half the inner ones
// in: 6.8625 are missing without side play, 6.3625 with 0.5 mm of it and 5.9625
// with 0.9, so that of the two axles the one with less of it asks for more. The
// middle axle stands 1200 - √1417500 = 9.4119 inside, asks for 7.9119 without
// side play and 5.8119 with 2.1.
func TestGaugeWideningByHand(t *testing.T) {
	for _, c := range []struct {
		inner    []clearance.Axle
		axle     int
		widening float64
	}{
		{[]clearance.Axle{{Along: -50}, {Along: 50, Play: 0.9}}, 0, 6.8625},
		{[]clearance.Axle{{Along: -50, Play: 0.5}, {Along: 50, Play: 0.9}}, 0, 6.3625},
		{[]clearance.Axle{{Along: -50, Play: 0.9}, {Along: 0, Play: 2.1}, {Along: 50, Play: 0.9}}, 0, 5.9625},
		{[]clearance.Axle{{Along: -50, Play: 0.9}, {}, {Along: 50, Play: 0.9}}, 1, 7.9119},
		{[]clearance.Axle{{Along: -50, Play: 7}, {Play: 8}, {Along: 50, Play: 7}}, 1, 0},
	} {
		v := clearance.Rigid("engine", 300, box(400, 90))
		v.Bodies[0].Inner = c.inner
		n, err := clearance.GaugeWidening(v, 1200, 1.5)
		if err != nil {
			t.Fatal(err)
		}
		if n.Axle != c.axle || math.Abs(float64(n.Widening)-c.widening) > 1e-4 {
			t.Errorf("%v: %v for axle %d, want %v for %d", c.inner, float64(n.Widening), n.Axle, c.widening, c.axle)
		}
	}
}
