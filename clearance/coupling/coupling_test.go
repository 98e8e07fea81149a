package coupling_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/coupling"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

var ctx = context.Background()

func box(length, width measure.Length) clearance.Band {
	return clearance.Band{Top: 120, Outline: clearance.Box(length, width)}
}

// coach has couplers hinged 15 mm inside its ends and reaching 10 mm beyond
// them, and buffers.
func coach() coupling.Car {
	end := coupling.End{Hinge: 292, Length: 25, Swing: 12 * measure.Degree, Buffers: coupling.Buffers{Face: 315, Centres: 55, Width: 15, Least: 3}}
	rear := end
	rear.Hinge, rear.Buffers.Face = -rear.Hinge, -rear.Buffers.Face
	return coupling.Car{Vehicle: clearance.Bogie("coach", 443, 80, box(614, 88)), Rear: rear, Front: end}
}

// wagon is rigid, on 110 mm.
func wagon() coupling.Car {
	end := coupling.End{Hinge: 85, Length: 20, Swing: 20 * measure.Degree, Buffers: coupling.Buffers{Face: 103, Centres: 55, Width: 14}}
	rear := end
	rear.Hinge, rear.Buffers.Face = -rear.Hinge, -rear.Buffers.Face
	return coupling.Car{Vehicle: clearance.Rigid("wagon", 110, box(190, 90)), Rear: rear, Front: end}
}

func arc(tb testing.TB, length measure.Length, k float64) curve.Element {
	tb.Helper()
	e, err := curve.NewArcOfLength(length, measure.Curvature(k))
	if err != nil {
		tb.Fatal(err)
	}
	return e
}

func straight(tb testing.TB, length measure.Length) curve.Element {
	tb.Helper()
	e, err := curve.NewStraight(length)
	if err != nil {
		tb.Fatal(err)
	}
	return e
}

func line(tb testing.TB, e ...curve.Element) *curve.Alignment {
	tb.Helper()
	l, err := curve.New(curve.Pose{}, e...)
	if err != nil {
		tb.Fatal(err)
	}
	return l
}

func near(tb testing.TB, what string, got, want, tol float64) {
	tb.Helper()
	if !(math.Abs(got-want) <= tol) {
		tb.Errorf("%s: %.9g, want %.9g within %g", what, got, want, tol)
	}
}

// The coupler-face offset of common practice: e = √(R² - (a/2)² + (Lc/2)²) - R
// for a rigid vehicle on a curve, exact for a face on the body; at a reversal
// the two add.
func TestFaceOffset(t *testing.T) {
	const R, a, Lc = 1200, 110, 210
	e := math.Sqrt(R*R-a*a/4+Lc*Lc/4) - R
	l := line(t, arc(t, 3000, 1.0/R))
	p := coupling.Pair{Behind: wagon(), Ahead: wagon()}
	j, err := coupling.At(l, p, 1500)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "ahead", float64(j.FromLineAhead), -e, 1e-9) // outside of a left-hand curve is to the right
	near(t, "behind", float64(j.FromLineBehind), -e, 1e-9)
	near(t, "offset on the curve", float64(j.Offset), 0, 1e-9)
	near(t, "swings alike", float64(j.SwingBehind+j.SwingAhead), 0, 1e-12)
	near(t, "angle is what both couplers swing", float64(j.Angle), float64(j.SwingBehind-j.SwingAhead), 1e-12)

	// Reversal: with the joint at it and both cars wholly on their curves.
	l = line(t, arc(t, 1500, 1.0/R), arc(t, 1500, -1.0/R))
	j, err = coupling.At(l, p, 1500+Lc/2-a/2)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "offset at the reversal", math.Abs(float64(j.Offset)), 2*e, 0.01*e)
	f, err := coupling.Along(ctx, l, p)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "worst offset", math.Abs(float64(f.Offset.Offset)), 2*e, 0.01*e)
	near(t, "where", float64(f.Offset.Chainage), 1500, 2)
}

