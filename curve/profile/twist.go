package profile

import (
	"math"
	"slices"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
	"example.org/fourfoot/internal/solve"
)

// A Twist is the change of cant between the two axles of a wheelbase.
type Twist struct {
	Chainage measure.Length // of the rear axle
	Change   measure.Length // cant at the front axle less that at the rear
}

// Twist returns the change of cant over a wheelbase whose rear axle stands at
// chainage s: what one wheel hangs in the air, on a frame that does not give.
func (c Cant) Twist(s, wheelbase measure.Length) measure.Length { return c.At(s+wheelbase) - c.At(s) }

// MaxTwist returns the largest twist, either way, over a wheelbase whose rear
// axle runs between two chainages, to within 1e-9 mm; the first of several.
func (c Cant) MaxTwist(from, to, wheelbase measure.Length) (Twist, error) {
	d, err := c.chain.span(from, to)
	if err != nil {
		return Twist{}, err
	}
	l := fault.In("profile")
	if fault.Positive(l, "wheelbase", wheelbase) && within(l, "wheelbase", wheelbase) && c.chain.circuit > 0 && float64(wheelbase) >= c.chain.circuit {
		l.Add("wheelbase", mm(wheelbase), "must be less than the circuit of "+mm(measure.Length(c.chain.circuit)))
	}
	if !l.OK() {
		return Twist{}, l.Err()
	}
	out := Twist{Chainage: from}
	if len(c.chain.pieces) == 0 {
		return out, nil
	}
	if c.chain.circuit > 0 {
		d = min(d, c.chain.circuit)
	}
	b := float64(wheelbase)
	// Between these places of the rear axle both axles stay on one formula.
	knots := []float64{0, d}
	for st := range c.chain.walk(float64(from), d+b) {
		for _, x := range [2]float64{st.off, st.off - b} {
			if x > 0 && x < d {
				knots = append(knots, x)
			}
		}
		if r := c.chain.pieces[st.piece]; !r.constant() { // a Helmert ramp has a corner of its rate at its middle
			m := st.off + r.at + r.length/2 - st.a
			for _, x := range [2]float64{m, m - b} {
				if x > 0 && x < d {
					knots = append(knots, x)
				}
			}
		}
	}
	slices.Sort(knots)
	twist := func(x float64) float64 { return float64(c.Twist(from+measure.Length(x), wheelbase)) }
	rate := func(x float64) float64 {
		s := from + measure.Length(x)
		return float64(c.Ramp(s+wheelbase) - c.Ramp(s))
	}
	try := func(x float64) {
		if u := twist(x); math.Abs(u) > math.Abs(float64(out.Change))+1e-12 {
			out = Twist{c.chain.place(float64(from), x), measure.Length(u)}
		}
	}
	for i, a := range knots {
		try(a)
		if i+1 == len(knots) {
			break
		}
		// Within one formula the rate has few zeros: look for them in parts.
		const parts = 16
		h := (knots[i+1] - a) / parts
		if h < 1e-9 {
			continue
		}
		for j := range parts {
			lo, hi := a+h*float64(j), a+h*float64(j+1)
			try(lo)
			if x, ok := solve.Brent(rate, lo+h*1e-6, hi-h*1e-6, 1e-9); ok {
				try(x)
			}
		}
	}
	return out, nil
}

// SteepestRamp returns the steepest ramp gradient, either way, between two
// chainages; the first of several.
func (c Cant) SteepestRamp(from, to measure.Length) (Slope, error) {
	d, err := c.chain.span(from, to)
	if err != nil || len(c.chain.pieces) == 0 {
		return Slope{Chainage: from}, err
	}
	if c.chain.circuit > 0 {
		d = min(d, c.chain.circuit)
	}
	out := Slope{Chainage: from}
	try := func(st stretch, s float64, r ramp) {
		if i := r.rate(s); math.Abs(i) > math.Abs(float64(out.Gradient))*(1+1e-12) {
			out = Slope{c.chain.place(float64(from), st.off+s-st.a), measure.Gradient(i)}
		}
	}
	for st := range c.chain.walk(float64(from), d) {
		r := c.chain.pieces[st.piece]
		for _, s := range [3]float64{st.a, min(max(r.at+r.length/2, st.a), st.b), st.b} {
			try(st, s, r)
		}
		if r.bow != nil { // steepest anywhere
			const parts = 16
			h := (st.b - st.a) / parts
			for i := 1; i < parts; i++ {
				s, _ := solve.Golden(func(s float64) float64 { return -math.Abs(r.rate(s)) }, st.a+h*float64(i-1), st.a+h*float64(i+1), 1e-6*h, math.Inf(-1))
				try(st, s, r)
			}
		}
	}
	return out, nil
}
