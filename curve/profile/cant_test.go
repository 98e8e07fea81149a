package profile_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// IFC Alignment Geometry Implementation Guide to ISO 16739-1: ramps over 100
// to a half-cant of 0.080, the centreline kept level.
func TestRampsOfTheGuide(t *testing.T) {
	for law, want := range map[curve.Shape][3]float64{
		0:             {16, 40, 64},
		curve.Bloss:   {8.320, 40, 71.680},
		curve.Cosine:  {7.639, 40, 72.361},
		curve.Helmert: {6.4, 40, 73.6},
		curve.Sine:    {3.891, 40, 76.109},
	} {
		c, err := profile.NewCant(profile.Centreline, profile.CantPoint{Law: law}, profile.CantPoint{Chainage: 100 * m, Cant: 160})
		if err != nil {
			t.Fatal(err)
		}
		for i, s := range []measure.Length{20 * m, 50 * m, 80 * m} {
			left, right := c.Rails(s)
			near(t, law.String()+" right rail", float64(right), want[i], 5e-4)
			near(t, law.String()+" left rail", float64(left), -want[i], 5e-4)
		}
	}
}

func TestRails(t *testing.T) {
	for _, row := range []struct {
		datum             profile.Datum
		cant, left, right measure.Length
	}{
		{profile.InnerRail, 3, 0, 3},
		{profile.InnerRail, -3, 3, 0},
		{profile.Centreline, 3, -1.5, 1.5},
		{profile.Centreline, -3, 1.5, -1.5},
		{profile.OuterRail, 3, -3, 0},
		{profile.OuterRail, -3, 0, -3},
	} {
		c, err := profile.NewCant(row.datum, profile.CantPoint{Cant: row.cant})
		if err != nil {
			t.Fatal(err)
		}
		if l, r := c.Rails(55); l != row.left || r != row.right {
			t.Errorf("%v level, cant %v: rails at %v and %v, want %v and %v", row.datum, row.cant, l, r, row.left, row.right)
		}
	}
}

// line is an S of two bends with Helmert and Bloss easements and a straight.
func line(t testing.TB) *curve.Alignment {
	t.Helper()
	a, err1 := curve.Bend{Radius: 3 * m, Turn: 60 * measure.Degree, Hand: curve.Left, EaseIn: 800, EaseOut: 700, Shape: curve.Helmert}.Elements()
	b, err2 := curve.Bend{Radius: 2 * m, Turn: 50 * measure.Degree, Hand: curve.Right, EaseIn: 600, EaseOut: 500, Shape: curve.Bloss}.Elements()
	s, err3 := curve.NewStraight(1 * m)
	e := append(append(append([]curve.Element{s}, a...), b...), s)
	l, err4 := curve.New(curve.Pose{}, e...)
	if err := errors.Join(err1, err2, err3, err4); err != nil {
		t.Fatal(err)
	}
	return l
}

func TestBendCantIsInProportionToCurvature(t *testing.T) {
	a := line(t)
	c, err := profile.NewBendCant(a, profile.InnerRail, 3, 2)
	if err != nil {
		t.Fatal(err)
	}
	for s := measure.Length(-500); s < a.Length()+500; s += 13 {
		k := float64(a.At(s).Curvature)
		want := 3000 * 3 * k
		if k < 0 {
			want = 2000 * 2 * k
		}
		near(t, "cant", float64(c.At(s)), want, 1e-9)
	}
	b := profile.Bends(a)
	if len(b) != 2 || b[0].Hand != curve.Left || b[1].Hand != curve.Right || b[0].From != 1*m || b[0].To != b[1].From || b[1].Sharpest != 2*m ||
		math.Abs(float64(b[1].To-(a.Length()-1*m))) > 1e-9 {
		t.Errorf("Bends = %+v", b)
	}
}

func TestBendCantOnPartOfEasement(t *testing.T) {
	whole, err1 := curve.NewEasement(curve.Sine, 1*m, 0, 1.0/2000)
	part, err2 := whole.Part(300, 800)
	a, err3 := curve.New(curve.Pose{}, part)
	c, err4 := profile.NewBendCant(a, profile.InnerRail, 3)
	if err := errors.Join(err1, err2, err3, err4); err != nil {
		t.Fatal(err)
	}
	for s := measure.Length(0); s <= 500; s += 25 {
		near(t, "cant", float64(c.At(s)), 3*curve.Sine.Ramp(float64(300+s)/1000)/curve.Sine.Ramp(0.8), 1e-12)
	}
}