// Straight track asks for nothing.
func TestStraight(t *testing.T) {
	p := coupling.Pair{Behind: coach(), Ahead: wagon()}
	j, err := coupling.At(line(t, straight(t, 5000)), p, 3000)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "offset", float64(j.Offset), 0, 1e-12)
	near(t, "angle", float64(j.Angle), 0, 1e-15)
	near(t, "swing", math.Abs(float64(j.SwingAhead))+math.Abs(float64(j.SwingBehind)), 0, 1e-12)
	near(t, "overlap", float64(j.Overlap), 14, 1e-12) // of the narrower head
	// Hinge to hinge 45, heads 23 beyond the one and 18 beyond the other.
	near(t, "buffer gap", float64(j.BufferGap), 45-23-18, 1e-9)
	near(t, "behind", float64(j.RearAxle-j.BehindAxle), (85-55)+45+292+443/2.0+40, 1e-9)
	if j, err = coupling.At(line(t, straight(t, 5000)), p.Swapped(), 3000); err != nil {
		t.Fatal(err)
	}
	near(t, "overlap, the other way", float64(j.Overlap), 14, 1e-12)
}

// Couplers on the bogies of a curve, by plane geometry: a bogie of wheelbase b
// has its middle at ρ = √(R²-(b/2)²) and lies along the circle there; the hinge c
// beyond it is at √(ρ²+c²), and the link a chord of that circle, so that each
// coupler swings by atan(c/ρ) + asin(ℓ/2√(ρ²+c²)) from its bogie.
func TestCouplerOnTheBogie(t *testing.T) {
	const R, b, c, length = 1500.0, 80.0, 60.0, 50.0
	for _, hand := range []float64{1, -1} {
		p := coupling.Pair{Behind: coach(), Ahead: coach()}
		p.Behind.Front.OnCarrier, p.Behind.Front.Hinge, p.Behind.Front.Length = true, c, length/2
		p.Ahead.Rear.OnCarrier, p.Ahead.Rear.Hinge, p.Ahead.Rear.Length = true, -c, length/2
		j, err := coupling.At(line(t, arc(t, 4000, hand/R)), p, 2000)
		if err != nil {
			t.Fatal(err)
		}
		rho := math.Sqrt(R*R - b*b/4)
		at := math.Hypot(rho, c)
		swing := math.Atan(c/rho) + math.Asin(length/2/at)
		near(t, "swing of the one ahead", float64(j.SwingAhead), -hand*swing, 1e-9)
		near(t, "swing of the one behind", float64(j.SwingBehind), hand*swing, 1e-9)
		// Bodies on pivots 443 apart: their middles turn by the same about the
		// curve's middle, half a body, a hinge and half a link on each side.
		turn := 2 * (math.Asin(443/2.0/rho) + math.Atan(c/rho) + math.Asin(length/2/at))
		near(t, "angle", float64(j.Angle), hand*turn, 1e-9)
		// The faces, held straight, c and half the link beyond the bogies' middles.
		near(t, "face", float64(j.FromLineAhead), -hand*(math.Hypot(rho, c+length/2)-R), 1e-9)
	}
}

// brute stands a pair with none of the package's means: the centreline by its
// own integration of the curvature, every chord by bisection.
type brute struct {
	x, y []float64
	h    float64
}

func newBrute(k func(s float64) float64, length, h float64) *brute {
	b := &brute{h: h}
	x, y, th := 0.0, 0.0, 0.0
	for s := 0.0; s < length; s += h {
		b.x, b.y = append(b.x, x), append(b.y, y)
		// Midpoint rule, the heading at the middle of the step.
		mid := th + k(s+h/4)*h/2
		x, y = x+h*math.Cos(mid), y+h*math.Sin(mid)
		th += k(s+h/2) * h
	}
	return b
}

func (b *brute) at(s float64) r2.Vec {
	i := int(s / b.h)
	t := s/b.h - float64(i)
	return r2.Vec{X: b.x[i] + t*(b.x[i+1]-b.x[i]), Y: b.y[i] + t*(b.y[i+1]-b.y[i])}
}

