package wheelset_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/gauge/wheelset"
)

const (
	pass, loose, unstated, fail = wheelset.Pass, wheelset.Loose, wheelset.NotStated, wheelset.Fail
)

var rules = []wheelset.Rule{
	wheelset.NoseClear, wheelset.CheckRailClear, wheelset.BetweenRails, wheelset.FloorClear,
	wheelset.FlangePasses, wheelset.TreadCarried, wheelset.CheckGaugeSum, wheelset.CheckSpanSum, wheelset.WheelCheckSum,
}

type verdict struct {
	v      wheelset.Verdict
	margin float64
}

// The published columns held against themselves; the margins are worked by hand
// from the printed figures.
func TestColumns(t *testing.T) {
	for name, want := range map[string][9]verdict{
		"NMRA No. 1": {{pass, 0}, {pass, 0.11}, {pass, 0.33}, {pass, 0}, {pass, 0.32}, {unstated, 0}, {pass, 0.01}, {unstated, 0}, {unstated, 0}},
		// 31.8 - 2.01 = 29.79, under the 29.9 printed
		"NMRA O": {{pass, 0}, {pass, 0.1}, {pass, 0.4}, {pass, 0}, {pass, 0.51}, {unstated, 0}, {loose, -0.11}, {unstated, 0}, {unstated, 0}},
		// 22.42 - 1.27 = 21.15, under the 21.32 printed
		"NMRA S": {{pass, 0.01}, {pass, 0.05}, {pass, 0.12}, {pass, 0}, {pass, 0.28}, {unstated, 0}, {loose, -0.17}, {unstated, 0}, {unstated, 0}},
		// 44.5 - 3.0 = 41.5 under 42.0; 42.5 - 2.5 = 40.0 over 39.5; H not printed
		"Gauge One association, standard": {{pass, 0}, {pass, 0.5}, {pass, 1}, {unstated, 0}, {pass, 1}, {pass, 1}, {loose, -0.5}, {loose, -0.5}, {unstated, 0}},
	} {
		s, ok := wheelset.StandardNamed(name)
		if !ok {
			t.Errorf("no column %q", name)
			continue
		}
		r, err := s.Audit()
		if err != nil || len(r) != 9 {
			t.Errorf("%s: %d findings, %v", name, len(r), err)
			continue
		}
		for i, rule := range rules {
			f, ok := r.Of(rule)
			if !ok || f.Verdict != want[i].v || float64(f.Margin) != want[i].margin {
				t.Errorf("%s: %v: %v with margin %v; want %v with %v", name, rule, f.Verdict, f.Margin, want[i].v, want[i].margin)
			}
			if (f.Verdict == unstated) != (len(f.Missing) > 0) || (f.Verdict == unstated) != (f.Worst == "") {
				t.Errorf("%s: %+v must name what is missing if and only if it is not stated", name, f)
			}
		}
	}
}

// Gauge One association, standard column, as worked in the tables: the nominal
// figures keep the identities exactly.
func TestNominal(t *testing.T) {
	at := func(v measure.Length) wheelset.Limits { return wheelset.Limits{Min: v, Max: v} }
	r, err := wheelset.Audit(
		wheelset.Track{Gauge: at(45), CheckGauge: at(42), Flangeway: at(3), CheckSpan: at(39)},
		wheelset.Wheels{BackToBack: at(40.5), FlangeWidth: at(1.5), WheelCheck: at(42)})
	if err != nil {
		t.Fatal(err)
	}
	for _, rule := range []wheelset.Rule{wheelset.NoseClear, wheelset.CheckGaugeSum, wheelset.CheckSpanSum, wheelset.WheelCheckSum} {
		if f, _ := r.Of(rule); f.Verdict != pass || f.Margin != 0 {
			t.Errorf("%v; want a pass with margin 0", f)
		}
	}
}

