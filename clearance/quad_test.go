package clearance_test

import (
	"math"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// A body that leans over the top of a low wall: what is nearest is its flank
// beside the wall's top edge, not its eaves high above the wall.
func TestAuditLeansOverALowWall(t *testing.T) {
	const g, u = 47.5, 6.0
	cant, err := profile.NewCant(profile.Centreline, profile.CantPoint{Cant: u})
	if err != nil {
		t.Fatal(err)
	}
	e := allowed(t, clearance.Allowances{Cant: cant, RailCentres: g})
	sin, cos := u/g, math.Sqrt(1-u*u/g/g)
	y := func(z float64) float64 { return (50 + z*sin) / cos } // of the flank at a height
	for _, offset := range []float64{y(40) + 1, y(40) + 5} {
		f := audit(t, e, 0, wall(curve.Left, measure.Length(offset), -20, 40))[0]
		if want := offset - y(40); math.Abs(float64(f.Gap)-want) > 1e-6 || f.Upright {
			t.Errorf("wall at %v: gap %v, upright %v, want %v", offset, float64(f.Gap), f.Upright, want)
		}
	}
}
