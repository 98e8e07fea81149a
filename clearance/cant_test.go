package clearance_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// refCant is a cant of the reference: values at chainages, each with the law of
// the ramp to the next, written out anew.
type refCant struct {
	at, cant []float64
	law      []curve.Shape
	lap      float64 // 0 for an open one
}

func (r *refCant) value(s float64) float64 {
	n := len(r.at)
	next := func(i int) (at, cant float64) { return r.at[i], r.cant[i] }
	if r.lap > 0 {
		for s < r.at[0] {
			s += r.lap
		}
		for s >= r.at[0]+r.lap {
			s -= r.lap
		}
		next = func(i int) (float64, float64) {
			if i == n {
				return r.at[0] + r.lap, r.cant[0]
			}
			return r.at[i], r.cant[i]
		}
	} else if s <= r.at[0] {
		return r.cant[0]
	} else if s >= r.at[n-1] {
		return r.cant[n-1]
	}
	i := 0
	for i+1 < n && r.at[i+1] <= s {
		i++
	}
	to, cant := next(i + 1)
	u := part{shape: r.law[i], length: 1, k1: 1}.curvature((s - r.at[i]) / (to - r.at[i]))
	return r.cant[i] + (cant-r.cant[i])*u
}

// kink returns the largest sudden change of the ramp's gradient. Under a body,
// which takes half of it, the reference's lean from pose to pose, a millimetre
// apart, can be off by a quarter of that.
func (r *refCant) kink() float64 {
	var slopes []float64
	for i := range r.at {
		d, j := 0.0, i+1
		if j == len(r.at) {
			j = 0
			if d = r.lap; d == 0 {
				break
			}
		}
		s := (r.cant[j] - r.cant[i]) / (r.at[j] - r.at[i] + d)
		if r.law[i] != curve.Clothoid { // the others begin and end level
			s = 0
		}
		slopes = append(slopes, s)
	}
	most := 0.0
	for i, s := range slopes {
		was := 0.0
		if i > 0 {
			was = slopes[i-1]
		}
		most = max(most, math.Abs(s-was), math.Abs(s))
	}
	return most
}

// A refLeaning is what the reference finds of one body at a station: for each
// height the furthest to the left and to the right of its turned points, and
// the least and the largest lean of the poses that pass.
type refLeaning struct {
	left, right [2]float64
	lo, hi      float64
	n           [2]float64 // furthest left and right with no lean

	from, to [5]float64    // heights
	within   [5][2]float64 // furthest left and right of all that is between them
}