// An invented column whose check gauge is misprinted by 10 mm is reported, and
// not repaired.
func TestMisprint(t *testing.T) {
	s, _ := wheelset.StandardNamed("Gauge One association, standard")
	s.Track.CheckGauge = wheelset.Tolerance(32, 0.5, 0)
	before := s
	r, err := s.Audit()
	if err != nil {
		t.Fatal(err)
	}
	if s != before {
		t.Error("the column was changed")
	}
	for rule, margin := range map[wheelset.Rule]measure.Length{
		wheelset.NoseClear:     -10, // 42.0 against 32.0
		wheelset.CheckGaugeSum: -9,  // G min - F max = 41.5 against 32.5 at the most
	} {
		if f, _ := r.Of(rule); f.Verdict != fail || f.Margin != margin {
			t.Errorf("%v; want a fail by %v", f, margin)
		}
	}
	if w := r.Worst(); w.Rule != wheelset.NoseClear {
		t.Errorf("worst is %v", w)
	}
}

// Each rule broken by itself, 0.1 mm beyond where it holds, with its worst pair
// named.
func TestEachRule(t *testing.T) {
	good := func() (wheelset.Track, wheelset.Wheels) {
		track := wheelset.Track{
			Gauge:      wheelset.Limits{Min: 44.5, Max: 45},
			CheckGauge: wheelset.Limits{Min: 42, Max: 42.5}, CheckSpan: wheelset.Limits{Max: 39.5},
			Flangeway: wheelset.Limits{Min: 2.5, Max: 3}, FlangewayDepth: wheelset.Limits{Min: 2},
		}
		wheels := wheelset.Wheels{
			BackToBack: wheelset.Limits{Min: 40, Max: 40.5}, FlangeWidth: wheelset.Limits{Min: 1, Max: 1.5},
			FlangeDepth: wheelset.Limits{Max: 2}, Width: wheelset.Limits{Min: 5.5, Max: 6},
		}
		return track, wheels
	}
	for _, tc := range []struct {
		rule   wheelset.Rule
		breaks func(*wheelset.Track, *wheelset.Wheels)
		margin measure.Length
		says   string
	}{
		{wheelset.NoseClear, func(p *wheelset.Track, k *wheelset.Wheels) { p.CheckGauge.Min = 41.9 }, -0.1, "B max 40.5 mm + T max 1.5 mm = 42 mm against C min 41.9 mm"},
		{wheelset.NoseClear, func(p *wheelset.Track, k *wheelset.Wheels) { k.WheelCheck.Max = 42.1 }, -0.1, "K max 42.1 mm against C min 42 mm"},
		{wheelset.NoseClear, func(p *wheelset.Track, k *wheelset.Wheels) { p.CheckGauge = wheelset.Limits{} }, -0.5, "against G min 44.5 mm - F max 3 mm = 41.5 mm"},
		{wheelset.CheckRailClear, func(p *wheelset.Track, k *wheelset.Wheels) { k.BackToBack.Min = 39.4 }, -0.1, "S max 39.5 mm against B min 39.4 mm"},
		{wheelset.CheckRailClear, func(p *wheelset.Track, k *wheelset.Wheels) {
			p.CheckSpan, k.BackToBack.Min = wheelset.Limits{}, 39.9
		}, -0.1, "C max 42.5 mm - F min 2.5 mm = 40 mm against"},
		{wheelset.CheckRailClear, func(p *wheelset.Track, k *wheelset.Wheels) {
			p.CheckSpan, p.CheckGauge.Max, k.BackToBack.Min = wheelset.Limits{}, 0, 39.9
		}, -0.1, "G max 45 mm - 2 × F min 2.5 mm = 40 mm against"},
		{wheelset.BetweenRails, func(p *wheelset.Track, k *wheelset.Wheels) { p.Gauge.Min = 43.4 }, -0.1, "B max 40.5 mm + 2 × T max 1.5 mm = 43.5 mm against G min 43.4 mm"},
		{wheelset.BetweenRails, func(p *wheelset.Track, k *wheelset.Wheels) {
			k.FlangeWidth.Max, k.WheelCheck.Max = 0, 42.3
		}, -0.1, "2 × K max 42.3 mm - B min 40 mm = 44.6 mm against G min 44.5 mm"},
		{wheelset.FloorClear, func(p *wheelset.Track, k *wheelset.Wheels) { k.FlangeDepth.Max = 2.1 }, -0.1, "D max 2.1 mm against H min 2 mm"},
		{wheelset.FlangePasses, func(p *wheelset.Track, k *wheelset.Wheels) { p.Flangeway.Min = 1.4 }, -0.1, "T max 1.5 mm against F min 1.4 mm"},
		{wheelset.FlangePasses, func(p *wheelset.Track, k *wheelset.Wheels) {
			k.FlangeWidth.Max, k.WheelCheck.Max = 0, 42.6
		}, -0.1, "K max 42.6 mm - B min 40 mm = 2.6 mm against F min 2.5 mm"},
		{wheelset.TreadCarried, func(p *wheelset.Track, k *wheelset.Wheels) { p.Widened.Max = 46.6 }, -0.1, "widened G max 46.6 mm against B min 40 mm + T min 1 mm + N min 5.5 mm = 46.5 mm"},
		{wheelset.TreadCarried, func(p *wheelset.Track, k *wheelset.Wheels) {
			k.FlangeWidth.Min, k.WheelCheck.Min = 0, 39.4
		}, -0.1, "K min 39.4 mm + N min 5.5 mm = 44.9 mm"},
		{wheelset.WheelCheckSum, func(p *wheelset.Track, k *wheelset.Wheels) { k.WheelCheck.Min = 42.1 }, -0.1, "K min 42.1 mm against B max 40.5 mm + T max 1.5 mm = 42 mm"},
		{wheelset.CheckSpanSum, func(p *wheelset.Track, k *wheelset.Wheels) { p.CheckSpan.Max = 38.9 }, -0.1, "C min 42 mm - F max 3 mm = 39 mm against S max 38.9 mm"},
	} {
		p, k := good()
		before, err := wheelset.Audit(p, k)
		if err != nil {
			t.Fatal(err)
		}
		if f, _ := before.Of(tc.rule); f.Verdict == fail {
			t.Fatalf("%v fails before it is broken", f)
		}
		tc.breaks(&p, &k)
		r, err := wheelset.Audit(p, k)
		if err != nil {
			t.Fatal(err)
		}
		f, _ := r.Of(tc.rule)
		if f.Verdict != fail || f.Margin != tc.margin || !strings.Contains(f.Worst, tc.says) {
			t.Errorf("%v; want a fail by %v that says %q", f, tc.margin, tc.says)
		}
	}
}

