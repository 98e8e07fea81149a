package trackbed

import (
	"fmt"
	"math"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/caution"
	"example.org/fourfoot/internal/fault"
)

// A Board is what the track lies on where it runs on planks: how wide, and what
// must lie inside it.
type Board struct {
	Width         measure.Length
	SleeperLength measure.Length
	SleeperWidth  measure.Length // along the track, so that a sleeper's corners stay inside too; 0: only the middles of its ends
	Margin        measure.Length // between a sleeper's end and the board's edge
	Gap           measure.Length // between two boards, square to the cut
	Kerf          measure.Length // that the saw takes
	Stock         measure.Length // length of the planks; 0: as long as wanted
}

// A BoardPlan is a bend laid on equal boards, each a trapezium with its long
// edge outside the curve and both ends cut on the mitre. Boards are cut to the
// long edge.
type BoardPlan struct {
	Count    int
	Turn     measure.Angle  // of one board with its share of the gaps
	Mitre    measure.Angle  // of each end, from square
	Chord    measure.Length // of the line over one board with its share of the gaps
	Sagitta  measure.Length // of the line over that chord
	Long     measure.Length // edge to cut, outside the curve
	Short    measure.Length // edge to cut, inside the curve
	LineAt   measure.Length // of the line from the long edge at the board's middle
	Spare    measure.Length // by which the margin is exceeded at both edges, at least: what room there is lies to either side alike
	Greatest measure.Length // the longest chord that the width allows, joints left out
	Planks   int            // when Stock is given: boards are turned about so that one mitre serves two
	Cautions []string
}

func (b Board) check(l *fault.List) (sagitta float64) {
	w := fault.Size(l, "board width", b.Width)
	t := fault.Size(l, "sleeper length", b.SleeperLength)
	fault.Amount(l, "sleeper width", b.SleeperWidth)
	m := fault.Amount(l, "margin", b.Margin)
	fault.Amount(l, "gap between boards", b.Gap)
	fault.Amount(l, "kerf", b.Kerf)
	fault.Amount(l, "stock length", b.Stock)
	if w && t && m {
		if sagitta = float64(b.Width - b.SleeperLength - 2*b.Margin); sagitta <= 0 {
			l.Add("board width", b.Width, fmt.Sprintf("must be more than the sleeper and both margins, %v", b.SleeperLength+2*b.Margin))
		}
	}
	return sagitta
}

// mitre returns the largest half angle at which a board of the given play still
// holds the sleepers: R·cos φ - (b/2)·sin φ = R - s, which for b = 0 is a chord
// of √(8Rs - 4s²) and φ = asin(chord/2R). The sleepers' turn towards the board's
// edge is left as a reserve of (t/2)(1 - cos φ).
func (b Board) mitre(radius, play float64) float64 {
	half := float64(b.SleeperWidth) / 2
	return math.Acos(max(-1, (radius-play)/math.Hypot(radius, half))) - math.Atan(half/radius)
}

// corner returns how much further from the centre a sleeper's outer corner
// lies than the middle of its end.
func (b Board) corner(radius float64) float64 {
	out := radius + float64(b.SleeperLength)/2
	return math.Hypot(out, float64(b.SleeperWidth)/2) - out
}

// steepestMitre is the largest mitre that is planned, 45°: a saw's.
const steepestMitre = math.Pi / 4

