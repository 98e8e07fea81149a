package parallel_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/parallel"
	"example.org/fourfoot/gauge/measure"
)

const m = measure.Metre

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s = %.15g, want %.15g within %g", what, got, want, tol)
	}
}

// A spec is a line that can be mirrored, reversed and turned in the lap.
type spec struct {
	start    curve.Pose
	closed   bool
	elements []curve.Element
}

func (s spec) line(t testing.TB) *curve.Alignment {
	t.Helper()
	a, err := curve.New(s.start, s.elements...)
	if s.closed {
		a, err = curve.NewClosed(s.start, 1e-6, 1e-9, s.elements...)
	}
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func must[T any](t testing.TB) func(T, error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

// changed returns the line mirrored, or run from its other end.
func changed(e curve.Element, mirror, reverse bool) curve.Element {
	if reverse {
		e = e.Reverse()
	}
	if mirror {
		e = e.Mirror()
	}
	return e
}

func specs(t testing.TB) []spec {
	bend := func(r measure.Length, turn measure.Angle, hand curve.Hand, in, out measure.Length, shape curve.Shape) []curve.Element {
		return must[[]curve.Element](t)(curve.Bend{Radius: r, Turn: turn, Hand: hand, EaseIn: in, EaseOut: out, Shape: shape}.Elements())
	}
	straight := must[curve.Element](t)(curve.NewStraight(1 * m))
	s := must[curve.Element](t)(curve.NewEasement(curve.Sine, 900, 1.0/2000, -1.0/3000))
	open := []curve.Element{straight}
	open = append(open, bend(3*m, 1, curve.Left, 800, 700, curve.Helmert)...)
	open = append(open, bend(2*m, 1.2, curve.Right, 600, 500, curve.Bloss)...)
	open = append(open, straight)
	open = append(open, bend(4*m, 1.2, curve.Left, 0, 500, curve.Clothoid)...)
	open = append(open, bend(3*m, 0.8, curve.Right, 700, 600, curve.Lath)...)
	lap := []curve.Element{straight}
	lap = append(lap, bend(2*m, math.Pi, curve.Right, 600, 600, curve.Cosine)...)
	lap = append(lap, straight)
	lap = append(lap, bend(2*m, math.Pi, curve.Right, 600, 600, curve.Cosine)...)
	return []spec{
		{curve.Pose{Point: r2.Vec{X: 50, Y: -20}, Heading: 0.3}, false, open},
		{curve.Pose{Heading: 2}, false, []curve.Element{s}},
		{curve.Pose{}, true, lap},
	}
}

func tracks(t testing.TB) []*parallel.Track {
	var out []*parallel.Track
	for _, s := range specs(t) {
		line := s.line(t)
		l := line.Length()
		out = append(out, must[*parallel.Track](t)(parallel.New(line, 165)), must[*parallel.Track](t)(parallel.New(line, -700)),
			must[*parallel.Track](t)(parallel.NewTapered(line, parallel.Offset{Chainage: l / 10, Offset: 160}, parallel.Offset{Chainage: l / 2, Offset: 260, Law: curve.Bloss},
				parallel.Offset{Chainage: l * 0.6, Offset: 260, Law: curve.Helmert}, parallel.Offset{Chainage: l * 0.93, Offset: -120, Law: curve.Cosine})))
	}
	return out
}

// Differences of the points give heading and curvature, and the points run at
// unit speed by the track's own chainage.
func TestTrackAgainstDifferences(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for n, tr := range tracks(t) {
		for range 400 {
			x := measure.Length(rng.Float64()) * tr.Length()
			const h = 0.05
			a, b, c := tr.At(x-h), tr.At(x), tr.At(x+h)
			if b.Chainage != x {
				t.Fatalf("At(%v).Chainage = %v", x, b.Chainage)
			}
			v := r2.Scale(1/(2*h), r2.Sub(c.Point, a.Point))
			near(t, "speed", r2.Norm(v), 1, 1e-6)
			near(t, "heading", math.Remainder(math.Atan2(v.Y, v.X)-float64(b.Heading), 2*math.Pi), 0, 1e-5)
			near(t, "tangent", r2.Norm(r2.Sub(v, b.Tangent)), 0, 1e-5)
			// One jump of curvature may lie within h.
			k := math.Remainder(float64(c.Heading-a.Heading), 2*math.Pi) / (2 * h)
			near(t, "curvature", k, float64(b.Curvature), 1e-6+math.Abs(float64(c.Curvature-a.Curvature)))
			near(t, "chainage there and back", float64(tr.Chainage(b.Line)), float64(x), 1e-9)
		}
		if t.Failed() {
			t.Fatalf("track %d", n)
		}
	}
}

// The curvature formula of a changing offset, where nothing jumps.
func TestCurvatureOfTaper(t *testing.T) {
	for _, law := range []curve.Shape{0, curve.Bloss, curve.Cosine, curve.Helmert} {
		line := spec{elements: []curve.Element{must[curve.Element](t)(curve.NewEasement(curve.Clothoid, 3*m, 0, 1.0/2500))}}.line(t)
		tr := must[*parallel.Track](t)(parallel.NewTapered(line, parallel.Offset{Offset: 100, Law: law}, parallel.Offset{Chainage: 3 * m, Offset: 300}))
		for x := measure.Length(20); x < tr.Length()-20; x += 40.3 {
			if st := tr.At(x); math.Abs(float64(st.Line-1500)) < 1 { // Helmert's corner
				continue
			}
			const h = 0.05
			k := float64(tr.At(x+h).Heading-tr.At(x-h).Heading) / (2 * h)
			near(t, law.String()+" curvature", float64(tr.At(x).Curvature), k, 2e-10)
		}
	}
}

func TestConstantOffsetIsTheNearestDistance(t *testing.T) {
	for _, s := range specs(t)[:2] {
		line := s.line(t)
		tr := must[*parallel.Track](t)(parallel.New(line, 165))
		for x := measure.Length(10); x < tr.Length()-10; x += 97 {
			f := line.Nearest(tr.At(x).Point)
			near(t, "offset of the track's point", float64(f.Offset), 165, 1e-9)
			near(t, "chainage of its foot", float64(f.Chainage), float64(tr.At(x).Line), 1e-5)
		}
	}
}

func TestLengthAgainstChords(t *testing.T) {
	for n, tr := range tracks(t) {
		const parts = 40000
		sum := 0.0
		last := tr.At(0).Point
		for i := range parts {
			p := tr.At(tr.Length() * measure.Length(i+1) / parts).Point
			sum += r2.Norm(r2.Sub(p, last))
			last = p
		}
		near(t, "length", float64(tr.Length()), sum, 1e-4)
		if t.Failed() {
			t.Fatalf("track %d", n)
		}
	}
}

// The parallel of an arc is the arc of radius R - d, of a full circuit it is
// shorter by 2π·d.
func TestParallelOfArcAndCircuit(t *testing.T) {
	arc := must[curve.Element](t)(curve.NewArc(2*m, 1.5, curve.Left))
	tr := must[*parallel.Track](t)(parallel.New(spec{elements: []curve.Element{arc}}.line(t), 160))
	near(t, "length", float64(tr.Length()), 1840*1.5, 1e-12)
	st, ok := tr.Sharpest()
	if !ok || math.Abs(1/float64(st.Curvature)-1840) > 1e-9 {
		t.Errorf("Sharpest = %v, %v", st, ok)
	}
	line := specs(t)[2].line(t)
	for _, d := range []measure.Length{160, -160} {
		tr = must[*parallel.Track](t)(parallel.New(line, d))
		near(t, "length of the lap", float64(tr.Length()), float64(line.Length())+2*math.Pi*float64(d), 1e-9) // it turns to the right
		near(t, "closing", r2.Norm(r2.Sub(tr.At(tr.Length()-1e-9).Point, tr.At(0).Point)), 0, 1e-6)
	}
}

func TestMirrorReverseAndStart(t *testing.T) {
	for n, s := range specs(t) {
		line := s.line(t)
		mirrored, reversed := s, s
		mirrored.elements, reversed.elements = nil, nil
		for i := range s.elements {
			mirrored.elements = append(mirrored.elements, changed(s.elements[i], true, false))
			reversed.elements = append(reversed.elements, changed(s.elements[len(s.elements)-1-i], false, true))
		}
		mirrored.start = curve.Pose{Point: r2.Vec{X: s.start.Point.X, Y: -s.start.Point.Y}, Heading: -s.start.Heading}
		end := line.End()
		reversed.start = curve.Pose{Point: end.Point, Heading: end.Heading + math.Pi}
		a := must[*parallel.Track](t)(parallel.NewTapered(line, parallel.Offset{Chainage: 100, Offset: 120}, parallel.Offset{Chainage: 700, Offset: -50}))
		b := must[*parallel.Track](t)(parallel.NewTapered(mirrored.line(t), parallel.Offset{Chainage: 100, Offset: -120}, parallel.Offset{Chainage: 700, Offset: 50}))
		l := line.Length()
		c := must[*parallel.Track](t)(parallel.NewTapered(reversed.line(t), parallel.Offset{Chainage: l - 700, Offset: 50}, parallel.Offset{Chainage: l - 100, Offset: -120}))
		near(t, "length mirrored", float64(b.Length()), float64(a.Length()), 1e-9)
		near(t, "length reversed", float64(c.Length()), float64(a.Length()), 1e-9)
		for x := measure.Length(5); x < a.Length(); x += 61 {
			p, q, r := a.At(x), b.At(x), c.At(a.Length()-x)
			near(t, "mirrored", r2.Norm(r2.Sub(p.Point, r2.Vec{X: q.Point.X, Y: -q.Point.Y})), 0, 1e-8)
			near(t, "mirrored curvature", float64(q.Curvature), -float64(p.Curvature), 1e-12)
			near(t, "reversed", r2.Norm(r2.Sub(p.Point, r.Point)), 0, 1e-8)
			near(t, "reversed curvature", float64(r.Curvature), -float64(p.Curvature), 1e-9)
		}
		if t.Failed() {
			t.Fatalf("line %d", n)
		}
	}
	// A circuit that starts elsewhere, also within the taper over its start.
	s := specs(t)[2]
	line := s.line(t)
	a := must[*parallel.Track](t)(parallel.NewTapered(line, parallel.Offset{Chainage: 3 * m, Offset: 160}, parallel.Offset{Chainage: 12 * m, Offset: 230}))
	want, _ := a.Sharpest()
	for n := range s.elements {
		at := line.Boundaries()[n]
		st := line.At(at)
		turned := spec{curve.Pose{Point: st.Point, Heading: st.Heading}, true, append(append([]curve.Element{}, s.elements[n:]...), s.elements[:n]...)}
		points := []parallel.Offset{{Chainage: 3*m - at, Offset: 160}, {Chainage: 12*m - at, Offset: 230}}
		for i := range points {
			if points[i].Chainage < 0 {
				points[i].Chainage += line.Length()
			}
		}
		if points[0].Chainage > points[1].Chainage {
			points[0], points[1] = points[1], points[0]
		}
		b := must[*parallel.Track](t)(parallel.NewTapered(turned.line(t), points...))
		near(t, "length", float64(b.Length()), float64(a.Length()), 1e-8)
		got, _ := b.Sharpest()
		near(t, "sharpest", float64(got.Curvature), float64(want.Curvature), 1e-12)
		shift := a.Chainage(at)
		for x := measure.Length(5); x < a.Length(); x += 190 {
			near(t, "place", r2.Norm(r2.Sub(b.At(x).Point, a.At(x+shift).Point)), 0, 1e-7)
		}
		if t.Failed() {
			t.Fatalf("start at element %d", n)
		}
	}
}

func TestSharpestAgainstBruteForce(t *testing.T) {
	for n, tr := range tracks(t) {
		st, ok := tr.Sharpest()
		if !ok {
			t.Fatalf("track %d: no sharpest", n)
		}
		best := 0.0
		for i := range 20000 {
			best = max(best, math.Abs(float64(tr.At(tr.Length()*measure.Length(i)/20000).Curvature)))
		}
		k := math.Abs(float64(st.Curvature))
		if k < best*(1-1e-12) || k > best*(1+1e-3) {
			t.Errorf("track %d: sharpest radius %v, by trial %v", n, 1/k, 1/best)
		}
	}
	straight := spec{elements: []curve.Element{must[curve.Element](t)(curve.NewStraight(1 * m))}}.line(t)
	if st, ok := must[*parallel.Track](t)(parallel.New(straight, 5)).Sharpest(); ok {
		t.Errorf("Sharpest of a straight = %v", st)
	}
}

func TestPointsStayWithinTheTolerance(t *testing.T) {
	for n, tr := range tracks(t) {
		for _, tol := range []measure.Length{2, 0.1} {
			points := must[[]parallel.Station](t)(tr.Points(tol))
			worst := 0.0
			for i := 1; i < len(points); i++ {
				a, b := points[i-1], points[i]
				if b.Chainage < a.Chainage || b.Line <= a.Line {
					t.Fatalf("points %v and %v out of order", a, b)
				}
				near(t, "own chainage", float64(tr.Chainage(b.Line)), float64(b.Chainage), 1e-8)
				if i+1 == len(points) {
					break // a circuit's last point is its first
				}
				chord := r2.Sub(b.Point, a.Point)
				for j := 1; j < 8; j++ {
					p := r2.Sub(tr.At(a.Chainage+(b.Chainage-a.Chainage)*measure.Length(j)/8).Point, a.Point)
					worst = max(worst, math.Abs(r2.Cross(p, chord))/r2.Norm(chord))
				}
			}
			if worst > float64(tol) || worst < float64(tol)/20 {
				t.Errorf("track %d, %d points: chords are %v mm off, tolerance %v mm", n, len(points), worst, tol)
			}
			near(t, "last point", float64(points[len(points)-1].Chainage), float64(tr.Length()), 1e-9)
		}
	}
}

func TestEndsGoOnStraight(t *testing.T) {
	tr := must[*parallel.Track](t)(parallel.New(specs(t)[1].line(t), 100))
	a, b := tr.At(-50), tr.At(0)
	near(t, "before the start", r2.Norm(r2.Sub(r2.Add(a.Point, r2.Scale(50, b.Tangent)), b.Point)), 0, 1e-9)
	end := tr.At(tr.Length() + 30)
	near(t, "past the end", r2.Norm(r2.Sub(end.Point, tr.At(tr.Length()).Point)), 30, 1e-9)
	if end.Curvature != 0 || a.Curvature != 0 {
		t.Error("it curves past its ends")
	}
	near(t, "line chainage past the end", float64(tr.Chainage(end.Line)), float64(end.Chainage), 1e-9)
}

func TestNoChainageGivesNaN(t *testing.T) {
	for n, tr := range tracks(t) {
		for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e12, -1e12} {
			st := tr.At(measure.Length(x))
			s := tr.Chainage(measure.Length(x))
			for _, v := range []float64{st.Point.X, st.Point.Y, float64(st.Heading), float64(st.Curvature), float64(st.Line), float64(st.Offset), float64(st.Chainage), float64(s)} {
				if math.IsNaN(v) || math.IsInf(v, 0) {
					t.Errorf("track %d at %v: %+v, chainage %v", n, x, st, s)
				}
			}
		}
	}
}

func TestRefuses(t *testing.T) {
	line := specs(t)[0].line(t)
	kinked := spec{elements: []curve.Element{must[curve.Element](t)(curve.NewStraight(1 * m)), must[curve.Element](t)(curve.NewStraight(1 * m)).WithKink(1 * measure.Degree)}}.line(t)
	nan := measure.Length(math.NaN())
	for _, tt := range []struct {
		name string
		do   func() error
		want []string
		kind error
	}{
		{"no line", func() error { _, err := parallel.New(nil, 1); return err }, []string{"line"}, measure.ErrInput},
		{"NaN", func() error { _, err := parallel.New(line, nan); return err }, []string{"offset 1"}, measure.ErrInput},
		{"reaches the centre", func() error { _, err := parallel.New(line, -2*m); return err }, []string{"offset -2000 mm", "radius of 2000 mm"}, measure.ErrInput},
		{"reaches it within a taper", func() error {
			_, err := parallel.NewTapered(line, parallel.Offset{Offset: -100}, parallel.Offset{Chainage: 6500, Offset: -2500}, parallel.Offset{Chainage: line.Length(), Offset: -100})
			return err
		}, []string{"radius of 2000 mm"}, measure.ErrInput},
		{"kink", func() error { _, err := parallel.New(kinked, 100); return err }, []string{"kink of 1° at chainage 1000 mm", "1.75 mm"}, measure.ErrInput},
		{"none", func() error { _, err := parallel.NewTapered(line); return err }, []string{"offsets 0"}, measure.ErrInput},
		{"several", func() error {
			_, err := parallel.NewTapered(line, parallel.Offset{Chainage: 9, Law: curve.Clothoid}, parallel.Offset{Chainage: 8, Offset: nan}, parallel.Offset{Chainage: 1e9})
			return err
		}, []string{"offset 1: law", "offset 2: chainage", "offset 2 NaN", "offset 3: chainage"}, measure.ErrInput},
		{"too many offsets", func() error {
			_, err := parallel.NewTapered(line, make([]parallel.Offset, parallel.MaxOffsets+1)...)
			return err
		}, []string{"10001"}, measure.ErrLimit},
		{"tolerance", func() error { _, err := tracks(t)[0].Points(0); return err }, []string{"tolerance"}, measure.ErrInput},
		{"too many points", func() error { _, err := tracks(t)[0].Points(1e-15); return err }, []string{"larger tolerance"}, measure.ErrLimit},
	} {
		err := tt.do()
		if !errors.Is(err, tt.kind) {
			t.Errorf("%s: error %v, want kind %v", tt.name, err, tt.kind)
			continue
		}
		for _, w := range tt.want {
			if !strings.Contains(err.Error(), w) {
				t.Errorf("%s: error %q does not say %q", tt.name, err, w)
			}
		}
	}
	if _, err := parallel.New(kinked, 5); err != nil {
		t.Errorf("a gap of 0.09 mm is refused: %v", err)
	}
}

// A taper falls while an easement's curvature rises: at neither end does the
// offset reach the centre of curvature, but u (1 - f(u)) 4050/900 passes 1 between;
// with 3248 for a little way only.
func TestTaperReachesTheCentreBetweenEnds(t *testing.T) {
	e, err := curve.NewEasement(curve.Clothoid, 600, 0, 1.0/900)
	if err != nil {
		t.Fatal(err)
	}
	line, err := curve.New(curve.Pose{}, e)
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range []struct {
		first measure.Length
		ok    bool
	}{{4050, false}, {3248, false}, {3230, true}} {
		_, err := parallel.NewTapered(line, parallel.Offset{Offset: row.first}, parallel.Offset{Chainage: 600})
		if row.ok != (err == nil) || !row.ok && !errors.Is(err, measure.ErrInput) {
			t.Errorf("offset from %v: error %v", row.first, err)
		}
	}
}
