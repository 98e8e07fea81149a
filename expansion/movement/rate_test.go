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
	default:
		return h, false
	}
	return h, true
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
