package joints

import (
	"errors"
	"fmt"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// laid is one rail of one run: its joints, their gaps, and the pieces between.
type laid struct {
	placed
	side   curve.Hand
	gap    []float64
	piece  []cut
	window []gaps
}

type cut struct{ length, back, ahead float64 }

type gaps struct {
	before, after float64
	least, most   measure.Length
	problem       string
}

// A placed run has its joints; what lies between them is measured once for
// both rails where they are square.
type placed struct {
	run run
	x   []float64
	bay []between
}

// between is the line from one joint to the next: how much it turns and what
// its rail gains by grades, up to the place where the piece is held and in all.
type between struct {
	fixed            float64
	turn, turnBack   float64
	slope, slopeBack float64
	anchor, second   string
}

// survey measures the line between the joints.
func (t track) survey(r run, x []float64) placed {
	p := placed{r, x, make([]between, len(x)-1)}
	a := 0
	heading, _ := t.at(x[0])
	for i := range p.bay {
		from, to := x[i], x[i+1]
		w := between{fixed: from + (to-from)/2}
		for a < len(r.anchors) && r.anchors[a].x <= from {
			a++
		}
		if a < len(r.anchors) && r.anchors[a].x < to {
			w.fixed, w.anchor = r.anchors[a].x, r.anchors[a].name
			if a+1 < len(r.anchors) && r.anchors[a+1].x < to {
				w.second = r.anchors[a+1].name
			}
		}
		held, _ := t.at(w.fixed)
		next, _ := t.at(to)
		w.turn, w.turnBack = next-heading, held-heading
		w.slope, w.slopeBack = t.slope(from, to), t.slope(from, w.fixed)
		heading = next
		p.bay[i] = w
	}
	return p
}

// measure cuts the pieces between the joints of one rail.
func (b *builder) measure(p placed, side curve.Hand, gap func(curve.Hand, int) float64) laid {
	n := len(p.x) - 1
	d := laid{placed: p, side: side, gap: make([]float64, n+1), piece: make([]cut, n)}
	for k := range d.gap {
		d.gap[k] = gap(side, k)
	}
	if d.run.ring {
		d.gap[n] = d.gap[0]
	}
	half := float64(side) * b.track.half
	for i, w := range p.bay {
		x, y := d.x[i], d.x[i+1]
		lead, tail := d.gap[i]/2, d.gap[i+1]/2
		if i == 0 {
			lead = d.run.start.share(d.gap[0])
		}
		if i == n-1 {
			tail = d.run.end.share(d.gap[n])
		}
		c := cut{length: (y - x) - half*w.turn + w.slope - lead - tail}
		c.back = (w.fixed - x) - half*w.turnBack + w.slopeBack - lead
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
