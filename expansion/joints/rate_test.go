package joints_test

import (
	"math"
	"testing"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/expansion"
	"example.org/fourfoot/expansion/joints"
	"example.org/fourfoot/gauge/measure"
)

func by(rates []expansion.Rate[measure.Length], input string) measure.Length {
	for _, r := range rates {
		if r.Input == input {
			return r.By
		}
	}
	return 0
}

// fixed is a line on a grade on which no run between two objects is longer
// than a piece, so that all joints stay when an input changes.
func fixed() (*curve.Alignment, joints.Spec) {
	line := must(curve.New(curve.Pose{}, must(curve.NewStraight(1000)), must(curve.NewArc(2500, 1.3, curve.Left)), must(curve.NewArc(2500, 0.2, curve.Right))))
	return line, joints.Spec{
		Level: must(profile.NewLevel(profile.Point{}, profile.Point{Chainage: 2500, Level: 100}, profile.Point{Chainage: line.Length()})),
		Stock: []joints.Stock{{Length: 1800}}, RailCentres: 40, Gap: 1,
		Objects: []joints.Object{{Name: "points", From: 1500, To: 1900}, {Name: "more", From: 3300, To: 3500}},
		Anchors: []joints.Anchor{{Name: "wall", At: 2200}, {Name: "kerb", At: 700}},
	}
}

// What a millimetre of the rail centres, of a gap or of an anchor's place is
// worth: the pieces of another plan with one input moved.
func TestPieceRates(t *testing.T) {
	line, s := fixed()
	p := must(joints.New(line, s))
	wide, open, anchor := s, s, s
	const d = 1e-3
	wide.RailCentres += d
	open.Gap += d
	anchor.Anchors = []joints.Anchor{{Name: "wall", At: 2200 + d}, {Name: "kerb", At: 700 + d}}
	w, o, a := must(joints.New(line, wide)), must(joints.New(line, open)), must(joints.New(line, anchor))
	anchored, middle := 0, 0
	for i, q := range p.Pieces {
		near := func(what string, got, from, to measure.Length) {
			if want := (to - from) / d; math.Abs(float64(got-want)) > 1e-6 {
				t.Errorf("piece %s, %s: %v, want %v", q.Mark, what, got, want)
			}
		}
		r := q.Rates()
		back, ahead := q.FreeRates()
		near("length by centres", by(r, "rail centres"), q.Length, w.Pieces[i].Length)
		near("length by gaps", by(r, "gap at its beginning")+by(r, "gap at its end"), q.Length, o.Pieces[i].Length)
		near("trim", -by(r, "rail centres"), q.Trim, w.Pieces[i].Trim)
		near("back by centres", by(back, "rail centres"), q.Back, w.Pieces[i].Back)
		near("back by its gap", by(back, "gap at its beginning"), q.Back, o.Pieces[i].Back)
		near("back by the anchor", by(back, "chainage of its anchor"), q.Back, a.Pieces[i].Back)
		near("ahead by centres", by(ahead, "rail centres"), q.Ahead, w.Pieces[i].Ahead)
		near("ahead by its gap", by(ahead, "gap at its end"), q.Ahead, o.Pieces[i].Ahead)
		near("ahead by the anchor", by(ahead, "chainage of its anchor"), q.Ahead, a.Pieces[i].Ahead)
		if q.Anchor == "" {
			middle++
		} else {
			anchored++
		}
	}
	if anchored != 4 || middle != 2 {
		t.Errorf("%d pieces with an anchor, %d without", anchored, middle)
	}
	// Along a total its pieces add up.
	sum := measure.Length(0)
	for _, q := range p.Pieces {
		if q.Rail == curve.Left {
			sum += by(q.Rates(), "rail centres")
		}
	}
	if want := (w.Left.Pieces - p.Left.Pieces) / d; math.Abs(float64(sum-want)) > 1e-6 {
		t.Errorf("all left pieces: %v, want %v", sum, want)
	}
	if a, b := p.Pieces[0].Rates(), p.Pieces[1].Rates(); a[1].By != 0 || a[2].By != -1 || b[1].By != -1 || b[2].By != -1 {
		t.Errorf("shares of the gaps: %v and %v", a, b)
	}
}

// What a kelvin is worth at a joint: its permitted gaps in a plan for another
// day. The pieces change with the gaps, which moves them by less than 1e-4 of
// that.
func TestJointRates(t *testing.T) {
	line, s := fixed()
	s.Heat = brass()
	p := must(joints.New(line, s))
	warm := s
	h := *s.Heat
	h.Laying.Rail++
	warm.Heat = &h
	w := must(joints.New(line, warm))
	for i, j := range p.Joints {
		least, most, err := j.Rates(*s.Heat)
		if err != nil {
			t.Fatal(err)
		}
		for what, v := range map[string][2]measure.Length{
			"least": {by(least, "rail temperature today"), w.Joints[i].Least - j.Least},
			"most":  {by(most, "rail temperature today"), w.Joints[i].Most - j.Most},
		} {
			if v[0] >= 0 || math.Abs(float64(v[0]/v[1]-1)) > 1e-4 {
				t.Errorf("joint %s, %s: %v, want %v", j.Mark, what, v[0], v[1])
			}
		}
	}
}

// A length of flexible track is two pieces.
func TestFlexLengthRates(t *testing.T) {
	line, s := fixed()
	wide := s
	wide.RailCentres++
	f, _, err := joints.Flexible(line, s)
	if err != nil {
		t.Fatal(err)
	}
	g, _, err := joints.Flexible(line, wide)
	if err != nil {
		t.Fatal(err)
	}
	for i := range f {
		left, right := f[i].Rates()
		for what, v := range map[string][2]measure.Length{
			"left": {by(left, "rail centres"), g[i].Left - f[i].Left}, "right": {by(right, "rail centres"), g[i].Right - f[i].Right},
			"trim": {by(right, "rail centres") - by(left, "rail centres"), (g[i].Trim - f[i].Trim) * measure.Length(f[i].Inner)},
		} {
			if math.Abs(float64(v[0]-v[1])) > 1e-9 {
				t.Errorf("length %d, %s: %v, want %v", i+1, what, v[0], v[1])
			}
		}
	}
}
