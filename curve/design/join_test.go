package design_test

import (
	"context"
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/design"
	"example.org/fourfoot/gauge/measure"
)

var families = []design.Family{design.TwoArcs, design.ArcStraightArc}

// checkJoin evaluates a join and tells whether it is what was asked for.
func checkJoin(t *testing.T, j design.Join, got design.Joined) {
	t.Helper()
	a := aligned(t, got.Line)
	scale := float64(a.Length()) + r2.Norm(r2.Sub(j.To.Point, j.From.Point)) + r2.Norm(j.From.Point)
	meets(t, "start", a.Start(), j.From, 0)
	meets(t, "end", a.End(), j.To, 1e-9*scale)
	if j.MaxLength > 0 && a.Length() > j.MaxLength*(1+1e-9) {
		t.Errorf("length %v, at most %v was allowed", a.Length(), j.MaxLength)
	}
	limit := j.MaxTurn
	if limit == 0 {
		limit = math.Pi
	}
	near(t, "smallest radius", float64(got.Radius), float64(min(got.Arcs[0].Radius, got.Arcs[1].Radius)), 1e-9*float64(got.Radius))
	easements := 0
	for i, e := range got.Elements {
		if e.Shape().Easement() {
			easements++
			if e.Length() != j.Ease {
				t.Errorf("easement of %v, asked %v", e.Length(), j.Ease)
			}
		}
		if i > 0 && j.Ease > 0 {
			if d := float64(e.StartCurvature()-got.Elements[i-1].EndCurvature()) * float64(got.Radius); math.Abs(d) > 1e-9 {
				t.Errorf("curvature jumps by %g/R before element %d", d, i)
			}
		}
	}
	want := 0
	if j.Ease > 0 {
		want = 3 + int(j.Family)
	}
	if easements != want {
		t.Errorf("%d easements, want %d", easements, want)
	}
	for i, arc := range got.Arcs {
		if arc.Turn < -1e-9 || float64(arc.Turn) > float64(limit)+1e-9 {
			t.Errorf("arc %d turns %v, limit %v", i, arc.Turn, limit)
		}
		if arc.Turn > 1e-6 {
			f := a.Nearest(arc.Centre)
			if math.Abs(float64(f.Offset)) > float64(arc.Radius)*(1+1e-8) {
				t.Errorf("arc %d: line is %v from its centre, radius %v", i, f.Offset, arc.Radius)
			}
		}
	}
	for _, b := range got.Bends {
		checkBend(t, b)
		if float64(b.Turn) > float64(limit)+1e-9 {
			t.Errorf("bend turns %v, limit %v", b.Turn, limit)
		}
	}
}

func join(t *testing.T, j design.Join) design.Joined {
	t.Helper()
	got, err := j.Line(context.Background())
	if err != nil {
		t.Fatalf("%+v: %v", j, err)
	}
	checkJoin(t, j, got)
	return got
}

// Between parallel tracks at spacing D over a length X the largest equal
// reverse curves without a straight have R = (X² + D²) / 4D (worked, from
// L = √(4RD - D²), reference engineering.md, Pointwork).
func TestJoinParallelTracks(t *testing.T) {
	const x, d = 2000.0, 300.0
	to := curve.Pose{Point: r2.Vec{X: x, Y: d}}
	for _, f := range families {
		got := join(t, design.Join{To: to, Family: f})
		near(t, f.String()+" radius", float64(got.Radius), (x*x+d*d)/(4*d), 1e-6)
		want := design.BoundBalance
		if f == design.ArcStraightArc {
			want = design.BoundStraight
		}
		if got.Bound != want {
			t.Errorf("%v: bound %v, want %v", f, got.Bound, want)
		}
	}
}

// A return loop between parallel tracks 2 m apart is a half circle of 1 m.
func TestJoinHalfCircle(t *testing.T) {
	to := curve.Pose{Point: r2.Vec{Y: 2000}, Heading: math.Pi}
	for _, f := range families {
		got := join(t, design.Join{To: to, Family: f})
		near(t, f.String()+" radius", float64(got.Radius), 1000, 1e-5)
		near(t, f.String()+" length", float64(got.Length()), 1000*math.Pi, 1e-3)
	}
}

// Where the poses' straights meet at equal lengths T, the largest bend is one
// arc of R = T / tan Δ/2.
func TestJoinEqualTangents(t *testing.T) {
	const tangent, turn = 3000.0, 1.1
	s, c := math.Sincos(turn)
	to := curve.Pose{Point: r2.Vec{X: tangent * (1 + c), Y: tangent * s}, Heading: turn}
	for _, f := range families {
		got := join(t, design.Join{To: to, Family: f})
		near(t, f.String()+" radius", float64(got.Radius), tangent/math.Tan(turn/2), 1e-5)
	}
}

