package limit_test

import (
	"context"
	"errors"
	"math"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/coupling"
	"example.org/fourfoot/clearance/limit"
	"example.org/fourfoot/clearance/opening"
	"example.org/fourfoot/clearance/passing"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

type mm = measure.Length

func in(name string, value float64) limit.Input[mm] {
	return limit.Input[mm]{Name: name, Value: mm(value)}
}

// check compares the rates of an answer with what is worked by hand.
func check(t *testing.T, what string, got []limit.Rate, want ...float64) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("%s: rates %+v, want %v", what, got, want)
	}
	for i, w := range want {
		if math.Abs(got[i].Change-w) > 2e-3*(1+math.Abs(w)) {
			t.Errorf("%s, %s: %v, want %v", what, got[i].Input, got[i].Change, w)
		}
	}
}

// ratesOf is Rates with any fault the test's end.
func ratesOf[T ~float64](t *testing.T, answer func(x []mm) (T, error), inputs ...limit.Input[mm]) []limit.Rate {
	t.Helper()
	return must[[]limit.Rate](t)(limit.Rates(answer, inputs...))
}

// along returns a long arc to the left.
func along(t *testing.T, radius mm) *curve.Alignment {
	return must[*curve.Alignment](t)(curve.New(curve.Pose{}, must[curve.Element](t)(curve.NewArc(radius, measure.Angle(3000/float64(radius)), curve.Left))))
}

// The largest vehicles: on straight track a post lets through twice its offset
// less the margin; on an arc of radius R a wall inside lets through W/2 = w - m
// - (R - M), M² = R² - (b/2)² - (p/2)² being the middle of a body on pivots p
// and bogies b, so that the pivot spacing takes p/2M of a mm away, and of the
// pattern's length dL/dm = -(L/p)·4M/p. Plane geometry.
func TestRatesOfTheLargest(t *testing.T) {
	ctx := t.Context()
	line := must[*curve.Alignment](t)(curve.New(curve.Pose{}, must[curve.Element](t)(curve.NewStraight(1500))))
	got := ratesOf(t, func(x []mm) (mm, error) {
		r := limit.Route{Line: line, Margin: x[1], Structures: []clearance.Structure{{Kind: clearance.Post, Faces: []clearance.Face{{Side: curve.Right, From: 700, To: 700, Offset: x[0]}}}}}
		w, err := r.Widest(ctx, box(614, 88, 443))
		return w.Size, err
	}, in("offset", 60), in("margin", 5))
	check(t, "widest, straight", got, 2, -2)

	const R, w, m, p, b = 1500.0, 66.0, 5.0, 443.0, 80.0
	route := func(w, m mm) limit.Route {
		return limit.Route{Line: along(t, R), Margin: m, Structures: []clearance.Structure{{Kind: clearance.Wall, Faces: []clearance.Face{{Side: curve.Left, From: 1200, To: 1800, Offset: w}}}}}
	}
	M := math.Sqrt(R*R - b*b/4 - p*p/4)
	got = ratesOf(t, func(x []mm) (mm, error) {
		w, err := route(x[0], x[1]).Widest(ctx, box(614, 88, x[2]))
		return w.Size, err
	}, in("wall", w), in("margin", m), in("pivot spacing", p))
	check(t, "widest, arc", got, 2, -2, -p/2/M)

	M = R - (w - m - 44) // where the longest one's middle is
	long := 2 * math.Sqrt(R*R-b*b/4-M*M)
	got = ratesOf(t, func(x []mm) (mm, error) {
		l, err := route(x[0], x[1]).Longest(ctx, box(614, 88, p))
		return l.Size, err
	}, in("wall", w), in("margin", m))
	check(t, "longest, arc", got, 614/p*4*M/long, -614/p*4*M/long)
}

