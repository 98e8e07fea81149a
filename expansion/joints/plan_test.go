package joints_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/expansion"
	"example.org/fourfoot/expansion/joints"
	"example.org/fourfoot/gauge/measure"
)

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// winding returns an open line of n bends of changing hand, eased, with
// straights between.
func winding(r *rand.Rand, n int) *curve.Alignment {
	e := []curve.Element{must(curve.NewStraight(measure.Length(500 + 3000*r.Float64())))}
	for range n {
		hand := curve.Left
		if r.IntN(2) == 0 {
			hand = curve.Right
		}
		b := curve.Bend{Radius: measure.Length(1500 + 4000*r.Float64()), Turn: measure.Angle(0.5+0.8*r.Float64()) * measure.Radian, Hand: hand, EaseIn: 400, EaseOut: 500, Shape: curve.Clothoid + curve.Shape(r.IntN(5))}
		e = append(e, must(b.Elements())...)
		e = append(e, must(curve.NewStraight(measure.Length(200+3000*r.Float64()))))
	}
	return must(curve.New(curve.Pose{}, e...))
}

func oval(straight, radius measure.Length) *curve.Alignment {
	s := must(curve.NewStraight(straight))
	a := must(curve.NewArc(radius, math.Pi, curve.Left))
	return must(curve.NewClosed(curve.Pose{}, 1e-6, 1e-9, s, a, s, a))
}

func hilly(line *curve.Alignment) profile.Level {
	l := line.Length()
	return must(profile.NewLevel(profile.Point{}, profile.Point{Chainage: l / 3, Level: l / 90, Radius: 5000}, profile.Point{Chainage: l / 2, Level: 0, Radius: 5000}, profile.Point{Chainage: l, Level: l / 80}))
}

func brass() *joints.Heat {
	return &joints.Heat{
		Rail: 19 * measure.MicroPerKelvin, Base: 12 * measure.MicroPerKelvin, Widest: 4,
		Laying: expansion.State{Rail: 18, Base: 16}, Climate: must(expansion.Corners(-15, 48, -10, 30)),
	}
}

// account checks that pieces and gaps make up each rail of the line, measured
// without the plan.
func account(t *testing.T, line *curve.Alignment, s joints.Spec, p joints.Plan, from, to measure.Length) {
	t.Helper()
	for _, side := range []curve.Hand{curve.Left, curve.Right} {
		want := must(line.RailLength(side, from, to, s.RailCentres))
		if line.Closed() && from == to {
			want = line.Length() - measure.Length(float64(side)*float64(s.RailCentres)/2*float64(line.End().Heading-line.Start().Heading))
			want += must(s.Level.TrueLength(0, line.Length())) - line.Length()
		} else if from < to { // over the start only the level lines of the tests go
			want += must(s.Level.TrueLength(from, to)) - line.Span(from, to)
		}
		var got measure.Length
		for _, q := range p.Pieces {
			if q.Rail == side {
				got += q.Length
			}
		}
		for _, j := range p.Joints {
			if j.Rail == side {
				got += j.Gap
			}
		}
		if d := math.Abs(float64(got - want)); d > 1e-6 {
			t.Errorf("%v rail: pieces and gaps %v, rail %v: off by %v mm", side, got, want, d)
		}
		total := p.Left
		if side == curve.Right {
			total = p.Right
		}
		if math.Abs(float64(total.Rail-want)) > 1e-6 || math.Abs(float64(total.Pieces+total.Gaps-total.Rail)) > 1e-6 {
			t.Errorf("%v rail: account %+v, rail %v", side, total, want)
		}
	}
}

