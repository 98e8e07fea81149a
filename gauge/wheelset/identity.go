package wheelset

// A dim is a dimension with its letter, its name and its limits.
type dim struct {
	letter, name string
	m            Limits
}

func (d dim) least() bound    { return least(d.letter, d.name, d.m) }
func (d dim) greatest() bound { return greatest(d.letter, d.name, d.m) }

// identity finds on a = p ± q. Made to the limits of p and q, a comes out
// between two corners. It passes when both lie within the stated limits of a,
// fails when neither it nor anything between them can, and is loose otherwise:
// a must then be gauged for itself, p and q do not secure it.
func identity(r Rule, a, p dim, op rune, q dim) Finding {
	f := Finding{Rule: r, Verdict: NotStated}
	for _, d := range []dim{a, p, q} {
		if !d.m.Stated() {
			f.Missing = append(f.Missing, d.name)
		}
	}
	if len(f.Missing) > 0 {
		return f
	}
	low, high := sum(term{1, p.least()}, term{1, q.least()}), sum(term{1, p.greatest()}, term{1, q.greatest()})
	if op == '-' {
		low, high = sum(term{1, p.least()}, term{-1, q.greatest()}), sum(term{1, p.greatest()}, term{-1, q.least()})
	}
	// Each stated end of a, with the corner on its own side (the worst) and the
	// one on the other (the best).
	var ends []Finding
	add := func(worst, best Finding) {
		switch {
		case best.Verdict == Fail:
			ends = append(ends, best)
		case worst.Verdict == Fail:
			worst.Verdict = Loose
			ends = append(ends, worst)
		default:
			ends = append(ends, worst)
		}
	}
	if a.m.Min != 0 {
		add(atMost(r, a.least(), low), atMost(r, a.least(), high))
	}
	if a.m.Max != 0 {
		add(atMost(r, high, a.greatest()), atMost(r, low, a.greatest()))
	}
	return Report(ends).Worst()
}
