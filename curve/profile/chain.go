package profile

import (
	"iter"
	"math"
	"sort"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A piece is a formula along chainage that holds over a stretch.
type piece[P any] interface {
	moved(by float64) P           // the same, by farther along
	reversed(length float64) P    // the same, met from the other end of a line of that length
	scaled(by float64) P          // chainage and value multiplied
	beyond(s float64) P           // what carries on past an end at s
	meets(next P, s float64) bool // no boundary is to be seen at s
}

// A chain is pieces one after another along chainage.
type chain[P piece[P]] struct {
	pieces  []P
	from    []float64 // where each piece begins; -Inf for the first of an open line
	circuit float64   // the length of a circuit, 0 for an open line
}

// A stretch is the part of one piece that a range covers.
type stretch struct {
	piece int
	a, b  float64 // chainages for the piece's formula
	off   float64 // of a from the start of the range
}

// find returns the piece that answers at s and the chainage for its formula.
// One that is not a number is taken as 0, an infinite one as very far.
func (c chain[P]) find(s float64) (int, float64) {
	const far = 1e18
	if s = min(max(s, -far), far); s != s {
		s = 0
	}
	if base := c.from[0]; c.circuit > 0 && !(s >= base && s < base+c.circuit) {
		x := math.Mod(s-base, c.circuit)
		if x < 0 {
			x += c.circuit
		}
		if x >= c.circuit {
			x = 0
		}
		s = base + x
	}
	return max(sort.Search(len(c.from), func(i int) bool { return c.from[i] > s })-1, 0), s
}

// span returns the length of the range and refuses one that has none.
func (c chain[P]) span(from, to measure.Length) (float64, error) {
	l := fault.In("profile")
	within(l, "start of the range", from)
	within(l, "end of the range", to)
	if !l.OK() {
		return 0, l.Err()
	}
	d := float64(to - from)
	if d < 0 {
		if c.circuit == 0 {
			l.Add("end of the range", to, "must not lie before the start of the range at "+mm(from)+"; only on a circuit a range runs over the start")
			return 0, l.Err()
		}
		if d = math.Mod(d, c.circuit); d < 0 {
			d += c.circuit
		}
	}
	return d, nil
}

// walk yields the stretches of the range that begins at from, in order.
func (c chain[P]) walk(from, length float64) iter.Seq[stretch] {
	return func(yield func(stretch) bool) {
		i, s := c.find(from)
		for off := 0.0; ; {
			end := math.Inf(1)
			switch {
			case i+1 < len(c.from):
				end = c.from[i+1]
			case c.circuit > 0:
				end = c.from[0] + c.circuit
			}
			rest := length - off
			if s+rest <= end {
				yield(stretch{i, s, s + rest, off})
				return
			}
			if end > s && !yield(stretch{i, s, end, off}) {
				return
			}
			off += end - s
			if i, s = i+1, end; i == len(c.from) {
				i, s = 0, c.from[0]
			}
		}
	}
}

// place returns the chainage at off past from, on a circuit within 0 to its
// length.
func (c chain[P]) place(from, off float64) measure.Length {
	s := from + off
	if c.circuit > 0 {
		if s = math.Mod(s, c.circuit); s < 0 {
			s += c.circuit
		}
		if s >= c.circuit {
			s = 0
		}
	}
	return measure.Length(s)
}

// boundaries returns where one piece gives way to another, a circuit's within
// 0 to its length.
func (c chain[P]) boundaries() []measure.Length {
	var out []measure.Length
	for i, s := range c.from {
		before := i - 1
		if i == 0 {
			if c.circuit == 0 {
				continue
			}
			before = len(c.from) - 1
		}
		p := c.pieces[before]
		if i == 0 {
			p = p.moved(-c.circuit)
		}
		if !p.meets(c.pieces[i], s) {
			out = append(out, c.place(0, s))
		}
	}
	sort.Slice(out, func(i, j int) bool { return out[i] < out[j] })
	return out
}

// each returns the chain with every piece changed and the boundaries changed
// alike.
func (c chain[P]) each(piece func(P) P, at func(float64) float64) chain[P] {
	out := chain[P]{circuit: c.circuit}
	for i, p := range c.pieces {
		out.pieces = append(out.pieces, piece(p))
		out.from = append(out.from, at(c.from[i]))
	}
	return out
}

func (c chain[P]) moved(by float64) chain[P] {
	if c.circuit > 0 {
		by = math.Mod(by, c.circuit)
		if b := c.from[0] + by; b > c.circuit {
			by -= c.circuit
		} else if b < -c.circuit {
			by += c.circuit
		}
	}
	return c.each(func(p P) P { return p.moved(by) }, func(s float64) float64 { return s + by })
}

func (c chain[P]) scaled(by float64) chain[P] {
	out := c.each(func(p P) P { return p.scaled(by) }, func(s float64) float64 { return s * by })
	out.circuit *= by
	return out
}

func (c chain[P]) reversed(length float64) chain[P] {
	n := len(c.pieces)
	out := chain[P]{circuit: c.circuit}
	for i := n - 1; i >= 0; i-- {
		begin := math.Inf(-1)
		switch {
		case i+1 < n:
			begin = length - c.from[i+1]
		case c.circuit > 0:
			begin = length - (c.from[0] + c.circuit)
		}
		out.pieces = append(out.pieces, c.pieces[i].reversed(length))
		out.from = append(out.from, begin)
	}
	return out
}

// part returns the open chain over the range, its chainage 0 at from.
func (c chain[P]) part(from, length float64) chain[P] {
	var out chain[P]
	add := func(begin float64, p P) {
		out.pieces, out.from = append(out.pieces, p), append(out.from, begin)
	}
	for st := range c.walk(from, length) {
		p := c.pieces[st.piece].moved(st.off - st.a)
		if len(out.pieces) == 0 {
			add(math.Inf(-1), p.beyond(0))
		}
		if st.b > st.a || len(out.pieces) == 1 {
			add(st.off, p)
		}
	}
	add(length, out.pieces[len(out.pieces)-1].beyond(length))
	return out
}
