package closing

import (
	"context"
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// MaxParts is the most parts that a circuit may have.
const MaxParts = 2000

// A Change is what was done to a part.
type Change struct {
	Straight, Radius measure.Length
	Turn             measure.Angle // of the limit TurnBy; KeepArc's own turn is not in it
	Share            float64       // the largest of the changes as a part of its limit, 0 to 1
}

// A Closed is a circuit that closes.
type Closed struct {
	Start   curve.Pose
	Parts   []Part   // as changed
	Changes []Change // of each part
	Before  Misclosure
	Sum     float64 // of the squares of all changes as parts of their limits: what was made least
}

// Alignment returns the circuit for evaluation.
func (c Closed) Alignment() (*curve.Alignment, error) {
	var all []curve.Element
	length := 0.0
	for _, p := range c.Parts {
		e, err := p.elements()
		if err != nil {
			return nil, err
		}
		all = append(all, e...)
	}
	for _, e := range all {
		length += float64(e.Length())
	}
	return curve.NewClosed(c.Start, measure.Length(1e-9*length), 1e-9, all...)
}

// Close returns the circuit of the parts with the least changes that close it.
func Close(ctx context.Context, start curve.Pose, parts ...Part) (Closed, error) {
	l := fault.In("closing")
	fault.Finite(l, "start x", measure.Length(start.Point.X))
	fault.Finite(l, "start y", measure.Length(start.Point.Y))
	fault.Finite(l, "start heading", start.Heading)
	if len(parts) == 0 {
		l.Add("parts", nil, "must be at least one")
	}
	if len(parts) > MaxParts {
		l.Over("parts", len(parts), fmt.Sprintf("at most %d", MaxParts))
		return Closed{}, l.Err()
	}
	for i, p := range parts {
		p.check(l, fmt.Sprintf("part %d", i+1))
	}
	if !l.OK() {
		return Closed{}, l.Err()
	}
	c, err := newCloser(ctx, parts)
	if err != nil {
		return Closed{}, err
	}
	out := Closed{Start: start, Before: c.misclosure(start)}
	if err := c.headingReach(l); err != nil {
		return Closed{}, err
	}
	left, err := c.solve(1)
	if err != nil {
		return Closed{}, err
	}
	if left > closes {
		return Closed{}, c.noAnswer(l, left)
	}
	out.Parts = c.at(c.u)
	out.Changes = make([]Change, len(parts))
	for i, v := range c.vars {
		ch := &out.Changes[v.part]
		d := c.u[i] * v.limit
		switch v.kind {
		case lengthOf:
			ch.Straight = measure.Length(d)
		case radiusOf:
			ch.Radius = measure.Length(d)
		case turnOf:
			ch.Turn = measure.Angle(d)
		}
		ch.Share = max(ch.Share, math.Abs(c.u[i]))
		out.Sum += c.u[i] * c.u[i]
	}
	return out, nil
}

// closes is the misclosure, as a part of the length and in radians, that is
// taken as none.
const closes = 1e-11

type kind uint8

const (
	lengthOf kind = iota
	radiusOf
	turnOf
)

// A variable is one quantity that may change.
type variable struct {
	part  int
	kind  kind
	limit float64
}

type closer struct {
	ctx   context.Context
	parts []Part
	vars  []variable
	u     []float64 // changes as parts of their limits
	scale float64   // length of the circuit
	turns float64   // whole turns of the circuit, in radians
}

func newCloser(ctx context.Context, parts []Part) (*closer, error) {
	c := &closer{ctx: ctx, parts: parts}
	total := 0.0
	for i, p := range parts {
		for _, v := range []variable{{i, lengthOf, float64(p.StraightBy)}, {i, radiusOf, float64(p.RadiusBy)}, {i, turnOf, float64(p.TurnBy)}} {
			if v.limit > 0 {
				c.vars = append(c.vars, v)
			}
		}
		e, err := p.elements()
		if err != nil {
			return nil, err
		}
		for _, x := range e {
			c.scale += float64(x.Length())
			total += float64(x.Turn())
		}
	}
	c.turns = 2 * math.Pi * math.Round(total/(2*math.Pi))
	c.u = make([]float64, len(c.vars))
	return c, nil
}

// at returns the parts with the changes u.
func (c *closer) at(u []float64) []Part {
	type d struct{ length, radius, turn float64 }
	by := make([]d, len(c.parts))
	for i, v := range c.vars {
		x := u[i] * v.limit
		switch v.kind {
		case lengthOf:
			by[v.part].length = x
		case radiusOf:
			by[v.part].radius = x
		case turnOf:
			by[v.part].turn = x
		}
	}
	out := make([]Part, len(c.parts))
	for i, p := range c.parts {
		out[i] = p.changed(by[i].length, by[i].radius, by[i].turn)
	}
	return out
}

// run returns each part's start and the end of the line, from the origin.
func (c *closer) run(parts []Part) (at []r2.Vec, heading []float64, err error) {
	at, heading = make([]r2.Vec, len(parts)+1), make([]float64, len(parts)+1)
	for i, p := range parts {
		v, turn, err := p.end()
		if err != nil {
			return nil, nil, err
		}
		at[i+1] = r2.Add(at[i], turned(v, heading[i]))
		heading[i+1] = heading[i] + turn
	}
	return at, heading, nil
}

func (c *closer) misclosure(start curve.Pose) Misclosure {
	at, heading, err := c.run(c.parts)
	if err != nil {
		return Misclosure{}
	}
	n := len(c.parts)
	end := curve.Pose{Point: r2.Add(start.Point, turned(at[n], float64(start.Heading))), Heading: start.Heading + measure.Angle(heading[n])}
	return misclosure(start, end)
}

// linear returns the misclosure of the changes u (x and y as parts of the
// circuit's length, and the heading) and its derivatives. A change in a part
// moves the end by what it moves the part's own end, and turns all that comes
// after the part about it.
func (c *closer) linear(u []float64) (missing [3]float64, j [][3]float64, err error) {
	parts := c.at(u)
	at, heading, err := c.run(parts)
	if err != nil {
		return missing, nil, err
	}
	n := len(parts)
	missing = [3]float64{at[n].X / c.scale, at[n].Y / c.scale, heading[n] - c.turns}
	j = make([][3]float64, len(c.vars))
	for i, v := range c.vars {
		local, turn, err := c.slope(u, i, v)
		if err != nil {
			return missing, nil, err
		}
		d := turned(local, heading[v.part])
		rest := r2.Sub(at[n], at[v.part+1])
		j[i] = [3]float64{(d.X - turn*rest.Y) / c.scale, (d.Y + turn*rest.X) / c.scale, turn}
	}
	return missing, j, nil
}

// slope returns how the end of one part moves and turns with one variable, by
// central difference.
func (c *closer) slope(u []float64, i int, v variable) (r2.Vec, float64, error) {
	if v.kind == lengthOf {
		return r2.Vec{X: v.limit}, 0, nil
	}
	p := c.parts[v.part]
	var radius, turn float64
	for k, w := range c.vars {
		switch {
		case w.part == v.part && w.kind == radiusOf:
			radius = u[k] * w.limit
		case w.part == v.part && w.kind == turnOf:
			turn = u[k] * w.limit
		}
	}
	var h float64
	ends := [2]r2.Vec{}
	turns := [2]float64{}
	for k, side := range [2]float64{-1, 1} {
		r, t := radius, turn
		if v.kind == radiusOf {
			h = 1e-5 * float64(p.Bend.Radius)
			r += side * h
		} else {
			h = 1e-5
			t += side * h
		}
		q := p.changed(0, r, t)
		// A step may take the arc below nothing: the easements then make way.
		if least := measure.Angle(eased(q.Bend, float64(q.Bend.Radius))); q.Bend.Turn < least {
			cut := q.Bend.Turn / least
			q.Bend.EaseIn, q.Bend.EaseOut = q.Bend.EaseIn*measure.Length(cut), q.Bend.EaseOut*measure.Length(cut)
		}
		var err error
		if ends[k], turns[k], err = q.end(); err != nil {
			return r2.Vec{}, 0, err
		}
	}
	f := v.limit / (2 * h)
	return r2.Scale(f, r2.Sub(ends[1], ends[0])), f * (turns[1] - turns[0]), nil
}

// headingReach refuses a heading that the free turns cannot mend.
func (c *closer) headingReach(l *fault.List) error {
	missing, j, err := c.linear(c.u)
	if err != nil {
		return err
	}
	free, reach := false, 0.0
	for i, d := range j {
		free = free || d[2] != 0
		v := c.vars[i]
		p := c.parts[v.part]
		switch {
		case v.kind == turnOf:
			reach += v.limit
		case v.kind == radiusOf && p.Keep == KeepArc:
			gain := p.changed(0, -v.limit, 0).Bend.Turn - p.Bend.Turn
			loss := p.Bend.Turn - p.changed(0, v.limit, 0).Bend.Turn
			reach += float64(max(gain, loss))
		}
	}
	off := measure.Angle(-missing[2])
	if !free && math.Abs(missing[2]) > closes {
		l.NoAnswer("heading", nil, fmt.Sprintf("the turns add up to %.6g° of %.6g°: %.6g° are missing, and no turn may change; free a turn, or a radius that keeps its arc",
			measure.Angle(missing[2]+c.turns).Degrees(), measure.Angle(c.turns).Degrees(), off.Degrees()))
		return l.Err()
	}
	if math.Abs(missing[2]) > reach+closes {
		l.NoAnswer("heading", nil, fmt.Sprintf("%.6g° are missing to %.6g°, and the limits of the turns allow at most %.6g°",
			off.Degrees(), measure.Angle(c.turns).Degrees(), measure.Angle(reach).Degrees()))
		return l.Err()
	}
	return nil
}

// solve makes the problem linear at the changes so far and solves that, until
// nothing moves. It returns the misclosure that is left. wide widens the
// limits without changing their weight.
func (c *closer) solve(wide float64) (left float64, err error) {
	const rounds = 60
	for range rounds {
		if err := c.ctx.Err(); err != nil {
			return 0, err
		}
		missing, j, err := c.linear(c.u)
		if err != nil {
			return 0, err
		}
		// J u = J u₀ - missing
		var b [3]float64
		for i, d := range j {
			for k := range b {
				b[k] += d[k] * c.u[i]
			}
		}
		for k := range b {
			b[k] -= missing[k]
		}
		next := leastSquares(j, b, wide)
		moved := 0.0
		for i := range next {
			moved = max(moved, math.Abs(next[i]-c.u[i]))
		}
		c.u = next
		if moved < 1e-13 {
			break
		}
	}
	missing, _, err := c.linear(c.u)
	return norm(missing), err
}

func norm(v [3]float64) float64 { return math.Hypot(math.Hypot(v[0], v[1]), v[2]) }

// leastSquares returns the u of least Σu² with J u = b and |u| ≤ wide; where
// no such u exists, one that leaves next to the least of J u - b. The dual,
//
//	max over λ of  ½|u|² + λ·(J u - b) - ½μ|λ|²,  u = -Jᵀλ cut off at ±wide
//
// is climbed by Newton's method with halved steps; the small μ keeps it
// bounded where the limits allow no answer.
func leastSquares(j [][3]float64, b [3]float64, wide float64) []float64 {
	trace := 0.0
	for _, d := range j {
		trace += d[0]*d[0] + d[1]*d[1] + d[2]*d[2]
	}
	u := make([]float64, len(j))
	if trace == 0 {
		return u
	}
	mu := 1e-13 * trace
	eval := func(lambda [3]float64) (value float64, slope [3]float64) {
		for k := range slope {
			slope[k] = -b[k] - mu*lambda[k]
			value -= lambda[k] * (b[k] + mu*lambda[k]/2)
		}
		for i, d := range j {
			x := -(d[0]*lambda[0] + d[1]*lambda[1] + d[2]*lambda[2])
			u[i] = min(max(x, -wide), wide)
			value += u[i]*u[i]/2 - u[i]*x
			for k := range slope {
				slope[k] += d[k] * u[i]
			}
		}
		return value, slope
	}
	var lambda [3]float64
	value, slope := eval(lambda)
	for range 200 {
		h := mat.NewSymDense(3, nil)
		for k := range 3 {
			h.SetSym(k, k, mu)
		}
		for i, d := range j {
			if math.Abs(u[i]) >= wide {
				continue
			}
			for r := range 3 {
				for s := r; s < 3; s++ {
					h.SetSym(r, s, h.At(r, s)+d[r]*d[s])
				}
			}
		}
		var chol mat.Cholesky
		step := mat.NewVecDense(3, nil)
		if !chol.Factorize(h) || chol.SolveVecTo(step, mat.NewVecDense(3, slope[:])) != nil && step.AtVec(0) != step.AtVec(0) {
			break
		}
		t, better := 1.0, false
		for range 60 {
			var try [3]float64
			for k := range try {
				try[k] = lambda[k] + t*step.AtVec(k)
			}
			if v, s := eval(try); v > value {
				lambda, value, slope, better = try, v, s, true
				break
			}
			t /= 2
		}
		if !better {
			break
		}
	}
	eval(lambda)
	return u
}

// noAnswer says what is missing, and how much wider limits would do.
func (c *closer) noAnswer(l *fault.List, left float64) error {
	missing, _, err := c.linear(c.u)
	if err != nil {
		return err
	}
	gap := math.Hypot(missing[0], missing[1]) * c.scale
	hint := "wider limits alone do not help: free more quantities, in parts that lie in other directions"
	if len(c.vars) == 0 {
		hint = "nothing may change: free a length, a radius or a turn"
	}
	for _, wide := range []float64{1.25, 1.5, 2, 3, 5, 10} {
		probe := *c
		probe.u = make([]float64, len(c.vars))
		if !probe.allows(wide) {
			break
		}
		still, err := probe.solve(wide)
		if c.ctx.Err() != nil {
			return c.ctx.Err()
		}
		if err != nil {
			break
		}
		if still <= closes {
			hint = fmt.Sprintf("limits %g times as wide would do", wide)
			break
		}
	}
	l.NoAnswer("circuit", nil, fmt.Sprintf("with every limit used as far as it helps it still misses its start by %.4g mm and %.4g°: %s",
		gap, measure.Angle(missing[2]).Degrees(), hint))
	return l.Err()
}

// allows reports whether limits so much wider are ones that Close would take.
func (c *closer) allows(wide float64) bool {
	l := fault.In("closing")
	for _, p := range c.parts {
		p.StraightBy *= measure.Length(wide)
		p.RadiusBy *= measure.Length(wide)
		p.TurnBy *= measure.Angle(wide)
		p.check(l, "")
	}
	return l.OK()
}
