package locked_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"

	"example.org/fourfoot/expansion"
	"example.org/fourfoot/expansion/locked"
	"example.org/fourfoot/gauge"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/gauge/rail"
)

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

func near(t *testing.T, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: got %v, want %v within %v", what, got, want, tol)
	}
}

// 52 kg/m rail of 66.15 cm², E 2.10e6 kgf/cm², 30 K, a worked example of locked
// rail in an engineering reference whose title is not known: 47 926 kgf (with
// 11.5e-6/K).
func TestForceExample(t *testing.T) {
	e := measure.Stress(2.10e6 * 9.80665 / 100)
	f := must(locked.Force(66.15*measure.SquareCentimetre, e, 11.5*measure.MicroPerKelvin, 30))
	near(t, "force in kgf", float64(f/measure.KilogramForce), 47926, 0.5)
	if g := must(locked.Force(66.15*measure.SquareCentimetre, e, 11.5*measure.MicroPerKelvin, -30)); g != -f {
		t.Errorf("cooled by as much it pulls %v, not %v", g, -f)
	}
}

// 15 m of brass locked at +30 K: 219 mm as arc or parabola, 228 mm as half
// sine (worked, 19e-6/K).
func TestBowExample(t *testing.T) {
	b := must(locked.NewBow(15*measure.Metre, 19*measure.MicroPerKelvin, 30))
	near(t, "arc", float64(b.Arc), 219, 0.5)
	near(t, "half sine", float64(b.HalfSine), 228, 0.5)
	if b.Allowance != b.HalfSine {
		t.Errorf("allowance %v, want the larger of %v and %v", b.Allowance, b.Arc, b.HalfSine)
	}
	if c := must(locked.NewBow(15*measure.Metre, 19*measure.MicroPerKelvin, -30)); c.Allowance != 0 || c.Growth >= 0 {
		t.Errorf("a cooled rail: %+v", c)
	}
}

// The bows' own curves are as long as the warmed rail, to the order claimed.
func TestBowLengths(t *testing.T) {
	for _, strain := range []float64{1e-5, 1e-4, 1e-3} {
		const l = 10_000
		b := must(locked.NewBow(l, measure.Expansion(strain/10), 10))
		y := float64(b.HalfSine)
		length := quad.Fixed(func(x float64) float64 {
			s := y * math.Pi / l * math.Cos(math.Pi*x/l)
			return math.Sqrt(1 + s*s)
		}, 0, l, 200, nil, 0)
		near(t, "half sine's growth", (length-l)/(strain*l), 1, 2*strain)
		y = float64(b.Arc)
		r := (l*l/4 + y*y) / (2 * y)
		length = 2 * r * math.Asin(l/2/r)
		near(t, "arc's growth", (length-l)/(strain*l), 1, 2*strain)
	}
}

// Brass, +40 K: R 3 m 3.4 mm, R 20 m 23 mm (worked from 1.5·R·α·ΔT).
func TestShiftExample(t *testing.T) {
	a := 19 * measure.MicroPerKelvin
	near(t, "R 3 m", float64(must(locked.NewShift(3000, 90*measure.Degree, a, 40)).Small), 3.4, 0.05)
	near(t, "R 20 m", float64(must(locked.NewShift(20_000, 90*measure.Degree, a, 40)).Small), 23, 0.5)
	// Whatever the turn, the exact arc stays near the limit, as long as the
	// movement is small beside the rise of the arc.
	for turn := 40.0; turn <= 180; turn += 20 {
		s := must(locked.NewShift(3000, measure.Angle(turn)*measure.Degree, a, 40))
		near(t, fmt.Sprintf("exact over small at %v°", turn), float64(s.Arc/s.Small), 1.02, 0.03)
	}
}

