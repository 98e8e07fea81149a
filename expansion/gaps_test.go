package expansion_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.org/fourfoot/expansion"
	"example.org/fourfoot/gauge/measure"
)

// randomJoint has unequal sides; its climate is a handful of states.
func randomJoint(r *rand.Rand) (expansion.Joint, []expansion.State) {
	side := func() expansion.Side {
		return expansion.Side{
			Free: measure.Length(100 + 3000*r.Float64()),
			Rail: measure.Expansion(10+14*r.Float64()) * measure.MicroPerKelvin,
			Base: measure.Expansion(100*r.Float64()) * measure.MicroPerKelvin,
		}
	}
	j := expansion.Joint{Before: side(), After: side(), Least: measure.Length(r.Float64()), Widest: measure.Length(2 + 8*r.Float64())}
	if r.IntN(2) == 0 {
		j.Joiner = expansion.Joiner{Length: measure.Length(20 + 20*r.Float64()), Engagement: measure.Length(1 + 4*r.Float64())}
	}
	var c []expansion.State
	for range 2 + r.IntN(5) {
		c = append(c, expansion.State{Rail: measure.Temperature(-20 + 75*r.Float64()), Base: measure.Temperature(-15 + 60*r.Float64())})
	}
	return j, c
}

// Every gap between the ends keeps the joint within its limits in every
// state; every gap outside them breaks a limit in the state that is named.
func TestGapsHoldInEveryState(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	found, none := 0, 0
	for range 2000 {
		j, climate := randomJoint(r)
		today := climate[r.IntN(len(climate))]
		reach, _ := j.Reach()
		g, err := j.Gaps(today, climate)
		if err != nil {
			if !errors.Is(err, measure.ErrNoAnswer) {
				t.Fatal(err)
			}
			none++
			// No gap at all does: try many.
			for k := range 200 {
				gap := measure.Length(k) * 0.2
				good := true
				for _, s := range climate {
					at := j.GapAt(gap, today, s)
					good = good && at >= j.Least && at <= reach
				}
				if good {
					t.Fatalf("%v: but a gap of %v holds", err, gap)
				}
			}
			continue
		}
		found++
		for _, gap := range []measure.Length{g.Least, g.Aim(), g.Most} {
			for _, s := range climate {
				if at := j.GapAt(gap, today, s); at < j.Least-1e-9 || at > reach+1e-9 {
					t.Fatalf("gap %v of [%v, %v] becomes %v in %v, outside [%v, %v]", gap, g.Least, g.Most, at, s, j.Least, reach)
				}
			}
		}
		if at := j.GapAt(g.Least-0.01, today, g.Tight); at >= j.Least {
			t.Fatalf("below the least gap nothing breaks in %v", g.Tight)
		}
		if at := j.GapAt(g.Most+0.01, today, g.Wide); at <= reach {
			t.Fatalf("above the most gap nothing breaks in %v", g.Wide)
		}
	}
	if found < 200 || none < 200 {
		t.Errorf("%d joints with a gap and %d without: the test needs both", found, none)
	}
}

// "None" does not depend on today's temperature, and the longest panel and the
// least reach that it names are just possible.
func TestNoneWhateverToday(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	for range 500 {
		j, climate := randomJoint(r)
		var verdict []bool
		for _, today := range climate {
			_, err := j.Gaps(today, climate)
			verdict = append(verdict, err == nil)
		}
		for _, v := range verdict {
			if v != verdict[0] {
				t.Fatalf("verdicts over the day's temperature: %v", verdict)
			}
		}
		longest, err := j.Longest(climate)
		if err != nil {
			t.Fatal(err)
		}
		k := longest / (j.Before.Free + j.After.Free)
		if verdict[0] != (k >= 1) {
			t.Fatalf("possible %v, but the longest panel is %v times this one", verdict[0], k)
		}
		fit := j
		fit.Before.Free *= k
		fit.After.Free *= k
		if _, err := fit.Gaps(climate[0], climate); err != nil {
			t.Fatalf("the longest panel: %v", err)
		}
		fit.Before.Free *= 1.001
		fit.After.Free *= 1.001
		if _, err := fit.Gaps(climate[0], climate); !errors.Is(err, measure.ErrNoAnswer) {
			t.Fatalf("a thousandth over the longest panel: %v", err)
		}
		need, err := j.LeastReach(climate)
		if err != nil {
			t.Fatal(err)
		}
		j.Joiner, j.Widest = expansion.Joiner{}, need
		if _, err := j.Gaps(climate[0], climate); err != nil {
			t.Fatalf("the least reach: %v", err)
		}
		j.Widest = need - 0.001
		if _, err := j.Gaps(climate[0], climate); err == nil && j.Widest >= j.Least {
			t.Fatal("a thousandth under the least reach is still possible")
		}
	}
}