// A spacing on concentric curves, C = out(R) + in(R+C) + m: a mm of margin asks
// for 1/(1 - in') of spacing, in(ρ) = ρ - M(ρ) + 44. A platform's step on a
// radius: the corner's distance from the middle of the curve less the side's.
func TestRatesOfSpacingAndPlatform(t *testing.T) {
	ctx := t.Context()
	const R, b, p = 1500.0, 80.0, 443.0
	mid := func(r float64) float64 { return math.Sqrt(r*r - b*b/4 - p*p/4) }
	c := must[passing.Spacing](t)(passing.Stocks{Inner: []clearance.Vehicle{coach()}, Margin: 6}.Concentric(ctx, R))
	got := ratesOf(t, func(x []mm) (mm, error) {
		s, err := passing.Stocks{Inner: []clearance.Vehicle{box(614, x[1], p)}, Margin: x[0]}.Concentric(ctx, R)
		return s.Centres, err
	}, in("margin", 6), in("body width", 88))
	outer := R + float64(c.Centres)
	slope := 1 - outer/mid(outer)
	// Half a width outside at the corner, half inside at the middle.
	half := (mid(R) + 44) / math.Hypot(mid(R)+44, 307) / 2
	check(t, "spacing", got, 1/(1-slope), (half+0.5)/(1-slope))

	got = ratesOf(t, func(x []mm) (mm, error) {
		bend := limit.Bend{Stock: []clearance.Vehicle{coach()}, Margin: x[0]}
		step, _, err := bend.Step(ctx, x[1], limit.Platform{Side: curve.Left, Coping: 30, Step: 14})
		return step, err
	}, in("margin", 3), in("radius", R))
	corner := math.Hypot(mid(R)-44, 307)
	check(t, "platform", got, 1, ((mid(R)-44)/corner-1)*R/mid(R))
}

func carOf(pivots, hinge, length mm, swing measure.Angle) coupling.Car {
	v := clearance.Rigid("van", pivots, clearance.Band{Top: 90, Outline: clearance.Box(2*hinge+20, 80)})
	b := coupling.Buffers{Face: hinge + 12, Centres: 40, Width: 14}
	rear := b
	rear.Face = -b.Face
	return coupling.Car{
		Vehicle: v,
		Front:   coupling.End{Hinge: hinge, Length: length, Swing: swing, Buffers: b},
		Rear:    coupling.End{Hinge: -hinge, Length: length, Swing: swing, Buffers: rear},
	}
}

// Two cars alike on a curve: the hinge is ρ = √(M²+c²) from its middle, M² = R²
// - (a/2)², the link a chord ℓ of that circle, so that a coupler swings by
// atan(c/M) + asin(ℓ/2ρ). Plane geometry.
func TestRatesOfTheSwing(t *testing.T) {
	const R, a, c, l = 1200.0, 150.0, 110.0, 30.0
	M := math.Sqrt(R*R - a*a/4)
	rho := math.Hypot(M, c)
	perR := -c/(rho*rho)*R/M - l/2/(rho*rho*math.Sqrt(1-l*l/4/rho/rho))*R/rho
	car := func(swing measure.Angle) coupling.Pair {
		return coupling.Pair{Behind: carOf(a, c, l/2, swing), Ahead: carOf(a, c, l/2, swing)}
	}
	got := ratesOf(t, func(x []mm) (measure.Angle, error) {
		j, err := coupling.At(along(t, x[0]), car(0), 1500)
		return max(j.SwingAhead, -j.SwingAhead), err
	}, in("radius", R))
	if math.Abs(got[0].Change/perR-1) > 1e-5 {
		t.Errorf("swing: %v a mm, want %v", got[0].Change, perR)
	}
	swing := math.Atan(c/M) + math.Asin(l/2/rho)
	back, err := limit.Rates(func(x []measure.Angle) (mm, error) {
		return coupling.LeastRadius(t.Context(), car(x[0]), coupling.SwingLimit, coupling.Curve)
	}, limit.Input[measure.Angle]{Name: "swing", Value: measure.Angle(swing)})
	if err != nil || math.Abs(back[0].Change*perR-1) > 1e-4 {
		t.Errorf("least radius: %v a radian (%v), want %v", back, err, 1/perR)
	}
}

// All lengths in proportion leave a length in proportion, so that the inputs
// times their rates make up the answer (Euler's theorem on homogeneous
// functions): the pieces that a reverse curve needs, and its least radius.
func TestRatesOfReverseCurvesAddUp(t *testing.T) {
	ctx := t.Context()
	value := []float64{600, 700, 150, 110, 16}
	pair := func(x []mm) coupling.Pair {
		one := carOf(x[2], x[3], x[4], 24*measure.Degree)
		for _, e := range []*coupling.End{&one.Front, &one.Rear} {
			e.Buffers = coupling.Buffers{}
		}
		return coupling.Pair{Behind: one, Ahead: one}
	}
	for what, answer := range map[string]func(x []mm) (mm, error){
		"straight": func(x []mm) (mm, error) {
			return coupling.StraightNeeded(ctx, pair(x), coupling.SwingLimit, coupling.Reversal{First: x[0], Second: x[1]})
		},
		"easement": func(x []mm) (mm, error) {
			return coupling.EasementNeeded(ctx, pair(x), coupling.SwingLimit, coupling.Reversal{First: x[0], Second: x[1]}, curve.Clothoid)
		},
		"least radius": func(x []mm) (mm, error) {
			return coupling.LeastRadius(ctx, pair(x), coupling.SwingLimit, coupling.Reverse)
		},
	} {
		inputs := []limit.Input[mm]{in("first radius", value[0]), in("second radius", value[1]), in("wheelbase", value[2]), in("hinge", value[3]), in("coupler", value[4])}
		got := ratesOf(t, answer, inputs...)
		sum := 0.0
		for i, r := range got {
			sum += value[i] * r.Change
		}
		var x []mm
		for _, v := range value {
			x = append(x, mm(v))
		}
		if want := float64(must[mm](t)(answer(x))); len(got) != len(value) || want <= 0 || math.Abs(sum/want-1) > 2e-3 {
			t.Errorf("%s: rates %+v make %v, want %v", what, got, sum, want)
		}
	}
}

