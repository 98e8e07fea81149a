package wheelset

import (
	"cmp"
	"slices"
	"strings"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Rule is one thing that the audit looks into.
type Rule uint8

// The rules: four that a track and its wheels obey together, two of plain
// geometry, and the three identities of a drawing.
const (
	NoseClear      Rule = iota + 1 // K max ≤ C min: the check rail holds the other wheel's flange off the crossing nose
	CheckRailClear                 // B min ≥ S max: the wheel backs pass over both check rails
	BetweenRails                   // B max + 2 T max ≤ G min: both flanges find room between the rails
	FloorClear                     // D max ≤ H min: the flange does not touch the floor of the flangeway
	FlangePasses                   // T max ≤ F min: the flange finds room in the flangeway
	TreadCarried                   // B min + T min + N min ≥ G max, the margin being the tread left on the rail: a wheel cannot drop in between the rails at the widest gauge
	CheckGaugeSum                  // C = G - F
	CheckSpanSum                   // S = C - F
	WheelCheckSum                  // K = B + T
)

// String returns the rule in the trade's words.
func (r Rule) String() string {
	switch r {
	case NoseClear:
		return "flange clear of the crossing nose"
	case CheckRailClear:
		return "wheel backs clear of the check rails"
	case BetweenRails:
		return "both flanges between the rails"
	case FloorClear:
		return "flange clear of the flangeway floor"
	case FlangePasses:
		return "flange through the flangeway"
	case TreadCarried:
		return "tread carried at the widest gauge"
	case CheckGaugeSum:
		return "check gauge is gauge less flangeway"
	case CheckSpanSum:
		return "span is check gauge less flangeway"
	case WheelCheckSum:
		return "wheel check gauge is back to back and flange width"
	}
	return "no rule"
}

// Formula returns the rule in letters.
func (r Rule) Formula() string {
	switch r {
	case NoseClear:
		return "K max ≤ C min"
	case CheckRailClear:
		return "B min ≥ S max"
	case BetweenRails:
		return "B max + 2 T max ≤ G min"
	case FloorClear:
		return "D max ≤ H min"
	case FlangePasses:
		return "T max ≤ F min"
	case TreadCarried:
		return "B min + T min + N min ≥ G max"
	case CheckGaugeSum:
		return "C = G - F"
	case CheckSpanSum:
		return "S = C - F"
	case WheelCheckSum:
		return "K = B + T"
	}
	return ""
}

// A Verdict is what the audit finds, in the order of how much it should worry.
type Verdict uint8

// The verdicts.
const (
	Pass      Verdict = iota + 1 // kept in the worst case
	Loose                        // an identity kept by some of what the limits allow, not by all
	NotStated                    // a figure is missing: neither kept nor broken
	Fail                         // broken in the worst case; for an identity, in every case
)

// String returns "pass", "loose", "not stated" or "fail".
func (v Verdict) String() string {
	switch v {
	case Pass:
		return "pass"
	case Loose:
		return "loose"
	case NotStated:
		return "not stated"
	case Fail:
		return "fail"
	}
	return "no verdict"
}

// A Finding is what the audit says of one rule.
type Finding struct {
	Rule    Rule
	Verdict Verdict
	Margin  measure.Length // in the worst case, negative where the rule is broken; 0 when not stated
	Worst   string         // the worst pair: "K max 42.16 mm against C min 42.16 mm"
	Missing []string       // the figures whose statement would decide: "flange width max"
}

// String returns the finding as one line.
func (f Finding) String() string {
	s := f.Rule.String() + ": " + f.Verdict.String()
	if f.Verdict == NotStated {
		return s + ", wants " + strings.Join(f.Missing, " and ")
	}
	return s + ", margin " + mm(f.Margin) + " (" + f.Worst + ")"
}

// A Report is all findings of an audit, in the order of the rules.
type Report []Finding

// Of returns the finding on a rule and whether the rule was looked into.
func (r Report) Of(rule Rule) (Finding, bool) {
	i := slices.IndexFunc(r, func(f Finding) bool { return f.Rule == rule })
	if i < 0 {
		return Finding{}, false
	}
	return r[i], true
}

// Worst returns the finding of the most worrying verdict, of these the one with
// the least margin; the zero Finding of an empty report.
func (r Report) Worst() Finding {
	if len(r) == 0 {
		return Finding{}
	}
	return slices.MinFunc(r, func(a, b Finding) int {
		return cmp.Or(cmp.Compare(b.Verdict, a.Verdict), cmp.Compare(a.Margin, b.Margin))
	})
}

// Audit holds wheels against track, each rule at the worst corner of what the
// limits allow. To audit a published column in itself, give it both its sides.
// It takes stated figures first; where K, T, C, S or B + 2T is not stated but
// follows from others that are, the bound that follows is used and named in the
// finding.
func Audit(t Track, w Wheels) (Report, error) {
	l := fault.In("wheelset")
	t.check(l)
	w.check(l)
	if err := l.Err(); err != nil {
		return nil, err
	}
	r := Report{
		atMost(NoseClear, w.greatestCheck(), t.leastCheckGauge()),
		atMost(CheckRailClear, t.greatestSpan(), least("B", "back to back", w.BackToBack)),
		atMost(BetweenRails, w.overFlanges(), least("G", "gauge", t.Gauge)),
	}
	if !t.CarriesFlanges {
		r = append(r, atMost(FloorClear, greatest("D", "flange depth", w.FlangeDepth), least("H", "flangeway depth", t.FlangewayDepth)))
	}
	return append(r,
		atMost(FlangePasses, w.greatestFlange(), least("F", "flangeway", t.Flangeway)),
		atMost(TreadCarried, t.widest(), w.leastReach()),
		identity(CheckGaugeSum, dim{"C", "check gauge", t.CheckGauge}, dim{"G", "gauge", t.Gauge}, '-', dim{"F", "flangeway", t.Flangeway}),
		identity(CheckSpanSum, dim{"S", "span over check rails", t.CheckSpan}, dim{"C", "check gauge", t.CheckGauge}, '-', dim{"F", "flangeway", t.Flangeway}),
		identity(WheelCheckSum, dim{"K", "wheel check gauge", w.WheelCheck}, dim{"B", "back to back", w.BackToBack}, '+', dim{"T", "flange width", w.FlangeWidth}),
	), nil
}

// Audit holds the column's wheels against its own track.
func (s Standard) Audit() (Report, error) { return Audit(s.Track, s.Wheels) }
