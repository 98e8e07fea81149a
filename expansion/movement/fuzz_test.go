package movement_test

import (
	"errors"
	"math"
	"testing"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/expansion"
	"example.org/fourfoot/expansion/joints"
	"example.org/fourfoot/expansion/movement"
	"example.org/fourfoot/gauge/measure"
)

// Whatever the heat and the bases: no panic, no NaN, and a joint that absorbs
// keeps its limits.
func FuzzNew(f *testing.F) {
	f.Add(19e-6, 12e-6, 0.1, 4.0, 18.0, 16.0, 48.0, -10.0, -15.0, 30.0, 0.0, 5000.0, 2000.0, false)
	f.Add(19e-6, 90e-6, 0.0, 4.0, 18.0, 16.0, 48.0, 40.0, -15.0, -10.0, 20_000.0, 3000.0, 100.0, true)
	f.Add(math.NaN(), -1.0, 5.0, 4.0, 18.0, 16.0, 480.0, -10.0, -15.0, 30.0, 9000.0, 5000.0, 2000.0, false)
	f.Add(19e-6, 12e-6, 0.1, 4.0, math.NaN(), math.Inf(1), 48.0, -10.0, -15.0, 30.0, 0.0, 5000.0, 2000.0, false)
	lines := map[bool]*curve.Alignment{false: straight(14_000), true: oval(4000, 2500)}
	plans := map[bool]joints.Plan{}
	for ring, line := range lines {
		plans[ring] = must(joints.New(line, joints.Spec{RailCentres: 34, Stock: []joints.Stock{{Length: 1500}}, Gap: 2, Objects: []joints.Object{{Name: "points", From: 3000, To: 3400, Free: 150}}}))
	}
	f.Fuzz(func(t *testing.T, rail, base, least, widest, layRail, layBase, rail1, base1, rail2, base2, from, to, fixed float64, ring bool) {
		h := joints.Heat{
			Rail: measure.Expansion(rail), Base: measure.Expansion(base), Least: measure.Length(least), Widest: measure.Length(widest),
			Laying:  expansion.State{Rail: measure.Temperature(layRail), Base: measure.Temperature(layBase)},
			Climate: []expansion.State{{Rail: measure.Temperature(rail1), Base: measure.Temperature(base1)}, {Rail: measure.Temperature(rail2), Base: measure.Temperature(base2)}},
		}
		var bases []movement.Base
		if from != to {
			bases = append(bases, movement.Base{Name: "deck", From: measure.Length(from), To: measure.Length(to), Fixed: measure.Length(fixed)})
		}
		for _, m := range []func() (movement.Plan, error){
			func() (movement.Plan, error) { return movement.New(lines[ring], plans[ring], h) },
			func() (movement.Plan, error) { return movement.New(lines[ring], plans[ring], h, bases...) },
		} {
			p, err := m()
			if err != nil {
				if !errors.Is(err, measure.ErrInput) && !errors.Is(err, measure.ErrLimit) {
					t.Errorf("an error of no kind: %v", err)
				}
				continue
			}
			for _, j := range p.Joints {
				if !(j.Gap.Low <= j.Gap.High) || !(j.Takes >= 0) {
					t.Errorf("%+v", j)
				}
				if j.Verdict == movement.Absorbs && (j.Gap.Low < h.Least-1e-6 || j.Gap.High > h.Widest+1e-6) {
					t.Errorf("absorbs, but %+v leaves [%v, %v]", j, h.Least, h.Widest)
				}
			}
		}
		out, err := movement.Seized(lines[ring], h)
		if err == nil {
			for _, s := range out {
				if !(s.Allowance >= 0) || math.IsInf(float64(s.Allowance), 0) {
					t.Errorf("%+v", s)
				}
			}
		}
	})
}