// On a lath between two poses the cant goes with the curvature too, which may
// rise to a crest within it, change hand, or end as it began.
func TestBendCantOnALathBetweenPoses(t *testing.T) {
	pose := func(x, y, h float64) curve.Pose {
		return curve.Pose{Point: r2.Vec{X: x, Y: y}, Heading: measure.Angle(h)}
	}
	for _, row := range []struct {
		name   string
		end    curve.Pose
		length measure.Length
		bends  int
	}{
		{"as it began", pose(1000*math.Cos(0.25), 1000*math.Sin(0.25), 0.5), 1009, 1},
		{"to one hand", pose(1000, 400, 0.8), 1109, 1},
		{"to both hands", pose(1000, 200, -0.3), 1040, 2},
	} {
		e, err1 := curve.NewLathBetween(curve.Pose{}, row.end, row.length)
		a, err2 := curve.New(curve.Pose{}, e)
		if err := errors.Join(err1, err2); err != nil {
			t.Fatal(row.name, err)
		}
		// The sharpest of each hand, walked.
		const n = 1000
		most := map[bool]float64{}
		for i := range n + 1 {
			k := float64(e.CurvatureAt(row.length * measure.Length(i) / n))
			most[k > 0] = max(most[k > 0], math.Abs(k))
		}
		bends := profile.Bends(a)
		if len(bends) != row.bends {
			t.Fatalf("%s: Bends = %+v", row.name, bends)
		}
		cants := []measure.Length{3, 2}[:row.bends]
		c, err3 := profile.NewBendCant(a, profile.InnerRail, cants...)
		back, err4 := c.Reverse(row.length)
		again, err5 := profile.NewBendCant(a.Reverse(), profile.InnerRail, []measure.Length{cants[len(cants)-1], 3}[:row.bends]...)
		if err := errors.Join(err3, err4, err5); err != nil {
			t.Fatal(row.name, err)
		}
		hand := map[bool]float64{}
		for i, b := range bends {
			near(t, row.name+" sharpest", float64(b.Sharpest)*most[b.Hand == curve.Left], 1, 1e-6)
			hand[b.Hand == curve.Left] = float64(cants[i]) * float64(b.Sharpest)
		}
		steepest := 0.0
		for i := range n + 1 {
			s := row.length * measure.Length(i) / n
			k := float64(e.CurvatureAt(s))
			near(t, row.name+" cant", float64(c.At(s)), hand[k > 0]*k, 1e-9)
			near(t, row.name+" reversed", float64(back.At(s)), float64(again.At(s)), 1e-9)
			steepest = max(steepest, math.Abs(float64(c.Ramp(s))))
			if i > 0 && i < n && math.Abs(k) > 1e-6 {
				h := measure.Length(0.01)
				near(t, row.name+" ramp", float64(c.Ramp(s)), float64(c.At(s+h)-c.At(s-h))/0.02, 1e-8)
			}
		}
		steep, err6 := c.SteepestRamp(0, row.length)
		part, err7 := c.Part(200, 900)
		if err := errors.Join(err6, err7); err != nil {
			t.Fatal(row.name, err)
		}
		if got := math.Abs(float64(steep.Gradient)); got < steepest*(1-1e-12) || got > steepest*(1+1e-5) {
			t.Errorf("%s: steepest %v, walked %v", row.name, got, steepest)
		}
		near(t, row.name+" part", float64(part.At(300)), float64(c.At(500)), 1e-12)
		near(t, row.name+" mirrored", float64(c.Mirror().At(300)), -float64(c.At(300)), 1e-15)
	}
}