// rules checks what every plan must keep, whatever the line.
func rules(t *testing.T, line *curve.Alignment, s joints.Spec, p joints.Plan) {
	t.Helper()
	longest := s.Panel
	if longest == 0 {
		for _, k := range s.Stock {
			longest = max(longest, k.Length)
		}
	}
	for _, q := range p.Pieces {
		if q.Length <= 0 || q.Length > longest+1e-6 {
			t.Errorf("piece %s of %v: panel %v", q.Mark, q.Length, longest)
		}
		if d := math.Abs(float64(q.Back + q.Ahead - q.Length)); d > 1e-9 {
			t.Errorf("piece %s: free lengths %v and %v of %v", q.Mark, q.Back, q.Ahead, q.Length)
		}
		if d := math.Abs(float64(q.Length + q.Trim - longest)); d > 1e-9 {
			t.Errorf("piece %s: trim %v of %v", q.Mark, q.Trim, q.Length)
		}
	}
	used := make([]int, len(p.Pieces))
	for k, b := range p.Cutting.Bars {
		sum := b.Rest
		for i, n := range b.Pieces {
			used[n]++
			sum += p.Pieces[n].Length
			if i > 0 {
				sum += s.Kerf
			}
			if p.Pieces[n].Bar != k {
				t.Errorf("piece %s says bar %d, but bar %d has it", p.Pieces[n].Mark, p.Pieces[n].Bar, k)
			}
		}
		if sum > b.Length+1e-5 {
			t.Errorf("bar %d of %v holds %v", k, b.Length, sum)
		}
	}
	for i, n := range used {
		if n != 1 {
			t.Errorf("piece %s is cut %d times", p.Pieces[i].Mark, n)
		}
	}
	if len(p.Cutting.Bars) < p.Cutting.Bound {
		t.Errorf("%d bars, below the bound %d", len(p.Cutting.Bars), p.Cutting.Bound)
	}
	for _, j := range p.Joints {
		if i := j.PieceBefore; i >= 0 {
			if q := p.Pieces[i]; q.Rail != j.Rail || q.Run != j.Run || math.Abs(float64(line.At(q.To).Point.X-line.At(j.Chainage).Point.X)) > 1e-6 || q.Ahead != j.Before {
				t.Errorf("joint %+v, piece before it %+v", j, q)
			}
		}
		if i := j.PieceAfter; i >= 0 {
			if q := p.Pieces[i]; q.Rail != j.Rail || q.Run != j.Run || math.Abs(float64(line.At(q.From).Point.X-line.At(j.Chainage).Point.X)) > 1e-6 || q.Back != j.After {
				t.Errorf("joint %+v, piece after it %+v", j, q)
			}
		}
		if (j.PieceBefore < 0 || j.PieceAfter < 0) != (j.At != "") {
			t.Errorf("joint %+v", j)
		}
		if s.Heat == nil || j.Problem != "" {
			continue
		}
		if j.Gap < j.Least-1e-6 || j.Gap > j.Most+1e-6 {
			t.Errorf("joint %s: gap %v, permitted %v to %v", j.Mark, j.Gap, j.Least, j.Most)
		}
	}
}

func TestOpenLines(t *testing.T) {
	r := rand.New(rand.NewPCG(11, 12))
	for n := range 60 {
		line := winding(r, 1+r.IntN(6))
		s := joints.Spec{RailCentres: measure.Length(33 + 15*r.Float64()), Stock: []joints.Stock{{Length: 1800}}, Kerf: 1, Gap: measure.Length(2 * r.Float64()), Pattern: joints.Pattern(n % 2)}
		if n%3 > 0 {
			s.Level = hilly(line)
		}
		if n%5 == 0 {
			s.Heat = brass()
		}
		p, err := joints.New(line, s)
		if err != nil {
			t.Fatal(err)
		}
		account(t, line, s, p, 0, line.Length())
		rules(t, line, s, p)
		// Few pieces: no more than two above what whole bars would take.
		longer := max(float64(p.Left.Rail), float64(p.Right.Rail))
		if most := 2 * (int(longer/1800*1.05) + 3); len(p.Pieces) > most {
			t.Errorf("line %d: %d pieces on %v mm, expected at most %d", n, len(p.Pieces), longer, most)
		}
	}
}

// On a straight, whole bars with 2 mm gaps repeat every 1802 mm.
func TestStraight(t *testing.T) {
	line := must(curve.New(curve.Pose{}, must(curve.NewStraight(5*1800+4*2))))
	s := joints.Spec{RailCentres: 47.5, Stock: []joints.Stock{{Length: 1800}}, Gap: 2}
	p, err := joints.New(line, s)
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Joints) != 8 || len(p.Pieces) != 10 || len(p.Cutting.Bars) != 10 || p.Cutting.Waste > 1e-6 {
		t.Fatalf("%d joints, %d pieces, %d bars, waste %v: want 8, 10, 10, 0", len(p.Joints), len(p.Pieces), len(p.Cutting.Bars), p.Cutting.Waste)
	}
	for i, j := range p.Joints[:4] {
		if want := 1801 + 1802*float64(i); math.Abs(float64(j.Chainage)-want) > 1e-6 {
			t.Errorf("joint %s at %v, want %v", j.Mark, j.Chainage, want)
		}
	}
}

