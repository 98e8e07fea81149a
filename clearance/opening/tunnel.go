package opening

import (
	"context"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// Walls says how the walls of a tunnel run between its ends.
type Walls uint8

const (
	CurvedWalls   Walls = iota // along the line: at the same offsets everywhere
	ChordWalls                 // straight, alongside the chord between the tunnel's ends on the track centreline
	StraightWalls              // straight, in the direction that makes the tunnel narrowest
)

var wallNames = [...]string{"curved walls", "straight walls along the chord", "straight walls at their narrowest"}

// String returns the walls in words.
func (w Walls) String() string {
	if int(w) < len(wallNames) {
		return wallNames[w]
	}
	return fmt.Sprintf("walls %d", uint8(w))
}

// MaxSkew is the largest angle between the line and straight walls.
const MaxSkew = 60 * measure.Degree

// A Tunnel is what a stretch of line needs under one roof, of one form from end
// to end. It is immutable.
type Tunnel struct {
	e        *clearance.Envelope
	at       []measure.Length // where it was looked at
	from, to measure.Length
	walls    Walls
	section  Section
	axis     Axis
}

// An Axis is the straight line that the walls of a straight tunnel run along:
// it passes through the track centreline where the tunnel begins.
type Axis struct {
	Origin  r2.Vec
	Heading measure.Angle
}

// NewTunnel works out what a tunnel between two chainages needs. Its ends are
// square to the line. Straight walls bound what is swept between those ends,
// seen along their axis, so that offsets of the tunnel's section are from the
// axis. The roof follows the rails. On a circuit to may lie below from. The
// error wraps measure.ErrInput for a range that was not swept and
// measure.ErrNoAnswer where straight walls would stand at more than MaxSkew to
// the line.
func NewTunnel(ctx context.Context, e *clearance.Envelope, from, to measure.Length, walls Walls) (*Tunnel, error) {
	l := fault.In("opening")
	if int(walls) >= len(wallNames) {
		l.Add("walls", uint8(walls), fmt.Sprintf("must be one of 0 to %d", len(wallNames)-1))
		return nil, l.Err()
	}
	at, err := places(e, from, to)
	if err != nil {
		return nil, err
	}
	if len(at) < 2 {
		l.Add("to", to, fmt.Sprintf("must be past the beginning of the tunnel at %v", from))
		return nil, l.Err()
	}
	t := &Tunnel{e: e, at: at, from: from, to: to, walls: walls}
	if walls == CurvedWalls {
		t.section, err = t.gather(ctx, nil)
		return t, err
	}
	a, b := e.Line().At(from), e.Line().At(to)
	chord := r2.Sub(b.Point, a.Point)
	if !(r2.Norm(chord) > 0) {
		return nil, t.skewed(l, from)
	}
	t.axis = Axis{a.Point, measure.Angle(math.Atan2(chord.Y, chord.X))}
	if walls == StraightWalls {
		if err := t.turnAxis(ctx); err != nil {
			return nil, err
		}
	}
	if c, ok := t.straight(); !ok {
		return nil, t.skewed(l, c)
	}
	t.section, err = t.gather(ctx, t.across)
	return t, err
}

// skewed refuses walls that stand too steeply to the line.
func (t *Tunnel) skewed(l *fault.List, at measure.Length) error {
	l.NoAnswer("walls", t.walls, fmt.Sprintf("would stand at more than %.0f° to the line at chainage %v: take a shorter tunnel, or curved walls", MaxSkew.Degrees(), at))
	return l.Err()
}

// straight reports whether the walls stand within MaxSkew of the line, and
// where not.
func (t *Tunnel) straight() (measure.Length, bool) {
	u := t.axis.unit()
	for _, c := range t.at {
		if r2.Dot(t.e.Line().At(c).Tangent, u) < math.Cos(float64(MaxSkew)) {
			return c, false
		}
	}
	return 0, true
}

func (a Axis) unit() r2.Vec {
	sin, cos := math.Sincos(float64(a.Heading))
	return r2.Vec{X: cos, Y: sin}
}

// across returns how a station's offsets become offsets from the axis.
func (t *Tunnel) across(c measure.Length) func(y, z float64) (float64, float64) {
	st, u := t.e.Line().At(c), t.axis.unit()
	off := r2.Cross(u, r2.Sub(st.Point, t.axis.Origin))
	cos := r2.Dot(u, st.Tangent)
	return func(y, z float64) (float64, float64) { return off + y*cos, z }
}

func (t *Tunnel) gather(ctx context.Context, move func(c measure.Length) func(y, z float64) (float64, float64)) (Section, error) {
	var g gatherer
	for i, c := range t.at {
		if i%16 == 0 && ctx.Err() != nil {
			return Section{}, ctx.Err()
		}
		var m func(y, z float64) (float64, float64)
		if move != nil {
			m = move(c)
		}
		if err := g.add(t.e, c, m); err != nil {
			return Section{}, err
		}
	}
	return g.section(), nil
}

// turnAxis turns the axis to where the strip alongside it that holds the swept
// space is narrowest: one side of the narrowest strip round a figure lies along
// a side of its convex hull.
func (t *Tunnel) turnAxis(ctx context.Context) error {
	var edge []spot
	for i, c := range t.at {
		if i%16 == 0 && ctx.Err() != nil {
			return ctx.Err()
		}
		s, err := At(t.e, c)
		if err != nil {
			return err
		}
		for side, f := range [2]flank{s.left, s.right} {
			n, _ := f.reach(math.Inf(-1), math.Inf(1))
			if side == 1 {
				n = -n
			}
			p := t.e.Line().Offset(c, measure.Length(n))
			edge = append(edge, spot{y: p.X - t.axis.Origin.X, z: p.Y - t.axis.Origin.Y})
		}
	}
	h := hullOf(edge)
	chord := t.axis.unit()
	best := math.Inf(1)
	for i, a := range h {
		b := h[(i+1)%len(h)]
		u := r2.Vec{X: b.y - a.y, Y: b.z - a.z}
		n := r2.Norm(u)
		if n == 0 {
			continue
		}
		u = r2.Scale(1/n, u)
		if r2.Dot(u, chord) < 0 {
			u = r2.Scale(-1, u)
		}
		if r2.Dot(u, chord) < 0.5 { // a short tunnel must not be turned across
			continue
		}
		lo, hi := math.Inf(1), math.Inf(-1)
		for _, p := range h {
			v := u.X*p.z - u.Y*p.y
			lo, hi = min(lo, v), max(hi, v)
		}
		if hi-lo < best {
			best, t.axis.Heading = hi-lo, measure.Angle(math.Atan2(u.Y, u.X))
		}
	}
	return nil
}

// Section returns what the tunnel needs from end to end: fit an opening round
// it. Offsets are from the track centreline, of straight walls from the axis.
func (t *Tunnel) Section() Section { return t.section }

// Axis returns the axis of straight walls; of curved walls it is zero.
func (t *Tunnel) Axis() Axis { return t.axis }

// Structure returns the tunnel with the given opening as a structure that an
// audit takes: left and right as for Layout, and the height of a level roof, 0
// for none. An arched opening is an Arched structure; a round one is judged by
// itself: Circle.Clear of the tunnel's Section, and clearance.Judge with the
// margin.
func (t *Tunnel) Structure(name string, left, right, height measure.Length) (clearance.Structure, error) {
	l := fault.In("opening")
	fault.Finite(l, "height", height)
	span := t.e.Line().Span(t.from, t.to)
	pegs, err := t.Layout(left, right, span)
	l.Join(err)
	if err := l.Err(); err != nil {
		return clearance.Structure{}, err
	}
	s := clearance.Structure{Name: name, Kind: clearance.Tunnel}
	if t.walls == CurvedWalls {
		s.Faces = []clearance.Face{{Side: curve.Left, From: t.from, To: t.to, Offset: left}, {Side: curve.Right, From: t.from, To: t.to, Offset: right}}
	} else {
		a, b := pegs[0], pegs[len(pegs)-1]
		s.Figures = []clearance.Figure{{Points: []r2.Vec{a.LeftPlace, b.LeftPlace}}, {Points: []r2.Vec{a.RightPlace, b.RightPlace}}}
	}
	if height != 0 {
		s.Roofs = []clearance.Roof{{From: t.from, To: t.to, Height: height}}
	}
	return s, nil
}

// Arched returns the tunnel with an arched opening as a structure that an audit
// takes. Straight walls, from whose axis the arch would be measured, are refused
// with measure.ErrInput: there Arch.Clear of the tunnel's Section is the gap.
func (t *Tunnel) Arched(name string, a Arch) (clearance.Structure, error) {
	l := fault.In("opening")
	if t.walls != CurvedWalls {
		l.Add("walls", t.walls, "must be curved walls for an arch that is audited along the line")
	}
	okS, okC := fault.Finite(l, "springing", a.Springing), fault.Finite(l, "crown", a.Crown)
	if okS && okC && !(a.Crown > a.Springing) {
		l.Add("crown", a.Crown, fmt.Sprintf("must be above the springing at %v", a.Springing))
	}
	s, err := t.Structure(name, a.Left(), a.Right(), 0)
	l.Join(err)
	if err := l.Err(); err != nil {
		return clearance.Structure{}, err
	}
	s.Roofs = []clearance.Roof{{From: t.from, To: t.to, Height: a.Springing, Rise: a.Rise(), Left: a.Left(), Right: a.Right()}}
	return s, nil
}

// A Peg is a place where both walls of a tunnel are set out, square to the
// line.
type Peg struct {
	Chainage              measure.Length
	Left, Right           measure.Length // of the walls' faces from the track centreline, outwards positive
	LeftRoom, RightRoom   measure.Length // between each face and the section of the stock there, square to the line
	LeftPlace, RightPlace r2.Vec         // of the faces in plan
}

// MaxPegs is the most pegs that one call returns.
const MaxPegs = 10_000

// Layout returns the walls of the tunnel for setting out, at its ends and at
// every whole multiple of the interval between. left and right are where the
// opening has them, from the track centreline or the axis, outwards positive:
// the Left and Right of a Rectangle or an Arch.
func (t *Tunnel) Layout(left, right, every measure.Length) ([]Peg, error) {
	l := fault.In("opening")
	okL, okR := fault.Finite(l, "left", left), fault.Finite(l, "right", right)
	if okL && okR && left+right <= 0 {
		l.Add("left", left, fmt.Sprintf("must not lie to the right of the right wall, %v to the right", right))
	}
	span := t.e.Line().Span(t.from, t.to)
	if fault.Positive(l, "interval", every) && span/every > MaxPegs {
		l.Over("interval", every, fmt.Sprintf("must be at least %v for %d pegs", span/MaxPegs, MaxPegs))
	}
	if err := l.Err(); err != nil {
		return nil, err
	}
	line := t.e.Line()
	var pegs []Peg
	peg := func(c measure.Length) error {
		if line.Closed() && c > line.Length() {
			c -= line.Length()
		}
		s, err := At(t.e, c)
		if err != nil {
			return err
		}
		p := Peg{Chainage: c, Left: left, Right: right}
		if t.walls != CurvedWalls {
			st, u := line.At(c), t.axis.unit()
			off, cos := r2.Cross(u, r2.Sub(st.Point, t.axis.Origin)), r2.Dot(u, st.Tangent)
			p.Left, p.Right = (left-measure.Length(off))/measure.Length(cos), (right+measure.Length(off))/measure.Length(cos)
		}
		needL, _, _ := s.Reach(curve.Left, clearance.Heights{})
		needR, _, _ := s.Reach(curve.Right, clearance.Heights{})
		p.LeftRoom, p.RightRoom = p.Left-needL, p.Right-needR
		p.LeftPlace, p.RightPlace = line.Offset(c, p.Left), line.Offset(c, -p.Right)
		pegs = append(pegs, p)
		return nil
	}
	if err := peg(t.from); err != nil {
		return nil, err
	}
	first := measure.Length(math.Floor(float64(t.from/every))+1) * every
	for i := 0; ; i++ {
		c := first + measure.Length(i)*every
		if c >= t.from+span-1e-6 {
			break
		}
		if c < t.from+1e-6 {
			continue
		}
		if err := peg(c); err != nil {
			return nil, err
		}
	}
	return pegs, peg(t.to)
}
