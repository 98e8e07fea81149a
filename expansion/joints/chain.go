package joints

import (
	"fmt"

	"example.org/fourfoot/curve"
)

// A layer places the joints of one run: of both rails together where they are
// square, else of one rail.
type layer struct {
	track    track
	run      run
	rails    []curve.Hand
	panel    float64
	shortest float64
	gap      func(side curve.Hand, joint int) float64 // of the run's joint with that number, its start being 0
	targets  []float64                                // where joints would best come; nil: as far as they go
	warn     func(string)
}

// share returns what the piece after or before the end of a run gives to the
// gap there: half of one that is shared, all of one at an object.
func (e end) share(gap float64) float64 {
	switch {
	case !e.joint:
		return 0
	case e.shared:
		return gap / 2
	}
	return gap
}

func (y layer) lead(side curve.Hand, joint int) float64 {
	if joint == 0 {
		return y.run.start.share(y.gap(side, 0))
	}
	return y.gap(side, joint) / 2
}

// reach returns how far the piece from joint number k at x may go, and whether
// that is the end of the run.
func (y layer) reach(x float64, k int) (float64, bool) {
	far, last := y.run.x1, true
	for _, side := range y.rails {
		want := y.panel + y.lead(side, k)
		if whole := want + y.run.end.share(y.gap(side, k+1)); y.run.x1-x > whole/least || y.track.rail(side, x, y.run.x1) > whole+1e-10 {
			last = false
			far = min(far, y.track.reach(side, x, want+y.gap(side, k+1)/2, y.run.x1))
		}
	}
	if !last && far > y.run.x1-1e-6 { // the end has a larger share of a gap than a joint before it would
		far = x + (y.run.x1-x)/2
	}
	return far, last
}

// place returns the joints of the run, both its ends included.
func (y layer) place() ([]float64, error) {
	r := y.run
	at := []float64{r.x0}
	next := 0 // of the targets
	for {
		x, k := at[len(at)-1], len(at)-1
		if len(at) > MaxPieces {
			return nil, tooMany()
		}
		far, last := y.reach(x, k)
		if far <= x+1e-6 {
			return nil, noRoom(y.track.chainage(x), y.panel)
		}
		if a, b, ok := y.twoAnchors(x, far); ok {
			m := a.x + (b.x-a.x)/2
			if y.inZone(m) { // as far as may be, so that fewest come inside
				m = max(m, b.x-y.shortest/2)
			}
			if m > x+1e-6 {
				far, last = m, false
			}
		}
		goal := far
		for next < len(y.targets) && y.targets[next] < x+y.shortest {
			next++
		}
		if next < len(y.targets) && y.targets[next] < far {
			goal = y.afterZone(x, y.targets[next], far)
			last = last && goal == far
		}
		if last {
			at = y.finish(append(at, r.x1))
			return at, nil
		}
		goal, at = y.clearZones(at, goal)
		at = append(at, goal)
	}
}

// afterZone returns where to aim for instead of a target that lies in a zone
// which the piece from x has reached already: beyond the zone, or as far as
// the piece goes.
func (y layer) afterZone(x, target, far float64) float64 {
	for _, z := range y.run.zones {
		if target > z.x0+1e-9 && target < z.x1-1e-9 && z.x0 < x+y.shortest {
			target = min(z.x1, far)
		}
	}
	return target
}

// clearZones moves a joint that would come inside a zone back to the zone's
// beginning. Where the piece before it would then be too short it evens out
// the last two pieces; where the zone is longer than a piece it leaves the
// joint, so that whole pieces run through and the joints inside are fewest.
func (y layer) clearZones(at []float64, goal float64) (float64, []float64) {
	for i := len(y.run.zones) - 1; i >= 0; i-- {
		z := y.run.zones[i]
		if !(goal > z.x0+1e-9 && goal < z.x1-1e-9) {
			continue
		}
		x := at[len(at)-1]
		if z.x0 >= x+y.shortest {
			goal = z.x0
			continue // which may lie inside another
		}
		if z.x0 > x+1e-9 && len(at) > 1 {
			if m := at[len(at)-2] + (z.x0-at[len(at)-2])/2; y.legal(at[len(at)-2], m) && y.legal(m, z.x0) && !y.inZone(m) {
				at[len(at)-1] = m
				goal = z.x0
				continue
			}
		}
		if z.x0 > x+1e-9 && len(at) == 1 && y.legal(x, z.x0) {
			goal = z.x0
			y.warn(fmt.Sprintf("the piece from %s to the beginning of %s is shorter than %.0f mm", mm(y.track.chainage(x)), z.name, y.shortest))
			continue
		}
	}
	return goal, at
}

// finish evens out the last two pieces of a run when the last is too short.
func (y layer) finish(at []float64) []float64 {
	n := len(at)
	if n < 3 || at[n-1]-at[n-2] >= y.shortest {
		if n == 2 && at[1]-at[0] < y.shortest {
			y.warn(fmt.Sprintf("the only piece from %s to %s is shorter than %.0f mm", mm(y.track.chainage(at[0])), mm(y.track.chainage(at[1])), y.shortest))
		}
		return at
	}
	a, b := at[n-3], at[n-1]
	try := []float64{a + (b-a)/2}
	for _, z := range y.run.zones {
		try = append(try, z.x0, z.x1)
	}
	for _, m := range y.run.anchors {
		try = append(try, m.x-y.shortest/2, m.x+y.shortest/2)
	}
	for _, m := range try {
		if m-a >= y.shortest && b-m >= y.shortest && y.legal(a, m) && y.legal(m, b) && !y.inZone(m) {
			at[n-2] = m
			return at
		}
	}
	y.warn(fmt.Sprintf("the piece from %s to %s is shorter than %.0f mm", mm(y.track.chainage(at[n-2])), mm(y.track.chainage(b)), y.shortest))
	return at
}

func (y layer) inZone(x float64) bool {
	for _, z := range y.run.zones {
		if x > z.x0+1e-9 && x < z.x1-1e-9 {
			return true
		}
	}
	return false
}

// legal reports whether a piece from a to b is within the panel on each rail
// and held at most once.
func (y layer) legal(a, b float64) bool {
	for _, side := range y.rails {
		if y.track.rail(side, a, b) > y.panel {
			return false
		}
	}
	_, _, two := y.twoAnchors(a, b)
	return !two
}

func (y layer) twoAnchors(a, b float64) (first, second mark, ok bool) {
	n := 0
	for _, m := range y.run.anchors {
		if m.x > a && m.x < b {
			if n++; n == 2 {
				return first, m, true
			}
			first = m
		}
	}
	return first, second, false
}