func bisect(f func(float64) float64, a, b float64) float64 { // f(a) < 0 < f(b)
	for range 60 {
		if m := (a + b) / 2; f(m) < 0 {
			a = m
		} else {
			b = m
		}
	}
	return (a + b) / 2
}

// rigid stands two axles a apart; it returns the middle and the direction.
func (b *brute) rigid(q, a float64) (mid, dir r2.Vec) {
	p := b.at(q)
	x := bisect(func(x float64) float64 { return r2.Norm(r2.Sub(b.at(x), p)) - a }, q, q+1.5*a)
	d := r2.Sub(b.at(x), p)
	return r2.Add(p, r2.Scale(0.5, d)), r2.Unit(d)
}

// bogies stands a plain bogie vehicle.
func (b *brute) bogies(q, p, c float64) (mid, dir r2.Vec) {
	rear, _ := b.rigid(q, p)
	x := bisect(func(x float64) float64 {
		m, _ := b.rigid(x, p)
		return r2.Norm(r2.Sub(m, rear)) - c
	}, q+c/2, q+1.5*c)
	m, _ := b.rigid(x, p)
	d := r2.Sub(m, rear)
	return r2.Add(rear, r2.Scale(0.5, d)), r2.Unit(d)
}

// The joint of a coach behind a wagon against the slow way, along a line of a
// bend, a reverse and a sudden straight.
func TestAgainstBrute(t *testing.T) {
	k := func(s float64) float64 {
		switch {
		case s < 1200:
			return 0
		case s < 2400:
			return 1.0 / 1500
		case s < 3600:
			return -1.0 / 1100
		}
		return 0
	}
	b := newBrute(k, 6000, 0.05)
	l := line(t, straight(t, 1200), arc(t, 1200, 1.0/1500), arc(t, 1200, -1.0/1100), straight(t, 2400))
	p := coupling.Pair{Behind: coach(), Ahead: wagon()}
	most, locked, free := [5]float64{4: math.Inf(1)}, 0, 0
	for s := 1000.0; s < 5000; s += 7 {
		mid, dir := b.rigid(s, 110)
		hinge := r2.Add(mid, r2.Scale(-85, dir))
		face := r2.Add(mid, r2.Scale(-105, dir))
		var bm, bd r2.Vec
		bisect(func(q float64) float64 {
			bm, bd = b.bogies(q, 80, 443)
			return 45 - r2.Norm(r2.Sub(r2.Add(bm, r2.Scale(292, bd)), hinge))
		}, s-900, s-600)
		bh, bf := r2.Add(bm, r2.Scale(292, bd)), r2.Add(bm, r2.Scale(317, bd))
		mean := r2.Unit(r2.Add(dir, bd))
		link := r2.Sub(hinge, bh)
		offset := r2.Cross(mean, r2.Sub(bf, face))
		swing, ahead := math.Asin(r2.Cross(bd, link)/45), math.Asin(r2.Cross(dir, link)/45)
		// The two heads on a side, 14 and 15 wide, seen along the mean of the
		// bodies' directions: what of the one covers the other, and how far it is
		// between them.
		side := func(x float64) (overlap, gap float64) {
			c := r2.Add(r2.Add(mid, r2.Scale(-103, dir)), r2.Scale(x, r2.Vec{X: -dir.Y, Y: dir.X}))
			d := r2.Add(r2.Add(bm, r2.Scale(315, bd)), r2.Scale(x, r2.Vec{X: -bd.Y, Y: bd.X}))
			y0, y1 := r2.Cross(mean, c), r2.Cross(mean, d)
			return min(y0+7, y1+7.5) - max(y0-7, y1-7.5), r2.Dot(mean, r2.Sub(c, d))
		}
		o1, g1 := side(27.5)
		o2, g2 := side(-27.5)
		overlap, gap := min(o1, o2), min(g1, g2)
		j, err := coupling.At(l, p, measure.Length(s))
		if err != nil {
			t.Fatal(err)
		}
		near(t, "offset", float64(j.Offset), offset, 1e-3)
		near(t, "angle", float64(j.Angle), math.Asin(r2.Cross(bd, dir)), 1e-5)
		near(t, "swing", float64(j.SwingBehind), swing, 3e-5)
		near(t, "swing ahead", float64(j.SwingAhead), ahead, 3e-5)
		near(t, "overlap", float64(j.Overlap), overlap, 1e-3)
		near(t, "buffer gap", float64(j.BufferGap), gap, 1e-3)
		if math.Abs(overlap) > 1e-3 && j.Locked() != (overlap < 0) {
			t.Errorf("locked: %v with an overlap of %g", j.Locked(), overlap)
		}
		if most[4] = min(most[4], gap); overlap < 0 {
			locked++
		} else {
			free++
		}
		most[3] = max(most[3], math.Abs(ahead))
		most[0], most[1] = max(most[0], math.Abs(offset)), max(most[1], math.Abs(swing))
		most[2] = max(most[2], -overlap)
		if t.Failed() {
			t.Fatalf("at %g", s)
		}
	}
	f, err := coupling.Along(ctx, l, p)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		what         string
		got, sampled float64
	}{
		{"offset", math.Abs(float64(f.Offset.Offset)), most[0]},
		{"swing", math.Abs(float64(f.SwingBehind.SwingBehind)), most[1]},
		{"swing ahead", math.Abs(float64(f.SwingAhead.SwingAhead)), most[3]},
		{"overlap", -float64(f.Overlap.Overlap), most[2]},
		{"buffers pushed in", -float64(f.BufferGap.BufferGap), -most[4]},
	} {
		if c.got < c.sampled-1e-3 || c.got > 1.05*c.sampled {
			t.Errorf("worst %s %.4f, the slow way found %.4f", c.what, c.got, c.sampled)
		}
	}
	if locked == 0 || free == 0 {
		t.Errorf("%d places locked and %d free: the test does not bite", locked, free)
	}
}