// Bend plans boards for a curve of constant radius that turns by the given
// angle, positive to either hand. All boards are equal; their number is the
// least with which sleeper ends keep the margin at the middle and at both ends
// of every board.
func (b Board) Bend(radius measure.Length, turn measure.Angle) (BoardPlan, error) {
	l := fault.In("trackbed")
	play := b.check(l)
	rok := fault.Size(l, "radius", radius)
	tok := fault.Between(l, "turn", turn, 0, 100)
	R, half := float64(radius), float64(b.SleeperLength)/2+float64(b.Margin)
	if rok && tok && turn == 0 {
		l.Add("turn", turn, "must be more than 0: a straight needs no mitres")
	}
	if rok && R <= half+play {
		l.Add("radius", radius, fmt.Sprintf("must be more than the board's inner edge allows, %v", measure.Length(half+play)))
	}
	if !l.OK() {
		return BoardPlan{}, l.Err()
	}
	if play -= b.corner(R); play <= 0 {
		l.NoAnswer("board width", b.Width, fmt.Sprintf("leaves no play for the sleepers' corners: needs more than %v", b.Width-measure.Length(play)))
		return BoardPlan{}, l.Err()
	}
	spare := func(phi float64) float64 { // at either edge
		return (play - R + R*math.Cos(phi) - float64(b.SleeperWidth)/2*math.Sin(phi)) / 2
	}
	outer := func(phi float64) float64 { return R + half + b.corner(R) + spare(phi) } // of the long edge from the centre
	phi := min(b.mitre(R, play), steepestMitre)
	if phi <= 0 {
		l.NoAnswer("board width", b.Width, "leaves no play for sleepers so wide: a wider board or a narrower sleeper would")
		return BoardPlan{}, l.Err()
	}
	p := BoardPlan{Greatest: measure.Length(2 * R * math.Sin(phi)), Cautions: []string{caution.Cutting, caution.Treated}}
	edge := func(phi, from float64) float64 { return 2*from*math.Tan(phi) - float64(b.Gap)/math.Cos(phi) }
	n := math.Ceil(float64(turn) / (2 * phi) * (1 - 1e-12))
	if b.Stock > 0 { // the long edge must come out of a plank: 2·outer·tan φ ≤ stock + gap/cos φ
		n = max(n, math.Ceil(float64(turn)/(2*math.Atan((float64(b.Stock)+float64(b.Gap))/(2*outer(phi))))*(1-1e-12))-1, 1)
		for n <= MaxPieces && edge(float64(turn)/(2*n), outer(float64(turn)/(2*n))) > float64(b.Stock)*(1+1e-12) {
			n++
		}
	}
	if n > MaxPieces {
		l.Over("boards", n, fmt.Sprintf("at most %d", MaxPieces))
		return BoardPlan{}, l.Err()
	}
	p.Count = int(n)
	phi = float64(turn) / (2 * n)
	p.Turn, p.Mitre = measure.Angle(2*phi), measure.Angle(phi)
	p.Chord = measure.Length(2 * R * math.Sin(phi))
	p.Sagitta = measure.Length(R * (1 - math.Cos(phi)))
	p.Long = measure.Length(edge(phi, outer(phi)))
	p.Short = measure.Length(edge(phi, outer(phi)-float64(b.Width)))
	p.LineAt = measure.Length(outer(phi) - R)
	p.Spare = measure.Length(spare(phi))
	if p.Short <= 0 {
		l.NoAnswer("gap between boards", b.Gap, "takes up the whole inner edge: a larger radius, a narrower board or a smaller gap would leave some")
		return BoardPlan{}, l.Err()
	}
	p.Planks = b.planks(p.Count, float64(p.Long), float64(p.Short), phi)
	return p, nil
}

// planks returns how many planks n trapezia take when each is turned about
// after the one before: k of them and their cuts come to k·mid + (k-1)·kerf/cos φ
// and one end's slope.
func (b Board) planks(n int, long, short, phi float64) int {
	if b.Stock == 0 {
		return 0
	}
	mid, slope := (long+short)/2, (long-short)/2
	cut := float64(b.Kerf) / math.Cos(phi)
	k := max(1, math.Floor((float64(b.Stock)-slope+cut)/(mid+cut)*(1+1e-12)))
	return int(math.Ceil(float64(n) / k))
}

// Straight plans boards for a straight: as few as the stock allows, of equal
// length, with the gaps between.
func (b Board) Straight(length measure.Length) (BoardPlan, error) {
	l := fault.In("trackbed")
	b.check(l)
	fault.Size(l, "length", length)
	fault.Size(l, "stock length", b.Stock)
	if !l.OK() {
		return BoardPlan{}, l.Err()
	}
	n := math.Ceil(float64((length+b.Gap)/(b.Stock+b.Gap)) * (1 - 1e-12))
	if n > MaxPieces {
		l.Over("boards", n, fmt.Sprintf("at most %d", MaxPieces))
		return BoardPlan{}, l.Err()
	}
	p := BoardPlan{Count: int(n), Chord: length / measure.Length(n), LineAt: b.Width / 2, Cautions: []string{caution.Cutting, caution.Treated}}
	p.Long = (length+b.Gap)/measure.Length(n) - b.Gap
	if p.Long <= 0 {
		l.NoAnswer("gap between boards", b.Gap, "is longer than the boards would be")
		return BoardPlan{}, l.Err()
	}
	p.Short, p.Greatest = p.Long, b.Stock
	p.Spare = (b.Width-b.SleeperLength)/2 - b.Margin
	p.Planks = b.planks(p.Count, float64(p.Long), float64(p.Short), 0)
	return p, nil
}
