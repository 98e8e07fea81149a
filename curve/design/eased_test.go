package design_test

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/design"
	"example.org/fourfoot/gauge/measure"
)

// after returns the pose that a piece, started at the origin, leads to from p.
func after(p, piece curve.Pose) curve.Pose {
	s, c := math.Sincos(float64(p.Heading))
	return curve.Pose{
		Point:   r2.Vec{X: p.Point.X + c*piece.Point.X - s*piece.Point.Y, Y: p.Point.Y + s*piece.Point.X + c*piece.Point.Y},
		Heading: p.Heading + piece.Heading,
	}
}

func arcEnd(k, turn float64) curve.Pose {
	a := math.Copysign(turn, k)
	return curve.Pose{Point: r2.Vec{X: math.Sin(a) / k, Y: (1 - math.Cos(a)) / k}, Heading: measure.Angle(a)}
}

func easementEnd(t *testing.T, e curve.Element, err error) curve.Pose {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	a, err := curve.New(curve.Pose{}, e)
	if err != nil {
		t.Fatal(err)
	}
	return a.End()
}

// easedTwo returns the lines of easement, arc, easement, arc, easement from one
// pose to the other, the first arc of curvature k1 and the second no sharper.
// The second curvature and the first turn are scanned; where both coordinates
// of what is missing change sign about a cell they are refined. It shares no
// code with the package.
func easedTwo(t *testing.T, j design.Join, k1 float64) []*curve.Alignment {
	t.Helper()
	const turns, curvatures = 90, 41 // odd: no second arc is straight
	limit := float64(j.MaxTurn)
	if limit == 0 {
		limit = math.Pi
	}
	e1, err := curve.NewEasement(j.Shape, j.Ease, 0, measure.Curvature(k1))
	first := after(j.From, easementEnd(t, e1, err))
	type pieces struct {
		k2        float64
		mid, last curve.Element
		m, l      curve.Pose
	}
	at := func(k2 float64) pieces {
		mid, err1 := curve.NewEasement(j.Shape, j.Ease, measure.Curvature(k1), measure.Curvature(k2))
		last, err2 := curve.NewEasement(j.Shape, j.Ease, measure.Curvature(k2), 0)
		return pieces{k2, mid, last, easementEnd(t, mid, err1), easementEnd(t, last, err2)}
	}
	miss := func(p pieces, turn float64) (d r2.Vec, t2 float64) {
		q := after(after(first, arcEnd(k1, turn)), p.m)
		t2 = math.Mod(math.Copysign(1, p.k2)*float64(j.To.Heading-q.Heading-p.l.Heading), 2*math.Pi)
		if t2 < 0 {
			t2 += 2 * math.Pi
		}
		return r2.Sub(after(after(q, arcEnd(p.k2, t2)), p.l).Point, j.To.Point), t2
	}
	var out []*curve.Alignment
	var before [turns + 1]r2.Vec
	var beforeTurn [turns + 1]float64
	for i := range curvatures + 1 {
		k2 := math.Abs(k1) * (2*float64(i)/curvatures - 1)
		p := at(k2)
		var row [turns + 1]r2.Vec
		var rowTurn [turns + 1]float64
		for n := range row {
			row[n], rowTurn[n] = miss(p, limit*float64(n)/turns)
		}
		for n := 0; i > 0 && i != curvatures/2+1 && n < turns; n++ {
			a, b, c, d := row[n], row[n+1], before[n], before[n+1]
			if min(a.X, b.X, c.X, d.X) > 0 || max(a.X, b.X, c.X, d.X) < 0 || min(a.Y, b.Y, c.Y, d.Y) > 0 || max(a.Y, b.Y, c.Y, d.Y) < 0 {
				continue
			}
			if max(rowTurn[n], rowTurn[n+1], beforeTurn[n], beforeTurn[n+1])-min(rowTurn[n], rowTurn[n+1], beforeTurn[n], beforeTurn[n+1]) > 3 {
				continue
			}
			// Newton from the middle of the cell.
			turn, k := limit*(float64(n)+0.5)/turns, k2-math.Abs(k1)/curvatures
			ok := false
			for range 20 {
				const dt = 1e-6
				dk := 1e-6 * math.Abs(k1)
				f, _ := miss(at(k), turn)
				if ok = r2.Norm(f) < 1e-7; ok {
					break
				}
				ft, _ := miss(at(k), turn+dt)
				fk, _ := miss(at(k+dk), turn)
				ft, fk = r2.Scale(1/dt, r2.Sub(ft, f)), r2.Scale(1/dk, r2.Sub(fk, f))
				det := ft.X*fk.Y - ft.Y*fk.X
				turn -= (f.X*fk.Y - f.Y*fk.X) / det
				k -= (ft.X*f.Y - ft.Y*f.X) / det
				if !(math.Abs(k) <= 2*math.Abs(k1)) || !(math.Abs(turn) < 7) {
					break
				}
			}
			if !ok || turn < 0 || math.Abs(k) > math.Abs(k1) || k == 0 {
				continue
			}
			p := at(k)
			_, t2 := miss(p, turn)
			if turn+math.Abs(k1)*float64(j.Ease)/2 > limit || t2+math.Abs(k)*float64(j.Ease)/2 > limit || turn < 1e-9 || t2 < 1e-9 {
				continue
			}
			hand := func(k float64) curve.Hand { return curve.Hand(math.Copysign(1, k)) }
			a1, err1 := curve.NewArc(measure.Length(1/math.Abs(k1)), measure.Angle(turn), hand(k1))
			a2, err2 := curve.NewArc(measure.Length(1/math.Abs(k)), measure.Angle(t2), hand(k))
			l, err := curve.New(j.From, e1, a1, p.mid, a2, p.last)
			if err := errors.Join(err1, err2, err); err != nil {
				t.Fatal(err)
			}
			if j.MaxLength == 0 || l.Length() <= j.MaxLength {
				out = append(out, l)
			}
		}
		before, beforeTurn = row, rowTurn
	}
	return out
}