// The length limit: two left arcs and a straight as an oval's half is never
// shorter than the limit that bounds it.
func TestJoinLengthBounds(t *testing.T) {
	j := design.Join{To: curve.Pose{Point: r2.Vec{X: 3000, Y: -500}, Heading: -2.6}, Family: design.ArcStraightArc}
	free := join(t, j)
	j.MaxLength = free.Length() * 0.98
	got := join(t, j)
	if got.Bound != design.BoundLength {
		t.Errorf("bound %v, want the length", got.Bound)
	}
	near(t, "length", float64(got.Length()), float64(j.MaxLength), 1e-4)
	if got.Radius >= free.Radius {
		t.Errorf("radius %v under a limit, %v without", got.Radius, free.Radius)
	}
	for _, limit := range []measure.Length{0.98, 0.9, 0.85} {
		j.MaxLength = free.Length() * limit
		line := join(t, j)
		fitted, err := design.Fit{MaxRadius: 1e5}.Join(context.Background(), j)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "radius of a fit without obstacles", float64(fitted.Radius), float64(line.Radius), 1e-5*float64(line.Radius))
	}
}

func TestJoinRandomIsWhatWasAsked(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 9))
	made := map[design.Family]int{}
	for i := range 16 {
		j := randomJoin(rng)
		j.Family = families[i%2]
		got, err := j.Line(context.Background())
		if err != nil {
			if !errors.Is(err, measure.ErrNoAnswer) {
				t.Errorf("%+v: %v", j, err)
			}
			continue
		}
		made[j.Family]++
		checkJoin(t, j, got)
	}
	for _, f := range families {
		if made[f] < 4 {
			t.Errorf("only %d of 8 joins of %v were made", made[f], f)
		}
	}
}

func randomJoin(rng *rand.Rand) design.Join {
	j := design.Join{From: randomPose(rng), To: randomPose(rng), Shape: shapes[rng.IntN(5)]}
	if rng.IntN(2) == 0 {
		j.Ease = measure.Length(20 + 300*rng.Float64())
	}
	if rng.IntN(2) == 0 {
		j.MaxLength = measure.Length(r2.Norm(r2.Sub(j.To.Point, j.From.Point)) * (1.2 + 2*rng.Float64()))
	}
	if rng.IntN(2) == 0 {
		j.MaxTurn = measure.Angle(1 + 2*rng.Float64())
	}
	return j
}

// Mirrored, moved, turned and scaled poses give the same line so changed; the
// line run the other way is the same line.
func TestJoinSymmetries(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 10))
	for i := range 6 {
		j := randomJoin(rng)
		j.Family = families[i%2]
		want, err := j.Line(context.Background())
		if err != nil {
			continue
		}
		flip := func(p curve.Pose) curve.Pose {
			return curve.Pose{Point: r2.Vec{X: p.Point.X, Y: -p.Point.Y}, Heading: -p.Heading}
		}
		back := func(p curve.Pose) curve.Pose {
			return curve.Pose{Point: p.Point, Heading: p.Heading + math.Pi}
		}
		const k = 2.5
		grow := func(p curve.Pose) curve.Pose {
			return curve.Pose{Point: r2.Scale(k, p.Point), Heading: p.Heading + 2*math.Pi}
		}
		mirrored, reversed, scaled := j, j, j
		mirrored.From, mirrored.To = flip(j.From), flip(j.To)
		reversed.From, reversed.To = back(j.To), back(j.From)
		scaled.From, scaled.To, scaled.Ease, scaled.MaxLength = grow(j.From), grow(j.To), k*j.Ease, k*j.MaxLength
		for name, row := range map[string]struct {
			j design.Join
			k float64
		}{"mirrored": {mirrored, 1}, "reversed": {reversed, 1}, "scaled": {scaled, k}} {
			got, err := row.j.Line(context.Background())
			if err != nil {
				t.Errorf("%s: %v", name, err)
				continue
			}
			near(t, name+" radius", float64(got.Radius)/row.k, float64(want.Radius), 1e-5*float64(want.Radius))
		}
	}
}