// Without any figure nothing is passed, nor with the wrong ends of all.
func TestNotStated(t *testing.T) {
	r, err := wheelset.Audit(wheelset.Track{}, wheelset.Wheels{})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range r {
		if f.Verdict != unstated || len(f.Missing) == 0 || f.Margin != 0 {
			t.Errorf("with nothing stated: %+v", f)
		}
	}
	// Only upper limits: no lower one may be taken as 0.
	p := wheelset.Track{
		Gauge: wheelset.Limits{Max: 45}, CheckGauge: wheelset.Limits{Max: 42}, CheckSpan: wheelset.Limits{Min: 39},
		Flangeway: wheelset.Limits{Max: 3}, FlangewayDepth: wheelset.Limits{Max: 2},
	}
	k := wheelset.Wheels{BackToBack: wheelset.Limits{Max: 40}, WheelCheck: wheelset.Limits{Min: 41}, FlangeWidth: wheelset.Limits{Max: 1}, FlangeDepth: wheelset.Limits{Min: 1}}
	r, err = wheelset.Audit(p, k)
	if err != nil {
		t.Fatal(err)
	}
	for _, rule := range rules[:6] {
		if f, _ := r.Of(rule); f.Verdict != unstated {
			t.Errorf("with the wrong ends stated: %+v", f)
		}
	}
}

