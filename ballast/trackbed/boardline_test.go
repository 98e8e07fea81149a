package trackbed_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/ballast/trackbed"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// On an arc Along and the closed form of Bend lay the same boards.
func TestAlongAgreesWithBend(t *testing.T) {
	for _, hand := range []curve.Hand{curve.Left, curve.Right} {
		b := trackbed.Board{Width: 145, SleeperLength: 82, SleeperWidth: 12, Margin: 8, Gap: 0, Kerf: 3, Stock: 2400}
		line := open(arc(2000, 1.5, hand))
		want, got := must(b.Bend(2000, 1.5)), must(b.Along(line, all(line)))
		if len(got.Boards) != want.Count {
			t.Fatalf("%v: %d boards, Bend has %d", hand, len(got.Boards), want.Count)
		}
		for _, k := range got.Boards {
			outer, inner := k.Right, k.Left
			if hand == curve.Right {
				outer, inner = inner, outer
			}
			// Equal to the thousandth to which Along makes them equal.
			if !near(float64(outer), float64(want.Long), 3e-3) || !near(float64(inner), float64(want.Short), 3e-3) || !near(float64(k.Chord), float64(want.Chord), 3e-3) {
				t.Errorf("%v: %+v, Bend has %+v", hand, k, want)
			}
		}
	}
}

// Point by point on every form of line: each board is drawn on the ground from
// its edges and cuts alone, and every sleeper's corners are looked for inside.
// Neighbouring boards share their cut.
func TestSleepersStayOnLaidBoards(t *testing.T) {
	k := measure.Curvature(1.0 / 1500)
	b := trackbed.Board{Width: 150, SleeperLength: 65, SleeperWidth: 10, Margin: 6, Gap: 4, Kerf: 3, Stock: 2400}
	for name, line := range map[string]*curve.Alignment{
		"straight, easement, arc": open(straight(3000), must(curve.NewEasement(curve.Clothoid, 900, 0, k)), arc(1500, 1, curve.Left)),
		"reversal":                open(arc(1500, 0.7, curve.Right), must(curve.NewEasement(curve.Bloss, 1200, -k, k)), arc(1500, 0.7, curve.Left)),
		"straight":                open(straight(5555)),
		"kinks":                   open(straight(700), straight(400).WithKink(4*measure.Degree), straight(700).WithKink(-4*measure.Degree)),
		"circuit":                 oval(),
	} {
		run, err := b.Along(line, all(line))
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		at := 0.0
		for i, d := range run.Boards {
			if !near(float64(d.From), at, 1e-9) {
				t.Fatalf("%s: board %d begins at %v, the last ended at %v", name, i, d.From, at)
			}
			at = float64(d.To)
			p, q := line.Point(d.From), line.Point(d.To)
			u := r2.Unit(r2.Sub(q, p))
			n := r2.Vec{X: -u.Y, Y: u.X}
			if !near(float64(d.Chord), r2.Norm(r2.Sub(q, p)), 1e-9) {
				t.Errorf("%s: chord %v", name, d.Chord)
			}
			// The edges' ends from the cuts: a line square to the line of the
			// track, half a gap inside the place where two boards meet.
			gap0, gap1 := 2.0, 2.0
			if !line.Closed() && i == 0 {
				gap0 = 0
			}
			if !line.Closed() && i == len(run.Boards)-1 {
				gap1 = 0
			}
			c := float64(d.Chord)
			for _, e := range []struct{ y, length float64 }{{float64(d.EndLine), float64(d.Left)}, {float64(d.EndLine) - 150, float64(d.Right)}} {
				x0 := gap0/math.Cos(float64(d.FromMitre)) - e.y*math.Tan(float64(d.FromMitre))
				x1 := c - gap1/math.Cos(float64(d.ToMitre)) - e.y*math.Tan(float64(d.ToMitre))
				if !near(x1-x0, e.length, 1e-9) || e.length > 2400+1e-6 {
					t.Errorf("%s: edge %v long, from its cuts %v", name, e.length, x1-x0)
				}
			}
			toLeft, toRight := math.Inf(1), math.Inf(1)
			for j := 0; j <= 300; j++ {
				s := d.From + (d.To-d.From)*measure.Length(1e-9+(1-2e-9)*float64(j)/300)
				st := line.At(s)
				left := r2.Vec{X: -st.Tangent.Y, Y: st.Tangent.X}
				for _, y := range []float64{-32.5, 32.5} {
					for _, x := range []float64{-5, 0, 5} {
						corner := r2.Add(st.Point, r2.Add(r2.Scale(y, left), r2.Scale(x, st.Tangent)))
						v := r2.Dot(r2.Sub(corner, p), n)
						toLeft, toRight = min(toLeft, float64(d.EndLine)-v), min(toRight, v-(float64(d.EndLine)-150))
					}
				}
			}
			if least := min(toLeft, toRight); least < 6-0.01 {
				t.Errorf("%s: board %d: a sleeper comes to %v of an edge, want 6", name, i, least)
			}
			if d.Spare < -0.01 {
				t.Errorf("%s: board %d: spare %v", name, i, d.Spare)
			}
			mid := r2.Dot(r2.Sub(line.Point((d.From+d.To)/2), p), n)
			if got := float64(d.EndLine) - float64(d.MidLine); !near(got, mid, 1e-6) {
				t.Errorf("%s: board %d: midway the line bows by %v, want %v", name, i, got, mid)
			}
			// The sleepers lie in the middle, but for the reserve for their turn.
			reserve := 0.01 + 32.5*(1-math.Cos(max(math.Abs(float64(d.FromMitre)), math.Abs(float64(d.ToMitre)))))
			if name != "kinks" && (math.Abs(toLeft-toRight) > reserve || math.Abs(min(toLeft, toRight)-6-float64(d.Spare)) > reserve) {
				t.Errorf("%s: board %d: sleepers come to %v of the left edge and %v of the right one, spare %v", name, i, toLeft, toRight, d.Spare)
			}
		}
		if !near(at, float64(line.Length()), 1e-9) {
			t.Errorf("%s: the last board ends at %v of %v", name, at, line.Length())
		}
		if n := len(run.Boards); run.Planks < 1 || run.Planks > n {
			t.Errorf("%s: %d planks for %d boards", name, run.Planks, n)
		}
	}
}