// refLeaned stands the only body of a vehicle at poses a step apart, each with
// its lean, and turns every crossing of the station about the head of the rail
// that stays level, by formulas of its own.
func refLeaned(line *refLine, v clearance.Vehicle, cant *refCant, g float64, datum profile.Datum, c float64, z [2]float64) refLeaning {
	const step = 1.0
	b := v.Bodies[0]
	C, o := float64(b.Pivots), b.Bands[0].Outline
	from := c - 1.3*C - 250
	far := c + 1.3*C + 600
	rear, front := newRefCarrier(line, v.Carriers[0], from, far), newRefCarrier(line, v.Carriers[1], from, far)
	middle := func(r *refCarrier, s float64) float64 {
		if r.c.Wheelbase == 0 {
			return s
		}
		i := int((s - r.from) / 2)
		t := (s-r.from)/2 - float64(i)
		return s + (r.ahead[i]*(1-t)+r.ahead[i+1]*t)/2
	}
	type pose struct{ x, y, u, w, lean float64 }
	var poses []pose
	was := 0.0
	for s := from; s < c+0.6*C+150; s += step {
		x, y := rear.pin(s, float64(v.Carriers[0].Pin))
		begin, stride := s+2, 10.0
		if was != 0 {
			begin, stride = s+was-2, 1.0
		}
		q := first(func(q float64) float64 {
			u, w := front.pin(q, float64(v.Carriers[1].Pin))
			return math.Hypot(u-x, w-y) - C
		}, begin, stride)
		was = q - s
		u, w := front.pin(q, float64(v.Carriers[1].Pin))
		over := (cant.value(middle(rear, s)) + cant.value(middle(front, q))) / 2
		poses = append(poses, pose{x, y, (u - x) / C, (w - y) / C, math.Asin(over / g)})
	}
	px, py, h := line.at(c)
	tx, ty := math.Cos(h), math.Sin(h)
	out := refLeaning{lo: math.Inf(1), hi: math.Inf(-1)}
	out.from = [5]float64{-100, -100, z[0] + 0.7, z[0] + 4, z[0] + (z[1]-z[0])/3}
	out.to = [5]float64{z[1] - 0.7, z[1] - 4, 1000, 1000, z[1] - (z[1]-z[0])/3}
	for k := range out.within {
		out.within[k] = [2]float64{math.Inf(-1), math.Inf(-1)}
	}
	for i := range 2 {
		out.left[i], out.right[i], out.n[i] = math.Inf(-1), math.Inf(-1), math.Inf(-1)
	}
	for i, p := range o {
		q := o[(i+1)%len(o)]
		n := int(math.Ceil(math.Hypot(float64(q.Along-p.Along), float64(q.Across-p.Across))))
		for m := range n {
			f := float64(m) / float64(n)
			x := float64(p.Along) + f*float64(q.Along-p.Along) + C/2
			y := float64(p.Across) + f*float64(q.Across-p.Across)
			at := func(j int) (along, across float64) {
				P := &poses[j]
				X, Y := P.x+x*P.u-y*P.w-px, P.y+x*P.w+y*P.u-py
				return X*tx + Y*ty, Y*tx - X*ty
			}
			lo, hi := 0, len(poses)-1
			if a, _ := at(lo); a > 0 {
				continue
			}
			if a, _ := at(hi); a < 0 {
				continue
			}
			for hi-lo > 1 {
				mid := (lo + hi) / 2
				if a, _ := at(mid); a <= 0 {
					lo = mid
				} else {
					hi = mid
				}
			}
			a0, n0 := at(lo)
			a1, n1 := at(hi)
			t := -a0 / (a1 - a0)
			across := n0 + (n1-n0)*t
			lean := poses[lo].lean + (poses[hi].lean-poses[lo].lean)*t
			out.lo, out.hi = min(out.lo, lean), max(out.hi, lean)
			out.n[0], out.n[1] = max(out.n[0], across), max(out.n[1], -across)
			// The rail that stays level: the one towards which it leans is the inner.
			rail := 0.0
			if (datum == profile.InnerRail) == (lean > 0) {
				rail = g / 2
			} else {
				rail = -g / 2
			}
			if datum == profile.Centreline {
				rail = 0
			}
			// What of the body's flank there is between each two heights.
			flank := func(f float64) (y, h float64) {
				z := z[0] + f*(z[1]-z[0])
				r, dir := math.Hypot(across-rail, z), math.Atan2(z, across-rail)
				return rail + r*math.Cos(dir-lean), r * math.Sin(dir-lean)
			}
			for k := range out.within {
				_, h0 := flank(0)
				_, h1 := flank(1)
				for _, f := range [4]float64{0, 1, (out.from[k] - h0) / (h1 - h0), (out.to[k] - h0) / (h1 - h0)} {
					if y, h := flank(f); f >= 0 && f <= 1 && h >= out.from[k]-1e-9 && h <= out.to[k]+1e-9 {
						out.within[k][0], out.within[k][1] = max(out.within[k][0], y), max(out.within[k][1], -y)
					}
				}
			}
			for k, z := range z {
				// From the rail's head by distance and direction.
				r, dir := math.Hypot(across-rail, z), math.Atan2(z, across-rail)
				Y := rail + r*math.Cos(dir-lean)
				out.left[k], out.right[k] = max(out.left[k], Y), max(out.right[k], -Y)
			}
		}
	}
	return out
}

// leanLot is a seeded line, vehicle and cant with its reference.
type leanLot struct {
	lot
	v     clearance.Vehicle
	cant  profile.Cant
	ref   refCant
	datum profile.Datum
}

