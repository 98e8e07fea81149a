package limit_test

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/limit"
	"example.org/fourfoot/clearance/opening"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

func must[T any](t testing.TB) func(v T, err error) T {
	return func(v T, err error) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func coach() clearance.Vehicle {
	return clearance.Bogie("coach", 443, 80, clearance.Band{Name: "body", Bottom: 12, Top: 120, Outline: clearance.Box(614, 88)})
}

func wagon() clearance.Vehicle {
	return clearance.Rigid("wagon", 110, clearance.Band{Name: "body", Bottom: 8, Top: 90, Outline: clearance.Box(190, 92)})
}

func tapered() clearance.Vehicle {
	v := clearance.Bogie("tapered", 460, 70, clearance.Band{Name: "body", Bottom: 10, Top: 115, Outline: clearance.Tapered(640, 90, 80, 60, 62)})
	v.Carriers[1].Pin = 6
	return v
}

// engine has a truck, and bogie frames of its own.
func engine() clearance.Vehicle {
	v := clearance.Rigid("engine", 150, clearance.Band{Name: "boiler", Bottom: 15, Top: 140, Outline: clearance.Box(330, 80)})
	v.Bodies[0].Trucks = []clearance.Truck{{Hinge: 60, Bar: 90, Bands: []clearance.Band{{Name: "frame", Bottom: 5, Top: 20, Outline: clearance.Box(70, 84)}}}}
	return v
}

type sectionOf = opening.Section

func throws(t *testing.T, v clearance.Vehicle, r measure.Length) clearance.Throw {
	return must[[]clearance.Throw](t)(clearance.Throws(v, r))[0]
}

func TestBendAgainstThrows(t *testing.T) {
	for _, v := range []clearance.Vehicle{coach(), wagon(), tapered()} {
		for _, r := range []measure.Length{450, 800, 1500, 4000, 30000, 1e6, 1e8} {
			s := must[sectionOf](t)(limit.Bend{Stock: []clearance.Vehicle{v}}.At(t.Context(), r))
			in, _, _ := s.Reach(curve.Left, clearance.Heights{})
			out, _, _ := s.Reach(curve.Right, clearance.Heights{})
			if th := throws(t, v, r); math.Abs(float64(in-th.Inside)) > 1e-6 || math.Abs(float64(out-th.Outside)) > 1e-6 {
				t.Errorf("%s on %v: inside %v outside %v, want %v and %v", v.Name, r, float64(in), float64(out), float64(th.Inside), float64(th.Outside))
			}
		}
	}
}

// Put forwards, into the exact throws: the gap is the margin; at a radius 0.1 %
// less it is not.
func TestForOpening(t *testing.T) {
	const m = 5
	for _, v := range []clearance.Vehicle{coach(), wagon(), tapered()} {
		for _, w := range []measure.Length{55, 60, 66, 75, 90} {
			r := must[limit.Radius](t)(limit.Bend{Stock: []clearance.Vehicle{v}, Margin: m}.ForOpening(t.Context(), w, w+1))
			if r.Stands != (v.Name == "wagon" && w > 70) { // a short wagon passes wherever it stands
				t.Errorf("%s in %v: only by standing %v, at %v", v.Name, w, r.Stands, r.Least)
			}
			if r.Stands {
				continue
			}
			gap := func(r measure.Length) float64 {
				th := throws(t, v, r)
				return float64(min(w-th.Inside, w+1-th.Outside)) - m
			}
			if g := gap(r.Least); math.Abs(g) > 1e-3 || g < -1e-6 {
				t.Errorf("%s in %v: at %v the gap is %v more than the margin", v.Name, w, float64(r.Least), g)
			}
			if g := gap(r.Least * 0.999); g >= 0 {
				t.Errorf("%s in %v: 0.1%% below %v it clears by %v", v.Name, w, float64(r.Least), g)
			}
			for _, f := range []measure.Length{1.001, 1.1, 1.5, 2, 5, 100} {
				if g := gap(r.Least * f); g < 0 {
					t.Errorf("%s in %v: %v fails by %v", v.Name, w, f*r.Least, g)
				}
			}
			if r.By.Vehicle != v.Name || r.By.Band != "body" {
				t.Errorf("by %+v", r.By)
			}
		}
	}
}

// Trucks, allowances and heights count, put forwards through the audit of a
// swept bend: a wall all along it.
func TestForOpeningThroughTheAudit(t *testing.T) {
	cant := must[profile.Cant](t)(profile.NewCant(profile.InnerRail, profile.CantPoint{Cant: 3}))
	b := limit.Bend{
		Stock: []clearance.Vehicle{engine(), coach()}, Margin: 4, Heights: clearance.Heights{From: -5, To: 60},
		Allowances: clearance.Allowances{Play: 0.6, Laying: 1, Springs: measure.Degree, RollCentre: 20, Cant: cant, RailCentres: 47.5},
	}
	for _, w := range []measure.Length{62, 70} {
		r := must[limit.Radius](t)(b.ForOpening(t.Context(), w, measure.Length(math.Inf(1))))
		spare := func(radius measure.Length) float64 {
			arc := must[curve.Element](t)(curve.NewArc(radius, 200*measure.Degree, curve.Left))
			line := must[*curve.Alignment](t)(curve.New(curve.Pose{}, arc))
			c := line.Length() / 2
			e := must[*clearance.Envelope](t)(clearance.Sweep(t.Context(), line, b.Stock, clearance.Settings{Tolerance: 1e-4, From: c - 20, To: c + 20, Allowances: b.Allowances}))
			f := must[[]clearance.Finding](t)(e.Audit(t.Context(), []clearance.Structure{{Kind: clearance.Wall, Faces: []clearance.Face{{Side: curve.Left, From: c - 20, To: c + 20, Offset: w, Bottom: -5, Top: 60}}}}, 4))[0]
			return float64(f.Gap) - 4
		}
		if g := spare(r.Least); math.Abs(g) > 1e-3 {
			t.Errorf("%v: at %v, by %+v, the gap is %v more than the margin", w, float64(r.Least), r.By, g)
		}
		if g := spare(r.Least * 0.999); g > -1e-3 {
			t.Errorf("%v: 0.1%% below %v the gap is %v more than the margin", w, float64(r.Least), g)
		}
	}
}

// A body that hardly stands out past its pivots swings out most on some middle
// radius: sharper bends that clear again do not count.
func TestForOpeningPeak(t *testing.T) {
	v := clearance.Rigid("short ends", 400, clearance.Band{Top: 100, Outline: clearance.Box(432, 90)})
	most, at := measure.Length(0), measure.Length(0)
	for r := measure.Length(300); r < 5000; r++ {
		if o := throws(t, v, r).Outside; o > most {
			most, at = o, r
		}
	}
	if at < 400 || at > 4000 || most < 45.2 {
		t.Fatalf("the outside reach is largest, %v, at %v: not what this test is about", most, at)
	}
	inf := measure.Length(math.Inf(1))
	r := must[limit.Radius](t)(limit.Bend{Stock: []clearance.Vehicle{v}}.ForOpening(t.Context(), inf, most-1e-6)) // between two of the curvatures first looked at
	if r.Least < at-1 || math.Abs(float64(throws(t, v, r.Least).Outside-most+1e-6)) > 1e-6 {
		t.Errorf("least %v, largest at %v", r.Least, at)
	}
	if r = must[limit.Radius](t)(limit.Bend{Stock: []clearance.Vehicle{v}}.ForOpening(t.Context(), inf, most+0.001)); !r.Stands {
		t.Errorf("just wide enough for all: least %v", r.Least)
	}
}

// Concentric tracks: outside reach on R, inside reach on R plus the spacing.
func TestForSpacing(t *testing.T) {
	const m = 6
	for _, d := range []measure.Length{115, 130, 160} {
		b := limit.Bend{Stock: []clearance.Vehicle{coach(), wagon()}, Margin: m}
		r := must[limit.Radius](t)(b.ForSpacing(t.Context(), d, nil))
		spare := func(r measure.Length) float64 {
			in := max(throws(t, coach(), r).Outside, throws(t, wagon(), r).Outside)
			out := max(throws(t, coach(), r+d).Inside, throws(t, wagon(), r+d).Inside)
			return float64(d-in-out) - m
		}
		if g := spare(r.Least); math.Abs(g) > 1e-3 {
			t.Errorf("%v: at %v %v to spare", d, float64(r.Least), g)
		}
		if g := spare(r.Least * 0.999); g > 0 {
			t.Errorf("%v: 0.1%% below %v there is %v to spare", d, float64(r.Least), g)
		}
		need := must[measure.Length](t)(b.Spacing(t.Context(), r.Least, d, nil))
		if math.Abs(float64(need-d)) > 1e-6 {
			t.Errorf("%v: forwards %v", d, float64(need))
		}
	}
	// What is never at one height does not meet.
	low := clearance.Rigid("low", 110, clearance.Band{Bottom: 5, Top: 30, Outline: clearance.Box(190, 92)})
	high := clearance.Rigid("high", 110, clearance.Band{Bottom: 40, Top: 90, Outline: clearance.Box(190, 92)})
	r := must[limit.Radius](t)(limit.Bend{Stock: []clearance.Vehicle{low}}.ForSpacing(t.Context(), 60, []clearance.Vehicle{high}))
	if !r.Stands {
		t.Errorf("low and high stock: %v by %+v", r.Least, r.By)
	}
}

// A platform by plane geometry: the edge at reach and margin; inside, a door at
// the body's end is off by the end's throw too.
func TestForPlatform(t *testing.T) {
	const m, step = 3, 14
	for _, side := range []curve.Hand{curve.Left, curve.Right} {
		p := limit.Platform{Side: side, Coping: 30, Step: step}
		b := limit.Bend{Stock: []clearance.Vehicle{coach()}, Margin: m}
		r := must[limit.Radius](t)(b.ForPlatform(t.Context(), p))
		// Coach: pivots at ρ² = R² - 40², m² = ρ² - 221.5².
		widest := func(R float64) (step, edge float64) {
			mid := math.Sqrt(R*R - 40*40 - 221.5*221.5)
			corner := math.Hypot(mid-44, 307)
			inner := mid - 44
			if side == curve.Left { // edge inside of R by edge
				edge = R - inner + m
				return corner - (R - edge), edge
			}
			edge = math.Hypot(mid+44, 307) - R + m
			return R + edge - (mid + 44), edge
		}
		got, edge := widest(float64(r.Least))
		if math.Abs(got-step) > 1e-3 || math.Abs(float64(r.Edge)-edge) > 1e-3 {
			t.Errorf("%v: at %v the step is %v, edge %v, want %v, %v", side, float64(r.Least), got, float64(r.Edge), step, edge)
		}
		if got, _ := widest(float64(r.Least) * 0.999); got <= step {
			t.Errorf("%v: 0.1%% below the step is %v", side, got)
		}
		s, e, err := b.Step(t.Context(), r.Least, p)
		if err != nil || math.Abs(float64(s-step)) > 1e-6 || math.Abs(float64(e-r.Edge)) > 1e-6 {
			t.Errorf("%v: forwards %v, %v, %v", side, float64(s), float64(e), err)
		}
		// A door in the middle alone: inside it is at the margin always.
		p.Doors = []limit.Door{{Sill: clearance.Point{Across: 44 * measure.Length(side)}}}
		r = must[limit.Radius](t)(b.ForPlatform(t.Context(), p))
		if r.Stands != (side == curve.Left) {
			t.Errorf("%v: middle door: %+v", side, r)
		}
	}
}

// Each rate is the change of the answer itself when the input is changed by a
// little.
func TestRates(t *testing.T) {
	const h = 0.05
	const w, d, m = 63.0, 128.0, 5.0
	vehicle := func(length, pivots, width, base float64) clearance.Vehicle {
		return clearance.Bogie("coach", measure.Length(443+pivots), measure.Length(80+base), clearance.Band{Bottom: 12, Top: 120, Outline: clearance.Box(measure.Length(614+length), measure.Length(88+width))})
	}
	type in struct{ w, out, d, step, m, length, pivots, width, base float64 }
	ask := map[string]func(i in) limit.Radius{
		"opening": func(i in) limit.Radius {
			return must[limit.Radius](t)(limit.Bend{Stock: []clearance.Vehicle{vehicle(i.length, i.pivots, i.width, i.base)}, Margin: measure.Length(m + i.m)}.ForOpening(t.Context(), measure.Length(w+i.w), measure.Length(w+i.out)))
		},
		"narrow outside": func(i in) limit.Radius {
			return must[limit.Radius](t)(limit.Bend{Stock: []clearance.Vehicle{vehicle(i.length, i.pivots, i.width, i.base)}, Margin: measure.Length(m + i.m)}.ForOpening(t.Context(), measure.Length(w+20+i.w), measure.Length(w+i.out)))
		},
		"spacing": func(i in) limit.Radius {
			return must[limit.Radius](t)(limit.Bend{Stock: []clearance.Vehicle{vehicle(i.length, i.pivots, i.width, i.base)}, Margin: measure.Length(m + i.m)}.ForSpacing(t.Context(), measure.Length(d+i.d), []clearance.Vehicle{wagon()}))
		},
		"platform": func(i in) limit.Radius {
			return must[limit.Radius](t)(limit.Bend{Stock: []clearance.Vehicle{vehicle(i.length, i.pivots, i.width, i.base)}, Margin: measure.Length(m + i.m)}.ForPlatform(t.Context(), limit.Platform{Side: curve.Left, Coping: 30, Step: measure.Length(15 + i.step)}))
		},
	}
	inputs := map[string]func(d float64) in{
		"inside half-width":  func(d float64) in { return in{w: d} },
		"outside half-width": func(d float64) in { return in{out: d} },
		"spacing":            func(d float64) in { return in{d: d} },
		"step":               func(d float64) in { return in{step: d} },
		"margin":             func(d float64) in { return in{m: d} },
		"body length":        func(d float64) in { return in{length: d} },
		"pivot spacing":      func(d float64) in { return in{pivots: d} },
		"body width":         func(d float64) in { return in{width: d} },
		"bogie wheelbase":    func(d float64) in { return in{base: d} },
	}
	for what, f := range ask {
		at := f(in{})
		if len(at.Rates) < 6 {
			t.Errorf("%s: rates %+v", what, at.Rates)
		}
		for _, r := range at.Rates {
			want := float64(f(inputs[r.Input](h)).Least-f(inputs[r.Input](-h)).Least) / (2 * h)
			if math.Abs(r.Change-want) > 2e-3*math.Abs(want)+1e-4 {
				t.Errorf("%s, %s: %v, want %v", what, r.Input, r.Change, want)
			}
		}
		if got, ok := at.Rate("margin"); !ok || got <= 0 {
			t.Errorf("%s: margin %v, %v", what, got, ok)
		}
	}
}

func TestNoAnswers(t *testing.T) {
	b := limit.Bend{Stock: []clearance.Vehicle{coach()}, Margin: 5}
	for name, c := range map[string]struct {
		f    func() error
		says string
	}{
		"opening": {func() error { _, err := b.ForOpening(t.Context(), 48, 60); return err }, "more than 49 mm"},
		"just":    {func() error { _, err := b.ForOpening(t.Context(), 49, 60); return err }, "more than 49 mm"},
		"outside": {func() error { _, err := b.ForOpening(t.Context(), 60, 47.5); return err }, "outside half-width"},
		"spacing": {func() error { _, err := b.ForSpacing(t.Context(), 90, nil); return err }, "more than 93 mm"},
		"step": {func() error {
			_, err := b.ForPlatform(t.Context(), limit.Platform{Side: curve.Left, Coping: 30, Step: 4})
			return err
		}, "more than 5 mm"},
	} {
		if err := c.f(); !errors.Is(err, measure.ErrNoAnswer) || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v, want no answer and %q", name, err, c.says)
		}
	}
}

