package joints_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/expansion/joints"
	"example.org/fourfoot/gauge/measure"
)

func straightLine(l measure.Length) *curve.Alignment {
	return must(curve.New(curve.Pose{}, must(curve.NewStraight(l))))
}

func inside(p joints.Plan, from, to measure.Length) (left, right int) {
	for _, j := range p.Joints {
		if j.Chainage > from+1e-6 && j.Chainage < to-1e-6 {
			if j.Rail == curve.Left {
				left++
			} else {
				right++
			}
		}
	}
	return left, right
}

// Over random lines and zones: none that is shorter than a piece by a margin
// holds a joint, and a longer one holds the fewest that bars of the stock
// allow, with a warning.
func TestZones(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	long, short := 0, 0
	for n := range 200 {
		line := winding(r, 3)
		pattern := joints.Pattern(n % 2)
		at := measure.Length(2500 + r.Float64()*float64(line.Length()-9000))
		z := joints.Zone{Name: "tunnel", From: at, To: at + measure.Length(100+4500*r.Float64())}
		s := joints.Spec{RailCentres: 34, Stock: []joints.Stock{{Length: 1500}}, Gap: 1, Pattern: pattern, Zones: []joints.Zone{z}}
		p, err := joints.New(line, s)
		if err != nil {
			t.Fatal(err)
		}
		account(t, line, s, p, 0, line.Length())
		rules(t, line, s, p)
		left, right := inside(p, z.From, z.To)
		rail := max(must(line.RailLength(curve.Left, z.From, z.To, 34)), must(line.RailLength(curve.Right, z.From, z.To, 34)))
		// The fewest: k joints inside leave k+1 pieces, none above a bar and a
		// gap. The two rails differ, and one pattern has to suit both.
		fewest := func(l measure.Length) int { return max(int(math.Ceil(float64(l)/1501-1e-9))-1, 0) }
		own := fewest(must(line.RailLength(curve.Right, z.From, z.To, 34)))
		if rail < 1480 {
			short++
		} else {
			long++
		}
		if left != fewest(rail) || right > fewest(rail) || right < own {
			t.Errorf("%v: %d and %d joints inside a zone of %v, fewest is %d", pattern, left, right, rail, fewest(rail))
		}
		if told := len(p.Warnings) > 0 && strings.Contains(strings.Join(p.Warnings, " "), "tunnel"); told != (left+right > 0) {
			t.Errorf("%d and %d joints inside, warnings %q", left, right, p.Warnings)
		}
	}
	if long < 30 || short < 30 {
		t.Errorf("%d long and %d short zones: the test needs both", long, short)
	}
}

// A part of a line, on a circuit also over its start, is laid as a line of its
// own: its ends have no joint.
func TestPartOfALine(t *testing.T) {
	ring := oval(4000, 2500)
	for _, c := range []struct {
		line     *curve.Alignment
		from, to measure.Length
		objects  []joints.Object
		rail     measure.Length // length of line that is laid
		joints   int            // at objects, both rails
	}{
		{straightLine(20_000), 3000, 15_000, nil, 12_000, 0},
		{straightLine(20_000), 3000, 15_000, []joints.Object{{"a", 500, 1000, 0}, {"b", 7000, 7500, 0}, {"c", 16_000, 17_000, 0}}, 11_500, 4},
		{straightLine(20_000), 3000, 15_000, []joints.Object{{"at the start", 3000, 3500, 0}, {"over the end", 14_000, 16_000, 0}}, 10_500, 4},
		{ring, 20_000, 3000, nil, ring.Length() - 17_000, 0},
		{ring, 20_000, 3000, []joints.Object{{"over the start", 23_000, 200, 0}, {"elsewhere", 8000, 9000, 0}}, ring.Length() - 17_000 - (ring.Length() - 23_000 + 200), 4},
		{ring, 4000, 12_000, nil, 8000, 0},
		{straightLine(20_000), 0, 5000, nil, 5000, 0},
	} {
		for _, pattern := range []joints.Pattern{joints.Square, joints.Staggered} {
			s := joints.Spec{From: c.from, To: c.to, RailCentres: 34, Stock: []joints.Stock{{Length: 1500}}, Gap: 1, Pattern: pattern, Objects: c.objects}
			p, err := joints.New(c.line, s)
			if err != nil {
				t.Errorf("%v to %v: %v", c.from, c.to, err)
				continue
			}
			rules(t, c.line, s, p)
			if len(c.objects) == 0 {
				account(t, c.line, s, p, c.from, c.to)
			}
			if mean := (p.Left.Rail + p.Right.Rail) / 2; math.Abs(float64(mean-c.rail)) > 1e-6 {
				t.Errorf("%v to %v: %v laid on the mean, want %v", c.from, c.to, mean, c.rail)
			}
			at := 0
			for _, j := range p.Joints {
				if j.At != "" {
					at++
				}
				if j.Chainage == c.from && c.objects == nil || j.Chainage == c.to {
					t.Errorf("joint %+v at an end", j)
				}
			}
			if at != c.joints {
				t.Errorf("%v to %v: %d joints at objects, want %d", c.from, c.to, at, c.joints)
			}
		}
	}
	for name, c := range map[string]struct {
		line    *curve.Alignment
		objects []joints.Object
	}{
		"open":    {straightLine(20_000), []joints.Object{{"a", 2500, 3500, 0}}},
		"circuit": {ring, []joints.Object{{"a", 2500, 3500, 0}}},
	} {
		_, err := joints.New(c.line, joints.Spec{From: 3000, To: 15_000, RailCentres: 34, Stock: []joints.Stock{{Length: 1500}}, Objects: c.objects})
		if !errors.Is(err, measure.ErrInput) || !strings.Contains(err.Error(), "inside a") {
			t.Errorf("%s: beginning inside an object: %v", name, err)
		}
	}
}

