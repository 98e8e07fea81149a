package joints

import (
	"errors"
	"fmt"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// laid is one rail of one run: its joints, their gaps, and the pieces between.
type laid struct {
	run    run
	side   curve.Rail
	x      []float64
	gap    []float64
	piece  []cut
	window []gaps
}

type cut struct {
	length, back, ahead, fixed float64
	anchor                     string
	twice                      string // the second anchor, where it has two
}

type gaps struct {
	before, after float64
	least, most   measure.Length
	problem       string
}

// measure cuts the pieces between the joints of one rail.
func (b *builder) measure(p placed, side curve.Rail, gap func(curve.Rail, int) float64) laid {
	n := len(p.x) - 1
	d := laid{run: p.run, side: side, x: p.x, gap: make([]float64, n+1), piece: make([]cut, n)}
	for k := range d.gap {
		d.gap[k] = gap(side, k)
	}
	if d.run.ring {
		d.gap[n] = d.gap[0]
	}
	a := 0
	for i := range d.piece {
		x, y := d.x[i], d.x[i+1]
		lead, tail := d.gap[i]/2, d.gap[i+1]/2
		if i == 0 {
			lead = d.run.start.share(d.gap[0])
		}
		if i == n-1 {
			tail = d.run.end.share(d.gap[n])
		}
		c := cut{length: b.track.rail(side, x, y) - lead - tail, fixed: x + (y-x)/2}
		for a < len(d.run.anchors) && d.run.anchors[a].x <= x {
			a++
		}
		if a < len(d.run.anchors) && d.run.anchors[a].x < y {
			c.fixed, c.anchor = d.run.anchors[a].x, d.run.anchors[a].name
			if a+1 < len(d.run.anchors) && d.run.anchors[a+1].x < y {
				c.twice = d.run.anchors[a+1].name
			}
		}
		c.back = b.track.rail(side, x, c.fixed) - lead
		c.ahead = c.length - c.back
		d.piece[i] = c
	}
	return d
}

// fit returns the gap that each joint of one rail should have: the permitted
// one nearest to the feeler. It records what is permitted.
func (b *builder) fit(d *laid) ([]float64, error) {
	n := len(d.piece)
	out := make([]float64, n+1)
	d.window = make([]gaps, n+1)
	for k := range out {
		w := &d.window[k]
		switch {
		case k > 0:
			w.before = d.piece[k-1].ahead
		case d.run.ring:
			w.before = d.piece[n-1].ahead
		default:
			w.before = d.run.start.free
		}
		switch {
		case k < n:
			w.after = d.piece[k].back
		case d.run.ring:
			w.after = d.piece[0].back
		default:
			w.after = d.run.end.free
		}
		if k == 0 && !d.run.start.joint || k == n && !d.run.end.joint {
			continue
		}
		out[k] = float64(b.feeler)
		if b.spec.Heat == nil {
			continue
		}
		h := b.spec.Heat
		g, err := h.Joint(measure.Length(max(w.before, 0)), measure.Length(max(w.after, 0))).Gaps(h.Laying, h.Climate)
		if errors.Is(err, measure.ErrNoAnswer) {
			w.problem = err.Error()
			continue
		}
		if err != nil {
			return nil, fmt.Errorf("joints: joint at %s: %w", mm(b.track.chainage(d.x[k])), err)
		}
		w.least, w.most = g.Least, g.Most
		out[k] = float64(min(max(b.feeler, g.Least), g.Most))
	}
	return out, nil
}
