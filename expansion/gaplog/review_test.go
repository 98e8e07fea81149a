package gaplog_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"testing"
	"time"

	"example.org/fourfoot/expansion"
	"example.org/fourfoot/expansion/gaplog"
	"example.org/fourfoot/gauge/measure"
)

// Six joints of one run, brass panels of 2 m on a base that stays.
func run() []gaplog.Joint {
	var out []gaplog.Joint
	for i := range 6 {
		out = append(out, gaplog.Joint{
			Mark: fmt.Sprintf("L%d", i+1), Run: 1, Joint: expansion.EqualPanels(2000, 19e-6, 0), Gap: 2, Laid: expansion.State{Rail: 15},
		})
	}
	return out
}

func day(year int, month time.Month, d int) time.Time {
	return time.Date(year, month, d, 12, 0, 0, 0, time.UTC)
}

// Four readings a year over three years, read with an error of up to half of
// what the settings allow, after distort has done its worst to each.
func season(r *rand.Rand, joints []gaplog.Joint, distort func(joint int, predicted, years float64) float64) []gaplog.Reading {
	var out []gaplog.Reading
	start := day(2021, 1, 20)
	for k := range 12 {
		date := start.AddDate(0, 3*k, 0)
		rail := measure.Temperature([]float64{-4, 12, 38, 17}[k%4] + 3*r.NormFloat64())
		for i, j := range joints {
			p := float64(j.Predict(expansion.State{Rail: rail}))
			years := date.Sub(start).Hours() / 24 / 365.25
			g := distort(i, p, years) + 0.1*(2*r.Float64()-1)
			out = append(out, gaplog.Reading{Joint: j.Mark, Date: date, Rail: rail, Gap: measure.Length(max(g, 0))})
		}
	}
	return out
}

func TestReview(t *testing.T) {
	r := rand.New(rand.NewPCG(41, 42))
	joints := run()
	for _, c := range []struct {
		name    string
		distort func(joint int, p, years float64) float64
		want    map[int]gaplog.Verdict // of joints that do not fit
		walks   map[string]float64
	}{
		{"all well", func(_ int, p, _ float64) float64 { return p }, nil, nil},
		{"third seized", func(i int, p, _ float64) float64 {
			if i == 2 {
				return 2 + 0.05*(p-2)
			}
			return p
		}, map[int]gaplog.Verdict{2: gaplog.Seized}, nil},
		{"third stiff", func(i int, p, _ float64) float64 {
			if i == 2 {
				return 2 + 0.5*(p-2)
			}
			return p
		}, map[int]gaplog.Verdict{2: gaplog.Stiff}, nil},
		{"fourth creeps", func(i int, p, y float64) float64 {
			if i == 3 {
				return p + 0.3*y
			}
			return p
		}, map[int]gaplog.Verdict{3: gaplog.Creeps}, nil},
		{"the panel between L2 and L3 has walked on by 0.9", func(i int, p, _ float64) float64 {
			switch i {
			case 1:
				return p + 0.9
			case 2:
				return p - 0.9
			}
			return p
		}, map[int]gaplog.Verdict{1: gaplog.Off, 2: gaplog.Off}, map[string]float64{"L2": 0.9}},
	} {
		rep, err := gaplog.Review(joints, season(r, joints, c.distort), gaplog.Settings{})
		if err != nil {
			t.Fatal(err)
		}
		for i, f := range rep.Findings {
			want, ok := c.want[i]
			if !ok {
				want = gaplog.Fits
			}
			if f.Verdict != want || f.Readings != 12 {
				t.Errorf("%s: %+v, want %v", c.name, f, want)
			}
		}
		if c.walks != nil {
			if len(rep.Walks) != len(c.walks) {
				t.Errorf("%s: walks %+v", c.name, rep.Walks)
			}
			for _, w := range rep.Walks {
				if d := math.Abs(float64(w.By) - c.walks[w.From]); d > float64(w.Error) {
					t.Errorf("%s: %+v, want %v", c.name, w, c.walks[w.From])
				}
			}
		}
	}
}