// No piece is held at two anchors: there is a joint between.
func TestAnchors(t *testing.T) {
	r := rand.New(rand.NewPCG(23, 24))
	for n := range 100 {
		line := winding(r, 3)
		s := joints.Spec{RailCentres: 34, Stock: []joints.Stock{{Length: 1800}}, Gap: 1, Pattern: joints.Pattern(n % 2)}
		x := measure.Length(300 * r.Float64())
		for x < line.Length() {
			s.Anchors = append(s.Anchors, joints.Anchor{Name: "pin", At: x})
			x += measure.Length(500 + 3000*r.Float64())
		}
		p, err := joints.New(line, s)
		if err != nil {
			t.Fatal(err)
		}
		account(t, line, s, p, 0, line.Length())
		rules(t, line, s, p)
		for _, q := range p.Pieces {
			held := 0
			for _, a := range s.Anchors {
				if a.At > q.From && a.At < q.To {
					held++
					if q.Anchor != "pin" || q.Fixed != a.At {
						t.Errorf("piece %s is fixed at %v (%q), its anchor is at %v", q.Mark, q.Fixed, q.Anchor, a.At)
					}
				}
			}
			if held > 1 {
				t.Errorf("piece %s from %v to %v is held %d times", q.Mark, q.From, q.To, held)
			}
			if held == 0 && q.Anchor != "" {
				t.Errorf("piece %s has anchor %q, but none is on it", q.Mark, q.Anchor)
			}
		}
	}
}

// Two anchors with a zone over both: rail locked between them is the worse
// evil, so the joint between them comes inside the zone, and is told.
func TestAnchorsInZone(t *testing.T) {
	s := joints.Spec{
		RailCentres: 34, Stock: []joints.Stock{{Length: 1800}}, Gap: 1,
		Anchors: []joints.Anchor{{"abutment", 4000}, {"wall", 4600}}, Zones: []joints.Zone{{"bridge", 3900, 4800}},
	}
	p, err := joints.New(straightLine(10_000), s)
	if err != nil {
		t.Fatal(err)
	}
	left, right := inside(p, 3900, 4800)
	if text := strings.Join(p.Warnings, "; "); left != 1 || right != 1 || !strings.Contains(text, "bridge: joints inside it, 1 in the left rail and 1 in the right") {
		t.Errorf("%d and %d joints on the bridge, warnings %q", left, right, text)
	}
	for _, j := range p.Joints {
		if j.Chainage > 3901 && j.Chainage < 4799 && (j.Chainage <= 4000 || j.Chainage >= 4600) {
			t.Errorf("joint %s at %v is not between the anchors", j.Mark, j.Chainage)
		}
	}
}