func TestBendRefusals(t *testing.T) {
	nan := measure.Length(math.NaN())
	ctx := t.Context()
	good := limit.Bend{Stock: []clearance.Vehicle{coach()}}
	ramp := must[profile.Cant](t)(profile.NewCant(profile.InnerRail, profile.CantPoint{}, profile.CantPoint{Chainage: 100, Cant: 2}))
	level := must[profile.Level](t)(profile.NewLevel(profile.Point{}, profile.Point{Chainage: 100, Level: 2}, profile.Point{Chainage: 300}))
	for name, f := range map[string]func() error{
		"no stock":   func() error { _, err := limit.Bend{}.ForOpening(ctx, 60, 60); return err },
		"margin":     func() error { _, err := limit.Bend{Stock: good.Stock, Margin: nan}.ForOpening(ctx, 60, 60); return err },
		"half-width": func() error { _, err := good.ForOpening(ctx, nan, 60); return err },
		"both open": func() error {
			_, err := good.ForOpening(ctx, measure.Length(math.Inf(1)), measure.Length(math.Inf(1)))
			return err
		},
		"heights": func() error {
			_, err := limit.Bend{Stock: good.Stock, Heights: clearance.Heights{From: 500, To: 600}}.ForOpening(ctx, 60, 60)
			return err
		},
		"ramp": func() error {
			_, err := limit.Bend{Stock: good.Stock, Allowances: clearance.Allowances{Cant: ramp, RailCentres: 47}}.ForOpening(ctx, 60, 60)
			return err
		},
		"level": func() error {
			_, err := limit.Bend{Stock: good.Stock, Allowances: clearance.Allowances{Level: level}}.ForOpening(ctx, 60, 60)
			return err
		},
		"vehicle": func() error {
			_, err := limit.Bend{Stock: []clearance.Vehicle{{Name: "x"}}}.ForPlatform(ctx, limit.Platform{Side: curve.Left, Coping: 30, Step: 5})
			return err
		},
		"spacing": func() error { _, err := good.ForSpacing(ctx, 0, nil); return err },
		"radius":  func() error { _, err := good.At(ctx, 0); return err },
		"side":    func() error { _, err := good.ForPlatform(ctx, limit.Platform{Coping: 30, Step: 5}); return err },
		"coping": func() error {
			_, err := good.ForPlatform(ctx, limit.Platform{Side: curve.Left, Coping: 3, Step: 5})
			return err
		},
		"door": func() error {
			_, err := good.ForPlatform(ctx, limit.Platform{Side: curve.Left, Coping: 30, Step: 5, Doors: []limit.Door{{Stock: 2}}})
			return err
		},
	} {
		if err := f(); !errors.Is(err, measure.ErrInput) {
			t.Errorf("%s: %v", name, err)
		}
	}
	stopped, stop := context.WithCancel(ctx)
	stop()
	if _, err := good.ForOpening(stopped, 60, 60); !errors.Is(err, context.Canceled) {
		t.Errorf("stopped: %v", err)
	}
}

// The outer stock may be a part of the list of the inner one.
func TestForSpacingOuterPart(t *testing.T) {
	stock := []clearance.Vehicle{wagon(), coach()}
	b := limit.Bend{Stock: stock, Margin: 5}
	part := must[limit.Radius](t)(b.ForSpacing(t.Context(), 165, stock[:1]))
	alone := must[limit.Radius](t)(b.ForSpacing(t.Context(), 165, []clearance.Vehicle{wagon()}))
	both := must[limit.Radius](t)(b.ForSpacing(t.Context(), 165, nil))
	if part.Least != alone.Least || part.Least >= both.Least {
		t.Errorf("as a part %v, alone %v, both outside %v", part.Least, alone.Least, both.Least)
	}
}

// Without rates the answer is the same.
func TestNoRates(t *testing.T) {
	b := limit.Bend{Stock: []clearance.Vehicle{coach()}, Margin: 5}
	with := must[limit.Radius](t)(b.ForOpening(t.Context(), 62, 62))
	b.NoRates = true
	without := must[limit.Radius](t)(b.ForOpening(t.Context(), 62, 62))
	if len(with.Rates) == 0 || without.Rates != nil || with.Least != without.Least {
		t.Errorf("%+v, without rates %+v", with, without)
	}
}
