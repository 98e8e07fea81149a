package passing

import (
	"context"
	"fmt"
	"math"
	"sort"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/parallel"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
	"example.org/fourfoot/internal/solve"
)

// Beside returns the parallel of a line, as parallel.NewTapered makes it, as a
// line of its own, on which stock can be stood and swept: short clothoids that
// have its heading exactly at their ends and stay within the tolerance of it,
// at least 1e-6 mm. Use it to see what a spacing leaves; a track to be laid has
// better easements of its own.
func Beside(line *curve.Alignment, tolerance measure.Length, offsets ...parallel.Offset) (*curve.Alignment, error) {
	l := fault.In("passing")
	fault.Between(l, "tolerance", tolerance, 1e-6, 10)
	if err := l.Err(); err != nil {
		return nil, err
	}
	track, err := parallel.NewTapered(line, offsets...)
	if err != nil {
		return nil, err
	}
	var cuts []float64
	for _, c := range line.Boundaries() {
		cuts = append(cuts, float64(track.Chainage(c)))
	}
	for _, o := range offsets {
		cuts = append(cuts, float64(track.Chainage(o.Chainage)))
	}
	cuts = append(cuts, float64(track.Length()))
	sort.Float64s(cuts)
	step := 400.0
	for {
		out, off, err := follow(track, cuts, step, float64(tolerance))
		if err != nil {
			return nil, err
		}
		if out != nil && off <= float64(tolerance) {
			return out, nil
		}
		if step /= 2; float64(track.Length())/step > curve.MaxElements/2 {
			l.Over("tolerance", tolerance, fmt.Sprintf("asks for too many pieces: the best is %v off; take a coarser one, or a shorter line", measure.Length(off)))
			return nil, l.Err()
		}
	}
}

// follow makes the line with pieces no longer than step between the cuts, and
// returns how far it strays from the track.
func follow(track *parallel.Track, cuts []float64, step, tolerance float64) (*curve.Alignment, float64, error) {
	start := track.At(0)
	pose := curve.Pose{Point: start.Point, Heading: start.Heading}
	var el []curve.Element
	var ends []parallel.Station
	const inside = 1e-7 // to be on the near side of a sudden change of curvature
	for i := range len(cuts) - 1 {
		a, b := cuts[i], cuts[i+1]
		if b-a < 1e-6 {
			continue
		}
		n := max(1, int(math.Ceil((b-a)/step)))
		for j := range n {
			s0, s1 := a+(b-a)*float64(j)/float64(n), a+(b-a)*float64(j+1)/float64(n)
			h := s1 - s0
			p, q := track.At(measure.Length(s0+inside)), track.At(measure.Length(s1-inside))
			turn := float64(q.Heading-p.Heading) * h / (h - 2*inside)
			k0, k1 := float64(p.Curvature), float64(q.Curvature)
			d := turn/h - (k0+k1)/2
			k0, k1 = k0+d, k1+d
			var e curve.Element
			var err error
			switch {
			case math.Abs(k0)+math.Abs(k1) < 1e-13:
				e, err = curve.NewStraight(measure.Length(h))
			case math.Abs(k1-k0) < 1e-13:
				e, err = curve.NewArcOfLength(measure.Length(h), measure.Curvature(k0))
			default:
				e, err = curve.NewEasement(curve.Clothoid, measure.Length(h), measure.Curvature(k0), measure.Curvature(k1))
			}
			if err != nil {
				return nil, 0, err
			}
			el, ends = append(el, e), append(ends, q)
		}
	}
	line, err := curve.New(pose, el...)
	if err != nil {
		return nil, 0, err
	}
	off := 0.0
	for i, c := range line.Boundaries()[1:] {
		off = max(off, r2.Norm(r2.Sub(line.Point(c-inside), ends[i].Point)))
		mid := c - el[i].Length()/2
		off = max(off, r2.Norm(r2.Sub(line.Point(mid), track.At(mid).Point)))
	}
	if !track.Closed() {
		return line, off, nil
	}
	if line, err = curve.NewClosed(pose, measure.Length(max(10*tolerance, 1e-6)), 1e-6, el...); err != nil {
		return nil, math.Inf(1), nil // not yet fine enough to close
	}
	return line, off, nil
}

// A Need is the spacing that is needed at one chainage of a line.
type Need struct {
	Chainage measure.Length
	Centres  measure.Length // centre to centre, to a track beside the line
}

// Needed returns the spacing that a track beside a line needs at every place
// along it, on one side: at every kept station, in order. On a curve towards
// that side the track beside is the inner one and has the inner stock; on a
// line that curves both ways, give both the same. set is of the line's sweep:
// its tolerance and range; its allowances are the Stocks'.
//
// Each is what is needed with the track beside parallel there at the most that
// is needed anywhere. Where less is needed the track has another radius by the
// difference, which changes its reach by about the difference times throw over
// radius: hundredths of a millimetre, in a garden.
func (s Stocks) Needed(ctx context.Context, line *curve.Alignment, side curve.Hand, set clearance.Settings) ([]Need, error) {
	own, beside, err := s.split(line, side)
	if err != nil {
		return nil, err
	}
	flat, err := s.Straight(ctx)
	if err != nil {
		return nil, err
	}
	set.Allowances = s.Allowances
	e, err := clearance.Sweep(ctx, line, own, set)
	if err != nil {
		return nil, err
	}
	d := flat.Centres
	var out []Need
	for range 3 {
		p, err := s.gaps(ctx, e, beside, side, parallel.Offset{Offset: d * measure.Length(side)})
		if err != nil {
			return nil, err
		}
		out = out[:0]
		most := measure.Length(math.Inf(-1))
		for c, g := range p.Gaps() {
			out = append(out, Need{c, d - g + s.Margin})
			most = max(most, d-g+s.Margin)
		}
		if math.Abs(float64(most-d)) < 1e-4 {
			break
		}
		d = most
	}
	return out, nil
}

