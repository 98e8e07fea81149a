package profile

import (
	"math"

	"example.org/fourfoot/gauge/measure"
)

// A Place is a level at a chainage.
type Place struct {
	Chainage, Level measure.Length
}

// Highest returns the highest place between two chainages, the first of
// several. On a circuit `to` may lie below `from`, here and in the calls
// below: the range then runs over the start.
func (l Level) Highest(from, to measure.Length) (Place, error) { return l.extreme(from, to, 1) }

// Lowest returns the lowest place between two chainages, the first of several.
func (l Level) Lowest(from, to measure.Length) (Place, error) { return l.extreme(from, to, -1) }

func (l Level) extreme(from, to measure.Length, sign float64) (Place, error) {
	d, err := l.chain.span(from, to)
	if err != nil || len(l.chain.pieces) == 0 {
		return Place{Chainage: from}, err
	}
	if l.chain.circuit > 0 {
		d = min(d, l.chain.circuit)
	}
	best, off := math.Inf(-1), 0.0
	for st := range l.chain.walk(float64(from), d) {
		p := l.chain.pieces[st.piece]
		try := func(s float64) {
			if z := sign * p.level(s); z > best {
				best, off = z, st.off+s-st.a
			}
		}
		try(st.a)
		if s, ok := p.flat(st.a, st.b); ok {
			try(s)
		}
		try(st.b)
	}
	return Place{l.chain.place(float64(from), off), measure.Length(sign * best)}, nil
}

// A Slope is a gradient at a chainage.
type Slope struct {
	Chainage measure.Length
	Gradient measure.Gradient
}

// Steepest returns the steepest place between two chainages, up or down, the
// first of several.
func (l Level) Steepest(from, to measure.Length) (Slope, error) {
	d, err := l.chain.span(from, to)
	if err != nil || len(l.chain.pieces) == 0 {
		return Slope{Chainage: from}, err
	}
	if l.chain.circuit > 0 {
		d = min(d, l.chain.circuit)
	}
	out := Slope{Chainage: from}
	for st := range l.chain.walk(float64(from), d) {
		for _, s := range [2]float64{st.a, st.b} { // a gradient has no extreme within a piece
			if i := l.chain.pieces[st.piece].gradient(s); math.Abs(i) > math.Abs(float64(out.Gradient)) {
				out = Slope{l.chain.place(float64(from), st.off+s-st.a), measure.Gradient(i)}
			}
		}
	}
	return out, nil
}

// TrueLength returns the length along the slope between two chainages,
// ∫√(1+i²) ds in closed form: what a tape laid on the track reads, more than
// the plan distance by about i²/2 of it. A rail on a bend is longer or shorter
// in plan than the centreline; add to its plan length the difference between
// TrueLength and the plan distance.
func (l Level) TrueLength(from, to measure.Length) (measure.Length, error) {
	d, err := l.chain.span(from, to)
	if err != nil || len(l.chain.pieces) == 0 {
		return measure.Length(d), err
	}
	sum := 0.0
	add := func(length, times float64) {
		for st := range l.chain.walk(float64(from), length) {
			sum += times * l.chain.pieces[st.piece].along(st.a, st.b)
		}
	}
	if l.chain.circuit > 0 && d > l.chain.circuit {
		laps := math.Floor(d / l.chain.circuit)
		add(l.chain.circuit, laps)
		d -= laps * l.chain.circuit
	}
	add(d, 1)
	return measure.Length(sum), nil
}
