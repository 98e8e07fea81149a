package joints

import (
	"fmt"
	"sort"
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
	n := 0
	for _, d := range b.lines {
		n += len(d.x)
	}
	p.Joints, p.Pieces = make([]Joint, 0, n), make([]Piece, 0, n)
	for _, side := range []curve.Hand{curve.Left, curve.Right} {
		w := writer{plan: &p, track: b.track, panel: b.panel, side: side, letter: "L", total: &p.Left}
		if side == curve.Right {
			w.letter, w.total = "R", &p.Right
		}
		for n, d := range b.lines {
			if d.side != side {
				continue
			}
			w.joint(d, n/2)
			if err := w.piece(d, n/2); err != nil {
				return Plan{}, err
			}
		}
	}
	p.Warnings = append(p.Warnings, b.inZones()...)
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

// A writer numbers the joints and pieces of one rail.
type writer struct {
	plan           *Plan
	track          track
	panel          float64
	side           curve.Hand
	letter         string
	total          *Total
	joints, pieces int
}

func (w *writer) warn(format string, values ...any) {
	w.plan.Warnings = append(w.plan.Warnings, fmt.Sprintf(format, values...))
}

func (w *writer) joint(d laid, run int) {
	n := len(d.piece)
	first := len(w.plan.Pieces) // of the run's pieces, which come next
	w.total.Rail += measure.Length(w.track.rail(w.side, d.run.x0, d.run.x1))
	for k, x := range d.x {
		if k == 0 && !d.run.start.joint || k == n && (!d.run.end.joint || d.run.ring) {
			continue
		}
		w.joints++
		g := d.window[k]
		j := Joint{
			Mark: w.letter + strconv.Itoa(w.joints), Rail: w.side, Chainage: w.track.chainage(x), Gap: measure.Length(d.gap[k]),
			Least: g.least, Most: g.most, Before: measure.Length(g.before), After: measure.Length(g.after), Run: run, Problem: g.problem,
			PieceBefore: first + k - 1, PieceAfter: first + k,
		}
		switch {
		case k == 0 && d.run.ring:
			j.PieceBefore = first + n - 1
		case k == 0:
			j.At, j.PieceBefore = d.run.start.name, -1
		case k == n:
			j.At, j.PieceAfter = d.run.end.name, -1
		}
		const settled = 1e-6 // mm
		if j.Problem != "" {
			w.warn("joint %s at %s: %s", j.Mark, mm(j.Chainage), j.Problem)
		} else if j.Most > 0 && (j.Gap < j.Least-settled || j.Gap > j.Most+settled) {
			w.warn("joint %s at %s: its gap of %.2f mm has not settled within %.2f to %.2f mm", j.Mark, mm(j.Chainage), float64(j.Gap), float64(j.Least), float64(j.Most))
		}
		near := d.gap[k]/2 + 1e-6
		anchors := d.run.anchors
		for i := sort.Search(len(anchors), func(i int) bool { return anchors[i].x >= x-near }); i < len(anchors) && anchors[i].x <= x+near; i++ {
			w.warn("joint %s at %s stands on the anchor %s, which so holds no rail: move the anchor, or lay the joints another way", j.Mark, mm(j.Chainage), anchors[i].name)
		}
		w.total.Gaps += j.Gap
		w.plan.Joints = append(w.plan.Joints, j)
	}
}

func (w *writer) piece(d laid, run int) error {
	for i, c := range d.piece {
		v := d.bay[i]
		if c.length <= 0 {
			return noRoom(w.track.chainage(d.x[i]), c.length)
		}
		w.pieces++
		q := Piece{
			Mark: w.letter + strconv.Itoa(w.pieces), Rail: w.side, From: w.track.chainage(d.x[i]), To: w.track.chainage(d.x[i+1]),
			Length: measure.Length(c.length), Trim: measure.Length(w.panel - c.length), Fixed: w.track.chainage(v.fixed), Anchor: v.anchor,
			Back: measure.Length(c.back), Ahead: measure.Length(c.ahead), Run: run, Turn: measure.Angle(v.turn), lead: 0.5, tail: 0.5,
			turnBack: measure.Angle(v.turnBack),
		}
		if v.anchor != "" {
			q.atAnchor = w.track.railAt(w.side, v.fixed)
		}
		if i == 0 {
			q.lead = d.run.start.share(1)
		}
		if i == len(d.piece)-1 {
			q.tail = d.run.end.share(1)
		}
		if v.second != "" {
			w.warn("piece %s is held at both %s and %s: it is locked between them", q.Mark, v.anchor, v.second)
		}
		w.total.Pieces += q.Length
		w.plan.Pieces = append(w.plan.Pieces, q)
	}
	return nil
}

// inZones says which zones hold joints, and how many.
func (b *builder) inZones() []string {
	left, right := make([]int, len(b.spec.Zones)), make([]int, len(b.spec.Zones))
	for _, d := range b.lines {
		x := d.x
		if d.run.ring {
			x = x[:len(x)-1]
		}
		for _, z := range d.run.zones {
			inside := sort.SearchFloat64s(x, z.x1-1e-9) - sort.SearchFloat64s(x, z.x0+1e-9)
			if d.side == curve.Left {
				left[z.zone] += max(inside, 0)
			} else {
				right[z.zone] += max(inside, 0)
			}
		}
	}
	var out []string
	for i, z := range b.spec.Zones {
		if left[i]+right[i] > 0 {
			out = append(out, fmt.Sprintf("%s: joints inside it, %d in the left rail and %d in the right, as it is longer than a piece or holds an object or two anchors", zoneName(z, i), left[i], right[i]))
		}
	}
	return out
}