// Lengths a trifle over a whole number of bars and gaps: the last bar is not
// enough for the line, though it would be for a joint half a gap further on.
func TestJustTooLong(t *testing.T) {
	for _, over := range []measure.Length{1e-7, 0.001, 0.3, 0.999, 1, 1.001, 2} {
		for _, n := range []measure.Length{1, 2, 3} {
			for _, pattern := range []joints.Pattern{joints.Square, joints.Staggered} {
				line := must(curve.New(curve.Pose{}, must(curve.NewStraight(n*1800+(n-1)*2+over))))
				s := joints.Spec{RailCentres: 47.5, Stock: []joints.Stock{{Length: 1800}}, Gap: 2, Pattern: pattern}
				p, err := joints.New(line, s)
				if err != nil {
					t.Errorf("%v bars and %v mm: %v", n, over, err)
					continue
				}
				account(t, line, s, p, 0, line.Length())
				rules(t, line, s, p)
				for _, q := range p.Pieces {
					if q.Length < 448 { // a quarter of a bar, less its gaps
						t.Errorf("%v bars and %v mm: piece %s of %v", n, over, q.Mark, q.Length)
					}
				}
			}
		}
	}
}

// A whole quarter circle of 3 m to the left: with a full bar on the outer
// rail the inner piece is g_c·θ shorter, θ the turn of the piece.
func TestInnerTrim(t *testing.T) {
	line := must(curve.New(curve.Pose{}, must(curve.NewArc(3000, math.Pi/2, curve.Left))))
	const g = 47.5
	p, err := joints.New(line, joints.Spec{RailCentres: g, Stock: []joints.Stock{{Length: 1000}}})
	if err != nil {
		t.Fatal(err)
	}
	var first [2]joints.Piece
	for _, q := range p.Pieces {
		if q.Mark == "L1" {
			first[0] = q
		}
		if q.Mark == "R1" {
			first[1] = q
		}
	}
	turn := 1000 / (3000 + g/2)
	if math.Abs(float64(first[1].Length)-1000) > 1e-9 || math.Abs(float64(first[0].Trim)-g*turn) > 1e-9 {
		t.Errorf("outer %v, inner trim %v: want 1000 and %v", first[1].Length, first[0].Trim, g*turn)
	}
	// The trim of the whole bend is 0.83 mm a degree on 45 mm gauge: 74.6 for 90°.
	if d := math.Abs(float64(p.Right.Rail-p.Left.Rail) - 74.6); d > 0.05 {
		t.Errorf("outer less inner rail %v, want 74.6", p.Right.Rail-p.Left.Rail)
	}
}

func TestStaggered(t *testing.T) {
	line := must(curve.New(curve.Pose{}, must(curve.NewStraight(20_000))))
	p, err := joints.New(line, joints.Spec{RailCentres: 47.5, Stock: []joints.Stock{{Length: 2000}}, Gap: 1, Pattern: joints.Staggered})
	if err != nil {
		t.Fatal(err)
	}
	var left, right []float64
	for _, j := range p.Joints {
		if j.Rail == curve.Left {
			left = append(left, float64(j.Chainage))
		} else {
			right = append(right, float64(j.Chainage))
		}
	}
	for i, x := range right {
		want := 2000.5 / 2
		if i > 0 && i < len(left) {
			want = (left[i-1] + left[i]) / 2
		}
		if i < len(left) && math.Abs(x-want) > 1e-6 {
			t.Errorf("right joint %d at %v, want %v", i+1, x, want)
		}
	}
	if len(right) < len(left) {
		t.Errorf("%d right joints beside %d left ones", len(right), len(left))
	}
}