// Mirrored, offsets and angles change sign; run the other way, the two ends
// change places.
func TestMirrorAndSwap(t *testing.T) {
	l := line(t, straight(t, 1500), arc(t, 1000, 1.0/1400), arc(t, 1000, -1.0/1800), straight(t, 2500))
	p := coupling.Pair{Behind: coach(), Ahead: wagon()}
	a, err := coupling.Along(ctx, l, p)
	if err != nil {
		t.Fatal(err)
	}
	b, err := coupling.Along(ctx, l.Mirror(), p)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mirror", float64(a.Offset.Offset), -float64(b.Offset.Offset), 1e-6)
	c, err := coupling.Along(ctx, l.Reverse(), p.Swapped())
	if err != nil {
		t.Fatal(err)
	}
	near(t, "swap: offset", math.Abs(float64(a.Offset.Offset)), math.Abs(float64(c.Offset.Offset)), 1e-6)
	near(t, "swap: swing", math.Abs(float64(a.SwingBehind.SwingBehind)), math.Abs(float64(c.SwingAhead.SwingAhead)), 1e-7)
	near(t, "swap: overlap", float64(a.Overlap.Overlap), float64(c.Overlap.Overlap), 1e-6)
	near(t, "swap: where", float64(a.Offset.Chainage), float64(l.Length()-c.Offset.Chainage), 0.5)
}

