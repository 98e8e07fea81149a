package nem

import (
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// shifts is the shift that NEM 113, ed. 2016, sets for a gauge.
var shifts = map[measure.Length]measure.Length{32: 18, 45: 25, 64: 36}

const (
	withoutAbove = 60  // no easement is needed above so many gauges
	betterBelow  = 0.8 // of the radius
	roundedTo    = 5 * measure.Millimetre
)

// An Easement asks NEM 113 for the length of an easement between a straight and
// an arc.
type Easement struct {
	Gauge  measure.Length
	Radius measure.Length // of the arc
	// Shift of the arc from the straight; 0 means the sheet's, which it has for
	// gauges of 32, 45 and 64 mm only.
	Shift measure.Length
	// Longest vehicle, than which the easement is not to be shorter; 0 means
	// that none is asked after.
	Longest measure.Length
}

// An EasementLength is NEM 113's answer.
type EasementLength struct {
	Exact     measure.Length // √(24·R·f)
	Length    measure.Length // rounded to 5 mm, at least 5, raised to the longest vehicle
	Shift     measure.Length // the f that was used
	Needed    bool           // R is not above 60 G; above, the sheet lets it go
	Long      bool           // Length is not below 0.8 R, as would be better
	ByVehicle bool           // the longest vehicle sets the length
}

// Find returns L = √(24·R·f), rounded to 5 mm as the sheet's table is (NEM 113,
// ed. 2016). The sheet keeps L below R: where it does not come out so the error
// is measure.ErrNoAnswer and names a radius that serves.
func (e Easement) Find() (EasementLength, error) {
	l := fault.In("nem")
	okG := checkGauge(l, e.Gauge)
	positive(l, "radius", e.Radius)
	fault.Between(l, "shift", e.Shift, 0, greatest)
	fault.Between(l, "longest vehicle", e.Longest, 0, greatest)
	f := e.Shift
	if f == 0 && okG {
		if f = shifts[e.Gauge]; f == 0 {
			l.NoAnswer("gauge", e.Gauge, "the sheet has a shift for 32, 45 and 64 mm only: give the shift")
		}
	}
	if err := l.Err(); err != nil {
		return EasementLength{}, err
	}
	a := EasementLength{Shift: f, Needed: e.Radius <= withoutAbove*e.Gauge}
	a.Exact = measure.Length(math.Sqrt(24 * float64(e.Radius) * float64(f)))
	a.Length = max(roundedTo, roundedTo*measure.Length(math.Round(float64(a.Exact/roundedTo))))
	if least := roundedTo * measure.Length(math.Ceil(float64(e.Longest/roundedTo))); a.Length < e.Longest {
		a.Length, a.ByVehicle = least, true
	}
	a.Long = a.Length >= betterBelow*e.Radius
	if a.Length >= e.Radius {
		serves := max(24*f, e.Longest) + 2*roundedTo
		l.NoAnswer("radius", e.Radius, fmt.Sprintf("the easement of %v would not be shorter than the radius: take a radius of %v or more, or a smaller shift than %v", a.Length, serves, f))
		return EasementLength{}, l.Err()
	}
	return a, nil
}

// FreeShift returns the shift that NEM 113, ed. 2016, gives an easement of a
// freely chosen length: L²/24R below L/R 0.6, L²/23R from there to 0.8 and
// L²/22R above. It steps at both limits, as the sheet does, and it is the
// sheet's: the shift of a clothoid is a little below L²/24R throughout.
func FreeShift(radius, length measure.Length) (measure.Length, error) {
	l := fault.In("nem")
	okR := positive(l, "radius", radius)
	okL := positive(l, "easement length", length)
	if okR && okL && length >= radius {
		l.Add("easement length", length, fmt.Sprintf("must be less than the radius, %v", radius))
	}
	if err := l.Err(); err != nil {
		return 0, err
	}
	by := measure.Length(24)
	switch {
	case length > 0.8*radius:
		by = 22
	case length >= 0.6*radius:
		by = 23
	}
	return length * (length / radius) / by, nil
}
