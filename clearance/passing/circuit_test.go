package passing_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/clearance/passing"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// ring is a circle to the left that starts at an angle round its centre.
func ring(tb testing.TB, centre r2.Vec, radius, from float64) *curve.Alignment {
	tb.Helper()
	sin, cos := math.Sincos(from)
	l, err := curve.NewClosed(curve.Pose{Point: r2.Vec{X: centre.X + radius*cos, Y: centre.Y + radius*sin}, Heading: measure.Angle(from + math.Pi/2)},
		1e-6, 1e-9, arc(tb, measure.Length(radius), 360, curve.Left))
	if err != nil {
		tb.Fatal(err)
	}
	return l
}

// Two circles that touch from within, the one with room the inner: its space
// ends in a circle too, and the gap from there to the outer one's is known. The
// room is the same wherever the circuit starts, over the start or not, and a
// train stands in it alike.
func TestCircuit(t *testing.T) {
	const ra, rb, margin = 2000.0, 2300.0, 5.0
	throw := func(r measure.Length) clearance.Throw {
		x, err := clearance.Throws(coach(), r)
		if err != nil {
			t.Fatal(err)
		}
		return x[0]
	}
	ea, eb := ra+float64(throw(ra).Outside), rb-float64(throw(rb).Inside)
	gap := func(phi float64) float64 { // at an angle from where they are farthest apart
		// Centres 300 mm apart, along the line to the place of touching.
		return eb - math.Hypot(ea*math.Sin(phi), -ea*math.Cos(phi)+(rb-ra))
	}
	lo, hi := 0.0, math.Pi
	for range 60 {
		if mid := (lo + hi) / 2; gap(mid) > margin {
			lo = mid
		} else {
			hi = mid
		}
	}
	want := 2 * lo * ra
	set := clearance.Settings{Tolerance: 1e-2}
	outer := sweep(t, ring(t, r2.Vec{Y: -(rb - ra)}, rb, 1), set, coach())
	for _, turned := range []float64{0, 1, math.Pi, -2} { // from the farthest apart to the start
		line := ring(t, r2.Vec{}, ra, turned-math.Pi/2)
		inner := sweep(t, line, set, coach())
		p, err := passing.Gaps(ctx, inner, outer, 0)
		if err != nil {
			t.Fatal(err)
		}
		if p.Side() != curve.Right {
			t.Errorf("start %v: side %v", turned, p.Side())
		}
		for _, phi := range []float64{0, 0.5, 1.5, 2.5, 3} {
			c := math.Mod(phi-turned+4*math.Pi, 2*math.Pi) * ra
			x, err := p.At(measure.Length(c))
			if err != nil {
				t.Fatal(err)
			}
			near(t, "gap", x.Gap, measure.Length(gap(phi)), 0.02)
		}
		rooms, err := passing.StandingRoom(ctx, inner, margin, outer)
		if err != nil {
			t.Fatal(err)
		}
		if len(rooms) != 1 || rooms[0].AtFrom || rooms[0].AtTo || rooms[0].FromBy != 0 || rooms[0].ToBy != 0 {
			t.Fatalf("start %v: rooms %+v", turned, rooms)
		}
		// The gap opens slowly, by about 0.14 mm a millimetre here or less.
		near(t, "room", rooms[0].Length(), measure.Length(want), 1)
		if over := rooms[0].To < rooms[0].From; over != (math.Abs(turned) < lo) {
			t.Errorf("start %v: from %v to %v", turned, rooms[0].From, rooms[0].To)
		}
		s, err := rooms[0].Holds(car(), car(), car())
		if err != nil {
			t.Fatal(err)
		}
		near(t, "spare", s.Spare, rooms[0].Length()-s.Length, 1e-6)
		// Three coaches and two couplings of 20 mm, on the inside of the curve
		// a corner up to 44/2000 of its distance farther on.
		near(t, "train", s.Length, 3*614+2*20, 16)
		for i, at := range s.RearAxles {
			st, err := clearance.Stand(line, coach(), at)
			if err != nil {
				t.Fatal(err)
			}
			for _, q := range coach().Bodies[0].Bands[0].Outline {
				if d := eb - r2.Norm(r2.Add(st.Bodies[0].Plan(q), r2.Vec{Y: rb - ra})); d < margin-0.03 {
					t.Errorf("start %v, car %d: corner %v is %v from the other's space", turned, i, q, d)
				}
			}
		}
	}
}

