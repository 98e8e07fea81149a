package export

import (
	"fmt"
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A View says how a plan lies on a drawing: the plan's point Origin at the
// drawing's 0, 0, and Scale drawing units to a millimetre of the plan. The
// zero View is 1:1 with the plan's origin at 0, 0. The drawing's y runs
// downwards.
type View struct {
	Origin r2.Vec
	Scale  float64 // 0 means 1
}

func (v View) scale() float64 {
	if v.Scale == 0 {
		return 1
	}
	return v.Scale
}

// Point returns where a point of the plan lies on the drawing.
func (v View) Point(p r2.Vec) r2.Vec {
	return r2.Vec{X: (p.X - v.Origin.X) * v.scale(), Y: (v.Origin.Y - p.Y) * v.scale()}
}

// maxTurn is the most that one arc of a path turns: an arc near 180° between
// rounded ends would not know its centre.
const maxTurn = math.Pi / 2

// Path returns the SVG path data of a range of the line, within tolerance, in
// millimetres of the plan. A circuit's whole range is closed. An arc of more
// than a quarter is cut into equal ones. Where the misclosure of a circuit is
// spread over it, its straights and arcs are no longer quite that, and are drawn
// as cubic Bézier curves too.
func Path(line *curve.Alignment, r Range, view View, tolerance measure.Length) (string, error) {
	l := fault.In("export")
	fault.Positive(l, "tolerance", tolerance)
	if fault.NotNegative(l, "scale", view.Scale) && view.scale()*float64(tolerance) < 1e-9 {
		l.Add("tolerance", mm(tolerance), "must be 1e-9 drawing units or more")
	}
	fault.Finite(l, "x of origin", view.Origin.X)
	fault.Finite(l, "y of origin", view.Origin.Y)
	parts := spans(l, line, r)
	if !l.OK() {
		return "", l.Err()
	}
	w := &pathWriter{view: view, tolerance: 0.8 * float64(tolerance)}
	w.decimals = max(0, int(math.Ceil(-math.Log10(0.05*float64(tolerance)*view.scale()))))
	w.verb('M')
	w.point(parts[0].station(parts[0].a).Point)
	laid := asLaid(line)
	for _, p := range parts {
		switch shape := p.element.Shape(); {
		case shape == curve.StraightLine && laid:
			w.verb('L')
			w.point(p.station(p.b).Point)
		case shape == curve.CircularArc && laid:
			w.arc(p)
		default:
			w.cubics(p, p.station(p.a), p.station(p.b), p.a, p.b)
		}
		if w.pieces > MaxPoints {
			l.Over("pieces", fmt.Sprintf("over %d", MaxPoints), fmt.Sprintf("must be %d or fewer; take a larger tolerance than %s", MaxPoints, mm(tolerance)))
			return "", l.Err()
		}
	}
	if line.Closed() && (r == Range{} || r == Range{0, line.Length()}) {
		w.b = append(w.b, 'Z')
	}
	return string(w.b), nil
}

type pathWriter struct {
	b         []byte
	view      View
	tolerance float64
	decimals  int
	pieces    int
}

func (w *pathWriter) verb(c byte) {
	w.b = append(w.b, c)
	w.pieces++
}

func (w *pathWriter) number(x float64) {
	if n := len(w.b); n > 0 && w.b[n-1] >= '0' && w.b[n-1] <= '9' {
		w.b = append(w.b, ' ')
	}
	n := len(w.b)
	w.b = strconv.AppendFloat(w.b, x, 'f', w.decimals, 64)
	if w.decimals > 0 {
		for w.b[len(w.b)-1] == '0' {
			w.b = w.b[:len(w.b)-1]
		}
		if w.b[len(w.b)-1] == '.' {
			w.b = w.b[:len(w.b)-1]
		}
	}
	if string(w.b[n:]) == "-0" {
		w.b = append(w.b[:n], '0')
	}
}

func (w *pathWriter) point(p r2.Vec) {
	p = w.view.Point(p)
	w.number(p.X)
	w.number(p.Y)
}

func (w *pathWriter) arc(p span) {
	k := float64(p.element.StartCurvature())
	n := max(1, math.Ceil(math.Abs(k)*float64(p.b-p.a)/maxTurn))
	if n > MaxPoints {
		w.pieces = MaxPoints + 1
		return
	}
	sweep := 1.0 // clockwise on the page, y downwards: a right bend
	if k > 0 {
		sweep = 0
	}
	for i := 1.0; i <= n; i++ {
		s := p.a + (p.b-p.a)*measure.Length(i/n)
		if i == n {
			s = p.b
		}
		w.verb('A')
		radius := w.view.scale() / math.Abs(k)
		w.number(radius)
		w.number(radius)
		w.number(0)
		w.number(0)
		w.number(sweep)
		w.point(p.station(s).Point)
	}
}

// cubics draws an easement from s0 to s1, halved until each Bézier is within
// tolerance. Its handles are along the tangents and as long as those of an arc
// of the same length and turn, 4/3·tan(turn/4)·length/turn.
func (w *pathWriter) cubics(p span, st0, st1 curve.Station, s0, s1 measure.Length) {
	if w.pieces > MaxPoints {
		return
	}
	h, turn := float64(s1-s0), float64(st1.Heading-st0.Heading)
	handle := h / 3
	if math.Abs(turn) > 1e-4 {
		handle = 4.0 / 3 * math.Tan(turn/4) * h / turn
	}
	b := [4]r2.Vec{st0.Point, r2.Add(st0.Point, r2.Scale(handle, st0.Tangent)), r2.Sub(st1.Point, r2.Scale(handle, st1.Tangent)), st1.Point}
	if math.Abs(turn) > math.Pi/2 || h > 1e-6 && !w.close(p, b, s0, s1) {
		m := (s0 + s1) / 2
		st := p.station(m)
		w.cubics(p, st0, st, s0, m)
		w.cubics(p, st, st1, m, s1)
		return
	}
	w.verb('C')
	for _, q := range b[1:] {
		w.point(q)
	}
}

// close reports whether the Bézier stays within tolerance of the line, by the
// distance square to the line at 15 places.
func (w *pathWriter) close(p span, b [4]r2.Vec, s0, s1 measure.Length) bool {
	for i := 1; i < 16; i++ {
		t := float64(i) / 16
		u := 1 - t
		q := r2.Add(r2.Add(r2.Scale(u*u*u, b[0]), r2.Scale(3*u*u*t, b[1])), r2.Add(r2.Scale(3*u*t*t, b[2]), r2.Scale(t*t*t, b[3])))
		s := s0 + (s1-s0)*measure.Length(t)
		var st curve.Station
		for range 4 { // to the foot: the distance along is small against the radius
			st = p.station(min(max(s, s0), s1))
			s += measure.Length(r2.Dot(r2.Sub(q, st.Point), st.Tangent))
		}
		if r2.Norm(r2.Sub(q, st.Point)) > w.tolerance {
			return false
		}
	}
	return true
}