func newLeanLot(t *testing.T, rng *rand.Rand) leanLot {
	t.Helper()
	between := func(a, b float64) float64 { return a + (b-a)*rng.Float64() }
	v, least := randomVehicle(rng)
	for len(v.Bodies) > 1 {
		v, least = randomVehicle(rng)
	}
	v.Bodies[0].Bands[0].Bottom = measure.Length(between(-5, 30))
	v.Bodies[0].Bands[0].Top = measure.Length(between(60, 180))
	// Gentle curves too, where the lean has most to say.
	x := leanLot{lot: randomLine(t, rng, least*math.Pow(10, between(0, 1.2))), v: v}
	laws := []curve.Shape{0, curve.Clothoid, curve.Bloss, curve.Cosine, curve.Sine, curve.Helmert}
	length := float64(x.line.Length())
	var points []profile.CantPoint
	at := between(0, 300)
	begin := at
	for at < length && (!x.closed || at < begin+length-300) {
		p := profile.CantPoint{Chainage: measure.Length(at), Cant: measure.Length(between(-4, 4)), Law: laws[rng.IntN(len(laws))]}
		if rng.IntN(3) == 0 && len(points) > 0 {
			p.Cant = points[len(points)-1].Cant // a level stretch between two ramps
		}
		points = append(points, p)
		at += between(200, 1200)
	}
	x.datum = profile.Datum(1 + rng.IntN(3))
	var err error
	if !x.closed {
		x.cant, err = profile.NewCant(x.datum, points...)
	} else {
		x.ref.lap = length
		x.cant, err = profile.NewClosedCant(x.datum, x.line.Length(), 1e-6, points...)
	}
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range points {
		law := p.Law
		if law == 0 {
			law = curve.Clothoid
		}
		x.ref.at, x.ref.cant, x.ref.law = append(x.ref.at, float64(p.Chainage)), append(x.ref.cant, float64(p.Cant)), append(x.ref.law, law)
	}
	return x
}

