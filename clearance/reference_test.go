package clearance_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"example.org/fourfoot/clearance"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// The slow, obvious reference. It shares nothing with the package or with the
// line's engine: the line is a table of places made by quadrature of its own
// curvature laws, the vehicle is stood by bisection at dense poses, its outline
// is points at most 1 mm apart, and the reach at a station is the furthest of
// those points as each crosses the square to the line there. Its own error is
// below refError: poses 2 mm apart joined by straight lines (step²/8 over a
// path radius of 250 mm: 0.002 mm), points 1 mm apart on a straight side
// ((1/2)²/2 over the same: 0.0005 mm), the table below 1e-6 mm.
const refError = 0.003

// part is one piece of a reference line.
type part struct {
	shape  curve.Shape
	length float64
	k0, k1 float64
	kink   float64 // before it
}

func (p part) curvature(s float64) float64 {
	u := s / p.length
	f := 0.0
	switch p.shape {
	case curve.StraightLine, curve.CircularArc:
		return p.k0
	case curve.Clothoid:
		f = u
	case curve.Bloss:
		f = u * u * (3 - 2*u)
	case curve.Cosine:
		f = (1 - math.Cos(math.Pi*u)) / 2
	case curve.Sine:
		f = u - math.Sin(2*math.Pi*u)/(2*math.Pi)
	case curve.Helmert:
		if f = 2 * u * u; u > 0.5 {
			f = 1 - 2*(1-u)*(1-u)
		}
	}
	return p.k0 + (p.k1-p.k0)*f
}

type refPoint struct{ s, x, y, h, cos, sin float64 }

type refLine struct {
	pts    []refPoint
	closed bool
}

// newRefLine tabulates the line at most 1 mm apart, by three-point Gauss
// quadrature of curvature to heading and of heading to place.
func newRefLine(start curve.Pose, parts []part, closed bool) *refLine {
	r := &refLine{closed: closed}
	p := refPoint{0, start.Point.X, start.Point.Y, float64(start.Heading), 0, 0}
	p.sin, p.cos = math.Sincos(p.h)
	r.pts = append(r.pts, p)
	nodes := [3]float64{0.5 - math.Sqrt(0.15), 0.5, 0.5 + math.Sqrt(0.15)}
	weights := [3]float64{5.0 / 18, 8.0 / 18, 5.0 / 18}
	for i, e := range parts {
		if e.kink != 0 && i > 0 {
			p.h += e.kink
			p.sin, p.cos = math.Sincos(p.h)
			r.pts = append(r.pts, p)
		}
		n := int(math.Ceil(e.length))
		d := e.length / float64(n)
		turn := func(a, b float64) float64 {
			t := 0.0
			for i, u := range nodes {
				t += weights[i] * e.curvature(a+u*(b-a)) * (b - a)
			}
			return t
		}
		for j := range n {
			a := float64(j) * d
			for i, u := range nodes {
				h := p.h + turn(a, a+u*d)
				p.x += weights[i] * d * math.Cos(h)
				p.y += weights[i] * d * math.Sin(h)
			}
			p.h += turn(a, a+d)
			p.s += d
			p.sin, p.cos = math.Sincos(p.h)
			r.pts = append(r.pts, p)
		}
	}
	return r
}

func (r *refLine) length() float64 { return r.pts[len(r.pts)-1].s }

// at returns the place and heading at s.
func (r *refLine) at(s float64) (x, y, h float64) {
	last := r.pts[len(r.pts)-1]
	if r.closed {
		s = math.Mod(s, last.s)
		if s < 0 {
			s += last.s
		}
	} else if s <= 0 {
		p := r.pts[0]
		return p.x + s*math.Cos(p.h), p.y + s*math.Sin(p.h), p.h
	} else if s >= last.s {
		return last.x + (s-last.s)*math.Cos(last.h), last.y + (s-last.s)*math.Sin(last.h), last.h
	}
	lo, hi := 0, len(r.pts)-1
	// Steps are near 1 mm: begin near the answer.
	if g := int(s); g < hi && r.pts[g].s <= s {
		lo = g
		if g+40 < hi && r.pts[g+40].s > s {
			hi = g + 40
		}
	}
	for hi-lo > 1 {
		if m := (lo + hi) / 2; r.pts[m].s <= s {
			lo = m
		} else {
			hi = m
		}
	}
	a, b := r.pts[lo], r.pts[hi]
	d := b.s - a.s
	t := (s - a.s) / d
	h00, h10, h01, h11 := (1+2*t)*(1-t)*(1-t), t*(1-t)*(1-t), t*t*(3-2*t), t*t*(t-1)
	return h00*a.x + h01*b.x + d*(h10*a.cos+h11*b.cos),
		h00*a.y + h01*b.y + d*(h10*a.sin+h11*b.sin), a.h + t*(b.h-a.h)
}

