package trackbed_test

import (
	"math"
	"testing"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/ballast/trackbed"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

func TestPosts(t *testing.T) {
	line := open(straight(5000))
	rail := level(profile.Point{Level: 500}, profile.Point{Chainage: 5000, Level: 600}) // 1 in 50
	ground := level(profile.Point{Level: 100}, profile.Point{Chainage: 2500, Level: 0}, profile.Point{Chainage: 5000, Level: 200})
	p := trackbed.Posts{Spacing: 1100, Below: 150, Frost: 600, Embed: 450, Rows: 2, Stock: []measure.Length{1800, 900, 1200}, Size: 75, Hole: 200}
	s, err := p.Along(line, all(line), rail, ground)
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Posts) != 6 || s.Spacing != 1000 || s.Bays != 5 || s.Bearers != 10 || !near(float64(s.Bearer), 1000, 1e-12) {
		t.Errorf("%d posts %v apart, %d bearers of %v", len(s.Posts), s.Spacing, s.Bearers, s.Bearer)
	}
	timber := 0.0
	for i, q := range s.Posts {
		x := float64(i) * 1000
		top := 500 + x/50 - 150
		gr := 100 - x/25
		if x > 2500 {
			gr = (x - 2500) * 0.08
		}
		timber += 2 * (top - gr + 600)
		if !near(float64(q.Top), top, 1e-12) || !near(float64(q.Ground), gr, 1e-9) || !near(float64(q.Foot), gr-600, 1e-9) || !near(float64(q.Length), top-gr+600, 1e-9) {
			t.Errorf("post at %v: %+v, want top %v, ground %v, frost depth 600", x, q, top, gr)
		}
		if q.Buy < q.Length || q.Buy != 900 && q.Buy != 1200 {
			t.Errorf("post of %v is cut from %v", q.Length, q.Buy)
		}
	}
	if !near(float64(s.Timber), timber, 1e-9) || s.Deepest != 600 || !near(float64(s.Tallest), 370, 1e-9) {
		t.Errorf("timber %v, deepest %v, tallest %v, want %v, 600, 370", float64(s.Timber), s.Deepest, s.Tallest, timber)
	}
	if want := (math.Pi/4*200*200 - 75*75) * 600 * 12; !near(float64(s.Concrete), want, 1e-9) {
		t.Errorf("concrete %v, want %v", float64(s.Concrete), want)
	}
	p.Embed = 700 // deeper than the frost
	if s := must(p.Along(line, all(line), rail, ground)); s.Deepest != 700 {
		t.Errorf("depth in the ground %v, want 700", s.Deepest)
	}
}

func TestPostsOnARing(t *testing.T) {
	line := ring(2000)
	p := trackbed.Posts{Spacing: 900, Embed: 400}
	s, err := p.Along(line, all(line), level(profile.Point{Level: 300}), profile.Level{})
	n := int(math.Ceil(2 * math.Pi * 2000 / 900))
	if err != nil || len(s.Posts) != n || s.Bays != n || !near(float64(s.Bearer), 2*2000*math.Sin(math.Pi/float64(n)), 1e-9) {
		t.Errorf("%d posts, %d bays, bearer %v, %v, want %d", len(s.Posts), s.Bays, s.Bearer, err, n)
	}
	s, err = p.Along(line, ballast.Stretch{From: 12000, To: 1000}, level(profile.Point{Level: 300}), profile.Level{})
	if err != nil || len(s.Posts) != s.Bays+1 || s.Posts[len(s.Posts)-1].Chainage != 1000 {
		t.Errorf("over the start: %+v, %v", s.Posts, err)
	}
}

func TestPostsRefuse(t *testing.T) {
	line := open(straight(5000))
	good := trackbed.Posts{Spacing: 1000, Embed: 400, Below: 100}
	rail := level(profile.Point{Level: 500})
	for text, c := range map[string]struct {
		change func(*trackbed.Posts)
		kind   error
	}{
		"post spacing":        {func(p *trackbed.Posts) { p.Spacing = 0 }, measure.ErrInput},
		"depth in the ground": {func(p *trackbed.Posts) { p.Embed = 0 }, measure.ErrInput},
		"frost depth":         {func(p *trackbed.Posts) { p.Frost = nan }, measure.ErrInput},
		"diagonal":            {func(p *trackbed.Posts) { p.Size, p.Hole = 100, 120 }, measure.ErrInput},
		"rows":                {func(p *trackbed.Posts) { p.Rows = -1 }, measure.ErrInput},
		"under the ground":    {func(p *trackbed.Posts) { p.Below = 600 }, measure.ErrInput},
		"stock length":        {func(p *trackbed.Posts) { p.Stock = []measure.Length{700} }, measure.ErrNoAnswer},
		"more than":           {func(p *trackbed.Posts) { p.Spacing = 0.01 }, measure.ErrLimit},
	} {
		p := good
		c.change(&p)
		_, err := p.Along(line, all(line), rail, profile.Level{})
		refused(t, text, err, c.kind, text)
	}
}
