package nem

import (
	"fmt"
	"slices"

	"example.org/fourfoot/gauge/measure"
	"example.org/fourfoot/internal/fault"
)

// An Opening is the clear space round straight track of NEM 102 (2017), in mm
// above rail and across both sides together.
type Opening struct {
	Size       string         // NEM 010 name of the nominal size
	Gauge      measure.Length // between rail heads
	Width      measure.Length // full width
	LowWidth   measure.Length // width low down
	LowHeight  measure.Length // up to which LowWidth holds
	LowSecond  measure.Length // the height printed in brackets beside LowHeight; its meaning was not seen
	FullHeight measure.Length // up to which Width holds
	Height     measure.Length // full height, no wires
	TopWidth   measure.Length // narrowed width at the top
}

// Source: NEM 102, Umgrenzung des lichten Raumes bei gerader Gleisführung,
// ed. 2017, table; column meaning inferred from the heading.
var nem102 = []Opening{
	{"S", 22.5, 66, 57, 15, 19, 60, 78, 44},
	{"0", 32, 94, 82, 21, 27, 85, 109, 63},
	{"I", 45, 130, 114, 30, 38, 118, 150, 87},
	{"II", 64, 184, 154, 43, 53, 168, 214, 124},
}

// StraightOpening returns NEM 102's opening on straight track for a nominal
// size: S, 0, I or II. The error wraps measure.ErrInput for any other.
func StraightOpening(size string) (Opening, error) {
	for _, o := range nem102 {
		if o.Size == size {
			return o, nil
		}
	}
	l := fault.In("nem")
	l.Add("size", fmt.Sprintf("%q", size), "must be one of the sizes of NEM 102 held here: S, 0, I, II")
	return Opening{}, l.Err()
}

// nem103 holds the widening E each side in mm for the groups A, B and C; -1 is
// a blank cell. Source: NEM 103, Umgrenzung des lichten Raumes bei
// Gleisführung im Bogen, ed. 2016, table.
var nem103 = []struct {
	radius float64
	s, i   [3]float64
}{
	{1000, [3]float64{4, 7, 9}, [3]float64{20, 31, -1}},
	{1200, [3]float64{3, 5, 7}, [3]float64{16, 25, 34}},
	{1400, [3]float64{2, 4, 6}, [3]float64{13, 21, 28}},
	{1600, [3]float64{2, 3, 5}, [3]float64{11, 18, 24}},
	{1800, [3]float64{1, 2, 4}, [3]float64{9, 15, 21}},
	{2000, [3]float64{1, 2, 3}, [3]float64{7, 13, 18}},
	{2500, [3]float64{0, 1, 2}, [3]float64{5, 10, 13}},
	{3000, [3]float64{0, 1, 1}, [3]float64{3, 7, 10}},
	{4000, [3]float64{0, 0, 0}, [3]float64{1, 4, 6}},
}

// Widening returns the widening each side that NEM 103 (2016) prints for a
// nominal size (S or I), a stock group (A, B or C: full-size bodies of 20.0,
// 24.2 or 27.2 m on pivots 14.0, 17.2 or 19.5 m apart) and a radius, straight
// between the printed radii. It is less than the throw: the straight opening
// holds the rest. A blank cell, and a radius off the table or beside a blank
// cell, is refused with an error that wraps measure.ErrInput.
func Widening(size, group string, radius measure.Length) (measure.Length, error) {
	l := fault.In("nem")
	if size != "S" && size != "I" {
		l.Add("size", fmt.Sprintf("%q", size), "must be one of the sizes of NEM 103 held here: S, I")
	}
	g := slices.Index([]string{"A", "B", "C"}, group)
	if g < 0 {
		l.Add("group", fmt.Sprintf("%q", group), "must be A, B or C")
	}
	fault.Between(l, "radius", radius, measure.Length(nem103[0].radius), measure.Length(nem103[len(nem103)-1].radius))
	if err := l.Err(); err != nil {
		return 0, err
	}
	cell := func(i int) float64 {
		if size == "S" {
			return nem103[i].s[g]
		}
		return nem103[i].i[g]
	}
	r := float64(radius)
	i := 0
	for i+1 < len(nem103) && nem103[i+1].radius <= r {
		i++
	}
	lo, t := cell(i), 0.0
	hi := lo
	if nem103[i].radius < r {
		hi = cell(i + 1)
		t = (r - nem103[i].radius) / (nem103[i+1].radius - nem103[i].radius)
	}
	if lo < 0 || hi < 0 {
		l.Add("radius", radius, fmt.Sprintf("is below the smallest radius that NEM 103 gives for size %s, group %s: the cell is blank", size, group))
		return 0, l.Err()
	}
	return measure.Length(lo + t*(hi-lo)), nil
}