func TestClosingProperties(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	for range 500 {
		j, c := randomJoint(r)
		a, b := c[0], c[1]
		if m := j.Closing(a, expansion.State{Rail: a.Rail, Base: a.Base}); m != 0 {
			t.Fatalf("no change of temperature closes by %v", m)
		}
		warm := a
		warm.Rail += 7
		if j.Closing(a, warm) <= 0 {
			t.Fatal("warmer rail does not close the joint")
		}
		warm = a
		warm.Base += 7
		if j.Closing(a, warm) >= 0 {
			t.Fatal("warmer base does not open the joint")
		}
		// The move of the joint is the sum of its sides' moves.
		left, right := j, j
		left.After.Free, right.Before.Free = 0, 0
		near(t, "sum of moves", float64(left.Closing(a, b)+right.Closing(a, b)), float64(j.Closing(a, b)), 1e-12)
		swap := j
		swap.Before, swap.After = j.After, j.Before
		near(t, "mirror", float64(swap.Closing(a, b)), float64(j.Closing(a, b)), 1e-12)
	}
}

// A joiner of 30 mm that must keep 6 mm on each rail: in the middle it lets
// 30 - 12 = 18 mm open; pinned by its half, 15 - 6 = 9 mm; where a fixing 20
// mm from the rail's end stops it, 30 - 20 - 6 = 4 mm.
func TestReach(t *testing.T) {
	for _, c := range []struct {
		name   string
		joiner expansion.Joiner
		widest measure.Length
		want   measure.Length
		by     expansion.Limit
	}{
		{"wheels", expansion.Joiner{Length: 30, Engagement: 6}, 3, 3, expansion.Wheels},
		{"wheels alone", expansion.Joiner{}, 3, 3, expansion.Wheels},
		{"pinned", expansion.Joiner{Length: 30, Engagement: 6}, 10, 9, expansion.JoinerWalked},
		{"stopped", expansion.Joiner{Length: 30, Engagement: 6, Stop: 20}, 10, 4, expansion.JoinerWalked},
		{"no wheels", expansion.Joiner{Length: 30, Engagement: 6}, 0, 9, expansion.JoinerWalked},
	} {
		j := expansion.EqualPanels(1000, 19e-6, 0)
		j.Joiner, j.Widest = c.joiner, c.widest
		if got, by := j.Reach(); got != c.want || by != c.by {
			t.Errorf("%s: reach %v by %v, want %v by %v", c.name, got, by, c.want, c.by)
		}
	}
	k := expansion.Joiner{Length: 30, Engagement: 6, Stop: 20}
	if k.Centred() != 18 || k.Walked() != 4 {
		t.Errorf("centred %v, walked %v: want 18 and 4", k.Centred(), k.Walked())
	}
}

// At both ends of the window the feeler is just permitted, outside it is not.
func TestLayingWindow(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	windows := 0
	for range 1000 {
		j, climate := randomJoint(r)
		for i := range climate { // base a fixed 3 K below the rail
			climate[i].Base = climate[i].Rail - 3
		}
		reach, _ := j.Reach()
		feeler := j.Least + (reach-j.Least)*measure.Length(r.Float64())
		w, err := j.LayingWindow(feeler, 3, climate)
		if err != nil {
			if !errors.Is(err, measure.ErrNoAnswer) {
				t.Fatal(err)
			}
			continue
		}
		windows++
		for _, rail := range []measure.Temperature{w.Low, w.Low + (w.High-w.Low)/2, w.High} {
			g, err := j.Gaps(expansion.State{Rail: rail, Base: rail - 3}, climate)
			if err != nil {
				t.Fatal(err)
			}
			if feeler < g.Least-1e-9 || feeler > g.Most+1e-9 {
				t.Fatalf("feeler %v at %v: permitted %v to %v", feeler, rail, g.Least, g.Most)
			}
		}
		for _, rail := range []measure.Temperature{w.Low - 0.1, w.High + 0.1} {
			if g, err := j.Gaps(expansion.State{Rail: rail, Base: rail - 3}, climate); err == nil && feeler >= g.Least && feeler <= g.Most {
				t.Fatalf("feeler %v is right at %v too, outside %v to %v", feeler, rail, w.Low, w.High)
			}
		}
	}
	if windows < 200 {
		t.Errorf("only %d windows", windows)
	}
}

