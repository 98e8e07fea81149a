package joints_test

import (
	"math"
	"math/rand/v2"
	"sort"
	"testing"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/expansion/joints"
	"example.org/fourfoot/gauge/measure"
)

// Round a circuit every object has a joint at each end of it on each rail.
func TestObjectsOnCircuit(t *testing.T) {
	for _, objects := range [][]joints.Object{
		{{Name: "a", From: 3000, To: 3400}},
		{{Name: "a", From: 9000, To: 9400}, {Name: "b", From: 100, To: 500}, {Name: "c", From: 23_000, To: 23_300}},
		{{Name: "a", From: 23_500, To: 200}, {Name: "b", From: 5000, To: 5500}},
	} {
		p := must(joints.New(oval(4000, 2500), joints.Spec{RailCentres: 34, Stock: []joints.Stock{{Length: 1500}}, Gap: 1, Objects: objects}))
		at := map[string]int{}
		for _, j := range p.Joints {
			at[j.At]++
		}
		for _, o := range objects {
			if at[o.Name] != 4 {
				t.Errorf("%d joints at %s of %d objects, want 4", at[o.Name], o.Name, len(objects))
			}
		}
	}
}

// A piece's free rail, on grades too, is its rail from where it is held, less
// its share of the gap.
func TestFreeLengths(t *testing.T) {
	r := rand.New(rand.NewPCG(51, 52))
	for n := range 20 {
		line := winding(r, 3)
		s := joints.Spec{
			RailCentres: 40, Stock: []joints.Stock{{Length: 1500}}, Gap: 1.5, Level: hilly(line), Pattern: joints.Pattern(n % 2),
			Anchors: []joints.Anchor{{Name: "pin", At: line.Length() * 0.23}, {Name: "bolt", At: line.Length() * 0.71}},
		}
		p := must(joints.New(line, s))
		gapBefore := map[int]measure.Length{}
		for _, j := range p.Joints {
			if j.PieceAfter >= 0 {
				gapBefore[j.PieceAfter] = j.Gap
			}
		}
		for i, q := range p.Pieces {
			want := must(line.RailLength(q.Rail, q.From, q.Fixed, s.RailCentres)) + must(s.Level.TrueLength(q.From, q.Fixed)) - (q.Fixed - q.From)
			want += q.Rates()[1].By * gapBefore[i]
			if d := math.Abs(float64(q.Back - want)); d > 1e-9 {
				t.Errorf("piece %s: %v free behind, want %v", q.Mark, q.Back, want)
			}
		}
	}
}

// Round a circuit the sleepers keep the pitch, over its start as well.
func TestSleepersOnCircuit(t *testing.T) {
	line := oval(4000, 2500)
	for _, pattern := range []joints.Pattern{joints.Square, joints.Staggered} {
		p := must(joints.New(line, joints.Spec{RailCentres: 34, Stock: []joints.Stock{{Length: 1500}}, Gap: 1, Pattern: pattern, Sleepers: joints.Sleepers{Pitch: 42, JointPitch: 25}}))
		var at []float64
		for x := range p.Sleepers() {
			at = append(at, float64(x))
		}
		sort.Float64s(at)
		at = append(at, at[0]+float64(line.Length()))
		for i := range at[1:] {
			if d := at[i+1] - at[i]; d > 42+1e-6 || d < 5 {
				t.Errorf("%v: sleepers %v apart at %v", pattern, d, at[i])
			}
		}
		for _, j := range p.Joints {
			near := 0
			for _, x := range at[1:] {
				if d := math.Abs(math.Remainder(x-float64(j.Chainage), float64(line.Length()))); math.Abs(d-12.5) < 1e-6 {
					near++
				}
			}
			if j.Rail == curve.Left && near != 2 {
				t.Errorf("%v: %d sleepers stand 12.5 mm from joint %s", pattern, near, j.Mark)
			}
		}
	}
}