// reference finds the largest smallest radius of a family over a grid, with
// code that shares nothing with the package: it runs lines forward from the
// first pose and backward from the second and looks where they meet.
func reference(j design.Join, radii []float64) float64 {
	limit := float64(j.MaxTurn)
	if limit == 0 {
		limit = math.Pi
	}
	longest := float64(j.MaxLength)
	if longest == 0 {
		longest = math.Inf(1)
	}
	arc := func(p r2.Vec, h, k, turn float64) r2.Vec { // plain arc of a signed curvature
		a := h + math.Copysign(turn, k)
		return r2.Vec{X: p.X + (math.Sin(a)-math.Sin(h))/k, Y: p.Y - (math.Cos(a)-math.Cos(h))/k}
	}
	p0, h0 := j.From.Point, float64(j.From.Heading)
	p1, h1 := j.To.Point, float64(j.To.Heading)
	best := 0.0
	const n = 360
	for _, r1 := range radii {
		for _, s1 := range []float64{1, -1} {
			if j.Family == design.TwoArcs {
				// Turn by turn: the circle that touches there and passes the
				// second point; it fits where it arrives at the right heading.
				prev, prevTurn := math.NaN(), 0.0
				for i := 0; i <= n; i++ {
					turn := limit * float64(i) / n
					q := arc(p0, h0, s1/r1, turn)
					h := h0 + s1*turn
					d := r2.Sub(p1, q)
					off := -math.Sin(h)*d.X + math.Cos(h)*d.Y
					k2 := 2 * off / r2.Norm2(d)
					t2 := 2 * math.Atan2(off, math.Cos(h)*d.X+math.Sin(h)*d.Y)
					miss := math.Remainder(h+t2-h1, 2*math.Pi)
					if prev*miss <= 0 && math.Abs(prev-miss) < 0.5 {
						if math.Abs(t2) <= limit && r1*(turn+prevTurn)/2+math.Abs(t2/k2) <= longest {
							best = max(best, min(r1, 1/math.Abs(k2)))
						}
					}
					prev, prevTurn = miss, turn
				}
				continue
			}
			for _, r2_ := range radii {
				for _, s2 := range []float64{1, -1} {
					if min(r1, r2_) <= best {
						continue
					}
					prev := math.NaN()
					for i := 0; i <= n; i++ {
						turn := limit * float64(i) / n
						h := h0 + s1*turn
						t2 := math.Mod(s2*(h1-h), 2*math.Pi)
						if t2 < 0 {
							t2 += 2 * math.Pi
						}
						q := arc(p0, h0, s1/r1, turn)
						e := arc(p1, h1+math.Pi, -s2/r2_, t2) // backward from the end
						d := r2.Sub(e, q)
						miss := -math.Sin(h)*d.X + math.Cos(h)*d.Y
						along := math.Cos(h)*d.X + math.Sin(h)*d.Y
						if prev*miss <= 0 && along >= 0 && t2 <= limit && r1*turn+along+r2_*t2 <= longest {
							best = max(best, min(r1, r2_))
						}
						prev = miss
					}
				}
			}
		}
	}
	return best
}

func TestJoinAgainstGrid(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 11))
	compared := 0
	for i := range 12 {
		j := randomJoin(rng)
		j.Ease = 0
		j.Family = families[i%2]
		d := r2.Norm(r2.Sub(j.To.Point, j.From.Point))
		ratio := 1.01
		if j.Family == design.ArcStraightArc {
			ratio = 1.13
		}
		var radii []float64
		for r := d * 20; r > d*0.02; r /= ratio {
			radii = append(radii, r)
		}
		want := reference(j, radii)
		got, err := j.Line(context.Background())
		if err != nil {
			// The grid's crossings are coarse: it may take a line a little over a limit.
			if want > 0 {
				t.Errorf("join %d %v: %v, but the grid finds radius %.1f", i, j.Family, err, want)
			}
			continue
		}
		compared++
		if float64(got.Radius) < want*0.985 {
			t.Errorf("join %d %v: radius %.1f (%v), the grid finds %.1f\n%+v", i, j.Family, float64(got.Radius), got.Bound, want, j)
		}
		if want < float64(got.Radius)/(ratio*1.1) && float64(got.Radius) < 15*d && float64(got.Radius) > 0.03*d {
			t.Logf("join %d %v: radius %.1f (%v), the grid finds only %.1f", i, j.Family, float64(got.Radius), got.Bound, want)
		}
	}
	if compared < 7 {
		t.Errorf("only %d of 12 joins compared", compared)
	}
}

