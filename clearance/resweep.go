package clearance

import (
	"context"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// Resweep returns the envelope of the same stock, with the same settings, on an
// edited line. Where the line begins and ends with the same elements as before
// it sweeps only the changed ones and a vehicle's length before and after, and
// takes over the rest. The answer is that of Sweep on the new line, within the
// tolerance. An envelope of a part of a line is swept anew, and so is all of it
// when the line's length changes under a cant that varies, whose ramps keep
// their chainages.
func (e *Envelope) Resweep(ctx context.Context, line *curve.Alignment) (*Envelope, error) {
	was := e.line.Length()
	set := e.set
	set.From, set.To = 0, 0
	if e.from != 0 || e.to != float64(was) || line == nil || line.Closed() != e.line.Closed() {
		if e.from != 0 || e.to != float64(was) {
			set = e.set
		}
		return Sweep(ctx, line, e.stock, set)
	}
	a, oldB, newB := changed(e.line, line)
	length := float64(line.Length())
	shift := length - float64(was)
	if shift != 0 && e.cant.varies() {
		return Sweep(ctx, line, e.stock, set)
	}
	ext := 0.0
	for i := range e.stock {
		ext = max(ext, e.stock[i].length())
	}
	// The ranges to sweep, in the new line's chainage.
	var todo [][2]float64
	from, to := a-ext, newB+ext
	switch {
	case a == oldB && a == newB: // the same elements, perhaps elsewhere in plan
	case line.Closed() && to-from >= length, !line.Closed() && from <= 0 && to >= length:
		return Sweep(ctx, line, e.stock, set)
	case line.Closed() && from < 0:
		todo = [][2]float64{{0, to}, {from + length, length}}
	case line.Closed() && to > length:
		todo = [][2]float64{{0, to - length}, {from, length}}
	default:
		todo = [][2]float64{{max(0, from), min(length, to)}}
	}
	n := &Envelope{line: line, stock: e.stock, set: e.set, from: 0, to: length, cant: e.cant, breaks: e.breaks}
	n.set.To = line.Length()
	room := len(e.stations) + len(e.stations)/8 + 100
	n.stations = make([]station, 0, room)
	for _, s := range e.sheets {
		n.sheets = append(n.sheets, s.empty(room))
	}
	old, now := e.all(), n.all()
	next := 0
	sweepUpTo := func(c float64) error {
		for ; next < len(todo) && todo[next][0] <= c; next++ {
			set.From, set.To = measure.Length(todo[next][0]), measure.Length(todo[next][1])
			part, err := Sweep(ctx, line, e.stock, set)
			if err != nil {
				return err
			}
			n.stations = append(n.stations, part.stations...)
			for i, s := range part.all() {
				to := now[i]
				for k := range s.side {
					to.side[k] = append(to.side[k], s.side[k]...)
				}
				to.first, to.last = append(to.first, s.first...), append(to.last, s.last...)
			}
		}
		return nil
	}
	for j, st := range e.stations {
		by := 0.0
		if st.c > (a+oldB)/2 || st.c == oldB {
			by = shift
		}
		c := st.c + by
		if err := sweepUpTo(c); err != nil {
			return nil, err
		}
		if inside(todo, c) {
			continue
		}
		before, after := e.line.At(measure.Length(st.c)), line.At(measure.Length(c))
		sin, cos := math.Sincos(float64(after.Heading - before.Heading))
		st.c, st.p = c, after.Point
		st.t = r2.Vec{X: st.t.X*cos - st.t.Y*sin, Y: st.t.X*sin + st.t.Y*cos}
		n.stations = append(n.stations, st)
		for i, s := range old {
			to := now[i]
			for k := range s.side {
				kept := s.side[k][j]
				kept.s += by
				to.side[k] = append(to.side[k], kept)
			}
			if s.first != nil {
				to.first, to.last = append(to.first, s.first[j]+by), append(to.last, s.last[j]+by)
			}
		}
	}
	if err := sweepUpTo(math.Inf(1)); err != nil {
		return nil, err
	}
	return n, nil
}

// empty returns the sheet with nothing kept and room for some stations.
func (s *sheet) empty(room int) *sheet {
	c := *s
	for k := range c.side {
		c.side[k] = make([]keep, 0, room)
	}
	if s.first != nil {
		c.first, c.last = make([]float64, 0, room), make([]float64, 0, room)
	}
	for h, l := range s.leaned {
		if l != nil {
			c.leaned[h] = l.empty(room)
		}
	}
	return &c
}

// inside reports whether c is in one of the ranges.
func inside(ranges [][2]float64, c float64) bool {
	for _, r := range ranges {
		if c >= r[0]-1e-9 && c <= r[1]+1e-9 {
			return true
		}
	}
	return false
}

// changed returns where two lines cease to be the same and where they are the
// same again, the latter in the chainage of each.
func changed(was, now *curve.Alignment) (from, wasTo, nowTo float64) {
	a, b := was.Elements(), now.Elements()
	head := 0
	for head < min(len(a), len(b)) && a[head] == b[head] {
		head++
	}
	tail := 0
	for tail < min(len(a), len(b))-head && a[len(a)-1-tail] == b[len(b)-1-tail] {
		tail++
	}
	return float64(was.Boundaries()[head]), float64(was.Boundaries()[len(a)-tail]), float64(now.Boundaries()[len(b)-tail])
}
