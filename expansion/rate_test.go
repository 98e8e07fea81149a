package expansion_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"example.org/fourfoot/expansion"
	"example.org/fourfoot/gauge/measure"
)

// case of inputs that the edits below work on.
type inputs struct {
	j         expansion.Joint
	today     expansion.State
	climate   []expansion.State
	feeler    measure.Length
	baseBelow measure.TemperatureDifference
}

func (in inputs) with(t *testing.T, input string, d float64, tight, wide int) inputs {
	t.Helper()
	in.climate = append([]expansion.State(nil), in.climate...)
	l, k := measure.Length(d), measure.Temperature(d)
	switch input {
	case "rail temperature today":
		in.today.Rail += k
	case "base temperature today":
		in.today.Base += k
	case "tightest state's rail temperature":
		in.climate[tight].Rail += k
	case "tightest state's base temperature":
		in.climate[tight].Base += k
	case "widest state's rail temperature":
		in.climate[wide].Rail += k
	case "widest state's base temperature":
		in.climate[wide].Base += k
	case "free length before":
		in.j.Before.Free += l
	case "free length after":
		in.j.After.Free += l
	case "rail expansion before":
		in.j.Before.Rail += measure.Expansion(d * 1e-6)
	case "rail expansion after":
		in.j.After.Rail += measure.Expansion(d * 1e-6)
	case "base expansion before":
		in.j.Before.Base += measure.Expansion(d * 1e-6)
	case "base expansion after":
		in.j.After.Base += measure.Expansion(d * 1e-6)
	case "least gap":
		in.j.Least += l
	case "widest gap for wheels":
		in.j.Widest += l
	case "room, the reach less the least gap":
		in.j.Least -= l
	case "joiner length":
		in.j.Joiner.Length += l
	case "joiner engagement":
		in.j.Joiner.Engagement += l
	case "joiner stop":
		in.j.Joiner.Stop += l
	case "feeler":
		in.feeler += l
	case "base below rail":
		in.baseBelow += measure.TemperatureDifference(d)
	default:
		t.Fatalf("no such input: %q", input)
	}
	return in
}

func index(c []expansion.State, s expansion.State) int {
	for i := range c {
		if c[i] == s {
			return i
		}
	}
	return -1
}

// The closing is linear in each input: a whole unit shows its rate.
func TestClosingRates(t *testing.T) {
	r := rand.New(rand.NewPCG(13, 14))
	for range 100 {
		j, c := randomJoint(r)
		then, now := c[0], c[1]
		m := j.Closing(then, now)
		rates := j.ClosingRates(then, now)
		if len(rates) != 10 {
			t.Fatalf("%d rates", len(rates))
		}
		for _, x := range rates {
			k, a, b := j, then, now
			switch x.Input {
			case "rail temperature then":
				a.Rail++
			case "base temperature then":
				a.Base++
			case "rail temperature now":
				b.Rail++
			case "base temperature now":
				b.Base++
			case "free length before":
				k.Before.Free++
			case "rail expansion before":
				k.Before.Rail += 1e-6
			case "base expansion before":
				k.Before.Base += 1e-6
			case "free length after":
				k.After.Free++
			case "rail expansion after":
				k.After.Rail += 1e-6
			case "base expansion after":
				k.After.Base += 1e-6
			default:
				t.Fatalf("no such input: %q", x.Input)
			}
			near(t, x.Input, float64(x.By), float64(k.Closing(a, b)-m), 1e-11)
		}
	}
}