// With easements, against lines of equal and of different radii made of
// elements and run forward from the first pose and backward from the second.
func TestJoinEasedAgainstGrid(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 12))
	for range 3 {
		j := randomJoin(rng)
		j.Family, j.Ease, j.MaxLength, j.MaxTurn = design.ArcStraightArc, 250, 0, 0
		d := r2.Norm(r2.Sub(j.To.Point, j.From.Point))
		bend := func(p curve.Pose, r, turn, hand float64) (curve.Pose, bool) {
			e, err := curve.Bend{
				Radius: measure.Length(r), Turn: measure.Angle(turn), Hand: curve.Hand(hand),
				EaseIn: j.Ease, EaseOut: j.Ease, Shape: j.Shape,
			}.Elements()
			if err != nil {
				return p, false
			}
			a, err := curve.New(p, e...)
			if err != nil {
				return p, false
			}
			return a.End(), true
		}
		back := curve.Pose{Point: j.To.Point, Heading: j.To.Heading + math.Pi}
		best := 0.0
		for r := 6 * d; r > 0.03*d && best == 0; r /= 1.2 {
			for n := range 4 * 5 {
				s1, s2 := bothHands[n&1], bothHands[n>>1&1]
				ra, rb := r*[5]float64{1, 1.1, 1.4, 1, 1}[n/4], r*[5]float64{1, 1, 1, 1.1, 1.4}[n/4]
				prev := math.NaN()
				for i := 1; i <= 100; i++ {
					turn := math.Pi * float64(i) / 100
					p, ok1 := bend(j.From, ra, turn, s1)
					t2 := math.Mod(s2*float64(j.To.Heading-p.Heading)+8*math.Pi, 2*math.Pi)
					q, ok2 := bend(back, rb, t2, -s2)
					v := r2.Sub(q.Point, p.Point)
					miss := offTangent(q.Point, p)
					if ok1 && ok2 && prev*miss <= 0 && t2 <= math.Pi && r2.Dot(v, unit(p.Heading)) >= 0 {
						best = r
					}
					prev = miss
					if !ok1 || !ok2 {
						prev = math.NaN()
					}
				}
			}
		}
		got, err := j.Line(context.Background())
		if err != nil {
			if best > 0 {
				t.Errorf("%+v: %v, but the grid finds radius %v", j, err, best)
			}
			continue
		}
		checkJoin(t, j, got)
		if float64(got.Radius) < best {
			t.Errorf("%+v: radius %v, the grid finds %v", j, got.Radius, best)
		}
	}
}

// Poses whose best line has two different radii, the larger first, the larger
// last, or two that differ by little: the line run the other way has the same.
func TestJoinUnequalRadii(t *testing.T) {
	pose := func(x, y, heading float64) curve.Pose {
		return curve.Pose{Point: r2.Vec{X: x, Y: y}, Heading: measure.Angle(heading) * measure.Degree}
	}
	for _, row := range []struct {
		from, to curve.Pose
		least    float64 // found by a finer search
	}{
		{pose(1165.6617, -3634.8719, 99.8087), pose(4974.6703, -3344.6497, 177.406), 2127},
		{pose(2966.3410, -4265.1868, -37.5927), pose(809.1763, -3106.4349, 108.321), 569.2},
		{pose(-482.13047, -3420.8584, -22.103), pose(-852.29834, -3145.6372, -69.015), 572.3},
	} {
		j := design.Join{From: row.from, To: row.to, Family: design.ArcStraightArc}
		got := join(t, j)
		if math.Abs(float64(got.Arcs[0].Radius/got.Arcs[1].Radius)-1) < 0.01 {
			t.Errorf("radii %v and %v: the case tests nothing", got.Arcs[0].Radius, got.Arcs[1].Radius)
		}
		if float64(got.Radius) < row.least {
			t.Errorf("radius %v, want %v", got.Radius, row.least)
		}
		j.From, j.To = row.to, row.from
		j.From.Heading += math.Pi
		j.To.Heading += math.Pi
		back := join(t, j)
		near(t, "radius run the other way", float64(back.Radius), float64(got.Radius), 1e-5*float64(got.Radius))
	}
}

// A window of radii that fits and is narrower than a step of the search: at
// more the line is too long, at less an arc turns too far.
func TestJoinNarrowWindow(t *testing.T) {
	j := design.Join{
		From:      curve.Pose{Point: r2.Vec{X: -3076.934, Y: 4199.62}, Heading: 101.637 * measure.Degree},
		To:        curve.Pose{Point: r2.Vec{X: 413.268, Y: 3032.793}, Heading: -130.947 * measure.Degree},
		MaxLength: 8256.21, MaxTurn: 140.487 * measure.Degree,
	}
	got := join(t, j)
	if got.Bound != design.BoundLength || got.Radius < 1928 || got.Radius > 1938 {
		t.Errorf("radius %v (%v), want 1928 to 1938, bounded by the length", got.Radius, got.Bound)
	}
	j.MaxTurn = 135 * measure.Degree
	narrower := join(t, j)
	if math.Abs(float64(narrower.Radius-got.Radius)) > 1e-3 {
		t.Errorf("radius %v with 135° allowed, %v with 140°: both are bounded by the length", narrower.Radius, got.Radius)
	}
}

