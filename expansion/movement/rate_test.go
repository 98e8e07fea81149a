package movement_test

import (
	"math"
	"testing"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/expansion"
	"example.org/fourfoot/expansion/joints"
	"example.org/fourfoot/expansion/movement"
	"example.org/fourfoot/gauge/measure"
)

// changed returns the heat with one input larger by d of its unit; ok is false
// where the input is no part of it.
func changed(h joints.Heat, input string, low, high expansion.State, d float64) (joints.Heat, bool) {
	h.Climate = append([]expansion.State(nil), h.Climate...)
	k := measure.Temperature(d)
	state := func(s expansion.State, rail, base measure.Temperature) {
		for i := range h.Climate {
			if h.Climate[i] == s {
				h.Climate[i].Rail += rail
				h.Climate[i].Base += base
				return
			}
		}
	}
	switch input {
	case "rail temperature at laying":
		h.Laying.Rail += k
	case "base temperature at laying":
		h.Laying.Base += k
	case "lowest state's rail temperature":
		state(low, k, 0)
	case "lowest state's base temperature":
		state(low, 0, k)
	case "highest state's rail temperature", "governing state's rail temperature":
		state(high, k, 0)
	case "highest state's base temperature", "governing state's base temperature":
		state(high, 0, k)
	case "rail expansion":
		h.Rail += measure.Expansion(d * 1e-6)
	case "base expansion":
		h.Base += measure.Expansion(d * 1e-6)
	case "least gap":
		h.Least += measure.Length(d)
	case "widest gap for wheels":
		h.Widest += measure.Length(d)
	case "joiner length":
		h.Joiner.Length += measure.Length(d)
	case "joiner engagement":
		h.Joiner.Engagement += measure.Length(d)
	default:
		return h, false
	}
	return h, true
}

// What a run and a joint lack, and what they are made of, change by their
// rates: gaps laid too tight, too wide, and both at one joint.
func TestLacksRates(t *testing.T) {
	line := straight(14_000)
	joiner := expansion.Joiner{Length: 12, Engagement: 5}
	deck := movement.Base{Name: "deck", From: 2000, To: 11_000, Fixed: 4000}
	checked := map[string]int{}
	for name, c := range map[string]struct {
		gap, more float64 // mm, and mm for each joint further on
		heat      func(*joints.Heat)
		bases     []movement.Base
	}{
		"tight":        {gap: 0.2},
		"wide":         {gap: 3.9},
		"joiner":       {gap: 2.3, heat: func(h *joints.Heat) { h.Joiner = joiner }},
		"both":         {gap: 0.4, heat: func(h *joints.Heat) { h.Widest = 0.8 }},
		"mixed":        {gap: 0.1, more: 0.25},
		"on a deck":    {gap: 0.3, bases: []movement.Base{deck}},
		"wide on deck": {gap: 3.8, bases: []movement.Base{deck}},
	} {
		h := heat(60e-6)
		for i := range h.Climate { // no ties
			h.Climate[i].Rail += measure.Temperature(i) / 10
			h.Climate[i].Base -= measure.Temperature(i) / 10
		}
		wide := h
		wide.Widest = 20
		p := must(joints.New(line, spec(&wide)))
		if c.heat != nil {
			c.heat(&h)
		}
		for i := range p.Joints {
			p.Joints[i].Gap = measure.Length(c.gap + c.more*float64(i%6))
		}
		gaps := func(d measure.Length, which func(joints.Joint) bool) joints.Plan {
			q := p
			q.Joints = append([]joints.Joint(nil), p.Joints...)
			for i := range q.Joints {
				if which(q.Joints[i]) {
					q.Joints[i].Gap += d
				}
			}
			return q
		}
		m := must(movement.New(line, p, h, c.bases...))
		try := func(what string, rates []expansion.Rate[measure.Length], at movement.Range, mine func(joints.Joint) bool, value func(movement.Plan) measure.Length) {
			t.Helper()
			seen := map[string]bool{}
			for _, x := range rates {
				if seen[x.Input] {
					t.Errorf("%s, %s: %s twice", name, what, x.Input)
				}
				seen[x.Input] = true
				const d = 1e-4
				up, ok := changed(h, x.Input, at.AtLow, at.AtHigh, d)
				down, _ := changed(h, x.Input, at.AtLow, at.AtHigh, -d)
				more, less := p, p
				switch x.Input {
				case "gap at laying", "gaps at laying":
					more, less, ok = gaps(d, mine), gaps(-d, mine), true
				case "length of rail", "length of base":
					continue // see TestRangeRates
				}
				if !ok {
					t.Errorf("%s, %s: no input %q", name, what, x.Input)
				}
				want := float64(value(must(movement.New(line, more, up, c.bases...)))-value(must(movement.New(line, less, down, c.bases...)))) / (2 * d)
				if math.Abs(float64(x.By)-want) > 1e-7 {
					t.Errorf("%s, %s per %s: %v, by differences %v", name, what, x.Input, x.By, want)
				}
				if want != 0 {
					checked[what+" "+x.Input]++
				}
			}
		}
		for i, j := range m.Joints {
			try("joint "+j.Verdict.String(), j.LacksRates(h), j.Gap,
				func(q joints.Joint) bool { return q.Mark == j.Mark && q.Rail == p.Joints[i].Rail },
				func(m movement.Plan) measure.Length { return m.Joints[i].Lacks })
			if (j.Verdict == movement.Absorbs) != (j.LacksRates(h) == nil) {
				t.Errorf("%s: %+v has rates %v", name, j, j.LacksRates(h))
			}
		}
		for i, r := range m.Runs {
			mine := func(q joints.Joint) bool { return q.Run == r.Run && q.Rail == r.Rail }
			try("shut", r.ShutRates(h), r.Closes, mine, func(m movement.Plan) measure.Length { return m.Runs[i].Shut })
			try("open", r.OpenRates(h), r.Closes, mine, func(m movement.Plan) measure.Length { return m.Runs[i].Open })
			try("room", r.RoomRates(), r.Closes, mine, func(m movement.Plan) measure.Length { return m.Runs[i].Room })
			try("reach", r.ReachRates(h), r.Closes, mine, func(m movement.Plan) measure.Length { return m.Runs[i].Reach })
			try("lacks", r.LacksRates(h), r.Closes, mine, func(m movement.Plan) measure.Length { return m.Runs[i].Lacks })
			if (r.Lacks == 0) != (r.LacksRates(h) == nil) {
				t.Errorf("%s: %+v has rates %v", name, r, r.LacksRates(h))
			}
		}
	}
	for _, k := range []string{
		"joint shuts least gap", "joint parts widest gap for wheels", "joint shuts and parts rail expansion", "joint parts joiner engagement",
		"shut base temperature at laying", "open lowest state's rail temperature", "room gaps at laying", "reach joiner engagement",
		"lacks gaps at laying", "lacks least gap", "lacks widest gap for wheels", "lacks joiner length", "lacks highest state's rail temperature", "lacks lowest state's base temperature",
	} {
		if checked[k] == 0 {
			t.Errorf("%s: never checked", k)
		}
	}
}