// easedLines returns the lines of two eased arcs with the smaller radius q.
func easedLines(t *testing.T, j design.Join, q float64) []*curve.Alignment {
	t.Helper()
	back := j
	back.From = curve.Pose{Point: j.To.Point, Heading: j.To.Heading + math.Pi}
	back.To = curve.Pose{Point: j.From.Point, Heading: j.From.Heading + math.Pi}
	var out []*curve.Alignment
	for _, h := range bothHands {
		out = append(out, easedTwo(t, j, h/q)...)
		for _, a := range easedTwo(t, back, h/q) {
			out = append(out, a.Reverse())
		}
	}
	return out
}

var bothHands = [2]float64{1, -1}

func TestJoinEasedTwoArcsAgainstGrid(t *testing.T) {
	const ratio = 1.08
	rng := rand.New(rand.NewPCG(3, 19))
	compared := 0
	for i := range 8 {
		j := randomJoin(rng)
		j.Family, j.MaxTurn = design.TwoArcs, 0
		j.Ease = measure.Length(100 + 300*rng.Float64())
		d := r2.Norm(r2.Sub(j.To.Point, j.From.Point))
		got, err := j.Line(context.Background())
		if err != nil && !errors.Is(err, measure.ErrNoAnswer) {
			t.Fatal(err)
		}
		best := 0.0
		for q := 8 * d; q > 0.06*d && q > float64(j.Ease)/6 && best == 0; q /= ratio {
			if len(easedLines(t, j, q)) > 0 {
				best = q
			}
		}
		switch {
		case err != nil && best > 0:
			t.Errorf("join %d: %v, but the grid finds radius %.1f\n%+v", i, err, best, j)
		case err != nil || best == 0:
		case float64(got.Radius) < best:
			t.Errorf("join %d: radius %.1f (%v), the grid finds %.1f\n%+v", i, float64(got.Radius), got.Bound, best, j)
		case float64(got.Radius) > best*ratio:
			t.Errorf("join %d: radius %.1f (%v), the grid finds only %.1f\n%+v", i, float64(got.Radius), got.Bound, best, j)
		default:
			compared++
			checkJoin(t, j, got)
		}
	}
	if compared < 4 {
		t.Errorf("only %d of 8 joins compared", compared)
	}
}

