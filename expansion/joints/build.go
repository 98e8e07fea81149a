package joints

import (
	"fmt"
	"math"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// New plans the joints of the line.
func New(line *curve.Alignment, s Spec) (Plan, error) {
	l := fault.In("joints")
	s.check(l, line)
	if err := l.Err(); err != nil {
		return Plan{}, err
	}
	t, runs := layout(l, line, s)
	if err := l.Err(); err != nil {
		return Plan{}, err
	}
	b := builder{spec: s, track: t, runs: runs, panel: float64(s.panel()), feeler: s.Gap}
	if err := b.nominal(); err != nil {
		return Plan{}, err
	}
	if err := b.settle(); err != nil {
		return Plan{}, err
	}
	return b.plan()
}

type builder struct {
	spec     Spec
	track    track
	runs     []run
	panel    float64
	feeler   measure.Length
	lines    []laid // two a run, left and right
	warnings []string
}

// nominal finds the feeler for a joint between two full panels, and refuses a
// panel that no gap suits.
func (b *builder) nominal() error {
	h := b.spec.Heat
	if h == nil {
		return nil
	}
	p := measure.Length(b.panel)
	g, err := h.Joint(p/2, p/2).Gaps(h.Laying, h.Climate)
	if err != nil {
		return fmt.Errorf("joints: a panel of %s: %w", mm(p), err)
	}
	if b.feeler == 0 {
		b.feeler = g.Aim()
	} else if b.feeler < g.Least || b.feeler > g.Most {
		b.warnings = append(b.warnings, fmt.Sprintf("a feeler of %.2f mm is not right today between two full panels, %.2f to %.2f mm is: the nearest right gap is given at each joint", float64(b.feeler), float64(g.Least), float64(g.Most)))
	}
	return nil
}

// passes is how often joints are placed anew after the gaps have changed with
// the lengths. Gaps change lengths by their own small size, so two do.
const passes = 6

// settle places the joints and fits the gaps to them until both agree.
func (b *builder) settle() error {
	told := len(b.warnings)
	for pass := range passes {
		b.warnings = b.warnings[:told]
		before := b.lines
		b.lines = nil
		for i, r := range b.runs {
			gap := func(side curve.Hand, k int) float64 {
				if before != nil {
					g := before[2*i+(1-int(side))/2].gap
					if k < len(g) {
						return g[k]
					}
				}
				return float64(b.feeler)
			}
			left, right, err := b.joints(r, gap)
			if err != nil {
				return err
			}
			b.lines = append(b.lines, b.measure(left, curve.Left, gap), b.measure(right, curve.Right, gap))
		}
		joints := 0
		for _, d := range b.lines {
			joints += len(d.x)
		}
		if h := b.spec.Heat; h != nil && joints > MaxWork/len(h.Climate) {
			l := fault.In("joints")
			l.Over("work", fmt.Sprintf("of %d joints in %d states", joints, len(h.Climate)), fmt.Sprintf("at most %d together: the corners of the climate would do", MaxWork))
			return l.Err()
		}
		changed := false
		for i := range b.lines {
			fitted, err := b.fit(&b.lines[i])
			if err != nil {
				return err
			}
			for k, g := range fitted {
				changed = changed || math.Abs(g-b.lines[i].gap[k]) > 1e-9
			}
			if pass < passes-1 && changed {
				b.lines[i].gap = fitted
			}
		}
		if !changed {
			return nil
		}
	}
	return nil
}

// joints places the joints of both rails of a run.
func (b *builder) joints(r run, gap func(curve.Hand, int) float64) (left, right placed, err error) {
	warn := func(text string) { b.warnings = append(b.warnings, text) }
	both := []curve.Hand{curve.Left, curve.Right}
	y := layer{b.track, r, both, b.panel, float64(b.spec.shortest()), gap, nil, warn}
	if b.spec.Pattern == Square {
		x, err := y.place()
		if err != nil {
			return placed{}, placed{}, err
		}
		p := b.track.survey(r, x)
		return p, p, nil
	}
	y.gap = func(_ curve.Hand, k int) float64 { return gap(curve.Left, k) }
	x, err := y.place()
	if err != nil {
		return placed{}, placed{}, err
	}
	y.rails, y.gap = both[1:], gap
	for i := range x[1:] {
		y.targets = append(y.targets, x[i]+(x[i+1]-x[i])/2)
	}
	if r.ring {
		first := y.targets[0]
		y.run = r.turned(first-r.x0, b.track.length)
		y.targets = y.targets[1:]
	}
	z, err := y.place()
	if err != nil {
		return placed{}, placed{}, err
	}
	return b.track.survey(r, x), b.track.survey(y.run, z), nil
}

// turned returns the ring begun d further round.
func (r run) turned(d, length float64) run {
	r.x0 += d
	r.x1 += d
	anchors := r.anchors
	r.anchors = nil
	for _, m := range anchors {
		if m.x >= r.x0 {
			r.anchors = append(r.anchors, m)
		}
	}
	for _, m := range anchors {
		if m.x < r.x0 {
			r.anchors = append(r.anchors, mark{m.name, m.x + length})
		}
	}
	return r
}

func tooMany() error {
	l := fault.In("joints")
	l.Over("pieces on one rail", nil, fmt.Sprintf("at most %d: a longer panel or a part of the line would do", MaxPieces))
	return l.Err()
}

func noRoom(at measure.Length, panel float64) error {
	l := fault.In("joints")
	l.NoAnswer("piece", "at "+mm(at), fmt.Sprintf("no rail is left between its gaps (%.4g mm): a longer panel, a smaller gap or a longer run between objects would do", panel))
	return l.Err()
}