// Anchors, zones and objects all together, at random and close to each other:
// whatever rule is broken is told, and no other is.
func TestEverythingAtOnce(t *testing.T) {
	r := rand.New(rand.NewPCG(27, 28))
	told := map[string]int{}
	for n := range 400 {
		line := winding(r, 2)
		if n%4 == 3 {
			line = oval(3000, 2000)
		}
		l := float64(line.Length())
		s := joints.Spec{RailCentres: 34, Stock: []joints.Stock{{Length: 1500}}, Gap: 1, Pattern: joints.Pattern(n % 2)}
		for range r.IntN(6) {
			s.Anchors = append(s.Anchors, joints.Anchor{Name: "pin", At: measure.Length(l * r.Float64())})
		}
		for range r.IntN(3) {
			at := l * 0.8 * r.Float64()
			s.Zones = append(s.Zones, joints.Zone{Name: "zone", From: measure.Length(at), To: measure.Length(at + l*0.2*r.Float64() + 1)})
		}
		for k := range r.IntN(3) {
			at := l * (0.3*float64(k) + 0.1*r.Float64())
			s.Objects = append(s.Objects, joints.Object{Name: "points", From: measure.Length(at), To: measure.Length(at + 400)})
		}
		p, err := joints.New(line, s)
		if errors.Is(err, measure.ErrNoAnswer) { // a run shorter than its gaps
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		rules(t, line, s, p)
		text := strings.Join(p.Warnings, "; ")
		twice, zoned, short := 0, 0, 0
		for _, q := range p.Pieces {
			held := 0
			for _, a := range s.Anchors {
				d := line.Span(q.From, a.At)
				if line.Closed() || a.At > q.From {
					if d > 1e-6 && d < line.Span(q.From, q.To)-1e-6 {
						held++
					}
				}
			}
			if held > 1 {
				twice++
			}
			if line.Span(q.From, q.To) < 375-1e-6 {
				short++
			}
		}
		for _, z := range s.Zones {
			left, right := inside(p, z.From, z.To)
			if left+right > 0 {
				zoned++
			}
		}
		if got := strings.Count(text, "is locked"); got != twice {
			t.Errorf("line %d: %d pieces are held twice, told of %d: %s", n, twice, got, text)
		}
		if got := strings.Count(text, "joints inside it"); got != zoned {
			t.Errorf("line %d: %d zones hold joints, told of %d: %s", n, zoned, got, text)
		}
		if short > 0 && !strings.Contains(text, "shorter than 375 mm") && len(s.Anchors) == 0 {
			t.Errorf("line %d: %d short pieces, not told: %s", n, short, text)
		}
		for _, w := range []string{"locked", "inside", "shorter"} {
			if strings.Contains(text, w) {
				told[w]++
			}
		}
	}
	t.Log(told)
	if told["inside"] < 20 || told["shorter"] < 10 {
		t.Errorf("told %v: the test needs all", told)
	}
}

// A feeler that is not right today is told, and each joint gets the nearest
// gap that is.
func TestFeelerNotRight(t *testing.T) {
	for feeler, want := range map[measure.Length]bool{0.1: true, 1.8: false, 3.9: true} {
		p, err := joints.New(straightLine(9000), joints.Spec{RailCentres: 34, Stock: []joints.Stock{{Length: 1500}}, Gap: feeler, Heat: brass()})
		if err != nil {
			t.Fatal(err)
		}
		if told := strings.Contains(strings.Join(p.Warnings, " "), "not right today"); told != want {
			t.Errorf("feeler %v: warnings %q", feeler, p.Warnings)
		}
		for _, j := range p.Joints {
			nearest := min(max(feeler, j.Least), j.Most)
			if math.Abs(float64(j.Gap-nearest)) > 1e-6 {
				t.Errorf("feeler %v: joint %s has %v, permitted %v to %v", feeler, j.Mark, j.Gap, j.Least, j.Most)
			}
		}
	}
}

// A joint that stands in a zone because a turnout does is told as well.
func TestObjectInZone(t *testing.T) {
	p, err := joints.New(straightLine(9000), joints.Spec{
		RailCentres: 34, Stock: []joints.Stock{{Length: 1500}},
		Objects: []joints.Object{{Name: "points", From: 4000, To: 4400}}, Zones: []joints.Zone{{From: 3900, To: 4600}},
	})
	if err != nil {
		t.Fatal(err)
	}
	if text := strings.Join(p.Warnings, " "); !strings.Contains(text, "zone 1: joints inside it, 2 in the left rail and 2 in the right") {
		t.Errorf("warnings %q", text)
	}
	// A run too short for a whole piece is told.
	p, err = joints.New(straightLine(9000), joints.Spec{
		RailCentres: 34, Stock: []joints.Stock{{Length: 1500}},
		Objects: []joints.Object{{Name: "a", From: 4000, To: 4400}, {Name: "b", From: 4700, To: 5000}}, Sleepers: joints.Sleepers{Pitch: 400},
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Warnings) != 1 || !strings.Contains(p.Warnings[0], "only piece from 4400 mm to 4700 mm") {
		t.Errorf("warnings %q", p.Warnings)
	}
	// Its one sleeper stands in its middle.
	for x := range p.Sleepers() {
		if x > 4400 && x < 4700 && x != 4550 {
			t.Errorf("sleeper at %v", x)
		}
	}
}

// At a turnout the whole gap lies on our side, and the turnout's own free rail
// counts towards it.
func TestObject(t *testing.T) {
	s := joints.Spec{
		RailCentres: 34, Stock: []joints.Stock{{Length: 1500}}, Gap: 1, Heat: brass(),
		Objects: []joints.Object{{Name: "points", From: 3000, To: 3400, Free: 200}},
	}
	line := straightLine(8000)
	p, err := joints.New(line, s)
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, j := range p.Joints {
		switch {
		case j.At == "points" && j.Chainage == 3000:
			seen++
			if j.After != 200 {
				t.Errorf("joint %s has %v free beyond it, want the turnout's 200", j.Mark, j.After)
			}
		case j.At == "points" && j.Chainage == 3400:
			seen++
			if j.Before != 200 {
				t.Errorf("joint %s has %v free before it, want the turnout's 200", j.Mark, j.Before)
			}
		case j.At != "" || j.Chainage > 2999 && j.Chainage < 3401:
			t.Errorf("joint %+v", j)
		}
	}
	if seen != 4 {
		t.Errorf("%d joints at the turnout, want 4", seen)
	}
	if d := math.Abs(float64(p.Left.Rail) - 7600); d > 1e-9 {
		t.Errorf("left rail %v, want 7600 without the turnout", p.Left.Rail)
	}
	for _, total := range []joints.Total{p.Left, p.Right} {
		if d := math.Abs(float64(total.Pieces + total.Gaps - total.Rail)); d > 1e-6 {
			t.Errorf("account %+v", total)
		}
	}
	// The last piece before the turnout: 3000 less two pieces and three gaps.
	for i, q := range p.Pieces {
		if q.To == 3000 {
			if d := float64(q.From-3000) + float64(q.Length) + float64(p.Joints[i].Gap) + float64(p.Joints[i-1].Gap)/2; math.Abs(d) > 1e-9 {
				t.Errorf("piece %+v and its gaps miss the turnout by %v", q, d)
			}
			break
		}
	}
}

// Away from the start a staggered plan stays staggered through bends to both
// hands.
func TestStaggerKept(t *testing.T) {
	r := rand.New(rand.NewPCG(25, 26))
	for range 30 {
		line := winding(r, 8)
		p, err := joints.New(line, joints.Spec{RailCentres: 47.5, Stock: []joints.Stock{{Length: 1800}}, Gap: 1, Pattern: joints.Staggered})
		if err != nil {
			t.Fatal(err)
		}
		var left []joints.Joint
		for _, j := range p.Joints {
			if j.Rail == curve.Left {
				left = append(left, j)
				continue
			}
			if j.Chainage > line.Length()-4000 { // the last two pieces may be evened out
				continue
			}
			for _, k := range left {
				if d := math.Abs(float64(k.Chainage - j.Chainage)); d < 600 {
					t.Errorf("joints %s and %s are %v mm apart", k.Mark, j.Mark, d)
				}
			}
		}
	}
}

func TestFlexible(t *testing.T) {
	line := must(curve.New(curve.Pose{},
		must(curve.NewStraight(1000)), must(curve.NewArc(2000, math.Pi/2, curve.Right)), must(curve.NewStraight(1300))))
	const g = 47.5
	lengths, cutting, err := joints.Flexible(line, joints.Spec{RailCentres: g, Stock: []joints.Stock{{Length: 914.4}}})
	if err != nil {
		t.Fatal(err)
	}
	var trim measure.Length
	for _, f := range lengths {
		turn := float64(line.Turn(f.From, f.To))
		if math.Abs(float64(f.Trim)-g*math.Abs(turn)) > 1e-6 {
			t.Errorf("trim %v for a turn of %v: want g_c·θ = %v", f.Trim, turn, g*math.Abs(turn))
		}
		if turn < -1e-6 && f.Inner != curve.Right || turn == 0 && f.Inner != 0 {
			t.Errorf("inner rail %v on a turn of %v", f.Inner, turn)
		}
		trim += f.Trim
	}
	if math.Abs(float64(trim)-74.6) > 0.05 { // 90° on 45 mm gauge
		t.Errorf("trims sum to %v, want 74.6", trim)
	}
	for i, f := range lengths {
		used := measure.Length(0)
		for _, k := range cutting.Bars[f.Bar].Pieces {
			used += max(lengths[k].Left, lengths[k].Right)
		}
		if !slices.Contains(cutting.Bars[f.Bar].Pieces, i) || used+cutting.Bars[f.Bar].Rest > 914.4+1e-6 {
			t.Errorf("length %d: bar %+v holds %v", i, cutting.Bars[f.Bar], used)
		}
	}
	if len(cutting.Bars) < cutting.Bound || len(cutting.Bars) > cutting.Bound+1 {
		t.Errorf("%d lengths to buy, bound %d", len(cutting.Bars), cutting.Bound)
	}
	if _, _, err := joints.Flexible(line, joints.Spec{RailCentres: g, Stock: []joints.Stock{{Length: 914.4}}, Pattern: joints.Staggered}); !errors.Is(err, measure.ErrInput) {
		t.Errorf("staggered flexible track: %v", err)
	}
}

// The count of sleepers is that of their places, no two further apart than the
// pitch, and two at the pitch at joints about each joint.
func TestSleepers(t *testing.T) {
	line := straightLine(20_000)
	for _, pattern := range []joints.Pattern{joints.Square, joints.Staggered} {
		p, err := joints.New(line, joints.Spec{RailCentres: 34, Stock: []joints.Stock{{Length: 1800}}, Gap: 1, Pattern: pattern, Sleepers: joints.Sleepers{Pitch: 42, JointPitch: 25, Fixings: 2}})
		if err != nil {
			t.Fatal(err)
		}
		var at []float64
		for x := range p.Sleepers() {
			at = append(at, float64(x))
		}
		if len(at) != p.Order.Sleepers || p.Order.Fixings != 2*len(at) || p.Order.Joiners != len(p.Joints) {
			t.Errorf("%d places, order %+v, %d joints", len(at), p.Order, len(p.Joints))
		}
		for i := range at[1:] {
			if d := at[i+1] - at[i]; d > 42+1e-6 || d <= 0 {
				t.Errorf("sleepers %v apart at %v", d, at[i])
			}
		}
		if least := int(20_000 / 42); len(at) < least || len(at) > least+40 {
			t.Errorf("%d sleepers on 20 m at 42 mm", len(at))
		}
		for _, j := range p.Joints {
			near := 0
			for _, x := range at {
				if math.Abs(math.Abs(x-float64(j.Chainage))-12.5) < 1e-6 {
					near++
				}
			}
			if near != 2 {
				t.Errorf("joint %s: %d sleepers stand 12.5 mm from it, want 2", j.Mark, near)
			}
		}
	}
}

func TestBadInput(t *testing.T) {
	line := straightLine(10_000)
	ring := oval(4000, 2500)
	good := joints.Spec{RailCentres: 34, Stock: []joints.Stock{{Length: 1500}}, Gap: 1}
	nan := measure.Length(math.NaN())
	for _, c := range []struct {
		name string
		line *curve.Alignment
		edit func(*joints.Spec)
		want string
		kind error
	}{
		{"no line", nil, func(*joints.Spec) {}, "line", measure.ErrInput},
		{"no rail centres", line, func(s *joints.Spec) { s.RailCentres = 0 }, "rail centres", measure.ErrInput},
		{"rail centres wider than the bend", ring, func(s *joints.Spec) { s.RailCentres = 3000 }, "smallest radius", measure.ErrInput},
		{"no stock", line, func(s *joints.Spec) { s.Stock = nil }, "stock", measure.ErrInput},
		{"stock of no length", line, func(s *joints.Spec) { s.Stock = []joints.Stock{{}} }, "stock 1", measure.ErrInput},
		{"NaN stock", line, func(s *joints.Spec) { s.Stock[0].Length = nan }, "stock 1", measure.ErrInput},
		{"panel over stock", line, func(s *joints.Spec) { s.Panel = 2000 }, "panel", measure.ErrInput},
		{"shortest too long", line, func(s *joints.Spec) { s.Shortest = 900 }, "shortest", measure.ErrInput},
		{"negative gap", line, func(s *joints.Spec) { s.Gap = -1 }, "gap", measure.ErrInput},
		{"NaN kerf", line, func(s *joints.Spec) { s.Kerf = nan }, "kerf", measure.ErrInput},
		{"from past the end", line, func(s *joints.Spec) { s.From = 20_000 }, "from", measure.ErrInput},
		{"from after to", line, func(s *joints.Spec) { s.From, s.To = 5000, 4000 }, "to", measure.ErrInput},
		{"to forgotten", line, func(s *joints.Spec) { s.From = 5000 }, "to", measure.ErrInput},
		{"object past the end", line, func(s *joints.Spec) { s.Objects = []joints.Object{{"points", 9000, 11_000, 0}} }, "object 1 (points)", measure.ErrInput},
		{"objects overlap", line, func(s *joints.Spec) { s.Objects = []joints.Object{{"a", 1000, 2000, 0}, {"b", 1500, 2500, 0}} }, "object b", measure.ErrInput},
		{"object backwards", line, func(s *joints.Spec) { s.Objects = []joints.Object{{"a", 2000, 1000, 0}} }, "object 1 (a): to", measure.ErrInput},
		{"all objects", line, func(s *joints.Spec) { s.Objects = []joints.Object{{"a", 0, 10_000, 0}} }, "no rail is left", measure.ErrInput},
		{"anchor NaN", line, func(s *joints.Spec) { s.Anchors = []joints.Anchor{{"a", nan}} }, "anchor 1", measure.ErrInput},
		{"zone past the end", line, func(s *joints.Spec) { s.Zones = []joints.Zone{{"z", 9000, 10_001}} }, "zone 1", measure.ErrInput},
		{"pattern", line, func(s *joints.Spec) { s.Pattern = 7 }, "pattern", measure.ErrInput},
		{"sleepers without pitch", line, func(s *joints.Spec) { s.Sleepers.Fixings = 3 }, "sleeper pitch", measure.ErrInput},
		{"open level on a circuit", ring, func(s *joints.Spec) { s.Level = hilly(line) }, "level", measure.ErrInput},
		{"panel too long for the climate", line, func(s *joints.Spec) { s.Heat = brass(); s.Heat.Widest = 1 }, "at most", measure.ErrNoAnswer},
		{"too few bars", line, func(s *joints.Spec) { s.Stock[0].Count = 3 }, "no bar left", measure.ErrNoAnswer},
		{"too many pieces", straightLine(1000 * measure.Kilometre), func(s *joints.Spec) { s.Stock[0].Length = 5 }, "at most", measure.ErrLimit},
		{"too many states", straightLine(10 * measure.Kilometre), func(s *joints.Spec) {
			s.Stock[0].Length, s.Heat = 1000, brass()
			for len(s.Heat.Climate) < 5000 {
				s.Heat.Climate = append(s.Heat.Climate, s.Heat.Climate...)
			}
		}, "work", measure.ErrLimit},
		{"too many zones", line, func(s *joints.Spec) { s.Zones = make([]joints.Zone, joints.MaxPlaces+1) }, "zones", measure.ErrLimit},
	} {
		s := good
		s.Stock = append([]joints.Stock(nil), good.Stock...)
		c.edit(&s)
		_, err := joints.New(c.line, s)
		if !errors.Is(err, c.kind) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %v, want %v naming %q", c.name, err, c.kind, c.want)
		}
	}
}

// A kilometre of winding line on grades in bars of a metre.
func BenchmarkKilometre(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 1))
	line := winding(r, 190)
	var points []profile.Point
	for i := range 60 {
		points = append(points, profile.Point{Chainage: line.Length() / 60 * measure.Length(i), Level: measure.Length(i % 2 * 100), Radius: 10_000})
	}
	points[0].Radius, points[59].Radius = 0, 0
	s := joints.Spec{RailCentres: 47.5, Stock: []joints.Stock{{Length: 1000}}, Kerf: 1, Heat: brass(), Level: must(profile.NewLevel(points...)), Sleepers: joints.Sleepers{Pitch: 40, JointPitch: 25}}
	for i := measure.Length(0); i < 20; i++ {
		at := line.Length() / 20 * i
		s.Objects = append(s.Objects, joints.Object{Name: "points", From: at + 1000, To: at + 1500})
		s.Zones = append(s.Zones, joints.Zone{Name: "tunnel", From: at + 5000, To: at + 8500})
		s.Anchors = append(s.Anchors, joints.Anchor{Name: "pin", At: at + 10_000})
	}
	for _, pattern := range []joints.Pattern{joints.Square, joints.Staggered} {
		s.Pattern = pattern
		b.Run(pattern.String(), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := joints.New(line, s); err != nil {
					b.Fatal(err)
				}
			}
			b.ReportMetric(line.Length().Metres(), "m")
		})
	}
}