// The lean changes which pose governs at each height: against the reference,
// each height and side on its own, on seeded lines with ramps of every law,
// reversing, over a circuit's start, on straights, gentle and sharp curves.
func TestCantAgainstReference(t *testing.T) {
	const g = 47.5
	seeds, tolerances := []uint64{152, 262, 386, 522, 959}, []measure.Length{0.1, 0.005}
	for i := range uint64(100) {
		if i < 8 || !testing.Short() && !raced {
			seeds = append(seeds, i)
		}
	}
	worst := map[measure.Length]float64{}
	worstUp := 0.0
	for _, i := range seeds {
		rng := rand.New(rand.NewPCG(8, i))
		x := newLeanLot(t, rng)
		band := x.v.Bodies[0].Bands[0]
		z := [2]float64{float64(band.Bottom), float64(band.Top)}
		refErr := 0.003 + x.ref.kink()*max(math.Abs(z[0]), z[1])/g/2/4
		var e []*clearance.Envelope
		for _, tol := range tolerances {
			e = append(e, sweep(t, x.line, []clearance.Vehicle{x.v}, clearance.Settings{Tolerance: tol, Allowances: clearance.Allowances{Cant: x.cant, RailCentres: g}}))
		}
		for range 8 {
			c := rng.Float64() * float64(x.line.Length())
			if n := len(x.ref.at); rng.IntN(2) == 0 && n > 0 { // near a change of ramp
				c = max(0, min(float64(x.line.Length()), x.ref.at[rng.IntN(n)]+200*rng.NormFloat64()))
			}
			want := refLeaned(x.lot.ref, x.v, &x.ref, g, x.datum, c, z)
			for j, tol := range tolerances {
				s, err := e[j].Sections(measure.Length(c))
				if err != nil {
					t.Fatal(err)
				}
				k := s[0].Corners
				for _, y := range []struct {
					name      string
					got, want float64
				}{
					{"right bottom", -float64(k[0].Offset), want.right[0]},
					{"left bottom", float64(k[1].Offset), want.left[0]},
					{"left top", float64(k[2].Offset), want.left[1]},
					{"right top", -float64(k[3].Offset), want.right[1]},
				} {
					d := math.Abs(y.got - y.want)
					worst[tol] = max(worst[tol], d)
					if d > min(float64(tol), 0.05)+refErr { // half of the coarse tolerance is kept in hand
						t.Errorf("line %d at %.1f of %.1f, tolerance %v, %s: %.4f, want %.4f (lean %.4f to %.4f)", i, c, float64(x.line.Length()), float64(tol), y.name, y.got, y.want, want.lo, want.hi)
					}
				}
				// Between two heights never less than is there.
				for m := range want.within {
					for n, side := range []curve.Hand{curve.Left, curve.Right} {
						h := clearance.Heights{From: measure.Length(want.from[m]), To: measure.Length(want.to[m])}
						r, err := e[j].Needs(measure.Length(c), side, h)
						if err != nil {
							t.Fatal(err)
						}
						if short := want.within[m][n] - float64(r.Reach); short > float64(tol)+refErr {
							t.Errorf("line %d at %.1f, tolerance %v, %v, %v: %.4f short", i, c, float64(tol), side, h, short)
						}
					}
				}
				// Upright: the corner furthest out at the worst lean of all that pass.
				for m, y := range [4]float64{-want.n[1], want.n[0], want.n[0], -want.n[1]} {
					zz := z[m/2]
					top, low := math.Inf(-1), math.Inf(1)
					for f := 0.0; f <= 1; f += 1.0 / 64 {
						lean := want.lo + f*(want.hi-want.lo)
						rail := map[profile.Datum]float64{profile.InnerRail: g / 2, profile.OuterRail: -g / 2}[x.datum]
						if lean < 0 {
							rail = -rail
						}
						h := zz*math.Cos(lean) - (y-rail)*math.Sin(lean)
						top, low = max(top, h), min(low, h)
					}
					if m < 2 {
						top = low
					}
					d := math.Abs(float64(k[m].Height) - top)
					worstUp = max(worstUp, d)
					if d > 0.035 {
						t.Errorf("line %d at %.1f, tolerance %v, corner %d: %.4f high, want %.4f", i, c, float64(tol), m, float64(k[m].Height), top)
					}
				}
			}
		}
	}
	t.Logf("worst by tolerance: %v; upright %.4f", worst, worstUp)
}

