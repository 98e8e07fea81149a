package trackbed_test

import (
	"math"
	"testing"

	"example.org/fourfoot/ballast/trackbed"
	"example.org/fourfoot/gauge/measure"
)

// Chord and mitre by the trade's formulas: s = W - t - 2m, c = √(8Rs - 4s²),
// φ = asin(c/2R), long edge 2(R + t/2 + m)·tan φ.
func TestBoardFormulas(t *testing.T) {
	const R, W, sl, m = 2000.0, 145.0, 82.0, 8.0
	b := trackbed.Board{Width: W, SleeperLength: sl, Margin: m}
	s := W - sl - 2*m
	chord := math.Sqrt(8*R*s - 4*s*s)
	phi := math.Asin(chord / (2 * R))
	for n := 1; n < 6; n++ { // a bend of just n of the longest boards
		p, err := b.Bend(R, measure.Angle(2*phi*float64(n)))
		if err != nil || p.Count != n || !near(float64(p.Greatest), chord, 1e-12) || !near(float64(p.Mitre), phi, 1e-12) ||
			!near(float64(p.Long), 2*(R+sl/2+m)*math.Tan(phi), 1e-12) || !near(float64(p.Short), 2*(R+sl/2+m-W)*math.Tan(phi), 1e-12) {
			t.Errorf("%d boards: %+v, %v, want chord %v, mitre %v°", n, p, err, chord, phi*180/math.Pi)
		}
		if p, _ := b.Bend(R, measure.Angle(2*phi*float64(n)*1.0001)); p.Count != n+1 {
			t.Errorf("a little more than %d boards: %d", n, p.Count)
		}
	}
}

// With sleepers of some width the longest board is that on which a corner just
// reaches where the middle of a sleeper's end may: R·cos φ - (b/2)·sin φ = R - s.
func TestBoardCorners(t *testing.T) {
	const R, W, sl, m, bw = 2000.0, 145.0, 82.0, 8.0, 30.0
	p := must(trackbed.Board{Width: W, SleeperLength: sl, SleeperWidth: bw, Margin: m}.Bend(R, 1))
	phi := math.Asin(float64(p.Greatest) / (2 * R))
	s := W - sl - 2*m - (math.Hypot(R+sl/2, bw/2) - (R + sl/2))
	if got := R*math.Cos(phi) - bw/2*math.Sin(phi); !near(got, R-s, 1e-12) {
		t.Errorf("at the longest board's end %v, want %v", got, R-s)
	}
	// However wide the board, no mitre is steeper than a saw cuts.
	if p := must(trackbed.Board{Width: 900, SleeperLength: sl, Margin: m}.Bend(1000, 2)); float64(p.Mitre) > math.Pi/4+1e-12 || p.Count != 2 {
		t.Errorf("%d boards with mitres of %v", p.Count, p.Mitre)
	}
}

// Point by point: the boards of a bend are drawn on the ground, edges and cuts,
// and the ends of sleepers, with their corners, are looked for inside.
func TestSleepersStayOnTheBoards(t *testing.T) {
	for _, c := range []struct {
		R, turn float64
		b       trackbed.Board
	}{
		{2000, math.Pi / 2, trackbed.Board{Width: 145, SleeperLength: 82, Margin: 8}},
		{2000, math.Pi / 2, trackbed.Board{Width: 145, SleeperLength: 82, SleeperWidth: 12, Margin: 8}},
		{1200, 1.9, trackbed.Board{Width: 150, SleeperLength: 65, SleeperWidth: 10, Margin: 5, Gap: 4, Kerf: 3, Stock: 2400}},
		{600, math.Pi, trackbed.Board{Width: 200, SleeperLength: 58, SleeperWidth: 9, Margin: 0}},
		{5000, 0.3, trackbed.Board{Width: 95, SleeperLength: 82, SleeperWidth: 12, Margin: 5}},
		{3000, 0.01, trackbed.Board{Width: 145, SleeperLength: 82, Margin: 8}},
		{2000, 2, trackbed.Board{Width: 300, SleeperLength: 82, Margin: 10, Stock: 400}},
	} {
		p, err := c.b.Bend(measure.Length(c.R), measure.Angle(c.turn))
		if err != nil {
			t.Errorf("%+v: %v", c.b, err)
			continue
		}
		phi := float64(p.Mitre)
		if !near(phi*2*float64(p.Count), c.turn, 1e-12) {
			t.Errorf("boards turn %v, want %v", phi*2*float64(p.Count), c.turn)
		}
		// One board with the centre of the curve at the origin, its middle on
		// the y axis. Long edge y = c.R + LineAt, short edge W below.
		top := c.R + float64(p.LineAt)
		bottom := top - float64(c.b.Width)
		for _, e := range []struct{ y, length float64 }{{top, float64(p.Long)}, {bottom, float64(p.Short)}} {
			// The edge's end lies half a gap from the mitre line through the centre.
			if d := e.y*math.Sin(phi) - e.length/2*math.Cos(phi); math.Abs(d-float64(c.b.Gap)/2) > 1e-9 {
				t.Errorf("R %v: the end of the edge at %v lies %v from the mitre, want half the gap", c.R, e.y, d)
			}
		}
		m, half, bw := float64(c.b.Margin), float64(c.b.SleeperLength)/2, float64(c.b.SleeperWidth)/2
		least := math.Inf(1)
		for i := -200; i <= 200; i++ {
			th := phi * float64(i) / 200
			for _, along := range []float64{-bw, 0, bw} {
				for _, r := range []float64{c.R - half, c.R + half} {
					// A corner of the sleeper at the angle th from the middle.
					y := r*math.Cos(th) - along*math.Sin(th)
					least = min(least, top-y, y-bottom)
				}
			}
		}
		if least < m-1e-9 {
			t.Errorf("R %v, %+v: a sleeper comes to %v of an edge, want at least %v", c.R, c.b, least, m)
		}
		if p.Count > 1 && c.b.Stock == 0 { // and one board fewer would not do
			one := trackbed.Board{Width: c.b.Width - 0, SleeperLength: c.b.SleeperLength, SleeperWidth: c.b.SleeperWidth, Margin: c.b.Margin}
			if g := 2 * c.R * math.Sin(c.turn/2/float64(p.Count-1)); g <= float64(must(one.Bend(measure.Length(c.R), measure.Angle(c.turn))).Greatest) {
				t.Errorf("R %v: %d boards where %d would do", c.R, p.Count, p.Count-1)
			}
		}
		if c.b.Stock > 0 && p.Long > c.b.Stock {
			t.Errorf("a board %v long from planks of %v", p.Long, c.b.Stock)
		}
	}
}

