package nem_test

import (
	"errors"
	"math"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/nem"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/reference"
)

func throwOf(t *testing.T, v clearance.Vehicle, radius measure.Length) clearance.Throw {
	t.Helper()
	th, err := clearance.Throws(v, radius)
	if err != nil {
		t.Fatal(err)
	}
	return th[0]
}

// NEM 103 by the one-k rule: max(0, round(max(centre, end) - k)), one fitted k
// a size, within 1 mm of every printed cell.
func TestWideningOneK(t *testing.T) {
	bodies := [3][2]measure.Length{{20000, 14000}, {24200, 17200}, {27200, 19500}}
	sizes := []struct {
		name     string
		scale, k float64
	}{{"S", 64, 2.2}, {"I", 32, 5.15}}
	for _, row := range reference.Rows(t, "testdata/nem103.csv")[1:] {
		R := measure.Length(reference.Number(t, row[0]))
		for i, size := range sizes {
			for g, name := range []string{"A", "B", "C"} {
				cell := row[1+3*i+g]
				got, err := nem.Widening(size.name, name, R)
				if cell == "-" {
					if !errors.Is(err, measure.ErrInput) {
						t.Errorf("Widening(%s, %s, %v) = %v, %v; the cell is blank", size.name, name, R, got, err)
					}
					continue
				}
				printed := reference.Number(t, cell)
				if err != nil || float64(got) != printed {
					t.Errorf("Widening(%s, %s, %v) = %v, %v; printed %v", size.name, name, R, got, err, printed)
				}
				L, C := bodies[g][0]/measure.Length(size.scale), bodies[g][1]/measure.Length(size.scale)
				th := throwOf(t, clearance.Bogie(name, C, 0, clearance.Band{Top: 100, Outline: clearance.Box(L, 80)}), R)
				// The end throw governs group A, the centre throw B and C (worked).
				if ends := th.End() > th.Centre; ends != (name == "A") {
					t.Errorf("size %s group %s R %v: centre throw %v, end throw %v", size.name, name, R, th.Centre, th.End())
				}
				e := math.Max(0, math.Round(float64(max(th.Centre, th.End()))-size.k))
				if math.Abs(e-printed) > 1 {
					t.Errorf("size %s group %s R %v: rule %v, printed %v", size.name, name, R, e, printed)
				}
			}
		}
	}
	if w, err := nem.Widening("I", "A", 1100); err != nil || w != 18 {
		t.Errorf("between rows: %v, %v; want 18", w, err)
	}
	for _, bad := range []struct {
		size, group string
		R           measure.Length
	}{{"I", "C", 1100}, {"I", "C", 1000}, {"I", "A", 999}, {"I", "A", 4001}, {"0", "A", 2000}, {"I", "D", 2000}, {"S", "A", measure.Length(math.NaN())}} {
		if w, err := nem.Widening(bad.size, bad.group, bad.R); !errors.Is(err, measure.ErrInput) {
			t.Errorf("Widening(%v) = %v, %v; want refused", bad, w, err)
		}
	}
}

// NEM 103's widening is 1.5 to 5.8 mm less than the throw, in every printed cell.
func TestWideningIsNotTheThrow(t *testing.T) {
	bodies := map[string][2]measure.Length{"A": {20000, 14000}, "B": {24200, 17200}, "C": {27200, 19500}}
	least, most := math.Inf(1), 0.0
	for _, row := range reference.Rows(t, "testdata/nem103.csv")[1:] {
		for size, scale := range map[string]measure.Length{"S": 64, "I": 32} {
			for group, body := range bodies {
				R := measure.Length(reference.Number(t, row[0]))
				w, err := nem.Widening(size, group, R)
				if err != nil {
					continue
				}
				th := throwOf(t, clearance.Bogie(group, body[1]/scale, 0, clearance.Band{Top: 100, Outline: clearance.Box(body[0]/scale, 80)}), R)
				d := float64(max(th.Centre, th.End()) - w)
				least, most = min(least, d), max(most, d)
			}
		}
	}
	if math.Abs(least-1.5) > 0.1 || math.Abs(most-5.8) > 0.1 {
		t.Errorf("the throw is %.2f to %.2f more than the widening, want 1.5 to 5.8", least, most)
	}
}

func TestStraightOpening(t *testing.T) {
	// NEM 102 ed. 2017; what the columns mean was inferred from the heading.
	for _, want := range []nem.Opening{
		{Size: "S", Gauge: 22.5, Width: 66, LowWidth: 57, LowHeight: 15, LowSecond: 19, FullHeight: 60, Height: 78, TopWidth: 44},
		{Size: "0", Gauge: 32, Width: 94, LowWidth: 82, LowHeight: 21, LowSecond: 27, FullHeight: 85, Height: 109, TopWidth: 63},
		{Size: "I", Gauge: 45, Width: 130, LowWidth: 114, LowHeight: 30, LowSecond: 38, FullHeight: 118, Height: 150, TopWidth: 87},
		{Size: "II", Gauge: 64, Width: 184, LowWidth: 154, LowHeight: 43, LowSecond: 53, FullHeight: 168, Height: 214, TopWidth: 124},
	} {
		if got, err := nem.StraightOpening(want.Size); err != nil || got != want {
			t.Errorf("StraightOpening(%s) = %+v, %v; want %+v", want.Size, got, err, want)
		}
	}
	if _, err := nem.StraightOpening("H0"); !errors.Is(err, measure.ErrInput) {
		t.Errorf("StraightOpening(H0): %v", err)
	}
}
