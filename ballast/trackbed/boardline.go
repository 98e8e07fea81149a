package trackbed

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/caution"
	"example.org/fourfoot/internal/fault"
)

// MaxBoards is the most boards that Along lays on one stretch.
const MaxBoards = 2000

// A LaidBoard is one board under a line of any form, its ends cut square to the
// line where it meets the next. The sleepers keep the same margin to both
// edges, but for the reserve of (t/2)(1 - cos φ) for their turn.
// Its edges are parallel to the chord, so that the line lies as far from the
// left one at its beginning as at its end: midway in the gaps, measured square
// to the edge.
type LaidBoard struct {
	From, To  measure.Length // chainages; the last board of a circuit may end past its length
	Chord     measure.Length // of the line between them
	Left      measure.Length // edge to cut
	Right     measure.Length // edge to cut
	FromMitre measure.Angle  // of the cut at From, off square: of the line against the chord there, left positive
	ToMitre   measure.Angle
	EndLine   measure.Length // of the track centreline from the left edge at both ends
	MidLine   measure.Length // the same midway along the line
	Spare     measure.Length // by which the margin is exceeded at both edges, at least
}

// A BoardRun is a stretch of line laid on boards.
type BoardRun struct {
	Boards   []LaidBoard
	Planks   int // when Stock is given, each board counted by its longer edge and a cut
	Cautions []string
}

// Along lays boards under a stretch of line of any form: straights, arcs,
// easements, reversals. Their number is the least with which sleepers keep the
// margin everywhere, and they are made as equal as the line allows, in how much
// of their play the line takes up and in length. Stock must be given: on a
// straight nothing else ends a board. The line is looked at in 25 places of a
// board; between them its bow is followed by a parabola, to well below a tenth
// of a millimetre on any curve that a board can follow.
func (b Board) Along(line *curve.Alignment, s ballast.Stretch) (BoardRun, error) {
	l := fault.In("trackbed")
	play := b.check(l)
	fault.Size(l, "stock length", b.Stock)
	r, ok := newRun(l, line, s)
	if ok && l.OK() {
		half := float64(b.Width)
		fits(l, "board", line, s, -half, half)
		if r.length > float64(b.Stock)*MaxBoards {
			l.Over("stock length", b.Stock, fmt.Sprintf("more than %d boards on %v", MaxBoards, measure.Length(r.length)))
		}
	}
	if !l.OK() {
		return BoardRun{}, l.Err()
	}
	f := layer{b: b, line: line, end: float64(s.From) + r.length}
	for _, p := range parts(line, s) {
		f.joins = append(f.joins, p[1])
	}
	best, ok := f.lay(float64(s.From), play, float64(b.Stock))
	if !ok {
		l.NoAnswer("board width", b.Width, "does not hold the line: a wider board, a smaller margin or a larger radius would, or the boards are too many")
		return BoardRun{}, l.Err()
	}
	// Boards as equal as can be: the least part of play and length with which
	// no more of them are needed.
	lo, hi := 0.0, 1.0
	for range 14 {
		mid := (lo + hi) / 2
		if cuts, ok := f.lay(float64(s.From), play*mid, float64(b.Stock)*mid); ok && len(cuts) <= len(best) {
			best, hi = cuts, mid
		} else {
			lo = mid
		}
	}
	out := BoardRun{Cautions: []string{caution.Cutting, caution.Treated}}
	for i := 1; i < len(best); i++ {
		gap0, gap1 := float64(b.Gap)/2, float64(b.Gap)/2
		if !r.whole && i == 1 {
			gap0 = 0
		}
		if !r.whole && i == len(best)-1 {
			gap1 = 0
		}
		k := f.board(best[i-1], best[i], gap0, gap1)
		if k.Left <= 0 || k.Right <= 0 {
			l.NoAnswer(fmt.Sprintf("board at %v", k.From), nil, "would have no inner edge left: a smaller gap, a narrower board or a larger radius would leave some")
			return BoardRun{}, l.Err()
		}
		out.Boards = append(out.Boards, k)
	}
	out.Planks = b.firstFit(out.Boards)
	return out, nil
}

// layer lays boards one after another.
type layer struct {
	b     Board
	line  *curve.Alignment
	end   float64
	joins []float64 // chainages at which elements meet
}

// reach is how far the line and the sleepers' corners lie to the left and the
// right of the chord of a board, how far to the left the line does midway, and
// how its ends stand to it.
type reach struct {
	chord, left, right, mid, d0, d1 float64
}

