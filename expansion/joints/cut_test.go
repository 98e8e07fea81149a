package joints_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"example.org/fourfoot/expansion/joints"
	"example.org/fourfoot/gauge/measure"
)

func checkCutting(t *testing.T, pieces []measure.Length, kerf measure.Length, c joints.Cutting) {
	t.Helper()
	var needed, used measure.Length
	times := make([]int, len(pieces))
	for k, b := range c.Bars {
		used += b.Length
		rest := b.Length
		for _, i := range b.Pieces {
			times[i]++
			rest -= pieces[i]
			if rest > 1e-6 {
				rest -= kerf
			}
		}
		if rest < -kerf-1e-6 || math.Abs(float64(max(rest, 0)-b.Rest)) > 1e-6 {
			t.Errorf("bar %d: rest %v, by addition %v", k, b.Rest, rest)
		}
	}
	for i, p := range pieces {
		needed += p
		if times[i] != 1 {
			t.Errorf("piece %d is cut %d times", i, times[i])
		}
	}
	if math.Abs(float64(needed-c.Needed)) > 1e-6 || math.Abs(float64(used-c.Used)) > 1e-6 || math.Abs(float64(used-needed-c.Waste)) > 1e-6 {
		t.Errorf("needed %v, used %v: says %v, %v, waste %v", needed, used, c.Needed, c.Used, c.Waste)
	}
}

func TestCut(t *testing.T) {
	for _, c := range []struct {
		name   string
		pieces []measure.Length
		stock  []joints.Stock
		kerf   measure.Length
		bars   int
		waste  measure.Length
	}{
		{"whole bars", []measure.Length{1000, 1000, 1000}, []joints.Stock{{Length: 1000}}, 2, 3, 0},
		{"pairs", []measure.Length{600, 400, 700, 300}, []joints.Stock{{Length: 1000}}, 0, 2, 0},
		{"pairs that the saw parts", []measure.Length{600, 400, 700, 300}, []joints.Stock{{Length: 1000}}, 1, 2 + 1, 1000},
		{"an offcut in the shed goes first", []measure.Length{950, 300}, []joints.Stock{{Length: 1000}, {Length: 310, Count: 1}}, 1, 2, 60},
		{"one long bar instead of three short", []measure.Length{500, 500, 500}, []joints.Stock{{Length: 900}, {Length: 1500}}, 0, 1, 0},
		{"nothing", nil, []joints.Stock{{Length: 900}}, 0, 0, 0},
	} {
		got, err := joints.Cut(c.pieces, c.stock, c.kerf)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		checkCutting(t, c.pieces, c.kerf, got)
		if len(got.Bars) != c.bars || math.Abs(float64(got.Waste-c.waste)) > 1e-6 {
			t.Errorf("%s: %d bars, waste %v: want %d and %v (%+v)", c.name, len(got.Bars), got.Waste, c.bars, c.waste, got)
		}
	}
}

// Best fit decreasing never needs more than 11/9 of the bars that the best
// cutting does, and 6/9 of one (the bound of first fit decreasing, Dósa 2007,
// holds for best fit too: Johnson et al. 1974; both from memory); here pieces
// are broken out of whole bars, so that the best is known.
func TestCutNearBest(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 32))
	worst := 0.0
	for range 300 {
		best := 1 + r.IntN(40)
		var pieces []measure.Length
		for range best {
			left := measure.Length(1000)
			for left > 250 && r.IntN(5) > 0 {
				p := measure.Length(100 + r.Float64()*float64(left-200))
				pieces = append(pieces, p)
				left -= p
			}
			pieces = append(pieces, left)
		}
		c, err := joints.Cut(pieces, []joints.Stock{{Length: 1000}}, 0)
		if err != nil {
			t.Fatal(err)
		}
		checkCutting(t, pieces, 0, c)
		if c.Bound != best {
			t.Errorf("bound %d, the pieces fill %d bars", c.Bound, best)
		}
		if float64(len(c.Bars)) > float64(best)*11/9+6.0/9 {
			t.Errorf("%d bars where %d do", len(c.Bars), best)
		}
		worst = max(worst, float64(len(c.Bars))/float64(best))
	}
	t.Logf("worst ratio %.3f", worst)
}

func TestCutBadInput(t *testing.T) {
	stock := []joints.Stock{{Length: 1000}}
	for name, c := range map[string]struct {
		pieces []measure.Length
		stock  []joints.Stock
		kerf   measure.Length
		kind   error
	}{
		"piece of no length": {[]measure.Length{0}, stock, 0, measure.ErrInput},
		"NaN piece":          {[]measure.Length{measure.Length(math.NaN())}, stock, 0, measure.ErrInput},
		"negative kerf":      {[]measure.Length{10}, stock, -1, measure.ErrInput},
		"no stock":           {[]measure.Length{10}, nil, 0, measure.ErrInput},
		"negative count":     {[]measure.Length{10}, []joints.Stock{{Length: 10, Count: -1}}, 0, measure.ErrInput},
		"piece too long":     {[]measure.Length{1001}, stock, 0, measure.ErrNoAnswer},
		"used up":            {[]measure.Length{900, 900}, []joints.Stock{{Length: 1000, Count: 1}}, 0, measure.ErrNoAnswer},
		"endless count":      {[]measure.Length{10}, []joints.Stock{{Length: 10, Count: math.MaxInt}, {Length: 20, Count: math.MaxInt}}, 0, measure.ErrLimit},
	} {
		if _, err := joints.Cut(c.pieces, c.stock, c.kerf); !errors.Is(err, c.kind) {
			t.Errorf("%s: got %v, want %v", name, err, c.kind)
		}
	}
}