// first returns the first s at or after from where f turns from negative to
// positive, by steps and bisection.
func first(f func(s float64) float64, from, step float64) float64 {
	lo := from
	for f(lo+step) < 0 {
		lo += step
	}
	hi := lo + step
	for range 24 { // 2^-24 of a step is below 1e-6 mm
		if m := (lo + hi) / 2; f(m) < 0 {
			lo = m
		} else {
			hi = m
		}
	}
	return (lo + hi) / 2
}

// refCarrier is a carrier's table of how far its front axle is ahead of its
// rear axle, every 2 mm.
type refCarrier struct {
	line  *refLine
	c     clearance.Carrier
	from  float64
	ahead []float64
}

func newRefCarrier(line *refLine, c clearance.Carrier, from, to float64) *refCarrier {
	r := &refCarrier{line: line, c: c, from: from}
	p := float64(c.Wheelbase)
	if p == 0 {
		return r
	}
	for s := from; s <= to+2; s += 2 {
		x, y, _ := line.at(s)
		f := first(func(q float64) float64 {
			u, v, _ := line.at(q)
			return math.Hypot(u-x, v-y) - p
		}, s+0.99*p, 0.1*p)
		r.ahead = append(r.ahead, f-s)
	}
	return r
}

// pin returns the place of a point e ahead of the carrier's middle.
func (r *refCarrier) pin(s, e float64) (x, y float64) {
	x, y, _ = r.line.at(s)
	p := float64(r.c.Wheelbase)
	if p == 0 {
		return x, y
	}
	i := int((s - r.from) / 2)
	t := (s-r.from)/2 - float64(i)
	u, v, _ := r.line.at(s + r.ahead[i]*(1-t) + r.ahead[i+1]*t)
	k := (p/2 + e) / p
	return x + k*(u-x), y + k*(v-y)
}

// refSweep stands every part of the vehicle at poses a step apart.
type refSweep struct {
	from, step float64
	parts      []refPart
	poses      [][][4]float64 // per pose, per part: a point of its axis and one further forward
}

// refPart is a body, a carrier or a truck.
type refPart struct {
	bands  []clearance.Band
	behind float64 // the first point of its axis, behind the origin of its own axes
	length float64 // to the second
	ahead  float64 // of the rear axle, the origin of its own axes, about
}

func newRefSweep(line *refLine, v clearance.Vehicle, from, to, step float64) *refSweep {
	far := to
	for _, b := range v.Bodies {
		far += 1.6*float64(b.Pivots) + 100
		for _, t := range b.Trucks {
			far += 1.2 * math.Abs(float64(t.Bar))
		}
	}
	r := &refSweep{from: from, step: step}
	var cars []*refCarrier
	for _, c := range v.Carriers {
		cars = append(cars, newRefCarrier(line, c, from, far))
	}
	at := []float64{float64(v.Carriers[0].Wheelbase) / 2} // of each carrier
	for i, b := range v.Bodies {
		C := float64(b.Pivots)
		r.parts = append(r.parts, refPart{b.Bands, C / 2, C, at[i] + C/2})
		at = append(at, at[i]+C)
	}
	for i, c := range v.Carriers {
		if len(c.Bands) > 0 {
			r.parts = append(r.parts, refPart{c.Bands, float64(c.Wheelbase) / 2, float64(c.Wheelbase), at[i]})
		}
	}
	for i, b := range v.Bodies {
		for _, t := range b.Trucks {
			r.parts = append(r.parts, refPart{t.Bands, 0, 1, at[i] + float64(b.Pivots/2+t.Hinge+t.Bar)})
		}
	}
	was := make([]float64, len(v.Bodies))
	for s := from; s <= to; s += step {
		var pose, carriers, trucks [][4]float64
		q := s
		stand := func(k int) {
			if c := v.Carriers[k]; len(c.Bands) > 0 {
				p := float64(c.Wheelbase)
				x, y := cars[k].pin(q, -p/2)
				u, w := cars[k].pin(q, p/2)
				carriers = append(carriers, [4]float64{x, y, u, w})
			}
		}
		stand(0)
		for k, b := range v.Bodies {
			x, y := cars[k].pin(q, float64(v.Carriers[k].Pin+v.Carriers[k].Apart/2))
			e := float64(v.Carriers[k+1].Pin - v.Carriers[k+1].Apart/2)
			off := func(s float64) float64 {
				u, w := cars[k+1].pin(s, e)
				return math.Hypot(u-x, w-y) - float64(b.Pivots)
			}
			begin, step := q+2, 10.0
			if was[k] != 0 {
				begin, step = q+was[k]-2, 1.0
			}
			p := first(off, begin, step)
			was[k] = p - q
			u, w := cars[k+1].pin(p, e)
			pose = append(pose, [4]float64{x, y, u, w})
			for _, t := range b.Trucks {
				C := float64(b.Pivots)
				f := (C/2 + float64(t.Hinge)) / C
				hx, hy := x+f*(u-x), y+f*(w-y)
				bar := float64(t.Bar)
				near := q + C/2 + float64(t.Hinge)
				m := first(func(d float64) float64 {
					a, c, _ := line.at(near + math.Copysign(d, bar))
					return math.Hypot(a-hx, c-hy) - math.Abs(bar)
				}, 0.7*math.Abs(bar), 1)
				a, c, _ := line.at(near + math.Copysign(m, bar))
				trucks = append(trucks, [4]float64{a, c, a + (a-hx)/bar, c + (c-hy)/bar})
			}
			q = p
			stand(k + 1)
		}
		r.poses = append(r.poses, append(append(pose, carriers...), trucks...))
	}
	return r
}