// Each least radius is fed forward: nothing is left of the limit there, and a
// thousandth sharper breaks it.
func TestLeastRadiusFedForward(t *testing.T) {
	short := wagon() // its heads part on a curve before it can no longer stand
	short.Rear.Buffers.Least, short.Front.Buffers.Least = 9, 9
	for _, p := range []coupling.Pair{{Behind: coach(), Ahead: coach()}, {Behind: coach(), Ahead: short}} {
		for _, at := range []coupling.Situation{coupling.Curve, coupling.Entry, coupling.Reverse} {
			var most measure.Length
			for _, limit := range []coupling.Limit{coupling.SwingLimit, coupling.OverlapLimit, coupling.AllLimits} {
				name := fmt.Sprintf("%s, %v %v", p.Ahead.Vehicle.Name, limit, at)
				r, err := coupling.LeastRadius(ctx, p, limit, at)
				if limit == coupling.OverlapLimit && at == coupling.Curve && p.Ahead.Vehicle.Name == "coach" {
					if !errors.Is(err, measure.ErrNoAnswer) { // alike cars stay in line on a curve
						t.Errorf("%s: %v, %v", name, r, err)
					}
					continue
				}
				if err != nil {
					t.Errorf("%s: %v", name, err)
					continue
				}
				if limit == coupling.AllLimits {
					near(t, name, float64(r), float64(most), 1e-4*float64(most))
				}
				most = max(most, r)
				// A swing is an angle: as the sideways move of the coupler's end, in mm.
				spare := func(r measure.Length) float64 {
					k := 1 / float64(r)
					first, second := arc(t, 3000, k), arc(t, 3000, k)
					switch at {
					case coupling.Entry:
						first = straight(t, 3000)
					case coupling.Reverse:
						second = arc(t, 3000, -k)
					}
					l := line(t, first, second)
					var swing, overlap float64
					if at == coupling.Curve {
						j, err := coupling.At(l, p, 3000)
						if err != nil {
							t.Fatal(err)
						}
						swing = min(float64(p.Ahead.Rear.Swing)-math.Abs(float64(j.SwingAhead)), float64(p.Behind.Front.Swing)-math.Abs(float64(j.SwingBehind)))
						overlap = float64(j.Overlap - max(p.Ahead.Rear.Buffers.Least, p.Behind.Front.Buffers.Least))
					} else {
						f, err := coupling.Along(ctx, l, p)
						if err != nil {
							t.Fatal(err)
						}
						s, _ := f.Swing()
						o, _ := f.Buffers()
						swing, overlap = float64(s), float64(o)
					}
					switch limit {
					case coupling.SwingLimit:
						return swing * float64(p.Ahead.Rear.Length)
					case coupling.OverlapLimit:
						return overlap
					}
					return min(swing*float64(p.Ahead.Rear.Length), overlap)
				}
				near(t, name, spare(r), 0, 1e-3)
				if s := spare(r * 0.999); s >= 0 {
					t.Errorf("%s: %g is left at a thousandth less than %v", name, s, r)
				}
			}
		}
	}
}

// The straight and the easements of every shape that a reverse curve needs for
// each limit are fed forward: nothing is left there, and a thousandth shorter
// breaks it.
func TestReversalFedForward(t *testing.T) {
	p := coupling.Pair{Behind: coach(), Ahead: coach()}
	for _, c := range []struct {
		limit coupling.Limit
		r     coupling.Reversal
		spare func(coupling.Findings) float64 // mm; a swing as the sideways move of the coupler's end
	}{
		{coupling.OverlapLimit, coupling.Reversal{First: 2500, Second: 3000}, func(f coupling.Findings) float64 { b, _ := f.Buffers(); return float64(b) }},
		{coupling.SwingLimit, coupling.Reversal{First: 3600, Second: 3200}, func(f coupling.Findings) float64 { s, _ := f.Swing(); return 25 * float64(s) }},
		{coupling.AllLimits, coupling.Reversal{First: 3600, Second: 3200}, func(f coupling.Findings) float64 {
			b, _ := f.Buffers()
			s, _ := f.Swing()
			return min(float64(b), 25*float64(s))
		}},
	} {
		spare := func(e ...curve.Element) float64 {
			l := line(t, append(append([]curve.Element{arc(t, 3000, 1/float64(c.r.First))}, e...), arc(t, 3000, -1/float64(c.r.Second)))...)
			f, err := coupling.Along(ctx, l, p)
			if err != nil {
				t.Fatal(err)
			}
			return c.spare(f)
		}
		if s := spare(); s >= 0 {
			t.Fatalf("%v: nothing between leaves %g: not what this test is about", c.limit, s)
		}
		L, err := coupling.StraightNeeded(ctx, p, c.limit, c.r)
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.limit.String()+", straight", spare(straight(t, L)), 0, 1e-3)
		if s := spare(straight(t, L*0.999)); s >= 0 {
			t.Errorf("%v: a straight of %v leaves %g", c.limit, L*0.999, s)
		}
		for _, shape := range []curve.Shape{curve.Clothoid, curve.Bloss, curve.Cosine, curve.Sine, curve.Helmert} {
			E, err := coupling.EasementNeeded(ctx, p, c.limit, c.r, shape)
			if err != nil {
				t.Fatal(err)
			}
			ease := func(L measure.Length) []curve.Element {
				a, err1 := curve.NewEasement(shape, L, measure.Curvature(1/float64(c.r.First)), 0)
				b, err2 := curve.NewEasement(shape, L, 0, measure.Curvature(-1/float64(c.r.Second)))
				if err := errors.Join(err1, err2); err != nil {
					t.Fatal(err)
				}
				return []curve.Element{a, b}
			}
			near(t, fmt.Sprintf("%v, %v", c.limit, shape), spare(ease(E)...), 0, 1e-3)
			if s := spare(ease(E * 0.999)...); s >= 0 {
				t.Errorf("%v: %v easements of %v leave %g", c.limit, shape, E*0.999, s)
			}
		}
	}
	if L, err := coupling.StraightNeeded(ctx, p, coupling.OverlapLimit, coupling.Reversal{First: 50000, Second: 50000}); err != nil || L != 0 {
		t.Errorf("easy curves need %v, %v", L, err)
	}
	_, err := coupling.StraightNeeded(ctx, p, coupling.OverlapLimit, coupling.Reversal{First: 900, Second: 900})
	if !errors.Is(err, measure.ErrNoAnswer) {
		t.Errorf("sharp curves: %v", err)
	}
	t.Log(err)
}