// Every rate of every panel end, turnout end, base and joint is the difference
// that a changed plan shows.
func TestRangeRates(t *testing.T) {
	h := heat(60e-6)
	h.Widest = 12
	for i := range h.Climate { // no ties
		h.Climate[i].Rail += measure.Temperature(i) / 10
		h.Climate[i].Base -= measure.Temperature(i) / 10
	}
	line := straight(14_000)
	s := spec(&h)
	p := must(joints.New(line, s))
	deck := movement.Base{Name: "deck", From: 2000, To: 11_000, Fixed: 4000}
	for _, bases := range [][]movement.Base{nil, {deck}} {
		ranges := func(h joints.Heat, p joints.Plan) []movement.Range {
			m := must(movement.New(line, p, h, bases...))
			var out []movement.Range
			for _, j := range m.Joints {
				out = append(out, j.Gap)
			}
			for _, q := range m.Panels {
				out = append(out, q.Fixed, q.Back, q.Ahead)
			}
			for _, e := range m.Ends {
				out = append(out, e.Move)
			}
			for _, b := range m.Beds {
				out = append(out, b.From, b.To)
			}
			return out
		}
		is := ranges(h, p)
		m := must(movement.New(line, p, h, bases...))
		checked := map[string]int{}
		for i, r := range is {
			low, high := r.Rates(h)
			if i < len(m.Joints) {
				low, high = m.Joints[i].GapRates(h)
			}
			for kind, rates := range map[string][]expansion.Rate[measure.Length]{"low": low, "high": high, "size": r.SizeRates(h)} {
				value := func(r movement.Range) float64 {
					return float64(map[string]measure.Length{"low": r.Low, "high": r.High, "size": r.Size()}[kind])
				}
				for _, x := range rates {
					const d = 1e-3
					up, ok := changed(h, x.Input, r.AtLow, r.AtHigh, d)
					down, _ := changed(h, x.Input, r.AtLow, r.AtHigh, -d)
					longer := p
					var want float64
					switch {
					case ok && (r.Rail != 0 || r.Base != 0):
						want = (value(ranges(up, p)[i]) - value(ranges(down, p)[i])) / (2 * d)
					case x.Input == "gap at laying":
						longer.Joints = append([]joints.Joint(nil), p.Joints...)
						longer.Joints[i].Gap += d
						want = (value(ranges(h, longer)[i]) - value(r)) / d
					case x.Input == "length of rail" && bases == nil && i < len(m.Joints):
						// Over the base, base and rail grow longer together.
						longer.Joints = append([]joints.Joint(nil), p.Joints...)
						longer.Joints[i].Before += d
						want = (value(ranges(h, longer)[i]) - value(r)) / d
						for _, y := range rates {
							if y.Input == "length of base" {
								x.By += y.By
							}
						}
					default:
						continue
					}
					if math.Abs(float64(x.By)-want) > 1e-8 {
						t.Errorf("range %d, %s per %s: %v, by differences %v", i, kind, x.Input, x.By, want)
					}
					if want != 0 {
						checked[kind+" "+x.Input]++
					}
				}
			}
		}
		for _, k := range []string{"low gap at laying", "high rail expansion", "low base expansion", "size rail expansion", "size base expansion", "low lowest state's rail temperature", "high highest state's base temperature", "low rail temperature at laying", "high base temperature at laying", "size lowest state's base temperature"} {
			if checked[k] == 0 {
				t.Errorf("%s: never checked", k)
			}
		}
		if bases == nil && checked["low length of rail"]+checked["high length of rail"] == 0 {
			t.Error("lengths never checked")
		}
	}
}

