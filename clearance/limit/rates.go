package limit

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Rate is by how much an answer changes with one measured input, all others
// as they are: of a length with a length mm a mm. It holds as long as the same
// point governs.
type Rate struct {
	Input  string
	Change float64
}

// An Input is a measured input of an answer.
type Input[In ~float64] struct {
	Name  string
	Value In // as measured
	Step  In // by which it is changed either way; 0 means a thousandth of the value, of 0 a thousandth of its unit
}

// Rates returns by how much an answer of any kind changes with each of its
// inputs: what an error of a millimetre in measuring it is worth. answer is
// asked with the inputs' values, then with each of them a step less and a step
// more; the rate is half the difference over the step, so that it is right to
// the second order of the step and to what the answer itself is off by over it.
// An input on either side of which there is no answer has no rate.
//
// The answer may be any of clearance and its packages: a widest vehicle, a
// spacing, a fouling point, the length of a standing room, a swing, the straight
// that a reverse curve needs. Its errors other than those of package measure
// end the search.
func Rates[In, Out ~float64](answer func(x []In) (Out, error), inputs ...Input[In]) ([]Rate, error) {
	l := fault.In("limit")
	x := make([]In, len(inputs))
	for i, in := range inputs {
		name := in.Name
		if name == "" {
			name = fmt.Sprintf("input %d", i+1)
		}
		fault.Finite(l, name, in.Value)
		fault.NotNegative(l, name+": step", in.Step)
		x[i] = in.Value
	}
	if answer == nil {
		l.Add("answer", "none", "must be given")
	}
	if err := l.Err(); err != nil {
		return nil, err
	}
	if _, err := answer(slices.Clone(x)); err != nil {
		return nil, err
	}
	var out []Rate
	for i, in := range inputs {
		h := in.Step
		if h == 0 {
			h = In(math.Abs(float64(in.Value)) / 1000)
		}
		if h == 0 {
			h = 1e-3
		}
		var f [2]float64
		ok := true
		for j, sign := range [2]In{-1, 1} {
			y := slices.Clone(x)
			y[i] += sign * h
			v, err := answer(y)
			if errors.Is(err, measure.ErrInput) || errors.Is(err, measure.ErrNoAnswer) || errors.Is(err, measure.ErrLimit) {
				ok = false
				break
			}
			if err != nil {
				return nil, err
			}
			f[j] = float64(v)
		}
		if change := (f[1] - f[0]) / (2 * float64(h)); ok && !math.IsNaN(change) && !math.IsInf(change, 0) {
			out = append(out, Rate{in.Name, change})
		}
	}
	return out, nil
}

// rates returns how the radius changes with each input, from the lack F of a
// bend, which stays zero: dR/dp = R²·(∂F/∂p)/(∂F/∂k), by differences of 0.02 mm
// either way. The vehicle's measures are those of the one that governs.
func (q *question) rates(ctx context.Context, b Bend, k float64, at excess) ([]Rate, error) {
	const h = 0.02
	inputs := []Input[float64]{{"curvature", k, 1e-4 * k}}
	var which []int // of the question's own inputs: not a side that is open
	for i, v := range q.values {
		if !math.IsInf(v, 0) {
			which = append(which, i)
			inputs = append(inputs, Input[float64]{q.names[i], v, h})
		}
	}
	inputs = append(inputs, Input[float64]{"margin", float64(b.Margin), h})
	n := len(inputs)
	i := at.from.Stock
	if i >= 0 && i < len(b.Stock) {
		inputs = append(inputs, Input[float64]{"body length", 0, h}, Input[float64]{"pivot spacing", 0, h}, Input[float64]{"body width", 0, h})
		if bogies(b.Stock[i]) {
			inputs = append(inputs, Input[float64]{"bogie wheelbase", 0, h})
		}
	}
	all, err := Rates(func(x []float64) (float64, error) {
		b, values := b, slices.Clone(q.values)
		b.Margin = measure.Length(x[n-1])
		for j, of := range which {
			values[of] = x[1+j]
		}
		if len(x) > n {
			m := append(slices.Clone(x[n:]), 0)
			if m[0] != 0 || m[1] != 0 || m[2] != 0 || m[3] != 0 {
				b.Stock = slices.Clone(b.Stock)
				b.Stock[i] = stretched(b.Stock[i], m[0], m[1], m[2], m[3])
			}
		}
		e, err := q.lack(ctx, b, values, x[0])
		return e.by, err
	}, inputs...)
	if err != nil || len(all) == 0 || all[0].Input != "curvature" || all[0].Change <= 0 {
		return nil, err
	}
	perK := all[0].Change
	for i := range all {
		all[i].Change /= perK * k * k
	}
	return all[1:], nil
}

func bogies(v clearance.Vehicle) bool {
	for _, c := range v.Carriers {
		if c.Wheelbase == 0 {
			return false
		}
	}
	return true
}

// stretched returns the vehicle with its bodies longer, their pivots farther
// apart, the bodies wider and the bogies' wheelbases longer by so much.
func stretched(v clearance.Vehicle, length, pivots, width, wheelbase float64) clearance.Vehicle {
	v = v.Turned().Turned() // a copy
	for i := range v.Bodies {
		b := &v.Bodies[i]
		b.Pivots += measure.Length(pivots)
		size := extent(b.Bands)
		along, across := 1+measure.Length(length)/size.length(), 1+measure.Length(width)/size.width()
		for _, band := range b.Bands {
			for j := range band.Outline {
				band.Outline[j].Along *= along
				band.Outline[j].Across *= across
			}
		}
	}
	for i := range v.Carriers {
		if v.Carriers[i].Wheelbase > 0 {
			v.Carriers[i].Wheelbase += measure.Length(wheelbase)
		}
	}
	return v
}

// A box is how far outlines go.
type box struct{ rear, front, right, left measure.Length }

func (b box) length() measure.Length { return b.front - b.rear }
func (b box) width() measure.Length  { return b.left - b.right }

func extent(bands []clearance.Band) (e box) {
	first := true
	for _, band := range bands {
		for _, p := range band.Outline {
			if first {
				e, first = box{p.Along, p.Along, p.Across, p.Across}, false
			}
			e.rear, e.front = min(e.rear, p.Along), max(e.front, p.Along)
			e.right, e.left = min(e.right, p.Across), max(e.left, p.Across)
		}
	}
	return e
}
