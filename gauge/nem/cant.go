package nem

import (
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// CantLimit returns the most cant, a fifteenth of the gauge (NEM 114, ed.
// 2007). The sheet prints it in whole millimetres: 2 at 32, 3 at 45, 4 at 64.
// It also has the cant rise evenly over the whole easement, the inner rail
// staying level.
func CantLimit(gauge measure.Length) (measure.Length, error) {
	l := fault.In("nem")
	if !fault.Positive(l, "gauge", gauge) {
		return 0, l.Err()
	}
	return gauge / 15, nil
}