// Boards cut from planks turn about: laid out one by one, they fit.
func TestPlanks(t *testing.T) {
	for stock := measure.Length(1400); stock < 4000; stock += 7 {
		b := trackbed.Board{Width: 145, SleeperLength: 82, Margin: 8, Kerf: 3, Stock: stock}
		p := must(b.Bend(1000, math.Pi))
		cut := 3 / math.Cos(float64(p.Mitre))
		// k boards of a trapezium each, alternately turned: both edges of the plank.
		fits := func(k int) bool {
			up, down := 0.0, 0.0 // used along the two edges
			for i := range k {
				l, s := float64(p.Long), float64(p.Short)
				if i%2 == 1 {
					l, s = s, l
				}
				if i == 0 { // the first cut starts where the long edge does
					down = (l - s) / 2
				} else {
					up, down = up+cut, down+cut
				}
				up, down = up+l, down+s
			}
			return max(up, down) <= float64(stock)+1e-9
		}
		k := 0
		for fits(k + 1) {
			k++
		}
		if want := (p.Count + k - 1) / k; p.Planks != want {
			t.Errorf("stock %v: %d planks for %d boards, want %d (%d from each)", stock, p.Planks, p.Count, want, k)
		}
	}
}

func TestStraightBoards(t *testing.T) {
	b := trackbed.Board{Width: 145, SleeperLength: 82, Margin: 8, Gap: 5, Stock: 2400}
	p, err := b.Straight(10000)
	if err != nil || p.Count != 5 || !near(float64(p.Long)*5+4*5, 10000, 1e-12) || p.Planks != 5 {
		t.Errorf("%+v, %v, want 5 boards of 1996 mm", p, err)
	}
	if p := must(b.Straight(2400)); p.Count != 1 || p.Long != 2400 {
		t.Errorf("%+v, want one board", p)
	}
}

func TestBoardRefuses(t *testing.T) {
	good := trackbed.Board{Width: 145, SleeperLength: 82, Margin: 8}
	for text, c := range map[string]struct {
		change func(*trackbed.Board)
		kind   error
	}{
		"more than the sleeper": {func(b *trackbed.Board) { b.Margin = 32 }, measure.ErrInput},
		"board width":           {func(b *trackbed.Board) { b.Width = nan }, measure.ErrInput},
		"kerf":                  {func(b *trackbed.Board) { b.Kerf = -1 }, measure.ErrInput},
		"inner edge":            {func(b *trackbed.Board) { b.Gap = 5000 }, measure.ErrNoAnswer},
		"boards":                {func(b *trackbed.Board) { b.Stock = 0.001 }, measure.ErrLimit},
		"narrower sleeper":      {func(b *trackbed.Board) { b.SleeperWidth, b.Margin = 500, 31.49 }, measure.ErrNoAnswer},
	} {
		b := good
		c.change(&b)
		_, err := b.Bend(2000, 1)
		want := text
		if text == "narrower sleeper" {
			want = "board width"
		}
		refused(t, text, err, c.kind, want)
	}
	_, err := good.Bend(50, 1)
	refused(t, "radius", err, measure.ErrInput, "radius")
	_, err = good.Bend(2000, 0)
	refused(t, "turn", err, measure.ErrInput, "straight")
	_, err = good.Straight(1000)
	refused(t, "stock", err, measure.ErrInput, "stock")
}