// A feeler that is right at no temperature is told which ones are: the two
// that are named are right at some temperature, and one beyond them is not.
func TestLayingWindowNames(t *testing.T) {
	r := rand.New(rand.NewPCG(17, 18))
	told, none := 0, 0
	for range 2000 {
		j, climate := randomJoint(r)
		below := measure.TemperatureDifference(r.Float64()*20 - 5)
		reach, _ := j.Reach()
		feeler := (reach + 1) * measure.Length(r.Float64())
		_, err := j.LayingWindow(feeler, below, climate)
		if !errors.Is(err, measure.ErrNoAnswer) {
			continue
		}
		text := err.Error()
		at := strings.Index(text, "one from ")
		if at < 0 {
			if strings.Contains(text, "whatever the feeler") {
				none++
				for f := j.Least; f <= reach; f += (reach-j.Least)/20 + 0.01 {
					if w, err := j.LayingWindow(f, below, climate); err == nil {
						t.Fatalf("%v: but %v is right from %v to %v", text, f, w.Low, w.High)
					}
				}
			}
			continue
		}
		told++
		var from, to float64
		if _, err := fmt.Sscanf(text[at:], "one from %f mm to %f mm", &from, &to); err != nil {
			t.Fatal(text, err)
		}
		if f := float64(feeler); f >= from && f <= to {
			t.Errorf("%s: contradicts itself", text)
		}
		for f, right := range map[float64]bool{from: true, to: true, from - 0.002: false, to + 0.002: false} {
			if f < 0 {
				continue
			}
			if w, err := j.LayingWindow(measure.Length(f), below, climate); (err == nil) != right {
				t.Errorf("%s: a feeler of %v is right: %v, %v", text, f, w, err)
			}
		}
	}
	if told < 50 || none < 50 {
		t.Errorf("only %d told, %d without any", told, none)
	}

	// One state alone holds the joint at one temperature.
	j := expansion.EqualPanels(1000, 19e-6, 0)
	j.Widest = 5
	_, err := j.LayingWindow(6, 0, []expansion.State{{Rail: 20, Base: 20}})
	if err == nil || !strings.Contains(err.Error(), "from 0.000 mm to 5.000 mm") {
		t.Error(err)
	}
	// All of the reach is used: one feeler at one temperature.
	climate := []expansion.State{{Rail: -10, Base: -10}, {Rail: 40, Base: 40}}
	j.Widest = 0.95
	_, err = j.LayingWindow(0.96, 0, climate)
	if err == nil || !strings.Contains(err.Error(), "from 0.000 mm to 0.950 mm") {
		t.Error(err)
	}
	// The base is 2.0001 K cooler at 22.0001 °C only.
	climate[0].Base, climate[1].Base = 20, 20
	j.Before.Base, j.After.Base = 5e-6, 5e-6
	_, err = j.LayingWindow(0.96, 2.0001, climate)
	if err == nil || !strings.Contains(err.Error(), "one of 0.341998 mm is") {
		t.Error(err)
	}
}