// A straight's boards lie in the middle under it whatever its heading, and a
// bend's as far off on the one hand as on the other; a bend all but straight
// lies as a straight does.
func TestBoardsLieInTheMiddle(t *testing.T) {
	b := trackbed.Board{Width: 110, SleeperLength: 75, Margin: 10, Gap: 3, Kerf: 2, Stock: 600}
	for deg := 0.0; deg < 360; deg += 20 {
		line := must(curve.New(curve.Pose{Heading: measure.Angle(deg) * measure.Degree}, straight(4000)))
		for i, k := range must(b.Along(line, ballast.Stretch{From: 1000, To: 2800})).Boards {
			if !near(float64(k.EndLine), 55, 1e-9) || !near(float64(k.MidLine), 55, 1e-9) || !near(float64(k.Spare), 7.5, 1e-9) {
				t.Errorf("heading %v°, board %d: %+v, want the line at 55 mm", deg, i, k)
			}
		}
	}
	for _, c := range []struct{ radius, tolerance float64 }{{1500, 6}, {1e6, 0.03}, {1e9, 1e-4}} {
		r := measure.Length(c.radius)
		line := open(arc(r, measure.Angle(900/c.radius), curve.Left), arc(r, measure.Angle(900/c.radius), curve.Right))
		for i, k := range must(b.Along(line, all(line))).Boards {
			if !near(float64(k.EndLine), 55, c.tolerance/55) || !near(float64(k.EndLine+k.MidLine), 110, 0.01) {
				t.Errorf("radius %v, board %d: %+v, want the line at 55 mm", r, i, k)
			}
		}
		p := must(b.Bend(r, measure.Angle(900/c.radius)))
		if !near(float64(p.LineAt), 55, c.tolerance/55) || float64(p.Spare) < 0 {
			t.Errorf("radius %v: Bend %+v", r, p)
		}
	}
}

// Over the start of a circuit, and cut where one likes.
func TestBoardsOverTheStart(t *testing.T) {
	b := trackbed.Board{Width: 150, SleeperLength: 65, Margin: 6, Stock: 2400}
	line := oval()
	from := line.Length() - 1500
	run, err := b.Along(line, ballast.Stretch{From: from, To: 1500})
	if err != nil || len(run.Boards) < 2 || !near(float64(run.Boards[len(run.Boards)-1].To), float64(line.Length()+1500), 1e-9) {
		t.Errorf("%+v, %v", run, err)
	}
}

func TestBoardsAlongRefuse(t *testing.T) {
	good := trackbed.Board{Width: 150, SleeperLength: 65, Margin: 6, Stock: 2400}
	line := open(straight(3000), arc(1500, 1, curve.Left))
	for text, c := range map[string]struct {
		change func(*trackbed.Board)
		kind   error
	}{
		"stock length":  {func(b *trackbed.Board) { b.Stock = 0 }, measure.ErrInput},
		"board width":   {func(b *trackbed.Board) { b.Width = 70 }, measure.ErrInput},
		"more than":     {func(b *trackbed.Board) { b.Stock = 1 }, measure.ErrLimit},
		"inner edge":    {func(b *trackbed.Board) { b.Gap = 2000 }, measure.ErrNoAnswer},
		"does not hold": {func(b *trackbed.Board) { b.Width, b.SleeperWidth = 77.01, 60 }, measure.ErrNoAnswer},
	} {
		b := good
		c.change(&b)
		_, err := b.Along(line, all(line))
		refused(t, text, err, c.kind, text)
	}
}