func TestCircuitWithoutObjects(t *testing.T) {
	line := oval(4000, 2500)
	for _, pattern := range []joints.Pattern{joints.Square, joints.Staggered} {
		for _, level := range []profile.Level{{}, must(profile.NewClosedLevel(line.Length(), 1e-6, profile.Point{Chainage: 0}, profile.Point{Chainage: 9000, Level: 150, Radius: 15000}))} {
			s := joints.Spec{RailCentres: 34, Stock: []joints.Stock{{Length: 1500}}, Gap: 1, Pattern: pattern, Level: level, Heat: brass()}
			p, err := joints.New(line, s)
			if err != nil {
				t.Fatal(err)
			}
			account(t, line, s, p, 0, 0)
			rules(t, line, s, p)
			n := map[curve.Hand]int{}
			for _, q := range p.Pieces {
				n[q.Rail]++
			}
			for _, j := range p.Joints {
				n[j.Rail]--
			}
			if n[curve.Left] != 0 || n[curve.Right] != 0 {
				t.Errorf("%v: pieces less joints %v: a ring has as many of both", pattern, n)
			}
		}
	}
}

// Whole circuits with turnouts give the same plan wherever chainage 0 is put.
func TestStartMoved(t *testing.T) {
	straight := func(l measure.Length) curve.Element { return must(curve.NewStraight(l)) }
	half := must(curve.NewArc(2500, math.Pi, curve.Left))
	a := oval(4000, 2500)
	// The same ring begun 1200 mm further on.
	end := a.At(1200)
	b := must(curve.NewClosed(curve.Pose{Point: end.Point, Heading: end.Heading}, 1e-6, 1e-9, straight(2800), half, straight(4000), half, straight(1200)))
	move := func(s measure.Length) measure.Length {
		return measure.Length(math.Mod(float64(s-1200+b.Length()), float64(b.Length())))
	}
	for _, pattern := range []joints.Pattern{joints.Square, joints.Staggered} {
		s := joints.Spec{
			RailCentres: 34, Stock: []joints.Stock{{Length: 1500}}, Gap: 1, Pattern: pattern, Heat: brass(),
			Objects: []joints.Object{{Name: "points", From: 600, To: 1000}, {Name: "bridge", From: 9000, To: 9900}},
			Anchors: []joints.Anchor{{Name: "wall", At: 15000}},
			Zones:   []joints.Zone{{Name: "tunnel", From: 19000, To: 20000}, {Name: "portal", From: 23000, To: 300}},
		}
		m := s
		m.Objects = []joints.Object{{Name: "points", From: move(600), To: move(1000)}, {Name: "bridge", From: move(9000), To: move(9900)}}
		m.Anchors = []joints.Anchor{{Name: "wall", At: move(15000)}}
		m.Zones = []joints.Zone{{Name: "tunnel", From: move(19000), To: move(20000)}, {Name: "portal", From: move(23000), To: move(300)}}
		p, err := joints.New(a, s)
		if err != nil {
			t.Fatal(err)
		}
		q, err := joints.New(b, m)
		if err != nil {
			t.Fatal(err)
		}
		rules(t, a, s, p)
		if len(p.Joints) != len(q.Joints) {
			t.Fatalf("%d joints, %d with the start moved", len(p.Joints), len(q.Joints))
		}
		for i, j := range p.Joints {
			k := q.Joints[i]
			if math.Abs(float64(move(j.Chainage)-k.Chainage)) > 1e-6 || math.Abs(float64(j.Gap-k.Gap)) > 1e-9 || j.At != k.At || j.Mark != k.Mark {
				t.Errorf("joint %+v, with the start moved %+v", j, k)
			}
		}
		for i, c := range p.Pieces {
			if d := q.Pieces[i]; math.Abs(float64(c.Length-d.Length)) > 1e-6 || c.Anchor != d.Anchor {
				t.Errorf("piece %+v, with the start moved %+v", c, d)
			}
		}
		if math.Abs(float64(p.Cutting.Waste-q.Cutting.Waste)) > 1e-6 || p.Order.Sleepers != q.Order.Sleepers {
			t.Errorf("order %+v, with the start moved %+v", p.Order, q.Order)
		}
		// Pieces, gaps and objects make up the ring.
		objects := measure.Length(400 + 900)
		for _, total := range []joints.Total{p.Left, p.Right} {
			if d := math.Abs(float64(total.Pieces + total.Gaps - total.Rail)); d > 1e-6 {
				t.Errorf("account %+v is off by %v", total, d)
			}
		}
		turned := a.Turn(600, 1000) + a.Turn(9000, 9900)
		wantLeft := a.Length() - objects - measure.Length(17*(2*math.Pi-float64(turned)))
		if d := math.Abs(float64(p.Left.Rail - wantLeft)); d > 1e-6 {
			t.Errorf("left rail %v, want %v", p.Left.Rail, wantLeft)
		}
	}
}