// The steepest place of a ramp on a lath between two poses may lie anywhere
// along it: against walking in small steps.
func TestSteepestRampOnLathsBetweenPoses(t *testing.T) {
	r := rand.New(rand.NewPCG(15, 16))
	made := 0
	for i := range 30 {
		// Off the chord at either end, and about as long as a cubic or longer.
		p, q := 0.7*r.NormFloat64(), 0.7*r.NormFloat64()
		sin, cos := math.Sincos(-p)
		length := 800 * (1 + (2*p*p+2*q*q-p*q)/30*(0.95+0.6*r.Float64()))
		e, err := curve.NewLathBetween(curve.Pose{}, curve.Pose{Point: r2.Vec{X: 800 * cos, Y: 800 * sin}, Heading: measure.Angle(q - p)}, measure.Length(length))
		if err != nil {
			continue
		}
		a, err1 := curve.New(curve.Pose{}, e)
		c, err2 := profile.NewBendCant(a, profile.InnerRail, []measure.Length{3, 2}[:len(profile.Bends(a))]...)
		if err := errors.Join(err1, err2); err != nil {
			t.Fatal(i, err)
		}
		made++
		steepest := 0.0
		for j := range 501 {
			steepest = max(steepest, math.Abs(float64(c.Ramp(e.Length()*measure.Length(j)/500))))
		}
		steep, err := c.SteepestRamp(0, e.Length())
		if got := math.Abs(float64(steep.Gradient)); err != nil || got < steepest*(1-1e-9) || got > steepest*(1+1e-2) {
			t.Errorf("%d: steepest %v, walked %v, %v", i, got, steepest, err)
		}
	}
	if made < 20 {
		t.Errorf("only %d laths made", made)
	}
}

// leverLine is a bend to the right with a radius of 2 m between easements of
// the shape, 900 and 700 mm along their straights.
func leverLine(t testing.TB, shape curve.Shape) *curve.Alignment {
	t.Helper()
	e, err1 := curve.Bend{Radius: 2 * m, Turn: 1.2, Hand: curve.Right, EaseIn: 900, EaseOut: 700, Shape: shape}.Elements()
	a, err2 := curve.New(curve.Pose{}, e...)
	if err := errors.Join(err1, err2); err != nil {
		t.Fatal(err)
	}
	return a
}

// On laths and cubic parabolas the cant goes with the curvature, and the
// parabola's step of curvature is none of cant: its curvature is made greater
// by what the arc's is over its end's.
func TestBendCantOnLevers(t *testing.T) {
	for _, shape := range []curve.Shape{curve.CubicParabola, curve.Lath} {
		a := leverLine(t, shape)
		c, err := profile.NewBendCant(a, profile.InnerRail, 3)
		if err != nil {
			t.Fatal(err)
		}
		e, at := a.Elements(), a.Boundaries()
		grown := []float64{-1 / 2000.0 / float64(e[0].EndCurvature()), 1, -1 / 2000.0 / float64(e[2].StartCurvature())}
		if (grown[0] > 1.01) != (shape == curve.CubicParabola) {
			t.Errorf("%v: the step of curvature is %v", shape, grown)
		}
		for i := range e {
			for j := range 41 {
				x := measure.Length(j) / 40 * e[i].Length()
				near(t, shape.String(), float64(c.At(at[i]+x)), 3*2000*grown[i]*float64(e[i].CurvatureAt(x)), 1e-12)
				if i != 1 && j > 0 && j < 40 {
					h := measure.Length(0.05)
					near(t, shape.String()+" ramp", float64(c.Ramp(at[i]+x)), float64(c.At(at[i]+x+h)-c.At(at[i]+x-h))/0.1, 1e-10)
				}
			}
		}
		if k := float64(a.At(at[1] / 2).Curvature); math.Abs(float64(c.At(at[1]/2))-6000*grown[0]*k) > 1e-10 {
			t.Errorf("%v: cant in the middle %v, curvature %v", shape, c.At(at[1]/2), k)
		}
		if b := profile.Bends(a); len(b) != 1 || math.Abs(float64(b[0].Sharpest-2*m)) > 1e-6 {
			t.Errorf("Bends = %+v", b)
		}
		// Steepest where the straight begins: dk/ds = 1/RX there.
		steep, err1 := c.SteepestRamp(0, a.Length())
		part, err2 := a.Part(at[1]/3, at[3]-50)
		d, err3 := profile.NewBendCant(part, profile.InnerRail, 3)
		back, err4 := profile.NewBendCant(a.Reverse(), profile.InnerRail, 3)
		if err := errors.Join(err1, err2, err3, err4); err != nil {
			t.Fatal(err)
		}
		near(t, shape.String()+" steepest", float64(steep.Gradient), 3*2000*grown[2]/2000/700, 1e-12)
		near(t, shape.String()+" steepest at", float64(steep.Chainage), float64(a.Length()), 1e-9)
		turned, err5 := c.Reverse(a.Length())
		mirrored, err6 := profile.NewBendCant(a.Mirror(), profile.InnerRail, 3)
		if err := errors.Join(err5, err6); err != nil {
			t.Fatal(err)
		}
		for s := measure.Length(0); s < a.Length(); s += 37 {
			near(t, shape.String()+" reversed", float64(turned.At(s)), float64(back.At(s)), 1e-11)
			near(t, shape.String()+" reversed, ramp", float64(turned.Ramp(s)), float64(back.Ramp(s)), 1e-13)
			near(t, shape.String()+" mirrored", float64(c.Mirror().At(s)), float64(mirrored.At(s)), 1e-11)
			if s <= part.Length() {
				near(t, shape.String()+" of a part", float64(d.At(s)), float64(c.At(s+at[1]/3)), 1e-10)
			}
		}
	}
}