// Without reading error the share and the drift put in come out.
func TestExact(t *testing.T) {
	joints := run()[:1]
	for _, share := range []float64{0, 0.4, 1} {
		for _, drift := range []float64{-0.2, 0, 0.1} {
			var readings []gaplog.Reading
			for k := range 9 {
				rail := measure.Temperature([]float64{-5, 20, 40}[k%3])
				date := day(2022, 1, 1).AddDate(0, 4*k, 3*k*k)
				years := date.Sub(day(2022, 1, 1)).Hours() / 24 / 365.25
				p := float64(joints[0].Predict(expansion.State{Rail: rail}))
				readings = append(readings, gaplog.Reading{Joint: "L1", Date: date, Rail: rail, Gap: measure.Length(2 + share*(p-2) + drift*years)})
			}
			rep, err := gaplog.Review(joints, readings, gaplog.Settings{})
			if err != nil {
				t.Fatal(err)
			}
			f := rep.Findings[0]
			if math.Abs(f.Share-share) > 1e-9 || math.Abs(float64(f.Drift)-drift) > 1e-9 {
				t.Errorf("share %v and drift %v come out as %+v", share, drift, f)
			}
		}
	}
}

// What the readings cannot tell is not told.
func TestCannotTell(t *testing.T) {
	joints := run()[:2]
	one, err := gaplog.Review(joints, []gaplog.Reading{{Joint: "L1", Date: day(2024, 7, 1), Rail: 40, Gap: 1.05}}, gaplog.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if f := one.Findings[0]; f.Verdict != gaplog.Fits || f.Share != 1 || f.ShareError != 0 || f.DriftError != 0 {
		t.Errorf("one reading: %+v", f)
	}
	if f := one.Findings[1]; f.Verdict != gaplog.Unread {
		t.Errorf("no reading: %+v", f)
	}
	// Two readings at nearly one temperature.
	two, err := gaplog.Review(joints, []gaplog.Reading{
		{Joint: "L1", Date: day(2024, 7, 1), Rail: 20, Gap: 1.9}, {Joint: "L1", Date: day(2024, 9, 1), Rail: 21, Gap: 1.7},
	}, gaplog.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if f := two.Findings[0]; f.ShareError != 0 || f.DriftError != 0 || f.Verdict != gaplog.Fits {
		t.Errorf("two readings at one temperature: %+v", f)
	}
	// Two far apart tell a seized joint, though not a drift.
	two, err = gaplog.Review(joints, []gaplog.Reading{
		{Joint: "L1", Date: day(2024, 1, 1), Rail: -10, Gap: 2.05}, {Joint: "L1", Date: day(2024, 7, 1), Rail: 41, Gap: 2},
	}, gaplog.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if f := two.Findings[0]; f.Verdict != gaplog.Seized || f.DriftError != 0 {
		t.Errorf("winter and summer alike: %+v", f)
	}
}

func review(t *testing.T, joints []gaplog.Joint, readings ...gaplog.Reading) gaplog.Report {
	t.Helper()
	r, err := gaplog.Review(joints, readings, gaplog.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// The reading error is 0.2 mm: an offset of less fits, of more does not; the
// worst reading keeps its sign.
func TestOffset(t *testing.T) {
	joints := run()[:1]
	p := joints[0].Predict(expansion.State{Rail: 20})
	at := func(d measure.Length) gaplog.Reading {
		return gaplog.Reading{Joint: "L1", Date: day(2024, 5, 1), Rail: 20, Gap: p + d}
	}
	for d, want := range map[measure.Length]gaplog.Verdict{0.19: gaplog.Fits, -0.19: gaplog.Fits, 0.21: gaplog.Off, -0.21: gaplog.Off} {
		if f := review(t, joints, at(d)).Findings[0]; f.Verdict != want || math.Abs(float64(f.Offset-d)) > 1e-12 {
			t.Errorf("off by %v: %+v", d, f)
		}
	}
	f := review(t, joints, at(0.1), at(-0.3), at(0.2)).Findings[0]
	if math.Abs(float64(f.Worst+0.3)) > 1e-12 || math.Abs(float64(f.Offset)) > 1e-12 || f.DriftError != 0 || f.ShareError != 0 {
		t.Errorf("three readings on one day: %+v", f)
	}
}

// At one temperature only the date can tell: a gap that grows creeps.
func TestDriftAlone(t *testing.T) {
	joints := run()[:1]
	p := joints[0].Predict(expansion.State{Rail: 20})
	var readings []gaplog.Reading
	for k := range 3 {
		readings = append(readings, gaplog.Reading{Joint: "L1", Date: day(2021, 5, 1).Add(time.Duration(k) * 8766 * time.Hour), Rail: 20, Gap: p + 0.5*measure.Length(k)})
	}
	f := review(t, joints, readings...).Findings[0]
	// Dates of -1, 0, 1 years about their mean: error 0.2/√2.
	if math.Abs(float64(f.Drift)-0.5) > 1e-9 || math.Abs(float64(f.DriftError)-0.2/math.Sqrt2) > 1e-9 || f.ShareError != 0 || f.Verdict != gaplog.Creeps {
		t.Errorf("%+v", f)
	}
	if f := review(t, joints, readings[:2]...).Findings[0]; f.DriftError != 0 {
		t.Errorf("two readings tell a drift: %+v", f)
	}
	// A drift within what the error could feign is none.
	for k := range readings {
		readings[k].Gap = p + 0.25*measure.Length(k-1)
	}
	if f := review(t, joints, readings...).Findings[0]; f.Verdict != gaplog.Fits {
		t.Errorf("0.25 mm a year over two years, error %v: %+v", f.DriftError, f)
	}
}

// Where it got warmer from reading to reading, drift is not told from share.
func TestHeatAndDateTogether(t *testing.T) {
	joints := run()[:1]
	var readings []gaplog.Reading
	for k := range 4 {
		rail := measure.Temperature(-5 + 15*k)
		readings = append(readings, gaplog.Reading{Joint: "L1", Date: day(2024, 1, 1).Add(time.Duration(k) * 1000 * time.Hour), Rail: rail, Gap: 2})
	}
	f := review(t, joints, readings...).Findings[0]
	// Predicted gaps -5, 10, 25, 40 °C: 0.038 mm/K; about their mean 0.855, 0.285.
	if math.Abs(f.ShareError-0.2/math.Sqrt(2*(0.855*0.855+0.285*0.285))) > 1e-9 || math.Abs(f.Share) > 1e-9 || f.DriftError != 0 || f.Verdict != gaplog.Seized {
		t.Errorf("%+v", f)
	}
}

// A joint that was not read hides what its neighbours' panels did; the next
// run begins anew.
func TestUnreadBreaksTheWalk(t *testing.T) {
	joints := run()
	joints[4].Run, joints[5].Run = 2, 2
	p := joints[0].Predict(expansion.State{Rail: 20})
	at := func(mark string, d measure.Length) gaplog.Reading {
		return gaplog.Reading{Joint: mark, Date: day(2024, 5, 1), Rail: 20, Gap: p + d}
	}
	walks := review(t, joints, at("L1", 0.6), at("L3", -0.6), at("L4", 0.9), at("L5", -0.5), at("L6", 0.5)).Walks
	if len(walks) != 2 || walks[0].From != "L1" || walks[0].To != "L2" || walks[1].From != "L5" || walks[1].To != "L6" || math.Abs(float64(walks[1].By+0.5)) > 1e-12 {
		t.Errorf("walks %+v", walks)
	}
	// Errors add up: 0.3 after one joint is a walk, after two it is none.
	walks = review(t, joints, at("L1", 0.3), at("L2", 0)).Walks
	if len(walks) != 1 || walks[0].From != "L1" || walks[0].Error != 0.2 {
		t.Errorf("walks %+v", walks)
	}
	last := review(t, joints, at("L5", 0), at("L6", 0.9)).Walks
	if len(last) != 1 || last[0].To != "" {
		t.Errorf("the last panel of a run: %+v", last)
	}
}

// A joint that should have shut reads 0, not less.
func TestShut(t *testing.T) {
	j := run()[0]
	j.Gap = 0.5
	if p := j.Predict(expansion.State{Rail: 60}); p != 0 {
		t.Errorf("predicted %v", p)
	}
}

func TestBadInput(t *testing.T) {
	joints := run()
	good := gaplog.Reading{Joint: "L1", Date: day(2024, 7, 1), Rail: 20, Gap: 2}
	for name, c := range map[string]struct {
		joints   []gaplog.Joint
		readings func(*gaplog.Reading)
		settings gaplog.Settings
		kind     error
	}{
		"unknown joint":  {joints, func(r *gaplog.Reading) { r.Joint = "R9" }, gaplog.Settings{}, measure.ErrInput},
		"no date":        {joints, func(r *gaplog.Reading) { r.Date = time.Time{} }, gaplog.Settings{}, measure.ErrInput},
		"negative gap":   {joints, func(r *gaplog.Reading) { r.Gap = -1 }, gaplog.Settings{}, measure.ErrInput},
		"NaN":            {joints, func(r *gaplog.Reading) { r.Rail = measure.Temperature(math.NaN()) }, gaplog.Settings{}, measure.ErrInput},
		"kelvin":         {joints, func(r *gaplog.Reading) { r.Base = 290 }, gaplog.Settings{}, measure.ErrInput},
		"one mark twice": {append(run(), run()[0]), func(*gaplog.Reading) {}, gaplog.Settings{}, measure.ErrInput},
		"error":          {joints, func(*gaplog.Reading) {}, gaplog.Settings{Error: -1}, measure.ErrInput},
		"share":          {joints, func(*gaplog.Reading) {}, gaplog.Settings{Seized: 30}, measure.ErrInput},
		"too many":       {make([]gaplog.Joint, gaplog.MaxReadings+1), func(*gaplog.Reading) {}, gaplog.Settings{}, measure.ErrLimit},
	} {
		r := good
		c.readings(&r)
		if _, err := gaplog.Review(c.joints, []gaplog.Reading{r}, c.settings); !errors.Is(err, c.kind) {
			t.Errorf("%s: got %v, want %v", name, err, c.kind)
		}
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// The rates are the slopes of the prediction itself, until the rails touch;
// and what a millimetre in one reading makes of the offset is its share.
func TestPredictRates(t *testing.T) {
	side := func(free measure.Length) expansion.Side {
		return expansion.Side{Free: free, Rail: 19e-6, Base: 12e-6}
	}
	joint := gaplog.Joint{Mark: "L1", Joint: expansion.Joint{Before: side(700), After: side(1100), Widest: 5}, Gap: 2, Laid: expansion.State{Rail: 15, Base: 12}}
	now := expansion.State{Rail: 33, Base: 21}
	rates := joint.PredictRates(now)
	seen := map[string]bool{}
	for _, r := range rates {
		slope := func(d float64) float64 {
			j, s := joint, now
			switch r.Input {
			case "rail temperature then":
				j.Laid.Rail += measure.Temperature(d)
			case "base temperature then":
				j.Laid.Base += measure.Temperature(d)
			case "rail temperature now":
				s.Rail += measure.Temperature(d)
			case "base temperature now":
				s.Base += measure.Temperature(d)
			case "free length before":
				j.Joint.Before.Free += measure.Length(d)
			case "free length after":
				j.Joint.After.Free += measure.Length(d)
			case "rail expansion before":
				j.Joint.Before.Rail += measure.Expansion(d * 1e-6)
			case "rail expansion after":
				j.Joint.After.Rail += measure.Expansion(d * 1e-6)
			case "base expansion before":
				j.Joint.Before.Base += measure.Expansion(d * 1e-6)
			case "base expansion after":
				j.Joint.After.Base += measure.Expansion(d * 1e-6)
			case "gap when laid":
				j.Gap += measure.Length(d)
			default:
				t.Errorf("input %q is not known", r.Input)
			}
			return float64(j.Predict(s))
		}
		seen[r.Input] = true
		if want := (slope(0.5) - slope(-0.5)); math.Abs(float64(r.By)-want) > 1e-9 {
			t.Errorf("%s: %v, want %v", r.Input, r.By, want)
		}
	}
	if len(seen) != 11 {
		t.Errorf("%d inputs, want 11", len(seen))
	}
	if shut := joint.PredictRates(expansion.State{Rail: 150, Base: 12}); shut != nil {
		t.Errorf("rails that touch: %v", shut)
	}
	day := time.Date(2025, time.May, 1, 0, 0, 0, 0, time.UTC)
	readings := []gaplog.Reading{{Joint: "L1", Date: day, Rail: 20, Gap: 2}, {Joint: "L1", Date: day, Rail: 30, Gap: 2}, {Joint: "L1", Date: day, Rail: 40, Gap: 2}, {Joint: "L1", Date: day, Rail: 45, Gap: 2}}
	offset := func() float64 {
		return float64(must(gaplog.Review([]gaplog.Joint{joint}, readings, gaplog.Settings{})).Findings[0].Offset)
	}
	was := offset()
	readings[2].Gap++
	if d := offset() - was; math.Abs(d-0.25) > 1e-9 {
		t.Errorf("a millimetre in one of four readings moves the offset by %v, want 0.25", d)
	}
}

func ExampleReview() {
	panel := expansion.EqualPanels(2000*measure.Millimetre, 19*measure.MicroPerKelvin, 0)
	laid := expansion.State{Rail: measure.Celsius(15)}
	joints := []gaplog.Joint{{Mark: "L1", Joint: panel, Gap: 2, Laid: laid}, {Mark: "L2", Joint: panel, Gap: 2, Laid: laid}, {Mark: "L3", Joint: panel, Gap: 2, Laid: laid}}
	winter := time.Date(2025, time.January, 12, 0, 0, 0, 0, time.UTC)
	summer := time.Date(2025, time.July, 20, 0, 0, 0, 0, time.UTC)
	report, err := gaplog.Review(joints, []gaplog.Reading{
		{Joint: "L1", Date: winter, Rail: measure.Celsius(-6), Gap: 2.8},
		{Joint: "L1", Date: summer, Rail: measure.Celsius(41), Gap: 1.0},
		{Joint: "L2", Date: winter, Rail: measure.Celsius(-6), Gap: 3.6},
		{Joint: "L2", Date: summer, Rail: measure.Celsius(41), Gap: 1.9},
		{Joint: "L3", Date: winter, Rail: measure.Celsius(-6), Gap: 1.2},
		{Joint: "L3", Date: summer, Rail: measure.Celsius(41), Gap: 1.1},
	}, gaplog.Settings{})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range report.Findings {
		fmt.Printf("%s: %v, offset %+.2f mm, moves %.0f %%\n", f.Mark, f.Verdict, f.Offset, 100*f.Share)
	}
	for _, w := range report.Walks {
		fmt.Printf("the panel from %s to %s has walked %+.2f mm\n", w.From, w.To, w.By)
	}
	// Output:
	// L1: fits, offset -0.01 mm, moves 101 %
	// L2: off, offset +0.84 mm, moves 95 %
	// L3: seized, offset -0.76 mm, moves 6 %
	// the panel from L2 to L3 has walked +0.84 mm
}

// A joint that never moves, whose movement is hardly more than what a reading
// can be wrong by: twelve readings are enough to know it, two are not.
func TestReviewOfLittleMovement(t *testing.T) {
	joint := gaplog.Joint{Mark: "L1", Joint: expansion.EqualPanels(1000, 17e-6, 12e-6), Gap: 2, Laid: expansion.State{Rail: 15, Base: 15}}
	var readings []gaplog.Reading
	for k := range 12 {
		readings = append(readings, gaplog.Reading{
			Joint: "L1", Date: day(2021, 1, 1).AddDate(0, 0, 7*k),
			Rail: measure.Temperature(15 + 20*math.Sin(float64(k))), Base: 15, Gap: 2,
		})
	}
	r, err := gaplog.Review([]gaplog.Joint{joint}, readings, gaplog.Settings{})
	if err != nil {
		t.Fatal(err)
	}
	if f := r.Findings[0]; f.Verdict != gaplog.Seized || math.Abs(f.Share) > 1e-9 || !(f.ShareError > 0.2 && f.ShareError < 0.3) {
		t.Errorf("twelve readings: %+v", f)
	}
	if r, err = gaplog.Review([]gaplog.Joint{joint}, readings[:2], gaplog.Settings{}); err != nil {
		t.Fatal(err)
	}
	if f := r.Findings[0]; f.Verdict != gaplog.Fits || f.ShareError != 0 {
		t.Errorf("two readings: %+v", f)
	}
}
