package ballast_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/reference"
)

// gardenSection is a bed for 45 mm gauge; every test changes its own copy.
func gardenSection() ballast.Section {
	return ballast.Section{Depth: 20, Sleeper: ballast.Sleeper{Length: 82, Width: 12, Height: 9}, Shoulder: 12}
}

func near(a, b, tol float64) bool { return math.Abs(a-b) <= tol*max(1, math.Abs(b)) }

// Areas worked by hand.
func TestSectionArea(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*ballast.Section)
		want   float64
	}{
		{"trapezium", func(*ballast.Section) {}, 106*29 + 1.25*29*29},
		{"top width instead of shoulder", func(s *ballast.Section) { s.Shoulder, s.TopWidth = 0, 106 }, 106*29 + 1.25*29*29},
		{"steeper", func(s *ballast.Section) { s.Slope = 1 }, 106*29 + 29*29},
		{"kerbed", func(s *ballast.Section) { s.Kerbed = true }, 106 * 29},
		{"crib 4 mm below the tops", func(s *ballast.Section) { s.Crib, s.ShoulderLevel = 5, 9 }, 106*29 + 1.25*29*29 - 82*4},
		{"shoulders as low as the crib", func(s *ballast.Section) { s.Crib = 5 }, 106*25 + 1.25*25*25},
		{"open cribs, no shoulder", func(s *ballast.Section) { s.OpenCribs = true }, 106*20 + 1.25*20*20},
		{"sleepers buried 2 mm", func(s *ballast.Section) { s.Crib = 11 }, 106*31 + 1.25*31*31},
		{"trench flush with the ground", func(s *ballast.Section) {
			s.Kerbed, s.TrenchWidth, s.TrenchDepth = true, 106, 29
		}, 106 * 29},
		{"trench 15 deep under a mound", func(s *ballast.Section) { s.TrenchWidth, s.TrenchDepth = 120, 15 }, 120*15 + 106*14 + 1.25*14*14},
		{"trench wider than the mound", func(s *ballast.Section) { s.TrenchWidth, s.TrenchDepth = 400, 15 }, 106*29 + 1.25*29*29},
		{"two tracks far apart", func(s *ballast.Section) { s.Tracks = []measure.Length{-200, 200} }, 2 * (106*29 + 1.25*29*29)},
		{
			"two tracks, slopes that meet", func(s *ballast.Section) { s.Tracks = []measure.Length{-63, 63} },
			2*(106*29+1.25*29*29) - (2*36.25-20)*(2*36.25-20)/(4*1.25),
		},
		{"two tracks, one top", func(s *ballast.Section) { s.Tracks = []measure.Length{-50, 50} }, 206*29 + 1.25*29*29},
		{"two tracks, filled", func(s *ballast.Section) { s.Tracks, s.Filled = []measure.Length{-63, 63}, true }, 232*29 + 1.25*29*29},
		{"three tracks, filled", func(s *ballast.Section) {
			s.Tracks, s.Filled = []measure.Length{-140, 0, 140}, true
		}, 386*29 + 1.25*29*29},
		{"sleepers on a board", func(s *ballast.Section) { s.Depth = 0 }, 106*9 + 1.25*81},
	} {
		s := gardenSection()
		c.change(&s)
		got, err := s.Area()
		if err != nil || !near(got.SquareMillimetres(), c.want, 1e-12) {
			t.Errorf("%s: area %v, %v, want %v mm²", c.name, got.SquareMillimetres(), err, c.want)
		}
	}
}

// Cant turns the top about the low rail: with H the height at the middle and
// t the tangent, a trapezium has w·H + n(H² + t²w²/4), worked.
func TestCantWedge(t *testing.T) {
	s := gardenSection()
	for _, u := range []float64{-4.7, -3, 0.5, 3, 4.7} {
		const g, w, n = 47.5, 106.0, 1.25
		sin := u / g
		tan, cos := sin/math.Sqrt(1-sin*sin), math.Sqrt(1-sin*sin)
		h := 20 + 9/cos + math.Abs(u)/2
		o, err := s.Outline(measure.Length(u), g, profile.InnerRail)
		if want := w*h + n*(h*h+tan*tan*w*w/4); err != nil || !near(float64(o.Area), want, 1e-12) {
			t.Errorf("cant %v: area %v, %v, want %v", u, float64(o.Area), err, want)
		}
		// The high side is the right for positive cant, and the bed leans there.
		if o.Centroid == 0 || (o.Centroid < 0) != (u > 0) || (-o.Right > o.Left) != (u > 0) {
			t.Errorf("cant %v: centroid at %v, toes %v and %v: leans the wrong way", u, float64(o.Centroid), float64(o.Right), float64(o.Left))
		}
	}
}