// A bend that ends within a cubic parabola has its whole cant there.
func TestBendCantEndsWithinAParabola(t *testing.T) {
	a := leverLine(t, curve.CubicParabola)
	a, err1 := a.Part(0, 400)
	c, err2 := profile.NewBendCant(a, profile.InnerRail, 3)
	if err := errors.Join(err1, err2); err != nil {
		t.Fatal(err)
	}
	near(t, "cant at the end", float64(c.At(400)), -3, 1e-12)
	near(t, "cant half way", float64(c.At(200)), 3*float64(a.At(200).Curvature/a.At(400).Curvature)*-1, 1e-10)
}

func TestBendCantOnSEasement(t *testing.T) {
	e, err1 := curve.NewEasement(curve.Sine, 1*m, 1.0/2000, -1.0/4000)
	a, err2 := curve.New(curve.Pose{}, e)
	c, err3 := profile.NewBendCant(a, profile.InnerRail, 4, 1)
	if err := errors.Join(err1, err2, err3); err != nil {
		t.Fatal(err)
	}
	for u := 0.0; u <= 1; u += 0.05 {
		near(t, "cant", float64(c.At(measure.Length(u)*m)), 4-5*curve.Sine.Ramp(u), 1e-12)
	}
	b := profile.Bends(a)
	if len(b) != 2 || math.Abs(float64(a.At(b[0].To).Curvature)) > 1e-15 || b[0].To != b[1].From {
		t.Errorf("Bends = %+v, want two that meet where the curvature is zero", b)
	}
}

// A circuit is the same wherever it starts, also in the middle of a bend.
func TestBendCantOfCircuit(t *testing.T) {
	oval := func(parts ...int) (*curve.Alignment, error) {
		bend, err := curve.Bend{Radius: 2 * m, Turn: math.Pi, Hand: curve.Right, EaseIn: 600, EaseOut: 600, Shape: curve.Cosine}.Elements()
		s, err2 := curve.NewStraight(3 * m)
		lap := append(append(append([]curve.Element{s}, bend...), s), bend...)
		lap = append(lap[parts[0]:], lap[:parts[0]]...)
		a, err3 := curve.NewClosed(curve.Pose{Point: r2.Vec{X: 7}}, 1e-6, 1e-9, lap...)
		return a, errors.Join(err, err2, err3)
	}
	a, err := oval(0)
	if err != nil {
		t.Fatal(err)
	}
	c, err := profile.NewBendCant(a, profile.InnerRail, 3, 2)
	if err != nil {
		t.Fatal(err)
	}
	for n, cants := range [][]measure.Length{{3, 2}, {3, 2}, {2, 3}, {2, 3}, {2, 3}, {2, 3}, {3, 2}, {3, 2}} {
		b, err := oval(n)
		if err != nil {
			t.Fatal(err)
		}
		d, err := profile.NewBendCant(b, profile.InnerRail, cants...)
		if err != nil {
			t.Fatal(err)
		}
		if bends := profile.Bends(b); len(bends) != 2 {
			t.Fatalf("started at element %d: bends %+v", n, bends)
		}
		shift := a.Boundaries()[n]
		for s := measure.Length(-1 * m); s < 2*a.Length(); s += 171 {
			near(t, "cant", float64(d.At(s)), float64(c.At(s+shift)), 1e-9)
		}
		if t.Failed() {
			t.Fatalf("started at element %d", n)
		}
	}
}