// The moved arc has the same chord and the warmed length.
func TestShiftGeometry(t *testing.T) {
	for _, turn := range []float64{0.02, 0.1, 0.5, 1, 2, 3, 4, 5, 6} {
		for _, strain := range []float64{-1e-3, -1e-4, 1e-7, 1e-5, 1e-3, 5e-3} {
			const r = 3000
			s, err := locked.NewShift(r, measure.Angle(turn), measure.Expansion(math.Abs(strain)/100), measure.TemperatureDifference(math.Copysign(100, strain)))
			chord, length := 2*r*math.Sin(turn/2), r*turn*(1+strain)
			if errors.Is(err, measure.ErrNoAnswer) {
				if length > chord*(1+1e-9) {
					t.Errorf("turn %v, strain %v: %v, but the rail is longer than its chord", turn, strain, err)
				}
				continue
			}
			if err != nil {
				t.Fatal(err)
			}
			h := r*(1-math.Cos(turn/2)) + float64(s.Arc) // of the crown over the chord
			half := 2 * math.Atan(2*h/chord)             // half turn of the arc through the ends and the crown
			got := chord * half / math.Sin(half)
			near(t, fmt.Sprintf("length at turn %v, strain %v", turn, strain), (got-length)/length, 0, 1e-12)
			if (s.Arc > 0) != (strain > 0) {
				t.Errorf("strain %v moves the crown by %v", strain, s.Arc)
			}
		}
	}
}

// For small strains the arc tends to 1.5·R·α·ΔT as it gets flat, and to the
// derivative of its own geometry at any turn.
func TestShiftLimit(t *testing.T) {
	for _, turn := range []float64{0.05, 0.2, 1, 2, 3, 5} {
		s := must(locked.NewShift(3000, measure.Angle(turn), 1e-9, 1))
		h := turn / 2
		want := math.Sin(h) / 4 / math.Pow(math.Cos(h/2), 2) * turn / (1 - h/math.Tan(h))
		near(t, fmt.Sprintf("turn %v", turn), float64(s.Arc)/(3000*1e-9), want, 2e-4)
		if turn < 0.1 {
			near(t, "flat", want, 1.5, 1e-3)
		}
	}
}

// The mean movement is R·α·ΔT for the cosine shape as for the ring.
func TestCosineMean(t *testing.T) {
	s := must(locked.NewShift(3000, 1, 19e-6, 40))
	mean := quad.Fixed(func(u float64) float64 { return float64(s.Cosine) / 2 * (1 - math.Cos(2*math.Pi*u)) }, 0, 1, 100, nil, 0)
	near(t, "mean", mean, float64(must(locked.RingGrowth(3000, 19e-6, 40))), 1e-9)
	near(t, "ring", float64(must(locked.RingGrowth(3000, 19e-6, 40))), 2.28, 1e-12)
}

func TestMonotone(t *testing.T) {
	var last locked.Shift
	var lastBow locked.Bow
	for k := measure.TemperatureDifference(1); k < 60; k++ {
		s := must(locked.NewShift(3000, 1.2, 19e-6, k))
		b := must(locked.NewBow(3000, 19e-6, k))
		if s.Arc <= last.Arc || s.Cosine <= last.Cosine || b.Arc <= lastBow.Arc || b.HalfSine <= lastBow.HalfSine {
			t.Errorf("at %v K: %+v after %+v, %+v after %+v", k, s, last, b, lastBow)
		}
		last, lastBow = s, b
	}
	if s := must(locked.NewShift(3000, 1.2, 19e-6, 0)); s != (locked.Shift{}) {
		t.Errorf("no warming: %+v", s)
	}
}