// Every rate agrees with the central difference of the call itself.
func TestRates(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 10))
	checked := map[string]int{}
	check := func(result string, in inputs, input string, by float64, f func(inputs) (float64, error), tight, wide int) {
		t.Helper()
		const d = 1e-4
		up, err1 := f(in.with(t, input, d, tight, wide))
		down, err2 := f(in.with(t, input, -d, tight, wide))
		if err1 != nil || err2 != nil {
			return // on the edge of what is possible
		}
		want := (up - down) / (2 * d)
		if math.Abs(by-want) > 1e-5*(1+math.Abs(want)) {
			t.Errorf("%s per %s: %v, by differences %v", result, input, by, want)
		}
		checked[result+" "+input]++
	}
	for n := range 600 {
		j, climate := randomJoint(r)
		j.Least += 0.1
		if n%3 == 0 && j.Joiner != (expansion.Joiner{}) {
			j.Joiner.Stop = j.Joiner.Length * 0.6
		}
		if n%2 == 0 {
			j.Widest = 1000
			if j.Joiner == (expansion.Joiner{}) {
				j.Widest = 20
			}
		}
		for i := range climate { // no ties, and a base that keeps close to the rail
			climate[i].Base = climate[i].Rail*0.8 + measure.Temperature(i)
		}
		mid := climate[0]
		mid.Rail += (climate[1].Rail - climate[0].Rail) / 3
		mid.Base += (climate[1].Base - climate[0].Base) / 3
		in := inputs{j, mid, climate, 0, mid.Rail.Sub(mid.Base)}
		g, err := j.Gaps(mid, climate)
		if err != nil {
			continue
		}
		tight, wide := index(climate, g.Tight), index(climate, g.Wide)
		least, most, err := j.Rates(mid, climate)
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range least {
			check("least", in, x.Input, float64(x.By), func(in inputs) (float64, error) {
				g, err := in.j.Gaps(in.today, in.climate)
				return float64(g.Least), err
			}, tight, wide)
		}
		for _, x := range most {
			check("most", in, x.Input, float64(x.By), func(in inputs) (float64, error) {
				g, err := in.j.Gaps(in.today, in.climate)
				return float64(g.Most), err
			}, tight, wide)
		}
		travel, err := j.TravelRates(climate)
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range travel {
			check("travel", in, x.Input, float64(x.By), func(in inputs) (float64, error) {
				m, err := in.j.Travel(in.climate)
				return float64(m), err
			}, tight, wide)
		}
		for _, x := range j.ReachRates() {
			check("reach", in, x.Input, float64(x.By), func(in inputs) (float64, error) {
				g, _ := in.j.Reach()
				return float64(g), nil
			}, tight, wide)
		}
		// What the doc says of the mean, the closing and the opening.
		for name, at := range map[string]expansion.State{"closing": g.Tight, "opening": g.Wide} {
			for i, x := range j.ClosingRates(mid, at) {
				input := least[i].Input
				if name == "opening" {
					input = most[i].Input
				}
				check(name, in, input, float64(x.By), func(in inputs) (float64, error) {
					g, err := in.j.Gaps(in.today, in.climate)
					if name == "opening" {
						return float64(g.Opening), err
					}
					return float64(g.Closing), err
				}, tight, wide)
			}
		}
		both := map[string]float64{}
		for _, x := range append(append([]expansion.Rate[measure.Length](nil), least...), most...) {
			both[x.Input] += float64(x.By) / 2
		}
		for input, by := range both {
			check("mean", in, input, by, func(in inputs) (float64, error) {
				g, err := in.j.Gaps(in.today, in.climate)
				return float64(g.Aim()), err
			}, tight, wide)
		}
		longest, err := j.LongestRates(climate)
		if err != nil {
			t.Fatal(err)
		}
		// The shares of the two sides are kept, so the free lengths themselves
		// are no input; all others are.
		for _, x := range longest {
			check("longest", in, x.Input, float64(x.By), func(in inputs) (float64, error) {
				l, err := in.j.Longest(in.climate)
				return float64(l), err
			}, tight, wide)
		}
		in.feeler = g.Least + (g.Most-g.Least)*measure.Length(r.Float64())
		low, high, err := j.WindowRates(in.feeler, in.baseBelow, climate)
		if err != nil {
			t.Fatal(err)
		}
		for _, x := range low {
			check("low", in, x.Input, float64(x.By), func(in inputs) (float64, error) {
				w, err := in.j.LayingWindow(in.feeler, in.baseBelow, in.climate)
				return float64(w.Low), err
			}, tight, wide)
		}
		for _, x := range high {
			check("high", in, x.Input, float64(x.By), func(in inputs) (float64, error) {
				w, err := in.j.LayingWindow(in.feeler, in.baseBelow, in.climate)
				return float64(w.High), err
			}, tight, wide)
		}
	}
	for _, want := range []string{"least rail temperature today", "most joiner stop", "most joiner length", "most widest gap for wheels", "longest room", "low feeler", "high feeler", "high base below rail", "least base expansion after", "travel widest state's base temperature", "travel free length before", "reach joiner engagement", "reach joiner stop", "closing rail expansion before", "opening base temperature today", "mean rail temperature today", "mean least gap"} {
		n := 0
		for k, v := range checked {
			if strings.HasPrefix(k, want) {
				n += v
			}
		}
		if n < 3 {
			t.Errorf("%s: checked %d times", want, n)
		}
	}
}

// A joiner whose ends keep all of it governs centred, at no reach at all.
func TestReachRatesCentred(t *testing.T) {
	j := expansion.EqualPanels(1000, 19e-6, 0)
	j.Joiner = expansion.Joiner{Length: 10, Engagement: 5}
	if reach, by := j.Reach(); reach != 0 || by != expansion.JoinerCentred {
		t.Fatalf("%v (%v)", reach, by)
	}
	for _, r := range j.ReachRates() {
		k := j.Joiner
		switch r.Input {
		case "joiner length":
			k.Length++
		case "joiner engagement":
			k.Engagement++
		default:
			t.Fatalf("no such input: %q", r.Input)
		}
		near(t, r.Input, float64(r.By), float64(k.Centred()-j.Joiner.Centred()), 1e-12)
	}
}
