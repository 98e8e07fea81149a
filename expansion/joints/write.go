package joints

import (
	"fmt"
	"strconv"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
)

// plan writes out what has settled.
func (b *builder) plan() (Plan, error) {
	p := Plan{Warnings: b.warnings}
	for _, r := range b.runs {
		p.Runs = append(p.Runs, Run{b.track.chainage(r.x0), b.track.chainage(r.x1), r.start.name, r.end.name})
	}
	for _, side := range []curve.Rail{curve.Left, curve.Right} {
		letter, total := "L", &p.Left
		if side == curve.Right {
			letter, total = "R", &p.Right
		}
		joints, pieces := 0, 0
		for n, d := range b.lines {
			if d.side != side {
				continue
			}
			total.Rail += measure.Length(b.track.rail(side, d.run.x0, d.run.x1))
			for k := range d.x {
				if k == 0 && !d.run.start.joint || k == len(d.x)-1 && (!d.run.end.joint || d.run.ring) {
					continue
				}
				joints++
				w := d.window[k]
				j := Joint{
					Mark: letter + strconv.Itoa(joints), Rail: side, Chainage: b.track.chainage(d.x[k]), Gap: measure.Length(d.gap[k]),
					Least: w.least, Most: w.most, Before: measure.Length(w.before), After: measure.Length(w.after), Run: n / 2, Problem: w.problem,
					PieceBefore: len(p.Pieces) + k - 1, PieceAfter: len(p.Pieces) + k,
				}
				switch {
				case k == 0 && d.run.ring:
					j.PieceBefore = len(p.Pieces) + len(d.piece) - 1
				case k == 0:
					j.At, j.PieceBefore = d.run.start.name, -1
				case k == len(d.x)-1:
					j.At, j.PieceAfter = d.run.end.name, -1
				}
				if j.Problem != "" {
					p.Warnings = append(p.Warnings, fmt.Sprintf("joint %s at %s: %s", j.Mark, mm(j.Chainage), j.Problem))
				}
				total.Gaps += j.Gap
				p.Joints = append(p.Joints, j)
			}
			for i, c := range d.piece {
				pieces++
				q := Piece{
					Mark: letter + strconv.Itoa(pieces), Rail: side, From: b.track.chainage(d.x[i]), To: b.track.chainage(d.x[i+1]),
					Length: measure.Length(c.length), Trim: measure.Length(b.panel - c.length), Fixed: b.track.chainage(c.fixed), Anchor: c.anchor,
					Back: measure.Length(c.back), Ahead: measure.Length(c.ahead), Run: n / 2, lead: 0.5, tail: 0.5,
				}
				hx, _ := b.track.at(d.x[i])
				hy, _ := b.track.at(d.x[i+1])
				q.Turn = measure.Angle(hy - hx)
				if i == 0 {
					q.lead = d.run.start.share(1)
				}
				if i == len(d.piece)-1 {
					q.tail = d.run.end.share(1)
				}
				if q.Length <= 0 {
					return Plan{}, noRoom(q.From, c.length)
				}
				if c.twice != "" {
					p.Warnings = append(p.Warnings, fmt.Sprintf("piece %s is held at both %s and %s: it is locked between them", q.Mark, c.anchor, c.twice))
				}
				total.Pieces += q.Length
				p.Pieces = append(p.Pieces, q)
			}
		}
	}
	if len(p.Pieces) > 2*MaxPieces {
		return Plan{}, tooMany()
	}
	lengths := make([]measure.Length, len(p.Pieces))
	for i, q := range p.Pieces {
		lengths[i] = q.Length
	}
	var err error
	if p.Cutting, err = Cut(lengths, b.spec.Stock, b.spec.Kerf); err != nil {
		return Plan{}, err
	}
	for k, bar := range p.Cutting.Bars {
		for _, i := range bar.Pieces {
			p.Pieces[i].Bar = k
		}
	}
	p.sleepers = newSleepers(b.spec.Sleepers, b.track, b.lines)
	p.order(b.spec.Sleepers)
	return p, nil
}
