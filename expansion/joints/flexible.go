package joints

import (
	"example.org/fourfoot/curve"
	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// A FlexLength is one length of flexible track, laid from From to To: both
// rails begin flush, the inner one then sticks out and is trimmed.
type FlexLength struct {
	From, To    measure.Length
	Left, Right measure.Length // where to cut each rail, from its beginning; as bought where it stays whole
	Inner       curve.Hand     // the rail that comes out shorter; zero where both are alike
	Trim        measure.Length // what comes off the inner rail more than off the outer: g_c·θ, θ the net turn of the length: θ for each unit of g_c
	Bar         int            // index in Cutting.Bars of the length it is cut from

	left, right Piece
}

// Flexible returns how track sold in lengths with both rails alike lies along
// the line, with square joints: the outer rail runs full, the inner is
// trimmed by g_c·θ whatever the radius or the easement. The cutting counts
// lengths of track to buy; a rest of one is used again where it is long
// enough. The spec is that of New with the lengths sold as stock.
func Flexible(line *curve.Alignment, s Spec) ([]FlexLength, Cutting, error) {
	if s.Pattern != Square {
		l := fault.In("joints")
		l.Add("pattern", s.Pattern, "must be square for flexible track")
		return nil, Cutting{}, l.Err()
	}
	p, err := New(line, s)
	if err != nil {
		return nil, Cutting{}, err
	}
	n := len(p.Pieces) / 2
	out := make([]FlexLength, n)
	longer := make([]measure.Length, n)
	for i := range out {
		a, b := p.Pieces[i], p.Pieces[n+i]
		f := FlexLength{From: a.From, To: a.To, Left: a.Length, Right: b.Length, left: a, right: b}
		switch {
		case a.Length < b.Length-fit:
			f.Inner, f.Trim = curve.Left, b.Length-a.Length
		case b.Length < a.Length-fit:
			f.Inner, f.Trim = curve.Right, a.Length-b.Length
		}
		out[i], longer[i] = f, max(a.Length, b.Length)
	}
	c, err := Cut(longer, s.Stock, s.Kerf)
	if err != nil {
		return nil, Cutting{}, err
	}
	for k, bar := range c.Bars {
		for _, i := range bar.Pieces {
			out[i].Bar = k
		}
	}
	return out, c, nil
}
