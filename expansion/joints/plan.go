package joints

import (
	"errors"
	"fmt"
	"math"
	"strconv"

	"example.org/fourfoot/curve"
	"example.org/fourfoot/expansion"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A Joint is a gap in one rail.
type Joint struct {
	Mark          string // "L3": the third joint of the left rail
	Rail          curve.Rail
	Chainage      measure.Length
	Gap           measure.Length // to leave today
	Least, Most   measure.Length // permitted today; both zero without Heat or where Problem is said
	Before, After measure.Length // free rail on its two sides
	At            string         // the object it stands at, "" between two pieces
	PieceBefore   int            // index in the plan's Pieces, -1 where an object is
	PieceAfter    int            // likewise
	Run           int            // index in the plan's Runs
	Problem       string         // why no gap suits this joint, "" where one does
}

// A Piece is a length of rail to be cut.
type Piece struct {
	Mark     string // "L3": the third piece of the left rail
	Rail     curve.Rail
	From, To measure.Length // chainages of its joints
	Length   measure.Length // to cut
	Trim     measure.Length // what it is shorter than the panel
	Fixed    measure.Length // chainage where it is held: its anchor, or its middle
	Anchor   string         // the anchor's name, "" where it is held at its middle
	Back     measure.Length // free rail from Fixed to its beginning
	Ahead    measure.Length // free rail from Fixed to its end
	Bar      int            // index in the plan's Cutting.Bars
	Run      int            // index in the plan's Runs
	Turn     measure.Angle  // of the line between its joints, left positive

	lead, tail float64 // its shares of the gaps at its ends
}

// Rates returns the change of the length to cut per unit of each measured
// input, its joints staying where they are. The gap at an end of the line is
// none.
func (q Piece) Rates() []expansion.Rate[measure.Length] {
	return []expansion.Rate[measure.Length]{
		{Input: "rail centres", Per: "1 mm", By: measure.Length(-float64(q.Rail) / 2 * float64(q.Turn))},
		{Input: "gap at its beginning", Per: "1 mm", By: measure.Length(-q.lead)},
		{Input: "gap at its end", Per: "1 mm", By: measure.Length(-q.tail)},
	}
}

// A Run is rail without a break, from an object or an end of the line to the
// next; a circuit without objects is one run that ends where it begins.
type Run struct {
	From, To   measure.Length
	Start, End string // the objects' names, "" at an end of the line
}

// A Total is one rail's account: Rail = Pieces + Gaps.
type Total struct {
	Rail   measure.Length // of the rail laid, in closed form
	Pieces measure.Length
	Gaps   measure.Length
}

// An Order is what to buy.
type Order struct {
	Bars     []Stock // the lengths used and how many of each
	Joiners  int
	Sleepers int
	Fixings  int
}

// A Plan is where every joint comes and how every piece is cut. Joints and
// pieces stand in order along the left rail, then along the right.
type Plan struct {
	Joints      []Joint
	Pieces      []Piece
	Left, Right Total
	Runs        []Run
	Cutting     Cutting
	Order       Order
	Warnings    []string
	sleepers    sleepers
}

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
			gap := func(side curve.Rail, k int) float64 {
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

type placed struct {
	run run
	x   []float64
}

// joints places the joints of both rails of a run.
func (b *builder) joints(r run, gap func(curve.Rail, int) float64) (left, right placed, err error) {
	warn := func(text string) {
		for _, w := range b.warnings {
			if w == text {
				return
			}
		}
		b.warnings = append(b.warnings, text)
	}
	both := []curve.Rail{curve.Left, curve.Right}
	y := layer{b.track, r, both, b.panel, float64(b.spec.shortest()), gap, nil, warn}
	if b.spec.Pattern == Square {
		x, err := y.place()
		return placed{r, x}, placed{r, x}, err
	}
	y.gap = func(_ curve.Rail, k int) float64 { return gap(curve.Left, k) }
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
	return placed{r, x}, placed{y.run, z}, err
}

// turned returns the ring begun d further round.
func (r run) turned(d, length float64) run {
	r.x0 += d
	r.x1 += d
	anchors := r.anchors
	r.anchors = nil
	for _, m := range anchors {
		if m.x > r.x0 {
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
