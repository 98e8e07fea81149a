package ballast

import (
	"fmt"
	"math"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
)

// What is integrated along the line, per millimetre of it.
const (
	solid    = iota // A - κM
	straight        // A
	flat            // A - κM without cant
	surface         // of top and slopes, with the true length
	sleepers        // volume below the surface
	others          // volume of other solids below the surface
	shown           // plan area of sleepers that show in the surface
	integrands
)

type values [integrands]float64

func (v *values) add(w *values, k float64) {
	for i := range v {
		v[i] += k * w[i]
	}
}

// A take-off makes at most baseSplits halvings and pieceSplits more for each
// piece of line. A smooth bed needs none to a few, one whose slopes begin to
// meet some twenty; only sections that differ by many powers of ten come near
// the limit, and they are refused.
const (
	baseSplits  = 2000
	pieceSplits = 20
)

// A worker evaluates and integrates the sections of one range.
type worker struct {
	r          Range
	a, b, here shape
	taper      bool
	perLength  float64 // sleepers per length of line in the ballast
	length     float64
	el         curve.Element
	elFrom     float64
	fig        figure
	why        string // what made a section impossible
	whyAt      float64
	span       float64
	canted     bool
	cant       profile.Cant
	centres    measure.Length
	flat       measures // of the constant section without cant
	splits     int      // halvings made
	maxSplits  int      // and allowed
}

func (w *worker) load(r Range, length float64) {
	w.r, w.length, w.why = r, length, ""
	w.a = r.Section.shape()
	w.taper = r.Taper != nil
	w.b = w.a
	if w.taper {
		w.b = r.Taper.shape()
	}
	w.perLength = float64(r.Sleepers) / length
	w.a.mix(&w.a, 0, &w.here)
	w.flat = w.fig.measure(&w.a, level)
}

// curvature returns the line's curvature at chainage s of the current element.
func (w *worker) curvature(s float64) float64 {
	s = min(max(s-w.elFrom, 0), float64(w.el.Length()))
	return float64(w.el.CurvatureAt(measure.Length(s)))
}

// tilt returns how the cant at chainage s turns the section.
func (w *worker) tilt(s float64) tilt {
	if !w.canted {
		return level
	}
	return tiltOf(max(-w.centres, min(w.centres, w.cant.At(measure.Length(s)))), w.centres, w.cant.Datum())
}

// at evaluates everything at chainage s, at the part u of the range, for the
// curvature k.
func (w *worker) at(s, u, k float64) values {
	g, by, plain := &w.a, w.tilt(s), &w.flat
	if w.taper {
		g = &w.here
		w.a.mix(&w.b, u, g)
		if by != level {
			v := w.fig.measure(g, level)
			plain = &v
		}
	}
	m := w.flat
	if w.taper || by != level {
		m = w.fig.measure(g, by)
	}
	if w.taper && by == level {
		plain = &m
	}
	if w.why == "" {
		if math.Abs(by.tan) > 0.6 {
			w.why = fmt.Sprintf("the cant of %v is more than half the rail-head centres, %v", w.cant.At(measure.Length(s)), w.centres)
		} else if w.why = m.fault(g); w.why == "" && (k*m.left >= 1 || k*m.right >= 1) {
			w.why = fmt.Sprintf("the toe reaches the centre of the curve of radius %v: the bed is too wide for it", measure.Length(math.Abs(1/k)))
		}
		w.whyAt = s
	}
	v := values{
		solid: m.area - k*m.moment, straight: m.area, flat: plain.area - k*plain.moment,
		surface: m.surface - k*m.surfaceMoment,
	}
	sl := &w.r.Section.Sleeper
	plan := float64(sl.Length) * float64(sl.Width)
	if w.taper {
		to := &w.r.Taper.Sleeper
		plan = g.sleeper * (float64(sl.Width) + u*float64(to.Width-sl.Width))
	}
	v[sleepers] = w.perLength * plan * under(0, g.sleeperH, g.crib, g.depth)
	if g.crib <= g.sleeperH {
		v[shown] = w.perLength * plan
	}
	for i := range w.r.Solids {
		o := &w.r.Solids[i]
		level := g.shoulder
		for _, t := range g.tracks {
			if math.Abs(float64(o.Offset)-t) <= g.sleeper/2 {
				level = g.crib
			}
		}
		h := under(float64(o.Bottom), float64(o.Top), level, g.depth)
		if o.Width > 0 {
			v[others] += h * float64(o.Width) * (1 - k*float64(o.Offset))
		} else {
			v[others] += h * float64(o.Plan) * float64(o.Count) / w.length
		}
	}
	return v
}