// Two straights that part at an angle: a fouling point moves by 1/sin θ for a
// mm of margin and by (1 + cos θ)/2 sin θ for a mm of both stocks' width; a
// loop's standing room is shorter by that at both its ends.
func TestRatesOfFoulingAndRoom(t *testing.T) {
	ctx := t.Context()
	const deg = 8.0
	sin, cos := math.Sincos(deg * math.Pi / 180)
	kinked := func(turns ...float64) *curve.Alignment {
		lengths := []mm{600, 900, 2500, 900, 600}
		var el []curve.Element
		for i, l := range lengths[:len(turns)+1] {
			e := must[curve.Element](t)(curve.NewStraight(l))
			if i > 0 {
				e = e.WithKink(measure.Angle(turns[i-1]) * measure.Degree)
			}
			el = append(el, e)
		}
		return must[*curve.Alignment](t)(curve.New(curve.Pose{}, el...))
	}
	main, part, loop := kinked(0, 0, 0, 0), kinked(deg), kinked(deg, -deg, -deg, deg)
	swept := func(l *curve.Alignment, width mm) *clearance.Envelope {
		v := clearance.Rigid("wagon", 70, clearance.Band{Top: 90, Outline: clearance.Box(130, width)})
		return must[*clearance.Envelope](t)(clearance.Sweep(ctx, l, []clearance.Vehicle{v}, clearance.Settings{Tolerance: 1e-4}))
	}
	got := ratesOf(t, func(x []mm) (mm, error) {
		f, err := passing.FoulingPoints(ctx, swept(main, x[1]), swept(part, x[1]), x[0])
		if err != nil {
			return 0, err
		}
		return f[0].First.Chainage, nil
	}, in("margin", 8), in("body width", 60))
	check(t, "fouling point", got, 1/sin, (1+cos)/2/sin)

	got = ratesOf(t, func(x []mm) (mm, error) {
		r, err := passing.StandingRoom(ctx, swept(loop, x[1]), x[0], swept(main, x[1]))
		if err != nil {
			return 0, err
		}
		return r[0].Length(), nil
	}, in("margin", 8), in("body width", 60))
	check(t, "standing room", got, -2/sin, -(1+cos)/sin)
}

// Inputs that are refused, and an input on one side of which there is no answer.
func TestRatesRefuse(t *testing.T) {
	nan := mm(math.NaN())
	one := func([]mm) (mm, error) { return 1, nil }
	for name, f := range map[string]func() error{
		"value":  func() error { _, err := limit.Rates(one, limit.Input[mm]{Name: "w", Value: nan}); return err },
		"step":   func() error { _, err := limit.Rates(one, limit.Input[mm]{Name: "w", Step: -1}); return err },
		"answer": func() error { _, err := limit.Rates[mm, mm](nil); return err },
		"no answer": func() error {
			_, err := limit.Rates(func([]mm) (mm, error) { return 0, clearance.Vehicle{}.Validate() }, in("w", 1))
			return err
		},
	} {
		if err := f(); !errors.Is(err, measure.ErrInput) {
			t.Errorf("%s: %v", name, err)
		}
	}
	// A pipe round a block, half its diagonal and the margin: no margin is less
	// than none.
	got := ratesOf(t, func(x []mm) (mm, error) {
		s, err := opening.Section{}.With("block", 0, x[1], 0, 50)
		if err != nil {
			return 0, err
		}
		c, err := s.Circle(x[0], opening.Free)
		return c.Radius, err
	}, in("margin", 0), in("width", 30))
	check(t, "pipe", got, 15/math.Hypot(30, 50))
	if _, err := limit.Rates(func([]mm) (mm, error) { return 0, context.Canceled }, in("w", 1)); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped: %v", err)
	}
	calls := 0
	if _, err := limit.Rates(func([]mm) (mm, error) {
		if calls++; calls > 1 {
			return 0, context.Canceled
		}
		return 1, nil
	}, in("w", 1)); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped at the second: %v", err)
	}
}
