package nem

import (
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// greatest is the most that a length may be here: far above any use, and far
// below where its products leave a float64.
const greatest = 1000 * measure.Kilometre

func positive(l *fault.List, field string, v measure.Length) bool {
	return fault.Positive(l, field, v) && fault.Between(l, field, v, 0, greatest)
}

func checkGauge(l *fault.List, v measure.Length) bool {
	return fault.Between(l, "gauge", v, 0.1*measure.Millimetre, 3*measure.Metre)
}

// CantLimit returns the most cant, a fifteenth of the gauge (NEM 114, ed.
// 2007). The sheet prints it in whole millimetres: 2 at 32, 3 at 45, 4 at 64.
// It also has the cant rise evenly over the whole easement, the inner rail
// staying level.
func CantLimit(gauge measure.Length) (measure.Length, error) {
	l := fault.In("nem")
	if !checkGauge(l, gauge) {
		return 0, l.Err()
	}
	return gauge / 15, nil
}
