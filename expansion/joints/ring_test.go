package joints_test

import (
	"math"
	"math/rand/v2"
	"sort"
	"strings"
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

// The rail on the inside of a bend is the one that is trimmed, by g_c·θ, to
// either hand.
func TestFlexibleInner(t *testing.T) {
	for _, hand := range []curve.Hand{curve.Left, curve.Right} {
		line := must(curve.New(curve.Pose{}, must(curve.NewArc(2500, 1.2, hand))))
		trim := func(centres measure.Length) []joints.FlexLength {
			f, _, err := joints.Flexible(line, joints.Spec{RailCentres: centres, Stock: []joints.Stock{{Length: 910}}})
			if err != nil {
				t.Fatal(err)
			}
			return f
		}
		inner := map[curve.Hand]curve.Hand{curve.Left: curve.Left, curve.Right: curve.Right}[hand]
		var sum measure.Length
		for i, f := range trim(34) {
			sum += f.Trim
			turn := math.Abs(float64(line.Turn(f.From, f.To)))
			if f.Inner != inner || math.Abs(float64(f.Trim)-34*turn) > 1e-9 {
				t.Errorf("%v bend, length %d: trimmed on the %v by %v, want on the %v by %v", hand, i+1, f.Inner, f.Trim, inner, 34*turn)
			}
		}
		if math.Abs(float64(sum)-34*1.2) > 1e-9 {
			t.Errorf("%v bend: trims add up to %v, want %v", hand, sum, 34*1.2)
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

// A staggered right rail is begun further round than the left; the anchors
// that it passes over by that still hold it.
func TestAnchorsOnStaggeredCircuit(t *testing.T) {
	line := oval(4000, 2500)
	s := joints.Spec{RailCentres: 34, Stock: []joints.Stock{{Length: 1500}}, Gap: 1, Pattern: joints.Staggered}
	for at := measure.Length(0); at < line.Length()-900; at += 1000 + at/50 {
		s.Anchors = append(s.Anchors, joints.Anchor{Name: "pin", At: at})
	}
	s.Anchors[0].At = 0 // where the left rail has a joint: told, and the right rail is held
	p := must(joints.New(line, s))
	if text := strings.Join(p.Warnings, "; "); strings.Count(text, "stands on the anchor pin") != 1 || !strings.Contains(text, "joint L1 at 0 mm stands on") {
		t.Errorf("warnings %q", text)
	}
	for _, side := range []curve.Hand{curve.Left, curve.Right} {
		holding := map[measure.Length]bool{}
		for _, q := range p.Pieces {
			if q.Rail == side && q.Anchor == "pin" {
				holding[q.Fixed] = true
			}
		}
		for _, a := range s.Anchors {
			found := false
			for x := range holding {
				d := math.Abs(math.Remainder(float64(x-a.At), float64(line.Length())))
				found = found || d < 1e-6
			}
			if !found && (side == curve.Right || a.At > 0) {
				t.Errorf("%v rail: no piece is held at %v", side, a.At)
			}
		}
	}
}

// A zone longer than a bar with anchors in it gets the fewest joints: no more
// than a search over a fine grid does with, that keeps half the shortest piece
// from the second of two anchors (or stays half way), and no fewer than one
// that keeps nothing.
func TestAnchorsInLongZone(t *testing.T) {
	const from, step, bar, keep = 4000, 5, 1501, 375.0 / 2
	r := rand.New(rand.NewPCG(53, 54))
	most := 0
	for n := range 100 {
		to := from + 1600 + 3000*r.Float64()
		var at []float64
		for range 1 + r.IntN(3) {
			at = append(at, from+(to-from)*r.Float64())
		}
		sort.Float64s(at)
		s := joints.Spec{RailCentres: 34, Stock: []joints.Stock{{Length: 1500}}, Gap: 1, Zones: []joints.Zone{{Name: "tunnel", From: from, To: measure.Length(to)}}}
		for _, x := range at {
			s.Anchors = append(s.Anchors, joints.Anchor{Name: "pin", At: measure.Length(x)})
		}
		held := func(a, b float64) (k int) {
			for _, x := range at {
				if x > a && x < b {
					k++
				}
			}
			return k
		}
		free := func(x float64) bool { // far enough before the next anchor
			for i, b := range at {
				if i > 0 && x > at[i-1] && x < b && b-x < min(keep, (b-at[i-1])/2) {
					return false
				}
			}
			return true
		}
		fewest := func(reach float64, ok func(float64) bool) int {
			end := int(math.Ceil((to - from) / step))
			inside := make([]int, end+1)
			for i := 1; i <= end; i++ {
				x := min(from+float64(i)*step, to)
				inside[i] = 1 << 20
				if i < end && !ok(x) {
					continue
				}
				for k := i - 1; k >= 0; k-- {
					y := from + float64(k)*step
					if x-y > reach || held(y, x) > 1 {
						break
					}
					inside[i] = min(inside[i], inside[k]+1)
				}
			}
			return inside[end] - 1
		}
		p := must(joints.New(straightLine(14_000), s))
		left, right := inside(p, from, measure.Length(to))
		high, low := fewest(bar, free), fewest(bar+2*step, func(float64) bool { return true })
		if left != right || left > high || left < low {
			t.Errorf("line %d, zone to %.0f, anchors %.0f: %d and %d joints inside, fewest %d to %d", n, to, at, left, right, low, high)
		}
		if !strings.Contains(strings.Join(p.Warnings, "; "), "tunnel: ") {
			t.Errorf("line %d: not told: %q", n, p.Warnings)
		}
		most = max(most, left)
	}
	if most < 3 {
		t.Errorf("at most %d joints came inside: the test needs more", most)
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