// Whatever governs must give the reach: the vehicle stood where the answer says
// it stands, the body's point taken from there and turned by the lean of that
// pose, by trigonometry alone. And the shares of an audit, with the point's own
// reach, add up to the reach.
func TestCantGovernor(t *testing.T) {
	const g = 47.5
	rng := rand.New(rand.NewPCG(3, 5))
	others, sides := 0, 0
	for i := range 40 {
		x := newLeanLot(t, rng)
		if x.closed {
			continue
		}
		band := x.v.Bodies[0].Bands[0]
		const laying = 2
		e := sweep(t, x.line, []clearance.Vehicle{x.v}, clearance.Settings{Tolerance: 0.01, Allowances: clearance.Allowances{Cant: x.cant, RailCentres: g, Laying: laying}})
		at := e.Stations()
		for range 6 {
			c := at[rng.IntN(len(at))]
			if c < 20 || c > x.line.Length()-20 {
				continue
			}
			for _, side := range []curve.Hand{curve.Left, curve.Right} {
				r, err := e.Needs(c, side, clearance.Heights{})
				if err != nil {
					t.Fatal(err)
				}
				flat, err := e.At(c, side, clearance.Heights{})
				if err != nil {
					t.Fatal(err)
				}
				if math.Abs(float64(flat.By.RearAxle-r.By.RearAxle)) > 5 {
					others++
				}
				if !r.By.Corner {
					sides++
				}
				st, err := clearance.Stand(x.line, x.v, r.By.RearAxle)
				if err != nil {
					t.Fatal(err)
				}
				p := x.line.At(c)
				q := st.Bodies[0].Plan(r.By.Point)
				dx, dy := q.X-p.Point.X, q.Y-p.Point.Y
				along, n := dx*p.Tangent.X+dy*p.Tangent.Y, dy*p.Tangent.X-dx*p.Tangent.Y
				if math.Abs(along) > 5 { // a side's own point may run along it much faster than the vehicle
					t.Errorf("line %d at %v %v: the point is %v past the place", i, float64(c), side, along)
				}
				rear := r.By.RearAxle + x.v.Carriers[0].Wheelbase/2
				front := st.FrontAxle - x.v.Carriers[1].Wheelbase/2
				lean := math.Asin(float64(x.cant.At(rear)+x.cant.At(front)) / 2 / g)
				rail := map[profile.Datum]float64{profile.InnerRail: g / 2, profile.OuterRail: -g / 2}[x.datum]
				if lean < 0 {
					rail = -rail
				}
				turned := math.Inf(-1)
				for _, z := range []float64{float64(band.Bottom), float64(band.Top)} {
					turned = max(turned, float64(side)*(rail+(n-rail)*math.Cos(lean)+z*math.Sin(lean)))
				}
				if math.Abs(float64(r.Reach)-laying-turned) > 0.02 {
					t.Errorf("line %d at %v %v: reach %.4f, what governs gives %.4f", i, float64(c), side, float64(r.Reach)-laying, turned)
				}
				w := clearance.Structure{Kind: clearance.Wall, Faces: []clearance.Face{{Side: side, From: c, To: c + 0.01, Offset: 300}}}
				f := audit(t, e, 0, w)[0]
				st, err = clearance.Stand(x.line, x.v, f.By.RearAxle)
				if err != nil {
					t.Fatal(err)
				}
				// The own reach of what governs it: how far the point is off the line.
				own := float64(side) * float64(x.line.Nearest(st.Bodies[0].Plan(f.By.Point)).Offset)
				if all, _ := sum(f, ""); math.Abs(all+own-float64(f.Reach)) > 0.02 {
					t.Errorf("line %d at %v %v: shares %v and %.4f do not make %.4f", i, float64(c), side, f.Shares, own, float64(f.Reach))
				}
			}
		}
	}
	if others < 40 || sides < 20 {
		t.Errorf("only %d had another pose than on level track, %d a side: not what this test is about", others, sides)
	}
}

// What the whole is about, by hand. Gentle bends with the cant
// rising 3 mm a metre, a body 600 long and 140 high on pivots 400 apart. Past
// the middle of the body the inner side stands (x² - 200²)/2R less far in, and
// a pose with its tail at the place leans more, by x·0.003/g: the best is at
// x = 140·0.003/g·R, past the tail's 300 when R is 40 m and at 177 when R is 20.
func TestCantRampMovesWhatGoverns(t *testing.T) {
	const g, ramp, z, half, C = 47.5, 0.003, 140.0, 50.0, 400.0
	v := clearance.Rigid("tall", C, clearance.Band{Bottom: 20, Top: z, Outline: clearance.Box(600, 2*half)})
	cant, err := profile.NewCant(profile.Centreline, profile.CantPoint{Chainage: 500, Cant: 1}, profile.CantPoint{Chainage: 2500, Cant: 1 + 2000*ramp})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ R, x float64 }{{20000, 140 * ramp / g * 20000}, {40000, 300}} {
		bend, err := curve.NewArc(measure.Length(c.R), measure.Angle(3000/c.R), curve.Left)
		if err != nil {
			t.Fatal(err)
		}
		line, err := curve.New(curve.Pose{}, bend)
		if err != nil {
			t.Fatal(err)
		}
		e := sweep(t, line, []clearance.Vehicle{v}, clearance.Settings{Tolerance: 0.001, Allowances: clearance.Allowances{Cant: cant, RailCentres: g}})
		r, err := e.Needs(1500, curve.Left, clearance.Heights{})
		if err != nil {
			t.Fatal(err)
		}
		// Midway between the pivots is x past the place: its cant counts.
		m := math.Sqrt(c.R*c.R-C*C/4) - half
		lean := math.Asin((1 + (1000+c.R*math.Atan(c.x/m))*ramp) / g)
		n := c.R - math.Hypot(c.x, m)
		want := n*math.Cos(lean) + z*math.Sin(lean)
		if math.Abs(float64(r.Reach)-want) > 0.002 || math.Abs(float64(r.By.Point.Along)+c.x) > 6 || r.By.Corner != (c.x == 300) {
			t.Errorf("radius %v: %.4f by %+v, want %.4f at %.1f", c.R, float64(r.Reach), r.By, want, -c.x)
		}
		level := math.Asin((1 + 1000*ramp) / g)
		if short := want - ((c.R-m)*math.Cos(level) + z*math.Sin(level)); short < 0.5 {
			t.Errorf("radius %v: the pose of level track would be only %v short", c.R, short)
		}
	}
}