// The second moments of 60E1, from memory, agree with three rectangles of its
// heights and widths (head 48 and foot 17 deep on the average, by eye).
func TestSectionPlausible(t *testing.T) {
	full, _ := rail.Named("60E1")
	p := must(locked.FromRail(full))
	type rect struct{ w, h, y float64 } // y of its middle
	parts := []rect{{150, 17, 8.5}, {16.5, 107, 70.5}, {72, 48, 148}}
	var a, ay, upright, sideways float64
	for _, r := range parts {
		a += r.w * r.h
		ay += r.w * r.h * r.y
		sideways += r.h * r.w * r.w * r.w / 12
	}
	for _, r := range parts {
		d := r.y - ay/a
		upright += r.w*r.h*r.h*r.h/12 + r.w*r.h*d*d
	}
	near(t, "area", a/float64(p.Area), 1, 0.05)
	near(t, "upright", upright/float64(p.Upright), 1, 0.1)
	near(t, "sideways", sideways/float64(p.Sideways), 1.1, 0.15) // rectangles have no rounded or tapered edges
	// 60.21 kg/m on 76.70 cm² of 7.85 g/cm³.
	near(t, "area", float64(p.Area), 7670, 1e-9)
	near(t, "mass", float64(p.Mass(7850)), 60.21, 0.005)
}

func TestFromRail(t *testing.T) {
	full, _ := rail.Named("60E1")
	p := must(locked.FromRail(full))
	half := full
	half.Height, half.Foot, half.Head, half.Web, half.Area = 86, 0, 0, 0, 0
	s := must(locked.FromRail(half))
	near(t, "area", float64(s.Area/p.Area), 0.25, 1e-12)
	near(t, "upright", float64(s.Upright/p.Upright), 1.0/16, 1e-12)
	near(t, "sideways", float64(s.Sideways/p.Sideways), 1.0/16, 1e-12)
	wide := full
	wide.Foot, wide.Area = 165, 0
	s = must(locked.FromRail(wide))
	near(t, "area", float64(s.Area/p.Area), 1.1, 1e-12)
	near(t, "upright", float64(s.Upright/p.Upright), 1.1, 1e-12)
	near(t, "sideways", float64(s.Sideways/p.Sideways), 1.331, 1e-12)
	wide.Area = full.Area
	s = must(locked.FromRail(wide))
	near(t, "upright of a stated area", float64(s.Upright/p.Upright), 1, 1e-12)
	near(t, "sideways of a stated area", float64(s.Sideways/p.Sideways), 1.21, 1e-12)
	// At a scale of 1:22.5 everything goes by its power.
	n := must(gauge.NewScale(22.5))
	s = must(locked.FromRail(full.AtScale(n)))
	near(t, "scaled area", float64(s.Area/p.Area), 1/22.5/22.5, 1e-12)
	near(t, "scaled sideways", float64(s.Sideways/p.Sideways), math.Pow(22.5, -4), 1e-12)
}

func code250() locked.Section { return must(locked.FromRail(must(rail.FromCode(250)))) }

func TestStrut(t *testing.T) {
	s := code250()
	u := must(locked.NewStrut(s, 100*measure.Gigapascal, 500, 19e-6, 30))
	near(t, "critical", float64(u.Critical), math.Pi*math.Pi*100e3*float64(s.Sideways)/(500*500), 1e-9)
	near(t, "push", float64(u.Push), 100e3*float64(s.Area)*19e-6*30, 1e-9)
	near(t, "margin", u.Margin, float64(u.Critical/u.Push), 1e-12)
	v := must(locked.NewStrut(s, 100*measure.Gigapascal, u.Longest, 19e-6, 30))
	near(t, "margin at the longest spacing", v.Margin, 1, 1e-9)
	if w := must(locked.NewStrut(s, 100*measure.Gigapascal, 500, 19e-6, -30)); w.Margin != 0 || w.Longest != 0 {
		t.Errorf("pulled rail does not buckle: %+v", w)
	}
}

