package passing

import (
	"fmt"
	"math"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/coupling"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// MaxCars is the most cars of a train.
const MaxCars = 500

// A Standing is a train that stands in a room with its front at the far end.
type Standing struct {
	Clear     bool             // all of it is in the room
	Spare     measure.Length   // left of the room behind its rear; below zero, by how much it is too long
	Length    measure.Length   // that it takes along the line, over its outermost corners
	RearAxles []measure.Length // of the cars from front to rear: chainage of the rear axle of each
}

// Holds stands a train in the room, its front just within the end and coupled
// cars behind it, pulled taut: cars go from front to rear, each facing the
// line's running direction. All of it that stands over the line between the
// room's ends is clear, since the room is clear of whatever the loop's stock
// can reach; so each car must be in the stock that was swept.
//
// On a curve a car takes a little less of the line on the outside than on the
// inside; what counts is the outermost chainage of its corners.
func (r Room) Holds(train ...coupling.Car) (Standing, error) {
	l := fault.In("passing")
	if r.line == nil {
		l.Add("room", "empty", "must come from StandingRoom")
	}
	if len(train) == 0 {
		l.Add("train", "of no cars", "needs at least one")
	}
	if len(train) > MaxCars {
		l.Over("train", fmt.Sprintf("of %d cars", len(train)), fmt.Sprintf("must be of at most %d", MaxCars))
		return Standing{}, l.Err()
	}
	for i, c := range train {
		l.JoinAs(fmt.Sprintf("car %d", i+1), c.Validate())
	}
	if err := l.Err(); err != nil {
		return Standing{}, err
	}
	// The front car's foremost corner at the room's end.
	axle := r.to
	for range 30 {
		_, front, err := r.extent(train[0].Vehicle, axle)
		if err != nil {
			return Standing{}, err
		}
		axle += r.to - front
		if math.Abs(front-r.to) < 1e-9 {
			break
		}
	}
	s := Standing{RearAxles: []measure.Length{measure.Length(axle)}}
	rear, front, err := r.extent(train[0].Vehicle, axle)
	if err != nil {
		return Standing{}, err
	}
	for i := range len(train) - 1 {
		j, err := coupling.At(r.line, coupling.Pair{Behind: train[i+1], Ahead: train[i]}, measure.Length(axle))
		if err != nil {
			l.JoinAs(fmt.Sprintf("cars %d and %d", i+1, i+2), err)
			return Standing{}, l.Err()
		}
		axle = float64(j.BehindAxle)
		s.RearAxles = append(s.RearAxles, j.BehindAxle)
		lo, hi, err := r.extent(train[i+1].Vehicle, axle)
		if err != nil {
			return Standing{}, err
		}
		rear, front = min(rear, lo), max(front, hi)
	}
	s.Length, s.Spare = measure.Length(front-rear), measure.Length(rear-r.from)
	s.Clear = s.Spare >= 0
	return s, nil
}

// extent returns the rearmost and the foremost chainage of a vehicle's corners,
// counted on over the start of a circuit.
func (r Room) extent(v clearance.Vehicle, axle float64) (rear, front float64, err error) {
	st, err := clearance.Stand(r.line, v, measure.Length(axle))
	if err != nil {
		return 0, 0, err
	}
	rear, front = math.Inf(1), math.Inf(-1)
	put := func(p clearance.Placement, bands []clearance.Band) {
		for _, b := range bands {
			for _, q := range b.Outline {
				c := float64(r.line.NearestFrom(p.Plan(q), measure.Length(axle)+q.Along).Chainage)
				if length := float64(r.line.Length()); r.line.Closed() {
					c += length * math.Round((axle-c)/length)
				}
				rear, front = min(rear, c), max(front, c)
			}
		}
	}
	trucks := 0
	for i, b := range v.Bodies {
		put(st.Bodies[i], b.Bands)
		for _, t := range b.Trucks {
			put(st.Trucks[trucks], t.Bands)
			trucks++
		}
	}
	for i, c := range v.Carriers {
		put(st.Carriers[i], c.Bands)
	}
	return rear, front, nil
}