func (f layer) reach(from, to float64) reach {
	const places = 24
	p := f.line.Point(measure.Length(from))
	q := f.line.Point(measure.Length(to))
	c := math.Hypot(q.X-p.X, q.Y-p.Y)
	ux, uy := (q.X-p.X)/c, (q.Y-p.Y)/c
	r := reach{chord: c}
	corner := float64(f.b.SleeperWidth) / 2
	look := func(x float64) (y, d float64) {
		st := f.line.At(measure.Length(x))
		y = ux*(st.Point.Y-p.Y) - uy*(st.Point.X-p.X)
		sin := ux*st.Tangent.Y - uy*st.Tangent.X
		w := corner * math.Abs(sin)
		r.left, r.right = max(r.left, y+w), max(r.right, w-y)
		return y, math.Atan2(sin, ux*st.Tangent.X+uy*st.Tangent.Y)
	}
	var ys [places + 1]float64
	hair := 1e-9 * (to - from) // at a kink each board has its own side
	for i := range ys {
		ys[i], _ = look(min(max(from+(to-from)*float64(i)/places, from+hair), to-hair))
	}
	r.mid = ys[places/2]
	_, r.d0 = look(from + hair)
	_, r.d1 = look(to - hair)
	k, _ := slices.BinarySearch(f.joins, from)
	for ; k < len(f.joins) && f.joins[k] < to; k++ { // where elements meet there may be a kink
		look(max(f.joins[k]-hair, from))
		look(f.joins[k] + hair)
	}
	for i := 1; i < places; i++ { // the bow between the places
		a, m, b := ys[i-1], ys[i], ys[i+1]
		if (m-a)*(b-m) > 0 || a+b == 2*m {
			continue
		}
		y := m - (b-a)*(b-a)/(8*(a+b-2*m))
		r.left, r.right = max(r.left, y), max(r.right, -y)
	}
	return r
}

// edges returns how far a board's edges lie to the left and the right of its
// chord: the sleepers lie in the middle between them.
func (f layer) edges(r reach) (left, right float64) {
	w := float64(f.b.Width)
	return (w + r.left - r.right) / 2, (w + r.right - r.left) / 2
}

// holds reports whether a board from one chainage to another keeps the play and
// the length.
func (f layer) holds(from, to, play, stock float64) bool {
	r := f.reach(from, to)
	if r.left+r.right > play || max(math.Abs(r.d0), math.Abs(r.d1)) > steepestMitre {
		return false
	}
	left, right := f.edges(r)
	grow := math.Tan(r.d1) - math.Tan(r.d0)
	return max(r.chord-left*grow, r.chord+right*grow)-float64(f.b.Gap) <= stock
}

// lay returns the chainages at which boards meet, the ends included.
func (f layer) lay(from, play, stock float64) ([]float64, bool) {
	cuts := []float64{from}
	step := stock
	for from < f.end-1e-6 {
		if len(cuts) > MaxBoards {
			return nil, false
		}
		to := f.end
		if to-from > 2*stock || !f.holds(from, to, play, stock) {
			lo, hi := 0.0, min(f.end-from, 2*stock)
			for x := min(step, hi); ; x /= 2 { // a length that holds, from the last one downwards
				if x < 1e-3 {
					return nil, false
				}
				if f.holds(from, from+x, play, stock) {
					lo = x
					break
				}
				hi = x
			}
			for hi-lo > 1e-3 {
				if mid := (lo + hi) / 2; f.holds(from, from+mid, play, stock) {
					lo = mid
				} else {
					hi = mid
				}
			}
			step, to = lo, from+lo
		}
		cuts = append(cuts, to)
		from = to
	}
	return cuts, true
}

// board works out the edges: at the offset y from the chord a board is
// c - y·(tan δ1 - tan δ0) long, less the gaps.
func (f layer) board(from, to, gap0, gap1 float64) LaidBoard {
	r := f.reach(from, to)
	left, right := f.edges(r)
	spare := left - r.left - float64(f.b.SleeperLength)/2 - float64(f.b.Margin)
	edge := func(y float64) measure.Length {
		return measure.Length(r.chord - y*(math.Tan(r.d1)-math.Tan(r.d0)) - gap0/math.Cos(r.d0) - gap1/math.Cos(r.d1))
	}
	return LaidBoard{
		From: measure.Length(from), To: measure.Length(to), Chord: measure.Length(r.chord),
		Left: edge(left), Right: edge(-right), FromMitre: measure.Angle(r.d0), ToMitre: measure.Angle(r.d1),
		EndLine: measure.Length(left), MidLine: measure.Length(left - r.mid), Spare: measure.Length(spare),
	}
}

// firstFit counts planks: the longest board first, each into the first plank
// that has room.
func (b Board) firstFit(boards []LaidBoard) int {
	var need []float64
	for _, k := range boards {
		cut := float64(b.Kerf) / math.Cos(max(math.Abs(float64(k.FromMitre)), math.Abs(float64(k.ToMitre))))
		need = append(need, float64(max(k.Left, k.Right))+cut)
	}
	slices.SortFunc(need, func(a, b float64) int { return cmp.Compare(b, a) })
	var room []float64
	for _, n := range need {
		i := slices.IndexFunc(room, func(r float64) bool { return r >= n*(1-1e-12) })
		if i < 0 {
			room = append(room, float64(b.Stock)+float64(b.Kerf)) // the last piece needs no cut after it
			i = len(room) - 1
		}
		room[i] -= n
	}
	return len(room)
}