func TestStrutRates(t *testing.T) {
	s := code250()
	f := func(i locked.SecondMoment, e measure.Stress, l measure.Length) float64 {
		c := s
		c.Sideways += i
		return float64(must(locked.NewStrut(c, 100e3+e, 400+l, 19e-6, 30)).Critical)
	}
	critical, margin, longest, err := locked.StrutRates(s, 100e3, 400, 19e-6, 30)
	if err != nil || len(critical) != 3 || len(margin) != 5 || len(longest) != 4 {
		t.Fatal(critical, margin, longest, err)
	}
	// strut is the strut with one input larger by d of its unit.
	strut := func(input string, d float64) locked.Strut {
		s, e, l, a, k := s, 100e3*measure.Megapascal, 400*measure.Millimetre, 19*measure.MicroPerKelvin, 30*measure.Kelvin
		switch input {
		case "spacing of fixings":
			l += measure.Length(d)
		case "modulus":
			e += measure.Gigapascal * measure.Stress(d)
		case "second moment":
			s.Sideways += locked.SecondMoment(d)
		case "area":
			s.Area += measure.Area(d)
		case "expansion":
			a += measure.MicroPerKelvin * measure.Expansion(d)
		case "warming":
			k += measure.TemperatureDifference(d)
		default:
			t.Fatalf("no such input: %q", input)
		}
		return must(locked.NewStrut(s, e, l, a, k))
	}
	const d = 1e-4
	by := func(input string, of func(locked.Strut) float64) float64 {
		return (of(strut(input, d)) - of(strut(input, -d))) / (2 * d)
	}
	for _, r := range critical {
		want := by(r.Input, func(s locked.Strut) float64 { return float64(s.Critical) })
		near(t, "critical by "+r.Input, float64(r.By), want, 1e-6*math.Abs(want))
	}
	for _, r := range margin {
		want := by(r.Input, func(s locked.Strut) float64 { return s.Margin })
		near(t, "margin by "+r.Input, r.By, want, 1e-6*math.Abs(want))
	}
	for _, r := range longest {
		want := by(r.Input, func(s locked.Strut) float64 { return float64(s.Longest) })
		near(t, "longest by "+r.Input, float64(r.By), want, 1e-6*math.Abs(want))
	}
	if c, m, l, err := locked.StrutRates(s, 100e3, 400, 19e-6, 0); len(c) != 3 || m != nil || l != nil || err != nil {
		t.Errorf("not pushed: %v, %v, %v, %v", c, m, l, err)
	}
	if _, _, _, err := locked.StrutRates(s, 100e3, 0, 19e-6, 30); err == nil {
		t.Error("no spacing was taken")
	}
	flat := s
	flat.Upright = s.Sideways / 3
	near(t, "a bar laid flat", float64(must(locked.NewStrut(flat, 100e3, 400, 19e-6, 30)).Critical), f(0, 0, 0)/3, 1e-9)
	flat.Upright = 0
	near(t, "upright not known", float64(must(locked.NewStrut(flat, 100e3, 400, 19e-6, 30)).Critical), f(0, 0, 0), 1e-9)
}

func TestFromRailRates(t *testing.T) {
	full, _ := rail.Named("60E1")
	footless := full
	footless.Foot, footless.Head, footless.Web = 0, 0, 0
	unstated := full
	unstated.Area = 0
	neither := footless
	neither.Area = 0
	for name, r := range map[string]rail.Section{"all": full, "no foot": footless, "no area": unstated, "height alone": neither} {
		area, upright, sideways, err := locked.FromRailRates(r)
		if err != nil {
			t.Fatal(err)
		}
		seen := map[string]int{}
		by := func(input string, of func(locked.Section) float64) float64 {
			const d = 1e-4
			at := func(d float64) float64 {
				r := r
				switch input {
				case "height":
					r.Height += measure.Length(d)
				case "foot":
					r.Foot += measure.Length(d)
				case "area":
					r.Area += measure.Area(d)
				default:
					t.Fatalf("no such input: %q", input)
				}
				return of(must(locked.FromRail(r)))
			}
			seen[input]++
			return (at(d) - at(-d)) / (2 * d)
		}
		for _, x := range area {
			want := by(x.Input, func(s locked.Section) float64 { return float64(s.Area) })
			near(t, name+": area by "+x.Input, float64(x.By), want, 1e-6*math.Abs(want))
		}
		for _, x := range upright {
			want := by(x.Input, func(s locked.Section) float64 { return float64(s.Upright) })
			near(t, name+": upright by "+x.Input, float64(x.By), want, 1e-6*math.Abs(want))
		}
		for _, x := range sideways {
			want := by(x.Input, func(s locked.Section) float64 { return float64(s.Sideways) })
			near(t, name+": sideways by "+x.Input, float64(x.By), want, 1e-6*math.Abs(want))
		}
		want := map[string]map[string]int{
			"all":     {"area": 3, "height": 1, "foot": 1}, // the height does not count sideways, the foot not upright
			"no foot": {"area": 3, "height": 2}, "no area": {"height": 3, "foot": 3}, "height alone": {"height": 3},
		}[name]
		for k, n := range want {
			if seen[k] != n {
				t.Errorf("%s: %s %d times, want %d", name, k, seen[k], n)
			}
		}
	}
	if _, _, _, err := locked.FromRailRates(rail.Section{}); err == nil {
		t.Error("no rail was taken")
	}
}