func TestOutlineClosesOnItself(t *testing.T) {
	s := gardenSection()
	s.TrenchWidth, s.TrenchDepth, s.Tracks = 120, 15, []measure.Length{-60, 55}
	o, err := s.Outline(3, 47.5, profile.InnerRail)
	if err != nil {
		t.Fatal(err)
	}
	area := 0.0 // between the two chains, by the trapezium rule on what would be drawn
	for i := 1; i < len(o.Top); i++ {
		area += (o.Top[i].X - o.Top[i-1].X) * (o.Top[i].Y + o.Top[i-1].Y) / 2
		area -= (o.Bottom[i].X - o.Bottom[i-1].X) * (o.Bottom[i].Y + o.Bottom[i-1].Y) / 2
	}
	if !near(area, float64(o.Area), 1e-12) {
		t.Errorf("the drawn points hold %v mm², the outline says %v", area, float64(o.Area))
	}
}

func TestNEM122(t *testing.T) {
	want := reference.Rows(t, "testdata/nem122.csv")[1:]
	got := ballast.NEM122Sizes()
	if len(got) != len(want) {
		t.Fatalf("%d sizes, want %d", len(got), len(want))
	}
	for i, w := range want {
		g := got[i]
		for j, v := range []measure.Length{g.Gauge, g.Sleeper, g.Top, g.Formation, g.RailTop} {
			if g.Size != w[0] || float64(v) != reference.Number(t, w[j+1]) {
				t.Errorf("size %s column %d: %v, want %s", g.Size, j+1, float64(v), w[j+1])
			}
		}
		// Shoulders 9, 12, 16 mm (worked from the sheet).
		if sh := (g.Top - g.Sleeper) / 2; sh != [...]measure.Length{9, 12, 16}[i] {
			t.Errorf("size %s: shoulder %v", g.Size, float64(sh))
		}
		s, err := g.Section(12, 0.25*g.RailTop, 0.25*g.RailTop)
		if err != nil {
			t.Errorf("size %s: %v", g.Size, err)
			continue
		}
		// The toe is top + 2·1.25·depth of ballast and stays on the formation.
		o, err := s.Outline(0, g.Gauge, profile.InnerRail)
		depth := s.Depth + s.Sleeper.Height
		if err != nil || !near(float64(o.Left-o.Right), float64(g.Top+2.5*depth), 1e-12) || o.Left-o.Right > g.Formation {
			t.Errorf("size %s: toe to toe %v, %v", g.Size, float64(o.Left-o.Right), err)
		}
	}
	if _, err := got[0].Section(8, 10, 8); !errors.Is(err, measure.ErrInput) {
		t.Errorf("rail and sleeper higher than the bed: %v", err)
	}
}

func TestSectionRefuses(t *testing.T) {
	for _, c := range []struct {
		name, field string
		change      func(*ballast.Section)
	}{
		{"sleeper longer than the top", "sleeper length", func(s *ballast.Section) { s.Shoulder, s.TopWidth = 0, 80 }},
		{"negative crib", "crib level", func(s *ballast.Section) { s.Crib = -1 }},
		{"slope the wrong way up", "slope", func(s *ballast.Section) { s.Slope = 0.8 }},
		{"negative slope", "slope", func(s *ballast.Section) { s.Slope = -1.25 }},
		{"slope not a number", "slope", func(s *ballast.Section) { s.Slope = math.NaN() }},
		{"kerbs with a slope", "slope", func(s *ballast.Section) { s.Kerbed, s.Slope = true, 1.25 }},
		{"negative depth", "depth under the sleeper", func(s *ballast.Section) { s.Depth = -1 }},
		{"infinite depth", "depth under the sleeper", func(s *ballast.Section) { s.Depth = measure.Length(math.Inf(1)) }},
		{"no sleeper", "sleeper length", func(s *ballast.Section) { s.Sleeper.Length = 0 }},
		{"shoulder and top at odds", "shoulder", func(s *ballast.Section) { s.TopWidth = 120 }},
		{"trench without depth", "trench", func(s *ballast.Section) { s.TrenchWidth = 120 }},
		{"trench narrower than the sleeper", "trench width", func(s *ballast.Section) { s.TrenchWidth, s.TrenchDepth = 80, 25 }},
		{"formation narrower than the sleeper", "formation width", func(s *ballast.Section) { s.Formation = 60 }},
		{"tracks out of order", "offset of track 2", func(s *ballast.Section) { s.Tracks = []measure.Length{10, 0} }},
		{"toe past the formation", "section", func(s *ballast.Section) { s.Formation = 150 }},
	} {
		s := gardenSection()
		c.change(&s)
		_, err := s.Area()
		var f *measure.FieldError
		if !errors.Is(err, measure.ErrInput) || !errors.As(err, &f) || f.Field != c.field {
			t.Errorf("%s: %v, want an error about %q", c.name, err, c.field)
		}
	}
	s := gardenSection()
	s.Tracks = make([]measure.Length, 9)
	if err := s.Validate(); !errors.Is(err, measure.ErrLimit) {
		t.Errorf("nine tracks: %v", err)
	}
	s = gardenSection()
	s.Depth = 1
	if _, err := s.Outline(3, 47.5, profile.InnerRail); !errors.Is(err, measure.ErrInput) {
		t.Errorf("a canted sleeper in the formation: %v", err)
	}
	// All faults at once.
	s = ballast.Section{Depth: -1, Slope: 0.5, Crib: -1}
	if n := strings.Count(s.Validate().Error(), "\n") + 1; n != 6 {
		t.Errorf("%d faults, want 6:\n%v", n, s.Validate())
	}
}
