package joints_test

import (
	"errors"
	"math"
	"testing"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/expansion/joints"
	"example.org/fourfoot/gauge/measure"
)

// Whatever the numbers: no panic, an error of a known kind, or pieces and gaps
// that make up the rails and bars that hold the pieces.
func FuzzNew(f *testing.F) {
	f.Add(4000.0, 2500.0, 1.5, 34.0, 1500.0, 0.0, 0.0, 1.0, 1.0, 3000.0, 3400.0, 5000.0, 6000.0, 7000.0, false, true)
	f.Add(4000.0, 2500.0, 1.5, 34.0, 1500.0, 900.0, 450.0, 3.0, 2.0, 100.0, 3400.0, 10.0, 6500.0, 50.0, true, true)
	f.Add(1.0, 50.0, 0.01, 49.0, 3.0, 0.0, 0.1, 0.0, 1.4, 0.2, 0.3, 0.1, 0.9, 0.5, true, false)
	f.Fuzz(func(t *testing.T, straight, radius, turn, centres, stock, panel, shortest, kerf, gap, from, to, zone0, zone1, anchor float64, staggered, circuit bool) {
		s, err1 := curve.NewStraight(measure.Length(straight))
		angle := measure.Angle(turn)
		if circuit {
			angle = math.Pi
		}
		a, err2 := curve.NewArc(measure.Length(radius), angle, curve.Left)
		if err1 != nil || err2 != nil {
			return
		}
		line, err := curve.New(curve.Pose{}, s, a, s)
		if circuit {
			line, err = curve.NewClosed(curve.Pose{}, 1e-3, 1e-6, s, a, s, a)
		}
		if err != nil || !(line.Length() < 3000*measure.Length(math.Abs(stock))) {
			return // bounded, so that a run takes no second
		}
		spec := joints.Spec{
			RailCentres: measure.Length(centres), Stock: []joints.Stock{{Length: measure.Length(stock)}}, Panel: measure.Length(panel), Shortest: measure.Length(shortest),
			Kerf: measure.Length(kerf), Gap: measure.Length(gap), Heat: nil,
			Anchors: []joints.Anchor{{Name: "pin", At: measure.Length(anchor)}, {Name: "bolt", At: measure.Length(anchor) + 700}},
			Zones:   []joints.Zone{{Name: "tunnel", From: measure.Length(zone0), To: measure.Length(zone1)}},
		}
		if from != to {
			spec.Objects = []joints.Object{{Name: "points", From: measure.Length(from), To: measure.Length(to)}}
		}
		if staggered {
			spec.Pattern = joints.Staggered
		}
		p, err := joints.New(line, spec)
		if err != nil {
			if !errors.Is(err, measure.ErrInput) && !errors.Is(err, measure.ErrNoAnswer) && !errors.Is(err, measure.ErrLimit) {
				t.Errorf("an error of no kind: %v", err)
			}
			return
		}
		rules(t, line, spec, p)
		for _, total := range []joints.Total{p.Left, p.Right} {
			if d := math.Abs(float64(total.Pieces + total.Gaps - total.Rail)); !(d <= 1e-6+1e-12*float64(total.Rail)) {
				t.Errorf("account %+v is off by %v", total, d)
			}
		}
	})
}

func FuzzCut(f *testing.F) {
	f.Add([]byte{100, 50, 50, 30, 200}, 200.0, 110.0, 1, 1.0)
	f.Add([]byte{1, 1, 1}, 1.0, 0.5, 0, 0.0)
	f.Add([]byte{255}, 100.0, math.NaN(), -3, -1.0)
	f.Fuzz(func(t *testing.T, sizes []byte, long, short float64, count int, kerf float64) {
		var pieces []measure.Length
		for _, b := range sizes {
			pieces = append(pieces, measure.Length(b)+0.5)
		}
		c, err := joints.Cut(pieces, []joints.Stock{{Length: measure.Length(long)}, {Length: measure.Length(short), Count: count}}, measure.Length(kerf))
		if err != nil {
			if !errors.Is(err, measure.ErrInput) && !errors.Is(err, measure.ErrNoAnswer) && !errors.Is(err, measure.ErrLimit) {
				t.Errorf("an error of no kind: %v", err)
			}
			return
		}
		checkCutting(t, pieces, measure.Length(kerf), c)
	})
}
