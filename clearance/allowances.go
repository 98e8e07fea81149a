package clearance

import (
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// Allowances are what is added to the geometric reach, each by name. The zero
// value adds nothing. They add arithmetically, the worst case of all at once.
type Allowances struct {
	Play   measure.Length // sideways freedom of each wheelset in the track, each way from the middle; shifted and skewed, it grows with overhang
	Laying measure.Length // gauge and laying tolerance: how far the track may lie off its place
	Heat   measure.Length // sideways movement of the track with heat
	Margin measure.Length // running margin
}

func (a Allowances) check(l *fault.List) {
	fault.NotNegative(l, "play of the wheels", a.Play)
	fault.NotNegative(l, "laying tolerance", a.Laying)
	fault.NotNegative(l, "movement with heat", a.Heat)
	fault.NotNegative(l, "running margin", a.Margin)
}

// play returns how far a point x along a part, in the part's own axes, may
// stand to either side when every wheelset has the freedom j each way, and the
// two places where that bends. A part hangs on two points whose freedoms are
// independent, so the worst is the lever sum |1-u|·a + |u|·b with u the part
// of the way from the one to the other: constant between pivots of equal
// freedom, and growing in proportion beyond them. Plane geometry to first
// order in play over spacing.
func (v *Vehicle) play(part int, j float64) (at func(x float64) float64, bends [2]float64) {
	lever := func(x0, a, x1, b float64) (func(x float64) float64, [2]float64) {
		return func(x float64) float64 {
			u := (x - x0) / (x1 - x0)
			return math.Abs(1-u)*a + math.Abs(u)*b
		}, [2]float64{x0, x1}
	}
	carrier := func(c *Carrier) (func(x float64) float64, [2]float64) {
		if c.Wheelbase == 0 {
			return func(float64) float64 { return j }, [2]float64{}
		}
		return lever(-float64(c.Wheelbase)/2, j, float64(c.Wheelbase)/2, j)
	}
	body := func(i int) (func(x float64) float64, [2]float64) {
		rear, front := &v.Carriers[i], &v.Carriers[i+1]
		er, ef := pins(*rear, *front)
		a, _ := carrier(rear)
		b, _ := carrier(front)
		half := float64(v.Bodies[i].Pivots) / 2
		return lever(-half, a(float64(er)), half, b(float64(ef)))
	}
	if part < len(v.Bodies) {
		return body(part)
	}
	if part -= len(v.Bodies); part < len(v.Carriers) {
		return carrier(&v.Carriers[part])
	}
	part -= len(v.Carriers)
	for i := range v.Bodies {
		if trucks := v.Bodies[i].Trucks; part < len(trucks) {
			on, _ := body(i)
			return lever(0, j, -float64(trucks[part].Bar), on(float64(trucks[part].Hinge)))
		}
		part -= len(v.Bodies[i].Trucks)
	}
	return func(float64) float64 { return 0 }, bends
}
