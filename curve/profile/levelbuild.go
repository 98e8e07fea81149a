package profile

import (
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// NewLevel returns the level of an open line through intersection points in
// order of chainage. One point is a level line. The first and the last have no
// vertical curve.
//
// A parabola of radius R between gradients i0 and i1 is R·|i1-i0| long in
// plan, half before and half after its point; a circle's two tangents are
// equal along the slope, so in plan they differ a little.
func NewLevel(points ...Point) (Level, error) { return newLevel(0, 0, points) }

// NewClosedLevel returns the level of a circuit of the given length, through
// intersection points that lie within one lap of the first. From the last
// point the line runs on to the first. When the last stands a whole lap from
// the first, the two are one place: their levels must agree within the
// tolerance, and the last gradient is drawn to the first point's level.
func NewClosedLevel(length, tolerance measure.Length, points ...Point) (Level, error) {
	if err := checkCircuit(length, tolerance); err != nil {
		return Level{}, err
	}
	return newLevel(float64(length), float64(tolerance), points)
}

// A vcurve is a vertical curve's tangents in plan before and after its point.
type vcurve struct{ before, after, bend float64 }

func newLevel(circuit, tolerance float64, points []Point) (Level, error) {
	l := fault.In("profile")
	spread(l, len(points), func(i int) measure.Length { return points[i].Chainage }, measure.Length(circuit))
	if !l.OK() {
		return Level{}, l.Err()
	}
	for i, p := range points {
		checkPoint(l, fmt.Sprintf("point %d: ", i+1), p)
	}
	n := len(points)
	if last, first := points[n-1], points[0]; circuit > 0 && n > 1 && float64(last.Chainage-first.Chainage) > circuit*(1-1e-12) {
		if gap := float64(last.Level - first.Level); math.Abs(gap) > tolerance+1e-9 {
			l.Add("levels of the circuit", mm(last.Level-first.Level)+" apart where it meets its start",
				"must agree within "+mm(measure.Length(tolerance))+"; gradients over the lap must add up to no rise")
		}
		if last.Curve != 0 || last.Radius != 0 {
			l.Add(fmt.Sprintf("point %d: vertical curve", n), mm(last.Curve+last.Radius), "must be given at point 1, which is the same place")
		}
		points = points[:n-1]
		n--
	}
	if !l.OK() {
		return Level{}, l.Err()
	}
	if n == 1 {
		return flat(points[0], circuit), nil
	}

	// Gradients: grade[j] runs from point j to the next.
	ahead := func(j int) (float64, float64) { // chainage and level of the point after j
		if j+1 < n {
			return float64(points[j+1].Chainage), float64(points[j+1].Level)
		}
		return float64(points[0].Chainage) + circuit, float64(points[0].Level)
	}
	grades := n - 1
	if circuit > 0 {
		grades = n
	}
	grade := make([]float64, grades)
	for j := range grade {
		s, z := ahead(j)
		grade[j] = (z - float64(points[j].Level)) / (s - float64(points[j].Chainage))
		if !(math.Abs(grade[j]) <= float64(Steepest)) {
			l.Add(fmt.Sprintf("gradient after point %d", j+1), fmt.Sprintf("%.4g %%", 100*grade[j]), "must not be steeper than 1 in 1")
		}
	}
	if !l.OK() {
		return Level{}, l.Err()
	}

	curves := make([]vcurve, n+1) // the last is the first again on a circuit
	for j, p := range points {
		switch {
		case circuit > 0:
			curves[j] = newVCurve(p, grade[(j+n-1)%n], grade[j])
		case j > 0 && j < n-1:
			curves[j] = newVCurve(p, grade[j-1], grade[j])
		case p.Curve != 0 || p.Radius != 0:
			l.Add(fmt.Sprintf("point %d: vertical curve", j+1), mm(p.Curve+p.Radius), "must be 0 mm at an end of an open line, where no gradient follows")
		}
	}
	if circuit > 0 {
		curves[n] = curves[0]
	}
	out := Level{chain[vertical]{circuit: circuit}}
	add := func(from float64, v vertical) {
		out.chain.pieces, out.chain.from = append(out.chain.pieces, v), append(out.chain.from, from)
	}
	for j := range n {
		p, c := points[j], curves[j]
		s, z := float64(p.Chainage), float64(p.Level)
		if c.before > 0 {
			i := grade[(j+n-1)%n]
			add(s-c.before, vertical{at: s - c.before, z: z - i*c.before, i: i, bend: c.bend, form: p.Form})
		}
		if j == grades {
			break
		}
		end, _ := ahead(j)
		room, need := end-s, c.after+curves[j+1].before
		if need > room*(1+1e-9) {
			l.Add(fmt.Sprintf("vertical curves at points %d and %d", j+1, (j+1)%n+1),
				fmt.Sprintf("tangents of %.6g mm and %.6g mm", c.after, curves[j+1].before),
				fmt.Sprintf("must fit into the %.6g mm between the points; shorten the curves or move the points %.6g mm farther apart", room, need-room))
		}
		if need < room*(1-1e-9) || len(out.chain.pieces) == 0 {
			begin := s + c.after
			if j == 0 && circuit == 0 {
				begin = math.Inf(-1)
			}
			add(begin, vertical{at: s, z: z, i: grade[j]})
		}
	}
	if !l.OK() {
		return Level{}, l.Err()
	}
	return out, nil
}

func flat(p Point, circuit float64) Level {
	from := math.Inf(-1)
	if circuit > 0 {
		from = float64(p.Chainage)
	}
	return Level{chain[vertical]{[]vertical{{at: float64(p.Chainage), z: float64(p.Level)}}, []float64{from}, circuit}}
}

func checkPoint(l *fault.List, name string, p Point) {
	within(l, name+"level", p.Level)
	ok := fault.NotNegative(l, name+"vertical curve", p.Curve) && within(l, name+"vertical curve", p.Curve)
	if fault.NotNegative(l, name+"vertical radius", p.Radius) && within(l, name+"vertical radius", p.Radius) && ok && p.Curve > 0 && p.Radius > 0 {
		l.Add(name+"vertical curve", mm(p.Curve), "must not be given together with a radius of "+mm(p.Radius))
	}
	if p.Form > Circle {
		l.Add(name+"form", uint8(p.Form), "must be Parabola or Circle")
	}
}

func newVCurve(p Point, i0, i1 float64) vcurve {
	length, change := float64(p.Curve), i1-i0
	if change == 0 {
		return vcurve{}
	}
	c0, c1 := 1.0, 1.0
	if p.Form == Circle {
		c0, c1 = 1/math.Hypot(1, i0), 1/math.Hypot(1, i1)
		change = i1*c1 - i0*c0
	}
	if p.Radius > 0 {
		length = float64(p.Radius) * math.Abs(change)
	}
	if length <= 0 {
		return vcurve{}
	}
	t := length / (c0 + c1)
	return vcurve{t * c0, t * c1, change / length}
}