func someCants(t testing.TB) []profile.Cant {
	t.Helper()
	a, err1 := profile.NewBendCant(line(t), profile.InnerRail, 3, 2)
	b, err2 := profile.NewClosedCant(profile.Centreline, 6*m, 0, profile.CantPoint{Chainage: 200, Cant: 3, Law: curve.Sine},
		profile.CantPoint{Chainage: 900, Cant: -1, Law: curve.Cosine}, profile.CantPoint{Chainage: 2 * m, Cant: -1}, profile.CantPoint{Chainage: 3 * m, Cant: 2, Law: curve.Bloss})
	c, err3 := profile.NewCant(profile.OuterRail, profile.CantPoint{}, profile.CantPoint{Chainage: 500, Cant: 3}, profile.CantPoint{Chainage: 700, Cant: 3, Law: curve.Helmert}, profile.CantPoint{Chainage: 1 * m, Cant: 0})
	d, err4 := profile.NewBendCant(leverLine(t, curve.Lath), profile.InnerRail, 3)
	e, err5 := profile.NewBendCant(leverLine(t, curve.CubicParabola), profile.Centreline, 2)
	lath, err6 := curve.NewLathBetween(curve.Pose{}, curve.Pose{Point: r2.Vec{X: 1000, Y: 200}, Heading: -0.3}, 1040)
	line, err7 := curve.New(curve.Pose{}, lath)
	f, err8 := profile.NewBendCant(line, profile.InnerRail, 3, 2)
	if err := errors.Join(err1, err2, err3, err4, err5, err6, err7, err8); err != nil {
		t.Fatal(err)
	}
	return []profile.Cant{a, b, c, d, e, f}
}

func TestMaxTwistAgainstBruteForce(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for n, c := range someCants(t) {
		for range 30 {
			from := measure.Length(rng.Float64()*8-1) * m
			to := from + measure.Length(rng.Float64()*5)*m
			base := measure.Length(20 + rng.Float64()*1500)
			got, err := c.MaxTwist(from, to, base)
			if err != nil {
				t.Fatal(err)
			}
			steep, err := c.SteepestRamp(from, to)
			if err != nil {
				t.Fatal(err)
			}
			want, ramp := 0.0, 0.0
			for i := range 20001 {
				s := from + (to-from)*measure.Length(i)/20000
				want = max(want, math.Abs(float64(c.At(s+base)-c.At(s))))
				ramp = max(ramp, math.Abs(float64(c.Ramp(s))))
			}
			near(t, "largest twist", math.Abs(float64(got.Change)), want, float64(to-from)/20000*0.02)
			near(t, "twist at its place", float64(c.Twist(got.Chainage, base)), float64(got.Change), 1e-9)
			near(t, "steepest ramp", math.Abs(float64(steep.Gradient)), ramp, 1e-5)
			if math.Abs(float64(got.Change)) < want-1e-12 {
				t.Errorf("twist of %v found by trial, MaxTwist gave %v", want, got)
			}
			if t.Failed() {
				t.Fatalf("cant %d from %v to %v, wheelbase %v", n, from, to, base)
			}
		}
	}
}

// NEM 114 (2007): at gauge 45 a cant of 3 mm, ramp as long as the easement and
// linear; over a wheelbase within the ramp the twist is cant·wheelbase/length.
func TestTwistOnLinearRamp(t *testing.T) {
	c, err := profile.NewCant(profile.InnerRail, profile.CantPoint{Chainage: 1 * m}, profile.CantPoint{Chainage: 1*m + 1095, Cant: 3})
	if err != nil {
		t.Fatal(err)
	}
	got, err := c.MaxTwist(0, 5*m, 150)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "twist", float64(got.Change), 3.0*150/1095, 1e-12)
	near(t, "ramp", float64(c.Ramp(1500)), 3.0/1095, 1e-15)
}

