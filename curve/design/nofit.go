package design

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/solve"
)

// A NoFitError says that no radius keeps clear of the obstacles, and what must
// move for the radius that asks for the least. It wraps measure.ErrNoAnswer.
type NoFitError struct {
	Radius measure.Length // of a join the smaller one
	Moves  []Move         // of every obstacle in the way at that radius; none where a range narrower than the resolution fits
}

// A Move is how an obstacle must move to be out of the way.
type Move struct {
	Obstacle int    // its index
	Name     string // or "obstacle N"
	Distance measure.Length
	Heading  measure.Angle // towards which, anticlockwise from +x
}

// Error names the obstacles and the moves.
func (e *NoFitError) Error() string {
	if len(e.Moves) == 0 {
		return fmt.Sprintf("design: the radii that fit, about %.6g mm, are a narrower range than the resolution: take a finer one", float64(e.Radius))
	}
	var b strings.Builder
	fmt.Fprintf(&b, "design: no radius keeps clear of the obstacles: the least that must move is, for a radius of %.6g mm, ", float64(e.Radius))
	for i, m := range e.Moves {
		if i > 0 {
			b.WriteString(" and ")
		}
		fmt.Fprintf(&b, "%s by %.4g mm towards %.4g°", m.Name, float64(m.Distance), m.Heading.Degrees())
	}
	return b.String()
}

// Unwrap returns measure.ErrNoAnswer.
func (e *NoFitError) Unwrap() error { return measure.ErrNoAnswer }

// noFit looks for the radius for which the largest move is least: over a grid
// of each family's range, then between the grid's radii.
func (f Fit) noFit(all []*fitter) error {
	const grid, width = 96, 1e-5
	best, found := NoFitError{}, false
	worst := func(e NoFitError) float64 {
		w := 0.0
		for _, m := range e.Moves {
			w = max(w, float64(m.Distance))
		}
		return w
	}
	for _, s := range all {
		at := func(r float64) (float64, error) {
			t, err := s.try(r)
			if err != nil || !t.ok {
				return math.Inf(1), err
			}
			lack := 0.0
			for _, c := range t.clear {
				lack = max(lack, -c)
			}
			if found && lack >= worst(best) {
				return lack, nil // room changes no faster than an obstacle moves: this asks for more
			}
			e := NoFitError{Radius: measure.Length(r)}
			for i, c := range t.clear {
				if c < 0 {
					e.Moves = append(e.Moves, f.Obstacles[i].move(i, t))
				}
			}
			w := worst(e)
			if !found || w < worst(best) {
				best, found = e, true
			}
			return w, nil
		}
		ratio := math.Pow(s.hi/s.lo, 1.0/(grid-1))
		least, top := math.Inf(1), s.lo
		for i := range grid {
			r := min(s.lo*math.Pow(ratio, float64(i)), s.hi)
			w, err := at(r)
			if err != nil {
				return err
			}
			if w < least {
				least, top = w, r
			}
		}
		a, b := max(top/ratio, s.lo), min(top*ratio, s.hi)
		var fail error
		solve.Golden(func(r float64) float64 {
			w, err := at(r)
			if err != nil {
				fail = err
				return math.Inf(-1)
			}
			return w
		}, a, b, (b-a)*width, math.Inf(-1))
		if fail != nil {
			return fail
		}
	}
	return &best
}

// move returns the shorter move, square to the line to its left or its right,
// that takes the obstacle out of the way. Since clear changes no faster than
// the obstacle moves, a step by what is lacking never goes too far; where what
// is lacking does not change, as while the line still crosses the obstacle, the
// steps grow, and the last is narrowed again.
func (o Obstacle) move(i int, t trial) Move {
	_, at := o.clear(t.a)
	tangent := t.a.At(measure.Length(at.s)).Tangent
	best := Move{Obstacle: i, Name: o.label(i), Distance: measure.Length(math.Inf(1))}
	for _, side := range bothHands {
		n := r2.Vec{X: -side * tangent.Y, Y: side * tangent.X}
		moved := o
		lacks := func(d float64) float64 {
			moved.Points = make([]r2.Vec, len(o.Points))
			for k, p := range o.Points {
				moved.Points[k] = r2.Add(p, r2.Scale(d, n))
			}
			c, _ := moved.clear(t.a)
			return -c
		}
		d, from, step, last := 0.0, 0.0, 0.0, math.Inf(1)
		grown := false
		for range 400 {
			c := lacks(d)
			if c <= 0 {
				break
			}
			grown = c > last-1e-9
			if grown {
				step *= 1.3
			} else {
				step = max(c, 1e-4)
			}
			from, last = d, c
			d += step
		}
		for grown && d-from > 1e-4 {
			if m := (from + d) / 2; lacks(m) <= 0 {
				d = m
			} else {
				from = m
			}
		}
		if d < float64(best.Distance) {
			best.Distance, best.Heading = measure.Length(d), measure.Angle(math.Atan2(n.Y, n.X))
		}
	}
	return best
}