// Two eased arcs among obstacles: each line of the grid that keeps clear must
// have its smaller radius in an interval.
func TestFitEasedTwoArcsAgainstGrid(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 20))
	found, barred := 0, 0
	for i := range 4 {
		j := design.Join{
			From: curve.Pose{Point: r2.Vec{X: -3000}}, To: curve.Pose{Point: r2.Vec{X: 3000, Y: 3000 * (rng.Float64() - 0.5)}, Heading: measure.Angle(2 * (rng.Float64() - 0.5))},
			Ease: 400, Shape: shapes[i],
		}
		f := design.Fit{MinRadius: 600, MaxRadius: 5000}
		for range 3 {
			p := r2.Vec{X: 4000 * (rng.Float64() - 0.5), Y: 1500 * (rng.Float64() - 0.5)}
			f.Obstacles = append(f.Obstacles, design.Obstacle{Points: []r2.Vec{p, r2.Add(p, r2.Vec{X: 200})}, Left: 120, Right: 120})
		}
		got, err := f.Join(context.Background(), j)
		if err != nil && !errors.Is(err, measure.ErrNoAnswer) {
			t.Fatal(err)
		}
		if err == nil && !gridClear(aligned(t, got.Line), f.Obstacles, 0.1) {
			t.Errorf("case %d: the line fouls", i)
		}
		for k := range 12 {
			q := 600 + 4400*(float64(k)+0.5)/12
			for _, a := range easedLines(t, j, q) {
				if !gridClear(a, f.Obstacles, -0.1) {
					barred++
					continue
				}
				found++
				e := a.Elements()
				h := [2]curve.Hand{curve.Hand(math.Copysign(1, float64(e[1].StartCurvature()))), curve.Hand(math.Copysign(1, float64(e[3].StartCurvature())))}
				inside := false
				for _, iv := range got.Intervals {
					inside = inside || iv.Hands == h && q >= float64(iv.From.Radius)-5 && q <= float64(iv.To.Radius)+5
				}
				if !inside {
					t.Errorf("case %d: radius %v, %v, keeps clear but is in no interval\n%+v", i, q, h, got.Intervals)
				}
			}
		}
	}
	t.Logf("%d lines found, %d barred", found, barred)
	if found < 15 || barred < 15 {
		t.Errorf("%d lines keep clear, %d do not: too few to tell", found, barred)
	}
}