// reach returns the furthest left and right that any point comes at the
// station c.
func (r *refSweep) reach(line *refLine, c float64) (left, right float64) {
	left, right = math.Inf(-1), math.Inf(-1)
	px, py, h := line.at(c)
	tx, ty := math.Cos(h), math.Sin(h)
	for k, b := range r.parts {
		// Along and across of a point at pose j.
		at := func(j int, x, y float64) (along, across float64) {
			p := r.poses[j][k]
			ux, uy := (p[2]-p[0])/b.length, (p[3]-p[1])/b.length
			X, Y := p[0]+(x+b.behind)*ux-y*uy-px, p[1]+(x+b.behind)*uy+y*ux-py
			return X*tx + Y*ty, Y*tx - X*ty
		}
		for _, band := range b.bands {
			for i, p := range band.Outline {
				q := band.Outline[(i+1)%len(band.Outline)]
				x0, y0, x1, y1 := float64(p.Along), float64(p.Across), float64(q.Along), float64(q.Across)
				n := int(math.Ceil(math.Hypot(x1-x0, y1-y0)))
				for m := range n {
					x, y := x0+(x1-x0)*float64(m)/float64(n), y0+(y1-y0)*float64(m)/float64(n)
					// The pose at which the point crosses, near where its own
					// part of the vehicle is at the station.
					guess := int((c - x - b.ahead - r.from) / r.step)
					span := int(400 / r.step)
					lo, hi := max(0, guess-span), min(len(r.poses)-1, guess+span)
					if a, _ := at(lo, x, y); a > 0 {
						continue
					}
					if a, _ := at(hi, x, y); a < 0 {
						continue
					}
					for hi-lo > 1 {
						mid := (lo + hi) / 2
						if a, _ := at(mid, x, y); a <= 0 {
							lo = mid
						} else {
							hi = mid
						}
					}
					a0, n0 := at(lo, x, y)
					a1, n1 := at(hi, x, y)
					across := n0 + (n1-n0)*(-a0)/(a1-a0)
					left, right = max(left, across), max(right, -across)
				}
			}
		}
	}
	return left, right
}

// A lot is one seeded random line with its reference.
type lot struct {
	line   *curve.Alignment
	ref    *refLine
	parts  []part
	closed bool
}

func build(t *testing.T, parts []part, start curve.Pose, closed bool) lot {
	t.Helper()
	var el []curve.Element
	for _, p := range parts {
		var e curve.Element
		var err error
		switch p.shape {
		case curve.StraightLine:
			e, err = curve.NewStraight(measure.Length(p.length))
		case curve.CircularArc:
			hand := curve.Left
			if p.k0 < 0 {
				hand = curve.Right
			}
			e, err = curve.NewArc(measure.Length(1/math.Abs(p.k0)), measure.Angle(p.length*math.Abs(p.k0)), hand)
		default:
			e, err = curve.NewEasement(p.shape, measure.Length(p.length), measure.Curvature(p.k0), measure.Curvature(p.k1))
		}
		if err != nil {
			t.Fatal(err)
		}
		if p.kink != 0 {
			e = e.WithKink(measure.Angle(p.kink))
		}
		el = append(el, e)
	}
	var line *curve.Alignment
	var err error
	if closed {
		line, err = curve.NewClosed(start, 1e-3, 1e-6, el...)
	} else {
		line, err = curve.New(start, el...)
	}
	if err != nil {
		t.Fatal(err)
	}
	return lot{line, newRefLine(start, parts, closed), parts, closed}
}

