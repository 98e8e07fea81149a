package clearance

import (
	"fmt"
	"math"

	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// Allowances are what is added to the geometric reach, each by name. The zero
// value adds nothing. They add arithmetically, the worst case of all at once.
//
// Play and cant are counted in the sweep, because they can change which point
// governs: play grows with overhang, and on a cant ramp a pose that reaches less
// may lean more. The others are counted where an envelope is compared with
// something: laying, heat and margin sideways alike at every height, the rest
// by height and place.
type Allowances struct {
	Play    measure.Length // sideways freedom of each wheelset in the track, each way from the middle: half of gauge less width over flanges; shifted and skewed
	Laying  measure.Length // gauge and laying tolerance: how far the track may lie off its place
	Heat    measure.Length // sideways movement of the track with heat
	Running measure.Length // a running margin; leave it out where the audit's own margin is to hold it

	Springs    measure.Angle  // roll of the body on its springs, each way
	RollCentre measure.Length // height that it rolls about, above the plane of both rail heads

	Cant        profile.Cant   // of the track, on a circuit a closed one; with it the section square to the line turns rigidly about the head of the rail that the cant's datum keeps level
	RailCentres measure.Length // between the centres of the rail heads: gauge and head width; needed with a cant
	Level       profile.Level  // of the track: what it curves upright lifts the middle of a body in a sag, its ends on a crest
}

func (a Allowances) check(l *fault.List) {
	fault.NotNegative(l, "play of the wheels", a.Play)
	fault.NotNegative(l, "laying tolerance", a.Laying)
	fault.NotNegative(l, "movement with heat", a.Heat)
	fault.NotNegative(l, "running margin", a.Running)
	fault.Between(l, "roll on springs", a.Springs, 0, 20*measure.Degree)
	fault.Finite(l, "roll centre", a.RollCentre)
	if a.canted() {
		if fault.Positive(l, "rail centres", a.RailCentres) {
			a.checkCant(l)
		}
	} else {
		fault.NotNegative(l, "rail centres", a.RailCentres)
	}
}

// checkCant refuses a cant that no track has: a lean of more than 30°. Between
// its boundaries a cant is not more than at them.
func (a Allowances) checkCant(l *fault.List) {
	most := a.Cant.At(0)
	for _, b := range a.Cant.Boundaries() {
		if u := a.Cant.At(b); math.Abs(float64(u)) > math.Abs(float64(most)) {
			most = u
		}
	}
	if math.Abs(float64(most)) > float64(a.RailCentres)/2 {
		l.Add("cant", most, fmt.Sprintf("must be at most half the rail centres of %v", a.RailCentres))
	}
}

// canted reports whether a cant was given.
func (a Allowances) canted() bool { return a.Cant.Datum() != 0 }

// A Share is one allowance's part in a clearance, in mm towards the structure.
type Share struct {
	Name   string
	Amount measure.Length
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
