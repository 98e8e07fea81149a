package limit

import (
	"context"
	"errors"
	"fmt"
	"math"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/opening"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Bend is a bend of one radius that stock is to run round, long enough to
// hold every vehicle whole, and whose least radius is asked for. It is to the
// left, so that left is inside; everything holds for either hand of stock that
// is alike on both sides.
type Bend struct {
	Stock      []clearance.Vehicle
	Heights    clearance.Heights    // at which something stands in the way; the zero Heights are all
	Margin     measure.Length       // to be left between the stock and it
	Allowances clearance.Allowances // for the stock; a cant must be the same all along, positive leaning inwards, and a level flat
	NoRates    bool                 // leave the Rates of the answer out, which cost more than a third of it

	rough bool      // a look that tells only whether there is room by far, or none
	swept *sections // that a search has had; nil outside one
}

// sections are those of a stock by curvature.
type sections map[section]opening.Section

type section struct {
	stock *clearance.Vehicle // the first of a list, and how many
	n     int
	k     float64
	rough bool
}

// sweepTolerance is what every reach on a bend is right to; measured on a coach
// it is a hundred times better.
const (
	sweepTolerance = 1e-5 * measure.Millimetre
	roughTolerance = 1e-3 * measure.Millimetre
)

func (b Bend) check(l *fault.List) {
	fault.Finite(l, "margin", b.Margin)
	if len(b.Stock) == 0 {
		l.Add("stock", "none", "needs at least one vehicle")
	}
	okF, okT := fault.Finite(l, "heights: from", b.Heights.From), fault.Finite(l, "heights: to", b.Heights.To)
	if okF && okT && b.Heights.To < b.Heights.From {
		l.Add("heights: to", b.Heights.To, fmt.Sprintf("must not be below the heights' beginning at %v", b.Heights.From))
	}
	if n := len(b.Allowances.Cant.Boundaries()); n > 1 {
		l.Add("cant", fmt.Sprintf("with %d places", n), "must be the same all along a bend of one radius: give it one place")
	}
	if n := len(b.Allowances.Level.Boundaries()); n > 0 {
		l.Add("level", fmt.Sprintf("with %d places", n), "must be flat here: sweep the line itself for what crests and sags do")
	}
}

// At returns the section of the stock on the bend with a given radius: what is
// asked forwards. Left is inside.
func (b Bend) At(ctx context.Context, radius measure.Length) (opening.Section, error) {
	l := fault.In("limit")
	b.check(l)
	fault.Positive(l, "radius", radius)
	if err := l.Err(); err != nil {
		return opening.Section{}, err
	}
	return b.at(ctx, 1/float64(radius))
}

// at is At for a curvature of 0 or more.
func (b Bend) at(ctx context.Context, k float64) (opening.Section, error) {
	key := section{nil, len(b.Stock), k, b.rough}
	if b.swept != nil && key.n > 0 {
		key.stock = &b.Stock[0]
		if s, ok := (*b.swept)[key]; ok {
			return s, nil
		}
	}
	e, err := b.envelope(ctx, k)
	if err != nil {
		return opening.Section{}, err
	}
	s, err := opening.At(e, e.Settings().From)
	if err == nil && b.swept != nil {
		(*b.swept)[key] = s
	}
	return s, err
}

// flattest is the curvature below which a bend is a straight.
const flattest = 1e-9

func (b Bend) envelope(ctx context.Context, k float64) (*clearance.Envelope, error) {
	line, err := circle(k)
	if err != nil {
		return nil, err
	}
	tolerance := sweepTolerance
	if b.rough {
		tolerance = roughTolerance
	}
	// At the start, where coordinates are small.
	return clearance.Sweep(ctx, line, b.Stock, clearance.Settings{Tolerance: tolerance, From: 0, To: 0.01, Allowances: b.Allowances})
}

// circle returns a whole circle of a curvature to the left; with none a
// straight, which goes on past its ends.
func circle(k float64) (*curve.Alignment, error) {
	if k < flattest {
		s, err := curve.NewStraight(100)
		if err != nil {
			return nil, err
		}
		return curve.New(curve.Pose{}, s)
	}
	a, err := curve.NewArc(measure.Length(1/k), 360*measure.Degree, curve.Left)
	if err != nil {
		return nil, err
	}
	return curve.NewClosed(curve.Pose{}, 0, 0, a)
}

// A Radius is the least radius of a bend.
type Radius struct {
	Least measure.Length // every radius from this up to straight track does
	Edge  measure.Length // of ForPlatform: of the platform's edge from the track centreline, at that radius
	By    opening.Source // what governs it
	Side  curve.Hand     // where it governs: Left inside the bend, Right outside
	// Stands says that only the stock's own standing on the rails limits it: no
	// vehicle can stand on a sharper bend, and all that do stand are clear.
	Stands bool
	Rates  []Rate // what the radius changes by; none where Stands
}

// Rate returns the change of the radius with an input, and whether there is one.
func (r Radius) Rate(input string) (float64, bool) {
	for _, x := range r.Rates {
		if x.Input == input {
			return x.Change, true
		}
	}
	return 0, false
}

// An excess is by how much a bend lacks room.
type excess struct {
	by   float64 // above zero where it fails
	from opening.Source
	side curve.Hand
	edge float64
	bad  error // the stock cannot stand
}

// A question is what is asked of a bend: its inputs beside the bend's own, and
// what a bend of curvature k then lacks.
type question struct {
	names  []string
	values []float64
	lack   func(ctx context.Context, b Bend, values []float64, k float64) (excess, error)
	remedy func(short float64, e excess) (field, value, limit string) // for when straight track fails
}

// try returns what the bend lacks; that it cannot be stood on is no error.
func (q *question) try(ctx context.Context, b Bend, k float64) (excess, error) {
	e, err := q.lack(ctx, b, q.values, k)
	if errors.Is(err, measure.ErrNoAnswer) {
		return excess{by: math.Inf(1), bad: err}, nil
	}
	return e, err
}