// easedBends returns the lines of two eased bends with a straight between that
// join the poses, with radii ra and rb and the given hands: for every first
// turn at which the straight meets the second bend, which is run backwards from
// its end.
func easedBends(t *testing.T, j design.Join, ra, rb float64, h1, h2 curve.Hand) []*curve.Alignment {
	t.Helper()
	bend := func(r, turn float64, hand curve.Hand) ([]curve.Element, bool) {
		e, err := curve.Bend{Radius: measure.Length(r), Turn: measure.Angle(turn), Hand: hand, EaseIn: j.Ease, EaseOut: j.Ease, Shape: j.Shape}.Elements()
		return e, err == nil
	}
	back := curve.Pose{Point: j.To.Point, Heading: j.To.Heading + math.Pi}
	// at returns both bends' elements, their inner ends and how far the second's
	// lies off the first's tangent.
	at := func(turn float64) (e1, e2 []curve.Element, p, q curve.Pose, miss float64, ok bool) {
		if e1, ok = bend(ra, turn, h1); !ok {
			return
		}
		p = must(curve.New(j.From, e1...)).End()
		t2 := math.Mod(float64(h2)*float64(j.To.Heading-p.Heading)+8*math.Pi, 2*math.Pi)
		if e2, ok = bend(rb, t2, h2); !ok || t2 >= math.Pi {
			return e1, e2, p, q, 0, false
		}
		rev, _ := bend(rb, t2, -h2)
		q = must(curve.New(back, rev...)).End()
		return e1, e2, p, q, offTangent(q.Point, p), true
	}
	var out []*curve.Alignment
	const n = 60
	before, known := 0.0, false
	for i := 1; i < n; i++ {
		turn := math.Pi * float64(i) / n
		_, _, _, _, miss, ok := at(turn)
		if ok && known && before*miss <= 0 {
			lo, hi := turn-math.Pi/n, turn
			for range 60 {
				mid := (lo + hi) / 2
				if _, _, _, _, m, ok := at(mid); ok && m*before > 0 {
					lo = mid
				} else {
					hi = mid
				}
			}
			e1, e2, p, q, m, ok := at(lo)
			gap := r2.Sub(q.Point, p.Point)
			if ok && math.Abs(m) < 1e-6 && r2.Dot(gap, unit(p.Heading)) > 1 {
				straight := must(curve.NewStraight(measure.Length(r2.Norm(gap))))
				a := must(curve.New(j.From, append(append(e1, straight), e2...)...))
				meets(t, "end of the grid's line", a.End(), j.To, 1e-4)
				out = append(out, a)
			}
		}
		before, known = miss, ok
	}
	return out
}

// Eased bends with a straight between, past obstacles, against a grid of both
// radii: what keeps clear lies in an interval, and the answer keeps clear.
func TestFitEasedBendsAgainstGrid(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 21))
	found, barred := 0, 0
	for i := range 9 {
		j := design.Join{
			From: curve.Pose{Point: r2.Vec{X: -3000}}, To: curve.Pose{Point: r2.Vec{X: 3000, Y: 3000 * (rng.Float64() - 0.5)}, Heading: measure.Angle(2.5 * (rng.Float64() - 0.5))},
			Family: design.ArcStraightArc, Ease: 300, Shape: shapes[i%len(shapes)],
		}
		f := design.Fit{MinRadius: 400, MaxRadius: 4000}
		for range 5 {
			p := r2.Vec{X: 4500 * (rng.Float64() - 0.5), Y: 2000 * (rng.Float64() - 0.5)}
			f.Obstacles = append(f.Obstacles, design.Obstacle{Points: []r2.Vec{p, r2.Add(p, r2.Vec{X: 300})}, Left: 160, Right: 160})
		}
		got, err := f.Join(context.Background(), j)
		if err != nil && !errors.Is(err, measure.ErrNoAnswer) {
			t.Fatal(err)
		}
		if err == nil && !gridClear(aligned(t, got.Line), f.Obstacles, 0.1) {
			t.Errorf("case %d: the line fouls", i)
		}
		for n := range 14 * 5 * 4 {
			q := 400 + 3600*(float64(n/20)+0.5)/14
			ra, rb := q*[5]float64{1, 1.3, 2, 1, 1}[n/4%5], q*[5]float64{1, 1, 1, 1.3, 2}[n/4%5]
			h := [2]curve.Hand{curve.Hand(bothHands[n&1]), curve.Hand(bothHands[n>>1&1])}
			for _, a := range easedBends(t, j, ra, rb, h[0], h[1]) {
				if !gridClear(a, f.Obstacles, -0.1) {
					barred++
					continue
				}
				found++
				inside := false
				for _, iv := range got.Intervals {
					inside = inside || iv.Hands == h && q >= float64(iv.From.Radius)-5 && q <= float64(iv.To.Radius)+5
				}
				if !inside {
					t.Errorf("case %d: radii %v and %v, %v, keep clear but are in no interval\n%+v", i, ra, rb, h, got.Intervals)
				}
			}
		}
	}
	t.Logf("%d lines found, %d barred", found, barred)
	if found < 30 || barred < 60 {
		t.Errorf("%d lines keep clear, %d do not: too few to tell", found, barred)
	}
}
