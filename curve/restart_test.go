package curve_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// leverCircuit is a circuit of four bends eased by cubic parabolas or laths,
// now and then with a misclosure that is spread.
func leverCircuit(r *rand.Rand) *curve.Alignment {
	shape := []curve.Shape{curve.CubicParabola, curve.Lath}[r.IntN(2)]
	hand := []curve.Hand{curve.Left, curve.Right}[r.IntN(2)]
	side := [2]measure.Length{measure.Length(200 + 400*r.Float64()), measure.Length(200 + 400*r.Float64())}
	var all []curve.Element
	for i := range 4 {
		all = append(all, must(curve.NewStraight(side[i%2])))
		all = append(all, must(curve.Bend{Radius: 900, Turn: math.Pi / 2, Hand: hand, EaseIn: 500, EaseOut: 500, Shape: shape}.Elements())...)
	}
	tolerance, slack := measure.Length(0), measure.Angle(0)
	if r.IntN(2) == 0 {
		all[0] = must(curve.NewStraight(side[0] + 0.5)).WithKink(1e-4)
		tolerance, slack = 5, 1e-3
	}
	return must(curve.NewClosed(curve.Pose{Point: r2.Vec{X: 500 * r.NormFloat64()}, Heading: measure.Angle(r.NormFloat64())}, tolerance, slack, all...))
}

