package wheelset

import (
	"fmt"

	"example.org/fourfoot/gauge/measure"
)

// A bound is one end of what a quantity can be, with how it was come by; or,
// where it cannot be told, the figures that are missing.
type bound struct {
	v       measure.Length
	how     string
	missing []string
}

func (b bound) known() bool { return len(b.missing) == 0 }

// end returns the end v of a dimension, 0 being not stated.
func end(letter, name, which string, v measure.Length) bound {
	if v == 0 {
		return bound{missing: []string{name + " " + which}}
	}
	return bound{v: v, how: fmt.Sprintf("%s %s %s", letter, which, mm(v))}
}

func least(letter, name string, m Limits) bound    { return end(letter, name, "min", m.Min) }
func greatest(letter, name string, m Limits) bound { return end(letter, name, "max", m.Max) }

// sum returns Σ ki·bi; what is missing of any is missing of the sum.
func sum(terms ...term) bound {
	var s bound
	for i, t := range terms {
		s.missing = append(s.missing, t.b.missing...)
		s.v += measure.Length(t.k) * t.b.v
		sign, k := " + ", t.k
		if k < 0 {
			sign, k = " - ", -k
		}
		if i > 0 {
			s.how += sign
		}
		if k != 1 {
			s.how += fmt.Sprintf("%d × ", k)
		}
		s.how += t.b.how
	}
	s.how += " = " + mm(s.v)
	return s
}

type term struct {
	k int
	b bound
}

// first returns the first bound that is known, else the first.
func first(bs ...bound) bound {
	for _, b := range bs {
		if b.known() {
			return b
		}
	}
	return bs[0]
}

// greatestCheck: K as stated, else by K = B + T.
func (w Wheels) greatestCheck() bound {
	return first(
		greatest("K", "wheel check gauge", w.WheelCheck),
		sum(term{1, greatest("B", "back to back", w.BackToBack)}, term{1, greatest("T", "flange width", w.FlangeWidth)}),
	)
}

// overFlanges: B + 2T as stated, else by B + 2T = 2K - B, each flange having
// its own K at the most.
func (w Wheels) overFlanges() bound {
	return first(
		sum(term{1, greatest("B", "back to back", w.BackToBack)}, term{2, greatest("T", "flange width", w.FlangeWidth)}),
		sum(term{2, greatest("K", "wheel check gauge", w.WheelCheck)}, term{-1, least("B", "back to back", w.BackToBack)}),
	)
}

// greatestFlange: T as stated, else by T = K - B.
func (w Wheels) greatestFlange() bound {
	return first(
		greatest("T", "flange width", w.FlangeWidth),
		sum(term{1, greatest("K", "wheel check gauge", w.WheelCheck)}, term{-1, least("B", "back to back", w.BackToBack)}),
	)
}

// leastReach: from the face of one flange to the outside of the other wheel,
// B + T + N, or K + N.
func (w Wheels) leastReach() bound {
	n := least("N", "wheel width", w.Width)
	return first(
		sum(term{1, least("B", "back to back", w.BackToBack)}, term{1, least("T", "flange width", w.FlangeWidth)}, term{1, n}),
		sum(term{1, least("K", "wheel check gauge", w.WheelCheck)}, term{1, n}),
	)
}

// leastCheckGauge: C as stated, else by C = G - F.
func (t Track) leastCheckGauge() bound {
	return first(
		least("C", "check gauge", t.CheckGauge),
		sum(term{1, least("G", "gauge", t.Gauge)}, term{-1, greatest("F", "flangeway", t.Flangeway)}),
	)
}

// greatestSpan: S as stated, else by S = C - F, else by S = G - 2F.
func (t Track) greatestSpan() bound {
	f := least("F", "flangeway", t.Flangeway)
	return first(
		greatest("S", "span over check rails", t.CheckSpan),
		sum(term{1, greatest("C", "check gauge", t.CheckGauge)}, term{-1, f}),
		sum(term{1, greatest("G", "gauge", t.Gauge)}, term{-2, f}),
	)
}

// widest: the widest gauge of the track, eased or not.
func (t Track) widest() bound {
	g := greatest("G", "gauge", t.Gauge)
	if t.Widened.Max > t.Gauge.Max {
		return greatest("widened G", "widened gauge", t.Widened)
	}
	return g
}

// atMost finds on a rule by which one bound may not pass the other.
func atMost(r Rule, low, high bound) Finding {
	f := Finding{Rule: r, Verdict: NotStated}
	if f.Missing = append(f.Missing, append(low.missing, high.missing...)...); len(f.Missing) > 0 {
		return f
	}
	f.Worst = low.how + " against " + high.how
	f.Margin = tidy(high.v - low.v)
	f.Verdict = Pass
	if f.Margin < 0 {
		f.Verdict = Fail
	}
	return f
}
