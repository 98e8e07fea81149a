package main

import (
	"math"
	"strings"
	"testing"

	"example.org/fourfoot/clearance/coupling"
	"example.org/fourfoot/gauge/measure"
)

// A loop's pieces and gaps make up its rails, its points left out, and what it
// takes is in the order.
func TestLoopRails(t *testing.T) {
	p := &Plan{}
	if err := decodePlan(demo, p); err != nil {
		t.Fatal(err)
	}
	s := &site{plan: p}
	if err := s.lay(); err != nil {
		t.Fatal(err)
	}
	l := s.loops[0]
	from, to := 450*measure.Millimetre, l.line.Length()-450
	for name, side := range map[string]struct {
		rail  float64
		total measure.Length
	}{"left": {1, l.joints.Left.Rail}, "right": {-1, l.joints.Right.Rail}} {
		want := float64(to-from) - side.rail*float64(s.railCentres)/2*float64(l.line.Turn(from, to))
		if math.Abs(float64(side.total)-want) > 1e-6 {
			t.Errorf("%s rail %v, want %v", name, float64(side.total), want)
		}
	}
	main, loop := len(s.joints.Cutting.Bars), len(l.joints.Cutting.Bars)
	if loop < 6 {
		t.Errorf("%d bars for the loop", loop)
	}
	for _, row := range table(t, string(demo), "order").Rows {
		if row[0] == bars && row[1] != float64(main+loop) {
			t.Errorf("ordered %v bars, want %d and %d", row[1], main, loop)
		}
	}
	if n := len(table(t, string(demo), "joints-loop1").Rows); n != len(l.joints.Joints) {
		t.Errorf("%d joints in the table, %d in the plan", n, len(l.joints.Joints))
	}
}