// EBO Anlage 4: 100 mm of cant on 1500 mm lean a place 3530 mm up by 235 mm,
// here towards a second track that is level; and two tracks of equal cant keep
// at every height what they keep at the rails.
func TestGapsOfCantedTracks(t *testing.T) {
	const half, top, apart, u, g = 1500.0, 3530.0, 4000.0, 100.0, 1500.0
	van := clearance.Rigid("van", 8000, clearance.Band{Top: top, Outline: clearance.Box(12000, 2*half)})
	track := func(y measure.Length, cant float64) *clearance.Envelope {
		set := clearance.Settings{Tolerance: 0.5, From: 40000, To: 60000}
		if cant != 0 {
			c, err := profile.NewCant(profile.Centreline, profile.CantPoint{Cant: measure.Length(cant)})
			if err != nil {
				t.Fatal(err)
			}
			set.Allowances = clearance.Allowances{Cant: c, RailCentres: g}
		}
		return sweep(t, line(t, curve.Pose{Point: r2.Vec{Y: float64(y)}}, straight(t, 100000)), set, van)
	}
	gap := func(a, b *clearance.Envelope) float64 {
		p, err := passing.Gaps(ctx, a, b, curve.Left)
		if err != nil {
			t.Fatal(err)
		}
		x, err := p.At(50000)
		if err != nil {
			t.Fatal(err)
		}
		return float64(x.Gap)
	}
	level := gap(track(0, 0), track(apart, 0))
	near(t, "level", measure.Length(level), apart-2*half, 1e-6)
	sin := u / g
	cos := math.Sqrt(1 - sin*sin)
	for _, c := range []struct {
		name string
		a, b float64
		want float64
	}{
		{"the one leans to the other", u, 0, apart - half - (half*cos + top*sin)},
		{"both to the left", u, u, apart - 2*half/cos},
		// Apart at the top, so the floors are nearest: of b, above its own low side.
		{"from each other", -u, u, apart - 2*(half*cos+0*sin)},
	} {
		got := gap(track(0, c.a), track(apart, c.b))
		if d := got - c.want; d > 1e-6 || d < -2 {
			t.Errorf("%s: %.3f, want %.3f or up to 2 mm less, the tolerances and what leans in a slab", c.name, got, c.want)
		}
		if c.b == 0 {
			if lean := level - got - half*(cos-1); math.Abs(lean-235) > 1.5 {
				t.Errorf("lean of %v mm, want EBO's 235", lean)
			}
		}
	}
}

// A loop with a track on either side: each end of the room is told by the track
// that makes it, and is where that track alone would make it.
func TestStandingRoomBetweenTracks(t *testing.T) {
	main := line(t, curve.Pose{}, straight(t, 9000))
	loop := line(t, curve.Pose{}, straight(t, 1500), arc(t, 4000, 10, curve.Left), arc(t, 4000, 10, curve.Right),
		straight(t, 3000), arc(t, 4000, 10, curve.Right), arc(t, 4000, 10, curve.Left), straight(t, 1500))
	skew := line(t, curve.Pose{Point: r2.Vec{Y: 500}, Heading: -3 * measure.Degree}, straight(t, 6500))
	set := clearance.Settings{Tolerance: 1e-2}
	a, b, c := sweep(t, loop, set, coach()), sweep(t, main, set, coach()), sweep(t, skew, set, coach())
	only := func(x *clearance.Envelope) passing.Room {
		r, err := passing.StandingRoom(ctx, a, 5, x)
		if err != nil {
			t.Fatal(err)
		}
		return r[0]
	}
	first, second := only(b), only(c)
	for i, beside := range [][]*clearance.Envelope{{b, c}, {c, b}} {
		rooms, err := passing.StandingRoom(ctx, a, 5, beside...)
		if err != nil {
			t.Fatal(err)
		}
		if len(rooms) != 1 || rooms[0].FromBy != i || rooms[0].ToBy != 1-i {
			t.Fatalf("%d: %+v", i, rooms)
		}
		near(t, "from", rooms[0].From, first.From, 1e-6)
		near(t, "to", rooms[0].To, second.To, 1e-6)
		if rooms[0].To >= first.To {
			t.Errorf("the skew track takes nothing: %v", rooms[0])
		}
	}
}
