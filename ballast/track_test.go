package ballast_test

import (
	"errors"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// Worked by hand for rail-head centres of 50 mm and a cant of 14 mm: sine 0.28,
// cosine 0.96.
func TestSleeperOutlinesByHand(t *testing.T) {
	s := ballast.Section{Depth: 50, Sleeper: ballast.Sleeper{Length: 100, Width: 12, Height: 10}, Shoulder: 10}
	for _, c := range []struct {
		name  string
		cant  measure.Length
		datum profile.Datum
		want  []r2.Vec
	}{
		{"level", 0, profile.InnerRail, []r2.Vec{{X: -50, Y: 50}, {X: 50, Y: 50}, {X: 50, Y: 60}, {X: -50, Y: 60}}},
		{"about the middle", 14, profile.Centreline, []r2.Vec{{X: -48, Y: 64}, {X: 48, Y: 36}, {X: 50.8, Y: 45.6}, {X: -45.2, Y: 73.6}}},
		{"inner rail level", 14, profile.InnerRail, []r2.Vec{{X: -48, Y: 71}, {X: 48, Y: 43}, {X: 50.8, Y: 52.6}, {X: -45.2, Y: 80.6}}},
		{"outer rail level", 14, profile.OuterRail, []r2.Vec{{X: -48, Y: 57}, {X: 48, Y: 29}, {X: 50.8, Y: 38.6}, {X: -45.2, Y: 66.6}}},
		{"the other way", -14, profile.InnerRail, []r2.Vec{{X: -48, Y: 43}, {X: 48, Y: 71}, {X: 45.2, Y: 80.6}, {X: -50.8, Y: 52.6}}},
	} {
		got, err := s.SleeperOutlines(c.cant, 50, c.datum)
		if err != nil || len(got) != 1 || len(got[0]) != 4 {
			t.Errorf("%s: %v, %v", c.name, got, err)
			continue
		}
		for i, p := range got[0] {
			if math.Abs(p.X-c.want[i].X) > 1e-12*100 || math.Abs(p.Y-c.want[i].Y) > 1e-12*100 {
				t.Errorf("%s, corner %d: %v, want %v", c.name, i+1, p, c.want[i])
			}
		}
	}
}

// Where cribs are flush, the sleepers' tops lie in the surface of Outline.
func TestSleeperOutlinesLieInTheOutline(t *testing.T) {
	s := gardenSection()
	s.Tracks = []measure.Length{-65, 65}
	s.Filled = true
	for _, cant := range []measure.Length{0, 3, -3} {
		for _, datum := range []profile.Datum{profile.InnerRail, profile.Centreline, profile.OuterRail} {
			o, err := s.Outline(cant, 47.5, datum)
			if err != nil {
				t.Fatal(err)
			}
			got, err := s.SleeperOutlines(cant, 47.5, datum)
			if err != nil || len(got) != 2 {
				t.Fatal(got, err)
			}
			if d := got[1][0].X - got[0][0].X; !near(d, 130, 1e-12) {
				t.Errorf("the tracks' sleepers are %v apart, want 130", d)
			}
			for i, q := range got {
				// A point a quarter in from each upper corner: well within the crib's width.
				for _, part := range []float64{0.25, 0.5, 0.75} {
					p := r2.Add(q[3], r2.Scale(part, r2.Sub(q[2], q[3])))
					if z := heightAt(o.Top, p.X); !near(p.Y, z, 1e-12) {
						t.Errorf("cant %v, track %d: sleeper's top at offset %v is %v high, the ballast %v", float64(cant), i+1, p.X, p.Y, z)
					}
				}
			}
		}
	}
}

// heightAt returns the height of a line of points at offset x.
func heightAt(line []r2.Vec, x float64) float64 {
	for i := 1; i < len(line); i++ {
		if a, b := line[i-1], line[i]; a.X <= x && x <= b.X && b.X > a.X {
			return a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)
		}
	}
	return math.NaN()
}

func TestOnTracksRefuses(t *testing.T) {
	s := gardenSection()
	for _, c := range []struct {
		name  string
		shape []r2.Vec
		cant  measure.Length
		field string
	}{
		{"not a number", []r2.Vec{{X: 1}, {Y: math.NaN()}}, 0, "y of point 2 of the shape"},
		{"infinite", []r2.Vec{{X: math.Inf(1)}}, 0, "x of point 1 of the shape"},
		{"cant over half the centres", []r2.Vec{{X: 1}}, 30, "cant"},
	} {
		var f *measure.FieldError
		if _, err := s.OnTracks(c.shape, c.cant, 47.5, profile.InnerRail); !errors.Is(err, measure.ErrInput) || !errors.As(err, &f) || f.Field != c.field {
			t.Errorf("%s: %v, want an error about %q", c.name, err, c.field)
		}
	}
	if _, err := s.OnTracks(make([]r2.Vec, ballast.MaxShapePoints+1), 0, 47.5, profile.InnerRail); !errors.Is(err, measure.ErrLimit) {
		t.Errorf("too many points: %v", err)
	}
	if _, err := (ballast.Section{Depth: -1}).SleeperOutlines(0, 47.5, profile.InnerRail); !errors.Is(err, measure.ErrInput) {
		t.Errorf("a wrong section: %v", err)
	}
}