func TestRates(t *testing.T) {
	check := func(what string, rates []expansion.Rate[measure.Length], f func(input string, d float64) float64, unit map[string]float64) {
		t.Helper()
		for _, r := range rates {
			d := 1e-3 * unit[r.Input]
			want := (f(r.Input, d) - f(r.Input, -d)) / (2 * d) * unit[r.Input]
			near(t, what+" by "+r.Input, float64(r.By), want, 1e-4*math.Abs(want)+1e-9)
		}
		if len(rates) < 3 {
			t.Errorf("%s: %d rates", what, len(rates))
		}
	}
	unit := map[string]float64{"length": 1, "radius": 1, "turn": float64(measure.Degree), "expansion": 1e-6, "warming": 1}
	check("bow", must(locked.BowRates(5000, 19e-6, 35)), func(input string, d float64) float64 {
		l, a, k := measure.Length(5000), measure.Expansion(19e-6), measure.TemperatureDifference(35)
		switch input {
		case "length":
			l += measure.Length(d)
		case "expansion":
			a += measure.Expansion(d)
		case "warming":
			k += measure.TemperatureDifference(d)
		}
		return float64(must(locked.NewBow(l, a, k)).Allowance)
	}, unit)
	for _, turn := range []measure.Angle{0.05, 1, 3} {
		shift := func(of func(locked.Shift) measure.Length) func(string, float64) float64 {
			return func(input string, d float64) float64 {
				r, h, a, k := measure.Length(5000), turn, measure.Expansion(19e-6), measure.TemperatureDifference(35)
				switch input {
				case "radius":
					r += measure.Length(d)
				case "turn":
					h += measure.Angle(d)
				case "expansion":
					a += measure.Expansion(d)
				case "warming":
					k += measure.TemperatureDifference(d)
				}
				return float64(of(must(locked.NewShift(r, h, a, k))))
			}
		}
		check("shift", must(locked.ShiftRates(5000, turn, 19e-6, 35)), shift(func(s locked.Shift) measure.Length { return s.Allowance }), unit)
		check("arc", must(locked.ArcRates(5000, turn, 19e-6, 35)), shift(func(s locked.Shift) measure.Length { return s.Arc }), unit)
	}
	check("ring", must(locked.RingGrowthRates(5000, 19e-6, 35)), func(input string, d float64) float64 {
		r, a, k := measure.Length(5000), measure.Expansion(19e-6), measure.TemperatureDifference(35)
		switch input {
		case "radius":
			r += measure.Length(d)
		case "expansion":
			a += measure.Expansion(d)
		case "warming":
			k += measure.TemperatureDifference(d)
		}
		return float64(must(locked.RingGrowth(r, a, k)))
	}, unit)
	f := func(area, e, a, k float64) float64 {
		return float64(must(locked.Force(measure.Area(area), measure.Stress(e), measure.Expansion(a), measure.TemperatureDifference(k))))
	}
	for _, r := range must(locked.ForceRates(20, 100e3, 19e-6, 30)) {
		want := map[string]float64{
			"area": f(21, 100e3, 19e-6, 30), "modulus": f(20, 101e3, 19e-6, 30), "expansion": f(20, 100e3, 20e-6, 30), "warming": f(20, 100e3, 19e-6, 31),
		}[r.Input] - f(20, 100e3, 19e-6, 30)
		near(t, r.Input, float64(r.By), want, 1e-9)
	}
}