func TestRefusals(t *testing.T) {
	l := line(t, straight(t, 3000))
	bad := coach()
	bad.Front.Hinge, bad.Front.Length, bad.Rear.Swing = -3, measure.Length(math.NaN()), 2
	p := coupling.Pair{Behind: bad, Ahead: coach()}
	if _, err := coupling.At(l, p, 100); !errors.Is(err, measure.ErrInput) {
		t.Error(err)
	}
	one := coach()
	one.Rear.Buffers = coupling.Buffers{}
	if err := (coupling.Pair{Behind: coach(), Ahead: one}).Validate(); !errors.Is(err, measure.ErrInput) {
		t.Error(err)
	}
	if _, err := coupling.LeastRadius(ctx, coupling.Pair{Behind: coach(), Ahead: coach()}, 9, coupling.Curve); !errors.Is(err, measure.ErrInput) {
		t.Error(err)
	}
	// Couplers too short for the sideways offset of a sharp reverse.
	short := coach()
	short.Front.Length, short.Rear.Length = 1, 1
	short.Front.Hinge, short.Rear.Hinge = 310, -310
	p = coupling.Pair{Behind: short, Ahead: short}
	_, err := coupling.Along(ctx, line(t, arc(t, 3000, 1.0/1500), arc(t, 3000, -1.0/1500)), p)
	if !errors.Is(err, measure.ErrNoAnswer) {
		t.Error(err)
	}
	done, cancel := context.WithCancel(ctx)
	cancel()
	if _, err := coupling.Along(done, l, coupling.Pair{Behind: coach(), Ahead: coach()}); !errors.Is(err, context.Canceled) {
		t.Error(err)
	}
}

func BenchmarkAlong(b *testing.B) {
	l := line(b, straight(b, 3000), arc(b, 2000, 1.0/1500), arc(b, 2000, -1.0/1500), straight(b, 3000))
	p := coupling.Pair{Behind: coach(), Ahead: wagon()}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := coupling.Along(ctx, l, p); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkLeastRadius(b *testing.B) {
	p := coupling.Pair{Behind: coach(), Ahead: wagon()}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := coupling.LeastRadius(ctx, p, coupling.SwingLimit, coupling.Reverse); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkStraightNeeded(b *testing.B) {
	p := coupling.Pair{Behind: coach(), Ahead: coach()}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := coupling.StraightNeeded(ctx, p, coupling.OverlapLimit, coupling.Reversal{First: 2500, Second: 3000}); err != nil {
			b.Fatal(err)
		}
	}
}