func TestBadInput(t *testing.T) {
	good := expansion.EqualPanels(1000, 19e-6, 0)
	good.Widest = 3
	climate := []expansion.State{{Rail: -10}, {Rail: 40}}
	nan := math.NaN()
	for _, c := range []struct {
		name    string
		edit    func(*expansion.Joint)
		laying  expansion.State
		climate []expansion.State
		want    string
		kind    error
	}{
		{"negative panel", func(j *expansion.Joint) { j.Before.Free = -1 }, expansion.State{}, climate, "panel before the joint: free length", measure.ErrInput},
		{"NaN panel", func(j *expansion.Joint) { j.After.Free = measure.Length(nan) }, expansion.State{}, climate, "panel after the joint: free length", measure.ErrInput},
		{"forgotten 1e-6", func(j *expansion.Joint) { j.Before.Rail = 19 }, expansion.State{}, climate, "1e-6 forgotten", measure.ErrInput},
		{"no limit", func(j *expansion.Joint) { j.Widest = 0 }, expansion.State{}, climate, "give the joiner", measure.ErrInput},
		{"least above widest", func(j *expansion.Joint) { j.Least = 4 }, expansion.State{}, climate, "least gap", measure.ErrInput},
		{"joiner too short", func(j *expansion.Joint) { j.Joiner = expansion.Joiner{Length: 10, Engagement: 6} }, expansion.State{}, climate, "joiner engagement", measure.ErrInput},
		{"joiner without length", func(j *expansion.Joint) { j.Joiner = expansion.Joiner{Engagement: 6} }, expansion.State{}, climate, "joiner length", measure.ErrInput},
		{"stop too near", func(j *expansion.Joint) { j.Joiner = expansion.Joiner{Length: 20, Engagement: 2, Stop: 9} }, expansion.State{}, climate, "joiner stop", measure.ErrInput},
		{"infinite gap", func(j *expansion.Joint) { j.Widest = measure.Length(math.Inf(1)) }, expansion.State{}, climate, "widest gap", measure.ErrInput},
		{"no climate", func(*expansion.Joint) {}, expansion.State{}, nil, "climate", measure.ErrInput},
		{"NaN state", func(*expansion.Joint) {}, expansion.State{}, []expansion.State{{Rail: measure.Temperature(nan)}}, "state 1", measure.ErrInput},
		{"kelvin for celsius", func(*expansion.Joint) {}, expansion.State{Rail: 293}, climate, "laying state", measure.ErrInput},
		{"laid outside the climate", func(*expansion.Joint) {}, expansion.State{Rail: 60}, climate, "add it to the climate", measure.ErrInput},
		{"too many states", func(*expansion.Joint) {}, expansion.State{}, make([]expansion.State, expansion.MaxStates+1), "states", measure.ErrLimit},
	} {
		j := good
		c.edit(&j)
		_, err := j.Gaps(c.laying, c.climate)
		if !errors.Is(err, c.kind) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: got %v, want %v naming %q", c.name, err, c.kind, c.want)
		}
	}
	bad := good
	bad.Before.Free, bad.After.Free, bad.Least = -1, -2, -3
	if err := bad.Validate(); err == nil || strings.Count(err.Error(), "must be") != 3 {
		t.Errorf("three faults: got %v", err)
	}
	if _, err := expansion.Corners(40, -10, 0, 10); !errors.Is(err, measure.ErrInput) {
		t.Errorf("temperatures the wrong way round: %v", err)
	}
}

// When the base moves exactly as the rail does, any length will do.
func TestNothingMoves(t *testing.T) {
	j := expansion.EqualPanels(1000, 0, 0)
	j.Widest = 3
	climate := []expansion.State{{Rail: -10, Base: -10}, {Rail: 40, Base: 40}}
	if _, err := j.Longest(climate); !errors.Is(err, measure.ErrNoAnswer) {
		t.Errorf("longest: %v", err)
	}
	if w, err := j.LayingWindow(1, 0, climate); err != nil || w.Low != -10 || w.High != 40 {
		t.Errorf("window %v, %v: want all of the climate", w, err)
	}
	if _, err := j.LayingWindow(3.5, 0, climate); !errors.Is(err, measure.ErrNoAnswer) {
		t.Errorf("a feeler wider than the wheels can cross: %v", err)
	}
}

func TestGapsAllocateNothing(t *testing.T) {
	j, climate := gardenJoint()
	today := expansion.State{Rail: 20, Base: 18}
	if n := testing.AllocsPerRun(100, func() { _, _ = j.Gaps(today, climate) }); n != 0 {
		t.Errorf("%v allocations", n)
	}
}