// Every method of a circuit answers alike when the start is put elsewhere: the
// methods are listed, so that a new one has to say how it keeps to that.
func TestRestartChangesNoAnswer(t *testing.T) {
	r := rand.New(rand.NewPCG(81, 82))
	// a is the circuit, b the same started at from; x, y are chainages on b.
	type two struct {
		a, b          *curve.Alignment
		from, x, y, l measure.Length
		p             r2.Vec
	}
	place := func(t *testing.T, p, q r2.Vec) {
		t.Helper()
		if d := r2.Norm(r2.Sub(p, q)); d > 1e-8 {
			t.Errorf("a place moves by %v", d)
		}
	}
	number := func(t *testing.T, p, q, limit float64) {
		t.Helper()
		if d := math.Abs(p - q); !(d <= limit) {
			t.Errorf("%v became %v", p, q)
		}
	}
	// alike: two circuits of the same ground, b started at `from` of a.
	alike := func(t *testing.T, a, b *curve.Alignment, from measure.Length) {
		t.Helper()
		if !a.Closed() || !b.Closed() {
			t.Error("no circuit any more")
		}
		for i := range 5 {
			s := b.Length() * measure.Length(i) / 5
			place(t, a.Point(from+s), b.Point(s))
		}
	}
	ways := map[string]func(t *testing.T, c two){
		"At": func(t *testing.T, c two) {
			p, q := c.a.At(c.from+c.x), c.b.At(c.x)
			place(t, p.Point, q.Point)
			place(t, p.Tangent, q.Tangent)
			number(t, float64(p.Curvature), float64(q.Curvature), 1e-12)
			// Whole turns apart, the heading counts from the start.
			number(t, math.Remainder(float64(p.Heading-q.Heading), 2*math.Pi), 0, 1e-10)
			number(t, float64(q.Chainage), float64(c.x), 0)
		},
		"Point":  func(t *testing.T, c two) { place(t, c.a.Point(c.from+c.x), c.b.Point(c.x)) },
		"Offset": func(t *testing.T, c two) { place(t, c.a.Offset(c.from+c.x, 77), c.b.Offset(c.x, 77)) },
		"Locate": func(t *testing.T, c two) {
			p, err1 := c.a.Locate(c.from + c.x)
			q, err2 := c.b.Locate(c.x)
			if err := errors.Join(err1, err2); err != nil {
				t.Error(err)
			}
			place(t, p.Point, q.Point)
		},
		"Length": func(t *testing.T, c two) {
			number(t, float64(c.a.Length()), float64(c.b.Length()), 1e-12*float64(c.l))
		},
		"Closed": func(t *testing.T, c two) {
			if !c.b.Closed() {
				t.Error("no circuit any more")
			}
		},
		"Start": func(t *testing.T, c two) {
			p, q := c.a.At(c.from), c.b.Start()
			place(t, p.Point, q.Point)
		},
		"End": func(t *testing.T, c two) {
			place(t, c.b.Start().Point, c.b.End().Point)
			number(t, float64(c.a.End().Heading-c.a.Start().Heading), float64(c.b.End().Heading-c.b.Start().Heading), 1e-10)
		},
		"Elements": func(t *testing.T, c two) {
			sum := func(a *curve.Alignment) (l, turn float64) {
				for _, e := range a.Elements() {
					l, turn = l+float64(e.Length()), turn+float64(e.Turn()+e.Kink())
				}
				return l, turn
			}
			l1, t1 := sum(c.a)
			l2, t2 := sum(c.b)
			number(t, l1, l2, 1e-9)
			number(t, t1, t2, 1e-10)
		},
		"Boundaries": func(t *testing.T, c two) { // but for the two that a start makes
			for _, s := range c.a.Boundaries() {
				found := false
				for _, x := range c.b.Boundaries() {
					found = found || apart(c.from+x, s, c.l) < 1e-8
				}
				if n := len(c.a.Boundaries()); !found && s != 0 && s != c.a.Boundaries()[n-1] {
					t.Errorf("the joint at %v is gone", s)
				}
			}
		},
		"ElementAt": func(t *testing.T, c two) {
			i, _ := c.a.ElementAt(c.from + c.x)
			j, _ := c.b.ElementAt(c.x)
			e, f := c.a.Elements()[i], c.b.Elements()[j]
			ea, eb := c.a.Boundaries()[i], c.b.Boundaries()[j]
			joint := math.Min(apart(c.from+c.x, ea, c.l), math.Min(apart(c.x, eb, c.l), apart(c.from+c.x, ea+e.Length(), c.l)))
			if e.Shape() != f.Shape() && joint > 1e-6 {
				t.Errorf("%v became %v at %v", e.Shape(), f.Shape(), c.x)
			}
		},
		"Turn": func(t *testing.T, c two) {
			number(t, float64(c.a.Turn(c.from+c.x, c.from+c.y)), float64(c.b.Turn(c.x, c.y)), 1e-10)
		},
		"Span": func(t *testing.T, c two) {
			number(t, float64(c.a.Span(c.from+c.x, c.from+c.y)), float64(c.b.Span(c.x, c.y)), 1e-8)
		},
		"RailLength": func(t *testing.T, c two) {
			for _, rail := range []curve.Hand{curve.Left, curve.Right} {
				number(t, float64(must(c.a.RailLength(rail, c.from+c.x, c.from+c.y, 47.5))), float64(must(c.b.RailLength(rail, c.x, c.y, 47.5))), 1e-7)
			}
		},
		"Trim": func(t *testing.T, c two) {
			number(t, float64(must(c.a.Trim(curve.Left, c.from+c.x, c.from+c.y, 47.5))), float64(must(c.b.Trim(curve.Left, c.x, c.y, 47.5))), 1e-7)
		},
		"Bounds": func(t *testing.T, c two) {
			p, q := c.a.Bounds(), c.b.Bounds()
			place(t, p.Min, q.Min)
			place(t, p.Max, q.Max)
		},
		"Nearest": func(t *testing.T, c two) {
			f, g := c.a.Nearest(c.p), c.b.Nearest(c.p)
			number(t, math.Abs(float64(f.Offset)), math.Abs(float64(g.Offset)), 1e-8)
			if f.End || g.End {
				t.Error("a circuit has no end")
			}
		},
		"NearestFrom": func(t *testing.T, c two) {
			st := c.b.At(c.x)
			if 1-25*math.Abs(float64(st.Curvature)) < 0.5 {
				return
			}
			p := c.b.Offset(c.x, 25)
			f, g := c.a.NearestFrom(p, c.from+c.x+0.5), c.b.NearestFrom(p, c.x+0.5)
			if d := apart(f.Chainage, c.from+g.Chainage, c.l); d > 1e-6 {
				t.Errorf("the foot moves by %v", d)
			}
			number(t, float64(f.Offset), float64(g.Offset), 1e-7)
		},
		"Feet": func(t *testing.T, c two) {
			var f, g []float64
			for x := range c.a.Feet(c.p, 170) {
				f = append(f, float64(wrap(x.Chainage-c.from, c.l)))
			}
			for x := range c.b.Feet(c.p, 170) {
				g = append(g, float64(x.Chainage))
			}
			slices.Sort(f)
			if len(f) != len(g) {
				t.Errorf("%d feet became %d", len(f), len(g))
			}
		},
		"Points": func(t *testing.T, c two) { // each lies on the other's line, the ends at the same places
			to := c.x + measure.Length(0.8)*c.l
			var first, last r2.Vec
			n := 0
			for s, p := range must(c.b.Points(c.x, to, 0.5)) {
				if n++; n == 1 {
					first = p
				}
				last = p
				place(t, c.a.Point(c.from+s), p)
			}
			for s, p := range must(c.a.Points(c.from+c.x, c.from+to, 0.5)) {
				if s == c.from+c.x {
					place(t, p, first)
				}
				if s == c.from+to {
					place(t, p, last)
				}
			}
		},
		"Part": func(t *testing.T, c two) {
			to := c.x + measure.Length(0.7)*c.l
			p, q := must(c.a.Part(c.from+c.x, c.from+to)), must(c.b.Part(c.x, to))
			number(t, float64(p.Length()), float64(q.Length()), 1e-8)
			for i := range 7 {
				place(t, p.Point(p.Length()*measure.Length(i)/7), q.Point(p.Length()*measure.Length(i)/7))
			}
		},
		"Restart": func(t *testing.T, c two) { alike(t, c.a, must(c.b.Restart(c.x)), c.from+c.x) },
		// Met from the other end, b starts where a comes to after all but `from`.
		"Reverse": func(t *testing.T, c two) { alike(t, c.a.Reverse(), c.b.Reverse(), -c.from) },
		"Mirror": func(t *testing.T, c two) { // about the heading of its own start: the shape alone is kept
			p, q := c.a.Mirror(), c.b.Mirror()
			for i := range 5 {
				s := c.l * measure.Length(i) / 5
				number(t, r2.Norm(r2.Sub(p.Point(c.from+s), p.Point(c.from))), r2.Norm(r2.Sub(q.Point(s), q.Point(0))), 1e-8)
				number(t, float64(p.At(c.from+s).Curvature), float64(q.At(s).Curvature), 1e-12)
			}
		},
		"Moved": func(t *testing.T, c two) {
			st := c.a.At(c.from)
			p := must(c.a.Moved(curve.Pose{Point: r2.Vec{X: 5}, Heading: 1}))
			at := p.At(c.from)
			q := must(c.b.Moved(curve.Pose{Point: at.Point, Heading: c.b.Start().Heading + at.Heading - st.Heading}))
			alike(t, p, q, c.from)
		},
		"Scaled": func(t *testing.T, c two) { alike(t, must(c.a.Scaled(0.5)), must(c.b.Scaled(0.5)), c.from/2) },
		"Join": func(t *testing.T, c two) {
			if _, err := c.b.Join(c.a); !errors.Is(err, measure.ErrInput) {
				t.Errorf("a circuit is joined: %v", err)
			}
		},
	}
	typ := reflect.TypeFor[*curve.Alignment]()
	for i := range typ.NumMethod() {
		name := typ.Method(i).Name
		if name == "Pieces" { // of these tests alone
			continue
		}
		way, ok := ways[name]
		if !ok {
			t.Errorf("nothing says how %s keeps its answers when the start is put elsewhere", name)
			continue
		}
		t.Run(name, func(t *testing.T) {
			for circuit := range 60 {
				var a *curve.Alignment
				if circuit%2 == 0 {
					a = leverCircuit(r)
				} else {
					a, _ = randomCircuit(r)
				}
				l := a.Length()
				from := l * measure.Length(r.Float64())
				if circuit%5 == 0 {
					from = a.Boundaries()[r.IntN(len(a.Elements()))]
				}
				for range 4 {
					x, y := l*measure.Length(r.Float64()), l*measure.Length(r.Float64())
					p := a.Offset(y, measure.Length(150*r.NormFloat64()))
					way(t, two{a, must(a.Restart(from)), from, x, y, l, p})
				}
			}
		})
	}
}