func TestJoinNoAnswer(t *testing.T) {
	ctx := context.Background()
	for name, row := range map[string]struct {
		j    design.Join
		kind error
	}{
		"in line":          {design.Join{To: curve.Pose{Point: r2.Vec{X: 100}}}, measure.ErrNoAnswer},
		"same place":       {design.Join{}, measure.ErrInput},
		"too short":        {design.Join{To: curve.Pose{Point: r2.Vec{X: 100, Y: 50}}, MaxLength: 100}, measure.ErrNoAnswer},
		"easements":        {design.Join{To: curve.Pose{Point: r2.Vec{X: 100, Y: 50}}, Ease: 100, Family: design.ArcStraightArc}, measure.ErrNoAnswer},
		"family":           {design.Join{To: curve.Pose{Point: r2.Vec{X: 100, Y: 50}}, Family: 5}, measure.ErrInput},
		"NaN":              {design.Join{To: curve.Pose{Point: r2.Vec{X: math.NaN(), Y: 50}}}, measure.ErrInput},
		"negative easment": {design.Join{To: curve.Pose{Point: r2.Vec{X: 100, Y: 50}}, Ease: -1}, measure.ErrInput},
		"turn":             {design.Join{To: curve.Pose{Point: r2.Vec{X: 100, Y: 50}}, MaxTurn: 7}, measure.ErrInput},
		"shape":            {design.Join{To: curve.Pose{Point: r2.Vec{X: 100, Y: 50}}, Shape: curve.CircularArc}, measure.ErrInput},
	} {
		_, err := row.j.Line(ctx)
		if !errors.Is(err, row.kind) {
			t.Errorf("%s: error %v, want %v", name, err, row.kind)
		}
	}
	for _, f := range families {
		_, err := design.Join{To: curve.Pose{Point: r2.Vec{X: 1000, Y: 1e-5}}, Family: f}.Line(ctx)
		if !errors.Is(err, measure.ErrNoAnswer) || !strings.Contains(err.Error(), "nothing bounds") {
			t.Errorf("%v, all but in line: error %v, want that nothing bounds the radius", f, err)
		}
	}
	done, cancel := context.WithCancel(ctx)
	cancel()
	if _, err := (design.Join{To: curve.Pose{Point: r2.Vec{X: 100, Y: 50}}}).Line(done); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled: error %v", err)
	}
}

func FuzzJoin(f *testing.F) {
	f.Add(2000.0, 300.0, 0.0, 100.0, 3000.0, 2.0, uint8(0), uint8(2))
	f.Add(-2000.0, 300.0, 3.0, 0.0, 0.0, 0.0, uint8(1), uint8(5))
	f.Fuzz(func(t *testing.T, x, y, heading, ease, longest, turn float64, family, shape uint8) {
		j := design.Join{
			To: curve.Pose{Point: r2.Vec{X: x, Y: y}, Heading: measure.Angle(heading)}, Family: design.Family(family),
			Ease: measure.Length(ease), Shape: curve.Shape(shape), MaxLength: measure.Length(longest), MaxTurn: measure.Angle(turn),
		}
		got, err := j.Line(context.Background())
		if err != nil {
			return
		}
		a, err := curve.New(got.Start, got.Elements...)
		if err != nil {
			t.Fatal(err)
		}
		scale := float64(a.Length()) + r2.Norm(j.To.Point)
		if d := r2.Norm(r2.Sub(a.End().Point, j.To.Point)); d > 1e-7*scale {
			t.Errorf("ends %g mm off", d)
		}
		near(t, "heading", wrap(float64(a.End().Heading-j.To.Heading)), 0, 1e-7)
		if j.MaxLength > 0 && a.Length() > j.MaxLength*(1+1e-7) {
			t.Errorf("length %v, limit %v", a.Length(), j.MaxLength)
		}
	})
}

func BenchmarkJoin(b *testing.B) {
	for _, f := range families {
		for _, ease := range []measure.Length{0, 200} {
			b.Run(f.String()+" "+map[bool]string{false: "eased", true: "plain"}[ease == 0], func(b *testing.B) {
				j := design.Join{To: curve.Pose{Point: r2.Vec{X: 3000, Y: 2000}, Heading: 0.5}, Family: f, Ease: ease}
				b.ReportAllocs()
				for b.Loop() {
					if _, err := j.Line(context.Background()); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}