func BenchmarkGaps(b *testing.B) {
	j, climate := gardenJoint()
	today := expansion.State{Rail: 20, Base: 18}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := j.Gaps(today, climate); err != nil {
			b.Fatal(err)
		}
	}
}

// What Validate lets through, at the very edges too, every call takes, and
// what it refuses every call refuses, whichever of joint and climate is bad.
func TestValidateAgreesWithCalls(t *testing.T) {
	climate := []expansion.State{{Rail: expansion.Coldest, Base: expansion.Coldest}, {Rail: expansion.Hottest, Base: expansion.Hottest}, {Rail: 20, Base: 20}}
	nan, inf := math.NaN(), math.Inf(1)
	frees := []float64{0, 1, float64(expansion.MaxFree), 2 * float64(expansion.MaxFree), -1, nan}
	alphas := []float64{0, 1e-5, float64(expansion.Steepest), 2 * float64(expansion.Steepest), -1e-9, nan}
	joiners := []expansion.Joiner{
		{},
		{Length: 20},
		{Length: 20, Engagement: 10},
		{Length: 20, Engagement: 10.1},
		{Length: 20, Stop: 10},
		{Length: 20, Stop: 9.9},
		{Length: 20, Stop: 20},
		{Length: 20, Stop: 20.1},
		{Length: 20, Engagement: 5, Stop: 15},
		{Length: -1},
		{Engagement: 1},
		{Length: measure.Length(inf)},
		{Length: 20, Engagement: measure.Length(nan)},
		{Length: 20, Stop: measure.Length(nan)},
	}
	gaps := []float64{0, 1, 3, 10, -1, nan, inf}
	valid, refused := 0, 0
	check := func(j expansion.Joint) {
		t.Helper()
		good := j.Validate() == nil
		_, err := j.Travel(climate)
		_, err2 := j.Longest(climate)
		_, err3 := j.LayingWindow(1, 0, climate)
		_, err4 := j.Card(expansion.CardOptions{Step: 20}, climate)
		_, err5 := j.Gaps(climate[2], climate)
		for _, e := range []error{err, err2, err3, err4, err5} {
			if good == (errors.Is(e, measure.ErrInput) || errors.Is(e, measure.ErrLimit)) {
				t.Fatalf("%+v: valid %v, but a call says %v", j, good, e)
			}
		}
		if _, e := j.Gaps(climate[2], nil); !errors.Is(e, measure.ErrInput) {
			t.Fatalf("no climate: %v", e)
		}
		for _, e := range []error{second(j.Travel(nil)), second(j.Longest(nil)), second(j.LayingWindow(1, 0, nil)), second(j.Card(expansion.CardOptions{}, nil)), second(j.Gaps(climate[2], []expansion.State{{Rail: 151}}))} {
			if !errors.Is(e, measure.ErrInput) {
				t.Fatalf("a bad climate: %v", e)
			}
		}
		if good {
			valid++
		} else {
			refused++
		}
	}
	base := expansion.EqualPanels(100, 19e-6, 0)
	base.Widest = 10
	for _, f := range frees {
		for _, a := range alphas {
			for _, k := range []func(*expansion.Joint){
				func(j *expansion.Joint) { j.Before.Free, j.Before.Rail = measure.Length(f), measure.Expansion(a) },
				func(j *expansion.Joint) { j.After.Free, j.After.Base = measure.Length(f), measure.Expansion(a) },
				func(j *expansion.Joint) { j.Before.Free, j.After.Rail = measure.Length(f), measure.Expansion(a) },
				func(j *expansion.Joint) { j.After.Free, j.Before.Base = measure.Length(f), measure.Expansion(a) },
			} {
				j := base
				k(&j)
				check(j)
			}
		}
	}
	for _, k := range joiners {
		for _, least := range gaps {
			for _, widest := range gaps {
				j := base
				j.Joiner, j.Least, j.Widest = k, measure.Length(least), measure.Length(widest)
				check(j)
			}
		}
	}
	if valid < 50 || refused < 50 {
		t.Errorf("%d valid and %d refused", valid, refused)
	}
}

func second[T any](_ T, err error) error { return err }