// The sum K = B + T at both of its ends, and the widened gauge where it is not
// the wider.
func TestLooseSum(t *testing.T) {
	w := wheelset.Wheels{BackToBack: wheelset.Limits{Min: 40, Max: 40.5}, FlangeWidth: wheelset.Limits{Min: 1, Max: 1.5}, Width: wheelset.Limits{Min: 5}}
	for _, tc := range []struct {
		k      wheelset.Limits
		v      wheelset.Verdict
		margin measure.Length
		says   string
	}{
		{wheelset.Limits{Min: 41, Max: 42}, pass, 0, ""},
		{wheelset.Limits{Min: 41.5}, loose, -0.5, "K min 41.5 mm against B min 40 mm + T min 1 mm = 41 mm"},
		{wheelset.Limits{Max: 41.6}, loose, -0.4, "B max 40.5 mm + T max 1.5 mm = 42 mm against K max 41.6 mm"},
		{wheelset.Limits{Max: 40.9}, fail, -0.1, "B min 40 mm + T min 1 mm = 41 mm against K max 40.9 mm"},
	} {
		w.WheelCheck = tc.k
		r, err := wheelset.Audit(wheelset.Track{Gauge: wheelset.Limits{Min: 44.5, Max: 45}, Widened: wheelset.Limits{Max: 44.8}}, w)
		if err != nil {
			t.Fatal(err)
		}
		if f, _ := r.Of(wheelset.WheelCheckSum); f.Verdict != tc.v || f.Margin != tc.margin || !strings.Contains(f.Worst, tc.says) {
			t.Errorf("K %v: %v; want %v by %v that says %q", tc.k, f, tc.v, tc.margin, tc.says)
		}
		if f, _ := r.Of(wheelset.TreadCarried); f.Margin != 1 || !strings.Contains(f.Worst, "G max 45 mm against") {
			t.Errorf("%v; want 40 + 1 + 5 against the wider gauge, 45", f)
		}
	}
}

func TestCarriesFlanges(t *testing.T) {
	r, err := wheelset.Audit(wheelset.Track{CarriesFlanges: true}, wheelset.Wheels{})
	if _, ok := r.Of(wheelset.FloorClear); ok || err != nil || len(r) != 8 {
		t.Errorf("flange depth is held against the floor where flanges run on it: %v, %v", r, err)
	}
}

// Widening any tolerance never makes a margin larger or a verdict better.
func TestMonotone(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 6))
	between := func(lo, hi float64) wheelset.Limits {
		a := lo + (hi-lo)*rnd.Float64()
		b := a + (hi-a)*rnd.Float64()
		return wheelset.Limits{Min: measure.Length(a), Max: measure.Length(b)}
	}
	for range 2000 {
		p := wheelset.Track{
			Gauge: between(43, 46), CheckGauge: between(41, 43), CheckSpan: between(38, 40),
			Flangeway: between(2, 4), FlangewayDepth: between(1, 3),
		}
		k := wheelset.Wheels{
			BackToBack: between(38, 41), WheelCheck: between(40, 43), FlangeWidth: between(0.5, 2),
			FlangeDepth: between(1, 3), Width: between(3, 7),
		}
		all := func(p *wheelset.Track, k *wheelset.Wheels) []*wheelset.Limits {
			return []*wheelset.Limits{
				&p.Gauge, &p.CheckGauge, &p.CheckSpan, &p.Flangeway, &p.FlangewayDepth,
				&k.BackToBack, &k.WheelCheck, &k.FlangeWidth, &k.FlangeDepth, &k.Width,
			}
		}
		if rnd.IntN(2) == 0 { // go by what follows from others
			p.CheckGauge, p.CheckSpan, k.WheelCheck = wheelset.Limits{}, wheelset.Limits{}, wheelset.Limits{}
		}
		p2, k2 := p, k
		m := all(&p2, &k2)[rnd.IntN(10)]
		if !m.Stated() {
			continue
		}
		m.Min -= measure.Length(0.4 * rnd.Float64())
		m.Max += measure.Length(0.4 * rnd.Float64())
		before, err1 := wheelset.Audit(p, k)
		after, err2 := wheelset.Audit(p2, k2)
		if err1 != nil || err2 != nil {
			t.Fatal(err1, err2)
		}
		for i := range before[:6] {
			if after[i].Margin > before[i].Margin || after[i].Verdict < before[i].Verdict {
				t.Fatalf("widened to %v:\n%v\nbecame\n%v", *m, before[i], after[i])
			}
		}
	}
}