// randomLine returns a line of straights, sudden and eased bends, reverses and
// compounds, none sharper than least.
func randomLine(t *testing.T, rng *rand.Rand, least float64) lot {
	shapes := []curve.Shape{curve.Clothoid, curve.Bloss, curve.Cosine, curve.Sine, curve.Helmert}
	between := func(a, b float64) float64 { return a + (b-a)*rng.Float64() }
	start := curve.Pose{Heading: measure.Angle(between(-4, 4))}
	start.Point.X, start.Point.Y = between(-1e4, 1e4), between(-1e4, 1e4)
	if rng.IntN(5) == 0 {
		// A circuit: straight, half turn, straight, half turn, all alike in pairs.
		k := 1 / between(least, 2*least)
		hand := float64(2*rng.IntN(2) - 1)
		shape := shapes[rng.IntN(len(shapes))]
		ease := between(100, 500)
		arc := math.Pi/k - ease
		long := between(100, 1200)
		half := []part{
			{curve.StraightLine, long, 0, 0, 0},
			{shape, ease, 0, hand * k, 0},
			{curve.CircularArc, arc, hand * k, hand * k, 0},
			{shape, ease, hand * k, 0, 0},
		}
		parts := append(append([]part(nil), half...), half...)
		// Begin anywhere among the elements.
		at := rng.IntN(len(parts))
		parts = append(append([]part(nil), parts[at:]...), parts[:at]...)
		return build(t, parts, start, true)
	}
	var parts []part
	k, turn := 0.0, 0.0
	for n := 4 + rng.IntN(5); len(parts) < n; {
		next := 0.0
		if rng.IntN(3) > 0 {
			next = 1 / between(least, 4*least)
			// Turn back when the line has turned far, so that it does not curl.
			if turn > 1 || turn > -1 && rng.IntN(2) == 0 {
				next = -next
			}
		}
		if rng.IntN(5) < 3 && next != k {
			e := part{shapes[rng.IntN(len(shapes))], between(60, 700), k, next, 0}
			parts = append(parts, e)
			turn += e.length * (k + next) / 2
		}
		k = next
		e := part{curve.CircularArc, between(80, 900), k, k, 0}
		if k == 0 {
			e.shape = curve.StraightLine
		} else {
			e.length = min(e.length, 1.5/math.Abs(k))
		}
		turn += e.length * k
		parts = append(parts, e)
	}
	return build(t, parts, start, false)
}

// randomVehicle returns a vehicle and the least radius fit for it.
func randomVehicle(rng *rand.Rand) (clearance.Vehicle, float64) {
	between := func(a, b float64) measure.Length { return measure.Length(a + (b-a)*rng.Float64()) }
	outline := func(length measure.Length) clearance.Outline {
		w := between(50, 120)
		switch rng.IntN(4) {
		case 0:
			return clearance.Box(length, w)
		case 1:
			return clearance.Tapered(length, w, between(0, 60), between(20, 90), w*between(0.3, 0.9))
		case 2: // stepped
			l, s := length/2, between(20, 60)
			return clearance.Outline{{-l, -w / 3}, {-l + s, -w / 3}, {-l + s, -w / 2}, {l - 2*s, -w / 2}, {l - 2*s, -w / 4}, {l, -w / 4}, {l, w / 3}, {0, w / 3}, {0, w / 2}, {-l, w / 2}}
		}
		// 24 corners, rounded and not symmetrical, clockwise.
		var o clearance.Outline
		for i := range 24 {
			sin, cos := math.Sincos(-2 * math.Pi * (float64(i) + 0.3) / 24)
			r := float64(between(0.95, 1))
			o = append(o, clearance.Point{
				Along:  length / 2 * measure.Length(r*math.Copysign(math.Pow(math.Abs(cos), 0.4), cos)),
				Across: w / 2 * measure.Length(r*math.Copysign(math.Pow(math.Abs(sin), 0.4), sin)),
			})
		}
		return o
	}
	C := between(150, 420)
	length := C * between(1.35, 1.8)
	var v clearance.Vehicle
	band := clearance.Band{Top: 100, Outline: outline(length).Moved(between(-0.02, 0.02) * length)}
	switch rng.IntN(4) {
	case 0:
		v = clearance.Rigid("rigid", C, band)
	case 1, 2:
		v = clearance.Bogie("bogie", C, between(40, 90), band)
		v.Carriers[0].Pin, v.Carriers[1].Pin = between(-10, 10), between(-10, 10)
	case 3:
		v = clearance.Bogie("articulated", C, between(40, 90), band)
		second := v.Bodies[0]
		second.Bands = []clearance.Band{{Top: 100, Outline: outline(length)}}
		v.Bodies = append(v.Bodies, second)
		v.Carriers = append(v.Carriers, clearance.Carrier{Wheelbase: between(40, 90)})
		v.Carriers[1].Apart = between(0, 20)
	}
	return v, max(350, 1.3*float64(C))
}