// integrate returns the integrals over a piece of line.
func (w *worker) integrate(p piece) values {
	var sum values
	if p.kinkFirst && w.el.Kink() != 0 {
		// A kink turns the whole section on the spot: -M·kink, as a very short
		// curve would.
		v, s := w.at(p.from, p.u0, 0), w.at(p.from, p.u0, 1)
		d := float64(w.el.Kink())
		for _, i := range []int{solid, flat, surface, others} {
			sum[i] += d * (s[i] - v[i])
		}
		w.why = "" // of a radius of 1 mm
	}
	// Between its boundaries cant goes one way only: the same at both ends and
	// between is the same all along.
	t0 := w.tilt(p.from)
	constant := !w.taper && t0 == w.tilt((p.from+p.to)/2) && t0 == w.tilt(p.to)
	k0, k1 := w.curvature(p.from), w.curvature(p.to)
	first := w.at(p.from, p.u0, k0)
	if w.why != "" {
		return sum
	}
	switch {
	case constant && k0 == k1:
		sum.add(&first, p.to-p.from)
		return sum
	case constant:
		// Linear in the curvature: the mean curvature gives the integral.
		w.at(p.to, p.u1, k1)
		mean := w.turn(p.from, p.to) / (p.to - p.from)
		v := w.at(p.from, p.u0, mean)
		sum.add(&v, p.to-p.from)
		return sum
	}
	w.at(p.to, p.u1, k1)
	w.span = p.to - p.from
	v := w.gauss(p, 0)
	sum.add(&v, 1)
	return sum
}

// turn returns ∫κ ds over part of the current element.
func (w *worker) turn(from, to float64) float64 {
	if from == w.elFrom && math.Abs(to-from-float64(w.el.Length())) < 1e-9 {
		return float64(w.el.Turn())
	}
	sum, mid, half := 0.0, (from+to)/2, (to-from)/2
	for i, x := range kronrodX {
		if x == 0 {
			sum += kronrodW[i] * w.curvature(mid)
		} else {
			sum += kronrodW[i] * (w.curvature(mid-half*x) + w.curvature(mid+half*x))
		}
	}
	return sum * half
}

// The abscissae and weights of Gauss and Kronrod's pair of 7 and 15 points: R.
// Piessens et al., QUADPACK (1983), routine QK15. Every second abscissa is
// Gauss's.
var (
	kronrodX = [8]float64{
		0.991455371120812639206854697526329, 0.949107912342758524526189684047851, 0.864864423359769072789712788640926,
		0.741531185599394439863864773280788, 0.586087235467691130294144691838259, 0.405845151377397166906606412076961,
		0.207784955007898467600689403773245, 0,
	}
	kronrodW = [8]float64{
		0.022935322010529224963732008058970, 0.063092092629978553290700663189204, 0.104790010322250183839876322541518,
		0.140653259715525918745189590510238, 0.169004726639267902826583426598550, 0.190350578064785409913256402421014,
		0.204432940075298892414161999234649, 0.209482141084727828012999174891714,
	}
	gaussW = [4]float64{
		0.129484966168869693270611432679082, 0.279705391489276667901467771423780, 0.381830050505118944950369775488975,
		0.417959183673469387755102040816327,
	}
)

// gauss integrates over a piece, halving it until both rules agree.
func (w *worker) gauss(p piece, depth int) values {
	var k, g values
	mid, half := (p.from+p.to)/2, (p.to-p.from)/2
	uMid, uHalf := (p.u0+p.u1)/2, (p.u1-p.u0)/2
	for i, x := range kronrodX {
		for _, x := range [2]float64{x, -x} {
			s := mid + half*x
			v := w.at(s, uMid+uHalf*x, w.curvature(s))
			k.add(&v, kronrodW[i]*half)
			if i%2 == 1 {
				g.add(&v, gaussW[i/2]*half)
			}
			if x == 0 {
				break
			}
		}
	}
	const tolerance = 1e-9 // of the range's volume
	worst := 0.0
	for _, i := range [...]int{solid, flat, surface, sleepers, others} {
		worst = max(worst, math.Abs(k[i]-g[i])-tolerance*math.Abs(k[i])*(p.to-p.from)/w.span)
	}
	if worst <= 1e-9 || depth == 16 || w.why != "" {
		return k
	}
	if w.splits++; w.splits > w.maxSplits {
		return k
	}
	a, b := p, p
	a.to, a.u1 = mid, uMid
	b.from, b.u0 = mid, uMid
	v, second := w.gauss(a, depth+1), w.gauss(b, depth+1)
	v.add(&second, 1)
	return v
}