// The worst corner is the worst: no sample from within the limits has a smaller
// margin, and some sample at the corners has just that.
func TestWorstCorner(t *testing.T) {
	s, _ := wheelset.StandardNamed("Gauge One association, standard")
	s.Track.FlangewayDepth = wheelset.Limits{Min: 2.2, Max: 2.6}
	s.Wheels.FlangeDepth.Min = 1
	r, err := s.Audit()
	if err != nil {
		t.Fatal(err)
	}
	rnd := rand.New(rand.NewPCG(7, 8))
	pick := func(m wheelset.Limits) float64 {
		return []float64{float64(m.Min), float64(m.Max), float64(m.Min) + rnd.Float64()*float64(m.Max-m.Min)}[rnd.IntN(3)]
	}
	seen := make([]float64, 5)
	for i := range seen {
		seen[i] = math.Inf(1)
	}
	for range 10000 {
		g, c, h, f := pick(s.Track.Gauge), pick(s.Track.CheckGauge), pick(s.Track.FlangewayDepth), pick(s.Track.Flangeway)
		b, w, d := pick(s.Wheels.BackToBack), pick(s.Wheels.FlangeWidth), pick(s.Wheels.FlangeDepth)
		for i, m := range []float64{c - (b + w), b - 39.5, g - b - 2*w, h - d, f - w} {
			seen[i] = min(seen[i], m)
		}
	}
	for i, least := range seen {
		if f, _ := r.Of(rules[i]); !(math.Abs(float64(f.Margin)-least) <= 1e-6) {
			t.Errorf("%v; the least of 10000 samples is %v", f, least)
		}
	}
}

func TestAuditRefuses(t *testing.T) {
	nan := measure.Length(math.NaN())
	_, err := wheelset.Audit(
		wheelset.Track{
			Gauge: wheelset.Limits{Min: 46, Max: 45}, CheckGauge: wheelset.Limits{Min: nan}, CheckSpan: wheelset.Limits{Max: -1},
			Flangeway: wheelset.Limits{Max: measure.Length(math.Inf(1))}, FlangewayDepth: wheelset.Limits{Min: 3001}, Widened: wheelset.Limits{Min: -2},
		},
		wheelset.Wheels{
			BackToBack: wheelset.Limits{Min: 2, Max: 1}, WheelCheck: wheelset.Limits{Max: nan},
			FlangeWidth: wheelset.Reading(0.2, 0.5), FlangeDepth: wheelset.Limits{Min: nan}, Width: wheelset.Limits{Min: -1},
		})
	if !errors.Is(err, measure.ErrInput) {
		t.Fatalf("got %v, want ErrInput", err)
	}
	lines := strings.Split(err.Error(), "\n")
	for _, field := range []string{
		"gauge min 46 mm: must not be above the max, 45 mm", "check gauge min", "span over check rails max", "flangeway max", "flangeway depth min", "widened gauge min",
		"back to back min 2 mm", "wheel check gauge max", "flange width min", "flange depth min", "wheel width min",
	} {
		if !slices.ContainsFunc(lines, func(s string) bool { return strings.HasPrefix(s, "wheelset: "+field) }) {
			t.Errorf("no fault named %q in\n%v", field, err)
		}
	}
}

func TestText(t *testing.T) {
	for m, want := range map[wheelset.Limits]string{
		{}: "not stated", {Min: 42.16}: "at least 42.16 mm", {Max: 39.5}: "at most 39.5 mm",
		{Min: 44.5, Max: 45}: "44.5 to 45 mm", {Min: 2, Max: 2}: "2 mm", wheelset.Reading(40.2, 0.1): "40.1 to 40.3 mm",
	} {
		if m.String() != want {
			t.Errorf("%#v prints %q, want %q", m, m, want)
		}
	}
	for _, r := range rules {
		if r.String() == "no rule" || r.Formula() == "" {
			t.Errorf("rule %d has no name or formula", r)
		}
	}
	if (wheelset.Report{}).Worst().Verdict != 0 || wheelset.Rule(0).String() != "no rule" || wheelset.Verdict(0).String() != "no verdict" {
		t.Error("zero values must say that they are none")
	}
}