// A carrier leans by the cant at its middle, a truck with its body, a body by
// the mean of its two carriers. On a straight ramp the tail of each stands
// where it leans most: worked by adding the lengths up.
func TestCantLeanOfEachPart(t *testing.T) {
	const g, ramp, c, wb, C = 47.5, 0.002, 1500.0, 80.0, 400.0
	band := func(length, width, top measure.Length) []clearance.Band {
		return []clearance.Band{{Top: top, Outline: clearance.Box(length, width)}}
	}
	v := clearance.Bogie("engine", C, wb, band(480, 40, 90)...)
	v.Carriers[1].Bands = band(100, 60, 45)
	v.Bodies[0].Trucks = []clearance.Truck{{Hinge: 230, Bar: 120, Bands: band(70, 70, 50)}}
	v.Bodies = append(v.Bodies, clearance.Body{Pivots: 300, Bands: band(310, 50, 80)})
	v.Carriers = append(v.Carriers, clearance.Carrier{Wheelbase: wb})
	cant, err := profile.NewCant(profile.Centreline, profile.CantPoint{Chainage: 300, Cant: 1}, profile.CantPoint{Chainage: 2800, Cant: 1 + 2500*ramp})
	if err != nil {
		t.Fatal(err)
	}
	e := sweep(t, straight(t, 3000), []clearance.Vehicle{v}, clearance.Settings{Tolerance: 0.001, Allowances: clearance.Allowances{Cant: cant, RailCentres: g}})
	s, err := e.Sections(c)
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]struct{ half, top, ahead float64 }{ // ahead: of c, where the mean cant is that counts
		"body 1":    {20, 90, 240},
		"body 2":    {25, 80, 155},
		"carrier 2": {30, 45, 50},
		"truck 1":   {35, 50, 35 - 350},
	}
	for _, x := range s {
		w, ok := want[x.Part]
		if !ok {
			t.Errorf("%s?", x.Part)
		}
		lean := math.Asin((1 + (c+w.ahead-300)*ramp) / g)
		y := w.half*math.Cos(lean) + w.top*math.Sin(lean)
		if got := float64(x.Corners[2].Offset); math.Abs(got-y) > 1e-4 {
			t.Errorf("%s: %v, want %v", x.Part, got, y)
		}
	}
	if len(s) != len(want) {
		t.Errorf("%d sections", len(s))
	}
}

// A ramp as steep as there is under an outline as tall as a house needs more
// stations than are allowed: refused before they are laid.
func TestCantLimit(t *testing.T) {
	cant, err := profile.NewCant(profile.OuterRail, profile.CantPoint{Chainage: 5000}, profile.CantPoint{Chainage: 5003, Cant: 3})
	if err != nil {
		t.Fatal(err)
	}
	v := clearance.Rigid("mast", 100, clearance.Band{Top: 10000, Outline: clearance.Box(140, 90)})
	set := clearance.Settings{Tolerance: 1e-6, Allowances: clearance.Allowances{Cant: cant, RailCentres: 6}}
	if _, err = clearance.Sweep(t.Context(), straight(t, 30000), []clearance.Vehicle{v}, set); !errors.Is(err, measure.ErrLimit) {
		t.Errorf("swept, %v", err)
	}
}
