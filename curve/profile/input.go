package profile

import (
	"fmt"
	"math"
	"strconv"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// Limits on what a profile takes. Both are far beyond a garden; they keep
// every result finite.
const (
	MaxPoints = 10_000                   // points of one profile; more are refused with ErrLimit
	Farthest  = 1000 * measure.Kilometre // the largest chainage, level or length either way
	Steepest  = measure.Gradient(1)      // the steepest gradient, and the steepest ramp on average, either way: 1 in 1
)

func mm(l measure.Length) string {
	return strconv.FormatFloat(float64(l), 'g', 9, 64) + " mm"
}

func within(l *fault.List, field string, v measure.Length) bool {
	if !fault.Finite(l, field, v) {
		return false
	}
	if math.Abs(float64(v)) > float64(Farthest) {
		l.Add(field, mm(v), "must be within "+mm(Farthest)+" either way")
		return false
	}
	return true
}

func checkFactor(factor float64) error {
	l := fault.In("profile")
	fault.Between(l, "factor", factor, 1e-6, 1e6)
	return l.Err()
}

// checkCircuit checks the length of a circuit and the tolerance it closes to.
func checkCircuit(length, tolerance measure.Length) error {
	l := fault.In("profile")
	fault.NotNegative(l, "tolerance", tolerance)
	if within(l, "length of the circuit", length) && length < 1*measure.Millimetre {
		l.Add("length of the circuit", mm(length), "must be 1 mm or more")
	}
	return l.Err()
}

// spread checks what the points of a circuit and an open line have in common:
// their number, and chainages that rise.
func spread(l *fault.List, n int, at func(int) measure.Length, circuit measure.Length) {
	switch {
	case n == 0:
		l.Add("points", 0, "must be at least 1")
	case n > MaxPoints:
		l.Over("points", n, fmt.Sprintf("must be %d or fewer", MaxPoints))
	}
	if !l.OK() {
		return
	}
	for i := range n {
		if !within(l, fmt.Sprintf("point %d: chainage", i+1), at(i)) || i == 0 {
			continue
		}
		if !(at(i) > at(i-1)) {
			l.Add(fmt.Sprintf("point %d: chainage", i+1), mm(at(i)), "must be more than that of the point before, "+mm(at(i-1)))
		}
	}
	if circuit > 0 && at(n-1)-at(0) > circuit*(1+1e-12) {
		l.Add(fmt.Sprintf("point %d: chainage", n), mm(at(n-1)), "must be within one lap of "+mm(circuit)+" from the first point at "+mm(at(0)))
	}
}
