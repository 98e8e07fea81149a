package joints

import (
	"fmt"
	"math"
	"sort"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Bar is one bar or offcut and what is cut from it.
type Bar struct {
	Length measure.Length
	Pieces []int          // indices of the pieces, in the order they are cut off
	Rest   measure.Length // left over
}

// A Cutting shares pieces out to bars.
type Cutting struct {
	Bars   []Bar
	Needed measure.Length // sum of the pieces
	Used   measure.Length // sum of the bars
	Waste  measure.Length // Used - Needed: rests and saw kerfs
	Bound  int            // no cutting can do with fewer bars than ⌈Needed / longest stock⌉
}

// fit is what a piece may be longer than a bar by, for rounding.
const fit = 1e-6 // mm

// Cut shares the pieces out to bars of the stock, longest first, each to the
// shortest offcut or counted bar that holds it (best fit decreasing); a new
// bar is begun only when none does. Each stock length without a count is tried
// as the one to begin with, and the cutting that uses least rail is kept. Its
// waste stands beside the lower bound; it is not promised to be least.
//
// A piece longer than any bar that is left is measure.ErrNoAnswer.
func Cut(pieces []measure.Length, stock []Stock, kerf measure.Length) (Cutting, error) {
	l := fault.In("joints")
	checkStock(l, stock)
	fault.NotNegative(l, "saw kerf", kerf)
	if len(pieces) > 2*MaxPieces {
		l.Over("pieces", len(pieces), fmt.Sprintf("at most %d", 2*MaxPieces))
	} else {
		for i, p := range pieces {
			fault.Positive(l, fmt.Sprintf("piece %d: length", i+1), p)
		}
	}
	held := 0
	for _, k := range stock {
		if k.Count > 0 {
			held = min(held, math.MaxInt-k.Count) + k.Count
		}
	}
	if held > 2*MaxPieces {
		l.Over("stock", fmt.Sprintf("of %d counted bars", held), fmt.Sprintf("at most %d", 2*MaxPieces))
	}
	if err := l.Err(); err != nil {
		return Cutting{}, err
	}
	order := make([]int, len(pieces))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return pieces[order[a]] > pieces[order[b]] })
	var best Cutting
	found := false
	for _, first := range firsts(stock) {
		c, err := cutWith(pieces, order, stock, kerf, first)
		if err != nil {
			return Cutting{}, err
		}
		if !found || c.Used < best.Used-fit {
			best, found = c, true
		}
	}
	for _, p := range pieces {
		best.Needed += p
	}
	best.Waste = best.Used - best.Needed
	best.Bound = int(math.Ceil(float64(best.Needed/longest(stock)) - 1e-9))
	return best, nil
}

// firsts returns the lengths worth beginning new bars with; 0 stands for the
// shortest that holds the piece.
func firsts(stock []Stock) []measure.Length {
	out := []measure.Length{0}
	seen := map[measure.Length]bool{}
	for _, k := range stock {
		if k.Count == 0 && !seen[k.Length] && len(out) < 20 {
			seen[k.Length] = true
			out = append(out, k.Length)
		}
	}
	if len(out) == 2 {
		return out[:1] // one length only: both are the same
	}
	return out
}

// A rest is what is left of a bar, open (bar ≥ 0) or still whole.
type rest struct {
	length measure.Length
	bar    int
}

func cutWith(pieces []measure.Length, order []int, stock []Stock, kerf, first measure.Length) (Cutting, error) {
	c := Cutting{Bars: make([]Bar, 0, len(pieces))}
	var pool []rest // by length
	var endless []measure.Length
	for _, k := range stock {
		if k.Count == 0 {
			endless = append(endless, k.Length)
		}
		for range k.Count {
			pool = append(pool, rest{k.Length, -1})
		}
	}
	sort.Slice(pool, func(i, j int) bool { return pool[i].length < pool[j].length })
	sort.Slice(endless, func(i, j int) bool { return endless[i] < endless[j] })
	var least measure.Length
	if len(order) > 0 {
		least = pieces[order[len(order)-1]]
	}
	for _, i := range order {
		p := pieces[i]
		at := sort.Search(len(pool), func(k int) bool { return pool[k].length >= p-fit })
		var from rest
		if at < len(pool) {
			from = pool[at]
			pool = append(pool[:at], pool[at+1:]...)
		} else {
			length, ok := begin(endless, p, first)
			if !ok {
				l := fault.In("joints")
				l.NoAnswer(fmt.Sprintf("piece %d", i+1), "of "+mm(p), "no bar left in stock is that long: a longer bar, more bars or a shorter panel would do")
				return Cutting{}, l.Err()
			}
			from = rest{length, -1}
		}
		if from.bar < 0 {
			c.Bars = append(c.Bars, Bar{Length: from.length})
			c.Used += from.length
			from.bar = len(c.Bars) - 1
		}
		b := &c.Bars[from.bar]
		b.Pieces = append(b.Pieces, i)
		left := from.length - p
		if left > fit { // else it is the whole bar, and there is no cut
			left = max(left-kerf, 0)
		} else {
			left = 0
		}
		b.Rest = left
		if left >= least-fit && left > 0 {
			k := sort.Search(len(pool), func(k int) bool { return pool[k].length >= left })
			pool = append(pool, rest{})
			copy(pool[k+1:], pool[k:])
			pool[k] = rest{left, from.bar}
		}
	}
	return c, nil
}

// begin returns the length of a new bar for a piece: the first choice where it
// is long enough, else the shortest that is.
func begin(endless []measure.Length, p, first measure.Length) (measure.Length, bool) {
	if first >= p-fit && first > 0 {
		return first, true
	}
	for _, k := range endless {
		if k >= p-fit {
			return k, true
		}
	}
	return 0, false
}
