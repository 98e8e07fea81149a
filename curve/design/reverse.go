package design

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
	"example.org/fourfoot/internal/solve"
)

// A Reverse is a parallel shift: a curve, a straight or none, and a curve of
// the other hand that lead from one track to another beside it.
//
// For plain equal curves without a straight between parallel tracks at
// spacing D it is the textbooks' D = 2R (1 - cos θ), length L = 2R sin θ.
type Reverse struct {
	From             curve.Pose     // where the first curve leaves its track
	To               curve.Pose     // any place on the other track; parallel to From or converging
	Radius1, Radius2 measure.Length // Radius2 0 means Radius1
	Ease1, Ease2     Easing         // of the two curves
	Straight         measure.Length // between the two curves, 0 for none
}

// Line returns the line from r.From to where it joins the other track. The
// first curve turns at most 90°. When there is no such line the error
// (measure.ErrNoAnswer) tells what would make one: the straight or the
// easements to choose, or which way to move the start.
func (r Reverse) Line() (Line, error) {
	l := fault.In("design")
	if r.Radius2 == 0 {
		r.Radius2 = r.Radius1
	}
	checkPose(l, "from", r.From)
	checkPose(l, "to", r.To)
	checkRadius(l, "first radius", r.Radius1)
	checkRadius(l, "second radius", r.Radius2)
	r.Ease1.check(l, "first easement")
	r.Ease2.check(l, "second easement")
	fault.NotNegative(l, "straight", r.Straight)
	if !l.OK() {
		return Line{}, l.Err()
	}
	// D is the distance of the start to the right of the other track.
	d := leftOf(float64(r.To.Heading), r2.Sub(r.To.Point, r.From.Point))
	if d == 0 {
		l.NoAnswer("from", nil, "lies on the other track: nothing to shift")
		return Line{}, l.Err()
	}
	hand := handOf(d)
	converge := float64(hand) * math.Remainder(float64(r.To.Heading-r.From.Heading), 2*math.Pi)
	if math.Abs(converge) >= math.Pi/4 {
		l.Add("to heading", fmt.Sprintf("%.4g°", measure.Angle(converge).Degrees()), "must be within 45° of the first track's; use a bend")
		return Line{}, l.Err()
	}
	in1, out1 := r.Ease1.halves(float64(r.Radius1))
	in2, out2 := r.Ease2.halves(float64(r.Radius2))
	least := max(in1.turn+out1.turn, converge+in2.turn+out2.turn, 1e-9, converge+1e-9)
	most := min(math.Pi/2, math.Pi/2+converge)
	build := func(turn float64) (Line, error) {
		line := Line{Start: r.From}
		b1, err1 := bendFrom(r.From, hand, float64(r.Radius1), turn, r.Ease1)
		line.bend(b1)
		line.straight(float64(r.Straight), float64(r.Radius1+r.Radius2))
		next := curve.Pose{Point: forward(b1.End.Point, float64(b1.End.Heading), float64(r.Straight), 0), Heading: b1.End.Heading}
		b2, err2 := bendFrom(next, hand.Opposite(), float64(r.Radius2), turn-converge, r.Ease2)
		line.bend(b2)
		return line, errors.Join(err1, err2)
	}
	short := func(turn float64) float64 { // what is missing to reach the other track
		line, err := build(turn)
		if err != nil {
			return math.NaN()
		}
		end := line.Bends[1].End.Point
		return float64(hand) * leftOf(float64(r.To.Heading), r2.Sub(r.To.Point, end))
	}
	if least >= most {
		l.NoAnswer("easements", nil, fmt.Sprintf("make a curve turn %.4g°, more than the %.4g° a shift may turn: shorten them", measure.Angle(least).Degrees(), measure.Angle(most).Degrees()))
		return Line{}, l.Err()
	}
	distance := math.Abs(d)
	if s := short(least); s < 0 {
		hint := "shorten the easements or the straight, or take a smaller radius"
		if least == converge+1e-9 {
			hint = "the tracks meet in one plain bend here: start the curve later or join them with a bend"
		}
		l.NoAnswer("distance of the tracks", measure.Length(distance), fmt.Sprintf("this reverse curve needs at least %.6g mm: %s", distance-s, hint))
		return Line{}, l.Err()
	}
	if s := short(most); s > 0 {
		need := float64(r.Straight) + s/math.Sin(most-converge)
		l.NoAnswer("distance of the tracks", measure.Length(distance),
			fmt.Sprintf("curves turning %.4g° reach %.6g mm: a straight of at least %.6g mm between them, or larger radii, would reach", measure.Angle(most).Degrees(), distance-s, need))
		return Line{}, l.Err()
	}
	turn, ok := solve.Brent(short, least, most, 1e-16)
	if !ok {
		l.NoAnswer("radius", nil, "curves and easements of this size are too small or too large to be made")
		return Line{}, l.Err()
	}
	return build(turn)
}