func TestBadInput(t *testing.T) {
	nan := math.NaN()
	for name, err := range map[string]error{
		"no area":          second(locked.Force(0, 1e5, 19e-6, 30)),
		"NaN modulus":      second(locked.Force(20, measure.Stress(nan), 19e-6, 30)),
		"forgotten 1e-6":   second(locked.Force(20, 1e5, 19, 30)),
		"too warm":         second(locked.Force(20, 1e5, 19e-6, 300)),
		"negative length":  second(locked.NewBow(-1, 19e-6, 30)),
		"negative radius":  second(locked.NewShift(-1, 1, 19e-6, 30)),
		"whole circle":     second(locked.NewShift(1000, 2*math.Pi, 19e-6, 30)),
		"NaN turn":         second(locked.NewShift(1000, measure.Angle(nan), 19e-6, 30)),
		"ring":             second(locked.RingGrowth(0, 19e-6, 30)),
		"no rail":          second(locked.FromRail(rail.Section{})),
		"strut":            second(locked.NewStrut(locked.Section{Area: 20}, 1e5, 100, 19e-6, 30)),
		"strut no spacing": second(locked.NewStrut(code250(), 1e5, 0, 19e-6, 30)),
	} {
		if !errors.Is(err, measure.ErrInput) {
			t.Errorf("%s: %v", name, err)
		}
	}
	// A flat arc is pulled straight; down to the temperature that the error
	// names there is a curve.
	_, err := locked.NewShift(1000, 0.1, 20e-6, -60)
	if !errors.Is(err, measure.ErrNoAnswer) {
		t.Fatalf("pulled straight: %v", err)
	}
	text := err.Error()
	var limit float64
	if _, e := fmt.Sscanf(text[strings.Index(text, "down to"):], "down to %g K", &limit); e != nil {
		t.Fatal(text, e)
	}
	near(t, "limit", limit, (math.Sin(0.05)/0.05-1)/20e-6, 0.1)
	for d, want := range map[float64]bool{0: true, -0.11: false} {
		if _, err := locked.NewShift(1000, 0.1, 20e-6, measure.TemperatureDifference(limit+d)); (err == nil) != want {
			t.Errorf("at %v K: %v", limit+d, err)
		}
	}
}

func second[T any](_ T, err error) error { return err }

func ExampleNewBow() {
	b, err := locked.NewBow(15*measure.Metre, 19*measure.MicroPerKelvin, 30*measure.Kelvin)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("arc %.0f mm, half sine %.0f mm\n", b.Arc, b.HalfSine)
	// Output: arc 219 mm, half sine 228 mm
}

func ExampleNewShift() {
	for _, r := range []measure.Length{3 * measure.Metre, 20 * measure.Metre} {
		s, err := locked.NewShift(r, 90*measure.Degree, 19*measure.MicroPerKelvin, 40*measure.Kelvin)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("R %.0f m: as an arc %.2f mm, small limit %.2f mm, allow %.1f mm\n", r.Metres(), s.Arc, s.Small, s.Allowance)
	}
	// Output:
	// R 3 m: as an arc 3.45 mm, small limit 3.42 mm, allow 4.6 mm
	// R 20 m: as an arc 23.00 mm, small limit 22.80 mm, allow 30.4 mm
}

func ExampleNewStrut() {
	code, err := rail.FromCode(250)
	if err != nil {
		fmt.Println(err)
		return
	}
	section, err := locked.FromRail(code)
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := locked.NewStrut(section, 100*measure.Gigapascal, 300*measure.Millimetre, 19*measure.MicroPerKelvin, 40*measure.Kelvin)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("push %.0f N, buckles at %.0f N: indication only\n", s.Push.Newtons(), s.Critical.Newtons())
	// Output:
	// push 816 N, buckles at 113 N: indication only
}