// A Range's lengths are what the movement is made of.
func TestRangeLengths(t *testing.T) {
	h := heat(60e-6)
	h.Widest = 12
	line := straight(14_000)
	s := spec(&h)
	p := must(joints.New(line, s))
	for _, bases := range [][]movement.Base{nil, {{Name: "deck", From: 2000, To: 11_000, Fixed: 4000}}} {
		m := must(movement.New(line, p, h, bases...))
		for i, j := range m.Joints {
			of := func(s expansion.State) measure.Length {
				return p.Joints[i].Gap + h.Rail.Of(j.Gap.Rail, s.Rail.Sub(h.Laying.Rail)) + h.Base.Of(j.Gap.Base, s.Base.Sub(h.Laying.Base))
			}
			if math.Abs(float64(of(j.Gap.AtLow)-j.Gap.Low)) > 1e-9 || math.Abs(float64(of(j.Gap.AtHigh)-j.Gap.High)) > 1e-9 {
				t.Errorf("joint %s: %+v, by its lengths %v and %v", j.Mark, j.Gap, of(j.Gap.AtLow), of(j.Gap.AtHigh))
			}
		}
	}
}

func TestSidewaysRates(t *testing.T) {
	lines := map[string]*curve.Alignment{
		"oval": oval(4000, 2500), "straight": straight(5000),
		"ring": must(curve.NewClosed(curve.Pose{}, 1e-6, 1e-9, must(curve.NewArc(3000, 2*math.Pi, curve.Left)))),
	}
	for _, alpha := range []measure.Expansion{5e-6, 60e-6} {
		h := heat(alpha)
		for name, line := range lines {
			for i, s := range must(movement.Seized(line, h)) {
				rates := must(s.Rates(h))
				found := 0
				for _, x := range rates {
					const d = 1e-3
					up, ok := changed(h, x.Input, s.At, s.At, d)
					down, _ := changed(h, x.Input, s.At, s.At, -d)
					if !ok {
						continue
					}
					found++
					want := float64(must(movement.Seized(line, up))[i].Allowance-must(movement.Seized(line, down))[i].Allowance) / (2 * d)
					if math.Abs(float64(x.By)-want) > 1e-5*(1+math.Abs(want)) || want == 0 {
						t.Errorf("%s, stretch %d, per %s: %v, by differences %v", name, i, x.Input, x.By, want)
					}
				}
				if found != 6 || len(rates) == found {
					t.Errorf("%s: %d rates of heat in %+v", name, found, rates)
				}
				if !s.Curve {
					longer := must(movement.Seized(straight(s.Length+1e-3), h))[0].Allowance
					if want := float64(longer-s.Allowance) / 1e-3; rates[0].Input != "length" || math.Abs(float64(rates[0].By)-want) > 1e-6 {
						t.Errorf("straight: %+v, want %v", rates[0], want)
					}
				}
			}
		}
	}
	h := heat(0)
	h.Laying.Rail = 48
	s := must(movement.Seized(straight(5000), h))[0]
	if r := must(s.Rates(h)); r != nil || s.Allowance != 0 || s.Strain != 0 {
		t.Errorf("laid at the hottest: %+v, %+v", s, r)
	}
}

// The base counts: the strain is that of the rail less that of the base, so the
// colder base of two equally hot rails governs, and a base that moves more than
// the rail has its tight end in winter.
func TestSeizedOnAMovingBase(t *testing.T) {
	bow := func(strain float64) float64 { return 2 / math.Pi * 5000 * math.Sqrt(strain) }
	h := heat(12e-6)
	s := must(movement.Seized(straight(5000), h))[0]
	// rail 18 to 48, base 16 to -10
	if want := 19e-6*30 + 12e-6*26; math.Abs(s.Strain-want) > 1e-12 || math.Abs(float64(s.Allowance)-bow(want)) > 1e-9 || s.At.Rail != 48 || s.At.Base != -10 {
		t.Errorf("%+v, want a strain of %v in the corner of hot rail and cold base", s, want)
	}
	h = heat(90e-6)
	h.Climate = []expansion.State{{Name: "July", Rail: 48, Base: 40}, {Name: "January", Rail: -10, Base: -10}}
	s = must(movement.Seized(straight(5000), h))[0]
	if want := 90e-6*26 - 19e-6*28; s.At.Name != "January" || math.Abs(float64(s.Allowance)-bow(want)) > 1e-9 {
		t.Errorf("%+v, want %v in January", s, bow(want))
	}
}
