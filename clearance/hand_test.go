package clearance_test

import (
	"math"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// across returns how far a box on two axles C apart reaches to the left and to
// the right of the place x = 0, where the line runs along x: the rear axle goes
// by hundredths of a millimetre along track, which gives the place of a point of
// the line by its distance from there, the front axle is C from it, and the box
// is cut by the square x = 0.
func across(track func(s float64) (x, y float64), C, length, width float64) (left, right float64) {
	left, right = math.Inf(-1), math.Inf(-1)
	for s := -C/2 - length/2 - 20; s < length/2-C/2+20; s += 0.01 {
		rx, ry := track(s)
		q := s + C
		for range 4 { // the chord is very nearly as long as the way
			fx, fy := track(q)
			q += C - math.Hypot(fx-rx, fy-ry)
		}
		fx, fy := track(q)
		ux, uy := (fx-rx)/C, (fy-ry)/C
		var x, y [4]float64
		for i, p := range [4][2]float64{{-length / 2, -width / 2}, {length / 2, -width / 2}, {length / 2, width / 2}, {-length / 2, width / 2}} {
			x[i] = (rx+fx)/2 + p[0]*ux - p[1]*uy
			y[i] = (ry+fy)/2 + p[0]*uy + p[1]*ux
		}
		for i := range x {
			if j := (i + 1) % 4; x[i]*x[j] <= 0 && x[i] != x[j] {
				at := y[i] + (y[j]-y[i])*x[i]/(x[i]-x[j])
				left, right = max(left, at), max(right, -at)
			}
		}
	}
	return left, right
}

// Where a bend of 1.2 m turns into one of 0.9 m the other way, with nothing
// between: circles about (0, 1200) and (0, -900).
func TestByHandReverse(t *testing.T) {
	const C, length, width, ra, rb = 360.0, 560.0, 96.0, 1200.0, 900.0
	left, right := across(func(s float64) (x, y float64) {
		if s < 0 {
			return ra * math.Sin(s/ra), ra - ra*math.Cos(s/ra)
		}
		return rb * math.Sin(s/rb), rb*math.Cos(s/rb) - rb
	}, C, length, width)
	line := build(t, []part{{curve.CircularArc, 1500, 1 / ra, 1 / ra, 0}, {curve.CircularArc, 1300, -1 / rb, -1 / rb, 0}}, curve.Pose{Heading: 2}, false).line
	e := sweep(t, line, []clearance.Vehicle{clearance.Rigid("box", C, box(length, width))}, clearance.Settings{Tolerance: 0.001})
	for side, want := range map[curve.Hand]float64{curve.Left: left, curve.Right: right} {
		if r := reach(t, e, 1500, side); math.Abs(float64(r.Reach)-want) > 0.002 {
			t.Errorf("%v: %.4f by %+v, want %.4f", side, float64(r.Reach), r.By, want)
		}
	}
}

// A circuit of two straights and two half turns, its start where a straight
// meets a turn: the reach there is the same as if the line were open, from
// either end of the lap.
func TestByHandCircuitJoin(t *testing.T) {
	const C, length, width, R = 360.0, 560.0, 96.0, 1000.0
	left, right := across(func(s float64) (x, y float64) {
		if s < 0 {
			return s, 0
		}
		return R * math.Sin(s/R), R - R*math.Cos(s/R)
	}, C, length, width)
	turn, straight := part{curve.CircularArc, math.Pi * R, 1 / R, 1 / R, 0}, part{curve.StraightLine, 1500, 0, 0, 0}
	line := build(t, []part{turn, straight, turn, straight}, curve.Pose{Heading: -1}, true).line
	e := sweep(t, line, []clearance.Vehicle{clearance.Rigid("box", C, box(length, width))}, clearance.Settings{Tolerance: 0.001})
	for _, c := range []measure.Length{0, line.Length()} {
		for side, want := range map[curve.Hand]float64{curve.Left: left, curve.Right: right} {
			if r := reach(t, e, c, side); math.Abs(float64(r.Reach)-want) > 0.002 {
				t.Errorf("%v %v: %.4f by %+v, want %.4f", float64(c), side, float64(r.Reach), r.By, want)
			}
		}
	}
}

// Each wheelset may stand 1.5 to either side. With both axles in by it a body
// on a bend of 1.1 m stands 1.5 further in. With the rear one in and the front
// one out its corner, 110 past the front axle, goes out by 1.5 and by 3·110/340
// more, and its end by the cosine of that skew.
func TestByHandPlayOverhang(t *testing.T) {
	const R, C, length, width, j = 1100.0, 340.0, 560.0, 92.0, 1.5
	line := build(t, []part{{curve.CircularArc, 2600, -1 / R, -1 / R, 0}}, curve.Pose{}, false).line
	e := sweep(t, line, []clearance.Vehicle{clearance.Rigid("box", C, box(length, width))}, clearance.Settings{Tolerance: 0.001, Allowances: clearance.Allowances{Play: j}})
	m := math.Sqrt(R*R - C*C/4) // of the chord, from the centre
	in, out := reach(t, e, 1300, curve.Right), reach(t, e, 1300, curve.Left)
	if want := R - (m - j - width/2); math.Abs(float64(in.Reach)-want) > 0.002 || math.Abs(float64(in.Play)-j) > 1e-9 {
		t.Errorf("inside %.4f of which play %v, want %.4f and %v", float64(in.Reach), float64(in.Play), want, j)
	}
	skew := math.Atan(2 * j / C)
	x, y := length/2*math.Cos(skew)-width/2*math.Sin(skew), m+length/2*math.Sin(skew)+width/2*math.Cos(skew)
	// Play is counted to first order: left out, on the safe side, is that the
	// skew draws the corner back by half the width times it, and in by the slope
	// of the circle there: 46 · 0.0088 · 280/1100 = 0.10.
	if want := math.Hypot(x, y) - R; math.Abs(float64(out.Reach)-want) > width/2*skew*length/2/R+0.002 || math.Abs(float64(out.Play)-j*length/C) > 1e-9 {
		t.Errorf("outside %.4f of which play %v, want %.4f and %v", float64(out.Reach), float64(out.Play), want, j*length/C)
	}
}
