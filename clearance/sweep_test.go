package clearance_test

import (
	"context"
	"math"
	"math/rand/v2"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

func sweep(t *testing.T, line *curve.Alignment, stock []clearance.Vehicle, set clearance.Settings) *clearance.Envelope {
	t.Helper()
	e, err := clearance.Sweep(context.Background(), line, stock, set)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

func reach(t *testing.T, e *clearance.Envelope, c measure.Length, side curve.Hand) clearance.Reach {
	t.Helper()
	r, err := e.At(c, side, clearance.Heights{})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Correct to the tolerance against the reference, on seeded random lines and
// vehicles.
func TestSweepAgainstReference(t *testing.T) {
	seeds := 520
	if testing.Short() || raced {
		seeds = 60
	}
	worst := map[measure.Length]float64{}
	bad := 0
	for seed := range seeds {
		rng := rand.New(rand.NewPCG(uint64(seed), 4))
		v, least := randomVehicle(rng)
		l := randomLine(t, rng, least)
		tol := []measure.Length{0.1, 0.02, 0.005}[seed%3]
		e := sweep(t, l.line, []clearance.Vehicle{v}, clearance.Settings{Tolerance: tol})
		L := l.ref.length()
		ref := newRefSweep(l.ref, v, -2200, L+1200, 2)
		var stations []float64
		for range 16 {
			stations = append(stations, L*rng.Float64())
		}
		at := 0.0
		for _, p := range l.parts { // both sides of every element's end
			at += p.length
			stations = append(stations, at-20*rng.Float64(), min(L, at+20*rng.Float64()))
		}
		if l.closed {
			stations = append(stations, 0, L, 5*rng.Float64())
		} else {
			stations = append(stations, 0, L)
		}
		for _, c := range stations {
			left, right := ref.reach(l.ref, c)
			for _, s := range []struct {
				side curve.Hand
				want float64
			}{{curve.Left, left}, {curve.Right, right}} {
				got := float64(reach(t, e, measure.Length(c), s.side).Reach)
				d := math.Abs(got - s.want)
				worst[tol] = max(worst[tol], d)
				if d > float64(tol)+refError {
					if bad++; bad < 20 {
						t.Errorf("seed %d (%s, closed %v), tolerance %v, chainage %.3f of %.3f, %v: reach %.5f, reference %.5f, off by %.5f", seed, v.Name, l.closed, float64(tol), c, L, s.side, got, s.want, got-s.want)
					}
				}
			}
		}
	}
	if bad > 0 {
		t.Errorf("%d reaches out of tolerance", bad)
	}
	t.Logf("worst by tolerance: %v", worst)
}

// Track laid from sectional pieces, with a kink at each joint. The reference's
// poses are joined straight across the kinks' sudden changes of direction,
// which puts it off by up to 0.035 rad times 0.5 mm / 4 times a lever of 6.
func TestSweepKinked(t *testing.T) {
	const tol, refKinked = 0.05, 0.03
	worst := 0.0
	for seed := range 60 {
		rng := rand.New(rand.NewPCG(uint64(seed), 77))
		v, least := randomVehicle(rng)
		between := func(a, b float64) float64 { return a + (b-a)*rng.Float64() }
		var parts []part
		hand := 1.0
		for range 7 {
			p := part{shape: curve.StraightLine, length: between(150, 500), kink: between(-0.035, 0.035)}
			if seed%3 > 0 && rng.IntN(3) > 0 { // else straights only, on which the vehicle comes to rest between kinks
				p.shape = curve.CircularArc
				p.k0 = hand / between(least, 3*least)
				p.k1 = p.k0
				hand = -hand
			}
			parts = append(parts, p)
		}
		parts[0].kink = 0
		l := build(t, parts, curve.Pose{}, false)
		e := sweep(t, l.line, []clearance.Vehicle{v}, clearance.Settings{Tolerance: tol})
		L := l.ref.length()
		ref := newRefSweep(l.ref, v, -1200, L+1200, 0.5)
		var stations []float64
		for range 20 {
			stations = append(stations, L*rng.Float64())
		}
		at := 0.0
		for _, p := range l.parts[:6] {
			at += p.length
			stations = append(stations, at-1e-6, at+1e-6, at-5*rng.Float64(), at+5*rng.Float64(), at-1.5*rng.Float64(), at+1.5*rng.Float64())
		}
		for _, c := range stations {
			left, right := ref.reach(l.ref, c)
			for i, want := range [2]float64{left, right} {
				got := float64(reach(t, e, measure.Length(c), sides[i]).Reach)
				worst = max(worst, math.Abs(got-want))
				if math.Abs(got-want) > tol+refKinked {
					t.Errorf("seed %d (%s), chainage %.4f of %.3f, %v: reach %.5f, reference %.5f, off by %.5f", seed, v.Name, c, L, sides[i], got, want, got-want)
				}
			}
		}
	}
	t.Logf("worst %v", worst)
}

// Parts that carry themselves: an engine with a leading and a trailing truck
// whose frames stand out, and a boiler slung between two engine units.
func TestSweepTrucksAndUnits(t *testing.T) {
	worst := 0.0
	for seed := range 30 {
		rng := rand.New(rand.NewPCG(uint64(seed), 31))
		l := randomLine(t, rng, 600)
		v := clearance.Rigid("engine", 180, box(300, 60))
		v.Bodies[0].Trucks = []clearance.Truck{
			{Hinge: 60, Bar: measure.Length(90 + 40*rng.Float64()), Bands: []clearance.Band{box(60, 75)}},
			{Hinge: -80, Bar: -110, Bands: []clearance.Band{box(80, 75)}},
		}
		if seed%2 == 1 {
			v = clearance.Bogie("slung", 400, 160, box(420, 40))
			for i, pin := range []measure.Length{20, -30} {
				v.Carriers[i].Pin = pin
				v.Carriers[i].Bands = []clearance.Band{{Top: 80, Outline: clearance.Tapered(280, 80, 20, 0, 50)}}
			}
		}
		const tol = 0.01
		e := sweep(t, l.line, []clearance.Vehicle{v}, clearance.Settings{Tolerance: tol})
		L := l.ref.length()
		ref := newRefSweep(l.ref, v, -1500, L+900, 2)
		for range 30 {
			c := L * rng.Float64()
			left, right := ref.reach(l.ref, c)
			for i, want := range [2]float64{left, right} {
				r := reach(t, e, measure.Length(c), sides[i])
				got := float64(r.Reach)
				worst = max(worst, math.Abs(got-want))
				if math.Abs(got-want) > tol+refError {
					t.Errorf("seed %d (%s, closed %v), chainage %.3f, %v: reach %.5f by %s, reference %.5f", seed, v.Name, l.closed, c, sides[i], got, r.By.Part, want)
				}
				// The part that gives it is found again.
				if _, err := e.Sections(measure.Length(c)); err != nil {
					t.Fatal(err)
				}
			}
		}
	}
	t.Logf("worst %v", worst)
}

// An engine with a truck on a radius bar and its tender, in one list: the space
// of each is that of each alone, and the list's is the larger of the two.
func TestSweepEngineAndTender(t *testing.T) {
	stock := engineAndTender()
	line := garden(t, 1)
	set := clearance.Settings{Tolerance: 0.01, Allowances: clearance.Allowances{Play: 0.8}}
	both := sweep(t, line, stock, set)
	alone := []*clearance.Envelope{sweep(t, line, stock[:1], set), sweep(t, line, stock[1:], set)}
	heights := []clearance.Heights{{}, {From: 0, To: 7}, {From: 10, To: 30}, {From: 40, To: 120}, {From: 105, To: 118}}
	won := map[string]int{}
	for _, h := range heights {
		for c := measure.Length(1); c < line.Length(); c += 191 {
			for _, side := range sides {
				want := clearance.Reach{Reach: measure.Length(math.Inf(-1))}
				for i, e := range alone {
					r, err := e.At(c, side, h)
					if err != nil {
						if of, err := both.Of(i, c, side, h); err == nil {
							t.Errorf("%v: vehicle %d alone is not there, in the list it reaches %v", h, i, of)
						}
						continue
					}
					of, err := both.Of(i, c, side, h)
					// The list's stations are laid for the longer of the two.
					if err != nil || math.Abs(float64(of.Reach-r.Reach)) > 0.02 {
						t.Errorf("%v at %v %v: vehicle %d reaches %v in the list, %v alone, %v", h, float64(c), side, i, float64(of.Reach), float64(r.Reach), err)
					}
					if r.Reach > want.Reach {
						want = r
					}
				}
				got, err := both.At(c, side, h)
				if err != nil || math.Abs(float64(got.Reach-want.Reach)) > 0.02 {
					t.Errorf("%v at %v %v: %v, want %v, %v", h, float64(c), side, float64(got.Reach), float64(want.Reach), err)
				}
				won[got.By.Vehicle+" "+got.By.Part]++
			}
		}
	}
	for _, w := range []string{"engine body", "engine truck 1", "tender body"} {
		if won[w] == 0 {
			t.Errorf("%s governs nowhere: %v", w, won)
		}
	}
}