// A loop's own curves are held to the stock: the couplings run over it, and a
// radius below what a pair or a wheelbase can do is told of.
func TestLoopCurvesHeldToStock(t *testing.T) {
	p := &Plan{}
	if err := decodePlan([]byte(edited(t, `"radius": "1.6 m"}]`, `"radius": "400 mm"}]`)), p); err != nil {
		t.Fatal(err)
	}
	s := &site{plan: p}
	if err := s.lay(); err != nil {
		t.Fatal(err)
	}
	table, err := s.couplings(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	// Standing anywhere on the loop the pair never swings more than its worst.
	l, pair := s.loops[0], s.pairs()[0]
	var most measure.Angle
	for at := measure.Length(500); at < l.route.Length()-500; at++ {
		j, err := coupling.At(l.route, pair, at)
		if err != nil {
			t.Fatal(err)
		}
		most = max(most, j.SwingBehind, -j.SwingBehind, j.SwingAhead, -j.SwingAhead)
	}
	row := table.Rows[1]
	if got := row[5].(measure.Angle); row[2] != "station loop" || math.Abs(float64(got-most)) > 1e-3 {
		t.Errorf("%v, want a swing of %v", row, most)
	}
	if most < 20*measure.Degree || row[6].(string)[0] != '-' {
		t.Errorf("%v: a swing of %v of 20° to spare", row, most)
	}
	if table.Rows[0][2] != "the line" || table.Rows[0][6].(string)[0] == '-' {
		t.Errorf("on the line %v", table.Rows[0])
	}
	limits, err := s.limitChapter(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	said := strings.Join(limits.Lines, "\n")
	if !strings.Contains(said, "loops[1], station loop: its radius of 400 mm is less than the least of bogie coach and quarry engine, coupled: ") || len(limits.Lines) != 1 {
		t.Errorf("said %q", said)
	}
	throws, err := s.throws()
	if err != nil || !strings.Contains(throws.Caption, "smallest radius of station loop, 400 mm") {
		t.Errorf("%q, %v", throws.Caption, err)
	}
	s.loops[0].plan.Radius = 180 // too sharp for the engine's rigid wheelbase of 96 mm besides: NEM 111 has 96/(2·sin 12°)
	s.tooSharp = nil
	if limits, err = s.limitChapter(t.Context()); err != nil || len(limits.Lines) != 2 || !strings.Contains(limits.Lines[1], "quarry engine, rigid wheelbase of 96 mm: 231 mm") {
		t.Errorf("%q, %v", limits.Lines, err)
	}
}

// Loops that would lie over one another are refused; one beside the other, one
// after the other and one to either side are not.
func TestLoopsOverEachOther(t *testing.T) {
	second := func(from, to, side, spacing, radius string) string {
		return edited(t, `"radius": "1.6 m"}]`, `"radius": "1.6 m"}, {"name": "second", "from": "`+from+`", "to": "`+to+`", "side": "`+side+`", "spacing": "`+spacing+`", "radius": "`+radius+`"}]`)
	}
	for name, c := range map[string]struct {
		plan string
		over bool
	}{
		"within the first":        {second("1 m", "4.2 m", "left", "165 mm", "1.5 m"), true},
		"from the same place":     {second("350 mm", "4.2 m", "left", "300 mm", "1.2 m"), true},
		"close beside":            {second("1.2 m", "3.6 m", "left", "95 mm", "1.6 m"), true},
		"crossing":                {second("1.8 m", "4.9 m", "left", "165 mm", "1.2 m"), true},
		"inside, room between":    {second("1.5 m", "3.3 m", "left", "85 mm", "1.6 m"), false},
		"on the other side":       {second("1 m", "4.2 m", "right", "165 mm", "1.5 m"), false},
		"where the first is back": {edited(t, `"to": "4.45 m", "side": "left", "spacing": "165 mm", "radius": "1.6 m"}]`, `"to": "2.5 m", "side": "left", "spacing": "100 mm", "radius": "1.2 m"}, {"name": "second", "from": "2.5 m", "to": "4.45 m", "side": "left", "spacing": "100 mm", "radius": "1.2 m"}]`), false},
	} {
		p := &Plan{}
		if err := decodePlan([]byte(c.plan), p); err != nil {
			t.Fatal(err)
		}
		err := (&site{plan: p}).lay()
		if over := err != nil && strings.Contains(err.Error(), "loops[2]: second: at chainage"); over != c.over || !over && err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if c.over && (err == nil || !strings.Contains(err.Error(), "loops[1], station loop")) {
			t.Errorf("%s: %v does not name the other", name, err)
		}
	}
}

// A loop's offset in closed form is that of its line as laid.
func TestLoopOffset(t *testing.T) {
	p := &Plan{}
	if err := decodePlan(demo, p); err != nil {
		t.Fatal(err)
	}
	s := &site{plan: p}
	if err := s.lay(); err != nil {
		t.Fatal(err)
	}
	l := s.loops[0]
	long := s.line.Span(l.plan.From, l.plan.To)
	for at := measure.Length(0); at <= l.line.Length(); at += 7 {
		n := s.line.Nearest(l.line.Point(at))
		foot := s.line.Point(n.Chainage)
		want := math.Hypot(l.line.Point(at).X-foot.X, l.line.Point(at).Y-foot.Y)
		if got := float64(l.plan.offset(n.Chainage-l.plan.From, long)); math.Abs(got-want) > 1e-6 {
			t.Fatalf("%v along: %v from the main line, want %v", at, got, want)
		}
	}
}

// Where no points stand at an end of a loop the cut list says so, and from where
// to where its rails run instead.
func TestLoopWithoutPoints(t *testing.T) {
	both := `"points": [{"name": "loop points, station end", "from": "350 mm", "to": "800 mm"}, {"name": "loop points, far end", "from": "4 m", "to": "4.45 m"}]`
	first := `{"name": "loop points, station end", "from": "350 mm", "to": "800 mm"}`
	last := `{"name": "loop points, far end", "from": "4 m", "to": "4.45 m"}`
	const leaves, back = "No points of the plan stand where it leaves the main line", "No points of the plan stand where it is back"
	for name, c := range map[string]struct {
		points      string
		want, lacks string
		from, to    measure.Length // of its rails, from its two ends
	}{
		"both":      {both, ", its points left out", "No points", 450, 450},
		"none":      {`"points": []`, leaves + " nor where it is back", "left out", 0, 0},
		"first":     {`"points": [` + first + `]`, back, leaves, 450, 0},
		"last":      {`"points": [` + last + `]`, leaves, back, 0, 450},
		"elsewhere": {`"points": [` + last + `, {"name": "siding", "from": "400 mm", "to": "800 mm"}]`, leaves, back, 0, 450},
	} {
		plan := edited(t, both, c.points)
		p := &Plan{}
		if err := decodePlan([]byte(plan), p); err != nil {
			t.Fatal(err)
		}
		s := &site{plan: p}
		if err := s.lay(); err != nil {
			t.Fatal(err)
		}
		l := s.loops[0]
		cuts := table(t, plan, "cuts-loop1")
		if !strings.Contains(cuts.Caption, c.want) || strings.Contains(cuts.Caption, c.lacks) {
			t.Errorf("%s: %q, want %q and no %q", name, cuts.Caption, c.want, c.lacks)
		}
		from, to := measure.Length(1e9), measure.Length(0)
		for _, x := range l.joints.Pieces {
			from, to = min(from, x.From), max(to, x.To)
		}
		if off := max(from-c.from, c.from-from, to-(l.line.Length()-c.to), l.line.Length()-c.to-to); off > 5 { // half a gap
			t.Errorf("%s: rails from %v to %v of %v", name, from, to, l.line.Length())
		}
		if said := "Its rails run from " + s.units.say(c.from, 0) + " to " + s.units.say(l.line.Length()-c.to, 0) + " along it"; !strings.Contains(cuts.Caption, said) {
			t.Errorf("%s: %q, want %q", name, cuts.Caption, said)
		}
	}
}
