package joints

import (
	"iter"
	"math"
	"sort"

	"example.org/fourfoot/gauge/measure"
)

// sleepers are the stretches between neighbouring joints, of either rail,
// each with its sleepers at an even pitch.
type sleepers struct {
	track track
	near  float64 // of the first and the last of a stretch to its ends
	bays  []bay
}

type bay struct {
	x0, x1 float64
	n      int
}

func newSleepers(s Sleepers, t track, lines []laid) sleepers {
	out := sleepers{track: t}
	if s.Pitch == 0 {
		return out
	}
	q := float64(s.JointPitch)
	if q == 0 {
		q = float64(s.Pitch)
	}
	out.near = q / 2
	for i := 0; i+1 < len(lines); i += 2 {
		r := lines[i].run
		x := append([]float64{r.x0, r.x1}, lines[i].x...)
		for _, v := range lines[i+1].x {
			if v > r.x1 { // a ring's right rail is begun further round
				v -= r.x1 - r.x0
			}
			x = append(x, v)
		}
		sort.Float64s(x)
		last := x[0]
		for k, v := range x[1:] {
			if d := v - last; d > q || k == len(x)-2 && d > 0 {
				n := 1
				if d > q {
					n = int(math.Ceil((d-q)/float64(s.Pitch)-1e-9)) + 1
				}
				out.bays = append(out.bays, bay{last, v, n})
				last = v
			}
		}
	}
	return out
}

// Sleepers yields the chainage of every sleeper, in order along each stretch
// between joints. The first and the last of a stretch stand half the pitch at
// joints from its ends; those between divide the rest evenly, no wider than
// the pitch. Joints closer together than the pitch at joints count as one.
func (p Plan) Sleepers() iter.Seq[measure.Length] {
	s := p.sleepers
	return func(yield func(measure.Length) bool) {
		for _, b := range s.bays {
			for i := range b.n {
				x := b.x0 + (b.x1-b.x0)/2
				if b.n > 1 {
					x = b.x0 + s.near + (b.x1-b.x0-2*s.near)*float64(i)/float64(b.n-1)
				}
				if !yield(s.track.chainage(x)) {
					return
				}
			}
		}
	}
}

func (p *Plan) order(s Sleepers) {
	count := map[measure.Length]int{}
	for _, b := range p.Cutting.Bars {
		count[b.Length]++
	}
	for length, n := range count {
		p.Order.Bars = append(p.Order.Bars, Stock{length, n})
	}
	sort.Slice(p.Order.Bars, func(i, j int) bool { return p.Order.Bars[i].Length > p.Order.Bars[j].Length })
	p.Order.Joiners = len(p.Joints)
	for _, b := range p.sleepers.bays {
		p.Order.Sleepers += b.n
	}
	each := s.Fixings
	if each == 0 {
		each = 4
	}
	p.Order.Fixings = each * p.Order.Sleepers
}
