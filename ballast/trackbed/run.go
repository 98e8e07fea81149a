package trackbed

import (
	"fmt"
	"math"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
	"example.org/fourfoot/internal/solve"
)

// MaxPieces is the most boards, slabs, posts, joints or stations of one result.
const MaxPieces = 100_000

// A run is a stretch of line: what prisms along it need to know.
type run struct {
	length, turn float64 // ∫ds, ∫κ ds
	whole        bool    // the whole of a circuit
}

// newRun checks the stretch and measures it.
func newRun(l *fault.List, line *curve.Alignment, s ballast.Stretch) (run, bool) {
	if err := s.Validate(line); err != nil {
		l.Join(err)
		return run{}, false
	}
	r := run{length: float64(line.Span(s.From, s.To)), turn: float64(line.Turn(s.From, s.To))}
	r.whole = line.Closed() && math.Abs(r.length-float64(line.Length())) < 1e-6
	return r, true
}

// prism returns the volume of a section of the given area whose centroid lies
// at the offset from the line: Pappus and Guldin's second theorem.
func (r run) prism(area, offset float64) measure.Volume {
	return measure.Volume(area * r.along(offset))
}

// along returns the length of the run at an offset from the line.
func (r run) along(offset float64) float64 { return r.length - offset*r.turn }

// fits records that something between two offsets reaches past the centre of a
// curve of the stretch.
func fits(l *fault.List, field string, line *curve.Alignment, s ballast.Stretch, right, left float64) {
	for _, p := range parts(line, s) {
		for _, x := range []float64{p[0], inside(p)} {
			if k := float64(line.At(measure.Length(x)).Curvature); k*left >= 1 || k*right >= 1 {
				l.Add(field, nil, fmt.Sprintf("reaches past the centre of the curve of radius %v", measure.Length(math.Abs(1/k))))
				return
			}
		}
	}
}

// inside returns a chainage just short of the end of a part, where its own
// element still answers.
func inside(p [2]float64) float64 { return p[1] - 1e-9*(p[1]-p[0]) }

// parts cuts a stretch at the ends of elements; on a circuit the chainages go
// on past the length.
func parts(line *curve.Alignment, s ballast.Stretch) [][2]float64 {
	from := float64(s.From)
	to := from + float64(line.Span(s.From, s.To))
	var ps [][2]float64
	last := from
	for lap := range 2 {
		for _, b := range line.Boundaries() {
			if x := float64(b) + float64(lap)*float64(line.Length()); x > last+1e-9 && x < to-1e-9 {
				ps = append(ps, [2]float64{last, x})
				last = x
			}
		}
	}
	return append(ps, [2]float64{last, to})
}

// absTurn returns ∫|κ| ds over the stretch: every turn counts, to whichever
// hand.
func absTurn(line *curve.Alignment, s ballast.Stretch) float64 {
	k := func(x float64) float64 { return float64(line.At(measure.Length(x)).Curvature) }
	turn := func(a, b float64) float64 { return math.Abs(float64(line.Turn(measure.Length(a), measure.Length(b)))) }
	sum := 0.0
	for _, p := range parts(line, s) {
		if e := inside(p); k(p[0])*k(e) < 0 { // an easement from one hand to the other
			if x, ok := solve.Brent(k, p[0], e, 1e-9*(e-p[0])); ok {
				sum += turn(p[0], x) + turn(x, p[1])
				continue
			}
		}
		sum += turn(p[0], p[1])
	}
	return sum
}