func TestLeastGauge(t *testing.T) {
	w := wheelset.Wheels{BackToBack: wheelset.Limits{Max: 40.5}, FlangeWidth: wheelset.Limits{Max: 1.5}}
	// Versine of a 200 mm chord on the outer rail, R 2000 + 43.5/2: v(2ρ - v) = 100².
	g, err := wheelset.LeastGauge(w, 200, 2000)
	v, rho := float64(g)-43.5, 2021.75
	if err != nil || !(math.Abs(v*(2*rho-v)-10000) <= 1e-6) {
		t.Errorf("LeastGauge = %v, %v; its versine %v is not that of the chord", g, err, v)
	}
	if far, err := wheelset.LeastGauge(w, 200, 1e9); err != nil || float64(far)-43.5 > 1e-5 {
		t.Errorf("on a flat curve LeastGauge = %v, %v; want 43.5", far, err)
	}
	for _, tc := range []struct {
		w         wheelset.Wheels
		b, r      measure.Length
		says      string
		faultsToo int
	}{
		{w, 0, -1, "wheelbase", 2},
		{w, 400, 200, "diameter, 400 mm", 1},
		{wheelset.Wheels{}, 100, 1000, "flange width max: must be stated", 2},
	} {
		if _, err := wheelset.LeastGauge(tc.w, tc.b, tc.r); !errors.Is(err, measure.ErrInput) || !strings.Contains(err.Error(), tc.says) ||
			strings.Count(err.Error(), "\n")+1 != tc.faultsToo {
			t.Errorf("LeastGauge(%v, %v): %v; want %d faults and %q", tc.b, tc.r, err, tc.faultsToo, tc.says)
		}
	}
}

// A visitor's wheels, measured to 0.1 mm, on the track of a club.
func ExampleAudit() {
	club, _ := wheelset.StandardNamed("Gauge One association, standard")
	visitor := wheelset.Wheels{
		BackToBack:  wheelset.Reading(39.4, 0.1),
		FlangeWidth: wheelset.Reading(1.4, 0.1),
		FlangeDepth: wheelset.Reading(1.8, 0.1),
		Width:       wheelset.Reading(6, 0.1),
	}
	report, err := wheelset.Audit(club.Track, visitor)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range report[:4] {
		fmt.Println(f)
	}
	// Output:
	// flange clear of the crossing nose: pass, margin 1 mm (B max 39.5 mm + T max 1.5 mm = 41 mm against C min 42 mm)
	// wheel backs clear of the check rails: fail, margin -0.2 mm (S max 39.5 mm against B min 39.3 mm)
	// both flanges between the rails: pass, margin 2 mm (B max 39.5 mm + 2 × T max 1.5 mm = 42.5 mm against G min 44.5 mm)
	// flange clear of the flangeway floor: not stated, wants flangeway depth min
}

func FuzzAudit(f *testing.F) {
	f.Add(44.5, 45.0, 42.0, 3.0, 40.0, 40.5, 1.5)
	f.Add(0.0, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0)
	f.Add(math.NaN(), -1.0, math.Inf(1), 1e300, 5e-324, 3000.0, 2.0)
	f.Fuzz(func(t *testing.T, gMin, gMax, c, fl, bMin, bMax, tMax float64) {
		p := wheelset.Track{Gauge: wheelset.Limits{Min: measure.Length(gMin), Max: measure.Length(gMax)}, CheckGauge: wheelset.Limits{Min: measure.Length(c)}, Flangeway: wheelset.Limits{Max: measure.Length(fl)}}
		k := wheelset.Wheels{BackToBack: wheelset.Limits{Min: measure.Length(bMin), Max: measure.Length(bMax)}, FlangeWidth: wheelset.Limits{Max: measure.Length(tMax)}}
		r, err := wheelset.Audit(p, k)
		if err != nil {
			if !errors.Is(err, measure.ErrInput) {
				t.Fatalf("%v is not ErrInput", err)
			}
			return
		}
		for _, x := range r {
			if m := float64(x.Margin); math.IsNaN(m) || math.IsInf(m, 0) || (x.Verdict == pass && m < 0) || (x.Verdict == fail && m >= 0) {
				t.Fatalf("%v", x)
			}
		}
	})
}

// A published column that does not keep to its own drawing is reported: at the
// least gauge the widest flangeway leaves less than the check gauge asks.
func ExampleStandard_Audit() {
	column, _ := wheelset.StandardNamed("NMRA O")
	report, err := column.Audit()
	if err != nil {
		fmt.Println(err)
		return
	}
	f, _ := report.Of(wheelset.CheckGaugeSum)
	fmt.Println(f.Rule.Formula(), f.Verdict, f.Margin.Millimetres())
	fmt.Println(f.Worst)
	// Output:
	// C = G - F loose -0.11
	// C min 29.9 mm against G min 31.8 mm - F max 2.01 mm = 29.79 mm
}

func BenchmarkAudit(b *testing.B) {
	s, _ := wheelset.StandardNamed("Gauge One association, standard")
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.Audit(); err != nil {
			b.Fatal(err)
		}
	}
}