// split returns the stock of the line and that of a track beside it.
func (s Stocks) split(line *curve.Alignment, side curve.Hand) (own, beside []clearance.Vehicle, err error) {
	l := fault.In("passing")
	s.check(l)
	if s.Allowances.Cant.Datum() != 0 {
		l.Add("cant", "given", "must not be along a line: sweep it and the track beside it, each with its own, and compare them by Gaps")
	}
	if line == nil {
		l.Add("line", "none", "must be given")
	}
	if side != curve.Left && side != curve.Right {
		l.Add("side", side, "must be left or right")
	}
	if err := l.Err(); err != nil {
		return nil, nil, err
	}
	if turn := line.Turn(0, line.Length()); (turn > 0) == (side == curve.Left) && turn != 0 {
		return s.outer(), s.Inner, nil
	}
	return s.Inner, s.outer(), nil
}

// gaps compares the line's space with that of a track beside it.
func (s Stocks) gaps(ctx context.Context, e *clearance.Envelope, stock []clearance.Vehicle, side curve.Hand, offsets ...parallel.Offset) (*Profile, error) {
	tol := e.Settings().Tolerance
	other, err := Beside(e.Line(), max(tol/10, 1e-5), offsets...)
	if err != nil {
		return nil, err
	}
	b, err := clearance.Sweep(ctx, other, stock, clearance.Settings{Tolerance: tol, Allowances: s.Allowances})
	if err != nil {
		return nil, err
	}
	return Gaps(ctx, e, b, side)
}

// A Taper is how a track beside a line goes from one spacing to another.
type Taper struct {
	Straight measure.Length // spacing before it, centre to centre
	Curve    measure.Length // spacing after it
	Length   measure.Length // over which it goes from the one to the other, along the line
	Law      curve.Shape    // Bloss, Cosine, Sine or Helmert; zero means Sine
}

// offsets returns the taper as offsets to a side, begun at a chainage.
func (t Taper) offsets(side curve.Hand, from measure.Length) []parallel.Offset {
	d := measure.Length(side)
	return []parallel.Offset{{Chainage: from, Offset: d * t.Straight, Law: t.Law}, {Chainage: from + t.Length, Offset: d * t.Curve}}
}

// LatestTaper returns the chainage at which a taper must begin at the latest
// for the margin to be kept all along a line that runs from straight into a
// curve, and the profile of the gap then, of the line against the track beside
// it. It is the line's length less the taper's when even then the margin is
// kept. For the way out of a curve, give the line reversed.
//
// The error wraps measure.ErrNoAnswer where the margin is not kept with the
// taper right at the beginning.
func (s Stocks) LatestTaper(ctx context.Context, line *curve.Alignment, side curve.Hand, t Taper, set clearance.Settings) (measure.Length, *Profile, error) {
	l := fault.In("passing")
	fault.Size(l, "spacing on the straight", t.Straight)
	fault.Size(l, "spacing on the curve", t.Curve)
	fault.Size(l, "length of the taper", t.Length)
	if line != nil && line.Closed() {
		l.Add("line", "a circuit", "must be open: take the part of it with the taper")
	} else if line != nil && t.Length >= line.Length() {
		l.Add("length of the taper", t.Length, fmt.Sprintf("must be less than the line's, %v", line.Length()))
	}
	if err := l.Err(); err != nil {
		return 0, nil, err
	}
	own, beside, err := s.split(line, side)
	if err != nil {
		return 0, nil, err
	}
	set.Allowances = s.Allowances
	e, err := clearance.Sweep(ctx, line, own, set)
	if err != nil {
		return 0, nil, err
	}
	var p *Profile
	var least Place
	spare := func(from float64) (float64, error) {
		var err error
		if p, err = s.gaps(ctx, e, beside, side, t.offsets(side, measure.Length(from))...); err != nil {
			return 0, err
		}
		if least, err = p.Least(); err != nil {
			return 0, err
		}
		return float64(least.Gap - s.Margin), nil
	}
	last := float64(line.Length() - t.Length)
	first, err := spare(0)
	if err != nil {
		return 0, nil, err
	}
	if first < 0 {
		l.NoAnswer("taper", fmt.Sprintf("from %v to %v over %v", t.Straight, t.Curve, t.Length), fmt.Sprintf("leaves a gap of only %v at chainage %v, however early it begins: widen the spacings by %v, take a longer taper, or lengthen the straight before the curve", least.Gap, least.Chainage, measure.Length(-first)))
		return 0, nil, l.Err()
	}
	end, err := spare(last)
	if err != nil {
		return 0, nil, err
	}
	from := last
	if end < 0 {
		var stop error
		from, _ = solve.Brent(func(x float64) float64 {
			g, err := spare(x)
			if err != nil {
				stop = err
			}
			return g
		}, 0, last, 1e-5)
		if stop != nil {
			return 0, nil, stop
		}
		if _, err = spare(from); err != nil {
			return 0, nil, err
		}
	}
	return measure.Length(from), p, nil
}
