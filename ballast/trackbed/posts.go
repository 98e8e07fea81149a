package trackbed

import (
	"fmt"
	"math"
	"slices"

	"example.org/fourfoot/ballast"
	"example.org/fourfoot/curve"
	"example.org/fourfoot/curve/profile"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/caution"
	"example.org/fourfoot/internal/fault"
)

// Posts is how a line stands on posts with bearers between them.
type Posts struct {
	Spacing measure.Length // the most along the line: a Bay's span
	Below   measure.Length // top of the posts below the level of the line
	Frost   measure.Length // the user's own frost depth below ground; 0 where none is known
	Embed   measure.Length // least depth in the ground, whatever the frost
	Rows    int            // posts side by side at each place; 0 means 1
	Bearers int            // bearers side by side from place to place; 0 means 2

	Stock []measure.Length // lengths in which posts are sold; none: cut to measure
	Step  measure.Length   // to which an order list rounds lengths up, as measure.Inch/64; 0 means 1 mm
	Size  measure.Length   // side of a square post, for the concrete about it
	Hole  measure.Length   // diameter of the hole that is filled with concrete; 0 for none
}

// A Post is one place at which posts stand.
type Post struct {
	Chainage measure.Length
	Top      measure.Length // level
	Ground   measure.Length // level
	Foot     measure.Length // level of its lower end
	Length   measure.Length
	Buy      measure.Length // the stock length it is cut from; Length when there is no stock
}

// A Schedule is all posts of a stretch.
type Schedule struct {
	Posts    []Post
	Rows     int
	Step     measure.Length // of the lengths in an order list
	Spacing  measure.Length // from post to post along the line
	Bays     int
	Bearers  int            // pieces
	Bearer   measure.Length // the longest of them, from post to post: the chord
	Timber   measure.Length // of all posts, before stock lengths
	Concrete measure.Volume // about the posts
	Tallest  measure.Length // above ground
	Deepest  measure.Length // below ground
	Cautions []string
}

// Along sets the posts out along a stretch of line at equal distances, one at
// each end; on a whole circuit the first serves as the last. Level is that of
// the line, ground that of the ground under it, both above one datum.
func (p Posts) Along(line *curve.Alignment, s ballast.Stretch, level, ground profile.Level) (Schedule, error) {
	l := fault.In("trackbed")
	sp := fault.Size(l, "post spacing", p.Spacing)
	fault.Amount(l, "posts below the line", p.Below)
	f := fault.Amount(l, "frost depth", p.Frost)
	if e := fault.Amount(l, "depth in the ground", p.Embed); e && f && p.Frost == 0 && p.Embed == 0 {
		l.Add("depth in the ground", p.Embed, "or the frost depth must be more than 0: posts do not stand on the surface")
	}
	fault.Amount(l, "post size", p.Size)
	if p.Step != 0 {
		fault.Size(l, "step of lengths", p.Step)
	}
	if fault.Amount(l, "post hole", p.Hole) && p.Hole > 0 && p.Hole < p.Size*math.Sqrt2 {
		l.Add("post hole", p.Hole, fmt.Sprintf("must be at least the post's diagonal, %v", p.Size*math.Sqrt2))
	}
	if p.Rows < 0 || p.Rows > 10 {
		l.Add("rows of posts", p.Rows, "must be from 0 (for 1) to 10")
	}
	if p.Bearers < 0 || p.Bearers > 100 {
		l.Add("bearers side by side", p.Bearers, "must be from 0 (for 2) to 100")
	}
	for i, k := range p.Stock {
		fault.Size(l, fmt.Sprintf("stock length %d of posts", i+1), k)
	}
	r, ok := newRun(l, line, s)
	if ok && sp && r.length > float64(p.Spacing)*MaxPieces {
		l.Over("post spacing", p.Spacing, fmt.Sprintf("more than %d posts on %v", MaxPieces, measure.Length(r.length)))
	}
	if !l.OK() {
		return Schedule{}, l.Err()
	}
	stock := slices.Clone(p.Stock)
	slices.Sort(stock)
	n := max(1, int(math.Ceil(r.length/float64(p.Spacing)*(1-1e-12))))
	out := Schedule{Bays: n, Rows: max(p.Rows, 1), Step: p.Step, Spacing: measure.Length(r.length / float64(n))}
	if out.Step == 0 {
		out.Step = measure.Millimetre
	}
	out.Cautions = []string{caution.Digging, caution.Treated, caution.Lifting}
	if p.Hole > 0 {
		out.Cautions = append(out.Cautions, caution.Cement)
	}
	at := func(i int) measure.Length {
		x := s.From + out.Spacing*measure.Length(i)
		if line.Closed() && x >= line.Length() {
			x -= line.Length()
		}
		return min(x, line.Length())
	}
	last := n
	if r.whole {
		last = n - 1
	}
	hole := math.Pi / 4 * float64(p.Hole) * float64(p.Hole)
	for i := 0; i <= last; i++ {
		x := at(i)
		q := Post{Chainage: x, Top: level.At(x) - p.Below, Ground: ground.At(x)}
		q.Foot = min(q.Ground-max(p.Frost, p.Embed), q.Top)
		q.Length = q.Top - q.Foot
		if q.Top < q.Ground {
			l.Add(fmt.Sprintf("post at %v", x), q.Top, fmt.Sprintf("its top lies %v under the ground: raise the line, dig, or lay the track on the ground there", q.Ground-q.Top))
			if len(l.Err().Error()) > 4000 {
				break // enough said
			}
			continue
		}
		q.Buy = q.Length
		if len(stock) > 0 {
			k, _ := slices.BinarySearch(stock, q.Length*(1-1e-12))
			if k == len(stock) {
				l.NoAnswer(fmt.Sprintf("post at %v", x), q.Length, fmt.Sprintf("is longer than any stock length: a stock of at least %v would do", q.Length))
				break
			}
			q.Buy = stock[k]
		}
		out.Posts = append(out.Posts, q)
		out.Timber += q.Length * measure.Length(out.Rows)
		deep := q.Ground - q.Foot
		out.Tallest, out.Deepest = max(out.Tallest, q.Top-q.Ground), max(out.Deepest, deep)
		if p.Hole > 0 {
			out.Concrete += measure.Volume((hole - float64(p.Size)*float64(p.Size)) * float64(deep) * float64(out.Rows))
		}
	}
	if !l.OK() {
		return Schedule{}, l.Err()
	}
	each := p.Bearers
	if each == 0 {
		each = 2
	}
	out.Bearers = n * each
	for i := range n {
		a, b := line.Point(at(i)), line.Point(at(i+1))
		out.Bearer = max(out.Bearer, measure.Length(math.Hypot(b.X-a.X, b.Y-a.Y)))
	}
	return out, nil
}