func TestCantPropertiesOfPartReverseMirrorScaleAndStart(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	for n, c := range someCants(t) {
		length, closed := c.Circuit()
		if !closed {
			length = 8 * m
		}
		shift := measure.Length(rng.Float64()*40-20) * m
		from, to := 250*measure.Millimetre, 5*m
		moved, err1 := c.StartAt(shift)
		back, err2 := c.Reverse(length)
		big, err3 := c.Scaled(0.4)
		part, err4 := c.Part(from, to)
		if err := errors.Join(err1, err2, err3, err4); err != nil {
			t.Fatal(err)
		}
		for range 300 {
			s := measure.Length(rng.Float64()*20-5) * m
			near(t, "start moved", float64(moved.At(s)), float64(c.At(s+shift)), 1e-11)
			near(t, "reversed", float64(back.At(s)), -float64(c.At(length-s)), 1e-11)
			near(t, "reversed, ramp", float64(back.Ramp(s)), float64(c.Ramp(length-s)), 1e-11)
			near(t, "mirrored", float64(c.Mirror().At(s)), -float64(c.At(s)), 0)
			near(t, "scaled", float64(big.At(0.4*s)), 0.4*float64(c.At(s)), 1e-11)
			if s >= from && s <= to {
				near(t, "part", float64(part.At(s-from)), float64(c.At(s)), 1e-11)
			}
			l, r := c.Rails(s)
			bl, br := back.Rails(length - s)
			if math.Abs(float64(l-br)) > 1e-11 || math.Abs(float64(r-bl)) > 1e-11 {
				t.Errorf("rails at %v are %v and %v, from the other end %v and %v", s, l, r, bl, br)
			}
			near(t, "cant is right rail over left", float64(r-l), float64(c.At(s)), 1e-12)
		}
		if part.Datum() != c.Datum() || back.Datum() != c.Datum() {
			t.Error("datum lost")
		}
		if t.Failed() {
			t.Fatalf("cant %d", n)
		}
	}
}

func TestCantRefuses(t *testing.T) {
	nan := measure.Length(math.NaN())
	sharp, err := curve.NewArc(2*m, 1, curve.Left)
	if err != nil {
		t.Fatal(err)
	}
	straight, err := curve.NewStraight(1 * m)
	if err != nil {
		t.Fatal(err)
	}
	uneased, err := curve.New(curve.Pose{}, straight, sharp)
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		name string
		do   func() (profile.Cant, error)
		want []string
	}{
		{"no datum, no points", func() (profile.Cant, error) { return profile.NewCant(0) }, []string{"datum", "points 0"}},
		{"NaN and law", func() (profile.Cant, error) {
			return profile.NewCant(profile.InnerRail, profile.CantPoint{Cant: nan, Law: curve.CircularArc})
		}, []string{"point 1: cant", "point 1: law of the ramp arc"}},
		{"ramp", func() (profile.Cant, error) {
			return profile.NewCant(profile.InnerRail, profile.CantPoint{}, profile.CantPoint{Chainage: 2, Cant: 3})
		}, []string{"ramp after point 1", "1 in 1"}},
		{"circuit open", func() (profile.Cant, error) {
			return profile.NewClosedCant(profile.InnerRail, 1*m, 0.1, profile.CantPoint{}, profile.CantPoint{Chainage: 1 * m, Cant: 1})
		}, []string{"1 mm apart", "0.1 mm"}},
		{"no line", func() (profile.Cant, error) { return profile.NewBendCant(nil, profile.InnerRail) }, []string{"line"}},
		{"cants and bends", func() (profile.Cant, error) { return profile.NewBendCant(uneased, profile.InnerRail, 1, 2) }, []string{"cants 2", "has 1"}},
		{"negative", func() (profile.Cant, error) { return profile.NewBendCant(uneased, profile.InnerRail, -1) }, []string{"cant of bend 1"}},
		{"no easement", func() (profile.Cant, error) { return profile.NewBendCant(uneased, profile.InnerRail, 2) }, []string{"element 2, chainage 1000 mm", "easement"}},
	} {
		_, err := tt.do()
		if !errors.Is(err, measure.ErrInput) {
			t.Errorf("%s: error %v, want kind %v", tt.name, err, measure.ErrInput)
			continue
		}
		for _, w := range tt.want {
			if !strings.Contains(err.Error(), w) {
				t.Errorf("%s: error %q does not say %q", tt.name, err, w)
			}
		}
	}
	if _, err := profile.NewBendCant(uneased, profile.InnerRail, 0); err != nil {
		t.Errorf("no cant needs no easement, but: %v", err)
	}
	if _, err := someCants(t)[1].MaxTwist(0, 1, 6*m); !errors.Is(err, measure.ErrInput) {
		t.Errorf("a wheelbase as long as the circuit gives: %v", err)
	}
}

func TestZeroCantIsNone(t *testing.T) {
	var c profile.Cant
	l, r := c.Rails(5)
	w, err := c.MaxTwist(0, 100, 10)
	if c.At(5) != 0 || l != 0 || r != 0 || c.Ramp(5) != 0 || w.Change != 0 || err != nil {
		t.Error("the zero Cant is not 0")
	}
}
